//! Children who may have been entered twice: a pair a card, one tap an answer; what was said stands below and can be taken back.

use leptos::prelude::*;

use super::parts::Head;
use super::parts_out::choice;
use super::pictures::{Glyph, glyph};
use crate::app::action::Action;
use crate::app::joining::JoiningTap;
use crate::app::screen::Screen;
use crate::app::view::joining::{AskView, JoiningView, SaidRow, SideView};
use crate::app::words::{joining as words, screens};
use crate::domain::ids::EntryId;
use crate::ui::markup::{live, view};
use crate::ui::part::Part;
use crate::ui::shell::Shell;
use crate::ui::widgets::clicked;

#[component]
pub fn Joining(view: Part<JoiningView>, shell: Shell) -> impl IntoView {
    let asks =
        move || view.with(|v| v.asks.iter().enumerate().map(|(i, ask)| asked(i, ask, shell)).collect::<Vec<_>>());
    let joined =
        move || view.with(|v| said("joined", (words::JOINED, words::JOINED_LINE, words::BACK), &v.joined, shell));
    let apart =
        move || view.with(|v| said("apart", (words::APART, words::APART_LINE, words::ASK_AGAIN), &v.apart, shell));
    view! {
        <main class="screen" data-screen="joining">
            <Head title=words::TITLE.to_owned() shell back=(Screen::Squad, screens::BACK_TO_SQUAD) />
            <p class="hint" data-fig="lead">{move || view.with(|v| v.lead)}</p>
            {live(asks)}
            {live(joined)}
            {live(apart)}
            <Others view shell />
        </main>
    }
}

/// Two of whom nobody asks.
#[component]
fn Others(view: Part<JoiningView>, shell: Shell) -> impl IntoView {
    let (kept, also) = (RwSignal::new(0usize), RwSignal::new(0usize));
    let names = Part::new(move || view.with(|v| v.everyone.iter().map(|(_, name)| name.clone()).collect::<Vec<_>>()));
    let two = move || {
        view.with(|v| {
            let of = |at: usize| v.everyone.get(at).map(|(player, _)| *player);
            of(kept.get()).zip(of(also.get())).filter(|(stays, also)| stays != also)
        })
    };
    view! {
        <details class="parts-out card">
            <summary data-key="others">{words::OTHERS}</summary>
            <p class="hint">{words::OTHERS_LINE}</p>
            {choice("kept", words::KEPT, names, kept)}
            {choice("also", words::ALSO, names, also)}
            <button
                class="keep-key"
                type="button"
                data-key="join"
                prop:disabled=move || two().is_none()
                on:click=clicked(move |_| {
                    if let Some((stays, gone)) = untrack(two) {
                        // Whoever stands there next was not meant.
                        kept.set(0);
                        also.set(0);
                        shell.send(Action::Joining(JoiningTap::Same { stays, also: gone }));
                    }
                })
            >
                {words::SAME_NAME}
            </button>
        </details>
    }
}

/// The way here, from where names may be seen to be there twice.
pub fn twice(line: String, shell: Shell) -> AnyView {
    way("twice", line, Screen::Joining, shell)
}

/// A way whose line says what there is to see.
pub fn way(key: &'static str, line: String, to: Screen, shell: Shell) -> AnyView {
    view! {
        <button class="way" type="button" data-key=key on:click=shell.sends(Action::Go(to))>
            <span class="way-words"><span class="way-label">{line}</span></span>
            {glyph(Glyph::Onward)}
        </button>
    }
}

fn asked(i: usize, ask: &AskView, shell: Shell) -> AnyView {
    let (one, other) = (ask.one.player, ask.other.player);
    // Whichever is kept, it is called the same.
    let alike = ask.one.keep == ask.other.keep;
    let keep = |side: &SideView, which: &str, also| {
        let stays = side.player;
        view! {
            <button
                class="keep-key"
                type="button"
                data-key=format!("keep.{i}.{which}")
                on:click=shell.sends(Action::Joining(JoiningTap::Same { stays, also }))
            >
                {if alike { words::SAME_NAME.to_owned() } else { side.keep.clone() }}
            </button>
        }
    };
    view! {
        <section class="card ask-pair" data-fig=format!("pair.{i}")>
            <div class="pair">{child(&ask.one)} {child(&ask.other)}</div>
            <p class="hint" data-fig=format!("why.{i}")>{ask.why.clone()}</p>
            {(!alike).then(|| view! { <p class="pair-ask">{words::ONE_CHILD}</p> })}
            <div class="pair-keys">
                {keep(&ask.one, "one", other)} {(!alike).then(|| keep(&ask.other, "other", one))}
            </div>
            <button
                class="quiet"
                type="button"
                data-key=format!("two.{i}")
                on:click=shell.sends(Action::Joining(JoiningTap::Two { one, other }))
            >
                {words::TWO}
            </button>
        </section>
    }
}

fn child(side: &SideView) -> AnyView {
    view! {
        <div class="pair-child">
            <span class="shirt">{side.number.clone().unwrap_or_default()}</span>
            <span class="row-words">
                <bdi class="row-name">{side.name.clone()}</bdi>
                <span class="row-line">{side.what.clone()}</span>
            </span>
        </div>
    }
}

fn said(
    key: &'static str,
    (head, line, back): (&'static str, &'static str, &'static str),
    rows: &[SaidRow],
    shell: Shell,
) -> Option<AnyView> {
    let row = |(i, row): (usize, &SaidRow)| {
        let what = view! { <bdi class="row-name">{row.text.clone()}</bdi> };
        said_row(what, (key, i), back, row.id, shell)
    };
    said_rows(key, head, line, rows.iter().enumerate().map(row).collect())
}

/// What was said of two, and the key that takes it back.
pub(super) fn said_row(
    what: AnyView,
    (key, i): (&'static str, usize),
    back: &'static str,
    id: EntryId,
    shell: Shell,
) -> AnyView {
    view! {
        <li class="row-plain">
            {what}
            <button
                class="small-key"
                type="button"
                data-key=format!("{key}.{i}")
                on:click=shell.sends(Action::Joining(JoiningTap::TakenBack(id)))
            >
                {back}
            </button>
        </li>
    }
}

/// All of them under their heading; nothing where there are none.
pub(super) fn said_rows(
    key: &'static str,
    head: &'static str,
    line: &'static str,
    rows: Vec<AnyView>,
) -> Option<AnyView> {
    (!rows.is_empty()).then(|| {
        view! {
            <section data-fig=key>
                <h2 class="section-head">{head}</h2>
                <p class="hint">{line}</p>
                <ul class="rows card">{rows}</ul>
            </section>
        }
    })
}
