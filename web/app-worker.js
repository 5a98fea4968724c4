"use strict";
// The service worker: one version of the app is one set of files, kept whole or
// not at all, and served from there with or without a network.
//
// A newer version is fetched beside the one in use and waits until the skipper
// asks for it or every tab is closed; the old set goes only when the new one is
// in charge. Nothing of the skipper's is kept in these caches.
const prefix = "keelroom-files:" + {{.Base}} + ":";
const cacheName = prefix + {{.Version}};
const files = {{.Files}};

self.addEventListener("install", (event) => {
  event.waitUntil(install());
});

async function install() {
  const cache = await caches.open(cacheName);
  try {
    // addAll takes every file or none; no-cache asks the server whether what
    // the browser has from loading the page is still right.
    await cache.addAll(files.map((file) => new Request(file, { cache: "no-cache" })));
  } catch (problem) {
    await caches.delete(cacheName);
    throw problem;
  }
}

self.addEventListener("activate", (event) => {
  event.waitUntil(activate());
});

async function activate() {
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name.startsWith(prefix) && name !== cacheName).map((name) => caches.delete(name)));
  await self.clients.claim();
}

// Files that another app shared, until a page asks for them.
let shared = [];

self.addEventListener("message", (event) => {
  if (event.data === "what was shared" && shared.length) {
    event.source.postMessage({ shared });
    shared = [];
  }
  if (event.data === "take over") {
    self.skipWaiting();
  }
});

self.addEventListener("fetch", (event) => {
  const url = new URL(event.request.url);
  if (event.request.method === "POST" && url.origin === self.location.origin && url.pathname === {{.Base}} + "share") {
    event.respondWith(take(event.request));
    return;
  }
  if (event.request.method === "GET" && url.origin === self.location.origin) {
    event.respondWith(answer(event.request, url));
  }
});

// take keeps shared files in memory and shows the page: they go nowhere else.
async function take(request) {
  const form = await request.formData();
  shared = form.getAll("files").filter((file) => file instanceof File);
  return Response.redirect({{.Base}}, 303);
}

async function answer(request, url) {
  const cache = await caches.open(cacheName);
  const page = request.mode === "navigate" && (url.pathname === {{.Base}} || url.pathname === {{.Base}} + "index.html");
  const kept = await cache.match(page ? {{.Base}} : request, { ignoreSearch: page });
  return kept ?? fetch(request);
}
