//! Sentences about a file that was opened and not yet taken in: what is new, what is here, what both sides changed.

use super::counts::plural;
use crate::app::work::{Amount, Besides};
use crate::domain::entry::Side;

pub const THIS_PHONE: &str = "This phone";
pub const NO_NAME: &str = "A phone without a name";
pub const NOBODY: &str = "nobody named";

/// `44 contacts of 2 practices that are not here.`
pub fn lead(new: Amount, n_practices: usize, n_new: usize) -> String {
    let of = plural(n_practices, "practice", "practices");
    match (amount(new), n_new) {
        (Some(what), _) if n_practices > 0 => format!("{what} of {of}, not here yet."),
        (Some(what), _) => format!("{what}, not here yet."),
        (None, 0) => "Everything in it is here already.".to_owned(),
        (None, n) => {
            format!("Nothing counted is new, but {} not here yet.", plural(n, "other thing is", "other things are"))
        }
    }
}

/// `New too: 3 children, 1 note. 12 things are here already and count once.`
pub fn besides(new: &Besides, n_here: usize) -> Vec<String> {
    let counted = [
        (new.children, "child", "children"),
        (new.drills, "drill", "drills"),
        (new.notes, "note or question", "notes and questions"),
        (new.plans, "plan", "plans"),
        (new.dates, "date", "dates"),
        (new.efforts, "noticed effort", "noticed efforts"),
        (new.corrections, "correction or undo", "corrections and undos"),
        (new.pairs, "word on names entered twice", "words on names entered twice"),
        (new.practice_pairs, "word on practices that may be one", "words on practices that may be one"),
    ];
    let new_too: Vec<String> =
        counted.into_iter().filter(|(n, ..)| *n > 0).map(|(n, one, many)| plural(n, one, many)).collect();
    let mut lines = Vec::new();
    if !new_too.is_empty() {
        lines.push(format!("New too: {}.", new_too.join(", ")));
    }
    if new.unknown > 0 {
        lines.push(format!(
            "{} from a newer version of the app: kept untouched, and shown once this app is newer.",
            plural(new.unknown, "thing is", "things are")
        ));
    }
    if n_here > 0 {
        lines.push(format!(
            "{} here already, and nothing counts twice.",
            plural(n_here, "thing in it is", "things in it are")
        ));
    }
    lines
}

/// `Passing, Serving. 44 contacts new, 12 here already.`
pub fn practice(drills: &[String], new: Amount, here: Amount, is_here: bool) -> String {
    let what = match (amount(new), amount(here)) {
        (None, None) if is_here => "nothing counted in it".to_owned(),
        (None, None) => "new, nothing counted in it".to_owned(),
        _ => amounts(new, here),
    };
    if drills.is_empty() { what } else { format!("{}: {what}", drills.join(", ")) }
}

/// `44 contacts new, 12 here already`
pub fn amounts(new: Amount, here: Amount) -> String {
    match (amount(new), amount(here)) {
        (Some(new), Some(here)) => format!("{new} new, {here} here already"),
        (Some(new), None) => format!("{new} new"),
        (None, Some(here)) => format!("{here}, all here already"),
        (None, None) => "nothing counted".to_owned(),
    }
}

/// `new in the squad, 12 contacts new`
pub fn child(new: Amount, here: Amount, is_new: bool) -> String {
    match (is_new, new.is_none() && here.is_none()) {
        (true, true) => "new in the squad".to_owned(),
        (true, false) => format!("new in the squad, {}", amounts(new, here)),
        (false, _) => amounts(new, here),
    }
}

fn amount(of: Amount) -> Option<String> {
    let counted = [
        (of.contacts, "contact", "contacts"),
        (of.told, "ball told as a number", "balls told as numbers"),
        (of.rallies, "rally", "rallies"),
    ];
    let parts: Vec<String> =
        counted.into_iter().filter(|(n, ..)| *n > 0).map(|(n, one, many)| plural(n, one, many)).collect();
    (!parts.is_empty()).then(|| parts.join(" and "))
}

/// `Mira’s name or number: here “Mira 7”, in the file “Mira 9”. The file’s will count.`
pub fn differs(of: &str, ours: Option<&str>, theirs: Option<&str>, theirs_counts: bool) -> String {
    let counts = wins(theirs_counts);
    match (ours, theirs) {
        (Some(ours), Some(theirs)) => format!("{of}: here “{ours}”, in the file “{theirs}”. {counts}"),
        _ => format!("{of}: changed here and in the file. {counts}"),
    }
}

/// `The drill “Serving”: its goal was changed here and in the file. The file’s will count, whole.`
pub fn drill_differs(of: &str, parts: &[&str], theirs_counts: bool) -> String {
    format!("{of} was changed here and in the file: {}. {}", parts.join(", "), wins(theirs_counts))
}

fn wins(theirs_counts: bool) -> &'static str {
    if theirs_counts { "Once taken in, the file’s counts." } else { "What is here goes on to count." }
}

/// Of one identity with two contents.
pub fn other_content(n: usize) -> String {
    format!(
        "{} here with other content, which only damage can do. What is here stays; the others are set aside.",
        plural(n, "thing is", "things are")
    )
}

pub fn more_differ(n: usize) -> String {
    format!("And {n} more that both sides changed.")
}

pub const A_BALL: &str = "A ball that was corrected";
pub const A_RALLY: &str = "Who won a rally";
pub const AN_EFFORT: &str = "Whose effort it was, or of what kind";
pub const TAKEN_BACK: &str = "Something undone, or put back";
pub const A_NOTE: &str = "A note";
pub const A_DATE: &str = "A date";
pub const A_PLAN: &str = "A plan";
pub const KINDS: &str = "The kinds of effort";
pub const WISHES: &str = "What you wish of groups";
pub const TAGS: &str = "The tags of notes";
pub const QUESTIONS: &str = "Questions of a drill";
pub const TWO_CHILDREN: &str = "two children";
pub const TWO_PRACTICES: &str = "two practices";
pub const A_PRACTICE: &str = "a practice that is not here";
pub const ITS_NAME: &str = "its name";
pub const ITS_SKILL: &str = "what is practised";
pub const ITS_BOARD: &str = "how they stand";
pub const ITS_RULE: &str = "what it is played for";
pub const ITS_GOOD: &str = "what counts as good";
pub const ITS_FEED: &str = "which balls are given";
pub const ITS_FLOOR: &str = "who else is on the floor";

pub fn child_of(child: &str) -> String {
    format!("{child}, name or number")
}

pub fn place_of(child: &str) -> String {
    format!("{child}, in the squad or archived")
}

pub fn style_of(child: &str) -> String {
    format!("{child}, how it serves")
}

pub fn step_of(child: &str, drill: &str) -> String {
    format!("{child}, own step in “{drill}”")
}

pub fn drill_of(drill: &str) -> String {
    format!("The drill “{drill}”")
}

pub fn pair(one: &str, other: &str) -> String {
    format!("{one} and {other}")
}

pub fn practices(one: &str, other: &str) -> String {
    format!("Practice of {one} and of {other}")
}

pub fn one_practice(stays: &str) -> String {
    format!("one practice, that of {stays}")
}

pub fn one_child(stays: &str) -> String {
    format!("one child, called {stays}")
}

pub const fn child_away(archived: bool) -> &'static str {
    if archived { "archived" } else { "in the squad" }
}

pub const fn drill_away(archived: bool) -> &'static str {
    if archived { "archived" } else { "in use" }
}

pub const fn back(back: bool) -> &'static str {
    if back { "taken back" } else { "put back" }
}

pub const fn dropped(dropped: bool) -> &'static str {
    if dropped { "no practice" } else { "practice" }
}

pub const fn side(won: Side) -> &'static str {
    match won {
        Side::Near => "the near side",
        Side::Far => "the far side",
    }
}

/// `, 17:30`
pub fn hour(start_min: u16) -> String {
    format!(", {}:{:02}", start_min / 60, start_min % 60)
}

/// `6 parts in 90 minutes`
pub fn plan(n_parts: usize, gym_min: u16) -> String {
    format!("{} in {gym_min} minutes", plural(n_parts, "part", "parts"))
}

pub fn list(items: &[String]) -> String {
    if items.is_empty() { "none".to_owned() } else { items.join(", ") }
}
