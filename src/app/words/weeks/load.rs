//! Swings and jumps that were noted, in words, with the usual caution.

use crate::app::words::counts::plural;

pub const HEAD: &str = "Shoulder and knees: overhead swings and jumps of serves";
/// Of everyone, behind a tap.
pub const SQUAD: &str = "Overhead swings this week, everyone";
pub const SQUAD_NONE: &str = "None noted this week.";
pub const BY_WEEK: &str = "Week by week";
pub const NOTED: &str = "noted";
pub const CAUTION: &str = "Shoulders and knees are still growing. Pain: stop, and tell a grown-up. Local rules and qualified staff come before any number here.";
pub const WHAT_LINES: [&str; 2] = [
    "Serves that were tapped with a standing overhead or a jump style, in drills and in matches, and missed ones of a known server; of underhand and roundhouse serves nothing is claimed. Hits, throws, warming up and what happens elsewhere is noted nowhere, so there were at least as many, often far more.",
    "There is no limit here and none is meant: how much is too much for a child is for those who know it to say. Common practice, no source.",
];

/// `at least 12 overhead swings, 3 of them with a jump`
pub fn noted(swings: u32, jumps: u32) -> String {
    match (swings, jumps) {
        (0, _) => "none noted".to_owned(),
        (n, 0) => format!("at least {}", swings_of(n)),
        (n, jumps) => format!("at least {}, {jumps} of them with a jump", swings_of(n)),
    }
}

pub fn none(n_weeks: i32) -> String {
    format!("No overhead swing noted in {n_weeks} weeks.")
}

pub fn at_practice(when: &str, swings: u32, jumps: u32) -> String {
    format!("Last practice, {when}: {}.", noted(swings, jumps))
}

pub fn in_week(swings: u32, jumps: u32) -> String {
    format!("This week: {}.", noted(swings, jumps))
}

/// For those who can't see it.
pub fn columns(n_weeks: i32) -> String {
    format!("Overhead swings noted, week by week, {n_weeks} weeks; the darker part with a jump")
}

fn swings_of(n: u32) -> String {
    plural(n as usize, "overhead swing", "overhead swings")
}
