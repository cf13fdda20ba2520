// A grower's winter: from the file of a measured row to a printed wall with signs, in few actions; and all that opens on the desk
// is fit for those who are read to, light and dark.
import assert from 'node:assert/strict';
import { example } from './desk.mjs';
import { accessibility, frames, pageTest } from './rig.mjs';
import { readFile } from 'node:fs/promises';

const MEASURED = new URL('../../examples/measured-40.csv', import.meta.url);

pageTest('a measured row is decided and printed with its signs in fifteen actions', {}, async ({ page }) => {
  let actions = 0;
  const press = async (where) => {
    actions += 1;
    await where.click();
    await frames(page, 3);
  };
  actions += 1;
  await page
    .locator('input[type=file]')
    .first()
    .setInputFiles({ name: 'measured-40.csv', mimeType: 'text/csv', buffer: await readFile(MEASURED) });
  await press(page.locator('[data-act=import-use]'));
  await page.waitForSelector('.stage [data-tree]');
  // What costs crop already, and then all that one press can do of each matter, the largest first.
  const ready = page.locator('[data-matter] [data-act="mend-all"]:not([aria-disabled])');
  const waiting = page.locator('[data-matter] [data-act="mend-all"][aria-disabled]');
  await ready.first().waitFor();
  const begun = await page.locator('[data-matter]').count();
  assert.ok(begun <= 25, `${begun} matters`);
  await press(page.locator('.finding.now [data-remedy]').first());
  while (actions < 13) {
    await waiting.first().waitFor({ state: 'detached' });
    if ((await ready.count()) === 0) break;
    await press(ready.first());
  }
  const left = await page.locator('[data-matter]').count();
  assert.ok(left < begun, `${left} matters of ${begun}`);
  assert.equal(await page.locator('.finding.now').count(), 0, 'what costs crop already is seen to');
  await press(page.locator('label:has([data-act="work-before"])'));
  assert.ok((await page.locator('.stage .signs .work').count()) > 10);
  actions += 1;
  await page.evaluate(() => window.dispatchEvent(new Event('beforeprint')));
  const printed = await page.evaluate(() => {
    const root = document.querySelector('#print-sheets').shadowRoot;
    return { sheets: root.querySelectorAll('svg[role=img]').length, signs: root.querySelectorAll('.work').length };
  });
  assert.ok(printed.sheets >= 2 && printed.signs > 40, JSON.stringify(printed));
  assert.ok(actions <= 15, `${actions} actions`);
});

for (const colorScheme of ['light', 'dark']) {
  pageTest(`whatever opens on the desk is fit for those who are read to, ${colorScheme}`, { context: { colorScheme } }, async ({ page }) => {
    const good = async (what) => assert.deepEqual(await accessibility(page), [], what);
    await page.locator('.start').waitFor();
    await good('start');
    await example(page);
    await good('desk');
    await page.locator('.stage').press('ArrowRight');
    await page.locator('.part-card').waitFor();
    await good('card');
    // Menus and what folds out, each in turn.
    for (const summary of await page.locator('summary').all()) {
      if (!(await summary.isVisible())) continue;
      const name = (await summary.textContent()).trim();
      await summary.click();
      await frames(page, 4);
      await good(name);
      await summary.click();
    }
    await page.locator('[data-act=charts]').click();
    await page.locator('dialog[open] .charts figure').first().waitFor();
    await good('charts');
    await page.keyboard.press('Escape');
    await page.keyboard.press('l');
    await frames(page, 10);
    await good('light');
    await page.keyboard.press('l');
    await page.locator('[data-act=correct]').check();
    await page.locator('.stage').press('ArrowRight');
    await frames(page, 4);
    await good('record');
    await page.locator('[data-act=correct]').uncheck();
    await page.locator('[data-matter] [data-act=leave]').first().click();
    await frames(page, 3);
    await good('leaving a matter');
  });
}
