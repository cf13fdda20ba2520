// A browser killed in the midst of edits, and what of them is there when its profile is opened again.
import { spawn } from 'node:child_process';
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { chromium } from 'playwright-core';
import { example, saved } from './desk.mjs';
import { FLAGS, base } from './rig.mjs';

/** A browser on a profile that stays: its own process, so that it can be killed with all that it started. */
async function start(profile) {
  const port = join(profile, 'DevToolsActivePort');
  await rm(port, { force: true });
  const flags = ['--headless=new', '--remote-debugging-port=0', `--user-data-dir=${profile}`, '--no-default-browser-check', ...FLAGS];
  if (process.getuid?.() === 0) flags.push('--no-sandbox');
  const child = spawn(process.env.CHROMIUM ?? '/usr/bin/chromium', [...flags, 'about:blank'], { detached: true, stdio: 'ignore' });
  const ended = new Promise((done) => child.once('exit', done));
  const kill = async () => {
    try {
      process.kill(-child.pid, 'SIGKILL');
    } catch (error) {
      if (error.code !== 'ESRCH') throw error;
    }
    await ended;
  };
  try {
    for (let left = 600; ; left -= 1) {
      const told = await readFile(port, 'utf8').catch(() => '');
      if (told.includes('\n')) {
        const browser = await chromium.connectOverCDP(`http://127.0.0.1:${told.split('\n')[0]}`);
        const [context] = browser.contexts();
        return { page: context.pages()[0] ?? (await context.newPage()), kill };
      }
      if (left === 0) throw new Error('the browser did not start');
      await wait(100);
    }
  } catch (error) {
    await kill();
    throw error;
  }
}

// In the page: an edit every 30 to 150 ms, each a step of its own, told as soon as it is made.
function edits(from) {
  const name = document.querySelector('.row-name');
  let number = from;
  const next = () => {
    number += 1;
    name.value = `edit ${number}`;
    name.dispatchEvent(new Event('change'));
    console.log(`made ${number} ${performance.now()}`);
    setTimeout(next, 30 + Math.random() * 120);
  };
  next();
}

const numberOf = async (page) => Number((await page.locator('.row-name').inputValue()).match(/^edit (\d+)$/)?.[1] ?? 0);

/**
 * Kills the browser `count` times, each after a burst of edits that went on for one to three seconds. Of each kill:
 * {made, lost, stretch}, the edits of the burst, those of them that are gone, and the time from the first of these to
 * the last edit that was made, ms.
 */
export async function kills(count) {
  const profile = await mkdtemp(join(tmpdir(), 'cordonry-kill-'));
  const told = [];
  let browser;
  try {
    browser = await start(profile);
    await browser.page.goto(base);
    await example(browser.page);
    await saved(browser.page);
    for (let i = 0; i < count; i += 1) {
      const before = await numberOf(browser.page);
      const made = [];
      browser.page.on('console', (message) => {
        const [, number, time] = message.text().match(/^made (\d+) (.+)$/) ?? [];
        if (number) made.push({ number: Number(number), time: Number(time) });
      });
      await browser.page.evaluate(edits, before);
      await wait(1000 + Math.random() * 2000);
      await browser.kill();
      browser = await start(profile);
      await browser.page.goto(base);
      await browser.page.waitForSelector('.stage [data-tree]');
      const kept = await numberOf(browser.page);
      const lost = made.filter(({ number }) => number > kept);
      told.push({ made: made.length, lost: lost.length, stretch: lost.length > 0 ? made.at(-1).time - lost[0].time : 0 });
    }
    return told;
  } finally {
    await browser?.kill();
    await rm(profile, { recursive: true, force: true, maxRetries: 10, retryDelay: 200 });
  }
}
