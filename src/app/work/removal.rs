//! Those removed taken out of all that lies packed and accepted, in one transaction. Broken off it has changed nothing, and done twice it changes
//! nothing more. What can't be read is left as it lies, and told.

use super::copies::own;
use super::doing::{Change, Done, Found, decoded, entries_of, loose, taken_in};
use super::practices::{PARCEL, as_read, practice_id};
use super::verify::Parted;
use super::{Answer, KeyedSummary, Note};
use crate::app::named::{Named, note_in};
use crate::app::words;
use crate::domain::entry::Entry;
use crate::domain::ids::NoteId;
use crate::domain::log::Log;
use crate::domain::removed::Removed;
use crate::domain::replay::base::Base;
use crate::wire::file::{self, Limits};
use crate::wire::{block, record};

pub fn remove(records: &[String], called: &[String], found: &Found) -> Done {
    let removals: Vec<Entry> = decoded(records).collect();
    let (mut own, unread) = own(found);
    own.know(&Removed::of(&removals));
    let mut removed = own.removed().clone();
    // Those that can't be read are told below.
    let unpacked = |bytes: &Result<Vec<u8>, String>| block::unpack(bytes.as_ref().ok()?).ok();
    let blocks: Vec<(&String, Vec<Entry>)> =
        found.blocks.iter().filter_map(|(key, bytes)| Some((key, unpacked(bytes)?))).collect();
    let going = going(&Named::of_keys(called), &blocks, &removed, found);
    removed.also(going.iter().copied());
    own.know(&removed);
    // Whatever becomes of the page: without these what was emptied would stand there without a reason.
    let entries = removals.iter().map(|entry| (entry.id.to_string(), record::encode(entry))).collect();
    let mut change = Change { entries, ..Change::default() };
    let mut touched: Vec<String> = Vec::new();
    for (key, entries) in blocks {
        let emptied = removed.emptied_all(entries.clone());
        if emptied != entries {
            change.blocks.push((key.clone(), block::pack(emptied.iter())));
            touched.push(key.clone());
        }
    }
    let mut damaged: Vec<String> = unread.blocks.iter().map(|(key, why)| format!("practice {key}: {why}")).collect();
    for parcel in &found.parcels {
        match parcel.bytes.as_ref().map(|bytes| emptied_file(bytes, &removed)) {
            Ok(Ok(Some(bytes))) => change.parcels.push((parcel.key.clone(), bytes)),
            Ok(Ok(None)) => {}
            Ok(Err(why)) => damaged.push(format!("{PARCEL} {}: {why}", parcel.key)),
            Err(why) => damaged.push(format!("{PARCEL} {}: {why}", parcel.key)),
        }
        if let Some(note) = emptied_note(&parcel.note, &removed) {
            change.notes.push((parcel.key.clone(), note.to_text()));
        }
        // Of practices that came with it alone there is no block to tell.
        touched.extend(parcel.note.practices.iter().filter(|_| parcel.note.accepted).cloned());
    }
    touched.sort_unstable();
    touched.dedup();
    let readable = |key: &String| !unread.blocks.iter().any(|(block, _)| block == key);
    touched.retain(readable);
    let summaries = summaries(&touched, &own, found);
    change.as_read = as_read(change.blocks.iter().map(|(key, _)| key.as_str()), found);
    change.summaries = summaries.iter().filter_map(|(key, made)| Some((key.clone(), made.clone()?))).collect();
    let going = going.into_iter().map(|note| note.0.to_string()).collect();
    let answer = Answer::Removed { notes: change.notes.clone(), summaries, going, damaged };
    Done { answer, change: Some(change), file: None }
}

/// Notes that have such a word in what they say or once said, or were once about somebody removed: packed, loose or in any file that is kept.
fn going(named: &Named, blocks: &[(&String, Vec<Entry>)], removed: &Removed, found: &Found) -> Vec<NoteId> {
    // What can't be read is told of where it would be emptied.
    let mut others = loose(found).entries;
    others.extend(found.parcels.iter().filter_map(|file| entries_of(&file.bytes).ok()).flatten());
    let mut going: Vec<NoteId> = Vec::new();
    let packed = blocks.iter().flat_map(|(_, entries)| entries);
    for (id, note) in packed.chain(&others).filter_map(note_in) {
        let goes = named.stand_in_note(note) || removed.is_about(&note.about);
        if goes && !removed.has_note(id) && !going.contains(&id) {
            going.push(id);
        }
    }
    going
}

/// All removals that what lies loose tells of, and what was accepted.
pub fn known(loose: &[Entry], found: &Found) -> Removed {
    let mut removed = Removed::of(loose);
    for parcel in found.parcels.iter().filter(|parcel| parcel.note.accepted) {
        decoded(&parcel.note.base).for_each(|entry| {
            removed.learn(&entry);
        });
    }
    removed
}

/// Children here whom a file's entries remove, by every name they were entered by.
pub fn leaving(entries: &[Entry], here: &Log) -> Vec<String> {
    let removed = Removed::of(entries);
    if removed.is_empty() {
        return Vec::new();
    }
    let mut names: Vec<String> = Vec::new();
    for child in Base::fold(here.iter()).ever_entered() {
        if removed.has(child.id) && !names.contains(&child.name) {
            names.push(child.name);
        }
    }
    names
}

/// A copy without those removed; `None` where there is nothing of them in it.
pub fn emptied_file(bytes: &[u8], removed: &Removed) -> Result<Option<Vec<u8>>, String> {
    if removed.is_empty() {
        return Ok(None);
    }
    let copy = file::read(bytes, &Limits::default()).map_err(|refusal| words::trouble::refusal(&refusal))?;
    let emptied = removed.emptied_all(copy.entries.clone());
    if emptied == copy.entries {
        return Ok(None);
    }
    Ok(Some(file::write(emptied.iter(), &copy.header).into_bytes()))
}

fn emptied_note(note: &Note, removed: &Removed) -> Option<Note> {
    let emptied = |text: &String| match record::decode(text) {
        Ok(entry) if removed.concerns(&entry) => record::encode(&removed.emptied(entry)),
        // What can't be read was shown when the file came.
        _ => text.clone(),
    };
    let base: Vec<String> = note.base.iter().map(emptied).collect();
    (base != note.base).then(|| Note { base, ..note.clone() })
}

/// Counts of these practices, as far as they aren't counted from memory.
fn summaries(keys: &[String], own: &Log, found: &Found) -> Vec<KeyedSummary> {
    let mut all = own.clone();
    all.extend(taken_in(found, None).entries);
    let base = Base::fold(all.iter());
    let practices = base.practices();
    let parted = Parted::of(&all, &practices);
    let packed = |key: &String| found.blocks.iter().any(|(block, _)| block == key);
    let counted = |key: &&String| packed(key) || practice_id(key).is_some_and(|id| own.get(id.0).is_none());
    let made = |key: &String| {
        let id = practice_id(key)?;
        let practice = practices.iter().find(|practice| practice.id == id)?;
        Some((key.clone(), Some(parted.summary(practice, own, base.same()))))
    };
    keys.iter().filter(counted).filter_map(made).collect()
}
