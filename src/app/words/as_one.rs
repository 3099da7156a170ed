//! Sentences about practices that may be one.

pub const TITLE: &str = "One practice?";
pub const LEAD: &str =
    "Several phones, one evening: each may have begun a practice of its own. What you say can be taken back.";
pub const NONE: &str = "No two practices look as if they were one.";
pub const ASK: &str = "One practice at several stations?";
pub const ONE: &str = "One practice";
pub const TWO: &str = "Two practices";
pub const JOINED: &str = "One practice";
pub const JOINED_LINE: &str = "What was counted in both is read together. It stays as each phone wrote it.";
pub const APART: &str = "Two practices";
pub const APART_LINE: &str = "Said once, not asked again.";
pub const BACK: &str = "Take back";
pub const ASK_AGAIN: &str = "Ask again";
pub const THE_SAME_AS: &str = "This is the same practice as …";
pub const THE_SAME_LINE: &str =
    "One tap: its drills come to this one. Day and hour of this one stay. It can be taken back.";
pub const GOES_ON: &str = "It is still on. Once it has ended it can be one with another.";
pub const NO_OTHER: &str = "There is no other practice here.";
pub const BACK_TO_REPORT: &str = "Back to the practice";
pub const SAID_BEFORE: &str = "What you said of practices that may be one";
pub const READ_AS_ONE: &str = "Counted on several phones, read as one";
pub const OTHER_STATION: &str = "Counted on another phone too?";
pub const THIS_PHONE: &str = "On this phone";
pub const ANOTHER_PHONE: &str = "On another phone";

/// `Two practices may be one`
pub fn waiting(n: usize) -> String {
    match n {
        1 => "Two practices may be one".to_owned(),
        _ => "Several practices may be one".to_owned(),
    }
}

/// `On Ana’s phone`
pub fn on_phone(name: &str) -> String {
    format!("On {name}")
}

/// `Open again what this phone began at 18:05`
pub fn open_again(time: &str) -> String {
    format!("Open again what this phone began at {time}")
}

/// `On this phone from 18:02`
pub fn from(phone: &str, time: &str) -> String {
    format!("{phone} from {time}")
}

/// `On this phone from 18:02; on Ana’s phone from 18:05.`
pub fn phones(all: &[String]) -> String {
    let mut parts = all.iter();
    let first = parts.next().cloned().unwrap_or_default();
    format!("{}.", parts.fold(first, |line, part| format!("{line}; {}", lower(part))))
}

/// Within a sentence.
fn lower(part: &str) -> String {
    part.strip_prefix("On ").map_or_else(|| part.to_owned(), |rest| format!("on {rest}"))
}

/// `On Ana’s phone and on this phone`
pub fn phones_of_one(all: &[String]) -> String {
    all.iter()
        .enumerate()
        .map(|(n, part)| if n == 0 { part.clone() } else { lower(part) })
        .collect::<Vec<_>>()
        .join(" and ")
}

/// `On this phone, Tuesday 24 November, 18:02`
pub fn on(phone: &str, when: &str) -> String {
    format!("{phone}, {when}")
}

/// `Tuesday 24 November, 18:02, on Ana’s phone: 2 drills, 5 contacts`
pub fn this_one(when: &str, phone: &str, what: &str) -> String {
    format!("{when}, {}: {what}", lower(phone))
}
