// `cargo xtask bench edit`: a drag on a long row, or on several by comma, beside one circle dragged on an empty page; with
// `light` after the rows' sizes the light map is on, with `years` the rows are just planted and the drag is in leaf 2, while later
// leaves follow.
import { anchor, measureDrag } from './drag.mjs';
import { open } from './rig.mjs';
import { quantile } from './trace.mjs';
import { plant } from './desk.mjs';

const ROWS = (process.argv[2] ?? '300x10').split(',');
const LIGHT = process.argv[3] === 'light';
const YEARS = process.argv[3] === 'years';
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
for (const row of ROWS) {
  const ours = await measure({ path: YEARS ? '' : `?bench=${row}` }, async (page) => {
    if (YEARS) {
      await plant(page, parseInt(row, 10));
      await page.locator('.year[data-leaf="2"] input').check();
    }
    if (!LIGHT) return;
    await page.locator('[data-act=light]').click();
    // Until the exact answer has come.
    await page.locator('[data-figure=figure-light-caught]', { hasText: /^[0-9]/ }).waitFor({ timeout: 120_000 });
  });
  const say = (words, unit, figure) =>
    console.log(JSON.stringify({ measure: `${row}${LIGHT ? ', light' : ''}${YEARS ? ' trees, leaf 2' : ''}: ${words}`, unit, ours: figure(ours), anchor: figure(least) }));
  say('pointer event to shown frame, median', 'ms', ({ times }) => quantile(times, 0.5));
  say('pointer event to shown frame, 95 in 100', 'ms', ({ times }) => quantile(times, 0.95));
  say('moves with a frame', '', ({ times }) => times.length);
  say('moves without', '', ({ lost }) => lost);
}
