//! A child removed for good: what that does, what it can't do, and what a file says that brings it.

use super::counts::plural;
use super::groups::and;

pub const ASK: &str = "Remove for good";
pub const ASK_LINE: &str =
    "Takes all that was ever noted of this child out of the app. To put a child aside, archive it instead.";
pub const NO: &str = "Keep this child";
pub const WAITS: &str = "A drill is on. Finish it first, then come back.";

pub const GOES: &str = "Goes";
pub const GOES_LINE: &str = "Name, number, every ball and told count, when here, notes, questions.";
pub const STAYS: &str = "Stays";
pub const STAYS_LINE: &str = "The others’ balls; titles and plans you wrote, even with the name in them.";
pub const NEVER: &str = "For ever";
pub const NEVER_LINE: &str = "No undo, and no file brings it back here.";
pub const MORE: &str = "Copies, notes and what else to know";

pub fn head(name: &str) -> String {
    format!("Remove {name} for good?")
}

/// The names, with their numbers, by which the same child was entered besides.
pub fn also(names: &[String]) -> Option<String> {
    (!names.is_empty())
        .then(|| format!("Also entered as {}: it is the same child here, and all of it goes.", and(names)))
}

/// Notes that go along.
pub fn notes(n_about: usize, n_naming: usize) -> Option<String> {
    let about = (n_about > 0).then(|| plural(n_about, "note about the child goes", "notes about the child go"));
    let naming = (n_naming > 0).then(|| {
        plural(n_naming, "other note has the name in it and goes", "other notes have the name in them and go")
    });
    let all: Vec<String> = about.into_iter().chain(naming).collect();
    (!all.is_empty()).then(|| format!("{} whole.", all.join("; ")))
}

pub const EARLIER: &str =
    "Notes that had the name in them before they were changed or taken back go too, and half-typed words with it.";
pub const OTHERS: &str =
    "The others keep theirs. Scores and totals are counted again without this child; of games the points stay.";
pub const COPIES: &str = "Copies sent from now on hold nothing of the child and carry the removal: a phone that takes one in removes the child too. Files and phones with an earlier copy keep it until then.";
pub const LEFT: &str = "What you wrote elsewhere stays as you wrote it, also with the name in it: titles of practices, plans and dates, places, drills, tags, questions, kinds of effort, names of phones. Change it yourself; what it said before stays in copies.";
pub const LATER: &str = "A file from before may bring a note of another child with the name in it: by then the app no longer knows the name. The phone's disk may hold remnants until the browser uses that space again.";

/// What can't be read and may say something of anybody.
pub fn aside(n: usize) -> Option<String> {
    let what = || plural(n, "thing that could not be read lies", "things that could not be read lie");
    (n > 0).then(|| format!("{} set aside, untouched: whether the child is in it nobody can tell.", what()))
}

pub fn hold(name: &str) -> String {
    format!("Hold to remove {name} for good")
}

/// What a file does that removes children who are here.
pub fn comes_with(names: &[String]) -> Option<String> {
    (!names.is_empty()).then(|| {
        format!("It removes {} for good, here too, and notes that have the name in them. That stays, also where the file is taken back.", names.join(", "))
    })
}
