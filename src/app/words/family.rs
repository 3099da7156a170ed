//! One child's own data, for its family.

use super::counts::{plural, share};
use super::ladder;
use crate::domain::skill::{Feed, FeedKind, Outcome, PassGrade, ServeOutcome, Skill};
use crate::domain::summary::Counts;
use crate::domain::touches::Touches;
use crate::stats::proportion::Count;

pub const ABOUT: &str = "How to read this. Somebody tapped these balls on a phone while they were played, so at least as many were played. “Good” is what the coach called good in that drill. Ten balls say little: “about 4 to 9 in 10” says how little. Who served, tossed, caught or fetched is told by where the children stood. The app puts no other child in this page: a drill whose name would do so is called “a drill”. What coaches write for themselves isn’t in it either.";
/// Heads of the page's table.
pub const DRILLS: [&str; 2] = ["Drill", "What was counted"];
/// Heads of the table of one child's balls.
pub const BALLS: [&str; 8] = ["Child", "Day", "Time", "Drill", "Ball", "What came of it", "Good?", "Judged by"];
pub const A_DRILL: &str = "A drill";
pub const OPEN: &str = "Whose";
pub const EVERYONE: &str = "Everyone";

pub fn title(name: &str) -> String {
    format!("{name}: what was counted")
}

pub fn what(name: &str, n_practices: usize, written: &str) -> String {
    match n_practices {
        0 => format!("Nothing of {name} was counted in this time. Written {written}."),
        n => format!("What was counted of {name} in {}. Written {written}.", plural(n, "practice", "practices")),
    }
}

/// `3 of 5 balls were good: about 3 to 9 in 10.`, of easy and harder balls a sentence each.
pub fn counted(counts: &Counts) -> String {
    let one = |(kind, count): &(Option<FeedKind>, Count)| {
        let balls = match kind {
            None => plural(count.tries() as usize, "ball", "balls"),
            Some(FeedKind::Easy) => plural(count.tries() as usize, "easy ball", "easy balls"),
            Some(FeedKind::Challenge) => plural(count.tries() as usize, "harder ball", "harder balls"),
        };
        let were = if count.tries() == 1 { "was" } else { "were" };
        format!("{} of {balls} {were} good: {}.", count.good(), share(*count))
    };
    if counts.tries() == 0 {
        return format!(
            "{}; how many weren’t was not counted.",
            plural(counts.n_counted as usize, "good ball", "good balls")
        );
    }
    counts.apart().iter().filter(|(_, count)| count.tries() > 0).map(one).collect::<Vec<_>>().join(" ")
}

/// `Played 18 balls in all. For the others: 4 served or tossed, 2 caught.` Balls are told where they are more than those judged above.
pub fn touches(touches: Touches, n_noted: u32) -> Vec<String> {
    let played = (touches.judged > n_noted)
        .then(|| format!("Played {} in all.", plural(touches.judged as usize, "ball", "balls")));
    let others = [(touches.fed, "served or tossed"), (touches.caught, "caught"), (touches.fetched, "fetched")];
    let others: Vec<String> = others.iter().filter(|(n, _)| *n > 0).map(|(n, word)| format!("{n} {word}")).collect();
    let others = (!others.is_empty()).then(|| format!("For the others: {}.", others.join(", ")));
    played.into_iter().chain(others).collect()
}

/// What ball it was: `served hard`, `harder, from 6 m`; `easy, tossed` in a drill that has both.
pub fn ball(skill: &Skill, feed: Feed, has_both: bool) -> String {
    let kind = match feed.kind {
        FeedKind::Challenge => Some("harder"),
        FeedKind::Easy => has_both.then_some("easy"),
    };
    let step = ladder::open(skill, feed.step).map(|_| ladder::from(skill, feed.step));
    let all: Vec<String> = kind.map(str::to_owned).into_iter().chain(step).collect();
    all.join(", ")
}

/// What came of a ball, for somebody who doesn't know the coach's numbers.
pub fn came(outcome: Outcome) -> String {
    let (what, more) = match outcome {
        Outcome::Pass { grade, over_net } => (passed(grade), if over_net { ", over the net" } else { "" }),
        Outcome::Serve { outcome, fast } => (served(outcome), if fast { ", with a fast swing" } else { "" }),
        Outcome::ServeMissed => ("no ball came: the serve missed", ""),
        Outcome::TwoKey { good: true } | Outcome::Counted => ("good", ""),
        Outcome::TwoKey { good: false } => ("not good this time", ""),
        Outcome::NoChance => ("nobody could have played it", ""),
        // Such a ball is nobody's.
        Outcome::Removed => ("", ""),
    };
    format!("{what}{more}")
}

const fn passed(grade: PassGrade) -> &'static str {
    match grade {
        PassGrade::Stood => "passed so that the catcher could stand still",
        PassGrade::Moved => "passed so that the catcher had to move",
        PassGrade::Chased => "passed so that somebody had to run for it",
        PassGrade::Gone => "the pass got away",
    }
}

const fn served(outcome: ServeOutcome) -> &'static str {
    match outcome {
        ServeOutcome::Ace => "served in, and nobody could play it",
        ServeOutcome::In => "served in",
        ServeOutcome::Long => "served too long",
        ServeOutcome::Wide => "served too wide",
        ServeOutcome::Net => "served into the net",
    }
}

/// Empty where it was nobody's try.
pub const fn good(judged: Option<bool>) -> &'static str {
    match judged {
        Some(true) => "yes",
        Some(false) => "no",
        None => "",
    }
}

pub const fn seen_by(self_scored: bool) -> &'static str {
    if self_scored { "the child" } else { "the coach" }
}

/// `Effort noticed 3 times: dived, ran for it.`
pub fn efforts(kinds: &[Option<String>]) -> String {
    let mut named: Vec<&str> = Vec::new();
    for kind in kinds.iter().flatten() {
        if !named.contains(&kind.as_str()) {
            named.push(kind);
        }
    }
    let times = match kinds.len() {
        1 => "once".to_owned(),
        2 => "twice".to_owned(),
        n => format!("{n} times"),
    };
    if named.is_empty() {
        format!("Effort noticed {times}.")
    } else {
        format!("Effort noticed {times}: {}.", named.join(", "))
    }
}
