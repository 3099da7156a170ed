//! The season calendar: dates set, changed and dropped, their plans, the file for another calendar.

pub mod file;
mod held;

pub(super) use held::{begun, held, not_begun};

use chrono::{Datelike, Days, Months, NaiveDate};

use super::super::action::CopyHow;
use super::super::calendar::{CalendarDraft, CalendarFile, CalendarTap, DateForm};
use super::super::effect::Effect;
use super::super::model::Model;
use super::super::practices::Practices;
use super::super::screen::Screen;
use super::super::stepper::step_u16;
use super::super::words::calendar as words;
use super::{go, write};
use crate::domain::calendar::{Dated, PracticeDate, SeriesFault, weekly};
use crate::domain::drill::MAX_NAME;
use crate::domain::entry::Fact;
use crate::domain::ids::{DateId, PlanId, Revision};
use crate::domain::plan::Plan;
use crate::wire::calendar::day as read_day;

/// By so many minutes at once.
pub const STEP_MIN: u16 = 5;

pub fn act(model: &mut Model, tap: CalendarTap) -> Vec<Effect> {
    let draft = &mut model.drafts.calendar;
    if !matches!(tap, CalendarTap::SetTakenBack) {
        draft.set.clear();
    }
    match tap {
        CalendarTap::MonthStepped(on) => {
            let month = shown_month(model);
            let to =
                if on { month.checked_add_months(Months::new(1)) } else { month.checked_sub_months(Months::new(1)) };
            model.drafts.calendar.month = to.or(Some(month));
            model.drafts.calendar.picked = None;
        }
        CalendarTap::Picked(day) => draft.picked = if draft.picked == Some(day) { None } else { Some(day) },
        CalendarTap::DayStepped(n) => step_day(model, n),
        CalendarTap::Closed => draft.picked = None,
        CalendarTap::Weekly(_)
        | CalendarTap::Weekday(_)
        | CalendarTap::FromTyped(_)
        | CalendarTap::UntilTyped(_)
        | CalendarTap::StartTyped(_)
        | CalendarTap::MinutesStepped(_)
        | CalendarTap::PlaceTyped(_)
        | CalendarTap::DayTapped(_) => {
            if let Some(form) = &mut draft.form {
                fill(form, tap);
            }
        }
        CalendarTap::Kept => return keep(model),
        CalendarTap::SetTakenBack => {
            let set = std::mem::take(&mut draft.set);
            let back = |target| Fact::EntryTakenBack {
                run: None,
                target,
                revision: model.base.next_take_back(target),
                back: true,
            };
            let facts = set.into_iter().map(back).collect();
            return write(model, facts);
        }
        CalendarTap::Dropped(date, dropped) => {
            let revision = model.base.next_date_revision(date);
            let mut facts = vec![Fact::DateDropped { date, revision, dropped }];
            // Another date has taken its plan meanwhile: a plan is of one date.
            let had = model.base.date(date).and_then(|dated| dated.plan).filter(|_| !dropped);
            if model.base.dates().iter().any(|other| !other.dropped && had.is_some() && other.plan == had) {
                let revision = Revision(revision.0.saturating_add(1));
                facts.push(Fact::DatePlanned { date, revision, plan: None });
            }
            return write(model, facts);
        }
        CalendarTap::Held(date, practice) => return held::noted(model, date, practice),
        CalendarTap::LastCopied(date) => return copy_last(model, date),
        CalendarTap::WaitingTaken(date) => {
            let Some(plan) = model.base.plan_waiting() else { return Vec::new() };
            let mut facts = planned(model, date, Some(plan)).into_iter().collect::<Vec<_>>();
            facts.extend(timed(model, plan, date));
            return write(model, facts);
        }
        CalendarTap::SpanChosen(span) => draft.span = span,
        CalendarTap::FileWanted(span, how) => return file::want(model, span, how),
        CalendarTap::FileSent => {
            let Some(name) = model.calendar_file.ready.clone() else { return Vec::new() };
            model.calendar_file = CalendarFile { writing: true, ..CalendarFile::default() };
            return vec![Effect::OfferDates { name, how: CopyHow::ShareSheet }];
        }
        CalendarTap::AnswerSeen => model.calendar_file.answer = None,
    }
    Vec::new()
}

/// The form, as it is opened.
pub fn open_form(model: &mut Model, of: Option<DateId>) {
    model.drafts.calendar.form = DateForm::of(model, of);
}

/// The coach comes to a screen: nothing that was said on the one before is said here.
pub fn visited(model: &mut Model) {
    model.calendar_file.answer = None;
    if !matches!(model.screen, Screen::Calendar) {
        model.drafts.calendar.set.clear();
    }
    if !matches!(model.screen, Screen::Calendar | Screen::Dates(_) | Screen::DatePlan(_) | Screen::PracticeReport(_)) {
        model.drafts.calendar = CalendarDraft { span: model.drafts.calendar.span, ..CalendarDraft::default() };
    }
}

/// The month on screen: the one that was chosen, else today's.
pub fn shown_month(model: &Model) -> NaiveDate {
    let today = model.now.day();
    model.drafts.calendar.month.unwrap_or_else(|| today.with_day(1).unwrap_or(today))
}

/// From the day that is picked, else from today; the month goes along.
fn step_day(model: &mut Model, n: i64) {
    let month = shown_month(model);
    let today = model.now.day();
    let in_month = |day: NaiveDate| (day.year(), day.month()) == (month.year(), month.month());
    let from = model.drafts.calendar.picked.unwrap_or(if in_month(today) { today } else { month });
    let days = Days::new(n.unsigned_abs());
    let to = if n < 0 { from.checked_sub_days(days) } else { from.checked_add_days(days) };
    model.drafts.calendar.picked = to;
    model.drafts.calendar.month = to.and_then(|day| day.with_day(1));
}

fn fill(form: &mut DateForm, tap: CalendarTap) {
    match tap {
        CalendarTap::Weekly(weekly) => form.weekly = weekly,
        CalendarTap::Weekday(at) => {
            if let Some(on) = form.weekdays.get_mut(at) {
                *on = !*on;
            }
        }
        CalendarTap::FromTyped(text) => form.from = read_day(&text),
        CalendarTap::UntilTyped(text) => form.until = read_day(&text),
        CalendarTap::StartTyped(text) => form.start_min = read_hour(&text),
        CalendarTap::MinutesStepped(more) => {
            form.minutes = step_u16(form.minutes, more, STEP_MIN, STEP_MIN, Plan::MOST_MIN);
        }
        CalendarTap::PlaceTyped(text) => form.place = text.chars().filter(|c| !c.is_control()).take(MAX_NAME).collect(),
        CalendarTap::DayTapped(day) => match form.out.iter().position(|out| *out == day) {
            Some(at) => {
                form.out.remove(at);
            }
            None => form.out.push(day),
        },
        _ => {}
    }
}

/// `17:30`, as a field for an hour holds it; with seconds where a browser adds them.
fn read_hour(text: &str) -> Option<u16> {
    let mut parts = text.split(':');
    let (h, m) = (parts.next()?.parse::<u16>().ok()?, parts.next()?.parse::<u16>().ok()?);
    (h < 24 && m < 60).then_some(h * 60 + m)
}

/// Why nothing can be set yet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unset {
    pub text: String,
    /// Something isn't chosen yet, which is no fault.
    pub missing: bool,
}

fn missing(text: &str) -> Unset {
    Unset { text: text.to_owned(), missing: true }
}

fn wrong(text: impl Into<String>) -> Unset {
    Unset { text: text.into(), missing: false }
}

/// What the form comes to: the dates that it would set, or one sentence why it can't.
///
/// # Errors
/// [`Unset`] with that sentence.
pub fn read_form(model: &Model, form: &DateForm) -> Result<Vec<PracticeDate>, Unset> {
    let days = days(form)?;
    let start_min = form.start_min.ok_or_else(|| missing(words::WHICH_HOUR))?;
    let there = if form.of.is_none() { days_at(model, start_min) } else { Vec::new() };
    let is_out = |day: &NaiveDate| there.contains(day) || form.weekly && form.out.contains(day);
    let days = days.into_iter().filter(|day| !is_out(day));
    let dates: Vec<PracticeDate> = days.map(|day| form.on(day, start_min)).collect();
    if dates.is_empty() {
        return Err(wrong(if form.weekly { words::ALL_OUT } else { words::THERE_ALREADY }));
    }
    // A date that was is put right on its day; a new one lies ahead.
    let day = form.of.and_then(|id| model.base.date(id)).map(|dated| dated.date.day);
    let today = if day.is_some() && day == form.from { NaiveDate::MIN } else { model.now.day() };
    match dates.iter().find_map(|date| date.fault(today)) {
        Some(fault) => Err(wrong(words::date_fault(fault))),
        None => Ok(dates),
    }
}

/// All days that the form speaks of, those taken out too.
///
/// # Errors
/// [`Unset`] where it speaks of none.
pub fn days(form: &DateForm) -> Result<Vec<NaiveDate>, Unset> {
    let from = form.from.ok_or_else(|| missing(words::WHICH_DAY))?;
    if !form.weekly {
        return Ok(vec![from]);
    }
    let until = form.until.ok_or_else(|| missing(words::WHICH_UNTIL))?;
    weekly(form.weekdays, from, until).map_err(|fault| match fault {
        SeriesFault::NoWeekday => Unset { missing: true, ..wrong(words::series_fault(fault)) },
        _ => wrong(words::series_fault(fault)),
    })
}

/// The days on which a date at that hour stands already.
pub fn days_at(model: &Model, start_min: u16) -> Vec<NaiveDate> {
    let at = |dated: &Dated| (dated.date.start_min == start_min && !dated.dropped).then_some(dated.date.day);
    model.base.dates().iter().filter_map(at).collect()
}

fn keep(model: &mut Model) -> Vec<Effect> {
    let Some(form) = model.drafts.calendar.form.clone() else { return Vec::new() };
    let Ok(new) = read_form(model, &form) else { return Vec::new() };
    let first = new.first().map(|date| date.day);
    let mut facts = Vec::new();
    match form.of {
        Some(date) => facts.extend(new.into_iter().next().map(|new| changed(model, date, new)).into_iter().flatten()),
        None => facts.extend(new.into_iter().map(|date| Fact::DateSet { date })),
    }
    let n = u32::try_from(facts.len()).unwrap_or(u32::MAX);
    let set = if form.of.is_none() { (0..n).map(|i| model.writer.id_ahead(i)).collect() } else { Vec::new() };
    let mut effects = write(model, facts);
    let draft = &mut model.drafts.calendar;
    draft.form = None;
    draft.month = first.and_then(|day| day.with_day(1));
    draft.picked = if form.of.is_some() { first } else { None };
    effects.extend(go(model, Screen::Calendar));
    model.drafts.calendar.set = set;
    effects
}

/// The gym's time is the date's: its plan has the same.
fn changed(model: &Model, id: DateId, new: PracticeDate) -> Vec<Fact> {
    let Some(had) = model.base.date(id).filter(|had| had.date != new) else { return Vec::new() };
    let minutes = new.minutes;
    let mut facts = vec![Fact::DateChanged { date: id, revision: model.base.next_date_revision(id), changed: new }];
    facts.extend(had.plan.and_then(|plan| with_gym(model, plan, minutes)));
    facts
}

/// A date whose plan is given other minutes in the gym.
pub(super) fn with_minutes(model: &Model, id: DateId, minutes: u16) -> Option<Fact> {
    let had = model.base.date(id)?.date;
    let fits = had.minutes != minutes && PracticeDate { minutes, ..had.clone() }.fault(NaiveDate::MIN).is_none();
    let changed = PracticeDate { minutes, ..had };
    fits.then(|| Fact::DateChanged { date: id, revision: model.base.next_date_revision(id), changed })
}

fn with_gym(model: &Model, id: PlanId, gym_min: u16) -> Option<Fact> {
    let plan = model.base.plan(id).filter(|plan| plan.gym_min != gym_min)?;
    let changed = Plan { gym_min, ..plan.clone() };
    Some(Fact::PlanChanged { plan: id, revision: model.base.next_plan_revision(id), changed })
}

fn timed(model: &Model, plan: PlanId, date: DateId) -> Option<Fact> {
    with_gym(model, plan, model.base.date(date)?.date.minutes)
}

/// A date gets a plan, or none; nothing where it has that one.
pub(super) fn planned(model: &Model, date: DateId, plan: Option<PlanId>) -> Option<Fact> {
    model.base.date(date).filter(|dated| dated.plan != plan)?;
    Some(Fact::DatePlanned { date, revision: model.base.next_date_revision(date), plan })
}

fn copy_last(model: &mut Model, date: DateId) -> Vec<Effect> {
    let Some(dated) = model.base.date(date).filter(|dated| dated.plan.is_none()) else { return Vec::new() };
    let all = Practices::of(model);
    let last = all.latest_first().into_iter().find_map(|p| p.plan.as_ref().map(|plan| plan.again()));
    let Some(plan) = last.filter(|plan| !plan.parts.is_empty()) else { return Vec::new() };
    let plan = Plan { gym_min: dated.date.minutes, ..plan };
    let id = PlanId(model.writer.id_ahead(0));
    let facts = [Some(Fact::PlanMade { plan }), planned(model, date, Some(id))];
    let mut effects = write(model, facts.into_iter().flatten().collect());
    effects.extend(go(model, Screen::DatePlan(date)));
    effects
}
