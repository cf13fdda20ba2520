// Menus, sheets and ways in: what opens goes again, and the focus is never lost.
import assert from 'node:assert/strict';
import { example, phone, saved } from './desk.mjs';
import { accessibility, frames, pageTest } from './rig.mjs';
import { like, say, whole } from './words.mjs';

const TABLE = 'tree;place (m);kind;length (m);side;pose\n1;0,00;leader;2,20;right;45\n1;0,70;upright;1,50;;\n1;bad;upright;1,50;;';

/** What has the focus: its class, or else its tag. */
const focused = (page) => page.evaluate(() => document.activeElement.className || document.activeElement.tagName);

/** Pastes a table with a slip in it and waits for its sheet. */
async function paste(page) {
  const read = page.getByRole('button', { name: say('way-paste-do') });
  await page.getByLabel(say('way-paste')).fill(TABLE);
  await read.click();
  await page.locator('dialog.sheet[open]').waitFor();
  return read;
}

pageTest('a menu on a phone is wholly on the screen and goes with a choice, a press elsewhere or Escape', phone, async ({ page }) => {
  await example(page);
  const name = page.locator('.doings .more summary');
  const menu = page.locator('.doings .more .menu');
  await name.tap();
  const box = await menu.boundingBox();
  assert.ok(box.x >= 0 && box.x + box.width <= 390, `from ${box.x} px, ${box.width} px wide`);
  assert.deepEqual(await accessibility(page), []);
  await Promise.all([page.waitForEvent('download'), page.locator('[data-act=save-plan]').tap()]);
  await menu.waitFor({ state: 'hidden' });
  await name.tap();
  await page.keyboard.press('Escape');
  await menu.waitFor({ state: 'hidden' });
  assert.equal(await name.evaluate((e) => e === document.activeElement), true);
  await name.tap();
  // What is pressed elsewhere does what it does.
  await page.locator('.row-name').tap();
  await menu.waitFor({ state: 'hidden' });
  assert.equal(await focused(page), 'row-name');
});

pageTest('the sheet of a pasted table holds focus and keys, closes at Escape every time, and gives the focus back', {}, async ({ page }) => {
  for (let time = 1; time <= 3; time += 1) {
    const read = await paste(page);
    await frames(page, 2);
    assert.equal(await page.evaluate(() => document.activeElement.dataset.act), 'import-use', `time ${time}`);
    for (let i = 0; i < 8; i += 1) {
      await page.keyboard.press('Tab');
      assert.equal(await page.evaluate(() => document.activeElement === document.body || document.activeElement.closest('dialog') !== null), true, 'the Tab key stays in it');
    }
    if (time === 1) assert.deepEqual(await accessibility(page), []);
    await page.keyboard.press('Escape');
    await page.locator('dialog.sheet').waitFor({ state: 'detached' });
    assert.equal(await read.evaluate((e) => e === document.activeElement), true, `time ${time}: the focus is back`);
  }
  await paste(page);
  await frames(page, 2);
  await page.keyboard.press('Enter');
  await page.waitForSelector('.stage [data-tree="1"]');
  await frames(page, 3);
  assert.equal(await focused(page), 'stage');
});

pageTest('a table dropped while a row is worked on leaves the row alone until it is used', {}, async ({ page }) => {
  await example(page);
  await page.keyboard.press('ArrowRight');
  await page.locator('.part-card').waitFor();
  await page.locator('input[type=file]').setInputFiles({ name: 'a.csv', mimeType: 'text/csv', buffer: Buffer.from(TABLE) });
  await page.locator('dialog.sheet[open]').waitFor();
  await page.keyboard.press('Escape');
  await page.locator('dialog.sheet').waitFor({ state: 'detached' });
  assert.equal(await page.locator('.part-card').count(), 1, 'the choice behind the sheet stays');
});

pageTest('a row opens at the top of the page with the focus on its wall', { viewport: { width: 1280, height: 500 } }, async ({ page }) => {
  const top = () => page.evaluate(() => window.scrollY);
  await example(page);
  assert.equal(await focused(page), 'stage');
  assert.equal(await top(), 0);
  await page.locator('.doings .more summary').click();
  await page.locator('[data-act=other-row]').click();
  await page.locator('.start').waitFor();
  await frames(page, 3);
  assert.notEqual(await focused(page), 'BODY');
  await page.getByRole('button', { name: say('way-make-do') }).click();
  const make = page.getByRole('button', { name: say('way-make-go') });
  await make.scrollIntoViewIfNeeded();
  assert.ok((await top()) > 0, 'the form is longer than the screen');
  await make.click();
  await page.waitForSelector('.stage [data-tree]');
  await frames(page, 3);
  assert.equal(await top(), 0);
  assert.equal(await focused(page), 'stage');
});

// What the page would do after a second or more it does when `later` is called, so that nobody waits for it.
const prepare = (page) =>
  page.addInitScript(() => {
    const { setTimeout, clearTimeout } = window;
    const waiting = new Map();
    let last = 1_000_000;
    window.setTimeout = (work, after, ...given) => {
      if (!(after >= 1000)) return setTimeout(work, after, ...given);
      last += 1;
      waiting.set(last, () => work(...given));
      return last;
    };
    window.clearTimeout = (of) => waiting.delete(of) || clearTimeout(of);
    window.later = () => {
      const due = [...waiting.values()];
      waiting.clear();
      due.forEach((work) => work());
      return due.length;
    };
  });
const later = async (page) => {
  await frames(page, 2);
  const count = await page.evaluate(() => window.later());
  await frames(page, 2);
  return count;
};

pageTest('news goes by itself, but not from under the pointer; a refusal stays and is not replaced', { prepare }, async ({ page }) => {
  await example(page, 'overdue-renewal.json');
  const news = page.locator('[role=status] .notice');
  await page.keyboard.press('Control+z');
  await news.waitFor();
  assert.match(await news.textContent(), like('said-nothing-to-undo'));
  await news.hover();
  await later(page);
  assert.equal(await news.count(), 1, 'under the pointer it stays');
  await page.mouse.move(640, 20);
  assert.equal(await later(page), 1);
  await news.waitFor({ state: 'detached' });
  // While the record is corrected remedies wait, out of sight; a press that comes all the same is refused, and that is said.
  await page.locator('[data-act="correct"]').check();
  await page.locator('[data-act="mend-all"]').first().evaluate((e) => e.click());
  const grave = page.locator('[role=alert] .notice.grave');
  await grave.waitFor();
  assert.equal(await news.count(), 0);
  await later(page);
  assert.equal(await grave.count(), 1);
});

pageTest('rows on this device come first, and many at once says what it does not take', {}, async ({ page }) => {
  await example(page);
  await page.locator('#view-many summary').click();
  await page.locator('[data-field="many-what"]').selectOption('sweep-tip');
  const number = page.locator('[data-field="many-number"]');
  const said = page.locator('[data-field="many-count"]');
  const refused = (value) => whole('refusal-tip', { value, low: '1 %', high: '90 %' });
  for (const [typed, expected] of [
    ['abc', like('field-no-number', { text: 'abc' })],
    ['200 %', refused('200 %')],
    ['0', refused('0 %')],
    ['-5', refused('−5 %')],
  ]) {
    await number.fill(typed);
    await frames(page, 2);
    assert.match(await said.innerText(), expected);
    assert.equal(await page.locator('[data-act="many-do"]').isDisabled(), true);
  }
  await number.fill('25 %');
  await frames(page, 2);
  const shoots = Number((await said.innerText()).match(/\d+/)[0]);
  assert.match(await said.innerText(), whole('many-count', { shoots }));
  await saved(page);
  await page.locator('.doings .more summary').click();
  await page.locator('[data-act=other-row]').click();
  await page.locator('.start .kept').waitFor();
  assert.equal(await page.evaluate(() => Boolean(document.querySelector('.kept').compareDocumentPosition(document.querySelector('.ways')) & Node.DOCUMENT_POSITION_FOLLOWING)), true);
  assert.match(await page.locator('.kept').textContent(), like('kept-forget-short'));
});

pageTest('what is pressed on a phone is large enough for a finger', phone, async ({ page }) => {
  await example(page);
  await page.keyboard.press('ArrowRight');
  await page.locator('.part-card').waitFor();
  await page.locator('.doings .more summary').tap();
  const small = await page.evaluate(() =>
    [...document.querySelectorAll('.part-card button, .menu button, .menu .button, .zooms button')]
      .filter((e) => e.getClientRects().length > 0)
      .map((e) => [e.textContent.trim(), e.getBoundingClientRect().height])
      .filter(([, height]) => height < 40),
  );
  assert.deepEqual(small, []);
});

/** Gives a table and waits until its sheet shows what it holds. */
async function bring(page, table) {
  const buffer = Buffer.from(table);
  await page.locator('input[type=file]').first().setInputFiles({ name: 'measured.csv', mimeType: 'text/csv', buffer });
  await page.locator('dialog.sheet[open] [data-act=import-use]').waitFor();
  await frames(page, 2);
}

const OLDER = 'tree;place (m);kind;length (m);diameter (mm);season\n1;0;leader;2.2;38;0\n1;0.8;upright;1.9;14;1\n1;1.1;upright;0.7 + 0.5;14;1\n2;1.6;leader;2.1;36;0\n2;7.12;upright;1.5;12;1';

pageTest('a table’s row is drawn before it is used, and what the table leaves open is asked: answers are in the drawing and in the row', {}, async ({ page }) => {
  await bring(page, OLDER);
  const drawn = page.locator('.import-row svg');
  const wires = () => drawn.locator('[data-height]').evaluateAll((all) => all.map((e) => Number(e.dataset.height)));
  assert.deepEqual(await drawn.locator('[data-tree]').evaluateAll((all) => [...new Set(all.map((e) => e.dataset.tree))]), ['1', '2']);
  assert.deepEqual(await wires(), [500, 1000, 1500, 2000, 2500]);
  const asked = () => page.locator('[data-ask]').evaluateAll((all) => all.map((e) => e.dataset.ask));
  assert.deepEqual(await asked(), ['import-leaf', 'import-wires', 'import-covering', 'import-wall-height', 'import-lengths', 'import-tipped']);
  const field = (key) => page.getByLabel(say(key));
  // What is assumed is filled in, and its range stands beside it.
  assert.equal(await field('import-leaf').inputValue(), '3');
  assert.match(await page.locator('.import-asks').innerText(), like('import-range', { low: '1', high: '40' }));
  assert.deepEqual(await accessibility(page), []);
  // The bad line names its tree, and how far that reaches.
  const bad = page.locator('.bad-lines tr').first();
  assert.match(await bad.innerText(), like('refusal-csv-place', { side: 'beyond', value: '7.12 m' }));
  assert.match(await bad.innerText(), like('name-of-tree', { part: like('name-leader', { of: 1 }), tree: 2 }));
  // One that is refused says why, stays as typed, and changes nothing.
  await field('import-wires').fill('60 cm; 7 m');
  await field('import-wires').press('Enter');
  await page.locator('.import-asks .wrong', { hasText: like('refusal-csv-value', { value: '7.00 m', low: '0.05 m', high: '6.00 m' }) }).waitFor();
  assert.equal(await field('import-wires').inputValue(), '60 cm; 7 m');
  assert.equal(await field('import-wires').getAttribute('aria-invalid'), 'true');
  assert.deepEqual(await wires(), [500, 1000, 1500, 2000, 2500]);
  // A row is not used over a refused answer: it is looked at first.
  await page.locator('[data-act=import-use]').click();
  assert.equal(await field('import-wires').evaluate((e) => e === document.activeElement), true);
  await field('import-wires').fill('60 cm; 1.20');
  await field('import-wires').press('Enter');
  await drawn.locator('[data-height="1200"]').waitFor({ state: 'attached' });
  assert.deepEqual(await wires(), [600, 1200]);
  assert.equal(await field('import-wires').inputValue(), '0.60 m; 1.20 m');
  assert.equal(await field('import-wires').evaluate((e) => e === document.activeElement), true, 'the focus stays');
  await field('import-covering').selectOption('plastic');
  await field('import-wall-height').fill('2.2');
  await field('import-lengths').selectOption('in all');
  await field('import-leaf').fill('5');
  // Pressed at once: the answer that is still in the field is in the row too.
  await page.locator('[data-act=import-use]').click();
  await page.waitForSelector('.stage [data-tree="1"]');
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.locator('.doings .more summary').click().then(() => page.locator('[data-act=save-table]').click()),
  ]);
  const { readFile } = await import('node:fs/promises');
  const text = await readFile(await download.path(), 'utf8');
  for (const line of ['coming leaf,5', 'wire,0.600 m,plastic', 'wire,1.200 m,plastic', 'wall height,2.200 m']) {
    assert.ok(text.split('\n').includes(line), `${line} is not in\n${text}`);
  }
  // The single length of older wood is shared out over its four seasons.
  assert.match(text, /^1,0\.800,upright,(?:[^,]*,)?(?:\d\.\d+ \+ ){3}\d\.\d+,14/m);
});

pageTest('where most lines are bad the safe answer has the focus, and a press of Enter leaves the table', {}, async ({ page }) => {
  await bring(page, `${OLDER}\n${'x;y;z;q\n'.repeat(1)}${[1, 2, 3, 4, 5, 6].map((n) => `3;${n};upright;1;;`).join('\n')}`);
  await page.locator('.bad-lines').waitFor();
  assert.equal(await page.evaluate(() => document.activeElement.dataset.act), 'import-leave');
  assert.equal(await page.locator('[data-act=import-use]').isEnabled(), true);
  await page.keyboard.press('Enter');
  await page.locator('dialog.sheet').waitFor({ state: 'detached' });
  assert.equal(await page.locator('.start').count(), 1);
});
