//! The pad: whom or what, then a tag. The same on a board and on a screen of its own.

use super::{SaidView, part_title, run_name, said_of};
use crate::app::model::Model;
use crate::app::notes::{Subject, groups, spot, tags};
use crate::app::screen::Screen;
use crate::app::words::notes as says;
use crate::domain::ids::PlayerId;

#[derive(Clone, Debug, Default, PartialEq)]
pub struct PadView {
    /// "Note: Mira", "Note: about whom?"
    pub title: String,
    pub children: Vec<SubjectKey>,
    /// Groups, the drill, the part, the practice.
    pub others: Vec<SubjectKey>,
    /// `true`: it is on the note that was just written.
    pub tags: Vec<(String, bool)>,
    /// Nobody and nothing is meant yet: the tags rest.
    pub nobody: bool,
    pub said: Option<SaidView>,
    /// Typed and not kept yet.
    pub words: String,
    /// Of a practice that is over: its name.
    pub of: Option<String>,
}

#[derive(Clone, Debug, PartialEq)]
pub struct SubjectKey {
    pub subject: Subject,
    pub label: String,
    pub chosen: bool,
}

pub fn pad(model: &Model) -> PadView {
    let pad = &model.drafts.notes.pad;
    let key = |subject: Subject, label: String| SubjectKey { subject, label, chosen: pad.about == Some(subject) };
    let children: Vec<SubjectKey> =
        children(model).into_iter().map(|player| key(Subject::Child(player), model.name_of(player))).collect();
    let others = others(model).into_iter().map(|(subject, label)| key(subject, label)).collect::<Vec<_>>();
    let chosen = children.iter().chain(&others).find(|key| key.chosen);
    let on_note = pad.said.filter(|id| !model.base.is_taken_back(*id)).and_then(|id| model.base.remark(id));
    let on_note = on_note.as_ref().and_then(|remark| remark.note());
    PadView {
        title: chosen.map_or_else(|| says::WHOM.to_owned(), |key| says::note_of(&key.label)),
        nobody: chosen.is_none(),
        tags: with(tags(model), on_note.map_or(&[][..], |note| &note.tags)),
        said: pad.said.and_then(|id| said_of(model, id)).map(|said| anew(said, pad.anew)),
        words: model.settings.note_words.clone(),
        of: pad.of.map(|id| super::practice_line(model, id).0),
        children,
        others,
    }
}

fn anew(said: SaidView, anew: bool) -> SaidView {
    if anew { SaidView { line: says::anew(&said.line), ..said } } else { said }
}

/// The coach's tags, and those of the note that she has since removed.
pub(super) fn with(mut all: Vec<String>, on: &[String]) -> Vec<(String, bool)> {
    all.extend(on.iter().filter(|tag| !all.contains(tag)).cloned().collect::<Vec<_>>());
    all.into_iter().map(|tag| (tag.clone(), on.contains(&tag))).collect()
}

/// On a board those who are here, and whom the last ball was of; else the squad.
fn children(model: &Model) -> Vec<PlayerId> {
    let mut list = match model.screen {
        Screen::Run(_) => model.here(),
        _ => model.squad().into_iter().map(|p| p.id).collect(),
    };
    if let Some(Subject::Child(player)) = model.drafts.notes.pad.about
        && !list.contains(&player)
    {
        list.push(player);
    }
    list
}

fn others(model: &Model) -> Vec<(Subject, String)> {
    let spot = spot(model);
    let mut list = Vec::new();
    list.extend(spot.run.and_then(|run| Some((Subject::Run, says::drill(&run_name(model, run)?)))));
    let part = spot.practice.zip(spot.part).and_then(|(practice, part)| part_title(model, practice, part));
    list.extend(part.map(|title| (Subject::Part, says::part(&title))));
    let groups = groups(model);
    if groups.len() > 1 {
        list.extend(groups.iter().enumerate().map(|(at, _)| (Subject::Group(at), says::group(at))));
    }
    list.extend(spot.practice.map(|_| (Subject::Practice, says::WHOLE_PRACTICE.to_owned())));
    list
}
