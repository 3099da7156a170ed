//! A key: answers once to a thumb, once to a keyboard, and is seen to answer in the next frame. Knows no action.
//!
//! Two thumbs at once lose `click`s and lose no `pointerdown`, so a thumb is heard there. A `click` whose `detail` is 0 comes
//! from a keyboard or an assistive tool and is heard too; every other click follows a touch that was heard already.

use std::cell::Cell;
use std::rc::Rc;

use leptos::ev::{KeyboardEvent, MouseEvent, PointerEvent};
use leptos::prelude::*;

use super::Press;
use crate::ui::markup::view;

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
pub fn Key(
    /// `data-key`, by which tests and a keyboard know it.
    #[prop(into)]
    key: String,
    #[prop(into)] press: Press,
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
    let hit = RwSignal::new(None::<Hit>);
    let act = Rc::new(move || {
        if !off.get_untracked() {
            // First what is seen, then what it means: the action may end this key.
            mark(hit);
            press.call();
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
            data-n=move || hit.get().map(Hit::word)
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

/// Of the key that was touched last: by turns one and the other, so that the next touch of the same key is seen too.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Hit {
    Odd,
    Even,
}

impl Hit {
    const fn word(self) -> &'static str {
        match self {
            Self::Odd => "a",
            Self::Even => "b",
        }
    }
}

thread_local! {
    /// The key that bears the mark. It may be gone with its screen.
    static LAST: Cell<Option<RwSignal<Option<Hit>>>> = const { Cell::new(None) };
}

/// What was touched last isn't there any more: another child stands under the same key, say.
pub fn unmark() {
    if let Some(last) = LAST.take() {
        last.try_set(None);
    }
}

/// Moves the mark here, in one step: a fading one made two thirds of what a tap costs.
fn mark(hit: RwSignal<Option<Hit>>) {
    if let Some(last) = LAST.replace(Some(hit)).filter(|last| *last != hit) {
        // `Some` comes back from a key that is gone, and no mark is left there.
        last.try_set(None);
    }
    hit.update(|hit| *hit = Some(if *hit == Some(Hit::Odd) { Hit::Even } else { Hit::Odd }));
}
