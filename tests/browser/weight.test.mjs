// What the first view weighs, what all that is kept weighs, and that no file is fetched twice.
import assert from 'node:assert/strict';
import { between } from './between.mjs';
import { example } from './desk.mjs';
import { frames, pageTest } from './rig.mjs';

/** The bytes, as sent, of what comes before the first view: all but what the worker alone asks for, the parts of the module. */
const BUDGET = 700_000;
/**
 * The bytes of all that is kept on the device after a first visit: fetched after the first view, by the worker alone. The crew's
 * sheets, the order and the planting sheet, with their texts in every language, are some 110,000 of them; a client's report, sheets
 * that are measured and the compared answer, which came later, some 37,000.
 */
const KEPT = 1_400_000;
/** The bytes of what writes PDFs, two weights of a font among them: not fetched before somebody asks for it. */
const PDF = 200_000;
/** The parts that stand beside the module. */
const PART = /\/(split|chunk)_\w+\.wasm$/;

/** Waits until the page is kept on the device, or can't be: its worker's last state. */
const kept = (page) =>
  page.evaluate(async () => {
    const { installing, waiting, active } = (await navigator.serviceWorker.getRegistration()) ?? (await navigator.serviceWorker.ready);
    // Just registered, it may have none of the three yet.
    const worker = installing ?? waiting ?? active ?? (await navigator.serviceWorker.ready).active;
    while (!['activated', 'redundant'].includes(worker.state)) {
      await new Promise((done) => worker.addEventListener('statechange', done, { once: true }));
    }
    return worker.state;
  });

const weight = (list) => list.reduce((all, { bytes }) => all + bytes, 0);
const visit = await between();

pageTest('the first visit fetches each file once, packed, within the budget', { path: visit.address }, async ({ page, t }) => {
  await page.locator('.start').waitFor();
  assert.equal(await kept(page), 'activated');
  await page.waitForLoadState('networkidle');
  const { answers } = visit;
  const paths = answers.map(({ path }) => path);
  assert.deepEqual(paths.filter((path, i) => paths.indexOf(path) !== i), [], 'fetched again');
  assert.deepEqual(answers.filter(({ status }) => status !== 200), []);
  for (const part of [/^\/$/, /_bg\.wasm$/, /start\.js$/, /helper\.js$/, /cordonry_page\.js$/, /sw\.js$/]) {
    const found = answers.filter(({ path }) => part.test(path));
    assert.deepEqual(found.map(({ coding }) => coding), ['br'], `${part}`);
  }
  const later = answers.filter(({ by }) => by.endsWith('/sw.js'));
  assert.ok(later.some(({ path }) => PART.test(path)) && later.every(({ path }) => PART.test(path) || /manifest|icon/.test(path)), `asked for by the worker: ${later.map(({ path }) => path)}`);
  const view = answers.filter((answer) => !later.includes(answer));
  t.diagnostic(`the first view weighs ${weight(view)} bytes of ${BUDGET}: ${view.map(({ path, bytes }) => `${path.split('/').pop() || '/'} ${bytes}`).join(', ')}`);
  t.diagnostic(`what is kept weighs ${weight(answers)} bytes of ${KEPT}`);
  assert.ok(weight(view) <= BUDGET, `${weight(view)} bytes`);
  assert.ok(weight(answers) <= KEPT, `${weight(answers)} bytes`);
  assert.ok(!paths.some((path) => /split_pdf/.test(path)), 'what writes PDFs waits');
});

const asked = await between();

pageTest('what writes PDFs is fetched once it is asked for, within its own budget', { path: asked.address }, async ({ page, t }) => {
  await example(page);
  // What the worker keeps of the page is no part of it.
  assert.equal(await kept(page), 'activated');
  await page.waitForLoadState('networkidle');
  const before = asked.answers.length;
  await Promise.all([page.waitForEvent('download'), page.locator('header [data-act=pdf]').click()]);
  const came = asked.answers.slice(before);
  t.diagnostic(`a PDF takes ${weight(came)} bytes of ${PDF}: ${came.map(({ path, bytes }) => `${path.split('/').pop()} ${bytes}`).join(', ')}`);
  assert.ok(came.some(({ path, coding }) => /split_pdf/.test(path) && coding === 'br'));
  assert.ok(weight(came) <= PDF, `${weight(came)} bytes`);
});

// The page's service worker is of another build than the files there.
const mixed = await between({ change: (path) => path === '/sw.js' && ((text) => text.replace(/BUILD = "[^"]*"/, 'BUILD = "another"')) });

pageTest('files of another build are not kept', { path: mixed.address }, async ({ page, allow, t }) => {
  allow(/is not of build another/);
  await page.locator('.start').waitFor();
  await frames(page, 2);
  await page.waitForLoadState('networkidle');
  const caches = await page.evaluate(() => globalThis.caches.keys());
  assert.deepEqual(caches, []);
  const asked = mixed.answers.filter(({ path }) => path === '/sw.js');
  assert.ok(asked.length >= 1, 'the worker was fetched');
});
