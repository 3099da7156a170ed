//! What one can expect of a part: balls, contacts of each child, time on the court, and whether every role comes round. Figures, each with
//! its range; nothing here is a promise.
//!
//! The formula: a part of `m` minutes has as many sources of balls as it has groups at once (see [`sources`]). Each source gives a ball
//! every `60 / feeds` seconds until its share of the balls is used, then they are collected (`stats::feeding`). Balls of all sources,
//! shared among the children in fair turns, are each child's contacts. How many feeds a minute are common is practice, with no source;
//! the range is then every wait 30 % longer to 30 % shorter. Where the squad has runs of its own, their pace (collecting included) is
//! taken instead, with the slowest and the fastest of them as the range: each as it would be with the sources, children and balls of the
//! part, by what the same formula makes of the two.

use super::super::drill::{Board, DrillSpec, Rule, SwapEvery};
use super::super::entry::Lineup;
use super::super::ids::{EntryId, PlayerId};
use super::super::refit::{Fit, refit};
use super::super::roles;
use super::super::turns::{History, Slot};
use super::PlanPart;
use crate::stats::feeding::{Feeding, Range, at_paces};

/// Who and what is there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Floor {
    pub n_children: usize,
    pub n_balls: usize,
    /// To bring the balls back, in seconds.
    pub collect_s: u16,
}

/// How many balls (or rallies) a run of the squad's own had in what time, and with whom.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Pace {
    pub n: u32,
    pub ms: u64,
    pub n_children: usize,
    /// Groups at once; 0 where it had none.
    pub n_groups: usize,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Expected {
    /// So many runs of the squad's own are behind it; 0: what is common.
    pub n_runs: usize,
    /// Balls, or rallies of a game.
    pub balls: Range,
    pub each: Each,
    /// Balls each child gives to others, where children do.
    pub fed: Option<Range>,
    /// Balls each child catches or fetches, where children do.
    pub fetched: Option<Range>,
}

/// What each child has of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Each {
    Contacts(Range),
    /// Rallies on the court, and minutes. How often a child touches the ball in a rally nobody can say beforehand.
    Court {
        rallies: Range,
        minutes: u16,
    },
}

/// Whether everyone has had every role by the end.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Coverage {
    Enough {
        turns: u32,
        needed: u32,
    },
    /// `minutes` would be enough, where that can be told.
    TooFew {
        turns: u32,
        needed: u32,
        minutes: Option<u16>,
    },
    /// The coach swaps by a tap: as many times as this and it has come round.
    OnTap {
        needed: u32,
    },
}

/// `None` where nobody is here, nothing lasts, or no balls are counted in it.
pub fn expect(part: &PlanPart, spec: &DrillSpec, floor: Floor, own: &[Pace]) -> Option<Expected> {
    expect_in(u64::from(part.minutes_now()) * 60_000, part, spec, floor, own)
}

/// The same in another time than the part's.
pub fn expect_in(ms: u64, part: &PlanPart, spec: &DrillSpec, floor: Floor, own: &[Pace]) -> Option<Expected> {
    let spec = part.spec_of(spec);
    let n_balls = part.balls.map_or(floor.n_balls, usize::from).max(1);
    if floor.n_children == 0 || ms == 0 {
        return None;
    }
    let fit = refit(&spec, floor.n_children, n_balls);
    let n_sources = sources(&spec, &fit, floor.n_children, n_balls);
    let source = feeding(part, &spec, n_balls / n_sources, floor.collect_s);
    let own = if part.feeds.is_some() { &[] } else { own };
    let scaled: Vec<(u32, u64)> =
        own.iter().map(|pace| scaled(pace, part, &spec, floor, in_hours(source, n_sources))).collect();
    let of_own = at_paces(&scaled, ms);
    let balls = of_own.unwrap_or_else(|| source.range_in(ms).times(whole(n_sources)));
    let n = whole(floor.n_children);
    let each = match spec.rule.a_side() {
        Some(a_side) => court(balls, usize::from(a_side) * 2, floor.n_children, part.minutes_now()),
        None => Each::Contacts(contacts(balls, &fit.sizes, n_sources, n)),
    };
    let by_children = |some: bool| some.then(|| balls.among(n));
    let n_runs = of_own.map_or(0, |_| own.len());
    let feeds = fit.feeders > 0 || spec.rule.transition().is_some();
    Some(Expected { n_runs, balls, each, fed: by_children(feeds), fetched: by_children(fit.target || fit.getters > 0) })
}

/// A pace as it would be here: it takes as much longer as the formula gives fewer balls than with what that run had. What balls there were
/// then isn't known: the coach's bag, as now.
fn scaled(pace: &Pace, part: &PlanPart, spec: &DrillSpec, floor: Floor, now: u64) -> (u32, u64) {
    let bag = floor.n_balls.max(1);
    let n = match spec.board {
        Board::Court => 1,
        Board::Told { .. } => pace.n_children.min(bag).max(1),
        _ => pace.n_groups.clamp(1, bag),
    };
    let then = in_hours(feeding(part, spec, bag / n, floor.collect_s), n);
    (pace.n, pace.ms.saturating_mul(then) / now.max(1))
}

/// Balls of so many sources in ten hours, long enough that it doesn't matter where in a cycle it ends.
fn in_hours(source: Feeding, n_sources: usize) -> u64 {
    u64::from(source.balls_in(36_000_000)) * n_sources as u64
}

/// Places where balls are given at once: groups, each with its own; where all serve at the whistle, a ball or a child each; else one.
pub fn sources(spec: &DrillSpec, fit: &Fit, n_children: usize, n_balls: usize) -> usize {
    match spec.board {
        Board::Court => 1,
        Board::Told { .. } => n_children.min(n_balls).max(1),
        _ => fit.sizes.len().max(1).min(n_balls),
    }
}

/// Balls a minute from one source, as is common: practice, with no source. Serving all at once, a child fetches its own ball.
pub fn common_feeds(spec: &DrillSpec) -> u8 {
    match (spec.board, spec.rule) {
        (Board::Court, Rule::WinnersStay(game)) if game.paced => 5,
        (Board::Court, _) => 3,
        (Board::Told { .. }, _) => 2,
        (Board::ServeFloor { .. } | Board::ServeLine { .. }, _) => 8,
        _ => 10,
    }
}

fn feeding(part: &PlanPart, spec: &DrillSpec, n_balls: usize, collect_s: u16) -> Feeding {
    let feeds = part.feeds.unwrap_or_else(|| common_feeds(spec)).max(1);
    // Ball-getters keep the balls coming; in a game the ball is brought between rallies, and at the whistle by whoever served it.
    let meanwhile = roles::standing(spec).n_getters > 0 || matches!(spec.board, Board::Court | Board::Told { .. });
    Feeding {
        interval_ms: 60_000 / u32::from(feeds),
        n_balls: whole(n_balls.max(1)),
        collect_ms: if meanwhile { 0 } else { u32::from(collect_s) * 1_000 },
    }
}

/// Shared within each group. In a larger group each child has fewer of its balls: the range is from its least to the smaller one's most.
fn contacts(balls: Range, sizes: &[usize], n_sources: usize, n_children: u32) -> Range {
    let even = balls.among(n_children);
    let (Some(largest), Some(smallest)) = (sizes.iter().max(), sizes.iter().min()) else { return even };
    if largest == smallest || n_sources != sizes.len() {
        return even;
    }
    let of_one = |n: u32| n / whole(n_sources);
    Range {
        low: of_one(balls.low) / whole(*largest).max(1),
        likely: even.likely,
        high: balls.high.div_ceil(whole(n_sources)).div_ceil(whole(*smallest).max(1)),
    }
}

fn court(rallies: Range, wanted: usize, n_children: usize, minutes: u16) -> Each {
    let on = wanted.min(n_children);
    let share = |n: u32| u32::try_from(u64::from(n) * on as u64 / n_children as u64).unwrap_or(u32::MAX);
    Each::Court {
        rallies: Range { low: share(rallies.low), likely: share(rallies.likely), high: share(rallies.high) },
        minutes: u16::try_from(usize::from(minutes) * on / n_children).unwrap_or(u16::MAX),
    }
}

/// `None` where nobody changes roles, or there is nobody.
pub fn coverage(part: &PlanPart, spec: &DrillSpec, n_children: usize, expected: Option<&Expected>) -> Option<Coverage> {
    if !roles::rotates(spec) {
        return None;
    }
    let needed = turns_needed(spec, n_children)?;
    let (turns, minutes) = match spec.on_floor.swap {
        SwapEvery::Never => return Some(Coverage::OnTap { needed }),
        SwapEvery::Minutes(n) => {
            let n = u32::from(n.max(1));
            (u32::from(part.minutes_now()) / n, u16::try_from(needed * n).ok())
        }
        SwapEvery::Balls(n) => {
            let balls = expected.map_or(0, |e| e.balls.likely);
            let turns = balls / u32::from(n.max(1));
            let minutes = (balls > 0).then(|| (needed * u32::from(n) * u32::from(part.minutes_now())).div_ceil(balls));
            (turns, minutes.and_then(|n| u16::try_from(n).ok()))
        }
    };
    Some(if turns >= needed { Coverage::Enough { turns, needed } } else { Coverage::TooFew { turns, needed, minutes } })
}

/// Turns until everyone has had every role that is filled, as fair turns go.
pub fn turns_needed(spec: &DrillSpec, n_children: usize) -> Option<u32> {
    const MOST: u32 = 200;
    let here: Vec<PlayerId> = (0..whole(n_children)).map(|no| PlayerId(EntryId::new(0, no))).collect();
    if here.is_empty() {
        return None;
    }
    let mut lineup = Lineup::opening(spec, &here, &[]);
    let mut history = History::default();
    let mut had: Vec<(PlayerId, Slot)> = Vec::new();
    for turn in 1..=MOST {
        let now = roles::turn_of(&lineup);
        for (slot, player) in &now.slots {
            if let Some(player) = player
                && !had.contains(&(*player, *slot))
            {
                had.push((*player, *slot));
            }
        }
        let mut kinds: Vec<Slot> = Vec::new();
        for slot in now.slots.iter().filter(|(_, player)| player.is_some()).map(|(slot, _)| *slot) {
            if !kinds.contains(&slot) {
                kinds.push(slot);
            }
        }
        if had.len() >= kinds.len() * here.len() {
            return Some(turn);
        }
        lineup = roles::next(spec, &lineup, &history);
        history.note(&now);
    }
    None
}

fn whole(n: usize) -> u32 {
    u32::try_from(n).unwrap_or(u32::MAX)
}
