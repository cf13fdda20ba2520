// A draft of this time's work: proposed, shown on the wall, changed, taken as one step, and nothing more proposed then.
import assert from 'node:assert/strict';
import { example, phone } from './desk.mjs';
import { accessibility, frames, pageTest } from './rig.mjs';
import { like, say } from './words.mjs';

const draft = (page) => page.locator('.draft');
const count = async (page) => Number((await draft(page).locator('h2').innerText()).match(/\d+/)?.[0] ?? 0);
const take = (page) => draft(page).locator('[data-act=draft-take]:not([aria-disabled])');

// A panel's folded part, opened.
const unfold = (page, part) => draft(page).locator(part).evaluate((d) => { d.open = true; });
const number = async (place) => Number((await place.innerText()).match(/\d+/)[0]);

async function open(page, name = 'overdue-renewal.json') {
  await example(page, name);
  await page.click('[data-act=draft]');
  await take(page).waitFor();
  // Until its further lines stand there.
  await frames(page, 4);
}

pageTest('a draft is shown before it is taken, taken as one step, and leaves nothing to propose', {}, async ({ page }) => {
  await open(page);
  // Pieces of work are counted, as in the list of the plan's work; a line may hold several.
  const pieces = await count(page);
  assert.ok(pieces > 5, `${pieces} pieces`);
  const lines = await draft(page).locator('.pieces > li').count();
  assert.ok(lines > 5 && lines <= pieces, `${lines} lines`);
  assert.equal((await take(page).innerText()).trim(), say('draft-take', { count: pieces }));
  for (const why of await draft(page).locator('.pieces small').allInnerTexts()) assert.ok(why.length > 10, why);
  // Every line names what it is done on: a tree, or shoots of it.
  const tree = new RegExp(say('name-tree', { tree: 'N' }).replace('N', '\\d+'));
  const on = await draft(page).locator('.pieces .on').allInnerTexts();
  assert.equal(on.length, lines);
  for (const line of on) assert.match(line, tree);
  // Cautions are a line until it is opened, and the pieces stand in sight.
  const cautions = draft(page).locator('.draft-cautions');
  assert.equal(await cautions.locator('summary').innerText(), say('draft-cautions'));
  assert.equal(await cautions.locator('p').first().isVisible(), false);
  await cautions.locator('summary').click();
  assert.ok((await cautions.locator('p').first().innerText()).length > 20);
  const shown = page.locator('.stage .tried > *');
  const signs = await shown.count();
  assert.ok(signs > lines, `${signs} signs`);
  assert.deepEqual(await accessibility(page), []);
  // Nothing is done yet.
  assert.equal(await page.locator('[data-act=undo]').isDisabled(), true);
  // What is on the wall stays when it is drawn at another size.
  await page.locator('.stage').press('-');
  await frames(page, 3);
  assert.equal(await shown.count(), signs);

  await take(page).click();
  await page.waitForFunction(() => !document.querySelector('[data-act=undo]').disabled);
  assert.equal(await page.locator('[data-act=undo]').getAttribute('title'), say('undo-step', { step: say('step-draft') }));
  assert.match(await page.locator('.notice').innerText(), like('said-drafted', { count: pieces }));
  assert.equal(await draft(page).count(), 0);
  const work = await page.locator('.work-list > summary').innerText();
  assert.equal(Number(work.match(/\d+/)[0]), pieces, work);

  // A second draft has nothing to add.
  await page.click('[data-act=draft]');
  await draft(page).locator('h2').waitFor();
  assert.equal(await draft(page).locator('h2').innerText(), say('draft-none'));
  // It takes the focus, and Escape puts it away.
  await page.waitForFunction(() => document.activeElement.matches('.draft h2'));
  await page.keyboard.press('Escape');
  await draft(page).waitFor({ state: 'detached' });
  await page.keyboard.press('Control+z');
  await frames(page, 3);
  assert.equal(await page.locator('[data-act=undo]').isDisabled(), true, 'one step takes all of it back');
});

pageTest('a draft is taken by kind and by tree, and goes when the plan becomes another', {}, async ({ page }) => {
  await open(page);
  const all = await count(page);
  await unfold(page, '.draft-kinds');
  const kinds = draft(page).locator('input[data-kind]');
  assert.ok((await kinds.count()) > 1);
  const first = kinds.first();
  const own = (await first.locator('..').innerText()).match(/\d+/g).reduce((sum, n) => sum + Number(n), 0);
  await first.uncheck();
  await take(page).waitFor();
  assert.equal((await take(page).innerText()).trim(), say('draft-take', { count: all - own }));
  await first.check();
  const but = draft(page).locator('[data-field=draft-but]');
  assert.equal(await but.isDisabled(), true, 'of all trees none can be left out');
  const taken = async () => {
    await page.waitForFunction(() => document.querySelector('[data-act=draft-take]').getAttribute('aria-disabled') !== 'true');
    return number(take(page));
  };
  await draft(page).locator('[data-field=draft-tree]').selectOption('2');
  const alone = await taken();
  await but.check();
  const others = await taken();
  assert.ok(alone > 0 && others > 0 && alone + others <= all, `${alone} and ${others} of ${all}`);
  await but.uncheck();
  await taken();
  await take(page).click();
  await page.waitForFunction(() => !document.querySelector('[data-act=undo]').disabled);
  const lines = await page.locator('.work-list li').allInnerTexts();
  assert.ok(lines.length > 0);
  const tree = say('name-tree', { tree: 2 });
  for (const line of lines) assert.ok(line.includes(tree), line);

  await page.click('[data-act=draft]');
  await take(page).waitFor();
  await page.keyboard.press('.');
  await draft(page).waitFor({ state: 'detached' });
  assert.equal(await page.locator('.stage .tried > *').count(), 0);
});

pageTest('what hangs on a piece that is not taken is left out, and the page says so', {}, async ({ page }) => {
  await open(page, 'opposed-leans.json');
  const all = await count(page);
  await unfold(page, '.draft-kinds');
  let told = 0;
  for (const kind of await draft(page).locator('input[data-kind]').all()) {
    // Its own pieces of work, and what goes with them.
    const own = (await kind.locator('..').innerText()).match(/\d+/g).reduce((sum, n) => sum + Number(n), 0);
    await kind.uncheck();
    await take(page).waitFor();
    const left = draft(page).locator('.draft-left');
    const out = (await left.innerText()) === '' ? 0 : await number(left);
    if (out > 1) assert.equal(await left.innerText(), say('draft-left-out', { count: out }));
    const rest = all - own - out;
    if (rest > 1) assert.equal((await take(page).innerText()).trim(), say('draft-take', { count: rest }));
    told += out;
    await kind.check();
    await take(page).waitFor();
    assert.equal(await left.innerText(), '');
  }
  assert.ok(told > 0);
});

pageTest('a draft tells what it does not mend, and why', {}, async ({ page }) => {
  await open(page, 'short-stock.json');
  const still = draft(page).locator('.draft-open');
  await still.locator('summary').click();
  const lines = await still.locator('p').allInnerTexts();
  assert.ok(lines.length > 0 && lines.length <= 3);
  const whys = ['none', 'graver', 'other-time', 'weighed'].map((why) => say(`stuck-${why}`));
  const graver = new RegExp(`– ${like('stuck-graver-by').source.replace(/^\^/, '')}`);
  for (const line of lines) assert.ok(whys.some((why) => line.endsWith(why)) || graver.test(line), line);
  assert.deepEqual(await accessibility(page), []);
});

pageTest('a draft that has not come yet goes too when the plan becomes another', {}, async ({ page }) => {
  await example(page, 'overdue-renewal.json');
  await page.evaluate(() => {
    document.querySelector('[data-act=draft]').click();
    document.querySelector('.stage').dispatchEvent(new KeyboardEvent('keydown', { key: '.', bubbles: true }));
  });
  assert.equal(await page.locator('.year.here').getAttribute('data-leaf'), '10');
  await draft(page).waitFor({ state: 'detached' });
  assert.equal(await page.locator('[data-act=draft]').isEnabled(), true);
});

pageTest('the first lines of a long draft do not wait for the last', { path: '?bench=60x10' }, async ({ page }) => {
  await page.waitForSelector('.stage [data-tree]');
  const counts = await page.evaluate(async () => {
    const seen = [];
    const note = () => {
      const lines = document.querySelectorAll('.draft .pieces > li').length;
      if (lines > 0 && lines !== seen.at(-1)) seen.push(lines);
    };
    new MutationObserver(note).observe(document.body, { childList: true, subtree: true });
    document.querySelector('[data-act=draft]').click();
    // Until a second has passed since the last of them.
    for (let still = 0, were = 0; still < 10; still = seen.length > 0 && seen.at(-1) === were ? still + 1 : 0) {
      were = seen.at(-1);
      await new Promise((next) => setTimeout(next, 100));
    }
    return seen;
  });
  assert.ok(counts[0] < counts.at(-1) / 2, `${counts} lines`);
  assert.ok(counts.at(-1) >= 50, `${counts} lines`);
  // The last line is as good as the first: without its pieces so many fewer are taken.
  const taken = async () => number(take(page));
  const all = await taken();
  await draft(page).locator('.pieces > li').last().locator('input').uncheck();
  await take(page).waitFor();
  const rest = await taken();
  assert.ok(rest < all, `${rest} of ${all}`);
});

pageTest('what is not seen of a draft at first waits until its first lines are on the screen', { path: '?bench=60x10' }, async ({ page }) => {
  await page.waitForSelector('.stage [data-tree]');
  // The draft is made while the hand rests.
  await page.waitForTimeout(2000);
  const seen = await page.evaluate(async () => {
    let frame = 0;
    const next = () => {
      frame += 1;
      requestAnimationFrame(next);
    };
    requestAnimationFrame(next);
    const seen = { lines: [], asked: [] };
    const post = Worker.prototype.postMessage;
    Worker.prototype.postMessage = function (...sent) {
      if (JSON.stringify(sent[0]).includes('"gain"')) seen.asked.push(frame);
      return post.apply(this, sent);
    };
    const note = () => {
      const lines = document.querySelectorAll('.draft .pieces > li').length;
      if (lines > 0 && lines !== seen.lines.at(-1)?.[1]) seen.lines.push([frame, lines]);
    };
    new MutationObserver(note).observe(document.body, { childList: true, subtree: true });
    document.querySelector('[data-act=draft]').click();
    while (seen.lines.length < 2 || seen.asked.length < 1) await new Promise((next) => setTimeout(next, 20));
    return seen;
  });
  const [[first, lines], [further]] = seen.lines;
  assert.ok(lines <= 10, `${lines} lines`);
  // They are drawn in the frame that follows, and shown before another one begins.
  assert.ok(further >= first + 2, JSON.stringify(seen));
  assert.ok(seen.asked[0] >= first + 2, JSON.stringify(seen));
});

pageTest('only what is in view of the work has signs, wherever the view goes', { path: '?bench=60x10' }, async ({ page }) => {
  await page.waitForSelector('.stage [data-tree]');
  await page.click('[data-act=draft]');
  await take(page).waitFor();
  const lines = draft(page).locator('.pieces > li');
  while ((await lines.count()) < 50) await frames(page, 2);
  await frames(page, 3);
  // The trees that have signs, and those that stand on the wall.
  const on = (layer) => page.evaluate((layer) => {
    const trees = (all, name) => [...new Set([...document.querySelectorAll(all)].map((e) => parseInt(e.getAttribute(name), 10)))];
    return [trees(`.stage ${layer} .work`, 'data-part'), trees('.stage .trees [data-tree]', 'data-tree')];
  }, layer);
  const all = async (layer) => {
    const [signs, trees] = await on(layer);
    assert.ok(signs.length > 0 && signs.length < 20, `${signs}`);
    assert.deepEqual(signs, trees, layer);
    return signs;
  };
  const first = await all('.tried');
  assert.equal(first[0], 1);
  await lines.last().locator('button.plain').click();
  await frames(page, 3);
  const last = await all('.tried');
  assert.ok(last[0] > first.at(-1), `${first}, then ${last}`);
  assert.ok((await page.locator('.stage .tried-wood').count()) < 20);
  // The same holds once it is planned.
  await take(page).click();
  await draft(page).waitFor({ state: 'detached' });
  await page.getByLabel(say('work-before')).check();
  await frames(page, 3);
  assert.deepEqual(await all('.signs'), last);
  assert.deepEqual((await on('.tried'))[0], []);
});

pageTest('on a phone a draft stands before what is to be done', phone, async ({ page }) => {
  await example(page, 'overdue-renewal.json');
  await page.tap('[data-act=draft]');
  await take(page).waitFor();
  const [own, below] = await Promise.all(['.draft', '.findings'].map((s) => page.locator(s).boundingBox()));
  // It has the width of the screen, and nothing stands beside it.
  assert.ok(own.width > 300 && own.width <= 390 && own.y >= 0, JSON.stringify([own, below]));
  assert.ok(own.y + own.height <= below.y + 1, JSON.stringify([own, below]));
  assert.equal(await page.evaluate(() => document.documentElement.scrollWidth), 390);
  assert.deepEqual(await accessibility(page), []);
});

pageTest('a draft tells what it costs and brings, piece by piece, and is made anew by other weights', {}, async ({ page }) => {
  await open(page, 'opposed-leans.json');
  const own = draft(page);
  const pieces = await count(page);
  const whole = own.locator('.draft-gain');
  // What the whole means for the crop stands there before anything is opened.
  await whole.locator('summary').getByText(like('draft-gain-brief')).waitFor();
  await unfold(page, '.draft-gain');
  assert.match(await whole.locator('p').first().innerText(), like('draft-cost'));
  const told = async (place, of) => {
    await place.getByText(like('draft-gain-crop', { piece: of })).waitFor();
    for (const key of ['fill', 'spacing', 'light', 'oldest']) {
      assert.equal(await place.getByText(like(`draft-gain-${key}`)).count(), 1, key);
    }
  };
  await told(whole, 'no');
  // What a piece brings is worked out once it is asked for; nothing pressed moves by it.
  const first = own.locator('.pieces details').first();
  assert.equal(await own.getByText(like('draft-gain-crop', { piece: 'yes' })).count(), 0);
  await first.locator('summary').click();
  await told(first, 'yes');
  assert.match(await first.locator('p').first().innerText(), like('draft-cost'));
  const kept = own.locator('.pieces details').filter({ hasText: like('draft-next') });
  assert.ok((await kept.count()) > 0, 'the next best is told of what was chosen among all');
  assert.deepEqual(await accessibility(page), []);

  // Uprights that are worth more than the wire that they would cover stay where they are.
  const weights = own.locator('.draft-weights');
  assert.equal(await weights.evaluate((d) => d.open), false);
  await weights.locator('summary').click();
  const upright = weights.locator('[data-limit=upright_mm] input');
  await upright.fill('2');
  await upright.press('Enter');
  await own.locator('h2').waitFor();
  await take(page).waitFor();
  assert.notEqual(await count(page), pieces);
  await weights.locator('[data-act=weights-reset]').click();
  await take(page).waitFor();
  assert.equal(await count(page), pieces);
  assert.equal(await weights.locator('[data-act=weights-reset]').isDisabled(), true);
  assert.equal(await page.locator('[data-act=undo]').isDisabled(), true, 'weights are no part of the plan');
});

pageTest('what is told of a draft is told of what is picked, and what is half picked shows it', {}, async ({ page }) => {
  await open(page);
  const own = draft(page);
  await unfold(page, '.draft-kinds');
  await unfold(page, '.draft-gain');
  const cost = own.locator('.draft-gain > p').first();
  const still = own.locator('.draft-open');
  const [dear, open_still] = [await cost.innerText(), await still.locator('summary').textContent()];
  assert.equal(await own.locator('.draft-of-whole').count(), 0);
  const settled = () => page.waitForFunction(() => !document.querySelector('[data-act=draft-take]').hasAttribute('aria-disabled'));
  const state = (box) => box.evaluate((b) => (b.indeterminate ? 'some' : b.checked ? 'all' : 'none'));
  const kind = own.locator('input[data-kind="draw-sign-stub"]');
  const where = own.locator('[data-field=draft-tree]');
  assert.deepEqual([await state(kind), await where.inputValue()], ['all', '']);
  const lines = own.locator('.pieces > li > input');
  await lines.first().uncheck();
  await settled();
  assert.equal(await state(kind), 'some');
  assert.equal(await where.inputValue(), 'some');
  const tree = await page.accessibility?.snapshot?.({ root: await kind.elementHandle() });
  if (tree) assert.equal(tree.checked, 'mixed');
  assert.notEqual(await cost.innerText(), dear);
  assert.equal(await own.locator('.draft-of-whole').innerText(), say('draft-of-whole'));
  await unfold(page, '.draft-open');
  assert.ok((await still.locator('p').allInnerTexts()).some((line) => line.endsWith(say('stuck-untaken'))));
  assert.deepEqual(await accessibility(page), []);
  // One press takes the rest of the kind, the next none of it.
  await kind.click();
  await settled();
  assert.equal(await state(kind), 'all');
  assert.deepEqual([await cost.innerText(), await still.locator('summary').textContent()], [dear, open_still]);
  await kind.click();
  await settled();
  assert.equal(await state(kind), 'none');
  await where.selectOption('3');
  await settled();
  assert.deepEqual([await state(kind), await where.inputValue()], ['some', '3']);
});

pageTest('every upright that is renewed has its own reason', {}, async ({ page }) => {
  await open(page);
  const stubs = draft(page).locator('.pieces > li').filter({ has: page.locator('.each') });
  assert.ok((await stubs.count()) > 3);
  const lines = await stubs.nth(2).locator('.each').allInnerTexts();
  const told = lines.map((line) => line.replace('– ', ''));
  assert.ok(told.length >= 3, told.join('; '));
  const goes = like('renewal-goes-old', {});
  assert.ok(told.filter((line) => goes.test(line)).length >= 2, told.join('; '));
});

for (const [width, height] of [[1366, 768], [1280, 800]]) {
  // A wall that changes its size is laid out and drawn twice for one press.
  pageTest(`the wall keeps its size beside a draft at ${width} × ${height}`, { viewport: { width, height } }, async ({ page }) => {
    await example(page, 'overdue-renewal.json');
    const size = () => page.locator('.stage').evaluate((e) => [e.clientWidth, e.getBoundingClientRect().height]);
    const before = await size();
    await page.click('[data-act=draft]');
    await take(page).waitFor();
    await frames(page, 3);
    const [wide, high] = await size();
    assert.equal(wide, before[0]);
    assert.ok(Math.abs(high - before[1]) < 0.1, `${before[1]} px, then ${high}`);
  });

  pageTest(`the pieces of a draft have their room at ${width} × ${height}`, { viewport: { width, height } }, async ({ page }) => {
    await open(page);
    const [list, own, wall] = await Promise.all(['.draft .pieces', '.draft', '.stage'].map((s) => page.locator(s).boundingBox()));
    assert.ok(own.height >= 0.4 * height, JSON.stringify(own));
    const seen = Math.min(list.y + list.height, own.y + own.height) - list.y;
    assert.ok(seen >= 200, `${seen} of ${JSON.stringify([list, own])}`);
    assert.ok(wall.height >= 0.25 * height, JSON.stringify(wall));
    // It scrolls inside; once it is put away the leaves are told again.
    assert.ok(await draft(page).evaluate((d) => d.scrollHeight > d.clientHeight));
    assert.equal(await page.locator('.years').isVisible(), false);
    await draft(page).locator('[data-act=draft-close]').click();
    await page.locator('.years').waitFor();
  });
}
