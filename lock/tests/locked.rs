//! What was locked is opened with the same words and with no others; what was changed on its way is never given; files of another
//! implementation are opened. The work is small here: what it costs changes nothing of what is checked.

use std::fs;
use std::io::Read;
use std::path::Path;

use flate2::read::GzDecoder;
use lock::{Fault, MOST_WORK, Shape, WORK, is_locked, lock, open, open_typed, pack_and_lock};
use proptest::prelude::*;

const LITTLE: u8 = 4;
const ROOM: u64 = 1_000_000;

fn fixture(name: &str) -> Vec<u8> {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fixtures").join(name);
    fs::read(&file).unwrap_or_else(|error| panic!("{}: {error}", file.display()))
}

#[test]
fn what_is_locked_is_opened_with_the_same_words() {
    for shape in [Shape::Binary, Shape::Text] {
        for words in
            ["", " ", "four words stand apart", "Räder über Straße", "排球 练习", "👩‍👩‍👧 e\u{301}", &"long ".repeat(500)]
        {
            // A chunk of the format is 65,536 bytes.
            for size in [0, 1, 65_535, 65_536, 65_537, 200_000] {
                let content: Vec<u8> = (0..size).map(|at: u32| (at % 251) as u8).collect();
                let locked = lock(&content, words, shape, LITTLE).unwrap();
                assert!(is_locked(&locked));
                assert_eq!(open(&locked, words, ROOM), Ok(content), "{shape:?} {words:?} {size}");
            }
        }
    }
}

#[test]
fn other_words_open_nothing() {
    let locked = lock(b"who was here", "blue net", Shape::Binary, LITTLE).unwrap();
    for words in ["", "blue  net", "Blue net", "blue net ", "blue ne"] {
        assert_eq!(open(&locked, words, ROOM), Err(Fault::Words), "{words:?}");
    }
    // The same to the eye, written in other code points: other words, as the format has it.
    let locked = lock(b"x", "\u{e9}t\u{e9}", Shape::Binary, LITTLE).unwrap();
    assert_eq!(open(&locked, "e\u{301}te\u{301}", ROOM), Err(Fault::Words));
}

#[test]
fn a_space_that_a_phone_puts_after_a_word_is_no_other_word() {
    let locked = lock(b"who was here", "blue net", Shape::Binary, LITTLE).unwrap();
    assert_eq!(open_typed(&locked, "blue net ", ROOM).as_deref(), Ok(&b"who was here"[..]));
    assert_eq!(open_typed(&locked, "blue", ROOM), Err(Fault::Words));
    // Elsewhere a space may have been meant.
    let locked = lock(b"who was here", " blue net ", Shape::Binary, LITTLE).unwrap();
    assert_eq!(open_typed(&locked, " blue net ", ROOM).as_deref(), Ok(&b"who was here"[..]));
    assert_eq!(open_typed(&locked, "blue net", ROOM), Err(Fault::Words));
}

#[test]
fn a_copy_is_packed_before_it_is_locked() {
    let text = r#"{"format":"peppertally-copy","contacts":[1,1,1,1,1]}"#.repeat(2_000);
    let locked = pack_and_lock(text.as_bytes(), "blue net", Shape::Binary).unwrap();
    assert!(locked.len() < text.len() / 50, "{} of {}", locked.len(), text.len());
    assert!(String::from_utf8_lossy(&locked).contains(&format!(" {WORK}\n")), "the work stands in the head");
    let mut unpacked = String::new();
    GzDecoder::new(open(&locked, "blue net", ROOM).unwrap().as_slice()).read_to_string(&mut unpacked).unwrap();
    assert_eq!(unpacked, text);
    // Nothing of it can be read.
    assert!(!String::from_utf8_lossy(&locked).contains("peppertally"));
}

#[test]
fn two_locks_of_the_same_are_different_all_through() {
    let [one, other] = [0, 1].map(|_| lock(&[0; 500], "blue net", Shape::Binary, LITTLE).unwrap());
    assert_ne!(one[one.len() - 500..], other[other.len() - 500..]);
}

#[test]
fn work_has_a_limit() {
    // The head of a file that asks for N = 2^19, 512 MiB; nothing of it is spent.
    for work in [MOST_WORK + 1, 30, 63] {
        let locked = String::from_utf8(lock(b"x", "w", Shape::Text, LITTLE).unwrap()).unwrap();
        let raised = raised(&locked, work);
        assert_eq!(open(&raised, "w", ROOM), Err(Fault::Work), "{work}");
    }
    assert_eq!(lock(b"x", "w", Shape::Binary, MOST_WORK + 1), Err(Fault::Work));
    assert_eq!(lock(b"x", "w", Shape::Binary, 0), Err(Fault::Work));
}

/// The same file with another number in its head, in binary.
fn raised(armored: &str, work: u8) -> Vec<u8> {
    let mut bytes = Vec::new();
    age::armor::ArmoredReader::new(armored.as_bytes()).read_to_end(&mut bytes).unwrap();
    let head = format!(" {LITTLE}\n");
    let at = bytes.windows(head.len()).position(|part| part == head.as_bytes()).unwrap();
    bytes.splice(at..at + head.len(), format!(" {work}\n").into_bytes());
    bytes
}

#[test]
fn what_is_too_large_is_not_given() {
    let locked = lock(&[7; 1_000], "w", Shape::Binary, LITTLE).unwrap();
    assert_eq!(open(&locked, "w", 999), Err(Fault::Large));
    assert_eq!(open(&locked, "w", 1_000).map(|content| content.len()), Ok(1_000));
}

#[test]
fn what_is_no_locked_file_is_told_so() {
    for bytes in [&b""[..], b"{}", b"age", b"\x1f\x8b\x08", b"PK\x03\x04", b"-----BEGIN PGP MESSAGE-----"] {
        assert!(!is_locked(bytes));
        assert_eq!(open(bytes, "w", ROOM), Err(Fault::Format), "{bytes:?}");
    }
    assert_eq!(open(b"age-encryption.org/v9\n-> scrypt x 4\n", "w", ROOM), Err(Fault::Format));
    for head in ["age-encryption.org/v1", "age-encryption.org/v1\n", "-----BEGIN AGE ENCRYPTED FILE-----\n"] {
        assert_eq!(open(head.as_bytes(), "w", ROOM), Err(Fault::Damaged), "{head}");
    }
}

#[test]
fn mail_may_put_blank_lines_before_an_armor_and_change_its_line_ends() {
    let locked = String::from_utf8(lock(b"who was here", "w", Shape::Text, LITTLE).unwrap()).unwrap();
    for changed in [format!("\n \n{locked}"), locked.replace('\n', "\r\n"), format!("{locked}\n\n")] {
        assert_eq!(open(changed.as_bytes(), "w", ROOM).as_deref(), Ok(&b"who was here"[..]), "{changed}");
    }
}

/// Made once by age-encryption 0.3.1 of npm, the format's implementation in TypeScript (`xtask/src/locks.mjs`).
#[test]
fn files_of_another_implementation_are_opened() {
    let content = fixture("content.json");
    for (name, words) in [
        ("binary.age", "four words stand apart"),
        ("armor.txt", "four words stand apart"),
        ("unicode.age", "Räder über Straße 排球"),
        ("empty-words.age", ""),
        // The work that it takes by itself: the most that is opened.
        ("by-itself.age", "four words stand apart"),
    ] {
        let locked = fixture(name);
        assert!(is_locked(&locked), "{name}");
        assert_eq!(open(&locked, words, ROOM).as_ref(), Ok(&content), "{name}");
        assert_eq!(open(&locked, "others", ROOM), Err(Fault::Words), "{name}");
    }
    assert_eq!(open(&fixture("key.age"), "four words stand apart", ROOM), Err(Fault::Key));
    assert_eq!(open(&fixture("work-19.age"), "four words stand apart", ROOM), Err(Fault::Work));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, ..ProptestConfig::default() })]

    /// One byte changed anywhere, and nothing of it is given.
    #[test]
    fn a_changed_byte_opens_nothing(content in prop::collection::vec(any::<u8>(), 0..300), at in any::<prop::sample::Index>(), by in 1u8..) {
        let mut locked = lock(&content, "w", Shape::Binary, LITTLE).unwrap();
        let at = at.index(locked.len());
        locked[at] ^= by;
        prop_assert!(open(&locked, "w", ROOM).is_err());
    }

    /// In the armor a changed byte may be a line's end that means the same: then all of it is given as it was.
    #[test]
    fn a_changed_byte_of_an_armor_changes_nothing_of_what_is_given(content in prop::collection::vec(any::<u8>(), 0..300), at in any::<prop::sample::Index>(), by in 1u8..) {
        let mut locked = lock(&content, "w", Shape::Text, LITTLE).unwrap();
        let at = at.index(locked.len());
        locked[at] ^= by;
        if let Ok(given) = open(&locked, "w", ROOM) {
            prop_assert_eq!(given, content);
        }
    }

    /// Cut off anywhere, and nothing of it is given.
    #[test]
    fn a_file_that_ends_early_opens_nothing(content in prop::collection::vec(any::<u8>(), 0..300), end in any::<prop::sample::Index>()) {
        let locked = lock(&content, "w", Shape::Binary, LITTLE).unwrap();
        let end = end.index(locked.len());
        prop_assert!(open(&locked[..end], "w", ROOM).is_err());
    }

    /// Whatever comes, nothing breaks.
    #[test]
    fn any_bytes_are_answered(head in prop::sample::select(vec!["", "age-encryption.org/v1\n-> scrypt ", "-----BEGIN AGE ENCRYPTED FILE-----\n"]), rest in prop::collection::vec(any::<u8>(), 0..200)) {
        let bytes = [head.as_bytes(), &rest].concat();
        prop_assert!(open(&bytes, "w", ROOM).is_err());
    }
}
