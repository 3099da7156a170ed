//! This phone: what is kept and how safely, how taps are told, the coach's kinds of effort, the demo, the end of it all.

use leptos::prelude::*;

use super::parts::{Head, Stepper, Switch, WayTo, aside};
use super::pictures::{Glyph, glyph};
use super::remote::Remote;
use super::share::device_name;
use crate::app::action::Action;
use crate::app::effect::Call;
use crate::app::goals::GoalsTap;
use crate::app::screen::Screen;
use crate::app::view::share::{LineView, LinesView, PhoneView};
use crate::app::words::{health, screens as words, steps as step_words};
use crate::ui::markup::{Show, live, view};
use crate::ui::part::Part;
use crate::ui::shell::Shell;
use crate::ui::widgets::Saved;

#[component]
pub fn Phone(view: Part<PhoneView>, shell: Shell) -> impl IntoView {
    let saved = Signal::derive(move || view.with(|v| v.saved.clone()));
    let demo = Part::new(move || view.with(|v| v.demo));
    let name = Part::new(move || view.with(|v| v.device_name.clone()));
    view! {
        <main class="screen" data-screen="phone">
            <Head title=words::THIS_PHONE.to_owned() shell back=(Screen::Share, words::BACK_TO_SHARE) aside=move || view! { <Saved saved shell /> } />
            <Kept view shell />
            <WayTo key="health" label=health::OPEN line=health::OPEN_LINE to=Screen::Health shell />
            <Tells view shell />
            <Calls view shell />
            <Remote view shell />
            <Lines view shell />
            <Kinds view shell />
            {device_name(name, shell)}
            <App view shell />
            <Demo view shell />
            <Show when=move || !demo.get()>
                <Erase view shell />
            </Show>
        </main>
    }
}

#[component]
fn Kept(view: Part<PhoneView>, shell: Shell) -> impl IntoView {
    let sentences = move || view.with(|v| v.storage.iter().map(|s| view! { <p>{s.clone()}</p> }).collect::<Vec<_>>());
    let not_saved =
        Part::new(move || view.with(|v| matches!(v.saved, crate::app::view::board::SavedView::NotSaved { .. })));
    let can_ask = Part::new(move || view.with(|v| v.can_ask_lasting));
    view! {
        <section class="card" data-fig="storage">
            <h2 class="section-head">{words::KEPT_HEAD}</h2>
            {live(sentences)}
            <Show when=move || not_saved.get()>
                <button class="big" type="button" data-key="save-again" on:click=shell.sends(Action::SaveAgain)>
                    {words::SAVE_AGAIN}
                </button>
                <WayTo key="send" label=words::SEND_COPY to=Screen::Share shell />
            </Show>
            <Show when=move || can_ask.get()>
                <button class="quiet" type="button" data-key="lasting" on:click=shell.sends(Action::LastingAsked)>
                    {words::LASTING}
                </button>
            </Show>
        </section>
        {live(move || view.with(|v| aside(&v.aside)))}
    }
}

#[component]
fn Tells(view: Part<PhoneView>, shell: Shell) -> impl IntoView {
    let set = move |f: fn(&PhoneView) -> bool| Signal::derive(move || view.with(f));
    let can_vibrate = Part::new(move || view.with(|v| v.has_vibration));
    view! {
        <section class="card">
            <h2 class="section-head">{words::TELLS_HEAD}</h2>
            <Switch key="set-sound" label=words::SOUND on=set(|v| v.sound) on_tap=move |on| shell.send(Action::SoundSet(on)) />
            <Switch
                key="set-voice"
                label=words::VOICE
                line=words::VOICE_LINE
                on=set(|v| v.voice)
                on_tap=move |on| shell.send(Action::VoiceSet(on))
            />
            <Show when=move || can_vibrate.get() fallback=|| view! { <p class="hint">{words::NO_VIBRATION}</p> }>
                <Switch
                    key="set-vibration"
                    label=words::VIBRATION
                    on=set(|v| v.vibration)
                    on_tap=move |on| shell.send(Action::VibrationSet(on))
                />
            </Show>
            <Switch
                key="set-left"
                label=words::LEFT
                line=words::LEFT_LINE
                on=set(|v| v.left_handed)
                on_tap=move |on| shell.send(Action::LeftHandSet(on))
            />
        </section>
    }
}

/// What is called aloud; each call can be off.
#[component]
fn Calls(view: Part<PhoneView>, shell: Shell) -> impl IntoView {
    let silent = Part::new(move || view.with(|v| v.silent));
    let calls = [
        (Call::Name, "call-name", words::CALL_NAME),
        (Call::Phase, "call-phase", words::CALL_PHASE),
        (Call::Swap, "call-swap", words::CALL_SWAP),
        (Call::Pace, "call-pace", words::CALL_PACE),
        (Call::Time, "call-time", words::CALL_TIME),
    ];
    view! {
        <section class="card" data-fig="calls">
            <h2 class="section-head">{words::CALLS_HEAD}</h2>
            <p class="hint">{words::CALLS_LINE}</p>
            {move || silent.get().map(|why| view! { <p class="calls-silent" data-fig="silent">{why}</p> })}
            {calls
                .map(|(call, key, label)| {
                    view! {
                        <Switch
                            key
                            label
                            on=Signal::derive(move || view.with(|v| v.calls.has(call) && v.reaching.has(call)))
                            off=Signal::derive(move || view.with(|v| !v.reaching.has(call)))
                            on_tap=move |on| shell.send(Action::CallSet(call, on))
                        />
                    }
                })}
        </section>
    }
}

/// The wish and the lines of goals and steps: the one place where they are set.
#[component]
fn Lines(view: Part<PhoneView>, shell: Shell) -> impl IntoView {
    let lines = Part::new(move || view.with(|v| v.lines.clone()));
    let stepper =
        move |key: &'static str, label: &'static str, of: fn(&LinesView) -> &LineView, tap: fn(bool) -> GoalsTap| {
            view! {
                <Stepper
                    key
                    label
                    figure=Signal::derive(move || lines.with(|lines| of(lines).figure.clone()))
                    at_least=Signal::derive(move || lines.with(|lines| of(lines).at_least))
                    at_most=Signal::derive(move || lines.with(|lines| of(lines).at_most))
                    on_step=move |more| shell.send(Action::Goals(tap(more)))
                />
            }
        };
    let how: Vec<_> = step_words::HOW_LINES.iter().map(|line| view! { <p class="hint">{*line}</p> }).collect();
    view! {
        <section class="card" data-fig="lines">
            <h2 class="section-head">{step_words::LINES_HEAD}</h2>
            {stepper("wish", step_words::WISH, |lines| &lines.wish, GoalsTap::WishStepped)}
            {stepper("upper", step_words::UPPER, |lines| &lines.upper, GoalsTap::UpperStepped)}
            {stepper("lower", step_words::LOWER, |lines| &lines.lower, GoalsTap::LowerStepped)}
            <details class="weeks-how">
                <summary data-key="lines-how">{step_words::HOW}</summary>
                {how}
            </details>
        </section>
    }
}

#[component]
fn Kinds(view: Part<PhoneView>, shell: Shell) -> impl IntoView {
    let kinds = move || {
        view.with(|v| {
            v.kinds
                .iter()
                .enumerate()
                .map(|(i, kind)| {
                    let removed = kind.clone();
                    view! {
                        <li class="row-plain">
                            <bdi class="row-name">{kind.clone()}</bdi>
                            <button
                                class="small-key"
                                type="button"
                                data-key=format!("kind-remove.{i}")
                                aria-label=format!("{}: {kind}", words::REMOVE)
                                on:click=shell.sends(Action::KindRemoved(removed.clone()))
                            >
                                {glyph(Glyph::Cross)}
                            </button>
                        </li>
                    }
                })
                .collect::<Vec<_>>()
        })
    };
    view! {
        <section class="card">
            <h2 class="section-head">{words::KINDS_HEAD}</h2>
            <p class="hint">{words::KINDS_LINE}</p>
            <ul class="rows">{live(kinds)}</ul>
            <div class="field-and-key">
                <label class="field">
                    <span class="field-label">{words::KIND_NEW}</span>
                    <input
                        class="input"
                        data-field="kind"
                        type="text"
                        dir="auto"
                        autocomplete="off"
                        prop:value=move || view.with(|v| v.new_kind.clone())
                        on:input:target=move |ev| shell.send(Action::KindTyped(ev.target().value()))
                        on:keydown=move |ev| {
                            if ev.key() == "Enter" {
                                shell.send(Action::KindAdded);
                            }
                        }
                    />
                </label>
                <button
                    class="small-key"
                    type="button"
                    data-key="kind-add"
                    prop:disabled=move || view.with(|v| v.new_kind.trim().is_empty())
                    on:click=shell.sends(Action::KindAdded)
                >
                    {words::KIND_ADD}
                </button>
            </div>
        </section>
    }
}

#[component]
fn App(view: Part<PhoneView>, shell: Shell) -> impl IntoView {
    let update = Part::new(move || view.with(|v| v.update));
    view! {
        <section class="card">
            <h2 class="section-head">{words::APP_HEAD}</h2>
            <Show when=move || update.get().is_some()>
                <p role="status">{move || update.get()}</p>
                <button class="quiet" type="button" data-key="update" on:click=shell.sends(Action::UpdateTaken)>
                    {words::UPDATE}
                </button>
            </Show>
            <WayTo key="install" label=words::INSTALL_KEY to=Screen::Install shell />
            // A page of its own, kept with the app.
            <a class="way" href="licences.html" data-key="licences">
                <span class="way-words">
                    <span class="way-label">{words::LICENCES}</span>
                    <span class="hint">{words::LICENCES_LINE}</span>
                </span>
                {glyph(Glyph::Onward)}
            </a>
            <p class="hint" data-fig="version">{move || view.with(|v| words::version(v.version))}</p>
        </section>
    }
}

#[component]
fn Demo(view: Part<PhoneView>, shell: Shell) -> impl IntoView {
    let demo = Part::new(move || view.with(|v| v.demo));
    let key = move || {
        let (key, label, line, action) = if demo.get() {
            ("demo-leave", words::DEMO_LEAVE, words::DEMO_LEAVE_LINE, Action::DemoLeft)
        } else {
            ("demo", words::DEMO, words::DEMO_LINE, Action::DemoEntered)
        };
        view! {
            <p class="hint">{line}</p>
            <button class="quiet" type="button" data-key=key on:click=shell.sends(action.clone())>
                {label}
            </button>
        }
    };
    view! {
        <section class="card">
            <h2 class="section-head">{words::DEMO_HEAD}</h2>
            {live(key)}
        </section>
    }
}

#[component]
fn Erase(view: Part<PhoneView>, shell: Shell) -> impl IntoView {
    let asked = Part::new(move || view.with(|v| v.erase_asked));
    view! {
        <section class="card erase">
            <h2 class="section-head">{words::ERASE_HEAD}</h2>
            {move || view.with(|v| v.not_erased.clone()).map(|text| view! { <p class="lead" role="alert">{text}</p> })}
            <Show
                when=move || asked.get()
                fallback=move || {
                    view! {
                        <p class="hint">{words::ERASE_LINE}</p>
                        <button class="quiet" type="button" data-key="erase" on:click=shell.sends(Action::EraseAsked)>
                            {words::ERASE}
                        </button>
                    }
                }
            >
                <div role="alert">
                    <p class="lead">{words::ERASE_ASK}</p>
                    <p>{words::ERASE_LINE}</p>
                    <p>{words::ERASE_ASK_LINE}</p>
                </div>
                <button class="quiet" type="button" data-key="erase-no" on:click=shell.sends(Action::EraseDeclined)>
                    {words::ERASE_NO}
                </button>
                <button class="danger" type="button" data-key="erase-sure" on:click=shell.sends(Action::EraseSure)>
                    {words::ERASE_SURE}
                </button>
            </Show>
        </section>
    }
}
