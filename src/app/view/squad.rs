//! The squad, the list that is typed or pasted, one child.

use super::super::model::Model;
use super::super::names::{Child, told_apart};
use super::super::update::read_draft;
use super::super::words::{self, counts};
use crate::domain::ids::PlayerId;
use crate::domain::replay::base::Player;
use crate::domain::roster::{self, LineRead, Note, Reading, What};
use crate::domain::skill::ServeStyle;

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SquadView {
    pub active: Vec<ChildRow>,
    pub archived: Vec<ChildRow>,
    /// The way to children who may have been entered twice, where there is something to see.
    pub twice: Option<String>,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ChildRow {
    pub player: PlayerId,
    pub name: String,
    pub number: Option<String>,
    /// The serve style, if noted.
    pub style: Option<&'static str>,
}

/// A list as typed, and how each line was understood.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RosterView {
    pub text: String,
    pub lines: Vec<RosterLine>,
    /// "9 children, 1 line not understood"
    pub summary: String,
    /// "Add 9 children"; `None`: nothing to add yet.
    pub take: Option<String>,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RosterLine {
    pub as_typed: String,
    pub read: LineView,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LineView {
    Child { name: String, number: Option<String>, note: Option<String> },
    NotUnderstood { why: String },
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ChildView {
    pub player: PlayerId,
    /// The draft as typed.
    pub name: String,
    pub number: String,
    pub style: Option<ServeStyle>,
    pub archived: bool,
    pub fault: Option<String>,
    pub changed: bool,
}

pub fn squad(model: &Model) -> SquadView {
    let (archived, active): (Vec<Player>, Vec<Player>) = model.base.players().into_iter().partition(|p| p.archived);
    let rows = |players: Vec<Player>| players.into_iter().map(|p| row(model, p)).collect();
    SquadView { active: rows(active), archived: rows(archived), twice: super::joining::row(model) }
}

pub fn roster(model: &Model) -> RosterView {
    let reading = roster::read(&model.drafts.roster);
    let n_children = reading.children().count();
    let mut called = called_then(model, &reading).into_iter();
    let lines: Vec<RosterLine> = reading
        .lines
        .iter()
        .filter_map(|line| {
            let read = match &line.what {
                What::Blank => return None,
                What::Child { name, number } => LineView::Child {
                    name: name.clone(),
                    number: number.map(|n| n.0.to_string()),
                    note: note(line, name, called.next()),
                },
                What::NotUnderstood(why) => LineView::NotUnderstood { why: words::roster::why(*why) },
            };
            Some(RosterLine { as_typed: line.shown().to_owned(), read })
        })
        .collect();
    let n_not = lines.iter().filter(|l| matches!(l.read, LineView::NotUnderstood { .. })).count();
    RosterView {
        text: model.drafts.roster.clone(),
        lines,
        summary: words::roster::summary(n_children, n_not),
        take: (n_children > 0).then(|| words::roster::take(n_children)),
    }
}

/// What the children of the list will be called once they are taken in, in its order.
fn called_then(model: &Model, reading: &Reading) -> Vec<String> {
    let squad = model.base.players();
    let mut all: Vec<Child> = squad.iter().map(Child::from).collect();
    all.extend(reading.children().map(|(name, number)| Child { name, number, archived: false }));
    told_apart(&all).split_off(squad.len())
}

/// The number comes first: two of a name are told apart by it, and a number that is there twice tells nobody apart.
fn note(line: &LineRead, name: &str, called: Option<String>) -> Option<String> {
    let same_number = line.notes.iter().find(|n| matches!(n, Note::SameNumber(_))).map(|n| words::roster::note(*n));
    let apart = called.filter(|called| called != name).map(|called| words::roster::called(&called));
    let first_of_two = line.notes.first().map(|n| words::roster::note(*n));
    match (apart, same_number) {
        (Some(apart), Some(number)) => Some(format!("{apart}; {number}")),
        (Some(apart), None) => Some(apart),
        (None, _) => first_of_two,
    }
}

pub fn child(model: &Model, id: PlayerId) -> Option<ChildView> {
    let player = model.base.player(id)?;
    let draft = model.drafts.child.as_ref().filter(|d| d.player == id)?;
    let read = read_draft(draft);
    Some(ChildView {
        player: id,
        name: draft.name.clone(),
        number: draft.number.clone(),
        style: draft.style,
        archived: player.archived,
        changed: read.as_ref() != Ok(&(player.name, player.number)) || draft.style != player.style,
        fault: read.err().map(|f| words::roster::draft_fault(f).to_owned()),
    })
}

/// The shirt's number stands beside the name here, so it is not said twice.
fn row(model: &Model, player: Player) -> ChildRow {
    let called = model.name_of(player.id);
    let numbered = words::called(&player.name, player.number.map(|n| n.0), 0);
    ChildRow {
        player: player.id,
        name: if player.number.is_some() && called == numbered { player.name } else { called },
        number: player.number.map(|n| n.0.to_string()),
        style: player.style.map(counts::style),
    }
}
