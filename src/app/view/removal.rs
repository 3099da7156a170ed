//! A child that is to be removed for good: asked first, then what it does, then held.

use super::super::model::Model;
use super::super::screen::Screen;
use super::super::update::removal::{notes_of, waits};
use super::super::words::removal as words;
use crate::domain::ids::PlayerId;

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RemovalView {
    pub player: PlayerId,
    /// It was tapped once: what it does.
    pub asked: Option<Asked>,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Asked {
    pub lines: Vec<String>,
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
    let notes = notes_of(model, player);
    let n_about = notes.iter().filter(|remark| remark.is_of(player)).count();
    let mut lines = vec![words::goes(&name)];
    lines.extend(words::notes(n_about, notes.len() - n_about));
    lines.extend([words::STAYS, words::COPIES, words::LEFT].map(str::to_owned));
    Asked { lines, hold: words::hold(&name), waits: waits(model).then_some(words::WAITS) }
}
