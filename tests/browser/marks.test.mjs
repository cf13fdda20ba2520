// Marks on the wall: put by presses or at what is chosen, listed, changed, removed, on paper.
import assert from 'node:assert/strict';
import { example, saved } from './desk.mjs';
import { accessibility, frames, pageTest } from './rig.mjs';
import { like, say } from './words.mjs';

/** Opens the list of marks and gives it. */
async function marks(page) {
  const view = page.locator('#view-marks');
  await view.locator('summary').click();
  await view.locator('[data-mark-kind]').first().waitFor();
  return view;
}

/** A place of the wall on the screen, as shares of its width and height. */
async function spot(page, x, y) {
  const box = await page.locator('#wall').boundingBox();
  return [box.x + x * box.width, box.y + y * box.height];
}

const kind = (view, key) => view.locator(`[data-mark-kind=${key}]`);

pageTest('three marks are put by presses, listed with their places, and undone', {}, async ({ page }) => {
  await example(page, 'uneven-uprights.json');
  const view = await marks(page);
  await kind(view, 'mark-note').click();
  assert.equal(await kind(view, 'mark-note').getAttribute('aria-pressed'), 'true');
  await page.mouse.click(...(await spot(page, 0.3, 0.15)));
  const text = view.locator('[data-field=mark-text]');
  await text.fill('a <b>bare</b> place');
  await text.press('Enter');
  await kind(view, 'mark-distance').click();
  await page.mouse.click(...(await spot(page, 0.4, 0.2)));
  await view.getByText(say('mark-to')).waitFor();
  await page.mouse.click(...(await spot(page, 0.5, 0.2)));
  await view.locator('[data-act=mark-put]').click();
  await kind(view, 'mark-stretch').click();
  await page.mouse.click(...(await spot(page, 0.55, 0.1)));
  await page.mouse.click(...(await spot(page, 0.7, 0.6)));
  await text.fill('weak');
  await view.locator('[data-act=mark-put]').click();
  const lines = view.locator('[data-mark-line]');
  await lines.nth(2).waitFor();
  assert.match(await lines.nth(0).textContent(), /<b>bare<\/b> place/);
  assert.equal(await page.locator('.stage .mark').count(), 3);
  assert.equal(await page.locator('.stage .mark-length').count(), 1);
  assert.equal(await page.locator('.stage b').count(), 0, 'words are words');
  // Nothing of the row has changed, and each mark is a step.
  await page.locator('[data-act=undo]').first().click();
  await lines.nth(2).waitFor({ state: 'detached' });
  assert.equal(await page.locator('.stage .mark').count(), 2);
  await saved(page);
  await page.reload();
  await page.locator('.stage .mark').nth(1).waitFor();
});

pageTest('by keys alone a mark is put at what is chosen, changed and removed; Escape gives it up', {}, async ({ page }) => {
  await example(page, 'uneven-uprights.json');
  const view = await marks(page);
  await kind(view, 'mark-arrow').focus();
  await page.keyboard.press('Enter');
  await page.locator('#wall').focus();
  await page.keyboard.press('Escape');
  await frames(page, 2);
  assert.equal(await kind(view, 'mark-arrow').getAttribute('aria-pressed'), 'false');
  await page.locator('#wall').focus();
  await page.keyboard.press('ArrowRight');
  await kind(view, 'mark-note').focus();
  await page.keyboard.press('Enter');
  const chosen = view.locator('[data-act=mark-at-chosen]');
  await chosen.focus();
  await page.keyboard.press('Enter');
  const text = view.locator('[data-field=mark-text]');
  await page.waitForFunction(() => document.activeElement?.dataset.field === 'mark-text');
  await page.keyboard.press('Enter');
  assert.match(await view.getByRole('alert').textContent(), like('refusal-mark-text'));
  await text.fill('first');
  await page.keyboard.press('Enter');
  const line = view.locator('[data-mark-line]').first();
  await line.waitFor();
  assert.match(await line.textContent(), /: first/);
  await line.locator('[data-act=mark-change]').click();
  const change = view.locator('[data-field=mark-change]');
  await change.fill('second');
  await change.press('Tab');
  await view.getByText(': second').waitFor();
  assert.deepEqual(await accessibility(page), []);
  await view.locator('[data-act=mark-remove]').first().click();
  await view.getByText(say('marks-none')).waitFor();
});

pageTest('a mark rides along with the wood that it is put on', {}, async ({ page }) => {
  await example(page, 'uneven-uprights.json');
  const view = await marks(page);
  await page.locator('#wall').focus();
  // A shoot that a hand can bend.
  for (let n = 0; n < 3; n += 1) await page.keyboard.press('ArrowRight');
  await kind(view, 'mark-note').click();
  await view.locator('[data-act=mark-at-chosen]').click();
  await view.locator('[data-field=mark-text]').fill('this one');
  await page.keyboard.press('Enter');
  const pin = page.locator('.stage .mark .pin');
  const place = () => pin.getAttribute('transform');
  await pin.waitFor();
  const before = await place();
  await page.locator('#wall').focus();
  await page.keyboard.press('ArrowDown');
  await page.waitForFunction((was) => document.querySelector('.stage .mark .pin').getAttribute('transform') !== was, before);
  await page.keyboard.press('Control+z');
  await page.waitForFunction((was) => document.querySelector('.stage .mark .pin').getAttribute('transform') === was, before);
});
