//! Each entry again in local storage, from the tap until the database has confirmed it: for a page that is closed before
//! its transaction commits. Synchronous, one key an entry, so nothing is rewritten as a whole. Refuses to judge: absence
//! here says nothing about the database, and absence there says nothing about this.

use super::DbName;
use super::local::{self, LocalError};

/// Keeps the record until [`remove_many`]. An error means that only the database holds this entry.
pub fn put(db: DbName, entry_key: &str, record: &str) -> Result<(), LocalError> {
    local::put(&key_of(db, entry_key), record)
}

/// Lets go of what the database has confirmed.
pub fn remove_many<'a>(db: DbName, entry_keys: impl IntoIterator<Item = &'a str>) -> Result<(), LocalError> {
    let keys: Vec<String> = entry_keys.into_iter().map(|entry_key| key_of(db, entry_key)).collect();
    local::remove(keys.iter().map(String::as_str))
}

/// Every copy of that database, as (entry key, record), by key.
pub fn all(db: DbName) -> Result<Vec<(String, String)>, LocalError> {
    let prefix = key_of(db, "");
    let mut copies = Vec::new();
    for key in local::keys(&prefix)? {
        // Another tab may have let go of it in between: that is a confirmation, not a loss.
        if let Some(record) = local::get(&key)? {
            copies.push((key[prefix.len()..].to_owned(), record));
        }
    }
    copies.sort_unstable();
    Ok(copies)
}

/// Erases every copy of that database.
pub fn erase(db: DbName) -> Result<(), LocalError> {
    let keys = local::keys(&key_of(db, ""))?;
    local::remove(keys.iter().map(String::as_str))
}

fn key_of(db: DbName, entry_key: &str) -> String {
    format!("peppertally/unsaved/{}/{entry_key}", db.as_str())
}
