//! What stands on the phone while children score themselves, and on the keys that lead there and back. Friendly to a child of nine.

use crate::domain::replay::part::CHECKED;

pub const OPEN: &str = "Children";
pub const OPEN_LABEL: &str = "Over to the children";
pub const OPEN_ALL: &str = "All of them";
/// Under the choice: what it means.
pub const OPEN_LINE: &str = "They score themselves. Hold the coach's key to get the board back.";
pub const TURN: &str = "Your turn";
/// Where no names are kept.
pub const SCORE: &str = "Score each ball";
pub const GOOD_ONE: &str = "A good one!";
pub const ALL: &str = "All together";
pub const NOBODY: &str = "Nobody is here";
pub const UNDO: &str = "Undo my last";
pub const LEAVE: &str = "Coach: hold";
pub const LEAVE_LABEL: &str = "For the coach: hold to end this";
/// The clock of the run stands: no ball counts.
pub const WAITS: &str = "A little pause: wait for the clock.";
pub const DONE: &str = "That's it! Bring the phone back.";
pub const SELF_SCORED: &str = "self-scored";

/// The coach's way to a station where ten balls are judged by both.
pub const CHECK: &str = "All, and I check ten";
pub const CHECK_LINE: &str = "To check: the child taps its ball, then you as you saw it.";
/// Over the keys while it is the coach's turn.
pub const COACH_SEES: &str = "Coach: what was it?";
pub const NOT_SEEN: &str = "Not seen";
pub const UNDO_CHECK: &str = "your look at a ball";

/// `3 of 10 checked`, at the end too: a longer line would move the keys.
pub fn checked(n: usize) -> String {
    format!("{n} of {CHECKED} checked")
}

/// `12 balls played; 3 of 10 checked`
pub fn and_checked(played: &str, n: usize) -> String {
    format!("{played}; {}", checked(n))
}

/// `12 balls played`: what was done, never how well.
pub fn played(n: u32) -> String {
    match n {
        0 => "your first ball".to_owned(),
        1 => "1 ball played".to_owned(),
        n => format!("{n} balls played"),
    }
}

/// Of a group that counts its good ones only.
pub fn good_together(n: u32) -> String {
    match n {
        0 => "tap for a good one".to_owned(),
        1 => "1 good one together".to_owned(),
        n => format!("{n} good ones together"),
    }
}

/// Whose ball undo takes back, and not what came of it.
pub fn undo(name: &str) -> String {
    format!("{UNDO} ({name})")
}

/// `8 of 12 self-scored`, where others scored the rest.
pub fn self_scored(count: &str) -> String {
    format!("{count} {SELF_SCORED}")
}

/// `14 of 20 while watched`
pub fn watched(count: &str) -> String {
    format!("{count} while watched")
}

/// `Watch Mira: 4 of 10`
pub fn watch(name: &str, n: u32, of: u32) -> String {
    format!("Watch {name}: {n} of {of}")
}

/// `ball 5 of 10`: the one that comes, on a phone that is propped up.
pub fn watched_so_far(n: u32, of: u32) -> String {
    format!("ball {} of {of}", n + 1)
}

/// `Spatz: 10 done`, until the next child's first ball.
pub fn ten_done(name: &str, n: u32) -> String {
    format!("{name}: {n} done")
}

/// `Spatz: 10 done. Your turn`, over the next one's name.
pub fn ten_and_turn(ten: &str) -> String {
    format!("{ten}. {TURN}")
}

/// Under what everyone did.
pub fn scored_by_children(n: u32) -> String {
    match n {
        1 => "1 of these balls was scored by a child itself.".to_owned(),
        n => format!("{n} of these balls were scored by the children themselves."),
    }
}
