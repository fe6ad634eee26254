// Keeps the app on the device and answers for its server from then on.
//
// A page is served from one build alone: every worker has a store of its own, named for its build,
// and answers from no other. The worker of a new build waits until the last page of the old one is
// closed, or until someone at such a page asks for it.

// `cargo xtask build` writes the build and its files with their hashes into these two lines.
const BUILD = "";
const FILES = {};

const SCOPE = self.registration.scope;
// Other pages of the same host, and the app in another folder, have stores with other names.
const OWN = `sideworth ${SCOPE} `;
const STORE = OWN + BUILD;

// Every file is checked against its hash, so that a half-finished upload or a download that was cut
// short never gets in, and a store is filled with all files or not at all.
async function keepAll() {
  const store = await caches.open(STORE);
  const files = Object.entries(FILES);
  if ((await store.keys()).length === files.length) return;
  try {
    await store.addAll(files.map(([file, integrity]) =>
      new Request(new URL(file, SCOPE), { integrity, cache: "no-cache", redirect: "error" })));
  } catch (error) {
    await caches.delete(STORE);
    throw error;
  }
}

async function dropOldBuilds() {
  // A still newer build may be filling its store just now; it drops the others when its turn comes.
  if (self.registration.installing || self.registration.waiting) return;
  const stores = await caches.keys();
  await Promise.all(stores
    .filter((store) => store.startsWith(OWN) && store !== STORE)
    .map((store) => caches.delete(store)));
}

// The file of the app that a request is for, whatever query or fragment follows its address.
function fileOf({ method, url }) {
  if (method !== "GET" || !url.startsWith(SCOPE)) return undefined;
  const path = url.slice(SCOPE.length).split(/[?#]/, 1)[0];
  const file = path === "" || path === "index.html" ? "./" : path;
  return Object.hasOwn(FILES, file) ? file : undefined;
}

// Where the browser has thrown the store away, all of it is gone: the server then gives a whole
// build as well.
async function answer(file, request) {
  const kept = await caches.match(new URL(file, SCOPE), { cacheName: STORE, ignoreVary: true });
  return kept ?? fetch(request);
}

self.addEventListener("install", (event) => event.waitUntil(keepAll()));
self.addEventListener("activate", (event) => event.waitUntil(dropOldBuilds()));
self.addEventListener("fetch", (event) => {
  const file = fileOf(event.request);
  if (file !== undefined) event.respondWith(answer(file, event.request));
});
self.addEventListener("message", (event) => {
  if (event.data.takeOver) event.waitUntil(self.skipWaiting());
  // A page that came from the server before there was a worker: only of the same build is it served.
  else if (event.data.serve === BUILD) event.waitUntil(self.clients.claim());
});
