// `cargo xtask bench edit`: a drag on a long row, beside one circle dragged on an empty page.
import { anchor, measureDrag } from './drag.mjs';
import { open } from './rig.mjs';
import { quantile } from './trace.mjs';

const ROW = process.argv[2] ?? '300x10';
const HANDLE = '[data-handle="tip"]';

async function measure(options, fill) {
  const { page, close } = await open(options);
  try {
    await fill(page);
    await page.locator(HANDLE).filter({ visible: true }).first().waitFor({ timeout: 60_000 });
    return await measureDrag(page, HANDLE);
  } finally {
    await close();
  }
}

const least = await measure({ path: 'about:blank' }, (page) => page.setContent(anchor()));
const ours = await measure({ path: `?bench=${ROW}` }, () => {});

const say = (words, unit, figure) =>
  console.log(JSON.stringify({ measure: `${ROW}: ${words}`, unit, ours: figure(ours), anchor: figure(least) }));
say('pointer event to shown frame, median', 'ms', ({ times }) => quantile(times, 0.5));
say('pointer event to shown frame, 95 in 100', 'ms', ({ times }) => quantile(times, 0.95));
say('moves with a frame', '', ({ times }) => times.length);
say('moves without', '', ({ lost }) => lost);
