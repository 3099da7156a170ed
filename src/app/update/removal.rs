//! A child removed for good: asked, held, and carried through. Owns that it reaches everything this phone stores, however often it is broken off, and
//! that a removal which came with a file stays when that file is taken back.

use super::super::action::RemovalTap;
use super::super::effect::{Effect, Record};
use super::super::model::Model;
use super::super::named::Named;
use super::super::notes;
use super::super::screen::Screen;
use super::super::work::{Job, KeyedSummary, Note};
use super::{copies, go, packing, record_of, write};
use crate::domain::entry::{Entry, Fact};
use crate::domain::ids::{EntryId, NoteId, PlayerId};
use crate::domain::notes::Remark;
use crate::domain::removed::Removed;
use crate::wire::record;

pub fn act(model: &mut Model, tap: RemovalTap) -> Vec<Effect> {
    match tap {
        RemovalTap::Asked(player) => model.drafts.removal = model.base.player(player).map(|known| known.id),
        RemovalTap::Declined => model.drafts.removal = None,
        RemovalTap::Sure => return sure(model),
    }
    Vec::new()
}

/// While something is being counted nobody goes: the board would change under the thumb.
pub fn waits(model: &Model) -> bool {
    model.run_on().is_some()
}

/// The notes that go along: those about the child, and those whose words have a name that is this child's alone.
pub fn notes_of(model: &Model, player: PlayerId) -> Vec<Remark> {
    let named = Named::alone(&model.base, player);
    let goes =
        |remark: &Remark| remark.note().is_some_and(|note| note.about.is_of(player) || named.stand_in(&note.text));
    notes::all(model).into_iter().filter(goes).collect()
}

/// Everything that has to follow from the removals that are known: one that came with a file becomes this phone's own, what lies loose is
/// written again without those removed, and what lies packed and accepted is gone through. Nothing where all of it is done.
pub fn settle(model: &mut Model) -> Vec<Effect> {
    model.forget(&Removed::default());
    if model.own.removed().is_empty() {
        return Vec::new();
    }
    let mut effects = Vec::new();
    let own = Removed::of(model.own.iter());
    if let Some(fact) = model.own.removed().beyond(&own) {
        effects.extend(write(model, vec![fact]));
    }
    if forget_typed(model) {
        effects.push(Effect::KeepSettings(model.settings.to_json()));
    }
    let stale = std::mem::take(&mut model.stale);
    let records: Vec<Record> = stale.iter().filter_map(|id| model.own.get(*id)).map(record_of).collect();
    if !records.is_empty() {
        model.storage.unsaved.extend(records.iter().map(|(key, _)| key.clone()));
        effects.push(Effect::Save(records));
    }
    let removals: Vec<&Entry> = model.own.iter().filter(|e| matches!(e.fact, Fact::ChildRemoved { .. })).collect();
    if removals.iter().any(|entry| !model.settings.emptied.contains(&entry.id.to_string())) {
        effects.push(Effect::Work(Job::Remove { records: removals.into_iter().map(record::encode).collect() }));
    }
    effects
}

/// The database says that it is done.
pub fn removed(
    model: &mut Model,
    records: &[String],
    notes: &[(String, String)],
    summaries: Vec<KeyedSummary>,
) -> Vec<Effect> {
    for (key, note) in notes {
        if let (Some(parcel), Some(note)) = (model.parcels.iter_mut().find(|p| p.key == *key), Note::from_text(note)) {
            parcel.note = note;
        }
    }
    summaries.into_iter().for_each(|summary| packing::summarised(model, summary, false));
    copies::take_in_notes(model);
    model.fold_all();
    model.forget(&Removed::default());
    let done = records.iter().filter_map(|text| record::decode(text).ok()).map(|entry| entry.id.to_string());
    model.settings.emptied = done.collect();
    let mut effects = vec![Effect::KeepSettings(model.settings.to_json())];
    effects.extend(super::wanted_by_screen(model));
    effects
}

fn sure(model: &mut Model) -> Vec<Effect> {
    let Some(player) = model.drafts.removal.take().filter(|_| !waits(model)) else { return Vec::new() };
    let going = notes_of(model, player);
    let notes: Vec<NoteId> = going.iter().map(|remark| NoteId(remark.id)).collect();
    let players = same_child(model, player);
    model.drafts.notes = Default::default();
    let mut effects = write(model, vec![Fact::ChildRemoved { players, notes }]);
    effects.extend(settle(model));
    effects.extend(go(model, Screen::Squad));
    effects
}

/// All identities that a child is known by here. Of children who were joined all of them go.
fn same_child(model: &Model, player: PlayerId) -> Vec<PlayerId> {
    let same = model.base.same();
    same.all(same.of(player)).collect()
}

/// Words that are typed and no entry lie in the settings: notes home, notes half written. Whether any of them went; another window that has
/// them still would write them back.
fn forget_typed(model: &mut Model) -> bool {
    let removed = model.own.removed();
    let settings = &mut model.settings;
    let before = (settings.home.len(), settings.note_changes.len(), settings.note_words_of.is_some());
    let child = |text: &str| EntryId::from_text(text).map(PlayerId);
    settings.home.retain(|draft| child(&draft.child).is_none_or(|child| !removed.has(child)));
    settings.note_changes.retain(|(id, _)| EntryId::from_text(id).is_none_or(|id| !removed.has_note(NoteId(id))));
    if settings.note_words_of.as_ref().and_then(|of| of.about()).is_some_and(|about| removed.is_about(&about)) {
        settings.note_words.clear();
        settings.note_words_of = None;
    }
    before != (settings.home.len(), settings.note_changes.len(), settings.note_words_of.is_some())
}
