// Keeps the page on the device: every file of one version, by its hash, answered from here and from nowhere else.
// tools/finish.mjs puts the version and the list in. A new version waits until the person takes it.
const kVersion = '@VERSION@';
const kFiles = '@FILES@';
const kCache = `lapwright-${kVersion}`;
const root = new URL('./', self.location.href);
const kept = new Map(kFiles.map(([name, hash]) => [new URL(name, root).href, hash]));

async function keep() {
  const cache = await caches.open(kCache);
  for (const [url] of kept) {
    if (await cache.match(url)) continue;
    const answer = await fetch(url, { cache: 'reload' });
    if (!answer.ok) throw new Error(`${url}: ${answer.status}`);
    await cache.put(url, answer);
  }
}

self.addEventListener('install', (event) => event.waitUntil(keep()));

self.addEventListener('activate', (event) =>
  event.waitUntil(
    (async () => {
      for (const name of await caches.keys()) {
        if (name.startsWith('lapwright-') && name !== kCache) await caches.delete(name);
      }
      await self.clients.claim();
    })(),
  ),
);

self.addEventListener('message', (event) => {
  if (event.data === 'take over') void self.skipWaiting();
});

self.addEventListener('fetch', (event) => {
  const { request } = event;
  if (request.method !== 'GET') return;
  const url = new URL(request.url);
  url.search = '';
  url.hash = '';
  if (url.origin !== root.origin || url.pathname.startsWith(`${root.pathname}api/`)) return;
  if (url.href === root.href) url.pathname += 'index.html';
  if (!kept.has(url.href)) return;
  event.respondWith(
    (async () => (await (await caches.open(kCache)).match(url.href)) ?? fetch(request))(),
  );
});
