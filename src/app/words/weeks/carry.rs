//! From drill to match, in words.

use super::{fewer_or_more, name};
use crate::app::words::counts::of;
use crate::domain::skill::Skill;
use crate::stats::proportion::Count;

pub const HEAD: &str = "From easy to challenge, from drill to match";
pub const MATCH_LINE: &str = "Matches of the last six weeks in which you noted serves or passes, perhaps not all of them. A ball in a match is harder than a tossed one.";
pub const WHAT_LINES: [&str; 2] = [
    "Balls that you judged in the last six weeks, all steps together; a pass is good from grade 2 on, a serve when it is in. What children scored themselves or told is left out.",
    "The range of the gap is Newcombe’s (1998, method 10), from two Wilson ranges; it holds in 95 of 100 cases. Under five balls of either nothing is said. A gap is no fault: challenge balls are there to be missed.",
];

/// `In matches 1 to 4 in 10 fewer are good.`
pub fn in_matches(low: f64, high: f64) -> String {
    match fewer_or_more(low, high) {
        Some(gap) => format!("In matches {gap} are good."),
        None => "Drill and match can’t be told apart yet.".to_owned(),
    }
}

/// `Serving: 14 of 20 in drills, 5 of 12 noted in matches`
pub fn counted(skill: &Skill, drill: Count, played: Count) -> String {
    format!("{}: {} in drills, {} noted in matches", name(skill), of(drill), of(played))
}
