// A pass walked in the row with a telephone: ten trees ticked without a network, kept over a reload, and taken into the desk's plan.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { example, onDevice, phone, saved } from './desk.mjs';
import { accessibility, frames, pageTest } from './rig.mjs';
import { like, say } from './words.mjs';

const dialog = (page) => page.locator('dialog.sheet[open]');
const row = (page) => dialog(page).locator('.in-row');
const act = (page, name) => row(page).locator(`[data-act=${name}]`);

/** Opens the passes of the leaf; the usual work where the plan has none. */
async function passes(page) {
  await page.locator('[data-act=hand-out]').click();
  await dialog(page).locator('.hand-out').waitFor();
  await frames(page, 2);
  const usual = dialog(page).locator('[data-act=hand-usual]');
  if (await usual.count()) await usual.click();
  await dialog(page).locator('.passes > li').first().waitFor();
}

/** Walks the pass of that many trees or more that comes first. */
async function walk(page) {
  await dialog(page).locator('.passes > li [data-act=field-walk]').first().click();
  await row(page).waitFor();
}

const progress = async (page) => {
  const [done, all] = (await row(page).locator('.in-row-progress').innerText()).match(/\d+/g).map(Number);
  return { done, all };
};

pageTest('trees are ticked by a thumb without a network, kept, and taken into another copy of the plan', phone, async ({ page, context }) => {
  await onDevice(page);
  await context.setOffline(true);
  await page.reload();
  await page.locator('.start').waitFor();
  await example(page, 'overdue-renewal.json');
  const [plain] = await Promise.all([page.waitForEvent('download'), save(page)]);
  const before = await readFile(await plain.path());
  await passes(page);
  await walk(page);
  assert.ok((await row(page).locator('.caution').count()) >= 2, 'cautions come first');
  assert.deepEqual(await accessibility(page), []);
  await act(page, 'field-begin').tap();
  await row(page).locator('.in-row-picture svg').waitFor();
  assert.deepEqual(await accessibility(page), []);
  for (const button of await row(page).locator('button:visible').all()) {
    const box = await button.boundingBox();
    assert.ok(box.height >= 48 && box.width >= 48, `${await button.innerText()} is ${box.width} × ${box.height}`);
  }
  const wide = await dialog(page).evaluate((e) => e.scrollWidth - e.clientWidth);
  assert.ok(wide <= 0, `${wide} px beyond the sheet`);
  // The first tree piece by piece: one is done, taken back, and left with a reason.
  const first = row(page).locator('.in-row-pieces > li').first();
  await first.locator('[data-act=field-done]').tap();
  await row(page).locator('.is-done').first().waitFor();
  await first.locator('[data-act=field-done]').tap();
  await row(page).locator('.is-done').first().waitFor({ state: 'detached' });
  await row(page).locator('[data-field=field-why]').fill('no ladder');
  await first.locator('[data-act=field-skip]').tap();
  assert.match(await row(page).locator('.is-skipped').innerText(), /no ladder/);
  await row(page).locator('[data-field=field-note]').fill('canker at the foot');
  await row(page).locator('[data-field=field-note]').blur();
  await first.locator('[data-act=field-done]').tap();
  // All the others of this pass and so many of the next that it is ten.
  let told = 0;
  for (let pass = 0; told < 10; pass += 1) {
    if (pass > 0) {
      await act(page, 'field-back').tap();
      await dialog(page).locator('.passes > li [data-act=field-walk]').nth(pass).tap();
      await act(page, 'field-begin').tap();
    }
    const { all } = await progress(page);
    for (let tree = 0; tree < all && told < 10; tree += 1) {
      const { x, y } = await act(page, 'field-all-done').boundingBox();
      await page.touchscreen.tap(x + 20, y + 20);
      // A double tap tells nothing of the tree that comes next.
      await page.touchscreen.tap(x + 21, y + 21);
      told += 1;
      await page.waitForFunction((n) => Number(document.querySelector('.in-row-progress').innerText.match(/\d+/)[0]) >= n, tree + 1);
      assert.equal((await progress(page)).done, tree + 1);
      // So long a thumb takes at least for another tree.
      await page.waitForTimeout(700);
    }
  }
  await page.keyboard.press('Escape');
  await saved(page);
  // Loaded again without a network it stands, and the file carries it.
  await page.reload();
  await page.waitForSelector('.stage [data-tree]');
  await passes(page);
  await walk(page);
  const now = await progress(page);
  assert.equal(now.done, Math.min(10, now.all));
  await page.keyboard.press('Escape');
  const [file] = await Promise.all([page.waitForEvent('download'), save(page)]);
  const after = await readFile(await file.path());
  const plan = JSON.parse(after);
  assert.equal(plan.version, 5);
  const field = plan.schemes[0].field;
  assert.equal(field.notes[0].text, 'canker at the foot');
  // At the desk the plan is as it was before; the ticks come in from the file.
  await open(page, before);
  await passes(page);
  await walk(page);
  assert.equal((await progress(page)).done, 0);
  await act(page, 'field-back').tap();
  await dialog(page).locator('[data-act=field-take]').setInputFiles({ name: 'row.json', mimeType: 'application/json', buffer: after });
  await dialog(page).locator('.field-taken li').first().waitFor();
  assert.match(await dialog(page).locator('.field-taken').innerText(), like('field-taken', { notes: 1, same: 0, strange: 0 }));
  await walk(page);
  assert.equal((await progress(page)).done, now.done);
  // A second look at five of them.
  await act(page, 'field-second').tap();
  const looks = row(page).locator('.in-row-pieces > li');
  await looks.first().locator('[data-act=field-missed]').tap();
  await act(page, 'field-more').tap();
  assert.match(await row(page).locator('.in-row-looked').innerText(), like('field-looked', { pieces: 1, right: 0, missed: 1, wrong: 0, extra: 1 }));
  assert.deepEqual(await accessibility(page), []);
});

pageTest('a note and a reason stay with the tree that they are typed at, however it is left', phone, async ({ page, context }) => {
  await example(page, 'overdue-renewal.json');
  await passes(page);
  await walk(page);
  await act(page, 'field-begin').tap();
  const name = () => row(page).locator('h3').innerText();
  const field = (name) => row(page).locator(`[data-field=field-${name}]`);
  const moved = async (by) => {
    const before = await name();
    await by();
    await page.waitForFunction((was) => document.querySelector('.in-row h3')?.innerText !== was, before);
    // So long a thumb takes at least for another tree.
    await page.waitForTimeout(700);
  };
  const touch = await context.newCDPSession(page);
  const swipe = async (along) => {
    const event = (type, ...touchPoints) => touch.send('Input.dispatchTouchEvent', { type, touchPoints });
    await event('touchStart', { x: 195, y: 300 });
    // As a hand that stops before it lets go: behind a flung finger the browser takes the next tap for the one that stops it.
    for (const part of [0.3, 0.6, 0.9, 1, 1, 1]) {
      await event('touchMove', { x: 195 + along * part, y: 300 });
      await page.waitForTimeout(50);
    }
    await event('touchEnd');
  };
  const first = await name();
  // The keyboard stands there still when a finger turns to the next tree.
  await field('note').tap();
  await page.keyboard.type('gum at the base');
  await moved(() => swipe(-150));
  assert.equal(await field('note').inputValue(), '');
  await moved(() => swipe(150));
  assert.equal(await name(), first);
  assert.equal(await field('note').inputValue(), 'gum at the base');
  // A tree that is left as a whole is done with, and its reason is no other's.
  await field('why').fill('no ladder');
  await moved(() => act(page, 'field-all-skip').tap());
  assert.equal((await progress(page)).done, 1);
  assert.deepEqual([await field('why').inputValue(), await field('note').inputValue()], ['', '']);
  const second = await name();
  await field('note').tap();
  await page.keyboard.type('split');
  await page.keyboard.press('Escape');
  await row(page).waitFor({ state: 'detached' });
  await passes(page);
  await walk(page);
  await act(page, 'field-on').tap();
  assert.equal(await name(), second);
  assert.equal(await field('note').inputValue(), 'split');
  await moved(() => act(page, 'field-before').tap());
  assert.equal(await field('note').inputValue(), 'gum at the base');
  assert.match(await row(page).locator('.is-skipped').first().innerText(), /no ladder/);
  // Once all of it is told there is no place left to go on at.
  while (await act(page, 'field-all-done').count()) {
    await act(page, 'field-all-done').tap();
    await page.waitForTimeout(700);
  }
  const { done, all } = await progress(page);
  assert.equal(done, all);
  assert.deepEqual([await act(page, 'field-on').count(), await act(page, 'field-begin').count()], [0, 1]);
});

pageTest('a tree that is marked as diseased says so under the wall, and each pass comes to it last', { viewport: { width: 1000, height: 800 } }, async ({ page }) => {
  await example(page, 'overdue-renewal.json');
  const named = (key) => page.locator('.stage text', { hasText: new RegExp(`^${like(key, { tree: 2 }).source}$`) });
  await named('name-tree').click();
  const card = page.locator('.part-card');
  await card.locator('[data-act=record-diseased]').click();
  await named('draw-tree-diseased').waitFor();
  assert.equal(await named('name-tree').count(), 0);
  assert.equal(await page.locator('.stage .signs .work-diseased').count(), 1);
  await page.locator('.sign-key', { hasText: say('draw-sign-diseased') }).waitFor();
  await passes(page);
  const jobs = await dialog(page).locator('.passes > li h3').allInnerTexts();
  const last = jobs.filter((name) => like('crew-job-diseased').test(name));
  assert.ok(last.length > 0 && last.length < jobs.length, jobs.join('; '));
  const told = dialog(page).locator('.passes > li', { hasText: say('caution-diseased') });
  assert.equal(await told.count(), last.length);
  await page.keyboard.press('Escape');
  await card.locator('[data-act=record-sound]').click();
  await named('name-tree').waitFor();
});

pageTest('what is ticked in the row is ticked on the wall and in its key, until the tick is taken back', {}, async ({ page }) => {
  await example(page, 'overdue-renewal.json');
  await page.locator('.year').nth(1).click();
  await page.locator('[data-act=work-before]').check({ force: true });
  const ticked = page.locator('.stage .signs .work-done');
  const key = page.locator('.sign-key', { hasText: say('draw-sign-done') });
  await page.locator('.stage .signs .work').first().waitFor();
  assert.deepEqual([await ticked.count(), await key.count()], [0, 0]);
  await passes(page);
  await walk(page);
  await act(page, 'field-begin').click();
  await row(page).locator('[data-act=field-done]').first().click();
  await page.keyboard.press('Escape');
  await ticked.first().waitFor();
  assert.deepEqual([await ticked.count(), await key.count()], [1, 1]);
  await page.keyboard.press('Control+z');
  await ticked.waitFor({ state: 'detached' });
});

/** Saves the plan as a file. */
async function save(page) {
  await page.locator('.doings .more summary').click();
  await page.locator('[data-act="save-plan"]').click();
}

/** Opens a plan's file in the place of what is on the desk. */
async function open(page, buffer) {
  await page.locator('.doings .more summary').click();
  await page.locator('[data-act="other-row"]').click();
  await page.locator('input[type=file]').first().setInputFiles({ name: 'desk.json', mimeType: 'application/json', buffer });
  await page.waitForSelector('.stage [data-tree]');
  await frames(page, 3);
}
