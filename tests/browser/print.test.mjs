// What comes out of the printer: the sheets, and nothing else of the page.
import assert from 'node:assert/strict';
import { pageTest } from './rig.mjs';
import { like, say } from './words.mjs';

/** Begins to print, and gives what each sheet holds, by the browser's own measure. */
async function beginPrint(page) {
  await page.emulateMedia({ media: 'print' });
  await page.evaluate(() => window.dispatchEvent(new Event('beforeprint')));
  return page.evaluate(() => {
    const pages = [...document.querySelector('#print-sheets').shadowRoot.querySelectorAll('svg[role=img]')];
    return pages.map((sheet) => {
      const own = sheet.getBoundingClientRect();
      const texts = [...sheet.querySelectorAll('text')];
      // What an inner drawing cuts off may reach beyond it.
      const shown = texts.filter((t) => !t.closest('svg[role=img] svg'));
      const out = shown.filter((t) => {
        const box = t.getBoundingClientRect();
        return box.left < own.left + 30 || box.right > own.right - 30 || box.top < own.top + 30 || box.bottom > own.bottom - 30;
      });
      return {
        width: own.width,
        height: own.height,
        right: Math.max(0, ...[...sheet.querySelectorAll('.sheet-strip > svg')].map((e) => e.x.baseVal.value + e.width.baseVal.value)),
        bottom: Math.max(0, ...[...sheet.querySelectorAll('.sheet-strip')].map((e) => e.getBoundingClientRect().bottom - own.top)),
        trees: new Set([...sheet.querySelectorAll('.tree-number')].map((e) => e.textContent)).size,
        boxes: sheet.querySelectorAll('.tick-box').length,
        signs: sheet.querySelectorAll('.work').length,
        words: texts.map((t) => t.textContent).join(' '),
        out: out.map((t) => t.textContent),
      };
    });
  });
}

async function endPrint(page) {
  await page.evaluate(() => window.dispatchEvent(new Event('afterprint')));
  await page.emulateMedia({ media: 'screen' });
}

function within(sheets) {
  for (const sheet of sheets) {
    // A4 on its side, in CSS's pixels.
    assert.ok(Math.abs(sheet.width - 297 * (96 / 25.4)) < 1, `${sheet.width}`);
    assert.ok(Math.abs(sheet.height - 210 * (96 / 25.4)) < 1, `${sheet.height}`);
    assert.ok(sheet.right < sheet.width && sheet.bottom < sheet.height, JSON.stringify(sheet));
    assert.deepEqual(sheet.out, []);
  }
}

pageTest('the whole row is laid on pages to scale, and nothing else of the page is printed', {}, async ({ page }) => {
  await page.locator('[data-example="examples/measured-40.csv"]').click();
  await page.locator('[data-act=import-use]').click();
  await page.waitForSelector('.stage [data-tree]');
  const open = await page.locator('.work-list').getAttribute('open');
  const sheets = await beginPrint(page);
  assert.ok(sheets.length >= 2);
  within(sheets);
  const walls = sheets.filter((s) => s.right > 0);
  assert.ok(walls.length >= 2 && walls.every((s) => s.trees > 5), JSON.stringify(walls));
  for (const part of ['.stage', 'header', '[data-act=light]', '.findings', '.work-list', '.figures']) {
    assert.equal(await page.locator(part).first().isVisible(), false, part);
  }
  await endPrint(page);
  assert.equal(await page.locator('#print-sheets').count(), 0);
  assert.equal(await page.locator('.work-list').getAttribute('open'), open);
  assert.ok(await page.locator('.stage').isVisible());
});

pageTest('every piece of work is a box on paper, the sixty-first too', {}, async ({ page }) => {
  await page.locator('[data-example="examples/measured-40.csv"]').click();
  await page.locator('[data-act=import-use]').click();
  await page.waitForSelector('.stage [data-tree]');
  await page.locator('#view-many > summary').click();
  // Laterals alone are fewer pieces: last year's growth is tipped as well.
  await page.locator('#view-many [data-act=many-do]').click();
  await page.locator('[data-field="many-what"]').selectOption('sweep-tip');
  await page.locator('#view-many [data-act=many-do]').click();
  const listed = Number((await page.locator('.work-list summary').textContent()).match(/\d+/)[0]);
  assert.ok(listed > 60, `${listed}`);
  await page.locator('[data-act=work-before]').check();
  const sheets = await beginPrint(page);
  within(sheets);
  assert.equal(sheets.reduce((n, s) => n + s.boxes, 0), listed);
  assert.ok(sheets.reduce((n, s) => n + s.signs, 0) >= listed);
  const figure = await page.locator('[data-figure=figure-uprights]').textContent();
  const words = sheets.map((s) => s.words).join(' ');
  assert.ok(words.includes(figure.trim()), figure);
  for (let at = 1; at <= sheets.length; at += 1) assert.match(words, like('draw-page', { page: at, pages: sheets.length }));
  await endPrint(page);
});

pageTest('a print that is asked for before its part has come waits for it; the browser’s own says that it came too soon', {}, async ({ page }) => {
  let come;
  const held = new Promise((done) => (come = done));
  await page.route(/split_paper/, async (route) => {
    await held;
    await route.continue();
  });
  await page.evaluate(() => {
    window.print = () => {
      window.dispatchEvent(new Event('beforeprint'));
      window.printed = document.querySelector('#print-sheets')?.shadowRoot.querySelectorAll('svg[role=img]').length ?? 0;
      window.dispatchEvent(new Event('afterprint'));
    };
  });
  await page.locator('[data-example="examples/third-leaf.json"]').click();
  await page.waitForSelector('.stage [data-tree]');
  await page.evaluate(() => window.print());
  assert.equal(await page.evaluate(() => window.printed), 0);
  await page.locator('.notice', { hasText: say('print-early') }).waitFor();
  await page.evaluate(() => (window.printed = undefined));
  await page.keyboard.press('Control+p');
  await page.waitForTimeout(100);
  assert.equal(await page.evaluate(() => window.printed), undefined, 'it waits');
  come();
  await page.waitForFunction(() => window.printed > 0);
});
