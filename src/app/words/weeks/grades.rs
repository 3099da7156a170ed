//! Pass grades over the months, in words.

use crate::app::words::counts::{grade, plural};
use crate::domain::skill::PassGrade;

pub const HEAD: &str = "How the target stood";
pub const LINE: &str = "Passes of drills by grade, 3 2 1 0 from the left: the fuller, the better.";
pub const MEAN: &str = "The mean, if you need one";
pub const MEAN_LINE: &str = "A mean takes the step from 0 to 1 for as large as that from 2 to 3. Grades are an order and no measure, so it can rise while fewer balls are playable. The shares above tell more.";
pub const WHAT_LINES: [&str; 1] = [
    "Every graded pass of a drill, whatever the ball; told numbers, passes by two keys and matches are left out. Shares of one month: with twenty passes each may be off by 2 in 10 by chance alone (Wilson 1927).",
];

/// `42 passes: 12 stood, 15 moved, 9 chased, 6 gone`
pub fn passes(parts: [u32; 4]) -> String {
    let n: u32 = parts.iter().fold(0, |sum, n| sum.saturating_add(*n));
    let told: Vec<String> = PassGrade::ALL
        .iter()
        .zip(parts)
        .filter(|(_, n)| *n > 0)
        .map(|(which, n)| format!("{n}\u{a0}{}", grade(*which)))
        .collect();
    format!("{}: {}", plural(n as usize, "pass", "passes"), told.join(", "))
}

pub fn mean(mean: f64) -> String {
    format!("{mean:.1}")
}
