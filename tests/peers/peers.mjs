// Two logs of 100,000 contacts of invented practices, the same records by Peppertally's own code (as WebAssembly) and by two general
// libraries for data that many devices write: united, written, read again. In one run, by turns, so that what is printed is a ratio.
// A row is one text for the peers: the quickest and smallest way that both have.
//
//     node peers.mjs PROGRAM.wasm FOLDER-OF-YJS FOLDER-OF-AUTOMERGE [CONTACTS]
import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { gzipSync } from "node:zlib";

const [program, yjsHome, automergeHome, contacts = "100000"] = process.argv.slice(2);
const Y = createRequire(`${yjsHome}/`)("yjs");
const A = createRequire(`${automergeHome}/`)("@automerge/automerge");
const { instance } = await WebAssembly.instantiate(await readFile(program), {});
const ours = instance.exports;
const ROUNDS = 5;

const n = [0, 1].map((which) => ours.invent(which, Number(contacts)));
const held = (length) => new Uint8Array(ours.memory.buffer, ours.bytes(), length).slice();
const rows = [0, 1].map((which) => JSON.parse(new TextDecoder().decode(held(ours.rows(which)))));

const yDoc = (all) => {
  const doc = new Y.Doc();
  doc.getArray("entries").push(all);
  return doc;
};
const yBytes = rows.map((all) => Y.encodeStateAsUpdateV2(yDoc(all)));
const aBytes = rows.map((all) => A.save(A.from({ entries: all })));
const yLoad = (bytes) => {
  const doc = new Y.Doc();
  Y.applyUpdateV2(doc, bytes);
  return doc;
};

const median = (all) => all.sort((a, b) => a - b)[all.length >> 1];
const timed = (what) => {
  const start = performance.now();
  const gives = what();
  return [performance.now() - start, gives];
};
const must = (is, wanted, what) => {
  if (is !== wanted) throw new Error(`${what}: ${is}, not ${wanted}`);
};

const took = { union: [[], [], []], load: [[], [], []] };
for (let round = 0; round < ROUNDS; round++) {
  ours.ready();
  let [ms, count] = timed(() => ours.unite());
  must(count, n[0] + n[1], "united, ours");
  took.union[0].push(ms);

  const [y0, y1] = yBytes.map(yLoad);
  [ms] = timed(() => Y.applyUpdateV2(y0, Y.encodeStateAsUpdateV2(y1, Y.encodeStateVector(y0))));
  must(y0.getArray("entries").length, n[0] + n[1], "united, Yjs");
  took.union[1].push(ms);

  // Lists of two documents without a common past don't unite there: the second one's rows are a change on a copy of the first.
  const first = A.load(aBytes[0]);
  const other = A.change(A.clone(A.init()), (doc) => void (doc.second = rows[1]));
  [ms] = timed(() => A.merge(first, other));
  took.union[2].push(ms);

  const length = ours.copy(0);
  const copy = held(length);
  [ms, count] = timed(() => ours.load());
  must(count, n[0], "loaded, ours");
  took.load[0].push(ms);
  took.load[1].push(timed(() => yLoad(yBytes[0]).getArray("entries").length)[0]);
  took.load[2].push(timed(() => A.load(aBytes[0]).entries.length)[0]);
  if (round === 0) {
    const sizes = [copy, yBytes[0], aBytes[0]].map((bytes) => gzipSync(bytes, { level: 9 }).length / Number(contacts));
    console.log(`  a contact, gzipped: ${sizes.map((size) => size.toFixed(2)).join(", ")} bytes (ours, Yjs, Automerge)`);
    aim("bytes, ours to the smaller of the two", sizes[0] / Math.min(sizes[1], sizes[2]), 0.5);
  }
}
for (const [what, times] of Object.entries(took)) {
  const [own, ...peers] = times.map(median);
  const [yjs, automerge] = peers.map((ms) => own / ms);
  console.log(`  ${what}: ${yjs.toFixed(3)} of Yjs' time, ${automerge.toFixed(3)} of Automerge's (ours ${own.toFixed(0)} ms here)`);
  if (what === "union") aim("union, ours to the quicker of the two", Math.max(yjs, automerge), 0.2);
}

function aim(what, is, most) {
  console.log(`  aim: ${what} ${is.toFixed(2)}, at most ${most}: ${is <= most ? "met" : "missed"}`);
}
