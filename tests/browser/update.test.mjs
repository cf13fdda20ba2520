// A newer build takes the place of an older one whole, on a server that says nothing of how long its files may be kept.
import assert from 'node:assert/strict';
import { between } from './between.mjs';
import { example, onDevice, saved } from './desk.mjs';
import { base, frames, pageTest } from './rig.mjs';
import { say } from './words.mjs';

const [, OLD] = (await (await fetch(base)).text()).match(/"build-([0-9a-f]+)\//);
const NEW = 'feedfacefeedface';

/** A server with the build as it is until `renew` puts the same under another stamp in its place. */
async function twoBuilds() {
  let build = OLD;
  const served = await between({
    from(path) {
      const [, stamp] = path.match(/^\/build-([^/]+)\//) ?? [];
      // Of another build it has nothing.
      return stamp === undefined || stamp === build ? path.replace(build, OLD) : undefined;
    },
    change: (path) => !/\.(wasm|svg|png)$/.test(path) && ((text) => text.replaceAll(OLD, build)),
    headers({ 'cache-control': _, etag: __, ...others }) {
      // So old that a browser left to itself asks no more for months.
      return { ...others, 'last-modified': 'Mon, 01 Jan 2001 00:00:00 GMT' };
    },
  });
  return { ...served, renew: () => (build = NEW) };
}

/** What the page does when it is come back to. */
const comeBack = (page) => page.evaluate(() => document.dispatchEvent(new Event('visibilitychange')));
const offer = (page) => page.locator('.newer', { hasText: say('newer-build') });
/** The builds that the files of a page are of, with the page's own. */
const builds = (page) => page.evaluate(() => {
  const files = performance.getEntriesByType('resource').map(({ name }) => name);
  const own = document.querySelector('script[type=module]').src;
  return [...new Set([own, ...files].map((name) => name.match(/\/build-([^/]+)\//)?.[1]).filter(Boolean))];
});
/** Of each build that is kept, which builds its files name. */
const caches = (page) => page.evaluate(async () => {
  const all = {};
  for (const name of await globalThis.caches.keys()) {
    const cache = await globalThis.caches.open(name);
    const found = new Set();
    for (const request of await cache.keys()) {
      const words = request.url + (/\.(wasm|svg|png)$/.test(request.url) ? '' : await (await cache.match(request)).text());
      for (const [, stamp] of words.matchAll(/build-([0-9a-f]{16})/g)) found.add(stamp);
    }
    all[name.replace(/^.*-/, '')] = [...found];
  }
  return all;
});

const one = await twoBuilds();

pageTest('a newer build is offered, and after one reload all files are its own', { path: one.address }, async ({ page }) => {
  await page.locator('.start').waitFor();
  await onDevice(page);
  await page.reload();
  await page.locator('.start').waitFor();
  assert.deepEqual(await builds(page), [OLD]);
  one.renew();
  await comeBack(page);
  await offer(page).waitFor();
  assert.deepEqual(await builds(page), [OLD], 'the page that is open stays what it is');
  await page.reload();
  await page.waitForFunction((stamp) => document.querySelector('.start') && document.querySelector('script[type=module]').src.includes(stamp), NEW);
  await example(page);
  await saved(page);
  assert.deepEqual(await builds(page), [NEW]);
  assert.deepEqual((await caches(page))[NEW], [NEW]);
  assert.equal(await offer(page).count(), 0);
});

const two = await twoBuilds();

pageTest('a press loads the newer build, and another tab of the older one goes on as it is', { path: two.address }, async ({ page, context }) => {
  await page.locator('.start').waitFor();
  await onDevice(page);
  await page.reload();
  await example(page);
  await saved(page);
  const other = await context.newPage();
  await other.goto(two.address);
  await other.waitForSelector('.stage [data-tree]');
  two.renew();
  await comeBack(page);
  await offer(page).waitFor();
  await page.locator('.row-name').fill('Named just before');
  await page.locator('[data-act=load-newer]').click();
  await page.waitForFunction((stamp) => document.querySelector('.stage [data-tree]') && document.querySelector('script[type=module]').src.includes(stamp), NEW);
  assert.equal(await page.locator('.row-name').inputValue(), 'Named just before');
  assert.deepEqual(await builds(page), [NEW]);
  // The server has nothing of the older build any more, yet its page finds its files, and none of the newer.
  assert.deepEqual(await builds(other), [OLD]);
  const again = await other.evaluate(async (stamp) => (await fetch(`build-${stamp}/helper.js`)).status, OLD);
  assert.equal(again, 200);
  assert.deepEqual(await caches(page), { [OLD]: [OLD], [NEW]: [NEW] });
  await other.reload();
  await other.waitForSelector('.stage [data-tree]');
  assert.deepEqual(await builds(other), [NEW]);
  await frames(other, 2);
  await other.close();
});
