// What is printed, saved as a PDF instead: by a part that is loaded when it is first asked for, and stays.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { between } from './between.mjs';
import { example, onDevice, saved as keptHere } from './desk.mjs';
import { frames, oneFile, pageTest } from './rig.mjs';
import { say } from './words.mjs';

const PART = /split_pdf/;
const ofWall = (page) => page.locator('header [data-act=pdf]');

/** Presses, and gives the file's name with what it says of itself: how many pages of what sizes, in which language. */
async function saved(page, press) {
  const [file] = await Promise.all([page.waitForEvent('download'), press.click()]);
  const text = await readFile(await file.path(), 'latin1');
  assert.ok(text.startsWith('%PDF-') && text.trimEnd().endsWith('%%EOF'), text.slice(0, 20));
  return {
    name: file.suggestedFilename(),
    pages: text.match(/\/Type\s*\/Page\b(?!s)/g).length,
    sizes: new Set([...text.matchAll(/\/MediaBox\s*\[([^\]]*)\]/g)].map(([, box]) => box.trim().split(/\s+/).slice(2).map(Number).join(' × '))),
    language: text.match(/\/Lang\s*\((\w+)\)/)[1],
  };
}

/** How many pages would be printed. */
async function printed(page) {
  await page.evaluate(() => window.dispatchEvent(new Event('beforeprint')));
  const count = await page.evaluate(() => document.querySelector('#print-sheets').shadowRoot.querySelectorAll('svg[role=img]').length);
  await page.evaluate(() => window.dispatchEvent(new Event('afterprint')));
  return count;
}

pageTest('the wall is saved as it would be printed, and what writes it comes when it is asked for', {}, async ({ page }) => {
  const parts = [];
  page.on('request', (request) => PART.test(request.url()) && parts.push(request.url()));
  await example(page);
  await page.waitForLoadState('networkidle');
  assert.deepEqual(parts, []);
  const letter = await saved(page, ofWall(page));
  assert.equal(parts.length, 1);
  const row = (await page.locator('.row-name').inputValue()).replace(/ /g, '-');
  assert.equal(letter.name, `${row}.pdf`);
  assert.equal(letter.pages, await printed(page));
  assert.ok(letter.pages > 1);
  await page.getByText(say('files'), { exact: true }).click();
  await page.locator('header [data-field=paper]').selectOption('a4');
  const other = await saved(page, ofWall(page));
  assert.deepEqual([...other.sizes], ['841.8898 × 595.2756']);
  assert.equal(await page.locator('header .refusal').count(), 0);
});

pageTest('two schemes that stand side by side come on one page', {}, async ({ page }) => {
  await example(page, 'lessons/renewal-a-fifth-or-never.json');
  await page.locator('.stage-beside [data-tree]').first().waitFor();
  assert.equal((await saved(page, ofWall(page))).pages, 1);
});

pageTest('the crew’s sheets are saved on the paper and in the language that is chosen', {}, async ({ page }) => {
  await example(page);
  await page.click('[data-act=hand-out]');
  const sheet = page.locator('dialog.sheet[open] .hand-out');
  await sheet.locator('[data-field=paper]').selectOption('letter');
  await sheet.locator('[data-field=hand-language]').selectOption('es');
  const press = (key, of) => sheet.getByRole('button', { name: of === undefined ? `${say('pdf')}: ${say(key)}` : new RegExp(`^${say('pdf')}: ${say(key)}: ${of}`) });
  const all = await saved(page, press('hand-print-all'));
  assert.deepEqual([[...all.sizes], all.language], [['792 × 612'], 'es']);
  assert.ok(all.name.endsWith(`-${say('hand-file', { leaf: 3, marking: 'no', pass: 0 })}.pdf`), all.name);
  const one = await saved(page, press('hand-print', '1'));
  assert.ok(one.pages < all.pages, `${one.pages} of ${all.pages}`);
  assert.ok(one.name.endsWith(`-${say('hand-file', { leaf: 3, marking: 'no', pass: 1 })}.pdf`), one.name);
  const marks = await saved(page, press('hand-mark', '1'));
  assert.ok(marks.pages >= 1 && marks.name !== one.name);
});

pageTest('once it was loaded it is kept, and needs no network', {}, async ({ page, context }) => {
  await page.locator('.start').waitFor();
  await onDevice(page);
  await page.reload();
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
  await example(page);
  const kept = () => page.evaluate(async () => {
    const all = await Promise.all((await caches.keys()).map(async (name) => (await caches.open(name)).keys()));
    return all.flat().filter(({ url }) => /split_pdf/.test(url)).length;
  });
  assert.equal(await kept(), 0, 'before it is asked for');
  const first = await saved(page, ofWall(page));
  assert.equal(await kept(), 1);
  await keptHere(page);
  await context.setOffline(true);
  await page.reload();
  await page.waitForSelector('.stage [data-tree]');
  await frames(page, 3);
  assert.deepEqual(await saved(page, ofWall(page)), first);
});

let there = false;
const served = await between({ from: (path) => (there || !PART.test(path) ? path : undefined) });

pageTest('where it does not come that is said, and it is asked for again', { path: served.address }, async ({ page, allow }) => {
  allow(/split_pdf|404|WebAssembly|Failed to load/);
  await example(page);
  await ofWall(page).click();
  const why = page.getByRole('alert').filter({ hasText: say('pdf-missing') });
  await why.waitFor();
  assert.equal(await page.locator('#trapped[open]').count(), 0);
  there = true;
  assert.ok((await saved(page, ofWall(page))).pages > 1);
  await why.waitFor({ state: 'detached' });
});

(oneFile ? pageTest : () => {})('the page in one file has it within', { path: oneFile }, async ({ page }) => {
  await example(page);
  assert.ok((await saved(page, ofWall(page))).pages > 1);
});
