//! The season by months, what is on a day, what the season adds up to; `form` follows it.

mod form;

pub use form::{DatesView, SeriesDay, dates_form};

use chrono::{Datelike, Days, NaiveDate};

use super::share::Answer;
use crate::app::action::{Action, CopyHow};
use crate::app::calendar::{CalendarTap, Season, Span, dates, has_plan, next, plan_done, this_season, wall};
use crate::app::model::Model;
use crate::app::plan::{practices, was_there};
use crate::app::screen::Screen;
use crate::app::update::calendar::shown_month;
use crate::app::words::calendar::{self as words, State};
use crate::app::words::{counts, report};
use crate::domain::calendar::Dated;
use crate::domain::ids::{DateId, PracticeId};
use crate::domain::plan::Plan;
use crate::domain::summary::PracticeSummary;

#[derive(Clone, Debug, PartialEq)]
pub struct CalendarView {
    /// Neither a date nor a practice yet.
    pub empty: bool,
    /// "December 2026"
    pub month: String,
    /// Short, and as they are said; in the order of the coach's week.
    pub weekdays: Vec<(&'static str, String)>,
    /// What the shapes of this month mean.
    pub states: Vec<State>,
    /// Days of other months are left empty.
    pub weeks: Vec<Vec<Option<DayCell>>>,
    /// The day that is open, or would be stepped from.
    pub at: NaiveDate,
    pub day: Option<DayView>,
    pub season: Vec<String>,
    /// "12 dates are set.", and the way back.
    pub set: Option<(String, &'static str)>,
    pub file: FileView,
}

#[derive(Clone, Debug, PartialEq)]
pub struct DayCell {
    pub day: NaiveDate,
    pub no: u32,
    pub label: String,
    pub today: bool,
    pub picked: bool,
    pub states: Vec<State>,
}

#[derive(Clone, Debug, PartialEq)]
pub struct DayView {
    pub title: String,
    pub items: Vec<DayItem>,
    /// A date can be set on it.
    pub can_add: bool,
}

/// A date or a practice.
#[derive(Clone, Debug, PartialEq)]
pub struct DayItem {
    /// "17:30 to 19:00"
    pub hours: String,
    pub place: String,
    pub state: State,
    pub lines: Vec<String>,
    /// What can be done, the likeliest first.
    pub ways: Vec<(&'static str, &'static str, Action)>,
}

/// The file for another calendar.
#[derive(Clone, Debug, PartialEq)]
pub struct FileView {
    pub span: Span,
    pub can_share: bool,
    pub writing: bool,
    pub ready: bool,
    pub answer: Option<Answer>,
}

const STATES: [State; 6] = [State::Held, State::On, State::Planned, State::Bare, State::Missed, State::Dropped];

pub fn calendar(model: &Model) -> CalendarView {
    let all = all(model);
    let month = shown_month(model);
    let draft = &model.drafts.calendar;
    let first_weekday = usize::from(model.phone.first_weekday.max(1) - 1) % 7;
    let order = || (0..7).map(move |i| (first_weekday + i) % 7);
    let set = draft.set.len();
    CalendarView {
        empty: all.is_empty(),
        month: words::month(month),
        weekdays: order().map(|i| (words::weekday_short(i), words::weekday_said(i))).collect(),
        states: STATES
            .into_iter()
            .filter(|state| all.iter().any(|e| e.state == *state && is_of(e.day, month)))
            .collect(),
        weeks: weeks(model, &all, month, first_weekday),
        at: draft.picked.unwrap_or(if is_of(model.now.day(), month) { model.now.day() } else { month }),
        day: draft.picked.map(|day| on_day(model, &all, day)),
        season: this_season(model).map(|season| season_lines(&season)).unwrap_or_default(),
        set: (set > 0).then(|| (words::were_set(set), if set == 1 { words::TAKE_BACK_ONE } else { words::TAKE_BACK })),
        file: FileView {
            span: draft.span,
            can_share: model.phone.can_share_dates,
            writing: model.calendar_file.writing,
            ready: model.calendar_file.ready.is_some(),
            answer: model.calendar_file.answer.clone(),
        },
    }
}

/// On the first screen: `Thursday 17:30, planned`.
pub fn next_line(model: &Model) -> String {
    let line = |dated: Dated| {
        let date = &dated.date;
        words::next(date.day, model.now.day(), date.start_min, has_plan(model, &dated))
    };
    next(model).map_or_else(|| words::EMPTY.to_lowercase(), line)
}

/// Over the plan of a date, or of the date that is due: for when it is.
pub fn plan_for(model: &Model) -> Option<String> {
    let dated = model.base.date(crate::app::plan::date_for(model)?)?;
    let date = &dated.date;
    let day = counts::day(date.day, model.now.day());
    Some(words::plan_for(&day, &words::hours(date.start_min, date.minutes), &date.place))
}

/// What stands in the calendar: a date, a practice, or a date with its practice.
struct Entered {
    day: NaiveDate,
    start_min: u16,
    dated: Option<Dated>,
    practice: Option<PracticeId>,
    state: State,
}

/// In the order of their hours.
fn all(model: &Model) -> Vec<Entered> {
    let on = model.practice_today().map(|practice| practice.id);
    let of_practice = |id: PracticeId| if on == Some(id) { State::On } else { State::Held };
    let now = wall(model.now);
    let state = |dated: &Dated, held: Option<PracticeId>| match held {
        Some(id) => of_practice(id),
        None if dated.dropped => State::Dropped,
        None if dated.date.ends() < now => State::Missed,
        None if has_plan(model, dated) => State::Planned,
        None => State::Bare,
    };
    let mut all: Vec<Entered> = Vec::new();
    for (dated, held) in dates(model) {
        let (day, start_min) = (dated.date.day, dated.date.start_min);
        let state = state(&dated, held);
        all.push(Entered { day, start_min, dated: Some(dated), practice: held, state });
    }
    let loose = model.base.practices().into_iter().filter(|p| !model.packed.contains_key(&p.id));
    let loose = loose.map(|p| (p.id, p.started));
    let packed = model.packed.values().map(|p| (p.summary.practice, p.summary.started));
    for (id, started) in loose.chain(packed) {
        if all.iter().all(|entered| entered.practice != Some(id)) {
            let (h, m) = started.hour_minute();
            let start_min = u16::try_from(h * 60 + m).unwrap_or(0);
            let state = of_practice(id);
            all.push(Entered { day: started.day(), start_min, dated: None, practice: Some(id), state });
        }
    }
    let hours = |entered: &Entered| (entered.day, entered.start_min);
    crate::stats::arrange::arranged(all, |a, b| hours(a).cmp(&hours(b)))
}

fn is_of(day: NaiveDate, month: NaiveDate) -> bool {
    (day.year(), day.month()) == (month.year(), month.month())
}

fn weeks(model: &Model, all: &[Entered], month: NaiveDate, first_weekday: usize) -> Vec<Vec<Option<DayCell>>> {
    let before = (month.weekday().num_days_from_monday() as usize + 7 - first_weekday) % 7;
    let days = (0..31).filter_map(|n| month.checked_add_days(Days::new(n))).filter(|day| is_of(*day, month));
    let mut cells: Vec<Option<DayCell>> = (0..before).map(|_| None).collect();
    cells.extend(days.map(|day| Some(cell(model, all, day))));
    while !cells.len().is_multiple_of(7) {
        cells.push(None);
    }
    cells.chunks(7).map(<[_]>::to_vec).collect()
}

/// So many shapes in a day's cell; its words name all.
const MOST_SHAPES: usize = 2;

fn cell(model: &Model, all: &[Entered], day: NaiveDate) -> DayCell {
    let on_it: Vec<&Entered> = all.iter().filter(|entered| entered.day == day).collect();
    let said: Vec<String> = on_it
        .iter()
        .map(|entered| format!("{} {}", words::hour(entered.start_min), words::state(entered.state)))
        .collect();
    let today = model.now.day();
    DayCell {
        day,
        no: day.day(),
        label: words::cell(&counts::day(day, today), day == today, &said),
        today: day == today,
        picked: model.drafts.calendar.picked == Some(day),
        states: on_it.iter().map(|entered| entered.state).take(MOST_SHAPES).collect(),
    }
}

fn on_day(model: &Model, all: &[Entered], day: NaiveDate) -> DayView {
    let on_it: Vec<&Entered> = all.iter().filter(|entered| entered.day == day).collect();
    let known = if on_it.is_empty() { Vec::new() } else { practices(model) };
    DayView {
        title: counts::day(day, model.now.day()),
        items: on_it.into_iter().map(|entered| item(model, entered, &known)).collect(),
        can_add: day >= model.now.day(),
    }
}

fn item(model: &Model, entered: &Entered, known: &[PracticeSummary]) -> DayItem {
    let date = entered.dated.as_ref().map(|dated| &dated.date);
    let summary = entered.practice.and_then(|id| known.iter().find(|p| p.practice == id));
    let lines = match (summary, entered.state) {
        (Some(summary), _) => done_lines(model, summary),
        (None, State::Missed) => vec![words::NOTHING_HELD.to_owned()],
        (None, State::Dropped) => plan_waits(model, entered).into_iter().collect(),
        (None, _) => planned_line(model, entered.dated.as_ref()).into_iter().collect(),
    };
    DayItem {
        hours: date.map_or_else(|| words::hour(entered.start_min), |date| words::hours(date.start_min, date.minutes)),
        place: date.map(|date| date.place.clone()).unwrap_or_default(),
        state: entered.state,
        lines,
        ways: ways(model, entered, known),
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

fn ways(model: &Model, entered: &Entered, known: &[PracticeSummary]) -> Vec<(&'static str, &'static str, Action)> {
    let tap = Action::Calendar;
    if let Some(practice) = entered.practice {
        return vec![("day-report", words::REPORT, Action::Go(Screen::PracticeReport(practice)))];
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

fn to_calendar(model: &Model, id: DateId) -> (&'static str, &'static str, Action) {
    let how = if model.phone.can_share_dates { CopyHow::ShareSheet } else { CopyHow::Download };
    ("day-file", words::TO_CALENDAR, Action::Calendar(CalendarTap::FileWanted(Span::One(id), how)))
}

fn season_lines(season: &Season) -> Vec<String> {
    let mut lines = Vec::new();
    let spent = season.spent;
    if season.n_held > 0 {
        lines.push(words::held(season.n_held, season.from, season.n_timed, season.gym_min));
        lines.push(match season.n_by_plan {
            0 => words::NO_PLAN_RUN.to_owned(),
            n => words::share(n, spent.ball_ms, spent.all_ms),
        });
    }
    if spent.without_ms > 0 {
        let gym = season.gym_min.checked_div(u32::try_from(season.n_timed).unwrap_or(0));
        let gym = gym.and_then(|min| u16::try_from(min).ok()).unwrap_or(Plan::GYM_MIN);
        lines.push(words::without(season.n_by_plan, spent.without_ms, season.n_to_come, gym));
    }
    lines.push(words::to_come(season.n_to_come, season.n_planned));
    lines
}
