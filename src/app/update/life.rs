//! The life of the page: the storage opens or refuses, writings are confirmed or fail, other tabs write, time passes.

use super::super::effect::{Effect, LockState, Opened, Record, Report, Signal};
use super::super::model::{Model, Parcel, StorageState};
use super::super::screen::Screen;
use super::super::settings::Settings;
use super::super::words;
use super::super::work::{Job, Note};
use super::{copies, packing, run, show};
use crate::domain::entry::Entry;
use crate::domain::ids::RunId;
use crate::domain::log::Arrival;
use crate::wire::record;

/// So long without a tap and the figures of the pause are shown.
pub const CALM_AFTER_MS: u64 = 5_000;
/// So long without a tap and the board covers itself: a pocket counts nothing.
pub const POCKET_AFTER_MS: u64 = 20_000;
/// A run whose last note is older isn't opened by itself any more.
const RESUME_WITHIN_MS: i64 = 3 * 3_600_000;

pub fn heard(model: &mut Model, report: Report) -> Vec<Effect> {
    match report {
        Report::Opened(opened) => return open(model, *opened),
        Report::Refused { trouble, second, settings } => {
            model.settings = settings.as_deref().and_then(Settings::from_json).unwrap_or_default();
            model.storage.state = StorageState::Refused(trouble.clone());
            model.storage.failed = Some(trouble);
            let (entries, aside) = decode(second.into_iter().map(|(key, text)| (key, Ok(text))));
            model.storage.unsaved.extend(entries.iter().map(|(key, _)| key.clone()));
            take_in(model, entries.into_iter().map(|(_, e)| e));
            model.storage.aside.extend(aside.into_iter().map(|(key, _)| key));
            return resume(model);
        }
        Report::Saved(keys) => {
            for key in keys {
                model.storage.unsaved.remove(&key);
            }
            model.storage.failed = None;
            if let StorageState::Refused(_) = model.storage.state {
                // It opens after all, and what lies in it has never been read here.
                return vec![Effect::OpenAgain];
            }
            return packing::due(model);
        }
        Report::SaveFailed { trouble, .. } => {
            let first = model.storage.failed.is_none();
            let said = words::trouble::short(&trouble).to_owned();
            model.storage.failed = Some(trouble);
            if first {
                return vec![Effect::Tell(Signal::NotSaved(said))];
            }
        }
        Report::SecondCopyFailed => model.storage.no_second_copy = true,
        Report::Heard(records) => {
            let keyed = records.into_iter().map(|text| (String::new(), Ok(text)));
            let (entries, _) = decode(keyed);
            for (_, entry) in entries {
                if model.own.get(entry.id).is_none() {
                    model.note(entry);
                }
            }
        }
        Report::Ticked => tick(model),
        Report::Address(text) => {
            let screen = Screen::from_address(&text).unwrap_or_default();
            if screen != model.screen {
                return show(model, screen);
            }
        }
        Report::Lock(state) => {
            model.lock = state;
            if state == LockState::Held {
                return run::go_on(model);
            }
        }
        Report::Lasting(lasting) => model.storage.lasting = lasting,
        Report::Phone(phone) => model.phone = phone,
        _ => {}
    }
    Vec::new()
}

/// Unites what the database and the second copies hold; absence is never read as deletion.
fn open(model: &mut Model, opened: Opened) -> Vec<Effect> {
    model.storage.state = StorageState::Ready;
    model.storage.failed = None;
    model.storage.lasting = opened.lasting;
    model.storage.aside = opened.aside.into_iter().map(|(key, _)| key).collect();
    let mut effects = Vec::new();
    if let Some(text) = opened.settings {
        match Settings::from_json(&text) {
            Some(settings) => model.settings = settings,
            None => effects.push(Effect::SetAside(vec![("settings".to_owned(), text)])),
        }
    }
    if !model.settings.device_name.is_empty() {
        model.writer.device = model.settings.device_name.clone();
    }
    let (entries, mut aside) = decode(opened.entries.into_iter());
    model.loose.extend(entries.iter().map(|(_, e)| e.id));
    let (second, aside_second) = decode(opened.second.into_iter().map(|(key, text)| (key, Ok(text))));
    aside.extend(aside_second);
    take_in(model, entries.into_iter().map(|(_, e)| e));
    let missing: Vec<Record> = second
        .into_iter()
        .map(|(key, entry)| {
            let record = record::encode(&entry);
            // What is confirmed already is saved again all the same: the answer removes the second copy.
            model.loose.insert(entry.id);
            model.own.add(entry);
            (key, record)
        })
        .collect();
    model.parcels.clear();
    for (key, text) in opened.parcels {
        match Note::from_text(&text) {
            Some(note) => model.parcels.push(Parcel { key, note }),
            None => aside.push((format!("parcel {key}"), text)),
        }
    }
    copies::take_in_notes(model);
    let own: Vec<Entry> = model.own.iter().cloned().collect();
    own.iter().for_each(|e| model.writer.heard(e));
    model.fold_all();
    effects.extend(packing::opened(model, opened.summaries));
    if model.demo && model.own.is_empty() {
        effects.push(Effect::Work(Job::Season { at: model.now.into() }));
    }
    if !missing.is_empty() {
        model.storage.unsaved.extend(missing.iter().map(|(key, _)| key.clone()));
        effects.push(Effect::Save(missing));
    }
    if !aside.is_empty() {
        model.storage.aside.extend(aside.iter().map(|(key, _)| key.clone()));
        effects.push(Effect::SetAside(aside));
    }
    let conflicts: Vec<Record> =
        model.own.aside().iter().map(|e| (format!("{} other content", e.id), record::encode(e))).collect();
    if !conflicts.is_empty() {
        model.storage.aside.extend(conflicts.iter().map(|(key, _)| key.clone()));
        effects.push(Effect::SetAside(conflicts));
    }
    effects.extend(resume(model));
    effects
}

/// A run that was on when the page went away is on screen again.
pub fn resume(model: &mut Model) -> Vec<Effect> {
    if model.screen == Screen::Today
        && let Some(run) = model.run_on()
        && (model.now.wall_ms - last_note_ms(model, run.id)).abs() < RESUME_WITHIN_MS
    {
        let id = run.id;
        return super::go(model, Screen::Run(id));
    }
    prepared(model)
}

/// The screen at hand is what its address said before anything was known: now it gets what it needs. What is being typed on it
/// stays.
fn prepared(model: &mut Model) -> Vec<Effect> {
    let at_work = match model.screen {
        Screen::Child(player) => model.drafts.child.as_ref().is_some_and(|d| d.player == player),
        Screen::Drill(drill) => model.drafts.drill.as_ref().is_some_and(|d| d.drill == drill),
        _ => false,
    };
    let screen = model.screen;
    if at_work { Vec::new() } else { show(model, screen) }
}

fn last_note_ms(model: &Model, run: RunId) -> i64 {
    model.runs.get(&run).and_then(|r| r.entries().map(|e| e.at.wall_ms).max()).unwrap_or(0)
}

fn take_in(model: &mut Model, entries: impl Iterator<Item = Entry>) {
    for entry in entries {
        model.writer.heard(&entry);
        if model.own.add(entry.clone()) == Arrival::SetAside {
            model.storage.aside.push(format!("{} other content", entry.id));
        }
    }
    model.fold_all();
}

/// Records read, and those that can't be: set aside and shown, never overwritten.
fn decode(records: impl Iterator<Item = (String, Result<String, String>)>) -> (Vec<(String, Entry)>, Vec<Record>) {
    let (mut good, mut aside) = (Vec::new(), Vec::new());
    for (key, text) in records {
        match text {
            Ok(text) => match record::decode(&text) {
                Ok(entry) => good.push((entry.id.to_string(), entry)),
                Err(_) => aside.push((key, text)),
            },
            Err(instead) => aside.push((key, instead)),
        }
    }
    (good, aside)
}

fn tick(model: &mut Model) {
    let quiet_ms = model.now.mono_ms.saturating_sub(model.board.last_tap_ms);
    let running = matches!(model.screen, Screen::Run(id) if model.runs.get(&id).is_some_and(|r| !r.main.finished));
    if running && quiet_ms >= POCKET_AFTER_MS {
        model.board.pocket = true;
    }
    if quiet_ms >= CALM_AFTER_MS {
        model.board.effort = None;
    }
}
