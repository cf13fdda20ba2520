// How long the browser itself says that an edit took: from the pointer's event to the frame that showed it.
//
// Chromium's trace carries, each with its time:
//   EventLatency             begins when the event arose, tells its kind, ends when the page has handled it
//   EventDispatch            the handlers' run on the page's thread, within that time
//   AnimationFrame           the page's frame in which that happened
//   AnimationFrame::Presentation  that this frame has been shown, and as which of the compositor's frames
//   PipelineReporter         the compositor's frame; ends with its presentation
// EventLatency has a presentation of its own only for scrolling, hence the way round by the frame.

const CATEGORIES = ['input', 'devtools.timeline', 'disabled-by-default-devtools.timeline.frame'];

/** Records a trace while `work` runs, and gives its events. */
export async function record(page, work) {
  const session = await page.context().browser().newBrowserCDPSession();
  const events = [];
  session.on('Tracing.dataCollected', ({ value }) => events.push(...value));
  await session.send('Tracing.start', {
    transferMode: 'ReportEvents',
    traceConfig: { recordMode: 'recordContinuously', includedCategories: CATEGORIES, excludedCategories: ['*'] },
  });
  await work();
  // The last frame's presentation is told a little later.
  await page.waitForTimeout(500);
  const complete = new Promise((done) => session.once('Tracing.tracingComplete', done));
  await session.send('Tracing.end');
  await complete;
  await session.detach();
  return events;
}

/** Milliseconds from each event of a kind, as MOUSE_DRAGGED, to its frame; NaN where no frame came of it. */
export function latencies(events, kind) {
  const sorted = [...events].sort((a, b) => a.ts - b.ts);
  const dispatches = sorted.filter(({ name, ph, args }) => name === 'EventDispatch' && ph === 'X' && args.data.type === 'pointermove');
  const frames = spans(sorted, 'AnimationFrame').map((span) => ({ ...span, id: span.args.id }));
  const shown = new Map();
  for (const { name, ph, pid, args, ts } of sorted) {
    if (name === 'AnimationFrame::Presentation' && ph === 'n') shown.set(`${pid} ${args.id}`, { frame: args.begin_frame_id, ts });
  }
  const presented = new Map();
  for (const { pid, end, args } of spans(sorted, 'PipelineReporter')) {
    const { frame_source: source, frame_sequence: sequence, state } = args.frame_reporter;
    if (state?.startsWith('STATE_PRESENTED')) presented.set(`${pid} ${source} ${sequence}`, end);
  }
  return spans(sorted, 'EventLatency')
    .filter(({ args }) => args.event_latency?.event_type === kind)
    .map(({ pid, begin, end }) => {
      const dispatch = dispatches.find((each) => each.pid === pid && begin <= each.ts && each.ts <= end);
      // Handled between frames, it is shown by the next.
      const frame = dispatch && frames.find((each) => each.pid === pid && each.end >= dispatch.ts);
      const mark = frame && shown.get(`${pid} ${frame.id}`);
      if (!mark) return NaN;
      const { source_id: source, sequence_number: sequence } = mark.frame;
      return ((presented.get(`${pid} ${source} ${sequence}`) ?? mark.ts) - begin) / 1000;
    });
}

// Begins and ends that belong together, in the order of their begins. Numbers are given again once they are free.
function spans(sorted, wanted) {
  const open = new Map();
  const found = [];
  for (const { name, ph, pid, id2, id, ts, args } of sorted) {
    if (name !== wanted) continue;
    const key = `${pid} ${id2?.local ?? id}`;
    if (ph === 'b') {
      open.set(key, { pid, begin: ts, args });
    } else if (ph === 'e' && open.has(key)) {
      found.push({ ...open.get(key), end: ts });
      open.delete(key);
    }
  }
  return found.sort((a, b) => a.begin - b.begin);
}

/** The value below which a share of the values lies. */
export function quantile(values, share) {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))];
}
