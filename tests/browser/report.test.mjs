// A report for a client, after a call: the row is marked, the fields are filled in, the report is printed and saved, a change goes to its tree.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { example } from './desk.mjs';
import { printed as laid, printer } from './prints.mjs';
import { accessibility, frames, pageTest } from './rig.mjs';
import { Words, like, say } from './words.mjs';

const PART = /split_crew/;
const sheet = (page) => page.locator('dialog.sheet[open] .report');

/** The report as it is printed: the words and the strips of wall of its pages. */
async function printed(page) {
  const { alone, pages } = await laid(page, () => sheet(page).locator('[data-act=report-print]').click(), 60_000);
  return { alone, walls: pages.map((p) => p.strips), words: pages.map((p) => p.words) };
}

async function open(page) {
  await page.click('[data-act=report]');
  await sheet(page).waitFor();
  await frames(page, 2);
}

const field = (page, name) => sheet(page).locator(`[data-field=${name}]`);
const squeezed = (text) => text.replace(/\s+/g, '');

pageTest('after a marked call the report is filled in, printed and saved, in either language', {}, async ({ page }) => {
  const parts = [];
  page.on('request', (request) => PART.test(request.url()) && parts.push(request.url()));
  await example(page, 'third-leaf.json');
  await printer(page);
  const view = page.locator('#view-marks');
  await view.locator('summary').click();
  await view.locator('[data-mark-kind=mark-note]').click();
  const box = await page.locator('#wall').boundingBox();
  await page.mouse.click(box.x + 0.4 * box.width, box.y + 0.3 * box.height);
  await view.locator('[data-field=mark-text]').fill('look <here> again');
  await page.keyboard.press('Enter');
  await page.locator('.stage .mark').nth(1).waitFor();
  await view.locator('summary').click();
  assert.deepEqual(parts, [], 'it is loaded once it is opened');
  await open(page);
  assert.ok(parts.length > 0);
  assert.deepEqual(await accessibility(page), []);
  await page.emulateMedia({ colorScheme: 'dark' });
  assert.deepEqual(await accessibility(page), []);
  await page.emulateMedia({ colorScheme: 'light' });
  await field(page, 'report-block').fill('North 4 <b>');
  await field(page, 'report-by').fill('A. Consultant');
  const report = await printed(page);
  assert.equal(report.alone, 'alone');
  const all = squeezed(report.words.join(' '));
  for (const text of ['North 4 <b>', 'A. Consultant', 'look <here> again', say('report-advised'), say('report-defers')]) {
    assert.ok(all.includes(squeezed(text)), text);
  }
  // What was found is told as what stands there.
  assert.match(report.words.join(' '), like('found-laterals'));
  assert.ok(report.walls.reduce((a, b) => a + b, 0) >= 2, 'as found and as advised');
  // Whatever the plan changes is in it, line by line.
  const lines = await sheet(page).locator('.changes li li').allTextContents();
  assert.ok(lines.length > 5);
  for (const line of lines) assert.ok(all.includes(squeezed(line)), line);
  await sheet(page).locator('[data-field=hand-language]').selectOption('es');
  const spanish = await printed(page);
  const said = Words.read('es').say('report-defers');
  assert.ok(squeezed(spanish.words.join(' ')).includes(squeezed(said)));
  const [file] = await Promise.all([page.waitForEvent('download', { timeout: 60_000 }), sheet(page).locator('[data-act=pdf]').click()]);
  assert.ok(file.suggestedFilename().endsWith(`${say('report-file')}.pdf`));
  assert.ok((await readFile(await file.path(), 'latin1')).startsWith('%PDF-'));
  // What was filled in is kept.
  await page.keyboard.press('Escape');
  await sheet(page).waitFor({ state: 'detached' });
  await open(page);
  assert.equal(await field(page, 'report-block').inputValue(), 'North 4 <b>');
  assert.equal(await field(page, 'report-by').inputValue(), 'A. Consultant');
});

pageTest('a line of the changes goes to its tree, before the work of its time', {}, async ({ page }) => {
  await example(page, 'third-leaf.json');
  await open(page);
  const tree = sheet(page).locator('[data-changed="3"]');
  await tree.locator('button').first().click();
  await sheet(page).waitFor({ state: 'detached' });
  await page.locator('.stage [data-tree="3"]').first().waitFor();
  await page.locator('.chosen-column', { hasText: like('name-of-tree', { tree: 3 }) }).waitFor();
  assert.equal(await page.locator('[data-act=work-before]').isChecked(), true);
});

pageTest('where nothing is planned the report says so', {}, async ({ page }) => {
  await example(page, 'overdue-renewal.json');
  await printer(page);
  await open(page);
  assert.equal(await sheet(page).locator('.changes li').count(), 0);
  const report = await printed(page);
  const all = squeezed(report.words.join(' '));
  for (const key of ['report-changes-none', 'report-left-none']) assert.ok(all.includes(squeezed(say(key))), key);
  assert.match(report.words.join(' '), like('report-none'));
  // A draft that is looked at and not taken is in none of what is handed out, and that is said; once it is put away, nothing is.
  const not = (place) => place.getByText(say('draft-not-taken'), { exact: true });
  assert.equal(await not(sheet(page)).count(), 0);
  await page.keyboard.press('Escape');
  await page.click('[data-act=draft]');
  await page.locator('.draft .pieces > li').first().waitFor();
  await open(page);
  assert.equal(await not(sheet(page)).count(), 1);
  assert.equal(await sheet(page).locator('.changes li').count(), 0);
  await page.keyboard.press('Escape');
  await page.click('[data-act=hand-out]');
  await not(page.locator('dialog[open]')).waitFor();
});
