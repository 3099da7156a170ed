//! The part of a drill's form that says how a game is played: which one, how many a side, to what, who serves.

use leptos::prelude::*;

use super::Draft;
use super::change::step_u8;
use super::change_game::{self as change, MAX_CAP, MAX_OFF, MAX_SHORT};
use crate::app::words::screens as words;
use crate::domain::drill::{MatchGame, Serves, WinnersStay};
use crate::ui::markup::{Show, live, view};
use crate::ui::part::Part;
use crate::ui::screens::parts::{Choice, Stepper, Switch};

#[component]
pub(super) fn GameFields(draft: Draft) -> impl IntoView {
    let is_match = draft.part(|s| change::match_game(s).is_some());
    let a_side = draft.part(change::a_side);
    let games = [(false, "game.stay", words::GAME_STAY), (true, "game.match", words::GAME_MATCH)];
    view! {
        <section>
            <h2 class="section-head">{words::GAME_HEAD}</h2>
            <div class="choices choices-two">
                {games
                    .map(|(which, key, label)| {
                        view! {
                            <Choice
                                key=key.to_owned()
                                label
                                chosen=Signal::derive(move || is_match.get() == which)
                                on_tap=move || draft.change(|s| change::with_game(s, which))
                            />
                        }
                    })}
            </div>
            <Stepper
                key="a-side"
                label=words::A_SIDE
                figure=Signal::derive(move || a_side.get().0.to_string())
                at_least=Signal::derive(move || a_side.get().0 <= a_side.get().1)
                at_most=Signal::derive(move || a_side.get().0 >= a_side.get().2)
                on_step=move |more| draft.change(|s| change::step_a_side(s, more))
            />
        </section>
        {live(move || if is_match.get() { view! { <Match draft /> } } else { view! { <Stay draft /> } })}
    }
}

#[component]
fn Stay(draft: Draft) -> impl IntoView {
    let rule = draft.part(|s| change::winners_stay(s).unwrap_or_default());
    let set = move |f: fn(&mut WinnersStay, bool), on: bool| draft.change(|s| change::with_stay(s, |rule| f(rule, on)));
    let off = Part::new(move || rule.get().off_after.is_some());
    let serves = [
        (Serves::Challengers, "serves.challengers", words::SERVES_CHALLENGERS),
        (Serves::WinnersSide, "serves.near", words::SERVES_NEAR),
        (Serves::LastWinner, "serves.last", words::SERVES_LAST),
    ];
    view! {
        <section>
            <Stepper
                key="game-to"
                label=words::GAME_TO
                line=words::GAME_TO_LINE
                figure=Signal::derive(move || rule.get().to.to_string())
                at_least=Signal::derive(move || rule.get().to <= 1)
                at_most=Signal::derive(move || rule.get().to >= MAX_SHORT)
                on_step=move |more| set(|rule, more| rule.to = step_u8(rule.to, more, 1, MAX_SHORT), more)
            />
            <Switch
                key="near-only"
                label=words::NEAR_ONLY
                on=Signal::derive(move || rule.get().near_only)
                on_tap=move |on| set(|rule, on| rule.near_only = on, on)
            />
            <Switch
                key="off-on"
                label=words::OFF_ON
                on=Signal::derive(move || off.get())
                on_tap=move |on| set(|rule, on| rule.off_after = on.then_some(3), on)
            />
            <Show when=move || off.get()>
                <Stepper
                    key="off-after"
                    label=words::OFF_AFTER
                    figure=Signal::derive(move || rule.get().off_after.map(|n| n.to_string()).unwrap_or_default())
                    at_least=Signal::derive(move || rule.get().off_after.is_some_and(|n| n <= 1))
                    at_most=Signal::derive(move || rule.get().off_after.is_some_and(|n| n >= MAX_OFF))
                    on_step=move |more| {
                        set(|rule, more| rule.off_after = rule.off_after.map(|n| step_u8(n, more, 1, MAX_OFF)), more)
                    }
                />
            </Show>
        </section>
        <section>
            <h2 class="section-head">{words::SERVES_HEAD}</h2>
            <div class="choices choices-three">
                {serves
                    .map(|(which, key, label)| {
                        view! {
                            <Choice
                                key=key.to_owned()
                                label
                                chosen=Signal::derive(move || rule.get().serves == which)
                                on_tap=move || draft.change(|s| change::with_stay(s, |rule| rule.serves = which))
                            />
                        }
                    })}
            </div>
            <Switch
                key="second-on"
                label=words::SECOND_ON
                line=words::SECOND_LINE
                on=Signal::derive(move || rule.get().second_serve)
                on_tap=move |on| set(|rule, on| rule.second_serve = on, on)
            />
            <Switch
                key="paced-on"
                label=words::PACED_ON
                line=words::PACED_LINE
                on=Signal::derive(move || rule.get().paced)
                on_tap=move |on| set(|rule, on| rule.paced = on, on)
            />
        </section>
    }
}

#[component]
fn Match(draft: Draft) -> impl IntoView {
    let rule = draft.part(|s| change::match_game(s).unwrap_or_default());
    let set = move |f: fn(&mut MatchGame, bool), on: bool| draft.change(|s| change::with_match(s, |rule| f(rule, on)));
    let cap = Part::new(move || rule.get().serve_cap.is_some());
    // What is no number stays as it was typed, and the line at the foot says why it can't be kept.
    let typed = RwSignal::new(String::new());
    let shown = move || match rule.get().to {
        0 => typed.get(),
        to => to.to_string(),
    };
    view! {
        <section>
            <div class="choices choices-two">
                {change::USUAL
                    .map(|(to, key)| {
                        view! {
                            <Choice
                                key=key.to_owned()
                                label=words::match_usual(to)
                                chosen=Signal::derive(move || rule.get().to == to)
                                on_tap=move || draft.change(|s| change::with_match(s, |rule| rule.to = to))
                            />
                        }
                    })}
            </div>
            <label class="field">
                <span class="field-label">{words::MATCH_TO}</span>
                <input
                    class="input"
                    data-field="match-to"
                    type="text"
                    inputmode="numeric"
                    autocomplete="off"
                    maxlength="6"
                    aria-invalid=move || (rule.get().to == 0).to_string()
                    prop:value=shown
                    on:input:target=move |ev| {
                        let text = ev.target().value();
                        let to = change::typed_to(&text);
                        typed.set(text);
                        draft.change(|s| change::with_match(s, |rule| rule.to = to));
                    }
                />
            </label>
            <Switch
                key="cap-on"
                label=words::CAP_ON
                on=Signal::derive(move || cap.get())
                on_tap=move |on| set(|rule, on| rule.serve_cap = on.then_some(5), on)
            />
            <Show when=move || cap.get()>
                <Stepper
                    key="cap"
                    label=words::CAP
                    figure=Signal::derive(move || rule.get().serve_cap.map(|n| n.to_string()).unwrap_or_default())
                    at_least=Signal::derive(move || rule.get().serve_cap.is_some_and(|n| n <= 1))
                    at_most=Signal::derive(move || rule.get().serve_cap.is_some_and(|n| n >= MAX_CAP))
                    on_step=move |more| {
                        set(|rule, more| rule.serve_cap = rule.serve_cap.map(|n| step_u8(n, more, 1, MAX_CAP)), more)
                    }
                />
            </Show>
        </section>
        <section>
            <h2 class="section-head">{words::NOTE_HEAD}</h2>
            <Switch
                key="note-serves"
                label=words::NOTE_SERVES
                line=words::NOTE_SERVES_LINE
                on=Signal::derive(move || rule.get().serves)
                on_tap=move |on| set(|rule, on| rule.serves = on, on)
            />
            <Switch
                key="note-passes"
                label=words::NOTE_PASSES
                line=words::NOTE_PASSES_LINE
                on=Signal::derive(move || rule.get().passes)
                on_tap=move |on| set(|rule, on| rule.passes = on, on)
            />
        </section>
    }
}
