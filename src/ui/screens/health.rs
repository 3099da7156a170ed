//! Is everything safe: what lies where, how much room there is, what left last; a check of all of it.

use leptos::prelude::*;

use super::parts::{Head, WayTo, aside};
use super::pictures::{Glyph, glyph};
use crate::app::action::Action;
use crate::app::health::HealthTap;
use crate::app::screen::Screen;
use crate::app::view::health::HealthView;
use crate::app::words::{health as words, screens};
use crate::ui::markup::{Show, live, view};
use crate::ui::part::Part;
use crate::ui::shell::Shell;

#[component]
pub fn Health(view: Part<HealthView>, shell: Shell) -> impl IntoView {
    let checking = Part::new(move || view.with(|v| v.checking));
    let can_put_right = Part::new(move || view.with(|v| v.can_put_right));
    let lines = |lines: &[String]| lines.iter().map(|line| view! { <p>{line.clone()}</p> }).collect::<Vec<_>>();
    view! {
        <main class="screen" data-screen="health">
            <Head title=words::TITLE.to_owned() shell back=(Screen::Phone, screens::BACK_TO_PHONE) />
            {live(move || view.with(|v| answer(&v.answer, v.grave)))}
            <section class="card" data-fig="safe">{live(move || view.with(|v| lines(&v.safe)))}</section>
            <section class="card" data-fig="lies">
                <h2 class="section-head">{words::WHERE}</h2>
                {live(move || view.with(|v| lines(&v.lies)))}
                <p data-fig="since">{move || view.with(|v| v.since.clone())}</p>
                <WayTo key="send" label=screens::SEND_COPY to=Screen::Share shell />
            </section>
            <section class="card" data-fig="check">
                <h2 class="section-head">{words::CHECK_HEAD}</h2>
                <p class="hint">{words::CHECK_LINE}</p>
                <p class="loading" role="status">{move || checking.get().then_some(words::CHECKING)}</p>
                <div role="status" class:fault=move || view.with(|v| v.trouble) data-fig="found">
                    {live(move || view.with(|v| lines(&v.found)))}
                </div>
                <Show when=move || can_put_right.get()>
                    <button
                        class="big"
                        type="button"
                        data-key="put-right"
                        prop:disabled=move || checking.get()
                        on:click=shell.sends(Action::Health(HealthTap::PutRight))
                    >
                        {words::PUT_RIGHT}
                    </button>
                </Show>
                <button
                    class=move || if can_put_right.get() { "quiet" } else { "big" }
                    type="button"
                    data-key="check"
                    prop:disabled=move || checking.get()
                    on:click=shell.sends(Action::Health(HealthTap::Check))
                >
                    {words::CHECK}
                </button>
            </section>
            {live(move || view.with(|v| aside(&v.aside)))}
        </main>
    }
}

/// Before any detail.
fn answer(text: &str, grave: bool) -> impl IntoView + use<> {
    view! {
        <section class="notice" class:grave=grave role="status" data-fig="answer">
            {glyph(if grave { Glyph::Warn } else { Glyph::Tick })}
            <p class="lead">{text.to_owned()}</p>
        </section>
    }
}
