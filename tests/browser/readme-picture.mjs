// Takes the README's picture of the desk: `node readme-picture.mjs`, against `cargo xtask serve`.
import { example, saved } from './desk.mjs';
import { frames, open } from './rig.mjs';

const { page, close } = await open({ viewport: { width: 1280, height: 900 } });
await example(page);
await page.locator('.finding .said button').first().click();
await saved(page);
await page.keyboard.press('Escape');
await page.waitForTimeout(600);
// Each leaf tells in what range its crop lies.
await page.waitForFunction(() => !document.querySelector('.years').innerText.includes('≈'), null, { timeout: 120_000 });
await frames(page, 2);
await page.screenshot({ path: new URL('../../examples/desk.png', import.meta.url).pathname });
await close();
