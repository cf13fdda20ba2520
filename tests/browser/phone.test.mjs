// On a telephone: the wall begins in the upper half, menus stay on the screen, and a tree's card tells what the lists far below tell.
import assert from 'node:assert/strict';
import { example, findings, openMatters, phone } from './desk.mjs';
import { accessibility, frames, pageTest } from './rig.mjs';
import { like } from './words.mjs';

pageTest('the wall begins in the upper half of the screen, and no menu makes the page wider', phone, async ({ page }) => {
  await example(page);
  // The counts of what is to be done in each window come later, and move nothing.
  await page.locator('.now-count', { hasText: '▲' }).first().waitFor();
  await frames(page, 2);
  const top = await page.locator('.stage').evaluate((e) => e.getBoundingClientRect().top);
  assert.ok(top < 844 * 0.42, `the wall begins at ${top}`);
  const wide = () => page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
  for (const menu of await page.locator('header .more').all()) {
    await menu.locator('summary').tap();
    await frames(page, 2);
    const box = await menu.locator('.menu').boundingBox();
    assert.ok(box.x >= 0 && box.x + box.width <= 390, `${box.x} to ${box.x + box.width}`);
    assert.ok((await wide()) <= 0);
    await page.keyboard.press('Escape');
  }
  // A long name ends in dots; undo and redo keep their words for those who listen.
  const name = page.locator('.row-name');
  await name.fill('A name that is far too long for the line that it stands on, and goes on');
  assert.equal(await name.evaluate((e) => getComputedStyle(e).textOverflow), 'ellipsis');
  assert.ok((await wide()) <= 0);
  assert.ok((await page.locator('[data-act=undo]').textContent()).length > 0);
  assert.deepEqual(await accessibility(page), []);
});

pageTest('a tree’s card tells what is to be done there and what work stands', phone, async ({ page }) => {
  await example(page);
  await page.locator('.to-number input').fill('5');
  await page.locator('.to-number input').press('Enter');
  const card = page.locator('.part-card');
  await card.locator('.at-part li').first().waitFor();
  const told = await card.locator('.at-part').innerText();
  assert.match(told, like('card-found'));
  // What is found between it and the next is among it, and is among the matters.
  await openMatters(page);
  const first = (await findings(page, 'cordon-gap').first().locator('.said').first().innerText()).split('\n').pop();
  assert.ok(told.includes(first), `${first} is not in ${told}`);
  await card.locator('.close').tap();
  await page.locator('.to-number input').fill('1');
  await page.locator('.to-number input').press('Enter');
  await page.locator('.part-card .at-part', { hasText: like('card-work') }).waitFor();
  const works = await page.locator('.part-card .at-part ul').first().locator('li').count();
  const all = await page.locator('.work-list li', { hasText: like('name-of-tree', { tree: 1 }) }).count();
  assert.ok(works > 0 && works <= all, `${works} of ${all}`);
});
