// Keeps the page on the device: one cache a build, the old one dropped.
const BUILD = "__BUILD__";
const FILES = __FILES__;
const CACHE = `cordonry-${BUILD}`;

// What the page has fetched just now is taken from the browser's own store, so that nothing is fetched twice. Files
// under the build's stamp are the build's; the others name it, and are asked for anew where they name an older one.
async function ofThisBuild(path) {
  for (const cache of ["force-cache", "reload"]) {
    const answer = await fetch(path, { cache });
    if (!answer.ok) break;
    if (path.includes(BUILD) || (await answer.clone().text()).includes(BUILD)) return answer;
  }
  throw new Error(`${path} is not of build ${BUILD}`);
}

// All files of one build or none.
async function keep() {
  const paths = ["./", ...FILES];
  const answers = await Promise.all(paths.map(ofThisBuild));
  const cache = await caches.open(CACHE);
  await Promise.all(paths.map((path, i) => cache.put(path, answers[i])));
}

addEventListener("install", (event) => event.waitUntil(keep()));

addEventListener("activate", (event) => {
  event.waitUntil(
    caches
      .keys()
      .then((names) =>
        Promise.all(
          names.filter((n) => n.startsWith("cordonry-") && n !== CACHE).map((n) => caches.delete(n)),
        ),
      ),
  );
});

addEventListener("fetch", (event) => {
  const url = new URL(event.request.url);
  if (event.request.method !== "GET" || url.origin !== location.origin) return;
  event.respondWith(
    caches
      .open(CACHE)
      .then((cache) => cache.match(event.request, { ignoreSearch: true, ignoreVary: true }))
      .then((kept) => kept ?? fetch(event.request)),
  );
});
