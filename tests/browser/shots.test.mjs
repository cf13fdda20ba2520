// The page looks as in the pictures that were looked at and kept.
import assert from 'node:assert/strict';
import { readFile, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pageTest } from './rig.mjs';
import { difference, kept, SHOTS, taken } from './shots.mjs';

/** So many of the squares may be another: letters are drawn otherwise from machine to machine. */
const OFF = 0.03;

for (const [name, shot] of Object.entries(SHOTS)) {
  pageTest(`the page looks as it did: ${name}`, shot, async ({ page, t }) => {
    const own = await taken(page, shot);
    const off = await difference(page, own, await readFile(kept(name)));
    t.diagnostic(`${(off * 100).toFixed(2)} % of the squares differ, of ${OFF * 100}`);
    if (off > OFF) {
      const beside = join(tmpdir(), `cordonry-${name}.png`);
      await writeFile(beside, own);
      assert.fail(`${(off * 100).toFixed(1)} % of the picture is another: it is at ${beside}; where it is as meant, \`node shots.mjs\` keeps it`);
    }
  });
}

pageTest('a picture of another page is told apart', SHOTS.wide, async ({ page }) => {
  const wide = await readFile(kept('wide'));
  assert.equal(await difference(page, wide, wide), 0);
  assert.equal(await difference(page, wide, await readFile(kept('narrow'))), 1);
  assert.ok((await difference(page, wide, await readFile(kept('dark')))) > 0.5);
  // One panel gone is enough.
  const own = await taken(page, { then: () => page.locator('.figures').evaluate((e) => (e.style.visibility = 'hidden')) });
  assert.ok((await difference(page, own, wide)) > 0.002);
});
