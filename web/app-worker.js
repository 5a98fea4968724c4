"use strict";
// The service worker: one version of the app is one set of files, kept whole or
// not at all, and served from there with or without a network.
//
// Every file has an address that names its version, and its SHA-256 is listed
// here: whatever else arrives in its place, be it an error page, a part of it or
// a file of another version, is not taken, and the version is not offered. A
// newer version is fetched beside the one in use and waits until the skipper asks
// for it or every tab is closed. The files of a version go only when a page of
// another has come up and no page of it is open. Nothing of the skipper's is kept
// in these caches.
//
// All of it is one block: a script of which the end is missing is no script.
{
  const base = {{.Base}};
  const version = {{.Version}};
  const folder = {{.Folder}}; // below the base, with the version in its name
  const files = {{.Files}}; // names below the folder, with the SHA-256 of each
  const page = {{.Page}}; // the name of the page among them

  const prefix = "keelroom-files:" + base + ":";
  const cacheName = prefix + version;
  const addressOf = (name) => base + folder + name;
  // A lock of a version is shared by its pages and by its install; what is locked stays.
  const lockOf = (cache) => "keelroom-files:" + base + folder.replace(version, cache.slice(prefix.length));
  const alone = (lock, work) => navigator.locks?.request(lock, { ifAvailable: true }, (got) => got && work());
  const beside = (lock, work) => (navigator.locks ? navigator.locks.request(lock, { mode: "shared" }, work) : work());

  const sha256 = async (bytes) =>
    [...new Uint8Array(await crypto.subtle.digest("SHA-256", bytes))].map((byte) => byte.toString(16).padStart(2, "0")).join("");

  // right gives a response of its own with the bytes of another, if they are the file's.
  const right = async (name, response) => {
    if (!response?.ok) return null;
    const bytes = await response.arrayBuffer();
    return (await sha256(bytes)) === files[name] ? new Response(bytes, { headers: response.headers }) : null;
  };

  const ourCaches = async () => (await caches.keys()).filter((name) => name.startsWith(prefix));

  // Data that have not changed since another version are not fetched again. Scripts
  // and the page are: the policy that comes with them is the newer one's.
  const fromOther = async (name) => {
    if (/\.(js|html)$/.test(name)) return null;
    for (const other of (await ourCaches()).filter((cache) => cache !== cacheName)) {
      const address = base + folder.replace(version, other.slice(prefix.length)) + name;
      const same = await right(name, await (await caches.open(other)).match(address));
      if (same) return same;
    }
    return null;
  };

  // fetched asks the server: first whether what the browser has from loading the
  // page is still right, then for the file anew.
  const fetched = async (name) => {
    let problem = null;
    for (const cache of ["no-cache", "reload"]) {
      try {
        const whole = await right(name, await fetch(addressOf(name), { cache }));
        if (whole) return whole;
      } catch (error) {
        problem = error;
      }
    }
    throw problem ?? new Error(`Keelroom ${version}: ${name} did not arrive as it should; this version is not used.`);
  };

  const obtained = async (name) => (await fromOther(name)) ?? (await fetched(name));

  const bring = async (cache, name) => {
    if (await right(name, await cache.match(addressOf(name)))) return;
    await cache.put(addressOf(name), await obtained(name));
  };

  const lanes = 6; // files fetched at once

  const bringAll = async () => {
    const cache = await caches.open(cacheName);
    const names = Object.keys(files);
    const lane = async () => {
      while (names.length) await bring(cache, names.pop());
    };
    await Promise.all(Array.from({ length: lanes }, lane));
  };

  const isWhole = async () => {
    const cache = await caches.open(cacheName);
    for (const name of Object.keys(files)) {
      if (!(await right(name, await cache.match(addressOf(name))))) return false;
    }
    return true;
  };

  const install = async () => {
    const before = await caches.has(cacheName); // such as of a version that the host comes back to
    try {
      await bringAll();
    } catch (problem) {
      if (!before) await caches.delete(cacheName);
      throw problem;
    }
  };

  self.addEventListener("install", (event) => event.waitUntil(beside(lockOf(cacheName), install)));
  self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));

  // clean takes away the files of versions that nobody has open, once this one is
  // whole, a page of it runs, and no other is on its way.
  const clean = async () => {
    const busy = () => self.registration.installing || self.registration.waiting;
    const others = (await ourCaches()).filter((cache) => cache !== cacheName);
    if (!others.length || busy() || !(await isWhole())) return;
    for (const other of others) {
      await alone(lockOf(other), async () => busy() || caches.delete(other));
    }
  };

  const mend = async () => {
    try {
      await bringAll();
    } catch {
      return false;
    }
    return true;
  };

  const takeOver = async () => {
    const whole = await isWhole();
    if (whole) self.skipWaiting();
    return whole;
  };

  // What another app shared, until a page asks for it: files, or why there are none.
  let shared = null;

  const giveShared = (to) => {
    if (shared) to.postMessage({ shared });
    shared = null;
  };

  // What pages ask. Each is answered, where they give a port, with whether the
  // version is whole; "who?" at once, without that.
  const asks = { "who?": async () => null, "whole?": isWhole, "take over": takeOver, mend, "runs": async () => (await clean(), true) };

  self.addEventListener("message", (event) => {
    if (event.data === "what was shared") giveShared(event.source);
    const asked = Object.hasOwn(asks, event.data) ? asks[event.data] : null;
    if (asked) event.waitUntil(asked().then((whole) => event.ports[0]?.postMessage({ version, whole })));
  });

  self.addEventListener("fetch", (event) => {
    const url = new URL(event.request.url);
    if (url.origin !== self.location.origin) return;
    if (event.request.method === "POST" && url.pathname === base + "share") event.respondWith(take(event.request));
    if (event.request.method === "GET") event.respondWith(answer(event.request, url));
  });

  // take keeps shared files in memory and shows the page: they go nowhere else.
  const take = async (request) => {
    try {
      const form = await request.formData();
      const found = form.getAll("files").filter((file) => file instanceof File && (file.size || file.name));
      shared = found.length ? { files: found } : { none: "What was shared holds no file. Share the plan or the chart as a file." };
    } catch {
      shared = { none: "What was shared is no file. Share the plan or the chart as a file." };
    }
    return Response.redirect(base, 303);
  };

  // kept gives a file of this version; one that has gone from the device is fetched
  // again, and given though there may be no room to keep it.
  const kept = async (name) => {
    const cache = await caches.open(cacheName);
    const there = await cache.match(addressOf(name));
    if (there) return there;
    const brought = await obtained(name);
    await cache.put(addressOf(name), brought.clone()).catch(() => {});
    return brought;
  };

  const answer = async (request, url) => {
    if (request.mode === "navigate" && (url.pathname === base || url.pathname === base + "index.html")) {
      return kept(page).catch(() => fetch(request)); // whatever version comes names its own files
    }
    const name = url.pathname.startsWith(base + folder) ? url.pathname.slice((base + folder).length) : "";
    if (Object.hasOwn(files, name)) return kept(name);
    return (await ofOther(url)) ?? fetch(request);
  };

  // ofOther gives a file to a page of another version that is still open.
  const ofOther = async (url) => {
    for (const other of await ourCaches()) {
      const found = await (await caches.open(other)).match(url.pathname);
      if (found) return found;
    }
    return null;
  };
}
