//! The one door to local storage. Owns the check that it is there and the reading of its exceptions; refuses to know
//! what is kept. Keys begin with "peppertally/", since an origin may be shared with other pages.

use gloo_storage::{LocalStorage, Storage};
use std::fmt;
use wasm_bindgen::{JsCast, JsValue};

/// Why local storage did not do what was asked.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum LocalError {
    /// Turned off, or not there (a worker has none): what the browser says.
    Off(String),
    /// No room.
    Full,
    /// Anything else: the exception's name and message.
    Other { name: String, message: String },
}

impl LocalError {
    pub(super) fn from_js(thrown: &JsValue) -> Self {
        let (name, message) = match (thrown.dyn_ref::<web_sys::DomException>(), thrown.dyn_ref::<js_sys::Error>()) {
            (Some(thrown), _) => (thrown.name(), thrown.message()),
            (None, Some(error)) => (String::from(error.name()), String::from(error.message())),
            (None, None) => ("value".to_owned(), format!("{thrown:?}")),
        };
        match name.as_str() {
            "QuotaExceededError" | "NS_ERROR_DOM_QUOTA_REACHED" => Self::Full,
            "SecurityError" => Self::Off(message),
            _ => Self::Other { name, message },
        }
    }
}

impl fmt::Display for LocalError {
    /// For the console and reports of faults, not for the coach.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Off(why) => write!(f, "local storage is off: {why}"),
            Self::Full => f.write_str("local storage is full"),
            Self::Other { name, message } => write!(f, "{name}: {message}"),
        }
    }
}

impl std::error::Error for LocalError {}

/// Local storage, if the browser lets us. gloo throws past Rust when it does not, so that is asked first.
pub(super) fn local() -> Result<web_sys::Storage, LocalError> {
    let Some(window) = web_sys::window() else { return Err(LocalError::Off("no window here".to_owned())) };
    match window.local_storage() {
        Ok(Some(_)) => Ok(LocalStorage::raw()),
        Ok(None) => Err(LocalError::Off("none here".to_owned())),
        Err(thrown) => Err(LocalError::from_js(&thrown)),
    }
}

/// What is kept under the key, if anything.
pub(super) fn get(key: &str) -> Result<Option<String>, LocalError> {
    local()?.get_item(key).map_err(|thrown| LocalError::from_js(&thrown))
}

pub(super) fn put(key: &str, text: &str) -> Result<(), LocalError> {
    local()?.set_item(key, text).map_err(|thrown| LocalError::from_js(&thrown))
}

/// Every key that begins so, in no order.
pub(super) fn keys(prefix: &str) -> Result<Vec<String>, LocalError> {
    let kept = local()?;
    let length = kept.length().map_err(|thrown| LocalError::from_js(&thrown))?;
    let mut found = Vec::new();
    for i in 0..length {
        let key = kept.key(i).map_err(|thrown| LocalError::from_js(&thrown))?;
        found.extend(key.filter(|key| key.starts_with(prefix)));
    }
    Ok(found)
}

/// Removes what is there; a key that is not there is fine.
pub(super) fn remove<'a>(keys: impl IntoIterator<Item = &'a str>) -> Result<(), LocalError> {
    let kept = local()?;
    for key in keys {
        kept.remove_item(key).map_err(|thrown| LocalError::from_js(&thrown))?;
    }
    Ok(())
}
