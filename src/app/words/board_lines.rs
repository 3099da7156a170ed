//! Lines of the board that carry figures or names.

use super::counts;
use crate::domain::drill::{Board, ChallengeBy, DrillSpec};
use crate::domain::entry::Side;
use crate::domain::ids::{GroupNo, Round};
use crate::domain::roster::name_key;
use crate::domain::scoring::transition::{Duel, NextBall};
use crate::domain::skill::{FeedKind, Outcome, ServeStyle, Skill};

pub const NO_CHANCE: &str = "No chance";
pub const EVERYONE: &str = "Everyone";
pub const NOBODY_HERE: &str = "Nobody stands here. Tap who is here, above.";
pub const TOO_FEW: &str = "A game needs a child on each side.";
pub const OWN_SKILL: &str = "Good or not?";
pub const EACH_GOOD: &str = "Tap each good one";
pub const CLOCK_FIRST: &str = "Start the clock when they are ready.";
pub const CLOCK_STANDS: &str = "A pause: no ball counts until the clock goes on.";
/// A phone that slept, or whose clock was put forward meanwhile: which of them can't be told.
const CLOCK_SLEPT: &str = "The phone slept long: the clock stands. Tap to go on.";
/// A group of a run in which too few children are here.
pub const EMPTY_GROUP: &str = "A group has nobody: Refit, under “here”.";
pub const UNDO_SWAP: &str = "swap";
pub const UNDO_LINEUP: &str = "who stands where";
pub const UNDO_SERIES: &str = "next series";
pub const UNDO_FEED: &str = "easier feed";
pub const UNDO_FINISH: &str = "finish";

/// The one line over the figures: the ball that comes, or what to look at.
pub fn call(spec: &DrillSpec, next: Option<&NextBall>) -> String {
    if let Some(next) = next {
        let what = match next.kind {
            FeedKind::Easy => "Easy ball",
            FeedKind::Challenge => "Challenge",
        };
        return format!("{what} {} of {}", next.ball, next.of);
    }
    match (&spec.skill, spec.board) {
        (_, Board::Told { of }) => format!("How many of {of} were good?"),
        (_, Board::Lanes) => EACH_GOOD.to_owned(),
        (Skill::Pass | Skill::Serve, Board::Propped { .. } | Board::Group) => OWN_SKILL.to_owned(),
        (Skill::Pass, _) => "How far did the target move?".to_owned(),
        (Skill::Serve, _) => "Where did the serve go?".to_owned(),
        // Its name stands in the head already.
        (Skill::Own(name), _) if name_key(name) == name_key(&spec.name) => OWN_SKILL.to_owned(),
        (Skill::Own(name), _) => name.clone(),
    }
}

/// What makes this ball a challenge.
pub const fn challenge(by: ChallengeBy) -> &'static str {
    match by {
        ChallengeBy::Harder => "Challenge: the ball comes harder",
        ChallengeBy::Distracted => "Challenge: touch neither ball nor player",
    }
}

pub const fn undo_challenge(kind: FeedKind) -> &'static str {
    match kind {
        FeedKind::Easy => "challenge off",
        FeedKind::Challenge => "challenge on",
    }
}

/// The demo is marked on every screen, the board too.
pub fn demo_title(name: &str) -> String {
    format!("Demo: {name}")
}

/// Offered after the easy balls started over twice; at the bottom of the ladder there is only the ball itself.
pub const fn easier(at_bottom: bool) -> &'static str {
    if at_bottom { "Twice over: come closer, toss softer?" } else { "Twice over: an easier feed?" }
}

pub fn goal(goal: u32, reached: bool) -> String {
    if reached { format!("goal {goal} reached") } else { format!("goal {goal}") }
}

pub fn round(round: Round) -> String {
    format!("Round {}", round.0)
}

pub fn round_of(round: Round, n: u16) -> String {
    format!("Round {} of {n}", round.0.min(n))
}

/// `Round 3, to 8`: the duel ends at so many points.
pub fn round_to(round: Round, points: u16) -> String {
    format!("Round {}, to {points}", round.0)
}

/// What the two sides are called under their points.
pub const fn sides(n_passers: usize, n_servers: usize) -> (&'static str, &'static str) {
    (if n_passers == 1 { "passer" } else { "passers" }, if n_servers == 1 { "server" } else { "servers" })
}

/// A name in a line that must keep room for what follows it.
pub fn brief(name: &str) -> String {
    const WHOLE: usize = 14;
    if name.chars().count() <= WHOLE {
        return name.to_owned();
    }
    let start: String = name.chars().take(WHOLE - 2).collect();
    format!("{}…", start.trim_end())
}

pub fn serves(name: &str) -> String {
    format!("{} serves", brief(name))
}

/// `Mira: jump`; what a child that has no style yet is asked. It is kept for the child, so it bears the name.
pub fn style(name: &str, style: Option<ServeStyle>) -> String {
    match style {
        Some(style) => format!("{}: {}", brief(name), counts::style(style)),
        None => format!("{}: style?", brief(name)),
    }
}

pub fn then(name: &str) -> String {
    format!("then {name}")
}

/// Of whom nothing is told yet, so few are named.
const NAMED: usize = 3;

/// `Series 1: 10 of 12 told, still Odile and Bram`
pub fn told_series(no: u16, n_all: usize, still: &[&str]) -> String {
    let line = format!("Series {}: {} of {n_all} told", u32::from(no) + 1, n_all - still.len());
    match still.len() {
        n if n == 0 || n > NAMED || n == n_all => line,
        _ => format!("{line}, still {}", still.join(", ")),
    }
}

pub fn effort(name: Option<&str>) -> String {
    match name {
        Some(name) => format!("Effort noticed: {name}"),
        None => "Effort noticed: whose?".to_owned(),
    }
}

pub fn contact(name: Option<&str>, outcome: Outcome) -> String {
    match name {
        Some(name) => format!("{name}, {}", counts::outcome(outcome)),
        None => counts::outcome(outcome),
    }
}

pub fn undo_effort(name: Option<&str>, kind: Option<&str>) -> String {
    let what = kind.unwrap_or("effort");
    name.map_or_else(|| what.to_owned(), |name| format!("{name}, {what}"))
}

/// A tap on a name under Today.
pub fn undo_presence(name: &str, here: bool) -> String {
    if here { format!("{name} is here") } else { format!("{name} is away") }
}

pub fn undo_turn(name: &str) -> String {
    format!("{name} is next")
}

pub fn undo_correction(n: usize) -> String {
    if n == 1 { "correction".to_owned() } else { format!("shift of {n} balls") }
}

pub fn over_sides(duel: Duel, joint: u16) -> String {
    let score = format!("{} to {}, {joint} together", duel.passers, duel.servers);
    match duel.passers.cmp(&duel.servers) {
        std::cmp::Ordering::Greater => format!("The passers have it, {score}."),
        std::cmp::Ordering::Less => format!("The servers have it, {score}."),
        std::cmp::Ordering::Equal => format!("Level, {score}."),
    }
}

pub fn over_children(names: &[String], points: u16, joint: u16) -> String {
    format!(
        "{} with {}, {joint} together.",
        names.join(" and "),
        counts::plural(usize::from(points), "point", "points")
    )
}

pub const IN_A_ROW: &str = "in a row";
/// Where each has a row of its own and no one child is on: nobody is named.
pub const LONGEST_NOW: &str = "the longest row now";
pub const GOOD: &str = "good ones";
/// Of all groups, whose own figures stand beside.
pub const GOOD_IN_ALL: &str = "good ones in all";

/// `best 7, goal 10`, under a row.
pub fn row_goal(best: u32, goal: Option<u32>) -> String {
    match goal {
        Some(goal) if best >= goal => format!("goal {goal} reached, best {best}"),
        Some(goal) => format!("best {best}, goal {goal}"),
        None => format!("best {best}"),
    }
}

/// `goal 10 each`
pub fn row_each(goal: Option<u32>) -> Option<String> {
    goal.map(|goal| format!("goal {goal} each"))
}

/// `Group 2: in a row`
pub fn of_group(group: Option<GroupNo>, of: String) -> String {
    group.map_or(of.clone(), |no| format!("{}, {of}", group_name(no)))
}

/// `series of 10 each`
pub fn series_each(n: u8) -> String {
    format!("in series of {n} each")
}

pub fn by_two(by_two: bool) -> Option<String> {
    by_two.then(|| "by two".to_owned())
}

/// `first to 10, by two`
pub fn first_to_by(n: u16, is_by_two: bool) -> String {
    by_two(is_by_two).map_or_else(|| first_to(n), |by| format!("{}, {by}", first_to(n)))
}

/// `of 8, 2 to come`, in a series of so many.
pub fn of_series(tries: u32, n: u8) -> String {
    match u32::from(n).saturating_sub(tries) {
        0 => format!("of {n}, done"),
        left => format!("of {tries}, {left} to come"),
    }
}

/// `Biene: 8 of 10. Now Falke.`
pub fn series_done(name: &str, good: u32, n: u8, next: &str) -> String {
    format!("{name}: {good} of {n}. Now {next}.")
}

/// `last ten 6, best 8`
pub fn series_before(n: u8, last: Option<u32>, best: u32) -> Option<String> {
    match last {
        Some(last) => Some(format!("{} {last}, best {best}", last_series(n))),
        None if best > 0 => Some(format!("best {best}")),
        None => None,
    }
}

/// What a series of so many is called once it is over.
pub const fn last_series(n: u8) -> &'static str {
    if n == 10 { "last ten" } else { "last series" }
}

pub fn first_to(n: u16) -> String {
    format!("first to {n}")
}

/// `of 7, 33 to come`, all together.
pub fn together(of: Option<u32>, balls: Option<u16>) -> String {
    match (of, balls) {
        (Some(of), Some(balls)) if of < u32::from(balls) => format!("of {of}, {} to come", u32::from(balls) - of),
        (Some(of), _) => format!("of {of} together"),
        (None, _) => "together".to_owned(),
    }
}

/// The squad's own best before.
pub fn to_beat(before: Option<u32>, reached: bool) -> String {
    match before {
        Some(before) if reached => format!("your best before was {before}"),
        Some(before) => format!("your best is {before}"),
        None => "your first: no best yet".to_owned(),
    }
}

pub fn games(n: u32) -> String {
    if n == 1 { "game played".to_owned() } else { "games played".to_owned() }
}

pub fn rallies(n: u32) -> String {
    if n == 1 { "rally".to_owned() } else { "rallies".to_owned() }
}

/// `4 now, best 7`, under a name.
pub fn row_of(now: u32, best: u32) -> String {
    format!("{now} now, best {best}")
}

/// `6 of 8`, under a name.
pub fn ten_of(now: u32, of: u32) -> String {
    format!("{now} of {of}")
}

pub fn good_ones(n: u32) -> String {
    format!("{n} good")
}

/// `Group 1`
pub fn group_name(no: GroupNo) -> String {
    format!("Group {}", u32::from(no.0) + 1)
}

/// `Group 1 (Mira, Tove)`
pub fn group_with(no: GroupNo, names: &[String]) -> String {
    format!("{} ({})", group_name(no), names.join(", "))
}

/// Why no ball counts while the clock stands.
pub const fn clock_waits(started: bool, slept: bool) -> &'static str {
    match (started, slept) {
        (false, _) => CLOCK_FIRST,
        (true, false) => CLOCK_STANDS,
        (true, true) => CLOCK_SLEPT,
    }
}

/// `1:30`
pub fn clock(left_s: u32) -> String {
    format!("{}:{:02}", left_s / 60, left_s % 60)
}

pub fn over_groups(names: &[String], points: u32) -> String {
    let points = counts::plural(points as usize, "good one", "good ones");
    match names.len() {
        1 => format!("{} has it, with {points}.", names.concat()),
        _ => format!("Level, with {points} each: {}.", names.join(" and ")),
    }
}

/// The time is up, and nobody plays against another.
pub fn over_time(good: u32) -> String {
    format!("Time: {}.", counts::plural(good as usize, "good one", "good ones"))
}

/// `All balls are played: 34. Your best before was 31.`
pub fn over_together(now: u32, row: bool, before: Option<u32>) -> String {
    let now = if row { format!("{now} in a row at best") } else { format!("{now} good together") };
    format!("All balls are played: {now}. {}", against_best(before))
}

pub fn against_best(before: Option<u32>) -> String {
    before
        .map_or_else(|| "It is your first of its kind.".to_owned(), |before| format!("Your best before was {before}."))
}

pub fn undo_rally(won: Side, is_match: bool) -> String {
    match (won, is_match) {
        (Side::Near, false) => "winners' side's rally",
        (Side::Far, false) => "challengers' rally",
        (Side::Near, true) => "team 1's rally",
        (Side::Far, true) => "team 2's rally",
    }
    .to_owned()
}

pub const fn undo_clock(going: bool) -> &'static str {
    if going { "clock started" } else { "clock stopped" }
}

pub fn undo_group_step(group: GroupNo) -> String {
    format!("{}: another ball", group_name(group))
}

/// What a side of the court is called.
pub const fn side(side: Side, is_match: bool) -> &'static str {
    match (side, is_match) {
        (Side::Near, false) => "Winners' side",
        (Side::Far, false) => "Challengers",
        (Side::Near, true) => "Team 1",
        (Side::Far, true) => "Team 2",
    }
}

pub fn streak(n: u32) -> String {
    if n == 1 { "1 win".to_owned() } else { format!("{n} wins in a row") }
}

/// Until the first tap has shown it.
pub const TAP_WHO_WON: &str = "tap the side that won";

/// Said aloud and shown between two rallies.
pub const PACE: [&str; 3] = ["one", "two", "serve"];

/// `Challengers serve`, `Second serve, challengers`, `Team 1 serves: Mira`
pub fn side_serves(serves: Side, is_match: bool, server: Option<&str>, second: bool) -> String {
    let verb = if (serves, is_match) == (Side::Far, false) { "serve" } else { "serves" };
    let who = server.map(|name| format!(": {}", brief(name))).unwrap_or_default();
    if second {
        return format!("Second serve, {}", side(serves, is_match).to_lowercase());
    }
    format!("{} {verb}{who}", side(serves, is_match))
}

/// Where a team waits in the line.
pub fn waits(at: usize) -> String {
    match at {
        0 => "next".to_owned(),
        1 => "then".to_owned(),
        at => ordinal(at + 1),
    }
}

/// `3rd`, `13th`, `21st`
fn ordinal(n: usize) -> String {
    let end = match (n % 100, n % 10) {
        (11..=13, _) => "th",
        (_, 1) => "st",
        (_, 2) => "nd",
        (_, 3) => "rd",
        _ => "th",
    };
    format!("{n}{end}")
}

pub fn short_games(to: u8) -> String {
    format!("games to {to}")
}

pub fn match_to(to: u16) -> String {
    format!("to {to}, two ahead")
}

/// `Team 1 has it, 25 to 23.`
pub fn over_match(won: Side, own: u32, other: u32) -> String {
    format!("{} has it, {own} to {other}.", side(won, true))
}
