// A second instance of the same module, for questions about a whole plan.
import init, { hearMessage, keptText, lookAtRow, nextReply, readTable, speak } from "./cordonry_page.js";

let begin;
const ready = new Promise((done) => (begin = done)).then(async ({ module, language }) => {
  await init({ module_or_path: module });
  if (language) await speak(language);
});
let working = false;
let heard = Promise.resolve();

addEventListener("message", async ({ data }) => {
  if (data.module) return begin(data);
  // A table; what is sent without anything tells that it can't be read to its end.
  if (Array.isArray(data)) return ready.then(() => readTable(...data, tell)).then((read) => postMessage(read)).catch(lost);
  await ready;
  // A row that is kept, only to be looked at.
  if (data.row) return lookAtRow(data.row).then((seen) => postMessage(seen)).catch(lost);
  // From a page whose own instance can no longer be asked.
  if (data.kept) return postMessage({ text: keptText(data.kept) });
  // Each in its turn: what is asked is about what was told before.
  await (heard = heard.then(() => hearMessage(data)));
  if (working) return;
  working = true;
  // Messages that came in the same breath are heard before the first is answered.
  setTimeout(next);
});

// The page hears of errors alone; then it does without this helper.
addEventListener("unhandledrejection", ({ reason }) => {
  setTimeout(() => {
    throw reason;
  });
});

function lost(why) {
  console.error(why);
  postMessage(null);
}

let told = 0;

// Tells how far a table is read, so often as the eye can follow.
function tell(read, of) {
  const now = Date.now();
  if (now - told < 100) return;
  told = now;
  postMessage([read, of]);
}

async function next() {
  const reply = await nextReply();
  if (reply === undefined) {
    working = false;
    return;
  }
  if (reply !== null) postMessage(reply);
  // Questions that came meanwhile are heard before the next one is taken.
  setTimeout(next);
}
