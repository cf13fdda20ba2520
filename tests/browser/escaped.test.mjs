// Names, notes and cells that carry markup, script, formulas and control characters are text wherever they are shown, drawn,
// printed or saved.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { passOn, saved } from './desk.mjs';
import { frames, pageTest } from './rig.mjs';
import { say } from './words.mjs';

const SCRIPT = '<script>globalThis.ran = 1</script>';
const NASTY = [
  SCRIPT,
  '<img src=x onerror="globalThis.ran = 1">',
  '"><svg onload=globalThis.ran=1>',
  "' onmouseover='globalThis.ran=1",
  '</style></text></svg><script>globalThis.ran = 1</script>',
  '=HYPERLINK("http://127.0.0.1:1/","x")',
  '&lt;u&gt; &amp; &#x3c;u&#x3e;',
  'up\u0007down\u0000\u001b[31m\u202egnol',
  ']]> --> {{x}} ${x} %s',
  '+1+cmd|x!A0',
  '-2+3',
  '@SUM(A1)',
  'one\u2028two\u2029three\u2066four',
];

const example = async () => JSON.parse(await readFile(new URL('../../examples/third-leaf.json', import.meta.url), 'utf8'));
const bring = (page, name, text) => page.locator('input[type=file]').first().setInputFiles({ name, mimeType: 'application/json', buffer: Buffer.from(text) });
/** What only markup could have made, anywhere in the page. */
const made = (page) =>
  page.evaluate(() => {
    const all = [document, ...[...document.querySelectorAll('*')].map((e) => e.shadowRoot).filter(Boolean)];
    return all.flatMap((root) => [...root.querySelectorAll('[onload], [onerror], [onmouseover], img, u, script:not([src])')].map((e) => e.outerHTML.slice(0, 200)));
  });
async function untouched(page, where) {
  await frames(page, 2);
  assert.deepEqual(await made(page), [], where);
  assert.equal(await page.evaluate(() => globalThis.ran), undefined, where);
}
const download = async (page, selector) => {
  const [file] = await Promise.all([page.waitForEvent('download'), page.locator(selector).click()]);
  return { name: file.suggestedFilename(), text: await readFile(await file.path(), 'latin1'), utf8: await readFile(await file.path(), 'utf8') };
};
const files = (page) => page.locator('.doings .more summary').click();

/** A plan that carries a text wherever a person can write one. */
async function carrying(text) {
  const plan = await example();
  return {
    ...plan,
    name: text,
    note: text,
    schemes: plan.schemes.map((scheme) => ({ ...scheme, name: text })),
    marks: plan.marks.map((mark) => ({ ...mark, text })),
  };
}

pageTest('what a plan carries is text on the wall, in the lists, on paper and in every file', {}, async ({ page }) => {
  let read = 0;
  for (const text of NASTY) {
    const plan = await carrying(text);
    await bring(page, 'row.json', JSON.stringify(plan));
    await page.locator('.stage [data-tree], .notice.grave').first().waitFor();
    if (await page.locator('.notice.grave').count()) {
      // What is no letter may be refused, with its reason as text.
      await untouched(page, `refused: ${text}`);
      await page.locator('.notice.grave button').click();
      continue;
    }
    read += 1;
    await page.waitForFunction((name) => document.querySelector('.row-name').value === name, text.replace(/[\r\n]/g, ''));
    await untouched(page, `on the desk: ${text}`);
    await page.evaluate(() => dispatchEvent(new Event('beforeprint')));
    await page.waitForFunction(() => document.querySelector('#print-sheets') !== null);
    await untouched(page, `on paper: ${text}`);
    await page.evaluate(() => dispatchEvent(new Event('afterprint')));
    await files(page);
    const svg = await download(page, '[data-act=save-drawing]');
    const odd = await page.evaluate((text) => {
      const parsed = new DOMParser().parseFromString(text, 'image/svg+xml');
      return [...parsed.querySelectorAll('parsererror, script, img, [onload], [onerror], [onmouseover]')].map((e) => e.outerHTML.slice(0, 300));
    }, svg.utf8);
    assert.deepEqual(odd, [], text);
    await files(page);
    const table = await download(page, '[data-act=save-table]');
    for (const line of table.utf8.split('\n')) {
      for (const cell of line.match(/"(?:[^"]|"")*"|[^,;\t\n]+/g) ?? []) {
        assert.doesNotMatch(cell, /^"?[=@]/, `a formula: ${line}`);
        // A number may have a sign.
        assert.doesNotMatch(cell, /^"?[+-](?!\d[\d.]*(?: m)?"?$)/, `a formula: ${line}`);
      }
      assert.doesNotMatch(line, /[\u0000-\u0008\u000b\u000c\u000e-\u001f]/, `a control character: ${line}`);
    }
    await passOn(page);
    const link = await page.locator('#pass-on-link').inputValue();
    assert.match(link, /^[\x21-\x7e]+$/, 'a link is plain letters');
    await page.locator('.qr svg').waitFor();
    await untouched(page, `passed on: ${text}`);
    await page.locator('[data-act=pass-on-close]').click();
    for (const file of [svg, table]) assert.doesNotMatch(file.name, /[<>"'&=\u0000-\u001f]/, 'a file’s name');
    const pdf = await download(page, 'header [data-act=pdf]');
    assert.match(pdf.text, /^%PDF-/);
    assert.doesNotMatch(pdf.text, /\/(JavaScript|JS|URI|Launch|OpenAction)\b/, 'a printed file does nothing');
    await saved(page);
    await files(page);
    await page.locator('[data-act=other-row]').click();
    await page.locator('.kept li .picture svg').first().waitFor();
    await untouched(page, `listed: ${text}`);
  }
  assert.ok(read >= 7, `${read} were read`);
  // All of them together, out and in.
  const names = await page.locator('.kept li .name').allTextContents();
  const all = await download(page, '[data-act=all-save]');
  assert.equal(JSON.parse(all.utf8).rows.length, names.length);
  await bring(page, 'all.json', all.utf8);
  await page.waitForFunction((count) => document.querySelectorAll('.kept li').length === count, 2 * names.length);
  await untouched(page, 'all, in again');
});

pageTest('a bad row of a file of many is named by its text', {}, async ({ page }) => {
  const good = await example();
  const bad = NASTY.map((name) => ({ ...good, name, found: { ...good.found, leaf: -1 } }));
  await bring(page, 'all.json', JSON.stringify({ format: 'cordonry-archive', version: 1, rows: bad }));
  const sheet = page.locator('dialog[open]', { hasText: say('left-out-title', { count: bad.length }) });
  await sheet.waitFor();
  assert.ok((await sheet.innerText()).includes(SCRIPT));
  await untouched(page, 'in the list of what was left out');
});

pageTest('cells of a table are text', {}, async ({ page }) => {
  const lines = NASTY.slice(0, 5).map((text, i) => `${i + 1},"${i},00 m",leader,"1,50 m","${text.replaceAll('"', '""')}"`);
  const bad = NASTY.slice(0, 5).map((text) => `"${text.replaceAll('"', '""')}",x,y,z,`);
  const text = [`row name,"${SCRIPT}"`, `tree,place,kind,length,note,"${SCRIPT}"`, ...lines, ...bad].join('\n');
  await page.locator('input[type=file]').first().setInputFiles({ name: `a${SCRIPT.replaceAll('/', '')}.csv`, mimeType: 'text/csv', buffer: Buffer.from(text) });
  await page.locator('.sheet .bad-lines th').first().waitFor();
  await untouched(page, 'while it is looked at');
  await page.locator('[data-act=import-use]').click();
  await page.waitForSelector('.stage [data-tree]');
  await untouched(page, 'on the desk');
});
