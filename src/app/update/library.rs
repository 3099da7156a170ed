//! The library: read when first wanted; its drills taken among the coach's own, which are copied, put away and brought back.

use super::super::effect::Effect;
use super::super::library::{LibraryTap, Shelf, Sought};
use super::super::model::{DrillDraft, Model};
use super::super::screen::Screen;
use super::super::words;
use super::{go, practice, write};
use crate::domain::drill::DrillSpec;
use crate::domain::entry::Fact;
use crate::domain::ids::DrillId;
use crate::domain::library::LibraryNo;
use crate::wire::library::{self, LibraryError};

pub fn act(model: &mut Model, tap: LibraryTap) -> Vec<Effect> {
    match tap {
        LibraryTap::Typed(text) => model.drafts.sought.text = text,
        LibraryTap::Have(have) => model.drafts.sought.have = have,
        LibraryTap::Cleared => model.drafts.sought = Sought::default(),
        LibraryTap::Taken(no) => return take(model, no).map(|(_, effects)| effects).unwrap_or_default(),
        LibraryTap::Started(no) => {
            let Some((drill, mut effects)) = take(model, no) else { return Vec::new() };
            effects.extend(practice::start(model, drill));
            return effects;
        }
        LibraryTap::Copied(drill) => return copy(model, drill),
        LibraryTap::PutAway(drill, away) => return put_away(model, drill, away),
    }
    Vec::new()
}

/// The screen at hand shows the library, or something of it. `anew`: one that failed before is tried again.
pub fn wanted(model: &mut Model, anew: bool) -> Option<Effect> {
    let shows = matches!(
        model.screen,
        Screen::Library
            | Screen::LibraryDrill(_)
            | Screen::MyDrills
            | Screen::Drill(Some(_))
            | Screen::Ask
            | Screen::PracticeReport(_)
    );
    if shows { asked_for(model, anew) } else { None }
}

/// Its file is wanted: read, unless it has been or is being read.
pub fn asked_for(model: &mut Model, anew: bool) -> Option<Effect> {
    let due = match model.shelf {
        Shelf::Unasked => true,
        Shelf::Failed(_) => anew,
        Shelf::Reading | Shelf::Read(_) => false,
    };
    if !due {
        return None;
    }
    model.shelf = Shelf::Reading;
    Some(Effect::ReadLibrary)
}

/// The text of its file, or that there was none to be had.
pub fn read(model: &mut Model, text: Option<String>) {
    model.shelf = match text.as_deref().map(library::read) {
        Some(Ok(library)) => Shelf::Read(library),
        Some(Err(LibraryError::Newer)) => Shelf::Failed(words::library::OTHER_VERSION),
        Some(Err(LibraryError::Broken { .. })) => Shelf::Failed(words::library::BROKEN),
        None => Shelf::Failed(words::library::NOT_FETCHED),
    };
}

/// The coach's drill of this number, added where there is none like it; one that was put away comes back.
fn take(model: &mut Model, no: LibraryNo) -> Option<(DrillId, Vec<Effect>)> {
    let spec = model.shelf.library()?.drill(no)?.spec.clone();
    let same = |list: Vec<(DrillId, &DrillSpec)>| list.into_iter().find(|(_, s)| **s == spec).map(|(id, _)| id);
    if let Some(drill) = same(model.base.drills()) {
        return Some((drill, Vec::new()));
    }
    if let Some(drill) = same(model.base.drills_away()) {
        return Some((drill, put_away(model, drill, false)));
    }
    let drill = DrillId(model.writer.id_ahead(0));
    Some((drill, write(model, vec![Fact::DrillAdded { spec }])))
}

fn copy(model: &mut Model, drill: DrillId) -> Vec<Effect> {
    let Some(spec) = model.base.drill(drill).cloned() else { return Vec::new() };
    let name = words::library::copy_of(&spec.name);
    let effects = go(model, Screen::Drill(None));
    model.drafts.drill = Some(DrillDraft { drill: None, spec: DrillSpec { name, ..spec } });
    effects
}

fn put_away(model: &mut Model, drill: DrillId, archived: bool) -> Vec<Effect> {
    let revision = model.base.next_drill_revision(drill);
    write(model, vec![Fact::DrillArchived { drill, revision, archived }])
}
