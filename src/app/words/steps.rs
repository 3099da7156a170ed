//! Another ball, in words: of the group where children read it, and never that it should be easier; child by child for the coach alone.

use super::ladder;
use crate::domain::ids::Step;
use crate::domain::skill::{FeedKind, Skill};

pub const HEAD: &str = "Another ball?";
pub const LINE: &str = "For you alone. A step changes only where you tap it.";
pub const TOGETHER: &str = "All together";
pub const HOW: &str = "When this is said, and how often it errs";
pub const LINES_HEAD: &str = "Goals and steps";
pub const UPPER: &str = "A harder ball: over";
pub const LOWER: &str = "An easier ball: under";
pub const WISH: &str = "A goal is reached in";
pub const LINES: &str = "Your lines";
pub const LINES_LINE: &str = "over and under which another ball is spoken of";
pub const WORKING: &str = "Being worked out …";

/// What the help says.
pub const HOW_LINES: [&str; 5] = [
    "It is looked at when a run ends, and on a board when it pauses after ten more balls; never in between. From all the squad’s balls of the kind over the weeks, each child’s own weighing most.",
    "Said only where it is 90 in 100 sure that a level is over your upper line or under your lower one. Between them nothing is said: it is right as it is, or not known.",
    "How often that errs, looked at after each of twenty tens, of 150 simulated children a case: five points under the upper line 1 was called ready at least once, ten points under none, on the line itself 17. Five points over the lower line 2 were called for an easier ball, ten points over none.",
    "Sources, cited from memory: practice to a criterion of success did better than practice without one in volleyball (French and others 1991); how hard a task should be depends on who learns it (Guadagnoli and Lee 2004); in models of learning about 85 in 100 is where it is fastest (Wilson and others 2019). The lines of 80 and 50 are a choice of ours; they are yours to change.",
    "All together are looked at by their balls as if these were one’s, where all had the same ball. Of 150 simulated groups of eight five points under the upper line 4 were called ready at least once, ten points under 2, on the line itself 20.",
];

pub fn not_worked(why: &str) -> String {
    format!("Whether another ball would fit could not be worked out. {why}")
}

/// Which balls it is about, where there are two kinds: ` easy balls`, ` challenge balls`
pub const fn kind(in_rounds: bool, kind: FeedKind) -> &'static str {
    match (in_rounds, kind) {
        (_, FeedKind::Challenge) => " challenge balls",
        (true, FeedKind::Easy) => " easy balls",
        (false, FeedKind::Easy) => "",
    }
}

/// A goal for everyone, of as many balls as this time: `Next time for all: 26 good of 40 balls, about 7 in 10 times.`
pub fn next_for_all(goal: u32, n: u32, chance: f64) -> String {
    format!("Next time for all: {goal} good of {n} balls, {}.", super::goals::often(chance))
}

/// On the board.
pub fn board(sure: f64, upper: u8, kind: &str) -> String {
    format!("Ready for a harder ball? {} that {}{kind} are good.", likely(sure), line(upper))
}

/// `Ready for a harder ball. 8 in 10 or more are good: likely (9 in 10).`
pub fn harder(sure: f64, upper: u8, kind: &str) -> String {
    format!("Ready for a harder ball. {} or more{kind} are good: {}.", line(upper), sure_words(sure))
}

pub fn easier(sure: f64, lower: u8, kind: &str) -> String {
    format!("An easier ball would let more succeed. Fewer than {}{kind} are good: {}.", line(lower), sure_words(sure))
}

/// On the key that gives another step: `Next time from 6 m`
pub fn give(skill: &Skill, step: Step) -> String {
    format!("Next time {}", ladder::from(skill, step))
}

pub fn given(skill: &Skill, step: Step) -> String {
    format!("From now on {}.", ladder::from(skill, step))
}

pub fn back(skill: &Skill, step: Step) -> String {
    format!("Back to {}", ladder::step(skill, step))
}

/// Where nothing is easier, or harder.
pub const NO_HARDER: &str = "The ladder ends here: a game, or a smaller target, is harder still.";
pub const NO_EASIER: &str = "Nothing on the ladder is easier: a larger target, or fewer at once, may be.";

fn likely(sure: f64) -> String {
    match (sure * 10.0).round() {
        n if n > 9.0 => "Nearly sure".to_owned(),
        n => format!("Likely ({n} in 10)"),
    }
}

fn sure_words(sure: f64) -> String {
    match (sure * 10.0).round() {
        n if n > 9.0 => "nearly sure".to_owned(),
        n => format!("likely ({n} in 10)"),
    }
}

/// `8 in 10`, `85 in 100`
fn line(hundredths: u8) -> String {
    if hundredths.is_multiple_of(10) { format!("{} in 10", hundredths / 10) } else { format!("{hundredths} in 100") }
}

/// `80 %`
pub fn percent(hundredths: u8) -> String {
    format!("{hundredths} %")
}
