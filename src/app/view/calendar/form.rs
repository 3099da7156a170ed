//! The form of dates as it is shown.

use chrono::NaiveDate;

use crate::app::calendar::DateForm;
use crate::app::model::Model;
use crate::app::update::calendar::{STEP_MIN, days, days_at, read_form};
use crate::app::words::{calendar as words, counts, plan as plan_words};
use crate::domain::plan::Plan;

/// The form: what stands in its fields, the days it would set, and what keeps it from that.
#[derive(Clone, Debug, PartialEq)]
pub struct DatesView {
    pub title: &'static str,
    pub changes: bool,
    pub weekly: bool,
    /// Place from Monday, its name short and as it is said, and whether it is on; in the order of the coach's week.
    pub weekdays: Vec<(usize, &'static str, String, bool)>,
    /// As fields for a day and an hour hold them; empty where nothing is chosen.
    pub from: String,
    pub until: String,
    pub start: String,
    pub minutes: String,
    pub minutes_ends: (bool, bool),
    pub place: String,
    /// Before this day nothing new is set.
    pub earliest: String,
    pub days: Vec<SeriesDay>,
    /// One sentence why nothing can be set, and whether something is merely not chosen yet.
    pub fault: Option<(String, bool)>,
    pub keep: String,
}

#[derive(Clone, Debug, PartialEq)]
pub struct SeriesDay {
    pub day: NaiveDate,
    pub label: String,
    /// Taken out by the coach.
    pub out: bool,
    /// A date at that hour stands already: it isn't set twice.
    pub there: bool,
}

/// `None`: the date that the address names isn't here.
pub fn dates_form(model: &Model) -> Option<DatesView> {
    let form = model.drafts.calendar.form.as_ref()?;
    let read = read_form(model, form);
    let first_weekday = usize::from(model.phone.first_weekday.max(1) - 1) % 7;
    let weekday = |i: usize| (i, words::weekday_short(i), words::weekday_said(i), form.weekdays[i % 7]);
    let text = |day: Option<NaiveDate>| day.map(|day| day.to_string()).unwrap_or_default();
    Some(DatesView {
        title: if form.of.is_some() { words::FORM_CHANGE } else { words::FORM_NEW },
        changes: form.of.is_some(),
        weekly: form.weekly,
        weekdays: (0..7).map(|i| weekday((first_weekday + i) % 7)).collect(),
        from: text(form.from),
        until: text(form.until),
        // A field for an hour wants two digits.
        start: form.start_min.map(|min| format!("{:02}:{:02}", min / 60, min % 60)).unwrap_or_default(),
        minutes: plan_words::minutes(form.minutes),
        minutes_ends: (form.minutes <= STEP_MIN, form.minutes >= Plan::MOST_MIN),
        place: form.place.clone(),
        earliest: model.now.day().to_string(),
        days: if form.weekly { series(model, form) } else { Vec::new() },
        keep: match (&read, form.of) {
            (_, Some(_)) => words::KEEP.to_owned(),
            (Ok(dates), None) => words::set(dates.len()),
            (Err(_), None) => words::FORM_NEW.to_owned(),
        },
        fault: read.err().map(|unset| (unset.text, unset.missing)),
    })
}

fn series(model: &Model, form: &DateForm) -> Vec<SeriesDay> {
    let today = model.now.day();
    let there = form.start_min.map(|start| days_at(model, start)).unwrap_or_default();
    let day = |day: NaiveDate| SeriesDay {
        day,
        label: counts::day(day, today),
        out: form.out.contains(&day),
        there: there.contains(&day),
    };
    days(form).unwrap_or_default().into_iter().map(day).collect()
}
