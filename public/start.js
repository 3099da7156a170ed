// Loads the app. Trunk would do this in an inline script, which the content security policy forbids, so the two addresses
// come as attributes of this script's own tag.
const { js, wasm } = document.getElementById("start").dataset;

try {
  const app = await import(new URL(js, document.baseURI).href);
  await app.default({ module_or_path: new URL(wasm, document.baseURI) });
  window.dispatchEvent(new CustomEvent("peppertally-started"));
} catch (error) {
  console.error("Peppertally could not start.", error);
  window.dispatchEvent(new CustomEvent("peppertally-start-failed"));
}
