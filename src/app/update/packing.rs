//! Finished practices are packed into one block each, in one transaction, with a summary beside it. A practice with entries
//! that lie loose (it was corrected, or opened again) is read and, once it is over, packed again. The work itself is a job.

use std::collections::{BTreeMap, BTreeSet};

use super::super::effect::Effect;
use super::super::model::{Model, PackedPractice, StorageState};
use super::super::screen::Screen;
use super::super::work::{Job, KeyedSummary, SameText};
use crate::domain::entry::{Entry, Fact};
use crate::domain::ids::{EntryId, PracticeId, RunId};
use crate::wire::{record, summary};

/// Summaries found at the start; practices that have to be read before they can be trusted.
pub fn opened(model: &mut Model, summaries: Vec<(String, Result<String, String>)>) -> Vec<Effect> {
    let mut effects = Vec::new();
    for (key, text) in summaries {
        match text.ok().and_then(|t| summary::decode(&t)) {
            Some(mut summary) => {
                model.writer.heard_clock(summary.clock);
                summary.leave(model.own.removed());
                model.packed.insert(summary.practice, PackedPractice { summary, read: false, own_here: false });
            }
            None => effects.push(summarise(model, key)),
        }
    }
    effects.extend(recount(model));
    effects.extend(corrected(model));
    effects.extend(said_of_by_parcels(model));
    effects
}

/// Packed practices with loose entries were corrected, or opened again: those are read.
pub fn corrected(model: &mut Model) -> Vec<Effect> {
    let (mut of_run, mut of_target, mut of_plan) = (BTreeMap::new(), BTreeMap::new(), BTreeMap::new());
    let mut unread = BTreeSet::new();
    for PackedPractice { summary, .. } in model.packed.values().filter(|p| !p.read) {
        unread.insert(summary.practice);
        of_plan.extend(summary.plan.as_ref().map(|done| (done.id, summary.practice)));
        of_run.extend(summary.runs.iter().map(|r| (r.run, summary.practice)));
        let targets = summary.endings.iter().chain(&summary.remark_ids);
        of_target.extend(targets.map(|target| (*target, summary.practice)));
    }
    let practice_of = |entry: &Entry| match &entry.fact {
        Fact::PracticeStarted { .. } => Some(PracticeId(entry.id)),
        Fact::PracticeEnded { practice }
        | Fact::PresenceNoted { practice, .. }
        | Fact::PartBegun { practice, .. }
        | Fact::PartEnded { practice, .. }
        | Fact::RunStarted { practice, .. }
        | Fact::Emptied { practice: Some(practice), .. } => Some(*practice),
        Fact::PlanChanged { plan, .. } => of_plan.get(plan).copied(),
        Fact::NoteWritten { spot, .. } | Fact::QuestionAsked { spot, .. } => {
            spot.practice.or_else(|| of_run.get(&spot.run?).copied())
        }
        Fact::NoteChanged { note, .. } => of_target.get(&note.0).copied(),
        Fact::EntryTakenBack { run: None, target, .. } => of_target.get(target).copied(),
        fact => of_run.get(&fact.run(entry.id)?).copied(),
    };
    let loose = model.loose.iter().filter_map(|id| model.own.get(*id));
    let mut to_read: BTreeSet<PracticeId> = BTreeSet::new();
    to_read.extend(loose.filter_map(practice_of).filter(|id| unread.contains(id)));
    to_read.into_iter().filter_map(|id| want(model, id)).collect()
}

/// Reads a practice, unless it is being read.
pub fn want(model: &mut Model, id: PracticeId) -> Option<Effect> {
    if model.reading.get(&id).is_some_and(Option::is_none) {
        return None;
    }
    model.reading.insert(id, None);
    Some(Effect::Work(Job::Read { practice: id.0.to_string() }))
}

/// Practices of this phone that aren't packed, and of which accepted parcels speak.
pub fn said_of_by_parcels(model: &mut Model) -> Vec<Effect> {
    let named = model.parcels.iter().filter(|p| p.note.accepted).flat_map(|p| &p.note.practices);
    let mut ids: BTreeSet<PracticeId> = BTreeSet::new();
    ids.extend(named.filter_map(|key| practice_id(key)));
    let loose = |id: &PracticeId| !model.packed.contains_key(id) && model.own.get(id.0).is_some();
    let to_read: Vec<PracticeId> = ids.into_iter().filter(loose).collect();
    to_read.into_iter().filter_map(|id| want(model, id)).collect()
}

/// A practice was read.
pub fn read(model: &mut Model, key: &str, own: &[String], theirs: &[String]) -> Vec<Effect> {
    let Some(id) = practice_id(key) else { return Vec::new() };
    model.reading.remove(&id);
    let decoded = |records: &[String]| records.iter().filter_map(|text| record::decode(text).ok()).collect();
    model.take_in(decoded(own), decoded(theirs));
    let mut effects: Vec<Effect> = super::life::conflicts(model).into_iter().collect();
    if let Some(packed) = model.packed.get_mut(&id) {
        packed.read = true;
        packed.own_here = true;
    }
    super::notes::practice_came(model);
    effects.extend(super::along::read(model, id));
    if model.base.practice(id).is_some_and(|practice| model.is_open(&practice)) {
        model.packed.remove(&id);
        effects.extend(super::life::resume(model));
        effects.extend(super::along::go_on(model, id));
    } else {
        effects.extend(super::wanted_by_screen(model));
        effects.extend(due(model));
    }
    effects
}

/// What can be packed now, if anything: over, or another phone's for which nothing is counted here any more; everything confirmed, and not on screen.
pub fn due(model: &mut Model) -> Vec<Effect> {
    let storage = &model.storage;
    let tallying = matches!(model.screen, Screen::Run(_));
    if storage.state != StorageState::Ready || !storage.unsaved.is_empty() || model.packing.is_some() || tallying {
        return Vec::new();
    }
    let on_screen = practice_on_screen(model);
    let unread = |id: &PracticeId| model.packed.get(id).is_some_and(|p| !p.read);
    let over =
        model.base.practices().into_iter().filter(|p| !model.is_open(p) && on_screen != Some(p.id) && !unread(&p.id));
    for practice in over.filter(|p| !model.not_packed.contains(&p.id)) {
        let loose = model.loose.iter().filter(|id| model.own.get(**id).is_some_and(|e| practice.holds(e)));
        let loose: Vec<String> = loose.map(EntryId::to_string).collect();
        if !loose.is_empty() {
            model.packing = Some(practice.id);
            return vec![Effect::Work(Job::Pack { practice: practice.id.0.to_string(), loose, same: same(model) })];
        }
    }
    Vec::new()
}

/// The database has packed it.
pub fn packed(model: &mut Model, key: &str, removed: &[String], text: Option<String>) -> Vec<Effect> {
    model.packing = None;
    for id in removed.iter().filter_map(|key| EntryId::from_text(key)) {
        model.loose.remove(&id);
    }
    // Opened again meanwhile: it is on, whatever lies packed.
    if practice_id(key).and_then(|id| model.base.practice(id)).is_some_and(|p| !model.is_open(&p)) {
        summarised(model, (key.to_owned(), text), true);
    }
    let mut effects = due(model);
    // Two turned out to be one while it was packed.
    let stale = |packed: &&PackedPractice| packed.summary.same != *model.base.same();
    if practice_id(key).and_then(|id| model.packed.get(&id)).filter(stale).is_some() {
        effects.push(summarise(model, key.to_owned()));
    }
    effects
}

fn summarise(model: &Model, practice: String) -> Effect {
    Effect::Work(Job::Summarise { practice, same: same(model) })
}

fn same(model: &Model) -> SameText {
    summary::same_text(model.base.same())
}

/// What was counted under other children than now is counted again, all in one job; asked for once, however it ends.
pub fn recount(model: &mut Model) -> Option<Effect> {
    let same = model.base.same();
    let stale = |packed: &&PackedPractice| packed.summary.same != *same;
    let practices: Vec<String> =
        model.packed.values().filter(stale).map(|p| p.summary.practice.0.to_string()).collect();
    if practices.is_empty() || model.recounted.as_ref() == Some(same) {
        return None;
    }
    model.recounted = Some(same.clone());
    Some(Effect::Work(Job::Recount { practices, same: summary::same_text(same) }))
}

/// They were counted again. What of them is in memory stays.
pub fn recounted(model: &mut Model, summaries: Vec<KeyedSummary>) {
    for (key, text) in summaries {
        // One that was opened again meanwhile is counted from memory.
        let Some(packed) = practice_id(&key).and_then(|id| model.packed.get(&id)) else { continue };
        let read = packed.read;
        summarised(model, (key, text), read);
    }
}

/// The database did not pack it: its entries stay as they are.
pub fn not_packed(model: &mut Model) {
    model.not_packed.extend(model.packing.take());
}

/// A summary was made, or there is none any more.
pub fn summarised(model: &mut Model, (key, text): KeyedSummary, read: bool) {
    let Some(id) = practice_id(&key) else { return };
    // One that is on is counted from memory, though a block of it lies there from before it was opened again.
    let is_on = || model.base.practice(id).is_some_and(|practice| model.is_open(&practice));
    if !model.packed.contains_key(&id) && is_on() {
        return;
    }
    match text.and_then(|t| summary::decode(&t)) {
        Some(mut summary) => {
            model.writer.heard_clock(summary.clock);
            // One that was being made while a child was removed may still have it.
            summary.leave(model.own.removed());
            let own_here = read || model.packed.get(&id).is_some_and(|p| p.own_here);
            model.packed.insert(id, PackedPractice { summary, read, own_here });
        }
        None => {
            model.packed.remove(&id);
        }
    }
}

/// It could not be read; what is stored of it lies there untouched.
pub fn unread(model: &mut Model, key: &str, why: String) {
    if let Some(id) = practice_id(key) {
        model.reading.insert(id, Some(why));
        super::along::unread(model, id);
    }
}

/// Of the practices that are one with this the next to be read: one that couldn't be read once the others are.
pub fn unread_of(model: &Model, id: PracticeId) -> Option<PracticeId> {
    let unread = |id: &PracticeId| model.packed.get(id).is_some_and(|packed| !packed.read);
    let all: Vec<PracticeId> = model.one_with(id).into_iter().filter(unread).collect();
    all.iter().find(|id| !model.reading.contains_key(id)).or(all.first()).copied()
}

/// The practice of a run that lies packed and unread.
pub fn unread_practice_of(model: &Model, run: RunId) -> Option<PracticeId> {
    let holds = |p: &&PackedPractice| !p.read && p.summary.runs.iter().any(|r| r.run == run);
    model.packed.values().find(holds).map(|p| p.summary.practice)
}

fn practice_id(key: &str) -> Option<PracticeId> {
    EntryId::from_text(key).map(PracticeId)
}

/// The practice whose entries a screen shows or needs.
pub fn practice_on_screen(model: &Model) -> Option<PracticeId> {
    match model.screen {
        Screen::Run(run) | Screen::Contacts(run) | Screen::RunReport(run) => {
            unread_practice_of(model, run).or_else(|| model.runs.get(&run).map(|r| r.practice))
        }
        Screen::Remark(id) => super::super::notes::packed_with(model, id)
            .or_else(|| model.base.remark(id).and_then(|remark| remark.spot.practice)),
        _ => None,
    }
}
