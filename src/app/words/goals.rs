//! A goal that fits, in words first: how many would reach it, in what time; then what that rests on.

use super::capital;
use super::counts::plural;
use crate::app::work::goals::Game;

pub const HEAD: &str = "A goal that fits";
pub const WORKING: &str = "Being worked out …";
pub const NOBODY: &str = "Too few are here to say what fits.";
/// Where the answer isn't one to what was asked.
pub const NO_ANSWER: &str = "The balls that were counted gave no chance. With the next change here it is tried again.";
pub const FAST: &str = "How many fast serves are in isn’t kept by itself: no goal can be told from that.";
pub const WISH: &str = "Reached how often";
pub const MINUTES: &str = "Minutes";
pub const OPENS: &str = "What this rests on";
pub const SAY_IT: &str = "The board has no place for it: say it to them.";
pub const BY_TWO: &str = "The two ahead come on top, so it takes a little longer.";
pub const EVEN: &str = "If the sides are even, which takes longest.";
pub const EVEN_TEAMS: &str = "If the teams are even; where one is better it is there sooner. Taken, it is the number after which the winners go off too.";
pub const FASTER: &str = "Who is quicker has more balls in the time: here everyone has as many.";
pub const SAME_BALLS: &str = "Every round has the same balls, whoever is good: only your pace decides.";
pub const NEXT_TO_IT: &str = "Goals next to it";

/// The time there is, or the rule's own, is no time for it.
pub const fn too_short(game: Game) -> &'static str {
    match game {
        Game::Match => "Too little time: even a match to 5 has more rallies than that.",
        Game::Stay { .. } => "Too little time: not even two games are over in that.",
        Game::Points { .. } | Game::Rounds { .. } => "Too little time: not even one round is over in that.",
        _ => "Too little time: not everyone has a ball in that, at the pace there is.",
    }
}

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
        Game::Total | Game::OwnGood | Game::GroupGood => plural(goal as usize, "good one", "good ones"),
        Game::OwnRow { .. } | Game::GroupRow { .. } => format!("{goal} in a row"),
        Game::Own => format!("{goal} of {tries}"),
        Game::Race => format!("First to {goal}"),
        Game::Duel { .. } | Game::Points { .. } | Game::Match => format!("To {goal}"),
        Game::Joint { .. } => plural(goal as usize, "easy ball good", "easy balls good"),
        Game::Rounds { .. } => plural(goal as usize, "round", "rounds"),
        Game::Stay { .. } => format!("{goal} won in a row"),
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
        Game::OwnRow { .. } | Game::Own | Game::OwnGood => {
            return match tenths(chance) {
                0 => "hardly any would reach it".to_owned(),
                10 => "nearly all would reach it".to_owned(),
                n => format!("about {n} in 10 would reach it"),
            };
        }
        Game::Total | Game::GroupRow { .. } | Game::GroupGood | Game::Joint { .. } => "reached",
        Game::Race => "a group is there",
        Game::Duel { .. } => "a side is there",
        Game::Points { .. } => "a child is there",
        Game::Stay { .. } => "a team is there",
        Game::Match | Game::Rounds { .. } => "over",
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
pub fn in_time(length: &str) -> String {
    format!(" in {length}")
}

/// `60 seconds`, or the minutes there are.
pub fn length(minutes: u16, seconds: Option<u16>) -> String {
    match seconds {
        Some(n) => plural(usize::from(n), "second", "seconds"),
        None => plural(usize::from(minutes), "minute", "minutes"),
    }
}

/// ` in about 12 balls each`
pub fn in_balls(game: Game, tries: u32) -> String {
    format!(" in about {}", balls(game, tries))
}

fn balls(game: Game, tries: u32) -> String {
    let whose = match game {
        _ if game.is_each() => " each",
        Game::GroupRow { .. } | Game::Race | Game::GroupGood => " of a group",
        _ => "",
    };
    let rallies = matches!(game, Game::Match | Game::Stay { .. });
    let (one, many) = if rallies { ("rally", "rallies") } else { ("ball", "balls") };
    format!("{}{whose}", plural(tries as usize, one, many))
}

/// Where the squad has no pace of its own.
pub fn no_minutes(length: &str, n_all: u32) -> String {
    format!(
        "No minutes yet: the squad’s own pace in this drill isn’t known. Counted with {n_all} balls, as is common in {length} (common practice, no source)."
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
pub fn pace(n_runs: usize, length: &str, n_all: u32) -> String {
    let runs = if n_runs == 1 { "run".to_owned() } else { format!("{n_runs} runs") };
    format!("About {n_all} balls in {length}, by the squad’s own pace in the last {runs} of this drill.")
}

pub const OF_LEVELS: &str = "Each child’s level is that of its weeks (how that is worked out stands under Over the weeks). What isn’t known of it is averaged over; on simulated squads goals said to be reached 72 in 100 times were in 73.";
pub const LIMITS: &str = "A child’s good or bad day isn’t in it, nor what it learns while it plays.";

/// By which formula, and whose.
pub const fn formula(game: Game) -> &'static str {
    match game {
        Game::OwnRow { .. } | Game::GroupRow { .. } => {
            "A row is followed ball by ball through every length it can have (Feller 1968, volume 1, XIII.7)."
        }
        Game::Total | Game::Own | Game::OwnGood | Game::GroupGood => {
            "Good ones are added up ball by ball, each child with its own chance (Poisson 1837)."
        }
        Game::Race => {
            "Each group’s good ones are added up ball by ball, all groups at the same time (Poisson 1837). Which of them isn’t said."
        }
        Game::Duel { .. } => {
            "Easy and challenge balls are followed ball by ball through every score there is (Kemeny and Snell 1960). Serves that miss are the passers’ points and come on top."
        }
        Game::Points { .. } => {
            "Played out 4,016 times, ball by ball, with places and servers going round, by chance numbers that are always the same: an exact working has too many states. It is off by a point in 100 or so. Which child it is isn’t said. Serves that miss come on top."
        }
        Game::Joint { .. } | Game::Rounds { .. } => {
            "Easy and challenge balls are followed ball by ball, round after round, easy ones that start over too (Kemeny and Snell 1960)."
        }
        Game::Stay { .. } => {
            "Games are followed rally by rally, for teams that win each as often as not (Kemeny and Snell 1960; where a rally is a game, a row by Feller 1968, XIII.7)."
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
