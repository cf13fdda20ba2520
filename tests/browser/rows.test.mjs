// Rows that come and go: one over another, back and forward between them, alike by name, on a page that is not in sight.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { example, saved } from './desk.mjs';
import { firefoxTest } from './firefox.mjs';
import { ChromiumHands, FirefoxHands } from './hands.mjs';
import { frames, pageTest } from './rig.mjs';
import { like, say } from './words.mjs';

const file = (name) => new URL(`../../examples/${name}`, import.meta.url).pathname;

const bring = async (page, name) => {
  await page.locator('input[type=file]').first().setInputFiles(file(name));
};

pageTest('a row opened over another takes its place on the wall, wholly', {}, async ({ page }) => {
  await example(page, 'overdue-renewal.json');
  const layers = await page.locator('.stage > *').count();
  const bands = await page.locator('div.band > *').count();
  await page.locator('[data-act=light]').click();
  await bring(page, 'two-cordons.json');
  await page.waitForFunction((name) => document.querySelector('.row-name').value === name, JSON.parse(await readFile(file('two-cordons.json'), 'utf8')).name);
  await frames(page, 3);
  assert.equal(await page.locator('.stage > *').count(), layers, 'what the wall is painted on stands once');
  assert.equal(await page.locator('div.band > *').count(), bands);
  const shown = () => page.$$eval('.stage [data-part]', (all) => all.map((e) => e.dataset.part));
  const over = await shown();
  assert.equal(new Set(over).size, over.length, 'every shoot is drawn once');
  // The same as where it is the first that is opened.
  await page.locator('.doings .more summary').click();
  await page.locator('[data-act=other-row]').click();
  await example(page, 'two-cordons.json');
  await page.locator('[data-act=fit-height]').click();
  await frames(page, 2);
  assert.deepEqual(await shown(), over);
});

pageTest('a row that is opened out of sight fills its wall once it is seen', {}, async ({ page }) => {
  await page.evaluate(() => {
    const style = document.createElement('style');
    style.id = 'out-of-sight';
    style.textContent = '.stage { display: none }';
    document.head.append(style);
  });
  await page.locator('[data-example="examples/third-leaf.json"]').click();
  await page.locator('.stage').waitFor({ state: 'attached' });
  await frames(page, 3);
  await page.evaluate(() => document.querySelector('#out-of-sight').remove());
  await page.locator('.stage .tree[data-tree="1"]').waitFor();
  await frames(page, 3);
  const stage = await page.locator('.stage').boundingBox();
  const tree = await page.locator('.stage .tree[data-tree="1"]').boundingBox();
  assert.ok(tree.height > stage.height / 3, `a tree of ${tree.height} px on a wall of ${stage.height} px`);
});

/** One test in both browsers. */
function both(name, run) {
  pageTest(name, {}, ({ page }) => run(new ChromiumHands(page)));
  firefoxTest(name, {}, ({ page }) => run(new FirefoxHands(page)));
}

both('Back and Forward lead between the start page, its ways and the rows, and not off the page', async (hands) => {
  const { page } = hands;
  const name = () => hands.value('.row-name');
  const began = await page.evaluate(() => performance.timeOrigin);
  await hands.wait('.start');
  await hands.press('[data-way=make]');
  await hands.wait('.start.entry');
  await hands.press('.entry button.main');
  await hands.wait('.stage [data-tree]');
  const made = await name();
  await hands.says('.kept-state', like('kept-saved'));
  await hands.bring(file('third-leaf.json'));
  await hands.until((made) => document.querySelector('.row-name').value !== made, made);
  const second = await name();
  await hands.says('.kept-state', like('kept-saved'));
  const back = () => page.evaluate(() => history.back());
  await back();
  await hands.until((made) => document.querySelector('.row-name')?.value === made, made);
  await hands.wait('.stage [data-tree]');
  await back();
  await hands.wait('.start.entry');
  await back();
  await hands.wait('[data-example="examples/third-leaf.json"]');
  await page.evaluate(() => history.go(3));
  await hands.until((second) => document.querySelector('.row-name')?.value === second, second);
  // To another row by its name in the menu, and back from there.
  await hands.press('.doings .more summary');
  await hands.press('[data-act=other-row]');
  await hands.wait('.start .kept');
  await back();
  await hands.until((second) => document.querySelector('.row-name')?.value === second, second);
  assert.equal(await page.evaluate(() => performance.timeOrigin), began, 'all on one page');
});

pageTest('rows of one name are told apart, and what takes one off says which', {}, async ({ page }) => {
  for (const name of ['third-leaf.json', 'lost-tree.json', 'third-leaf.json']) {
    await example(page, name);
    await saved(page);
    await page.locator('.doings .more summary').click();
    await page.locator('[data-act=other-row]').click();
    await page.locator('.start .kept').waitFor();
  }
  const lines = page.locator('.kept li');
  await page.waitForFunction(() => document.querySelectorAll('.kept li').length === 3);
  const names = await lines.locator('.name').allInnerTexts();
  assert.equal(new Set(names).size, 3, names.join('\n'));
  const alike = names.filter((name) => /\(\d\)$/.test(name)).sort();
  const row = alike[0].replace(/ \(\d\)$/, '');
  assert.deepEqual(alike, [say('kept-alike', { row, number: 1 }), say('kept-alike', { row, number: 2 })]);
  assert.match(await lines.first().innerText(), like('kept-leaf', { leaf: 3 }));
  // Its name begins with the words that are seen on it.
  for (let i = 0; i < 3; i += 1) {
    const take = lines.nth(i).getByRole('button', { name: say('kept-forget-which', { row: names[i] }), exact: true });
    assert.ok((await take.getAttribute('aria-label')).startsWith((await take.innerText()).trim()));
  }
  // The one that is named goes.
  await lines.getByRole('button', { name: say('kept-forget-which', { row: alike[0] }), exact: true }).click();
  await page.waitForFunction(() => document.querySelectorAll('.kept li:not(.gone)').length === 2);
  // The other has its name for itself.
  await page.waitForFunction((row) => [...document.querySelectorAll('.kept li .name')].some((e) => e.textContent === row), row);
});
