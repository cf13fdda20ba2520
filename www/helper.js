// A second instance of the same module, for questions about a whole plan.
import init, { answerMessage } from "./cordonry_page.js";

let begin;
const ready = new Promise((done) => (begin = done)).then((module) => init({ module_or_path: module }));
// Of each kind of question only the newest is worth an answer.
const waiting = new Map();
let working = false;

const kind = ({ question }) => (typeof question === "string" ? question : Object.keys(question)[0]);

addEventListener("message", ({ data }) => {
  if (data instanceof WebAssembly.Module) return begin(data);
  waiting.set(kind(data), data);
  if (!working) {
    working = true;
    ready.then(next);
  }
});

function next() {
  const [first] = waiting;
  if (!first) {
    working = false;
    return;
  }
  waiting.delete(first[0]);
  postMessage(answerMessage(first[1]));
  // Questions that came meanwhile are heard before the next one is taken.
  setTimeout(next);
}
