// Starts the page; says so when the browser can't run it.
import init, { startPage } from "./cordonry_page.js";

// The page in one file brings its module and its helper's script with it.
const inOne = globalThis.cordonryInOneFile;

// The head of the page in the language that it had last.
try {
  const lines = localStorage.getItem("cordonry.head")?.split("\n");
  document.querySelectorAll("#loading > *").forEach((line, i) => (line.textContent = lines?.[i] ?? line.textContent));
} catch {
  // A device that keeps nothing has the page's own.
}

async function compiled(address) {
  const answer = await fetch(address);
  if (!answer.ok) throw new Error(`${address}: ${answer.status}`);
  const isNamed = answer.headers.get("content-type")?.startsWith("application/wasm");
  // Some servers know no type for it, and without one it can't be compiled as it comes.
  return isNamed ? WebAssembly.compileStreaming(answer) : WebAssembly.compile(await answer.arrayBuffer());
}

// What was last given to be kept of the plan on the desk, as it is wanted when the module can no longer be asked.
let kept;
let trapped = false;

// Takes note of what is to be written; after a trap nothing may be.
function note({ id, name, now, whole, steps, range: [first, last] }) {
  if (trapped) return false;
  if (kept?.id !== id) kept = { id, steps: new Map() };
  kept.name = name;
  kept.now = now;
  kept.whole = whole ?? kept.whole;
  for (const number of kept.steps.keys()) if (number < first || number > last) kept.steps.delete(number);
  for (const step of steps) kept.steps.set(step.number, step);
  return true;
}

let startHelper;

try {
  const module = await (inOne?.module() ?? compiled(new URL("cordonry_page_bg.wasm", import.meta.url)));
  await init({ module_or_path: module });
  startHelper = (language) => {
    const helper = inOne?.helper() ?? new Worker(new URL("helper.js", import.meta.url), { type: "module" });
    // It is given the module, compiled once for both.
    helper.postMessage({ module, language });
    return helper;
  };
  startPage(startHelper, note);
} catch (error) {
  // A page that is left while it loads has its files cut off, and is gone before this would be told.
  setTimeout(() => {
    const state = document.querySelector("#loading [role=status]");
    if (state) {
      state.textContent =
        "Cordonry could not start. It needs a browser of 2023 or later (WebAssembly with SIMD). " + error;
    }
    throw error;
  }, 200);
}

// A trap, or a stack that overflows, has left the module in the midst of something: it is asked nothing more, and nothing of
// it is saved.
function stopAt(error) {
  const overflows = error instanceof RangeError && /wasm/.test(error.stack);
  const sheet = document.getElementById("trapped");
  if (!(error instanceof WebAssembly.RuntimeError || overflows) || trapped || !sheet) return;
  trapped = true;
  onbeforeunload = null;
  for (const other of document.querySelectorAll("dialog[open]")) other.close();
  sheet.addEventListener("close", () => sheet.showModal());
  sheet.addEventListener("click", ({ target }) => afterTrap[target.dataset.act]?.());
  sheet.querySelector("[data-act=trapped-save]").hidden = !kept?.whole;
  sheet.showModal();
}

const afterTrap = {
  "trapped-open": () => location.reload(),
  "trapped-start": () => {
    localStorage.setItem("cordonry.at-start", "1");
    location.reload();
  },
  // A fresh instance makes the file of what was kept.
  "trapped-save": () => {
    const helper = startHelper();
    helper.postMessage({ kept: { ...kept, steps: [...kept.steps.values()] } });
    helper.addEventListener("message", ({ data: { text } }) => {
      const link = document.createElement("a");
      link.href = URL.createObjectURL(new Blob([text], { type: "application/json" }));
      link.download = `${kept.name.replace(/[^\p{L}\p{N}]+/gu, "-").replace(/^-|-$/g, "") || "row"}.json`;
      link.click();
      helper.terminate();
    });
  },
};

addEventListener("error", ({ error }) => stopAt(error));
addEventListener("unhandledrejection", ({ reason }) => stopAt(reason));
// The sheet's own keys need no listener; the module's are not to hear them.
addEventListener("keydown", (event) => trapped && event.stopImmediatePropagation(), true);

// After the first visit the page needs no network at all.
if ("serviceWorker" in navigator && location.protocol !== "file:" && !location.search.includes("bench")) {
  navigator.serviceWorker.register("sw.js").then(watchForNewer).catch(() => {});
}

// Tells the page of a newer build that is on the device and waits, and loads it when the page says so.
function watchForNewer(registration) {
  const tell = () => {
    if (registration.waiting && navigator.serviceWorker.controller) dispatchEvent(new Event("cordonry-newer"));
  };
  tell();
  registration.addEventListener("updatefound", () => registration.installing?.addEventListener("statechange", tell));
  addEventListener("cordonry-load-newer", () => {
    navigator.serviceWorker.addEventListener("controllerchange", () => location.reload(), { once: true });
    registration.waiting?.postMessage("take over");
  });
  // A page may stay open for weeks; it asks when it is come back to.
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible") registration.update().catch(() => {});
  });
}
