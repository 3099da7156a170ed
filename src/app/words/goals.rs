//! A goal that fits, in words first: how many would reach it, in what time; then what that rests on.

use super::capital;
use super::counts::plural;
use crate::app::work::goals::Game;

pub const HEAD: &str = "A goal that fits";
pub const WORKING: &str = "Being worked out …";
pub const NOBODY: &str = "Too few are here to say what fits.";
pub const TOO_SHORT: &str = "Too little time: even a match to 5 has more rallies than that.";
/// Where the answer isn't one to what was asked.
pub const NO_ANSWER: &str = "The balls that were counted gave no chance. With the next change here it is tried again.";
pub const FAST: &str = "How many fast serves are in isn’t kept by itself: no goal can be told from that.";
pub const WISH: &str = "Reached how often";
pub const MINUTES: &str = "Minutes";
pub const OPENS: &str = "What this rests on";
pub const SAY_IT: &str = "The board has no place for it: say it to them.";
pub const BY_TWO: &str = "The two ahead come on top, so it takes a little longer.";
pub const EVEN: &str = "If the sides are even, which takes longest.";
pub const NEXT_TO_IT: &str = "Goals next to it";

pub fn not_worked(why: &str) -> String {
    format!("It could not be worked out. {why}")
}

/// `No balls like these yet: Passing, tossed.`
pub fn no_balls(kind: &str) -> String {
    format!("No balls like these yet: {kind}. Once some were tallied, a goal that fits stands here.")
}

/// What is to be reached: `8 in a row`
pub fn what(game: Game, goal: u32, tries: u32) -> String {
    match game {
        Game::Total => plural(goal as usize, "good one", "good ones"),
        Game::OwnRow { .. } | Game::GroupRow { .. } => format!("{goal} in a row"),
        Game::Own => format!("{goal} of {tries}"),
        Game::Race => format!("First to {goal}"),
        Game::Duel { .. } | Game::Match => format!("To {goal}"),
    }
}

/// `8 in a row: about 7 in 10 would reach it in 6 minutes.`
pub fn said(game: Game, goal: u32, tries: u32, chance: f64, time: &str) -> String {
    format!("{}: {}{time}.", what(game, goal, tries), happens(game, chance))
}

/// Of few balls: `From 25 balls so far: it may be quite otherwise.`
pub fn few(n: u32) -> String {
    format!("From {} so far: it may be quite otherwise.", plural(n as usize, "ball", "balls"))
}

/// On a key, where its neighbours would say the same in tenths: `68 in 100`
pub fn in_hundredths(chance: f64) -> String {
    format!("{} in 100", (chance * 100.0).round())
}

/// On a key: `7 in 10`
pub fn short(chance: f64) -> String {
    match tenths(chance) {
        0 => "hardly".to_owned(),
        10 => "nearly sure".to_owned(),
        n => format!("{n} in 10"),
    }
}

fn happens(game: Game, chance: f64) -> String {
    let then = match game {
        // Of so many children.
        Game::OwnRow { .. } | Game::Own => {
            return match tenths(chance) {
                0 => "hardly any would reach it".to_owned(),
                10 => "nearly all would reach it".to_owned(),
                n => format!("about {n} in 10 would reach it"),
            };
        }
        Game::Total | Game::GroupRow { .. } => "reached",
        Game::Race => "a group is there",
        Game::Duel { .. } => "a side is there",
        Game::Match => "over",
    };
    format!("{then} {}", often(chance))
}

/// `about 7 in 10 times`
pub fn often(chance: f64) -> String {
    match tenths(chance) {
        0 => "hardly ever".to_owned(),
        10 => "nearly always".to_owned(),
        n => format!("about {n} in 10 times"),
    }
}

/// ` in 6 minutes`
pub fn in_minutes(minutes: u16) -> String {
    format!(" in {}", plural(usize::from(minutes), "minute", "minutes"))
}

/// ` in about 12 balls each`
pub fn in_balls(game: Game, tries: u32) -> String {
    format!(" in about {}", balls(game, tries))
}

fn balls(game: Game, tries: u32) -> String {
    let whose = match game {
        Game::OwnRow { .. } | Game::Own => " each",
        Game::GroupRow { .. } | Game::Race => " of a group",
        Game::Total | Game::Duel { .. } | Game::Match => "",
    };
    let (one, many) = if game == Game::Match { ("rally", "rallies") } else { ("ball", "balls") };
    format!("{}{whose}", plural(tries as usize, one, many))
}

/// Where the squad has no pace of its own.
pub fn no_minutes(minutes: u16, n_all: u32) -> String {
    let minutes = plural(usize::from(minutes), "minute", "minutes");
    format!(
        "No minutes yet: the squad’s own pace in this drill isn’t known. Counted with {n_all} balls, as is common in {minutes} (common practice, no source)."
    )
}

/// `To beat your best, 31: about 4 in 10 times.`
pub fn to_beat(best: u32, chance: f64) -> String {
    format!("To beat your best, {best}: {}.", often(chance))
}

/// `8 in a row: 71 in 100. On average 14 balls each until then or until the end, about 4 minutes.`
pub fn number(game: Game, goal: u32, tries: u32, chance: f64, mean: f64, minutes: Option<f64>) -> String {
    let hundredths = (chance * 100.0).round();
    let mean = balls(game, mean.round() as u32);
    let time = minutes.map(|n| format!(", {}", about_minutes(n))).unwrap_or_default();
    format!("{}: {hundredths} in 100. On average {mean} until then or until the end{time}.", what(game, goal, tries))
}

fn about_minutes(minutes: f64) -> String {
    match minutes.round() {
        n if n < 1.0 => "under a minute".to_owned(),
        1.0 => "about a minute".to_owned(),
        n => format!("about {n} minutes"),
    }
}

/// Which balls, and whose.
pub fn balls_behind(n_balls: u64, kind: &str, n_known: usize, n_children: usize) -> String {
    let left_out = match n_children.saturating_sub(n_known) {
        0 => String::new(),
        n => format!(" Left out: {}, whose ball nobody has had yet.", plural(n, "child", "children")),
    };
    format!(
        "From {n_balls} balls of the squad like these: {kind}. A child without any is taken to be as the squad is, with all that isn’t known of it.{left_out}"
    )
}

/// How long the balls last.
pub fn pace(n_runs: usize, minutes: u16, n_all: u32) -> String {
    let runs = if n_runs == 1 { "run".to_owned() } else { format!("{n_runs} runs") };
    format!(
        "About {n_all} balls in {}, by the squad’s own pace in the last {runs} of this drill.",
        plural(usize::from(minutes), "minute", "minutes")
    )
}

pub const OF_LEVELS: &str = "Each child’s level is that of its weeks (how that is worked out stands under Over the weeks). What isn’t known of it is averaged over; on simulated squads goals said to be reached 72 in 100 times were in 73.";
pub const LIMITS: &str = "A child’s good or bad day isn’t in it, nor what it learns while it plays.";

/// By which formula, and whose.
pub const fn formula(game: Game) -> &'static str {
    match game {
        Game::OwnRow { .. } | Game::GroupRow { .. } => {
            "A row is followed ball by ball through every length it can have (Feller 1968, volume 1, XIII.7)."
        }
        Game::Total | Game::Own => {
            "Good ones are added up ball by ball, each child with its own chance (Poisson 1837)."
        }
        Game::Race => {
            "Each group’s good ones are added up ball by ball, all groups at the same time (Poisson 1837). Which of them isn’t said."
        }
        Game::Duel { .. } => {
            "Easy and challenge balls are followed ball by ball through every score there is (Kemeny and Snell 1960). Serves that miss are the passers’ points and come on top."
        }
        Game::Match => "The problem of points, with two ahead, for even sides (Pascal and Fermat 1654).",
    }
}

/// `70 %`, between the wish's keys: a number, since it is stepped.
pub fn wish(hundredths: u8) -> String {
    format!("{hundredths} %")
}

/// A key's whole sentence, for those who can't see it.
pub fn take(said: &str) -> String {
    format!("Take this goal. {}", capital(said))
}

fn tenths(chance: f64) -> u8 {
    (chance * 10.0).round().clamp(0.0, 10.0) as u8
}
