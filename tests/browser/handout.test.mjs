// A leaf's work handed out: its passes with minutes and cautions, times and people that can be set, and the crew's sheets on paper.
import assert from 'node:assert/strict';
import { example, phone } from './desk.mjs';
import { printed, printer } from './prints.mjs';
import { accessibility, frames, pageTest } from './rig.mjs';
import { Words, like, say } from './words.mjs';

const PART = /split_crew/;
const sheet = (page) => page.locator('dialog.sheet[open] .hand-out');
const pass = (page, job) => sheet(page).locator(`[data-pass=${job}]`);
const minutes = async (page, job) => Number((await pass(page, job).locator('.takes').innerText()).match(/(\d+) min/)?.[1]);

async function open(page, name = 'overdue-renewal.json') {
  await example(page, name);
  await printer(page);
  await page.click('[data-act=hand-out]');
  await sheet(page).waitFor();
  await frames(page, 2);
  // What a plan holds comes first; the usual work is asked for.
  const usual = sheet(page).locator('[data-act=hand-usual]');
  if (await usual.count()) await usual.click();
  await sheet(page).locator('.passes > li').first().waitFor();
}

pageTest('a leaf is handed out pass by pass: pieces, people, minutes, tools, cautions, trees', {}, async ({ page }) => {
  const parts = [];
  page.on('request', (request) => PART.test(request.url()) && parts.push(request.url()));
  await example(page, 'overdue-renewal.json');
  assert.deepEqual(parts, [], 'it is loaded once it is opened');
  await page.click('[data-act=hand-out]');
  await sheet(page).locator('[data-act=hand-usual]').click();
  assert.ok(parts.length > 0);
  const passes = sheet(page).locator('.passes > li');
  assert.ok((await passes.count()) > 1);
  assert.deepEqual(await accessibility(page), []);
  for (const one of await passes.all()) {
    assert.match(await one.innerText(), like('hand-count'));
    assert.match(await one.locator('.takes').innerText(), like('crew-with'));
    assert.ok((await one.locator('.caution').count()) >= 2);
    // The tally by tree holds all of the pass.
    const count = Number((await one.locator('b').innerText()).match(/\d+/)?.[0] ?? 1);
    assert.equal(await one.locator('details li').count(), 0, 'folded');
    await one.locator('summary').click();
    await one.locator('details li').first().waitFor();
    const trees = await one.locator('details li').allInnerTexts();
    const of = (line) => Number(line.match(/: (\d+)/)?.[1] ?? 1);
    assert.equal(trees.reduce((n, line) => n + of(line), 0), count, trees.join('\n'));
  }
  await page.keyboard.press('Escape');
  await sheet(page).waitFor({ state: 'detached' });
  assert.equal(await page.evaluate(() => document.activeElement.dataset.act), 'hand-out', 'the focus is back');
});

pageTest('times and people change the minutes, are refused out of range, and go back', {}, async ({ page }) => {
  await open(page);
  const before = await minutes(page, 'stub');
  assert.ok(before > 0);
  const people = pass(page, 'stub').locator('[data-field=people] input');
  await sheet(page).locator('.hand-rates > summary').click();
  const rate = sheet(page).locator('[data-limit=stub] input');
  await rate.fill('1800');
  await rate.press('Enter');
  const slow = await minutes(page, 'stub');
  assert.ok(slow > 20 * before, `${slow} after ${before}`);
  await people.fill('2');
  await people.press('Enter');
  assert.ok(Math.abs((await minutes(page, 'stub')) - slow / 2) <= 1);
  assert.ok(await people.evaluate((e) => e === document.activeElement), 'the focus stays');
  await people.fill('0');
  await people.press('Enter');
  assert.match(await pass(page, 'stub').getByRole('alert').innerText(), like('refusal-people'));
  await rate.fill('9000');
  await rate.press('Enter');
  assert.match(await sheet(page).locator('[data-limit=stub]').getByRole('alert').innerText(), like('refusal-seconds'));
  await sheet(page).locator('[data-act=hand-reset]').click();
  assert.equal(await minutes(page, 'stub'), before);
  assert.ok(await sheet(page).locator('[data-act=hand-reset]').isDisabled());
});

pageTest('one pass, all of them, and the foreman’s sheet are printed, on the paper and in the language that is chosen', {}, async ({ page }) => {
  await open(page);
  const one = await printed(page, () => pass(page, 'stub').locator('[data-act=hand-print]').click());
  assert.equal(one.alone, 'alone');
  const count = Number((await pass(page, 'stub').locator('b').innerText()).match(/\d+/)[0]);
  const boxes = (print) => print.pages.reduce((n, p) => n + p.boxes, 0);
  assert.equal(boxes(one), count, 'each piece is a box');
  assert.ok(one.pages[0].words.includes(say('crew-not-today')));
  const all = await printed(page, () => sheet(page).locator('[data-act=hand-print-all]').click());
  assert.ok(boxes(all) > boxes(one) && all.pages.length > one.pages.length);
  const marks = await printed(page, () => pass(page, 'stub').locator('[data-act=hand-mark]').click());
  assert.match(marks.pages[0].words, like('crew-marking'));
  assert.ok(boxes(marks) < count, 'a box a tree');
  // Nobody paints what is tipped.
  assert.equal(await pass(page, 'tip').locator('[data-act=hand-mark]').count(), 0);

  await sheet(page).locator('[data-field=paper]').selectOption('letter');
  await sheet(page).locator('[data-field=hand-language]').selectOption('es');
  const other = await printed(page, () => pass(page, 'stub').locator('[data-act=hand-print]').click());
  assert.ok(other.pages[0].words.includes(Words.read('es').say('crew-not-today')), other.pages[0].words.slice(0, 300));
  assert.notEqual(other.pages[0].width, one.pages[0].width);
  assert.equal(boxes(other), count);
  // The page itself speaks as before, and prints the wall again.
  assert.match(await pass(page, 'stub').innerText(), like('hand-count'));
  await page.keyboard.press('Escape');
  const wall = await printed(page, () => page.evaluate(() => window.print()));
  assert.notEqual(wall.alone, 'alone');
});

pageTest('where a leaf has no work it is said, and the usual work is shown as such once it is asked for', {}, async ({ page }) => {
  await example(page, 'overdue-renewal.json');
  await page.click('[data-act=hand-out]');
  await sheet(page).waitFor();
  assert.match(await sheet(page).innerText(), like('hand-none'));
  assert.equal(await sheet(page).locator('.passes').count(), 0);
  assert.equal(await sheet(page).locator('[data-act=hand-print-all]').count(), 0);
  await sheet(page).locator('[data-act=hand-usual]').click();
  assert.match(await sheet(page).locator('.caution').first().innerText(), like('hand-usual'));
  assert.equal(await sheet(page).locator('h3', { hasText: say('work-stands') }).count(), 0, 'it stands nowhere');
  await page.keyboard.press('Escape');
  await sheet(page).waitFor({ state: 'detached' });
  // A later leaf has work by its scheme's rules, and each pass says so.
  await page.locator('.year').nth(1).click();
  await page.click('[data-act=hand-out]');
  await sheet(page).locator('.passes > li').first().waitFor();
  assert.ok((await sheet(page).locator('h3', { hasText: say('work-stands') }).count()) > 0);
});

pageTest('on a telephone it has room', { ...phone }, async ({ page }) => {
  await open(page);
  const wide = await page.locator('dialog.sheet[open]').evaluate((e) => [e.scrollWidth, e.clientWidth, e.getBoundingClientRect().right]);
  assert.ok(wide[0] <= wide[1] && wide[2] <= 390, `${wide}`);
  assert.deepEqual(await accessibility(page), []);
});
