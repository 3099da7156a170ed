//! The note home: the sheet as it will leave, under the court's own band; a tap on a sentence opens it, its cross leaves it out.

use leptos::prelude::*;
use web_sys::HtmlElement;
use web_sys::wasm_bindgen::JsCast;

use super::parts::{Empty, Head, NotHere};
use super::pictures::{Glyph, court, glyph};
use crate::app::action::Action;
use crate::app::home::{HomeTap, Piece, Way};
use crate::app::screen::Screen;
use crate::app::view::home::{HomeView, Line};
use crate::app::view::share::Answer;
use crate::app::view::today::Picture;
use crate::app::words::{home as words, notes as note_words, screens};
use crate::domain::ids::PlayerId;
use crate::ui::markup::{Show, live, view};
use crate::ui::part::Part;
use crate::ui::shell::Shell;

const fn tap(tap: HomeTap) -> Action {
    Action::Home(tap)
}

const fn key_of(piece: Piece) -> &'static str {
    match piece {
        Piece::Effort => "effort",
        Piece::There => "there",
        Piece::Progress => "progress",
        Piece::More => "more",
        Piece::Practised => "practised",
        Piece::Own => "own",
        Piece::Question => "question",
    }
}

#[component]
pub fn NoteHome(view: Part<Option<HomeView>>, player: PlayerId, shell: Shell) -> impl IntoView {
    let back = (Screen::Weeks(Some(player)), words::BACK);
    let state = Part::new(move || view.with(|v| v.as_ref().map(|v| v.nothing)));
    live(move || match state.get() {
        None => view! { <NotHere screen="home" back shell /> },
        Some(true) => view! {
            <main class="screen" data-screen="home">
                <Head title=words::OPEN.to_owned() shell back />
                <Empty heading=words::NOTHING line=words::NOTHING_LINE picture=|| court(Picture::Told) />
            </main>
        },
        Some(false) => page(view, back, shell),
    })
}

fn page(view: Part<Option<HomeView>>, back: (Screen, &'static str), shell: Shell) -> AnyView {
    fn of<T: PartialEq + Default + Clone + Send + Sync + 'static>(
        view: Part<Option<HomeView>>,
        f: fn(&HomeView) -> T,
    ) -> Part<T> {
        Part::new(move || view.with(|v| v.as_ref().map(f).unwrap_or_default()))
    }
    let name = of(view, |v| v.name.clone());
    let date = of(view, |v| v.date.clone());
    let lines = of(view, |v| v.lines.clone());
    let typed = of(view, |v| v.open.as_ref().map(|open| open.typed.clone()).unwrap_or_default());
    let by_itself = of(view, |v| v.open.as_ref().and_then(|open| open.composed.clone()));
    let out = of(view, |v| v.out.clone());
    let working = of(view, |v| v.working);
    let changed = of(view, |v| v.changed);
    let has_own = of(view, |v| v.lines.iter().any(|line| line.piece == Piece::Own));
    let title = Signal::derive(move || words::title(&name.get()));
    let row = move |line: &Line| {
        if line.open { field(line, typed, by_itself, shell) } else { sentence(line, shell) }
    };
    view! {
        <main class="screen" data-screen="home">
            <Head title shell back />
            <p class="hint">{words::INTRO}</p>
            <article class="home-sheet">
                <div class="home-band" aria-hidden="true"><span>{words::BAND}</span></div>
                <h2 class="home-name" dir="auto">{move || name.get()}</h2>
                <p class="home-date">{move || date.get()}</p>
                <ul class="home-lines">{move || lines.with(|lines| lines.iter().map(row).collect::<Vec<_>>())}</ul>
                <p class="home-foot">{words::FOOT}</p>
            </article>
            <Show when=move || working.get()>
                <p class="hint" role="status">{words::WORKING}</p>
            </Show>
            <div class="keys-two">
                <Show when=move || !has_own.get()>
                    <button class="quiet" type="button" data-key="own" on:click=shell.sends(tap(HomeTap::Opened(Piece::Own)))>
                        {words::OWN}
                    </button>
                </Show>
                <button class="quiet" type="button" data-key="other-question" on:click=shell.sends(tap(HomeTap::OtherQuestion))>
                    {words::OTHER_QUESTION}
                </button>
            </div>
            {live(move || out.with(|out| left_out(out, shell)))}
            <Show when=move || changed.get()>
                <button class="quiet" type="button" data-key="anew" on:click=shell.sends(tap(HomeTap::Anew))>
                    {words::ANEW}
                </button>
            </Show>
            <Ways view shell />
        </main>
    }
}

/// A sentence as it stands.
fn sentence(line: &Line, shell: Shell) -> AnyView {
    let piece = line.piece;
    let (question, named) = (line.question, line.named);
    view! {
        <li class="home-line" class:is-question=question class:is-named=named>
            <button
                class="home-words"
                type="button"
                dir="auto"
                data-key=format!("line.{}", key_of(piece))
                on:click=shell.sends(tap(HomeTap::Opened(piece)))
            >
                {line.text.clone()}
            </button>
            <button
                class="home-out"
                type="button"
                data-key=format!("out.{}", key_of(piece))
                aria-label=format!("{}: {}", words::LEAVE_OUT, line.text)
                on:click=shell.sends(tap(HomeTap::Out(piece, true)))
            >
                {glyph(Glyph::Cross)}
            </button>
        </li>
    }
}

/// The same while it is changed.
fn field(line: &Line, typed: Part<String>, by_itself: Part<Option<String>>, shell: Shell) -> AnyView {
    let piece = line.piece;
    focus_on_field();
    view! {
        <li class="home-open">
            <label class="note-words">
                <span class="visually-hidden">{if piece == Piece::Own { words::OWN_LABEL } else { words::CHANGE }}</span>
                <textarea
                    class="input"
                    data-field="home"
                    rows="4"
                    maxlength=note_words::MOST_WORDS.to_string()
                    dir="auto"
                    prop:value=move || typed.get()
                    on:input:target=move |ev| shell.send(tap(HomeTap::Typed(ev.target().value())))
                ></textarea>
            </label>
            {live(move || {
                by_itself
                    .get()
                    .map(|line| {
                        view! {
                            <p class="hint">{words::NOW_SAYS} " “" {line} "”"</p>
                            <button class="quiet" type="button" data-key="as-composed" on:click=shell.sends(tap(HomeTap::AsComposed(piece)))>
                                {words::AS_COMPOSED}
                            </button>
                        }
                    })
            })}
            <button class="small-key" type="button" data-key="line-done" on:click=shell.sends(tap(HomeTap::Closed))>
                {words::DONE}
            </button>
        </li>
    }
}

fn left_out(out: &[(Piece, String)], shell: Shell) -> Option<AnyView> {
    let rows: Vec<_> = out
        .iter()
        .map(|(piece, line)| {
            view! {
                <li class="row-plain">
                    <s class="row-name" dir="auto">{line.clone()}</s>
                    <button
                        class="small-key"
                        type="button"
                        data-key=format!("in.{}", key_of(*piece))
                        aria-label=format!("{}: {line}", words::PUT_IN)
                        on:click=shell.sends(tap(HomeTap::Out(*piece, false)))
                    >
                        {words::PUT_IN}
                    </button>
                </li>
            }
        })
        .collect();
    (!rows.is_empty()).then(|| {
        view! {
            <section>
                <h2 class="section-head">{words::OUT}</h2>
                <ul class="rows card">{rows}</ul>
            </section>
        }
    })
}

/// The picture at the thumb, with what became of it, or why nothing goes; text and print above it.
#[component]
fn Ways(view: Part<Option<HomeView>>, shell: Shell) -> impl IntoView {
    let fault = Part::new(move || view.with(|v| v.as_ref().and_then(|v| v.fault.clone())));
    let answer = Part::new(move || view.with(|v| v.as_ref().and_then(|v| v.answer.clone())));
    let rests = Part::new(move || fault.with(Option::is_some));
    let can_share = Part::new(move || view.with(|v| v.as_ref().is_some_and(|v| v.can_share)));
    let key = move |class: &'static str, key: &'static str, label: &'static str, way: Way| {
        view! {
            <button
                class=class
                type="button"
                data-key=key
                prop:disabled=move || rests.get()
                on:click=shell.sends(tap(HomeTap::Goes(way)))
            >
                {label}
            </button>
        }
    };
    let how: Vec<_> = words::HOW_LINES.iter().map(|line| view! { <p class="hint">{*line}</p> }).collect();
    view! {
        <div class="keys-two home-ways">
            {key("quiet", "copy-text", words::COPY_TEXT, Way::CopyText)}
            {key("quiet", "print", words::PRINT, Way::Print)}
            <Show when=move || can_share.get()>
                {key("quiet", "share-text", words::SHARE_TEXT, Way::ShareText)}
                {key("quiet", "save-picture", words::SAVE_PICTURE, Way::SavePicture)}
            </Show>
        </div>
        <details class="card home-more">
            <summary data-key="how">{words::HOW}</summary>
            {how}
        </details>
        <div class="foot" class:is-bar=move || rests.get() || answer.with(Option::is_some)>
            {live(move || fault.get().map(|line| view! { <p class="fault" role="alert" data-fig="fault">{line}</p> }))}
            {live(move || answer.with(|answer| answer.as_ref().map(|answer| said(answer, shell))))}
            <Show
                when=move || can_share.get()
                fallback=move || key("big", "save-picture", words::SAVE_PICTURE, Way::SavePicture)
            >
                {key("big", "share-picture", words::SHARE_PICTURE, Way::SharePicture)}
            </Show>
        </div>
    }
}

fn said(answer: &Answer, shell: Shell) -> AnyView {
    let refused = answer.refused;
    view! {
        <section class="notice" class:grave=refused role="alert" data-fig="answer">
            {glyph(if refused { Glyph::Warn } else { Glyph::Tick })}
            <p>{answer.text.clone()}</p>
            <div class="notice-keys">
                <button class="notice-act" type="button" data-key="close" on:click=shell.sends(tap(HomeTap::AnswerSeen))>
                    {screens::ANSWER_SEEN}
                </button>
            </div>
        </section>
    }
}

/// The field that came is written in at once; the key that opened it is gone.
fn focus_on_field() {
    request_animation_frame(move || {
        let Ok(Some(field)) = document().query_selector("[data-field=home]") else { return };
        if let Some(field) = field.dyn_ref::<HtmlElement>()
            && let Err(why) = field.focus()
        {
            leptos::logging::warn!("the field takes no focus: {why:?}");
        }
    });
}
