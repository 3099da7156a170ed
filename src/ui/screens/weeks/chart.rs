//! A chart read at a glance, and day by day: by touch, by the arrow keys, by two keys under it, and by a screen reader as a slider. The view model
//! has every place and sentence; here one of its days is the one that is looked at.

use std::sync::Arc;

use leptos::ev::{KeyboardEvent, PointerEvent};
use leptos::prelude::*;
use web_sys::Element;
use web_sys::wasm_bindgen::JsCast;

use crate::app::view::weeks::chart::{Chart, ChartDay, Way};
use crate::app::view::weeks::kinds;
use crate::app::words::weeks::days as words;
use crate::domain::ids::PlayerId;
use crate::ui::markup::view;
use crate::ui::screens::pictures::{Glyph, glyph};
use crate::ui::shell::Shell;
use crate::ui::widgets::clicked;

/// Whose kind of ball it is, for the change since a day.
pub type Of = (PlayerId, usize);

/// `n` tells this chart's keys from others'.
pub fn chart(chart: &Chart, n: usize, of: Option<Of>, shell: Shell) -> AnyView {
    let days: Arc<Vec<ChartDay>> = Arc::new(chart.days.clone());
    let n_days = days.len();
    let last = Chart::led(n_days, 0, Way::Last);
    let chosen = RwSignal::new(last);
    let of_day = move |f: fn(&ChartDay) -> &String| {
        let days = Arc::clone(&days);
        move || days.get(chosen.get()).map(|day| f(day).clone()).unwrap_or_default()
    };
    let since = of.map(|(player, kind)| {
        let since = shell.view(move |m| kinds::since(m, player, kind, chosen.get()).unwrap_or_default());
        view! { <span data-fig=format!("since.{n}")>{move || since.get()}</span> }
    });
    let (day, says) = (of_day(|day| &day.day), of_day(|day| &day.says));
    let spoken = {
        let (day, says) = (day.clone(), says.clone());
        move || format!("{}: {}", day(), says())
    };
    let step = {
        let spoken = spoken.clone();
        move |key: &'static str, label: &'static str, way: Way, sign: Glyph| {
            let spoken = spoken.clone();
            let press = clicked(move |_| {
                chosen.update(|at| *at = Chart::led(n_days, *at, way));
                shell.say(untrack(&spoken));
            });
            view! {
                <button class="reader-key" type="button" data-key=format!("{key}.{n}") aria-label=label on:click=press>
                    {glyph(sign)}
                </button>
            }
        }
    };
    let keys = move |ev: KeyboardEvent| {
        let way = match ev.key().as_str() {
            "ArrowLeft" | "ArrowDown" => Way::Earlier,
            "ArrowRight" | "ArrowUp" => Way::Later,
            "Home" => Way::First,
            "End" => Way::Last,
            _ => return,
        };
        ev.prevent_default();
        chosen.update(|at| *at = Chart::led(n_days, *at, way));
    };
    view! {
        <figure class="chart">
            <div class="chart-body">
                <div class="chart-scale" aria-hidden="true">
                    <span>{words::ALL}</span>
                    <span>{words::HALF}</span>
                    <span>{words::NONE}</span>
                </div>
                <div
                    class="chart-field"
                    role="slider"
                    tabindex="0"
                    data-key=format!("chart.{n}")
                    aria-label=chart.label.clone()
                    aria-valuemin="0"
                    aria-valuemax=last
                    aria-valuenow=move || chosen.get()
                    aria-valuetext=spoken
                    on:keydown=keys
                >
                    {field(chart, n, chosen)}
                </div>
            </div>
            <figcaption class="chart-ends">
                <span>{chart.first.clone()}</span>
                <span>{chart.last.clone()}</span>
            </figcaption>
            <div class="reader">
                {step("earlier", words::EARLIER, Way::Earlier, Glyph::Back)}
                <b class="reader-day" data-fig=format!("day.{n}")>{day}</b>
                {step("later", words::LATER, Way::Later, Glyph::Onward)}
                <p class="reader-says" class:is-short=of.is_none()>
                    <span data-fig=format!("says.{n}")>{says}</span>
                    {since}
                </p>
            </div>
        </figure>
    }
}

/// Lines, band and balls; over them the strips that answer to a touch.
fn field(chart: &Chart, n: usize, chosen: RwSignal<usize>) -> AnyView {
    let reaches: Vec<_> =
        chart.days.iter().map(|day| view! { <path class="chart-reach" d=day.reach.clone() /> }).collect();
    let balls: Vec<_> = chart.days.iter().enumerate().map(|(at, day)| ball(at, day, chosen)).collect();
    let strips: Vec<_> = chart.days.iter().enumerate().map(|(at, day)| strip(n, at, day, chosen)).collect();
    view! {
        <svg viewBox="-12 -8 344 144" aria-hidden="true" focusable="false">
            <path class="chart-grid" d="M-12 0H332M-12 128H332" />
            <path class="chart-half" d="M-12 64H332" />
            {reaches}
            {chart.band.clone().map(|band| view! { <path class="chart-band" d=band /> })}
            {chart.line.clone().map(|line| view! { <path class="chart-line" d=line /> })}
            {balls}
            {strips}
        </svg>
    }
}

fn ball(at: usize, day: &ChartDay, chosen: RwSignal<usize>) -> AnyView {
    let ring = day.marked.then(|| view! { <circle class="chart-ring" cx=day.x.clone() cy=day.y.clone() r="11" /> });
    view! {
        <g class="chart-day" class:is-chosen=move || chosen.get() == at class:is-hard=day.hard>
            <path class="chart-now" d=format!("M{} -8V136", day.x) />
            {ring}
            <circle class="chart-ball" cx=day.x.clone() cy=day.y.clone() r=day.r.clone() />
        </g>
    }
}

fn strip(n: usize, at: usize, day: &ChartDay, chosen: RwSignal<usize>) -> AnyView {
    let touch = move |ev: PointerEvent| {
        chosen.set(at);
        // A finger is held by what it touched first; let go, the days it passes over answer.
        let held = ev.target().and_then(|target| target.dyn_into::<Element>().ok());
        if let Some(strip) = held.filter(|strip| strip.has_pointer_capture(ev.pointer_id()))
            && let Err(why) = strip.release_pointer_capture(ev.pointer_id())
        {
            leptos::logging::warn!("the finger stays where it touched: {why:?}");
        }
    };
    view! {
        <rect
            class="chart-strip"
            data-key=format!("strip.{n}.{at}")
            x=day.from.clone()
            y="-8"
            width=day.wide.clone()
            height="144"
            on:pointerdown=touch
            on:pointerenter=move |_: PointerEvent| chosen.set(at)
        />
    }
}
