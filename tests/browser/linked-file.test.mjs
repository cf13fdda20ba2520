// The page in one file, opened from a disk with a plan's link behind its #: the row opens in both browsers, as the same plan byte
// for byte, and the address is clean.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { firefoxTest } from './firefox.mjs';
import { ChromiumHands, FirefoxHands } from './hands.mjs';
import { oneFile, pageTest } from './rig.mjs';

const LINKS = new URL('../data/links/', import.meta.url);
const link = (await readFile(new URL('1-everything-and-marks.txt', LINKS), 'utf8')).trim();
const plan = await readFile(new URL('1-everything-and-marks.json', LINKS), 'utf8');

/** The text of the plan file that is handed out, as the browser is given it. */
async function saved(hands) {
  await hands.page.evaluate(() => {
    const own = URL.createObjectURL.bind(URL);
    URL.createObjectURL = (blob) => {
      blob.text().then((text) => (window.handedOut = text));
      return own(blob);
    };
  });
  await hands.press('.doings .more summary');
  await hands.press('[data-act=save-plan]');
  await hands.until(() => window.handedOut !== undefined);
  return hands.page.evaluate(() => window.handedOut);
}

async function opens(hands) {
  await hands.wait('.stage [data-tree]');
  assert.equal(await hands.value('.row-name'), JSON.parse(plan).name);
  assert.equal(await saved(hands), plan);
  assert.equal(await hands.page.evaluate(() => location.hash), '');
}

if (oneFile) {
  const path = `${oneFile}#${link}`;
  const name = 'a link opens in the page in one file from a disk as the same plan';
  pageTest(name, { path }, ({ page }) => opens(new ChromiumHands(page)));
  firefoxTest(name, { path }, ({ page }) => opens(new FirefoxHands(page)));
}
