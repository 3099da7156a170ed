//! The season calendar: what is tapped, which date is due, what was held, and what a season adds up to.

use chrono::{NaiveDate, NaiveDateTime, NaiveTime, TimeDelta, Timelike};

use super::action::CopyHow;
use super::model::Model;
use super::view::share::Answer;
use crate::domain::calendar::{Began, Dated, PracticeDate, held, season};
use crate::domain::ids::{DateId, EntryId, PracticeId};
use crate::domain::plan::{PlanDone, Spent};
use crate::domain::replay::base::Practice;
use crate::domain::replay::part::Part;
use crate::domain::replay::run::RunState;
use crate::domain::summary::PracticeSummary;
use crate::domain::time::Stamp;
use crate::stats::arrange::arranged;

/// What is tapped of the calendar.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum CalendarTap {
    /// `true`: the next month.
    MonthStepped(bool),
    Picked(NaiveDate),
    /// So many days on, by a key.
    DayStepped(i64),
    Closed,

    Weekly(bool),
    /// From Monday.
    Weekday(usize),
    FromTyped(String),
    UntilTyped(String),
    StartTyped(String),
    MinutesStepped(bool),
    PlaceTyped(String),
    /// A day of the series is taken out, or comes after all.
    DayTapped(NaiveDate),
    Kept,
    /// The dates that were set last are none after all.
    SetTakenBack,

    Dropped(DateId, bool),
    /// This practice was held on it, or none so far.
    Held(DateId, Option<PracticeId>),
    /// The plan of the last practice that had one, for this date.
    LastCopied(DateId),
    /// The plan that waits.
    WaitingTaken(DateId),

    SpanChosen(Span),
    FileWanted(Span, CopyHow),
    FileSent,
    AnswerSeen,
}

/// Which dates go into a file.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Span {
    #[default]
    ToCome,
    Season,
    One(DateId),
}

/// What is tapped or typed and not an entry.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CalendarDraft {
    /// The first day of the month that is shown.
    pub month: Option<NaiveDate>,
    pub picked: Option<NaiveDate>,
    pub form: Option<DateForm>,
    /// Entries of the dates that were set last.
    pub set: Vec<EntryId>,
    pub span: Span,
}

/// The form of dates.
#[derive(Clone, Debug, PartialEq)]
pub struct DateForm {
    /// The date that is changed; `None`: new ones.
    pub of: Option<DateId>,
    pub weekly: bool,
    pub weekdays: [bool; 7],
    /// The day, where it is one.
    pub from: Option<NaiveDate>,
    pub until: Option<NaiveDate>,
    pub start_min: Option<u16>,
    pub minutes: u16,
    pub place: String,
    /// Taken out of the series.
    pub out: Vec<NaiveDate>,
}

/// The file on its way.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CalendarFile {
    pub writing: bool,
    /// It is written and waits for a tap: a share sheet opens in answer to one alone.
    pub ready: Option<String>,
    pub answer: Option<Answer>,
}

/// The moment as the clock on the wall has it.
pub fn wall(at: Stamp) -> NaiveDateTime {
    let (h, m) = at.hour_minute();
    at.day().and_time(NaiveTime::MIN) + TimeDelta::minutes(i64::from(h * 60 + m))
}

/// The dates in order, each with the practice that was held on it.
pub fn dates(model: &Model) -> Vec<(Dated, Option<PracticeId>)> {
    let mut dates = model.base.dates();
    dates.iter_mut().for_each(|dated| dated.held = dated.held.map(|practice| model.read_under(practice)));
    let held = held(&dates, &began(model));
    dates.into_iter().zip(held).collect()
}

/// When each practice began that can hold a date, those that lie packed too: the one that is on, and those in which something was done.
pub fn began(model: &Model) -> Vec<Began> {
    let on = model.practice_today().map(|practice| practice.id);
    let loose = model.base.practices().into_iter().filter(|p| !model.packed.contains_key(&p.id));
    let loose = loose.map(|p| (p.id, p.started, on == Some(p.id) || is_something(model, &p)));
    let packed = model.packed.values().map(|p| (p.summary.practice, p.summary.started, was_something(&p.summary)));
    let all: Vec<(PracticeId, Stamp, bool)> = loose.chain(packed).collect();
    // Of those that are one it is enough if something was done in any.
    let done: Vec<PracticeId> = all.iter().filter(|(.., is)| *is).map(|(id, ..)| model.read_under(*id)).collect();
    let began = all.iter().filter(|(id, ..)| done.contains(id));
    let began = began.map(|(practice, at, _)| Began { practice: *practice, at: wall(*at) }).collect();
    arranged(began, |a: &Began, b| (a.at, a.practice).cmp(&(b.at, b.practice)))
}

/// A part was begun in it or something counted. A drill that was tapped and left again is no practice.
fn is_something(model: &Model, practice: &Practice) -> bool {
    let counted = |run: &RunState| {
        let Part { contacts, efforts, rallies, everyone, .. } = &run.main;
        let tapped = !contacts.is_empty() || !efforts.is_empty() || !rallies.is_empty();
        tapped || everyone.told().tries() > 0 || !run.beside.is_empty()
    };
    practice.plan.is_some() || model.runs_of(practice).any(counted)
}

/// The same of one that was summed.
fn was_something(summary: &PracticeSummary) -> bool {
    summary.plan.is_some() || summary.n_counted() > 0 || summary.runs.iter().any(|run| run.everyone.n_efforts > 0)
}

/// The date of today that a practice begun now is held on: the first that isn't over, else the last of the day.
pub fn due(model: &Model) -> Option<Dated> {
    let today = model.now.day();
    let dates = dates(model).into_iter().filter(|(dated, held)| dated.date.day == today && held.is_none());
    let open: Vec<Dated> = dates.map(|(dated, _)| dated).filter(|dated| !dated.dropped).collect();
    let now = wall(model.now);
    let first = open.iter().find(|dated| dated.date.ends() >= now);
    first.or(open.last()).cloned()
}

/// The date that the practice which is on is held on.
pub fn on(model: &Model) -> Option<Dated> {
    let practice = model.practice_today()?.id;
    dates(model).into_iter().find(|(_, held)| *held == Some(practice)).map(|(dated, _)| dated)
}

/// The next date to come, today's too while it isn't over and nothing was held on it.
pub fn next(model: &Model) -> Option<Dated> {
    let now = wall(model.now);
    let to_come =
        |(dated, held): &(Dated, Option<PracticeId>)| held.is_none() && !dated.dropped && dated.date.ends() >= now;
    dates(model).into_iter().find(to_come).map(|(dated, _)| dated)
}

/// What a season adds up to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Season {
    pub from: NaiveDate,
    pub until: NaiveDate,
    pub n_held: usize,
    /// Of these, so many have a date or a plan that says how long the gym was theirs.
    pub n_timed: usize,
    pub gym_min: u32,
    /// Practices that ran by a plan, and what their parts had.
    pub n_by_plan: usize,
    pub spent: Spent,
    pub n_to_come: usize,
    pub n_planned: usize,
}

/// The season of today, without the practice that is on; `None` while there is neither a practice nor a date.
pub fn this_season(model: &Model) -> Option<Season> {
    let (dates, began) = (dates(model), began(model));
    let stand = dates.iter().filter(|(dated, _)| !dated.dropped);
    let days = stand.map(|(dated, _)| dated.date.day).chain(began.iter().map(|began| began.at.date()));
    let (from, until) = season(&arranged(days.collect(), Ord::cmp), model.now.day())?;
    let mut sum = Season {
        from,
        until,
        n_held: 0,
        n_timed: 0,
        gym_min: 0,
        n_by_plan: 0,
        spent: Spent::default(),
        n_to_come: 0,
        n_planned: 0,
    };
    let on = model.practice_today().map(|practice| practice.id);
    let of_season =
        began.iter().filter(|began| (from..=until).contains(&began.at.date()) && on != Some(began.practice));
    for practice in of_season.map(|began| began.practice) {
        let of_date = dates.iter().find(|(_, held)| *held == Some(practice)).map(|(dated, _)| dated.date.minutes);
        let plan = plan_done(model, practice);
        sum.n_held += 1;
        if let Some(minutes) = of_date.or(plan.as_ref().map(|done| done.plan.gym_min)) {
            sum.n_timed += 1;
            sum.gym_min = sum.gym_min.saturating_add(u32::from(minutes));
        }
        if let Some(spent) = plan.map(|done| done.spent()).filter(|spent| spent.all_ms > 0) {
            sum.n_by_plan += 1;
            sum.spent.all_ms += spent.all_ms;
            sum.spent.ball_ms += spent.ball_ms;
            sum.spent.without_ms += spent.without_ms;
        }
    }
    let now = wall(model.now);
    for (dated, held) in &dates {
        if held.is_none() && !dated.dropped && dated.date.day <= until && dated.date.ends() >= now {
            sum.n_to_come += 1;
            sum.n_planned += usize::from(has_plan(model, dated));
        }
    }
    Some(sum)
}

/// Dates of this season, held ones and those to come: the practices that a habit costs.
pub fn n_dates(model: &Model) -> u32 {
    let Some(season) = this_season(model) else { return 0 };
    let stands = |dated: &Dated| !dated.dropped && (season.from..=season.until).contains(&dated.date.day);
    u32::try_from(model.base.dates().iter().filter(|dated| stands(dated)).count()).unwrap_or(u32::MAX)
}

/// A plan with something in it.
pub fn has_plan(model: &Model, dated: &Dated) -> bool {
    dated.plan.and_then(|plan| model.base.plan(plan)).is_some_and(|plan| !plan.parts.is_empty())
}

/// What was planned in a practice and how long each part went on.
pub fn plan_done(model: &Model, practice: PracticeId) -> Option<PlanDone> {
    let of = |practice: PracticeId| match model.packed.get(&practice) {
        Some(packed) if !packed.read => packed.summary.plan.clone(),
        _ => model.base.plan_done(practice),
    };
    model.one_with(practice).into_iter().find_map(of)
}

/// What the file is called.
pub fn file_name(model: &Model) -> String {
    format!("practices-{}.ics", model.now.day())
}

/// The hour at which the last practice began, to the quarter before it.
fn usual_start(model: &Model) -> Option<u16> {
    let at = began(model).pop()?.at;
    u16::try_from(at.hour() * 60 + at.minute() / 15 * 15).ok()
}

impl DateForm {
    /// As it stands for a date, else as the last date had it: the same hour, the same gym.
    pub fn of(model: &Model, of: Option<DateId>) -> Option<DateForm> {
        let had = match of {
            Some(id) => Some(model.base.date(id)?.date),
            None => model.base.dates().pop().map(|dated| dated.date),
        };
        let today = model.now.day();
        let picked = model.drafts.calendar.picked.filter(|day| *day >= today).unwrap_or(today);
        let from = match (of, &had) {
            (Some(_), Some(date)) => date.day,
            _ => picked,
        };
        Some(DateForm {
            of,
            weekly: false,
            // None by itself: today's would stay among those that are meant.
            weekdays: [false; 7],
            from: Some(from),
            until: None,
            start_min: had.as_ref().map(|date| date.start_min).or_else(|| usual_start(model)),
            minutes: had.as_ref().map_or(crate::domain::plan::Plan::GYM_MIN, |date| date.minutes),
            place: had.map(|date| date.place).unwrap_or_default(),
            out: Vec::new(),
        })
    }

    pub fn on(&self, day: NaiveDate, start_min: u16) -> PracticeDate {
        PracticeDate { day, start_min, minutes: self.minutes, place: self.place.trim().to_owned() }
    }
}
