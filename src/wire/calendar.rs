//! A date as fields of a record, and back. The table of the fields is in `record`.

use chrono::NaiveDate;

use super::json::{Fields, Object};
use super::record::RecordError;
use crate::domain::calendar::PracticeDate;

pub(super) fn push_date(to: &mut Object, date: &PracticeDate) {
    to.text("day", &date.day.to_string());
    to.number("start_min", date.start_min);
    to.number("minutes", date.minutes);
    if !date.place.is_empty() {
        to.text("place", &date.place);
    }
}

pub(super) fn take_date(f: &mut Fields<'_>) -> Result<PracticeDate, RecordError> {
    Ok(PracticeDate {
        day: day(&f.text("day")?).ok_or(RecordError::Misfit { field: "day" })?,
        start_min: f.need("start_min")?,
        minutes: f.need("minutes")?,
        place: f.maybe::<String>("place")?.unwrap_or_default(),
    })
}

/// As ISO 8601 has it, which is what a field for a day holds too; a year beyond four digits carries its sign.
pub fn day(text: &str) -> Option<NaiveDate> {
    let mut parts = text.rsplitn(3, '-');
    let (day, month, year) = (parts.next()?, parts.next()?, parts.next()?);
    let plain = |part: &str, len: usize| part.len() == len && part.bytes().all(|b| b.is_ascii_digit());
    let signed = year.strip_prefix(['+', '-']).unwrap_or(year);
    if !plain(day, 2) || !plain(month, 2) || signed.len() < 4 || !plain(signed, signed.len()) {
        return None;
    }
    NaiveDate::from_ymd_opt(year.parse().ok()?, month.parse().ok()?, day.parse().ok()?)
}
