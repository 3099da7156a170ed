//! Where everything is, how safe it is, how much room there is, what left this phone last; and what a check of all of it has found.

use super::super::health::Checked;
use super::super::model::{Model, StorageState};
use super::super::words::{self, health as words_of};
use super::super::work::Verified;
use super::share::{since, storage_lines};

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HealthView {
    /// "Everything is saved on this phone.", or that not everything is safe and what isn't; and which of the two.
    pub answer: String,
    pub grave: bool,
    /// What is safe, what is not, what to do.
    pub safe: Vec<String>,
    /// What lies where: sentences.
    pub lies: Vec<String>,
    /// "Everything is in the copy of Tuesday."
    pub since: String,
    pub checking: bool,
    /// What a check has found, the answer first.
    pub found: Vec<String>,
    pub trouble: bool,
    /// Something is counted otherwise than it should be, and can be put right.
    pub can_put_right: bool,
    /// What couldn't be read at the start, set aside.
    pub aside: Vec<String>,
}

pub fn health(model: &Model) -> HealthView {
    let (found, trouble, can_put_right) = found(model);
    let (answer, grave) = answer(model);
    // What the answer says isn't said again.
    let said = [words::trouble::ALL_SAFE, words::trouble::OPENING, &answer];
    let safe = storage_lines(model).into_iter().filter(|line| !said.contains(&line.as_str())).collect();
    HealthView {
        answer,
        grave,
        safe,
        lies: lies(model),
        since: since(model),
        checking: model.health.checking,
        found,
        trouble,
        can_put_right,
        aside: model.storage.aside.clone(),
    }
}

/// In one sentence, of what the storage says and of what a check has found.
fn answer(model: &Model) -> (String, bool) {
    let storage = &model.storage;
    let found = match &model.health.found {
        Some(Checked::Found(found) | Checked::PutRight(found)) => Some(found),
        Some(Checked::Not(_)) | None => None,
    };
    // What a start set aside is among what a check can't read; but what only says something else can be read.
    let aside = storage.aside.len().saturating_sub(storage.other_content.len());
    let n_unread = found.map_or(0, |found| found.unread.len()).max(aside);
    let off = matches!(&model.health.found, Some(Checked::Found(found)) if !found.otherwise.is_empty());
    let n_unsaved = storage.unsaved.len();
    let trouble = match &storage.state {
        StorageState::Refused(trouble) => Some(storage.failed.as_ref().unwrap_or(trouble)),
        StorageState::Opening | StorageState::Ready => storage.failed.as_ref(),
    };
    match (trouble, n_unread) {
        (None, 0) if storage.state == StorageState::Opening => (words_of::NOT_KNOWN.to_owned(), false),
        (None, 0) if n_unsaved > 0 => (words::trouble::saving(n_unsaved), false),
        (None, 0) if off => (words_of::SAVED_COUNTS_OFF.to_owned(), true),
        (None, 0) => (words_of::ALL_SAVED.to_owned(), false),
        (trouble, n_unread) => (words_of::not_safe(n_unsaved, trouble, n_unread), true),
    }
}

fn lies(model: &Model) -> Vec<String> {
    let n_taken = model.parcels.iter().filter(|parcel| parcel.note.accepted).count();
    let mut lines = vec![words_of::lies(model.packed.len(), model.loose.len(), n_taken)];
    lines.extend(model.health.room.map(|room| words_of::room(room.used_bytes, room.most_bytes)));
    lines
}

fn found(model: &Model) -> (Vec<String>, bool, bool) {
    match &model.health.found {
        None => (Vec::new(), false, false),
        Some(Checked::Not(why)) => (vec![words_of::not_checked(why)], true, false),
        Some(Checked::PutRight(found)) => {
            let mut lines = vec![words_of::put_right(found.otherwise.len())];
            lines.extend(unread(found));
            (lines, !found.unread.is_empty(), false)
        }
        Some(Checked::Found(found)) => {
            let n = found.otherwise.len();
            let sound = n == 0 && found.unread.is_empty();
            let mut lines = vec![words_of::checked(found.n_entries, found.n_practices, sound)];
            lines.extend((n > 0).then(|| words_of::otherwise(n)));
            lines.extend(unread(found));
            (lines, !sound, n > 0)
        }
    }
}

fn unread(found: &Verified) -> Vec<String> {
    let head = (!found.unread.is_empty()).then(|| words_of::unread(found.unread.len()));
    head.into_iter().chain(found.unread.iter().cloned()).collect()
}
