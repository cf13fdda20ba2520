// What the page in one file brings with it, for start.js: its module, and a helper whose script is put together here.
globalThis.cordonryInOneFile = {
  async module() {
    const bytes = Uint8Array.from(atob("__MODULE__"), (letter) => letter.charCodeAt(0));
    return WebAssembly.compile(bytes);
  },
  helper() {
    const parts = ["cordonry-glue", "cordonry-helper"].map((id) => document.getElementById(id).textContent);
    const address = URL.createObjectURL(new Blob(parts, { type: "text/javascript" }));
    return new Worker(address);
  },
};
