//! The day that is open: each date and practice on it, what became of it, and what can be done.

use chrono::NaiveDate;

use super::{DayItem, DayView, Entered};
use crate::app::action::{Action, CopyHow};
use crate::app::calendar::{CalendarTap, Span, has_plan, plan_done};
use crate::app::model::Model;
use crate::app::plan::was_there;
use crate::app::practices::Practices;
use crate::app::screen::Screen;
use crate::app::update::calendar::file::left_out;
use crate::app::words::calendar::{self as words, State};
use crate::app::words::{counts, report};
use crate::domain::calendar::Dated;
use crate::domain::ids::{DateId, PracticeId};
use crate::domain::summary::PracticeSummary;

/// Its key, what it says, and what it asks for.
type Way = (&'static str, &'static str, Action);

pub(super) fn on_day(model: &Model, all: &[Entered], day: NaiveDate) -> DayView {
    let on_it: Vec<&Entered> = all.iter().filter(|entered| entered.day == day).collect();
    let practices = (!on_it.is_empty()).then(|| Practices::of(model));
    let known = practices.as_ref().map_or_else(Vec::new, Practices::latest_first);
    DayView {
        title: counts::day(day, model.now.day()),
        items: on_it.into_iter().map(|entered| item(model, all, entered, &known)).collect(),
        can_add: day >= model.now.day(),
    }
}

fn item(model: &Model, all: &[Entered], entered: &Entered, known: &[&PracticeSummary]) -> DayItem {
    let date = entered.dated.as_ref().map(|dated| &dated.date);
    let summary = entered.practice.and_then(|id| known.iter().copied().find(|p| p.practice == id));
    let mut lines = match (summary, entered.state) {
        (Some(summary), _) => done_lines(model, summary),
        (None, State::Missed) => vec![words::NOTHING_HELD.to_owned()],
        (None, State::Dropped) => plan_waits(model, entered).into_iter().collect(),
        (None, _) => planned_line(model, entered.dated.as_ref()).into_iter().collect(),
    };
    let offered = matches!(entered.state, State::Planned | State::Bare);
    let id = entered.dated.as_ref().filter(|_| offered).map(|dated| dated.id);
    lines.extend(id.and_then(|id| left_out(model, Span::One(id))));
    DayItem {
        hours: date.map_or_else(|| words::hour(entered.start_min), |date| words::hours(date.start_min, date.minutes)),
        place: date.map(|date| date.place.clone()).unwrap_or_default(),
        state: entered.state,
        lines,
        ways: ways(model, all, entered, known),
    }
}

fn planned_line(model: &Model, dated: Option<&Dated>) -> Option<String> {
    let plan = model.base.plan(dated.filter(|dated| has_plan(model, dated))?.plan?)?;
    let n = plan.parts.iter().filter(|part| !part.is_dropped()).count();
    Some(words::planned(n, plan.minutes().all, plan.gym_min))
}

/// Where a dropped date's plan went.
fn plan_waits(model: &Model, entered: &Entered) -> Option<String> {
    let plan = entered.dated.as_ref()?.plan;
    (plan.is_some() && model.base.plan_waiting() == plan).then(|| words::PLAN_WAITS.to_owned())
}

/// Minutes with a ball, what was counted, who was here.
fn done_lines(model: &Model, summary: &PracticeSummary) -> Vec<String> {
    let spent = plan_done(model, summary.practice).map(|done| done.spent()).filter(|spent| spent.all_ms > 0);
    let n_contacts = summary.runs.iter().map(|run| run.n_contacts as usize).sum();
    let n_rallies = summary.runs.iter().filter_map(|run| run.game.as_ref()).map(|game| game.n_rallies as usize).sum();
    let n_told = summary.runs.iter().filter(|run| run.everyone.told.tries() > 0).count();
    let squad = model.base.players();
    let n_here = squad.iter().filter(|player| was_there(model, summary, player.id)).count();
    let n_away = summary.away.iter().filter(|player| !summary.took_part(**player)).count();
    let counted = report::practice_line(summary.runs.len(), n_contacts, n_rallies, n_told, 0);
    let mut lines: Vec<String> = spent.map(|spent| words::ball(spent.ball_ms, spent.all_ms)).into_iter().collect();
    lines.push(format!("{counted}."));
    lines.push(words::here(n_here, n_here + n_away));
    lines
}

fn ways(model: &Model, all: &[Entered], entered: &Entered, known: &[&PracticeSummary]) -> Vec<Way> {
    let tap = Action::Calendar;
    if let Some(practice) = entered.practice {
        let mut ways = vec![("day-report", words::REPORT, Action::Go(Screen::PracticeReport(practice)))];
        ways.extend(of_practice(model, all, entered, practice));
        return ways;
    }
    let Some(dated) = &entered.dated else { return Vec::new() };
    let id = dated.id;
    let change = ("day-change", words::CHANGE, Action::Go(Screen::Dates(Some(id))));
    let drop = ("day-drop", words::DROP, tap(CalendarTap::Dropped(id, true)));
    match entered.state {
        State::Dropped if dated.date.day >= model.now.day() => {
            vec![("day-wanted", words::WANTED, tap(CalendarTap::Dropped(id, false)))]
        }
        State::Dropped => Vec::new(),
        State::Missed => vec![drop],
        State::Planned => {
            vec![("day-plan", words::PLAN, Action::Go(Screen::DatePlan(id))), change, to_calendar(model, id), drop]
        }
        _ => {
            let has_last = known.iter().any(|p| p.plan.as_ref().is_some_and(|plan| !plan.again().parts.is_empty()));
            let waits = model.base.plan_waiting().and_then(|plan| model.base.plan(plan));
            let mut ways = Vec::new();
            if waits.is_some_and(|plan| !plan.parts.is_empty()) {
                ways.push(("day-waiting", words::TAKE_WAITING, tap(CalendarTap::WaitingTaken(id))));
            }
            ways.push(("day-plan", words::MAKE_PLAN, Action::Go(Screen::DatePlan(id))));
            if has_last && dated.plan.is_none() {
                ways.push(("day-copy", words::COPY_LAST, tap(CalendarTap::LastCopied(id))));
            }
            ways.extend([change, to_calendar(model, id), drop]);
            ways
        }
    }
}

/// What was planned for the date where nobody began it, and the way to another date or back to it.
fn of_practice(model: &Model, all: &[Entered], entered: &Entered, practice: PracticeId) -> Vec<Way> {
    let held = |id, practice| Action::Calendar(CalendarTap::Held(id, practice));
    let Some(dated) = &entered.dated else {
        // Nothing holds a date in which nothing was done.
        let free = |other: &&Entered| {
            let stands = other.dated.as_ref().is_some_and(|dated| !dated.dropped);
            other.day == entered.day && other.practice.is_none() && stands && entered.state != State::Missed
        };
        let nearest = all.iter().filter(free).min_by_key(|other| other.start_min.abs_diff(entered.start_min));
        let date = nearest.and_then(|other| other.dated.as_ref());
        return date.map(|date| ("day-this", words::THIS_ONE, held(date.id, Some(practice)))).into_iter().collect();
    };
    let follows = model.practice_today().is_some_and(|on| on.id == practice && on.plan == dated.plan);
    let is_told = follows || dated.plan.is_some_and(|plan| model.base.is_unbegun(plan));
    let its = (is_told && has_plan(model, dated)).then_some((
        "day-plan",
        words::PLAN,
        Action::Go(Screen::DatePlan(dated.id)),
    ));
    its.into_iter().chain([("day-not-this", words::NOT_THIS_ONE, held(dated.id, None))]).collect()
}

fn to_calendar(model: &Model, id: DateId) -> Way {
    let how = if model.phone.can_share_dates { CopyHow::ShareSheet } else { CopyHow::Download };
    ("day-file", words::TO_CALENDAR, Action::Calendar(CalendarTap::FileWanted(Span::One(id), how)))
}
