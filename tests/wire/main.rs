//! The record, the copy and the block, from outside: frozen fixtures, size, refusals, properties.

mod around;
mod as_one;
mod calendar;
mod checks;
mod ics;
mod in_match;
mod joined;
mod moving;
mod notes;
mod phones;
mod plan;
mod play;
mod practice;
mod properties;
mod random;
mod refusals;
mod removed;
mod samples;
mod schema;
mod tables;

use flate2::{Compression, write::GzEncoder};
use peppertally::domain::entry::{Entry, Fact};
use peppertally::wire::file::{self, FileHeader, Limits};
use peppertally::wire::{block, record};
use std::io::Write;
use std::path::Path;

fn header() -> FileHeader {
    FileHeader { app_version: "0.1.0".into(), written_ms: 1_788_300_000_000, offset_min: 120 }
}

fn read(text: &str) -> Vec<Entry> {
    file::read(text.as_bytes(), &Limits::default()).expect("a copy of our own").entries
}

fn sorted(mut entries: Vec<Entry>) -> Vec<Entry> {
    entries.sort_by_key(|entry| entry.id);
    entries
}

/// The frozen text. A new fixture is written once by its first run, which fails, and then committed.
fn frozen(name: &str, now: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fixtures").join(name);
    if !path.exists() {
        std::fs::write(&path, now).unwrap();
        panic!("{name} was not there and is now written: read it, commit it, run again");
    }
    std::fs::read_to_string(path).unwrap()
}

/// Each fixture with what it holds: the copy and the records of the first version, and of what came since.
fn fixtures() -> [(&'static str, Vec<Entry>); 12] {
    [
        ("v1", samples::every_kind()),
        ("v1-told-series", samples::told_series()),
        ("v2-play", play::entries()),
        ("v2-match", in_match::entries()),
        ("v1-plan", plan::entries()),
        ("v1-calendar", calendar::entries()),
        ("v1-notes", notes::entries()),
        ("v1-checks", checks::entries()),
        ("v1-removed", removed::entries()),
        ("v1-joined", joined::entries()),
        ("v1-as-one", as_one::entries()),
        ("v1-phones", phones::entries()),
    ]
}

#[test]
fn every_copy_reads_for_ever() {
    for (name, expected) in fixtures() {
        let expected = sorted(expected);
        let now = file::write(&expected, &header());
        let then = frozen(&format!("copy-{name}.json"), &now);
        let copy = file::read(then.as_bytes(), &Limits::default()).unwrap();
        assert_eq!(copy.header, header());
        assert_eq!(copy.entries, expected);
        assert_eq!(now, then);
    }
}

#[test]
fn every_record_reads_for_ever() {
    for (name, expected) in fixtures() {
        let now: String = expected.iter().map(|entry| record::encode(entry) + "\n").collect();
        let then = frozen(&format!("record-{name}.jsonl"), &now);
        let entries: Vec<Entry> = then.lines().map(|line| record::decode(line).unwrap()).collect();
        assert_eq!(entries, expected);
        assert_eq!(now, then);
    }
}

#[test]
fn the_samples_hold_every_kind() {
    let all: Vec<Entry> = fixtures().into_iter().flat_map(|(_, entries)| entries).collect();
    let kinds: std::collections::HashSet<_> = all.iter().map(|entry| std::mem::discriminant(&entry.fact)).collect();
    // Count of `Fact`'s variants: whoever adds one adds a sample.
    assert_eq!(kinds.len(), 57);
}

#[test]
fn a_block_gives_its_entries_back() {
    let practice = practice::invented(3, 120).practice;
    let bytes = block::pack(practice.iter().rev());
    assert_eq!(bytes, block::pack(&practice));
    assert_eq!(block::unpack(&bytes).unwrap(), practice);
    assert_eq!(file::read(&bytes, &Limits::default()), Err(file::Refusal::NotOurs));
}

#[test]
fn own_bytes_need_not_keep_the_rules_for_files() {
    let mut entry = samples::every_kind().remove(1);
    entry.at.wall_ms = i64::MIN;
    entry.at.mono_ms = u64::MAX;
    entry.clock.0 = u64::MAX;
    entry.fact = Fact::PracticeStarted { title: "\u{7}".repeat(1000) };
    assert_eq!(record::decode(&record::encode(&entry)).as_ref(), Ok(&entry));
    assert_eq!(block::unpack(&block::pack([&entry])).unwrap(), [entry]);
}

fn gzipped(text: &str) -> usize {
    let mut encoder = GzEncoder::new(Vec::new(), Compression::best());
    encoder.write_all(text.as_bytes()).unwrap();
    encoder.finish().unwrap().len()
}

/// What one more contact costs in the file, all columns of `entries` included: the file less the file without its contacts.
#[test]
fn a_contact_costs_under_six_bytes() {
    for n in [300, 900, 1200] {
        let invented = practice::invented(7, n);
        let whole = [invented.squad, invented.practice.clone()].concat();
        assert_eq!(practice::n_contacts(&whole), n);
        let text = file::write(&whole, &header());
        let rest: Vec<Entry> =
            whole.iter().filter(|entry| !matches!(entry.fact, Fact::ContactNoted { .. })).cloned().collect();
        let all = gzipped(&text);
        let without = gzipped(&file::write(&rest, &header()));
        let alone = gzipped(&file::write(&invented.practice, &header()));
        let per = |bytes: usize| bytes as f64 / n as f64;
        println!("{n} contacts and {} other entries, gzipped:", rest.len());
        println!("  a contact {:.2} bytes", per(all - without));
        println!("  the practice alone {alone} bytes, {:.2} a contact", per(alone));
        println!("  with its squad {all} bytes ({} plain), {:.2} a contact", text.len(), per(all));
        assert!(per(all - without) < 6.0);
    }
    let season = practice::season(40, 300);
    let n = practice::n_contacts(&season);
    let all = gzipped(&file::write(&season, &header()));
    println!("{n} contacts in 40 practices: {all} bytes, {:.2} a contact, all else included", all as f64 / n as f64);
}
