// What comes out of the printer: the whole row to scale on pages of its own, and what is told of it.
import assert from 'node:assert/strict';
import { pageTest } from './rig.mjs';

pageTest('the whole row is laid on pages to scale, strips whole, with the work unfolded', {}, async ({ page }) => {
  await page.locator('[data-example="examples/measured-40.csv"]').click();
  await page.locator('[data-act=import-use]').click();
  await page.waitForSelector('.stage [data-tree]');
  await page.emulateMedia({ media: 'print' });
  await page.evaluate(() => window.dispatchEvent(new Event('beforeprint')));
  const laid = await page.evaluate(() => {
    const sheets = [...document.querySelector('#print-sheet').shadowRoot.querySelectorAll('svg[role=img]')];
    const box = (e) => e.getBoundingClientRect();
    return sheets.map((sheet) => ({
      width: box(sheet).width,
      height: box(sheet).height,
      right: Math.max(...[...sheet.querySelectorAll('.sheet-strip > svg')].map((e) => e.x.baseVal.value + e.width.baseVal.value)),
      bottom: Math.max(...[...sheet.querySelectorAll('.sheet-strip')].map((e) => box(e).bottom - box(sheet).top)),
      trees: [...new Set([...sheet.querySelectorAll('.tree-number')].map((e) => e.textContent))].length,
    }));
  });
  assert.ok(laid.length >= 2);
  for (const sheet of laid) {
    // A4 on its side, in CSS's pixels.
    assert.ok(Math.abs(sheet.width - 297 * (96 / 25.4)) < 1, `${sheet.width}`);
    assert.ok(Math.abs(sheet.height - 210 * (96 / 25.4)) < 1, `${sheet.height}`);
    assert.ok(sheet.right < sheet.width && sheet.bottom < sheet.height, JSON.stringify(sheet));
    assert.ok(sheet.trees > 5, JSON.stringify(sheet));
  }
  assert.equal(await page.locator('.stage').isVisible(), false);
  assert.equal(await page.locator('[data-act=light]').isVisible(), false);
  assert.equal(await page.locator('.work-list').getAttribute('open'), '');
  await page.evaluate(() => window.dispatchEvent(new Event('afterprint')));
  await page.emulateMedia({ media: 'screen' });
  assert.equal(await page.locator('#print-sheet').count(), 0);
  assert.equal(await page.locator('.work-list').getAttribute('open'), null);
  assert.ok(await page.locator('.stage').isVisible());
});
