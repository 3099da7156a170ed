//! The coach's own drills: each is changed, copied or put away here, and comes back from among those that were.

use leptos::prelude::*;

use super::library::{Seek, lists, nothing};
use super::parts::Head;
use super::pictures::court;
use crate::app::action::Action;
use crate::app::library::LibraryTap;
use crate::app::screen::Screen;
use crate::app::view::library::{MyDrill, MyDrillsView};
use crate::app::words::library as words;
use crate::app::words::screens::{BACK_TO_TODAY, CHANGE, DRILL_NEW};
use crate::app::words::weeks::drill as week_words;
use crate::ui::markup::{Show, view};
use crate::ui::part::Part;
use crate::ui::shell::Shell;

#[component]
pub fn MyDrills(view: Part<MyDrillsView>, shell: Shell) -> impl IntoView {
    let seek = Part::new(move || view.with(|v| v.seek.clone()));
    let drills = Part::new(move || view.with(|v| v.drills.clone()));
    let away = Part::new(move || view.with(|v| v.away.clone()));
    let title = Signal::derive(|| words::MINE.to_owned());
    view! {
        <main class="screen" data-screen="my-drills">
            <Head title shell back=(Screen::Today, BACK_TO_TODAY) />
            {lists(Screen::MyDrills, shell)}
            <Seek seek shell />
            <ul class="shelf-cards">
                {move || drills.with(|d| d.iter().enumerate().map(|(i, one)| mine(i, one, shell)).collect::<Vec<_>>())}
            </ul>
            <Show when=move || drills.with(Vec::is_empty)>{nothing(words::MINE_EMPTY, shell)}</Show>
            <button class="quiet" type="button" data-key="drill-new" on:click=shell.sends(Action::Go(Screen::Drill(None)))>
                {DRILL_NEW}
            </button>
            <Show when=move || !away.with(Vec::is_empty)>
                <section>
                    <h2 class="section-head">{words::AWAY}</h2>
                    <p class="hint">{words::AWAY_LINE}</p>
                    <ul class="rows card">
                        {move || {
                            away.with(|d| d.iter().enumerate().map(|(i, one)| put_away(i, one, shell)).collect::<Vec<_>>())
                        }}
                    </ul>
                </section>
            </Show>
        </main>
    }
}

fn mine(i: usize, one: &MyDrill, shell: Shell) -> AnyView {
    let drill = one.drill;
    let key = |key: &str, label: &'static str, action: Action| {
        view! {
            <button
                class="small-key"
                type="button"
                data-key=format!("{key}.{i}")
                aria-label=format!("{label} {}", one.name)
                on:click=shell.sends(action)
            >
                {label}
            </button>
        }
    };
    view! {
        <li class="card mine">
            <div class="mine-head">
                {court(one.picture)}
                <span class="lib-words">
                    <span class="lib-name" dir="auto">{one.name.clone()}</span>
                    <span class="lib-facts">{one.how.clone()}</span>
                </span>
            </div>
            <div class="mine-keys">
                {one.page.map(|page| key("page", words::PAGE, Action::Go(Screen::LibraryDrill(page))))}
                {key("change", CHANGE, Action::Go(Screen::Drill(Some(drill))))}
                {key("weeks", week_words::SHORT, Action::Go(Screen::DrillWeeks(drill)))}
                {key("copy", words::COPY, Action::Library(LibraryTap::Copied(drill)))}
                {key("put-away", words::PUT_AWAY, Action::Library(LibraryTap::PutAway(drill, true)))}
            </div>
        </li>
    }
}

fn put_away(i: usize, one: &MyDrill, shell: Shell) -> AnyView {
    view! {
        <li class="row-plain">
            <span class="row-name" dir="auto">{one.name.clone()}</span>
            <button
                class="small-key"
                type="button"
                data-key=format!("bring-back.{i}")
                aria-label=format!("{} {}", words::BRING_BACK, one.name)
                on:click=shell.sends(Action::Library(LibraryTap::PutAway(one.drill, false)))
            >
                {words::BRING_BACK}
            </button>
        </li>
    }
}
