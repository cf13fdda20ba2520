// Tipping: what comes off is seen as a curve before it is cut, beside the shoot and its neighbours.
import assert from 'node:assert/strict';
import { example, part, phone } from './desk.mjs';
import { frames, pageTest } from './rig.mjs';
import { like } from './words.mjs';

/** Chooses an upright of the row in leaf 4 and has the number asked by which it is tipped. */
async function ask(page, tree = 4) {
  await example(page);
  await page.locator('.year[data-leaf="4"] input').check();
  await page.locator('.season').first().getByRole('radio', { name: like('window-dormant') }).check();
  await page.locator('.part-list summary').click();
  await page.locator('.part-list select').selectOption(String(tree));
  await part(page, 'name-upright', { number: 3, tree }).click();
  await page.locator('[data-act="act-tip"]').click();
  await page.locator('.ask .tip svg').waitFor();
}

const told = (page) => page.locator('.tip .facts').textContent();
const place = (page, what) => page.locator(`.tip ${what}`).getAttribute('d');

pageTest('the curve tells what a tip takes of the harvest after the coming one, and its marks move with the hand', {}, async ({ page }) => {
  await ask(page);
  assert.match(await told(page), like('tip-acts-crop', { leaf: 5, length: '20 %', sites: '48 %' }));
  const [drawn, under] = await Promise.all(['svg', 'input'].map((one) => page.locator(`.tip ${one}`).boundingBox()));
  assert.ok(drawn.y + drawn.height <= under.y + 1, 'it lies over nothing');
  const curve = await place(page, '.course:not(.other)');
  const before = await place(page, '.marks:not(.other)');
  const slider = page.locator('.tip input');
  await slider.scrollIntoViewIfNeeded();
  const box = await slider.boundingBox();
  await page.mouse.move(box.x + box.width * 0.36, box.y + box.height / 2);
  await page.mouse.down();
  const seen = [];
  for (const at of [0.5, 0.7, 0.9]) {
    await page.mouse.move(box.x + box.width * at, box.y + box.height / 2);
    await frames(page, 2);
    seen.push(await place(page, '.marks:not(.other)'));
  }
  await page.mouse.up();
  assert.equal(new Set([before, ...seen]).size, 4);
  assert.equal(await place(page, '.course:not(.other)'), curve);
  // What is typed moves it too, and what the slider says is what is done.
  await page.locator('.ask input[type="text"]').fill('18');
  assert.match(await told(page), like('tip-acts-crop', { leaf: 5, length: '18 %', sites: '46 %' }));
  await slider.press('ArrowRight');
  assert.equal(await page.locator('.ask input[type="text"]').inputValue(), '19 %');
  await page.locator('[data-act="do"]').click();
  await page.locator('.part-card .done', { hasText: '19 %' }).waitFor();
  // It begins where it was left.
  await page.locator('[data-act="act-tip"]').click();
  await page.locator('.ask .tip svg').waitFor();
  assert.equal(await page.locator('.ask input[type="text"]').inputValue(), '19 %');
});

for (const tree of [1, 4]) {
  pageTest(`the curve leaves the neighbours of what is chosen in sight, tree ${tree}`, {}, async ({ page }) => {
    await ask(page, tree);
    // What is scrolled out of its column covers nothing.
    const card = await page.locator('.chosen-column').boundingBox();
    const uprights = page.locator(`.stage [data-tree="${tree}"] [data-part] .wood`);
    const boxes = await Promise.all((await uprights.all()).map((one) => one.boundingBox()));
    assert.ok(boxes.length > 4);
    const over = (box) => box.x < card.x + card.width && card.x < box.x + box.width && box.y < card.y + card.height && card.y < box.y + box.height;
    assert.deepEqual(boxes.filter(over), []);
  });
}

pageTest('on a telephone the curve is in the card at the foot of the screen', phone, async ({ page }) => {
  await ask(page);
  await page.locator('.tip svg').scrollIntoViewIfNeeded();
  const box = await page.locator('.tip svg').boundingBox();
  assert.ok(box.x >= 0 && box.x + box.width <= 390 && box.y + box.height <= 844, JSON.stringify(box));
});
