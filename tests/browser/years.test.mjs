// The year strip: what is done in one leaf moves the later ones, and what stands is planned by a hand and given back.
import assert from 'node:assert/strict';
import { example, phone, plant } from './desk.mjs';
import { frames, pageTest } from './rig.mjs';
import { like, say, whole } from './words.mjs';

/** What the strip says of a leaf. */
const told = (page, leaf, line) => page.locator(`.year[data-leaf="${leaf}"] .${line}`).textContent();
/** Goes to a leaf, and to one of its times. */
async function go(page, leaf, window) {
  await page.locator(`.year[data-leaf="${leaf}"] input`).check();
  await page.locator('.season').first().getByRole('radio', { name: like(window) }).check();
  await frames(page, 2);
}
const crops = (page) => page.locator('.year .year-crop').evaluateAll((all) => all.map((e) => e.textContent.replace(/[^\d.,]/g, '')));

pageTest('a change in a leaf moves the crop of later leaves and of none before, and undo moves it back', {}, async ({ page }) => {
  await example(page);
  await go(page, 5, 'window-dormant');
  const before = await crops(page);
  assert.match(await told(page, 10, 'year-crop'), whole('year-crop-about'));
  await page.locator('.stage').focus();
  await page.keyboard.press('ArrowRight');
  for (let i = 0; i < 8; i += 1) {
    await page.keyboard.press('Delete');
    await page.keyboard.press('ArrowRight');
  }
  await frames(page, 3);
  const after = await crops(page);
  assert.deepEqual(after.slice(0, 2), before.slice(0, 2), 'leaves 3 and 4 stay');
  assert.notDeepEqual(after.slice(2), before.slice(2));
  assert.equal(await page.locator('.year[data-leaf="5"]').getAttribute('data-work'), 'part');
  for (let i = 0; i < 12 && (await page.locator('.year[data-leaf="5"]').getAttribute('data-work')) === 'part'; i += 1) {
    await page.keyboard.press('Control+z');
    await frames(page, 2);
  }
  assert.deepEqual(await crops(page), before);
});

pageTest('a window that stands says so, is planned by working in it, and is given back', {}, async ({ page }) => {
  await example(page);
  await go(page, 4, 'window-dormant');
  await page.locator('.work-list', { hasText: say('work-stands') }).waitFor();
  const summary = page.locator('.work-list summary');
  const pieces = async () => Number((await summary.textContent()).match(/\d+/)[0]);
  const usual = await pieces();
  assert.ok(usual > 1);
  await page.locator('.work-list li .link').first().click();
  await page.locator('[data-act="stand-again"]').waitFor();
  assert.equal(await pieces(), usual - 1);
  await page.locator('[data-act="stand-again"]').click();
  await page.locator('.work-list', { hasText: say('work-stands') }).waitFor();
  assert.equal(await pieces(), usual);
});

pageTest('crops come with their range once the page rests; charts and tables say the same', {}, async ({ page }) => {
  await example(page);
  const range = page.locator('.year[data-leaf="5"] .year-range');
  await page.waitForFunction((e) => e.textContent !== '', await range.elementHandle(), { timeout: 60_000 });
  assert.match(await range.textContent(), whole('year-range'));
  assert.match(await told(page, 5, 'year-crop'), whole('year-crop'));
  await page.locator('[data-act="charts"]').click();
  const crop = page.locator('.charts figure').filter({ hasText: say('chart-crop') });
  const row = (name) => crop.locator('tr').filter({ hasText: name }).locator('td').allTextContents();
  assert.deepEqual(await row(say('chart-crop')), await crops(page).then((all) => all.map((c) => c || say('chart-no-crop'))));
  assert.equal((await row(say('chart-low'))).length, (await row(say('chart-crop'))).length);
  assert.equal(await page.locator('.charts svg').count(), await page.locator('.charts table').count());
  await page.keyboard.press('Escape');
  await page.locator('dialog.sheet').waitFor({ state: 'detached' });
});

pageTest('on a telephone the chosen leaf is in sight, and the page is no wider than the screen', phone, async ({ page }) => {
  await example(page);
  await page.locator('.year.here input').press('ArrowLeft');
  await frames(page, 4);
  const box = await page.locator('.year.here').boundingBox();
  assert.equal(await page.locator('.year.here').getAttribute('data-leaf'), '10');
  assert.ok(box.x >= 0 && box.x + box.width <= 390, JSON.stringify(box));
  assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth));
});

/** Takes the end of a shoot of tree 2 and moves it along; what the strip says after each step. */
async function dragged(page, steps, by) {
  const knob = page.locator('.handle[data-of="2/0"] .knob').first();
  const box = await knob.boundingBox();
  let [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  const seen = [];
  for (let i = 0; i < steps; i += 1) {
    [x, y] = [x + by.x / steps, y + by.y / steps];
    await page.mouse.move(x, y);
    await frames(page, 2);
    seen.push(await strip(page));
  }
  return seen;
}

/** All that the strip says, by leaf. */
const strip = (page) =>
  page.locator('.year').evaluateAll((all) => all.map((e) => ['fill', 'crop', 'oldest', 'work'].map((what) => e.querySelector(`.year-${what}`).textContent).join(' | ')));

pageTest('what a hand does in leaf 2 moves the leaves after it while it moves, leaf 1 stays, and it is what keys do', {}, async ({ page }) => {
  await plant(page, 4);
  await go(page, 2, 'window-dormant');
  const before = await strip(page);
  const seen = await dragged(page, 6, { x: -6, y: -60 });
  assert.ok(new Set(seen.map(String)).size > 3, 'they follow the hand');
  const held = seen.at(-1);
  for (const at of [before, ...seen]) assert.equal(at[0], before[0], 'leaf 1 stays');
  assert.ok(held.slice(2).filter((leaf, i) => leaf !== before[i + 2]).length > 3, 'later leaves follow');
  // Onto the wire: there it is caught.
  const wire = await page.evaluate(() => {
    const svg = document.querySelector('.stage svg.scene');
    const [, top, , high] = svg.getAttribute('viewBox').split(' ').map(Number);
    const box = svg.getBoundingClientRect();
    return box.top + ((-500 - top) * box.height) / high;
  });
  await page.mouse.move((await page.locator('.handle[data-of="2/0"] .knob').first().boundingBox()).x, wire, { steps: 4 });
  await frames(page, 3);
  const flat = await strip(page);
  await page.mouse.up();
  await frames(page, 3);
  assert.deepEqual(await strip(page), flat, 'exact in the hand');
  const done = () => page.locator('.part-card .done span').textContent();
  const byHand = await done();
  await page.keyboard.press('Control+z');
  await frames(page, 3);
  assert.deepEqual(await strip(page), before);
  // The same by keys: the end is lowered until it is on the wire.
  await page.locator('.stage').focus();
  for (let i = 0; i < 6 && (i === 0 || (await done()) !== byHand); i += 1) {
    await page.keyboard.press('ArrowDown');
    await frames(page, 3);
  }
  assert.equal(await done(), byHand);
  assert.deepEqual(await strip(page), flat);
});

pageTest('the keys of leaves and times are heard after a press on the strip, and not in a field', {}, async ({ page }) => {
  await example(page);
  const here = () => page.locator('.year.here').getAttribute('data-leaf');
  await page.locator('.year[data-leaf="4"] input').check();
  await page.keyboard.press('.');
  await frames(page, 2);
  assert.equal(await here(), '5');
  await page.keyboard.press('>');
  await frames(page, 2);
  const window = page.locator('.season label.here');
  assert.ok((await window.first().textContent()).includes(say('window-bud-swell')));
  await page.keyboard.press('<');
  await page.keyboard.press(',');
  await frames(page, 2);
  assert.equal(await here(), '4');
  await page.locator('.row-name').focus();
  await page.keyboard.press('.');
  await frames(page, 2);
  assert.equal(await here(), '4');
});

pageTest('a lesson is read whole, its question first, and the figures say when they are', {}, async ({ page }) => {
  await example(page, 'lessons/renewal-a-fifth-or-never.json');
  const note = page.locator('.row-note');
  // A word that asks, and of forty draws how many.
  assert.match(await note.textContent(), /^\p{Lu}\p{Ll}+: .*\d+ \p{Ll}+ 40/su);
  assert.ok(await note.evaluate((e) => e.scrollWidth <= e.clientWidth && e.scrollHeight <= e.clientHeight + 1));
  assert.match(await page.locator('[data-figures-when]').textContent(), like('figures-when'));
});
