// Pictures of the page and its paper, as they are kept in tests/browser/shots: `node shots.mjs` takes them anew, against `cargo xtask serve`.
import { readFile, writeFile } from 'node:fs/promises';
import { example, saved } from './desk.mjs';
import { frames, open } from './rig.mjs';

const desk = { viewport: { width: 1280, height: 800 } };

/** Each picture: how the page is opened, and what is done before it is taken. */
export const SHOTS = {
  wide: desk,
  low: { viewport: { width: 1280, height: 720 } },
  narrow: { viewport: { width: 390, height: 844 }, context: { hasTouch: true, isMobile: true } },
  dark: { ...desk, context: { colorScheme: 'dark' } },
  forced: { ...desk, context: { forcedColors: 'active' } },
  'paper-a4': { ...desk, paper: 'a4' },
  'paper-letter': { ...desk, paper: 'letter' },
  present: { viewport: { width: 1280, height: 720 }, then: (page) => page.keyboard.press('p') },
};

export const kept = (name) => new URL(`shots/${name}.png`, import.meta.url);

/** The page as the picture has it. */
export async function taken(page, { then, paper } = {}) {
  await page.emulateMedia({ reducedMotion: 'reduce' });
  // Paper says when it was printed.
  await page.clock.setFixedTime(new Date(2026, 0, 15));
  await example(page);
  await saved(page);
  await then?.(page);
  // What the helper answers at rest is there: findings with their remedies, and between what the crops lie.
  await page.locator('.year-range', { hasText: /\d/ }).first().waitFor({ state: 'attached' });
  await page.locator('[data-remedy][aria-disabled]').waitFor({ state: 'detached' });
  await frames(page, 5);
  if (paper) return printed(page, paper);
  return page.screenshot({ animations: 'disabled', caret: 'hide' });
}

/** Its first sheet of that paper, with the signs of the work. */
async function printed(page, paper) {
  await page.evaluate((paper) => {
    const choice = document.querySelector('[data-field=paper]');
    choice.value = paper;
    choice.dispatchEvent(new Event('change', { bubbles: true }));
  }, paper);
  await page.evaluate(() => window.dispatchEvent(new Event('beforeprint')));
  await page.emulateMedia({ media: 'print' });
  return page.locator('#print-sheets svg[role=img]').first().screenshot({ animations: 'disabled' });
}

/**
 * How far two pictures differ: both are laid on a grid of squares of 8 px, each the mean of what is in it; the share of squares
 * whose colour is another by more than a tenth. Worked out in the page, which knows how to read a picture.
 */
export async function difference(page, one, other) {
  const url = (png) => `data:image/png;base64,${png.toString('base64')}`;
  return page.evaluate(
    async ([a, b]) => {
      const SQUARE = 8;
      const read = async (url) => {
        const picture = new Image();
        picture.src = url;
        await picture.decode();
        const size = [picture.width, picture.height].map((n) => Math.ceil(n / SQUARE));
        const canvas = new OffscreenCanvas(...size);
        const pen = canvas.getContext('2d');
        pen.imageSmoothingQuality = 'high';
        pen.drawImage(picture, 0, 0, ...size);
        return { size, data: pen.getImageData(0, 0, ...size).data };
      };
      const [own, kept] = [await read(a), await read(b)];
      if (own.size.join() !== kept.size.join()) return 1;
      let other = 0;
      for (let at = 0; at < own.data.length; at += 4) {
        const off = [0, 1, 2].map((i) => Math.abs(own.data[at + i] - kept.data[at + i]));
        other += Math.max(...off) > 255 / 10;
      }
      return other / (own.data.length / 4);
    },
    [url(one), url(other)],
  );
}

if (process.argv[1] === new URL(import.meta.url).pathname) {
  for (const [name, shot] of Object.entries(SHOTS)) {
    const { page, close } = await open(shot);
    await writeFile(kept(name), await taken(page, shot));
    await close();
    console.log(name, (await readFile(kept(name))).length);
  }
}
