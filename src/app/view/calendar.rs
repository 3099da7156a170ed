//! The season by months, what is on a day, what the season adds up to; `day` and `form` follow it.

mod day;
mod form;

pub use form::{DatesView, SeriesDay, dates_form};

use chrono::{Datelike, Days, NaiveDate};

use super::share::Answer;
use crate::app::action::Action;
use crate::app::calendar::{Season, Span, began, dates, has_plan, next, this_season, wall};
use crate::app::model::Model;
use crate::app::update::calendar::file::left_out;
use crate::app::update::calendar::shown_month;
use crate::app::words::calendar::{self as words, State};
use crate::app::words::counts;
use crate::domain::calendar::Dated;
use crate::domain::ids::PracticeId;
use crate::domain::plan::Plan;

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
    /// What of these dates goes into no file.
    pub left_out: Option<String>,
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
        day: draft.picked.map(|day| day::on_day(model, &all, day)),
        season: this_season(model).map(|season| season_lines(&season)).unwrap_or_default(),
        set: (set > 0).then(|| (words::were_set(set), if set == 1 { words::TAKE_BACK_ONE } else { words::TAKE_BACK })),
        file: FileView {
            span: draft.span,
            can_share: model.phone.can_share_dates,
            writing: model.calendar_file.writing,
            ready: model.calendar_file.ready.is_some(),
            answer: model.calendar_file.answer.clone(),
            left_out: left_out(model, draft.span),
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
    let began = began(model);
    let of_practice = |id: PracticeId| match on {
        Some(on) if on == id => State::On,
        _ if began.iter().any(|began| began.practice == id) => State::Held,
        _ => State::Missed,
    };
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
        if model.read_under(id) == id && all.iter().all(|entered| entered.practice != Some(id)) {
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
