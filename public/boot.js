// The starting screen: says in one plain sentence how the start is going. The sentences stand in index.html.
//
// A plain script in old grammar, on purpose: a browser too old for modules must still be able to run it and say so. It
// stands in the head, before anything else is fetched, so that it hears of a file that does not arrive.
(function () {
  "use strict";

  var SLOW_AFTER_MS = 8000;
  var shown = "starting";

  function show(which) {
    var boot = document.getElementById("boot");
    if (!boot) return; // the app stands already
    shown = which;
    var sentences = boot.querySelectorAll("[data-boot]");
    for (var i = 0; i < sentences.length; i++) {
      sentences[i].hidden = sentences[i].getAttribute("data-boot") !== which;
    }
    boot.querySelector("[data-boot-again]").hidden = which !== "failed";
  }

  // The page may still be without a body when something fails.
  function showWhenRead(which) {
    if (document.readyState !== "loading") show(which);
    else document.addEventListener("DOMContentLoaded", function () { show(which); });
  }

  var newEnough = "noModule" in HTMLScriptElement.prototype && typeof WebAssembly === "object" && "indexedDB" in window;
  if (!newEnough) {
    showWhenRead("old");
    return;
  }

  // start.js reports a start that failed; a script that never arrives reports itself. That event does not bubble, so it is
  // caught on the way down. It is passed on, because offline.js may have a newer version waiting that repairs it.
  window.addEventListener("peppertally-start-failed", function () { showWhenRead("failed"); });
  window.addEventListener("error", function (event) {
    if (event.target && event.target.id === "start") {
      window.dispatchEvent(new CustomEvent("peppertally-start-failed"));
    }
  }, true);

  setTimeout(function () { if (shown === "starting") showWhenRead("slow"); }, SLOW_AFTER_MS);
})();
