//! The first screen of all: nobody is in the squad yet. What the app is for, the way in, and a look round first. In the program
//! itself, before the bulk of the app is here.

use leptos::prelude::*;

use super::notice::told;
use super::parts::{Empty, Head, read_again};
use super::pictures::court;
use crate::app::action::Action;
use crate::app::model::Model;
use crate::app::screen::Screen;
use crate::app::view::board::SavedView;
use crate::app::view::today::{Picture, first_notice};
use crate::app::words::screens as words;
use crate::app::words::today::TODAY;
use crate::ui::markup::{Show, live, view};
use crate::ui::shell::Shell;
use crate::ui::widgets::Saved;

/// Today, on a phone on which nothing is stored: the same as it is drawn by the bulk.
#[component]
pub fn First(shell: Shell) -> impl IntoView {
    let saved = Signal::stored(SavedView::Saved);
    let notices = shell.view(|m| first_notice(m).into_iter().collect::<Vec<_>>());
    view! {
        <main class="screen" data-screen="today">
            <Head title=TODAY.to_owned() shell aside=move || view! { <Saved saved shell /> } />
            {move || notices.with(|n| told(n, shell))}
            <Welcome demo=false shell />
        </main>
    }
}

/// What stands under the head of Today.
#[component]
pub fn Welcome(demo: bool, shell: Shell) -> impl IntoView {
    let closed = shell.view(Model::is_closed);
    let empty = move || {
        let (heading, line) = if closed.get() {
            (words::WELCOME_CLOSED, words::WELCOME_CLOSED_LINE)
        } else {
            (words::WELCOME, words::WELCOME_LINE)
        };
        view! { <Empty heading line /> }
    };
    view! {
        <p class="lead">{words::WELCOME_WHAT}</p>
        {live(empty)}
        // Last, so that on a small screen it is what the keys at the foot cover.
        <div class="empty">{court(Picture::Floor)}</div>
        <div class="foot">
            <Show when=move || closed.get() fallback=|| view! { <p class="hint">{words::WELCOME_SAFE}</p> }>
                {read_again(shell)}
            </Show>
            {(!demo)
                .then(|| {
                    view! {
                        <button class="quiet" type="button" data-key="demo" on:click=shell.sends(Action::DemoEntered)>
                            {words::DEMO_FIRST}
                        </button>
                    }
                })}
            <button class="big" type="button" data-key="roster" on:click=shell.sends(Action::Go(Screen::Roster))>
                {words::WELCOME_KEY}
            </button>
        </div>
    }
}
