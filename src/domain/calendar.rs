//! The dates of practices: a day, a time on the wall, how long the gym is ours, a place. A wall time has no zone: half past five stays half
//! past five when summer time begins, and where the gym is nobody has to say which zone that is in. Reads no clock itself.

use chrono::{Datelike, Days, NaiveDate, NaiveDateTime, NaiveTime, TimeDelta};

use super::ids::{DateId, PlanId, PracticeId};

/// A date as the coach set it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PracticeDate {
    pub day: NaiveDate,
    /// Minutes after midnight, by the clock on the wall.
    pub start_min: u16,
    /// How long the gym is ours.
    pub minutes: u16,
    /// In the coach's own words; may be empty.
    pub place: String,
}

/// A date and what became of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Dated {
    pub id: DateId,
    pub date: PracticeDate,
    pub dropped: bool,
    /// Set and taken back at once, before anything could be sent: as if it had never been.
    pub undone: bool,
    pub plan: Option<PlanId>,
    /// The practice that was held on it, as it was noted.
    pub held: Option<PracticeId>,
    /// It was noted that no practice so far is the one: none is told by the day.
    pub unheld: bool,
    /// Grows with every change of the date and, until a practice begins it, of its plan.
    pub sequence: u32,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DateFault {
    NoMinutes,
    EndsNextDay,
    InThePast,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SeriesFault {
    NoWeekday,
    UntilBeforeFrom,
    /// None of these weekdays lies between the two.
    NoDay,
    TooMany {
        n: u64,
    },
}

pub const DAY_MIN: u16 = 24 * 60;

/// So many dates at once and no more: four a week for a whole year nearly.
pub const MOST_AT_ONCE: u64 = 200;

/// More than eight weeks without practice, and another season has begun: common practice, no source.
const BREAK: Days = Days::new(56);

impl PracticeDate {
    /// What keeps it from being set, on this day.
    pub fn fault(&self, today: NaiveDate) -> Option<DateFault> {
        if self.minutes == 0 {
            return Some(DateFault::NoMinutes);
        }
        if u32::from(self.start_min) + u32::from(self.minutes) > u32::from(DAY_MIN) {
            return Some(DateFault::EndsNextDay);
        }
        (self.day < today).then_some(DateFault::InThePast)
    }

    /// Whatever a file brought: an hour that no clock shows is the last of the day.
    pub fn starts(&self) -> NaiveDateTime {
        self.day.and_time(NaiveTime::MIN) + TimeDelta::minutes(i64::from(self.start_min.min(DAY_MIN - 1)))
    }

    pub fn ends(&self) -> NaiveDateTime {
        let starts = self.starts();
        starts.checked_add_signed(TimeDelta::minutes(i64::from(self.minutes))).unwrap_or(starts)
    }
}

/// The days of a weekly series, both ends included; `weekdays` from Monday.
///
/// ```
/// use chrono::NaiveDate;
/// use peppertally::domain::calendar::{SeriesFault, weekly};
/// let day = |m, d| NaiveDate::from_ymd_opt(2027, m, d).unwrap();
/// // Tuesdays and Thursdays over the end of March, when much of Europe puts its clocks forward.
/// let days = weekly([false, true, false, true, false, false, false], day(3, 24), day(4, 1)).unwrap();
/// assert_eq!(days, [day(3, 25), day(3, 30), day(4, 1)]);
/// assert_eq!(weekly([false; 7], day(3, 24), day(4, 1)), Err(SeriesFault::NoWeekday));
/// ```
///
/// # Errors
/// [`SeriesFault`], before any list is made of it.
pub fn weekly(weekdays: [bool; 7], from: NaiveDate, until: NaiveDate) -> Result<Vec<NaiveDate>, SeriesFault> {
    if weekdays.iter().all(|on| !on) {
        return Err(SeriesFault::NoWeekday);
    }
    let Some(n_days) = u64::try_from((until - from).num_days()).ok().map(|n| n + 1) else {
        return Err(SeriesFault::UntilBeforeFrom);
    };
    let wanted = |n: &u64| {
        let day = from.checked_add_days(Days::new(*n))?;
        weekdays[day.weekday().num_days_from_monday() as usize % 7].then_some(day)
    };
    let a_week = weekdays.iter().map(|on| u64::from(*on)).sum::<u64>();
    // Whole weeks, and what is left over: a year typed wrong makes no list of a million days.
    let over = (n_days / 7 * 7..n_days).filter(|n| wanted(n).is_some()).count() as u64;
    match n_days / 7 * a_week + over {
        0 => Err(SeriesFault::NoDay),
        n if n > MOST_AT_ONCE => Err(SeriesFault::TooMany { n }),
        _ => Ok((0..n_days).filter_map(|n| wanted(&n)).collect()),
    }
}

/// When a practice began.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Began {
    pub practice: PracticeId,
    pub at: NaiveDateTime,
}

/// The practice that was held on each date: the one that was noted; of the others of that day, in the order of their hours, one each. Nobody
/// has to note anything for a practice that another phone recorded. `dates` and `practices`, those that hold a date, stand in the order of
/// their hours.
pub fn held(dates: &[Dated], practices: &[Began]) -> Vec<Option<PracticeId>> {
    let known = |id: PracticeId| practices.iter().any(|began| began.practice == id);
    let mut held: Vec<Option<PracticeId>> = Vec::new();
    for dated in dates {
        held.push(dated.held.filter(|id| known(*id) && !held.contains(&Some(*id))));
    }
    for at in 0..dates.len() {
        if held[at].is_none() && !dates[at].dropped && !dates[at].unheld {
            let free = |began: &&Began| began.at.date() == dates[at].date.day && !held.contains(&Some(began.practice));
            held[at] = practices.iter().find(free).map(|began| began.practice);
        }
    }
    held
}

/// The first and last day of the season of today: days with no break of more than eight weeks between them. After its last it stays the
/// season for as long as a break; then the next counts, if there is one. `days` stand in order.
pub fn season(days: &[NaiveDate], today: NaiveDate) -> Option<(NaiveDate, NaiveDate)> {
    let ends_by = |day: NaiveDate| day.checked_add_days(BREAK).unwrap_or(NaiveDate::MAX);
    let mut found: Option<(NaiveDate, NaiveDate)> = None;
    for day in days {
        match &mut found {
            Some((_, last)) if *day <= ends_by(*last) => *last = *day,
            Some((_, last)) if today <= ends_by(*last) => break,
            other => *other = Some((*day, *day)),
        }
    }
    found
}
