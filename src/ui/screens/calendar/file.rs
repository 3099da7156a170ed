//! The dates as a file for another calendar: which ones, and the two ways out.

use leptos::prelude::*;

use super::super::pictures::{Glyph, glyph};
use super::tap;
use crate::app::action::CopyHow;
use crate::app::calendar::{CalendarTap, Span};
use crate::app::view::calendar::CalendarView;
use crate::app::view::share::Answer;
use crate::app::words::calendar as words;
use crate::app::words::screens::ANSWER_SEEN;
use crate::ui::markup::{Show, view};
use crate::ui::part::Part;
use crate::ui::shell::Shell;
use crate::ui::widgets::clicked;

#[component]
pub fn FileOut(view: Part<CalendarView>, shell: Shell) -> impl IntoView {
    let span = Part::new(move || view.with(|v| v.file.span));
    let can_share = Part::new(move || view.with(|v| v.file.can_share));
    let writing = Part::new(move || view.with(|v| v.file.writing));
    let ready = Part::new(move || view.with(|v| v.file.ready));
    let said = Part::new(move || view.with(|v| v.file.answer.clone()));
    let left_out = Part::new(move || view.with(|v| v.file.left_out.clone()));
    let segment = move |key: &'static str, label: &'static str, of: Span| {
        view! {
            <button
                class="segment"
                type="button"
                data-key=key
                aria-pressed=move || (span.get() == of).to_string()
                on:click=shell.sends(tap(CalendarTap::SpanChosen(of)))
            >
                {label}
            </button>
        }
    };
    let want =
        move |how: CopyHow| clicked(move |_| shell.send(tap(CalendarTap::FileWanted(span.get_untracked(), how))));
    view! {
        <section class="card cal-file">
            <h2 class="section-head">{words::FILE}</h2>
            <p class="hint">{words::FILE_LINE}</p>
            <div class="segments" role="group" aria-label=words::SPAN>
                {segment("span-to-come", words::TO_COME, Span::ToCome)}
                {segment("span-season", words::WHOLE, Span::Season)}
            </div>
            {move || {
                left_out
                    .with(|line| {
                        line.clone().map(|line| view! { <p class="hint" data-fig="dates-left-out">{line}</p> })
                    })
            }}
            {move || said.with(|said| said.as_ref().map(|said| answer(said, shell)))}
            <div class="keys-two">
                <Show when=move || ready.get()>
                    <button class="quiet" type="button" data-key="dates-send" on:click=shell.sends(tap(CalendarTap::FileSent))>
                        {words::SHARE_NOW}
                    </button>
                </Show>
                <Show when=move || can_share.get() && !ready.get()>
                    <button
                        class="quiet"
                        type="button"
                        data-key="dates-share"
                        prop:disabled=move || writing.get()
                        on:click=want(CopyHow::ShareSheet)
                    >
                        {words::SHARE}
                    </button>
                </Show>
                <button
                    class="quiet"
                    type="button"
                    data-key="dates-save"
                    prop:disabled=move || writing.get()
                    on:click=want(CopyHow::Download)
                >
                    {words::SAVE}
                </button>
            </div>
        </section>
    }
}

fn answer(said: &Answer, shell: Shell) -> AnyView {
    let refused = said.refused;
    view! {
        <section class="notice" class:grave=refused role="alert" data-fig="dates-answer">
            {glyph(if refused { Glyph::Warn } else { Glyph::Tick })}
            <p>{said.text.clone()}</p>
            <div class="notice-keys">
                <button
                    class="notice-act"
                    type="button"
                    data-key="dates-answer-seen"
                    on:click=shell.sends(tap(CalendarTap::AnswerSeen))
                >
                    {ANSWER_SEEN}
                </button>
            </div>
        </section>
    }
}
