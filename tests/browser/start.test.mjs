// The built page starts, served and as one file, and asks nothing of anybody.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { example, saved } from './desk.mjs';
import { base, frames, oneFile, pageTest } from './rig.mjs';

pageTest('the served page starts without fault', {}, async ({ page }) => {
  await page.waitForLoadState('networkidle');
  assert.match(await page.title(), /Cordonry/);
});

pageTest('a page that is left while it loads is no fault', {}, async ({ page }) => {
  for (let wait = 0; wait < 160; wait += 8) {
    await page.reload({ waitUntil: 'commit' });
    await page.waitForTimeout(wait);
  }
  await page.locator('.start h1').waitFor();
});

pageTest('a page that is left while a part of it loads is no fault', {}, async ({ page }) => {
  await example(page);
  await saved(page);
  await page.locator('.doings .more summary').click();
  await page.locator('[data-act=other-row]').click();
  await page.locator('.start .kept li').first().waitFor();
  for (let wait = 100; wait < 700; wait += 20) {
    await page.reload({ waitUntil: 'commit' });
    await page.waitForTimeout(wait);
  }
  await page.locator('.start .kept li').first().waitFor();
});

(oneFile ? pageTest : test.skip)('the page in one file starts without fault', { path: oneFile }, async ({ page }) => {
  await page.waitForLoadState('networkidle');
  assert.match(await page.title(), /Cordonry/);
});

// What the helper answers once a row is open, caught where it is sent: of the year, and of what is on the wall.
async function answers(page) {
  const [worker] = page.workers().length > 0 ? page.workers() : [await page.waitForEvent('worker')];
  const both = worker.evaluate(
    () =>
      new Promise((done) => {
        const send = globalThis.postMessage;
        const all = {};
        globalThis.postMessage = (answer) => {
          send(answer);
          Object.assign(all, answer.body);
          const other = !answer.body.season && !answer.body.offers;
          if (other || (all.season && all.offers)) done(all);
        };
      }),
  );
  await page.locator('[data-example]').first().click();
  return both;
}

for (const [name, path] of [
  ['served', ''],
  ['in one file', oneFile],
]) {
  (path == null ? test.skip : pageTest)(`the helper of the page ${name} answers`, { path }, async ({ page }) => {
    const all = await answers(page);
    assert.deepEqual(Object.keys(all).sort(), ['offers', 'season'], JSON.stringify(all));
    assert.equal(all.season.length, 4, JSON.stringify(all.season));
    assert.ok(all.offers.some((of) => of.length > 0), JSON.stringify(all.offers));
  });
}

pageTest(
  'a helper whose module does not start is done without',
  {
    prepare: async (page) => {
      // The smallest module that there is, with nothing of ours in it.
      await page.addInitScript(() => {
        const send = Worker.prototype.postMessage;
        const none = new WebAssembly.Module(new Uint8Array([0, 97, 115, 109, 1, 0, 0, 0]));
        Worker.prototype.postMessage = function (message, ...more) {
          send.call(this, message.module instanceof WebAssembly.Module ? { ...message, module: none } : message, ...more);
        };
      });
    },
  },
  async ({ page, allow }) => {
    allow(/TypeError/);
    await page.locator('[data-example]').first().click();
    // Remedies are held until they have been tried.
    await page.locator('[data-remedy]:not([aria-disabled="true"])').first().waitFor();
  },
);

pageTest('what stands there before the module has come is the head of the start page', {}, async ({ page }) => {
  const words = (all) => all.map((e) => [e.localName, e.textContent.trim().replace(/\s+/g, ' ')]);
  await page.locator('.start').waitFor();
  const now = await page.locator('.start > :is(h1, .lead)').evaluateAll(words);
  const before = await page.evaluate(async () => {
    const text = await (await fetch(location.href)).text();
    const first = new DOMParser().parseFromString(text, 'text/html').querySelectorAll('#loading > :is(h1, .lead)');
    return [...first].map((e) => [e.localName, e.textContent.trim().replace(/\s+/g, ' ')]);
  });
  assert.deepEqual(before, now);
  assert.equal(now.length, 2);
});

// Until it is let go, the module is held back.
let letGo;
const heldBack = new Promise((done) => (letGo = done));

pageTest(
  'on a phone the largest paint comes before the module',
  {
    viewport: { width: 412, height: 823 },
    context: { hasTouch: true, isMobile: true, deviceScaleFactor: 1.75 },
    prepare: async (page) => {
      await page.route('**/*.wasm', async (route) => {
        await heldBack;
        await route.continue();
      });
      await page.addInitScript(() => {
        globalThis.paints = [];
        const note = (list) => globalThis.paints.push(...list.getEntries().map(({ element }) => element?.className));
        new PerformanceObserver(note).observe({ type: 'largest-contentful-paint', buffered: true });
        globalThis.shifts = [];
        new PerformanceObserver((list) => globalThis.shifts.push(...list.getEntries())).observe({ type: 'layout-shift', buffered: true });
      });
    },
  },
  async ({ page }) => {
    await page.waitForFunction(() => globalThis.paints.includes('lead'));
    const before = await page.evaluate(() => globalThis.paints.length);
    letGo();
    await page.locator('.start').waitFor();
    await frames(page, 5);
    const { paints, shifts } = await page.evaluate(() => ({ paints: globalThis.paints, shifts: globalThis.shifts.length }));
    assert.deepEqual(paints.slice(before), [], 'a larger paint came later');
    assert.equal(shifts, 0);
  },
);

test('the server states the page’s policy', async () => {
  const answer = await fetch(base);
  assert.equal(answer.status, 200);
  const policy = answer.headers.get('content-security-policy');
  assert.match(policy, /script-src 'self' 'wasm-unsafe-eval';/);
  const [, meta] = (await answer.text()).match(/Content-Security-Policy" content="([^"]*)"/);
  assert.equal(policy, `${meta}; frame-ancestors 'none'`);
});
