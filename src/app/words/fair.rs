//! Who had how much, in words: a share beside an even share, and what to do next time. No verdict, no order: whoever had little had
//! little, whatever came of it.

use super::counts::plural;
use crate::app::fair::{Fair, Had, Share};

pub const TITLE: &str = "Fair practice";
pub const OPEN: &str = "Fair practice";
pub const OPEN_LINE: &str = "who had how much, and who is short";
pub const OPEN_SHORT: &str = "who is short";
pub const EMPTY: &str = "Nothing to share out yet";
pub const EMPTY_LINE: &str = "Once balls or rallies were counted, this page says how they fell to everyone.";
pub const LAST: &str = "last time";
pub const SEASON: &str = "this season";
pub const BY_ROLE: &str = "By role";
pub const AWAY: &str = "not there";
pub const IN_PART: &str = "came late, went early, or told no number";
pub const SCALE: &str = "The mark in the middle is an even share of those who were there from start to end; words are to the nearest. In the squad’s order.";
pub const HOW: &str = "What is counted";
pub const HOW_LINES: [&str; 4] = [
    "Balls that were tapped or told; where none were, rallies. An even share is all of them by everyone who was there from start to end. Who was away, came late or went early, or has no number where the others told theirs, is short of nothing; when is told by your taps on who is here.",
    "Short is two thirds of an even share or less in one practice, three quarters or less over a season, if it is several balls: choices of ours. Less than that is where the balls went by chance.",
    "Serving, tossing, catching and fetching are known by the places as they stood. Watched is what was tapped while you watched one child alone.",
    "Rest is known of games alone: rallies that were played without the child.",
];

/// `Bram had 9 of an even 15: first in line next time, or a ball for one alone at the wall.`
pub fn short(name: &str, share: Share, by_rallies: bool) -> String {
    let (own, even) = (share.own, share.even.round());
    if by_rallies {
        return format!("{name} had {own} of an even {even} rallies: first on the court next time.");
    }
    format!("{name} had {own} of an even {even}: first in line next time, or a ball for one alone at the wall.")
}

/// `2 more had far fewer: see the bars.` Only so many are named each by a sentence.
pub fn more_short(n: usize, by_rallies: bool) -> Option<String> {
    let what = if by_rallies { "rallies" } else { "balls" };
    (n > 0).then(|| format!("{n} more had far fewer {what} than an even share: the bars say who."))
}

/// `Over the season Bram and Iva are short: put a part into the next plan in which they come first.`
/// `Over the season Bram, Iva, Mira and 2 more are short: …`
pub fn short_season(names: &[String], n_more: usize) -> String {
    let are = if names.len() + n_more == 1 { "is" } else { "are" };
    let more = (n_more > 0).then(|| format!("{n_more} more"));
    let who = and(&names.iter().cloned().chain(more).collect::<Vec<_>>());
    format!("Over the season {who} {are} short: put a part into the next plan in which they come first.")
}

pub const ALL_NEAR: &str = "Nobody who was there was short last time.";
pub const TOO_LITTLE: &str = "Too little was counted last time to call anybody short.";
pub const NOBODY_WHOLE: &str = "Nobody was there from start to end last time, so there is no even share.";

/// More than half would be short: that tells of how it was played, and of no child.
pub fn to_a_few(by_rallies: bool) -> String {
    let what = if by_rallies { "rallies" } else { "balls" };
    format!(
        "Last time a few had most of the {what}: more than half of those who were there had far fewer than an even share."
    )
}

/// What the figures are of: `Last time: Wednesday 25 November. This season: 12 practices.`
pub fn spans(last: &str, n_season: usize) -> String {
    format!("Last time: {last}. This season: {}.", plural(n_season, "practice", "practices"))
}

/// `9 contacts: half an even share`
pub fn share(share: Share, by_rallies: bool) -> String {
    let n = share.own as usize;
    let what = if by_rallies { plural(n, "rally", "rallies") } else { plural(n, "contact", "contacts") };
    match share.part() {
        Some(part) => format!("{what}: {}", of_even(part)),
        None => what,
    }
}

/// To the nearest of a few words.
pub fn of_even(part: f64) -> &'static str {
    match part {
        part if part < 0.1 => "hardly any of an even share",
        part if part < 0.375 => "a quarter of an even share",
        part if part < 0.6 => "half an even share",
        part if part < 0.71 => "two thirds of an even share",
        part if part < 0.85 => "three quarters of an even share",
        part if part <= 1.2 => "about even",
        part if part <= 1.4 => "a third more than even",
        part if part <= 1.75 => "half as much again as even",
        part if part <= 2.5 => "twice an even share",
        _ => "far more than even",
    }
}

/// `24 contacts; 6 served or tossed; 12 of 20 rallies, 8 min on the court; 10 watched alone`
pub fn roles(had: &Had) -> Vec<String> {
    let mut lines = Vec::new();
    lines.extend(
        (had.contacts > 0).then(|| format!("{} tapped or told", plural(had.contacts as usize, "ball", "balls"))),
    );
    lines.extend((had.watched > 0).then(|| format!("{} of them while watched alone", had.watched)));
    lines.extend((had.fed > 0).then(|| format!("{} served or tossed for others", had.fed)));
    lines.extend((had.caught > 0).then(|| format!("{} caught or fetched", had.caught)));
    if had.rallies_of > 0 {
        let rested = had.rallies_of.saturating_sub(had.rallies);
        let min = match had.court_ms.saturating_add(30_000) / 60_000 {
            0 => "under a minute".to_owned(),
            n => format!("{n} min"),
        };
        lines
            .push(format!("{} of {} rallies played, {min} on the court; rested {rested}", had.rallies, had.rallies_of));
    }
    if lines.is_empty() {
        lines.push("nothing counted".to_owned());
    }
    lines
}

pub fn is_empty(fair: &Fair) -> bool {
    fair.children.iter().all(|child| child.had == Had::default())
}

/// `Bram`, `Bram and Iva`, `Bram, Iva and Mira`
pub fn and(names: &[String]) -> String {
    match names {
        [] => String::new(),
        [one] => one.clone(),
        [all @ .., last] => format!("{} and {last}", all.join(", ")),
    }
}
