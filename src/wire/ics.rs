//! Dates as an iCalendar file (RFC 5545). Written here and by no library: the kept one that writes it pulls in the browser's clock and its
//! random numbers for every program that links it, and counts characters where it folds octets. Refuses to know a plan or a child.
//!
//! Times are the first form of section 3.3.5, local time with no zone ("floating"): practice is at that hour wherever the gym is, before
//! and after summer time, and a file needs no table of zones, which this app hasn't. `UID` (3.8.4.7) is the identity of the entry that set
//! the date: the same in every file, 64 random bits of a page and a number, of no person. `SEQUENCE` (3.8.7.4) never falls and
//! grows with every change until practice begins the date's plan; what practice then makes of its plan has no new number. `DTSTAMP` (3.8.7.2) is
//! when it was last changed, by the same rule, so the same dates give the same bytes. A date that was dropped is `CANCELLED` (3.8.1.11): most
//! calendars that had it take it out.

use chrono::{DateTime, Datelike, NaiveDateTime, Timelike};
use serde::{Deserialize, Serialize};

/// One date. Values alone, so that a job can carry them.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Event {
    pub uid: String,
    /// When it was last changed, in milliseconds since 1970-01-01 UTC.
    pub changed_ms: i64,
    /// Local time, as [`local`] writes it.
    pub starts: String,
    pub ends: String,
    pub summary: String,
    /// May be empty, as the next.
    pub place: String,
    pub description: String,
    pub sequence: u32,
    pub cancelled: bool,
}

/// `20261203T173000`: local time without a zone. Whoever asks keeps to years of four digits.
pub fn local(at: NaiveDateTime) -> String {
    let (h, m, s) = (at.hour(), at.minute(), at.second());
    format!("{:04}{:02}{:02}T{h:02}{m:02}{s:02}", at.year(), at.month(), at.day())
}

/// The whole file.
///
/// ```
/// use peppertally::wire::ics::write;
/// assert_eq!(write(&[]), "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Peppertally//Practice dates//EN\r\nEND:VCALENDAR\r\n");
/// ```
pub fn write(events: &[Event]) -> String {
    let mut out = String::new();
    push(&mut out, "BEGIN", "VCALENDAR");
    push(&mut out, "VERSION", "2.0");
    push(&mut out, "PRODID", "-//Peppertally//Practice dates//EN");
    for event in events {
        push(&mut out, "BEGIN", "VEVENT");
        push(&mut out, "UID", &escaped(&event.uid));
        push(&mut out, "DTSTAMP", &utc(event.changed_ms));
        push(&mut out, "DTSTART", &event.starts);
        push(&mut out, "DTEND", &event.ends);
        push(&mut out, "SUMMARY", &escaped(&event.summary));
        for (name, text) in [("LOCATION", &event.place), ("DESCRIPTION", &event.description)] {
            if !text.is_empty() {
                push(&mut out, name, &escaped(text));
            }
        }
        push(&mut out, "SEQUENCE", &event.sequence.min(i32::MAX.cast_unsigned()).to_string());
        push(&mut out, "STATUS", if event.cancelled { "CANCELLED" } else { "CONFIRMED" });
        push(&mut out, "END", "VEVENT");
    }
    push(&mut out, "END", "VCALENDAR");
    out
}

/// The second form of section 3.3.5; a time outside the calendar is the beginning of 1970.
fn utc(ms: i64) -> String {
    let at = DateTime::from_timestamp_millis(ms).filter(|at| (0..10_000).contains(&at.year())).unwrap_or_default();
    format!("{}Z", local(at.naive_utc()))
}

/// Section 3.3.11: a backslash before itself, semicolon and comma; a new line as `\n`. What else is a control character stands in no text.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '\\' | ';' | ',' => out.extend(['\\', c]),
            '\n' => out.push_str("\\n"),
            '\t' => out.push(' '),
            c if c.is_control() => {}
            c => out.push(c),
        }
    }
    out
}

/// Octets of a line without its end, section 3.1.
const MOST_OCTETS: usize = 75;

/// A content line, folded: the space that opens a continued line counts among its octets, and no character is cut in two.
fn push(out: &mut String, name: &str, value: &str) {
    let mut n_octets = 0;
    for c in name.chars().chain([':']).chain(value.chars()) {
        if n_octets + c.len_utf8() > MOST_OCTETS {
            out.push_str("\r\n ");
            n_octets = 1;
        }
        out.push(c);
        n_octets += c.len_utf8();
    }
    out.push_str("\r\n");
}
