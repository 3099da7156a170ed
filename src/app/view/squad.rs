//! The squad, the list that is typed or pasted, one child.

use crate::domain::ids::PlayerId;
use crate::domain::skill::ServeStyle;

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SquadView {
    pub active: Vec<ChildRow>,
    pub archived: Vec<ChildRow>,
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
