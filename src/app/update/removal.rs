//! A child removed for good: asked, held, and carried through. Owns that it reaches everything this phone stores, however often it is broken off, and
//! that a removal which came with a file stays when that file is taken back.

use std::collections::BTreeSet;

use super::super::action::RemovalTap;
use super::super::effect::{Effect, Record};
use super::super::model::Model;
use super::super::named::{Named, is_called, note_in};
use super::super::notes;
use super::super::screen::Screen;
use super::super::work::{self, Job, KeyedSummary};
use super::{copies, go, packing, record_of, write};
use crate::domain::entry::{Entry, Fact};
use crate::domain::ids::{EntryId, NoteId, PlayerId};
use crate::domain::notes::{Note, NoteAbout};
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

/// The notes that go along, whole: what they say now and what they ever said, taken back or not.
#[derive(Default)]
pub struct Going {
    pub about: BTreeSet<EntryId>,
    /// About others, with a word in them that is this child's alone.
    pub naming: BTreeSet<EntryId>,
}

/// As far as they are in memory; others are found where they lie packed.
pub fn notes_of(model: &Model, player: PlayerId) -> Going {
    let same = model.base.same();
    let is_it = |other: PlayerId| same.of(other) == same.of(player);
    let is_about = |note: &Note| matches!(&note.about, NoteAbout::Children(of) if of.iter().any(|of| is_it(*of)));
    let about = notes_that(model, &is_about);
    let named = model.called(&is_it);
    let mut naming = notes_that(model, &|note| named.stand_in_note(note));
    naming.retain(|note| !about.contains(note));
    Going { about, naming }
}

fn notes_that(model: &Model, is_it: &dyn Fn(&Note) -> bool) -> BTreeSet<EntryId> {
    let mut found = BTreeSet::new();
    let said = model.own.iter().chain(model.theirs.iter()).filter_map(note_in);
    found.extend(said.filter(|(_, note)| is_it(note)).map(|(id, _)| id.0));
    found.extend(notes::all(model).iter().filter(|remark| remark.note().is_some_and(is_it)).map(|remark| remark.id));
    found
}

/// Everything that has to follow from the removals that are known: one that came with a file becomes this phone's own, what lies loose is
/// written again without those removed, and what lies packed and accepted is gone through. Nothing where all of it is done.
pub fn settle(model: &mut Model) -> Vec<Effect> {
    model.forget(&Removed::default());
    if model.own.removed().is_empty() {
        return Vec::new();
    }
    // Somebody who came since may be called the same.
    model.settings.called.retain(|word| !is_called(&model.base, word));
    let named = Named::of_keys(&model.settings.called);
    let naming = if named.is_empty() { BTreeSet::new() } else { notes_that(model, &|note| named.stand_in_note(note)) };
    let mut effects = own_removal(model, naming.into_iter().map(NoteId));
    if forget_typed(model, &named) || !model.settings.called.is_empty() {
        effects.push(Effect::KeepSettings(model.settings.to_json()));
    }
    // The screen at hand may have lost what was open on it.
    super::notes::practice_came(model);
    effects.extend(save_stale(model));
    effects.extend(empty_aside(model));
    let removals: Vec<&Entry> = model.own.iter().filter(|e| matches!(e.fact, Fact::ChildRemoved { .. })).collect();
    let emptied = |entry: &&Entry| model.settings.emptied.contains(&entry.id.to_string());
    if !removals.iter().all(emptied) || !model.settings.called.is_empty() {
        let records = removals.into_iter().map(record::encode).collect();
        effects.push(Effect::Work(Job::Remove { records, called: model.settings.called.clone() }));
    }
    effects
}

/// What is removed here, and these notes with it, stands in this phone's own log: taking a file back brings nobody back.
fn own_removal(model: &mut Model, notes: impl Iterator<Item = NoteId>) -> Vec<Effect> {
    let mut all = model.own.removed().clone();
    all.also(notes);
    let own = Removed::of(model.own.iter());
    all.beyond(&own).map(|fact| write(model, vec![fact])).unwrap_or_default()
}

/// What the database holds as it was before is stored again.
fn save_stale(model: &mut Model) -> Option<Effect> {
    let stale = std::mem::take(&mut model.stale);
    let records: Vec<Record> = stale.iter().filter_map(|id| model.own.get(*id)).map(record_of).collect();
    model.storage.unsaved.extend(records.iter().map(|(key, _)| key.clone()));
    (!records.is_empty()).then_some(Effect::Save(records))
}

/// What was set aside because its identity is here with other content, under the keys that it has. What can't be read lies there as it is.
fn empty_aside(model: &mut Model) -> Option<Effect> {
    let removed = model.own.removed();
    let mut emptied: Vec<Record> = Vec::new();
    for (key, entry) in model.storage.other_content.iter_mut().filter(|(_, entry)| removed.concerns(entry)) {
        *entry = removed.emptied(entry.clone());
        emptied.push((key.clone(), record::encode(entry)));
    }
    (!emptied.is_empty()).then_some(Effect::SetAside(emptied))
}

/// What the worker says that it has done.
pub struct Emptied {
    /// Notes of files, by key.
    pub notes: Vec<(String, String)>,
    pub summaries: Vec<KeyedSummary>,
    /// Notes that it found to have the name in them, or to have been about the child, and emptied.
    pub going: Vec<String>,
}

/// The database says that it is done, for the removals of these records and by these words.
pub fn removed(model: &mut Model, records: &[String], called: &[String], done: Emptied) -> Vec<Effect> {
    for (key, note) in &done.notes {
        if let (Some(parcel), Some(note)) =
            (model.parcels.iter_mut().find(|p| p.key == *key), work::Note::from_text(note))
        {
            parcel.note = note;
        }
    }
    done.summaries.into_iter().for_each(|summary| packing::summarised(model, summary, false));
    copies::take_in_notes(model);
    if !model.forget(&Removed::default()) {
        model.fold_all();
    }
    let mut effects = own_removal(model, std::iter::empty());
    let emptied = records.iter().filter_map(|text| record::decode(text).ok()).map(|entry| entry.id);
    // With those notes, which are emptied already where they lie.
    let emptied: Vec<String> = emptied.chain([model.writer.id_ahead(0)]).map(|id| id.to_string()).collect();
    let going: Vec<NoteId> = done.going.iter().filter_map(|id| EntryId::from_text(id)).map(NoteId).collect();
    effects.extend(own_removal(model, going.into_iter()));
    model.settings.called.retain(|word| !called.contains(word));
    // Else somebody went meanwhile, who is still looked for by name.
    if model.settings.called.is_empty() {
        model.stale.append(&mut model.held);
    }
    effects.extend(save_stale(model));
    let removals = model.own.iter().filter(|e| matches!(e.fact, Fact::ChildRemoved { .. }));
    model.settings.emptied = removals.map(|entry| entry.id.to_string()).filter(|id| emptied.contains(id)).collect();
    effects.push(Effect::KeepSettings(model.settings.to_json()));
    effects.extend(packing::said_of_by_parcels(model));
    effects.extend(super::wanted_by_screen(model));
    effects
}

fn sure(model: &mut Model) -> Vec<Effect> {
    let Some(player) = model.drafts.removal.take().filter(|_| !waits(model)) else { return Vec::new() };
    let Going { about, naming } = notes_of(model, player);
    let notes: Vec<NoteId> = about.into_iter().chain(naming).map(NoteId).collect();
    let players = same_child(model, player);
    model.drafts.notes = Default::default();
    let mut effects = write(model, vec![Fact::ChildRemoved { players, notes }]);
    effects.extend(settle(model));
    effects.extend(go(model, Screen::Squad));
    effects
}

/// All identities that a child is known by here. Of children who were joined all of them go.
pub fn same_child(model: &Model, player: PlayerId) -> Vec<PlayerId> {
    let same = model.base.same();
    same.all(same.of(player)).collect()
}

/// Words that are typed and no entry lie in the settings: notes home, notes half written. Those of the child go, and those that have its
/// name in them. Whether any went; another window that has them still would write them back.
fn forget_typed(model: &mut Model, named: &Named) -> bool {
    let removed = model.own.removed();
    let settings = &mut model.settings;
    let before = (settings.home.clone(), settings.note_changes.len(), settings.note_words.len());
    let child = |text: &str| EntryId::from_text(text).map(PlayerId);
    settings.home.retain(|draft| child(&draft.child).is_none_or(|child| !removed.has(child)));
    for draft in &mut settings.home {
        draft.pieces.retain(|piece| !piece.said.as_ref().is_some_and(|said| named.stand_in(said)));
    }
    settings.note_changes.retain(|(id, text)| {
        EntryId::from_text(id).is_none_or(|id| !removed.has_note(NoteId(id))) && !named.stand_in(text)
    });
    let about = settings.note_words_of.as_ref().and_then(|of| of.about());
    if about.is_some_and(|about| removed.is_about(&about)) || named.stand_in(&settings.note_words) {
        settings.note_words.clear();
        settings.note_words_of = None;
    }
    before != (settings.home.clone(), settings.note_changes.len(), settings.note_words.len())
}
