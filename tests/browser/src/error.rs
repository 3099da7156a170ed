//! Owns what can go wrong in the harness, as sentences that a failed test prints. Refuses to guess at causes.

use crate::engine::{Can, Engine};
use std::fmt;
use thirtyfour::error::WebDriverError;

pub type Result<T> = std::result::Result<T, Error>;

pub enum Error {
    /// An environment variable or a program that the harness needs isn't there.
    Missing { what: String },
    /// The system refused something.
    Io { doing: String, source: std::io::Error },
    /// The driver or the browser refused something, or is gone.
    Driver { doing: String, source: Box<WebDriverError> },
    /// The phone was used while its browser was not running.
    NotRunning,
    /// The browser shows its own error page instead of the app.
    NoPage { url: String },
    /// A script threw inside the page.
    Thrown { script: String, message: String },
    /// A condition did not come true within the limit.
    Awaited { what: String, last: String, page: String },
    /// The engine can't do this: a test that wants it has to say so, by `needs!`.
    Cannot { engine: Engine, what: Can },
    /// The line of a test script can't be read.
    Script { step: String, why: String },
    /// Something was found that should not be there.
    Found { what: String, list: Vec<String> },
    /// A step of a named test script failed.
    Step { check: String, step: String, number: usize, picture: String, source: Box<Error> },
}

impl Error {
    pub(crate) fn io(doing: impl Into<String>) -> impl FnOnce(std::io::Error) -> Self {
        let doing = doing.into();
        move |source| Self::Io { doing, source }
    }

    pub(crate) fn driver(doing: impl Into<String>) -> impl FnOnce(WebDriverError) -> Self {
        let doing = doing.into();
        move |source| Self::Driver { doing, source: Box::new(source) }
    }
}

impl fmt::Display for Error {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Missing { what } => write!(f, "{what}"),
            Self::Io { doing, source } => write!(f, "The system refused while {doing}: {source}."),
            Self::Driver { doing, source } => write!(f, "The browser refused while {doing}: {source}."),
            Self::NotRunning => write!(f, "The browser is not running: call reopen() first."),
            Self::NoPage { url } => write!(f, "The browser has no page to show for {url}."),
            Self::Thrown { script, message } => {
                write!(f, "A script threw in the page: {message}\nThe script: {script}")
            }
            Self::Awaited { what, last, page } => {
                write!(f, "Waited in vain for {what}; last seen: {last}.\nThe page says:\n{}", indent(page))
            }
            Self::Cannot { engine, what } => {
                write!(
                    f,
                    "{engine} has not, under its driver: {what}. A test that needs it says so by needs!({what:?})."
                )
            }
            Self::Script { step, why } => write!(f, "The test script can't be read at \"{step}\": {why}."),
            Self::Found { what, list } => write!(f, "{what}:\n{}", indent(&list.join("\n"))),
            Self::Step { check, step, number, picture, source } => {
                write!(f, "\"{check}\" failed at step {number}, \"{step}\".\n{source}\n{picture}")
            }
        }
    }
}

/// Tests that return an error print it by `Debug`, and a person reads it.
impl fmt::Debug for Error {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(self, f)
    }
}

impl std::error::Error for Error {}

fn indent(text: &str) -> String {
    text.lines().map(|line| format!("    {line}\n")).collect::<String>().trim_end().to_string()
}
