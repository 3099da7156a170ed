//! All notes and questions, practice by practice; those of one child, of one tag, of one practice.

use super::{RemarkRow, practice_line, row};
use crate::app::model::Model;
use crate::app::notes::{Sought, Typing, all, tags};
use crate::app::words::notes as says;
use crate::domain::ids::{PlayerId, PracticeId};
use crate::domain::notes::Remark;
use crate::domain::replay::base::Practice;

#[derive(Clone, Debug, Default, PartialEq)]
pub struct NotesView {
    /// There is none at all.
    pub empty: bool,
    /// Children of whom there is something to read.
    pub children: Vec<(PlayerId, String)>,
    /// Tags that notes have.
    pub used: Vec<String>,
    pub sought: Sought,
    /// The latest practice first; in each as they were noted.
    pub groups: Vec<RemarkGroup>,
    /// The coach's tags, to be changed.
    pub tags: Vec<String>,
    pub typing: Typing,
}

#[derive(Clone, Debug, PartialEq)]
pub struct RemarkGroup {
    /// `None`: between practices.
    pub practice: Option<PracticeId>,
    pub title: String,
    pub day: String,
    pub rows: Vec<RemarkRow>,
}

pub fn notes(model: &Model) -> NotesView {
    let remarks = all(model);
    let sought = model.drafts.notes.sought.clone();
    let mut used: Vec<String> = Vec::new();
    for tag in remarks.iter().filter_map(Remark::note).flat_map(|note| &note.tags) {
        if !used.contains(tag) {
            used.push(tag.clone());
        }
    }
    let known = |player: PlayerId| remarks.iter().any(|remark| remark.is_of(player));
    let children = model.base.players().into_iter().filter(|p| known(p.id));
    NotesView {
        empty: remarks.is_empty(),
        children: children.map(|p| (p.id, model.name_of(p.id))).collect(),
        used,
        groups: grouped(model, remarks.iter().filter(|remark| is_sought(remark, &sought))),
        sought,
        tags: tags(model),
        typing: model.drafts.notes.tag.clone(),
    }
}

/// The latest first, each with its day.
pub fn of_child(model: &Model, player: PlayerId) -> Vec<RemarkRow> {
    all(model).iter().filter(|remark| remark.is_of(player)).map(|remark| row(model, remark, true)).collect()
}

/// In the order in which they were noted.
pub fn of_practice(model: &Model, practice: PracticeId) -> Vec<RemarkRow> {
    let all_of_it = model.one_with(practice);
    let known: Vec<Practice> = all_of_it.iter().filter_map(|id| model.base.practice(*id)).collect();
    let of = |remark: &&Remark| {
        let by_run = || remark.spot.run.is_some_and(|run| known.iter().any(|p| p.runs.contains(&run)));
        remark.spot.practice.map_or_else(by_run, |id| all_of_it.contains(&id))
    };
    all(model).iter().rev().filter(of).map(|remark| row(model, remark, false)).collect()
}

fn is_sought(remark: &Remark, sought: &Sought) -> bool {
    let tagged = |tag: &String| remark.note().is_some_and(|note| note.tags.contains(tag));
    sought.child.is_none_or(|player| remark.is_of(player)) && sought.tag.as_ref().is_none_or(tagged)
}

fn grouped<'a>(model: &Model, latest_first: impl Iterator<Item = &'a Remark>) -> Vec<RemarkGroup> {
    let mut groups: Vec<RemarkGroup> = Vec::new();
    for remark in latest_first {
        let practice = remark.spot.practice.map(|id| model.read_under(id));
        let line = row(model, remark, practice.is_none());
        match groups.iter_mut().find(|group| group.practice == practice) {
            Some(group) => group.rows.push(line),
            None => {
                let between = || (says::BETWEEN.to_owned(), String::new());
                let (title, day) = practice.map_or_else(between, |id| practice_line(model, id));
                groups.push(RemarkGroup { practice, title, day, rows: vec![line] });
            }
        }
    }
    groups.iter_mut().for_each(|group| group.rows.reverse());
    groups
}
