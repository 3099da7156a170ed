//! Notes and questions on a board: over the head, as who is here. The run goes on underneath and no key moves; the next tap on the
//! board closes them, so that children who pass see nothing.

use leptos::html::Div;
use leptos::prelude::*;

use super::groups::choose;
use super::length;
use super::strip::{Choice, show_chosen};
use crate::app::action::Action;
use crate::app::notes::{AskTap, NotesTap};
use crate::app::view::notes::{AskView, PadView, SubjectKey, ask, pad};
use crate::app::words::board as board_words;
use crate::app::words::notes as words;
use crate::ui::markup::{Show, view};
use crate::ui::part::{Part, watch};
use crate::ui::screens::notes::{said_line, tap, words_field};
use crate::ui::shell::Shell;
use crate::ui::widgets::{Answer, Icon, Key, Shape};

/// The way in, beside who is here.
pub fn note_key(choosing: RwSignal<Option<Choice>>, shell: Shell) -> AnyView {
    let press = move || {
        shell.send(tap(NotesTap::Opened));
        choose(choosing, Choice::Note);
    };
    view! {
        <Key key="note" class="small-key is-stacked" label=words::NOTE_LABEL press>
            <Icon shape=Shape::Note />
            <span>{words::NOTE}</span>
        </Key>
    }
}

/// Whom or what, then a tag: the child of the last ball is meant already.
#[component]
pub fn NoteStrip(choosing: RwSignal<Option<Choice>>, shell: Shell) -> impl IntoView {
    let view = shell.view(pad);
    let typing = RwSignal::new(false);
    let title = Part::new(move || view.with(|v| v.said.as_ref().map_or_else(|| v.title.clone(), |s| s.line.clone())));
    let undo = Part::new(move || view.with(|v| v.said.as_ref().map(|s| (s.word, s.back.clone()))));
    let to_ask = move || {
        shell.send(tap(NotesTap::Question(AskTap::Opened)));
        choosing.set(Some(Choice::Ask));
    };
    view! {
        <section class="strip strip-note" data-strip="note">
            <div class="strip-head">
                <h2 dir="auto" class:is-said=move || undo.with(Option::is_some)>
                    <span role="status" data-fig="noted">{move || title.get()}</span>
                </h2>
                <span class="strip-keys">
                    {move || undo.get().map(|(word, action)| undo_key(word, action, shell))}
                    <Key key="ask" class="small-key" label=words::ASK_LABEL press=to_ask>
                        <span>{words::ASK}</span>
                    </Key>
                    {close(choosing)}
                </span>
            </div>
            <Show
                when=move || typing.get()
                fallback=move || view! { <Rows view typing shell /> }
            >
                {words_field(Part::new(move || view.with(|v| v.words.clone())), shell)}
                <div class="note-keys">
                    <Key key="to-tags" class="small-key" press=move || typing.set(false)>
                        <span>{words::TO_TAGS}</span>
                    </Key>
                    <Key
                        key="words-keep"
                        class="small-key is-strong"
                        off=Part::new(move || view.with(|v| v.nobody || v.words.trim().is_empty()))
                        press=move || {
                            shell.send(tap(NotesTap::Kept));
                            typing.set(false);
                        }
                    >
                        <span>{words::WORDS_KEEP}</span>
                    </Key>
                </div>
            </Show>
        </section>
    }
}

#[component]
fn Rows(view: Part<PadView>, typing: RwSignal<bool>, shell: Shell) -> impl IntoView {
    let children = Part::new(move || view.with(|v| v.children.clone()));
    let others = Part::new(move || view.with(|v| v.others.clone()));
    let tags = Part::new(move || view.with(|v| (v.tags.clone(), v.nobody)));
    let half = Part::new(move || view.with(|v| !v.words.is_empty()));
    // Over a low head both rows are one, and scroll together.
    let (whom, names) = (NodeRef::<Div>::new(), NodeRef::<Div>::new());
    watch(move || {
        children.track();
        request_animation_frame(move || {
            for frame in [whom, names] {
                if let Some(Some(frame)) = frame.try_get_untracked() {
                    show_chosen(&frame);
                }
            }
        });
    });
    view! {
        <div class="note-whom" node_ref=whom>
            <div class="strip-chips note-names" role="group" aria-label=words::ABOUT node_ref=names>
                {move || children.with(|list| chips("note-child", list, shell))}
            </div>
            <div class="strip-chips" role="group" aria-label=words::ABOUT_ALL>
                {move || others.with(|list| chips("note-all", list, shell))}
            </div>
        </div>
        <div class="strip-chips" role="group" aria-label=words::TAGS_LABEL>
            <Key
                key="words"
                class="run-chip is-kind is-words"
                answer=Answer::Up
                chosen=Signal::derive(move || half.get())
                press=move || typing.set(true)
            >
                <Icon shape=Shape::Note />
                <span>{words::WORDS}</span>
            </Key>
            {move || tags.with(|(tags, nobody)| tag_chips(tags, *nobody, shell))}
        </div>
    }
}

fn chips(key: &'static str, list: &[SubjectKey], shell: Shell) -> Vec<AnyView> {
    let chip = |(i, of): (usize, &SubjectKey)| {
        let class = if key == "note-child" { "run-chip" } else { "run-chip is-kind" };
        let size = if key == "note-child" { length(&of.label) } else { "" };
        let label = of.label.clone();
        view! {
            <Key
                key=format!("{key}.{i}")
                class
                answer=Answer::Up
                chosen=of.chosen
                press=shell.press(tap(NotesTap::About(of.subject)))
            >
                <bdi class=size>{label}</bdi>
            </Key>
        }
    };
    list.iter().enumerate().map(chip).collect()
}

fn tag_chips(tags: &[(String, bool)], nobody: bool, shell: Shell) -> Vec<AnyView> {
    let chip = |(i, (tag, on)): (usize, &(String, bool))| {
        let word = tag.clone();
        view! {
            <Key
                key=format!("tag.{i}")
                class="run-chip is-kind"
                answer=Answer::Up
                off=nobody
                chosen=*on
                press=shell.press(tap(NotesTap::Tagged(tag.clone())))
            >
                <bdi>{word}</bdi>
            </Key>
        }
    };
    tags.iter().enumerate().map(chip).collect()
}

/// The question laid out as it is said, and one tap that keeps it; then what came of it, if she likes.
#[component]
pub fn AskStrip(choosing: RwSignal<Option<Choice>>, shell: Shell) -> impl IntoView {
    let view = shell.view(ask);
    let title = Part::new(move || said_line(view, words::ASK_TITLE));
    let undo = Part::new(move || view.with(|v| v.said.as_ref().map(|s| (s.word, s.back.clone()))));
    let asked = Part::new(move || view.with(|v| v.said.is_some()));
    let sentence = Part::new(move || {
        view.with(|v| v.sentence.clone().map_or_else(|| words::NOBODY.to_owned(), |s| format!("“{s}”")))
    });
    let why = Part::new(move || view.with(|v| v.why.clone()));
    let to_note = move || {
        shell.send(tap(NotesTap::Opened));
        choosing.set(Some(Choice::Note));
    };
    view! {
        <section class="strip strip-ask" data-strip="ask">
            <div class="strip-head">
                <h2 dir="auto">
                    <span role="status" data-fig="asked-line">{move || title.get()}</span>
                </h2>
                <span class="strip-keys">
                    {move || undo.get().map(|(word, action)| undo_key(word, action, shell))}
                    <Key key="to-note" class="small-key" label=words::NOTE_LABEL press=to_note>
                        <span>{words::NOTE}</span>
                    </Key>
                    {close(choosing)}
                </span>
            </div>
            <p class="ask-said" dir="auto" data-fig="question">{move || sentence.get()}</p>
            <Show when=move || asked.get() fallback=move || view! { <p class="strip-line" data-fig="why">{move || why.get()}</p> }>
                <p class="strip-line">{words::ANSWER}</p>
            </Show>
            <Show when=move || asked.get() fallback=move || view! { <Proposed view shell /> }>
                <Answered shell />
            </Show>
        </section>
    }
}

#[component]
fn Proposed(view: Part<AskView>, shell: Shell) -> impl IntoView {
    let key = move |key: &'static str, label: &'static str, off: Part<bool>, to: AskTap| {
        view! {
            <Key key class="small-key" off press=shell.press(tap(NotesTap::Question(to)))>
                <span>{label}</span>
            </Key>
        }
    };
    let nobody = Part::new(move || view.with(|v| v.sentence.is_none()));
    view! {
        <div class="note-keys">
            {key("other-question", words::OTHER_QUESTION, Part::new(move || view.with(|v| !v.other_question)), AskTap::OtherQuestion)}
            {key("other-child", words::OTHER_CHILD, Part::new(move || view.with(|v| !v.other_child)), AskTap::OtherChild)}
            <Key
                key="asked"
                class="small-key is-strong"
                off=nobody
                press=shell.press(tap(NotesTap::Question(AskTap::Asked)))
            >
                <span>{words::ASKED}</span>
            </Key>
        </div>
    }
}

/// The tags go onto a note about the child that was asked.
#[component]
fn Answered(shell: Shell) -> impl IntoView {
    let pad = shell.view(pad);
    let tags = Part::new(move || pad.with(|v| (v.tags.clone(), v.nobody)));
    view! {
        <div class="strip-chips" role="group" aria-label=words::TAGS_LABEL>
            <Key
                key="ask-next"
                class="run-chip is-kind is-words"
                answer=Answer::Up
                press=shell.press(tap(NotesTap::Question(AskTap::Opened)))
            >
                <span>{words::ASK_NEXT}</span>
            </Key>
            {move || tags.with(|(tags, nobody)| tag_chips(tags, *nobody, shell))}
        </div>
    }
}

fn undo_key(word: &'static str, action: Action, shell: Shell) -> AnyView {
    view! {
        <Key key="note-undo" class="small-key" press=shell.press(action)>
            <Icon shape=Shape::Undo />
            <span>{word}</span>
        </Key>
    }
}

fn close(choosing: RwSignal<Option<Choice>>) -> AnyView {
    view! {
        <Key key="choice-close" class="small-key" label=board_words::CLOSE press=move || choosing.set(None)>
            <Icon shape=Shape::Close />
        </Key>
    }
}
