//! The list of a run's contacts, to change child, outcome or step of any of them.

use super::{BesideContacts, ContactRow, ContactsView, EffortChoice, EffortRow, FixView, RallyRow, TakenRow};
use crate::app::model::Model;
use crate::app::update::{can_shift, kinds};
use crate::app::view::board::undo_line;
use crate::app::words::{self, counts};
use crate::domain::drill::{Board, DrillSpec, Rule};
use crate::domain::entry::{Fact, Rally, Side};
use crate::domain::ids::{ContactId, PlayerId, RunId};
use crate::domain::log::Order;
use crate::domain::replay::part::{Counted, CountedRally, Effort, Part};
use crate::domain::replay::run::RunState;
use crate::domain::skill::{FeedKind, Outcome, PassGrade, ServeOutcome, Skill};
use crate::stats::arrange::arranged;

pub fn contacts(model: &Model, id: RunId) -> Option<ContactsView> {
    let run = model.runs.get(&id)?;
    let fixing = model.board.fixing.and_then(|id| {
        run.parts().find_map(|part| {
            let i = part.contacts.iter().position(|c| c.id == id)?;
            Some(fix(model, run, numbers(part)[i], &part.contacts[i]))
        })
    });
    let beside = run
        .beside
        .iter()
        .map(|(_, part)| BesideContacts { rows: rows(model, &run.spec, part), efforts: efforts(model, run, part) });
    Some(ContactsView {
        run: id,
        on: !run.main.finished,
        title: run.spec.name.clone(),
        unnumbered: run.main.contacts.iter().any(|c| c.contact.good_from.judge(c.contact.outcome).is_none()),
        told: run.main.everyone.told().tries() > 0,
        rows: rows(model, &run.spec, &run.main),
        fix: fixing,
        efforts: efforts(model, run, &run.main),
        rallies: rallies(model, run),
        beside: beside.collect(),
        taken_back: taken_back(model, run),
        can_undo: undo(model, run),
    })
}

fn rows(model: &Model, spec: &DrillSpec, part: &Part) -> Vec<ContactRow> {
    part.contacts.iter().zip(numbers(part)).rev().map(|(c, no)| row(model, spec, no, c)).collect()
}

/// Tries are numbered, so that the last number is the one that the figures name ("good of 22"). What is nobody's try has none.
fn numbers(part: &Part) -> Vec<Option<u32>> {
    let mut n_tries = 0;
    let number = |c: &Counted| {
        c.contact.good_from.judge(c.contact.outcome)?;
        n_tries += 1;
        Some(n_tries)
    };
    part.contacts.iter().map(number).collect()
}

fn efforts(model: &Model, run: &RunState, part: &Part) -> Vec<EffortRow> {
    part.efforts.iter().rev().map(|e| effort(model, run, e)).collect()
}

/// By the list or by undo: nothing that was tapped is lost.
fn taken_back(model: &Model, run: &RunState) -> Vec<TakenRow> {
    let taken: Vec<(Order, TakenRow)> = run
        .entries()
        .filter(|e| run.amended.is_taken_back(e.id))
        .filter_map(|e| {
            let id = ContactId(e.id);
            if let Fact::RallyNoted { rally, .. } = &e.fact {
                let line = rally_line(model, rally);
                let row = TakenRow { contact: id, is_rally: true, line, when: counts::time_s(e.at) };
                return Some((e.order(), row));
            }
            let Fact::ContactNoted { contact, .. } = &e.fact else { return None };
            let fixed = run.amended.contact(id);
            let (player, outcome) = fixed.map_or((contact.player, contact.outcome), |f| (f.player, f.outcome));
            let who = player.map(|p| model.name_of(p)).or(contact.group.map(words::board_lines::group_name));
            let line = match who {
                Some(who) if run.spec.rule.is_game() => format!("{who}, {}", words::in_match::outcome(outcome)),
                who => words::board_lines::contact(who.as_deref(), outcome),
            };
            Some((e.order(), TakenRow { contact: id, is_rally: false, line, when: counts::time_s(e.at) }))
        })
        .collect();
    arranged(taken, |(a, _), (b, _)| b.cmp(a)).into_iter().map(|(_, row)| row).collect()
}

fn rallies(model: &Model, run: &RunState) -> Vec<RallyRow> {
    let is_match = matches!(run.spec.rule, Rule::MatchGame(_));
    let sides = [Side::Near, Side::Far].map(|side| (side, words::board_lines::side(side, is_match)));
    let row = |(at, counted): (usize, &CountedRally)| RallyRow {
        rally: counted.id,
        no: (at + 1).to_string(),
        who: rally_line(model, &counted.rally),
        won: counted.rally.won,
        sides,
        when: counts::time_s(counted.at),
        corrected: counted.corrected,
    };
    run.main.rallies.iter().enumerate().rev().map(row).collect()
}

fn rally_line(model: &Model, rally: &Rally) -> String {
    let names = |team: &[PlayerId]| team.iter().map(|player| model.name_of(*player)).collect::<Vec<_>>();
    words::report::rally(&names(&rally.near), &names(&rally.far))
}

fn effort(model: &Model, run: &RunState, e: &Effort) -> EffortRow {
    let open = model.board.fixing_effort == Some(e.id);
    EffortRow {
        effort: e.id,
        who: e.player.map_or_else(|| words::report::NOBODY_NAMED.to_owned(), |p| model.name_of(p)),
        kind: e.kind.clone(),
        when: counts::time_s(e.at),
        open: open.then(|| EffortChoice {
            player: e.player,
            names: run.everyone().into_iter().map(|p| (p, model.name_of(p), e.player == Some(p))).collect(),
            kinds: kinds(model).into_iter().map(|k| (k.clone(), e.kind.as_ref() == Some(&k))).collect(),
        }),
    }
}

/// Here only a correction is taken back: the board's own undo is on the board.
fn undo(model: &Model, run: &RunState) -> Option<String> {
    let entry = run.next_undo().filter(|_| model.is_mine(run))?;
    matches!(entry.fact, Fact::ContactsCorrected { .. } | Fact::EffortCorrected { .. } | Fact::RallyCorrected { .. })
        .then(|| undo_line(model, run, entry))
}

fn row(model: &Model, spec: &DrillSpec, no: Option<u32>, c: &Counted) -> ContactRow {
    ContactRow {
        contact: c.id,
        no: no.map(|no| no.to_string()),
        who: who(model, c),
        what: what(spec, c.contact.outcome),
        when: counts::time_s(c.at),
        corrected: c.corrected,
        feed: words::report::marks(&spec.skill, &c.contact),
    }
}

/// In a match two skills are noted: which one it was is said.
fn what(spec: &DrillSpec, outcome: Outcome) -> String {
    if spec.rule.is_game() { words::in_match::outcome(outcome) } else { counts::outcome(outcome) }
}

/// The child, else the group whose ball it was.
fn who(model: &Model, c: &Counted) -> String {
    let name = c.contact.player.map(|p| model.name_of(p));
    let group = || c.contact.group.map(words::board_lines::group_name);
    name.or_else(group).unwrap_or_else(|| words::report::NOBODY_NAMED.to_owned())
}

fn fix(model: &Model, run: &RunState, no: Option<u32>, c: &Counted) -> FixView {
    let mut players = run.everyone();
    players.extend(c.contact.player.filter(|p| !players.contains(p)));
    FixView {
        contact: c.id,
        line: words::report::ball(no, &who(model, c), &what(&run.spec, c.contact.outcome)),
        players: players.into_iter().map(|p| (p, model.name_of(p), c.contact.player == Some(p))).collect(),
        outcomes: outcomes(run, c)
            .into_iter()
            .map(|outcome| (outcome, counts::outcome(outcome), c.contact.outcome == outcome))
            .collect(),
        outcome: c.contact.outcome,
        step: c.contact.feed.step.0,
        ladder: (!run.spec.rule.is_game()).then(|| run.spec.skill.clone()),
        can_shift: can_shift(run, c.id),
    }
}

/// Everything that this ball could have been on this board: an ace only where somebody receives; good or not where it knows no more;
/// where misses aren't counted no miss either, since it would be the only try. What it is now is always among them.
fn outcomes(run: &RunState, c: &Counted) -> Vec<Outcome> {
    if run.spec.board == Board::Court {
        return of_its_kind(c.contact.outcome);
    }
    let receiver =
        matches!(run.spec.board, Board::ServeLine { receiver: true, .. } | Board::ServeFloor { receiver: true, .. });
    let mut all: Vec<Outcome> = match (run.spec.board, &run.spec.skill) {
        // What was good is told there; a ball by itself is one that had no chance.
        (Board::Told { .. }, _) => Vec::new(),
        (Board::Lanes, _) => vec![Outcome::Counted],
        (board, skill) if board.is_two_key() || matches!(skill, Skill::Own(_)) => {
            [true, false].map(|good| Outcome::TwoKey { good }).to_vec()
        }
        (_, Skill::Serve) => [false, true]
            .into_iter()
            .flat_map(|fast| ServeOutcome::ALL.map(|outcome| Outcome::Serve { outcome, fast }))
            .filter(|outcome| receiver || !is_ace(*outcome) || *outcome == c.contact.outcome)
            .collect(),
        (_, Skill::Pass | Skill::Own(_)) => grades().to_vec(),
    };
    if c.contact.turn.is_some() && c.contact.feed.kind == FeedKind::Challenge {
        all.push(Outcome::ServeMissed);
    }
    all.push(Outcome::NoChance);
    if !all.contains(&c.contact.outcome) {
        all.insert(0, c.contact.outcome);
    }
    all
}

/// A serve of a match was a serve, whatever came of it, and a pass a pass.
fn of_its_kind(outcome: Outcome) -> Vec<Outcome> {
    match outcome {
        Outcome::Serve { fast, .. } => ServeOutcome::ALL.map(|outcome| Outcome::Serve { outcome, fast }).to_vec(),
        Outcome::Pass { .. } => grades().to_vec(),
        other => vec![other],
    }
}

fn grades() -> [Outcome; 5] {
    let [stood, moved, chased, gone] = PassGrade::ALL.map(|grade| Outcome::Pass { grade, over_net: false });
    [stood, moved, chased, gone, Outcome::Pass { grade: PassGrade::Gone, over_net: true }]
}

const fn is_ace(outcome: Outcome) -> bool {
    matches!(outcome, Outcome::Serve { outcome: ServeOutcome::Ace, .. })
}
