//! Today: what needs attention, who is here, which drill next. One tap on a drill and its board is there.

use leptos::prelude::*;

use super::notes::note_ways;
use super::notice::told;
use super::parts::{Fold, Head};
use super::pictures::{Glyph, court, glyph};
use super::plan::{NextKey, Strip, Way};
use super::welcome::Welcome;
use crate::app::action::Action;
use crate::app::groups::GroupsTap;
use crate::app::screen::Screen;
use crate::app::view::plan::{self, StripView};
use crate::app::view::today::{AskPart, DrillCard, OpenPractice, RunRow, TodayView};
use crate::app::words::calendar as calendar_words;
use crate::app::words::groups as group_words;
use crate::app::words::library as library_words;
use crate::app::words::screens as words;
use crate::app::words::today as today_words;
use crate::ui::markup::{Show, view};
use crate::ui::part::Part;
use crate::ui::shell::Shell;
use crate::ui::widgets::Saved;

#[component]
pub fn Today(view: Part<TodayView>, shell: Shell) -> impl IntoView {
    let title = Signal::derive(move || view.with(|v| v.title.clone()));
    let saved = Signal::derive(move || view.with(|v| v.saved.clone()));
    let strip = shell.view(plan::strip);
    let no_squad = Part::new(move || view.with(|v| v.no_squad));
    let is_on = Part::new(move || view.with(|v| v.open.is_some()));
    let is_along = Part::new(move || view.with(|v| v.open.as_ref().is_some_and(|open| !open.led)));
    // By themselves, so that trouble is told once and not at every tap.
    let notices = Part::new(move || view.with(|v| v.notices.clone()));
    view! {
        <main class="screen" data-screen="today">
            <Head title shell aside=move || view! { <Saved saved shell /> } />
            <Show when=move || !no_squad.get()>
                <Strip view=strip shell />
            </Show>
            <Show when=move || is_along.get()>
                <p class="lead" data-fig="along">{today_words::TAKING_PART}</p>
            </Show>
            {move || notices.with(|n| told(n, shell))}
            {move || {
                if no_squad.get() {
                    view! { <Welcome demo=view.with_untracked(|v| v.demo) shell /> }
                } else {
                    view! {
                        <div class="today-ways">
                            <Way view=strip shell />
                            <Next view shell />
                        </div>
                        <Presence view shell />
                        // Before practice there is nothing to note, and the drills are nearer.
                        {move || is_on.get().then(|| note_ways(shell))}
                        {move || view.with(|v| drills(&v.drills, shell))}
                        {move || view.with(|v| v.open.as_ref().map(|open| practice(open, shell)))}
                        <Thumb view strip shell />
                    }
                }
            }}
        </main>
    }
}

/// The next date, and the way to all of them.
#[component]
fn Next(view: Part<TodayView>, shell: Shell) -> impl IntoView {
    let next = Part::new(move || view.with(|v| v.next_date.clone()));
    view! {
        <button class="plan-way" type="button" data-key="calendar" on:click=shell.sends(Action::Go(Screen::Calendar))>
            <span class="fold-label">{calendar_words::TITLE}</span>
            <span class="fold-count" data-fig="next-date">
                {move || next.get()}
            </span>
            {glyph(Glyph::Onward)}
        </button>
    }
}

/// Names as chips; folded away while all are here, and once practice is on.
#[component]
fn Presence(view: Part<TodayView>, shell: Shell) -> impl IntoView {
    // Open by itself while the coach is still finding out who came; a tap on it says otherwise.
    let unsettled = Part::new(move || view.with(|v| v.open.is_none() && v.children.iter().any(|c| !c.here)));
    let asked = RwSignal::new(None);
    let open = move || asked.get().unwrap_or(unsettled.get());
    let groups = Part::new(move || view.with(|v| v.groups.clone()));
    let can_refit = Part::new(move || view.with(|v| v.can_refit));
    let refitted = Part::new(move || view.with(|v| v.refitted.clone()));
    let tap_away = Part::new(move || view.with(|v| v.tap_away));
    view! {
        <section class="presence">
            <Fold
                key="presence"
                label=words::WHO_IS_HERE
                open=Signal::derive(open)
                on_tap=move || asked.set(Some(!open()))
                count=("here", Signal::derive(move || view.with(|v| v.here.clone())))
            />
            <Show when=open>
                <p class="hint">{move || tap_away.get()}</p>
                <ul class="chips">
                    {move || {
                        view.with(|v| {
                            v.children
                                .iter()
                                .enumerate()
                                .map(|(i, child)| {
                                    let (player, here) = (child.player, child.here);
                                    view! {
                                        <li>
                                            <button
                                                class="chip"
                                                type="button"
                                                data-key=format!("presence.{i}")
                                                aria-pressed=here.to_string()
                                                on:click=shell.sends(Action::PresenceTapped(player))
                                            >
                                                <bdi class="chip-name">{child.label.clone()}</bdi>
                                                <span class="chip-state">
                                                    {glyph(if here { Glyph::Tick } else { Glyph::Away })}
                                                    <span class:visually-hidden=here>
                                                        {if here { words::HERE } else { words::AWAY }}
                                                    </span>
                                                </span>
                                            </button>
                                        </li>
                                    }
                                })
                                .collect::<Vec<_>>()
                        })
                    }}
                </ul>
                <Show when=move || can_refit.get()>
                    <div class="presence-fit">
                        <button
                            class="quiet"
                            type="button"
                            data-key="refit"
                            on:click=shell.sends(Action::Groups(GroupsTap::Refit))
                        >
                            {group_words::REFIT}
                        </button>
                        <p class="hint" role="status" data-fig="refitted">
                            {move || refitted.get().unwrap_or_else(|| group_words::REFIT_LINE.to_owned())}
                        </p>
                    </div>
                </Show>
            </Show>
            <button class="groups-way" type="button" data-key="groups" on:click=shell.sends(Action::Go(Screen::Groups))>
                <span class="fold-label">{group_words::TITLE}</span>
                <span class="fold-count" data-fig="groups">
                    {move || groups.get()}
                </span>
                {glyph(Glyph::Onward)}
            </button>
        </section>
    }
}

fn drills(cards: &[DrillCard], shell: Shell) -> impl IntoView + use<> {
    let empty = cards.is_empty();
    let tiles: Vec<_> = cards.iter().enumerate().map(|(i, card)| tile(i, card, shell)).collect();
    view! {
        <section class="drills">
            <div class="card-head drills-head">
                <h2 class="section-head">{words::DRILLS}</h2>
                <button class="small-key" type="button" data-key="library" on:click=shell.sends(Action::Go(Screen::Library))>
                    {library_words::LIBRARY}
                </button>
            </div>
            {empty.then(|| view! { <p class="hint">{words::NO_DRILLS}</p> })}
            <ul class="tiles">
                {tiles}
                <li class="tile tile-new">
                    <button
                        class="tile-start"
                        type="button"
                        data-key="drill-new"
                        on:click=shell.sends(Action::Go(Screen::Drill(None)))
                    >
                        {glyph(Glyph::Plus)}
                        <span class="tile-name">{words::DRILL_NEW}</span>
                    </button>
                </li>
            </ul>
        </section>
    }
}

fn tile(i: usize, card: &DrillCard, shell: Shell) -> impl IntoView + use<> {
    let drill = card.drill;
    let name = card.name.clone();
    view! {
        <li class="tile" class:tile-kept=card.kept data-lead=card.kept.then_some("")>
            <button
                class="tile-start"
                type="button"
                data-key=format!("drill.{i}")
                on:click=shell.sends(Action::DrillTapped(drill))
            >
                {court(card.picture)}
                <span class="tile-words">
                    <span class="tile-name" dir="auto">{card.name.clone()}</span>
                    <span class="tile-how">{card.how.clone()}</span>
                    {card.kept.then(|| view! { <span class="badge">{words::DRILL_KEPT}</span> })}
                    {card.last.clone().map(|last| view! { <span class="tile-last">{last}</span> })}
                </span>
            </button>
            <button
                class="tile-change"
                type="button"
                data-key=format!("drill-change.{i}")
                aria-label=format!("{} {name}", words::CHANGE)
                on:click=shell.sends(Action::Go(Screen::Drill(Some(drill))))
            >
                {glyph(Glyph::Pencil)}
            </button>
        </li>
    }
}

fn practice(open: &OpenPractice, shell: Shell) -> impl IntoView + use<> {
    let id = open.practice;
    let (key, label, ends) = if open.led {
        ("practice-end", words::PRACTICE_END, Action::PracticeEnded(id))
    } else {
        ("practice-leave", words::PRACTICE_LEAVE, Action::Along(id, false))
    };
    let rows: Vec<_> = open
        .runs
        .iter()
        .enumerate()
        .map(|(i, row)| {
            let (run, on) = (row.run, row.on);
            let to = if on { Screen::Run(run) } else { Screen::RunReport(run) };
            view! {
                <li>
                    <button
                        class="row-key"
                        class:row-on=on
                        type="button"
                        data-key=format!("run.{i}")
                        on:click=shell.sends(Action::Go(to))
                    >
                        <span class="row-words">
                            <span class="row-name" dir="auto">{row.name.clone()}</span>
                            <span class="row-line">{row.count.clone()}</span>
                            {row.beside.clone().map(|line| view! { <span class="row-line">{line}</span> })}
                        </span>
                        {on.then(|| view! { <span class="badge">{words::ON_NOW}</span> })}
                        {glyph(Glyph::Onward)}
                    </button>
                </li>
            }
        })
        .collect();
    view! {
        <section class="card">
            <div class="card-head">
                <h2 class="section-head">{words::RUNS_SO_FAR}</h2>
                <span class="hint">{open.since.clone()}</span>
            </div>
            {if rows.is_empty() {
                view! { <p class="hint">{words::PRACTICE_EMPTY}</p> }
            } else {
                view! { <ul class="rows">{rows}</ul> }
            }}
            {(!open.led).then(|| view! { <p class="hint">{words::PRACTICE_THEIRS}</p> })}
            <button class="quiet" type="button" data-key=key on:click=shell.sends(ends)>
                {label}
            </button>
        </section>
    }
}

/// The run that is on and the part that is next, one tap away wherever the page stands.
#[component]
fn Thumb(view: Part<TodayView>, strip: Part<StripView>, shell: Shell) -> impl IntoView {
    let on = Part::new(move || view.with(|v| v.open.as_ref()?.runs.iter().find(|row| row.on).cloned()));
    let some = Part::new(move || {
        let next = strip.with(|s| s.begin.is_some() || s.running.as_ref().is_some_and(|r| r.next.is_some()));
        next || on.with(Option::is_some)
    });
    let asks = Part::new(move || view.with(|v| v.asks_part.clone()));
    view! {
        {move || asks.with(|ask| ask.as_ref().map(|ask| ask_part(ask, shell)))}
        <Show when=move || some.get() && asks.with(Option::is_none)>
            <div class="foot foot-two">
                <NextKey view=strip shell />
                {move || on.with(|row| row.as_ref().map(|row| go_on(row, shell)))}
            </div>
        </Show>
    }
}

/// A drill was tapped, and another phone's practice of today is known here.
fn ask_part(ask: &AskPart, shell: Shell) -> impl IntoView + use<> {
    let practice = ask.practice;
    view! {
        <div class="foot foot-asks" role="alertdialog" aria-label=ask.text.clone()>
            <p>{ask.text.clone()}</p>
            <button class="big" type="button" data-key="part-theirs" on:click=shell.sends(Action::Along(practice, true))>
                {today_words::PART_THEIRS}
            </button>
            <button class="quiet" type="button" data-key="part-own" on:click=shell.sends(Action::PartOwn)>
                {today_words::PART_OWN}
            </button>
        </div>
    }
}

fn go_on(row: &RunRow, shell: Shell) -> impl IntoView + use<> {
    let run = row.run;
    view! {
        <button class="big" type="button" data-key="go-on" on:click=shell.sends(Action::Go(Screen::Run(run)))>
            <span class="big-words">
                <span>{words::GO_ON}</span>
                <span class="big-line">
                    <bdi>{row.name.clone()}</bdi>
                    ", "
                    {row.count.clone()}
                </span>
            </span>
        </button>
    }
}
