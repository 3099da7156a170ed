//! What may be around a copy's text: packed (gzip, RFC 1952), or locked (the age format). Unpacks, up to a limit; of a lock it knows only how
//! one begins.

use std::io::{self, Read};

use flate2::read::MultiGzDecoder;

/// How packed, and how locked bytes begin; the lock as bytes or in its armor of text.
const GZIP: &[u8] = &[0x1f, 0x8b];
const LOCKED: &[u8] = b"age-encryption.org/";
const LOCKED_TEXT: &[u8] = b"-----BEGIN AGE ENCRYPTED FILE-----";

/// Why it was not unpacked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotUnpacked {
    /// It ends early, or its check doesn't hold.
    Damaged,
    /// More than that comes out of it.
    TooLarge,
}

/// The bytes themselves, unpacked where they are packed. At most so many come out, and no more than a little over that is ever held.
///
/// # Errors
/// [`NotUnpacked`].
pub fn unpacked(bytes: Vec<u8>, most_bytes: u64) -> Result<Vec<u8>, NotUnpacked> {
    if !bytes.starts_with(GZIP) {
        return Ok(bytes);
    }
    let mut unpacked = Vec::new();
    let read = MultiGzDecoder::new(bytes.as_slice()).take(most_bytes + 1).read_to_end(&mut unpacked);
    match read {
        _ if unpacked.len() as u64 > most_bytes => Err(NotUnpacked::TooLarge),
        Ok(_) => Ok(unpacked),
        Err(error) if error.kind() == io::ErrorKind::OutOfMemory => Err(NotUnpacked::TooLarge),
        Err(_) => Err(NotUnpacked::Damaged),
    }
}

/// Whether it is locked with words or a key.
pub fn is_locked(bytes: &[u8]) -> bool {
    bytes.starts_with(LOCKED) || bytes.trim_ascii_start().starts_with(LOCKED_TEXT)
}
