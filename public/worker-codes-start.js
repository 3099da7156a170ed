// Loads the program of the worker of codes. The page starts this script when a copy is first shown to another phone or read from one;
// whatever fails is told to it.
"use strict";

const died = (reason) => postMessage(["died", String(reason)]);
addEventListener("unhandledrejection", (event) => died(event.reason));

importScripts("worker-codes.js");
wasm_bindgen({ module_or_path: "worker-codes_bg.wasm" }).catch(died);
