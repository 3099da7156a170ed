//! A copy that is packed is the copy in it, up to a size; a locked one is told by how it begins.

use std::fs;
use std::io::Write;

use flate2::Compression;
use flate2::write::GzEncoder;
use peppertally::wire::around::{NotUnpacked, is_locked, unpacked};
use peppertally::wire::file::{self, Limits};

const MOST: u64 = 1_000_000;

fn packed(content: &[u8]) -> Vec<u8> {
    let mut packer = GzEncoder::new(Vec::new(), Compression::best());
    packer.write_all(content).unwrap();
    packer.finish().unwrap()
}

#[test]
fn a_packed_copy_is_the_copy_in_it() {
    let copy = fs::read("tests/fixtures/copy-v2-match.json").unwrap();
    let given = unpacked(packed(&copy), MOST).unwrap();
    assert!(given == copy && file::read(&given, &Limits::default()).is_ok());
    assert_eq!(unpacked(copy.clone(), MOST), Ok(copy.clone()), "what isn't packed stays as it is");
    // Packed in two parts, as a file may be (RFC 1952, 2.2).
    let (one, other) = copy.split_at(900);
    assert_eq!(unpacked([packed(one), packed(other)].concat(), MOST), Ok(copy));
}

#[test]
fn what_grows_beyond_all_measure_is_refused() {
    let bomb = packed(&vec![b' '; 50_000_000]);
    assert!(bomb.len() < 60_000, "{}", bomb.len());
    assert_eq!(unpacked(bomb, MOST), Err(NotUnpacked::TooLarge));
    let at_most = vec![b' '; 1_000_000];
    assert_eq!(unpacked(packed(&at_most), MOST), Ok(at_most));
    assert_eq!(unpacked(packed(&vec![b' '; 1_000_001]), MOST), Err(NotUnpacked::TooLarge));
    // Many small parts of it are one large one.
    assert_eq!(unpacked(packed(&vec![b' '; 10_000]).repeat(101), MOST), Err(NotUnpacked::TooLarge));
}

#[test]
fn what_was_changed_on_its_way_is_refused() {
    let copy = fs::read("tests/fixtures/copy-v2-match.json").unwrap();
    let whole = packed(&copy);
    for end in [2, 10, whole.len() / 2, whole.len() - 1] {
        assert_eq!(unpacked(whole[..end].to_vec(), MOST), Err(NotUnpacked::Damaged), "{end}");
    }
    let mut n_refused = 0;
    for at in 10..whole.len() {
        let mut changed = whole.clone();
        changed[at] ^= 1;
        // A bit or two of the packing say nothing. Then all of it comes out as it was.
        match unpacked(changed, MOST) {
            Err(NotUnpacked::Damaged) => n_refused += 1,
            given => assert!(given.as_deref() == Ok(&copy[..]), "byte {at}"),
        }
    }
    assert!(n_refused + 5 > whole.len() - 10, "{n_refused} of {}", whole.len());
}

#[test]
fn a_locked_file_is_told_by_how_it_begins() {
    for name in ["binary.age", "armor.txt", "key.age", "by-itself.age"] {
        assert!(is_locked(&fs::read(format!("lock/tests/fixtures/{name}")).unwrap()), "{name}");
    }
    assert!(is_locked(b"\r\n-----BEGIN AGE ENCRYPTED FILE-----\r\n"));
    for bytes in [&b""[..], b"{}", b"age", b"-----BEGIN", b"\x1f\x8b"] {
        assert!(!is_locked(bytes));
    }
    assert!(!is_locked(&fs::read("tests/fixtures/copy-v2-match.json").unwrap()));
}
