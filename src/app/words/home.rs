//! The note home: effort first, own progress beside the own before, one question instead of a verdict with the name last. Says nothing of
//! what is less, nothing of anybody else, and no number without what it is of.

use super::{capital, counts, ladder, weeks};
use crate::app::home::MOST_DRAFTS;
use crate::domain::ids::Step;
use crate::domain::skill::{Feed, Skill};

pub const OPEN: &str = "A note home";
pub const OPEN_LINE: &str = "effort, own progress, a question";
pub const BACK: &str = "Back to the child";
pub const BAND: &str = "Volleyball practice";
pub const INTRO: &str = "Tap a sentence to change it; the cross leaves it out. Nothing goes before you send it.";
pub const OUT: &str = "Left out";
pub const LEAVE_OUT: &str = "Leave out";
pub const PUT_IN: &str = "Put in";
pub const DONE: &str = "Done";
pub const AS_COMPOSED: &str = "As it was";
pub const OTHER_QUESTION: &str = "Another question";
pub const OWN: &str = "Add words of your own";
pub const OWN_LABEL: &str = "Words of your own";
pub const CHANGE: &str = "Change";
pub const ANEW: &str = "Begin anew";
pub const WORKING: &str = "What has changed over weeks is being worked out.";
pub const NOTHING: &str = "Nothing to tell yet";
pub const NOTHING_LINE: &str = "Once the child was at a practice, a note can be made of it.";
pub const EMPTY: &str = "Every sentence is left out: nothing would go.";
pub const NOW_SAYS: &str = "Without your change it would say:";
pub const FOOT: &str = "Only what was tapped at practice is counted here; much that matters isn’t.";
pub const SEND: &str = "Out";
pub const SHARE_PICTURE: &str = "Share the picture";
pub const SAVE_PICTURE: &str = "Save the picture";
pub const SHARE_TEXT: &str = "Share the text";
pub const COPY_TEXT: &str = "Copy the text";
pub const PRINT: &str = "Print";
pub const COPIED: &str = "The text is copied. Paste it where it is to go.";
pub const SHARED: &str = "It was given to the app you chose.";
pub const NO_SHEET: &str = "this browser has no share sheet for that";
pub const HOW: &str = "What stands in it";
pub const HOW_LINES: [&str; 4] = [
    "Efforts are those you tapped in the last six weeks. A change is told only where it stands beside everyone else’s over weeks; what is less is told nowhere, for a note home is no place for it.",
    "Rows and steps are the child’s own against its own before. Balls are those the phone knows of.",
    "No other child is named: while a sentence has another’s name, nothing goes.",
    "Of the child only its nickname goes, and the date. What you change is kept on this phone alone.",
];

/// Questions for the way home, where nobody stands on a court.
pub const QUESTIONS: [&str; 5] = [
    "What did you try that was new, {name}?",
    "What was the most fun, {name}?",
    "What would you like to try next time, {name}?",
    "What did you notice about the ball, {name}?",
    "What helped you most, {name}?",
];

/// `Effort was noticed 3 times in the last six weeks: dived, ran for it.`
pub fn efforts(n: u32, kinds: &[String]) -> String {
    let such = if kinds.is_empty() { String::new() } else { format!(": {}", kinds.join(", ")) };
    match n {
        // How seldom is no news for a family.
        1 => format!("Effort was noticed{such}."),
        n => format!("Effort was noticed {} in the last six weeks{such}.", super::notes::times(n)),
    }
}

/// Being there is one. Of none nothing is said: there may have been no practice, and what is less is told nowhere.
pub fn was_there(name: &str, n: usize) -> Option<String> {
    match n {
        0 => None,
        1 => Some(format!("{name} was at practice once in the last six weeks.")),
        n => Some(format!("{name} was at {n} practices in the last six weeks.")),
    }
}

/// `Passing, tossed: about 2 in 10 more are good than on 3 September.`
pub fn more(kind: &str, since: &str, likely: f64) -> String {
    let more = match (likely.abs() * 10.0).round() {
        n if n < 1.0 => "a little more".to_owned(),
        n => format!("about {n} in 10 more"),
    };
    format!("{kind}: {more} are good than on {since}, by the balls of all these weeks.")
}

/// `Serving: from 6 m since 12 November; before it was from 4.5 m.` The day is left out where such balls were played before, now and then.
pub fn step(skill: &Skill, now: Step, before: Step, since: Option<&str>) -> String {
    let name = skill_name(skill);
    match skill {
        Skill::Own(_) => {
            let since = since.map_or_else(String::new, |since| format!(", since {since}"));
            format!("{name}: a ball that asks for more than before{since}.")
        }
        _ => {
            let (now, before) = (ladder::from(skill, now), ladder::from(skill, before));
            let since = since.map_or_else(|| "now".to_owned(), |since| format!("since {since}"));
            format!("{name}: {now} {since}; before it was {before}.")
        }
    }
}

/// `Passing: 7 good ones in a row, the longest so far.` A row and no progress: more balls make longer ones.
pub fn row(skill: &Skill, now: u32) -> String {
    format!("{}: {now} good ones in a row, the longest so far.", skill_name(skill))
}

/// `124 balls were practised that the phone knows of: Passing and Serving.`
pub fn practised(n: u32, skills: &[String]) -> String {
    let skills: Vec<String> = skills.iter().map(|skill| capital(skill)).collect();
    let of = if skills.is_empty() { String::new() } else { format!(": {}", super::fair::and(&skills)) };
    let (balls, were) = if n == 1 { ("1 ball".to_owned(), "was") } else { (format!("{n} balls"), "were") };
    format!("{balls} {were} practised in these weeks that the phone knows of{of}.")
}

/// As it stands in a list.
pub fn skill_in_list(skill: &Skill) -> String {
    match skill {
        Skill::Pass => "passing".to_owned(),
        Skill::Serve => "serving".to_owned(),
        Skill::Own(name) => name.clone(),
    }
}

fn skill_name(skill: &Skill) -> String {
    capital(&skill_in_list(skill))
}

pub fn kind(skill: &Skill, feed: Feed, by_one_line: bool) -> String {
    weeks::kind(skill, feed, by_one_line)
}

pub fn question(said: &str) -> String {
    format!("To ask on the way home: “{said}”")
}

pub fn title(name: &str) -> String {
    format!("A note home: {name}")
}

pub fn date(day: chrono::NaiveDate) -> String {
    counts::day(day, chrono::NaiveDate::MIN)
}

/// `Another child is named (Tove). Until that is changed or left out, nothing goes.`
pub fn named(names: &[String]) -> String {
    format!("Another child is named ({}). Until that is changed or left out, nothing goes.", names.join(", "))
}

pub fn saved(name: &str) -> String {
    format!("The picture was given to the browser to save: {name}.")
}

pub fn not_gone(why: &str) -> String {
    format!("It could not be done: {why}.")
}

/// `The phone keeps your words for 60 notes: those for Mira, the oldest, are gone.`
pub fn dropped(name: &str) -> String {
    format!("The phone keeps your words for {MOST_DRAFTS} notes: those for {name}, the oldest, are gone.")
}

/// `The note of Mira: The text is copied. Paste it where it is to go.` On another child's screen.
pub fn answer_of(name: &str, answer: &str) -> String {
    format!("The note of {name}: {answer}")
}

/// The whole as a text.
pub fn text(name: &str, date: &str, lines: &[String]) -> String {
    format!("{BAND}: {name}\n{date}\n\n{}\n\n{FOOT}", lines.join("\n"))
}
