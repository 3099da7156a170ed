//! Where everything is, how safe it is, how much room there is, what left this phone last; and what a check of all of it has found.

use super::super::health::Checked;
use super::super::model::Model;
use super::super::words::health as words_of;
use super::super::work::Verified;
use super::share::{since, storage_lines};

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HealthView {
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
    HealthView {
        safe: storage_lines(model),
        lies: lies(model),
        since: since(model),
        checking: model.health.checking,
        found,
        trouble,
        can_put_right,
        aside: model.storage.aside.clone(),
    }
}

fn lies(model: &Model) -> Vec<String> {
    let n_taken = model.parcels.iter().filter(|parcel| parcel.note.accepted).count();
    let mut lines = vec![words_of::lies(model.packed.len(), model.own.len(), n_taken)];
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
