//! The part of a drill's form that says how they stand, and the few settings of a board.

use leptos::prelude::*;

use super::Draft;
use super::change::{self, SkillChoice};
use crate::app::view::today::Picture;
use crate::app::words::screens as words;
use crate::domain::drill::LineOrder;
use crate::ui::markup::{Show, live, view};
use crate::ui::screens::parts::{Choice, Stepper, Switch};
use crate::ui::screens::pictures::court;

#[component]
pub(super) fn BoardField(draft: Draft) -> impl IntoView {
    let skill = draft.part(|s| SkillChoice::of(&s.skill));
    let chosen = draft.part(change::picture);
    let boards = move || {
        let skill = skill.get();
        let choice = move |&which: &Picture| {
            view! {
                <Choice
                    key=format!("board.{}", board_key(which))
                    label=words::board(which)
                    chosen=Signal::derive(move || chosen.get() == which)
                    on_tap=move || draft.change(|s| change::with_board(s, which))
                    picture=move || court(which)
                />
            }
        };
        skill.boards().iter().map(choice).collect::<Vec<_>>()
    };
    let places = draft.part(change::places);
    let order = draft.part(change::order);
    let receiver = draft.part(change::receiver);
    let told = draft.part(change::told_of);
    let places_label = move || if skill.get() == SkillChoice::Serve { words::PLACES_SERVE } else { words::PLACES_PASS };
    let orders = [
        (LineOrder::InTurn, "order.turn", words::IN_TURN),
        (LineOrder::Stays, "order.stays", words::STAYS),
        (LineOrder::TenForOne, "order.ten", words::TEN_FOR_ONE),
    ];
    view! {
        <section>
            <h2 class="section-head">{words::DRILL_BOARD}</h2>
            <div class="choices choices-two">{live(boards)}</div>
            <Show when=move || places.with(Option::is_some)>
                <Stepper
                    key="places"
                    label=places_label()
                    figure=Signal::derive(move || places.get().map(|(n, _)| n.to_string()).unwrap_or_default())
                    at_least=Signal::derive(move || places.get().is_some_and(|(n, _)| n <= 1))
                    at_most=Signal::derive(move || places.get().is_some_and(|(n, most)| n >= most))
                    on_step=move |more| draft.change(|s| change::step_places(s, more))
                />
            </Show>
            <Show when=move || order.with(Option::is_some)>
                <h3 class="ask">{words::ORDER}</h3>
                <div class="choices choices-two">
                    {orders
                        .map(|(which, key, label)| {
                            view! {
                                <Choice
                                    key=key.to_owned()
                                    label
                                    chosen=Signal::derive(move || order.get() == Some(which))
                                    on_tap=move || draft.change(|s| change::with_order(s, which))
                                />
                            }
                        })}
                </div>
            </Show>
            <Show when=move || receiver.with(Option::is_some)>
                <Switch
                    key="receiver"
                    label=words::RECEIVER
                    line=words::RECEIVER_LINE
                    on=Signal::derive(move || receiver.get() == Some(true))
                    on_tap=move |on| draft.change(|s| change::with_receiver(s, on))
                />
            </Show>
            <Show when=move || told.with(Option::is_some)>
                <Stepper
                    key="told"
                    label=words::TOLD_OF
                    figure=Signal::derive(move || told.get().map(|n| n.to_string()).unwrap_or_default())
                    at_least=Signal::derive(move || told.get().is_some_and(|n| n <= 1))
                    at_most=Signal::derive(move || told.get().is_some_and(|n| n >= change::MAX_TOLD))
                    on_step=move |more| draft.change(|s| change::step_told(s, more))
                />
            </Show>
        </section>
    }
}

fn board_key(which: Picture) -> &'static str {
    match which {
        Picture::Floor => "floor",
        Picture::Duel => "duel",
        Picture::Line | Picture::ServeLine => "line",
        Picture::Serve => "serve",
        Picture::Told => "told",
        Picture::Group => "group",
        Picture::Lanes => "lanes",
        Picture::Court => "court",
        Picture::Propped => "propped",
    }
}
