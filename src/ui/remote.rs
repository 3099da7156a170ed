//! A press on a remote is a press on the board's key that it stands for. Heard before anything else on the page, for the page's life;
//! only on a board, and only for keys that were given a sense.

use std::cell::Cell;

use leptos::prelude::*;
use web_sys::wasm_bindgen::JsCast;
use web_sys::wasm_bindgen::prelude::*;
use web_sys::{Event, HtmlElement, KeyboardEvent};

use super::shell::Shell;
use crate::app::remote::Remote;

/// To be called once, at the root.
pub fn presses(shell: Shell) {
    let remote = shell.view(|model| model.settings.remote.clone());
    let did = Cell::new(false);
    let heard = Closure::<dyn Fn(Event)>::new(move |event: Event| {
        if let Some(press) = event.dyn_ref::<KeyboardEvent>() {
            // `None`: the root has gone, and with it every board.
            if let Some(remote) = remote.try_get_untracked() {
                // A key held goes on as it began, whatever has come on the screen meanwhile.
                did.set(if press.repeat() { did.get() } else { hear(&remote, press) });
                if did.get() {
                    // Else the key that has the focus would answer too.
                    press.prevent_default();
                    press.stop_propagation();
                }
            }
        }
    });
    let added = window().add_event_listener_with_callback_and_bool("keydown", heard.as_ref().unchecked_ref(), true);
    if let Err(why) = added {
        leptos::logging::warn!("a remote is not heard: {why:?}");
    }
    heard.forget(); // for the page's life
}

/// Under a cover; and what a match lays out unseen until it is due.
const RESTS: &str = "[inert], .game-notes > :not(.is-due)";

const WAY_OUT: &str = ".cover-ways button:focus:not([data-key=uncover])";

/// Whether it was a press of a key of the board; else it is the browser's.
fn hear(remote: &Remote, press: &KeyboardEvent) -> bool {
    if press.ctrl_key() || press.alt_key() || press.meta_key() {
        return false;
    }
    // Whoever has gone to a way out of a cover means that one: undo still answers there, and would have these.
    if matches!(press.key().as_str(), "Enter" | " ") && on_board(WAY_OUT).is_some() {
        return false;
    }
    // Whoever types a note means letters.
    if on_board("textarea:focus").is_some() {
        return false;
    }
    let mut did = false;
    for stands in remote.senses(&press.key()) {
        let Some(key) = on_board(&format!("[data-key='{}']", stands.id())) else { continue };
        // No pocket has a remote: a board that covered itself opens, and the ball counts. Under any other cover keys rest.
        if let Some(cover) = on_board("[data-key=uncover]") {
            cover.click();
        } else if is_in(&key, RESTS) {
            continue;
        }
        key.click();
        did = true;
    }
    did
}

/// Not at a station: there the children's thumbs alone count.
fn on_board(key: &str) -> Option<HtmlElement> {
    let found = document().query_selector(&format!("[data-screen=run] {key}"));
    let found = found.unwrap_or_else(|why| {
        leptos::logging::warn!("a remote's key is not looked for: {why:?}");
        None
    });
    // Whatever else bore such a name couldn't be clicked, and is no key.
    let key = found?.dyn_into::<HtmlElement>().ok()?;
    (!is_in(&key, ".station")).then_some(key)
}

fn is_in(key: &HtmlElement, what: &str) -> bool {
    key.closest(what).map_or_else(
        |why| {
            leptos::logging::warn!("where a remote's key stands is not known: {why:?}");
            // Then it rests.
            true
        },
        |found| found.is_some(),
    )
}
