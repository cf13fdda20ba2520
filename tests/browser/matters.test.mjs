// Matters: what is found, put together by its cause; one is left for the year, and comes back.
import assert from 'node:assert/strict';
import { accessibility, frames, pageTest } from './rig.mjs';
import { example, matter, remedyIn, saved } from './desk.mjs';
import { like, say, whole } from './words.mjs';

async function measured(page) {
  await page.locator('[data-example="examples/measured-40.csv"]').click();
  await page.locator('[data-act=import-use]').click();
  await page.waitForSelector('.stage [data-tree]');
  await frames(page, 3);
}

const REASON = 'no hands this winter, <b>spring</b> is soon enough';

async function leave(page, rule, reason) {
  await matter(page, rule).locator('[data-act=leave]').click();
  await page.locator('[data-field=leave-why]').fill(reason);
  await page.locator('[data-act=leave-do]').click();
  await frames(page, 2);
}

async function printed(page) {
  await page.evaluate(() => dispatchEvent(new Event('beforeprint')));
  const words = await page.evaluate(() => document.querySelector('#print-sheets').shadowRoot.textContent);
  await page.evaluate(() => dispatchEvent(new Event('afterprint')));
  return words;
}

pageTest('a measured row has few matters; one is left with a reason, is printed so, and comes back where it changes', {}, async ({ page }) => {
  await measured(page);
  const open = page.locator('.findings [data-matter]');
  const count = await open.count();
  assert.ok(count >= 5 && count <= 25, `${count} matters`);
  assert.equal(await page.locator('#findings-title').innerText(), say('findings-title', { count }));
  const lost = matter(page, 'cordon-gap').first();
  assert.match(await lost.innerText(), like('matter-tree-lost', { trees: 1, tree: 17, bare: 'yes' }));
  // What a headline says is not said again below it.
  const laterals = matter(page, 'laterals-due');
  await laterals.locator('[data-act=each]').click();
  const told = await laterals.locator('.each .said').allInnerTexts();
  assert.ok(told.length > 10);
  assert.equal(new Set(told).size, told.length);

  // A reason that is none, or too long, is refused by name and nothing is left.
  await leave(page, 'laterals-due', ' ');
  assert.match(await page.locator('[role=alert] .notice').innerText(), like('refusal-left-reason', { value: 0, high: 400 }));
  await page.locator('[data-field=leave-why]').fill('x'.repeat(401));
  await page.locator('[data-act=leave-do]').click();
  assert.match(await page.locator('[role=alert] .notice').innerText(), like('refusal-left-reason', { value: 401, high: 400 }));
  assert.equal(await page.locator('.left-matters').count(), 0);
  await page.locator('[data-field=leave-why]').fill(REASON);
  await page.locator('[data-act=leave-do]').click();
  await frames(page, 2);
  assert.equal(await laterals.count(), 0);
  assert.equal(await open.count(), count - 1);
  const fold = page.locator('.left-matters');
  assert.equal(await fold.locator('summary').innerText(), say('left-title', { count: 1 }));
  await fold.locator('summary').click();
  assert.equal(await fold.locator('.reason').innerText(), REASON);
  assert.deepEqual(await accessibility(page), []);

  const paper = await printed(page);
  assert.ok(paper.includes(say('left-title', { count: 1 })));
  assert.ok(paper.replace(/\s+/g, ' ').includes(REASON.slice(0, 30)), 'the reason is on paper');

  // It is kept on the device.
  await saved(page);
  await page.reload();
  await page.waitForSelector('.stage [data-tree]');
  await frames(page, 3);
  assert.equal(await fold.count(), 1);
  assert.equal(await laterals.count(), 0);

  // It is one step, that is undone and done again.
  await page.locator('[data-act=undo]').click();
  await frames(page, 2);
  assert.equal(await laterals.count(), 1);
  await page.locator('[data-act=redo]').click();
  await frames(page, 2);
  assert.equal(await laterals.count(), 0);

  // One shoot of it changes: its tree is back, the others stay left. Pressing what is left chooses the first.
  await fold.locator('summary').click();
  await fold.locator('.plain').click();
  await page.locator('.part-card [data-act=act-remove]').click();
  await frames(page, 3);
  assert.equal(await laterals.count(), 1, 'what has changed is back');
  assert.equal(await fold.count(), 1, 'what has not stays left');
  // Why it was left stands there, where it is to be left again.
  await laterals.locator('[data-act=leave]').click();
  assert.equal(await page.locator('[data-field=leave-why]').inputValue(), REASON);
  await page.keyboard.press('Escape');

  // Taken up again, all of it is open.
  await fold.locator('[data-act=take-up]').click();
  await frames(page, 2);
  assert.equal(await fold.count(), 0);
});

pageTest('a remedy that is aimed at is shown on the wall, and gone when the pointer leaves', {}, async ({ page }) => {
  await measured(page);
  const tried = page.locator('.stage .tried > *');
  const remedy = await remedyIn(matter(page, 'renewal-due'));
  assert.equal(await tried.count(), 0);
  await remedy.hover();
  assert.ok((await tried.count()) > 20, `${await tried.count()} signs`);
  await page.mouse.move(1, 1);
  assert.equal(await tried.count(), 0);
  await remedy.focus();
  assert.ok((await tried.count()) > 20);
  await remedy.evaluate((e) => e.blur());
  assert.equal(await tried.count(), 0);
});

pageTest('what comes to lie under the pointer as a remedy is pressed is not shown before the pointer moves', {}, async ({ page }) => {
  await measured(page);
  const remedies = page.locator('.findings [data-matter] [data-remedy]:not([aria-disabled])');
  await remedies.first().waitFor();
  // One whose place is taken by another remedy once it goes: the list is followed until one is found.
  let found = false;
  for (let i = 0; i < 8 && !found; i += 1) {
    const { x, y } = await remedies.first().boundingBox();
    await page.mouse.move(x + 8, y + 8);
    await page.waitForFunction(() => document.querySelector('.tried').childElementCount > 0);
    await page.mouse.down();
    await page.mouse.up();
    await frames(page, 6);
    await remedies.first().waitFor();
    const under = await page.evaluate(([x, y]) => document.elementFromPoint(x, y)?.matches('[data-remedy]'), [x + 8, y + 8]);
    if (under) {
      assert.equal(await page.locator('.tried > *').count(), 0, 'shown unasked');
      await page.mouse.move(x + 10, y + 9);
      await page.waitForFunction(() => document.querySelector('.tried').childElementCount > 0);
      found = true;
    }
    await page.waitForTimeout(700);
  }
  assert.ok(found, 'no remedy came to lie under the pointer');
});

pageTest('a remedy shows what would stand: new stock where a tree is lost, a shoot that is laid', {}, async ({ page }) => {
  await example(page, 'lost-tree.json');
  await (await remedyIn(matter(page, 'cordon-gap').first())).hover();
  const wood = page.locator('.stage .tried .tried-wood');
  const place = await wood.boundingBox();
  assert.ok(place.width > 30 && place.height > 20, JSON.stringify(place));
  await page.mouse.move(1, 1);
  assert.equal(await wood.count(), 0);
});

pageTest('a matter says of how many findings its remedies are, and why it has none', {}, async ({ page }) => {
  await measured(page);
  const wide = matter(page, 'uprights-too-far');
  await remedyIn(wide);
  const all = await wide.locator('[data-act="each"]').innerText();
  const told = await wide.locator('[data-act="mend-all"]').innerText();
  assert.match(told, like('mend-some'));
  const [count, of] = told.match(/\d+/g).map(Number).slice(-2);
  assert.ok(count < of, told);
  assert.equal(all, say('matter-each', { count: of }));
  // Of every matter that has none it is said.
  const open = page.locator('.findings > ul > [data-matter]');
  const bare = open.filter({ hasNot: page.locator('[data-remedy]') });
  assert.ok((await bare.count()) > 0);
  const why = ['planned', 'graver', 'none', 'note'].map((why) => say(`stuck-${why}`));
  const harm = whole('stuck-graver-by', { finding: /\S[^]*/ });
  const whys = (await bare.locator('.remedies').allInnerTexts()).map((text) => text.trim());
  for (const text of whys) assert.ok(why.includes(text) || harm.test(text), text);
  // What the first that was tried would make graver is named where it is known.
  assert.ok(whys.some((text) => harm.test(text)), whys.join('; '));
});

pageTest('a matter that is pressed again shows its next place, and begins anew after its last', {}, async ({ page }) => {
  await measured(page);
  const line = matter(page, 'laterals-due');
  const places = Number((await line.locator('[data-act="each"]').innerText()).match(/\d+/)[0]);
  const chosen = () => page.locator('.part-card h2').innerText();
  const seen = [];
  for (let at = 1; at <= 3; at += 1) {
    await line.locator('.plain').press('Enter');
    await frames(page, 2);
    seen.push(await chosen());
    assert.equal(await line.locator('[data-act="each"]').innerText(), say('matter-at', { at, count: places }));
  }
  assert.equal(new Set(seen).size, 3, seen.join(', '));
  for (let at = 4; at <= places + 1; at += 1) await line.locator('.plain').press('Enter');
  await frames(page, 2);
  assert.equal(await chosen(), seen[0]);
});

pageTest('what is left is counted at no time, and stands on no strip', {}, async ({ page }) => {
  await example(page, 'lost-tree.json');
  const counted = page.locator('.now-count', { hasText: '▲' });
  await counted.first().waitFor();
  assert.ok((await page.locator('.overview-now').count()) > 0);
  const graver = page.locator('.findings > ul > [data-matter].now');
  while (await graver.count()) {
    await graver.first().locator('[data-act=leave]').click();
    await page.locator('[data-field=leave-why]').fill(REASON);
    await page.locator('[data-act=leave-do]').click();
    await frames(page, 2);
  }
  assert.equal(await page.locator('.overview-now').count(), 0);
  await counted.first().waitFor({ state: 'detached' });
});

pageTest('a remedy that is aimed at says what it does to the crop, where nothing else moves for it', {}, async ({ page }) => {
  await example(page, 'overdue-renewal.json');
  const remedy = await remedyIn(matter(page, 'renewal-due').first());
  const places = () => page.locator('.findings > ul > *').evaluateAll((all) => all.map((e) => e.getBoundingClientRect().top));
  const before = await places();
  await remedy.hover();
  const told = page.locator('[data-figure="tried-crop"]');
  await told.waitFor();
  assert.match(await told.innerText(), like('tried-crop'));
  const [now, then] = (await told.innerText()).match(/\d+\.\d/g).map(Number);
  assert.ok(then < now, `${now} ${then}`);
  assert.deepEqual(await places(), before);
  await page.mouse.move(1, 1);
  await told.waitFor({ state: 'detached' });
});
