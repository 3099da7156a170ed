//! A finished practice packed for the database: the columns of a copy under a name of their own. Never sent to anyone; the rules
//! for files from elsewhere don't hold here, so that nothing once stored becomes unreadable.

use super::document;
use super::refusal::Refusal;
use crate::domain::entry::Entry;

const FORMAT: &str = "peppertally-block";

/// The entries of a finished practice as bytes. The same set gives the same bytes, whatever its order.
pub fn pack<'a>(entries: impl IntoIterator<Item = &'a Entry>) -> Vec<u8> {
    document::write(FORMAT, &[], entries).into_bytes()
}

/// The entries of a block, in the order of their identity.
///
/// # Errors
/// [`Refusal`] for bytes that are no block: damage, or a newer version's.
pub fn unpack(bytes: &[u8]) -> Result<Vec<Entry>, Refusal> {
    document::read(bytes, FORMAT, &[], None).map(|document| document.entries)
}
