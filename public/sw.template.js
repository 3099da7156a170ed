// Keeps the whole app on the device, one build at a time. `cargo xtask precache` fills in the build and its files.
//
// Rules it lives by: a build is kept whole or not at all; a new build waits until a person wants it and no tab has a run on;
// what other apps keep on the same origin is never touched.
"use strict";

const BUILD = "__BUILD__";
const FILES = new Map(__FILES__); // path → SHA-256 of its content, in hex

const SCOPE = new URL(self.registration.scope);
// The scope's path is part of the name, so that two copies of the app on one host keep apart.
const PREFIX = "peppertally-";
const CACHE = `${PREFIX}${BUILD}${SCOPE.pathname}`;
const ANSWER_WITHIN_MS = 2000;
// What other apps share with this one waits here until a page takes it out (`src/platform/ways_in.rs`). No build's cache.
const RECEIVED = `received by peppertally${SCOPE.pathname}`;
const RECEIVE = new URL("receive", SCOPE); // as the manifest has it
const MOST_BYTES = 100_000_000; // more than that is looked at by nobody

self.addEventListener("install", (event) => event.waitUntil(keepBuild()));
self.addEventListener("activate", (event) => event.waitUntil(takeOver()));
self.addEventListener("fetch", onFetch);
self.addEventListener("message", (event) => {
  if (event.data?.kind === "activate-update") event.waitUntil(activateUnlessRunOn(event.source));
});

// --- keeping a build ---

async function keepBuild() {
  await caches.delete(CACHE); // what is left of an attempt that was cut off; also makes this the newest (see dropOldBuilds)
  try {
    const cache = await caches.open(CACHE);
    await Promise.all([...FILES].map(([path, hash]) => keepFile(cache, path, hash)));
  } catch (error) {
    await caches.delete(CACHE); // half a build is worse than none
    throw error;
  }
}

async function keepFile(cache, path, hash) {
  // Some hosts redirect index.html to the folder; the folder itself works on all of them.
  const address = new URL(path === "index.html" ? "./" : path, SCOPE);
  // "reload" passes by the browser's own cache, which may hold the same name from an older build.
  const response = await fetch(address, { cache: "reload", credentials: "same-origin" });
  if (!response.ok) throw new Error(`${path}: the host answered ${response.status}.`);
  const content = await response.arrayBuffer();
  // In the middle of a deployment the host may mix two builds.
  if ((await sha256(content)) !== hash) throw new Error(`${path}: the content is not that of build ${BUILD}.`);
  // Made anew, because a redirected response may not answer a navigation.
  const type = response.headers.get("content-type") ?? "application/octet-stream";
  await cache.put(new URL(path, SCOPE), new Response(content, { headers: { "content-type": type } }));
}

async function sha256(content) {
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", content));
  return Array.from(digest, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

// --- answering from what is kept ---

function onFetch(event) {
  const { request } = event;
  const address = new URL(request.url);
  if (request.method === "POST" && address.href === RECEIVE.href) return event.respondWith(receive(request));
  if (request.method !== "GET" || address.origin !== SCOPE.origin || !address.pathname.startsWith(SCOPE.pathname)) return;
  const path = address.pathname.slice(SCOPE.pathname.length) || "index.html";
  if (request.mode === "navigate") event.waitUntil(dropOldBuilds(0));
  if (FILES.has(path)) event.respondWith(fromCache(path, request));
  else if (request.mode === "navigate") event.respondWith(fetch(request).catch(() => Response.redirect(SCOPE.href)));
  else event.respondWith(fromOldBuild(address, request));
}

async function fromCache(path, request) {
  const cache = await caches.open(CACHE);
  const kept = await cache.match(new URL(path, SCOPE));
  return kept ?? fetch(request); // the browser may have cleared it
}

// A tab that still runs the former build may want one of its files.
async function fromOldBuild(address, request) {
  for (const name of await buildsOfThisScope()) {
    const kept = await (await caches.open(name)).match(address, { ignoreSearch: true });
    if (kept) return kept;
  }
  return fetch(request);
}

// --- a file that is shared with the app ---

// It goes nowhere but into this phone's own store, and from there to the screen that asks before anything is taken in.
async function receive(request) {
  try {
    const files = (await request.formData()).getAll("copy").filter((part) => part instanceof File);
    if (files.length > 0) await keepReceived(files[0], files.length - 1);
    return Response.redirect(new URL("./#share", SCOPE), 303);
  } catch (error) {
    console.warn("What was shared could not be kept.", error);
    return Response.redirect(new URL("./?not-kept#share", SCOPE), 303);
  }
}

async function keepReceived(file, nOthers) {
  const headers = { "x-name": encodeURIComponent(file.name), "x-size": file.size, "x-others": nOthers };
  const cache = await caches.open(RECEIVED);
  // One at a time: the last takes the place of one that nobody has looked at.
  await cache.put(RECEIVE, new Response(file.size > MOST_BYTES ? "" : file, { headers }));
}

// --- changing builds ---

async function takeOver() {
  await dropOldBuilds(1); // the page that asked is about to load again
  await self.clients.claim(); // so that the first visit is served offline too
}

// With more pages open than these, one of them may still run the former build and want its files: the next cold start tries
// again. Only builds kept before this one are old; a build that is being kept or waits comes after it.
async function dropOldBuilds(nPagesAllowed) {
  if (self.registration.installing || self.registration.waiting) return;
  if ((await openPages()).length > nPagesAllowed) return;
  const builds = await buildsOfThisScope(); // in the order in which they were made
  for (const name of builds.slice(0, Math.max(0, builds.indexOf(CACHE)))) await caches.delete(name);
}

async function buildsOfThisScope() {
  const names = await caches.keys();
  return names.filter((name) => name.startsWith(PREFIX) && name.slice(name.indexOf("/")) === SCOPE.pathname);
}

async function openPages() {
  const pages = await self.clients.matchAll({ type: "window", includeUncontrolled: true });
  return pages.filter((page) => page.url.startsWith(SCOPE.href));
}

async function activateUnlessRunOn(asker) {
  const answers = await Promise.all((await openPages()).map(isRunOn));
  if (answers.includes(true)) asker.postMessage({ kind: "update-refused" });
  else await self.skipWaiting();
}

// No answer counts as a run: a page that a phone has frozen may be in the middle of one.
function isRunOn(page) {
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = (event) => resolve(event.data !== false);
    setTimeout(() => resolve(true), ANSWER_WITHIN_MS);
    page.postMessage({ kind: "run-on?" }, [port2]);
  });
}
