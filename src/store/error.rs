//! What a database can answer instead of "saved", as a small enum. Owns the reading of browser exceptions; refuses to
//! advise, which is the work of `app/words`.

use indexed_db_futures::error::{DomException, Error, JSError, OpenDbError};
use std::fmt;
use wasm_bindgen::{JsCast, JsValue};

/// Why the database did not do what was asked. Nothing of the failed call was stored: each call is one transaction.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum StoreError {
    /// This browser has no IndexedDB at all.
    Unavailable,
    /// The browser would not open the database (private window, storage turned off, a damaged disk): its own words.
    Refused(String),
    /// No answer in time: another tab holds the database and does not let go of it.
    Blocked,
    /// The database was written by a newer version of the app. It is left as it is.
    Newer,
    /// No room: the browser's share of the disk is used up.
    Full,
    /// The connection is gone, not the data: drop this handle, open again, write again what was not confirmed.
    ConnectionLost(String),
    /// It is open and says nothing. Drop this handle; another one may be well.
    NoAnswer,
    /// A block is no longer as it was read: another tab has packed meanwhile. Read again, and do it again.
    Changed,
    /// The transaction was undone as a whole, and the browser gave no reason.
    Aborted,
    /// Anything else: the exception's name and message.
    Other { name: String, message: String },
}

impl StoreError {
    /// Reads an exception. `UnknownError` is what WebKit throws when its storage process was ended in the background; the
    /// message is the only thing that tells it from a damaged disk, and a fresh handle is the right answer to both.
    pub(crate) fn from_named(name: &str, message: String) -> Self {
        match name {
            "QuotaExceededError" => Self::Full,
            "VersionError" => Self::Newer,
            "InvalidStateError" | "AbortError" => Self::ConnectionLost(message),
            "UnknownError" if message.to_ascii_lowercase().contains("connection") => Self::ConnectionLost(message),
            "SecurityError" => Self::Refused(message),
            _ => Self::Other { name: name.to_owned(), message },
        }
    }

    pub(crate) fn from_js(value: &JsValue) -> Self {
        if let Some(thrown) = value.dyn_ref::<web_sys::DomException>() {
            return Self::from_named(&thrown.name(), thrown.message());
        }
        match value.dyn_ref::<js_sys::Error>() {
            Some(error) => Self::from_named(&String::from(error.name()), String::from(error.message())),
            None => Self::Other { name: "value".to_owned(), message: format!("{value:?}") },
        }
    }

    /// The same exceptions mean something else while opening: there is no connection yet that could be lost.
    pub(crate) fn while_opening(self) -> Self {
        match self {
            Self::ConnectionLost(message) => Self::Refused(message),
            Self::Aborted => Self::Refused("the opening was aborted".to_owned()),
            Self::Other { name, message } => Self::Refused(format!("{name}: {message}")),
            other => other,
        }
    }
}

impl From<Error> for StoreError {
    fn from(error: Error) -> Self {
        match error {
            Error::DomException(thrown) => Self::from_dom(thrown),
            Error::Unknown(JSError::Error(error)) => Self::from_js(error.as_ref()),
            Error::Unknown(JSError::Unknown(value)) => Self::from_js(&value),
            Error::MissingData(missing) => Self::Other { name: "MissingData".to_owned(), message: missing.to_string() },
            Error::Serialisation(wrong) => Self::Other { name: "Serialisation".to_owned(), message: wrong.to_string() },
        }
    }
}

impl From<OpenDbError> for StoreError {
    fn from(error: OpenDbError) -> Self {
        match error {
            OpenDbError::UnsupportedEnvironment | OpenDbError::NullFactory => Self::Unavailable,
            // The crate answers so whenever `open` itself threw; our version is never zero.
            OpenDbError::VersionZero => Self::Refused("the browser would not start to open it".to_owned()),
            OpenDbError::Base(error) => Self::from(error).while_opening(),
        }
    }
}

impl StoreError {
    fn from_dom(thrown: DomException) -> Self {
        let raw: web_sys::DomException = thrown.into();
        Self::from_named(&raw.name(), raw.message())
    }
}

impl fmt::Display for StoreError {
    /// For the console and reports of faults, not for the coach.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unavailable => f.write_str("no IndexedDB here"),
            Self::Refused(why) => write!(f, "database refused: {why}"),
            Self::Blocked => f.write_str("database held by another tab"),
            Self::Newer => f.write_str("database written by a newer version"),
            Self::Full => f.write_str("no room left"),
            Self::ConnectionLost(why) => write!(f, "connection to the database lost: {why}"),
            Self::NoAnswer => f.write_str("the database does not answer"),
            Self::Changed => f.write_str("another tab has packed meanwhile"),
            Self::Aborted => f.write_str("transaction aborted"),
            Self::Other { name, message } => write!(f, "{name}: {message}"),
        }
    }
}

impl std::error::Error for StoreError {}
