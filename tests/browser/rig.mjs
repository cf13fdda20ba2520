// A browser with one page of the program in it, for the tests: `pageTest(name, options, run)`.
//
// CORDONRY_URL is where the built page is served, CORDONRY_ONE_FILE the page in one file, CHROMIUM the browser;
// `cargo xtask test` sets all three.
import assert from 'node:assert/strict';
import { after, test } from 'node:test';
import { pathToFileURL } from 'node:url';
import axe from 'axe-core';
import { chromium } from 'playwright-core';
import { language } from './words.mjs';

export const base = process.env.CORDONRY_URL ?? 'http://127.0.0.1:8123/';
export const oneFile = process.env.CORDONRY_ONE_FILE && pathToFileURL(process.env.CORDONRY_ONE_FILE).href;

export const FLAGS = [
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-gpu',
  '--disable-quic',
  '--disable-sync',
  '--no-first-run',
];

// A test that hangs must not hold up the run.
const TIMEOUT = 120_000;

/** Starts a browser, with more flags than all have. */
export const launch = (flags = []) =>
  chromium.launch({
    executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
    headless: true,
    chromiumSandbox: process.getuid?.() !== 0,
    args: [...FLAGS, ...flags],
  });

// The tests of one file share a browser; each has a profile of its own in it.
let shared;

/** The browser of this file's tests: said at its top, before any test. */
export function sharedBrowser() {
  if (shared === undefined) {
    shared = null;
    after(() => shared?.close());
  }
  return async () => {
    if (!shared?.isConnected()) shared = await launch();
    return shared;
  };
}

/**
 * Opens the page in a profile of its own. Options:
 *   path      behind the base, as '?bench=300x10'; or a whole address, as `oneFile`
 *   viewport  {width, height}, 1280 × 800
 *   context   more of playwright's context options: timezoneId, hasTouch, reducedMotion, colorScheme …
 *   prepare   async (page, context) before the page is opened; whatever it does is watched as well
 *   browser   one that runs already, and stays; without it one is started, and closed with the page
 * Gives {browser, context, page, faults, allow, close}; `faults` are the words of whatever went wrong on any page.
 */
export async function open({ path = '', viewport = { width: 1280, height: 800 }, context: more, prepare, browser: running } = {}) {
  const address = new URL(path, base).href;
  const browser = running ?? (await launch());
  let context;
  const close = async () => {
    await context?.close();
    if (!running) await browser.close();
  };
  try {
    context = await browser.newContext({ viewport, locale: language, ...more });
    const faults = new Faults(address);
    watch(context, faults);
    if (process.env.CORDONRY_LANGUAGE) {
      // The page speaks what was chosen on the device; a page of no origin has none.
      await context.addInitScript((code) => location.protocol.startsWith('http') && localStorage.setItem('cordonry.language', code), language);
    }
    const page = await context.newPage();
    await prepare?.(page, context);
    await page.goto(address);
    return { browser, context, page, faults: faults.seen, allow: (pattern) => faults.allow(pattern), close };
  } catch (error) {
    await close();
    throw error;
  }
}

/** The words of whatever went wrong on the page of an address. */
export class Faults {
  seen = [];
  allowed = [];

  constructor(address) {
    this.address = new URL(address);
  }

  add(words) {
    if (!this.allowed.some((pattern) => pattern.test(words))) this.seen.push(words);
  }

  /** A request is a fault if it leaves the page's own origin. */
  request(url) {
    const { protocol, origin, href } = new URL(url);
    if (['data:', 'blob:', 'about:'].includes(protocol)) return;
    const own = protocol === 'file:' ? href.split(/[?#]/)[0] === this.address.href.split(/[?#]/)[0] : origin === this.address.origin;
    if (!own) this.add(`request to elsewhere: ${url}`);
  }

  /** Lets faults whose words match pass: for a test that provokes them. */
  allow(pattern) {
    this.allowed.push(pattern);
    for (let at = this.seen.length - 1; at >= 0; at -= 1) if (pattern.test(this.seen[at])) this.seen.splice(at, 1);
  }
}

// Collects every error on the console, uncaught exception and request that leaves the page's own origin.
function watch(context, faults) {
  context.on('console', (message) => {
    if (message.type() === 'error') faults.add(`error on the console: ${message.text()}`);
  });
  context.on('weberror', (error) => faults.add(`uncaught: ${error.error().stack || error.error()}`));
  context.on('request', (request) => faults.request(request.url()));
  context.on('requestfailed', (request) => {
    // Leaving a page cuts off its requests.
    const why = request.failure()?.errorText;
    if (why !== 'net::ERR_ABORTED') faults.add(`request failed: ${request.url()}: ${why}`);
  });
  context.on('page', (page) => {
    page.on('websocket', (socket) => faults.add(`socket to elsewhere: ${socket.url()}`));
    page.on('crash', () => faults.add('the page crashed'));
  });
}

/**
 * One test on one page in a fresh profile: `run` gets what `open` gives, and `base`. It fails if `run` throws or
 * the page was at fault.
 */
export function pageTest(name, options, run) {
  const browser = sharedBrowser();
  tried(name, async () => open({ ...options, browser: await browser() }), run);
}

/** One test on what `open` opens: a page, the faults seen on it and how it is closed. */
export function tried(name, open, run) {
  test(name, { timeout: TIMEOUT }, async (t) => {
    const opened = await open();
    try {
      await run({ ...opened, base, t });
      // What the last act set off is to be seen as well.
      if (!opened.page.isClosed()) await frames(opened.page, 2);
    } catch (error) {
      if (opened.faults.length > 0) error.message += `\nand on the page: ${opened.faults.join('\n')}`;
      throw error;
    } finally {
      await opened.close();
    }
    assert.deepEqual(opened.faults, [], 'the page was at fault');
  });
}

/** Waits until the page has had that many frames. */
export async function frames(page, count = 1) {
  await page.evaluate(async (left) => {
    for (; left > 0; left -= 1) await new Promise((next) => requestAnimationFrame(next));
  }, count);
}

/** What axe finds against the page, one line a place; an empty list is good. `rules` are axe's own options. */
export async function accessibility(page, rules = {}) {
  await page.evaluate(axe.source);
  const found = await page.evaluate((options) => globalThis.axe.run(document, options), rules);
  return found.violations.flatMap(({ id, impact, help, nodes }) =>
    nodes.map(({ target }) => `${id} (${impact}): ${help}: ${target.join(' ')}`),
  );
}
