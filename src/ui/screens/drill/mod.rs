//! A drill as a row of large answers, not a form: each tap changes the draft whole, and a sentence says how it will run.

mod board;
pub mod change;
pub mod change_game;
mod change_roles;
mod game;
mod goal;
mod played;
mod roles;
mod rule;

use leptos::prelude::*;

use self::board::BoardField;
use self::change::SkillChoice;
use self::goal::GoalField;
use self::roles::RoleFields;
use self::rule::RuleFields;
use super::parts::{Choice, Head, Stepper, WayTo, quiet};
use crate::app::action::Action;
use crate::app::library::LibraryTap;
use crate::app::notes::{AskTap, NotesTap, Source};
use crate::app::screen::Screen;
use crate::app::view::library::page_of_form;
use crate::app::view::today::DrillView;
use crate::app::words::library as library_words;
use crate::app::words::notes as note_words;
use crate::app::words::screens as words;
use crate::app::words::weeks::drill as week_words;
use crate::domain::drill::{Board, ChallengeBy, DrillSpec};
use crate::domain::skill::{FeedKind, GoodFrom, Skill};
use crate::ui::markup::{Show, live, view};
use crate::ui::part::Part;
use crate::ui::shell::Shell;

/// The draft, and the one way to change it. Copy, so that each handler can own it.
#[derive(Clone, Copy)]
struct Draft {
    spec: Part<DrillSpec>,
    shell: Shell,
}

impl Draft {
    fn change(self, change: impl FnOnce(&DrillSpec) -> DrillSpec) {
        let next = self.spec.with_untracked(|spec| change(spec));
        self.shell.send(Action::DrillDrafted(next));
    }

    /// Something of the draft, told only when it changes.
    fn part<T: PartialEq + Clone + Send + Sync + 'static>(
        self,
        part: impl Fn(&DrillSpec) -> T + Send + Sync + 'static,
    ) -> Part<T> {
        let spec = self.spec;
        Part::new(move || spec.with(|spec| part(spec)))
    }
}

#[component]
pub fn Drill(view: Part<DrillView>, shell: Shell) -> impl IntoView {
    let draft = Draft { spec: Part::new(move || view.with(|v| v.spec.clone())), shell };
    let title =
        Signal::derive(move || view.with(|v| if v.is_new { words::DRILL_NEW } else { words::DRILL_CHANGE }).to_owned());
    let fault = Part::new(move || view.with(|v| v.fault.clone()));
    let page = shell.view(page_of_form);
    let id = shell.view(|m| match m.screen {
        Screen::Drill(drill) => drill,
        _ => None,
    });
    let copy = move || id.get_untracked().map(|drill| Action::Library(LibraryTap::Copied(drill)));
    let ask = move || {
        let source = Source::Drill(id.get_untracked()?);
        Some(Action::Notes(NotesTap::Question(AskTap::Wanted(source, None))))
    };
    let archive = move || id.get_untracked().map(Action::DrillArchived);
    let weeks = move || id.get_untracked().map(|drill| Action::Go(Screen::DrillWeeks(drill)));
    view! {
        <main class="screen" data-screen="drill">
            <Head title shell back=(Screen::Today, words::BACK_TO_TODAY) />
            {move || {
                page.get()
                    .map(|no| {
                        let to = Screen::LibraryDrill(no);
                        view! { <WayTo key="page" label=library_words::PAGE line=library_words::PAGE_LINE to shell /> }
                    })
            }}
            <NameField draft view />
            <SkillField draft />
            <BoardField draft />
            <RoleFields draft />
            <RuleFields draft />
            <GoalField shell />
            <GoodField draft />
            <BallField draft />
            <Show when=move || id.with(Option::is_some)>
                {quiet("drill-weeks", week_words::OPEN.into_any(), shell, weeks)}
                {quiet("drill-ask", note_words::ASK_DRILL.into_any(), shell, ask)}
                {quiet("drill-copy", library_words::COPY_THIS.into_any(), shell, copy)}
                {quiet("drill-archive", words::DRILL_ARCHIVE.into_any(), shell, archive)}
            </Show>
            <div class="foot">
                <p class="how" role="status" data-fig="how" class:fault=move || fault.with(Option::is_some)>
                    {move || fault.get().unwrap_or_else(|| view.with(|v| v.how.clone()))}
                </p>
                <button
                    class="big"
                    type="button"
                    data-key="drill-keep"
                    prop:disabled=move || fault.with(Option::is_some)
                    on:click=shell.sends(Action::DrillKept)
                >
                    {words::DRILL_KEEP}
                </button>
            </div>
        </main>
    }
}

#[component]
fn NameField(draft: Draft, view: Part<DrillView>) -> impl IntoView {
    let name = draft.part(|s| s.name.clone());
    let hint = move || {
        view.with(|v| if v.name_hint.is_empty() { words::DRILL_NAME_HINT.to_owned() } else { v.name_hint.clone() })
    };
    view! {
        <label class="field">
            <span class="field-label">{words::DRILL_NAME}</span>
            <input
                class="input"
                data-field="drill-name"
                type="text"
                dir="auto"
                autocomplete="off"
                placeholder=hint
                prop:value=move || name.get()
                on:input:target=move |ev| {
                    let name = ev.target().value();
                    draft.change(|s| DrillSpec { name, ..s.clone() });
                }
            />
        </label>
    }
}

#[component]
fn SkillField(draft: Draft) -> impl IntoView {
    let choice = draft.part(|s| SkillChoice::of(&s.skill));
    let own = draft.part(|s| match &s.skill {
        Skill::Own(name) => Some(name.clone()),
        Skill::Pass | Skill::Serve => None,
    });
    let is_own = Part::new(move || own.with(Option::is_some));
    let choices = SkillChoice::ALL.map(|which| {
        let (key, label) = match which {
            SkillChoice::Pass => ("skill.pass", words::SKILL_PASS),
            SkillChoice::Serve => ("skill.serve", words::SKILL_SERVE),
            SkillChoice::Own => ("skill.own", words::SKILL_OWN),
        };
        view! {
            <Choice
                key=key.to_owned()
                label
                chosen=Signal::derive(move || choice.get() == which)
                on_tap=move || draft.change(|s| change::with_skill(s, which))
            />
        }
    });
    view! {
        <section>
            <h2 class="section-head">{words::DRILL_SKILL}</h2>
            <div class="choices choices-three">{choices}</div>
            <Show when=move || is_own.get()>
                <label class="field">
                    <span class="field-label">{words::SKILL_NAME}</span>
                    <input
                        class="input"
                        data-field="skill-name"
                        type="text"
                        dir="auto"
                        autocomplete="off"
                        placeholder=words::SKILL_NAME_HINT
                        prop:value=move || own.get().unwrap_or_default()
                        on:input:target=move |ev| {
                            let name = ev.target().value();
                            draft.change(|s| DrillSpec { skill: Skill::Own(name), ..s.clone() });
                        }
                    />
                </label>
            </Show>
        </section>
    }
}

#[component]
fn GoodField(draft: Draft) -> impl IntoView {
    let asked = draft.part(|s| (SkillChoice::of(&s.skill), change::picture(s)));
    let good = draft.part(|s| s.good_from);
    live(move || {
        let (skill, board) = asked.get();
        let goods = skill.goods(board);
        (goods.len() > 1).then(|| {
            let choice = |(i, &which): (usize, &GoodFrom)| {
                view! {
                    <Choice
                        key=format!("good.{i}")
                        label=words::good_from(which)
                        chosen=Signal::derive(move || good.get() == which)
                        on_tap=move || draft.change(|s| DrillSpec { good_from: which, ..s.clone() })
                    />
                }
            };
            view! {
                <section>
                    <h2 class="section-head">{words::GOOD_HEAD}</h2>
                    <div class="choices">{goods.iter().enumerate().map(choice).collect::<Vec<_>>()}</div>
                </section>
            }
        })
    })
}

/// The ball given from the start. A transition rule gives its own kinds, so only the step is asked there.
#[component]
fn BallField(draft: Draft) -> impl IntoView {
    let kind = draft.part(|s| s.feed.kind);
    let step = draft.part(|s| s.feed.step);
    let skill = draft.part(|s| s.skill.clone());
    let own_kind = draft.part(|s| change::transition(s).is_none());
    let by = draft.part(|s| s.on_floor.challenge);
    let has_challenge = draft.part(|s| !matches!(s.board, Board::Told { .. } | Board::Court));
    let made_by = [
        (ChallengeBy::Harder, "challenge.harder", words::CHALLENGE_HARDER),
        (ChallengeBy::Distracted, "challenge.distracted", words::CHALLENGE_DISTRACTED),
    ];
    let kinds = [
        (FeedKind::Easy, "ball.easy", words::BALL_EASY),
        (FeedKind::Challenge, "ball.challenge", words::BALL_CHALLENGE),
    ];
    view! {
        <section>
            <h2 class="section-head">{words::BALL_HEAD}</h2>
            <Show when=move || own_kind.get()>
                <div class="choices choices-two">
                    {kinds
                        .map(|(which, key, label)| {
                            view! {
                                <Choice
                                    key=key.to_owned()
                                    label
                                    chosen=Signal::derive(move || kind.get() == which)
                                    on_tap=move || {
                                        draft
                                            .change(|s| {
                                                let mut next = s.clone();
                                                next.feed.kind = which;
                                                next
                                            });
                                    }
                                />
                            }
                        })}
                </div>
            </Show>
            <Show when=move || has_challenge.get()>
                <h3 class="ask">{words::CHALLENGE_BY}</h3>
                <div class="choices choices-two">
                    {made_by
                        .map(|(which, key, label)| {
                            view! {
                                <Choice
                                    key=key.to_owned()
                                    label
                                    chosen=Signal::derive(move || by.get() == which)
                                    on_tap=move || {
                                        draft
                                            .change(|s| {
                                                let mut next = s.clone();
                                                next.on_floor.challenge = which;
                                                next
                                            });
                                    }
                                />
                            }
                        })}
                </div>
            </Show>
            <Stepper
                key="step"
                label=words::BALL_STEP
                line=words::BALL_STEP_LINE
                figure=Signal::derive(move || words::step(step.get()))
                at_least=Signal::derive(move || skill.with(|skill| change::is_lowest(skill, step.get())))
                at_most=Signal::derive(move || change::is_highest(step.get()))
                on_step=move |more| {
                    draft
                        .change(|s| {
                            let mut next = s.clone();
                            next.feed.step = change::step_ladder(&next.skill, next.feed.step, more);
                            next
                        });
                }
            />
            <p class="step-words" data-fig="step-words" role="status">
                {move || skill.with(|skill| words::step_in_words(skill, step.get()))}
            </p>
        </section>
    }
}
