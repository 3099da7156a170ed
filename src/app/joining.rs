//! Children who may have been entered twice: which pairs are put to the coach, and what she says. Nothing is joined by itself.

use std::collections::BTreeSet;

use super::model::Model;
use crate::domain::ids::{EntryId, PlayerId, PracticeId};
use crate::domain::replay::base::Player;
use crate::domain::roster::{Likeness, likeness};
use crate::stats::arrange::arranged;

/// A tap on the screens of pairs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum JoiningTap {
    /// One child; this one stays.
    Same {
        stays: PlayerId,
        also: PlayerId,
    },
    Two {
        one: PlayerId,
        other: PlayerId,
    },
    /// One practice; it is read under this one.
    OnePractice {
        stays: PracticeId,
        also: PracticeId,
    },
    TwoPractices {
        one: PracticeId,
        other: PracticeId,
    },
    /// What was said is no longer said.
    TakenBack(EntryId),
}

/// Two who may be one. Who was entered on this phone comes first, else who was added first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct MayBeOne {
    pub one: PlayerId,
    pub other: PlayerId,
    pub like: Likeness,
}

/// Pairs that are like each other and of which nothing was said, the likeliest first. Two who were added by one page are two to whoever
/// typed them, and two who stood in one run can't be one.
pub fn may_be_one(model: &Model) -> Vec<MayBeOne> {
    let squad = model.base.players();
    let settled = settled(model);
    let mut found = Vec::new();
    for (i, other) in squad.iter().enumerate() {
        for one in &squad[..i] {
            if one.id.0.series == other.id.0.series || one.archived && other.archived {
                continue;
            }
            let Some(like) = likeness(entered(one), entered(other)) else { continue };
            if !settled.contains(&ordered(one.id, other.id)) {
                let is_own = |player: &Player| model.own.get(player.id.0).is_some();
                let (one, other) = if is_own(other) && !is_own(one) { (other, one) } else { (one, other) };
                found.push(MayBeOne { one: one.id, other: other.id, like });
            }
        }
    }
    if !found.is_empty() {
        let apart = side_by_side(model);
        found.retain(|pair| !apart.iter().any(|run| run.contains(&pair.one) && run.contains(&pair.other)));
    }
    arranged(found, |a: &MayBeOne, b| a.like.cmp(&b.like))
}

fn entered(player: &Player) -> (&str, Option<crate::domain::ids::ShirtNumber>) {
    (&player.name, player.number)
}

/// Pairs that the coach has spoken of, under those who stay.
fn settled(model: &Model) -> BTreeSet<(PlayerId, PlayerId)> {
    let same = model.base.same();
    let mut settled = BTreeSet::new();
    settled.extend(model.base.pairs().iter().map(|pair| ordered(same.of(pair.one), same.of(pair.other))));
    settled
}

/// Who stood in a run, run by run.
fn side_by_side(model: &Model) -> Vec<Vec<PlayerId>> {
    let loose = model.runs.values().map(|run| run.everyone());
    let packed = model.packed.values().flat_map(|packed| &packed.summary.runs);
    let packed = packed.map(|run| {
        let counted = run.children.iter().map(|(player, _)| *player);
        run.order.iter().copied().chain(counted).collect()
    });
    loose.chain(packed).collect()
}

fn ordered(one: PlayerId, other: PlayerId) -> (PlayerId, PlayerId) {
    if one < other { (one, other) } else { (other, one) }
}
