//! A copy shown to another phone as a moving code, and one read from there. The shell draws the code on the canvas that stands here,
//! and gives the camera's picture to the video; both are found by their ids.

use leptos::prelude::*;

use super::parts::{Head, Switch};
use super::parts_out::choice;
use super::pictures::{Glyph, glyph};
use crate::app::action::{Action, CopyHow};
use crate::app::codes::{CAMERA, CODE, CodesTap};
use crate::app::screen::Screen;
use crate::app::view::codes::{ReadAt, ReadView, ShowAt, ShowView};
use crate::app::words::{codes as words, screens};
use crate::app::work::Goes;
use crate::ui::markup::{Show, live, view};
use crate::ui::part::Part;
use crate::ui::shell::Shell;
use crate::ui::widgets::clicked;

#[component]
pub fn ShowCode(view: Part<ShowView>, shell: Shell) -> impl IntoView {
    let at = Part::new(move || view.with(|v| v.at.clone()));
    view! {
        <main class="screen" data-screen="show">
            {style()}
            <Head title=words::SHOW_TITLE.to_owned() shell back=(Screen::Share, screens::BACK_TO_SHARE) />
            {live(move || match at.get() {
                ShowAt::Choosing(why_not) => choosing(why_not, view, shell),
                ShowAt::Making => view! { <p class="loading" role="status">{words::MAKING}</p> },
                ShowAt::Standing => standing(view, shell),
            })}
        </main>
    }
}

#[component]
pub fn ReadCode(view: Part<ReadView>, shell: Shell) -> impl IntoView {
    let at = Part::new(move || view.with(|v| v.at.clone()));
    // The video stays where it is from asking to looking.
    let on = Part::new(move || at.with(|at| !matches!(at, ReadAt::Off(_))));
    view! {
        <main class="screen" data-screen="read">
            {style()}
            <Head title=words::READ_TITLE.to_owned() shell back=(Screen::Share, screens::BACK_TO_SHARE) />
            <Show when=move || on.get() fallback=move || view! { <Off at shell /> }>
                <Looking view shell />
            </Show>
        </main>
    }
}

/// Its own rules come with it: they are no part of the first download.
fn style() -> AnyView {
    view! { <link rel="stylesheet" href="codes.css" /> }
}

/// What is to be shown, and what one has to know before.
fn choosing(why_not: Option<String>, view: Part<ShowView>, shell: Shell) -> AnyView {
    let chosen = RwSignal::new(view.with_untracked(|v| v.first));
    let spans = Part::new(move || view.with(|v| v.spans.iter().map(|(label, _)| label.clone()).collect::<Vec<_>>()));
    let start = clicked(move |_| {
        let span = view.with_untracked(|v| v.spans.get(chosen.get_untracked()).map(|(_, span)| span.clone()));
        if let Some(span) = span {
            shell.send(Action::CopyWanted(CopyHow::Code, Goes { span, ..Goes::default() }));
        }
    });
    view! {
        {not(why_not)}
        <p class="lead">{words::SHOW_WHAT}</p>
        // Before anybody sees it.
        <p class="hint">{words::SHOW_FLICKER}</p>
        <section class="card codes-what">
            {choice("span", words::SHOW_SPAN, spans, chosen)}
            <p class="hint">{words::SHOW_SPAN_LINE}</p>
        </section>
        <p>{words::SHOW_HOW}</p>
        <div class="foot">
            <button class="big" type="button" data-key="show-start" prop:disabled=move || view.with(|v| v.busy) on:click=start>
                {words::SHOW_START}
            </button>
            <button class="quiet" type="button" data-key="as-file" on:click=shell.sends(Action::Go(Screen::Share))>
                {words::AS_FILE}
            </button>
        </div>
    }
}

fn standing(view: Part<ShowView>, shell: Shell) -> AnyView {
    let paused = Part::new(move || view.with(|v| v.paused));
    let calm = Signal::derive(move || view.with(|v| v.calm));
    let pause = clicked(move |_| shell.send(Action::Codes(CodesTap::Paused(!paused.get_untracked()))));
    view! {
        <canvas id=CODE class="code" role="img" aria-label=words::CODE width="1" height="1"></canvas>
        // In view beside the code on the smallest phone; all else may be scrolled to.
        <p class="code-how" data-fig="how">{words::SHOW_THEN}</p>
        <p class="hint" data-fig="round">{move || view.with(|v| v.round.clone())}</p>
        {move || view.with(|v| not(v.missing.clone()))}
        <Switch
            key="calm"
            label=words::CALM
            line=words::CALM_LINE
            on=calm
            on_tap=move |calm| shell.send(Action::Codes(CodesTap::Calm(calm)))
        />
        <p class="hint">{words::SHOW_HOLD}</p>
        <p class="hint">{words::NOT_SENT}</p>
        <div class="foot foot-two">
            <button class="quiet" type="button" data-key="show-pause" on:click=pause>
                {move || if paused.get() { words::GO_ON } else { words::PAUSE }}
            </button>
            <button class="big" type="button" data-key="show-done" on:click=shell.sends(Action::Codes(CodesTap::Ended))>
                {words::DONE}
            </button>
        </div>
    }
}

#[component]
fn Off(at: Part<ReadAt>, shell: Shell) -> impl IntoView {
    let why = Part::new(move || {
        at.with(|at| match at {
            ReadAt::Off(why) => why.clone(),
            ReadAt::Asking | ReadAt::Looking => None,
        })
    });
    view! {
        {move || not(why.get())}
        <p class="lead">{words::READ_HOW}</p>
        <p>{words::READ_CAMERA}</p>
        <div class="foot">
            <button class="big" type="button" data-key="camera" on:click=shell.sends(Action::Codes(CodesTap::Camera(true)))>
                {move || if why.get().is_some() { words::READ_AGAIN } else { words::READ_START }}
            </button>
            <button class="quiet" type="button" data-key="open-file" on:click=shell.sends(Action::Go(Screen::Share))>
                {screens::OPEN_FILE}
            </button>
        </div>
    }
}

#[component]
fn Looking(view: Part<ReadView>, shell: Shell) -> impl IntoView {
    let asking = Part::new(move || view.with(|v| v.at == ReadAt::Asking));
    let here = Part::new(move || view.with(|v| v.here.clone()));
    let line = Part::new(move || view.with(|v| v.line.clone()));
    view! {
        <video id=CAMERA class="camera" aria-label=words::CAMERA autoplay playsinline prop:muted=true></video>
        <div class="pieces" aria-hidden="true" data-fig="pieces">
            {move || here.with(|here| here.iter().map(|here| piece(*here)).collect::<Vec<_>>())}
        </div>
        <p class="lead" data-fig="seen" role="status">
            {move || if asking.get() { words::READ_ASKING.to_owned() } else { line.get() }}
        </p>
        <p class="hint">{words::READ_HOW}</p>
        <div class="foot">
            <button class="quiet" type="button" data-key="camera-stop" on:click=shell.sends(Action::Codes(CodesTap::Camera(false)))>
                {words::READ_STOP}
            </button>
        </div>
    }
}

/// Told by its shape as well: full where it is here.
fn piece(here: bool) -> AnyView {
    view! { <i class:is-here=here></i> }
}

/// Why it isn't done, and what to do.
fn not(why: Option<String>) -> Option<AnyView> {
    why.map(|why| {
        view! {
            <section class="notice grave" role="alert" data-fig="not">
                {glyph(Glyph::Warn)}
                <p>{why}</p>
            </section>
        }
    })
}
