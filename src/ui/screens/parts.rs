//! Pieces that several screens share: the head, choices, steppers, switches, rows. No screen of its own.

use leptos::prelude::*;

use super::pictures::{Glyph, glyph};
use crate::app::action::Action;
use crate::app::screen::Screen;
use crate::app::view::report::{Missing, missing};
use crate::app::words::screens as words;
use crate::ui::markup::{Show, view};
use crate::ui::shell::Shell;
use crate::ui::widgets::{Press, Turn, clicked};

/// The way back, the one `h1`, and the net under it.
#[component]
pub fn Head(
    #[prop(into)] title: Signal<String>,
    shell: Shell,
    /// Where the arrow leads, and its words for those who can't see it.
    #[prop(optional)]
    back: Option<(Screen, &'static str)>,
    /// What stands at the right, such as the lamp that says saved.
    #[prop(optional, into)]
    aside: ViewFn,
) -> impl IntoView {
    let demo = shell.view(|m| m.demo);
    view! {
        <Show when=move || demo.get()>
            <p class="demo-band">
                <span>{words::DEMO_BAND}</span>
                <button class="demo-leave" type="button" data-key="demo-out" on:click=shell.sends(Action::DemoLeft)>
                    {words::DEMO_LEAVE}
                </button>
            </p>
        </Show>
        <header class="head">
            {back
                .map(|(to, label)| {
                    view! {
                        <button
                            class="head-back"
                            type="button"
                            data-key="back"
                            aria-label=label
                            on:click=shell.sends(Action::Go(to))
                        >
                            {glyph(Glyph::Back)}
                        </button>
                    }
                })}
            <h1 class="head-title" tabindex="-1" dir="auto">
                {move || title.get()}
            </h1>
            {aside.run()}
        </header>
        <div class="net" aria-hidden="true"></div>
    }
}

/// One of a few large answers, with room for a picture.
#[component]
pub fn Choice(
    key: String,
    #[prop(into)] label: String,
    #[prop(into)] chosen: Signal<bool>,
    #[prop(into)] on_tap: Press,
    #[prop(optional, into)] picture: ViewFn,
) -> impl IntoView {
    view! {
        <button
            class="choice"
            type="button"
            data-key=key
            aria-pressed=move || chosen.get().to_string()
            on:click=clicked(move |_| on_tap.call())
        >
            {picture.run()}
            <span class="choice-label">{label}</span>
            <span class="choice-tick" aria-hidden="true">
                {glyph(Glyph::Tick)}
            </span>
        </button>
    }
}

/// What opens and closes what stands under it.
#[component]
pub fn Fold(
    key: &'static str,
    label: &'static str,
    #[prop(into)] open: Signal<bool>,
    #[prop(into)] on_tap: Press,
    /// A figure at its end, and what that is called.
    #[prop(optional)]
    count: Option<(&'static str, Signal<String>)>,
) -> impl IntoView {
    view! {
        <button
            class="fold"
            type="button"
            data-key=key
            aria-expanded=move || open.get().to_string()
            on:click=clicked(move |_| on_tap.call())
        >
            <span class="fold-label">{label}</span>
            {count
                .map(|(fig, count)| {
                    view! {
                        <span class="fold-count" data-fig=fig>
                            {move || count.get()}
                        </span>
                    }
                })}
            {glyph(Glyph::Down)}
        </button>
    }
}

/// `− 30 +` with its words. At an end of its range the key there rests.
#[component]
pub fn Stepper(
    key: &'static str,
    label: &'static str,
    /// What it is, where its words alone don't say.
    #[prop(optional)]
    line: Option<&'static str>,
    #[prop(into)] figure: Signal<String>,
    #[prop(into)] at_least: Signal<bool>,
    #[prop(into)] at_most: Signal<bool>,
    /// `true`: one more.
    #[prop(into)]
    on_step: Turn,
) -> impl IntoView {
    let (less, more) = (on_step.clone(), on_step);
    view! {
        <div class="stepper" role="group" aria-label=label>
            <span class="stepper-label">{label}</span>
            <span class="stepper-keys">
                <button
                    class="stepper-key"
                    type="button"
                    data-key=format!("{key}-less")
                    aria-label=format!("{label}: {}", words::LESS)
                    prop:disabled=move || at_least.get()
                    on:click=clicked(move |_| less.call(false))
                >
                    {glyph(Glyph::Minus)}
                </button>
                <output class="stepper-figure" data-fig=key>
                    {move || figure.get()}
                </output>
                <button
                    class="stepper-key"
                    type="button"
                    data-key=format!("{key}-more")
                    aria-label=format!("{label}: {}", words::MORE)
                    prop:disabled=move || at_most.get()
                    on:click=clicked(move |_| more.call(true))
                >
                    {glyph(Glyph::Plus)}
                </button>
            </span>
            {line.map(|line| view! { <span class="hint stepper-line">{line}</span> })}
        </div>
    }
}

/// On or off, told by where the knob stands and by its shape.
#[component]
pub fn Switch(
    key: &'static str,
    label: &'static str,
    #[prop(optional)] line: Option<&'static str>,
    #[prop(into)] on: Signal<bool>,
    /// It can't be turned now; why stands beside it.
    #[prop(into, optional)]
    off: Signal<bool>,
    #[prop(into)] on_tap: Turn,
) -> impl IntoView {
    view! {
        <button
            class="switch"
            type="button"
            role="switch"
            data-key=key
            aria-checked=move || on.get().to_string()
            prop:disabled=move || off.get()
            on:click=clicked(move |_| on_tap.call(!on.get_untracked()))
        >
            <span class="switch-words">
                <span class="switch-label">{label}</span>
                {line.map(|line| view! { <span class="hint">{line}</span> })}
            </span>
            <span class="switch-track" aria-hidden="true">
                <span class="switch-knob">{glyph(Glyph::Tick)}</span>
            </span>
        </button>
    }
}

/// Goes to another screen; a row with an arrow.
/// What couldn't be read and lies set aside.
pub fn aside(records: &[String]) -> Option<AnyView> {
    let list: Vec<_> = records.iter().map(|text| view! { <li><code dir="auto">{text.clone()}</code></li> }).collect();
    (!list.is_empty()).then(|| {
        view! {
            <section class="card" data-fig="aside">
                <h2 class="section-head">{words::ASIDE_HEAD}</h2>
                <p class="hint">{words::ASIDE_LINE}</p>
                <ul class="aside-list">{list}</ul>
            </section>
        }
    })
}

#[component]
pub fn WayTo(
    key: &'static str,
    label: &'static str,
    #[prop(optional)] line: Option<&'static str>,
    to: Screen,
    shell: Shell,
) -> impl IntoView {
    view! {
        <button class="way" type="button" data-key=key on:click=shell.sends(Action::Go(to))>
            <span class="way-words">
                <span class="way-label">{label}</span>
                {line.map(|line| view! { <span class="hint">{line}</span> })}
            </span>
            {glyph(Glyph::Onward)}
        </button>
    }
}

/// What stands where there is nothing yet: a sentence, why, and what to do.
#[component]
pub fn Empty(heading: &'static str, line: &'static str, #[prop(optional, into)] picture: ViewFn) -> impl IntoView {
    view! {
        <section class="empty">
            {picture.run()}
            <h2 class="empty-heading">{heading}</h2>
            <p>{line}</p>
        </section>
    }
}

/// Something the address names and this phone hasn't.
#[component]
pub fn NotHere(screen: &'static str, back: (Screen, &'static str), shell: Shell) -> impl IntoView {
    let missing = shell.view(missing);
    let title = Signal::derive(move || match missing.get() {
        Missing::Gone => words::GONE_TITLE.to_owned(),
        Missing::BeingRead | Missing::Unread(_) => words::READING_TITLE.to_owned(),
    });
    view! {
        <main class="screen" data-screen=screen>
            <Head title shell back />
            {move || match missing.get() {
                Missing::Gone => view! { <p class="lead">{words::GONE}</p> },
                Missing::BeingRead => view! { <p class="loading" role="status">{words::READING}</p> },
                Missing::Unread(why) => unread(why, shell),
            }}
            <div class="foot">
                <button class="big" type="button" data-key="go-back" on:click=shell.sends(Action::Go(back.0))>
                    {back.1}
                </button>
            </div>
        </main>
    }
}

/// A practice that couldn't be read: why, and the way to try again.
pub fn unread(why: String, shell: Shell) -> AnyView {
    view! {
        <p class="lead" role="alert">{why}</p>
        {read_again(shell)}
    }
}

/// A quiet key for what may be gone from the screen by the time it is pressed: then nothing is asked.
pub fn quiet(key: &'static str, label: AnyView, shell: Shell, ask: impl Fn() -> Option<Action> + 'static) -> AnyView {
    let tapped = clicked(move |_| {
        if let Some(action) = ask() {
            shell.send(action);
        }
    });
    view! {
        <button class="quiet" type="button" data-key=key on:click=tapped>
            {label}
        </button>
    }
}

/// Once more.
pub fn read_again(shell: Shell) -> AnyView {
    view! {
        <button class="quiet" type="button" data-key="read-again" on:click=shell.sends(Action::ReadAgain)>
            {words::READ_AGAIN}
        </button>
    }
}

/// Over a list that may lack what the database holds.
pub fn closed_hint(line: &'static str, shell: Shell) -> AnyView {
    view! {
        <p class="hint">{line}</p>
        {read_again(shell)}
    }
}
