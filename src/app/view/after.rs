//! The first two minutes after a practice, on top of its report. What is worth knowing names no child on top; questions name whom to ask and
//! nothing else.

use crate::app::action::Action;
use crate::app::after::{self, Worth, is_last, parts_left_out, worth_asking, worth_knowing};
use crate::app::fair::OF_ONE;
use crate::app::model::Model;
use crate::app::notes::{AskTap, NotesTap};
use crate::app::plan::PlanTap;
use crate::app::screen::Screen;
use crate::app::words::after::{self as words, ToPlan};
use crate::app::words::plan::Done;
use crate::app::words::{counts, fair as fair_words, notes as note_words, report};
use crate::domain::ids::PracticeId;
use crate::domain::notes::said;
use crate::domain::plan::{PartKind, PlanDone, PlanPart};
use crate::domain::summary::PracticeSummary;
use crate::domain::time::Stamp;
use crate::domain::weeks::day_of;

#[derive(Clone, Debug, PartialEq)]
pub struct Minutes {
    /// "4 of 5 parts were done; not done: Serving."
    pub plan: String,
    pub know: Vec<Know>,
    /// Why there is nothing to know, where there is nothing.
    pub know_none: Option<&'static str>,
    /// What has changed over weeks isn't worked out yet.
    pub working: bool,
    /// It could not be worked out, so nothing of it is known: why.
    pub trouble: Option<String>,
    pub next: Option<NextView>,
}

/// One thing worth knowing: words first, what it rests on behind a tap, and where something can be done.
#[derive(Clone, Debug, PartialEq)]
pub struct Know {
    pub line: String,
    pub rests: Vec<String>,
    pub how: &'static str,
    pub way: (&'static str, Action),
}

#[derive(Clone, Debug, PartialEq)]
pub struct AskRow {
    /// "What did you look at, Mira?"
    pub said: String,
    /// "Mira was not asked yet, in 3 practices."
    pub why: String,
    pub asked: bool,
    pub tap: Action,
}

#[derive(Clone, Debug, PartialEq)]
pub struct NextView {
    pub label: &'static str,
    pub line: String,
    pub tap: Action,
}

/// Nothing while it is on.
pub fn minutes(model: &Model, summary: &PracticeSummary) -> Option<Minutes> {
    if is_on(model, summary.practice) {
        return None;
    }
    let worth = worth_knowing(model, summary);
    let told_below = worth.iter().any(|worth| matches!(worth, Worth::LeftOut(_)));
    let know: Vec<Know> = worth.iter().map(|worth| know(model, summary.practice, worth)).collect();
    let none = if summary.n_counted() == 0 { words::KNOW_NOTHING } else { words::KNOW_NONE };
    let working = model.weeks.found.is_none() && model.weeks.trouble.is_none() && !model.weeks.series.is_empty();
    // Of what an older report tells, none comes from it.
    let last = is_last(model, summary.practice);
    let working = working && last;
    let trouble = model.weeks.trouble.as_ref().filter(|_| last).map(|why| words::not_worked_out(why));
    Some(Minutes {
        plan: plan_line(summary, told_below),
        know_none: (know.is_empty() && !working).then_some(none),
        working,
        trouble,
        know,
        next: next(model, summary),
    })
}

/// Three questions, while the practice is in memory.
pub fn asks(model: &Model, summary: &PracticeSummary) -> Vec<AskRow> {
    if is_on(model, summary.practice) {
        return Vec::new();
    }
    let row = |ask: &after::ToAsk| {
        let name = model.name_of(ask.turn.player);
        let day = ask.turn.last_ms.map(|wall_ms| counts::day(Stamp { wall_ms, ..model.now }.day(), model.now.day()));
        let tap = match ask.asked {
            Some(id) => NotesTap::TakenBack(id),
            None => NotesTap::Question(AskTap::AskedAfter(summary.practice, ask.turn.player, ask.question.clone())),
        };
        AskRow {
            said: said(&ask.question, &name),
            why: match ask.asked {
                Some(_) => words::ASKED_NOW.to_owned(),
                None => note_words::why(&name, ask.turn.n_asked, ask.turn.n_here, day.as_deref()),
            },
            asked: ask.asked.is_some(),
            tap: Action::Notes(tap),
        }
    };
    worth_asking(model, summary).iter().map(row).collect()
}

fn is_on(model: &Model, practice: PracticeId) -> bool {
    model.practice_today().is_some_and(|on| on.id == practice)
}

/// What was left out is said once: here, or among what is worth knowing.
fn plan_line(summary: &PracticeSummary, told_below: bool) -> String {
    if let Some(done) = &summary.plan {
        let of = to_plan(done);
        let left_out = if told_below { Vec::new() } else { of.left_out };
        return words::to_plan(&ToPlan { left_out, ..of });
    }
    let n_contacts = summary.runs.iter().map(|r| r.n_contacts as usize).sum();
    let n_rallies = summary.runs.iter().filter_map(|r| r.game.as_ref()).map(|game| game.n_rallies as usize).sum();
    let n_told = summary.runs.iter().filter(|r| r.everyone.told.tries() > 0).count();
    words::no_plan(&report::practice_line(summary.runs.len(), n_contacts, n_rallies, n_told, 0))
}

fn to_plan(done: &PlanDone) -> ToPlan {
    let of = |no| match done.done.iter().find(|(part, _)| *part == no) {
        None => Done::Not,
        Some((_, ms)) => ms.map_or(Done::Begun, Done::For),
    };
    let (added, planned): (Vec<_>, Vec<_>) = done.plan.parts.iter().partition(|part| part.added);
    let planned: Vec<_> = planned.into_iter().filter(|part| part.kind != PartKind::Break).collect();
    let begun = |part: &&PlanPart| of(part.no) != Done::Not;
    let longer = planned
        .iter()
        .filter_map(|part| Some((part.title.clone(), part.minutes, words::is_longer(part.minutes, of(part.no))?)));
    let took = planned.iter().copied().filter(begun).try_fold((0_u64, 0_u32), |(ms, min), part| match of(part.no) {
        Done::For(more) => Some((ms + u64::from(more), min + u32::from(part.minutes))),
        Done::Begun | Done::Not => None,
    });
    ToPlan {
        n_planned: planned.len(),
        n_done: planned.iter().copied().filter(begun).count(),
        left_out: parts_left_out(done).into_iter().map(|part| part.title).collect(),
        took: took.map(|(ms, min)| (u32::try_from((ms + 30_000) / 60_000).unwrap_or(u32::MAX), min)),
        all_near: planned.iter().copied().filter(begun).all(|part| words::is_near(part.minutes, of(part.no))),
        longer: longer.max_by_key(|(_, planned, done)| done - planned),
        n_added: added.iter().copied().filter(begun).count(),
    }
}

fn know(model: &Model, practice: PracticeId, worth: &Worth) -> Know {
    match worth {
        Worth::Changed(children) => {
            let line = |name: &str, better: &after::Better| {
                let since = counts::date(day_of(better.change.since), model.now.day());
                words::changed_of(name, better, &since)
            };
            let rests = children.iter().flat_map(|(player, all)| {
                let name = model.name_of(*player);
                all.iter().map(|better| line(&name, better)).collect::<Vec<_>>()
            });
            let one = match children[..] {
                [(player, _)] => Some(player),
                _ => None,
            };
            Know {
                line: words::changed(children.len()),
                rests: rests.collect(),
                how: words::CHANGED_HOW,
                way: (words::WAY_WEEKS, Action::Go(Screen::Weeks(one))),
            }
        }
        Worth::Short(fair) => {
            let short = fair.short(OF_ONE);
            let rests =
                short.iter().map(|child| fair_words::short(&model.name_of(child.player), child.share, fair.by_rallies));
            Know {
                line: words::short(short.len(), fair.by_rallies),
                rests: rests.collect(),
                how: words::SHORT_HOW,
                way: (words::WAY_FAIR, Action::Go(Screen::Fair)),
            }
        }
        Worth::Drill(run, count, easy) => Know {
            line: words::drill(&run.name, *easy),
            rests: vec![words::drill_count(*count)],
            how: words::DRILL_HOW,
            way: match run.drill.filter(|drill| model.base.drill(*drill).is_some()) {
                Some(drill) => (words::WAY_DRILL, Action::Go(Screen::Drill(Some(drill)))),
                None => (words::WAY_RUN, Action::Go(Screen::RunReport(run.run))),
            },
        },
        Worth::LeftOut(parts) => Know {
            line: words::left_out(&parts.iter().map(|part| part.title.clone()).collect::<Vec<_>>()),
            rests: Vec::new(),
            how: words::LEFT_OUT_HOW,
            way: (
                if after::next_plan(model, practice).is_some_and(|next| next.made) {
                    words::WAY_PLAN
                } else {
                    words::WAY_FIRST
                },
                Action::Plan(PlanTap::Next(practice)),
            ),
        },
        Worth::Together(run, before) => Know {
            line: words::together(
                run.together.map_or(0, |now| now.best),
                *before,
                run.together.is_some_and(|now| now.row),
            ),
            rests: vec![words::together_how(&run.name, *before)],
            how: "",
            way: (words::WAY_RUN, Action::Go(Screen::RunReport(run.run))),
        },
        Worth::NoEffort => Know {
            line: words::NO_EFFORT.to_owned(),
            rests: Vec::new(),
            how: words::NO_EFFORT_HOW,
            way: (words::WAY_NOTE, Action::Notes(NotesTap::Wanted(Some(practice), None))),
        },
    }
}

fn next(model: &Model, summary: &PracticeSummary) -> Option<NextView> {
    let next = after::next_plan(model, summary.practice)?;
    let date = next.date.and_then(|id| model.base.date(id)).map(|dated| counts::day(dated.date.day, model.now.day()));
    let from_this = summary.plan.as_ref().is_some_and(|done| !done.again().parts.is_empty());
    Some(NextView {
        label: words::next_plan(next.made),
        line: words::next_line(date.as_deref(), next.made, from_this),
        tap: Action::Plan(PlanTap::Next(summary.practice)),
    })
}
