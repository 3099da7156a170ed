// A worker that keeps the page, and asks elsewhere when told to.
const files = ["./", "page.css", "page.js"];
self.addEventListener("install", e => e.waitUntil(caches.open("harness").then(cache => cache.addAll(files)).then(() => self.skipWaiting())));
self.addEventListener("activate", e => e.waitUntil(self.clients.claim()));
self.addEventListener("fetch", e => e.respondWith(caches.match(e.request).then(hit => hit ?? fetch(e.request))));
self.addEventListener("message", e => { if (e.data === "leave") fetch("http://worker.invalid/x").catch(() => {}); });
