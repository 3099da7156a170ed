//! The summary of a packed practice as JSON. Derived, never sent: a summary of another folding or one that can't be read is made
//! again from its block, so this needs no migrations.

use std::collections::BTreeSet;

use serde::{Deserialize, Serialize};

use super::{lots, met, plan, record};
use crate::domain::checks::Checks;
use crate::domain::entry::{Entry, Fact};
use crate::domain::ids::{Clock, DrillId, EntryId, PartNo, PlanId, PlayerId, PracticeId, RunId};
use crate::domain::load::Load;
use crate::domain::met::Met;
use crate::domain::notes::{Remark, What};
use crate::domain::plan::PlanDone;
use crate::domain::same::Same;
use crate::domain::scoring::noted::Noted;
use crate::domain::scoring::transition::Duel;
use crate::domain::skill::Skill;
use crate::domain::summary::{
    Count, Counts, EffortsAlike, FOLD_VERSION, GameChild, GameSummary, PracticeSummary, Reached, RunSummary,
};
use crate::domain::time::Stamp;
use crate::domain::touches::Touches;

#[derive(Serialize, Deserialize)]
struct Practice {
    fold: u32,
    id: String,
    title: String,
    at: (i64, i16, u64),
    clock: u64,
    counted: u64,
    endings: Vec<String>,
    ended: bool,
    away: Vec<String>,
    /// Noted away for a part of it.
    in_part: Vec<String>,
    rounds: Vec<Vec<Vec<String>>>,
    plan: Option<Planned>,
    /// Each as the record that would write it now.
    remarks: Vec<String>,
    remark_ids: Vec<String>,
    /// Of children who are one: who is meant, and by whom it stays.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    same: Vec<(String, String)>,
    runs: Vec<Run>,
}

/// Identity of the plan, the plan as in a record, of each part its milliseconds, and what was taken out by its name.
type Planned = (String, String, Vec<(u32, Option<u32>)>, Vec<(u32, String)>);

#[derive(Serialize, Deserialize)]
struct Run {
    id: String,
    drill: Option<String>,
    name: String,
    /// `pass`, `serve`, or `own` and a name.
    skill: (String, String),
    at: (i64, i16, u64),
    contacts: u32,
    span: u64,
    all: Line,
    children: Vec<(String, Line)>,
    order: Vec<String>,
    groups: usize,
    joint: u16,
    duel: (u16, u16),
    /// Judged, fed, caught, fetched.
    touches: Vec<(String, [u32; 4])>,
    /// One row or a total, of how many balls, what was reached.
    together: Option<(bool, Option<u16>, u32)>,
    beside: Line,
    rallies_beside: u32,
    /// A match's serves and passes.
    noted_beside: u32,
    game: Option<Game>,
    lots: Vec<(String, Vec<lots::Row>)>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    met: Option<met::Text>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    checks: Option<met::ChecksText>,
    /// Child, overhead swings, jumps.
    loads: Vec<(String, u32, u32)>,
    /// Child, kind of effort, how many.
    efforts: Vec<(String, Option<String>, u32)>,
}

#[derive(Serialize, Deserialize)]
struct Game {
    rallies: u32,
    games: u32,
    points: Option<(u32, u32)>,
    /// Child, rallies and milliseconds on the court, games won.
    children: Vec<(String, u32, u32, u32)>,
    /// Child, serves by outcome (ace, in, long, wide, net), passes by grade (0 to 3).
    noted: Vec<(String, [u32; 5], [u32; 4])>,
}

/// Easy good, easy tries, challenge good and tries, told good and tries, watched good and tries, best row of
/// either kind, no chance, efforts, good ones counted where the others aren't.
type Line = [u32; 13];

pub fn encode(summary: &PracticeSummary) -> String {
    let practice = Practice {
        fold: FOLD_VERSION,
        id: summary.practice.0.to_string(),
        title: summary.title.clone(),
        at: at(summary.started),
        clock: summary.clock.0,
        counted: summary.counted.0,
        endings: summary.endings.iter().map(EntryId::to_string).collect(),
        ended: summary.ended,
        away: summary.away.iter().map(|p| p.0.to_string()).collect(),
        in_part: summary.in_part.iter().map(|p| p.0.to_string()).collect(),
        rounds: summary
            .rounds
            .iter()
            .map(|round| round.iter().map(|group| group.iter().map(|p| p.0.to_string()).collect()).collect())
            .collect(),
        plan: summary.plan.as_ref().map(|done| {
            let ms = done.done.iter().map(|(part, ms)| (part.0, *ms)).collect();
            let out = done.out.iter().map(|(part, title)| (part.0, title.clone())).collect();
            (done.id.0.to_string(), plan::text(&done.plan), ms, out)
        }),
        remarks: summary.remarks.iter().map(|remark| record::encode(&written(remark))).collect(),
        remark_ids: summary.remark_ids.iter().map(EntryId::to_string).collect(),
        same: same_text(&summary.same),
        runs: summary.runs.iter().map(run).collect(),
    };
    // Plain fields always serialise; an empty text is read as "make it again".
    serde_json::to_string(&practice).unwrap_or_default()
}

/// `None`: of another folding, or not to be read. It is then made again from the block.
pub fn decode(text: &str) -> Option<PracticeSummary> {
    let practice: Practice = serde_json::from_str(text).ok()?;
    if practice.fold != FOLD_VERSION {
        return None;
    }
    let player = |text: &String| EntryId::from_text(text).map(PlayerId);
    let group = |group: &Vec<String>| group.iter().map(player).collect::<Option<Vec<_>>>();
    let round = |round: &Vec<Vec<String>>| round.iter().map(group).collect::<Option<Vec<_>>>();
    let all = |texts: &[String]| {
        let mut players = BTreeSet::new();
        for text in texts {
            players.insert(player(text)?);
        }
        Some(players)
    };
    Some(PracticeSummary {
        practice: PracticeId(EntryId::from_text(&practice.id)?),
        title: practice.title,
        started: stamp(practice.at),
        clock: Clock(practice.clock),
        counted: Clock(practice.counted),
        endings: practice.endings.iter().map(|e| EntryId::from_text(e)).collect::<Option<_>>()?,
        ended: practice.ended,
        away: all(&practice.away)?,
        in_part: all(&practice.in_part)?,
        rounds: practice.rounds.iter().map(round).collect::<Option<_>>()?,
        plan: match practice.plan {
            Some((id, text, ms, out)) => Some(PlanDone {
                id: PlanId(EntryId::from_text(&id)?),
                plan: plan::of_text(&text)?,
                done: ms.into_iter().map(|(part, ms)| (PartNo(part), ms)).collect(),
                out: out.into_iter().map(|(part, title)| (PartNo(part), title)).collect(),
            }),
            None => None,
        },
        remarks: practice.remarks.iter().map(|text| remark_back(text)).collect::<Option<_>>()?,
        remark_ids: practice.remark_ids.iter().map(|id| EntryId::from_text(id)).collect::<Option<_>>()?,
        same: same_of_text(&practice.same)?,
        runs: practice.runs.into_iter().map(run_back).collect::<Option<_>>()?,
    })
}

/// Who is meant and by whom it stays, as text.
pub fn same_text(same: &Same) -> Vec<(String, String)> {
    same.pairs().iter().map(|(also, stays)| (also.0.to_string(), stays.0.to_string())).collect()
}

/// `None` where one is no identity.
pub fn same_of_text(pairs: &[(String, String)]) -> Option<Same> {
    let player = |text: &str| EntryId::from_text(text).map(PlayerId);
    let pairs = pairs.iter().map(|(also, stays)| Some((player(also)?, player(stays)?)));
    pairs.collect::<Option<Vec<_>>>().map(Same::new)
}

/// A note or question as if it were written as it stands.
fn written(remark: &Remark) -> Entry {
    let spot = remark.spot;
    let fact = match &remark.what {
        What::Note(note) => Fact::NoteWritten { spot, note: note.clone() },
        What::Asked(asked) => Fact::QuestionAsked { spot, asked: asked.clone() },
    };
    Entry { id: remark.id, clock: Clock::default(), at: remark.at, fact, extra: None }
}

fn remark_back(text: &str) -> Option<Remark> {
    let entry = record::decode(text).ok()?;
    let (spot, what) = match entry.fact {
        Fact::NoteWritten { spot, note } => (spot, What::Note(note)),
        Fact::QuestionAsked { spot, asked } => (spot, What::Asked(asked)),
        _ => return None,
    };
    Some(Remark { id: entry.id, at: entry.at, spot, what })
}

fn run(run: &RunSummary) -> Run {
    Run {
        id: run.run.0.to_string(),
        drill: run.drill.map(|d| d.0.to_string()),
        name: run.name.clone(),
        skill: match &run.skill {
            Skill::Pass => ("pass".to_owned(), String::new()),
            Skill::Serve => ("serve".to_owned(), String::new()),
            Skill::Own(name) => ("own".to_owned(), name.clone()),
        },
        at: at(run.started),
        contacts: run.n_contacts,
        span: run.span_ms,
        all: line(&run.everyone),
        children: run.children.iter().map(|(p, counts)| (p.0.to_string(), line(counts))).collect(),
        order: run.order.iter().map(|p| p.0.to_string()).collect(),
        groups: run.n_groups,
        joint: run.joint,
        duel: (run.duel.passers, run.duel.servers),
        touches: run.touches.iter().map(|(p, t)| (p.0.to_string(), [t.judged, t.fed, t.caught, t.fetched])).collect(),
        together: run.together.map(|t| (t.row, t.balls, t.best)),
        beside: line(&run.beside),
        rallies_beside: run.rallies_beside,
        noted_beside: run.noted_beside,
        game: run.game.as_ref().map(|game| Game {
            rallies: game.n_rallies,
            games: game.n_games,
            points: game.points,
            children: game
                .children
                .iter()
                .map(|c| (c.player.0.to_string(), c.n_rallies, c.court_ms, c.n_won))
                .collect(),
            noted: game.noted.iter().map(|(p, noted)| (p.0.to_string(), noted.serves, noted.passes)).collect(),
        }),
        lots: lots::rows(&run.lots),
        met: met::Text::of(&run.met),
        checks: met::checks_text(&run.checks),
        loads: run.loads.iter().map(|load| (load.player.0.to_string(), load.swings, load.jumps)).collect(),
        efforts: run.efforts.iter().map(|e| (e.player.0.to_string(), e.kind.clone(), e.n)).collect(),
    }
}

fn run_back(run: Run) -> Option<RunSummary> {
    let player = |text: &String| EntryId::from_text(text).map(PlayerId);
    Some(RunSummary {
        run: RunId(EntryId::from_text(&run.id)?),
        drill: match run.drill {
            Some(text) => Some(DrillId(EntryId::from_text(&text)?)),
            None => None,
        },
        name: run.name,
        skill: match run.skill.0.as_str() {
            "pass" => Skill::Pass,
            "serve" => Skill::Serve,
            "own" => Skill::Own(run.skill.1),
            _ => return None,
        },
        started: stamp(run.at),
        n_contacts: run.contacts,
        span_ms: run.span,
        everyone: line_back(run.all)?,
        children: run.children.iter().map(|(p, l)| Some((player(p)?, line_back(*l)?))).collect::<Option<_>>()?,
        order: run.order.iter().map(player).collect::<Option<_>>()?,
        n_groups: run.groups,
        joint: run.joint,
        duel: Duel { passers: run.duel.0, servers: run.duel.1 },
        touches: run.touches.iter().map(|(p, t)| Some((player(p)?, touches_back(*t)))).collect::<Option<_>>()?,
        together: run.together.map(|(row, balls, best)| Reached { row, balls, best }),
        beside: line_back(run.beside)?,
        rallies_beside: run.rallies_beside,
        noted_beside: run.noted_beside,
        game: match run.game {
            Some(game) => Some(game_back(&game)?),
            None => None,
        },
        lots: lots::rows_back(&run.lots)?,
        met: match &run.met {
            Some(text) => text.back()?,
            None => Met::default(),
        },
        checks: match &run.checks {
            Some(text) => met::checks_back(text)?,
            None => Checks::default(),
        },
        loads: run
            .loads
            .iter()
            .map(|(child, swings, jumps)| Some(Load { player: player(child)?, swings: *swings, jumps: *jumps }))
            .collect::<Option<_>>()?,
        efforts: run
            .efforts
            .into_iter()
            .map(|(child, kind, n)| Some(EffortsAlike { player: player(&child)?, kind, n }))
            .collect::<Option<_>>()?,
    })
}

fn game_back(game: &Game) -> Option<GameSummary> {
    let child = |(player, n_rallies, court_ms, n_won): &(String, u32, u32, u32)| {
        let player = PlayerId(EntryId::from_text(player)?);
        Some(GameChild { player, n_rallies: *n_rallies, court_ms: *court_ms, n_won: *n_won })
    };
    Some(GameSummary {
        n_rallies: game.rallies,
        n_games: game.games,
        points: game.points,
        children: game.children.iter().map(child).collect::<Option<_>>()?,
        noted: game.noted.iter().map(noted_back).collect::<Option<_>>()?,
    })
}

fn noted_back((player, serves, passes): &(String, [u32; 5], [u32; 4])) -> Option<(PlayerId, Noted)> {
    Some((PlayerId(EntryId::from_text(player)?), Noted { serves: *serves, passes: *passes }))
}

fn touches_back([judged, fed, caught, fetched]: [u32; 4]) -> Touches {
    Touches { judged, fed, caught, fetched }
}

fn at(stamp: Stamp) -> (i64, i16, u64) {
    (stamp.wall_ms, stamp.offset_min, stamp.mono_ms)
}

fn stamp((wall_ms, offset_min, mono_ms): (i64, i16, u64)) -> Stamp {
    Stamp { wall_ms, offset_min, mono_ms }
}

fn line(c: &Counts) -> Line {
    [
        c.easy.good(),
        c.easy.tries(),
        c.challenge.good(),
        c.challenge.tries(),
        c.told.good(),
        c.told.tries(),
        c.watched.good(),
        c.watched.tries(),
        c.best_easy,
        c.best_challenge,
        c.n_no_chance,
        c.n_efforts,
        c.n_counted,
    ]
}

fn line_back(line: Line) -> Option<Counts> {
    let [
        easy_good,
        easy,
        challenge_good,
        challenge,
        told_good,
        told,
        watched_good,
        watched,
        best_easy,
        best_challenge,
        n_no_chance,
        n_efforts,
        n_counted,
    ] = line;
    Some(Counts {
        easy: Count::new(easy_good, easy)?,
        challenge: Count::new(challenge_good, challenge)?,
        told: Count::new(told_good, told)?,
        watched: Count::new(watched_good, watched)?,
        best_easy,
        best_challenge,
        n_no_chance,
        n_counted,
        n_efforts,
    })
}
