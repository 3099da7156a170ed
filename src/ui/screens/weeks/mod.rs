//! Over the weeks: every child in the squad's order with one sentence and a small picture; one child in `child`, a drill in `drill`.

mod chart;
mod child;
mod columns;
mod drill;
mod kind;
mod parts;
mod serves;

pub use child::ChildOverWeeks;
pub use drill::DrillOverWeeks;

use leptos::prelude::*;

use self::parts::{split, splits, table, what};
use super::parts::{Empty, Head, WayTo};
use super::pictures::{Glyph, court, glyph};
use crate::app::action::Action;
use crate::app::screen::Screen;
use crate::app::view::today::Picture;
use crate::app::view::weeks::chart::{Chart, Way};
use crate::app::view::weeks::squad::{NotNoticed, Spark};
use crate::app::view::weeks::{ChildLine, State, WeeksView, pictures};
use crate::app::words::weeks::{load as load_words, squad as squad_words};
use crate::app::words::{screens, trust, weeks as words};
use crate::domain::ids::PlayerId;
use crate::ui::markup::{live, view};
use crate::ui::part::Part;
use crate::ui::shell::Shell;
use crate::ui::widgets::clicked;

#[component]
pub fn OverWeeks(view: Part<WeeksView>, shell: Shell) -> impl IntoView {
    let state = Part::new(move || view.with(|v| v.state.clone()));
    let rows = Part::new(move || view.with(|v| v.children.iter().map(Named::of).collect::<Vec<_>>()));
    let kinds = Part::new(move || view.with(|v| v.kinds.clone()));
    let unseen = Part::new(move || view.with(|v| v.not_noticed.clone()));
    let load = Part::new(move || view.with(|v| v.load.clone()));
    let shown = RwSignal::new(0_usize);
    let pictures = shell.view(move |model| pictures(model, shown.get()));
    view! {
        <main class="screen" data-screen="weeks">
            <Head title=words::TITLE.to_owned() shell back=(Screen::After, screens::BACK_TO_AFTER) />
            {live(move || state.with(standing))}
            {live(move || kinds.with(|kinds| pick(kinds, shown)))}
            {live(move || {
                rows.with(|rows| {
                    let rows: Vec<_> = rows.iter().enumerate().map(|(i, row)| child(i, row, view, pictures, shell)).collect();
                    view! { <ul class="rows card">{rows}</ul> }
                })
            })}
            {live(move || unseen.with(|unseen| unseen.as_ref().map(not_noticed)))}
            {live(move || load.with(|load| everyones_load(load)))}
            {what("what.squad".to_owned(), &squad_words::WHAT_LINES)}
            <WayTo key="trust" label=trust::TITLE line=trust::OPEN_LINE to=Screen::Trust shell />
        </main>
    }
}

/// Which kind of ball the small pictures are of: one at a time, so that the names stay near the top.
fn pick(kinds: &[String], shown: RwSignal<usize>) -> Option<AnyView> {
    let (n, kinds) = (kinds.len(), kinds.to_vec());
    let step = move |key: &'static str, label: &'static str, way: Way, sign: Glyph| {
        view! {
            <button
                class="reader-key"
                type="button"
                data-key=key
                aria-label=label
                on:click=clicked(move |_| shown.update(|at| *at = Chart::led(n, *at, way)))
            >
                {glyph(sign)}
            </button>
        }
    };
    let name = move || kinds.get(shown.get()).cloned();
    (n > 0).then(|| {
        view! {
            <section class="weeks-picks card" role="group" aria-label=squad_words::PICTURES>
                <div class="reader">
                    {step("picture-before", squad_words::BEFORE, Way::Earlier, Glyph::Back)}
                    <p class="reader-day" role="status" data-fig="picture">{name}</p>
                    {step("picture-after", squad_words::AFTER, Way::Later, Glyph::Onward)}
                </div>
            </section>
        }
    })
}

/// What stands of a child before its numbers are there, and stays when they come: only what they add is drawn then.
#[derive(Clone, PartialEq)]
struct Named {
    player: PlayerId,
    name: String,
    effort: Option<String>,
}

impl Named {
    fn of(line: &ChildLine) -> Named {
        Named { player: line.player, name: line.name.clone(), effort: line.effort.clone() }
    }
}

fn child(i: usize, row: &Named, view: Part<WeeksView>, pictures: Part<Vec<Option<Spark>>>, shell: Shell) -> AnyView {
    let player = row.player;
    let line = Part::new(move || view.with(|v| v.children.get(i).and_then(|child| child.line.clone())));
    let one = Part::new(move || pictures.with(|all| all.get(i).cloned()));
    let says = move || one.with(|one| one.as_ref().and_then(|one| one.as_ref()?.says.clone()));
    view! {
        <li>
            <button
                class="row-key"
                type="button"
                data-key=format!("child.{i}")
                on:click=shell.sends(Action::Go(Screen::Weeks(Some(player))))
            >
                <span class="row-words">
                    <bdi class="row-name">{row.name.clone()}</bdi>
                    {row.effort.clone().map(|line| view! { <span class="row-line">{line}</span> })}
                    {live(move || line.get().map(|line| view! { <span class="row-line" data-fig=format!("change.{i}")>{line}</span> }))}
                    {live(move || says().map(|says| view! { <span class="row-line">{says}</span> }))}
                </span>
                {live(move || one.with(|one| one.as_ref().map(|one| spark(one.as_ref()))))}
                {glyph(Glyph::Onward)}
            </button>
        </li>
    }
}

fn spark(spark: Option<&Spark>) -> AnyView {
    let Some(spark) = spark else {
        return view! { <span class="spark-none" aria-hidden="true"></span> };
    };
    view! {
        <svg class="spark" viewBox="0 -1 72 38" role="img" aria-label=spark.label.clone() focusable="false">
            <path class="spark-grid" d="M0 0H72M0 18H72M0 36H72" />
            <path class="chart-band" d=spark.band.clone() />
            <path class="spark-line" d=spark.line.clone() />
        </svg>
    }
}

/// Behind a tap, in the squad's order: at least so many, with the usual caution.
fn everyones_load(load: &[(String, String)]) -> AnyView {
    let rows: Vec<_> =
        load.iter().map(|(name, line)| view! { <li><bdi>{name.clone()}</bdi>": "{line.clone()}</li> }).collect();
    let none = load.is_empty().then(|| view! { <p>{load_words::SQUAD_NONE}</p> });
    view! {
        <details class="weeks-how">
            <summary data-key="load-all">{load_words::SQUAD}</summary>
            {none}
            <ul class="unseen-names" data-fig="load-all">{rows}</ul>
            <p class="hint">{load_words::WHAT_LINES[0]}</p>
            <p class="caution">{load_words::CAUTION}</p>
        </details>
    }
}

/// Behind a tap, for the coach's eyes: names in the squad's order.
fn not_noticed(unseen: &NotNoticed) -> AnyView {
    let names: Vec<_> = unseen.names.iter().map(|name| view! { <li><bdi>{name.clone()}</bdi></li> }).collect();
    view! {
        <details class="weeks-how">
            <summary data-key="not-noticed">{squad_words::NOT_NOTICED}</summary>
            <p>{unseen.line.clone()}</p>
            <ul class="unseen-names" data-fig="not-noticed">{names}</ul>
            <p class="hint">{squad_words::NOT_NOTICED_LINE}</p>
        </details>
    }
}

/// What there is to say while the levels are not there.
fn standing(state: &State) -> Option<AnyView> {
    Some(match state {
        State::Known => return None,
        State::Working => view! { <p class="hint" role="status" data-fig="working">{words::WORKING}</p> },
        State::Nothing => {
            view! { <Empty heading=words::NOTHING line=words::NOTHING_LINE picture=|| court(Picture::Told) /> }
        }
        State::Trouble(why) => {
            let line = format!("{} {why}", words::NOT_WORKED);
            view! { <p class="fault" role="alert">{line}</p> }
        }
    })
}
