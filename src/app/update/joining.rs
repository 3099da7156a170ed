//! What the coach says of two who may be one, children or practices. An entry each, taken back by an entry: both are remembered, neither is for good.

use super::super::effect::Effect;
use super::super::joining::JoiningTap;
use super::super::model::Model;
use super::super::screen::Screen;
use super::write;
use crate::domain::entry::{Entry, Fact};
use crate::domain::ids::{EntryId, EntryNo, PlayerId, PracticeId, Revision};
use crate::domain::replay::joined::Pair;

/// The page of a child that another stays for is that other's; and the report of a practice is that of all that are one with it.
pub fn meant(model: &Model, screen: Screen) -> Screen {
    let of = |player| model.base.same().of(player);
    match screen {
        Screen::Child(player) => Screen::Child(of(player)),
        Screen::Weeks(Some(player)) => Screen::Weeks(Some(of(player))),
        Screen::Home(player) => Screen::Home(of(player)),
        Screen::PracticeReport(practice) => Screen::PracticeReport(model.read_under(practice)),
        Screen::AsOne(Some(practice)) => Screen::AsOne(Some(model.read_under(practice))),
        screen => screen,
    }
}

pub fn act(model: &mut Model, tap: JoiningTap) -> Vec<Effect> {
    let base = &model.base;
    let fact = match tap {
        // A second tap on the same key says nothing new.
        JoiningTap::Same { stays, also } if base.same().of(also) == base.same().of(stays) => return Vec::new(),
        JoiningTap::Same { stays, also } => {
            let joined = Fact::ChildrenJoined { stays, also, revision: base.next_pair_revision(stays, also) };
            return join(model, joined, stays, also);
        }
        JoiningTap::Two { one, other } => {
            let is_it = |pair: &Pair| [(pair.one, pair.other), (pair.other, pair.one)].contains(&(one, other));
            let said = |pair: &Pair| !pair.joined && is_it(pair);
            if base.pairs().iter().any(said) {
                return Vec::new();
            }
            Fact::ChildrenToldApart { one, other, revision: base.next_pair_revision(one, other) }
        }
        JoiningTap::OnePractice { stays, also } if base.as_one().are_one(stays, also) => return Vec::new(),
        // What is on here is a part of nothing else until it is over.
        JoiningTap::OnePractice { stays, also } if [stays, also].iter().any(|id| model.goes_on(*id)) => {
            return Vec::new();
        }
        JoiningTap::OnePractice { stays, also } => {
            Fact::PracticesJoined { stays, also, revision: base.next_practice_pair_revision(stays, also) }
        }
        JoiningTap::TwoPractices { one, other } => {
            let is_it =
                |pair: &Pair<PracticeId>| [(pair.one, pair.other), (pair.other, pair.one)].contains(&(one, other));
            let said = |pair: &Pair<PracticeId>| !pair.joined && is_it(pair);
            if base.practice_pairs().iter().any(said) {
                return Vec::new();
            }
            Fact::PracticesToldApart { one, other, revision: base.next_practice_pair_revision(one, other) }
        }
        JoiningTap::TakenBack(target) if base.is_taken_back(target) => return Vec::new(),
        JoiningTap::TakenBack(target) => {
            let back = Fact::EntryTakenBack { run: None, target, revision: base.next_take_back(target), back: true };
            return take_back(model, target, back);
        }
    };
    said(model, vec![fact])
}

/// Of a child that is in the squad under either name nothing says that it has left.
fn join(model: &mut Model, joined: Fact, stays: PlayerId, also: PlayerId) -> Vec<Effect> {
    let base = &model.base;
    let archived = |id| base.player(id).is_some_and(|player| player.archived);
    let mut facts = vec![joined];
    if archived(stays) && !archived(also) {
        let player = base.same().of(stays);
        facts.push(Fact::PlayerArchived { player, revision: base.next_player_revision(stays), archived: false });
    }
    said(model, facts)
}

/// A child that came into the squad with the word goes with it.
fn take_back(model: &mut Model, word: EntryId, back: Fact) -> Vec<Effect> {
    let brought = brought_by(model, word);
    let mut effects = write(model, vec![back]);
    if let Some((player, revision)) = brought.filter(|(player, _)| !is_here_too(model, *player)) {
        let revision = Revision(revision.0.saturating_add(1));
        effects.extend(write(model, vec![Fact::PlayerArchived { player, revision, archived: true }]));
    }
    effects.extend(super::wanted_by_screen(model));
    effects
}

/// Whom a word brought back, as [`join`] wrote it, if nothing was said of that since.
fn brought_by(model: &Model, word: EntryId) -> Option<(PlayerId, Revision)> {
    let entry = |id| model.own.get(id).or_else(|| model.theirs.get(id));
    let joined = entry(word).filter(|entry| matches!(entry.fact, Fact::ChildrenJoined { .. }))?;
    let next = entry(EntryId { no: EntryNo(word.no.0.checked_add(1)?), ..word })?;
    let of = |entry: &Entry| match entry.fact {
        Fact::PlayerArchived { player, revision, archived } => Some((player, (revision, entry.order()), archived)),
        _ => None,
    };
    // By the same tap; by another it was the coach who brought it back.
    let (player, rank, archived) = of(next).filter(|_| next.at == joined.at)?;
    let mut all = model.own.iter().chain(model.theirs.iter()).filter_map(of);
    let since = all.any(|(other, later, _)| other == player && later > rank);
    (!archived && !since).then_some((player, rank.0))
}

/// Whether it stays in the squad under another of its names.
fn is_here_too(model: &Model, player: PlayerId) -> bool {
    let base = &model.base;
    let is_here = |id| base.as_entered(id).is_some_and(|child| !child.archived);
    base.same().of(player) == player && base.same().all(player).any(|id| id != player && is_here(id))
}

fn said(model: &mut Model, facts: Vec<Fact>) -> Vec<Effect> {
    let mut effects = write(model, facts);
    effects.extend(super::wanted_by_screen(model));
    effects
}
