// What the first view weighs, and that no file is fetched twice.
import assert from 'node:assert/strict';
import { createServer, request as ask } from 'node:http';
import { base, frames, pageTest } from './rig.mjs';

/** The bytes, as sent, that all of a first visit may have. */
const BUDGET = 700_000;

/** A server in front of the program's own. Tells each answer in `answers`; `change` gives a path other words. */
async function between(change = {}) {
  const answers = [];
  const server = createServer(({ url, method, headers }, reply) => {
    const words = change[url];
    // What is to be changed must come unpacked.
    if (words) delete headers['accept-encoding'];
    ask(new URL(url, base), { method, headers }, (answer) => {
      const parts = [];
      answer.on('data', (part) => parts.push(part));
      answer.on('end', () => {
        const sent = Buffer.concat(parts);
        const body = words ? Buffer.from(words(sent.toString())) : sent;
        answers.push({ path: url, status: answer.statusCode, bytes: body.length, coding: answer.headers['content-encoding'] });
        reply.writeHead(answer.statusCode, { ...answer.headers, 'content-length': body.length }).end(body);
      });
    }).end();
  });
  await new Promise((done) => server.listen(0, '127.0.0.1', done));
  server.unref();
  const { port } = server.address();
  const close = () => {
    server.closeAllConnections();
    server.close();
  };
  return { answers, close, address: `http://127.0.0.1:${port}/` };
}

/** Waits until the page is kept on the device, or can't be: its worker's last state. */
const kept = (page) =>
  page.evaluate(async () => {
    const { installing, waiting, active } = (await navigator.serviceWorker.getRegistration()) ?? (await navigator.serviceWorker.ready);
    const worker = installing ?? waiting ?? active;
    while (!['activated', 'redundant'].includes(worker.state)) {
      await new Promise((done) => worker.addEventListener('statechange', done, { once: true }));
    }
    return worker.state;
  });

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
  const sum = answers.reduce((all, { bytes }) => all + bytes, 0);
  t.diagnostic(`the first view weighs ${sum} bytes of ${BUDGET}: ${answers.map(({ path, bytes }) => `${path.split('/').pop() || '/'} ${bytes}`).join(', ')}`);
  assert.ok(sum <= BUDGET, `${sum} bytes`);
  visit.close();
});

// The page's service worker is of another build than the files there.
const mixed = await between({ '/sw.js': (text) => text.replace(/BUILD = "[^"]*"/, 'BUILD = "another"') });

pageTest('files of another build are not kept', { path: mixed.address }, async ({ page, allow }) => {
  allow(/is not of build another/);
  await page.locator('.start').waitFor();
  await frames(page, 2);
  await page.waitForLoadState('networkidle');
  const caches = await page.evaluate(() => globalThis.caches.keys());
  assert.deepEqual(caches, []);
  const asked = mixed.answers.filter(({ path }) => path === '/sw.js');
  assert.ok(asked.length >= 1, 'the worker was fetched');
  mixed.close();
});
