//! Groups: teams on the floor, exchanged by two taps; how they are made; and, folded away, what the coach wishes. A contradiction
//! is one sentence with the key that ends it.

mod wishes;

use leptos::prelude::*;

use self::wishes::Wishes;
use super::parts::{Head, Stepper};
use super::pictures::{Glyph, glyph};
use crate::app::action::Action;
use crate::app::groups::GroupsTap;
use crate::app::screen::Screen;
use crate::app::settings::How;
use crate::app::view::groups::{GroupCard, GroupsView, TroubleView};
use crate::app::words::groups as words;
use crate::ui::markup::{Show, view};
use crate::ui::part::Part;
use crate::ui::shell::Shell;

#[component]
pub fn Groups(view: Part<GroupsView>, shell: Shell) -> impl IntoView {
    let back = view.with_untracked(|v| v.back);
    let back = match back {
        Some(run) => (Screen::Run(run), words::BACK_TO_RUN),
        None => (Screen::Today, words::BACK),
    };
    let here = Part::new(move || view.with(|v| v.here.clone()));
    let cards = Part::new(move || view.with(|v| v.groups.clone()));
    let told = Part::new(move || view.with(|v| v.told.clone()));
    let said = Part::new(move || view.with(|v| v.said.clone()));
    // What the coach wished is hers alone: the wishes tell of it.
    let trouble = Part::new(move || view.with(|v| v.trouble.clone().filter(|_| !v.of_wishes)));
    let can_go_back = Part::new(move || view.with(|v| v.can_go_back));
    let in_drill = Part::new(move || view.with(|v| v.in_drill));
    let some = Part::new(move || cards.with(|cards| !cards.is_empty()));
    view! {
        <main class="screen" data-screen="groups">
            <Head title=words::TITLE.to_owned() shell back aside=move || view! { <span class="hint" data-fig="here">{move || here.get()}</span> } />
            {move || trouble.get().map(|t| trouble_of(t, shell))}
            <section class="teams" aria-label=words::FLOOR>
                <p class="teams-told" role="status">
                    {move || match said.get() {
                        Some(said) => view! { <span data-fig="refitted">{said}</span> },
                        None => view! { <span data-fig="told">{told.get()}</span> },
                    }}
                </p>
                {move || cards.with(|cards| floor(cards, shell))}
                <Show when=move || some.get()>
                    <p class="hint">{words::TAP_TWO}</p>
                </Show>
            </section>
            <Made view shell />
            <Fit view shell />
            <Wishes view shell />
            <div class="foot foot-two is-bar">
                <Show when=move || can_go_back.get()>
                    <button class="quiet" type="button" data-key="groups-before" on:click=shell.sends(tap(GroupsTap::Before))>
                        {words::BEFORE}
                    </button>
                </Show>
                <Show when=move || in_drill.get()>
                    <button class="quiet" type="button" data-key="groups-use" on:click=shell.sends(tap(GroupsTap::InThisDrill))>
                        {words::IN_DRILL}
                    </button>
                </Show>
                <button class="big" type="button" data-key="groups-make" on:click=shell.sends(tap(GroupsTap::Made))>
                    {words::MAKE}
                </button>
            </div>
        </main>
    }
}

fn tap(tap: GroupsTap) -> Action {
    Action::Groups(tap)
}

fn trouble_of(trouble: TroubleView, shell: Shell) -> AnyView {
    view! {
        <section class="notice grave" role="alert">
            {glyph(Glyph::Warn)} <p data-fig="trouble">{trouble.line}</p>
            <div class="notice-keys">
                <button class="notice-act" type="button" data-key="groups-way" on:click=shell.sends(trouble.action)>
                    {trouble.way}
                </button>
            </div>
        </section>
    }
}

/// The court with a part of it for each group. A tap on two names exchanges them.
fn floor(cards: &[GroupCard], shell: Shell) -> AnyView {
    let parts: Vec<_> = cards
        .iter()
        .enumerate()
        .map(|(at, card)| {
            let names: Vec<_> = card
                .children
                .iter()
                .enumerate()
                .map(|(i, child)| {
                    view! {
                        <li>
                            <button
                                class="team-name"
                                type="button"
                                data-key=format!("group.{at}.{i}")
                                aria-pressed=child.picked.to_string()
                                on:click=shell.sends(tap(GroupsTap::Name(child.player)))
                            >
                                <bdi>{child.name.clone()}</bdi>
                            </button>
                        </li>
                    }
                })
                .collect();
            let into = card.into.clone().map(|label| {
                view! {
                    <button
                        class="team-into"
                        type="button"
                        data-key=format!("group-into.{at}")
                        aria-label=label
                        on:click=shell.sends(tap(GroupsTap::Into(at)))
                    >
                        {glyph(Glyph::Plus)}
                    </button>
                }
            });
            view! {
                <li class="team">
                    <div class="team-head">
                        <h2 class="team-title">{card.name.clone()}</h2>
                        {into}
                    </div>
                    <ul class="team-names">{names}</ul>
                </li>
            }
        })
        .collect();
    if parts.is_empty() {
        return view! { <div class="team-floor is-empty" aria-hidden="true"></div> };
    }
    view! { <ol class="team-floor">{parts}</ol> }
}

/// How they are made, and how many.
#[component]
fn Made(view: Part<GroupsView>, shell: Shell) -> impl IntoView {
    let how = Part::new(move || view.with(|v| v.how));
    let by_size = Part::new(move || view.with(|v| v.by_size));
    let n = Part::new(move || view.with(|v| v.n));
    let at_least = Part::new(move || view.with(|v| v.at_least));
    let at_most = Part::new(move || view.with(|v| v.at_most));
    let hows = [
        (How::Mixed, "groups.mixed", words::MIXED),
        (How::Even, "groups.even", words::EVEN),
        (How::ByHand, "groups.hand", words::BY_HAND),
    ];
    let counted = [(false, "groups.number", words::BY_NUMBER), (true, "groups.size", words::BY_SIZE)];
    view! {
        <section class="teams-how">
            <div class="segments" role="group" aria-label=words::HOW>
                {hows
                    .map(|(which, key, label)| {
                        segment(key, label, Part::new(move || how.get() == which), tap(GroupsTap::How(which)), shell)
                    })
                    .into_iter()
                    .collect::<Vec<_>>()}
            </div>
            <div class="segments" role="group" aria-label=words::SIZES>
                {counted
                    .map(|(which, key, label)| {
                        segment(key, label, Part::new(move || by_size.get() == which), tap(GroupsTap::BySize(which)), shell)
                    })
                    .into_iter()
                    .collect::<Vec<_>>()}
            </div>
            {move || {
                let label = if by_size.get() { words::N_IN_GROUP } else { words::N_GROUPS };
                view! {
                    <Stepper
                        key="groups-n"
                        label
                        figure=Signal::derive(move || n.get().to_string())
                        at_least
                        at_most
                        on_step=move |more| shell.send(tap(GroupsTap::Stepped(more)))
                    />
                }
            }}
        </section>
    }
}

fn segment(key: &'static str, label: &'static str, on: Part<bool>, action: Action, shell: Shell) -> AnyView {
    view! {
        <button
            class="segment"
            type="button"
            data-key=key
            aria-pressed=move || on.get().to_string()
            on:click=shell.sends(action)
        >
            {label}
        </button>
    }
}

/// Eleven came, eight balls.
#[component]
fn Fit(view: Part<GroupsView>, shell: Shell) -> impl IntoView {
    let balls = Part::new(move || view.with(|v| v.balls));
    let least = Part::new(move || view.with(|v| v.balls_least));
    let most = Part::new(move || view.with(|v| v.balls_most));
    view! {
        <section class="teams-fit">
            <Stepper
                key="balls"
                label=words::BALLS
                figure=Signal::derive(move || balls.get().to_string())
                at_least=least
                at_most=most
                on_step=move |more| shell.send(tap(GroupsTap::BallsStepped(more)))
            />
            <button class="quiet" type="button" data-key="refit" on:click=shell.sends(tap(GroupsTap::Refit))>
                <span>{words::REFIT}</span>
                <span class="hint">{words::REFIT_LINE}</span>
            </button>
        </section>
    }
}
