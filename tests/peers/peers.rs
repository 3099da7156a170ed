//! Two logs of invented contacts, held here and worked on when `peers.mjs` says so. Plain numbers and bytes cross; nothing else.

#[path = "../wire/practice.rs"]
#[allow(dead_code, reason = "the tests of the file use the rest of it")]
mod practice;

use std::cell::RefCell;

use peppertally::domain::entry::Entry;
use peppertally::domain::log::Log;
use peppertally::wire::file::{FileHeader, Limits, read, write};
use peppertally::wire::record;
use serde_json::Value;

#[derive(Default)]
struct Held {
    entries: [Vec<Entry>; 2],
    ready: Vec<Log>,
    bytes: Vec<u8>,
}

thread_local! {
    static HELD: RefCell<Held> = RefCell::default();
}

fn held<T>(what: impl FnOnce(&mut Held) -> T) -> T {
    HELD.with_borrow_mut(what)
}

/// Invents a practice of so many contacts as one of the two; how many entries it has.
#[unsafe(no_mangle)]
pub extern "C" fn invent(which: usize, contacts: usize) -> usize {
    let made = practice::invented(which as u64 + 1, contacts);
    let entries = [made.squad, made.practice].concat();
    held(|h| {
        h.entries[which] = entries;
        h.entries[which].len()
    })
}

/// Puts both logs ready to be united.
#[unsafe(no_mangle)]
pub extern "C" fn ready() {
    held(|h| h.ready = h.entries.iter().map(|all| all.iter().cloned().collect()).collect());
}

/// Unites them; how many entries there are then.
#[unsafe(no_mangle)]
pub extern "C" fn unite() -> usize {
    let (b, a) = held(|h| (h.ready.pop(), h.ready.pop()));
    let united = a.unwrap_or_default().union(b.unwrap_or_default());
    let n = united.len();
    held(|h| h.ready.push(united));
    n
}

/// Writes the copy of one; its length. It lies at [`bytes`].
#[unsafe(no_mangle)]
pub extern "C" fn copy(which: usize) -> usize {
    let header = FileHeader { app_version: "0.1.0".to_owned(), written_ms: 1_700_000_000_000, offset_min: 60 };
    held(|h| {
        h.bytes = write(&h.entries[which], &header).into_bytes();
        h.bytes.len()
    })
}

/// The entries of one as rows: a JSON list of texts; its length. It lies at [`bytes`].
#[unsafe(no_mangle)]
pub extern "C" fn rows(which: usize) -> usize {
    held(|h| {
        h.bytes = Value::from_iter(h.entries[which].iter().map(row)).to_string().into_bytes();
        h.bytes.len()
    })
}

/// Reads the copy that lies at [`bytes`] into a log; how many entries it has, 0 where it is refused.
#[unsafe(no_mangle)]
pub extern "C" fn load() -> usize {
    held(|h| read(&h.bytes, &Limits::default()).map_or(0, |copy| copy.entries.into_iter().collect::<Log>().len()))
}

#[unsafe(no_mangle)]
pub extern "C" fn bytes() -> *const u8 {
    held(|h| h.bytes.as_ptr())
}

/// The values of an entry's record without the names of its fields, as one text: the peers need not pay for names, nor for a tree a row.
fn row(entry: &Entry) -> Value {
    let record: Value = serde_json::from_str(&record::encode(entry)).unwrap_or_default();
    let mut leaves = Vec::new();
    gather(record, &mut leaves);
    Value::from(leaves).to_string().into()
}

fn gather(value: Value, leaves: &mut Vec<Value>) {
    match value {
        Value::Array(all) => all.into_iter().for_each(|one| gather(one, leaves)),
        Value::Object(all) => all.into_iter().for_each(|(_, one)| gather(one, leaves)),
        leaf => leaves.push(leaf),
    }
}
