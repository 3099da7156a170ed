//! What holds for any entries.

use super::{header, random, read, samples};
use peppertally::domain::entry::{Entry, Fact};
use peppertally::wire::file::{self, Limits};
use peppertally::wire::{block, record};
use proptest::prelude::*;

proptest! {
    #[test]
    fn any_entry_survives_its_record(entry in random::entry()) {
        let text = record::encode(&entry);
        let back = record::decode(&text);
        prop_assert_eq!(back.as_ref(), Ok(&entry));
        prop_assert_eq!(record::encode(&entry), text);
    }

    #[test]
    fn any_entries_survive_the_file_and_the_block(entries in random::entries()) {
        let text = file::write(&entries, &header());
        prop_assert_eq!(&read(&text), &entries);
        prop_assert_eq!(block::unpack(&block::pack(&entries)), Ok(entries));
    }

    #[test]
    fn the_same_set_gives_the_same_bytes(entries in random::entries(), turn in 0..24usize) {
        let text = file::write(&entries, &header());
        let mut turned: Vec<Entry> = entries.clone();
        turned.rotate_left(turn.min(entries.len()));
        turned.extend(entries.iter().rev().cloned());
        prop_assert_eq!(file::write(&turned, &header()), text);
    }

    /// Only refused or read, and what was read is written and read again as the same.
    #[test]
    fn damaged_bytes_never_panic(flips in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 1..4)) {
        let mut bytes = small().into_bytes();
        for (at, byte) in flips {
            let at = at.index(bytes.len());
            bytes[at] = byte;
        }
        settle(&bytes)?;
    }

    #[test]
    fn other_numbers_never_panic(at in any::<prop::sample::Index>(), number in number()) {
        let text = small();
        let digits: Vec<usize> = text.char_indices().filter(|(_, c)| c.is_ascii_digit()).map(|(i, _)| i).collect();
        let from = digits[at.index(digits.len())];
        let to = from + text[from..].find(|c: char| !c.is_ascii_digit()).unwrap_or(0);
        settle(format!("{}{number}{}", &text[..from], &text[to..]).as_bytes())?;
    }

    /// A value of the file is changed for any other JSON value.
    #[test]
    fn other_values_never_panic(at in any::<prop::sample::Index>(), value in json(3)) {
        let mut document: serde_json::Value = serde_json::from_str(&small()).unwrap();
        let n = count(&document);
        replace(&mut document, &mut at.index(n), &value);
        settle(document.to_string().as_bytes())?;
    }

    #[test]
    fn any_text_is_a_record_or_none(text in ".*", value in json(2)) {
        prop_assert!(record::decode(&text).is_err());
        prop_assert!(record::decode(&value.to_string()).is_err());
    }

    #[test]
    fn a_damaged_record_never_panics(
        which in any::<prop::sample::Index>(),
        at in any::<prop::sample::Index>(),
        value in json(2),
    ) {
        let entries = samples::every_kind();
        let entry = which.get(&entries);
        let mut document: serde_json::Value = serde_json::from_str(&record::encode(entry)).unwrap();
        let n = count(&document);
        replace(&mut document, &mut at.index(n), &value);
        if let Ok(read) = record::decode(&document.to_string()) {
            prop_assert_eq!(record::decode(&record::encode(&read)), Ok(read));
        }
    }
}

/// What was read is good for another round; what was refused is refused as one of the refusals.
fn settle(bytes: &[u8]) -> Result<(), TestCaseError> {
    if let Ok(copy) = file::read(bytes, &Limits::default()) {
        let text = file::write(&copy.entries, &copy.header);
        prop_assert_eq!(file::read(text.as_bytes(), &Limits::default()), Ok(copy.clone()));
        for entry in &copy.entries {
            prop_assert_eq!(record::decode(&record::encode(entry)), Ok(entry.clone()));
        }
    }
    Ok(())
}

/// One entry of each home, and a few more.
pub fn small() -> String {
    let mut seen = std::collections::HashSet::new();
    let entries: Vec<Entry> = samples::every_kind()
        .into_iter()
        .filter(|entry| {
            seen.insert(std::mem::discriminant(&entry.fact)) || matches!(entry.fact, Fact::LineupSet { .. })
        })
        .collect();
    file::write(&entries, &header())
}

fn number() -> impl Strategy<Value = String> {
    prop_oneof![
        any::<i64>().prop_map(|n| n.to_string()),
        any::<u64>().prop_map(|n| n.to_string()),
        (-3..40i64).prop_map(|n| n.to_string()),
        Just("[5,18446744073709551615]".to_owned()),
        Just("[0,9]".to_owned()),
        Just("1e999".to_owned()),
        Just("0.5".to_owned()),
    ]
}

fn json(depth: u32) -> impl Strategy<Value = serde_json::Value> {
    let leaf = prop_oneof![
        Just(serde_json::Value::Null),
        any::<bool>().prop_map(Into::into),
        any::<i64>().prop_map(Into::into),
        any::<u64>().prop_map(Into::into),
        (0..30i64).prop_map(Into::into),
        ".{0,5}".prop_map(Into::into),
    ];
    leaf.prop_recursive(depth, 16, 4, |inner| {
        prop_oneof![
            prop::collection::vec(inner.clone(), 0..4).prop_map(Into::into),
            prop::collection::hash_map("[a-z]{1,3}", inner, 0..4)
                .prop_map(|map| serde_json::Value::Object(map.into_iter().collect())),
        ]
    })
}

fn count(value: &serde_json::Value) -> usize {
    1 + match value {
        serde_json::Value::Array(items) => items.iter().map(count).sum::<usize>(),
        serde_json::Value::Object(fields) => fields.values().map(count).sum(),
        _ => 0,
    }
}

/// Replaces the value that `left` comes down to.
fn replace(value: &mut serde_json::Value, left: &mut usize, with: &serde_json::Value) -> bool {
    if *left == 0 {
        *value = with.clone();
        return true;
    }
    *left -= 1;
    match value {
        serde_json::Value::Array(items) => items.iter_mut().any(|item| replace(item, left, with)),
        serde_json::Value::Object(fields) => fields.values_mut().any(|field| replace(field, left, with)),
        _ => false,
    }
}
