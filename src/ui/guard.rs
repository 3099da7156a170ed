//! A thumb acts once, and on the key that it came down on. Two things may happen between a touch and its click: a key that answers
//! to the touch itself brings another screen, or something above the key appears or goes (a sentence that was waited for) and the
//! key moves away from under the thumb. The click that the browser makes would then hit whatever lies there by now. Here the first
//! kind is stopped, and the second is given to the key that was touched. For the page's life.

use std::cell::RefCell;
use std::rc::Rc;

use leptos::prelude::*;
use web_sys::wasm_bindgen::prelude::*;
use web_sys::{Element, MouseEvent, MouseEventInit};

use crate::app::screen::Screen;
use crate::ui::part::Part;

/// What answers to a click. A field is not among them: it has the keyboard since the touch.
const KEY: &str = "button, a, label, summary";

/// How far a thumb may slide and still mean the key, in CSS px.
const SLIP: i32 = 12;

struct Touch {
    screen: Option<Screen>,
    key: Option<Element>,
    at: (i32, i32),
}

/// To be called once, at the root.
pub fn clicks_of_another_place(screen: Part<Screen>) {
    let last: Rc<RefCell<Option<Touch>>> = Rc::default();
    let at_touch = last.clone();
    let down = move |event: MouseEvent| {
        let touch = Touch { screen: screen.try_get_untracked(), key: key_of(&event), at: place(&event) };
        at_touch.replace(Some(touch));
    };
    let click = move |click: MouseEvent| {
        // Without a touch before it (a keyboard, a reader of screens) it is meant as it comes.
        if click.detail() == 0 {
            return;
        }
        let Some(touch) = last.take() else { return };
        let elsewhere = touch.screen != screen.try_get_untracked();
        let (x, y) = place(&click);
        let stays = (x - touch.at.0).abs() <= SLIP && (y - touch.at.1).abs() <= SLIP;
        let moved = stays && touch.key.is_some() && key_of(&click) != touch.key;
        if elsewhere || moved {
            click.stop_propagation();
            click.prevent_default();
        }
        if let (false, true, Some(key)) = (elsewhere, moved, touch.key) {
            give(&click, &key);
        }
    };
    listen("pointerdown", Box::new(down));
    listen("click", Box::new(click));
}

/// The same click, on the key that was meant. Nothing happens where that key is no more.
fn give(click: &MouseEvent, key: &Element) {
    let init = MouseEventInit::new();
    init.set_bubbles(true);
    init.set_cancelable(true);
    init.set_detail(click.detail());
    init.set_client_x(click.client_x());
    init.set_client_y(click.client_y());
    let given = MouseEvent::new_with_mouse_event_init_dict("click", &init).and_then(|click| key.dispatch_event(&click));
    if given.is_err() {
        leptos::logging::warn!("a click was not given on");
    }
}

fn place(event: &MouseEvent) -> (i32, i32) {
    (event.client_x(), event.client_y())
}

/// The key that an event fell on.
fn key_of(event: &MouseEvent) -> Option<Element> {
    let at: Element = event.target()?.dyn_into().ok()?;
    at.closest(KEY).ok()?
}

/// Before any other listener hears of it.
fn listen(name: &str, heard: Box<dyn Fn(MouseEvent)>) {
    let heard = Closure::wrap(heard);
    let added = window().add_event_listener_with_callback_and_bool(name, heard.as_ref().unchecked_ref(), true);
    if added.is_err() {
        leptos::logging::warn!("clicks are not watched");
    }
    heard.forget(); // for the page's life
}
