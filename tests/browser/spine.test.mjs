// The main job from file to finding: a measured row comes in, a leader is bent, its gap closes.
import assert from 'node:assert/strict';
import { readFile, readdir } from 'node:fs/promises';
import { example, figure, findings, saved } from './desk.mjs';
import { accessibility, frames, pageTest } from './rig.mjs';
import { like, say, whole } from './words.mjs';

const here = (path) => new URL(path, import.meta.url);

/** Brings a file in through the page's own file field. */
async function bring(page, path) {
  await page.locator('input[type=file]').setInputFiles(here(path).pathname);
}

/** Where the middle of a part is on the screen. */
async function middle(locator) {
  const box = await locator.boundingBox();
  assert.ok(box, 'it has a place on the screen');
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}

// The title of an upright's card.
const upright = whole('name-upright');
const bare = (page) => findings(page, 'cordon-gap');

pageTest('a measured table comes in with its bad lines named, and comes back after a reload', {}, async ({ page }) => {
  await bring(page, '../../examples/measured-40.csv');
  const sheet = page.locator('.sheet');
  await sheet.waitFor();
  assert.match(await sheet.textContent(), like('import-taken', { trees: 40 }));
  const lines = await sheet.locator('.bad-lines th').allTextContents();
  assert.ok(lines.length >= 3, `bad lines: ${lines}`);
  await page.locator('[data-act=import-use]').click();
  await page.waitForSelector('.stage [data-tree="1"]');
  const fill = await figure(page, 'figure-fill');
  assert.match(fill, /\d+ %/);
  await saved(page);
  await page.reload();
  await page.waitForSelector('.stage [data-tree="1"]');
  assert.equal(await figure(page, 'figure-fill'), fill);
  assert.equal(await page.locator('.row-name').inputValue(), 'measured-40');
});

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

pageTest('a tip is dragged until its gap closes; the finding goes with the button still down; undo brings both back', {}, async ({ page }) => {
  await example(page, 'third-leaf.json');
  assert.equal(await bare(page).count(), 1);
  assert.match(await bare(page).textContent(), like('finding-cordon-gap'));
  const filled = await figure(page, 'figure-fill');
  // The end shoot of tree 5 stands at its leader's end.
  await bare(page).locator('.said button').click();
  await frames(page, 2);
  const shoot = page.locator('[data-part="5/1"]');
  const shootAt = await middle(shoot.locator('.wood'));
  await page.mouse.click(shootAt.x, shootAt.y);
  const handle = page.locator('[data-handle=tip][data-of="5/1"]');
  const tip = await middle(handle.locator('.knob'));
  await page.mouse.move(tip.x, tip.y);
  await page.mouse.down();
  // Down along an arc to the right, as a hand would.
  const foot = await middle(page.locator('[data-handle][data-of="5/0"] .knob'));
  const length = Math.hypot(tip.x - foot.x, tip.y - foot.y);
  for (let degrees = 80; degrees >= 0; degrees -= 8) {
    const a = (degrees * Math.PI) / 180;
    await page.mouse.move(foot.x + length * Math.cos(a), foot.y - length * Math.sin(a));
    await frames(page);
  }
  await frames(page, 2);
  assert.deepEqual(await bare(page).allTextContents(), [], 'the finding goes while the button is down');
  assert.notEqual(await figure(page, 'figure-fill'), filled);
  await page.mouse.up();
  await frames(page, 2);
  assert.equal(await bare(page).count(), 0);
  await page.locator('[data-act=undo]').click();
  assert.equal(await bare(page).count(), 1);
  assert.equal(await figure(page, 'figure-fill'), filled);
  await page.locator('[data-act=redo]').click();
  assert.equal(await bare(page).count(), 0);
});

pageTest('a press on the cordon keeps a bud, which stays after a reload and can be taken back', {}, async ({ page }) => {
  await example(page, 'third-leaf.json');
  const buds = page.locator('.stage .shoot.bud');
  const before = await buds.count();
  const wood = await page.locator('[data-part="2/0"] .wood').boundingBox();
  // On the laid part, between two uprights.
  const places = await page.locator('[data-tree="2"] .shoot.upright .wood').evaluateAll((all) => all.map((e) => { const b = e.getBoundingClientRect(); return [b.bottom, b.left + b.width / 2, b.left, b.right]; }));
  const feet = places.map((p) => p[1]).sort((a, b) => a - b);
  const gaps = feet.slice(1).map((x, i) => [x - feet[i], (x + feet[i]) / 2]).sort((a, b) => b[0] - a[0]);
  const x = gaps[0][1];
  // Down through the wood until the page says what a press would do.
  let y = wood.y;
  for (; y < wood.y + 40; y += 2) {
    await page.mouse.move(x, y);
    await frames(page);
    if ((await page.locator('.ghost-bud').count()) > 0) break;
  }
  assert.equal(await page.locator('.ghost-bud').count(), 1, 'a bud is offered on the wood');
  await page.mouse.click(x, y);
  await frames(page, 2);
  assert.equal(await buds.count(), before + 1);
  await saved(page);
  await page.reload();
  await page.waitForSelector('.stage [data-tree="2"]');
  assert.equal(await buds.count(), before + 1);
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

pageTest('damaged and foreign files are refused by name, and the row on the desk stays', {}, async ({ page }) => {
  const bytes = await readFile(here('../../examples/third-leaf.json'), 'utf8');
  const noTable = (kind) => like('refusal-file-kind', { kind, wanted: 'table' });
  const cases = [
    [bytes.slice(0, bytes.length / 2), 'cut.json', like('refusal-file-cut')],
    [bytes.replace(/"version": \d+/, '"version": 999'), 'newer.json', like('refusal-file-too-new', { value: '999' })],
    ['{"format":"something-else"}', 'other.json', like('refusal-file-format', { value: 'something-else' })],
    ['tree,length\n', 'short.csv', like('refusal-csv-columns')],
    ['PK\u0003\u0004', 'sheet.xlsx', noTable('workbook')],
    ['<!doctype html>', 'saved.html', noTable('page')],
    ['[]', 'list.json', noTable('list')],
  ];
  for (const [text, name, why] of cases) {
    await page.locator('input[type=file]').setInputFiles({ name, mimeType: 'text/plain', buffer: Buffer.from(text) });
    const notice = page.locator('.notice.grave');
    await notice.waitFor();
    assert.match(await notice.textContent(), like('file-refused', { file: name, why }));
    await notice.locator('button').click();
  }
  // A table of which nothing is understood is shown, but is no row to use.
  await page.locator('input[type=file]').setInputFiles({ name: 'head.csv', mimeType: 'text/csv', buffer: Buffer.from('tree,place,kind,length\n') });
  assert.ok(await page.locator('[data-act=import-use]').isDisabled());
  await page.locator('.sheet .choices button:enabled').click();
  await page.locator('.sheet').waitFor({ state: 'detached' });
  await example(page, 'third-leaf.json');
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

pageTest('the core computes the same in the browser as natively', {}, async ({ page }) => {
  await page.locator('.start').waitFor();
  const folder = here('../reference/digest/');
  const plans = (await readdir(folder)).filter((name) => name.endsWith('.json'));
  assert.ok(plans.length >= 3);
  for (const name of plans) {
    const plan = await readFile(new URL(name, folder), 'utf8');
    const expected = await readFile(new URL(name.replace('.json', '.txt'), folder), 'utf8');
    const answer = await page.evaluate(async (text) => {
      const { hearMessage, nextReply } = await import(new URL('cordonry_page.js', document.querySelector('script[type=module]').src));
      hearMessage({ learn: { generation: 7, changed: text, works: [] } });
      hearMessage({ ask: { number: 3, generation: 7, question: 'digest' } });
      return nextReply();
    }, plan);
    assert.equal(answer.number, 3);
    assert.equal(answer.body.digest, expected, name);
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
  await page.evaluate(async () => {
    const { active } = await navigator.serviceWorker.ready;
    if (active.state !== 'activated') await new Promise((done) => active.addEventListener('statechange', done, { once: true }));
  });
  await context.setOffline(true);
  await page.reload();
  await page.locator('.start').waitFor();
  await example(page, 'third-leaf.json');
  await saved(page);
});
