// Takes the README's picture of the desk: `node readme-picture.mjs`, against `cargo xtask serve`.
import { frames, open } from './rig.mjs';

const { page, close } = await open({ viewport: { width: 1280, height: 900 } });
await page.locator('[data-example="examples/third-leaf.json"]').click();
await page.waitForSelector('.stage [data-tree]');
await page.locator('.finding .said button').first().click();
await page.locator('.kept-state', { hasText: 'Saved here' }).waitFor();
await page.keyboard.press('Escape');
await page.waitForTimeout(600);
await frames(page, 2);
await page.screenshot({ path: new URL('../../examples/desk.png', import.meta.url).pathname });
await close();
