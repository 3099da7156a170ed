//! Sentences of the first screen that carry figures or names.

use super::copies::counted;
use super::counts::plural;
use crate::app::update::Unsent;
use crate::domain::skill::FeedKind;
use crate::domain::summary::{Counts, GameSummary};
use crate::stats::proportion::Count;

pub const TODAY: &str = "Today";
pub const LOOK: &str = "Look";
pub const SEE_IT: &str = "See its report";
pub const TAKE_PART: &str = "Take part";
pub const GO_ON_HERE: &str = "Go on here";
pub const UPDATE: &str = "A newer version of the app is ready.";
pub const UPDATE_REFUSED: &str = "A newer version of the app is ready. It waits because a run is on in another window of the app, or a window sleeps: finish the run or close that window, then try again.";
pub const UPDATE_ACT: &str = "Use it";
pub const INSTALL: &str = "Put the app on the home screen first: then it opens without a signal and keeps its data.";
/// The names are typed already: they come along in a copy.
pub const INSTALL_TYPED: &str = "Put the app on the home screen: then it opens without a signal and keeps its data. The names come along in a copy.";
pub const INSTALL_ACT: &str = "Show me how";

pub fn here(n_here: usize, n_all: usize) -> String {
    if n_here == n_all { format!("All {n_all} are here") } else { format!("{n_here} of {n_all} are here") }
}

pub fn since(time: &str) -> String {
    format!("since {time}")
}

/// `23 good of 41`; of a duel `5 good of 8 easy, 2 good of 6 challenge`
pub fn good_of(counts: &Counts) -> String {
    let one = |(kind, count): &(Option<FeedKind>, Count)| {
        let told = format!("{} good of {}", count.good(), count.tries());
        match kind {
            _ if counts.tries() == 0 && counts.n_counted > 0 => super::scores::counted(counts.n_counted),
            _ if count.tries() == 0 => "nothing counted yet".to_owned(),
            None => told,
            Some(FeedKind::Easy) => format!("{told} easy"),
            Some(FeedKind::Challenge) => format!("{told} challenge"),
        }
    };
    counts.apart().iter().map(one).collect::<Vec<_>>().join(", ")
}

/// `14 games`, of a match `25 to 21`; nothing before the first rally.
pub fn game(game: &GameSummary) -> Option<String> {
    match (game.points, game.n_games) {
        _ if game.n_rallies == 0 => None,
        (Some((near, far)), _) => Some(format!("{near} to {far}")),
        (None, 0) => Some(plural(game.n_rallies as usize, "rally", "rallies")),
        (None, games) => Some(plural(games as usize, "game", "games")),
    }
}

/// What came of a run, in a few words.
pub fn what_came(counts: &Counts, of_game: Option<&GameSummary>) -> String {
    let of_game = of_game.and_then(|of_game| game(of_game).or_else(|| super::in_match::noted_alone(of_game)));
    of_game.unwrap_or_else(|| good_of(counts))
}

/// Said of the drill's latest run: in the practice that is on, or in one before. The figures of each kind stay
/// on one line.
pub fn last(what_came: &str, in_this_practice: bool) -> String {
    let when = if in_this_practice { "Today" } else { "Last time" };
    format!("{when} {}", what_came.replace(' ', "\u{a0}").replace(",\u{a0}", ", "))
}

/// With its title where that says more than the day.
pub fn left_open(title: Option<&str>, day: &str, opened_again: bool) -> String {
    let how = if opened_again { "is open again" } else { "was never ended" };
    format!("{} of {day} {how}.", title.unwrap_or("The practice"))
}

pub const PART_THEIRS: &str = "Part of it";
pub const PART_OWN: &str = "A practice of my own";
pub const TAKING_PART: &str = "You take part in another phone’s practice.";

pub fn asks_part(since: &str) -> String {
    format!("Another phone began a practice at {since}. Is this drill part of it?")
}

pub fn take_part(since: &str) -> String {
    format!("Another phone began a practice at {since}. What you count here can belong to it.")
}

pub fn elsewhere(drill: &str) -> String {
    format!("“{drill}” is open in another window of this phone.")
}

pub fn unsent(unsent: Unsent) -> String {
    format!("{} are only on this phone. Sending a copy takes a moment.", counted(unsent))
}
