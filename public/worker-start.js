// Loads the worker's program. The page starts this script when the first large task is there; whatever fails is told to it.
"use strict";

const died = (reason) => postMessage(["died", String(reason)]);
addEventListener("unhandledrejection", (event) => died(event.reason));

importScripts("worker.js");
wasm_bindgen({ module_or_path: "worker_bg.wasm" }).catch(died);
