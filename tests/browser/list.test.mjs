// The rows on this device: how they are listed, renamed, copied, removed and put back; all of them as one file, out and in;
// one at which the program stops.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { example, saved } from './desk.mjs';
import { accessibility, pageTest } from './rig.mjs';
import { like, say } from './words.mjs';

const toStart = async (page) => {
  await page.locator('.doings .more summary').click();
  await page.locator('[data-act=other-row]').click();
  await page.locator('.start .kept').waitFor();
};
const rows = (page) => page.locator('.kept li:not(.gone)');
const names = (page) => page.locator('.kept li .name').allInnerTexts();
const row = (page, name) => page.locator('.kept li', { has: page.getByText(name, { exact: true }) });
const counted = (page, count) => page.waitForFunction((count) => document.querySelectorAll('.kept li:not(.gone)').length === count, count);
const bring = (page, name, text) => page.locator('input[type=file]').first().setInputFiles({ name, mimeType: 'application/json', buffer: Buffer.from(text) });
const plan = (name) => readFile(new URL(`../../examples/${name}`, import.meta.url), 'utf8');

async function listed(page, ...examples) {
  for (const name of examples) {
    await example(page, name);
    await saved(page);
    await toStart(page);
  }
}

pageTest('a row is listed with its picture, leaf, date and size, and is renamed, copied, removed and put back', {}, async ({ page }) => {
  await listed(page, 'lost-tree.json', 'third-leaf.json');
  const [newest, older] = await names(page);
  const first = row(page, newest);
  await first.locator('.picture svg .wood, .picture svg path').first().waitFor();
  const told = await first.locator('.when').innerText();
  assert.match(told, like('kept-leaf', { leaf: 3 }));
  assert.match(told, like('kept-size'));
  assert.match(told, new RegExp(`${new Date().getFullYear()}`));
  assert.deepEqual(await accessibility(page), []);

  await first.locator('[data-act=kept-rename]').click();
  const field = page.locator('.naming input');
  // The field has the focus, a frame after it is there.
  await page.waitForFunction(() => document.activeElement?.matches('.naming input'));
  await field.fill('Not this');
  await field.press('Escape');
  assert.deepEqual(await names(page), [newest, older], 'Escape leaves the name');
  await first.locator('[data-act=kept-rename]').click();
  await field.fill('Behind the barn');
  await field.press('Enter');
  await row(page, 'Behind the barn').waitFor();
  await row(page, 'Behind the barn').locator('[data-act=kept-copy]').click();
  const copy = say('kept-copy', { row: 'Behind the barn' });
  await row(page, copy).waitFor();
  await page.reload();
  await counted(page, 3);
  assert.deepEqual((await names(page)).sort(), ['Behind the barn', copy, older].sort());

  // The new name is a step of the row, and can be undone there.
  await row(page, 'Behind the barn').locator('.name').click();
  await page.waitForSelector('.stage [data-tree]');
  assert.equal(await page.locator('.row-name').inputValue(), 'Behind the barn');
  await page.locator('[data-act=undo]').click();
  await page.waitForFunction((name) => document.querySelector('.row-name').value === name, newest);
  await page.locator('[data-act=redo]').click();
  await saved(page);
  await toStart(page);

  // What is removed can be put back, with its steps.
  await row(page, 'Behind the barn').locator('[data-act=kept-forget]').click();
  await counted(page, 2);
  await page.locator('[data-act=kept-back]').click();
  await counted(page, 3);
  await row(page, 'Behind the barn').locator('.name').click();
  await page.waitForSelector('.stage [data-tree]');
  await page.locator('[data-act=undo]').click();
  await page.waitForFunction((name) => document.querySelector('.row-name').value === name, newest);
  await saved(page);
  await toStart(page);
  await row(page, newest).locator('[data-act=kept-forget]').click();
  await counted(page, 2);
  await page.reload();
  await counted(page, 2);
  assert.deepEqual((await names(page)).sort(), [copy, older].sort(), 'what was removed is gone');
});

pageTest('a row that is open in another tab is neither renamed nor removed', {}, async ({ page, context }) => {
  await listed(page, 'third-leaf.json');
  const second = await context.newPage();
  await second.goto(page.url());
  await second.locator('.kept .name').click();
  await second.waitForSelector('.stage [data-tree]');
  await page.locator('[data-act=kept-forget]').click();
  await page.locator('.notice.grave', { hasText: say('kept-busy') }).waitFor();
  assert.equal(await rows(page).count(), 1);
  await second.close();
});

pageTest('all rows go out as one file and come in again beside what is there', {}, async ({ page }) => {
  await listed(page, 'lost-tree.json', 'third-leaf.json');
  const before = await names(page);
  const [download] = await Promise.all([page.waitForEvent('download'), page.locator('[data-act=all-save]').click()]);
  assert.match(download.suggestedFilename(), /^[\p{L}]+-\d{4}-\d\d-\d\d\.json$/u);
  const text = await readFile(await download.path(), 'utf8');
  const file = JSON.parse(text);
  assert.equal(file.format, 'cordonry-archive');
  assert.deepEqual(file.rows.map((r) => r.name), before);
  assert.ok(file.rows.every((r) => r.format === 'cordonry-plan'));
  // Each plan's own text stands unchanged in it.
  assert.ok(text.includes(await plan('lost-tree.json')), 'byte for byte');
  await page.locator('.notice', { hasText: say('kept-all-saved', { count: 2 }) }).waitFor();
  await bring(page, 'all.json', text);
  await counted(page, 4);
  const all = await names(page);
  for (const row of before) assert.deepEqual(all.filter((name) => name.startsWith(row)).sort(), [1, 2].map((number) => say('kept-alike', { row, number })));
});

pageTest('of a damaged file of many rows the good ones come in, the bad ones are named and handed back; a row on the desk stays', {}, async ({ page }) => {
  const texts = await Promise.all(['third-leaf.json', 'lost-tree.json', 'two-cordons.json'].map(plan));
  const broken = texts[1].replace('"leaf": ', '"leaf": -');
  const text = `{"format": "cordonry-archive", "version": 1, "rows": [\n${[texts[0], broken, texts[2]].join(',\n')}]}\n`;
  await example(page, 'clean-third-leaf.json');
  const name = await page.locator('.row-name').inputValue();
  await bring(page, 'all.json', text);
  const sheet = page.locator('dialog[open]', { hasText: say('left-out-title', { count: 1 }) });
  await sheet.waitFor();
  const title = JSON.parse(texts[1]).name;
  assert.match(await sheet.locator('li').innerText(), like('left-out-row', { place: 2, row: title }));
  assert.deepEqual(await accessibility(page), []);
  const [download] = await Promise.all([page.waitForEvent('download'), sheet.locator('[data-act=left-out-save]').click()]);
  assert.ok((await readFile(await download.path(), 'utf8')).includes(broken), 'what could not be read comes back as it was');
  await sheet.locator('[data-act=left-out-close]').click();
  assert.equal(await page.locator('.row-name').inputValue(), name);
  await saved(page);
  await toStart(page);
  await counted(page, 3);
  // One that is no such file at all says so.
  await bring(page, 'newer.json', text.replace('"version": 1,', '"version": 9,'));
  await page.locator('.notice.grave', { hasText: say('refusal-archive-version', { value: 9, high: 1 }) }).waitFor();
  assert.equal(await rows(page).count(), 3);
});

/** Changes what is kept of the row that was saved last. */
const spoil = (page, change) =>
  page.evaluate(
    (change) =>
      new Promise((done, fail) => {
        const asked = indexedDB.open('cordonry');
        asked.onerror = fail;
        asked.onsuccess = () => {
          const transaction = asked.result.transaction(['plans', 'steps'], 'readwrite');
          const plans = transaction.objectStore('plans');
          plans.getAll().onsuccess = ({ target }) => {
            const [plan] = target.result;
            if (change.text) plans.put({ ...plan, plan: plan.plan.slice(0, change.text) });
            if (change.tried) transaction.objectStore('steps').put(change.tried, `tried ${plan.id}`);
          };
          transaction.oncomplete = () => {
            asked.result.close();
            done();
          };
        };
      }),
    change,
  );

pageTest('a row that cannot be read is set aside with its reason, and what is kept of it can be saved', {}, async ({ page }) => {
  await listed(page, 'third-leaf.json');
  await spoil(page, { text: 500 });
  await page.reload();
  await page.locator('.kept li .refusal', { hasText: like('kept-aside') }).waitFor();
  assert.equal(await page.locator('.kept li button.name').count(), 0, 'it is not opened');
  assert.deepEqual(await accessibility(page), []);
  const [download] = await Promise.all([page.waitForEvent('download'), page.locator('[data-act=kept-bytes]').click()]);
  const text = await readFile(await download.path(), 'utf8');
  assert.equal(text.length, 500);
  assert.ok((await plan('third-leaf.json')).startsWith(text));
  await page.locator('[data-act=kept-forget]').click();
  await page.locator('[data-act=kept-back]').click();
  await page.locator('.kept li .refusal').waitFor();
});

pageTest('a row at which the page stopped twice is opened no more by itself, until somebody asks', {}, async ({ page }) => {
  await example(page);
  await saved(page);
  const name = await page.locator('.row-name').inputValue();
  await page.evaluate(() => new Promise((done) => setTimeout(done, 1500)));
  // Once, and it is tried again.
  await spoil(page, { tried: 1 });
  await page.reload();
  await page.waitForSelector('.stage [data-tree]');
  await page.evaluate(() => new Promise((done) => setTimeout(done, 1500)));
  await spoil(page, { tried: 2 });
  for (let load = 0; load < 2; load += 1) {
    await page.reload();
    await page.locator('.notice.grave', { hasText: say('kept-set-aside') }).waitFor();
    await page.locator('.kept li .refusal', { hasText: say('kept-stopped') }).waitFor();
    assert.equal(await page.locator('.stage').count(), 0);
  }
  const [download] = await Promise.all([page.waitForEvent('download'), page.locator('[data-act=kept-bytes]').click()]);
  assert.equal(JSON.parse(await readFile(await download.path(), 'utf8')).name, name);
  await page.locator('[data-act=kept-again]').click();
  await page.locator('.kept li button.name').click();
  await page.waitForSelector('.stage [data-tree]');
  await page.reload();
  await page.waitForSelector('.stage [data-tree]');
});

const lasting = (answer) => (page) =>
  page.addInitScript((answer) => {
    globalThis.asked = 0;
    navigator.storage.persisted = async () => answer && globalThis.asked > 0;
    navigator.storage.persist = async () => {
      globalThis.asked += 1;
      return answer;
    };
  }, answer);

for (const answer of [true, false]) {
  pageTest(`the browser is asked to keep the rows once a person has changed one, and that it says ${answer ? 'yes' : 'no'} is told`, { prepare: lasting(answer) }, async ({ page }) => {
    await example(page);
    await saved(page);
    const asked = () => page.evaluate(() => globalThis.asked);
    assert.equal(await asked(), 0, 'nothing is a person’s own yet');
    for (const name of ['Mine', 'Still mine']) {
      await page.locator('.row-name').fill(name);
      await page.locator('.row-name').blur();
      await page.locator('.kept-state', { hasText: say('kept-waiting') }).waitFor();
      await saved(page);
    }
    assert.equal(await asked(), 1, 'once');
    await toStart(page);
    await page.locator(`[data-lasts=${answer ? 'yes' : 'no'}]`, { hasText: say(answer ? 'kept-lasting' : 'kept-passing') }).waitFor();
    if (answer) return;
    await page.locator('[data-act=lasting]').click();
    await page.locator('.notice', { hasText: say('kept-lasting-not') }).waitFor();
  });
}

pageTest('a browser that keeps nothing says so', { prepare: (page) => page.addInitScript(() => (IDBFactory.prototype.open = () => { throw new DOMException('denied', 'SecurityError'); })) }, async ({ page }) => {
  await page.locator('.start .refusal', { hasText: say('kept-denied') }).waitFor();
  await example(page);
  await page.locator('.notice.grave', { hasText: say('save-failing') }).waitFor();
});
