// A fault in the module: the page says so, saves nothing more, and gives back what was saved.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { example, saved } from './desk.mjs';
import { accessibility, frames, pageTest } from './rig.mjs';
import { say } from './words.mjs';

const named = (page) => page.locator('.row-name').inputValue();
const name = (page, words) =>
  page.evaluate((words) => {
    const field = document.querySelector('.row-name');
    field.value = words;
    field.dispatchEvent(new Event('change'));
  }, words);

/** Has the page's own instance of the module panic: it is started once more on a page without a body. */
async function trap(page) {
  await page.evaluate(async () => {
    const { startPage } = await import(new URL('cordonry_page.js', document.querySelector('script[type=module]').src));
    await new Promise((done) => {
      addEventListener('error', done, { once: true });
      setTimeout(() => {
        Object.defineProperty(document, 'body', { get: () => null, configurable: true });
        try {
          startPage(() => null, () => true);
        } finally {
          delete document.body;
        }
      });
    });
  });
  await page.locator('#trapped[open]').waitFor();
}

pageTest('after a fault nothing more is saved, and the last good plan and its file are there', {}, async ({ page, allow }) => {
  allow(/panicked|unreachable|RuntimeError/);
  await example(page);
  await name(page, 'Good');
  await saved(page);
  await trap(page);
  assert.equal(await page.locator('#trapped h2').textContent(), say('trapped-title'));
  assert.deepEqual(await accessibility(page), []);
  // Whatever still reaches the module, nothing of it is kept.
  await name(page, 'Spoilt');
  await page.keyboard.press('Control+z');
  await page.keyboard.press('Escape');
  await page.keyboard.press('Escape');
  await frames(page, 2);
  assert.equal(await page.locator('#trapped[open]').count(), 1, 'it stays');
  await page.evaluate(() => new Promise((done) => setTimeout(done, 600)));
  const [download] = await Promise.all([page.waitForEvent('download'), page.locator('[data-act=trapped-save]').click()]);
  assert.equal(download.suggestedFilename(), 'Good.json');
  const file = JSON.parse(await readFile(await download.path(), 'utf8'));
  assert.equal(file.name, 'Good');
  assert.ok(file.found.trees.length > 3);
  await Promise.all([page.waitForEvent('load'), page.locator('[data-act=trapped-open]').click()]);
  await page.waitForSelector('.stage [data-tree]');
  assert.equal(await named(page), 'Good');
  assert.equal(await page.locator('#trapped[open]').count(), 0);
  await trap(page);
  await Promise.all([page.waitForEvent('load'), page.locator('[data-act=trapped-start]').click()]);
  await page.locator('.start .kept').waitFor();
});
