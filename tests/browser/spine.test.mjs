// What carries everything else: files, keys, tabs, reloads, no network, and the core's own figures in the browser.
import assert from 'node:assert/strict';
import { readFile, readdir } from 'node:fs/promises';
import { example, figure, findings, named, onDevice, saved } from './desk.mjs';
import { accessibility, frames, pageTest } from './rig.mjs';
import { like, say } from './words.mjs';

const here = (path) => new URL(path, import.meta.url);

// The title of an upright's card.
const upright = named('name-upright');
const bare = (page) => findings(page, 'cordon-gap');

pageTest('a plan with a byte order mark and a western or wide table are read', {}, async ({ page }) => {
  const bring = (name, buffer) => page.locator('input[type=file]').first().setInputFiles({ name, mimeType: 'text/plain', buffer });
  const table = 'Block 7\r\ntree;place;kind;length;note\r\n1;0,5;leader;1,9;Bäume größer\r\n';
  for (const [buffer, encoding] of [
    [Buffer.from(table, 'latin1'), 'Windows-1252'],
    [Buffer.from(`\ufeff${table}`, 'utf16le'), 'UTF-16'],
  ]) {
    await bring('table.csv', buffer);
    const said = page.locator('.sheet .said');
    await said.waitFor();
    assert.match(await said.textContent(), like('file-said-encoding', { encoding }));
    assert.match(await said.textContent(), like('file-said-above', { count: 1, text: 'Block 7' }));
    await page.locator('.sheet .choices button:not(.main)').click();
  }
  const plan = await readFile(here('../../examples/third-leaf.json'));
  await bring('marked.json', Buffer.concat([Buffer.from([0xef, 0xbb, 0xbf]), plan]));
  await page.waitForSelector('.stage [data-tree]');
});

pageTest('a change is kept though the page is loaded anew in the same breath', {}, async ({ page }) => {
  await example(page, 'third-leaf.json');
  await saved(page);
  const stubs = page.locator('.stage .shoot.stub');
  let before = await stubs.count();
  for (let time = 0; time < 3; time += 1) {
    await page.locator('.stage').focus();
    const title = page.locator('.part-card h2');
    await page.keyboard.press('ArrowRight');
    for (let i = 0; i < 60 && !upright.test(await title.textContent()); i += 1) await page.keyboard.press('ArrowRight');
    await page.keyboard.press('s');
    assert.equal(await stubs.count(), before + 1);
    // Within the page, so that no time is lost on the way to it.
    await Promise.all([
      page.waitForEvent('load'),
      page.evaluate(() => document.dispatchEvent(new KeyboardEvent('keydown', { key: 'z', ctrlKey: true, bubbles: true }))
        && document.dispatchEvent(new KeyboardEvent('keydown', { key: 'y', ctrlKey: true, bubbles: true })) && location.reload()),
    ]);
    await page.waitForSelector('.stage [data-tree="2"]');
    before += 1;
    assert.equal(await stubs.count(), before, `change ${time + 1} was lost`);
  }
});

pageTest('a remedy is applied from its finding', {}, async ({ page }) => {
  await example(page, 'third-leaf.json');
  const before = await figure(page, 'figure-bare');
  await bare(page).locator('[data-remedy]').first().click();
  await frames(page, 2);
  assert.equal(await bare(page).count(), 0);
  assert.notEqual(await figure(page, 'figure-bare'), before);
});

pageTest('the wall is worked by keyboard alone', {}, async ({ page }) => {
  await example(page, 'third-leaf.json');
  await page.locator('.stage').focus();
  const title = page.locator('.part-card h2');
  await page.keyboard.press('ArrowRight');
  const first = await title.textContent();
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('ArrowRight');
  assert.notEqual(await title.textContent(), first);
  for (let i = 0; i < 30 && !upright.test(await title.textContent()); i += 1) await page.keyboard.press('ArrowRight');
  assert.match(await title.textContent(), upright);
  const stubs = await page.locator('.stage .shoot.stub').count();
  await page.keyboard.press('s');
  assert.equal(await page.locator('.stage .shoot.stub').count(), stubs + 1);
  await page.keyboard.press('Control+z');
  assert.equal(await page.locator('.stage .shoot.stub').count(), stubs);
  // The first Escape closes the card: the shoot is still the one that the keys work on.
  await page.keyboard.press('Enter');
  await frames(page, 2);
  assert.equal(await page.evaluate(() => document.activeElement.closest('.part-card') !== null), true);
  await page.keyboard.press('Escape');
  assert.equal(await title.count(), 0);
  await page.keyboard.press('s');
  assert.equal(await page.locator('.stage .shoot.stub').count(), stubs + 1);
  await page.keyboard.press('Control+z');
  await page.keyboard.press('Enter');
  await title.waitFor();
  await page.keyboard.press('Escape');
  assert.equal(await page.locator('.trees .chosen').count(), 1);
  await page.keyboard.press('Escape');
  assert.equal(await page.locator('.trees .chosen').count(), 0);
  await page.keyboard.press('s');
  assert.equal(await page.locator('.stage .shoot.stub').count(), stubs);
});

pageTest('of several files dropped the first is opened, and the others are named', {}, async ({ page }) => {
  await page.locator('.start').waitFor();
  const plan = await readFile(here('../../examples/third-leaf.json'), 'utf8');
  const drop = (files) => page.evaluate((given) => {
    const carried = new DataTransfer();
    for (const [name, text] of given) carried.items.add(new File([text], name));
    document.body.dispatchEvent(new DragEvent('drop', { dataTransfer: carried, bubbles: true, cancelable: true }));
  }, files);
  await drop([['one.json', plan], ['two.json', plan], ['three.csv', 'x']]);
  await page.waitForSelector('.stage [data-tree]');
  assert.match(await page.locator('.notice').textContent(), like('files-first', { file: 'one.json', others: 2 }));
  await page.locator('.notice button').click();
  await drop([['row.csv', 'tree,place,kind,length\n1,0,leader,1.9\n']]);
  await page.locator('.sheet').waitFor();
  assert.equal(await page.locator('.notice').count(), 0);
});

// A module of its own, built as the page's is: the program goes without what only this test needs.
pageTest('the core computes the same in the browser as natively', { path: 'about:blank' }, async ({ page }) => {
  const built = process.env.CORDONRY_DIGEST ?? here('../../target/glue/digest').pathname;
  const glue = await readFile(`${built}/digest.js`, 'utf8');
  const module = await readFile(`${built}/digest_bg.wasm`, 'base64');
  await page.evaluate(async ({ glue, module }) => {
    const script = URL.createObjectURL(new Blob([glue], { type: 'text/javascript' }));
    const { default: init, digestOf } = await import(script);
    await init({ module_or_path: await fetch(`data:application/wasm;base64,${module}`) });
    globalThis.digestOf = digestOf;
  }, { glue, module });
  const folder = here('../reference/digest/');
  const plans = (await readdir(folder)).filter((name) => name.endsWith('.json'));
  assert.ok(plans.length >= 3);
  for (const name of plans) {
    const plan = await readFile(new URL(name, folder), 'utf8');
    const expected = await readFile(new URL(name.replace('.json', '.txt'), folder), 'utf8');
    assert.equal(await page.evaluate((text) => digestOf(text), plan), expected, name);
  }
});

pageTest('start page and desk are accessible', {}, async ({ page }) => {
  await page.locator('.start').waitFor();
  assert.deepEqual(await accessibility(page), []);
  await example(page, 'third-leaf.json');
  assert.deepEqual(await accessibility(page), []);
});

pageTest('a second tab of the same row says that it does not save', {}, async ({ page, context }) => {
  await example(page, 'third-leaf.json');
  await saved(page);
  const second = await context.newPage();
  await second.goto(page.url());
  await second.locator('.notice.grave', { hasText: say('save-elsewhere') }).waitFor();
  await second.close();
});

pageTest('after the first visit the page needs no network', {}, async ({ page, context }) => {
  await page.locator('.start').waitFor();
  await onDevice(page);
  await context.setOffline(true);
  await page.reload();
  await page.locator('.start').waitFor();
  await example(page, 'third-leaf.json');
  await saved(page);
});
