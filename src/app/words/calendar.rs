//! Sentences of the season calendar: dates, what became of them, what a season adds up to, the file for another calendar.

use chrono::{Datelike, NaiveDate};

use super::counts::{MONTHS, plural, weekday};
use crate::domain::calendar::{DateFault, MOST_AT_ONCE, SeriesFault};

pub const TITLE: &str = "Calendar";
pub const BACK: &str = "Back to the calendar";
pub const EMPTY: &str = "No dates yet";
pub const EMPTY_LINE: &str =
    "Set the evenings of the season once. Each can have a plan, and practice takes the one of its day.";
/// From the plan.
pub const LINE: &str = "The dates of the season, each with its plan";
pub const ADD: &str = "Set dates";
pub const ADD_HERE: &str = "Set a date on this day";
pub const NO_DATE: &str = "No practice on this day.";
pub const MONTH_BEFORE: &str = "The month before";
pub const MONTH_AFTER: &str = "The month after";
pub const TODAY: &str = "today";
pub const SEASON: &str = "This season";
pub const PLAN: &str = "Its plan";
pub const MAKE_PLAN: &str = "Make a plan";
pub const COPY_LAST: &str = "Plan it as last time";
pub const TAKE_WAITING: &str = "Take the plan that waits";
pub const CHANGE: &str = "Change";
pub const DROP: &str = "Drop";
pub const PLAN_WAITS: &str = "Its plan waits for another date.";
pub const WANTED: &str = "Have it after all";
pub const REPORT: &str = "What was done";
/// Another practice, or none, was held on the date.
pub const NOT_THIS_ONE: &str = "Not this one";
pub const THIS_ONE: &str = "Put it on its date";
pub const TO_CALENDAR: &str = "To my calendar";
pub const NOTHING_HELD: &str = "No practice was counted on this day.";

pub const FORM_NEW: &str = "Set dates";
pub const FORM_CHANGE: &str = "Change the date";
pub const ONE: &str = "One date";
pub const WEEKLY: &str = "Every week";
pub const HOW_OFTEN: &str = "How often";
pub const DAY: &str = "Day";
pub const FROM: &str = "From";
pub const UNTIL: &str = "Until";
pub const WEEKDAYS: &str = "On these days";
pub const START: &str = "Begins at";
pub const MINUTES: &str = "The gym is yours for";
pub const PLACE: &str = "Where";
pub const PLACE_HINT: &str = "may stay empty";
pub const DAYS: &str = "The days";
pub const DAYS_LINE: &str = "Tap one to take it out: a holiday, a gym that is taken.";
pub const IS_OUT: &str = "out";
pub const IS_THERE: &str = "there already";
pub const KEEP: &str = "Keep it";
pub const WHICH_DAY: &str = "Which day? Choose it above.";
pub const WHICH_UNTIL: &str = "Until when? Choose the last day.";
pub const WHICH_HOUR: &str = "When does it begin? Choose the hour.";
pub const ALL_OUT: &str = "Nothing is left to set: put a day back, or choose others.";
pub const THERE_ALREADY: &str = "A date at that hour of that day is there already.";
pub const GONE: &str = "This date is no longer in the calendar.";
pub const TAKE_BACK: &str = "Take them back";
pub const TAKE_BACK_ONE: &str = "Take it back";

pub const FILE: &str = "For your own calendar";
pub const FILE_LINE: &str = "A calendar file with dates, hours and the parts of each plan. No child is named in it. Send it again after changes: most calendars then put the same dates right and take dropped ones out. Look once whether yours does.";
pub const SPAN: &str = "Which dates";
pub const TO_COME: &str = "To come";
pub const WHOLE: &str = "Whole season";
pub const SHARE: &str = "Send it";
pub const SHARE_NOW: &str = "Send it now";
pub const SAVE: &str = "Save it as a file";
pub const NOTHING_IN_IT: &str = "There is no such date, so there is nothing to send.";
pub const LEFT: &str = "The dates have left this phone.";
/// Where the invented squad practises.
pub const DEMO_PLACE: &str = "Hall 2";
/// Of an event in another calendar.
pub const SUMMARY: &str = "Volleyball practice";

/// What a date is told by, beside its shape.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum State {
    Held,
    On,
    Planned,
    Bare,
    Missed,
    Dropped,
}

pub const fn state(state: State) -> &'static str {
    match state {
        State::Held => "held",
        State::On => "on now",
        State::Planned => "planned",
        State::Bare => "no plan yet",
        State::Missed => "nothing counted",
        State::Dropped => "dropped",
    }
}

pub fn month(first: NaiveDate) -> String {
    format!("{} {}", MONTHS[first.month0() as usize % 12], first.year())
}

/// `Mo, Monday`, for those who hear it.
pub fn weekday_said(from_monday: usize) -> String {
    format!("{}, {}", weekday_short(from_monday), weekday_long(from_monday))
}

/// `Mo`, over a column of days.
pub fn weekday_short(from_monday: usize) -> &'static str {
    ["Mo", "Tu", "We", "Th", "Fr", "Sa", "Su"][from_monday % 7]
}

fn weekday_long(from_monday: usize) -> &'static str {
    ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"][from_monday % 7]
}

/// `Thursday 3 December: 17:30 planned`, for those who can't see the shape.
pub fn cell(day: &str, is_today: bool, dates: &[String]) -> String {
    let today = if is_today { format!(", {TODAY}") } else { String::new() };
    if dates.is_empty() { format!("{day}{today}") } else { format!("{day}{today}: {}", dates.join("; ")) }
}

/// `17:30`
pub fn hour(min: u16) -> String {
    format!("{}:{:02}", min / 60, min % 60)
}

/// `17:30 to 19:00`
pub fn hours(start: u16, minutes: u16) -> String {
    format!("{} to {}", hour(start), hour(start.saturating_add(minutes)))
}

/// On the first screen: `Thursday 17:30, planned`; a week and more ahead with its date.
pub fn next(day: NaiveDate, today: NaiveDate, start: u16, planned: bool) -> String {
    let when = match (day - today).num_days() {
        0 => "Today".to_owned(),
        1..=6 => weekday(day).to_owned(),
        _ => format!("{} {} {}", weekday(day), day.day(), MONTHS[day.month0() as usize % 12]),
    };
    format!("{when} {}, {}", hour(start), if planned { "planned" } else { "no plan" })
}

/// Over the plan of a date.
pub fn plan_for(day: &str, hours: &str, place: &str) -> String {
    if place.is_empty() { format!("For {day}, {hours}") } else { format!("For {day}, {hours}, {place}") }
}

/// `11 of 12 were here`
pub fn here(n_here: usize, n_all: usize) -> String {
    if n_here == n_all { format!("All {n_all} were here.") } else { format!("{n_here} of {n_all} were here.") }
}

/// `62 of 85 min had a ball.`
pub fn ball(ball_ms: u64, all_ms: u64) -> String {
    format!("{} of {} min had a ball.", minutes(ball_ms), minutes(all_ms))
}

/// `5 parts, 85 of 90 min`
pub fn planned(n_parts: usize, minutes: u16, gym: u16) -> String {
    format!("{}.", super::plan::short(n_parts, minutes, gym))
}

pub fn date_fault(fault: DateFault) -> &'static str {
    match fault {
        DateFault::NoMinutes => "A practice needs minutes: give it some.",
        DateFault::EndsNextDay => "It would end after midnight: begin earlier, or make it shorter.",
        DateFault::InThePast => "That day is over: choose today or a later one.",
    }
}

pub fn series_fault(fault: SeriesFault) -> String {
    match fault {
        SeriesFault::NoWeekday => "On which days of the week? Choose at least one.".to_owned(),
        SeriesFault::UntilBeforeFrom => "The last day comes before the first: choose a later one.".to_owned(),
        SeriesFault::NoDay => {
            "None of these days of the week lies between the two: choose a later last day.".to_owned()
        }
        SeriesFault::TooMany { n } => {
            format!(
                "That makes {n} dates; at most {MOST_AT_ONCE} at once. Choose an earlier last day, and set the rest then."
            )
        }
    }
}

/// The key that sets them.
pub fn set(n: usize) -> String {
    format!("Set {}", plural(n, "date", "dates"))
}

pub fn were_set(n: usize) -> String {
    if n == 1 { "1 date is set.".to_owned() } else { format!("{n} dates are set.") }
}

pub fn given(name: &str) -> String {
    format!("The dates were given to the browser to save, as “{name}”. Open that file from among the downloads.")
}

/// `1 place is left out: it has a child’s name.`
pub fn left_out(n_places: usize, n_titles: usize) -> Option<String> {
    let places = match n_places {
        0 => None,
        1 => Some("1 place is left out: it has a child’s name.".to_owned()),
        n => Some(format!("{n} places are left out: each has a child’s name.")),
    };
    let titles = match n_titles {
        0 => None,
        1 => Some("1 part is told by its kind alone: its title has a child’s name.".to_owned()),
        n => Some(format!("{n} parts are told by their kind alone: each title has a child’s name.")),
    };
    let said: Vec<String> = [places, titles].into_iter().flatten().collect();
    (!said.is_empty()).then(|| said.join(" "))
}

pub fn not_left(why: &str) -> String {
    format!("The dates could not be sent ({why}). Nothing here has changed; save them as a file instead.")
}

/// `24 practices held since 2 September, 36 h of gym time.`
pub fn held(n: usize, since: NaiveDate, n_timed: usize, gym_min: u32) -> String {
    let of = if n_timed == n { String::new() } else { format!(" in {n_timed} of them") };
    let time = if n_timed == 0 { String::new() } else { format!(", {} of gym time{of}", time(gym_min)) };
    let since = format!("{} {}", since.day(), MONTHS[since.month0() as usize % 12]);
    format!("{} held since {since}{time}.", plural(n, "practice", "practices"))
}

pub fn to_come(n: usize, n_planned: usize) -> String {
    let planned = match n_planned {
        0 => "none has a plan yet".to_owned(),
        k if k == n => "all with a plan".to_owned(),
        k => format!("{k} with a plan"),
    };
    match n {
        0 => "No date to come.".to_owned(),
        _ => format!("{} to come, {planned}.", plural(n, "date", "dates")),
    }
}

pub const NO_PLAN_RUN: &str = "No practice ran by a plan yet, so nobody can tell how much of it had a ball.";

/// `In 6 practices that ran by a plan, 412 of 520 min had a ball, about 8 min in 10.`
pub fn share(n: usize, ball_ms: u64, all_ms: u64) -> String {
    let tenths = (ball_ms * 10 + all_ms / 2) / all_ms.max(1);
    let (ball, all) = (minutes(ball_ms), minutes(all_ms));
    let which = if n == 1 { "In the practice".to_owned() } else { format!("In {n} practices") };
    format!("{which} that ran by a plan {ball} of {all} min had a ball, about {tenths} min in 10.")
}

/// `Without a ball: 48 min so far, 8 min a practice. In the 30 dates to come that would be 4 h, as much as 2 practices of 90.`
pub fn without(n: usize, without_ms: u64, n_to_come: usize, gym: u16) -> String {
    let each = minutes(without_ms / (n as u64).max(1));
    let so_far = format!("Without a ball: {} so far, {each} min a practice.", time(minutes(without_ms)));
    if n_to_come == 0 || each == 0 {
        return so_far;
    }
    let ahead = each * u32::try_from(n_to_come).unwrap_or(u32::MAX);
    let dates = if n_to_come == 1 { "the date".to_owned() } else { format!("the {n_to_come} dates") };
    format!("{so_far} In {dates} to come that would be {}{}.", time(ahead), super::plan::as_much_as(ahead, gym))
}

/// `36 h`, `6 h 40 min`
pub fn time(min: u32) -> String {
    match (min / 60, min % 60) {
        (0, min) => format!("{min} min"),
        (h, 0) => format!("{h} h"),
        (h, min) => format!("{h} h {min} min"),
    }
}

fn minutes(ms: u64) -> u32 {
    u32::try_from((ms + 30_000) / 60_000).unwrap_or(u32::MAX)
}
