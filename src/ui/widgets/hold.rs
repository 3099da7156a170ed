//! A key that must be held: a pocket brushes, a thumb stays. With a keyboard a press is enough, since no pocket has one.

use std::rc::Rc;
use std::time::Duration;

use leptos::ev::{MouseEvent, PointerEvent};
use leptos::leptos_dom::helpers::TimeoutHandle;
use leptos::prelude::*;

/// How long it is held; `--hold` in board.css shows the same time.
pub const HOLD: Duration = Duration::from_millis(600);

#[component]
pub fn HoldKey<F: Fn() + 'static>(
    #[prop(into)] key: String,
    held: F,
    #[prop(into)] class: &'static str,
    children: Children,
) -> impl IntoView {
    let holding = RwSignal::new(false);
    // Outlives the key, because the end of its time may come after the cover has gone.
    let timer: ArcRwSignal<Option<TimeoutHandle>> = ArcRwSignal::new(None);
    let held = Rc::new(held);

    let down = {
        let (held, timer) = (Rc::clone(&held), timer.clone());
        move |ev: PointerEvent| {
            if ev.button() != 0 {
                return;
            }
            stop(&timer);
            holding.set(true);
            let (then, timer_then) = (Rc::clone(&held), timer.clone());
            let done = move || {
                timer_then.set(None);
                then();
            };
            match set_timeout_with_handle(done, HOLD) {
                Ok(handle) => timer.set(Some(handle)),
                // A browser that can't time the press uncovers at once: a board that stays covered would be worse.
                Err(_) => held(),
            }
        }
    };
    let leave = {
        let timer = timer.clone();
        move |_: PointerEvent| {
            stop(&timer);
            holding.set(false);
        }
    };
    let click = move |ev: MouseEvent| {
        if ev.detail() == 0 {
            held();
        }
    };
    on_cleanup(move || stop(&timer));

    view! {
        <button
            type="button"
            class=class
            class:is-held=move || holding.get()
            data-key=key
            on:pointerdown=down
            on:pointerup=leave.clone()
            on:pointerleave=leave.clone()
            on:pointercancel=leave
            on:contextmenu=|ev| ev.prevent_default()
            on:click=click
        >
            {children()}
        </button>
    }
}

fn stop(timer: &ArcRwSignal<Option<TimeoutHandle>>) {
    if let Some(handle) = timer.try_update(Option::take).flatten() {
        handle.clear();
    }
}
