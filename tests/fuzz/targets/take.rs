//! A copy that a fuzzer has changed, looked at and taken in beside entries of our own, counted, verified, sent on as a copy and as a
//! table: whatever it says, every step ends with an answer. Refused, it changes nothing.

#![no_main]

use fuzz::change::changed;
use libfuzzer_sys::{fuzz_mutator, fuzz_target, fuzzer_mutate};
use peppertally::app::action::CopyHow;
use peppertally::app::work::doing::{Done, Found, FoundParcel, do_job};
use peppertally::app::work::{Answer, At, Goes, Job, Note, ParcelChange, TableOf};
use peppertally::wire::file::{Limits, read};
use peppertally::wire::record;

const AT: At = At(1_700_000_000_000, 60);
const OURS: &[u8] = include_bytes!("../../fixtures/copy-v1.json");

fuzz_target!(|bytes: &[u8]| {
    let found = Found { entries: ours(), file: Some(Ok(("k".to_owned(), bytes.to_vec()))), ..Found::default() };
    let looked = do_job(&Job::Look { records: Vec::new() }, found.clone());
    assert!(looked.change.is_none(), "looking changed something");
    let taken = do_job(&accept(), found);
    // Locked, it asks for its words and is as little taken in.
    let refused = |done: &Done| matches!(done.answer, Answer::Refused(_) | Answer::Locked);
    assert_eq!(refused(&looked), refused(&taken));
    if refused(&taken) {
        assert!(taken.change.is_none(), "refused, and something is changed");
        return;
    }
    let Some(change) = taken.change else { return };
    let note: Vec<Note> = change.notes.iter().filter_map(|(_, text)| Note::from_text(text)).collect();
    let parcels = note.into_iter().map(|note| FoundParcel { key: "k".to_owned(), note, bytes: Ok(bytes.to_vec()) });
    let now = Found { entries: ours(), parcels: parcels.collect(), ..Found::default() };
    let verified = do_job(&Job::Verify { counted: change.summaries, repair: false }, now.clone());
    let Answer::Verified(verified) = verified.answer else { panic!("not verified: {:?}", verified.answer) };
    assert!(verified.otherwise.is_empty(), "counted otherwise: {:?}", verified.otherwise);
    for table in [None, Some(TableOf::Contacts), Some(TableOf::Children)] {
        let goes = Goes { table, ..Goes::default() };
        let job =
            Job::Copy { goes, how: CopyHow::Download, at: AT, clock: 0, asked_ms: 0, records: Vec::new(), all: false };
        let sent = do_job(&job, now.clone());
        assert!(sent.file.is_some(), "no file: {:?}", sent.answer);
    }
});

fuzz_mutator!(|data: &mut [u8], size: usize, max_size: usize, seed: u32| {
    match changed(&data[..size], seed).filter(|new| seed % 16 != 0 && new.len() <= max_size) {
        Some(new) => {
            data[..new.len()].copy_from_slice(&new);
            new.len()
        }
        None => fuzzer_mutate(data, size, max_size),
    }
});

fn ours() -> Vec<(String, Result<String, String>)> {
    let copy = read(OURS, &Limits::default()).expect("our own fixture");
    copy.entries.iter().map(|entry| (entry.id.to_string(), Ok(record::encode(entry)))).collect()
}

fn accept() -> Job {
    Job::Parcel { key: "k".to_owned(), name: "copy.json".to_owned(), from: String::new(), what: ParcelChange::Accept }
}
