//! Finished practices are packed into one block each, in one transaction, with a summary beside it. A practice with entries
//! that lie loose (it was corrected, or opened again) is read and, once it is over, packed again.

use std::collections::BTreeSet;

use super::super::demo;
use super::super::effect::Effect;
use super::super::model::{Model, PackedPractice, StorageState};
use super::super::screen::Screen;
use super::super::words;
use crate::domain::entry::{Entry, Fact, NoteAbout};
use crate::domain::ids::{EntryId, PracticeId, RunId};
use crate::domain::log::Log;
use crate::domain::replay::base::{Base, Practice};
use crate::domain::replay::run::RunState;
use crate::domain::summary::PracticeSummary;
use crate::wire::{block, summary};

const DEMO_SEED: u64 = 0x0005_ea50;

/// Summaries found at the start; practices that have to be read before they can be trusted.
pub fn opened(model: &mut Model, summaries: Vec<(String, Result<String, String>)>) -> Vec<Effect> {
    let mut to_read = BTreeSet::new();
    for (key, text) in summaries {
        match text.ok().and_then(|t| summary::decode(&t)) {
            Some(summary) => {
                model.packed.insert(summary.practice, PackedPractice { summary, read: false });
            }
            None => to_read.extend(EntryId::from_text(&key).map(PracticeId)),
        }
    }
    // Loose entries of a packed practice: it was corrected, or opened again.
    to_read.extend(model.own.iter().filter_map(|e| practice_of(model, e)).filter(|p| model.packed.contains_key(p)));
    to_read.into_iter().map(Effect::ReadPractice).collect()
}

/// The demo's season, made at its first opening: squad and drills loose, each practice packed.
pub fn make_demo(model: &mut Model) -> Vec<Effect> {
    let season = demo::season(DEMO_SEED, demo::Size::DEMO, model.now);
    let records = season.base.iter().map(super::record_of).collect();
    for entry in season.base {
        model.loose.insert(entry.id);
        model.note(entry);
    }
    let mut effects = vec![Effect::Save(records)];
    for entries in season.practices {
        let log: Log = entries.into_iter().collect();
        let base = Base::fold(log.iter());
        for practice in base.practices() {
            let of_run = |run: &RunId| log.iter().filter(|e| e.fact.run(e.id) == Some(*run)).cloned().collect();
            let runs: Vec<RunState> = practice.runs.iter().filter_map(|run| RunState::fold(of_run(run))).collect();
            let made = PracticeSummary::of(&practice, runs.iter());
            effects.push(Effect::Pack {
                key: practice.id.0.to_string(),
                block: block::pack(log.iter()),
                summary: summary::encode(&made),
                remove: Vec::new(),
            });
            model.packed.insert(practice.id, PackedPractice { summary: made, read: false });
        }
    }
    effects
}

/// A packed practice was read.
pub fn read(model: &mut Model, id: PracticeId, bytes: Result<Vec<u8>, String>) -> Vec<Effect> {
    let entries = bytes.and_then(|b| block::unpack(&b).map_err(|refusal| words::trouble::refusal(&refusal)));
    match entries {
        Ok(entries) => {
            for entry in entries {
                model.own.add(entry);
            }
            model.fold_all();
            match model.packed.get_mut(&id) {
                Some(packed) => packed.read = true,
                None => mark_all_loose(model, id),
            }
            if model.base.practice(id).is_some_and(|p| !p.ended) {
                model.packed.remove(&id);
                return super::life::resume(model);
            }
        }
        Err(why) => model.storage.aside.push(format!("practice {}: {why}", id.0)),
    }
    due(model)
}

/// What can be packed now, if anything: over, everything confirmed, and not on screen.
pub fn due(model: &mut Model) -> Vec<Effect> {
    let storage = &model.storage;
    if storage.state != StorageState::Ready || !storage.unsaved.is_empty() || model.packing.is_some() {
        return Vec::new();
    }
    let on_screen = practice_on_screen(model);
    let over = model.base.practices().into_iter().filter(|p| p.ended && on_screen != Some(p.id));
    let unread = |id: &PracticeId| model.packed.get(id).is_some_and(|p| !p.read);
    for practice in over.filter(|p| model.own.get(p.id.0).is_some() && !unread(&p.id)) {
        let entries: Vec<&Entry> = model.own.iter().filter(|e| belongs(e, &practice)).collect();
        let loose: Vec<EntryId> = entries.iter().map(|e| e.id).filter(|id| model.loose.contains(id)).collect();
        if loose.is_empty() {
            continue;
        }
        let made = PracticeSummary::of(&practice, model.runs_of(&practice));
        let effect = Effect::Pack {
            key: practice.id.0.to_string(),
            block: block::pack(entries),
            summary: summary::encode(&made),
            remove: loose.iter().map(EntryId::to_string).collect(),
        };
        model.packing = Some(practice.id);
        return vec![effect];
    }
    Vec::new()
}

/// The database has packed it.
pub fn packed(model: &mut Model, key: &str, removed: &[String]) -> Vec<Effect> {
    model.packing = None;
    for id in removed.iter().filter_map(|key| EntryId::from_text(key)) {
        model.loose.remove(&id);
    }
    if let Some(practice) = EntryId::from_text(key).and_then(|id| model.base.practice(PracticeId(id))) {
        let summary = PracticeSummary::of(&practice, model.runs_of(&practice));
        // Opened again meanwhile: it is on, whatever lies packed.
        if practice.ended {
            model.packed.insert(practice.id, PackedPractice { summary, read: true });
        }
    }
    due(model)
}

/// The practice of a run that lies packed and unread.
pub fn unread_practice_of(model: &Model, run: RunId) -> Option<PracticeId> {
    let holds = |p: &&PackedPractice| !p.read && p.summary.runs.iter().any(|r| r.run == run);
    model.packed.values().find(holds).map(|p| p.summary.practice)
}

fn mark_all_loose(model: &mut Model, id: PracticeId) {
    // Its summary couldn't be read: packing it again makes a new one.
    let Some(practice) = model.base.practice(id) else { return };
    let ids: Vec<EntryId> = model.own.iter().filter(|e| belongs(e, &practice)).map(|e| e.id).collect();
    model.loose.extend(ids);
}

fn practice_on_screen(model: &Model) -> Option<PracticeId> {
    match model.screen {
        Screen::Run(run) | Screen::Contacts(run) | Screen::RunReport(run) => model.runs.get(&run).map(|r| r.practice),
        _ => None,
    }
}

/// Entries that go into the block of a practice. The squad, drills and kinds of effort stay outside: every practice needs them.
fn belongs(entry: &Entry, practice: &Practice) -> bool {
    let id = practice.id;
    match &entry.fact {
        Fact::PracticeStarted { .. } => entry.id == id.0,
        Fact::PracticeEnded { practice } | Fact::PresenceNoted { practice, .. } => *practice == id,
        Fact::NoteWritten { about: NoteAbout::Practice(about), .. } => *about == id,
        Fact::RunStarted { practice, .. } => *practice == id,
        Fact::EntryTakenBack { run: None, target, .. } => practice.endings.contains(target),
        fact => fact.run(entry.id).is_some_and(|run| practice.runs.contains(&run)),
    }
}

/// The packed practice that a loose entry speaks of.
fn practice_of(model: &Model, entry: &Entry) -> Option<PracticeId> {
    match &entry.fact {
        Fact::PracticeEnded { practice } | Fact::PresenceNoted { practice, .. } | Fact::RunStarted { practice, .. } => {
            Some(*practice)
        }
        Fact::NoteWritten { about: NoteAbout::Practice(practice), .. } => Some(*practice),
        Fact::EntryTakenBack { run: None, target, .. } => {
            let ends = |p: &&PackedPractice| p.summary.endings.contains(target);
            model.packed.values().find(ends).map(|p| p.summary.practice)
        }
        fact => unread_practice_of(model, fact.run(entry.id)?),
    }
}
