// Starts the page; says so when the browser can't run it.
import init, { startPage } from "./cordonry_page.js";

// The page in one file brings its module and its helper's script with it.
const inOne = globalThis.cordonryInOneFile;

async function compiled(address) {
  const answer = await fetch(address);
  if (!answer.ok) throw new Error(`${address}: ${answer.status}`);
  const isNamed = answer.headers.get("content-type")?.startsWith("application/wasm");
  // Some servers know no type for it, and without one it can't be compiled as it comes.
  return isNamed ? WebAssembly.compileStreaming(answer) : WebAssembly.compile(await answer.arrayBuffer());
}

try {
  const module = await (inOne?.module() ?? compiled(new URL("cordonry_page_bg.wasm", import.meta.url)));
  await init({ module_or_path: module });
  startPage(() => {
    const helper = inOne?.helper() ?? new Worker(new URL("helper.js", import.meta.url), { type: "module" });
    // It is given the module, compiled once for both.
    helper.postMessage(module);
    return helper;
  });
} catch (error) {
  const state = document.querySelector("#loading [role=status]");
  if (state) {
    state.textContent =
      "Cordonry could not start. It needs a browser of 2023 or later (WebAssembly with SIMD). " + error;
  }
  throw error;
}

// After the first visit the page needs no network at all.
if ("serviceWorker" in navigator && location.protocol !== "file:" && !location.search.includes("bench")) {
  navigator.serviceWorker.register("sw.js").catch(() => {});
}
