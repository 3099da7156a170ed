//! Every contact of a run, the latest first. Tapping one opens a sheet that puts it right: each tap there is a correction.

use leptos::prelude::*;

use super::parts::{Choice, Head, NotHere, Stepper};
use super::pictures::{Glyph, glyph};
use crate::app::action::Action;
use crate::app::screen::Screen;
use crate::app::view::report::{BesideContacts, ContactRow, ContactsView, EffortRow, FixView, RallyRow};
use crate::app::words::screens as words;
use crate::domain::entry::Side;
use crate::domain::ids::{PlayerId, RallyId, Step};
use crate::domain::skill::Outcome;
use crate::ui::markup::{Show, live, view};
use crate::ui::part::{Part, watch};
use crate::ui::shell::Shell;
use crate::ui::widgets::{Icon, Shape, clicked};

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
                    if rows.is_empty() && v.as_ref().is_some_and(|v| !v.rallies.is_empty()) {
                        return view! { <Rallies view shell /> };
                    }
                    if rows.is_empty() {
                        return view! { <p class="lead">{words::CONTACTS_EMPTY}</p> };
                    }
                    let rows: Vec<_> =
                        rows.iter().enumerate().map(|(i, row)| contact(format!("contact.{i}"), row, shell)).collect();
                    view! {
                        <p class="hint">
                            {words::CONTACTS_LINE}
                            {unnumbered.then(|| view! { " " {words::CONTACTS_NO_NUMBER} })}
                        </p>
                        <ol class="rows card">{rows}</ol>
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

/// Every rally with the side that won it: a tap on the other one says so.
#[component]
fn Rallies(view: Part<Option<ContactsView>>, shell: Shell) -> impl IntoView {
    let rallies = Part::new(move || view.with(|v| v.as_ref().map(|v| v.rallies.clone()).unwrap_or_default()));
    let rows = move || rallies.get().into_iter().enumerate().map(|(i, row)| rally(i, row, shell)).collect::<Vec<_>>();
    view! {
        <p class="hint">{words::RALLIES_LINE}</p>
        <ol class="rows card">{live(rows)}</ol>
    }
}

fn rally(i: usize, row: RallyRow, shell: Shell) -> AnyView {
    let id = row.rally;
    let sides = row.sides.map(|(side, label)| {
        let is = row.won == side;
        let at = if side == Side::Near { "near" } else { "far" };
        view! {
            <Choice
                key=format!("rally.{i}.{at}")
                label=words::side_had_it(label)
                chosen=Signal::derive(move || is)
                on_tap=shell.press(Action::RallyFixed(id, side))
            />
        }
    });
    view! {
        <li class="rally-row">
            <div class="row-plain">
                <span class="row-no">{row.no}</span>
                <span class="row-words">
                    <bdi class="row-name">{row.who.clone()}</bdi>
                    <span class="row-line">{row.when} {row.corrected.then(|| view! { " " <span class="badge">{words::CORRECTED}</span> })}</span>
                </span>
                <button
                    class="small-key"
                    type="button"
                    data-key=format!("rally.{i}.back")
                    aria-label=format!("{}: {}", words::TAKE_BACK_SHORT, row.who)
                    on:click=shell.sends(Action::RallyTakenBack(id))
                >
                    {words::TAKE_BACK_SHORT}
                </button>
            </div>
            <div class="choices choices-two" role="group" aria-label=words::RALLY_WON>
                {sides}
            </div>
        </li>
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

fn contact(key: String, row: &ContactRow, shell: Shell) -> impl IntoView + use<> {
    let id = row.contact;
    view! {
        <li>
            <button
                class="row-key"
                type="button"
                data-key=key
                on:click=shell.sends(Action::ContactChosen(Some(id)))
            >
                <span class="row-no">{row.no.clone().unwrap_or_else(|| "–".to_owned())}</span>
                <span class="row-words">
                    <bdi class="row-name">{row.who.clone()}</bdi>
                    <span class="row-line">
                        {row.what.clone()}
                        {row.feed.clone().map(|feed| view! { <span class="row-feed">{feed}</span> })}
                    </span>
                </span>
                <span class="row-side">
                    <span class="hint">{row.when.clone()}</span>
                    {row.corrected.then(|| view! { <span class="badge">{words::CORRECTED}</span> })}
                </span>
            </button>
        </li>
    }
}

/// An effort, with the names and kinds under it once it is tapped.
fn effort(key: String, row: &EffortRow, shell: Shell) -> impl IntoView + use<> {
    let id = row.effort;
    let is_open = row.open.is_some();
    let kind_now = row.kind.clone();
    let choice = row.open.clone().map(|open| {
        let player_now = open.player;
        let names: Vec<_> = open
            .names
            .into_iter()
            .enumerate()
            .map(|(i, (player, name, is))| {
                let kind = kind_now.clone();
                view! {
                    <Choice
                        key=format!("effort-name.{i}")
                        label=name
                        chosen=Signal::derive(move || is)
                        on_tap=shell.press(Action::EffortGiven(id, Some(player), kind.clone()))
                    />
                }
            })
            .collect();
        let kinds: Vec<_> = open
            .kinds
            .into_iter()
            .enumerate()
            .map(|(i, (kind, is))| {
                let to = (!is).then(|| kind.clone());
                view! {
                    <Choice
                        key=format!("effort-kind.{i}")
                        label=kind
                        chosen=Signal::derive(move || is)
                        on_tap=shell.press(Action::EffortGiven(id, player_now, to.clone()))
                    />
                }
            })
            .collect();
        view! {
            <div class="choices choices-names" role="group" aria-label=words::EFFORT_WHOSE>{names}</div>
            <div class="choices choices-outcomes" role="group" aria-label=words::EFFORT_KIND>{kinds}</div>
        }
    });
    view! {
        <li>
            <button
                class="row-key"
                type="button"
                data-key=key
                aria-expanded=if is_open { "true" } else { "false" }
                on:click=shell.sends(Action::EffortChosen((!is_open).then_some(id)))
            >
                <span class="row-words">
                    <bdi class="row-name">{row.who.clone()}</bdi>
                    <span class="row-line">{row.kind.clone().unwrap_or_else(|| words::EFFORT_NO_KIND.to_owned())}</span>
                </span>
                <span class="row-side">
                    <span class="hint">{row.when.clone()}</span>
                </span>
            </button>
            {choice}
        </li>
    }
}

/// What a correction sets; the rest stays as it was.
#[derive(Clone, Copy)]
struct Fix {
    fix: Part<Option<FixView>>,
    shell: Shell,
}

impl Fix {
    fn send(self, player: Option<PlayerId>, outcome: Option<Outcome>, step: Option<Step>) {
        let action = self.fix.with_untracked(|fix| {
            let fix = fix.as_ref()?;
            let now = fix.players.iter().find(|(_, _, is)| *is).map(|(player, ..)| *player);
            let outcome =
                outcome.or_else(|| fix.outcomes.iter().find(|(_, _, is)| *is).map(|(outcome, ..)| *outcome))?;
            let step = step.map_or(fix.step, |step| step.0);
            Some(Action::ContactFixed { contact: fix.contact, player: player.or(now), outcome, step })
        });
        if let Some(action) = action {
            self.shell.send(action);
        }
    }
}

/// Opened and closed by the browser as a dialog: it holds the focus, Escape closes it, and the row has the focus again after.
#[component]
fn Sheet(fix: Part<Option<FixView>>, shell: Shell) -> impl IntoView {
    let sender = Fix { fix, shell };
    let contact = Part::new(move || fix.with(|f| f.as_ref().map(|f| f.contact)));
    let step = Part::new(move || Step(fix.with(|f| f.as_ref().map_or(0, |f| f.step))));
    let can_shift = Part::new(move || fix.with(|f| f.as_ref().is_some_and(|f| f.can_shift)));
    let close = move || shell.send(Action::ContactChosen(None));
    let fixing = Part::new(move || fix.with(Option::is_some));
    let dialog = NodeRef::<leptos::html::Dialog>::new();
    watch(move || {
        let Some(dialog) = dialog.get() else { return };
        if !fixing.get() {
            dialog.close();
        } else if !dialog.open()
            && let Err(why) = dialog.show_modal()
        {
            leptos::logging::warn!("the sheet does not open: {why:?}");
        }
    });
    let players = move || {
        fix.with(|f| {
            let players = f.as_ref().map(|f| f.players.as_slice()).unwrap_or_default();
            (!players.is_empty()).then(|| {
                let keys: Vec<_> = players
                    .iter()
                    .enumerate()
                    .map(|(i, (player, name, is))| {
                        let (player, is) = (*player, *is);
                        view! {
                            <Choice
                                key=format!("fix-player.{i}")
                                label=name.clone()
                                chosen=Signal::derive(move || is)
                                on_tap=move || sender.send(Some(player), None, None)
                            />
                        }
                    })
                    .collect();
                view! {
                    <h3 class="ask">{words::FIX_WHO}</h3>
                    <div class="choices choices-names" role="group" aria-label=words::FIX_WHO>{keys}</div>
                }
            })
        })
    };
    let outcomes = move || {
        fix.with(|f| {
            let outcomes = f.as_ref().map(|f| f.outcomes.as_slice()).unwrap_or_default();
            let keys: Vec<_> = outcomes
                .iter()
                .enumerate()
                .map(|(i, (outcome, word, is))| {
                    let (outcome, is) = (*outcome, *is);
                    view! {
                        <Choice
                            key=format!("fix-outcome.{i}")
                            label=word.clone()
                            chosen=Signal::derive(move || is)
                            on_tap=move || sender.send(None, Some(outcome), None)
                        />
                    }
                })
                .collect();
            view! {
                <h3 class="ask">{words::FIX_WHAT}</h3>
                <div class="choices choices-outcomes" role="group" aria-label=words::FIX_WHAT>{keys}</div>
            }
        })
    };
    view! {
        <dialog
            class="sheet"
            node_ref=dialog
            aria-labelledby="fix-line"
            on:close=move |_| {
                if fixing.try_get_untracked() == Some(true) {
                    close();
                }
            }
            on:click=move |ev| {
                // The dialog itself, not what is in it: a tap beside the sheet.
                if ev.target() == ev.current_target() {
                    close();
                }
            }
        >
            <div class="sheet-inside">
                <header class="sheet-head">
                    <h2 id="fix-line" tabindex="-1" autofocus>
                        {move || fix.with(|f| f.as_ref().map(|f| f.line.clone()))}
                    </h2>
                    <button
                        class="head-back"
                        type="button"
                        data-key="close"
                        aria-label=words::CLOSE
                        on:click=clicked(move |_| close())
                    >
                        {glyph(Glyph::Cross)}
                    </button>
                </header>
                {live(players)}
                {live(outcomes)}
                <Stepper
                    key="fix-step"
                    label=words::FIX_STEP
                    line=words::FIX_STEP_LINE
                    figure=Signal::derive(move || words::step(step.get()))
                    at_least=Signal::derive(move || step.get() == Step(0))
                    at_most=Signal::derive(move || step.get().0 >= super::drill::change::MAX_STEP)
                    on_step=move |more| {
                        sender.send(None, None, Some(super::drill::change::step_ladder(step.get_untracked(), more)));
                    }
                />
                <Show when=move || can_shift.get()>
                    <button
                        class="quiet"
                        type="button"
                        data-key="shift"
                        on:click=clicked(move |_| {
                            if let Some(contact) = contact.get_untracked() {
                                shell.send(Action::ShiftFromHere(contact));
                            }
                        })
                    >
                        <span>{words::SHIFT}</span>
                        <span class="hint">{words::SHIFT_LINE}</span>
                    </button>
                </Show>
                <div class="sheet-foot">
                    <button
                        class="quiet"
                        type="button"
                        data-key="take-back"
                        on:click=clicked(move |_| {
                            if let Some(contact) = contact.get_untracked() {
                                shell.send(Action::ContactTakenBack(contact));
                            }
                        })
                    >
                        {words::TAKE_BACK}
                    </button>
                    <button class="big" type="button" data-key="fix-done" on:click=clicked(move |_| close())>
                        {words::DONE}
                    </button>
                </div>
            </div>
        </dialog>
    }
}
