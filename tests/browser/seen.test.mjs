// What is seen: menus as wide as their words, signs that a reader's own colours leave alone, notes where they were made.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { example, findings, part, remedyIn } from './desk.mjs';
import { accessibility, frames, pageTest } from './rig.mjs';

pageTest('the menu of files is as wide as its words', {}, async ({ page }) => {
  await example(page);
  await page.locator('.doings .more summary').click();
  const lines = await page.$$eval('.doings .more .menu > button', (all) => all.map((e) => [e.textContent.trim(), e.getBoundingClientRect().height, parseFloat(getComputedStyle(e).lineHeight)]));
  for (const [words, height, line] of lines) assert.ok(height < 1.9 * line, `${words}: ${height} px`);
  const box = await page.locator('.doings .more .menu').boundingBox();
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

pageTest('what was noted of a shoot stands beside the remedy that is work on it', {}, async ({ page }) => {
  const plan = JSON.parse(await readFile(new URL('../../examples/third-leaf.json', import.meta.url), 'utf8'));
  const shoots = plan.found.trees.find((tree) => tree.id === 5).shoots;
  shoots.find((shoot) => shoot.id === 1).note = 'crossing, take off';
  await page.locator('input[type=file]').first().setInputFiles({ name: 'noted.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(plan)) });
  await page.waitForSelector('.stage [data-tree="5"]');
  const remedy = await remedyIn(findings(page, 'cordon-gap'));
  assert.match(await remedy.textContent(), /, tree 5\b.*crossing, take off$/);
  const others = await page.locator('[data-remedy]').allTextContents();
  assert.ok(others.some((words) => !words.includes('crossing')), others.join('\n'));
});

for (const colorScheme of ['light', 'dark']) {
  pageTest(`in a reader's own colours, ${colorScheme}, the light's scale has its colours and ticks stand out from the band`, { context: { forcedColors: 'active', colorScheme } }, async ({ page }) => {
    await example(page, 'short-stock.json');
    await page.locator('[data-act=light]').click();
    const scale = await colours(page, page.locator('.legend-bar'));
    assert.ok(scale.length > 20, `${scale.length} colours`);
    // Along the middle of the band, each tick beside what it stands on.
    const xs = await page.$eval('div.band .tick', (path) => {
      const m = path.getScreenCTM();
      const left = document.querySelector('div.band').getBoundingClientRect().left;
      // Each is as high as the strip.
      const { height } = path.getBBox();
      const count = Math.round(path.getTotalLength() / height);
      return Array.from({ length: count }, (_, i) => path.getPointAtLength((i + 0.5) * height).x * m.a + m.e - left);
    });
    assert.ok(xs.length > 3, `${xs.length} ticks`);
    const png = (await page.locator('div.band').screenshot()).toString('base64');
    const line = await page.evaluate(async (png) => {
      const bytes = Uint8Array.from(atob(png), (c) => c.charCodeAt(0));
      const image = await createImageBitmap(new Blob([bytes], { type: 'image/png' }));
      const context = new OffscreenCanvas(image.width, image.height).getContext('2d');
      context.drawImage(image, 0, 0);
      const { data } = context.getImageData(0, 12, image.width, 1);
      const linear = (v) => (v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4);
      const light = (i) => 0.2126 * linear(data[i] / 255) + 0.7152 * linear(data[i + 1] / 255) + 0.0722 * linear(data[i + 2] / 255);
      return Array.from({ length: image.width }, (_, x) => light(4 * x));
    }, png);
    for (const x of xs.filter((x) => x > 8 && x < line.length - 8)) {
      const near = line.slice(Math.round(x) - 4, Math.round(x) + 5);
      const contrast = (Math.max(...near) + 0.05) / (Math.min(...near) + 0.05);
      assert.ok(contrast >= 3, `${contrast.toFixed(2)} at ${x}`);
    }
  });
}

pageTest('the headings go down by one level at a time, in what opens under the wall too', {}, async ({ page }) => {
  await example(page);
  for (const view of ['wires', 'many', 'keys', 'limits']) {
    await page.locator(`#view-${view} > summary`).click();
    await page.locator(`#view-${view} .view-body > *`).first().waitFor();
    assert.deepEqual(await accessibility(page), [], view);
  }
  await page.locator('.limits li').first().waitFor();
});
