// One sight: strip, wall and band, the first findings, figures and work are on the screen at once, and what stands there keeps
// its place.
import assert from 'node:assert/strict';
import { example, phone } from './desk.mjs';
import { accessibility, frames, pageTest } from './rig.mjs';
import { like, say } from './words.mjs';

const DESK = { width: 1280, height: 800 };
const LOW = { width: 1280, height: 720 };

/** The edges of what is seen of elements. */
const boxes = (page, selector) =>
  page.evaluate((selector) => [...document.querySelectorAll(selector)].map((e) => e.getBoundingClientRect().toJSON()), selector);
const box = async (page, selector) => (await boxes(page, selector))[0];
/** How many elements stand wholly within the window and within what scrolls them. */
const inSight = (page, selector) =>
  page.evaluate((selector) => {
    const whole = (e) => {
      const own = e.getBoundingClientRect();
      const around = (e.closest('.panels > *, .below') ?? document.documentElement).getBoundingClientRect();
      return own.height > 0 && own.top >= around.top - 1 && own.bottom <= Math.min(around.bottom, window.innerHeight) + 1;
    };
    return [...document.querySelectorAll(selector)].filter(whole).length;
  }, selector);
const scrolls = (page) => page.evaluate(() => document.documentElement.scrollHeight > window.innerHeight + 1);
const apart = (a, b) => a.bottom <= b.top + 1 || b.bottom <= a.top + 1 || a.right <= b.left + 1 || b.right <= a.left + 1;

for (const viewport of [DESK, LOW]) {
  pageTest(`wall, findings, figures and work are in sight at once, ${viewport.height} px high`, { viewport }, async ({ page }) => {
    await example(page);
    const share = async () => {
      const [strip, wall, band] = [await box(page, '.years'), await box(page, '.stage'), await box(page, '.band')];
      return (strip.height + wall.height + band.height) / viewport.height;
    };
    const told = async () => {
      assert.ok((await share()) >= 0.45, `${await share()} of the height`);
      const whole = await inSight(page, '.findings > ul > [data-matter]');
      assert.ok(whole >= 3, `${whole} whole matters, each with what it says and what can be done`);
      assert.ok((await inSight(page, '[data-figure]')) >= 1, 'a figure');
      assert.ok((await inSight(page, '.work-list li')) >= 1, 'a piece of work');
      assert.equal(await scrolls(page), false);
    };
    await told();
    // What is chosen is told beside the findings, and covers nothing of the wall.
    await page.locator('.stage').press('ArrowRight');
    await page.locator('.part-card').waitFor();
    await told();
    const card = await box(page, '.part-card');
    for (const other of ['.stage', '.band', '.findings', '.figures-column']) assert.ok(apart(card, await box(page, other)), other);
    assert.ok((await inSight(page, '.part-card .actions button')) >= 2, 'what can be done with it');
    // A view takes the place of the findings; the card and the wall stay.
    const before = [await box(page, '.stage'), (await box(page, '.part-card')).top];
    await page.locator('#view-wires > summary').click();
    await page.locator('.wire-list li').first().waitFor();
    assert.deepEqual([await box(page, '.stage'), (await box(page, '.part-card')).top], before);
    assert.ok(apart(await box(page, '.part-card'), await box(page, '#view-wires .view-body')));
  });
}

/** Makes a row of so many trees, longer than the screen. */
async function long(page) {
  await example(page, 'clean-third-leaf.json');
  await page.locator('.stage').focus();
  for (let i = 0; i < 4; i += 1) await page.keyboard.press('+');
  await frames(page, 2);
}
const left = async (page) => Number((await page.locator('.stage .wall').getAttribute('viewBox')).split(' ')[0]);

pageTest('the whole row stands over the wall with what is in sight framed: a press, a drag and keys go there', {}, async ({ page }) => {
  await long(page);
  const strip = await box(page, '.row-strip');
  const frame = async () => {
    const { left, right, width } = await box(page, '.row-strip i');
    return { middle: (left + right) / 2, width };
  };
  const begin = await frame();
  assert.ok(begin.width < strip.width * 0.8, 'a part of it is in sight');
  await page.mouse.click(strip.right - 2, strip.top + 14);
  await frames(page, 2);
  const end = await frame();
  assert.ok(end.middle > begin.middle + 100);
  // Along with the hand.
  await page.mouse.move(strip.right - 40, strip.top + 14);
  await page.mouse.down();
  const places = [];
  for (const share of [0.7, 0.5, 0.3]) {
    await page.mouse.move(strip.left + share * strip.width, strip.top + 14);
    await frames(page, 2);
    places.push(await left(page));
  }
  await page.mouse.up();
  assert.ok(places[0] >= places[1] && places[1] > places[2], places.join(', '));
  const stage = page.locator('.stage');
  await stage.press('Home');
  const first = await left(page);
  await stage.press('PageDown');
  const second = await left(page);
  assert.ok(second > first);
  await stage.press('PageUp');
  assert.equal(await left(page), first);
  await stage.press('End');
  const last = await left(page);
  assert.ok(last >= second);
  // The strip hears them too, and says where it is.
  const told = () => page.locator('.row-strip').getAttribute('aria-valuetext');
  const was = await told();
  await page.locator('.row-strip').press('Home');
  await frames(page, 2);
  assert.equal(await left(page), first);
  assert.notEqual(await told(), was);
});

pageTest('a tree is gone to by its number, and one that is not there is said', {}, async ({ page }) => {
  await long(page);
  await page.locator('.stage').press('Home');
  const trees = await page.locator('.part-list select option').evaluateAll((all) => all.map((e) => e.value));
  await page.keyboard.press('g');
  await frames(page, 2);
  await page.keyboard.type(trees.at(-1));
  await page.keyboard.press('Enter');
  await page.locator('.part-card').waitFor();
  assert.match(await page.locator('.part-card h2').textContent(), like('name-tree', { tree: Number(trees.at(-1)) }));
  const number = await page.locator(`.tree-number[data-tree="${trees.at(-1)}"]`).boundingBox();
  assert.ok(number.x > 0 && number.x < 1280);
  await page.keyboard.press('g');
  await frames(page, 2);
  await page.keyboard.type('99');
  await page.keyboard.press('Enter');
  await page.locator('.notice', { hasText: say('to-number-none', { tree: '99' }) }).waitFor();
});

pageTest('a press on the band chooses the upright there, or what lies beside the bare wire', {}, async ({ page }) => {
  await example(page);
  const band = await box(page, 'div.band');
  const bare = (await boxes(page, '.band-drawing .bare.wrong'))[0];
  const title = () => page.locator('.part-card h2').textContent();
  await page.mouse.click((bare.left + bare.right) / 2, band.top + 12);
  await page.locator('.part-card').waitFor();
  const beside = await title();
  const base = await box(page, '.stage [data-part="1/2"] .wood');
  await page.mouse.click((base.left + base.right) / 2, band.top + 12);
  await frames(page, 2);
  assert.notEqual(await title(), beside);
  assert.equal(await page.locator('.stage .shoot.chosen').count(), 1);
  // Between two uprights lies wood.
  for (let i = 0; i < 4; i += 1) await page.keyboard.press('+');
  await frames(page, 2);
  const uprights = (await boxes(page, '.stage :is(.upright, .stub, .bud) .wood')).filter(({ left, right }) => left > 200 && right < 1200);
  uprights.sort((a, b) => a.left - b.left);
  const at = uprights.findIndex(({ right }, i) => i + 1 < uprights.length && uprights[i + 1].left - right > 24);
  assert.notEqual(at, -1, 'no two uprights apart');
  const [one, two] = uprights.slice(at, at + 2);
  await page.mouse.click((one.right + two.left) / 2, band.top + 12);
  await frames(page, 2);
  assert.match(await title(), /^[Ll]eader/);
});

pageTest('what stands over the wall keeps its place and size from one press to the next', {}, async ({ page }) => {
  await example(page);
  const places = () => boxes(page, 'header > :not(.years) :is(button, summary, label, input), .along :is(button, input), .view > summary, .stage, .band');
  const round = (all) => all.map(({ x, y, width, height }) => [x, y, width, height].map(Math.round));
  const first = round(await places());
  const same = async (what) => assert.deepEqual(round(await places()), first, what);
  const stage = page.locator('.stage');
  for (const key of ['ArrowRight', 'ArrowUp', 's', 'Control+z', 'Control+y', 'Escape', 'Escape']) {
    await stage.press(key);
    await frames(page, 2);
    await same(key);
  }
  for (const window of [1, 2, 3, 0]) {
    await page.locator('.season input').nth(window).check({ force: true });
    await frames(page, 2);
    await same(`window ${window}`);
  }
  for (const act of ['work-before', 'work-after']) {
    await page.locator(`[data-act="${act}"]`).check({ force: true });
    await frames(page, 2);
    await same(act);
  }
  await page.locator('#view-keys > summary').click();
  await same('keys');
});

for (const colorScheme of ['light', 'dark']) {
  pageTest(`the screen shuts nobody out, ${colorScheme}`, { viewport: LOW, context: { colorScheme } }, async ({ page }) => {
    await example(page);
    assert.deepEqual(await accessibility(page), []);
    await page.locator('.stage').press('ArrowRight');
    await page.locator('.part-card').waitFor();
    await page.locator('.schemes .more > summary').click();
    assert.deepEqual(await accessibility(page), []);
  });
}

pageTest('enlarged twice, the page scrolls and the card is a sheet at its foot', { viewport: { width: 640, height: 400 } }, async ({ page }) => {
  await example(page);
  assert.equal(await scrolls(page), true);
  assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth));
  await page.locator('.stage').press('ArrowRight');
  await page.locator('.part-card').waitFor();
  await frames(page, 3);
  const card = await box(page, '.part-card');
  assert.ok(Math.abs(card.bottom - 400) < 2, JSON.stringify(card));
});

pageTest('on a phone the page scrolls from the wall to the findings, the figures and the work', phone, async ({ page }) => {
  await example(page);
  assert.equal(await scrolls(page), true);
  const tops = [];
  for (const part of ['.stage', '.findings', '.figures-column', '.lists-column']) tops.push((await box(page, part)).top);
  assert.deepEqual(tops, [...tops].sort((a, b) => a - b));
});

pageTest('the whole row is in sight without a waste of height, a press beside a shoot means it, and smaller it does not get', {}, async ({ page }) => {
  await page.locator('[data-example="examples/measured-40.csv"]').click();
  await page.locator('[data-act=import-use]').click();
  await page.waitForSelector('.stage [data-tree]');
  await frames(page, 3);
  const stage = page.locator('.stage');
  const high = (await box(page, '.stage')).height;
  const before = await left(page);
  await stage.press('0');
  await frames(page, 3);
  const whole = await box(page, '.stage');
  assert.ok(whole.height < high, 'what it does not need the lists have');
  const wood = await boxes(page, '.stage .trees > *');
  const top = Math.min(...wood.map((b) => b.top));
  assert.ok(top - whole.top < 200 && whole.bottom - Math.max(...wood.map((b) => b.bottom)) < 200);
  assert.ok(Math.min(...wood.map((b) => b.left)) >= whole.left && Math.max(...wood.map((b) => b.right)) <= whole.right);
  const view = () => page.locator('.stage .wall').getAttribute('viewBox');
  const seen = await view();
  for (const key of ['-', '-']) await stage.press(key);
  await frames(page, 2);
  assert.equal(await view(), seen);
  // To the right of the last shoot of the row.
  const end = Math.max(...wood.map((b) => b.right));
  await page.mouse.click(Math.min(end + 18, whole.right - 2), whole.bottom - 45);
  await page.locator('.part-card').waitFor();
  assert.match(await page.locator('.part-card h2').textContent(), /40/);
  await page.keyboard.press('Escape');
  // No word lies over another.
  const words = await boxes(page, '.stage text');
  const over = words.flatMap((a, i) => words.slice(0, i).filter((b) => !apart(a, b)));
  assert.deepEqual(over, []);
  // Full height is where the whole row was looked at in its middle, and the wall has its height again.
  await stage.press('1');
  await frames(page, 3);
  assert.ok(Math.abs((await box(page, '.stage')).height - high) <= 1);
  assert.ok((await left(page)) > before, 'not back at the beginning');
});

pageTest('many at once stubs the thickest of each tree, and the next wire is one press where it is due', {}, async ({ page }) => {
  await example(page, 'overdue-renewal.json');
  // Without its upper wire the uprights stand too far above the top one.
  await page.locator('#view-wires > summary').click();
  const wires = page.locator('.wire-list > li');
  // The panel's part is loaded when it is first opened.
  await wires.first().waitFor();
  const strung = await wires.count();
  assert.equal(await page.locator('[data-act="wire-due"]').count(), 0, 'none is due yet');
  await wires.first().locator('[data-act="wire-down"]').click();
  await page.locator('[data-act="wire-due"]').click();
  await frames(page, 3);
  assert.equal(await wires.count(), strung);
  await page.locator('[data-act="wire-due"]').waitFor({ state: 'detached' });
  await page.locator('#view-many > summary').click();
  await page.locator('[data-field="many-what"]').selectOption('sweep-largest');
  await page.locator('[data-field="many-number"]').fill('2');
  const trees = await page.locator('.part-list select option').count();
  const said = page.locator('[data-field="many-count"]');
  assert.equal((await said.innerText()).trim(), say('many-count', { shoots: 2 * trees, trees }));
  const stubs = page.locator('.stage .shoot.stub');
  const before = await stubs.count();
  await page.locator('[data-act="many-do"]').click();
  await frames(page, 2);
  assert.equal(await stubs.count(), before + 2 * trees);
});

/** Whether the top of the wall, with its words, is within the wall's frame. */
const topInSight = (page, stage) =>
  page.evaluate((stage) => {
    const frame = document.querySelector(stage).getBoundingClientRect();
    const words = [...document.querySelectorAll(`${stage} text`)].map((e) => e.getBoundingClientRect().top);
    const wood = [...document.querySelectorAll(`${stage} .trees .wood, ${stage} .wall-height`)].map((e) => e.getBoundingClientRect().top);
    return Math.min(...words, ...wood) >= frame.top - 1;
  }, stage);

for (const viewport of [DESK, LOW]) {
  pageTest(`the top of the wall is in sight, with the light and with another scheme beside it, ${viewport.height} px high`, { viewport }, async ({ page }) => {
    await example(page, 'lessons/buds-removed-or-missed.json');
    await page.locator('.year[data-leaf="3"]').click();
    await page.locator('.stage-beside [data-tree]').first().waitFor();
    await frames(page, 6);
    const [own, other] = [await box(page, '.stage'), await box(page, '.stage-beside')];
    // A short row stands beside the other, not over it, and takes the width that it has.
    assert.ok(own.right <= other.left && Math.abs(own.top - other.top) < 1);
    assert.ok(await topInSight(page, '.stage'));
    assert.ok(await topInSight(page, '.stage-beside'));
    const wood = await boxes(page, '.stage .trees > *');
    const wide = Math.max(...wood.map((w) => w.right)) - Math.min(...wood.map((w) => w.left));
    assert.ok(wide > 300, `${wide} px of row`);
    assert.ok((await inSight(page, '.beside tbody tr')) >= 2, 'fill and early crop of both');
    assert.match(await page.locator('.beside tbody tr').nth(1).innerText(), like('two-crop-by', { leaf: 5 }));
    await page.locator('.light-toggle').click();
    await frames(page, 6);
    assert.ok(await topInSight(page, '.stage'));
    assert.equal(await scrolls(page), false);
  });
}

pageTest('with the light the wall and what is to be done stay within the screen', { viewport: LOW }, async ({ page }) => {
  await example(page);
  await page.locator('.light-toggle').click();
  await frames(page, 6);
  assert.ok(await topInSight(page, '.stage'));
  for (const part of await boxes(page, '.panels > *')) assert.ok(part.bottom <= LOW.height, JSON.stringify(part));
  assert.ok((await inSight(page, '.findings > ul > [data-matter]')) >= 1);
});

pageTest('news stand over nothing', { viewport: LOW }, async ({ page }) => {
  await example(page);
  await page.locator('.stage').press('Control+z');
  await page.locator('.notice').waitFor();
  const news = await box(page, '.notice');
  for (const other of ['.stage', 'div.band', '.tools', '.findings', '.chosen-column', '.figures-column', '.lists-column']) {
    const at = await box(page, other);
    assert.ok(news.top >= at.bottom - 3, `${other}: ${news.top} ${at.bottom}`);
  }
});

pageTest('a tree that is gone to while it is in sight is marked, with its number', {}, async ({ page }) => {
  await example(page);
  await page.locator('.stage').press('g');
  await frames(page, 2);
  await page.keyboard.type('7');
  await page.keyboard.press('Enter');
  await page.locator('.part-card').waitFor();
  const marked = page.locator('.stage .chosen');
  assert.deepEqual(await marked.evaluateAll((all) => all.map((e) => e.getAttribute('data-tree'))), ['7', '7']);
  const ink = (selector) => page.locator(selector).first().evaluate((e) => getComputedStyle(e).fill);
  assert.notEqual(await ink('.tree[data-tree="7"] .wood'), await ink('.tree[data-tree="6"] .wood'));
  assert.notEqual(await ink('.tree-number[data-tree="7"]'), await ink('.tree-number[data-tree="6"]'));
  assert.ok(await page.locator('.stage').evaluate((e) => e === document.activeElement));
});

pageTest('what is told of a row begins with the gravest, and says what is chosen while its card is closed', { viewport: LOW }, async ({ page }) => {
  await example(page);
  await page.locator('.findings').evaluate((e) => (e.scrollTop = 400));
  assert.ok((await page.locator('.findings').evaluate((e) => e.scrollTop)) > 0);
  await page.locator('.stage').press('ArrowRight');
  await page.locator('.part-card').waitFor();
  const name = await page.locator('.part-card h2').innerText();
  await page.keyboard.press('Escape');
  const told = page.locator('.chosen-told');
  assert.equal((await told.innerText()).toLowerCase(), say('chosen-closed', { part: name }).toLowerCase());
  assert.equal(await page.locator('.stage .shoot.chosen').count(), 1);
  await page.keyboard.press('Escape');
  await frames(page, 2);
  assert.equal(await told.innerText(), say('chosen-none'));
  assert.equal(await page.locator('.stage .shoot.chosen').count(), 0);
});

for (const name of ['third-leaf.json', 'lessons/buds-removed-or-missed.json']) {
  pageTest(`no word of a leaf is cut: ${name}`, {}, async ({ page }) => {
    await example(page, name);
    const cut = await page.locator('.year span').evaluateAll((all) => all.filter((e) => e.scrollWidth > e.clientWidth + 1).map((e) => e.textContent));
    assert.deepEqual(cut, []);
  });
}

pageTest('what opens under the wall prints through no key', { viewport: LOW }, async ({ page }) => {
  await example(page);
  await page.locator('.before-after input').first().check();
  const key = page.locator('.sign-key').first();
  await key.waitFor();
  await page.locator('#view-assumptions > summary').click();
  const body = page.locator('#view-assumptions .view-body');
  await body.locator('h2, h3').first().waitFor();
  const [open, signs] = [await body.boundingBox(), await page.locator('.sign-key').first().evaluate((e) => e.getBoundingClientRect().toJSON())];
  assert.ok(open.y >= signs.bottom - 1 || !(await key.isVisible()), JSON.stringify([open, signs]));
  await page.locator('#view-assumptions > summary').click();
  assert.ok(await key.isVisible());
});

for (const text of [16, 20]) {
  pageTest(`letters of ${text} px are whole in the strip, and what has the focus covers none`, { viewport: DESK }, async ({ page }) => {
    await example(page);
    await page.addStyleTag({ content: `:root { font-size: ${text}px !important; }` });
    await frames(page, 3);
    const low = await page.$$eval('.year span, .years-head span', (all) => all.filter((e) => e.checkVisibility() && e.textContent.trim() && e.scrollHeight > e.clientHeight + 1).map((e) => e.textContent));
    assert.deepEqual(low, []);
    await page.keyboard.press('Tab');
    const button = page.locator('.years-head button');
    await button.focus();
    const [ring, label] = await page.evaluate(() => {
      const at = document.activeElement;
      const style = getComputedStyle(at);
      const ring = at.getBoundingClientRect().bottom + parseFloat(style.outlineOffset) + parseFloat(style.outlineWidth);
      return [ring, document.querySelector('.years-head span').getBoundingClientRect().top];
    });
    assert.ok(ring <= label + 1, `${ring} ${label}`);
  });
}
