//! Copies: one goes out, one comes in, one is taken back. What is new in a file is shown before anything is taken in.

use leptos::prelude::*;

use super::joining::{twice, way};
use super::lock::{AskWords, LockOut};
use super::merging::{Looking, preview};
use super::parts::{Head, WayTo};
use super::parts_out::InParts;
use super::pictures::{Glyph, glyph};
use crate::app::action::{Action, CopyHow};
use crate::app::screen::Screen;
use crate::app::view::share::{Answer, ParcelRow, ShareView};
use crate::app::words::copies as told;
use crate::app::words::{codes, lock, screens as words};
use crate::app::work::Goes;
use crate::ui::markup::{Show, live, view};
use crate::ui::part::{Part, watch};
use crate::ui::shell::Shell;
use crate::ui::widgets::Saved;

#[component]
pub fn Share(view: Part<ShareView>, shell: Shell) -> impl IntoView {
    let saved = Signal::derive(move || view.with(|v| v.saved.clone()));
    let offered = Part::new(move || view.with(|v| v.parcel.clone()));
    // What is told or offered stands at the top; the key that asked for it may be far below.
    let at_top = Part::new(move || {
        view.with(|v| [v.answer.is_some(), v.given.is_some(), v.parcel.is_some(), v.locked.is_some()])
    });
    watch(move || {
        if at_top.with(|told| told.contains(&true)) {
            window().scroll_to_with_x_and_y(0.0, 0.0);
        }
    });
    view! {
        <main class="screen" data-screen="share">
            <Head title=words::SHARE.to_owned() shell aside=move || view! { <Saved saved shell /> } />
            {move || view.with(|v| v.answer.as_ref().map(|a| answer(a, shell)))}
            {move || {
                offered
                    .with(|o| match o {
                        // Nothing stands above it: what is new is what the coach came to see.
                        Some(parcel) => preview(parcel, shell).into_any(),
                        None => view! { <NothingOffered view shell /> },
                    })
            }}
        </main>
    }
}

/// What was taken in before, the way to the phone's own page, and the ways out and in.
#[component]
fn NothingOffered(view: Part<ShareView>, shell: Shell) -> impl IntoView {
    // A file that asks for its words has the screen for itself.
    let locked = Part::new(move || view.with(|v| v.locked.is_some()));
    let asks_name = Part::new(move || view.with(|v| v.asks_name));
    view! {
        <Show when=move || !locked.get()>
            {move || view.with(|v| v.twice.clone().map(|line| twice(line, shell)))}
            {live(move || view.with(|v| v.as_one.clone().map(|line| way("as-one", line, Screen::AsOne(None), shell))))}
            {move || view.with(|v| v.given.as_ref().map(|text| given(text, shell)))}
            {move || view.with(|v| taken(&v.parcels, shell))}
            <Show when=move || !asks_name.get()>
                <WayTo key="phone" label=words::THIS_PHONE line=words::THIS_PHONE_LINE to=Screen::Phone shell />
            </Show>
        </Show>
        <OutOrLocked view shell />
    }
}

/// A locked file that was chosen stands in the place of everything else.
#[component]
fn OutOrLocked(view: Part<ShareView>, shell: Shell) -> impl IntoView {
    let locked = Part::new(move || view.with(|v| v.locked.is_some()));
    view! {
        <Show when=move || locked.get() fallback=move || view! { <Out view shell /> }>
            <AskWords view shell />
        </Show>
    }
}

/// The two ways out and the way in, at thumb reach.
#[component]
fn Out(view: Part<ShareView>, shell: Shell) -> impl IntoView {
    let writing = Part::new(move || view.with(|v| v.writing));
    let reading = Part::new(move || view.with(|v| v.reading && v.looking.is_none()));
    let looking = Part::new(move || view.with(|v| v.looking.clone()));
    let is_looking = Part::new(move || looking.with(Option::is_some));
    let ready = Part::new(move || view.with(|v| v.ready));
    let can_share = Part::new(move || view.with(|v| v.can_share));
    let name = Part::new(move || view.with(|v| v.device_name.clone()));
    let asks_name = Part::new(move || view.with(|v| v.asks_name));
    view! {
        // Above the foot, which keeps only keys: with large text it would hide the page.
        <p class="lead" data-fig="since">{move || view.with(|v| v.since.clone())}</p>
        // Before the first copy it is seen without scrolling, on the smallest phone too.
        <Show when=move || asks_name.get()>{device_name(name, shell)}</Show>
        <p class="hint">{words::COPY_WHAT}</p>
        <WayTo key="show" label=codes::SHOW line=codes::SHOW_LINE to=Screen::Show shell />
        <WayTo key="read" label=codes::READ line=codes::READ_LINE to=Screen::Read shell />
        <InParts view writing shell />
        <LockOut view writing shell />
        <Show
            when=move || asks_name.get()
            fallback=move || view! { {device_name(name, shell)} }
        >
            <WayTo key="phone" label=words::THIS_PHONE line=words::THIS_PHONE_LINE to=Screen::Phone shell />
        </Show>
        <p class="loading" role="status">
            {move || {
                let locking = view.with(|v| v.locking).then_some(lock::LOCKING);
                let writing = locking.or(writing.get().then_some(words::COPY_WRITING));
                writing.or(reading.get().then_some(told::TAKING_IN))
            }}
        </p>
        <Show when=move || is_looking.get()>
            <Looking view=looking shell />
        </Show>
        <div class="foot">
            <Show when=move || ready.get()>
                <button class="big" type="button" data-key="copy-send" prop:disabled=move || writing.get() on:click=shell.sends(Action::CopySent)>
                    {words::COPY_SEND}
                </button>
            </Show>
            <Show when=move || can_share.get() && !ready.get()>
                <button
                    class="big"
                    type="button"
                    data-key="copy-share"
                    prop:disabled=move || writing.get()
                    on:click=shell.sends(Action::CopyWanted(CopyHow::ShareSheet, Goes::default()))
                >
                    {words::COPY_SHARE}
                </button>
            </Show>
            <button
                class=move || if can_share.get() { "quiet" } else { "big" }
                type="button"
                data-key="copy-download"
                prop:disabled=move || writing.get()
                on:click=shell.sends(Action::CopyWanted(CopyHow::Download, Goes::default()))
            >
                {words::COPY_DOWNLOAD}
            </button>
            <label class="quiet file-key">
                <span>{words::OPEN_FILE}</span>
                <span class="hint">{words::OPEN_LINE}</span>
                <input
                    class="file-input"
                    type="file"
                    data-key="file"
                    on:change:target=move |ev| {
                        let input = ev.target();
                        if let Some(file) = input.files().and_then(|files| files.get(0)) {
                            shell.open_file(file);
                        }
                        // So that the same file can be chosen again.
                        input.set_value("");
                    }
                />
            </label>
        </div>
    }
}

/// What this phone is called: asked where it first matters to somebody else, and changed in the same place.
pub(super) fn device_name(name: Part<String>, shell: Shell) -> impl IntoView {
    view! {
        <label class="field card">
            <span class="field-label">{words::DEVICE}</span>
            <span class="hint">{words::DEVICE_LINE}</span>
            <input
                class="input"
                data-field="device-name"
                type="text"
                dir="auto"
                autocomplete="off"
                prop:value=move || name.get()
                on:input:target=move |ev| shell.send(Action::DeviceNameTyped(ev.target().value()))
            />
        </label>
    }
}

fn answer(answer: &Answer, shell: Shell) -> impl IntoView + use<> {
    let refused = answer.refused;
    view! {
        <section class="notice" class:grave=refused role="alert" data-fig="answer">
            {glyph(if refused { Glyph::Warn } else { Glyph::Tick })}
            <p>{answer.text.clone()}</p>
            <div class="notice-keys">
                <button class="notice-act" type="button" data-key="close" on:click=shell.sends(Action::AnswerSeen)>
                    {words::ANSWER_SEEN}
                </button>
            </div>
        </section>
    }
}

/// What became of a file that the browser was given, only the coach can see.
fn given(text: &str, shell: Shell) -> impl IntoView + use<> {
    let key = |key: &'static str, label: &'static str, there: bool| {
        view! {
            <button class="notice-act" type="button" data-key=key on:click=shell.sends(Action::CopySeen(there))>
                {label}
            </button>
        }
    };
    view! {
        <section class="notice" role="alert" data-fig="given">
            <p>{text.to_owned()}</p>
            <div class="notice-keys">
                {key("copy-there", words::COPY_THERE, true)} {key("copy-not-there", words::COPY_NOT_THERE, false)}
            </div>
        </section>
    }
}

fn taken(parcels: &[ParcelRow], shell: Shell) -> Option<impl IntoView + use<>> {
    let rows: Vec<_> = parcels.iter().enumerate().map(|(i, row)| parcel(i, row, shell)).collect();
    (!rows.is_empty()).then(|| {
        view! {
            <section>
                <h2 class="section-head">{words::PARCELS}</h2>
                <ul class="rows card">{rows}</ul>
            </section>
        }
    })
}

/// A file that was taken in. What goes with it is told before it goes.
fn parcel(i: usize, row: &ParcelRow, shell: Shell) -> AnyView {
    let (key, accepted) = (row.key.clone(), row.accepted);
    let tapped = if accepted { Action::ParcelBackAsked(Some(key.clone())) } else { Action::ParcelPutBack(key.clone()) };
    let asked = row.asks.clone().map(|line| {
        view! {
            <div class="parcel-asks" role="status">
                <p>{line}</p>
                <div class="notice-keys">
                    <button class="small-key" type="button" data-key=format!("parcel-sure.{i}") on:click=shell.sends(Action::ParcelTakenBack(key))>
                        {words::PARCEL_SURE}
                    </button>
                    <button class="small-key" type="button" data-key=format!("parcel-stays.{i}") on:click=shell.sends(Action::ParcelBackAsked(None))>
                        {words::PARCEL_STAYS}
                    </button>
                </div>
            </div>
        }
    });
    let asks = asked.is_some();
    view! {
        <li class="row-plain parcel-row">
            <span class="row-words">
                <bdi class="row-name">{row.name.clone()}</bdi>
                <span class="row-line">{row.what.clone()}</span>
                {(!accepted).then(|| view! { <span class="badge">{words::PARCEL_OUT}</span> })}
            </span>
            {(!asks)
                .then(|| {
                    view! {
                        <button class="small-key" type="button" data-key=format!("parcel-back.{i}") on:click=shell.sends(tapped)>
                            {if accepted { words::PARCEL_BACK } else { words::PARCEL_AGAIN }}
                        </button>
                    }
                })}
            {asked}
        </li>
    }
}
