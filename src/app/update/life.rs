//! The life of the page: the storage opens or refuses, writings are confirmed or fail, other tabs write, time passes.

use super::super::apart::apart;
use super::super::effect::{Call, Effect, LockState, Opened, Record, Report, Signal, Trouble};
use super::super::forget::names_one_of;
use super::super::model::{Model, Parcel, StorageState};
use super::super::screen::Screen;
use super::super::settings::Settings;
use super::super::words;
use super::super::work::{Job, Note};
use super::{copies, floor, owner, packing, removal, show, squad, station, waking};
use crate::domain::drill::Board;
use crate::domain::entry::{Entry, Fact};
use crate::domain::ids::{Clock, PracticeId, RunId};
use crate::domain::log::Arrival;
use crate::domain::removed::Removed;
use crate::domain::time::Stamp;
use crate::wire::record;

/// So long without a tap and the figures of the pause are shown.
pub const CALM_AFTER_MS: u64 = 5_000;
/// So long without a tap and the board covers itself: a pocket counts nothing.
pub const POCKET_AFTER_MS: u64 = 45_000;
/// Long enough to look for a name and a kind; then the strip gives the head free again.
const STRIP_AFTER_MS: u64 = 12_000;
/// So many seconds before its end the time is called.
const CALL_AT_S: u32 = 10;
/// A run whose last note is older isn't opened by itself any more.
const RESUME_WITHIN_MS: i64 = 3 * 3_600_000;

pub fn heard(model: &mut Model, report: Report) -> Vec<Effect> {
    match report {
        Report::Opened(opened) => return apart(|| open(model, *opened)),
        Report::Refused { trouble, second, settings } => return apart(|| refused(model, trouble, second, settings)),
        Report::NotErased(Trouble::Erasing) => {
            model.storage.state = StorageState::Refused(Trouble::Erasing);
            model.storage.failed = Some(Trouble::Erasing);
            model.storage.no_second_copy = true;
            model.storage.not_erased = Some(words::trouble::whole(&Trouble::Erasing));
        }
        Report::NotErased(trouble) => {
            model.storage.not_erased = Some(words::trouble::not_erased(words::trouble::short(&trouble)));
        }
        Report::SettingsAside(keys) => {
            let keys: Vec<Record> = keys.into_iter().map(|key| (key, String::new())).collect();
            show_aside(model, &keys);
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
            return apart(|| packing::due(model));
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
        Report::Heard(records) => return apart(|| from_elsewhere(model, records)),
        Report::Ticked => return apart(|| tick(model)),
        Report::Woke(absence) => return apart(|| waking::woke(model, absence)),
        Report::Address(text) => {
            let screen = Screen::from_address(&text).unwrap_or_default();
            // Children who score themselves are led back, though the screen stays as it is.
            if screen != model.screen || station::led(model, screen) != screen {
                return apart(|| show(model, screen));
            }
        }
        Report::Lock(state) => {
            model.lock = state;
            if state == LockState::Held {
                // With the lock the children's phone is this window: nothing else here would answer.
                if let Some(id) = station::open_today(model).filter(|id| model.screen != Screen::Run(*id)) {
                    return super::go(model, Screen::Run(id));
                }
                return owner::go_on(model);
            }
        }
        Report::Lasting(lasting) => model.storage.lasting = lasting,
        Report::Phone(phone) => model.phone = phone,
        _ => {}
    }
    Vec::new()
}

/// The storage doesn't open: what the second copies hold is there all the same.
fn refused(model: &mut Model, trouble: Trouble, second: Vec<Record>, settings: Option<String>) -> Vec<Effect> {
    let mut effects = take_settings(model, settings);
    model.storage.state = StorageState::Refused(trouble.clone());
    model.storage.failed = Some(trouble);
    let (entries, aside) = decode_second(second);
    for (key, entry) in entries {
        if take_in(model, entry) {
            model.storage.unsaved.insert(key);
        }
    }
    model.fold_all();
    model.forget(&Removed::default());
    show_aside(model, &aside);
    effects.extend(conflicts(model));
    effects.extend(resume(model));
    effects
}

/// What another window of this phone has written.
fn from_elsewhere(model: &mut Model, records: Vec<String>) -> Vec<Effect> {
    let keyed = records.into_iter().map(|text| (String::new(), Ok(text)));
    let (entries, _) = decode(keyed);
    // One that lies packed may be on again: another window takes part in it, or opened it.
    let opens = |fact: &Fact| matches!(fact, Fact::PracticeStarted { .. } | Fact::EntryTakenBack { run: None, .. });
    let opens = entries.iter().any(|(_, entry)| opens(&entry.fact));
    let removes = entries.iter().any(|(_, entry)| matches!(entry.fact, Fact::ChildRemoved { .. }));
    for (_, entry) in entries {
        let (id, is_said) = (entry.id, !matches!(entry.fact, Fact::Emptied { .. }));
        let goes = model.own.removed().concerns(&entry);
        if model.own.get(id).is_none() {
            // It is told once the database holds it.
            model.loose.insert(id);
            model.note(entry);
        } else {
            model.own.add(entry);
        }
        let is_unsaid = || model.own.get(id).is_some_and(|e| matches!(e.fact, Fact::Emptied { .. }));
        // Whoever wrote it didn't know of the removal yet: it lies there as it came.
        if goes || is_said && is_unsaid() {
            model.loose.insert(id);
            model.stale.insert(id);
        }
    }
    let to_settle = removes || !model.stale.is_empty();
    let mut effects = if to_settle { removal::settle(model) } else { Vec::new() };
    effects.extend(conflicts(model));
    effects.extend(packing::recount(model));
    if opens {
        // One that was read lies in memory, so it is on again at once.
        let is_on = |id: &PracticeId| model.base.practice(*id).is_some_and(|practice| model.is_open(&practice));
        let on: Vec<PracticeId> =
            model.packed.iter().filter(|(id, p)| p.read && is_on(id)).map(|(id, _)| *id).collect();
        on.iter().for_each(|id| drop(model.packed.remove(id)));
        effects.extend(packing::corrected(model));
    }
    effects
}

/// Unites what the database and the second copies hold; absence is never read as deletion.
fn open(model: &mut Model, opened: Opened) -> Vec<Effect> {
    model.storage.state = StorageState::Ready;
    model.storage.failed = None;
    let readable = opened.aside.iter().filter_map(|(key, text)| Some((key.clone(), record::decode(text).ok()?)));
    model.storage.other_content = readable.collect();
    model.storage.aside = opened.aside.into_iter().map(|(key, _)| key).collect();
    let mut effects = take_settings(model, opened.settings);
    let (entries, mut aside) = decode(opened.entries.into_iter());
    model.loose.extend(entries.iter().map(|(_, e)| e.id));
    let (second, aside_second) = decode_second(opened.second);
    aside.extend(aside_second);
    model.parcels.clear();
    for (key, text) in opened.parcels {
        match Note::from_text(&text) {
            Some(note) => model.parcels.push(Parcel { key, note }),
            None => aside.push((format!("parcel {key}"), text)),
        }
    }
    let stored: Vec<&Entry> = entries.iter().chain(&second).map(|(_, entry)| entry).collect();
    let removed = Removed::of(stored.iter().copied());
    let named = model.remember_stored(&stored);
    // What names somebody who goes lies as it is until nothing has to be found by it any more.
    let is_held = |entry: &Entry| names_one_of(entry, &|player| named.contains(&player));
    for entry in entries.iter().map(|(_, entry)| entry).filter(|entry| removed.concerns(entry)) {
        let to_empty = if is_held(entry) { &mut model.held } else { &mut model.stale };
        to_empty.insert(entry.id);
    }
    model.own.know(&removed);
    entries.into_iter().for_each(|(_, entry)| {
        take_in(model, entry);
    });
    let mut missing: Vec<Record> = Vec::new();
    for (key, entry) in second {
        let (id, is_held) = (entry.id, is_held(&entry));
        // What is confirmed already is saved again all the same: the answer removes the second copy. One with other content than
        // is here is never written over it.
        if take_in(model, entry) {
            model.loose.insert(id);
            if is_held {
                model.held.insert(id);
            } else {
                missing.extend(model.own.get(id).map(|entry| (key, record::encode(entry))));
            }
        }
    }
    copies::take_in_notes(model);
    model.fold_all();
    effects.extend(packing::opened(model, opened.summaries));
    effects.extend(removal::settle(model));
    if model.demo && model.own.is_empty() {
        effects.push(Effect::Work(Job::Season { at: model.now.into() }));
    }
    if !missing.is_empty() {
        model.storage.unsaved.extend(missing.iter().map(|(key, _)| key.clone()));
        effects.push(Effect::Save(missing));
    }
    if !aside.is_empty() {
        show_aside(model, &aside);
        effects.push(Effect::SetAside(aside));
    }
    effects.extend(conflicts(model));
    effects.push(Effect::HearOfFiles);
    effects.extend(squad::settle_starters(model));
    effects.extend(resume(model));
    effects
}

/// A run that was on when the page went away is on screen again, unless the coach has asked for something since.
pub fn resume(model: &mut Model) -> Vec<Effect> {
    if let Some(id) = station::open_today(model)
        && model.screen != Screen::Run(id)
    {
        return super::go(model, Screen::Run(id));
    }
    if model.screen == Screen::Today
        && !model.asked
        && let Some(run) = model.run_on()
        && (model.now.wall_ms - last_note_ms(model, run.id)).abs() < RESUME_WITHIN_MS
    {
        let id = run.id;
        return super::go(model, Screen::Run(id));
    }
    prepared(model)
}

/// The screen at hand is what its address said before anything was known: now it gets what it needs and lacks. It is the same
/// visit: what is typed, said or open on it stays.
fn prepared(model: &mut Model) -> Vec<Effect> {
    let meant = super::joining::meant(model, model.screen);
    if meant != model.screen {
        return super::go(model, meant);
    }
    let (child, drill) = (&model.drafts.child, &model.drafts.drill);
    let lacks = match model.screen {
        Screen::Child(player) => child.as_ref().is_none_or(|d| d.player != player),
        Screen::Drill(id) => drill.as_ref().is_none_or(|d| d.drill != id),
        Screen::Run(_) | Screen::Groups => true,
        Screen::Dates(of) => model.drafts.calendar.form.as_ref().is_none_or(|form| form.of != of),
        Screen::Note | Screen::Ask | Screen::Remark(_) => super::notes::lacks(model),
        _ => false,
    };
    super::prepare(model, lacks)
}

fn last_note_ms(model: &Model, run: RunId) -> i64 {
    model.runs.get(&run).and_then(|r| r.entries().map(|e| e.at.wall_ms).max()).unwrap_or(0)
}

/// Settings as they were found; where they can't be understood, their text is moved aside before anything is kept in its place.
fn take_settings(model: &mut Model, text: Option<String>) -> Vec<Effect> {
    let Some(text) = text else { return Vec::new() };
    match Settings::from_json(&text) {
        Some(settings) if model.demo => model.settings = settings.for_demo(),
        Some(settings) => {
            // Also where the database can't be read: what is counted today comes after that copy.
            model.writer.heard_clock(Clock(settings.copied_clock));
            model.settings = settings;
        }
        None => return vec![Effect::SetSettingsAside],
    }
    if !model.settings.device_name.is_empty() {
        model.writer.device = model.settings.device_name.clone();
    }
    Vec::new()
}

/// Adds an entry of this phone without folding. `false`: its identity is here with other content, and what is here stands.
fn take_in(model: &mut Model, entry: Entry) -> bool {
    let clock = entry.clock;
    if model.own.add(entry) == Arrival::SetAside {
        return false;
    }
    model.writer.heard_clock(clock);
    true
}

/// Entries whose identity was here with other content: kept aside and shown, each once.
pub fn conflicts(model: &mut Model) -> Option<Effect> {
    let known = |entry: &&Entry| !model.storage.other_content.iter().any(|(_, aside)| aside == *entry);
    let mut found: Vec<Record> = Vec::new();
    for entry in model.own.aside().iter().filter(known) {
        let record = record::encode(entry);
        let key = format!("{} other content {:08x}", entry.id, fingerprint(&record));
        if !model.storage.aside.contains(&key) {
            found.push((key, record));
        }
    }
    let readable = found.iter().filter_map(|(key, text)| Some((key.clone(), record::decode(text).ok()?)));
    model.storage.other_content.extend(readable);
    show_aside(model, &found);
    (!found.is_empty()).then_some(Effect::SetAside(found))
}

/// FNV-1a, 32 bits (Fowler, Noll, Vo 1991): two other contents of one identity lie aside under two keys.
fn fingerprint(text: &str) -> u32 {
    text.bytes().fold(0x811c_9dc5, |hash, byte| (hash ^ u32::from(byte)).wrapping_mul(0x0100_0193))
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

/// Second copies. One that can't be read lies aside under a name that tells it from the record of the same key.
fn decode_second(second: Vec<Record>) -> (Vec<(String, Entry)>, Vec<Record>) {
    let (good, aside) = decode(second.into_iter().map(|(key, text)| (key, Ok(text))));
    (good, aside.into_iter().map(|(key, text)| (format!("second copy {key}"), text)).collect())
}

/// Each is shown once, however often it is found.
fn show_aside(model: &mut Model, records: &[Record]) {
    for (key, _) in records {
        if !model.storage.aside.contains(key) {
            model.storage.aside.push(key.clone());
        }
    }
}

/// Whether anything on screen changes by time alone: the board does, and the first screen when a new day begins.
pub fn wants_tick(model: &Model, now: Stamp) -> bool {
    match model.screen {
        Screen::Run(_) => true,
        Screen::Today => now.day() != model.now.day() || part_is_on(model),
        Screen::Calendar => now.day() != model.now.day(),
        // There the hours move on, by the minute.
        Screen::Plan => now.wall_ms / 60_000 != model.now.wall_ms / 60_000 && part_is_on(model),
        _ => false,
    }
}

/// While a part is on, its time is shown.
fn part_is_on(model: &Model) -> bool {
    let practice = model.practice_today().filter(|p| p.plan.is_some());
    practice.and_then(|p| model.base.marks(p.id).pop()).is_some_and(|mark| !mark.ends)
}

fn tick(model: &mut Model) -> Vec<Effect> {
    let quiet_ms = model.now.mono_ms.saturating_sub(model.board.last_tap_ms);
    let on = match model.screen {
        Screen::Run(id) => model.runs.get(&id).filter(|run| !run.main.finished),
        _ => None,
    };
    // A phone that is propped up stands in sight.
    let can_be_in_a_pocket = on.is_some_and(|run| !matches!(run.spec.board, Board::Propped { .. }));
    let left_s = on.and_then(|run| floor::left_s(model, run));
    let paused = on.map(|run| run.id).filter(|_| quiet_ms >= CALM_AFTER_MS);
    if can_be_in_a_pocket && quiet_ms >= POCKET_AFTER_MS {
        model.board.pocket = true;
    }
    if quiet_ms >= STRIP_AFTER_MS {
        model.board.effort = None;
    }
    let mut effects = call_time(model, left_s);
    effects.extend(super::plan::call_over(model));
    effects.extend(paused.and_then(|run| crate::app::steps::paused(model, run)));
    effects
}

/// Time is called once shortly before its end, where it lasts long enough, and once at the end; a phone that slept over both calls
/// the end alone.
fn call_time(model: &mut Model, left_s: Option<u32>) -> Vec<Effect> {
    let before = std::mem::replace(&mut model.board.left_s, left_s);
    let (Some(before), Some(now)) = (before, left_s) else { return Vec::new() };
    let call = match now {
        0 if before > 0 => words::calls::TIME,
        1..=CALL_AT_S if before > CALL_AT_S => words::calls::SOON,
        _ => return Vec::new(),
    };
    vec![Effect::Tell(Signal::Call(Call::Time, call.to_owned()))]
}
