//! Locked copies: one goes out under words, one that came is opened with its words. The words stand in the field, in sight, and nowhere else; with the
//! tap that uses them they leave it.

use leptos::prelude::*;

use crate::app::action::{Action, CopyHow};
use crate::app::lock::{LockTap, Secret};
use crate::app::view::share::ShareView;
use crate::app::words::lock as words;
use crate::ui::markup::{Show, view};
use crate::ui::part::Part;
use crate::ui::shell::Shell;
use crate::ui::widgets::clicked;

/// A copy of everything leaves locked.
#[component]
pub fn LockOut(view: Part<ShareView>, writing: Part<bool>, shell: Shell) -> impl IntoView {
    let typed = RwSignal::new(String::new());
    let can_share = Part::new(move || view.with(|v| v.can_share));
    let locking = Part::new(move || view.with(|v| v.locking));
    let send = move |how: CopyHow| shell.send(Action::Lock(LockTap::Wanted(how, taken(typed))));
    let key = move |key: &'static str, label: &'static str, how: CopyHow| {
        view! {
            <button
                class="small-key"
                type="button"
                data-key=key
                prop:disabled=move || writing.get() || typed.with(|t| t.trim().is_empty())
                on:click=clicked(move |_| send(how))
            >
                {label}
            </button>
        }
    };
    view! {
        <details class="parts-out card">
            <summary data-key="lock">{words::OPEN}</summary>
            <p>{words::LEAD}</p>
            {field(typed, "lock-words")}
            <p class="hint" data-fig="strength">{move || typed.with(|t| words::strength(t))}</p>
            <p>{words::NO_WAY_BACK}</p>
            <div class="notice-keys">
                <Show when=move || can_share.get()>{key("lock-share", words::SEND, CopyHow::ShareSheet)}</Show>
                {key("lock-save", words::SAVE, CopyHow::Download)}
                <Show when=move || locking.get()>{give_up(shell)}</Show>
            </div>
            <p class="hint">{words::NOT_KEPT}</p>
        </details>
    }
}

/// The file that was chosen is locked.
#[component]
pub fn AskWords(view: Part<ShareView>, shell: Shell) -> impl IntoView {
    let typed = RwSignal::new(String::new());
    let name = Part::new(move || view.with(|v| v.locked.as_ref().map(|l| l.name.clone()).unwrap_or_default()));
    let opening = Part::new(move || view.with(|v| v.locked.as_ref().is_some_and(|l| l.opening)));
    // Left in the field: one letter may be all that was wrong with them.
    let try_them = move || shell.send(Action::Lock(LockTap::Words(Secret::new(typed.get_untracked()))));
    view! {
        <section class="card parcel" data-fig="locked">
            <h2 class="section-head">{words::ASK_HEAD}</h2>
            {field(typed, "open-words")}
            <p class="parcel-name" dir="auto">{move || name.get()}</p>
            <p class="hint">{words::ASK_LEAD}</p>
        </section>
        <p class="loading" role="status">{move || opening.get().then_some(words::OPENING)}</p>
        <div class="foot">
            <Show
                when=move || opening.get()
                fallback=move || {
                    view! {
                        <button
                            class="big"
                            type="button"
                            data-key="lock-open"
                            prop:disabled=move || typed.with(String::is_empty)
                            on:click=clicked(move |_| try_them())
                        >
                            {words::TRY}
                        </button>
                    }
                }
            >
                <button
                    class="big"
                    type="button"
                    data-key="lock-stop"
                    on:click=shell.sends(Action::Lock(LockTap::GivenUp))
                >
                    {words::GIVE_UP}
                </button>
            </Show>
            <button
                class="quiet"
                type="button"
                data-key="lock-away"
                on:click=shell.sends(Action::Lock(LockTap::PutAway))
            >
                {words::PUT_AWAY}
            </button>
        </div>
    }
}

fn give_up(shell: Shell) -> AnyView {
    view! {
        <button class="small-key" type="button" data-key="lock-stop" on:click=shell.sends(Action::Lock(LockTap::GivenUp))>
            {words::GIVE_UP}
        </button>
    }
}

/// The words, and the field is empty.
fn taken(typed: RwSignal<String>) -> Secret {
    let words = typed.get_untracked();
    typed.set(String::new());
    Secret::new(words)
}

/// In sight: words that were mistyped unseen would lock the copy for good. No browser keeps or mends them.
fn field(typed: RwSignal<String>, name: &'static str) -> AnyView {
    view! {
        <label class="field">
            <span class="field-label">{words::FIELD}</span>
            <input
                class="input"
                data-field=name
                type="text"
                dir="auto"
                autocomplete="off"
                autocapitalize="none"
                prop:autocorrect=false
                spellcheck="false"
                prop:value=move || typed.get()
                on:input:target=move |ev| typed.set(ev.target().value())
            />
        </label>
    }
}
