// A second instance of the same module, for questions about a whole plan.
import init, { answerMessage } from "./cordonry_page.js";

const ready = init();

addEventListener("message", async (event) => {
  await ready;
  postMessage(answerMessage(event.data));
});
