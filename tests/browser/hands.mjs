// One pair of hands on a page, the same in Chromium and in Firefox: what the two drivers have in common, and beneath it
// what each does in its own way. Selectors are CSS.
import assert from 'node:assert/strict';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { frames } from './rig.mjs';

class Hands {
  constructor(page) {
    this.page = page;
    this.mouse = page.mouse;
  }

  frames(count) {
    return frames(this.page, count);
  }

  texts(selector) {
    return this.page.$$eval(selector, (all) => all.map((e) => e.textContent.trim()));
  }

  async count(selector) {
    return (await this.texts(selector)).length;
  }

  async text(selector) {
    await this.wait(selector);
    return (await this.texts(selector))[0];
  }

  /** Waits until the first of them says what it should. */
  async says(selector, pattern) {
    await this.wait(selector);
    await this.until(
      ([selector, source]) => new RegExp(source).test(document.querySelector(selector)?.textContent ?? ''),
      [selector, pattern.source],
    );
  }

  value(selector) {
    return this.page.$eval(selector, (e) => e.value);
  }

  isShown(selector) {
    return this.page.$$eval(selector, ([e]) => Boolean(e?.checkVisibility()));
  }

  /** Where the first of them is on the screen. */
  async box(selector) {
    await this.wait(selector);
    return this.page.$eval(selector, (e) => {
      const { x, y, width, height } = e.getBoundingClientRect();
      return { x, y, width, height };
    });
  }

  async middle(selector) {
    const { x, y, width, height } = await this.box(selector);
    return { x: x + width / 2, y: y + height / 2 };
  }

  /** Brings a file in through the page's own file field: its path, or a name and the text of one that is not yet there. */
  async bring(path, text) {
    if (text === undefined) return this.give('input[type=file]', path);
    const folder = await mkdtemp(join(tmpdir(), 'cordonry-'));
    try {
      await writeFile(join(folder, path), text);
      await this.give('input[type=file]', join(folder, path));
      // Until the page has read it, the file must be there.
      await this.wait('.notice, .sheet, .stage [data-tree]');
    } finally {
      await rm(folder, { recursive: true });
    }
  }

  /** Opens an example and waits for its wall. */
  async example(name) {
    await this.press(`[data-example="examples/${name}"]`);
    await this.wait('.stage [data-tree]');
    await this.frames(3);
  }

  figure(key) {
    return this.text(`[data-figure="${key}"]`);
  }
}

/** In Chromium, by playwright. */
export class ChromiumHands extends Hands {
  wait(selector) {
    return this.page.locator(selector).first().waitFor();
  }

  gone(selector) {
    return this.page.locator(selector).first().waitFor({ state: 'detached' });
  }

  press(selector) {
    return this.page.locator(selector).first().click();
  }

  key(name) {
    return this.page.keyboard.press(name);
  }

  until(test, given) {
    return this.page.waitForFunction(test, given);
  }

  /** Chooses of a list by value. */
  choose(selector, value) {
    return this.page.locator(selector).selectOption(value);
  }

  /** What the printer gets, as a PDF: the page says how large the paper is. */
  print() {
    return this.page.pdf({ preferCSSPageSize: true });
  }

  give(selector, path) {
    return this.page.locator(selector).first().setInputFiles(path);
  }

  reload() {
    return this.page.reload();
  }
}

/** In Firefox, by puppeteer. */
export class FirefoxHands extends Hands {
  wait(selector) {
    return this.page.waitForSelector(selector, { visible: true });
  }

  async gone(selector) {
    await this.until((selector) => document.querySelector(selector) === null, selector);
  }

  press(selector) {
    return this.page.locator(selector).click();
  }

  /** A key, or several held together: `Control+z`. */
  async key(name) {
    const keys = name.split('+');
    const last = keys.pop();
    for (const held of keys) await this.page.keyboard.down(held);
    await this.page.keyboard.press(last);
    for (const held of keys.reverse()) await this.page.keyboard.up(held);
  }

  until(test, given) {
    return this.page.waitForFunction(test, {}, given);
  }

  choose(selector, value) {
    return this.page.select(selector, value);
  }

  print() {
    return this.page.pdf({ preferCSSPageSize: true });
  }

  async give(selector, path) {
    const field = await this.page.waitForSelector(selector);
    assert.ok(field, selector);
    await field.uploadFile(path);
  }

  reload() {
    return this.page.reload();
  }
}
