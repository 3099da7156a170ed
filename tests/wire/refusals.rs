//! Each way in which a file is refused, and what is none.

use super::properties::small;
use super::{header, read, samples, sorted};
use peppertally::domain::calendar::PracticeDate;
use peppertally::domain::entry::Fact;
use peppertally::domain::ids::{EntryId, NoteId, Revision};
use peppertally::domain::notes::{Asked, Note};
use peppertally::wire::file::{self, Limits, MAX_NAME_CHARS, MAX_TEXT_CHARS, Refusal, RuleBroken, Spot};
use peppertally::wire::record::{self, RecordError};

#[track_caller]
fn check(text: impl AsRef<[u8]>, expected: Refusal) {
    assert_eq!(file::read(text.as_ref(), &Limits::default()).map(|copy| copy.entries.len()), Err(expected));
}

#[track_caller]
fn breaks(text: &str, which: RuleBroken, at: Spot) {
    check(text, Refusal::BreaksRule { which, at });
}

/// The small file with one thing changed, which has to be there.
#[track_caller]
fn with(from: &str, to: &str) -> String {
    let text = small();
    assert!(text.contains(from), "{from} in {text}");
    text.replacen(from, to, 1)
}

#[test]
fn not_ours() {
    for text in ["{}", "[]", "null", "7", "no JSON at all", "{\"format\":\"a list\"}", "{\"a\":[", "PK\u{3}\u{4}"] {
        check(text, Refusal::NotOurs);
    }
    check([0xff, 0xfe, b'{'], Refusal::NotOurs);
    check(with("peppertally-copy", "peppertally-block"), Refusal::NotOurs);
}

#[test]
fn cut_off_at_every_byte() {
    let text = small();
    for end in 0..text.len() {
        check(&text.as_bytes()[..end], Refusal::CutOff);
    }
    read(&text);
}

#[test]
fn newer() {
    check(with("\"version\":1", "\"version\":3"), Refusal::Newer { version: 3 });
    check("{\"format\":\"peppertally-copy\",\"version\":9,\"entries\":\"other\"}", Refusal::Newer { version: 9 });
    breaks(&with("\"version\":1", "\"version\":0"), RuleBroken::Shape, Spot::Part("version"));
    breaks(&with("\"version\":1", "\"version\":\"1\""), RuleBroken::Shape, Spot::Part("version"));
}

#[test]
fn too_large_is_said_before_anything_is_read() {
    let text = small();
    let bytes = u64::try_from(text.len()).unwrap();
    let limits = |n_bytes, n_entries| Limits { n_bytes, n_entries };
    let refusal = Refusal::TooLarge { bytes, limit: bytes - 1 };
    assert_eq!(file::read(text.as_bytes(), &limits(bytes - 1, 100)), Err(refusal));
    assert!(file::read(text.as_bytes(), &limits(bytes, 100)).is_ok());
    let refusal = Refusal::BreaksRule { which: RuleBroken::TooMany, at: Spot::Part("entries") };
    assert_eq!(file::read(text.as_bytes(), &limits(bytes, 3)), Err(refusal));
    assert_eq!(Limits::default().n_bytes, 100_000_000);
}

#[test]
fn what_is_around_the_text_is_fine() {
    let text = small();
    let expected = read(&text);
    assert_eq!(read(&format!("\u{feff}{text}\r\n")), expected);
    assert_eq!(read(&text.replacen(",\"version\":1", "", 1).replacen('{', "{ \"version\" : 1,\n", 1)), expected);
    assert_eq!(read(&with("\"app\":\"0.1.0\"", "\"app\":\"0.1.0\",\"lang\":\"xx\"")), expected);
}

#[test]
fn broken_in_the_middle() {
    let text = small();
    let at = text.find("\"rare\"").unwrap();
    breaks(&format!("{}%{}", &text[..at], &text[at..]), RuleBroken::NotJson, Spot::Byte(at + 1));
    breaks(&with("\"rare\":[", "\"rare\":7,\"x\":["), RuleBroken::Shape, Spot::Part("rare"));
    breaks(&with("\"rare\":[", "\"strings\":[],\"rare\":["), RuleBroken::Shape, Spot::Part("file"));
    breaks(&with("\"rare\":[", "\"more\":[],\"rare\":["), RuleBroken::UnknownPart, Spot::Part("file"));
    breaks(&with("\"by_child\":", "\"mood\":[],\"by_child\":"), RuleBroken::Shape, Spot::Part("contacts"));
    breaks(&with("\"turns\":{", "\"turnz\":{"), RuleBroken::Shape, Spot::Part("turns"));
    breaks(&with("\"written\":{", "\"written\":{\"app\":1,"), RuleBroken::Shape, Spot::Part("written"));
    let deep = format!("{{\"format\":\"peppertally-copy\",\"version\":1,\"entries\":{}", "[".repeat(1_000_000));
    check(&deep, Refusal::CutOff);
    let deep = with("\"rare\":[", &format!("\"rare\":[{}{},", "[".repeat(500_000), "]".repeat(500_000)));
    let first = EntryId::new(0x00ab_cdef_0123_4567, 0);
    breaks(&deep, RuleBroken::Record(RecordError::NotAnObject { at: 0 }), Spot::Entry(first));
}

#[test]
fn a_claimed_count_is_backed_by_numbers() {
    let text = small();
    let series = format!("\"{:016x}\",", 0x5eed_0000_c0ff_ee01_u64);
    let at = text.find(&series).unwrap() + series.len();
    let end = at + text[at..].find(']').unwrap();
    for claim in ["0", "7", "18446744073709551615"] {
        let text = format!("{}{claim}{}", &text[..at], &text[end..]);
        breaks(&text, RuleBroken::UnequalColumns, Spot::Part("series"));
    }
    let lineup = EntryId::new(0x5eed_0000_c0ff_ee01, 165);
    let which = RuleBroken::UnequalColumns;
    breaks(&with("\"waiting\":[0", "\"waiting\":[[9223372036854775807,1]"), which, Spot::Entry(lineup));
    breaks(&with("\"by_child\":[", "\"by_child\":[[0,9],"), RuleBroken::UnequalColumns, Spot::Part("contacts"));
    breaks(&with("\"rare\":[", "\"rare\":[{\"k\":\"whistle-blown\"},"), RuleBroken::UnequalColumns, Spot::Part("rare"));
}

#[test]
fn indexes_and_codes_stay_in_their_tables() {
    let contact = samples::every_kind().into_iter().find(|e| matches!(e.fact, Fact::ContactNoted { .. })).unwrap().id;
    let text = small();
    let at = text.find("\"contacts\":{").unwrap();
    let (head, tail) = text.split_at(at);
    for column in ["run", "player", "role", "place", "outcome", "good_from", "feed", "step", "style", "round", "server"]
    {
        for number in ["-1", "70000", "-9223372036854775808", "9223372036854775807"] {
            let name = format!("\"{column}\":[");
            let start = tail.find(&name).unwrap() + name.len();
            let end = start + tail[start..].find([',', ']']).unwrap();
            let text = format!("{head}{}{number}{}", &tail[..start], &tail[end..]);
            breaks(&text, RuleBroken::OutOfRange, Spot::Entry(contact));
        }
    }
    breaks(&with("\"players\":[1,", "\"players\":[9,"), RuleBroken::OutOfRange, Spot::Part("players"));
    breaks(&with("\"players\":[1,", "\"players\":[0,1,"), RuleBroken::UnequalColumns, Spot::Part("players"));
    breaks(&with("\"no\":[0", "\"no\":[-1"), RuleBroken::OutOfRange, Spot::Part("entries"));
    breaks(&with("\"no\":[0", "\"no\":[9223372036854775807"), RuleBroken::OutOfRange, Spot::Part("entries"));
    let first = Spot::Entry(EntryId::new(0x00ab_cdef_0123_4567, 0));
    breaks(&with("\"clock\":[1", "\"clock\":[-1"), RuleBroken::OutOfRange, first);
    breaks(&with("\"wall\":[", "\"wall\":[9999"), RuleBroken::OutOfRange, first);
}

#[test]
fn one_identity_twice() {
    let practice = sorted(samples::every_kind());
    let entry = &practice[0];
    let text = file::write([entry], &header());
    let twice = text
        .replacen(",1]],", ",2]],", 1)
        .replacen("\"no\":[0]", "\"no\":[0,-1]", 1)
        .replacen("\"clock\":[1]", "\"clock\":[1,0]", 1)
        .replacen("\"wall\":[1788270000000]", "\"wall\":[1788270000000,0]", 1)
        .replacen("\"offset\":[120]", "\"offset\":[120,120]", 1)
        .replacen("\"skew\":[-1788269999100]", "\"skew\":[-1788269999100,0]", 1)
        .replacen("\"kind\":[0]", "\"kind\":[0,0]", 1);
    let fact = text[text.find("\"rare\":[").unwrap() + 8..text.find("],\"contacts\"").unwrap()].to_owned();
    assert_eq!(read(&twice.replacen(&fact, &format!("{fact},{fact}"), 1)), std::slice::from_ref(entry));
    let other = fact.replacen("gym phone", "other phone", 1);
    breaks(&twice.replacen(&fact, &format!("{fact},{other}"), 1), RuleBroken::TwoContents, Spot::Entry(entry.id));
}

#[test]
fn texts_that_people_read() {
    let entry = samples::every_kind().into_iter().find(|e| matches!(e.fact, Fact::NoteWritten { .. })).unwrap();
    let Fact::NoteWritten { spot, note: of } = entry.fact.clone() else { unreachable!() };
    let name = |name: String| Fact::PlayerAdded { name, number: None };
    let note = |text: String| Fact::NoteWritten { spot, note: Note { text, ..of.clone() } };
    let tags = |tag: String| Fact::NoteTagsChanged { revision: Revision(1), tags: vec![tag] };
    let tagged = |tag: String| Fact::NoteChanged {
        note: NoteId(entry.id),
        revision: Revision(1),
        changed: Note { tags: vec![tag], ..of.clone() },
    };
    let asked = |question: String| Fact::QuestionAsked { spot, asked: Asked { player: samples::MIRA, question } };
    let questions = |one: String| Fact::QuestionsChanged { drill: None, revision: Revision(1), questions: vec![one] };
    for (fact, expected) in [
        (name("\u{e9}".repeat(MAX_NAME_CHARS)), None),
        (name("\u{e9}".repeat(MAX_NAME_CHARS + 1)), Some(RuleBroken::TextTooLong)),
        (name("a\nb".into()), Some(RuleBroken::ControlCharacter)),
        (name("a\u{9b}b".into()), Some(RuleBroken::ControlCharacter)),
        (note("a\n\tb".into()), None),
        (note("a\u{0}b".into()), Some(RuleBroken::ControlCharacter)),
        (note("a".repeat(MAX_TEXT_CHARS)), None),
        (note("a".repeat(MAX_TEXT_CHARS + 1)), Some(RuleBroken::TextTooLong)),
        (tags("a\nb".into()), Some(RuleBroken::ControlCharacter)),
        (tagged("a".repeat(MAX_NAME_CHARS)), None),
        (tagged("a".repeat(MAX_NAME_CHARS + 1)), Some(RuleBroken::TextTooLong)),
        (asked("a\u{0}b".into()), Some(RuleBroken::ControlCharacter)),
        (asked("a".repeat(MAX_NAME_CHARS)), None),
        (questions("a".repeat(MAX_NAME_CHARS + 1)), Some(RuleBroken::TextTooLong)),
    ] {
        let mut entry = entry.clone();
        entry.fact = fact;
        let text = file::write([&entry], &header());
        match expected {
            None => assert_eq!(read(&text), [entry]),
            Some(which) => breaks(&text, which, Spot::Entry(entry.id)),
        }
    }
}

#[test]
fn records_that_are_none() {
    let good = record::encode(&samples::every_kind()[1]);
    let with = |from: &str, to: &str| {
        assert!(good.contains(from), "{from} in {good}");
        record::decode(&good.replacen(from, to, 1)).unwrap_err()
    };
    assert_eq!(with("}", ""), RecordError::CutOff);
    assert_eq!(with("{", "["), RecordError::NotAnObject { at: 0 });
    assert_eq!(with("\"c\":2,", ""), RecordError::Missing { field: "c" });
    assert_eq!(with("\"name\":\"Mira\",", ""), RecordError::Missing { field: "name" });
    assert_eq!(with("\"c\":2", "\"c\":-2"), RecordError::Misfit { field: "c" });
    assert_eq!(with("\"c\":2", "\"c\":2.0"), RecordError::Misfit { field: "c" });
    assert_eq!(with("\"c\":2", "\"c\":2,\"c\":2"), RecordError::Twice { field: "c".into() });
    assert_eq!(with("\"number\":0", "\"number\":65536"), RecordError::Misfit { field: "number" });
    assert_eq!(with("\"number\":0", "\"number\":null"), RecordError::Misfit { field: "number" });
    for id in ["0.1", "00ABCDEF01234567.00000001", "00abcdef01234567.+0000001", "00abcdef01234567:00000001"] {
        assert_eq!(with("00abcdef01234567.00000001", id), RecordError::Misfit { field: "id" });
    }
    for (i, _) in good.char_indices().skip(1) {
        assert_eq!(record::decode(&good[..i]), Err(RecordError::CutOff));
    }
}

/// A date lies within its day and lasts a while. Found in review of the limits: an hour of 24:00 would have been an event of the next day.
#[test]
fn a_date_is_of_a_day() {
    let copy = |start_min, minutes, place: &str| {
        let day = chrono::NaiveDate::default();
        let date = PracticeDate { day, start_min, minutes, place: place.into() };
        let entries = [samples::entry(EntryId::new(1, 0), 1, Fact::DateSet { date })];
        file::read(file::write(&entries, &header()).as_bytes(), &Limits::default()).map(|copy| copy.entries.len())
    };
    let refused = |which| Err(Refusal::BreaksRule { which, at: Spot::Entry(EntryId::new(1, 0)) });
    assert_eq!(copy(1439, 1, "Hall"), Ok(1));
    for (start_min, minutes) in [(1439, 2), (1440, 1), (0, 0), (u16::MAX, u16::MAX)] {
        assert_eq!(copy(start_min, minutes, ""), refused(RuleBroken::OutOfRange), "{start_min} {minutes}");
    }
    assert_eq!(copy(0, 1, &"x".repeat(MAX_NAME_CHARS + 1)), refused(RuleBroken::TextTooLong));
    assert_eq!(copy(0, 1, "a\nb"), refused(RuleBroken::ControlCharacter));
    for day in ["2026-02-30", "tomorrow", ""] {
        let text = format!(
            r#"{{"v":1,"id":"00000000000000af.0000000c","c":1,"w":1,"o":0,"m":1,"k":"date-set","day":"{day}","start_min":1,"minutes":1}}"#
        );
        assert_eq!(record::decode(&text), Err(RecordError::Misfit { field: "day" }), "{day}");
    }
}
