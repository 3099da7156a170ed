//! A key that must be held: a pocket brushes, a thumb stays. With a keyboard a press is enough, since no pocket has one.

use std::time::Duration;

use leptos::ev::{MouseEvent, PointerEvent};
use leptos::leptos_dom::helpers::TimeoutHandle;
use leptos::prelude::*;

use super::Press;
use crate::ui::markup::view;

/// How long it is held; `--hold` in board.css shows the same time.
pub const HOLD: Duration = Duration::from_millis(600);

#[component]
pub fn HoldKey(
    #[prop(into)] key: String,
    #[prop(into)] held: Press,
    #[prop(into)] class: &'static str,
    /// How long, where a child's lean must not be enough.
    #[prop(default = HOLD)]
    long: Duration,
    /// For those who can't see what is on it; else its text is read.
    #[prop(optional)]
    label: Option<&'static str>,
    children: Children,
) -> impl IntoView {
    let holding = RwSignal::new(false);
    // Outlives the key, because the end of its time may come after the cover has gone.
    let timer: ArcRwSignal<Option<TimeoutHandle>> = ArcRwSignal::new(None);

    let down = {
        let (held, timer) = (held.clone(), timer.clone());
        move |ev: PointerEvent| {
            if ev.button() != 0 {
                return;
            }
            stop(&timer);
            holding.set(true);
            let (then, timer_then) = (held.clone(), timer.clone());
            let done = move || {
                timer_then.set(None);
                then.call();
            };
            match set_timeout_with_handle(done, long) {
                Ok(handle) => timer.set(Some(handle)),
                // A browser that can't time the press uncovers at once: a board that stays covered would be worse.
                Err(_) => held.call(),
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
            held.call();
        }
    };
    on_cleanup(move || stop(&timer));

    view! {
        <button
            type="button"
            class=class
            class:is-held=move || holding.get()
            data-key=key
            aria-label=label
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
