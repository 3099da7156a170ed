// What a tap costs at the least: one figure, the same record as the app's, kept in the same two places in the same way.
"use strict";

const series = "00000000000000af";
const fig = (name) => document.querySelector(`[data-fig="${name}"]`);
let n = 0;

const opening = indexedDB.open("bare", 1);
opening.onupgradeneeded = () => opening.result.createObjectStore("entries");
opening.onsuccess = () => {
  const database = opening.result;
  document.querySelector("button").addEventListener("pointerdown", () => {
    n += 1;
    fig("of").textContent = n;
    fig("saved").textContent = "saving";
    const id = `${series}.${n.toString(16).padStart(8, "0")}`;
    const record = JSON.stringify({
      v: 1, id, c: n, w: Date.now(), o: -new Date().getTimezoneOffset(), m: Math.round(performance.now()), k: "contact-noted",
      run: `${series}.00000001`, player: `${series}.00000002`, role: "passer", place: 1, outcome: "stood", good_from: "moved",
      feed: "easy", step: 0,
    });
    localStorage.setItem(`bare/unsaved/${id}`, record);
    const transaction = database.transaction("entries", "readwrite", { durability: "strict" });
    transaction.objectStore("entries").put(record, id);
    transaction.commit();
    transaction.oncomplete = () => {
      localStorage.removeItem(`bare/unsaved/${id}`);
      fig("saved").textContent = "saved";
    };
  });
  document.documentElement.dataset.ready = "";
};
