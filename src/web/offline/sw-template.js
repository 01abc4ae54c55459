// Keeps the pages of one build on the device. The build fills in the first two lines.
const FILES = __FILES__;
const CACHE = 'pages __VERSION__';
/** With little signal an answer may take for ever; the pages are here. */
const PATIENCE_MS = 4000;

self.addEventListener('install', (event) => {
  const store = async () => {
    const cache = await caches.open(CACHE);
    await cache.addAll(FILES.map((file) => new Request(file, { cache: 'reload' })));
    await self.skipWaiting();
  };
  event.waitUntil(store());
});

self.addEventListener('activate', (event) => {
  const tidy = async () => {
    // A page that is still open comes from the build before, and may yet ask for a part of it; caches are listed in the order of their making.
    const builds = (await caches.keys()).filter((name) => name.startsWith('pages ') && name !== CACHE);
    await Promise.all(builds.slice(0, -1).map((name) => caches.delete(name)));
    await self.clients.claim();
  };
  event.waitUntil(tidy());
});

self.addEventListener('fetch', (event) => {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  if (request.method !== 'GET' || origin !== location.origin || pathname === '/api' || pathname.startsWith('/api/')) return;
  if (request.mode === 'navigate') event.respondWith(page(request));
  else event.respondWith(file(request));
});

/** The newest page where the service answers in time, else the one that is kept. */
async function page(request) {
  const kept = await (await caches.open(CACHE)).match('/');
  const fresh = fetch(request).then((answer) => (answer.status >= 500 && kept ? kept : answer));
  if (!kept) return fresh;
  const late = new Promise((resolve) => setTimeout(() => resolve(kept), PATIENCE_MS));
  return Promise.race([fresh.catch(() => kept), late]);
}

/** Names change with the content, so a file that is kept is right, whichever build kept it. */
async function file(request) {
  return (await (await caches.open(CACHE)).match(request)) ?? (await caches.match(request)) ?? fetch(request);
}
