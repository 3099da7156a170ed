//! A key: answers once to a thumb, once to a keyboard, and is seen to answer in the next frame. Knows no action.
//!
//! Two thumbs at once lose `click`s and lose no `pointerdown`, so a thumb is heard there. A `click` whose `detail` is 0 comes
//! from a keyboard or an assistive tool and is heard too; every other click follows a touch that was heard already.

use std::cell::Cell;
use std::rc::Rc;

use leptos::ev::{KeyboardEvent, MouseEvent, PointerEvent};
use leptos::prelude::*;

/// How far a thumb may slide and still mean the key, in CSS px.
const SLIP: i32 = 12;

/// When a key answers a pointer.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Answer {
    /// At the touch: where nothing scrolls.
    #[default]
    Down,
    /// When the thumb leaves again at the same place: where the same touch may be the start of a scroll.
    Up,
}

#[component]
pub fn Key<F: Fn() + 'static>(
    /// `data-key`, by which tests and a keyboard know it.
    #[prop(into)]
    key: String,
    press: F,
    #[prop(into, optional)] class: Signal<String>,
    #[prop(optional)] answer: Answer,
    /// It keeps its place and doesn't answer.
    #[prop(into, optional)]
    off: Signal<bool>,
    /// For those who can't see what is on it; else its text is read.
    #[prop(into, optional)]
    label: MaybeProp<String>,
    /// `aria-pressed`, where a key stays chosen.
    #[prop(into, optional)]
    chosen: MaybeProp<bool>,
    /// `aria-current`: the one of its row that is on.
    #[prop(into, optional)]
    current: MaybeProp<&'static str>,
    children: Children,
) -> impl IntoView {
    let hit = RwSignal::new(0_u32);
    let act = Rc::new(move || {
        if !off.get_untracked() {
            // First what is seen, then what it means: the action may end this key.
            hit.update(|n| *n = n.wrapping_add(1));
            press();
        }
    });
    let start: Rc<Cell<Option<(i32, i32, i32)>>> = Rc::default();

    let down = {
        let (act, start) = (Rc::clone(&act), Rc::clone(&start));
        move |ev: PointerEvent| match answer {
            _ if ev.button() != 0 => {}
            Answer::Down => act(),
            Answer::Up => start.set(Some((ev.pointer_id(), ev.client_x(), ev.client_y()))),
        }
    };
    let up = {
        let (act, start) = (Rc::clone(&act), Rc::clone(&start));
        move |ev: PointerEvent| {
            let Some((pointer, x, y)) = start.take() else { return };
            let near = (ev.client_x() - x).abs() <= SLIP && (ev.client_y() - y).abs() <= SLIP;
            if pointer == ev.pointer_id() && near {
                act();
            }
        }
    };
    let cancel = move |_: PointerEvent| start.set(None);
    // A key of a keyboard that is held says itself again and again, and each would be a click.
    let again = move |ev: KeyboardEvent| {
        if ev.repeat() && matches!(ev.key().as_str(), "Enter" | " ") {
            ev.prevent_default();
        }
    };
    let click = move |ev: MouseEvent| {
        if ev.detail() == 0 {
            act();
        }
    };

    view! {
        <button
            type="button"
            class=move || class.get()
            data-key=key
            data-n=move || mark(hit.get())
            aria-label=move || label.get()
            aria-pressed=move || chosen.get().map(|on| if on { "true" } else { "false" })
            aria-current=move || current.get()
            aria-disabled=move || off.get().then_some("true")
            on:pointerdown=down
            on:pointerup=up
            on:pointercancel=cancel
            on:keydown=again
            on:click=click
        >
            {children()}
        </button>
    }
}

/// Two names in turn, so that the same flash starts anew at every touch.
const fn mark(n_hits: u32) -> Option<&'static str> {
    match n_hits {
        0 => None,
        n if n % 2 == 1 => Some("a"),
        _ => Some("b"),
    }
}
