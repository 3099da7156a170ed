// Loads the app: what its first screen needs. The program fetches its bulk by itself, and tells
// by `peppertally-started` or `peppertally-start-failed` what became of that. The two addresses come as attributes of this
// script's own tag, because the build names their folder.
const { js, wasm } = document.getElementById("start").dataset;

try {
  const app = await import(new URL(js, document.baseURI).href);
  await app.default({ module_or_path: new URL(wasm, document.baseURI) });
} catch (error) {
  console.error("Peppertally could not start.", error);
  window.dispatchEvent(new CustomEvent("peppertally-start-failed"));
}
