//! Copies out and in: a file written from everything known, a file looked at, accepted as a parcel, taken back.

use serde::{Deserialize, Serialize};

use super::super::action::{Action, CopyHow};
use super::super::effect::{Effect, Report};
use super::super::model::{Model, OfferedParcel, Parcel};
use super::super::view::share::Answer;
use super::super::words;
use crate::domain::entry::{Entry, Fact};
use crate::domain::log::Log;
use crate::wire::block;
use crate::wire::file::{self, FileHeader, Limits};

/// The largest file that is looked at, in bytes.
pub const MAX_FILE_BYTES: u64 = 100_000_000;

/// What is kept beside a parcel's bytes.
#[derive(Serialize, Deserialize)]
struct Note {
    name: String,
    from: String,
    accepted: bool,
}

pub fn act(model: &mut Model, action: Action) -> Vec<Effect> {
    match action {
        Action::CopyWanted(how) => {
            model.copy.writing = true;
            model.copy.answer = None;
            vec![Effect::ReadAll(how)]
        }
        Action::ParcelAccepted => accept(model),
        Action::ParcelDeclined => {
            model.copy.offered = None;
            Vec::new()
        }
        Action::ParcelTakenBack(key) => set_accepted(model, &key, false),
        Action::ParcelPutBack(key) => set_accepted(model, &key, true),
        Action::AnswerSeen => {
            model.copy.answer = None;
            Vec::new()
        }
        _ => Vec::new(),
    }
}

pub fn heard(model: &mut Model, report: Report) -> Vec<Effect> {
    match report {
        Report::AllRead { how, blocks } => return write_copy(model, how, blocks),
        Report::CopyLeft(left) => {
            model.copy.writing = false;
            match left {
                Ok(true) => {
                    model.settings.copied_clock = model.writer.clock().0;
                    model.settings.copied_wall_ms = Some(model.now.wall_ms);
                    answer(model, words::copies::COPY_LEFT.to_owned(), false);
                    return vec![Effect::KeepSettings(model.settings.to_json())];
                }
                Ok(false) => {}
                Err(why) => answer(model, words::copies::failed(&why), true),
            }
        }
        Report::FileRead { name, key, bytes, blocks } => offer(model, name, key, bytes, blocks),
        Report::FileTooLarge { bytes } => {
            let refusal = file::Refusal::TooLarge { bytes, limit: MAX_FILE_BYTES };
            answer(model, words::trouble::refusal(&refusal), true);
        }
        Report::FileUnreadable(why) => answer(model, words::copies::unreadable(&why), true),
        Report::ParcelKept(Err(trouble)) => {
            let text = words::trouble::whole(&trouble);
            model.storage.failed = Some(trouble);
            answer(model, text, true);
        }
        _ => {}
    }
    Vec::new()
}

/// A parcel as the database holds it. Its bytes come only where it is accepted.
pub fn stored_parcel(key: String, note: &str, bytes: Option<Vec<u8>>) -> Option<Parcel> {
    let note: Note = serde_json::from_str(note).ok()?;
    let entries =
        bytes.and_then(|b| file::read(&b, &Limits::default()).ok()).map(|copy| copy.entries).unwrap_or_default();
    Some(Parcel { key, name: note.name, from: note.from, accepted: note.accepted, entries })
}

fn answer(model: &mut Model, text: String, refused: bool) {
    model.copy.answer = Some(Answer { text, refused });
}

/// Own entries, packed ones, accepted parcels: everything known, as one set.
fn everything(model: &Model, blocks: Vec<Vec<u8>>) -> Result<Log, String> {
    let mut all = model.own.clone();
    for bytes in blocks {
        let entries = block::unpack(&bytes).map_err(|refusal| words::trouble::refusal(&refusal))?;
        entries.into_iter().for_each(|e| {
            all.add(e);
        });
    }
    for entry in model.parcels.iter().filter(|p| p.accepted).flat_map(|p| &p.entries) {
        all.add(entry.clone());
    }
    Ok(all)
}

fn write_copy(model: &mut Model, how: CopyHow, blocks: Result<Vec<Vec<u8>>, String>) -> Vec<Effect> {
    // With the database closed a copy of what is in memory is better than none; what is packed is then missing, and said so.
    let (blocks, missing) = match blocks {
        Ok(blocks) => (blocks, None),
        Err(why) => (Vec::new(), Some(why)),
    };
    let all = match everything(model, blocks) {
        Ok(all) => all,
        Err(why) => {
            model.copy.writing = false;
            answer(model, words::copies::failed(&why), true);
            return Vec::new();
        }
    };
    let header = FileHeader {
        app_version: env!("CARGO_PKG_VERSION").to_owned(),
        written_ms: model.now.wall_ms,
        offset_min: model.now.offset_min,
    };
    let text = file::write(all.iter(), &header);
    if let Some(why) = missing.filter(|_| !model.packed.is_empty()) {
        answer(model, words::copies::partial(&why), true);
    }
    let day = model.now.day();
    let (h, m) = model.now.hour_minute();
    let end = match how {
        CopyHow::Download => "json",
        // Chromium refuses to share a file that ends in .json.
        CopyHow::ShareSheet => "txt",
    };
    vec![Effect::Offer { name: format!("peppertally-{day}-{h:02}{m:02}.{end}"), text, how }]
}

/// Says what is new in a file. Nothing is stored yet.
fn offer(model: &mut Model, name: String, key: String, bytes: Vec<u8>, blocks: Vec<Vec<u8>>) {
    model.copy.offered = None;
    let copy = match file::read(&bytes, &Limits::default()) {
        Ok(copy) => copy,
        Err(refusal) => return answer(model, words::trouble::refusal(&refusal), true),
    };
    let all = match everything(model, blocks) {
        Ok(all) => all,
        Err(why) => return answer(model, words::copies::unreadable(&why), true),
    };
    let new: Vec<&Entry> = copy.entries.iter().filter(|e| all.get(e.id).is_none()).collect();
    let differing = copy.entries.iter().filter(|e| all.get(e.id).is_some_and(|here| here != *e)).count();
    let news = words::copies::parcel_news(&News::of(&new, copy.entries.len() - new.len(), differing));
    let written =
        crate::domain::time::Stamp { wall_ms: copy.header.written_ms, offset_min: copy.header.offset_min, mono_ms: 0 };
    let from = words::copies::parcel_from(&devices(&copy.entries), &words::counts::when(written));
    let nothing_new = new.is_empty();
    let parcel = Parcel { key, name, from, accepted: true, entries: copy.entries };
    model.copy.offered = Some(OfferedParcel { parcel, bytes, news, nothing_new });
}

/// What a file would add, counted.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct News {
    pub n_practices: usize,
    pub n_children: usize,
    pub n_contacts: usize,
    pub n_told: usize,
    pub n_other: usize,
    pub n_here: usize,
    pub n_differing: usize,
}

impl News {
    fn of(new: &[&Entry], n_here: usize, n_differing: usize) -> News {
        let mut news = News { n_here, n_differing, ..News::default() };
        for entry in new {
            match entry.fact {
                Fact::PracticeStarted { .. } => news.n_practices += 1,
                Fact::PlayerAdded { .. } => news.n_children += 1,
                Fact::ContactNoted { .. } => news.n_contacts += 1,
                Fact::CountTold { .. } => news.n_told += 1,
                _ => news.n_other += 1,
            }
        }
        news
    }
}

fn devices(entries: &[Entry]) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for entry in entries {
        if let Fact::SeriesOpened { device, .. } = &entry.fact
            && !names.contains(device)
        {
            names.push(device.clone());
        }
    }
    names
}

fn accept(model: &mut Model) -> Vec<Effect> {
    let Some(OfferedParcel { parcel, bytes, nothing_new, .. }) = model.copy.offered.take() else { return Vec::new() };
    let known = model.parcels.iter().any(|p| p.key == parcel.key && p.accepted);
    if nothing_new || known {
        answer(model, words::copies::NOTHING_NEW.to_owned(), false);
        return Vec::new();
    }
    let key = parcel.key.clone();
    let note = note_of(&parcel);
    model.parcels.retain(|p| p.key != key);
    model.parcels.push(parcel);
    model.fold_all();
    answer(model, words::copies::PARCEL_TAKEN.to_owned(), false);
    vec![Effect::KeepParcel { key, bytes, note }]
}

fn note_of(parcel: &Parcel) -> String {
    let note = Note { name: parcel.name.clone(), from: parcel.from.clone(), accepted: parcel.accepted };
    // Strings and a flag always serialise.
    serde_json::to_string(&note).unwrap_or_default()
}

/// Taking back un-accepts the parcel, here only; its bytes stay.
fn set_accepted(model: &mut Model, key: &str, accepted: bool) -> Vec<Effect> {
    let Some(parcel) = model.parcels.iter_mut().find(|p| p.key == key) else { return Vec::new() };
    if parcel.accepted == accepted {
        return Vec::new();
    }
    parcel.accepted = accepted;
    let effects = vec![Effect::NoteParcel { key: key.to_owned(), note: note_of(parcel) }];
    model.fold_all();
    effects
}

/// Entries of this phone's log that no copy has carried yet.
pub fn n_unsent_contacts(model: &Model) -> usize {
    let sent = model.settings.copied_clock;
    model
        .own
        .iter()
        .filter(|e| e.clock.0 > sent && matches!(e.fact, Fact::ContactNoted { .. } | Fact::CountTold { .. }))
        .count()
}
