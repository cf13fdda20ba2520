// That the bench measures what it says: work put into an edit is found in its time, all of it and no more.
import assert from 'node:assert/strict';
import { anchor, measureDrag } from './drag.mjs';
import { pageTest } from './rig.mjs';
import { quantile } from './trace.mjs';

pageTest('the trace tells the time of an edit', { path: 'about:blank' }, async ({ page }) => {
  const measure = async (work) => {
    await page.setContent(anchor(work));
    const { times } = await measureDrag(page, '[data-handle="tip"]', { moves: 20, warmUp: 3 });
    // A busy machine adds to some, hardly to the quicker ones.
    return quantile(times, 0.25);
  };
  const without = await measure(0);
  const more = await measure(40);
  assert.ok(more >= 40, `40 ms of work are told as ${more} ms`);
  assert.ok(Math.abs(more - without - 40) < 20, `${without} ms without and ${more} ms with 40 ms of work`);
});
