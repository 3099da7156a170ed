//! Every contact of a run, the latest first. Tapping one opens a sheet that puts it right: each tap there is a correction.

use leptos::prelude::*;

mod rallies;
mod rows;
mod sheet;

use rallies::Rallies;
use rows::{contact, effort};
use sheet::Sheet;

use super::parts::{Head, NotHere};
use crate::app::action::Action;
use crate::app::screen::Screen;
use crate::app::view::report::{BesideContacts, ContactsView};
use crate::app::words::screens as words;
use crate::domain::ids::RallyId;
use crate::ui::markup::{Show, live, view};
use crate::ui::part::Part;
use crate::ui::shell::Shell;
use crate::ui::widgets::{Icon, Shape};

#[component]
pub fn Contacts(view: Part<Option<ContactsView>>, shell: Shell) -> impl IntoView {
    let run = Part::new(move || view.with(|v| v.as_ref().map(|v| v.run)));
    live(move || match run.get() {
        None => view! { <NotHere screen="contacts" back=(Screen::After, words::BACK_TO_AFTER) shell /> },
        Some(run) => {
            let title = Signal::derive(move || view.with(|v| v.as_ref().map(|v| v.title.clone()).unwrap_or_default()));
            let on = view.with_untracked(|v| v.as_ref().is_some_and(|v| v.on));
            let back = if on {
                (Screen::Run(run), words::BACK_TO_BOARD)
            } else {
                (Screen::RunReport(run), words::BACK_TO_REPORT)
            };
            let undo = Part::new(move || view.with(|v| v.as_ref().and_then(|v| v.can_undo.clone())));
            let fix = Part::new(move || view.with(|v| v.as_ref().and_then(|v| v.fix.clone())));
            let rows = move || {
                view.with(|v| {
                    let rows = v.as_ref().map(|v| v.rows.as_slice()).unwrap_or_default();
                    let unnumbered = v.as_ref().is_some_and(|v| v.unnumbered);
                    let has_rallies = v.as_ref().is_some_and(|v| !v.rallies.is_empty());
                    if rows.is_empty() && has_rallies {
                        return view! { <Rallies view shell /> };
                    }
                    if rows.is_empty() {
                        let told = v.as_ref().is_some_and(|v| v.told);
                        let line = if told { words::CONTACTS_TOLD } else { words::CONTACTS_EMPTY };
                        return view! { <p class="lead">{line}</p> };
                    }
                    let rows: Vec<_> =
                        rows.iter().enumerate().map(|(i, row)| contact(format!("contact.{i}"), row, shell)).collect();
                    view! {
                        {has_rallies.then(|| view! { <h2>{words::CONTACTS_IN_MATCH}</h2> })}
                        <p class="hint">
                            {words::CONTACTS_LINE}
                            {unnumbered.then(|| view! { " " {words::CONTACTS_NO_NUMBER} })}
                        </p>
                        <ol class="rows card">{rows}</ol>
                        {has_rallies
                            .then(|| {
                                view! {
                                    <h2>{words::RALLIES}</h2>
                                    <Rallies view shell />
                                }
                            })}
                    }
                })
            };
            let efforts = move || {
                view.with(|v| {
                    let efforts = v.as_ref().map(|v| v.efforts.as_slice()).unwrap_or_default();
                    (!efforts.is_empty()).then(|| {
                        let rows: Vec<_> = efforts
                            .iter()
                            .enumerate()
                            .map(|(i, row)| effort(format!("effort.{i}"), row, shell))
                            .collect();
                        view! {
                            <h2>{words::CONTACTS_EFFORTS}</h2>
                            <p class="hint">{words::CONTACTS_EFFORTS_LINE}</p>
                            <ol class="rows card">{rows}</ol>
                        }
                    })
                })
            };
            let beside = move || {
                view.with(|v| {
                    let parts = v.as_ref().map(|v| v.beside.as_slice()).unwrap_or_default();
                    let parts: Vec<_> = parts.iter().enumerate().map(|(p, part)| beside(p, part, shell)).collect();
                    (!parts.is_empty()).then(|| {
                        view! {
                            <section class="beside">
                                <h2 class="section-head">{words::BESIDE}</h2>
                                <p class="hint">{words::BESIDE_LINE}</p>
                                {parts}
                            </section>
                        }
                    })
                })
            };
            view! {
                <main class="screen" data-screen="contacts">
                    <Head title shell back />
                    {live(rows)}
                    {live(efforts)}
                    {live(beside)}
                    <TakenBack view shell />
                    <div class="foot foot-two">
                        <Show when=move || undo.with(Option::is_some)>
                            <button
                                class="quiet undo"
                                type="button"
                                data-key="undo"
                                on:click=shell.sends(Action::UndoTapped)
                            >
                                <span>{words::UNDO}</span>
                                <span class="hint">{move || undo.get()}</span>
                            </button>
                        </Show>
                        <button
                            class="quiet"
                            type="button"
                            data-key="go-on"
                            on:click=shell.sends(Action::Go(Screen::Run(run)))
                        >
                            {words::TO_BOARD}
                        </button>
                    </div>
                    <Sheet fix shell />
                </main>
            }
        }
    })
}

/// What one other page counted at the same time.
fn beside(p: usize, part: &BesideContacts, shell: Shell) -> impl IntoView + use<> {
    let contacts = part.rows.iter().enumerate().map(|(i, row)| contact(format!("beside.{p}.{i}"), row, shell));
    let efforts = part.efforts.iter().enumerate().map(|(i, row)| effort(format!("beside-effort.{p}.{i}"), row, shell));
    let (contacts, efforts): (Vec<_>, Vec<_>) = (contacts.collect(), efforts.collect());
    view! {
        <ol class="rows card">
            {contacts}
            {efforts}
        </ol>
    }
}

/// At the end, struck: what was taken back by mistake comes back with a tap.
#[component]
fn TakenBack(view: Part<Option<ContactsView>>, shell: Shell) -> impl IntoView {
    let taken = Part::new(move || view.with(|v| v.as_ref().map(|v| v.taken_back.clone()).unwrap_or_default()));
    let some = Part::new(move || taken.with(|t| !t.is_empty()));
    let rows = move || {
        taken
            .get()
            .into_iter()
            .enumerate()
            .map(|(i, row)| {
                let contact = row.contact;
                let put_back = match row.is_rally {
                    true => Action::RallyPutBack(RallyId(contact.0)),
                    false => Action::ContactPutBack(contact),
                };
                view! {
                    <li class="row-plain">
                        <Icon shape=Shape::Undo />
                        <span class="row-words">
                            <s class="row-name">
                                <bdi>{row.line.clone()}</bdi>
                            </s>
                            <span class="row-line">{row.when}</span>
                        </span>
                        <button
                            class="small-key"
                            type="button"
                            data-key=format!("put-back.{i}")
                            aria-label=format!("{}: {}", words::PUT_BACK, row.line)
                            on:click=shell.sends(put_back)
                        >
                            {words::PUT_BACK}
                        </button>
                    </li>
                }
            })
            .collect::<Vec<_>>()
    };
    view! {
        <Show when=move || some.get()>
            <section data-fig="taken-back">
                <h2 class="section-head">{move || taken.with(|t| words::taken_back(t.len()))}</h2>
                <ul class="rows card">{live(rows)}</ul>
            </section>
        </Show>
    }
}
