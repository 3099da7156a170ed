//! The last screen. When the app panics, its state may be half applied: this lays a plain page over it, made by the
//! browser's own calls alone, that says what is safe and offers to load the app again, and lets no tap and no key through
//! to what lies below.

use std::cell::Cell;
use wasm_bindgen::prelude::*;
use web_sys::{AddEventListenerOptions, Document, Element, Event, Node};

/// The sentences, given once at the start: after a panic nothing of the app is asked any more.
#[derive(Debug, Clone, Copy)]
pub struct PanicTexts {
    pub heading: &'static str,
    pub what_is_safe: &'static str,
    pub reload: &'static str,
}

/// The overlay's id, for the stylesheet.
const ID: &str = "panic";
/// All that a tap or a key can start. The first three are what the app listens to.
const STOPPED: [&str; 9] =
    ["pointerdown", "keydown", "click", "pointerup", "touchstart", "touchend", "mousedown", "keyup", "beforeinput"];

thread_local! {
    static PANICKED: Cell<bool> = const { Cell::new(false) };
}

/// Whether the app has panicked. From then on nothing may be acted upon or stored.
pub fn panicked() -> bool {
    PANICKED.get()
}

/// Sets the hook and the listeners. To be called first of all, so that these listeners come before any other.
pub fn install(texts: PanicTexts) -> Result<(), JsValue> {
    if let Some(window) = web_sys::window() {
        let options = AddEventListenerOptions::new();
        options.set_capture(true);
        options.set_passive(false);
        let stop = Closure::<dyn FnMut(Event)>::new(|event: Event| {
            if panicked() && !is_inside_overlay(&event) {
                event.stop_immediate_propagation();
                if event.cancelable() {
                    event.prevent_default();
                }
            }
        });
        for name in STOPPED {
            let stop = stop.as_ref().unchecked_ref();
            window.add_event_listener_with_callback_and_add_event_listener_options(name, stop, &options)?;
        }
        stop.forget(); // for the page's life
    }
    std::panic::set_hook(Box::new(move |panic| {
        let first = !PANICKED.replace(true);
        web_sys::console::error_1(&JsValue::from_str(&format!("Peppertally panicked. {panic}")));
        // A worker has no document; its page hears of the end in its own way.
        if first
            && let Some(document) = web_sys::window().and_then(|window| window.document())
            && let Err(thrown) = show(&document, texts)
        {
            web_sys::console::error_2(&"The panic could not be shown.".into(), &thrown);
        }
    }));
    Ok(())
}

fn show(document: &Document, texts: PanicTexts) -> Result<(), JsValue> {
    let body = document.body().ok_or("no body")?;
    // What lies below can't be reached by touch, keyboard or screen reader.
    let below = body.children();
    for i in 0..below.length() {
        if let Some(element) = below.item(i) {
            element.set_attribute("inert", "")?;
        }
    }
    let overlay = document.create_element("div")?;
    overlay.set_id(ID);
    overlay.set_attribute("role", "alertdialog")?;
    overlay.set_attribute("aria-modal", "true")?;
    overlay.set_attribute("aria-labelledby", "panic-heading")?;
    overlay.set_attribute("aria-describedby", "panic-safe")?;
    let heading = said(document, &overlay, "h1", texts.heading)?;
    heading.set_id("panic-heading");
    said(document, &overlay, "p", texts.what_is_safe)?.set_id("panic-safe");
    let button = said(document, &overlay, "button", texts.reload)?;
    button.set_attribute("type", "button")?;
    let reload = Closure::<dyn FnMut()>::new(|| {
        if let Some(Err(thrown)) = web_sys::window().map(|window| window.location().reload()) {
            web_sys::console::error_2(&"The page could not be loaded again.".into(), &thrown);
        }
    });
    button.add_event_listener_with_callback("click", reload.as_ref().unchecked_ref())?;
    reload.forget(); // for the page's life, which ends with it
    body.append_child(&overlay)?;
    button.dyn_ref::<web_sys::HtmlElement>().ok_or("no button")?.focus()
}

fn said(document: &Document, overlay: &Element, tag: &str, text: &str) -> Result<Element, JsValue> {
    let element = document.create_element(tag)?;
    element.set_text_content(Some(text));
    overlay.append_child(&element)?;
    Ok(element)
}

fn is_inside_overlay(event: &Event) -> bool {
    let target = event.target().and_then(|target| target.dyn_into::<Node>().ok());
    let overlay = web_sys::window().and_then(|window| window.document()).and_then(|page| page.get_element_by_id(ID));
    match (overlay, target) {
        (Some(overlay), Some(target)) => overlay.contains(Some(&target)),
        _ => false,
    }
}
