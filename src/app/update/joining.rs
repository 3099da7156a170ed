//! What the coach says of two who may be one. An entry each, taken back by an entry: both are remembered, neither is for good.

use super::super::effect::Effect;
use super::super::joining::JoiningTap;
use super::super::model::Model;
use super::super::screen::Screen;
use super::write;
use crate::domain::entry::Fact;
use crate::domain::ids::PlayerId;
use crate::domain::replay::joined::Pair;

/// The page of a child that another stays for is that other's.
pub fn meant(model: &Model, screen: Screen) -> Screen {
    let of = |player| model.base.same().of(player);
    match screen {
        Screen::Child(player) => Screen::Child(of(player)),
        Screen::Weeks(Some(player)) => Screen::Weeks(Some(of(player))),
        Screen::Home(player) => Screen::Home(of(player)),
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
        JoiningTap::TakenBack(target) if base.is_taken_back(target) => return Vec::new(),
        JoiningTap::TakenBack(target) => {
            Fact::EntryTakenBack { run: None, target, revision: base.next_take_back(target), back: true }
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

fn said(model: &mut Model, facts: Vec<Fact>) -> Vec<Effect> {
    let mut effects = write(model, facts);
    effects.extend(super::wanted_by_screen(model));
    effects
}
