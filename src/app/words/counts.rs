//! Counts, rates, rows, times and outcomes in words. A number never stands alone.

use chrono::{Datelike, NaiveDate};

use crate::domain::skill::{Outcome, PassGrade, ServeOutcome, ServeStyle};
use crate::domain::time::Stamp;
use crate::stats::proportion::Count;
use crate::stats::rows::Rows;
use crate::stats::share::Share;

/// `9 of 14`
pub fn of(count: Count) -> String {
    format!("{} of {}", count.good(), count.tries())
}

/// `good of 41`, beside the large numeral.
pub fn good_of(count: Count) -> String {
    format!("good of {}", count.tries())
}

/// `about 5 to 9 in 10`: what the rate really allows.
pub fn share(count: Count) -> String {
    match Share::of(count) {
        Share::NotEnough if count.tries() == 0 => "no balls yet".to_owned(),
        share => share_words(share),
    }
}

pub fn share_words(share: Share) -> String {
    match share {
        Share::NotEnough => "too few balls to say more".to_owned(),
        Share::NearlyNone => "nearly none".to_owned(),
        Share::NearlyAll => "nearly all".to_owned(),
        Share::About(n) => format!("about {n} in 10"),
        Share::Between(t) => format!("about {} to {} in 10", t.low(), t.high()),
    }
}

/// `14 of 20, about 5 to 9 in 10`
pub fn rate(count: Count) -> String {
    format!("{}, {}", of(count), share(count))
}

/// `7 good of the last ten; 3 in a row now, best 5`. The last ten are named once more than these were judged one by one, a row
/// from two on, and a row that broke is passed over. The best yet is only one that beat a row before it.
pub fn rows(judged: Count, last: Count, rows: Rows) -> String {
    let last = (judged.tries() > last.tries()).then(|| match last.tries() {
        10 => format!("{} good of the last ten", last.good()),
        n => format!("{} good of the last {n}", last.good()),
    });
    let row = match (rows.now(), rows.before()) {
        (0 | 1, 0 | 1) => None,
        (0 | 1, before) => Some(format!("best {before} in a row")),
        (now, 0 | 1) => Some(format!("{now} in a row now")),
        (now, before) if now > before => Some(format!("{now} in a row now, the best yet")),
        (now, before) if now == before => Some(format!("{now} in a row now, level with the best")),
        (now, before) => Some(format!("{now} in a row now, best {before}")),
    };
    [last, row].into_iter().flatten().collect::<Vec<_>>().join("; ")
}

/// `4 in a row`, where it stands alone: the longest.
pub fn best_row(best: u32) -> Option<String> {
    (best > 1).then(|| format!("{best} in a row"))
}

pub fn pace(per_minute: u32) -> String {
    plural(per_minute as usize, "ball a minute", "balls a minute")
}

/// `1 contact`, `214 contacts`
pub fn plural(n: usize, one: &str, many: &str) -> String {
    if n == 1 { format!("1 {one}") } else { format!("{n} {many}") }
}

pub const fn grade(grade: PassGrade) -> &'static str {
    match grade {
        PassGrade::Stood => "stood",
        PassGrade::Moved => "moved",
        PassGrade::Chased => "chased",
        PassGrade::Gone => "gone",
    }
}

pub const fn serve(outcome: ServeOutcome) -> &'static str {
    match outcome {
        ServeOutcome::Ace => "ace",
        ServeOutcome::In => "in",
        ServeOutcome::Long => "long",
        ServeOutcome::Wide => "wide",
        ServeOutcome::Net => "net",
    }
}

pub const fn style(style: ServeStyle) -> &'static str {
    match style {
        ServeStyle::Underhand => "underhand",
        ServeStyle::Roundhouse => "roundhouse",
        ServeStyle::StandingOverhead => "standing overhead",
        ServeStyle::Jump => "jump",
    }
}

/// An outcome in a list: `moved 2`, `net, fast swing`, `good`.
pub fn outcome(outcome: Outcome) -> String {
    match outcome {
        Outcome::Pass { grade: g, over_net: false } => format!("{} {}", grade(g), g.digit()),
        Outcome::Pass { grade: g, over_net: true } => format!("{} {}, over the net", grade(g), g.digit()),
        Outcome::Serve { outcome, fast: false } => serve(outcome).to_owned(),
        Outcome::Serve { outcome, fast: true } => format!("{}, fast swing", serve(outcome)),
        Outcome::ServeMissed => "serve missed".to_owned(),
        Outcome::TwoKey { good: true } => "good".to_owned(),
        Outcome::TwoKey { good: false } => "not good".to_owned(),
        Outcome::Counted => "good".to_owned(),
        Outcome::NoChance => "no chance".to_owned(),
        // Such a ball is in no list.
        Outcome::Removed => String::new(),
    }
}

/// `Wednesday 25 November`, and the year where it isn't this one.
pub fn day(day: NaiveDate, today: NaiveDate) -> String {
    format!("{} {}", weekday(day), date(day, today))
}

pub fn weekday(day: NaiveDate) -> &'static str {
    DAYS[day.weekday().num_days_from_monday() as usize % 7]
}

/// `25 November`, and the year where it isn't this one.
pub fn date(day: NaiveDate, today: NaiveDate) -> String {
    let date = format!("{} {}", day.day(), MONTHS[day.month0() as usize % 12]);
    if day.year() == today.year() { date } else { format!("{date} {}", day.year()) }
}

/// Year and month, from 1.
pub fn month_of(day: NaiveDate) -> (i32, u32) {
    (day.year(), day.month())
}

/// `October 2026`
pub fn month(year: i32, month: u32) -> String {
    format!("{} {year}", MONTHS[(month.max(1) - 1) as usize % 12])
}

/// `Wednesday practice`
pub fn practice_title(on: NaiveDate) -> String {
    format!("{} practice", weekday(on))
}

/// `17:05`
pub fn time(at: Stamp) -> String {
    let (h, m) = at.hour_minute();
    format!("{h}:{m:02}")
}

/// `17:05:09`
pub fn time_s(at: Stamp) -> String {
    let (h, m) = at.hour_minute();
    format!("{h}:{m:02}:{:02}", at.wall_ms.div_euclid(1000).rem_euclid(60))
}

/// `Wednesday 25 November, 17:05`, and the year where it isn't this one.
pub fn when(at: Stamp, now: Stamp) -> String {
    format!("{}, {}", day(at.day(), now.day()), time(at))
}

/// `Wednesday 25 November 2026, 17:05`, for a sentence that is kept.
pub fn when_ever(at: Stamp) -> String {
    format!("{}, {}", day(at.day(), NaiveDate::MIN), time(at))
}

/// `Wednesday 25 November 2026`
pub fn date_of(at: Stamp) -> String {
    day(at.day(), NaiveDate::MIN)
}

/// `just now`, `2 min ago`, for what undo takes back.
pub fn ago(ms: u64) -> String {
    match ms / 1000 {
        0..=59 => "just now".to_owned(),
        s => format!("{} min ago", s / 60),
    }
}

const DAYS: [&str; 7] = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"];
pub const MONTHS: [&str; 12] = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
];
