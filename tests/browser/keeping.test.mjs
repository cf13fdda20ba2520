// What is changed is kept on the device: at a full device, in two tabs, and when the page goes.
import assert from 'node:assert/strict';
import { example, saved } from './desk.mjs';
import { frames, pageTest } from './rig.mjs';
import { say } from './words.mjs';

/** Gives the row a name: a step of its own. */
async function name(page, words) {
  await page.locator('.row-name').fill(words);
  await page.locator('.row-name').blur();
}
const named = (page) => page.locator('.row-name').inputValue();
const state = (page, key) => page.locator('.kept-state', { hasText: say(key) }).waitFor();
const opened = (page) => page.waitForSelector('.stage [data-tree]');
const asks = (page) => page.evaluate(() => !window.dispatchEvent(new Event('beforeunload', { cancelable: true })));

/** A device that is full, or is not: then what is written is given up as it is committed, as the browser does it. */
async function full(page, full) {
  await page.evaluate((full) => {
    globalThis.full = full;
    const { commit } = IDBTransaction.prototype;
    if (commit.mended) return;
    IDBTransaction.prototype.commit = function () {
      return globalThis.full ? this.abort() : commit.call(this);
    };
    IDBTransaction.prototype.commit.mended = true;
  }, full);
}

pageTest('a burst of changes is saved while it goes on', {}, async ({ page }) => {
  await example(page);
  await saved(page);
  // Each change comes before the last one's quarter of a second is over.
  const written = await page.evaluate(async () => {
    const put = IDBObjectStore.prototype.put;
    let count = 0;
    IDBObjectStore.prototype.put = function (...given) {
      count += 1;
      return put.apply(this, given);
    };
    const name = document.querySelector('.row-name');
    for (let i = 0; i < 12; i += 1) {
      name.value = `burst ${i}`;
      name.dispatchEvent(new Event('change'));
      await new Promise((next) => setTimeout(next, 100));
    }
    IDBObjectStore.prototype.put = put;
    return count;
  });
  assert.ok(written >= 1, 'nothing was written in the burst');
});

pageTest('a full device is said, what it refused is saved once there is room, and only meanwhile does the page ask before it goes', {}, async ({ page }) => {
  await example(page);
  await saved(page);
  assert.equal(await asks(page), false, 'nothing is unsaved');
  await full(page, true);
  await name(page, 'Too much');
  await page.locator('.notice.grave', { hasText: say('save-failing') }).waitFor();
  await state(page, 'kept-failing');
  await frames(page, 2);
  assert.equal(await asks(page), true, 'what is unsaved would be lost');
  // Whoever leaves the row is asked as well, and stays if that is what is answered.
  const asked = page.waitForEvent('dialog');
  await page.locator('.doings .more summary').click();
  const pressed = page.locator('[data-act=other-row]').click();
  const dialog = await asked;
  assert.equal(dialog.message(), say('save-leave-sure'));
  await dialog.dismiss();
  await pressed;
  assert.equal(await named(page), 'Too much');
  await full(page, false);
  await page.locator('.notice', { hasText: say('save-again') }).waitFor();
  await saved(page);
  await frames(page, 2);
  assert.equal(await asks(page), false, 'all is saved again');
  await page.reload();
  await opened(page);
  assert.equal(await named(page), 'Too much');
});

pageTest('the second tab takes over when the first closes, with what that one saved', {}, async ({ page, context }) => {
  await example(page);
  await saved(page);
  const second = await context.newPage();
  await second.goto(page.url());
  await state(second, 'kept-elsewhere');
  assert.equal(await asks(second), false, 'nothing was changed here');
  const cut = await second.locator('.kept-state').evaluate((e) => e.scrollWidth > e.clientWidth || getComputedStyle(e).overflow !== 'visible');
  assert.equal(cut, false, 'what is said of the other tab is read whole');
  await name(page, 'From the first');
  await saved(page);
  await page.close();
  await second.locator('.notice', { hasText: say('save-taken-over') }).waitFor();
  assert.equal(await named(second), 'From the first');
  await name(second, 'From the second');
  await saved(second);
  await second.reload();
  await opened(second);
  assert.equal(await named(second), 'From the second');
  await second.close();
});

pageTest('where both tabs have changed a row both are kept', {}, async ({ page, context }) => {
  await example(page);
  await saved(page);
  const second = await context.newPage();
  await second.goto(page.url());
  await state(second, 'kept-elsewhere');
  await name(second, 'Second');
  await frames(second, 2);
  assert.equal(await asks(second), true, 'nobody saves what was changed here');
  await name(page, 'First');
  await saved(page);
  await page.close({ runBeforeUnload: false });
  await second.locator('.notice', { hasText: say('save-apart') }).waitFor();
  await saved(second);
  assert.equal(await named(second), say('row-copy', { name: 'Second' }));
  await second.locator('.doings .more summary').click();
  await second.locator('[data-act=other-row]').click();
  await second.locator('.start .kept').waitFor();
  const rows = await second.locator('.kept li button.link:not(.quiet)').allTextContents();
  assert.deepEqual(rows.map((row) => row.trim()).sort(), ['First', say('row-copy', { name: 'Second' })]);
  await second.close();
});

// In place of the browser's own window a file of the page's own, whose writer fails when it is told to.
const inPlace = (page) =>
  page.addInitScript(() => {
    globalThis.showSaveFilePicker = async () => {
      const folder = await navigator.storage.getDirectory();
      const file = await folder.getFileHandle('row.json', { create: true });
      const open = file.createWritable.bind(file);
      file.createWritable = async (options) => {
        const writer = await open(options);
        const write = writer.write.bind(writer);
        writer.write = async (text) => {
          if (!globalThis.failing) return write(text);
          await write(text.slice(0, text.length / 2));
          throw new DOMException('full', 'QuotaExceededError');
        };
        return writer;
      };
      return file;
    };
  });
const inFile = (page) =>
  page.evaluate(async () => {
    const folder = await navigator.storage.getDirectory();
    const names = [];
    for await (const name of folder.keys()) names.push(name);
    const file = await (await folder.getFileHandle('row.json')).getFile();
    return { names, text: await file.text() };
  });

pageTest('a name that is being written stays, whatever the page learns meanwhile', {}, async ({ page }) => {
  await example(page);
  await page.locator('.row-name').fill('Half written');
  // A press that leaves the focus where it is.
  await page.evaluate(() => document.querySelector('.before-after input:not(:checked)').click());
  await frames(page, 3);
  assert.equal(await named(page), 'Half written');
});

pageTest('a file that is saved in place is replaced whole, or not at all', { prepare: inPlace }, async ({ page }) => {
  await example(page);
  const said = (key) => page.locator('.notice', { hasText: say(key) }).waitFor();
  await page.locator('.doings .more summary').click();
  await page.locator('[data-act=save-in-place]').click();
  await said('saved-in-place');
  const whole = await inFile(page);
  assert.equal(JSON.parse(whole.text).format, 'cordonry-plan');
  await page.evaluate(() => (globalThis.failing = true));
  await name(page, 'Half of it');
  await page.locator('.stage').focus();
  await page.keyboard.press('Control+s');
  await said('in-place-refused');
  // As it was, and nothing half-written beside it.
  assert.deepEqual(await inFile(page), whole);
  await page.evaluate(() => (globalThis.failing = false));
  await page.locator('.doings .more summary').click();
  await page.locator('[data-act=save-in-place]').click();
  await said('saved-in-place');
  assert.equal(JSON.parse((await inFile(page)).text).name, 'Half of it');
});

pageTest('a tab that is loaded anew comes back with its own row, and a new one with the row that was opened last', {}, async ({ page, context }) => {
  await example(page);
  const first = await named(page);
  await saved(page);
  const second = await context.newPage();
  await second.goto(page.url());
  await opened(second);
  assert.equal(await named(second), first);
  await second.locator('.doings .more summary').click();
  await second.locator('[data-act=other-row]').click();
  await example(second, 'two-cordons.json');
  const other = await named(second);
  assert.notEqual(other, first);
  await saved(second);
  for (const [tab, row] of [[page, first], [second, other]]) {
    await tab.reload();
    await opened(tab);
    assert.equal(await named(tab), row);
  }
  // Whoever has left the row is at the start page still.
  await page.locator('.doings .more summary').click();
  await page.locator('[data-act=other-row]').click();
  await page.locator('.start .kept').waitFor();
  await page.reload();
  await page.locator('.start .kept').waitFor();
  const third = await context.newPage();
  await third.goto(page.url());
  await third.locator('.start .kept').waitFor();
  await third.close();
  await second.close();
});

pageTest('a device that is cleared under the row is written anew, whole', {}, async ({ page }) => {
  await example(page);
  await saved(page);
  await name(page, 'Before');
  await saved(page);
  const session = await page.context().newCDPSession(page);
  await session.send('Storage.clearDataForOrigin', { origin: new URL(page.url()).origin, storageTypes: 'indexeddb' });
  await name(page, 'After');
  // Said as lost, then as saved again; or at once as saved: whatever is said last holds.
  await state(page, 'kept-saved');
  await frames(page, 5);
  await state(page, 'kept-saved');
  await page.reload();
  await opened(page);
  assert.equal(await named(page), 'After');
});

pageTest('a store that never opens is told, and the page asks before it goes', { path: 'manifest.webmanifest' }, async ({ page, base, allow }) => {
  // The browser asks for a sign of a page that is none of the program's.
  allow(/404/);
  // An older page of this origin that holds the store as it was and does not let go.
  const other = await page.context().newPage();
  await other.goto(new URL('manifest.webmanifest', base).href);
  await other.evaluate(() => new Promise((done, fail) => {
    const request = indexedDB.open('cordonry', 1);
    request.onsuccess = () => { globalThis.held = request.result; done(); };
    request.onerror = fail;
  }));
  await page.goto(base);
  await example(page);
  await name(page, 'Not kept');
  await page.locator('.notice.grave', { hasText: say('save-failing') }).waitFor({ timeout: 20_000 });
  await state(page, 'kept-failing');
  assert.equal(await asks(page), true);
  // Once the other lets go, it is saved.
  await other.close();
  await state(page, 'kept-saved');
  await page.reload();
  await opened(page);
  assert.equal(await named(page), 'Not kept');
});
