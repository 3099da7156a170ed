//! Any text as a record of the database: read or not, never a panic; what is read is written again and read as the same.

#![no_main]

use libfuzzer_sys::fuzz_target;
use peppertally::wire::record::{decode, encode};

fuzz_target!(|bytes: &[u8]| {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    if let Ok(entry) = decode(text) {
        assert_eq!(decode(&encode(&entry)), Ok(entry));
    }
});
