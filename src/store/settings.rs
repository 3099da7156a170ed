//! The settings: one JSON text in local storage. Owns the rule that text which can't be read is moved aside before
//! anything is written in its place; refuses to know a single setting.

use super::local::{self, LocalError};
use serde::de::IgnoredAny;

const KEY: &str = "peppertally/settings/v1";
const ASIDE: &str = "peppertally/settings/aside/";

/// What was found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Found {
    /// No settings yet.
    Nothing,
    /// Well-formed JSON. If its meaning can't be read, call [`set_aside`].
    Text(String),
    /// Not JSON. It now lies aside, untouched, and the place is free.
    SetAside,
}

/// Reads the settings. A text that is no JSON is set aside first; if that fails it stays where it is and the error is
/// returned, so don't write then.
pub fn get() -> Result<Found, LocalError> {
    match local::get(KEY)? {
        None => Ok(Found::Nothing),
        Some(text) => match serde_json::from_str::<IgnoredAny>(&text) {
            Ok(_) => Ok(Found::Text(text)),
            Err(_not_json) => move_aside(&text).map(|_key| Found::SetAside),
        },
    }
}

/// Replaces the settings.
pub fn put(json: &str) -> Result<(), LocalError> {
    local::put(KEY, json)
}

/// Moves the present settings aside, for a caller who could not make sense of them. Returns where they lie, if there
/// were any.
pub fn set_aside() -> Result<Option<String>, LocalError> {
    match local::get(KEY)? {
        None => Ok(None),
        Some(text) => move_aside(&text).map(Some),
    }
}

/// Where everything lies that was set aside, in the order of the keys.
pub fn all_aside() -> Result<Vec<String>, LocalError> {
    let mut keys = local::keys(ASIDE)?;
    keys.sort_unstable();
    Ok(keys)
}

/// Erases the settings and what was set aside.
pub fn erase() -> Result<(), LocalError> {
    let aside = local::keys(ASIDE)?;
    local::remove(aside.iter().map(String::as_str).chain([KEY]))
}

/// The copy is written before the original is removed.
fn move_aside(text: &str) -> Result<String, LocalError> {
    let taken = local::keys(ASIDE)?;
    let mut number = taken.len() + 1;
    while taken.contains(&format!("{ASIDE}{number}")) {
        number += 1;
    }
    let key = format!("{ASIDE}{number}");
    local::put(&key, text)?;
    local::remove([KEY])?;
    Ok(key)
}
