//! One note, to be changed or taken back; one question, to be taken back.

use super::pad::with;
use super::{part_title, practice_line, row, run_name};
use crate::app::model::Model;
use crate::app::notes::{remark, tags};
use crate::app::words::{counts, notes as says};
use crate::domain::ids::{EntryId, PlayerId};
use crate::domain::notes::{Note, NoteAbout};
use crate::wire::file::MAX_TEXT_CHARS;

#[derive(Clone, Debug, PartialEq)]
pub struct RemarkView {
    pub id: EntryId,
    /// "Tuesday practice, Tuesday 24 November, 17:21"
    pub when: String,
    pub taken_back: bool,
    pub edit: Option<EditView>,
    /// Of a question: what was asked, and of whom.
    pub asked: Option<(String, String)>,
}

#[derive(Clone, Debug, PartialEq)]
pub struct EditView {
    pub children: Vec<(PlayerId, String, bool)>,
    /// The drill, the part, the practice of where it was noted.
    pub others: Vec<(NoteAbout, String, bool)>,
    pub tags: Vec<(String, bool)>,
    pub text: String,
    pub changed: bool,
    /// Nothing would be left of it.
    pub empty: bool,
    /// Longer than a copy can hold.
    pub too_long: bool,
}

/// `None`: there is no such note here, or it is still being read.
pub fn one(model: &Model, id: EntryId) -> Option<RemarkView> {
    // Not before all of it is here: a change has to know which changes there were.
    let remark = remark(model, id).filter(|_| model.base.remark(id).is_some())?;
    let time = counts::when(remark.at, model.now);
    let title = remark.spot.practice.map(|practice| practice_line(model, practice)).filter(|(_, day)| !day.is_empty());
    let when = title.map_or_else(|| time.clone(), |(title, _)| format!("{title}, {time}"));
    let edit = model.drafts.notes.edit.as_ref().filter(|(note, _)| note.0 == id).map(|(_, note)| note);
    let line = row(model, &remark, false);
    Some(RemarkView {
        id,
        when,
        taken_back: model.base.is_taken_back(id),
        edit: edit.zip(remark.note()).map(|(note, had)| edit_view(model, &remark.spot, note, had)),
        asked: remark.asked().map(|_| (line.who, line.what)),
    })
}

fn edit_view(model: &Model, spot: &crate::domain::notes::Spot, note: &Note, had: &Note) -> EditView {
    let about = |player: PlayerId| note.about.is_of(player);
    // Those of the squad, and whoever the note is about already.
    let players = model.base.players().into_iter().filter(|p| !p.archived || about(p.id));
    let mut others = Vec::new();
    let run = spot.run.and_then(|run| run_name(model, run));
    others.extend(run.map(|name| (NoteAbout::Run, says::drill(&name))));
    let part = spot.practice.zip(spot.part).and_then(|(practice, part)| part_title(model, practice, part));
    others.extend(part.map(|title| (NoteAbout::Part, says::part(&title))));
    others.extend(spot.practice.map(|_| (NoteAbout::Practice, says::WHOLE_PRACTICE.to_owned())));
    EditView {
        children: players.map(|p| (p.id, model.name_of(p.id), about(p.id))).collect(),
        others: others.into_iter().map(|(of, label)| (of.clone(), label, note.about == of)).collect(),
        tags: with(tags(model), &note.tags),
        text: note.text.clone(),
        changed: Note { text: note.text.trim().to_owned(), ..note.clone() } != *had,
        empty: note.is_empty(),
        too_long: note.text.trim().chars().count() > MAX_TEXT_CHARS,
    }
}
