//! Labels of the board and of the app's frame.

use super::counts::plural;
use crate::app::screen::Tab;
use crate::app::view::board::{Cover, Pip, SavedView};
use crate::domain::ids::Step;
use crate::domain::skill::Skill;

pub const FINISH: &str = "Finish";
pub const LIST: &str = "List";
pub const LIST_LABEL: &str = "List of contacts, to correct";
pub const SWAP: &str = "Swap";
pub const TURN_ROUND: &str = "Turn";
pub const TURN_ROUND_LABEL: &str = "Turn the floor round";
pub const EFFORT: &str = "Effort";
pub const SERVE_MISSED: &str = "Serve missed";
pub const UNDO: &str = "Undo";
pub const NOTHING_TO_UNDO: &str = "nothing yet";
pub const TOGETHER: &str = "good together";
pub const STEADY: &str = "steady";
pub const FAST_SWING: &str = "fast swing";
/// A place where nobody stands.
pub const FREE: &str = "free";
/// In place of a name; why stands over it.
pub const NO_NAME: &str = "–";
pub const WHO_STANDS: &str = "Who stands here?";
pub const WHO_SERVES: &str = "Who serves?";
pub const WHOSE_EFFORT: &str = "Whose";
pub const KIND_OF_EFFORT: &str = "Kind";
pub const CLOSE: &str = "Close";
pub const NAMES: &str = "Names";
pub const NEXT_SERIES: &str = "Next series";
pub const NOT_SAVED_WHY: &str = "Not saved: why, and what to do";

pub const ELSEWHERE: &str = "This run goes on in another window or on another phone.";
pub const GO_ON_HERE: &str = "Go on here";
pub const LEAVE: &str = "Back to today";
pub const PLAY_ON: &str = "Play on";
pub const AGAIN: &str = "Another go";
pub const CLOCK_START: &str = "Start";
pub const CLOCK_GO_ON: &str = "Go on";
pub const CLOCK_PAUSE: &str = "Pause";
pub const CLOCK_OVER: &str = "time";
pub const GROUPS: &str = "Groups";
pub const FINISHED: &str = "This run is finished.";
pub const SEE_REPORT: &str = "See what came of it";
pub const OPEN_AGAIN: &str = "Open it again";
pub const POCKET: &str = "Covered, so that a pocket counts nothing.";
pub const HOLD_TO_UNCOVER: &str = "Hold to uncover";

pub const OPENING_ALL: &str = "Opening what is stored on this phone …";
pub const OPENING: &str = "Getting the run back …";
pub const CLOSED: &str = "This run can't be read just now";
pub const GONE: &str = "This run is not on this phone";
pub const GONE_LINE: &str = "It may belong to another phone, or to a copy that was taken back. Nothing here was lost.";
pub const FOOT: &str = "Places of the app";

pub fn tab(tab: Tab) -> &'static str {
    match tab {
        Tab::Today => "Today",
        Tab::Squad => "Squad",
        Tab::After => "After",
        Tab::Share => "Share",
    }
}

pub fn saved(saved: &SavedView) -> String {
    match saved {
        SavedView::Opening => "opening".to_owned(),
        SavedView::Saved => "saved".to_owned(),
        SavedView::Saving => "saving".to_owned(),
        SavedView::NotSaved { n: 0, why } => format!("not saved: {why}"),
        SavedView::NotSaved { n, why } => format!("{n} not saved: {why}"),
    }
}

/// Why no key answers.
pub fn cover(cover: &Cover) -> &str {
    match cover {
        Cover::Asking => OPENING,
        Cover::Elsewhere => ELSEWHERE,
        Cover::Over { line, .. } => line,
        Cover::Finished => FINISHED,
        Cover::Pocket => POCKET,
    }
}

/// `easy balls: good, not good; good, now, to come`
pub fn pips(easy: &[Pip], pips: &[Pip]) -> String {
    let list = |pips: &[Pip]| pips.iter().map(|p| pip(*p)).collect::<Vec<_>>().join(", ");
    if easy.is_empty() { list(pips) } else { format!("easy balls: {}; {}", list(easy), list(pips)) }
}

fn pip(pip: Pip) -> &'static str {
    match pip {
        Pip::Good => "good",
        Pip::NotGood => "not good",
        Pip::NoChance => "no chance",
        Pip::Now => "now",
        Pip::Ahead => "to come",
    }
}

/// `Mira, moved 2`, for those who hear a key.
pub fn key_of(name: &str, word: &str, digit: Option<u8>) -> String {
    match digit {
        Some(digit) => format!("{name}, {word} {digit}"),
        None => format!("{name}, {word}"),
    }
}

/// `Mira, 7 of 10`
pub fn told(name: &str, n: u8, of: u8) -> String {
    format!("{name}, {n} of {of}")
}

/// The document's title.
pub fn title(heading: &str) -> String {
    format!("{heading} – Peppertally")
}

pub const HERE_LABEL: &str = "Who is here";
/// After midnight, say, on a board that was left open; or of the practice before.
pub const HERE_CLOSED: &str = "This run is of another practice: who was here stays as it was.";
/// What a tap on a name does.
pub const HERE_TAP: &str = "Tap who comes, goes";
/// On its key, where nobody is whose ball it could be.
pub const STEP: &str = "Step";
pub const BALLS: &str = "Balls";

/// `11 here`: children in the run.
pub fn here(n: usize) -> String {
    format!("{n} here")
}

/// `11 here: who comes and goes`, for those who hear its key.
/// The key that ends a run, where the time of its part is told on it.
pub fn finish_key(left: &str) -> String {
    format!("{FINISH}. {left}")
}

pub fn here_key(here: &str) -> String {
    format!("{here}: who comes and goes")
}

/// `8 balls`
pub fn balls(n: u8) -> String {
    plural(usize::from(n), "ball", "balls")
}

pub const CHALLENGE: &str = "Challenge";
pub const CHALLENGE_LABEL: &str = "Challenge balls";
pub const STEPS: &str = "Which ball";

/// `9 of 14, thrown`, under a name.
pub fn of_at(of: &str, skill: &Skill, step: Step) -> String {
    format!("{of}, {}", super::ladder::short(skill, step))
}

/// Over the ladder: of a child, or of a group.
pub fn which_ball(name: &str, skill: &Skill) -> String {
    match skill {
        Skill::Serve => format!("{name}: from where?"),
        _ => format!("{name}: which ball?"),
    }
}

pub const LANE_BALL: &str = "ball";
pub const LANE_UNDO: &str = "Undo";
pub const GAME_LINE: &str = "Teams that wait";
pub const GAME_SERVES: &str = "to serve";
pub const NOTE_SERVE: &str = "Where the serve went";
pub const NOTE_PASSER: &str = "Who passed it";
pub const NOTE_PASS: &str = "How far the target moved";
pub const NOBODY_WAITS: &str = "Nobody waits.";
pub const SECOND_SERVE: &str = "Second serve";
pub const OTHER_SERVES: &str = "Other side serves";
pub const OTHER_SERVES_LABEL: &str = "Other side serves: the side that would not serve the next rally";
pub const NEW_TEAMS: &str = "New teams";
pub const NEW_TEAMS_LABEL: &str = "New teams of all who are here";
pub const SWAP_TWO: &str = "Swap two";
pub const SWAP_TWO_LABEL: &str = "Swap two children";
pub const WHO_CHANGES: &str = "Who changes?";
pub const WITH_WHOM: &str = "With whom?";
pub const TOO_FEW_WAY: &str = "Tap who is here, above.";
/// After what is on a half of the court, for those who hear it.
pub const WON_IT: &str = "won the rally";

/// `1:30 Pause: the clock`, for those who hear its key.
pub fn clock(left: &str, does: &str) -> String {
    format!("{left} {does}: the clock")
}

/// `Group 2 7 tossed: choose another`; on a board of groups `Group 2 tossed: choose another`
pub fn group_ball(group: &str, now: Option<u32>, ball: &str) -> String {
    match now {
        Some(now) => format!("{group} {now} {ball}: choose another"),
        None => format!("{group} {ball}: choose another"),
    }
}

/// `Group 1 7 Mira, Tove: a good one`
pub fn lane_good(group: &str, now: u32, who: &str) -> String {
    format!("{group} {now} {who}: a good one")
}

pub fn lane_undo(group: &str) -> String {
    format!("{group}: undo its last")
}
