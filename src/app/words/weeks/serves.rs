//! A child's serves over the months, in words.

use crate::app::words::counts;
use crate::domain::skill::ServeStyle;

pub const ORDER: &str =
    "From the left: in, long, wide, net; the fuller, the better. Long is the better miss, net the worst.";
pub const UP: &str = "more in";
pub const RIGHT: &str = "more fast swings";
pub const BY_MONTH: &str = "Month by month";
pub const BY_STYLE: &str = "By style";
pub const BY_DISTANCE: &str = "By distance";
pub const NO_STYLE: &str = "style not noted";
pub const WHAT_LINES: [&str; 2] = [
    "Serves of drills that were tapped by where they went, an ace among those in; matches and told numbers are left out. A swing is fast where you marked it, so there were at least as many. That long is the better miss and net the worst is common practice, no source.",
    "Each number on the path is a month of five serves or more: to the right with more fast swings, up with more in. The thin line is how sure the share in is, in 95 of 100 cases (Wilson 1927). A swing that gets faster first loses balls and finds them again, so a path that goes right, then up, is a good one.",
];

pub fn style(style: Option<ServeStyle>) -> String {
    style.map_or(NO_STYLE, counts::style).to_owned()
}

/// `October 2026: at least 13 of 38 fast, 25 in`
pub fn stop(month: &str, n_fast: u32, n_in: u32, n: u32) -> String {
    format!("{month}: at least {n_fast} of {n} fast, {n_in} in")
}

/// For those who can't see it.
pub fn path(stops: &[String]) -> String {
    format!("Path from month to month. {}", stops.join("; "))
}
