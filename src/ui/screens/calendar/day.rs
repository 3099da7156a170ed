//! The day that is open, at the thumb: each date and practice on it, what became of it, and what can be done.

use leptos::prelude::*;

use super::super::pictures::{Glyph, glyph};
use super::{shape, tap};
use crate::app::action::Action;
use crate::app::calendar::CalendarTap;
use crate::app::screen::Screen;
use crate::app::view::calendar::{CalendarView, DayItem, DayView};
use crate::app::words::calendar as words;
use crate::app::words::screens::CLOSE;
use crate::ui::markup::view;
use crate::ui::part::Part;
use crate::ui::shell::Shell;

#[component]
pub fn Day(view: Part<CalendarView>, shell: Shell) -> impl IntoView {
    let day = Part::new(move || view.with(|v| v.day.clone()));
    view! {
        <section class="foot is-bar cal-sheet" data-fig="day">
            {move || day.with(|day| day.as_ref().map(|day| open(day, shell)))}
        </section>
    }
}

fn open(day: &DayView, shell: Shell) -> AnyView {
    let items: Vec<_> = day.items.iter().enumerate().map(|(i, item)| one(i, item, shell)).collect();
    let none = items.is_empty();
    view! {
        <div class="cal-sheet-head">
            <h2 class="section-head" data-fig="day-title">{day.title.clone()}</h2>
            <button
                class="plan-close"
                type="button"
                data-key="day-close"
                aria-label=CLOSE
                on:click=shell.sends(tap(CalendarTap::Closed))
            >
                {glyph(Glyph::Cross)}
            </button>
        </div>
        {none.then(|| view! { <p class="hint">{words::NO_DATE}</p> })}
        {items}
        {day.can_add
            .then(|| {
                view! {
                    <button
                        class=if none { "big" } else { "quiet" }
                        type="button"
                        data-key="dates-here"
                        on:click=shell.sends(Action::Go(Screen::Dates(None)))
                    >
                        {words::ADD_HERE}
                    </button>
                }
            })}
    }
}

/// The first way is the likeliest: it alone is a large key.
fn one(i: usize, item: &DayItem, shell: Shell) -> AnyView {
    let key = |id: &str| if i == 0 { id.to_owned() } else { format!("{id}.{i}") };
    let lines: Vec<_> = item.lines.iter().map(|line| view! { <p>{line.clone()}</p> }).collect();
    let ways: Vec<_> = item
        .ways
        .iter()
        .enumerate()
        .map(|(at, (id, label, action))| {
            let class = if at == 0 { "quiet cal-first" } else { "notice-act" };
            view! {
                <button class=class type="button" data-key=key(id) on:click=shell.sends(action.clone())>
                    {*label}
                </button>
            }
        })
        .collect();
    view! {
        <article class="cal-item">
            <p class="cal-item-head">
                {shape(item.state)}
                <b data-fig=key("day-hours")>{item.hours.clone()}</b>
                <span class="badge" data-fig=key("day-state")>{words::state(item.state)}</span>
                <bdi class="hint">{item.place.clone()}</bdi>
            </p>
            <div class="cal-lines" data-fig=key("day-lines")>{lines}</div>
            <div class="cal-ways">{ways}</div>
        </article>
    }
}
