// Firefox with one page of the program in it: `firefoxTest(name, run)`. FIREFOX names the browser.
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after } from 'node:test';
import puppeteer from 'puppeteer-core';
import { Faults, base, tried } from './rig.mjs';
import { language } from './words.mjs';

// The tests of one file share a browser; each has a context of its own in it.
let running;

async function launch() {
  // Firefox, run by root, wants a home that is its own.
  const home = await mkdtemp(join(tmpdir(), 'cordonry-firefox-'));
  const browser = await puppeteer.launch({
    browser: 'firefox',
    protocol: 'webDriverBiDi',
    executablePath: process.env.FIREFOX ?? '/usr/bin/firefox-esr',
    headless: true,
    env: { ...process.env, HOME: home },
    extraPrefsFirefox: { 'intl.accept_languages': language },
  });
  return { browser, home };
}

after(async () => {
  if (!running) return;
  const { browser, home } = await running;
  await browser.close();
  await rm(home, { recursive: true, force: true, maxRetries: 5, retryDelay: 100 });
});

/** Opens the page in a context of its own, and watches it as `open` in rig.mjs does. */
async function open({ path = '' }) {
  running ??= launch();
  const { browser } = await running;
  const address = new URL(path, base).href;
  const faults = new Faults(address);
  const context = await browser.createBrowserContext();
  try {
    const page = await context.newPage();
    page.on('console', (message) => {
      if (message.type() === 'error') faults.add(`error on the console: ${message.text()}`);
    });
    page.on('pageerror', (error) => faults.add(`uncaught: ${error.stack || error}`));
    page.on('request', (request) => faults.request(request.url()));
    page.on('requestfailed', (request) => {
      // Leaving a page cuts off its requests.
      const why = request.failure()?.errorText;
      if (why !== 'NS_BINDING_ABORTED') faults.add(`request failed: ${request.url()}: ${why}`);
    });
    await page.setViewport({ width: 1280, height: 800 });
    await page.goto(address);
    return { page, context, faults: faults.seen, allow: (pattern) => faults.allow(pattern), close: () => context.close() };
  } catch (error) {
    await context.close();
    throw error;
  }
}

/** As `pageTest` of rig.mjs, in Firefox. */
export const firefoxTest = (name, options, run) => tried(`Firefox: ${name}`, () => open(options), run);
