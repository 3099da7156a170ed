//! The plan: a timeline by minutes on the court floor, three tracks beside it for ball, net and game; what is in it and what to change; the
//! part that is open at the thumb.

mod after;
mod editor;
mod strip;
mod timeline;

pub use after::after;
pub use strip::{NextKey, Strip, Way};

use leptos::prelude::*;

use self::editor::PartSheet;
use self::strip::fitted_line;
use self::timeline::Timeline;
use super::parts::{Head, Stepper, WayTo};
use super::pictures::{Glyph, glyph};
use crate::app::action::Action;
use crate::app::plan::PlanTap;
use crate::app::screen::Screen;
use crate::app::view::groups::TroubleView;
use crate::app::view::plan::PlanView;
use crate::app::words::calendar as calendar_words;
use crate::app::words::plan as words;
use crate::domain::plan::PartKind;
use crate::ui::markup::{Show, view};
use crate::ui::part::Part;
use crate::ui::shell::Shell;

const BACK: (Screen, &str) = (Screen::Today, words::BACK);
const BACK_TO_DATES: (Screen, &str) = (Screen::Calendar, calendar_words::BACK);

#[component]
pub fn Plan(view: Part<PlanView>, shell: Shell) -> impl IntoView {
    let empty = Part::new(move || view.with(|v| v.empty));
    let total = Part::new(move || view.with(|v| (v.total.clone(), v.over)));
    let date = Part::new(move || view.with(|v| v.date.clone()));
    // A date's plan is a screen of its own: this one stays with it.
    let back = if view.with_untracked(|v| v.of_date) { BACK_TO_DATES } else { BACK };
    let aside = move || {
        view! {
            <Show when=move || !empty.get()>
                <span class="plan-total" class:is-over=move || total.with(|t| t.1) data-fig="plan-total">
                    {move || total.with(|t| t.0.clone())}
                </span>
            </Show>
        }
    };
    view! {
        <main class="screen" data-screen="plan">
            <Head title=words::TITLE.to_owned() shell back aside />
            {move || date.get().map(|line| view! { <p class="hint" data-fig="plan-date">{line}</p> })}
            {move || {
                if empty.get() {
                    view! { <Empty view shell /> }
                } else {
                    view! { <Made view shell /> }
                }
            }}
        </main>
    }
}

/// No plan yet: one tap makes a whole one.
#[component]
fn Empty(view: Part<PlanView>, shell: Shell) -> impl IntoView {
    let copies = Part::new(move || view.with(|v| v.copies.clone()));
    let now = Part::new(move || view.with(|v| v.now));
    view! {
        <section class="empty plan-empty">
            <div class="plan-ghost" aria-hidden="true"><i></i><i></i><i></i><i></i></div>
            <h2 class="empty-heading">{words::EMPTY}</h2>
            <p>{words::EMPTY_LINE}</p>
        </section>
        {move || {
            copies.with(|copies| {
                let rows: Vec<_> = copies
                    .iter()
                    .enumerate()
                    .map(|(i, (practice, line))| {
                        view! {
                            <li>
                                <button
                                    class="row-key"
                                    type="button"
                                    data-key=format!("plan-copy.{i}")
                                    on:click=shell.sends(tap(PlanTap::Copied(*practice)))
                                >
                                    <span class="row-words"><span class="row-line">{line.clone()}</span></span>
                                    {glyph(Glyph::Onward)}
                                </button>
                            </li>
                        }
                    })
                    .collect();
                (!rows.is_empty())
                    .then(|| {
                        view! {
                            <section>
                                <h2 class="section-head">{words::COPY}</h2>
                                <ul class="rows card">{rows}</ul>
                            </section>
                        }
                    })
            })
        }}
        <ToDates view shell />
        <div class="foot">
            <Show when=move || now.get()>
                <button class="quiet" type="button" data-key="plan-as-it-goes" on:click=shell.sends(tap(PlanTap::AsItGoes))>
                    {words::AS_IT_GOES}
                </button>
            </Show>
            <button class="quiet" type="button" data-key="plan-make" on:click=shell.sends(tap(PlanTap::Made))>
                {words::MAKE}
            </button>
            <button class="big" type="button" data-key="plan-propose" on:click=shell.sends(tap(PlanTap::Proposed))>
                <span class="big-words">
                    <span>{words::PROPOSE}</span>
                    <span class="big-line">{words::PROPOSE_LINE}</span>
                </span>
            </button>
        </div>
    }
}

/// The way to the dates, but from a date's own plan, which leads back there.
#[component]
fn ToDates(view: Part<PlanView>, shell: Shell) -> impl IntoView {
    let of_date = view.with_untracked(|v| v.of_date);
    (!of_date).then(|| {
        let (label, line) = (calendar_words::TITLE, calendar_words::LINE);
        view! { <WayTo key="plan-calendar" label line to=Screen::Calendar shell /> }
    })
}

#[component]
fn Made(view: Part<PlanView>, shell: Shell) -> impl IntoView {
    let troubles = Part::new(move || view.with(|v| v.troubles.clone()));
    let fitted = Part::new(move || view.with(|v| v.fitted.clone()));
    let running = Part::new(move || view.with(|v| v.running));
    let picked = Part::new(move || view.with(|v| v.editor.is_some()));
    view! {
        {move || troubles.with(|list| list.iter().enumerate().map(|(i, t)| trouble(i, t, shell)).collect::<Vec<_>>())}
        {move || fitted.get().map(|line| fitted_line(line, shell))}
        <Timeline view shell />
        <Balance view />
        <Times view shell />
        <ToDates view shell />
        <Show when=move || !running.get()>
            <button class="quiet" type="button" data-key="plan-throw" on:click=shell.sends(tap(PlanTap::Thrown))>
                {words::THROW}
            </button>
        </Show>
        <Show when=move || picked.get() fallback=move || view! { <Keys view shell /> }>
            <PartSheet view shell />
        </Show>
    }
}

/// At the thumb: add a part, begin.
#[component]
fn Keys(view: Part<PlanView>, shell: Shell) -> impl IntoView {
    let adding = Part::new(move || view.with(|v| v.adding));
    let full = Part::new(move || view.with(|v| v.full));
    let begin = Part::new(move || view.with(|v| v.begin.clone()));
    view! {
        <div class="foot foot-two is-bar">
            <Show when=move || adding.get()>
                <Kinds view shell />
            </Show>
            <button
                class="quiet"
                type="button"
                data-key="plan-add"
                aria-expanded=move || adding.get().to_string()
                prop:disabled=move || full.get()
                on:click=shell.sends(tap(PlanTap::AddOpened))
            >
                {move || match (full.get(), adding.get()) {
                    (true, _) => words::FULL,
                    (false, true) => words::ADD_CLOSE,
                    (false, false) => words::ADD,
                }}
            </button>
            {move || {
                begin
                    .get()
                    .filter(|_| !adding.get())
                    .map(|(no, label)| {
                        view! {
                            <button class="big" type="button" data-key="plan-begin" on:click=shell.sends(tap(PlanTap::Begun(no)))>
                                {label}
                            </button>
                        }
                    })
            }}
        </div>
    }
}

/// What can be put in: kinds of its own, and the drills.
#[component]
fn Kinds(view: Part<PlanView>, shell: Shell) -> impl IntoView {
    let drills = view.with_untracked(|v| v.drills.clone());
    let key = |id: String, label: String, action: Action| {
        view! {
            <li>
                <button class="team-name" type="button" data-key=id on:click=shell.sends(action)>
                    <bdi>{label}</bdi>
                </button>
            </li>
        }
    };
    let kinds = [(PartKind::Arrival, "add.arrival"), (PartKind::Break, "add.break"), (PartKind::Other, "add.other")];
    let mut keys: Vec<_> = kinds
        .into_iter()
        .map(|(kind, id)| key(id.to_owned(), words::kind(kind).to_owned(), tap(PlanTap::Added(kind))))
        .collect();
    keys.extend(
        drills
            .into_iter()
            .enumerate()
            .map(|(i, (id, name))| key(format!("add.{i}"), name, tap(PlanTap::DrillAdded(id)))),
    );
    view! {
        <section class="plan-kinds" aria-label=words::ADDING>
            <ul class="team-names">{keys}</ul>
        </section>
    }
}

/// Ball, net and game as shares of the time, in the same textures as beside the parts; then what to change.
#[component]
fn Balance(view: Part<PlanView>) -> impl IntoView {
    let shares = Part::new(move || view.with(|v| v.shares.clone()));
    let advice = Part::new(move || view.with(|v| v.advice.clone()));
    let some = Part::new(move || shares.with(|s| !s.is_empty()));
    view! {
        <Show when=move || some.get()>
            <section class="plan-balance">
                <h2 class="section-head">{words::BALANCE}</h2>
                {move || {
                    shares.with(|shares| {
                        shares
                            .iter()
                            .map(|share| {
                                let percent = share.percent;
                                view! {
                                    <p class="plan-share">
                                        <span class="plan-share-label">{share.label}</span>
                                        <span class="plan-share-what" data-fig=share.texture>{share.what.clone()}</span>
                                        <span class="plan-bar" aria-hidden="true">
                                            <i class=share.texture style:width=format!("{percent}%")></i>
                                        </span>
                                    </p>
                                }
                            })
                            .collect::<Vec<_>>()
                    })
                }}
            </section>
        </Show>
        {move || {
            advice.with(|lines| {
                (!lines.is_empty())
                    .then(|| {
                        let lines: Vec<_> = lines.iter().map(|line| view! { <li>{line.clone()}</li> }).collect();
                        view! {
                            <section class="plan-advice">
                                <h2 class="section-head">{words::CHANGE}</h2>
                                <ul data-fig="advice">{lines}</ul>
                            </section>
                        }
                    })
            })
        }}
    }
}

#[component]
fn Times(view: Part<PlanView>, shell: Shell) -> impl IntoView {
    let gym = Part::new(move || view.with(|v| v.gym.clone()));
    let collect = Part::new(move || view.with(|v| v.collect.clone()));
    let ends = move |f: fn(&PlanView) -> bool| Part::new(move || view.with(f));
    view! {
        <section class="teams-fit" aria-label=words::SETTINGS>
            <Stepper
                key="gym"
                label=words::GYM
                figure=gym
                at_least=ends(|v| v.gym_ends.0)
                at_most=ends(|v| v.gym_ends.1)
                on_step=move |more| shell.send(tap(PlanTap::GymStepped(more)))
            />
            <Stepper
                key="collect"
                label=words::COLLECT
                line=words::COLLECT_LINE
                figure=collect
                at_least=ends(|v| v.collect_ends.0)
                at_most=ends(|v| v.collect_ends.1)
                on_step=move |more| shell.send(tap(PlanTap::CollectStepped(more)))
            />
        </section>
    }
}

fn trouble(i: usize, trouble: &TroubleView, shell: Shell) -> AnyView {
    view! {
        <section class="notice" role="status">
            {glyph(Glyph::Warn)} <p data-fig=format!("trouble.{i}")>{trouble.line.clone()}</p>
            <div class="notice-keys">
                <button
                    class="notice-act"
                    type="button"
                    data-key=format!("plan-way.{i}")
                    on:click=shell.sends(trouble.action.clone())
                >
                    {trouble.way.clone()}
                </button>
            </div>
        </section>
    }
}

fn tap(tap: PlanTap) -> Action {
    Action::Plan(tap)
}
