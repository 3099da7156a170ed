//! A drill over the weeks, in words.

use crate::app::words::counts::plural;

pub const OPEN: &str = "Over the weeks";
/// On a small key.
pub const SHORT: &str = "Weeks";
pub const NOTHING: &str = "Not played yet";
pub const NOTHING_LINE: &str =
    "Once it was played, this page shows every run: how many were good, with which balls, what all reached together.";
pub const RUNS: &str = "Run by run";
pub const BALLS: &str = "With which balls";
pub const TOGETHER: &str = "Together";
pub const TO_DRILLS: &str = "Back to my drills";
pub const GOOD: &str = "good";
pub const BALL: &str = "ball";
pub const REACHED: &str = "reached";
pub const WHAT: &str = "What this is";
pub const WHAT_LINES: [&str; 3] = [
    "A ball is a run, larger with more balls in it; the thin bar is where the true share lies, in 95 of 100 cases (Wilson 1927). A hollow ring: mostly challenge balls.",
    "Good is what the drill called good at that run. Runs differ in who was there and how hard the ball was, so a run that is lower may be a harder one: compare runs with the same ball.",
    "Together-best is compared only among runs by the same rule and of as many balls as the last one.",
];

/// `9 runs since 3 September.`
pub fn runs(n: usize, since: Option<&str>) -> String {
    match since {
        None => NOTHING.to_owned(),
        Some(day) if n == 1 => format!("One run, on {day}."),
        Some(day) => format!("{n} runs since {day}."),
    }
}

/// `41 of 60, about 6 to 8 in 10; from 6 m.`
pub fn says(counted: &str, ball: &str) -> String {
    if ball.is_empty() { format!("{counted}.") } else { format!("{counted}; {ball}.") }
}

pub fn rallies(n: u32) -> String {
    plural(n as usize, "rally", "rallies")
}

/// Good ones where the others aren't counted.
pub fn counted(n: u32) -> String {
    format!("{n} good, the others not counted")
}

/// `served easy`, `served easy, challenge`, or both in one run.
pub fn ball(ball: &str, easy: bool, challenge: bool) -> String {
    match (easy, challenge) {
        (true, true) => format!("{ball}, easy and challenge"),
        (false, true) => format!("{ball}, challenge"),
        _ => ball.to_owned(),
    }
}

/// `4 runs: 120 of 160, about 7 to 8 in 10`
pub fn of_runs(n: usize, rate: &str) -> String {
    format!("{}: {rate}", plural(n, "run", "runs"))
}

/// `Best so far: 14 in a row together.`
pub fn together(best: u32, row: bool, balls: Option<u16>) -> String {
    match (row, balls) {
        (true, _) => format!("Best so far: {best} in a row together."),
        (false, Some(of)) => format!("Best so far: {best} of {of} together."),
        (false, None) => format!("Best so far: {best} together."),
    }
}

/// For those who can't see it.
pub fn chart(name: &str, first: &str, last: &str) -> String {
    format!("{name}, run by run, from {first} to {last}")
}

pub fn together_columns(n: usize) -> String {
    format!("What all reached together in {}", plural(n, "run", "runs"))
}
