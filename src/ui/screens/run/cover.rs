//! What lies over the keys when none of them answers: one sentence and the ways out. Moves nothing under it.

use leptos::prelude::*;
use web_sys::wasm_bindgen::JsCast;
use web_sys::{Element, HtmlElement};

use crate::app::action::Action;
use crate::app::screen::Screen;
use crate::app::view::board::{BoardView, Cover};
use crate::app::words::board as words;
use crate::domain::ids::RunId;
use crate::ui::markup::{live, view};
use crate::ui::part::{Part, watch};
use crate::ui::shell::Shell;
use crate::ui::watched::Watched;
use crate::ui::widgets::{HoldKey, Icon, Key, Shape};

#[component]
pub fn OverKeys(view: Watched<BoardView>, run: RunId, shell: Shell) -> impl IntoView {
    let cover = view.part(|v| v.cover.clone());
    // That of a moment after the start is gone before anyone has heard it.
    take_focus(view.part(|v| v.cover.as_ref().is_some_and(|c| *c != Cover::Asking)));
    live(move || {
        let cover = cover.get()?;
        let class = match cover {
            Cover::Over { .. } => "cover",
            Cover::Asking | Cover::Elsewhere | Cover::Finished | Cover::Pocket => "cover is-whole",
        };
        let line = words::cover(&cover).to_owned();
        // Over everything it is the heading, because the head under it rests.
        let line = if matches!(cover, Cover::Over { .. }) {
            view! { <p id="cover-line" class="cover-line" tabindex="-1">{line}</p> }
        } else {
            view! { <h1 id="cover-line" class="cover-line" tabindex="-1">{line}</h1> }
        };
        Some(view! {
            <section class=class role="dialog" aria-labelledby="cover-line">
                <div class="cover-card">
                    {line}
                    <div class="cover-ways">{ways(&cover, run, shell)}</div>
                </div>
            </section>
        })
    })
}

/// What lies under a cover rests, so the focus comes to its sentence, which is read; once it goes, what had the focus has it
/// again.
fn take_focus(covered: Part<bool>) {
    let (mut was, mut had) = (false, None::<HtmlElement>);
    watch(move || {
        let is = covered.get();
        if is && !was {
            had = document().active_element().and_then(|e| e.dyn_into().ok());
            // Drawn by the time the frame is.
            request_animation_frame(|| focus(document().get_element_by_id("cover-line")));
        } else if was && !is {
            let had = had.take();
            request_animation_frame(move || {
                let there = had.filter(|e| e.is_connected()).map(Element::from);
                focus(there.or_else(|| document().query_selector("main h1").ok().flatten()));
            });
        }
        was = is;
    });
}

fn focus(element: Option<Element>) {
    // What refuses the focus is still there to be read.
    if let Some(element) = element.and_then(|e| e.dyn_into::<HtmlElement>().ok())
        && let Err(why) = element.focus()
    {
        leptos::logging::warn!("the focus stays where it was: {why:?}");
    }
}

fn ways(cover: &Cover, run: RunId, shell: Shell) -> AnyView {
    let way = move |key: &'static str, first: bool, word: &'static str, action: Action| {
        view! {
            <Key
                key
                class=if first { "way-out is-first" } else { "way-out" }
                press=shell.press(action.clone())
            >
                {word}
            </Key>
        }
    };
    match cover {
        Cover::Asking | Cover::Elsewhere => view! {
            {way("take-over", true, words::GO_ON_HERE, Action::TakeOver(run))}
            {way("leave", false, words::LEAVE, Action::Go(Screen::Today))}
        },
        Cover::Over { ways, .. } => {
            let more = [
                ways.again.then(|| way("again", false, words::AGAIN, Action::Again(run))),
                ways.play_on.then(|| way("play-on", false, words::PLAY_ON, Action::PlayOn)),
            ];
            let more: Vec<_> = more.into_iter().flatten().collect();
            view! {
                {way("over-finish", true, words::FINISH, Action::Finish)}
                <div class="cover-more">{more}</div>
            }
        }
        Cover::Finished => view! {
            {way("report", true, words::SEE_REPORT, Action::Go(Screen::RunReport(run)))}
            {way("reopen", false, words::OPEN_AGAIN, Action::RunReopened(run))}
            {way("leave", false, words::LEAVE, Action::Go(Screen::Today))}
        },
        Cover::Pocket => view! {
            <HoldKey key="uncover" class="hold-key" held=shell.press(Action::Uncovered)>
                <Icon shape=Shape::Hold />
                <span>{words::HOLD_TO_UNCOVER}</span>
            </HoldKey>
        },
    }
}
