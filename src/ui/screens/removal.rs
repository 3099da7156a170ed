//! At the end of a child's page: removed for good, in two steps, the second held.

use leptos::prelude::*;

use crate::app::action::{Action, RemovalTap};
use crate::app::view::removal::{Asked, RemovalView, removal};
use crate::app::words::removal as words;
use crate::ui::markup::{live, view};
use crate::ui::shell::Shell;
use crate::ui::widgets::{HoldKey, clicked};

#[component]
pub fn Removal(shell: Shell) -> impl IntoView {
    let seen = shell.view(removal);
    live(move || seen.get().map(|seen| part(seen, shell)))
}

fn part(seen: RemovalView, shell: Shell) -> AnyView {
    let RemovalView { player, asked } = seen;
    match asked {
        Some(asked) => view! { <section class="card erase" data-fig="removal">{sure(asked, shell)}</section> },
        None => view! {
            <section class="card erase" data-fig="removal">
                <p class="hint">{words::ASK_LINE}</p>
                <button
                    class="quiet"
                    type="button"
                    data-key="child-remove"
                    on:click=clicked(move |_| shell.send(Action::Removal(RemovalTap::Asked(player))))
                >
                    {words::ASK}
                </button>
            </section>
        },
    }
}

/// What it does in one look, the key beneath it in the same view; the rest is folded.
fn sure(asked: Asked, shell: Shell) -> AnyView {
    let Asked { head, look, lines, more, hold, waits } = asked;
    let paragraph = |line: String| view! { <p>{line}</p> };
    let look: Vec<AnyView> = look.into_iter().map(|(word, line)| view! { <dt>{word}</dt> <dd>{line}</dd> }).collect();
    let lines: Vec<AnyView> = lines.into_iter().map(paragraph).collect();
    let more: Vec<AnyView> = more.into_iter().map(paragraph).collect();
    let key = match waits {
        Some(why) => view! { <p class="lead" role="status">{why}</p> },
        None => view! {
            <HoldKey key="child-remove-hold" class="danger hold-key" held=shell.press(Action::Removal(RemovalTap::Sure)) long=LONG>
                <span>{hold}</span>
            </HoldKey>
        },
    };
    // Above the page's own key at the foot.
    request_animation_frame(|| {
        if let Ok(Some(asked)) = document().query_selector("[data-fig=removal-keys]") {
            asked.scroll_into_view_with_bool(false);
        }
    });
    view! {
        <h2 class="section-head">{head}</h2>
        <dl class="look">{look}</dl>
        {lines}
        <div class="removal-keys" data-fig="removal-keys">
            <button class="quiet" type="button" data-key="child-remove-no" on:click=shell.sends(Action::Removal(RemovalTap::Declined))>
                {words::NO}
            </button>
            {key}
        </div>
        <details class="weeks-how" data-fig="removal-more">
            <summary>{words::MORE}</summary>
            {more}
        </details>
    }
}

/// Twice as long as any other hold.
const LONG: std::time::Duration = std::time::Duration::from_millis(1_200);
