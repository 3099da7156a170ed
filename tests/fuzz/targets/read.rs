//! Any bytes as a copy: refused or read, never a panic, never more memory than ten times the file and a megabyte; what is read is
//! written again and read as the same.

#![no_main]

use fuzz::change::changed;
use fuzz::memory::{Counted, most};
use libfuzzer_sys::{fuzz_mutator, fuzz_target, fuzzer_mutate};
use peppertally::wire::file::{Limits, keeps_rules, read, write};

#[global_allocator]
static COUNTED: Counted = Counted;

fuzz_target!(|bytes: &[u8]| {
    let (copy, most_bytes) = most(|| read(bytes, &Limits::default()));
    let allowed = 10 * bytes.len() + 1_000_000;
    assert!(most_bytes <= allowed, "{most_bytes} bytes of memory for a file of {}", bytes.len());
    if let Ok(copy) = copy {
        assert!(copy.entries.iter().all(keeps_rules));
        let again = write(&copy.entries, &copy.header);
        let read_again = read(again.as_bytes(), &Limits::default());
        assert_eq!(read_again.as_ref().map(|again| &again.entries), Ok(&copy.entries));
    }
});

fuzz_mutator!(|data: &mut [u8], size: usize, max_size: usize, seed: u32| {
    match changed(&data[..size], seed).filter(|new| seed % 4 != 0 && new.len() <= max_size) {
        Some(new) => {
            data[..new.len()].copy_from_slice(&new);
            new.len()
        }
        None => fuzzer_mutate(data, size, max_size),
    }
});
