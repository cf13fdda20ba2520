// A drag as it is measured, and the least that a browser can do with one.
import { latencies, record } from './trace.mjs';

// Longer than any frame that is still smooth, so that no move waits for the one before it …
const PAUSE = 50;

/**
 * Drags a part of the page in small moves and gives the milliseconds from each move to its frame, and how many
 * moves had none: one that changes nothing to see has none, but most must.
 */
export async function measureDrag(page, selector, { moves = 60, warmUp = 10 } = {}) {
  const part = page.locator(selector).filter({ visible: true }).first();
  const box = await part.boundingBox();
  if (!box) throw new Error(`${selector} has no place on the screen`);
  const x = box.x + box.width / 2;
  const y = box.y + box.height / 2;
  const step = async (count) => {
    // … and of changing length, so that moves fall everywhere between two frames.
    await page.waitForTimeout(PAUSE + ((count * 7) % 17));
    await page.mouse.move(x + 40 * Math.sin(count / 5), y + 15 * Math.sin(count / 3));
  };
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let count = 1; count <= warmUp; count += 1) await step(count);
  const events = await record(page, async () => {
    for (let count = 1; count <= moves; count += 1) await step(warmUp + count);
  });
  await page.mouse.up();
  const times = latencies(events, 'MOUSE_DRAGGED');
  const shown = times.filter((time) => !Number.isNaN(time));
  if (times.length !== moves || shown.length < 0.9 * moves) {
    throw new Error(`of ${moves} moves the trace holds ${times.length}, ${shown.length} of them with a frame`);
  }
  return { times: shown, lost: times.length - shown.length };
}

/** A page with nothing but a circle that follows the pointer, after so many milliseconds of made work. */
export const anchor = (work = 0) => `<!doctype html><title>Anchor</title><link rel="icon" href="data:,">
<svg width="1200" height="700"><circle data-handle="tip" cx="600" cy="350" r="8"/></svg>
<script type="module">
  const circle = document.querySelector('circle');
  circle.onpointerdown = ({ pointerId }) => circle.setPointerCapture(pointerId);
  circle.onpointermove = ({ offsetX, offsetY, buttons }) => {
    if (!buttons) return;
    const end = performance.now() + ${work};
    while (performance.now() < end);
    circle.setAttribute('cx', offsetX);
    circle.setAttribute('cy', offsetY);
  };
</script>`;
