//! What is on the screen: markup, signals and touch. Works nothing out and keeps nothing: view models in, actions out.

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
use crate::app::view;
use crate::app::words::board as words;
use markup::{Show, view};
use part::{Part, watch};
use screens::{
    after::After,
    calendar::Calendar,
    calendar::Dates,
    child::Child,
    contacts::Contacts,
    drill::Drill,
    groups::Groups,
    install::Install,
    library::Library,
    library_drill::LibraryDrill,
    my_drills::MyDrills,
    notes::{Asking, Heard, Notes, Noting, OneRemark},
    phone::Phone,
    plan::Plan,
    practice_report::PracticeReport,
    roster::Roster,
    run::Run,
    run_report::RunReport,
    share::Share,
    squad::Squad,
    today::Today,
    weeks::{ChildOverWeeks, OverWeeks},
};
use shell::Shell;
use widgets::{Icon, Key, Shape};

/// The root: the screen of the model, the four places at the foot, and a line for those who hear.
#[component]
pub fn App(shell: Shell) -> impl IntoView {
    provide_context(shell);
    let screen = shell.view(|m| m.screen);
    let in_run = Part::new(move || screen.get().tab().is_none());
    let opening = shell.view(|m| m.storage.state == StorageState::Opening);
    arrive(screen, shell);
    guard::clicks_of_another_screen(screen);
    remote::presses(shell);
    view! {
        {move || {
            // Until the storage has answered, no screen may say that something isn't there.
            let screen = screen.get();
            if opening.get() && screen.tab().is_some() { view! { <Opening /> } } else { screen_of(screen, shell) }
        }}
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

fn screen_of(screen: Screen, shell: Shell) -> AnyView {
    match screen {
        Screen::Today => view! { <Today view=shell.view(view::today::today) shell /> },
        Screen::Squad => view! { <Squad view=shell.view(view::squad::squad) shell /> },
        Screen::Roster => view! { <Roster view=shell.view(view::squad::roster) shell /> },
        Screen::Child(id) => view! { <Child view=shell.view(move |m| view::squad::child(m, id)) shell /> },
        Screen::Drill(_) => view! { <Drill view=shell.view(view::today::drill) shell /> },
        Screen::Library => view! { <Library view=shell.view(view::library::library) shell /> },
        Screen::LibraryDrill(no) => {
            view! { <LibraryDrill view=shell.view(move |m| view::library::library_drill(m, no)) no shell /> }
        }
        Screen::MyDrills => view! { <MyDrills view=shell.view(view::library::my_drills) shell /> },
        Screen::Groups => view! { <Groups view=shell.view(view::groups::groups) shell /> },
        Screen::Calendar => view! { <Calendar view=shell.view(view::calendar::calendar) shell /> },
        Screen::Dates(_) => view! { <Dates view=shell.view(view::calendar::dates_form) shell /> },
        Screen::Plan | Screen::DatePlan(_) => view! { <Plan view=shell.view(view::plan::plan) shell /> },
        Screen::Run(run) => view! { <Run view=shell.view(move |m| view::board::board(m, run)) run shell /> },
        Screen::Contacts(id) => {
            view! { <Contacts view=shell.view(move |m| view::report::contacts(m, id)) shell /> }
        }
        Screen::RunReport(id) => {
            view! { <RunReport view=shell.view(move |m| view::report::run_report(m, id)) shell /> }
        }
        Screen::After => view! { <After view=shell.view(view::report::after) shell /> },
        Screen::PracticeReport(id) => {
            view! { <PracticeReport view=shell.view(move |m| view::report::practice_report(m, id)) shell /> }
        }
        Screen::Weeks(None) => view! { <OverWeeks view=shell.view(view::weeks::weeks) shell /> },
        Screen::Weeks(Some(id)) => {
            view! { <ChildOverWeeks view=shell.view(move |m| view::weeks::child_weeks(m, id)) shell /> }
        }
        Screen::Note => view! { <Noting view=shell.view(view::notes::pad) shell /> },
        Screen::Ask => view! { <Asking view=shell.view(view::notes::ask) shell /> },
        Screen::Notes => view! { <Notes view=shell.view(view::notes::notes) shell /> },
        Screen::Remark(id) => view! { <OneRemark view=shell.view(move |m| view::notes::one(m, id)) shell /> },
        Screen::Heard => view! { <Heard view=shell.view(view::notes::heard) shell /> },
        Screen::Share => view! { <Share view=shell.view(view::share::share) shell /> },
        Screen::Phone => view! { <Phone view=shell.view(view::share::phone) shell /> },
        Screen::Install => view! { <Install view=shell.view(view::share::install) shell /> },
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
fn arrive(screen: Part<Screen>, shell: Shell) {
    let mut drawn = false;
    watch(move || {
        screen.track();
        let first = !std::mem::replace(&mut drawn, true);
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
