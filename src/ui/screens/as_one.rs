//! Practices that may be one: a pair a card, one tap an answer; which other a practice is, by hand; what was said stands below and can be
//! taken back.

use leptos::prelude::*;

use super::joining::{said_row, said_rows};
use super::parts::Head;
use crate::app::action::Action;
use crate::app::joining::JoiningTap;
use crate::app::screen::Screen;
use crate::app::view::as_one::{AsOneView, AskView, ByHand, SaidRow, SideView};
use crate::app::words::{as_one as words, screens};
use crate::domain::ids::PracticeId;
use crate::ui::markup::{live, view};
use crate::ui::part::Part;
use crate::ui::shell::Shell;

#[component]
pub fn OnePractice(view: Part<AsOneView>, of: Option<PracticeId>, shell: Shell) -> impl IntoView {
    let lead = move || {
        view.with(|v| {
            let of = v.of.clone().map(|of| view! { <p class="lead" data-fig="of">{of}</p> });
            let lead = v.lead.map(|lead| view! { <p class="hint" data-fig="lead">{lead}</p> });
            of.into_iter().chain(lead).collect::<Vec<_>>()
        })
    };
    let asks =
        move || view.with(|v| v.asks.iter().enumerate().map(|(i, ask)| asked(i, ask, shell)).collect::<Vec<_>>());
    let hand = move || view.with(|v| v.by_hand.as_ref().map(|hand| by_hand(hand, shell)));
    let joined =
        move || view.with(|v| said("joined", (words::JOINED, words::JOINED_LINE, words::BACK), &v.joined, shell));
    let apart =
        move || view.with(|v| said("apart", (words::APART, words::APART_LINE, words::ASK_AGAIN), &v.apart, shell));
    let back = match of {
        Some(practice) => (Screen::PracticeReport(practice), words::BACK_TO_REPORT),
        None => (Screen::After, screens::BACK_TO_AFTER),
    };
    view! {
        <main class="screen" data-screen="as-one">
            <Head title=words::TITLE.to_owned() shell back />
            {live(lead)}
            {live(asks)}
            {live(hand)}
            {live(joined)}
            {live(apart)}
        </main>
    }
}

fn asked(i: usize, ask: &AskView, shell: Shell) -> AnyView {
    let (one, other) = (ask.one.practice, ask.other.practice);
    view! {
        <section class="card ask-pair" data-fig=format!("pair.{i}")>
            <div class="pair">{side(&ask.one)} {side(&ask.other)}</div>
            <p class="pair-ask">{words::ASK}</p>
            <div class="pair-keys">
                <button
                    class="keep-key"
                    type="button"
                    data-key=format!("one.{i}")
                    on:click=shell.sends(Action::Joining(JoiningTap::OnePractice { stays: one, also: other }))
                >
                    {words::ONE}
                </button>
                <button
                    class="keep-key"
                    type="button"
                    data-key=format!("two.{i}")
                    on:click=shell.sends(Action::Joining(JoiningTap::TwoPractices { one, other }))
                >
                    {words::TWO}
                </button>
            </div>
        </section>
    }
}

fn side(side: &SideView) -> AnyView {
    view! {
        <div class="pair-child">
            <span class="row-words">
                <bdi class="row-name">{side.phone.clone()}</bdi>
                <span class="row-line">{side.when.clone()}</span>
                <span class="row-line">{side.what.clone()}</span>
            </span>
        </div>
    }
}

/// Of any two, the nearest in time first.
fn by_hand(hand: &ByHand, shell: Shell) -> AnyView {
    let stays = hand.of;
    let rows: Vec<_> = hand
        .others
        .iter()
        .enumerate()
        .map(|(i, row)| {
            let also = row.practice;
            view! {
                <li>
                    <button
                        class="row-key"
                        type="button"
                        data-key=format!("other.{i}")
                        on:click=shell.sends(Action::Joining(JoiningTap::OnePractice { stays, also }))
                    >
                        <span class="row-words">
                            <bdi class="row-name">{row.phone.clone()}</bdi>
                            <span class="row-line">{row.when.clone()}</span>
                            <span class="row-line">{row.what.clone()}</span>
                        </span>
                    </button>
                </li>
            }
        })
        .collect();
    view! {
        <section data-fig="by-hand">
            <h2 class="section-head">{words::THE_SAME_AS}</h2>
            <p class="hint">{hand.none.unwrap_or(words::THE_SAME_LINE)}</p>
            {(!rows.is_empty()).then(|| view! { <ul class="rows card">{rows}</ul> })}
        </section>
    }
}

fn said(
    key: &'static str,
    (head, line, back): (&'static str, &'static str, &'static str),
    rows: &[SaidRow],
    shell: Shell,
) -> Option<AnyView> {
    let row = |(i, row): (usize, &SaidRow)| {
        let lines: Vec<_> =
            row.lines.iter().map(|line| view! { <span class="row-line">{line.clone()}</span> }).collect();
        let what = view! {
            <span class="row-words">
                <span class="row-name">{row.day.clone()}</span>
                {lines}
            </span>
        };
        said_row(what, (key, i), back, row.id, shell)
    };
    said_rows(key, head, line, rows.iter().enumerate().map(row).collect())
}
