//! The form of dates: one, or a weekly series whose days are shown before anything is set. A fault is one sentence beside the key.

use leptos::prelude::*;

use super::super::parts::{Choice, Head, NotHere, Stepper};
use super::super::pictures::{Glyph, glyph};
use super::tap;
use crate::app::calendar::CalendarTap;
use crate::app::screen::Screen;
use crate::app::view::calendar::{DatesView, SeriesDay};
use crate::app::words::calendar as words;
use crate::ui::markup::{Show, view};
use crate::ui::part::Part;
use crate::ui::shell::Shell;
use crate::ui::widgets::clicked;

const BACK: (Screen, &str) = (Screen::Calendar, words::BACK);

#[component]
pub fn Dates(view: Part<Option<DatesView>>, shell: Shell) -> impl IntoView {
    let here = Part::new(move || view.with(Option::is_some));
    view! {
        {move || {
            if here.get() {
                view! { <Form view shell /> }
            } else {
                view! { <NotHere screen="dates" back=BACK shell /> }
            }
        }}
    }
}

#[component]
fn Form(view: Part<Option<DatesView>>, shell: Shell) -> impl IntoView {
    let text =
        move |f: fn(&DatesView) -> String| Part::new(move || view.with(|v| v.as_ref().map(f).unwrap_or_default()));
    let is = move |f: fn(&DatesView) -> bool| Part::new(move || view.with(|v| v.as_ref().is_some_and(f)));
    let (weekly, changes) = (is(|v| v.weekly), is(|v| v.changes));
    let title = text(|v| v.title.to_owned());
    let (from, until, start, place) =
        (text(|v| v.from.clone()), text(|v| v.until.clone()), text(|v| v.start.clone()), text(|v| v.place.clone()));
    let (earliest, keep) = (text(|v| v.earliest.clone()), text(|v| v.keep.clone()));
    let fault = Part::new(move || view.with(|v| v.as_ref().and_then(|v| v.fault.clone())));
    let field = move |key: &'static str,
                      kind: &'static str,
                      label: Part<String>,
                      value: Part<String>,
                      to: fn(String) -> CalendarTap| {
        view! {
            <label class="field">
                <span class="field-label">{move || label.get()}</span>
                <input
                    class="input"
                    data-field=key
                    type=kind
                    min=move || if kind == "date" { earliest.get() } else { String::new() }
                    prop:value=move || value.get()
                    on:change:target=move |ev| shell.send(tap(to(ev.target().value())))
                />
            </label>
        }
    };
    let said = |label: &'static str| Part::new(move || label.to_owned());
    view! {
        <main class="screen" data-screen="dates">
            <Head title shell back=BACK />
            <Show when=move || !changes.get()>
                <section aria-label=words::HOW_OFTEN>
                    <div class="choices choices-two">
                        <Choice
                            key="date-one".to_owned()
                            label=words::ONE
                            chosen=Signal::derive(move || !weekly.get())
                            on_tap=move || shell.send(tap(CalendarTap::Weekly(false)))
                        />
                        <Choice
                            key="date-weekly".to_owned()
                            label=words::WEEKLY
                            chosen=weekly
                            on_tap=move || shell.send(tap(CalendarTap::Weekly(true)))
                        />
                    </div>
                </section>
            </Show>
            <Show when=move || weekly.get()>
                <Weekdays view shell />
            </Show>
            <div class="cal-pair">
                {field("date-from", "date", Part::new(move || if weekly.get() { words::FROM } else { words::DAY }.to_owned()), from, CalendarTap::FromTyped)}
                <Show when=move || weekly.get()>
                    {field("date-until", "date", said(words::UNTIL), until, CalendarTap::UntilTyped)}
                </Show>
            </div>
            <div class="cal-pair">
                {field("date-start", "time", said(words::START), start, CalendarTap::StartTyped)}
                <label class="field">
                    <span class="field-label">{words::PLACE}</span>
                    <input
                        class="input"
                        data-field="date-place"
                        type="text"
                        dir="auto"
                        autocomplete="off"
                        maxlength="60"
                        placeholder=words::PLACE_HINT
                        prop:value=move || place.get()
                        on:input:target=move |ev| shell.send(tap(CalendarTap::PlaceTyped(ev.target().value())))
                    />
                </label>
            </div>
            <Stepper
                key="date-minutes"
                label=words::MINUTES
                figure=text(|v| v.minutes.clone())
                at_least=is(|v| v.minutes_ends.0)
                at_most=is(|v| v.minutes_ends.1)
                on_step=move |more| shell.send(tap(CalendarTap::MinutesStepped(more)))
            />
            <Series view shell />
            <div class="foot is-bar">
                <p
                    class="how"
                    class:fault=move || fault.with(|fault| fault.as_ref().is_some_and(|(_, missing)| !missing))
                    role="status"
                    data-fig="dates-fault"
                >
                    {move || fault.get().map(|(text, _)| text)}
                </p>
                <button
                    class="big"
                    type="button"
                    data-key="dates-keep"
                    prop:disabled=move || fault.with(Option::is_some)
                    on:click=shell.sends(tap(CalendarTap::Kept))
                >
                    {move || keep.get()}
                </button>
            </div>
        </main>
    }
}

#[component]
fn Weekdays(view: Part<Option<DatesView>>, shell: Shell) -> impl IntoView {
    let days = Part::new(move || view.with(|v| v.as_ref().map(|v| v.weekdays.clone()).unwrap_or_default()));
    view! {
        <section>
            <h2 class="section-head" id="weekdays">{words::WEEKDAYS}</h2>
            <div class="cal-weekdays" role="group" aria-labelledby="weekdays">
                {move || {
                    days.with(|days| {
                        days.iter()
                            .map(|(at, short, said, on)| {
                                let at = *at;
                                view! {
                                    <button
                                        class="segment"
                                        type="button"
                                        data-key=format!("weekday.{at}")
                                        aria-label=said.clone()
                                        aria-pressed=on.to_string()
                                        on:click=shell.sends(tap(CalendarTap::Weekday(at)))
                                    >
                                        {*short}
                                    </button>
                                }
                            })
                            .collect::<Vec<_>>()
                    })
                }}
            </div>
        </section>
    }
}

/// What would be set: each day can be taken out.
#[component]
fn Series(view: Part<Option<DatesView>>, shell: Shell) -> impl IntoView {
    let days = Part::new(move || view.with(|v| v.as_ref().map(|v| v.days.clone()).unwrap_or_default()));
    let some = Part::new(move || days.with(|days| !days.is_empty()));
    view! {
        <Show when=move || some.get()>
            <section>
                <h2 class="section-head">{words::DAYS}</h2>
                <p class="hint">{words::DAYS_LINE}</p>
                <ul class="chips">
                    {move || days.with(|days| days.iter().enumerate().map(|(i, day)| chip(i, day, shell)).collect::<Vec<_>>())}
                </ul>
            </section>
        </Show>
    }
}

fn chip(i: usize, day: &SeriesDay, shell: Shell) -> AnyView {
    let (date, there) = (day.day, day.there);
    let comes = !day.out && !there;
    let word = match (there, day.out) {
        (true, _) => words::IS_THERE,
        (false, true) => words::IS_OUT,
        (false, false) => "",
    };
    view! {
        <li>
            <button
                class="chip"
                type="button"
                data-key=format!("series.{i}")
                aria-pressed=comes.to_string()
                prop:disabled=there
                on:click=clicked(move |_| shell.send(tap(CalendarTap::DayTapped(date))))
            >
                <span class="chip-name">{day.label.clone()}</span>
                <span class="chip-state">
                    {glyph(if comes { Glyph::Tick } else { Glyph::Away })}
                    {word}
                </span>
            </button>
        </li>
    }
}
