// What is seen: menus as wide as their words, signs that a reader's own colours leave alone, notes where they were made.
import assert from 'node:assert/strict';
import { example, part } from './desk.mjs';
import { accessibility, frames, pageTest } from './rig.mjs';

pageTest('the menu of files is as wide as its words', {}, async ({ page }) => {
  await example(page);
  await page.locator('.more summary').click();
  const lines = await page.$$eval('.more .menu > button', (all) => all.map((e) => [e.textContent.trim(), e.getBoundingClientRect().height, parseFloat(getComputedStyle(e).lineHeight)]));
  for (const [words, height, line] of lines) assert.ok(height < 1.9 * line, `${words}: ${height} px`);
  const box = await page.locator('.more .menu').boundingBox();
  assert.ok(box.x >= 0 && box.x + box.width <= 1280, JSON.stringify(box));
});

/** The shares of the colours of an element as it is painted, the most frequent first. */
async function colours(page, locator) {
  const png = (await locator.screenshot()).toString('base64');
  return page.evaluate(async (png) => {
    const bytes = Uint8Array.from(atob(png), (c) => c.charCodeAt(0));
    const image = await createImageBitmap(new Blob([bytes], { type: 'image/png' }));
    const canvas = new OffscreenCanvas(image.width, image.height);
    const context = canvas.getContext('2d');
    context.drawImage(image, 0, 0);
    const { data } = context.getImageData(0, 0, image.width, image.height);
    const counts = new Map();
    for (let i = 0; i < data.length; i += 4) {
      const colour = data.slice(i, i + 3).join(' ');
      counts.set(colour, (counts.get(colour) ?? 0) + 1);
    }
    return [...counts].sort((a, b) => b[1] - a[1]).map(([colour, count]) => [colour, count / (image.width * image.height)]);
  }, png);
}

for (const colorScheme of ['light', 'dark']) {
  pageTest(`in a reader's own colours, ${colorScheme}, the key of the band shows what the band shows`, { context: { forcedColors: 'active', colorScheme } }, async ({ page }) => {
    await example(page, 'short-stock.json');
    const paper = (await colours(page, page.locator('.under-band > span').first()))[0][0];
    const shown = {};
    for (const kind of ['filled', 'bare', 'twice']) shown[kind] = await colours(page, page.locator(`.under-band .swatch.${kind}`));
    const ink = (kind) => shown[kind].filter(([colour]) => colour !== paper).reduce((sum, [, share]) => sum + share, 0);
    assert.ok(ink('filled') > 0.9, JSON.stringify(shown.filled));
    assert.ok(ink('twice') > 0.9, JSON.stringify(shown.twice));
    assert.notEqual(shown.filled[0][0], shown.twice[0][0]);
    // Striped: neither a frame alone nor filled.
    assert.ok(ink('bare') > 0.35 && ink('bare') < 0.9, JSON.stringify(shown.bare));
    // The band itself has the colour of its key.
    const band = await colours(page, page.locator('div.band'));
    assert.ok(band.some(([colour, share]) => colour === shown.filled[0][0] && share > 0.02), JSON.stringify(band.slice(0, 5)));
    assert.deepEqual(await accessibility(page), []);
  });
}

pageTest('what is noted of a shoot is seen on its card, in the list, on the wall and on paper, and can be corrected', {}, async ({ page }) => {
  const table = ['tree,place (m),kind,length (m),diameter (mm),pose,note', '1,0.00,leader,2.2,30,45,', '1,0.80,upright,1.2,14,,canker at the base', '1,1.00,upright,1.2,14,,'].join('\n');
  await page.locator('input[type=file]').first().setInputFiles({ name: 'noted.csv', mimeType: 'text/csv', buffer: Buffer.from(table) });
  await page.locator('[data-act=import-use]').click();
  await page.waitForSelector('.stage [data-tree="1"]');
  await page.locator('.part-list summary').click();
  const upright = part(page, 'name-upright', { number: 1, of: 2, tree: 1 });
  assert.match(await upright.innerText(), /canker at the base/);
  await upright.click();
  assert.match(await page.locator('.part-card .facts').innerText(), /canker at the base/);
  const sign = page.locator('.stage [data-part]:has(.note-sign)');
  assert.equal(await sign.count(), 1);
  assert.equal(await sign.locator('title').textContent(), 'canker at the base');
  const onPaper = async () => {
    await page.evaluate(() => window.dispatchEvent(new Event('beforeprint')));
    const words = await page.evaluate(() => [...document.querySelector('#print-sheets').shadowRoot.querySelectorAll('text')].map((e) => e.textContent).join(' '));
    await page.evaluate(() => window.dispatchEvent(new Event('afterprint')));
    return words;
  };
  assert.match(await onPaper(), /canker at the base/);
  // Where the record is corrected it can be written over, of the shoot alone.
  await page.locator('[data-act=correct]').check();
  await frames(page, 2);
  const note = page.locator('.part-card [data-field=measure-note] input');
  assert.equal(await note.inputValue(), 'canker at the base');
  await note.fill('cut out');
  await note.press('Enter');
  await page.locator('[data-act=correct]').uncheck();
  await frames(page, 2);
  assert.match(await upright.innerText(), /cut out/);
  assert.match(await onPaper(), /cut out/);
  assert.doesNotMatch(await part(page, 'name-upright', { number: 2, of: 2, tree: 1 }).innerText(), /cut out/);
});
