//! The parts, one under another, each as high as it is long. A tap opens one; a thumb on its grip moves it.

use leptos::ev::PointerEvent;
use leptos::prelude::*;
use web_sys::Element;
use web_sys::wasm_bindgen::JsCast;

use super::tap;
use crate::app::plan::PlanTap;
use crate::app::view::plan::{PartRow, PartState, PlanView};
use crate::app::words::plan as words;
use crate::domain::ids::PartNo;
use crate::ui::markup::view;
use crate::ui::part::Part;
use crate::ui::shell::Shell;

/// The part under the thumb, the place it came from, and the one it is over.
type Carried = RwSignal<Option<(PartNo, usize, usize)>>;

#[component]
pub fn Timeline(view: Part<PlanView>, shell: Shell) -> impl IntoView {
    let parts = Part::new(move || view.with(|v| v.parts.clone()));
    let carried: Carried = RwSignal::new(None);
    let none = Part::new(move || parts.with(Vec::is_empty));
    view! {
        <ol class="plan-line" aria-label=words::PARTS>
            {move || none.get().then(|| view! { <li class="plan-none">{words::NO_PARTS}</li> })}
            {move || {
                parts.with(|parts| parts.iter().enumerate().map(|(i, row)| part(i, row, carried, shell)).collect::<Vec<_>>())
            }}
        </ol>
    }
}

fn part(i: usize, row: &PartRow, carried: Carried, shell: Shell) -> AnyView {
    let no = row.no;
    let state = match row.state {
        PartState::ToCome => "to-come",
        PartState::On => "on",
        PartState::Over => "over",
        PartState::Dropped => "dropped",
    };
    view! {
        <li
            class="plan-part"
            class:is-picked=row.picked
            class:is-carried=move || carried.get().is_some_and(|(c, ..)| c == no)
            class:is-before=move || carried.get().is_some_and(|(_, from, over)| over == i && i < from)
            class:is-behind=move || carried.get().is_some_and(|(_, from, over)| over == i && i > from)
            data-place=i.to_string()
            data-state=state
            data-height=row.height.to_string()
        >
            <span class="plan-at">{row.from.clone()}</span>
            {tracks(row.ball, row.net, row.game)}
            <button
                class="plan-body"
                type="button"
                data-key=format!("part.{i}")
                aria-expanded=row.picked.to_string()
                on:click=shell.sends(tap(PlanTap::Picked(no)))
            >
                <bdi class="plan-title" data-fig=format!("part.{i}")>{row.title.clone()}</bdi>
                <span class="plan-min">{row.minutes.clone()}</span>
                <span class="plan-what">{row.what.clone()}</span>
                {row.each.clone().map(|each| view! { <span class="plan-each" data-fig=format!("each.{i}")>{each}</span> })}
                {row.why.clone().map(|why| view! { <span class="plan-why">{why}</span> })}
            </button>
            <button
                class="plan-grip"
                type="button"
                data-key=format!("part-move.{i}")
                aria-label=row.move_label.clone()
                on:pointerdown=move |ev| take(&ev, no, i, carried)
                on:pointermove=move |ev| over(&ev, carried)
                on:pointerup=move |_| let_go(carried, shell)
                on:pointercancel=move |_| carried.set(None)
                on:click=move |ev| {
                    // By a keyboard: the keys for earlier and later are in what opens.
                    if ev.detail() == 0 {
                        shell.send(tap(PlanTap::Picked(no)));
                    }
                }
            >
                <i aria-hidden="true"></i>
            </button>
        </li>
    }
}

/// Three tracks: a ball (dots), the net (mesh), like a game (filled). Words beside say the same.
pub fn tracks(ball: bool, net: bool, game: bool) -> AnyView {
    view! {
        <span class="plan-tracks" aria-hidden="true">
            <i class:is-ball=ball></i>
            <i class:is-net=net></i>
            <i class:is-game=game></i>
        </span>
    }
}

fn take(ev: &PointerEvent, no: PartNo, place: usize, carried: Carried) {
    if ev.button() != 0 {
        return;
    }
    if let Some(grip) = ev.current_target().and_then(|t| t.dyn_into::<Element>().ok()) {
        // Without the capture a quick thumb leaves the grip, and the part falls where it was.
        if let Err(why) = grip.set_pointer_capture(ev.pointer_id()) {
            leptos::logging::warn!("the grip doesn't hold the pointer: {why:?}");
        }
    }
    carried.set(Some((no, place, place)));
}

fn over(ev: &PointerEvent, carried: Carried) {
    let Some((no, from, had)) = carried.get_untracked() else { return };
    let at = document().element_from_point(ev.client_x() as f32, ev.client_y() as f32);
    let row = at.and_then(|e| e.closest("[data-place]").ok().flatten());
    let place = row.and_then(|row| row.get_attribute("data-place")?.parse().ok());
    if let Some(place) = place.filter(|place| *place != had) {
        carried.set(Some((no, from, place)));
    }
}

fn let_go(carried: Carried, shell: Shell) {
    if let Some((no, _, place)) = carried.get_untracked() {
        carried.set(None);
        shell.send(tap(PlanTap::Placed(no, place)));
    }
}
