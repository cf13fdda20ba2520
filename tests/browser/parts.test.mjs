// Parts of the module: one that does not come is said where it should stand, and comes when it is asked for again.
import assert from 'node:assert/strict';
import { between } from './between.mjs';
import { example } from './desk.mjs';
import { pageTest } from './rig.mjs';
import { say } from './words.mjs';

let there = false;
const served = await between({ from: (path) => (there || !/split_panels/.test(path) ? path : undefined) });

pageTest('a part that does not come is said in its place, and comes when asked for again', { path: served.address }, async ({ page, allow }) => {
  allow(/split_panels|404|WebAssembly|Failed to load|not of build/);
  await example(page);
  const wires = page.locator('#view-wires');
  await wires.locator('summary').click();
  const why = wires.getByRole('alert');
  await why.waitFor();
  assert.ok((await why.textContent()).startsWith(say('part-missing')));
  // The wall is none the worse.
  assert.equal(await page.locator('#trapped[open]').count(), 0);
  there = true;
  await wires.getByRole('button', { name: say('part-again') }).click();
  await wires.locator('.wire-list li').first().waitFor();
  assert.equal(await why.count(), 0);
});
