// What the wood is coloured by: chosen, told on the shoots and by a key, kept on the device; and numbers that are the same everywhere.
import assert from 'node:assert/strict';
import { example, named, part } from './desk.mjs';
import { frames, pageTest } from './rig.mjs';
import { like } from './words.mjs';

const choice = (page) => page.locator('[data-field=colour-by]');
const key = (page) => page.locator('[data-figure=colour-key]');
const labels = (page) => page.locator('.stage .tone-label').allTextContents();
const tones = (page) =>
  page.evaluate(() => [...document.querySelectorAll('.stage .tone .wood')].map((e) => getComputedStyle(e).fill));

pageTest('the wood is coloured by its age: the number stands on the shoot, the key tells the tones, and the choice is kept', {}, async ({ page }) => {
  await example(page, 'third-leaf.json');
  assert.equal(await key(page).count(), 0);
  assert.deepEqual(await labels(page), []);
  await choice(page).selectOption('age');
  await frames(page, 2);
  const told = await key(page).textContent();
  assert.match(told, like('colour-told-age'));
  assert.match(told, like('tone-from', { from: 5 }));
  const ages = await labels(page);
  assert.ok(ages.length > 5 && ages.every((age) => /^\s*\d+\s*$/.test(age)), `${ages}`);
  assert.ok(new Set(await tones(page)).size > 1, 'more than one tone');
  // The page is loaded again on this device.
  await page.reload();
  await page.waitForSelector('.stage [data-tree]');
  await frames(page, 3);
  assert.equal(await choice(page).inputValue(), 'age');
  assert.deepEqual(await labels(page), ages);
  await choice(page).selectOption('bark');
  await frames(page, 2);
  assert.deepEqual(await labels(page), []);
  assert.equal(await key(page).count(), 0);
});

pageTest('colours of the light come with the light, and of the crop without it', {}, async ({ page }) => {
  await example(page, 'overdue-renewal.json');
  await choice(page).selectOption('light');
  await frames(page, 2);
  assert.match(await key(page).textContent(), like('colour-dark'));
  assert.deepEqual(await labels(page), []);
  await page.locator('[data-act=colour-light]').click();
  // Beside the light the wall is small: numbers stand on shoots that are drawn large enough.
  for (let n = 0; n < 3; n += 1) await page.locator('.stage').press('+');
  await page.locator('.stage .tone-label').first().waitFor();
  assert.doesNotMatch(await key(page).textContent(), like('colour-dark'));
  assert.ok((await labels(page)).every((share) => Number(share) >= 0 && Number(share) <= 100));
  await choice(page).selectOption('crop');
  await frames(page, 2);
  assert.ok((await labels(page)).some((fruit) => Number(fruit) > 0));
});

pageTest('in forced colours the numbers on the shoots tell what the tones can’t', { context: { forcedColors: 'active' } }, async ({ page }) => {
  await example(page, 'overdue-renewal.json');
  await choice(page).selectOption('age');
  await frames(page, 2);
  const fill = await page.evaluate(() => {
    const canvas = document.body.appendChild(document.createElement('i'));
    canvas.style.color = 'CanvasText';
    const label = document.querySelector('.stage .tone-label');
    return [getComputedStyle(label).fill, getComputedStyle(canvas).color];
  });
  assert.equal(fill[0], fill[1]);
  assert.match(await key(page).textContent(), like('tone-from', { from: 5 }));
});

pageTest('the number under an upright is that of its card, its list and its work', {}, async ({ page }) => {
  await example(page, 'third-leaf.json');
  await page.locator('.part-list summary').click();
  await part(page, 'name-upright', { number: 3, tree: 1 }).click();
  const title = (await page.locator('.part-card').getAttribute('aria-label')).trim();
  assert.match(title, named('name-upright', { number: 3, tree: 1 }));
  const under = await page.evaluate(() => {
    const wood = document.querySelector('.stage .shoot.chosen .wood').getBoundingClientRect();
    const numbers = [...document.querySelectorAll('.upright-number')].map((e) => [e, e.getBoundingClientRect()]);
    const away = ([, box]) => Math.hypot(box.x + box.width / 2 - (wood.x + wood.width / 2), box.top - wood.bottom);
    return numbers.sort((a, b) => away(a) - away(b))[0][0].textContent.trim();
  });
  assert.equal(under, '3');
  await page.locator('.stage').focus();
  await page.keyboard.press('s');
  await frames(page, 2);
  const list = page.locator('.work-list');
  if ((await list.getAttribute('open')) === null) await list.locator('summary').click();
  const lines = await list.locator('li .plain').allTextContents();
  const own = new RegExp(`^${like('work-line-at', { part: title }).source}`);
  assert.ok(lines.some((line) => own.test(line)), `${title}: ${lines}`);
  // After the work it is a stub of the same number.
  assert.match(await page.locator('.part-card').getAttribute('aria-label'), named('name-stub', { number: 3, tree: 1 }));
});
