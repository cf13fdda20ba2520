// That the bench measures what it says: a made trace with known times, and a real one with known work in it. No time of
// this machine is judged, but that work takes no less than what was put in.
import assert from 'node:assert/strict';
import test from 'node:test';
import { anchor, measureDrag } from './drag.mjs';
import { pageTest } from './rig.mjs';
import { latencies } from './trace.mjs';

/** The events of one move, from its beginning to its frame, in microseconds. */
function move(number, { begin, dispatched, presented }) {
  const id = `0x${number}`;
  const frame = { source_id: 1, sequence_number: number };
  const reporter = { frame_source: 1, frame_sequence: number, state: 'STATE_PRESENTED_ALL' };
  const span = (name, from, to, args) => [
    { name, ph: 'b', pid: 7, id, ts: from, args },
    { name, ph: 'e', pid: 7, id, ts: to, args: {} },
  ];
  return [
    ...span('EventLatency', begin, dispatched + 10, { event_latency: { event_type: 'MOUSE_DRAGGED' } }),
    { name: 'EventDispatch', ph: 'X', pid: 7, ts: dispatched, args: { data: { type: 'pointermove' } } },
    ...(presented ? [
      ...span('AnimationFrame', dispatched - 5, dispatched + 20, { id }),
      { name: 'AnimationFrame::Presentation', ph: 'n', pid: 7, ts: dispatched + 30, args: { id, begin_frame_id: frame } },
      ...span('PipelineReporter', dispatched - 5, presented, { frame_reporter: reporter }),
    ] : []),
  ];
}

test('a time goes from an event to the frame that showed it', () => {
  const events = [
    ...move(1, { begin: 1000, dispatched: 3000, presented: 17_000 }),
    ...move(2, { begin: 50_000, dispatched: 51_000, presented: 92_500 }),
    ...move(3, { begin: 99_000, dispatched: 99_500 }),
  ];
  // In whatever order they come.
  assert.deepEqual(latencies(events.reverse(), 'MOUSE_DRAGGED'), [16, 42.5, NaN]);
  assert.deepEqual(latencies(events, 'GESTURE_SCROLL_UPDATE'), []);
});

pageTest('the browser tells a time for every edit, with all the work in it', { path: 'about:blank' }, async ({ page }) => {
  const moves = 20;
  await page.setContent(anchor(40));
  const { times, lost } = await measureDrag(page, '[data-handle="tip"]', { moves, warmUp: 3 });
  assert.equal(times.length + lost, moves);
  assert.ok(times.every((time) => time >= 40), `40 ms of work are told as ${times}`);
});
