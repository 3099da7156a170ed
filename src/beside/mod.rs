//! The programs beside the page, each in a worker: what they do with a task, and the words in which page and worker speak. Built
//! without the page's crates. Shows nothing, holds no model.

pub mod codes;
pub mod jobs;

use crate::app::effect::Trouble;
use crate::platform::Fault;
use crate::store::StoreError;

/// What a worker says first, with its build; with an answer; when it ends too early.
pub const READY: &str = "ready";
pub const ANSWER: &str = "answer";
/// How far it has come, in hundredths.
pub const LOOKING: &str = "looking";
pub const DIED: &str = "died";

pub fn trouble(error: StoreError) -> Trouble {
    match error {
        StoreError::Full => Trouble::Full,
        StoreError::Refused(why) => Trouble::Refused(why),
        StoreError::Blocked => Trouble::Blocked,
        StoreError::Newer => Trouble::Newer,
        StoreError::NoAnswer => Trouble::NoAnswer,
        StoreError::ConnectionLost(_) | StoreError::Aborted | StoreError::Changed => Trouble::Lost,
        StoreError::Unavailable => Trouble::Unavailable,
        StoreError::Other { name, .. } => Trouble::Other(name),
    }
}

/// A fault that the coach can do nothing about: told to the console, not hidden.
pub fn log(fault: &Fault) {
    web_sys::console::warn_1(&fault.to_string().into());
}
