// Taps in the app beside it, without a driver, and tells the harness's server what the app shows: once what is there when it starts,
// then each time how many it calls saved. Served beside the app by the harness alone, so it is of the app's own origin.
"use strict";

const SQUAD = "7 Mira\nTove\nOdile\nBram\nIva\nLasse";
const frame = document.querySelector("iframe");
const at = css => frame.contentDocument?.querySelector(css);
const said = fig => at(`[data-fig=${fig}]`)?.innerText.trim() ?? "";
const counted = () => Number(/^good of (\d+)$/.exec(said("of"))?.[1] ?? Number.NaN);
const tell = what => fetch(`told?${what}`, { method: "POST" });
const pause = ms => new Promise(done => setTimeout(done, ms));

async function until(look) {
  for (;;) {
    const found = look();
    if (found) return found;
    await pause(5);
  }
}

function tap(key) {
  const { x, y, width, height } = key.getBoundingClientRect();
  const { PointerEvent, MouseEvent } = frame.contentWindow;
  const spot = { bubbles: true, cancelable: true, composed: true, clientX: x + width / 2, clientY: y + height / 2, button: 0 };
  const finger = { ...spot, pointerId: 5, pointerType: "touch", isPrimary: true };
  key.dispatchEvent(new PointerEvent("pointerdown", { ...finger, buttons: 1 }));
  key.dispatchEvent(new PointerEvent("pointerup", finger));
  key.dispatchEvent(new MouseEvent("click", spot));
}

const usable = css => {
  const key = at(css);
  return key && !key.closest(":disabled, [aria-disabled=true], [inert]") && key.checkVisibility() ? key : null;
};
const press = async css => tap(await until(() => usable(css)));

async function begin() {
  await press("[data-key=roster]");
  const field = await until(() => at("[data-screen=roster] textarea"));
  Object.getOwnPropertyDescriptor(frame.contentWindow.HTMLTextAreaElement.prototype, "value").set.call(field, SQUAD);
  field.dispatchEvent(new frame.contentWindow.Event("input", { bubbles: true }));
  await press("[data-key=roster-take]");
  await press('[data-key="drill.0"]');
}

async function play() {
  frame.src = "./";
  await until(() => at("main[data-screen]"));
  const begins = await until(() => (at("[data-screen=run] .run-court") ? "again" : usable("[data-key=roster]") ? "new" : ""));
  if (begins === "new") await begin();
  await until(() => usable('[data-key="pass.1.2"]') && !Number.isNaN(counted()));
  await tell(`there=${counted()}`);
  let shown = -1;
  // What is shown is looked at far more often than it is tapped, and nothing waits for the telling.
  setInterval(() => {
    if (said("saved") !== "saved" || counted() === shown) return;
    shown = counted();
    tell(`saved=${shown}`);
  }, 2);
  // Where nothing is saved any more, the harness says what the page showed.
  setInterval(() => tell(`shows=${encodeURIComponent(`${said("of")}, ${said("saved")}`)}`), 5000);
  for (;;) {
    tap(at('[data-key="pass.1.2"]'));
    await pause(Math.random() * 80);
  }
}

play().catch(error => tell(`broken=${encodeURIComponent(error)}`));
