//! Rows of good ones over the practices, in words.

use crate::app::words::counts::plural;

pub const HEAD: &str = "Longest rows";
pub const BY_DAY: &str = "Practice by practice";
pub const IN_A_ROW: &str = "in a row";
pub const WHAT_LINES: [&str; 2] = [
    "The longest row of good ones within one run of a drill, of easy or of challenge balls, at each of the last twelve practices. More balls, and easier ones, make longer rows.",
    "A row isn’t called hot here. Whether balls after a row are better than others is hard to tell from a short list: the share of good ones right after a row comes out too low even for a fair coin, because the row itself was picked out of the list (Miller and Sanjurjo 2018, Econometrica 86:2019). So neither “hot” nor “no such thing” can be read from one child’s evening.",
];

pub fn longest(best: u32, day: &str) -> String {
    match best {
        0 | 1 => "No two good ones in a row yet.".to_owned(),
        n => format!("Its longest: {n} in a row, on {day}."),
    }
}

/// In the table.
pub fn row(n: u32) -> String {
    match n {
        0 => "none good".to_owned(),
        n => n.to_string(),
    }
}

/// For those who can't see it.
pub fn columns(n: usize) -> String {
    format!("The longest row at each of {}", plural(n, "practice", "practices"))
}
