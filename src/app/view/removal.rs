//! A child that is to be removed for good: asked first, then what it does, then held.

use std::collections::BTreeSet;

use super::super::model::Model;
use super::super::notes;
use super::super::screen::Screen;
use super::super::update::removal::{notes_of, same_child, waits};
use super::super::words::removal as words;
use crate::domain::ids::{EntryId, PlayerId};

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RemovalView {
    pub player: PlayerId,
    /// It was tapped once: what it does.
    pub asked: Option<Asked>,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Asked {
    /// "Remove Mira for good?"
    pub head: String,
    /// In one look: what goes, what stays, that there is no way back. Each with its word.
    pub look: [(&'static str, &'static str); 3],
    /// What is so of this child alone, and has to be seen: by what other names it goes, which notes go along.
    pub lines: Vec<String>,
    /// The rest, folded.
    pub more: Vec<String>,
    pub hold: String,
    /// Why it can't be now.
    pub waits: Option<&'static str>,
}

/// Of the child on screen.
pub fn removal(model: &Model) -> Option<RemovalView> {
    let Screen::Child(player) = model.screen else { return None };
    model.base.player(player)?;
    let asked = model.drafts.removal == Some(player);
    Some(RemovalView { player, asked: asked.then(|| asked_of(model, player)) })
}

fn asked_of(model: &Model, player: PlayerId) -> Asked {
    let name = model.name_of(player);
    let going = notes_of(model, player);
    // Those that she can see are counted.
    let standing: Vec<EntryId> = notes::all(model).into_iter().map(|remark| remark.id).collect();
    let n = |notes: &BTreeSet<EntryId>| notes.iter().filter(|note| standing.contains(note)).count();
    let lines = words::also(&also(model, player)).into_iter().chain(words::notes(n(&going.about), n(&going.naming)));
    let mut more =
        [words::OTHERS, words::EARLIER, words::COPIES, words::LEFT, words::LATER].map(str::to_owned).to_vec();
    more.extend(words::aside(model.storage.aside.len().saturating_sub(model.storage.other_content.len())));
    Asked {
        head: words::head(&name),
        look: [(words::GOES, words::GOES_LINE), (words::STAYS, words::STAYS_LINE), (words::NEVER, words::NEVER_LINE)],
        lines: lines.collect(),
        more,
        hold: words::hold(&name),
        waits: waits(model).then_some(words::WAITS),
    }
}

/// The same child by its other identities, each as it was entered.
fn also(model: &Model, player: PlayerId) -> Vec<String> {
    let others = same_child(model, player).into_iter().filter(|id| *id != model.base.same().of(player));
    let entered = others.filter_map(|id| model.base.as_entered(id));
    entered
        .map(|child| match child.number {
            Some(number) => format!("{} {}", child.name, number.0),
            None => child.name,
        })
        .collect()
}
