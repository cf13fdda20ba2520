// The light of a row: the map under the drawing, the band over it and the figures, while a hand moves and at rest.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { example, figure, findings } from './desk.mjs';
import { accessibility, frames, oneFile, pageTest } from './rig.mjs';
import { like, say, whole } from './words.mjs';

const exact = (page) => page.locator('[data-figure=figure-light-caught]', { hasText: /^[0-9]/ }).waitFor();
const readout = async (page) => (await page.locator('[data-readout]').textContent()).trim();
const band = (page) => page.locator('.sky-line').getAttribute('d');

/** The map's picture, as text. */
const picture = (page) => page.evaluate(() => document.querySelector('canvas.light-map').toDataURL());

async function lit(page, name) {
  await example(page, name);
  await page.locator('[data-act=light]').click();
  await exact(page);
}

pageTest('a tip is dragged: map, band, figures and the value at the pointer follow, and are exact on release', {}, async ({ page }) => {
  await lit(page, 'third-leaf.json');
  const first = { picture: await picture(page), band: await band(page), caught: await figure(page, 'figure-light-caught') };
  const knob = await page.locator('[data-handle=tip] .knob').first().boundingBox();
  const [x, y] = [knob.x + knob.width / 2, knob.y + knob.height / 2];
  await page.mouse.move(x, y);
  const before = await readout(page);
  await page.mouse.down();
  await page.mouse.move(x - 30, y - 60, { steps: 4 });
  await frames(page, 2);
  const held = { picture: await picture(page), band: await band(page), caught: await figure(page, 'figure-light-caught') };
  assert.notEqual(await readout(page), before);
  assert.notEqual(held.picture, first.picture);
  assert.notEqual(held.band, first.band);
  assert.match(held.caught, whole('about-value', { value: /\d+ %/ }));
  await page.mouse.up();
  await exact(page);
  // Undone, all is as it was.
  await page.locator('[data-act=undo]').click();
  await frames(page, 2);
  await exact(page);
  assert.equal(await figure(page, 'figure-light-caught'), first.caught);
  assert.equal(await band(page), first.band);
  assert.equal(await picture(page), first.picture);
});

pageTest('a place is told at the pointer, and by the arrow keys', {}, async ({ page }) => {
  await lit(page, 'overdue-renewal.json');
  const stage = await page.locator('.stage').boundingBox();
  await page.mouse.move(stage.x + stage.width * 0.5, stage.y + stage.height * 0.6);
  await frames(page, 2);
  const pointed = await readout(page);
  assert.match(pointed, whole('probe-both', { light: /\d+ %/, x: /[\d.]+ m/, z: /[\d.]+ m/, falls: /\d+ %/ }));
  await page.locator('[data-readout]').focus();
  await page.keyboard.press('ArrowUp');
  await frames(page, 2);
  const up = await readout(page);
  assert.notEqual(up, pointed);
  await page.keyboard.press('Shift+ArrowRight');
  await frames(page, 2);
  assert.notEqual(await readout(page), up);
});

pageTest('period, sky, hour and leaves change what is looked at', {}, async ({ page }) => {
  await lit(page, 'overdue-renewal.json');
  const season = await figure(page, 'figure-light-caught');
  assert.match(await figure(page, 'figure-light-filled'), /^\d+ %$/);
  const parts = await figure(page, 'figure-light-parts');
  await page.locator('[data-act=light-weather]').selectOption('usual');
  await exact(page);
  // Beam and sky are caught as before, and mixed otherwise.
  assert.notEqual(await figure(page, 'figure-light-caught'), season);
  assert.equal(await figure(page, 'figure-light-parts'), parts);
  await page.locator('[data-act=light-weather]').selectOption('clear');
  await page.locator('[data-act=light-when]').selectOption('12');
  await exact(page);
  assert.notEqual(await figure(page, 'figure-light-caught'), season);
  await page.locator('[data-act=light-when]').selectOption('6');
  await page.locator('[data-act=light-one-hour]').check();
  await page.locator('.ray').first().waitFor({ state: 'attached' });
  const slider = page.locator('[data-act=light-hour]');
  const ray = await page.locator('.ray').first().getAttribute('d');
  await slider.fill('15');
  await frames(page, 2);
  assert.notEqual(await page.locator('.ray').first().getAttribute('d'), ray);
  await slider.fill('0');
  await frames(page, 2);
  assert.equal(await page.locator('.ray').count(), 0);
  assert.match(await page.locator('.sun-words').textContent(), like('light-night'));
  await page.locator('[data-act=light-one-hour]').uncheck();
  await page.locator('[data-act=light-leaves]').fill('0');
  await exact(page);
  assert.equal(await figure(page, 'figure-light-caught'), '0 %');
});

pageTest('a deep canopy is darker at its base than the flat wall, and opens less to a cut', {}, async ({ page }) => {
  await lit(page, 'overdue-renewal.json');
  await page.locator('[data-act=beside] summary').click();
  await page.locator('[data-figure=beside-cut-flat]').waitFor();
  const number = async (key) => Number.parseFloat(await figure(page, key));
  const both = async (key) => [await number(`${key}-flat`), await number(`${key}-deep`)];
  const [flat, deep] = await both('beside-base');
  assert.ok(deep < flat, `${deep} % against ${flat} %`);
  assert.match(await figure(page, 'beside-says'), like('beside-says', { than: 'darker' }));
  const [flatCut, deepCut] = await both('beside-cut');
  assert.ok(deepCut < flatCut, `${deepCut} % against ${flatCut} %`);
  assert.equal(...(await both('beside-alley')));
  const drawn = await page.locator('.beside-drawing').last().innerHTML();
  // Deeper still, at the same row spacing: the alley narrows, and the drawing follows.
  await page.locator('[data-act=beside-depth]').fill('2');
  await page.getByRole('radio', { name: say('beside-alike-rows') }).check();
  await page.waitForFunction(() => document.querySelector('[data-figure=beside-thick-deep]')?.textContent.startsWith('2'));
  await page.waitForFunction(
    () => document.querySelector('[data-figure=beside-rows-deep]').textContent
      === document.querySelector('[data-figure=beside-rows-flat]').textContent,
  );
  const [flatAlley, deepAlley] = await both('beside-alley');
  assert.ok(deepAlley < flatAlley, `${deepAlley} m against ${flatAlley} m`);
  assert.notEqual(await page.locator('.beside-drawing').last().innerHTML(), drawn);
  assert.deepEqual(await accessibility(page), []);
});

pageTest('where the deep canopy is the lighter one, the page says what it takes for that', {}, async ({ page }) => {
  await lit(page, 'missed-bud-removal.json');
  await page.locator('[data-act=beside] summary').click();
  await page.locator('[data-figure=beside-says]').waitFor();
  const why = page.locator('[data-figure=beside-why]');
  assert.equal(await why.count(), 0, 'the alley is kept');
  await page.getByRole('radio', { name: say('beside-alike-rows') }).check();
  await why.waitFor();
  assert.match(await figure(page, 'beside-says'), like('beside-says', { than: 'lighter' }));
  assert.match(await why.textContent(), like('beside-why', { alley: await figure(page, 'beside-alley-deep') }));
  assert.deepEqual(await page.locator('.beside-drawings figcaption').allTextContents(), [say('beside-flat'), say('beside-deep')]);
});

const noHelper = { prepare: (page) => page.addInitScript(() => delete globalThis.Worker) };

for (const [name, options] of [
  ['the page in one file works', oneFile && { path: oneFile }],
  ['where no helper can be started the page works', noHelper],
]) {
  (options ? pageTest : test.skip)(`${name} the light out`, options, async ({ page }) => {
    await lit(page, 'overdue-renewal.json');
    await page.locator('[data-act=beside] summary').click();
    await page.locator('[data-figure=beside-says]').waitFor();
    assert.match(await figure(page, 'figure-light-parts'), like('light-parts', { beam: /\d+ %/, sky: /\d+ %/ }));
    assert.match(await figure(page, 'beside-says'), like('beside-says', { than: 'darker' }));
  });
}

/** The least contrast between a drawn thing's fill and any colour of the map. */
const contrast = (page, selector) =>
  page.evaluate((of) => {
    const bright = (rgb) => {
      const [r, g, b] = rgb.map((v) => (v / 255 <= 0.04045 ? v / 255 / 12.92 : ((v / 255 + 0.055) / 1.055) ** 2.4));
      return 0.2126 * r + 0.7152 * g + 0.0722 * b;
    };
    const canvas = document.querySelector('canvas.light-map');
    const pixels = canvas.getContext('2d').getImageData(0, 0, canvas.width, canvas.height).data;
    const wood = bright(getComputedStyle(document.querySelector(of)).fill.match(/\d+/g).slice(0, 3).map(Number));
    let least = 99;
    for (let i = 0; i < pixels.length; i += 4) {
      const map = bright([pixels[i], pixels[i + 1], pixels[i + 2]]);
      least = Math.min(least, (Math.max(wood, map) + 0.05) / (Math.min(wood, map) + 0.05));
    }
    return least;
  }, selector);

pageTest('wood stands off the map on a light and on a dark ground, and the map follows from the one to the other', {}, async ({ page }) => {
  await lit(page, 'overdue-renewal.json');
  let before = '';
  for (const colorScheme of ['light', 'dark', 'light']) {
    await page.emulateMedia({ colorScheme });
    await frames(page, 3);
    const now = await picture(page);
    assert.notEqual(now, before, `${colorScheme}: the map is painted anew`);
    before = now;
    for (const wood of ['.shoot.leader .wood', '.shoot.upright .wood', '.wall text.height']) {
      const least = await contrast(page, wood);
      assert.ok(least >= 3, `${colorScheme}: ${wood} ${least.toFixed(2)}`);
    }
  }
});

pageTest('as long as light is off the findings say that it is not judged, and a press there has it judged', {}, async ({ page }) => {
  await example(page, 'overdue-renewal.json');
  const all = page.locator('#findings-title');
  const before = await all.textContent();
  const judge = page.locator('.findings [data-act=judge-light]');
  assert.ok((await page.locator('.findings').innerText()).includes(say('findings-no-light')));
  await judge.focus();
  await page.keyboard.press('Enter');
  await exact(page);
  await page.waitForFunction((before) => document.querySelector('#findings-title').textContent !== before, before);
  assert.equal(await judge.count(), 0);
  assert.ok(!(await page.locator('.findings').innerText()).includes(say('findings-no-light')));
  assert.equal(await page.evaluate(() => document.activeElement.closest('.findings') !== null), true, 'the focus stays in the list');
  await page.locator('[data-act=light]').click();
  await judge.waitFor();
  assert.equal(await all.textContent(), before);
});
