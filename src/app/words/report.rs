//! Sentences of the reports: efforts first-hand, ranges without order, duels in words.

use super::counts::{self, plural};
use super::{ladder, station};
use crate::domain::drill::{Board, DrillSpec};
use crate::domain::entry::Contact;
use crate::domain::scoring::tally::ServeTally;
use crate::domain::scoring::transition::Duel;
use crate::domain::skill::{FeedKind, GoodFrom, PassGrade, Skill};
use crate::domain::summary::{Counts, GameSummary};
use crate::stats::proportion::Count;

pub const OVERLAP: &str = "The bars overlap: no order can be told from these balls.";
pub const APART: &str = "Some bars stand apart; a few more balls each would still move them.";
pub const FAST_CAUTION: &str = "Fast swings are counted as you noticed them, here alone: at least so many. A young shoulder needs rest; local rules and qualified staff come first.";
/// Where only good ones are counted.
pub const NO_RATE: &str = "counts only, no rate";
/// Where runs of a practice were counted on several phones.
pub const COUNTED_HERE: &str = "counted here";

/// `counted on Ana’s phone`, `counted on another phone`
pub fn counted_on(phone: &str) -> String {
    format!("counted on {phone}")
}

pub const NOBODY_NAMED: &str = "nobody named";

/// `23 good of 41, about 4 to 7 in 10`; of a duel a sentence for the easy and one for the challenge balls.
pub fn everyone(counts: &Counts) -> String {
    let one = |(kind, count): &(Option<FeedKind>, Count)| {
        let told = format!("{} good of {}, {}", count.good(), count.tries(), counts::share(*count));
        match kind {
            _ if counts.tries() == 0 && counts.n_counted > 0 => {
                format!("{}.", super::scores::counted(counts.n_counted))
            }
            _ if count.tries() == 0 => "Nothing counted yet.".to_owned(),
            None => told,
            Some(kind) => format!("{}: {told}.", balls(*kind)),
        }
    };
    counts.apart().iter().map(one).collect::<Vec<_>>().join(" ")
}

/// `own next step: 8`, on the calm view
pub fn own_goal(goal: u32) -> String {
    format!("own next step: {goal}")
}

/// `about 4 to 7 in 10`, of a duel for each kind of ball.
pub fn shares(counts: &Counts) -> String {
    let one = |(kind, count): &(Option<FeedKind>, Count)| match kind {
        None if counts.tries() == 0 && counts.n_counted > 0 => NO_RATE.to_owned(),
        None => counts::share(*count),
        Some(kind) => format!("{}: {}", balls(*kind), counts::share(*count)),
    };
    counts.apart().iter().map(one).collect::<Vec<_>>().join("; ")
}

/// A line of the pause, in a duel: `Mira, easy`
pub fn on(who: &str, kind: FeedKind) -> String {
    let ball = match kind {
        FeedKind::Easy => "easy",
        FeedKind::Challenge => "challenge",
    };
    format!("{who}, {ball}")
}

const fn balls(kind: FeedKind) -> &'static str {
    match kind {
        FeedKind::Easy => "Easy balls",
        FeedKind::Challenge => "Challenge balls",
    }
}

/// `Passing, moved or better`, `Passing, challenge balls`
pub fn section(spec: &DrillSpec, kind: Option<FeedKind>) -> String {
    let skill = match &spec.skill {
        Skill::Pass => "Passing",
        Skill::Serve => "Serving",
        Skill::Own(name) => name.as_str(),
    };
    let what = match (kind, spec.good_from) {
        (Some(FeedKind::Easy), _) => "easy balls",
        (Some(FeedKind::Challenge), _) => "challenge balls",
        (None, _) if matches!(spec.board, Board::Told { .. }) => "as told",
        (None, GoodFrom::Grade(PassGrade::Stood)) => "the target stood",
        (None, GoodFrom::Grade(PassGrade::Moved)) => "moved or better",
        (None, GoodFrom::Grade(_)) => "chased or better",
        (None, GoodFrom::ServeIn) => "in",
        (None, GoodFrom::FastServeIn) => "fast and in",
        (None, GoodFrom::GoodKey) => "good",
    };
    format!("{skill}, {what}")
}

/// `long 2, wide 1, net 1; at least 4 fast swings`
pub fn serves(tally: &ServeTally) -> Option<String> {
    let missed = [("long", tally.n_long), ("wide", tally.n_wide), ("net", tally.n_net)];
    let missed: Vec<String> = missed.iter().filter(|(_, n)| *n > 0).map(|(word, n)| format!("{word} {n}")).collect();
    let fast =
        (tally.n_fast > 0).then(|| format!("at least {}", plural(tally.n_fast as usize, "fast swing", "fast swings")));
    let parts: Vec<String> = [(!missed.is_empty()).then(|| missed.join(", ")), fast].into_iter().flatten().collect();
    (!parts.is_empty()).then(|| parts.join("; "))
}

pub fn duel(duel: Duel, joint: u16) -> String {
    let score = format!("Passers {} to servers {}", duel.passers, duel.servers);
    format!("{score}; {} together.", plural(usize::from(joint), "easy ball good", "easy balls good"))
}

pub fn points(name: &str, n: u16) -> String {
    format!("{name} with {n}")
}

pub fn by_child(points: &[String]) -> String {
    format!("Duel points: {}.", points.join(", "))
}

/// `twice: dived, ran for it`
pub fn efforts(kinds: &[Option<&str>]) -> String {
    let times = match kinds.len() {
        1 => "once".to_owned(),
        2 => "twice".to_owned(),
        n => format!("{n} times"),
    };
    let mut named: Vec<&str> = Vec::new();
    for kind in kinds.iter().flatten() {
        if !named.contains(kind) {
            named.push(kind);
        }
    }
    if named.is_empty() { times } else { format!("{times}: {}", named.join(", ")) }
}

/// Of whom it is known that they were at a practice from which nobody was noted away.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Here {
    /// Every child of the squad.
    Everyone,
    /// Every child of the list as it was then on this phone; the squad has others too.
    ThatList,
    /// These alone: another phone's practice, perhaps with another list of children.
    These(Vec<String>),
}

/// `Everyone was here.`, `Away: Bram.`, `Everyone was here. Went early: Tove.`, `Here: Wren, Iva.`; empty where nothing is known.
pub fn presence(away: &[String], early: &[String], here: &Here) -> String {
    let all = match here {
        _ if !away.is_empty() => format!("Away: {}.", away.join(", ")),
        Here::Everyone => "Everyone was here.".to_owned(),
        Here::ThatList => "Everyone who was in the squad then was here.".to_owned(),
        Here::These(names) if names.is_empty() => String::new(),
        Here::These(names) => format!("Here: {}.", names.join(", ")),
    };
    if early.is_empty() { all } else { format!("{all} Went early: {}.", early.join(", ")).trim_start().to_owned() }
}

/// `8 good of 20 counted beside it, not added`, `3 serves or passes and 1 rally counted beside it, not added`
pub fn beside(counts: &Counts, n_in_match: u32, n_rallies: u32) -> Option<String> {
    let noted = (counts.n_noted() > 0).then(|| super::today::good_of(counts));
    let in_match = (n_in_match > 0).then(|| super::in_match::n_noted(n_in_match));
    let rallies = (n_rallies > 0).then(|| plural(n_rallies as usize, "rally", "rallies"));
    let parts: Vec<String> = [noted, in_match, rallies].into_iter().flatten().collect();
    (!parts.is_empty()).then(|| format!("{} counted beside it, not added", parts.join(" and ")))
}

/// `3 drills, 214 contacts`
pub fn practice_line(n_runs: usize, n_contacts: usize, n_rallies: usize, n_told: usize, n_beside: usize) -> String {
    let mut line = plural(n_runs, "drill", "drills");
    if n_contacts > 0 || n_rallies == 0 {
        line = format!("{line}, {}", plural(n_contacts, "contact", "contacts"));
    }
    if n_rallies > 0 {
        line = format!("{line}, {}", plural(n_rallies, "rally", "rallies"));
    }
    if n_told > 0 {
        line.push_str(", told counts");
    }
    if n_beside > 0 {
        line = format!("{line}; {n_beside} beside");
    }
    line
}

/// `challenge, served hard, self-scored`: what ball it was and whose eyes judged it. Nothing of an easy ball at the first step that
/// the coach judged.
pub fn marks(skill: &Skill, contact: &Contact) -> Option<String> {
    let feed = contact.feed;
    let parts: Vec<String> = [
        (feed.kind == FeedKind::Challenge).then(|| "challenge".to_owned()),
        (feed.step.0 > 0).then(|| ladder::step(skill, feed.step)),
        contact.self_scored.then(|| station::SELF_SCORED.to_owned()),
        contact.watched.then(|| "watched".to_owned()),
    ]
    .into_iter()
    .flatten()
    .collect();
    (!parts.is_empty()).then(|| parts.join(", "))
}

/// `14 games in 31 rallies.`, of a match `Team 1: 25, team 2: 21.`
pub fn game(game: &GameSummary) -> String {
    let rallies = plural(game.n_rallies as usize, "rally", "rallies");
    match game.points {
        Some((near, far)) => format!("Team 1: {near}, team 2: {far}."),
        None if game.n_games == game.n_rallies => format!("{}.", plural(game.n_games as usize, "game", "games")),
        None => format!("{} in {rallies}.", plural(game.n_games as usize, "game", "games")),
    }
}

pub const BOTH_KINDS: &str = "Easy and challenge balls together";
pub const COURT: &str = "On the court";

/// `18 rallies, 9 min`
pub fn on_court(n_rallies: u32, ms: u32) -> String {
    format!("{}, {}", plural(n_rallies as usize, "rally", "rallies"), minutes(ms))
}

/// `longest wait 4 rallies, 2 min`
pub fn longest_wait(n_rallies: u32, ms: u32) -> Option<String> {
    (n_rallies > 0).then(|| format!("longest wait {}, {}", plural(n_rallies as usize, "rally", "rallies"), minutes(ms)))
}

/// `4 games won, 2 points on the winners' side`. Of none nothing: how little somebody won is nobody's news.
pub fn games_won(n_won: u32, points: u32) -> String {
    let won = (n_won > 0).then(|| plural(n_won as usize, "game won", "games won"));
    let points = (points > 0 && points != n_won)
        .then(|| format!("{} on the winners' side", plural(points as usize, "point", "points")));
    [won, points].into_iter().flatten().collect::<Vec<_>>().join(", ")
}

/// Of all children: `6 to 9 rallies each`. No name, no order.
pub fn court_time(game: &GameSummary) -> String {
    let of = |f: fn(u32, u32) -> u32| game.children.iter().map(|child| child.n_rallies).reduce(f);
    match (of(u32::min), of(u32::max)) {
        (Some(least), Some(most)) if least == most => {
            format!("{} each", plural(most as usize, "rally", "rallies"))
        }
        (Some(least), Some(most)) => format!("{least} to {most} rallies each"),
        _ => "no rally yet".to_owned(),
    }
}

/// To the nearest: `9 min`
fn minutes(ms: u32) -> String {
    match ms.saturating_add(30_000) / 60_000 {
        0 => "under a minute".to_owned(),
        n => format!("{n} min"),
    }
}

/// One rally of the list: `Mira, Tove against Bram, Iva`
pub fn rally(near: &[String], far: &[String]) -> String {
    format!("{} against {}", near.join(", "), far.join(", "))
}

/// `Ball 41: Tove, moved 2`; what is nobody's try has no number.
pub fn ball(no: Option<u32>, who: &str, what: &str) -> String {
    match no {
        Some(no) => format!("Ball {no}: {who}, {what}"),
        None => format!("{who}, {what}"),
    }
}
