// Keeps the page on the device: one cache a build. A build is kept whole or not at all, and a newer one waits until the
// page asks for it or is alone and loaded anew.
const BUILD = "__BUILD__";
const FILES = __FILES__;
const PREFIX = "cordonry-";
const CACHE = `${PREFIX}${BUILD}`;

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
  try {
    await Promise.all(paths.map((path, i) => cache.put(path, answers[i])));
  } catch (error) {
    await caches.delete(CACHE);
    throw error;
  }
}

addEventListener("install", (event) => event.waitUntil(keep()));

addEventListener("message", ({ data }) => {
  if (data === "take over") skipWaiting();
});

// The build before this one stays: pages of it may still be open in other tabs.
async function dropOlder() {
  const others = (await caches.keys()).filter((name) => name.startsWith(PREFIX) && name !== CACHE);
  await Promise.all(others.slice(0, -1).map((name) => caches.delete(name)));
}

addEventListener("activate", (event) => event.waitUntil(dropOlder()));

// A page that is alone and loaded anew comes as the build that waits: nobody else is left on this one. What has once been
// told to take over soon does: until then whoever asks for the page is sent round again, whether the page that asked first
// is still being let go or the next worker no longer waits but starts.
let givenWay = false;

const pages = async () => (await clients.matchAll({ type: "window" })).length;

// One that was left a moment ago may still be counted.
async function alone() {
  if ((await pages()) < 2) return true;
  await new Promise((done) => setTimeout(done, 300));
  return (await pages()) < 2;
}

async function givesWay() {
  if (!givenWay && !(registration.waiting && (await alone()))) return false;
  givenWay = true;
  registration.waiting?.postMessage("take over");
  return true;
}

// The page is this worker's build; what stands under a build's stamp is that build's, whichever worker is asked.
async function answer(request) {
  if (request.mode === "navigate" && (await givesWay())) {
    // The empty page brings an icon, so that none is asked for.
    return new Response('<link rel="icon" href="data:,">', { headers: { refresh: "0", "content-type": "text/html" } });
  }
  const same = { ignoreSearch: true, ignoreVary: true };
  const own = await caches.open(CACHE);
  return (await own.match(request, same)) ?? (await caches.match(request, same)) ?? fetched(request, own);
}

// What of this build is loaded only when somebody asks for it is kept from then on.
async function fetched(request, own) {
  const answer = await fetch(request);
  if (answer.ok && request.url.includes(BUILD)) await own.put(request, answer.clone()).catch(() => {});
  return answer;
}

addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method !== "GET" || new URL(request.url).origin !== location.origin) return;
  event.respondWith(answer(request));
});
