// Loads the worker's program that locks copies and opens locked ones. The page starts this script when one of them is wanted; whatever
// fails is told to it.
"use strict";

const died = (reason) => postMessage(["died", String(reason)]);
addEventListener("unhandledrejection", (event) => died(event.reason));

importScripts("worker-lock.js");
wasm_bindgen({ module_or_path: "worker-lock_bg.wasm" }).catch(died);
