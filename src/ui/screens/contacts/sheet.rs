//! The sheet that puts one contact right: child, outcome, step. Each tap there is a correction.

use leptos::prelude::*;

use super::super::drill::change;
use super::super::parts::{Choice, Stepper, quiet};
use super::super::pictures::{Glyph, glyph};
use crate::app::action::Action;
use crate::app::view::report::FixView;
use crate::app::words::screens as words;
use crate::domain::ids::{PlayerId, Step};
use crate::domain::skill::{Outcome, Skill};
use crate::ui::markup::{Show, live, view};
use crate::ui::part::{Part, watch};
use crate::ui::shell::Shell;
use crate::ui::widgets::clicked;

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
            let outcome = outcome.unwrap_or(fix.outcome);
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
pub fn Sheet(fix: Part<Option<FixView>>, shell: Shell) -> impl IntoView {
    let sender = Fix { fix, shell };
    let contact = Part::new(move || fix.with(|f| f.as_ref().map(|f| f.contact)));
    let step = Part::new(move || Step(fix.with(|f| f.as_ref().map_or(0, |f| f.step))));
    let ladder = move |of: fn(&Skill, Step) -> bool| {
        fix.with(|f| f.as_ref().is_some_and(|f| f.ladder.as_ref().is_some_and(|skill| of(skill, Step(f.step)))))
    };
    let has_step = Part::new(move || ladder(|_, _| true));
    let is_lowest = Part::new(move || ladder(change::is_lowest));
    let can_shift = Part::new(move || fix.with(|f| f.as_ref().is_some_and(|f| f.can_shift)));
    let shift = move || contact.get_untracked().map(Action::ShiftFromHere);
    let take_back = move || contact.get_untracked().map(Action::ContactTakenBack);
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
                <Show when=move || has_step.get()>
                    <Stepper
                        key="fix-step"
                        label=words::FIX_STEP
                        line=words::FIX_STEP_LINE
                        figure=Signal::derive(move || words::step(step.get()))
                        at_least=Signal::derive(move || is_lowest.get())
                        at_most=Signal::derive(move || change::is_highest(step.get()))
                        on_step=move |more| {
                            let next = fix
                                .with_untracked(|fix| {
                                    let fix = fix.as_ref()?;
                                    Some(change::step_ladder(fix.ladder.as_ref()?, Step(fix.step), more))
                                });
                            sender.send(None, None, next);
                        }
                    />
                </Show>
                <Show when=move || can_shift.get()>
                    {quiet("shift", shift_label(), shell, shift)}
                </Show>
                <div class="sheet-foot">
                    {quiet("take-back", words::TAKE_BACK.into_any(), shell, take_back)}
                    <button class="big" type="button" data-key="fix-done" on:click=clicked(move |_| close())>
                        {words::DONE}
                    </button>
                </div>
            </div>
        </dialog>
    }
}

fn shift_label() -> AnyView {
    view! {
        <span>{words::SHIFT}</span>
        <span class="hint">{words::SHIFT_LINE}</span>
    }
}
