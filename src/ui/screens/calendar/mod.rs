//! The season by months: a shape and a word for every date. A day that is tapped opens at the thumb; what the season adds up to and the file
//! for another calendar stand under the days.

mod day;
mod file;
mod form;
mod grid;

pub use form::Dates;

use leptos::prelude::*;

use self::day::Day;
use self::file::FileOut;
use self::grid::Grid;
use super::parts::Head;
use super::pictures::{Glyph, glyph};
use crate::app::action::Action;
use crate::app::calendar::CalendarTap;
use crate::app::screen::Screen;
use crate::app::view::calendar::CalendarView;
use crate::app::words::calendar::{self as words, State};
use crate::app::words::screens::BACK_TO_TODAY;
use crate::ui::markup::{Show, view};
use crate::ui::part::Part;
use crate::ui::shell::Shell;

#[component]
pub fn Calendar(view: Part<CalendarView>, shell: Shell) -> impl IntoView {
    let empty = Part::new(move || view.with(|v| v.empty));
    let open = Part::new(move || view.with(|v| v.day.is_some()));
    let set = Part::new(move || view.with(|v| v.set.clone()));
    let season = Part::new(move || view.with(|v| v.season.clone()));
    view! {
        <main class="screen" data-screen="calendar">
            <Head title=words::TITLE.to_owned() shell back=(Screen::Today, BACK_TO_TODAY) />
            {move || set.with(|set| set.as_ref().map(|(line, way)| was_set(line, way, shell)))}
            <Show when=move || empty.get()>
                <section class="cal-empty">
                    <h2 class="lead">{words::EMPTY}</h2>
                    <p>{words::EMPTY_LINE}</p>
                </section>
            </Show>
            <Grid view shell />
            {move || {
                season
                    .with(|lines| {
                        (!lines.is_empty())
                            .then(|| {
                                let lines: Vec<_> = lines.iter().map(|line| view! { <li>{line.clone()}</li> }).collect();
                                view! {
                                    <section class="card">
                                        <h2 class="section-head">{words::SEASON}</h2>
                                        <ul class="cal-season" data-fig="season">{lines}</ul>
                                    </section>
                                }
                            })
                    })
            }}
            <Show when=move || !empty.get()>
                <FileOut view shell />
            </Show>
            <Show when=move || open.get() fallback=move || view! { <Add shell /> }>
                <Day view shell />
            </Show>
        </main>
    }
}

#[component]
fn Add(shell: Shell) -> impl IntoView {
    view! {
        <div class="foot">
            <button class="big" type="button" data-key="dates-new" on:click=shell.sends(Action::Go(Screen::Dates(None)))>
                {words::ADD}
            </button>
        </div>
    }
}

fn was_set(line: &str, way: &'static str, shell: Shell) -> AnyView {
    view! {
        <section class="notice" role="status">
            {glyph(Glyph::Tick)} <p data-fig="dates-set">{line.to_owned()}</p>
            <div class="notice-keys">
                <button
                    class="notice-act"
                    type="button"
                    data-key="dates-back"
                    on:click=shell.sends(tap(CalendarTap::SetTakenBack))
                >
                    {way}
                </button>
            </div>
        </section>
    }
}

/// How full it is tells what became of a date.
fn shape(state: State) -> AnyView {
    let class = match state {
        State::Held => "cal-shape is-held",
        State::On => "cal-shape is-on",
        State::Planned => "cal-shape is-planned",
        State::Bare => "cal-shape",
        State::Missed => "cal-shape is-missed",
        State::Dropped => "cal-shape is-dropped",
    };
    view! { <i class=class aria-hidden="true"></i> }
}

fn tap(tap: CalendarTap) -> Action {
    Action::Calendar(tap)
}
