// The page's half of the offline worker: registers it, tells the app how things stand, carries the coach's consent to a new
// version. It shows nothing itself. How things stand is written to <html> and told by the event `peppertally-worker`:
//
//   data-offline   "pending" | "ready" (everything is kept on this device) | "failed"
//   data-update    absent | "waiting" (a new version is here) | "elsewhere" (another tab has switched to it: reload when idle)
//
// The app asks for a waiting version by dispatching `peppertally-activate-update` on window. It keeps data-run-on="yes" on
// <html> while a run is on; that is this page's answer when the worker asks whether it may switch.
const REGISTER_AT_LATEST_MS = 15_000;
const LOOK_AGAIN_AFTER_MS = 6 * 60 * 60 * 1000;

const page = document.documentElement;
const workers = navigator.serviceWorker;
let registration = null;
let updateAsked = false;
let startFailed = false;

function tell(more = {}) {
  const detail = { offline: page.dataset.offline, update: page.dataset.update ?? null, ...more };
  window.dispatchEvent(new CustomEvent("peppertally-worker", { detail }));
}

function look() {
  const { active, waiting, installing } = registration;
  if (active?.state === "activated") page.dataset.offline = "ready";
  else page.dataset.offline = active || waiting || installing ? "pending" : "failed";
  if (waiting && active) {
    page.dataset.update = "waiting";
    // A version that cannot start cannot offer the one that may repair it.
    if (startFailed) askForUpdate();
  } else if (page.dataset.update === "waiting") delete page.dataset.update;
  tell();
}

function follow(worker) {
  worker?.addEventListener("statechange", look);
}

function askForUpdate() {
  // Another tab has switched already: this one only has to begin again.
  if (page.dataset.update === "elsewhere") return location.reload();
  if (updateAsked || !registration?.waiting) return;
  updateAsked = true;
  registration.waiting.postMessage({ kind: "activate-update" });
}

function onMessage(event) {
  if (event.data?.kind === "run-on?") event.ports[0].postMessage(page.dataset.runOn === "yes");
  if (event.data?.kind === "update-refused") {
    updateAsked = false;
    tell({ refused: true });
  }
}

function watchController() {
  let controlled = workers.controller !== null;
  workers.addEventListener("controllerchange", () => {
    if (updateAsked) {
      updateAsked = false; // once: a second change must not reload again
      location.reload();
    } else if (controlled) {
      page.dataset.update = "elsewhere";
      tell();
    }
    controlled = true; // the very first worker taking over is no update
  });
}

// An installed app may stay open for weeks without a navigation, at which the browser would look by itself.
function lookForUpdates() {
  let lookedAt = Date.now();
  document.addEventListener("visibilitychange", () => {
    const due = Date.now() - lookedAt > LOOK_AGAIN_AFTER_MS;
    if (document.visibilityState !== "visible" || !due || page.dataset.runOn === "yes") return;
    lookedAt = Date.now();
    registration.update().catch((error) => tell({ error: String(error) })); // no signal: the usual case in a gym
  });
}

// The first visit fetches everything twice: once to start, once to keep. Keeping waits until all of the app has come.
function appSettled() {
  return new Promise((resolve) => {
    window.addEventListener("peppertally-started", () => {
      startFailed = false; // its bulk may have come at the second try
      resolve();
    });
    window.addEventListener("peppertally-start-failed", () => {
      startFailed = true;
      if (registration) look();
      resolve();
    });
    // On later visits the files come from the device: nothing to wait for.
    setTimeout(resolve, workers.controller ? 0 : REGISTER_AT_LATEST_MS);
  });
}

async function keepOffline() {
  page.dataset.offline = "pending";
  watchController();
  workers.addEventListener("message", onMessage);
  workers.startMessages();
  window.addEventListener("peppertally-activate-update", askForUpdate);
  await appSettled();
  registration = await workers.register("sw.js", { scope: "./", updateViaCache: "none" });
  for (const worker of [registration.installing, registration.waiting, registration.active]) follow(worker);
  registration.addEventListener("updatefound", () => follow(registration.installing));
  look();
  lookForUpdates();
}

function failed(reason) {
  page.dataset.offline = "failed";
  tell({ error: reason });
}

if (!window.isSecureContext || !workers) failed("This address is not served over https, or the browser keeps no apps.");
else keepOffline().catch((error) => failed(String(error)));
