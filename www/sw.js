// Keeps the page on the device: one cache a build, the old one dropped.
const BUILD = '__BUILD__';
const FILES = __FILES__;
const CACHE = `cordonry-${BUILD}`;

addEventListener("install", (event) => {
  event.waitUntil(caches.open(CACHE).then((cache) => cache.addAll(["./", ...FILES])));
});

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
      .then((cache) => cache.match(event.request, { ignoreSearch: true }))
      .then((kept) => kept ?? fetch(event.request)),
  );
});
