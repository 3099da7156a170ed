//! What is on the screen: markup, signals and touch. Works nothing out and keeps nothing: view models in, actions out.

pub mod bulk;
mod guard;
pub mod markup;
pub mod part;
mod remote;
pub mod screens;
pub mod shell;
pub mod watched;
pub mod widgets;

use leptos::prelude::*;
use web_sys::HtmlElement;
use web_sys::wasm_bindgen::JsCast;

use crate::app::action::Action;
use crate::app::model::StorageState;
use crate::app::screen::{Screen, Tab};
use crate::app::words::board as words;
use bulk::Bulk;
use markup::{Show, view};
use part::{Part, watch};
use shell::Shell;
use widgets::{Icon, Key, Shape};

/// The root: the screen of the model, the four places at the foot, and a line for those who hear.
#[component]
pub fn App(shell: Shell, bulk: Bulk) -> impl IntoView {
    provide_context(shell);
    let screen = shell.view(|m| m.screen);
    let in_run = Part::new(move || screen.get().tab().is_none());
    let opening = shell.view(|m| m.storage.state == StorageState::Opening);
    let shown = bulk.shown(screen, opening);
    arrive(Part::new(move || shown.with(|s| (s.screen(), s.is_drawn()))), shell);
    guard::clicks_of_another_place(screen);
    remote::presses(shell);
    view! {
        // Of screens that nobody sees first: no part of the first download.
        <link rel="stylesheet" href="library.css" />
        <link rel="stylesheet" href="after.css" />
        <link rel="stylesheet" href="merging.css" />
        <link rel="stylesheet" href="notes.css" />
        <link rel="stylesheet" href="calendar.css" />
        {move || bulk.draw(shown.get(), shell)}
        <Show when=move || !in_run.get()>
            <Tabs screen shell />
        </Show>
        <div class="visually-hidden">
            <p class="said" role="status" aria-live="polite">
                {shell.said()}
            </p>
        </div>
    }
}

/// The storage is being opened: a moment, usually.
#[component]
fn Opening() -> impl IntoView {
    view! {
        <main class="screen" data-screen="opening">
            <h1 tabindex="-1">{words::OPENING_ALL}</h1>
        </main>
    }
}

#[component]
fn Tabs(screen: Part<Screen>, shell: Shell) -> impl IntoView {
    let tab = Part::new(move || screen.get().tab());
    let key = move |to: Tab| {
        let (id, shape) = match to {
            Tab::Today => ("tab.today", Shape::Today),
            Tab::Squad => ("tab.squad", Shape::Squad),
            Tab::After => ("tab.after", Shape::After),
            Tab::Share => ("tab.share", Shape::Share),
        };
        view! {
            <Key
                key=id
                class="tab"
                current=Signal::derive(move || (tab.get() == Some(to)).then_some("page"))
                press=shell.press(Action::Go(to.screen()))
            >
                <Icon shape />
                <span>{words::tab(to)}</span>
            </Key>
        }
    };
    view! {
        <nav class="tabs" aria-label=words::FOOT>
            {Tab::ALL.map(key).into_iter().collect::<Vec<_>>()}
        </nav>
    }
}

/// On every screen that comes: its heading becomes the document's title and, but for the first, takes the focus; what the screen
/// leads to is brought into view. What was said on the screen before is not said here.
fn arrive(shown: Part<(Screen, bool)>, shell: Shell) {
    let mut drawn = false;
    watch(move || {
        // The first that is drawn: before it there may have been its ground.
        let first = !drawn;
        drawn |= shown.get().1;
        // The heading is drawn by the time the frame is.
        request_animation_frame(move || {
            if !first {
                shell.say(String::new());
            }
            let Ok(Some(heading)) = document().query_selector("main h1") else { return };
            document().set_title(&words::title(&heading.text_content().unwrap_or_default()));
            if first {
                return;
            }
            window().scroll_to_with_x_and_y(0.0, 0.0);
            if let Some(heading) = heading.dyn_ref::<HtmlElement>() {
                // A heading that refuses the focus is still read.
                if let Err(why) = heading.focus() {
                    leptos::logging::warn!("the heading takes no focus: {why:?}");
                }
            }
            if let Ok(Some(lead)) = document().query_selector("main [data-lead]") {
                // Its end at the foot of the page, above the tabs: `scroll-margin` leaves the room.
                lead.scroll_into_view_with_bool(false);
            }
        });
    });
}
