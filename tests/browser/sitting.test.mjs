// A whole sitting, from the start page to the paper: whatever is asked for on the way is asked of the page's own origin, by the
// browser's own log; and with the server gone all of it is still there.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { createServer } from 'node:http';
import { test } from 'node:test';
import { between } from './between.mjs';
import { onDevice, passOn, saved } from './desk.mjs';
import { elsewhere, logged } from './requests.mjs';
import { frames, open, tried } from './rig.mjs';

const TABLE = new URL('../../examples/measured-40.csv', import.meta.url).pathname;

const close = async (page) => {
  await page.keyboard.press('Escape');
  await page.locator('dialog[open]').waitFor({ state: 'detached' });
};
const files = (page) => page.locator('.doings .more summary').click();

/** What is downloaded at a press, as text. */
async function given(page, selector) {
  const [file] = await Promise.all([page.waitForEvent('download'), page.locator(selector).click()]);
  return readFile(await file.path(), 'latin1');
}

/** Lays what would be printed, and gives how many pages that are. */
async function printed(page) {
  await page.evaluate(() => dispatchEvent(new Event('beforeprint')));
  await page.waitForFunction(() => document.querySelector('#print-sheets'));
  const pages = await page.evaluate(() => document.querySelector('#print-sheets').shadowRoot.querySelectorAll('svg[role=img]').length);
  await page.evaluate(() => dispatchEvent(new Event('afterprint')));
  return pages;
}

/** Pulls the first tip that is in sight a little. */
async function drag(page) {
  await page.locator('.stage').focus();
  await page.keyboard.press('ArrowRight');
  const tip = page.locator('.stage [data-handle=tip] .knob').filter({ visible: true }).first();
  await tip.waitFor();
  const { x, y, width, height } = await tip.boundingBox();
  await page.mouse.move(x + width / 2, y + height / 2);
  await page.mouse.down();
  for (let step = 1; step <= 6; step += 1) {
    await page.mouse.move(x + width / 2 + 4 * step, y + height / 2 + 2 * step);
    await frames(page, 1);
  }
  await page.mouse.up();
  await frames(page, 2);
}

/** All of it, in the order in which it is done. */
async function sitting(page) {
  await page.locator('.start').waitFor();
  await page.locator('input[type=file]').first().setInputFiles(TABLE);
  await page.locator('[data-act=import-use]').click();
  await page.waitForSelector('.stage [data-tree]');
  // This time's work, drafted and taken, and a hand on the wood.
  await page.locator('[data-act=draft]').click();
  await page.locator('.draft [data-act=draft-take]:not([aria-disabled])').click();
  await page.waitForFunction(() => !document.querySelector('[data-act=undo]').disabled);
  await drag(page);
  await page.locator('[data-act=light]').click();
  await page.locator('[data-figure=figure-light-caught]').waitFor();
  // The next leaf, its work handed out.
  await page.locator('.stage').focus();
  await page.keyboard.press('.');
  await frames(page, 2);
  await page.locator('[data-act=hand-out]').click();
  await page.locator('dialog[open] .hand-out').waitFor();
  await page.locator('dialog[open] .passes > li, dialog[open] [data-act=hand-usual]').first().waitFor();
  await close(page);
  // A mark on the wall.
  await page.locator('#view-marks summary').click();
  await page.locator('#view-marks [data-mark-kind=mark-note]').click();
  const wall = await page.locator('#wall').boundingBox();
  await page.mouse.click(wall.x + 0.3 * wall.width, wall.y + 0.15 * wall.height);
  await page.locator('[data-field=mark-text]').fill('Seen at a sitting');
  await page.locator('[data-field=mark-text]').press('Enter');
  await page.locator('.stage .mark').waitFor();
  // Passed on, saved in every form, printed.
  await passOn(page);
  assert.match(await page.locator('#pass-on-link').inputValue(), /#plan-1\./);
  await close(page);
  for (const [act, begins] of [
    ['save-plan', '{'],
    ['save-table', ''],
    ['save-drawing', '<'],
    ['save-picture', '\u0089PNG'],
  ]) {
    await files(page);
    const text = await given(page, `[data-act=${act}]`);
    assert.ok(text.length > 100 && text.startsWith(begins), `${act}: ${text.slice(0, 40)}`);
  }
  assert.ok((await given(page, 'header [data-act=pdf]')).startsWith('%PDF-'));
  assert.ok((await printed(page)) > 1);
  await saved(page);
  // The list of rows, all of them as one file.
  await files(page);
  await page.locator('[data-act=other-row]').click();
  await page.locator('.kept li .picture svg').first().waitFor();
  const all = JSON.parse(await given(page, '[data-act=all-save]'));
  assert.equal(all.rows.length, 1);
}

const served = await between();

/** A page of a browser that keeps a log. */
async function begin() {
  const { browser, asked } = await logged();
  const opened = await open({ path: served.address, browser });
  return { ...opened, asked, close: () => browser.close() };
}

tried('a whole sitting asks no other origin for anything, and is all there without a server', begin, async ({ page, asked, allow }) => {
  await sitting(page);
  await onDevice(page);
  served.stop();
  await assert.rejects(fetch(served.address));
  const asks = served.answers.length;
  // Whether there is a newer build can't be told now.
  allow(/request failed.*sw\.js|ERR_CONNECTION_REFUSED/);
  await page.reload();
  await page.locator('.start .kept li .picture svg').waitFor();
  await page.locator('.kept li .name').click();
  await page.waitForSelector('.stage [data-tree]');
  await page.locator('.stage .mark').waitFor();
  assert.equal(served.answers.length, asks, 'the server is gone');
  const all = await asked();
  const { origin } = new URL(served.address);
  assert.deepEqual(elsewhere(all, origin), []);
  // The log holds what there was: the page, its parts, what its worker asked for.
  for (const part of [/\/$/, /cordonry_page_bg\.wasm$/, /split_pdf/, /helper\.js$/, /sw\.js$/, /split_crew/]) {
    assert.ok(all.some((url) => part.test(url)), `${part}`);
  }
});

/** Pages and scripts that ask elsewhere, each for something of its own. */
const AWAY = 'http://127.0.0.1:1';
const ask = (path) => `fetch('${AWAY}/${path}').catch(() => {});`;
const WAYS = {
  '/': `<!doctype html><link rel="icon" href="data:,"><link rel="prefetch" href="${AWAY}/prefetched">
    <script>${ask('page')} navigator.sendBeacon('${AWAY}/beacon'); new WebSocket('ws://127.0.0.1:1/socket'); new Worker('worker.js');
    navigator.serviceWorker.register('sw.js'); document.head.append(Object.assign(new Image(), { src: '${AWAY}/picture' }));</script>
    <iframe srcdoc="<script>${ask('frame')}</script>"></iframe><form action="${AWAY}/form" target="_blank"></form><script>document.forms[0].submit()</script>`,
  '/worker.js': `${ask('worker')} new Worker('nested.js');`,
  '/nested.js': ask('nested'),
  '/sw.js': `${ask('service')} oninstall = (event) => event.waitUntil(${ask('install').replace(/;$/, '')});`,
};

test('the log holds whatever is asked for elsewhere, whoever asks', { timeout: 60_000 }, async () => {
  const server = createServer(({ url }, reply) => {
    reply.writeHead(WAYS[url] ? 200 : 404, { 'content-type': url === '/' ? 'text/html' : 'text/javascript' }).end(WAYS[url]);
  });
  await new Promise((done) => server.listen(0, '127.0.0.1', done));
  const { browser, asked } = await logged();
  try {
    const address = `http://127.0.0.1:${server.address().port}/`;
    const page = await browser.newPage();
    await page.goto(address);
    await onDevice(page);
    await page.waitForTimeout(1_000);
    const told = elsewhere(await asked(), new URL(address).origin);
    const paths = 'prefetched page beacon picture frame form? worker nested service install'.split(' ').map((path) => `${AWAY}/${path}`);
    assert.deepEqual(told.sort(), [...paths, 'ws://127.0.0.1:1/socket'].sort());
  } finally {
    await browser.close();
    server.close();
  }
});
