//! Every sentence that a person reads, in one place, ready for a second language. Knows no model: values in, words out.

pub mod after;
pub mod as_one;
pub mod board;
pub mod board_lines;
pub mod bulk;
pub mod calendar;
pub mod calls;
pub mod codes;
pub mod copies;
pub mod counts;
pub mod drills;
pub mod fair;
pub mod family;
pub mod goals;
pub mod groups;
pub mod health;
pub mod home;
pub mod in_match;
pub mod joining;
pub mod ladder;
pub mod library;
pub mod lock;
pub mod merging;
pub mod notes;
pub mod panic;
pub mod plan;
pub mod remote;
pub mod removal;
pub mod report;
pub mod roster;
pub mod rules;
pub mod scores;
pub mod screens;
pub mod station;
pub mod steps;
pub mod today;
pub mod trouble;
pub mod trust;
pub mod weeks;
pub mod work;

/// A text said again is said with a space after it that can't be seen: what doesn't differ is not heard a second time.
pub fn said_anew(before: &str, text: String) -> String {
    if before == text { format!("{text}\u{a0}") } else { text }
}

/// The same text, as it begins a sentence.
fn capital(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or_else(String::new, |first| first.to_uppercase().chain(chars).collect())
}

/// `Mira 7`, `Mira II`, `Mira 7 II`: how two of one name are told apart. `nth` from 0: the first of them has no sign.
pub fn called(name: &str, number: Option<u16>, nth: usize) -> String {
    const SIGNS: [&str; 10] = ["", "II", "III", "IV", "V", "VI", "VII", "VIII", "IX", "X"];
    let mut called = name.to_owned();
    if let Some(number) = number {
        called = format!("{called} {number}");
    }
    match SIGNS.get(nth) {
        Some(&"") => called,
        Some(sign) => format!("{called} {sign}"),
        None => format!("{called} ({})", nth + 1),
    }
}

/// One who is not at practice any more and shares a name.
pub fn called_archived(name: &str) -> String {
    format!("{name} (archived)")
}

/// A child whose entry lies on another phone.
pub const UNKNOWN_CHILD: &str = "a child from another phone";
/// Name of the phone that recorded the demo's season.
pub const DEMO_PHONE: &str = "demo phone";
/// Phones that have no name, told apart: `another phone`, `a second other phone`, `other phone 5`. `nth` from 1.
pub fn other_phone(nth: usize) -> String {
    match nth {
        0 | 1 => "another phone".to_owned(),
        2 => "a second other phone".to_owned(),
        3 => "a third other phone".to_owned(),
        n => format!("other phone {n}"),
    }
}

/// Name of this phone where the coach gave none.
pub const THIS_PHONE: &str = "this phone";
