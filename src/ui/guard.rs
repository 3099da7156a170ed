//! A thumb acts once. A key that answers to the touch may bring another screen; the click that the browser makes when the thumb
//! leaves would then hit whatever lies there by now (a drill's row, say). Such clicks are stopped here, for the page's life.

use std::cell::Cell;
use std::rc::Rc;

use leptos::prelude::*;
use web_sys::wasm_bindgen::prelude::*;
use web_sys::{Event, MouseEvent};

use crate::app::screen::Screen;
use crate::ui::part::Part;

/// To be called once, at the root.
pub fn clicks_of_another_screen(screen: Part<Screen>) {
    let touched: Rc<Cell<Option<Screen>>> = Rc::default();
    let at_touch = touched.clone();
    listen("pointerdown", move |_| at_touch.set(screen.try_get_untracked()));
    listen("click", move |event| {
        // Without a touch before it (a keyboard, a reader of screens) it is meant as it comes.
        let by_touch = event.dyn_ref::<MouseEvent>().is_some_and(|click| click.detail() != 0);
        if by_touch && touched.get().is_some() && touched.get() != screen.try_get_untracked() {
            event.stop_propagation();
            event.prevent_default();
        }
    });
}

/// Before any other listener hears of it.
fn listen(name: &str, heard: impl Fn(Event) + 'static) {
    let heard = Closure::<dyn Fn(Event)>::new(heard);
    let added = window().add_event_listener_with_callback_and_bool(name, heard.as_ref().unchecked_ref(), true);
    if let Err(why) = added {
        leptos::logging::warn!("clicks are not watched: {why:?}");
    }
    heard.forget(); // for the page's life
}
