// Starts the page; says so when the browser can't run it.
import init, { startPage } from "./cordonry_page.js";

try {
  await init();
  startPage();
} catch (error) {
  const loading = document.getElementById("loading");
  if (loading) {
    loading.textContent =
      "Cordonry could not start. It needs a browser of 2023 or later (WebAssembly with SIMD). " + error;
  }
  throw error;
}

// After the first visit the page needs no network at all.
if ("serviceWorker" in navigator && location.protocol !== "file:" && !location.search.includes("bench")) {
  navigator.serviceWorker.register("sw.js").catch(() => {});
}
