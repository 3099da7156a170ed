//! All notes and questions, practice by practice; of one child, with one tag. The coach's tags at the end.

use leptos::html::Input;
use leptos::prelude::*;

use super::super::parts::{Empty, Fold, Head, WayTo};
use super::super::pictures::{Glyph, court, glyph};
use super::{chip, tap};
use crate::app::action::Action;
use crate::app::notes::{ListTap, NotesTap, Sought};
use crate::app::screen::Screen;
use crate::app::view::notes::{NotesView, RemarkGroup, RemarkRow};
use crate::app::view::today::Picture;
use crate::app::words::{notes as words, screens};
use crate::ui::markup::{Show, view};
use crate::ui::part::Part;
use crate::ui::shell::Shell;
use crate::ui::widgets::clicked;

#[component]
pub fn Notes(view: Part<NotesView>, shell: Shell) -> impl IntoView {
    let empty = Part::new(move || view.with(|v| v.empty));
    let found = Part::new(move || view.with(|v| v.groups.clone()));
    view! {
        <main class="screen" data-screen="notes">
            <Head title=words::ALL.to_owned() shell back=(Screen::After, screens::BACK_TO_AFTER) />
            <WayTo key="heard" label=words::HEARD line=words::HEARD_LINE to=Screen::Heard shell />
            <Show
                when=move || empty.get()
                fallback=move || {
                    view! {
                        <Seek view shell />
                        {move || {
                            let mut at = 0;
                            found.with(|groups| groups.iter().map(|of| group(of, &mut at, shell)).collect::<Vec<_>>())
                        }}
                        <Show when=move || found.with(Vec::is_empty)>
                            <p class="lead">{words::NONE_SUCH}</p>
                        </Show>
                    }
                }
            >
                <Empty heading=words::EMPTY line=words::EMPTY_LINE picture=|| court(Picture::Group) />
            </Show>
            <Tags view shell />
            <p class="hint">{words::PRIVATE}</p>
        </main>
    }
}

/// One child, one tag: two rows that run sideways.
#[component]
fn Seek(view: Part<NotesView>, shell: Shell) -> impl IntoView {
    let children = Part::new(move || view.with(|v| (v.children.clone(), v.sought.clone())));
    let used = Part::new(move || view.with(|v| (v.used.clone(), v.sought.clone())));
    let sends = |sought: Sought| tap(NotesTap::Sought(sought));
    view! {
        <ul class="note-chips is-row" aria-label=words::BY_CHILD>
            {move || {
                children.with(|(list, sought)| {
                    let all = Sought { child: None, ..sought.clone() };
                    let first = chip("of.all".to_owned(), words::EVERYONE, sought.child.is_none(), false, shell, sends(all));
                    let one = |(i, (player, name)): (usize, &(_, String))| {
                        let on = sought.child == Some(*player);
                        let next = Sought { child: (!on).then_some(*player), ..sought.clone() };
                        chip(format!("of.{i}"), name, on, false, shell, sends(next))
                    };
                    std::iter::once(first).chain(list.iter().enumerate().map(one)).collect::<Vec<_>>()
                })
            }}
        </ul>
        <ul class="note-chips is-row" aria-label=words::BY_TAG>
            {move || {
                used.with(|(list, sought)| {
                    let one = |(i, tag): (usize, &String)| {
                        let on = sought.tag.as_ref() == Some(tag);
                        let next = Sought { tag: (!on).then(|| tag.clone()), ..sought.clone() };
                        chip(format!("with.{i}"), tag, on, false, shell, sends(next))
                    };
                    list.iter().enumerate().map(one).collect::<Vec<_>>()
                })
            }}
        </ul>
    }
}

fn group(of: &RemarkGroup, at: &mut usize, shell: Shell) -> AnyView {
    let rows = rows(&of.rows, at, shell);
    let head = format!("{}{}{}", of.title, if of.day.is_empty() { "" } else { ", " }, of.day);
    view! {
        <section>
            <h2 class="section-head">{head}</h2>
            <ul class="rows card">{rows}</ul>
        </section>
    }
}

/// Notes under a heading, where there are some; each leads to where it can be changed.
pub fn remarks(list: &[RemarkRow], shell: Shell) -> AnyView {
    let mut at = 0;
    let rows = rows(list, &mut at, shell);
    view! {
        {(!rows.is_empty())
            .then(|| {
                view! {
                    <section>
                        <h2 class="section-head">{words::ALL}</h2>
                        <ul class="rows card">{rows}</ul>
                    </section>
                }
            })}
    }
}

fn rows(list: &[RemarkRow], at: &mut usize, shell: Shell) -> Vec<AnyView> {
    let row = |row: &RemarkRow| {
        let i = *at;
        *at += 1;
        view! {
            <li>
                <button
                    class="row-key"
                    class:is-question=row.is_question
                    type="button"
                    data-key=format!("remark.{i}")
                    on:click=shell.sends(Action::Go(Screen::Remark(row.id)))
                >
                    <span class="row-words">
                        <span class="remark-head">
                            <bdi class="row-name">{row.who.clone()}</bdi>
                            <span class="row-line">{row.when.clone()}</span>
                        </span>
                        <span class="remark-what" dir="auto" data-fig=format!("remark.{i}")>
                            {row.what.clone()}
                        </span>
                    </span>
                    {glyph(Glyph::Onward)}
                </button>
            </li>
        }
    };
    list.iter().map(row).collect()
}

/// The coach's own words for what she sees.
#[component]
fn Tags(view: Part<NotesView>, shell: Shell) -> impl IntoView {
    let open = RwSignal::new(false);
    let tags = Part::new(move || view.with(|v| (v.tags.clone(), v.typing.instead_of.clone())));
    let typed = Part::new(move || view.with(|v| v.typing.text.clone()));
    let changing = Part::new(move || view.with(|v| v.typing.instead_of.is_some()));
    let field = NodeRef::<Input>::new();
    let change = move |tag: String| {
        shell.send(tap(NotesTap::Tags(ListTap::Change(tag))));
        // The field may be out of view: the keyboard comes, and it with it.
        if let Some(Some(field)) = field.try_get_untracked()
            && let Err(why) = field.focus()
        {
            leptos::logging::warn!("the field takes no focus: {why:?}");
        }
    };
    let row = move |(i, tag): (usize, &String), on: bool| {
        let changed = tag.clone();
        view! {
            <li class="row-plain">
                <bdi class="row-name">{tag.clone()}</bdi>
                <span class="row-keys">
                    <button
                        class="small-key"
                        type="button"
                        data-key=format!("tag-change.{i}")
                        aria-pressed=on.to_string()
                        aria-label=format!("{}: {tag}", words::CHANGE)
                        on:click=clicked(move |_| change(changed.clone()))
                    >
                        {glyph(Glyph::Pencil)}
                    </button>
                    <button
                        class="small-key"
                        type="button"
                        data-key=format!("tag-remove.{i}")
                        aria-label=format!("{}: {tag}", words::REMOVE)
                        on:click=shell.sends(tap(NotesTap::Tags(ListTap::Removed(tag.clone()))))
                    >
                        {glyph(Glyph::Cross)}
                    </button>
                </span>
            </li>
        }
    };
    view! {
        <section class="card">
            <Fold key="tags" label=words::TAGS_HEAD open on_tap=move || open.update(|on| *on = !*on) />
            <Show when=move || open.get()>
                <p class="hint">{words::TAGS_LINE}</p>
                <ul class="rows">
                    {move || {
                        tags.with(|(list, instead_of)| {
                            list.iter()
                                .enumerate()
                                .map(|of| row(of, instead_of.as_ref() == Some(of.1)))
                                .collect::<Vec<_>>()
                        })
                    }}
                </ul>
                <div class="field-and-key">
                    <label class="field">
                        <span class="field-label">
                            {move || if changing.get() { words::TAG_OTHER } else { words::TAG_NEW }}
                        </span>
                        <input
                            node_ref=field
                            class="input"
                            data-field="tag"
                            type="text"
                            dir="auto"
                            autocomplete="off"
                            prop:value=move || typed.get()
                            on:input:target=move |ev| shell.send(tap(NotesTap::Tags(ListTap::Typed(ev.target().value()))))
                        />
                    </label>
                    <button
                        class="small-key"
                        type="button"
                        data-key="tag-add"
                        prop:disabled=move || typed.with(|text| text.trim().is_empty())
                        on:click=shell.sends(tap(NotesTap::Tags(ListTap::Kept)))
                    >
                        {move || if changing.get() { words::KEEP } else { words::ADD }}
                    </button>
                </div>
            </Show>
        </section>
    }
}
