//! Copies out and in: a file written from everything known, a file looked at, accepted as a parcel, taken back. The work itself
//! is a job; what a parcel is to the model stands in its note.

use super::super::action::{Action, CopyHow};
use super::super::effect::{Effect, Report};
use super::super::model::{CopyState, Model, OfferedParcel, Parcel, ReadyCopy};
use super::super::phones::to_tell;
use super::super::screen::Screen;
use super::super::view::share::Answer;
use super::super::words;
use super::super::work::{Goes, Job, KeyedSummary, Note, ParcelChange, Preview};
use super::{codes, lock, packing};
use crate::domain::ids::PracticeId;
use crate::domain::log::Log;
use crate::domain::removed::Removed;
use crate::wire::record;

/// The largest file that is looked at, in bytes.
pub const MAX_FILE_BYTES: u64 = 100_000_000;

pub fn act(model: &mut Model, action: Action) -> Vec<Effect> {
    match action {
        Action::CopyWanted(..) | Action::CopySent if model.copy.writing => Vec::new(),
        Action::CopyWanted(how, goes) => want(model, goes, how),
        Action::CopySent => match &model.copy.ready {
            Some(ready) if is_current(model, ready) && to_tell(model).is_none() => {
                let name = ready.name.clone();
                // Until the sheet is closed: browsers open one at a time.
                model.copy.writing = true;
                model.copy.answer = None;
                vec![Effect::Offer { name, how: CopyHow::ShareSheet }]
            }
            // Its words are gone, and without them it doesn't leave.
            Some(ready) if ready.locked => {
                model.copy.ready = None;
                answer(model, words::lock::MORE_SINCE.to_owned(), true);
                Vec::new()
            }
            Some(ready) => {
                let goes = ready.goes.clone();
                want(model, goes, CopyHow::ShareSheet)
            }
            None => Vec::new(),
        },
        Action::CopySeen(there) => seen(model, there),
        Action::ParcelAccepted => accept(model),
        Action::ParcelDeclined => {
            model.copy.offered = None;
            Vec::new()
        }
        Action::LookStopped if model.copy.looking.is_some() => {
            (model.copy.looking, model.copy.reading) = (None, None);
            vec![Effect::StopLooking]
        }
        Action::ParcelBackAsked(key) => {
            model.copy.back_asked = key;
            Vec::new()
        }
        Action::ParcelTakenBack(key) => change(model, &key, ParcelChange::TakeBack),
        Action::ParcelPutBack(key) => change(model, &key, ParcelChange::PutBack),
        Action::AnswerSeen => {
            model.copy.answer = None;
            Vec::new()
        }
        _ => Vec::new(),
    }
}

pub fn heard(model: &mut Model, report: Report) -> Vec<Effect> {
    match report {
        Report::CopyLeft { how, left } => return copy_left(model, how, left),
        Report::Looking(at) => {
            // It never goes back: a job that is begun again begins at nothing.
            model.copy.looking = model.copy.looking.map(|had| had.max(at));
        }
        Report::FileChosen { name, n_bytes } => {
            model.copy.offered = None;
            let mut effects: Vec<Effect> = lock::replaced(model).into_iter().collect();
            // The one before it is no longer waited for.
            let dropped = std::mem::take(&mut model.copy.dropped);
            effects.extend((model.copy.looking.take().is_some() || dropped).then_some(Effect::StopLooking));
            if n_bytes > MAX_FILE_BYTES {
                answer(model, words::trouble::TOO_LARGE.to_owned(), true);
                return effects;
            }
            model.copy.answer = None;
            model.copy.reading = Some(name);
            model.copy.looking = Some(0);
            effects.push(Effect::Work(Job::Look { records: unsaved(model) }));
            return effects;
        }
        _ => {}
    }
    Vec::new()
}

/// A file came by another way than the input: the same, and its screen is shown, unless children have the phone.
pub fn came(model: &mut Model, name: String, n_bytes: u64, others: usize) -> Vec<Effect> {
    let mut effects = if model.screen == Screen::Share { Vec::new() } else { super::go(model, Screen::Share) };
    effects.extend(heard(model, Report::FileChosen { name, n_bytes }));
    if others > 0 && model.copy.answer.is_none() {
        answer(model, words::lock::ONE_AT_A_TIME.to_owned(), false);
    }
    effects
}

/// One that was shared with the app could not be kept for it.
pub fn lost(model: &mut Model) -> Vec<Effect> {
    let effects = if model.screen == Screen::Share { Vec::new() } else { super::go(model, Screen::Share) };
    answer(model, words::lock::NOT_KEPT_FOR_US.to_owned(), true);
    effects
}

/// So long after a tap a share sheet may still open; browsers allow some five seconds.
pub const TAP_LASTS_MS: u64 = 3_000;

pub(super) fn want(model: &mut Model, goes: Goes, how: CopyHow) -> Vec<Effect> {
    let mut effects = super::phone::tell_name(model);
    if how == CopyHow::Code {
        codes::wanted(model);
        // One that waits for the share sheet is no longer the one that was written last.
        (model.copy.writing, model.copy.ready) = (true, None);
    } else {
        let had = std::mem::take(&mut model.copy);
        model.copy = CopyState { writing: true, answer: None, ready: None, given: None, ..had };
    }
    effects.push(write_copy(model, goes, how, model.is_closed()));
    effects
}

/// Nothing was noted or taken in since it was written.
fn is_current(model: &Model, ready: &ReadyCopy) -> bool {
    model.writer.clock().0 <= ready.clock && accepted(model) == ready.parcels
}

/// The keys of the accepted parcels. Jobs are done one after another: when a copy is answered, these are in it.
pub fn accepted(model: &Model) -> Vec<String> {
    model.parcels.iter().filter(|p| p.note.accepted).map(|p| p.key.clone()).collect()
}

/// The copy stands ready. A share sheet that would come too late after the tap waits for another.
pub fn copied(model: &mut Model, how: CopyHow, ready: ReadyCopy, missing: Option<String>) -> Vec<Effect> {
    if let Some(sentence) = missing {
        answer(model, sentence, true);
    }
    match lock::written(model, how, &ready) {
        Some(effects) => effects,
        None => stands_ready(model, how, ready),
    }
}

pub(super) fn stands_ready(model: &mut Model, how: CopyHow, ready: ReadyCopy) -> Vec<Effect> {
    let waits = ready.waits && how == CopyHow::ShareSheet;
    let name = ready.name.clone();
    model.copy.writing = !waits;
    model.copy.ready = Some(ReadyCopy { waits, ..ready });
    if waits { Vec::new() } else { vec![Effect::Offer { name, how }] }
}

fn copy_left(model: &mut Model, how: CopyHow, left: Result<bool, String>) -> Vec<Effect> {
    model.copy.writing = false;
    let Some(ready) = model.copy.ready.take() else {
        if let Err(why) = left {
            answer(model, words::copies::failed(&why), true);
        }
        return Vec::new();
    };
    match (left, how) {
        // What is missing from it is said; what is in it may still be all there is elsewhere, and counts as nothing sent.
        (Ok(true), how) if !ready.goes.is_whole() => {
            let said = match how {
                CopyHow::ShareSheet => words::copies::PART_LEFT.to_owned(),
                CopyHow::Download | CopyHow::Code => words::copies::part_given(&ready.name),
            };
            let opens = ready.goes.table.is_none() && ready.goes.only.is_none();
            let said = if opens { format!("{said} {}", words::copies::THEN) } else { said };
            // That something is missing from it stays in view.
            if model.copy.answer.is_none() {
                answer(model, said, false);
            }
            Vec::new()
        }
        (Ok(true), _) if !ready.whole => Vec::new(),
        (Ok(true), CopyHow::ShareSheet) => sent(model, &ready, words::copies::COPY_LEFT),
        // The browser was only asked: whether there was room, or a download was allowed, it doesn't tell.
        (Ok(true), CopyHow::Download | CopyHow::Code) => {
            model.copy.given = Some(ready);
            Vec::new()
        }
        // The sheet was closed or did not open: the copy stands ready still.
        (Ok(false), _) => {
            model.copy.ready = Some(ReadyCopy { waits: true, ..ready });
            Vec::new()
        }
        (Err(why), CopyHow::ShareSheet) => {
            let said = if ready.locked { words::lock::not_shared(&why) } else { words::copies::not_shared(&why) };
            model.copy.ready = Some(ReadyCopy { waits: true, ..ready });
            answer(model, said, true);
            Vec::new()
        }
        (Err(why), CopyHow::Download | CopyHow::Code) => {
            answer(model, words::copies::failed(&why), true);
            Vec::new()
        }
    }
}

/// The coach has looked for the copy that the browser was given to save.
fn seen(model: &mut Model, there: bool) -> Vec<Effect> {
    let Some(ready) = model.copy.given.take() else { return Vec::new() };
    if there {
        return sent(model, &ready, words::copies::COPY_SAVED);
    }
    answer(model, words::copies::COPY_NOT_THERE.to_owned(), true);
    Vec::new()
}

fn sent(model: &mut Model, ready: &ReadyCopy, said: &str) -> Vec<Effect> {
    let current = is_current(model, ready);
    model.settings.copied_clock = ready.clock;
    model.settings.copied_wall_ms = Some(ready.wall_ms);
    model.settings.copied_parcels.clone_from(&ready.parcels);
    let rest = if current { words::copies::ALL_IN_IT } else { words::copies::LATER_NOT_IN_IT };
    answer(model, format!("{said} {rest} {}", words::copies::THEN), false);
    vec![Effect::KeepSettings(model.settings.to_json())]
}

/// The coach comes to a screen. A share sheet that never said how it ended holds nobody up: its copy stands ready again.
pub fn visited(model: &mut Model) {
    if let Some(ready) = model.copy.ready.as_mut().filter(|_| model.copy.writing) {
        ready.waits = true;
        model.copy.writing = false;
    }
}

/// Unconfirmed records go along with the job; all in memory where the database can't be read.
pub fn write_copy(model: &Model, goes: Goes, how: CopyHow, all: bool) -> Effect {
    let records =
        if all { model.own.iter().chain(model.theirs.iter()).map(record::encode).collect() } else { unsaved(model) };
    let (clock, asked_ms) = (model.writer.clock().0, model.now.mono_ms);
    Effect::Work(Job::Copy { goes, how, at: model.now.into(), clock, asked_ms, records, all })
}

/// A file was looked at. Nothing is stored yet.
pub fn looked(model: &mut Model, key: String, from: String, preview: Preview) {
    // Stopped meanwhile: nobody asks any more.
    if model.copy.looking.take().is_none() {
        return;
    }
    let Some(name) = model.copy.reading.take() else { return };
    model.copy.offered = Some(OfferedParcel { key, name, from, preview });
}

/// A parcel has come, gone, or come back, and the database says so.
pub fn changed(model: &mut Model, key: String, what: ParcelChange, note: &str, made: Vec<KeyedSummary>) -> Vec<Effect> {
    model.copy.reading = None;
    let Some(note) = Note::from_text(note) else {
        answer(model, words::work::NONSENSE.to_owned(), true);
        return Vec::new();
    };
    match model.parcels.iter_mut().find(|p| p.key == key) {
        Some(parcel) => parcel.note = note,
        None => model.parcels.push(Parcel { key: key.clone(), note }),
    }
    // What is in memory of practices that parcels speak of is read again when it is wanted.
    let named: Vec<String> = model.parcels.iter().flat_map(|p| p.note.practices.clone()).collect();
    for packed in model.packed.values_mut().filter(|p| named.contains(&p.summary.practice.0.to_string())) {
        packed.read = false;
    }
    made.into_iter().for_each(|summary| packing::summarised(model, summary, false));
    take_in_notes(model);
    // Before it is folded: who goes is still called by name.
    if !model.forget(&Removed::default()) {
        model.fold_all();
    }
    let removed = super::removal::settle(model);
    if what == ParcelChange::Accept {
        let removes = std::mem::take(&mut model.copy.removes);
        let taken = if removes { words::copies::TAKEN_REMOVES } else { words::copies::PARCEL_TAKEN };
        let its = |id: &PracticeId| {
            model.parcels.iter().any(|p| p.key == key && p.note.practices.contains(&id.0.to_string()))
        };
        let part = model.can_take_part().iter().any(|theirs| its(&theirs.practice));
        let said = if part { format!("{taken} {}", words::copies::TAKE_PART) } else { taken.to_owned() };
        answer(model, said, false);
    }
    let mut effects = packing::said_of_by_parcels(model);
    effects.extend(removed);
    effects.extend(packing::recount(model));
    effects.extend(super::wanted_by_screen(model));
    effects
}

/// Looking at a file or taking it in did not succeed.
pub fn not_read(model: &mut Model, sentence: String) {
    model.copy.looking = None;
    model.copy.reading = None;
    answer(model, sentence, true);
}

pub fn not_copied(model: &mut Model, sentence: String) {
    model.copy.writing = false;
    model.copy.locking = Default::default();
    answer(model, sentence, true);
}

/// What belongs to no practice is in memory while a parcel is accepted.
pub fn take_in_notes(model: &mut Model) {
    let records = model.parcels.iter().filter(|p| p.note.accepted).flat_map(|p| &p.note.base);
    let mut theirs = Log::default();
    // What is known here already is nothing new in what was accepted.
    theirs.know(model.own.removed());
    theirs.extend(records.filter_map(|text| record::decode(text).ok()));
    model.theirs = theirs;
}

pub(super) fn answer(model: &mut Model, text: String, refused: bool) {
    model.copy.answer = Some(Answer { text, refused });
}

/// Records that the database has not confirmed.
pub(super) fn unsaved(model: &Model) -> Vec<String> {
    let wanted = model.own.iter().map(super::record_of).filter(|(key, _)| model.storage.unsaved.contains(key));
    if model.storage.unsaved.is_empty() { Vec::new() } else { wanted.map(|(_, record)| record).collect() }
}

fn accept(model: &mut Model) -> Vec<Effect> {
    let Some(OfferedParcel { key, name, from, preview }) = model.copy.offered.take() else { return Vec::new() };
    let known = model.parcels.iter().any(|p| p.key == key && p.note.accepted);
    if preview.nothing_new || known {
        answer(model, words::copies::NOTHING_NEW.to_owned(), false);
        return Vec::new();
    }
    model.copy.reading = Some(name.clone());
    model.copy.removes = preview.removes.is_some();
    vec![Effect::Work(Job::Parcel { key, name, from, what: ParcelChange::Accept })]
}

/// Taking back un-accepts the parcel, here only; its bytes stay.
fn change(model: &mut Model, key: &str, what: ParcelChange) -> Vec<Effect> {
    model.copy.back_asked = None;
    let Some(parcel) = model.parcels.iter().find(|p| p.key == key) else { return Vec::new() };
    if parcel.note.accepted == (what == ParcelChange::PutBack) || model.copy.reading.is_some() {
        return Vec::new();
    }
    let (name, from) = (parcel.note.name.clone(), parcel.note.from.clone());
    model.copy.reading = Some(name.clone());
    vec![Effect::Work(Job::Parcel { key: key.to_owned(), name, from, what })]
}

/// Whether anything was ever counted here.
pub fn has_counted(model: &Model) -> bool {
    !model.packed.is_empty() || model.runs.values().any(|run| run.parts().any(|part| part.counts_something()))
}
