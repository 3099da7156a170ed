//! Sentences of notes and of questions asked. A tag describes what was seen or praises an effort; what is said of who wasn't asked for
//! a while is a thing to do, never a fault of the child.

use super::counts::plural;

/// Tags to begin with, until the coach has changed them.
pub const TAGS: [&str; 7] =
    ["talked", "brave swing", "kept going", "helped a teammate", "a good idea", "tired", "ask next time"];

/// Questions that fit any drill, for one that has none of its own.
pub const QUESTIONS: [&str; 4] = [
    "What did you look at, {name}?",
    "What will you try on the next ball, {name}?",
    "What helped you there, {name}?",
    "What could your partner do for you, {name}?",
];

/// Longest text that is typed, in characters; a file may bring ten times that.
pub const MOST_WORDS: usize = 2_000;

pub const NOTE: &str = "Note";
pub const NOTE_LABEL: &str = "Write a note";
pub const ASK: &str = "Ask";
pub const ASK_LABEL: &str = "Ask somebody a question";
pub const WHOM: &str = "Note: about whom?";
pub const ABOUT: &str = "Whom it is about";
pub const ABOUT_ALL: &str = "What it is about";
pub const TAGS_LABEL: &str = "Tags";
pub const WORDS: &str = "Words";
pub const WORDS_LABEL: &str = "Words of the note";
pub const WORDS_HINT: &str = "Type, or use the keyboard's microphone.";
pub const WORDS_KEEP: &str = "Keep the words";
pub const TO_TAGS: &str = "Tags";
pub const WHOM_FIRST: &str = "First tap whom or what it is about, then a tag.";
pub const THEN_TAG: &str = "A tag keeps it. Tap more of them, or the same again to take it off.";
pub const PRIVATE: &str =
    "Notes are for you: no board that children see shows them. A copy of everything holds them too.";
pub const UNDO: &str = "Undo";
pub const PUT_BACK: &str = "Put back";
pub const WHOLE_PRACTICE: &str = "Practice";
pub const WHOLE_PRACTICE_LONG: &str = "The practice";

pub const ASK_TITLE: &str = "A question";
pub const ASKED: &str = "Asked";
pub const ASK_NEXT: &str = "Ask another";
pub const OTHER_QUESTION: &str = "Other question";
pub const OTHER_CHILD: &str = "Other child";
pub const NOBODY: &str = "Nobody is here to be asked.";
pub const ASK_HOW: &str = "The question first, the name last: until it falls everyone listens.";
pub const ANSWER: &str = "What came of it, if you like:";
pub const OWN_HEAD: &str = "Questions of your own";
pub const OWN_NEW: &str = "New question";
pub const OWN_HINT: &str = "The name is said at the end.";
pub const OWN_OF_DRILL: &str = "For this drill";
pub const OWN_OF_ANY: &str = "For any drill";
pub const OWN_NONE: &str = "None yet.";
pub const ASK_THIS: &str = "Ask this";
pub const ASK_DRILL: &str = "Questions of this drill";
pub const BACK_THERE: &str = "Back";

pub const ALL: &str = "Notes and questions";
pub const ALL_LINE: &str = "All of them, by child, practice and tag";
pub const EMPTY: &str = "No notes yet";
pub const EMPTY_LINE: &str = "On a board “Note” and a tag are two taps; between drills it is under Today.";
pub const NONE_SUCH: &str = "None of these.";
pub const EVERYONE: &str = "All";
pub const BY_CHILD: &str = "Of one child";
pub const BY_TAG: &str = "With one tag";
pub const BETWEEN: &str = "Between practices";
pub const TAGS_HEAD: &str = "Your tags";
pub const TAGS_LINE: &str = "What you see, in your own words. A note that is written keeps the word it was given.";
pub const TAG_NEW: &str = "New tag";
pub const TAG_OTHER: &str = "New word for it";
pub const ADD: &str = "Add";
pub const CHANGE: &str = "Change";
pub const REMOVE: &str = "Remove";
pub const BACK: &str = "Back to all notes";
pub const REMARK_NOTE: &str = "A note";
pub const REMARK_ASKED: &str = "A question asked";
pub const KEEP: &str = "Keep";
pub const TOO_LONG: &str = "This note is longer than a copy can hold. Make it shorter, then keep it.";
pub const TAKE_BACK: &str = "Take it back";
pub const IS_TAKEN_BACK: &str = "Taken back: it stands in no list.";

pub const HEARD: &str = "Asked and noted";
pub const HEARD_LINE: &str = "Who was asked, and who comes next";
pub const HEARD_NOBODY: &str =
    "Nobody was asked yet. On a board it is “Note”, then “Ask”; between drills “Ask” under Today.";
pub const HEARD_ALL: &str = "Everyone was asked at one of the last two practices they were at.";
pub const HEARD_HINT: &str =
    "In the order of the squad. How often somebody was asked says nothing of how well they play.";
pub const ADD_NOTE: &str = "Add a note";

pub fn note_of(who: &str) -> String {
    format!("Note: {who}")
}

pub fn group(at: usize) -> String {
    format!("Group {}", at + 1)
}

pub fn part(title: &str) -> String {
    format!("Part: {title}")
}

pub fn drill(name: &str) -> String {
    format!("Drill: {name}")
}

/// `talked, brave swing`, `talked: “Called every ball.”`
pub fn what(tags: &[String], text: &str) -> String {
    let tags = tags.join(", ");
    match (tags.is_empty(), text.is_empty()) {
        (_, true) => tags,
        (true, false) => format!("“{text}”"),
        (false, false) => format!("{tags}: “{text}”"),
    }
}

/// `Noted: Mira, brave swing.`
pub fn noted(who: &str, what: &str, taken_back: bool) -> String {
    let how = if taken_back { "Taken back" } else { "Noted" };
    let end = if what.ends_with('”') { "" } else { "." };
    format!("{how}: {who}, {what}{end}")
}

/// Words that found no room on the note before them.
pub fn anew(noted: &str) -> String {
    format!("The note before is full, so this is a new one. {noted}")
}

pub fn asked(who: &str, taken_back: bool) -> String {
    if taken_back { format!("Taken back: {who} counts as not asked.") } else { format!("Asked: {who}.") }
}

/// Whose turn it is, and why: `Mira: not asked yet, here 3 times.`
pub fn why(name: &str, n_asked: u32, n_here: u32, last: Option<&str>) -> String {
    let here = plural(n_here as usize, "practice", "practices");
    match (n_asked, last) {
        (0, _) => format!("{name} was not asked yet, in {here}."),
        (n, Some(day)) => format!("{name} was asked {} in {here}, last on {day}.", times(n)),
        (n, None) => format!("{name} was asked {} in {here}.", times(n)),
    }
}

/// `once`, `twice`, `5 times`
pub fn times(n: u32) -> String {
    match n {
        1 => "once".to_owned(),
        2 => "twice".to_owned(),
        n => format!("{n} times"),
    }
}

/// `Not asked for 3 practices: Mira, Ilo.`
pub fn not_asked(n: usize, names: &[String]) -> String {
    format!("Not asked for {}: {}.", plural(n, "practice", "practices"), names.join(", "))
}

/// While it is early in a season.
pub fn never_asked(names: &[String]) -> String {
    format!("Not asked yet: {}.", names.join(", "))
}

/// Of children who were here and of whom nothing is known but that.
pub fn unheard(names: &[String]) -> String {
    format!("Neither asked, noted nor seen making an effort in four weeks: {}.", names.join(", "))
}

/// `Asked twice in four weeks, last on Tuesday 24 November; 5 times in all.`
pub fn child_asked(n_lately: u32, n_all: u32, last: Option<&str>) -> String {
    let last = last.map(|day| format!(", last on {day}")).unwrap_or_default();
    match (n_lately, n_all) {
        (_, 0) => "Not asked yet.".to_owned(),
        (0, n) => format!("Not asked in four weeks{last}; {} in all.", times(n)),
        (lately, n) if lately == n => format!("Asked {} in four weeks{last}.", times(lately)),
        (lately, n) => format!("Asked {} in four weeks{last}; {} in all.", times(lately), times(n)),
    }
}

/// `3 notes, effort noticed twice; at 7 of 8 practices.`
pub fn child_seen(n_notes: usize, n_efforts: u32, n_here: usize, n_practices: usize) -> String {
    let notes = plural(n_notes, "note", "notes");
    let seen = match (n_notes, n_efforts) {
        (0, 0) => "Nothing noted".to_owned(),
        (0, efforts) => format!("Effort noticed {}", times(efforts)),
        (_, 0) => notes,
        (_, efforts) => format!("{notes}, effort noticed {}", times(efforts)),
    };
    format!("{seen}; at {n_here} of {}.", plural(n_practices, "practice", "practices"))
}

/// What the lines under it are of: `8 practices in four weeks, 24 in all`
pub fn spans(n_lately: usize, n_all: usize) -> String {
    format!("{} in four weeks, {n_all} in all", plural(n_lately, "practice", "practices"))
}

/// How a question stands in a list.
pub fn question(who: &str) -> String {
    format!("Asked {who}")
}
