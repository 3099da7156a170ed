//! The days of a month in their weeks. Arrow keys go from day to day; a tap opens one.

use leptos::ev::KeyboardEvent;
use leptos::prelude::*;
use web_sys::HtmlElement;
use web_sys::wasm_bindgen::JsCast;

use super::super::pictures::{Glyph, glyph};
use super::{shape, tap};
use crate::app::calendar::CalendarTap;
use crate::app::view::calendar::{CalendarView, DayCell};
use crate::app::words::calendar as words;
use crate::ui::markup::view;
use crate::ui::part::Part;
use crate::ui::shell::Shell;
use crate::ui::widgets::clicked;

#[component]
pub fn Grid(view: Part<CalendarView>, shell: Shell) -> impl IntoView {
    let month = Part::new(move || view.with(|v| v.month.clone()));
    let weekdays = Part::new(move || view.with(|v| v.weekdays.clone()));
    let states = Part::new(move || view.with(|v| v.states.clone()));
    let weeks = Part::new(move || view.with(|v| (v.weeks.clone(), v.at)));
    let step = move |key: &'static str, label: &'static str, on: bool, sign: Glyph| {
        view! {
            <button
                class="cal-step"
                type="button"
                data-key=key
                aria-label=label
                on:click=shell.sends(tap(CalendarTap::MonthStepped(on)))
            >
                {glyph(sign)}
            </button>
        }
    };
    view! {
        <section class="cal">
            <div class="cal-head">
                {step("month-before", words::MONTH_BEFORE, false, Glyph::Back)}
                <h2 class="section-head" aria-live="polite" data-fig="month">{move || month.get()}</h2>
                {step("month-after", words::MONTH_AFTER, true, Glyph::Onward)}
            </div>
            <div
                class="cal-grid"
                role="grid"
                aria-label=move || month.get()
                on:keydown=move |ev| pressed(&ev, shell)
            >
                <div class="cal-week is-names" role="row">
                    {move || {
                        weekdays
                            .with(|days| {
                                days.iter()
                                    .map(|(short, said)| {
                                        view! { <span role="columnheader" aria-label=said.clone()>{*short}</span> }
                                    })
                                    .collect::<Vec<_>>()
                            })
                    }}
                </div>
                {move || {
                    weeks
                        .with(|(weeks, at)| {
                            weeks
                                .iter()
                                .map(|week| {
                                    let cells: Vec<_> = week
                                        .iter()
                                        .map(|cell| match cell {
                                            None => view! { <span role="gridcell"></span> },
                                            Some(cell) => day(cell, cell.day == *at, shell),
                                        })
                                        .collect();
                                    view! { <div class="cal-week" role="row">{cells}</div> }
                                })
                                .collect::<Vec<_>>()
                        })
                }}
            </div>
            {move || {
                states.with(|states| {
                    let items: Vec<_> = states
                        .iter()
                        .map(|state| view! { <li>{shape(*state)} {words::state(*state)}</li> })
                        .collect();
                    (!items.is_empty()).then(|| view! { <ul class="cal-words">{items}</ul> })
                })
            }}
        </section>
    }
}

fn day(cell: &DayCell, at: bool, shell: Shell) -> AnyView {
    let day = cell.day;
    let shapes: Vec<_> = cell.states.iter().map(|state| shape(*state)).collect();
    view! {
        <span role="gridcell" aria-selected=cell.picked.to_string()>
            <button
                class="cal-day"
                class:is-today=cell.today
                class:is-picked=cell.picked
                type="button"
                tabindex=if at { "0" } else { "-1" }
                data-at=at.then_some("")
                data-key=format!("day.{day}")
                aria-label=cell.label.clone()
                aria-current=cell.today.then_some("date")
                on:click=clicked(move |_| {
                    shell.send(tap(CalendarTap::Picked(day)));
                    focus_later();
                })
            >
                <span>{cell.no}</span>
                <span class="cal-shapes">{shapes}</span>
            </button>
        </span>
    }
}

fn pressed(ev: &KeyboardEvent, shell: Shell) {
    let tapped = match ev.key().as_str() {
        "ArrowLeft" => CalendarTap::DayStepped(-1),
        "ArrowRight" => CalendarTap::DayStepped(1),
        "ArrowUp" => CalendarTap::DayStepped(-7),
        "ArrowDown" => CalendarTap::DayStepped(7),
        "PageUp" => CalendarTap::MonthStepped(false),
        "PageDown" => CalendarTap::MonthStepped(true),
        "Escape" => CalendarTap::Closed,
        _ => return,
    };
    ev.prevent_default();
    shell.send(tap(tapped));
    focus_later();
}

/// The days are drawn anew when one is picked: the same day has the focus again, and stands above what opened at the thumb.
fn focus_later() {
    request_animation_frame(|| {
        let found = document().query_selector(".cal-grid [data-at]").ok().flatten();
        if let Some(picked) = found.as_ref().filter(|day| day.class_list().contains("is-picked")) {
            // `scroll-margin` leaves the room.
            picked.scroll_into_view_with_bool(false);
        }
        if let Some(day) = found.as_ref().and_then(|found| found.dyn_ref::<HtmlElement>())
            && let Err(why) = day.focus()
        {
            leptos::logging::warn!("the day takes no focus: {why:?}");
        }
    });
}
