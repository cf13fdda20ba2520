// What was done outlives the page: steps can be undone after a reload, and the wall is where it was.
import assert from 'node:assert/strict';
import { example, figure, findings, saved } from './desk.mjs';
import { frames, pageTest } from './rig.mjs';
import { like, say } from './words.mjs';

const named = (page) => page.locator('.row-name').inputValue();
const opened = async (page) => {
  await page.waitForSelector('.stage [data-tree]');
  await frames(page, 2);
};
/** Names the row so many times, each a step. */
const name = (page, count) =>
  page.evaluate((count) => {
    const field = document.querySelector('.row-name');
    for (let i = 1; i <= count; i += 1) {
      field.value = `name ${i}`;
      field.dispatchEvent(new Event('change'));
    }
  }, count);

pageTest('sixty steps are undone and done again after a reload', {}, async ({ page }) => {
  await example(page);
  const first = await named(page);
  const before = await figure(page, 'figure-bare');
  await findings(page, 'cordon-gap').locator('[data-remedy]').first().click();
  assert.notEqual(await figure(page, 'figure-bare'), before);
  await name(page, 60);
  await saved(page);
  await page.reload();
  await opened(page);
  assert.equal(await named(page), 'name 60');
  const undo = page.locator('[data-act=undo]');
  assert.match(await undo.getAttribute('title'), like('undo-step', { step: say('step-name') }));
  for (let i = 0; i < 60; i += 1) await page.locator('.stage').press('Control+z');
  assert.equal(await named(page), first);
  assert.match(await undo.getAttribute('title'), like('undo-step', { step: say('step-remedy') }));
  await saved(page);
  // Where undo stands is kept as well, with what can be done again.
  await page.reload();
  await opened(page);
  assert.equal(await named(page), first);
  for (let i = 0; i < 25; i += 1) await page.locator('.stage').press('Control+y');
  assert.equal(await named(page), 'name 25');
  for (let i = 0; i < 26; i += 1) await page.locator('.stage').press('Control+z');
  assert.equal(await undo.isDisabled(), true);
  assert.equal(await figure(page, 'figure-bare'), before);
});

pageTest('place and zoom are what they were after a reload', {}, async ({ page }) => {
  await example(page, 'overdue-renewal.json');
  await saved(page);
  await page.locator('.season input').nth(2).check();
  await page.locator('.stage').focus();
  for (let i = 0; i < 3; i += 1) await page.keyboard.press('+');
  const box = await page.locator('.stage').boundingBox();
  await page.mouse.move(box.x + 300, box.y + 200);
  await page.mouse.wheel(900, 0);
  await frames(page, 3);
  const seen = () => page.evaluate(() => ({
    trees: [...document.querySelectorAll('.stage [data-tree]')].map((e) => e.getBoundingClientRect()).map(({ x, y, width }) => [x, y, width].map(Math.round)),
    window: [...document.querySelectorAll('.season input')].findIndex((e) => e.checked),
  }));
  const before = await seen();
  assert.equal(before.window, 2);
  await page.reload();
  await opened(page);
  assert.deepEqual(await seen(), before);
  // Another row begins at its own beginning.
  await page.locator('.doings .more summary').click();
  await page.locator('[data-act=other-row]').click();
  await page.locator('.start .kept').waitFor();
  await page.locator('.kept li button.link:not(.quiet)').first().click();
  await opened(page);
  assert.deepEqual(await seen(), before);
});

pageTest('the number under a tree says at once whether it stands, when it is planted and when that is undone', {}, async ({ page }) => {
  await example(page, 'lost-tree.json');
  const number = page.locator('.tree-number[data-tree="5"]');
  const lost = say('draw-tree-lost', { tree: 5 });
  assert.equal(await number.textContent(), lost);
  await page.locator('[data-remedy]:not([aria-disabled])', { hasText: like('remedy-replant', { tree: 5 }) }).first().click();
  await frames(page, 2);
  assert.notEqual(await number.textContent(), lost);
  await page.locator('.stage').press('Control+z');
  await frames(page, 2);
  assert.equal(await number.textContent(), lost);
});
