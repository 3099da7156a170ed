//! One drill of the library, as it is read in the gym: the floor first, then how it runs, what to ask, what to watch. At the foot it
//! is started, or taken among the coach's own.

use leptos::prelude::*;

use super::library::lists;
use super::notes::tap;
use super::parts::{Head, quiet, read_again};
use super::pictures::{Glyph, glyph};
use crate::app::action::Action;
use crate::app::library::LibraryTap;
use crate::app::notes::{AskTap, NotesTap, Source};
use crate::app::screen::Screen;
use crate::app::view::library::{LibraryDrillView, why_no_page};
use crate::app::words::library as words;
use crate::app::words::notes as note_words;
use crate::domain::ids::DrillId;
use crate::domain::library::{LibraryNo, NAME_SLOT};
use crate::ui::markup::{Show, view};
use crate::ui::part::Part;
use crate::ui::shell::Shell;
use crate::ui::widgets::floor;

#[component]
pub fn LibraryDrill(view: Part<Option<LibraryDrillView>>, no: LibraryNo, shell: Shell) -> impl IntoView {
    // What it says stays as it is, while the keys at its foot change.
    let page = Part::new(move || {
        let fixed =
            |v: &LibraryDrillView| LibraryDrillView { mine: None, can_start: false, practice_on: false, ..v.clone() };
        view.with(|v| v.as_ref().map(fixed))
    });
    let why = shell.view(why_no_page);
    let title = Signal::derive(move || page.with(|p| p.as_ref().map_or(words::LIBRARY.to_owned(), |p| p.name.clone())));
    let is_there = Part::new(move || page.with(Option::is_some));
    view! {
        <main class="screen" data-screen="library-drill">
            <Head title shell back=(Screen::Library, words::BACK) />
            {move || page.with(|p| p.as_ref().map(|page| body(page, shell)))}
            <Show when=move || !is_there.get()>{lists(Screen::LibraryDrill(no), shell)} {missing(why, shell)}</Show>
            <Show when=move || is_there.get()>
                <Foot view no shell />
            </Show>
        </main>
    }
}

/// Still being read, or why not.
fn missing(why: Part<Option<&'static str>>, shell: Shell) -> AnyView {
    view! {
        {move || match why.get() {
            None => view! { <p class="loading" role="status">{words::READING}</p> },
            Some(why) => view! { <p class="lead" role="alert">{why}</p> {read_again(shell)} },
        }}
    }
}

fn body(page: &LibraryDrillView, shell: Shell) -> AnyView {
    let runs = page.drawing.ways.iter().any(|way| way.on_foot);
    let facts = page.facts.iter().map(|(label, answer)| {
        view! {
            <div class="fact">
                <dt>{*label}</dt>
                <dd>{answer.clone()}</dd>
            </div>
        }
    });
    view! {
        <figure class="drawn">
            {floor(&page.drawing)}
            <figcaption>
                <ol class="drawn-steps" class:drawn-one=page.drawing.steps.len() == 1>
                    {lines(&page.drawing.steps)}
                </ol>
                <p class="drawn-key" aria-hidden="true">
                    <span class="key-ball">{words::BALL_WAY}</span>
                    {runs.then(|| view! { <span class="key-run">{words::RUN_WAY}</span> })}
                </p>
            </figcaption>
        </figure>
        <section class="about">
            <p class="about-kind">{page.kind.clone()}</p>
            <p class="lead">{page.purpose.clone()}</p>
            <dl class="facts">{facts.collect::<Vec<_>>()}</dl>
        </section>
        <section>
            <h2 class="section-head">{words::RUNS}</h2>
            <ol class="runs">{lines(&page.runs)}</ol>
        </section>
        <section class="card">
            <h2 class="section-head">{words::SCORED}</h2>
            <p>{page.scored.clone()}</p>
            <p class="hint" data-fig="board">
                {page.board.clone()}
            </p>
        </section>
        <div class="ways-two">
            <section class="card">
                <h2 class="section-head">{words::EASIER}</h2>
                <ul class="dashes">{lines(&page.easier)}</ul>
            </section>
            <section class="card">
                <h2 class="section-head">{words::HARDER}</h2>
                <ul class="dashes">{lines(&page.harder)}</ul>
            </section>
        </div>
        <section>
            <h2 class="section-head">{words::ASK}</h2>
            <p class="hint">{words::ASK_LINE}</p>
            <ul class="asks">{page.ask.iter().enumerate().map(|of| question(of, page.no, shell)).collect::<Vec<_>>()}</ul>
        </section>
        <section class="watch">
            <h2 class="section-head">{glyph(Glyph::Warn)} {words::SAFETY}</h2>
            <ul class="dashes">
                {lines(&page.safety)} {words::ALWAYS.map(|line| view! { <li>{line}</li> })}
            </ul>
        </section>
    }
}

fn lines(texts: &[String]) -> Vec<AnyView> {
    texts.iter().map(|text| view! { <li>{text.clone()}</li> }).collect()
}

/// The name's place is a line to be filled in by voice. A tap proposes whom to ask.
fn question((i, (before, after)): (usize, &(String, String)), no: LibraryNo, shell: Shell) -> AnyView {
    let wanted = AskTap::Wanted(Source::Library(no), Some(format!("{before}{NAME_SLOT}{after}")));
    view! {
        <li class="ask-row">
            <span>
                "“" {before.clone()} <span class="slot">
                    <span class="visually-hidden">{words::NAME}</span>
                </span> {after.clone()} "”"
            </span>
            <button
                class="small-key"
                type="button"
                data-key=format!("ask.{i}")
                aria-label=note_words::ASK_THIS
                on:click=shell.sends(tap(NotesTap::Question(wanted)))
            >
                {note_words::ASK}
            </button>
        </li>
    }
}

/// In a practice its board is one tap away; before one it is taken first.
#[component]
fn Foot(view: Part<Option<LibraryDrillView>>, no: LibraryNo, shell: Shell) -> impl IntoView {
    let mine: Part<Option<DrillId>> = Part::new(move || view.with(|v| v.as_ref().and_then(|v| v.mine)));
    let can_start = Part::new(move || view.with(|v| v.as_ref().is_some_and(|v| v.can_start)));
    let on = Part::new(move || view.with(|v| v.as_ref().is_some_and(|v| v.practice_on)));
    let is_mine = Part::new(move || mine.with(Option::is_some));
    let change = move || mine.get_untracked().map(|drill| Action::Go(Screen::Drill(Some(drill))));
    let taken = move || quiet("change-mine", words::CHANGE_MINE.into_any(), shell, change);
    view! {
        <div class="foot">
            <p class="how" role="status">
                {move || is_mine.get().then_some(words::TAKEN)}
            </p>
            <div class="keys-two" class:take-first=move || !on.get()>
                <Show when=move || !is_mine.get() fallback=taken>
                    <button
                        class=move || if on.get() { "quiet" } else { "big" }
                        type="button"
                        data-key="take"
                        on:click=shell.sends(Action::Library(LibraryTap::Taken(no)))
                    >
                        {words::TAKE}
                    </button>
                </Show>
                <Show when=move || can_start.get()>
                    <button
                        class=move || if on.get() || is_mine.get() { "big" } else { "quiet" }
                        type="button"
                        data-key="start"
                        on:click=shell.sends(Action::Library(LibraryTap::Started(no)))
                    >
                        {words::START}
                    </button>
                </Show>
            </div>
        </div>
    }
}
