//! What is kept in memory of a finished practice: per run and child the counts that reports and a season need.
//! Worked out from a folded run; a season is a sum of these.

use std::collections::BTreeSet;
use std::ops::Add;

use super::checks::{Checks, checks};
use super::entry::{Entry, Side};
use super::ids::{Clock, DrillId, EntryId, PlayerId, PracticeId, RunId};
use super::load::{Load, loads};
use super::lots::{Lot, lots};
use super::met::{Met, met};
use super::notes::Remark;
use super::plan::PlanDone;
use super::plan::expect::Pace;
use super::replay::base::Practice;
use super::replay::part::Part;
use super::replay::run::RunState;
use super::rule::{Rule, Together};
use super::same::Same;
use super::scoring::court::Played;
use super::scoring::noted::Noted;
use super::scoring::tally::Tally;
use super::scoring::transition::Duel;
use super::scoring::{Score, Who};
use super::skill::{FeedKind, Skill};
use super::time::Stamp;
use super::together::Groups;
use super::touches::Touches;
pub use crate::stats::proportion::Count;

/// The version of the folding that made a summary: a summary of another version is made again.
pub const FOLD_VERSION: u32 = 13;

#[derive(Clone, Debug, PartialEq)]
pub struct PracticeSummary {
    pub practice: PracticeId,
    pub title: String,
    pub started: Stamp,
    /// The highest clock among this phone's own entries of it: the phone's clock never falls behind what lies packed.
    pub clock: Clock,
    /// The highest clock among this phone's own contacts and told counts of it; a correction moves only the one above.
    pub counted: Clock,
    /// The entries that ended it, taken back or not: taking them back opens it again.
    pub endings: Vec<EntryId>,
    /// One of them stands.
    pub ended: bool,
    pub away: BTreeSet<PlayerId>,
    /// Who was noted away while something was counted: came late, went early, or was away for a while.
    pub in_part: BTreeSet<PlayerId>,
    /// Who was with whom, one round after another.
    pub rounds: Vec<Groups>,
    /// What was planned, and how long each part of it went on.
    pub plan: Option<PlanDone>,
    /// Its notes and questions as they stand, whole: they are read by child and by tag over all practices.
    pub remarks: Vec<Remark>,
    /// The entries that wrote them, those taken back too: a later change of one belongs here.
    pub remark_ids: Vec<EntryId>,
    /// Whom children were counted under when it was made: once that changes, it is made again.
    pub same: Same,
    pub runs: Vec<RunSummary>,
}

#[derive(Clone, Debug, PartialEq)]
pub struct RunSummary {
    pub run: RunId,
    pub drill: Option<DrillId>,
    pub name: String,
    pub skill: Skill,
    pub started: Stamp,
    /// Of the main line, as all that follows but `beside`.
    pub n_contacts: u32,
    /// From the first contact or rally to the last.
    pub span_ms: u64,
    pub everyone: Counts,
    pub children: Vec<(PlayerId, Counts)>,
    /// The order in which the children stood at the end, for next time.
    pub order: Vec<PlayerId>,
    /// Groups with somebody in them at the end.
    pub n_groups: usize,
    pub joint: u16,
    pub duel: Duel,
    /// Who touched a ball, in whatever role.
    pub touches: Vec<(PlayerId, Touches)>,
    /// What everyone reached together, where that is what the drill is played for.
    pub together: Option<Reached>,
    /// What other pages counted at the same time: perhaps the same balls, so it is never added.
    pub beside: Counts,
    /// Rallies among it.
    pub rallies_beside: u32,
    /// And a match's serves and passes, which are no tries.
    pub noted_beside: u32,
    pub game: Option<GameSummary>,
    /// Balls given alike, counted together: what levels are worked out from.
    pub lots: Vec<Lot>,
    /// Who met whom: what ratings are worked out from.
    pub met: Met,
    /// Balls that a child and the coach judged both; beside the main line too, where they are nobody's tries.
    pub checks: Checks,
    /// Overhead swings and jumps that are noted.
    pub loads: Vec<Load>,
    /// Efforts that have a child, alike counted together.
    pub efforts: Vec<EffortsAlike>,
}

/// Noticed efforts of one child and one kind.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct EffortsAlike {
    pub player: PlayerId,
    /// `None`: no kind was given.
    pub kind: Option<String>,
    pub n: u32,
}

/// What was played, where it was a game.
#[derive(Clone, Debug, PartialEq)]
pub struct GameSummary {
    pub n_rallies: u32,
    /// Of winners stay: games played out.
    pub n_games: u32,
    /// Of a match: points of the near side and of the far side.
    pub points: Option<(u32, u32)>,
    pub children: Vec<GameChild>,
    /// Of a match whose serves or passes were noted: each skill by itself, and by itself what was a drill's.
    pub noted: Vec<(PlayerId, Noted)>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct GameChild {
    pub player: PlayerId,
    pub n_rallies: u32,
    pub court_ms: u32,
    pub n_won: u32,
}

/// A total or row of everyone together, and what it was of: only the same is compared.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Reached {
    pub row: bool,
    pub balls: Option<u16>,
    pub best: u32,
}

impl Reached {
    pub fn of(run: &RunState) -> Option<Reached> {
        let Rule::Together(Together { row, balls, .. }) = run.spec.rule else { return None };
        let best = run.main.score.rule().standing(Who::Everyone).best;
        Some(Reached { row, balls, best })
    }

    /// Whether it was reached by the same rule, of as many balls.
    pub fn is_of(&self, rule: &Together) -> bool {
        self.row == rule.row && self.balls == rule.balls
    }
}

#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Counts {
    pub easy: Count,
    pub challenge: Count,
    pub told: Count,
    /// Of these, judged while the coach watched one child alone.
    pub watched: Count,
    pub best_easy: u32,
    pub best_challenge: u32,
    pub n_no_chance: u32,
    /// Good ones counted where the others aren't.
    pub n_counted: u32,
    pub n_efforts: u32,
}

impl Counts {
    pub fn of(tally: &Tally) -> Counts {
        let (easy, challenge) = (tally.of(Some(FeedKind::Easy)), tally.of(Some(FeedKind::Challenge)));
        Counts {
            easy: easy.count,
            challenge: challenge.count,
            told: tally.told(),
            watched: tally.watched(),
            best_easy: easy.rows.best(),
            best_challenge: challenge.rows.best(),
            n_no_chance: tally.n_no_chance,
            n_counted: tally.n_counted,
            n_efforts: tally.n_efforts,
        }
    }

    /// Of both kinds of balls together: how much was counted, never how well.
    pub fn tries(&self) -> u32 {
        (self.easy + self.challenge + self.told).tries()
    }

    /// Tries, and good ones counted where there are none: whether there is anything to tell of.
    pub fn n_noted(&self) -> u32 {
        self.tries() + self.n_counted
    }

    /// Good ones of every kind.
    pub fn good(&self) -> u32 {
        (self.easy + self.challenge + self.told).good() + self.n_counted
    }

    /// What may be told: one count, or easy and challenge balls apart where there are both.
    pub fn apart(&self) -> Vec<(Option<FeedKind>, Count)> {
        let (easy, challenge) = (self.easy + self.told, self.challenge);
        if easy.tries() > 0 && challenge.tries() > 0 {
            vec![(Some(FeedKind::Easy), easy), (Some(FeedKind::Challenge), challenge)]
        } else {
            vec![(None, easy + challenge)]
        }
    }
}

impl Add for Counts {
    type Output = Counts;

    fn add(self, other: Counts) -> Counts {
        Counts {
            easy: self.easy + other.easy,
            challenge: self.challenge + other.challenge,
            told: self.told + other.told,
            watched: self.watched + other.watched,
            best_easy: self.best_easy.max(other.best_easy),
            best_challenge: self.best_challenge.max(other.best_challenge),
            n_no_chance: self.n_no_chance + other.n_no_chance,
            n_counted: self.n_counted + other.n_counted,
            n_efforts: self.n_efforts + other.n_efforts,
        }
    }
}

impl RunSummary {
    /// The main line; what stands beside it is told apart.
    pub fn of(run: &RunState) -> RunSummary {
        RunSummary {
            run: run.id,
            drill: run.drill,
            name: run.spec.name.clone(),
            skill: run.spec.skill.clone(),
            started: run.started,
            n_contacts: u32::try_from(run.main.contacts.len()).unwrap_or(u32::MAX),
            span_ms: span_ms(&run.main),
            everyone: Counts::of(&run.main.everyone),
            children: run.main.by_child.iter().map(|(player, tally)| (*player, Counts::of(tally))).collect(),
            order: run.main.lineup.everyone().collect(),
            n_groups: run.main.lineup.groups.iter().filter(|group| !group.is_empty()).count(),
            joint: run.main.transition().map_or(0, |score| score.joint),
            duel: run.main.transition().map_or_else(Duel::default, |score| score.duel),
            touches: run.main.touches.iter().collect(),
            together: Reached::of(run),
            beside: run.counted_beside(),
            rallies_beside: run.rallies_beside(),
            noted_beside: run.noted_beside(),
            game: GameSummary::of(&run.main),
            lots: lots(&run.main, &run.spec.skill),
            met: met(&run.main),
            checks: checks(run),
            loads: loads(&run.main),
            efforts: EffortsAlike::of(&run.main),
        }
    }
}

impl EffortsAlike {
    pub fn of(part: &Part) -> Vec<EffortsAlike> {
        let mut all: Vec<EffortsAlike> = Vec::new();
        for effort in &part.efforts {
            let Some(player) = effort.player else { continue };
            match all.iter_mut().find(|alike| alike.player == player && alike.kind == effort.kind) {
                Some(alike) => alike.n += 1,
                None => all.push(EffortsAlike { player, kind: effort.kind.clone(), n: 1 }),
            }
        }
        all
    }
}

impl GameSummary {
    pub fn of(part: &Part) -> Option<GameSummary> {
        let (shares, n_games, points) = match &part.score {
            Score::WinnersStay(score) => (&score.shares, score.n_games, None),
            Score::MatchGame(score) => (&score.shares, 0, Some((score.points(Side::Near), score.points(Side::Far)))),
            _ => return None,
        };
        let child = |(player, played): (PlayerId, Played)| GameChild {
            player,
            n_rallies: played.n_rallies,
            court_ms: played.court_ms,
            n_won: played.n_won,
        };
        Some(GameSummary {
            n_rallies: u32::try_from(part.rallies.len()).unwrap_or(u32::MAX),
            n_games,
            points,
            children: shares.iter().map(child).collect(),
            noted: part.score.match_game().map_or_else(Vec::new, |score| score.noted.children().to_vec()),
        })
    }
}

impl PracticeSummary {
    pub fn of<'a>(practice: &Practice, runs: impl Iterator<Item = &'a RunState>) -> PracticeSummary {
        let runs: Vec<&RunState> = runs.collect();
        PracticeSummary {
            practice: practice.id,
            title: practice.title.clone(),
            started: practice.started,
            clock: Clock::default(),
            counted: Clock::default(),
            endings: practice.endings.clone(),
            ended: practice.ended,
            away: practice.away.clone(),
            in_part: in_part(practice, &runs),
            rounds: Vec::new(),
            plan: None,
            remarks: Vec::new(),
            remark_ids: practice.remarks.clone(),
            same: Same::default(),
            runs: runs.into_iter().map(RunSummary::of).collect(),
        }
    }

    /// With the highest clocks among this phone's own entries of it: of all, and of those that count something.
    pub fn with_clocks<'a>(self, own: impl Iterator<Item = &'a Entry>) -> PracticeSummary {
        let (mut clock, mut counted) = (Clock::default(), Clock::default());
        for entry in own {
            clock = clock.max(entry.clock);
            if entry.fact.is_counted() {
                counted = counted.max(entry.clock);
            }
        }
        PracticeSummary { clock, counted, ..self }
    }

    /// With who was with whom.
    pub fn with_rounds(self, rounds: Vec<Groups>) -> PracticeSummary {
        PracticeSummary { rounds, ..self }
    }

    /// With whom children were counted under.
    pub fn with_same(self, same: Same) -> PracticeSummary {
        PracticeSummary { same, ..self }
    }

    pub fn with_plan(self, plan: Option<PlanDone>) -> PracticeSummary {
        PracticeSummary { plan, ..self }
    }

    pub fn with_remarks(self, remarks: Vec<Remark>) -> PracticeSummary {
        PracticeSummary { remarks, ..self }
    }

    /// Contacts, told counts and rallies, of all runs.
    pub fn n_counted(&self) -> usize {
        let of = |run: &RunSummary| {
            let told = usize::from(run.everyone.told.tries() > 0) * run.children.len();
            let beside = run.beside.n_noted() + run.beside.n_no_chance + run.noted_beside;
            run.n_contacts as usize + told + beside as usize
        };
        self.runs.iter().map(of).sum::<usize>() + self.n_rallies()
    }

    /// Those beside too.
    pub fn n_rallies(&self) -> usize {
        let of = |run: &RunSummary| run.game.as_ref().map_or(0, |game| game.n_rallies) + run.rallies_beside;
        self.runs.iter().map(|run| of(run) as usize).sum()
    }
}

impl PracticeSummary {
    /// Who stood in the order of a run, or of whom something was counted, each once.
    pub fn everyone(&self) -> Vec<PlayerId> {
        let mut all: Vec<PlayerId> = Vec::new();
        for run in &self.runs {
            let counted = run.children.iter().map(|(player, _)| *player);
            let touched = run.touches.iter().map(|(player, _)| *player);
            let played = run.game.iter().flat_map(|game| &game.children).map(|child| child.player);
            for player in run.order.iter().copied().chain(counted).chain(touched).chain(played) {
                if !all.contains(&player) {
                    all.push(player);
                }
            }
        }
        all
    }

    /// Whether a child was in it for a while: it stood in the order of a run, or something was noted of it. What the practice ended
    /// with says nothing of that.
    pub fn took_part(&self, player: PlayerId) -> bool {
        self.runs.iter().any(|run| run.took_part(player))
    }

    /// Balls whose count was told for a child, in all runs.
    pub fn told(&self, player: PlayerId) -> u32 {
        let of = self.runs.iter().flat_map(|run| &run.children).filter(|(child, _)| *child == player);
        of.map(|(_, counts)| counts.told.tries()).sum()
    }
}

impl RunSummary {
    fn took_part(&self, player: PlayerId) -> bool {
        let noted = |counts: &Counts| counts.n_noted() + counts.n_no_chance + counts.n_efforts > 0;
        let played = |game: &GameSummary| game.children.iter().any(|c| c.player == player && c.n_rallies > 0);
        self.order.contains(&player)
            || self.children.iter().any(|(child, counts)| *child == player && noted(counts))
            || self.touches.iter().any(|(child, touches)| *child == player && touches.all() > 0)
            || self.game.as_ref().is_some_and(played)
    }

    /// Balls or rallies, how long they took, and with whom: what the squad's own pace is. `None` where there were too few to tell, or good
    /// ones alone were counted, which say nothing of how many balls there were.
    pub fn paced(&self) -> Option<Pace> {
        const LEAST: u32 = 10;
        let n = self.game.as_ref().map_or(self.n_contacts, |game| game.n_rallies);
        // From the first to the last there is one wait fewer than there are balls.
        let tells = n > LEAST && self.span_ms > 0 && self.everyone.n_counted == 0;
        tells.then(|| Pace { n: n - 1, ms: self.span_ms, n_children: self.order.len(), n_groups: self.n_groups })
    }
}

/// A tap that was a mistake and is taken back before the next ball leaves a child as one that was there.
fn in_part(practice: &Practice, runs: &[&RunState]) -> BTreeSet<PlayerId> {
    let mut found = BTreeSet::new();
    for (i, (player, from_ms, here)) in practice.moves.iter().enumerate() {
        if *here {
            continue;
        }
        let next = practice.moves.get(i + 1).filter(|(of, ..)| of == player);
        let until_ms = next.map_or(i64::MAX, |(_, wall_ms, _)| *wall_ms);
        if runs.iter().any(|run| counted_between(run, *from_ms, until_ms)) {
            found.insert(*player);
        }
    }
    found
}

/// Balls and rallies by their own time; of numbers told, whose balls nobody saw, by that of the run's start.
fn counted_between(run: &RunState, from_ms: i64, until_ms: i64) -> bool {
    let within = |at: &Stamp| (from_ms..until_ms).contains(&at.wall_ms);
    let part = &run.main;
    part.contacts.iter().any(|c| within(&c.at))
        || part.rallies.iter().any(|r| within(&r.at))
        || part.everyone.told().tries() > 0 && within(&run.started)
}

/// By the wall, whose hours go on whoever writes; one that was turned back counts nothing.
pub fn span_ms(part: &Part) -> u64 {
    let contacts = part.contacts.first().zip(part.contacts.last()).map(|(a, b)| (a.at, b.at));
    let rallies = part.rallies.first().zip(part.rallies.last()).map(|(a, b)| (a.at, b.at));
    let span = rallies.or(contacts).map_or(0, |(from, to)| to.wall_ms.saturating_sub(from.wall_ms));
    u64::try_from(span).unwrap_or(0)
}
