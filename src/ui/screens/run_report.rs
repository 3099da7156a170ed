//! After a run: what everyone did together in one sentence, then child by child, then the ways on.

use leptos::prelude::*;

use super::parts::{Head, NotHere, WayTo};
use super::report::{efforts, section, touches};
use crate::app::action::Action;
use crate::app::plan::PlanTap;
use crate::app::screen::Screen;
use crate::app::view::report::{GroupLine, OwnGoal, RunReportView, StepLine, StepsView};
use crate::app::words::{scores, screens as words, steps as step_words};
use crate::ui::markup::{live, view};
use crate::ui::part::Part;
use crate::ui::shell::Shell;

#[component]
pub fn RunReport(view: Part<Option<RunReportView>>, shell: Shell) -> impl IntoView {
    live(move || {
        view.with(|v| match v {
            None => {
                view! { <NotHere screen="run-report" back=(Screen::After, words::BACK_TO_AFTER) shell /> }
            }
            Some(report) => page(report, shell).into_any(),
        })
    })
}

fn page(report: &RunReportView, shell: Shell) -> impl IntoView + use<> {
    let (run, finished, goes_on) = (report.run, report.finished, report.goes_on);
    let sections: Vec<_> = report.sections.iter().map(section).collect();
    let beside: Vec<_> = report
        .beside
        .iter()
        .map(|b| {
            let sections: Vec<_> = b.sections.iter().map(section).collect();
            view! {
                <p>{b.everyone.clone()}</p>
                {sections}
                {efforts(&b.efforts)}
            }
        })
        .collect();
    view! {
        <main class="screen" data-screen="run-report">
            <Head
                title=report.title.clone()
                shell
                back=(Screen::PracticeReport(report.practice), words::BACK_TO_PRACTICE)
            />
            <p class="hint">{report.when.clone()}</p>
            {if report.empty {
                view! { <p class="lead">{words::RUN_EMPTY}</p> }
            } else {
                view! {
                    <p class="lead" data-fig="everyone">
                        {report.everyone.clone()}
                    </p>
                }
            }}
            {report.self_scored.clone().map(|line| view! { <p class="hint" data-fig="self-scored">{line}</p> })}
            {report.row.clone().map(|row| view! { <p class="best-row"><span class="hint">{words::LONGEST}</span><b data-fig="row">{row}</b></p> })}
            {report.duel.clone().map(|duel| view! { <p class="lead duel-line" data-fig="duel">{duel}</p> })}
            {report.score.clone().map(|score| view! { <p class="lead" data-fig="score">{score}</p> })}
            {groups(&report.groups)}
            {report.counts_only.map(|line| view! { <p class="hint" data-fig="counts-only">{line}</p> })}
            {sections}
            {goals(&report.goals)}
            {steps(&report.steps, shell)}
            {report.caution.map(|caution| view! { <p class="hint" data-fig="caution">{caution}</p> })}
            {touches(report.touches.as_ref())}
            {efforts(&report.efforts)}
            {(!beside.is_empty())
                .then(|| {
                    view! {
                        <section class="beside">
                            <h2 class="section-head">{words::BESIDE}</h2>
                            <p class="hint">{words::BESIDE_LINE}</p>
                            {beside}
                        </section>
                    }
                })}
            <div class="keys-two">
                <button
                    class="quiet"
                    type="button"
                    data-key="contacts"
                    on:click=shell.sends(Action::Go(Screen::Contacts(run)))
                >
                    {words::CONTACT_LIST}
                </button>
                {if finished {
                    view! {
                        <button
                            class="quiet"
                            type="button"
                            data-key="run-reopen"
                            on:click=shell.sends(Action::RunReopened(run))
                        >
                            {words::RUN_REOPEN}
                        </button>
                    }
                } else {
                    view! {
                        <button
                            class="quiet"
                            type="button"
                            data-key="go-on"
                            on:click=shell.sends(Action::Go(Screen::Run(run)))
                        >
                            {words::GO_ON}
                        </button>
                    }
                }}
            </div>
            <div class="foot foot-two is-bar">
                <button
                    class=if goes_on { "quiet" } else { "big" }
                    type="button"
                    data-key="send"
                    on:click=shell.sends(Action::Go(Screen::Share))
                >
                    {words::SEND_COPY}
                </button>
                {goes_on
                    .then(|| {
                        let (key, label, action) = match &report.next_part {
                            Some((no, label)) => ("next-part", label.clone(), Action::Plan(PlanTap::Begun(*no))),
                            None => ("next-drill", words::NEXT_DRILL.to_owned(), Action::Go(Screen::Today)),
                        };
                        view! {
                            <button class="big" type="button" data-key=key on:click=shell.sends(action)>
                                <span dir="auto">{label}</span>
                            </button>
                        }
                    })}
            </div>
        </main>
    }
}

/// In the order of the groups: a report is not a ranking.
fn groups(lines: &[GroupLine]) -> Option<AnyView> {
    let row = |line: &GroupLine| {
        view! {
            <li>
                <b>{line.name.clone()}</b>
                <span class="group-what">{line.what.clone()}</span>
                <span class="hint" dir="auto">{line.who.clone()}</span>
            </li>
        }
    };
    let rows: Vec<_> = lines.iter().map(row).collect();
    (!rows.is_empty()).then(|| {
        view! {
            <section>
                <h2 class="section-head">{scores::GROUPS}</h2>
                <ul class="group-lines" data-fig="groups">{rows}</ul>
            </section>
        }
    })
}

fn goals(goals: &[OwnGoal]) -> Option<AnyView> {
    let row = |goal: &OwnGoal| {
        view! {
            <li>
                <b dir="auto">{goal.name.clone()}</b>
                <span class="group-what">{goal.goal.clone()}</span>
                {goal.chance.clone().map(|line| view! { <span class="hint">{line}</span> })}
            </li>
        }
    };
    let rows: Vec<_> = goals.iter().map(row).collect();
    (!rows.is_empty()).then(|| {
        view! {
            <section>
                <h2 class="section-head">{scores::OWN_GOALS}</h2>
                <p class="hint">{scores::OWN_GOALS_LINE}</p>
                <ul class="group-lines" data-fig="goals">{rows}</ul>
            </section>
        }
    })
}

/// For the coach alone: who is ready for another ball, each with the key that gives it.
fn steps(view: &StepsView, shell: Shell) -> Option<AnyView> {
    if view.working {
        return Some(view! { <p class="hint" role="status" data-fig="steps-working">{step_words::WORKING}</p> });
    }
    if let Some(why) = &view.trouble {
        return Some(view! { <p class="hint" role="status" data-fig="steps-trouble">{why.clone()}</p> });
    }
    let row = |(i, step): (usize, &StepLine)| {
        let given = step.given.clone().map(|given| {
            view! {
                {given.said.map(|said| view! { <span class="step-said" data-fig=format!("step-given.{i}")>{said}</span> })}
                <button
                    class="quiet"
                    type="button"
                    data-key=format!("step-give.{i}")
                    aria-label=format!("{}: {}", step.name, given.label)
                    on:click=shell.sends(given.action)
                >
                    {given.label.clone()}
                </button>
            }
        });
        view! {
            <li class="step-line">
                <b dir="auto">{step.name.clone()}</b>
                <span data-fig=format!("step.{i}")>{step.line.clone()}</span>
                {step.ends.map(|line| view! { <span class="hint">{line}</span> })}
                {given}
            </li>
        }
    };
    let rows: Vec<_> = view.lines.iter().enumerate().map(row).collect();
    let how: Vec<_> = step_words::HOW_LINES.iter().map(|line| view! { <p class="hint">{*line}</p> }).collect();
    let next = view.next.clone().map(|line| view! { <p class="lead" data-fig="next-for-all">{line}</p> });
    if rows.is_empty() {
        return next;
    }
    Some(view! {
        {next}
            <section data-fig="steps">
                <h2 class="section-head">{step_words::HEAD}</h2>
                <p class="hint">{step_words::LINE}</p>
                <ul class="step-lines card">{rows}</ul>
                <details class="weeks-how">
                    <summary data-key="steps-how">{step_words::HOW}</summary>
                    {how}
                    <WayTo key="step-lines" label=step_words::LINES line=step_words::LINES_LINE to=Screen::Phone shell />
                </details>
            </section>
    })
}
