//! The calendar file, read by a library that didn't write it (`calcard`); and by eye, against the sections of RFC 5545.

use calcard::common::PartialDateTime;
use calcard::icalendar::{
    ICalendar, ICalendarComponent, ICalendarComponentType, ICalendarProperty, ICalendarStatus, ICalendarValue,
};
use chrono::NaiveDate;
use peppertally::wire::ics::{Event, local, write};
use proptest::prelude::*;

fn at(day: (i32, u32, u32), h: u32, m: u32) -> String {
    local(NaiveDate::from_ymd_opt(day.0, day.1, day.2).unwrap().and_hms_opt(h, m, 0).unwrap())
}

fn event() -> Event {
    Event {
        uid: "peppertally-00000000000000af.0000000c".into(),
        changed_ms: 1_795_968_300_000,
        starts: at((2026, 12, 3), 17, 30),
        ends: at((2026, 12, 3), 19, 0),
        summary: "Volleyball practice".into(),
        place: "Hall 2".into(),
        description: "Arrival game: 8 min\nServing: 15 min".into(),
        sequence: 3,
        cancelled: false,
    }
}

fn read(text: &str) -> Vec<ICalendarComponent> {
    let calendar = ICalendar::parse(text).unwrap_or_else(|_| panic!("no calendar:\n{text}"));
    let events = calendar.components.into_iter();
    events.filter(|component| component.component_type == ICalendarComponentType::VEvent).collect()
}

fn value(event: &ICalendarComponent, name: &ICalendarProperty) -> Option<ICalendarValue> {
    let entries: Vec<_> = event.entries.iter().filter(|entry| entry.name == *name).collect();
    assert!(entries.len() <= 1, "{name:?} twice");
    let entry = entries.first()?;
    // An empty text is no value to this reader.
    assert!(entry.params.is_empty() && entry.values.len() <= 1, "{name:?}: {:?}", entry.values);
    entry.values.first().cloned()
}

fn text(event: &ICalendarComponent, name: ICalendarProperty) -> Option<String> {
    match value(event, &name)? {
        ICalendarValue::Text(text) => Some(text),
        other => panic!("{name:?}: {other:?}"),
    }
}

fn time(event: &ICalendarComponent, name: ICalendarProperty) -> PartialDateTime {
    match value(event, &name) {
        Some(ICalendarValue::PartialDateTime(time)) => *time,
        other => panic!("{name:?}: {other:?}"),
    }
}

/// Worked by hand. 3.4: one VCALENDAR; 3.6.1: UID and DTSTAMP are required; 3.3.5: form 1 for the hours, form 2 for the stamp; 3.3.11: the
/// new line as `\n`; 3.1: lines end with CRLF. 1,795,968,300 s are 2026-11-29 16:05 UTC: 20,786 days and 57,900 s.
#[test]
fn a_date_by_hand() {
    let expected = "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Peppertally//Practice dates//EN\r\nBEGIN:VEVENT\r\n\
        UID:peppertally-00000000000000af.0000000c\r\nDTSTAMP:20261129T160500Z\r\nDTSTART:20261203T173000\r\n\
        DTEND:20261203T190000\r\nSUMMARY:Volleyball practice\r\nLOCATION:Hall 2\r\n\
        DESCRIPTION:Arrival game: 8 min\\nServing: 15 min\r\nSEQUENCE:3\r\nSTATUS:CONFIRMED\r\nEND:VEVENT\r\n\
        END:VCALENDAR\r\n";
    assert_eq!(write(&[event()]), expected);
    let events = read(expected);
    assert_eq!(events.len(), 1);
    assert_eq!(text(&events[0], ICalendarProperty::Uid).as_deref(), Some("peppertally-00000000000000af.0000000c"));
    let starts = time(&events[0], ICalendarProperty::Dtstart);
    assert_eq!((starts.year, starts.month, starts.day), (Some(2026), Some(12), Some(3)));
    assert_eq!((starts.hour, starts.minute, starts.tz_hour), (Some(17), Some(30), None), "floating");
    assert_eq!(time(&events[0], ICalendarProperty::Dtend).hour, Some(19));
    assert_eq!(time(&events[0], ICalendarProperty::Dtstamp).tz_hour, Some(0), "in UTC");
    assert_eq!(value(&events[0], &ICalendarProperty::Sequence), Some(ICalendarValue::Integer(3)));
}

/// 3.8.1.11: what was dropped is cancelled, under the same UID and with a higher SEQUENCE (3.8.7.4).
#[test]
fn a_dropped_date_is_cancelled() {
    let dropped = Event { cancelled: true, sequence: 4, place: String::new(), description: String::new(), ..event() };
    let text = write(&[dropped]);
    let events = read(&text);
    let status = value(&events[0], &ICalendarProperty::Status);
    assert_eq!(status, Some(ICalendarValue::Status(ICalendarStatus::Cancelled)));
    assert!(!text.contains("LOCATION") && !text.contains("DESCRIPTION"), "nothing is said of nothing");
}

/// 3.1, worked by hand: "SUMMARY:" has 8 octets; 33 balls of 2 octets make 74, the next would make 76. A continued line begins with a space,
/// which leaves 74: 37 of them.
#[test]
fn lines_are_folded_by_octets() {
    let text = write(&[Event { summary: "\u{e9}".repeat(80), ..event() }]);
    let folded = format!("SUMMARY:{}\r\n {}\r\n {}\r\n", "\u{e9}".repeat(33), "\u{e9}".repeat(37), "\u{e9}".repeat(10));
    assert!(text.contains(&folded), "{text}");
}

/// 3.3.11, worked by hand: backslash, semicolon and comma are escaped, a colon is not.
#[test]
fn texts_are_escaped() {
    let text = write(&[Event { place: r"Hall 2; left, \up: 3".into(), ..event() }]);
    assert!(text.contains("LOCATION:Hall 2\\; left\\, \\\\up: 3\r\n"), "{text}");
    let place = self::text(&read(&text)[0], ICalendarProperty::Location);
    assert_eq!(place.as_deref(), Some(r"Hall 2; left, \up: 3"));
}

/// Commas, semicolons, backslashes, new lines, quotes, emoji of several characters, right to left, what opens and ends a component; to 200.
fn nasty() -> impl Strategy<Value = String> {
    let piece = prop_oneof![
        prop::sample::select(vec![
            ",",
            ";",
            "\\",
            "\n",
            "\"",
            ":",
            " ",
            "\\n",
            "\u{1f469}\u{200d}\u{1f9bd}",
            "\u{1f3d0}",
            "\u{5d8}\u{5d5}",
            "\u{202e}x",
            "\u{0646}\u{0648}",
            "e\u{301}",
            "END:VEVENT",
            "\nEND:VEVENT",
            "^n",
            "=",
            "%0A",
        ])
        .prop_map(str::to_owned),
        "[a-zA-Z0-9 .]{1,12}",
        any::<char>().prop_filter("no control character", |c| !c.is_control()).prop_map(String::from),
    ];
    prop::collection::vec(piece, 0..60).prop_map(|pieces| pieces.concat().chars().take(200).collect())
}

proptest! {
    /// What goes in comes out by another reader, with no line over 75 octets and none that ends otherwise than by CRLF.
    #[test]
    fn another_reader_reads_the_same(
        texts in prop::collection::vec((nasty(), nasty(), nasty(), any::<u32>(), any::<bool>(), 0..86_400_000_000_000i64), 0..6)
    ) {
        let events: Vec<Event> = texts
            .iter()
            .enumerate()
            .map(|(i, (summary, place, description, sequence, cancelled, changed_ms))| Event {
                uid: format!("peppertally-{i}"),
                changed_ms: *changed_ms,
                summary: summary.clone(),
                place: place.clone(),
                description: description.clone(),
                sequence: *sequence,
                cancelled: *cancelled,
                ..event()
            })
            .collect();
        let written = write(&events);
        for line in written.split("\r\n") {
            prop_assert!(line.len() <= 75 && !line.contains(['\r', '\n']), "{line}");
        }
        let back = read(&written);
        prop_assert_eq!(back.len(), events.len());
        for (back, event) in back.iter().zip(&events) {
            // White space at the ends is none to some readers.
            let said = |name| text(back, name).unwrap_or_default().trim().to_owned();
            prop_assert_eq!(said(ICalendarProperty::Uid), event.uid.clone());
            prop_assert_eq!(said(ICalendarProperty::Summary), event.summary.trim());
            prop_assert_eq!(said(ICalendarProperty::Location), event.place.trim());
            prop_assert_eq!(said(ICalendarProperty::Description), event.description.trim());
        }
    }
}
