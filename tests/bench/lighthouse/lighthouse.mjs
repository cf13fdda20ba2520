// `cargo xtask bench lighthouse`: what Lighthouse says of the first view, on a middling phone and on a desk, as it models
// them; beside it an empty page with a line of words.
import { createServer } from 'node:http';
import { launch } from 'chrome-launcher';
import lighthouse, { desktopConfig } from 'lighthouse';

const EMPTY = `<!doctype html><html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width">
<meta name="description" content="A line of words"><title>Empty</title><link rel="icon" href="data:,"><main><h1>A line of words</h1></main></html>`;

const CATEGORIES = ['performance', 'accessibility', 'best-practices', 'seo'];
const TIMES = ['first-contentful-paint', 'largest-contentful-paint', 'speed-index', 'total-blocking-time'];

const empty = createServer((_, answer) => answer.writeHead(200, { 'content-type': 'text/html' }).end(EMPTY));
await new Promise((done) => empty.listen(0, '127.0.0.1', done));

/** One visit in a fresh browser. */
async function visit(address, config) {
  const browser = await launch({ chromePath: process.env.CHROMIUM, chromeFlags: ['--headless', '--no-sandbox'], logLevel: 'silent' });
  try {
    const { lhr } = await lighthouse(address, { port: browser.port, logLevel: 'error' }, config);
    if (lhr.runtimeError) throw new Error(lhr.runtimeError.message);
    return lhr;
  } finally {
    browser.kill();
  }
}

try {
  for (const [kind, config] of [
    ['phone', undefined],
    ['desk', desktopConfig],
  ]) {
    const least = await visit(`http://127.0.0.1:${empty.address().port}/`, config);
    const ours = await visit(process.env.CORDONRY_URL, config);
    const say = (measure, unit, figure) =>
      console.log(JSON.stringify({ measure: `${kind}: ${measure}`, unit, ours: figure(ours), anchor: figure(least) }));
    for (const id of CATEGORIES) say(id, 'of 100', ({ categories }) => Math.round(categories[id].score * 100));
    for (const id of TIMES) say(id, 'ms', ({ audits }) => audits[id].numericValue);
    // What costs a point, by name.
    for (const id of CATEGORIES.slice(1)) {
      for (const { id: audit, weight } of ours.categories[id].auditRefs) {
        const { score, title } = ours.audits[audit];
        if (weight > 0 && score !== null && score < 1) console.log(`${kind}: ${id}: ${title} (${audit})`);
      }
    }
  }
} finally {
  empty.close();
}
