//! After a practice: the first two minutes, then all of it: who was here, what was practised, which efforts were noticed. It can be opened
//! again and corrected.

use leptos::prelude::*;

use super::joining::way;
use super::notes::{remarks, tap};
use super::parts::{Head, NotHere, WayTo, unread};
use super::pictures::{Glyph, glyph};
use super::plan::after;
use super::report::{efforts, touches};
use super::two_minutes::TwoMinutes;
use crate::app::action::Action;
use crate::app::notes::NotesTap;
use crate::app::screen::Screen;
use crate::app::view::after::NextView;
use crate::app::view::report::{PracticeReportView, PracticeRunRow, PracticeWay, PracticeWayRow};
use crate::app::words::screens as words;
use crate::app::words::{after as after_words, fair as fair_words, notes as note_words};
use crate::ui::markup::{Show, live, view};
use crate::ui::part::Part;
use crate::ui::shell::Shell;
use crate::ui::widgets::clicked;

const BACK: (Screen, &str) = (Screen::After, words::BACK_TO_AFTER);

#[component]
pub fn PracticeReport(view: Part<Option<PracticeReportView>>, shell: Shell) -> impl IntoView {
    let there = Part::new(move || view.with(Option::is_some));
    live(move || {
        if there.get() {
            view! { <Page view shell /> }
        } else {
            view! { <NotHere screen="practice-report" back=BACK shell /> }
        }
    })
}

/// Each part by itself: a question that is asked leaves what was opened above it open.
#[component]
fn Page(view: Part<Option<PracticeReportView>>, shell: Shell) -> impl IntoView {
    fn of<T: PartialEq + Default + Clone + Send + Sync + 'static>(
        view: Part<Option<PracticeReportView>>,
        f: fn(&PracticeReportView) -> T,
    ) -> Part<T> {
        Part::new(move || view.with(|v| v.as_ref().map(f).unwrap_or_default()))
    }
    let title = of(view, |v| v.title.clone());
    let when = of(view, |v| v.when.clone());
    let presence = of(view, |v| v.presence.clone());
    let (minutes, asks) = (of(view, |v| v.minutes.clone()), of(view, |v| v.asks.clone()));
    let over = Part::new(move || minutes.with(Option::is_some));
    let next = Part::new(move || minutes.with(|m| m.as_ref().and_then(|m| m.next.clone())));
    let practice = of(view, |v| Some(v.practice));
    let (runs, ways) = (of(view, |v| (v.trouble.clone(), v.loading, v.runs.clone())), of(view, |v| v.ways.clone()));
    let (phones, as_one) = (of(view, |v| v.phones.clone()), of(view, |v| v.as_one.clone()));
    let (plan, touched) = (of(view, |v| v.plan.clone()), of(view, |v| v.touches.clone()));
    let (noticed, noted) = (of(view, |v| v.efforts.clone()), of(view, |v| v.remarks.clone()));
    let here = of(view, |v| !v.loading && v.trouble.is_none());
    let add = move || {
        if let Some(practice) = practice.get_untracked() {
            shell.send(tap(NotesTap::Wanted(Some(practice), None)));
        }
    };
    view! {
        <main class="screen" data-screen="practice-report">
            <Head title shell back=BACK />
            <p class="hint">{move || when.get()}</p>
            {live(move || phones.get().map(|line| view! { <p class="hint" data-fig="phones">{line}</p> }))}
            <Show when=move || presence.with(|said| !said.is_empty())>
                <p class="lead" data-fig="presence">{move || presence.get()}</p>
            </Show>
            <Show when=move || over.get()>
                <TwoMinutes minutes asks shell />
                <h2 class="all-of-it">{after_words::ALL}</h2>
            </Show>
            {live(move || runs.with(|(trouble, loading, runs)| drills(trouble.as_ref(), *loading, runs, shell)))}
            {live(move || plan.with(|plan| after(plan.as_ref(), shell)))}
            {live(move || touched.with(|touched| touches(touched.as_ref())))}
            {live(move || noticed.with(|noticed| efforts(noticed)))}
            {live(move || noted.with(|noted| remarks(noted, shell)))}
            <Show when=move || here.get()>
                <button class="quiet" type="button" data-key="note-add" on:click=clicked(move |_| add())>
                    {note_words::ADD_NOTE}
                </button>
            </Show>
            <WayTo key="fair" label=fair_words::OPEN line=fair_words::OPEN_LINE to=Screen::Fair shell />
            <WayTo key="heard" label=note_words::HEARD line=note_words::HEARD_LINE to=Screen::Heard shell />
            {live(move || as_one.get().map(|line| way("as-one", line, Screen::AsOne(practice.get()), shell)))}
            {live(move || ways.with(|ways| ways.iter().map(|row| end_or_open(row, shell)).collect::<Vec<_>>()))}
            {live(move || foot(next.get(), shell))}
        </main>
    }
}

fn drills(trouble: Option<&String>, loading: bool, runs: &[PracticeRunRow], shell: Shell) -> AnyView {
    if let Some(why) = trouble {
        return unread(why.clone(), shell);
    }
    if loading {
        return view! { <p class="loading" role="status">{words::READING}</p> };
    }
    if runs.is_empty() {
        return view! { <p class="lead">{words::PRACTICE_NO_RUNS}</p> };
    }
    let rows: Vec<_> = runs.iter().enumerate().map(|(i, row)| run(i, row, shell)).collect();
    view! {
        <section>
            <h2 class="section-head">{words::DRILLS_RUN}</h2>
            <ul class="rows card">{rows}</ul>
        </section>
    }
}

fn end_or_open(row: &PracticeWayRow, shell: Shell) -> AnyView {
    let practice = row.practice;
    let (key, word, action) = match row.way {
        PracticeWay::End => ("practice-end", words::PRACTICE_END, Action::PracticeEnded(practice)),
        PracticeWay::Leave => ("practice-leave", words::PRACTICE_LEAVE, Action::Along(practice, false)),
        PracticeWay::OpenAgain => ("practice-reopen", words::PRACTICE_REOPEN, Action::PracticeReopened(practice)),
    };
    view! {
        <button class="quiet" type="button" data-key=key on:click=shell.sends(action)>
            {row.again.clone().unwrap_or_else(|| word.to_owned())}
        </button>
    }
}

/// The next plan at the thumb where this was the last practice, else a copy.
fn foot(next: Option<NextView>, shell: Shell) -> AnyView {
    let send = |class: &'static str| {
        view! {
            <button class=class type="button" data-key="send" on:click=shell.sends(Action::Go(Screen::Share))>
                {words::SEND_COPY}
            </button>
        }
    };
    match next {
        None => view! { <div class="foot">{send("big")}</div> },
        Some(next) => view! {
            {send("quiet")}
            <div class="foot">
                <button class="big two-next" type="button" data-key="plan-next" on:click=shell.sends(next.tap)>
                    <span>{next.label}</span>
                    <span class="big-line" dir="auto">{next.line}</span>
                </button>
            </div>
        },
    }
}

fn run(i: usize, row: &PracticeRunRow, shell: Shell) -> impl IntoView + use<> {
    let run = row.run;
    view! {
        <li>
            <button
                class="row-key"
                type="button"
                data-key=format!("run.{i}")
                on:click=shell.sends(Action::Go(Screen::RunReport(run)))
            >
                <span class="row-words">
                    <bdi class="row-name">{row.name.clone()}</bdi>
                    <span class="row-line">{row.count.clone()}</span>
                    <span class="row-line">{row.share.clone()}</span>
                    {row.phone.clone().map(|line| view! { <span class="row-line" data-fig="phone">{line}</span> })}
                    {row.beside.clone().map(|line| view! { <span class="row-line">{line}</span> })}
                </span>
                {glyph(Glyph::Onward)}
            </button>
        </li>
    }
}
