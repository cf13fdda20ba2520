// Order and materials: what the finished wall takes, prices, delivered trees laid out and taken into the record, sheets on paper.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { example, plant, saved } from './desk.mjs';
import { printed as laid, printer } from './prints.mjs';
import { accessibility, frames, pageTest } from './rig.mjs';
import { Words, like, say } from './words.mjs';

const sheet = (page) => page.locator('dialog.sheet[open] .order');
const cell = (page, table, line, at) => sheet(page).locator(`[data-table=${table}] tbody tr`).nth(line).locator('td').nth(at);

/** The pages that a button prints. */
const printed = async (page, act) => (await laid(page, () => sheet(page).locator(`[data-act=${act}]`).click())).pages;

async function open(page) {
  await printer(page);
  await page.click('[data-act=order]');
  await sheet(page).locator('[data-table=order] tbody tr').first().waitFor();
}

async function type(page, name, value) {
  const field = sheet(page).locator(`[data-field=${name}] input`);
  await field.fill(value);
  await field.press('Enter');
}

pageTest('a row’s order: trees with spares, wires with tension and sag, prices that sum', {}, async ({ page }) => {
  await plant(page, 10);
  await open(page);
  assert.deepEqual(await accessibility(page), []);
  assert.equal(await cell(page, 'order', 0, 0).innerText(), '10');
  assert.equal(await cell(page, 'order', 1, 0).innerText(), '1');
  await type(page, 'spares', '30 %');
  assert.equal(await cell(page, 'order', 1, 0).innerText(), '3');
  await type(page, 'spares', '300 %');
  assert.match(await sheet(page).locator('[data-limit=spares]').getByRole('alert').innerText(), like('order-refused'));

  // More crop, more tension and sag.
  const loads = async () => Number((await cell(page, 'loads', 0, 1).innerText()).replace(',', '.'));
  const before = await loads();
  await type(page, 'crop', '40');
  assert.ok((await loads()) > before);
  assert.equal(await sheet(page).locator('.caution').count(), 2, 'where tension is shown');

  assert.equal(await sheet(page).locator('.order-sum').innerText(), '', 'no price, no sum');
  await sheet(page).locator('details summary').click();
  await sheet(page).locator('[data-field=currency]').fill('XYZ');
  await type(page, 'tree', '2');
  const sum = await sheet(page).locator('.order-sum').innerText();
  assert.match(sum, like('order-sum', { currency: 'XYZ' }));
  assert.match(sum, /26[.,]00/);
  await type(page, 'tree', '-1');
  assert.match(await sheet(page).locator('[data-field=tree]').getByRole('alert').innerText(), like('order-refused'));

  const saved = page.waitForEvent('download');
  await sheet(page).locator('[data-act=order-save]').click();
  assert.ok((await saved).suggestedFilename().endsWith(`-${say('order-table-name')}.csv`));
  const planting = page.waitForEvent('download');
  await sheet(page).locator('[data-act=planting-save]').click();
  assert.ok((await planting).suggestedFilename().endsWith(`-${say('planting-file')}.csv`));
  // Prices are kept: they stand there when it is opened again.
  await page.keyboard.press('Escape');
  await sheet(page).waitFor({ state: 'detached' });
  await open(page);
  assert.match(await sheet(page).locator('.order-sum').innerText(), like('order-sum', { currency: 'XYZ' }));
  await page.keyboard.press('Escape');
  await sheet(page).waitFor({ state: 'detached' });
  assert.equal(await page.evaluate(() => document.activeElement.dataset.act), 'order', 'the focus is back');
});

pageTest('delivered trees are laid out, what lacks is told, and one undo takes them out of the record', {}, async ({ page }) => {
  await plant(page, 3);
  await open(page);
  const list = sheet(page).locator('[data-field=delivered]');
  const lay = async (text) => {
    await list.fill(text);
    await sheet(page).locator('[data-act=delivered-lay]').click();
  };
  await lay('');
  assert.equal(await sheet(page).getByRole('alert').innerText(), say('delivered-none'));
  await lay('2.3\n7.5\nabout two\n2.2');
  const bad = await sheet(page).getByRole('alert').allInnerTexts();
  assert.equal(bad.length, 2);
  assert.match(bad[0], like('refusal-delivered-range', { line: 2 }));
  assert.match(bad[1], like('refusal-delivered', { line: 3 }));
  assert.equal(await sheet(page).locator('.placed li').count(), 0);

  await lay('2.3\n1.25\n');
  assert.match(await sheet(page).locator('.delivered-told').innerText(), like('delivered-told'));
  const lines = await sheet(page).locator('.placed li').allInnerTexts();
  assert.equal(lines.length, 3);
  assert.equal(lines.filter((l) => l.includes(say('placed-none'))).length, 1, lines.join('\n'));
  const lost = page.locator('.stage g.tree.lost');
  assert.equal(await lost.count(), 0);
  await sheet(page).locator('[data-act=delivered-take]').click();
  await sheet(page).waitFor({ state: 'detached' });
  await frames(page, 2);
  const undo = page.locator('[data-act=undo]');
  assert.match(await undo.getAttribute('title'), new RegExp(say('step-delivered')));
  assert.equal(await lost.count(), 1, 'a place without a tree is empty');
  await undo.click();
  await frames(page, 2);
  assert.ok(await undo.isDisabled());
  assert.equal(await lost.count(), 0);
});

pageTest('a row that has grown is not taken for a delivery', {}, async ({ page }) => {
  await example(page);
  await open(page);
  await sheet(page).locator('[data-field=delivered]').fill('2.3');
  await sheet(page).locator('[data-act=delivered-lay]').click();
  await sheet(page).locator('.placed li').first().waitFor();
  assert.equal(await sheet(page).locator('[data-act=delivered-take]').count(), 0);
  assert.ok((await sheet(page).innerText()).includes(say('delivered-not-planted')));
});

pageTest('the order and the planting sheet are printed on the paper and in the language that is chosen', {}, async ({ page }) => {
  await plant(page, 30);
  await open(page);
  const boxes = (pages) => pages.reduce((n, p) => n + p.boxes, 0);
  const own = await printed(page, 'planting-print');
  assert.equal(boxes(own), 30);
  assert.ok(own[0].words.includes(say('planting-title')));
  const ordered = await printed(page, 'order-print');
  assert.ok(ordered[0].words.includes(say('order-loads')));
  const other = process.env.CORDONRY_LANGUAGE === 'es' ? 'en' : 'es';
  await sheet(page).locator('[data-field=hand-language]').selectOption(other);
  await sheet(page).locator('[data-field=paper]').selectOption('letter');
  const theirs = await printed(page, 'planting-print');
  assert.equal(boxes(theirs), 30);
  assert.ok(theirs[0].words.includes(Words.read(other).say('planting-title')));
  assert.notEqual(theirs[0].width, own[0].width);
});

/** What a press saves, as text. */
async function given(page, act) {
  const [file] = await Promise.all([page.waitForEvent('download'), act()]);
  return readFile(await file.path(), 'utf8');
}

pageTest('prices stay on the device for all rows, and stand neither in the plan nor among its steps', {}, async ({ page }) => {
  const price = (item) => sheet(page).locator(`[data-field=${item}] input`).first();
  const currency = () => sheet(page).locator('[data-field=currency]');
  const leave = async () => {
    await page.keyboard.press('Escape');
    await sheet(page).waitFor({ state: 'detached' });
  };
  await plant(page, 4);
  await open(page);
  await sheet(page).locator('details summary').click();
  await currency().fill('XYZ');
  await type(page, 'tree', '7.77');
  const typed = await price('tree').inputValue();
  assert.match(typed, /^7[.,]77$/);
  await leave();
  assert.ok(await page.locator('[data-act=undo]').isDisabled(), 'no step of the plan');
  await saved(page);
  const plan = await given(page, async () => {
    await page.locator('.doings .more summary').click();
    await page.locator('[data-act=save-plan]').click();
  });
  assert.ok(JSON.parse(plan).found.trees.length === 4, plan);
  for (const told of ['XYZ', '7.77', 'price', 'currency']) assert.ok(!plan.includes(told), `${told} in ${plan}`);

  // Loaded again they stand there, and for another row as well.
  await page.reload();
  await page.waitForSelector('.stage [data-tree="4"]');
  await open(page);
  assert.deepEqual([await price('tree').inputValue(), await currency().inputValue()], [typed, 'XYZ']);
  await leave();
  await page.locator('.doings .more summary').click();
  await page.locator('[data-act=other-row]').click();
  await plant(page, 6);
  await open(page);
  assert.deepEqual([await price('tree').inputValue(), await currency().inputValue()], [typed, 'XYZ']);
  // Emptied it is forgotten.
  await sheet(page).locator('details summary').click();
  await type(page, 'tree', '');
  await leave();
  await open(page);
  assert.equal(await price('tree').inputValue(), '');
});

pageTest('the planting sheet as a table has a line a place, and what was delivered for it', {}, async ({ page }) => {
  await plant(page, 3);
  await open(page);
  const table = async () => {
    const text = await given(page, () => sheet(page).locator('[data-act=planting-save]').click());
    return text.trimEnd().split(/\r?\n/).map((line) => line.split(','));
  };
  const [head, ...places] = await table();
  assert.deepEqual(head, ['tree', 'foot_m', 'angle_deg', 'side', 'length_m', 'post_near_m', 'delivered']);
  assert.deepEqual(places.map((p) => p[0]), ['1', '2', '3']);
  const feet = places.map((p) => Number(p[1]));
  assert.ok(feet.every((foot, i) => i === 0 || foot > feet[i - 1]), feet.join(' '));
  for (const [, , angle, side, length, , got] of places) {
    assert.ok(Number(angle) >= 30 && Number(angle) <= 90, angle);
    assert.match(side, /^(left|right)$/);
    assert.ok(Number(length) > 1, length);
    assert.equal(got, '');
  }
  await sheet(page).locator('[data-field=delivered]').fill('2.3\n2.4');
  await sheet(page).locator('[data-act=delivered-lay]').click();
  await sheet(page).locator('.placed li').first().waitFor();
  const got = (await table()).slice(1).map((place) => place.slice(6).join(','));
  assert.equal(got.filter((told) => told.includes(say('placed-none'))).length, 1, got.join('\n'));
  assert.equal(got.filter((told) => like('placed-tree').test(told)).length, 2, got.join('\n'));
});
