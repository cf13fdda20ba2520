// A long table: read while the page goes on, told how far it is, left in the midst, and lost with words.
import assert from 'node:assert/strict';
import { firefoxTest } from './firefox.mjs';
import { ChromiumHands, FirefoxHands } from './hands.mjs';
import { accessibility, frames, pageTest } from './rig.mjs';
import { like, say } from './words.mjs';

const TREES = 600;
const LINES = 62_400;

/** A table of many lines: each tree a leader with uprights and side branches of a place of their own. */
function long() {
  const lines = ['tree;place (m);kind;length (m);side;pose'];
  for (let tree = 1; tree <= TREES; tree += 1) {
    lines.push(`${tree};${tree};leader;2,40;right;45`);
    for (let n = 1; n < LINES / TREES; n += 1) lines.push(`${tree};${(tree + 0.5 + n / 100).toFixed(3)};bud;;;`);
  }
  return lines.join('\n');
}

const READING = '.sheet progress';
const LEAVE = '[data-act=import-leave]';
const file = () => ({ name: 'long.csv', mimeType: 'text/csv', buffer: Buffer.from(long()) });
const give = (page) => page.locator('input[type=file]').first().setInputFiles(file());

/** Counts the page's frames in which a table is being read, and how far it is in each. */
const watch = (page) =>
  page.evaluate((reading) => {
    globalThis.seen = [];
    const look = () => {
      const bar = document.querySelector(reading);
      if (bar) globalThis.seen.push(bar.position);
      requestAnimationFrame(look);
    };
    requestAnimationFrame(look);
  }, READING);

/**
 * Keeps from the page that a table is read to its end, or lets it hear of it again: a reading may be over between two looks of what
 * drives the browser, and would then never have been seen.
 */
const holdEnd = (page, held) =>
  page.evaluate((held) => {
    const { onmessage } = Object.getOwnPropertyDescriptors(Worker.prototype);
    if (globalThis.held === undefined) {
      const isEnd = ({ data }) => Array.isArray(data) && data.length > 2;
      const set = function (heard) {
        onmessage.set.call(this, heard && ((event) => (globalThis.held && isEnd(event) ? undefined : heard.call(this, event))));
      };
      Object.defineProperty(Worker.prototype, 'onmessage', { ...onmessage, set });
    }
    globalThis.held = held;
  }, held);

/** Waits until so many workers are left. */
async function left(page, count) {
  while (page.workers().length > count) await page.workers().at(-1).waitForEvent('close').catch(() => {});
}

/** One test in both browsers. */
function both(name, run) {
  pageTest(name, {}, ({ page }) => run(new ChromiumHands(page)));
  firefoxTest(name, {}, ({ page }) => run(new FirefoxHands(page)));
}

both('while a long table is read the page goes on, tells how far it is, and can leave it', async (hands) => {
  const { page } = hands;
  await watch(page);
  await holdEnd(page, true);
  await hands.bring('long.csv', long());
  await hands.wait(READING);
  await hands.says('.sheet [aria-live]', like('import-reading', { lines: LINES }));
  // The page answers in the midst of it.
  await hands.press(LEAVE);
  await hands.gone('.sheet');
  assert.equal(await hands.count('.notice'), 0);
  await page.evaluate(() => globalThis.seen.splice(0));
  await holdEnd(page, false);
  await hands.bring('long.csv', long());
  await hands.wait('[data-act=import-use]:enabled');
  const seen = await page.evaluate(() => globalThis.seen);
  assert.ok(seen.length > 5, `${seen.length} frames`);
  const far = seen.filter((share) => share >= 0);
  assert.ok(new Set(far).size > 2, `told ${[...new Set(far)]}`);
  assert.ok(far.every((share, n) => n === 0 || share >= far[n - 1]), 'it goes on');
  assert.equal(await hands.count(READING), 0);
  assert.match(await hands.text('.sheet'), like('import-taken', { lines: LINES, trees: TREES }));
  await hands.press('[data-act=import-use]');
  await hands.wait('.stage [data-tree="1"]');
  assert.equal(await hands.value('.row-name'), 'long');
});

pageTest('Escape leaves a table in the midst, gives the focus back and ends what reads it', {}, async ({ page }) => {
  await page.locator('.start').waitFor();
  const field = page.locator('input[type=file]').first();
  await field.focus();
  // The row's own helper starts with the page, and may be a little later than what is seen of it.
  while (page.workers().length === 0) await frames(page, 2);
  const before = page.workers().length;
  await holdEnd(page, true);
  await give(page);
  await page.locator(READING).waitFor();
  // What reads is at work before the browser's driver has heard of it.
  while (page.workers().length <= before) await frames(page, 2);
  assert.equal(page.workers().length, before + 1);
  assert.equal(await page.evaluate(() => document.activeElement.dataset.act), 'import-leave');
  assert.deepEqual(await accessibility(page), []);
  await page.keyboard.press('Escape');
  await page.locator('.sheet').waitFor({ state: 'detached' });
  assert.equal(await field.evaluate((e) => e === document.activeElement), true);
  await left(page, before);
  assert.equal(page.workers().length, before, 'the helper of the row stands');
  // A table that is read at once takes the place of one that is still being read.
  await give(page);
  await page.locator(READING).waitFor();
  const small = Buffer.from('tree;place (m);kind;length (m)\n7;0;leader;2,40');
  await field.setInputFiles({ name: 'small.csv', mimeType: 'text/csv', buffer: small });
  await page.locator('.sheet', { hasText: like('import-taken', { lines: 1, trees: 1 }) }).waitFor();
  await left(page, before);
  assert.equal(await page.locator('#import-title').textContent(), say('import-title', { row: 'small' }));
  await page.locator('[data-act=import-use]').click();
  await page.waitForSelector('.stage [data-tree="7"]');
});

// What reads the table stops: it throws at what it is given, or is gone with all that it is.
for (const how of ['throws', 'dies']) {
  pageTest(`a reader that ${how} is told of, and nothing is taken`, {}, async ({ page, allow }) => {
    allow(/TypeError/);
    await page.locator('.start').waitFor();
    await page.evaluate((how) => {
      const post = Worker.prototype.postMessage;
      Worker.prototype.postMessage = function (sent) {
        if (!Array.isArray(sent)) return post.call(this, sent);
        if (how === 'throws') return post.call(this, [null, ...sent.slice(1)]);
        setTimeout(() => this.dispatchEvent(new ErrorEvent('error')), 400);
      };
    }, how);
    await give(page);
    await page.locator('.notice', { hasText: like('import-lost', { file: 'long.csv' }) }).waitFor();
    assert.equal(await page.locator('.sheet').count(), 0);
    assert.equal(await page.locator('.start').count(), 1);
    await left(page, 1);
    assert.equal(page.workers().length, 1, 'the helper of the row stands');
  });
}

pageTest('it is asked whether last year’s growth had been tipped, where the table does not say', {}, async ({ page }) => {
  // A leaf before renewal, which ends tipping.
  const uprights = [0.6, 0.8, 1, 1.2, 1.4, 1.6].map((x) => `1,${x},upright,,1.20,10,,,1,,`);
  const table = ['coming leaf,2', 'tree,place (m),kind,parent,length (m),diameter (mm),side,pose,season,laterals,note', '1,0,leader,,1.80 + 0.30,28,right,45,0,,', ...uprights];
  const file = { name: 'untold.csv', mimeType: 'text/csv', buffer: Buffer.from(table.join('\n')) };
  const give = () => page.locator('input[type=file]').first().setInputFiles(file);
  const due = '[data-matter][data-rules~="tipping-due"]';
  const tipped = page.getByLabel(say('import-tipped'));
  await give();
  await tipped.waitFor();
  assert.deepEqual(await accessibility(page), []);
  await page.locator('[data-act=import-use]').click();
  await page.waitForSelector(due);
  await give();
  await tipped.selectOption('yes');
  await page.locator('[data-act=import-use]').click();
  await page.waitForSelector(due, { state: 'detached' });
  // Another table is asked about anew.
  await give();
  assert.equal(await tipped.inputValue(), '');
  await tipped.selectOption('no');
  await page.locator('[data-act=import-use]').click();
  await page.waitForSelector(due);
});
