//! A press on a remote is a press on the board's key that it stands for. Heard before anything else on the page, for the page's life;
//! only on a board, and only for keys that were given a sense.

use leptos::prelude::*;
use web_sys::wasm_bindgen::JsCast;
use web_sys::wasm_bindgen::prelude::*;
use web_sys::{Event, HtmlElement, KeyboardEvent};

use super::shell::Shell;
use crate::app::remote::Remote;

/// To be called once, at the root.
pub fn presses(shell: Shell) {
    let remote = shell.view(|model| model.settings.remote.clone());
    let heard = Closure::<dyn Fn(Event)>::new(move |event: Event| {
        if let Some(press) = event.dyn_ref::<KeyboardEvent>() {
            // `None`: the root has gone, and with it every board.
            if let Some(remote) = remote.try_get_untracked() {
                hear(&remote, press);
            }
        }
    });
    let added = window().add_event_listener_with_callback_and_bool("keydown", heard.as_ref().unchecked_ref(), true);
    if let Err(why) = added {
        leptos::logging::warn!("a remote is not heard: {why:?}");
    }
    heard.forget(); // for the page's life
}

fn hear(remote: &Remote, press: &KeyboardEvent) {
    if press.ctrl_key() || press.alt_key() || press.meta_key() {
        return;
    }
    let mut known = false;
    for stands in remote.senses(&press.key()) {
        let Some(key) = on_board(&format!("[data-key='{}']", stands.id())) else { continue };
        known = true;
        if press.repeat() {
            continue;
        }
        // No pocket has a remote: a board that covered itself opens, and the ball counts. Under any other cover keys rest.
        match on_board("[data-key=uncover]") {
            Some(cover) => {
                cover.click();
                key.click();
            }
            None if key.closest("[inert]").is_ok_and(|inert| inert.is_none()) => key.click(),
            None => {}
        }
    }
    if known {
        // Else the key that has the focus would answer too.
        press.prevent_default();
        press.stop_propagation();
    }
}

/// Not at a station: there the children's thumbs alone count.
fn on_board(key: &str) -> Option<HtmlElement> {
    let found = document().query_selector(&format!("[data-screen=run] {key}"));
    let key = found.ok().flatten()?.dyn_into::<HtmlElement>().ok()?;
    key.closest(".station").is_ok_and(|station| station.is_none()).then_some(key)
}
