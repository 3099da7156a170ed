//! Which key of a remote stands for which key of a board. A field waits for the next press; nothing is typed.

use leptos::ev::{KeyboardEvent, MouseEvent};
use leptos::prelude::*;
use web_sys::HtmlElement;
use web_sys::wasm_bindgen::JsCast;

use crate::app::action::Action;
use crate::app::remote::{Boards, Stands};
use crate::app::view::share::PhoneView;
use crate::app::words::remote as words;
use crate::ui::markup::{live, view};
use crate::ui::part::Part;
use crate::ui::shell::Shell;
use crate::ui::widgets::clicked;

#[component]
pub fn Remote(view: Part<PhoneView>, shell: Shell) -> impl IntoView {
    let waits = RwSignal::new(None::<Stands>);
    let refused = Part::new(move || view.with(|v| v.remote_refused));
    let groups: Vec<_> = Boards::ALL
        .into_iter()
        .map(|boards| {
            let fields: Vec<_> = boards.keys().iter().map(|stands| field(view, shell, *stands, waits)).collect();
            view! {
                <h3 class="remote-head">{words::boards(boards)}</h3>
                <div class="remote-fields">{fields}</div>
            }
        })
        .collect();
    view! {
        <details class="card" data-fig="remote">
            <summary data-key="remote-open">{words::HEAD}</summary>
            <p class="hint">{words::LINE}</p>
            {groups}
            <p class="hint" role="status" data-fig="remote-said">
                {live(move || refused.get().then_some(words::REFUSED))}
            </p>
        </details>
    }
}

fn field(view: Part<PhoneView>, shell: Shell, stands: Stands, waits: RwSignal<Option<Stands>>) -> AnyView {
    let has = Part::new(move || view.with(|v| v.remote.key_of(stands).map(ToOwned::to_owned)));
    let waiting = Signal::derive(move || waits.get() == Some(stands));
    // A second tap frees the key, or stops the waiting.
    let tapped = clicked(move |ev: MouseEvent| {
        take_focus(&ev);
        let again = waits.get_untracked() == Some(stands);
        waits.set((!again).then_some(stands));
        if again {
            shell.send(Action::RemoteKeyFreed(stands));
        }
    });
    let pressed = move |ev: KeyboardEvent| {
        if waits.get_untracked() != Some(stands) || ev.key() == "Tab" {
            return;
        }
        // Not also a press of this field.
        ev.prevent_default();
        if ev.repeat() {
            return;
        }
        if ev.key() != "Escape" {
            shell.send(Action::RemoteKeyGiven(stands, ev.key()));
        }
        waits.set(None);
    };
    let text = move || words::given(has.get().as_deref(), waiting.get());
    view! {
        <button
            class="remote-field"
            type="button"
            data-key=format!("remote.{}", stands.id())
            aria-label=move || words::label(stands, has.get().as_deref(), waiting.get())
            aria-pressed=move || waiting.get().to_string()
            class:is-given=move || has.get().is_some()
            on:click=tapped
            on:keydown=pressed
            on:blur=move |_| {
                // Also heard as the screen goes, and with it what waits.
                if waits.try_get_untracked().flatten() == Some(stands) {
                    waits.try_set(None);
                }
            }
        >
            <span>{words::sense(stands)}</span>
            <b>{text}</b>
        </button>
    }
}

/// Not every browser gives a button the focus at a touch, and only what has it hears the remote.
fn take_focus(ev: &MouseEvent) {
    let Some(field) = ev.current_target().and_then(|target| target.dyn_into::<HtmlElement>().ok()) else { return };
    if let Err(why) = field.focus() {
        leptos::logging::warn!("a field takes no focus, so no key is heard there: {why:?}");
    }
}
