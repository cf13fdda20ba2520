// What every test of the desk does with it: open a row, read a figure, find a finding.
import { frames } from './rig.mjs';
import { like, say } from './words.mjs';

export const phone = { viewport: { width: 390, height: 844 }, context: { hasTouch: true, isMobile: true } };

/** Opens an example plan and waits for its wall. */
export async function example(page, name = 'third-leaf.json') {
  await page.locator(`[data-example="examples/${name}"]`).click();
  await page.waitForSelector('.stage [data-tree]');
  await frames(page, 3);
}

/** Makes a row of so many trees that are just planted, and waits for its wall. */
export async function plant(page, trees) {
  await page.click('[data-way=make]');
  await page.fill('#made-leaf', '1');
  await page.fill('#made-trees', String(trees));
  await page.getByRole('button', { name: say('way-make-go') }).click();
  await page.waitForSelector('.stage [data-tree]');
  await frames(page, 3);
}

/** A figure of the row, as it is shown. */
export const figure = async (page, key) => (await page.locator(`[data-figure="${key}"]`).textContent()).trim();

/** The findings of a rule that are listed. */
export const findings = (page, rule) => page.locator(`.finding[data-finding^="${rule}:"]`);

/** The open matters that a rule sees something of. */
export const matter = (page, rule) => page.locator(`[data-matter][data-rules~="${rule}"]`);

/** Has every matter list its findings one by one. */
export async function openMatters(page) {
  const closed = page.locator('[data-act="each"][aria-expanded="false"]');
  // By key: presses of a hand at one place are taken for one when they come so fast.
  while (await closed.count()) await closed.first().press('Enter');
}

/** The first remedy within `place`, once none there waits any longer for the helper to try it. */
export async function remedyIn(place) {
  const remedies = (state = '') => place.locator(`[data-remedy]${state}`).first();
  await remedies(':not([aria-disabled])').waitFor({ state: 'attached' });
  await remedies('[aria-disabled]').waitFor({ state: 'detached' });
  return remedies();
}

/** Has the first remedy of each finding of a rule done, once they are offered. */
export async function mendAll(page, rule) {
  await remedyIn(matter(page, rule).first());
  await matter(page, rule).first().locator('[data-act="mend-all"]').click();
}

/** Waits until the row is kept on this device. */
export const saved = (page) => page.locator('.kept-state', { hasText: say('kept-saved') }).waitFor();

/** The name of a tree's part, in whichever bay. */
export const named = (key, args = {}) => {
  const name = like('name-of-tree', { part: like(key, args), tree: args.tree });
  return new RegExp(`^${name.source}(?:$|, )`);
};

/** The button of a part in the list of trees and shoots, by the part's name. */
export const part = (page, key, args) => page.locator('.part-list').getByRole('button', { name: named(key, args) });

/** Waits until the page itself is kept on this device, and needs no network. */
export const onDevice = (page) =>
  page.evaluate(async () => {
    const { active } = await navigator.serviceWorker.ready;
    if (active.state !== 'activated') await new Promise((done) => active.addEventListener('statechange', done, { once: true }));
  });

/** Opens the sheet on which the plan is passed on. */
export async function passOn(page) {
  await page.locator('.doings .more summary').click();
  await page.locator('[data-act=pass-on]').click();
  await page.waitForSelector('#pass-on-link');
}
