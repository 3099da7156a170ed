//! Notes and questions on screen: the pad that writes one, the question that is proposed, all of them in a list, and who wasn't heard
//! for a while. For the coach alone: no view that children see asks for any of this.

mod ask;
mod heard;
mod list;
mod one;
mod pad;

pub use ask::{AskView, OwnList, ask, own};
pub use heard::{HeardRow, HeardView, heard};
pub use list::{NotesView, RemarkGroup, notes, of_child, of_practice};
pub use one::{EditView, RemarkView, one};
pub use pad::{PadView, SubjectKey, pad};

use super::super::model::Model;
use super::super::words::{self, counts, notes as says};
use crate::app::action::Action;
use crate::app::notes::NotesTap;
use crate::domain::ids::{EntryId, PartNo, PracticeId, RunId};
use crate::domain::notes::{NoteAbout, Remark, What, said};

/// What was written a moment ago, and its own way back.
#[derive(Clone, Debug, PartialEq)]
pub struct SaidView {
    /// "Noted: Mira, brave swing."
    pub line: String,
    pub word: &'static str,
    pub back: Action,
}

/// One note or question in a list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RemarkRow {
    pub id: EntryId,
    /// "Mira, Tove", "Part: Serving", "Asked Mira"
    pub who: String,
    pub what: String,
    /// "17:21", "Tuesday 24 November"
    pub when: String,
    pub is_question: bool,
}

fn said_of(model: &Model, id: EntryId) -> Option<SaidView> {
    let remark = model.base.remark(id)?;
    let taken = model.base.is_taken_back(id);
    let line = match &remark.what {
        What::Note(note) => says::noted(&who(model, &remark), &says::what(&note.tags, &note.text), taken),
        What::Asked(asked) => says::asked(&model.name_of(asked.player), taken),
    };
    let (word, tap) =
        if taken { (says::PUT_BACK, NotesTap::PutBack(id)) } else { (says::UNDO, NotesTap::TakenBack(id)) };
    Some(SaidView { line, word, back: Action::Notes(tap) })
}

/// Whom or what a remark is about.
fn who(model: &Model, remark: &Remark) -> String {
    let spot = remark.spot;
    match &remark.what {
        What::Asked(asked) => says::question(&model.name_of(asked.player)),
        What::Note(note) => match &note.about {
            NoteAbout::Children(players) => players.iter().map(|p| model.name_of(*p)).collect::<Vec<_>>().join(", "),
            NoteAbout::Run => says::drill(&spot.run.and_then(|run| run_name(model, run)).unwrap_or_default()),
            NoteAbout::Part => {
                let title = spot.practice.zip(spot.part).and_then(|(practice, part)| part_title(model, practice, part));
                says::part(&title.unwrap_or_default())
            }
            NoteAbout::Practice => says::WHOLE_PRACTICE_LONG.to_owned(),
        },
    }
}

fn what(model: &Model, remark: &Remark) -> String {
    match &remark.what {
        What::Note(note) => says::what(&note.tags, &note.text),
        What::Asked(asked) => said(&asked.question, &model.name_of(asked.player)),
    }
}

fn row(model: &Model, remark: &Remark, with_day: bool) -> RemarkRow {
    RemarkRow {
        id: remark.id,
        who: who(model, remark),
        what: what(model, remark),
        when: if with_day { counts::day(remark.at.day(), model.now.day()) } else { counts::time(remark.at) },
        is_question: remark.asked().is_some(),
    }
}

fn run_name(model: &Model, run: RunId) -> Option<String> {
    let packed = || model.packed.values().flat_map(|p| &p.summary.runs).find(|r| r.run == run).map(|r| r.name.clone());
    model.runs.get(&run).map(|run| run.spec.name.clone()).or_else(packed)
}

fn part_title(model: &Model, practice: PracticeId, part: PartNo) -> Option<String> {
    let title = |plan: &crate::domain::plan::Plan| plan.part(part).map(|part| part.title.clone());
    let known = model.base.practice(practice).and_then(|p| p.plan).and_then(|id| title(model.base.plan(id)?));
    known.or_else(|| title(&model.packed.get(&practice)?.summary.plan.as_ref()?.plan))
}

/// Title and day of a practice, wherever it lies; the day alone where the title says nothing else.
fn practice_line(model: &Model, id: PracticeId) -> (String, String) {
    let known = model.base.practice(id).map(|p| (p.title, p.started));
    let packed = || model.packed.get(&id).map(|p| (p.summary.title.clone(), p.summary.started));
    match known.or_else(packed) {
        Some((title, started)) => {
            let day = counts::day(started.day(), model.now.day());
            // Its day is said once.
            if title == counts::practice_title(started.day()) { (day, String::new()) } else { (title, day) }
        }
        None => (words::screens::GONE_TITLE.to_owned(), String::new()),
    }
}
