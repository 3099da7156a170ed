//! Copies locked with words: what the coach asks, what the shell is asked and answers, how it stands. The words live for as long as the lock
//! takes and are stored nowhere; the locking itself is a worker's program of its own (`lock/`), which knows no sentence.

use std::fmt;

use super::action::CopyHow;
use super::model::ReadyCopy;

/// Words that lock. Never printed, never stored.
#[derive(Clone, PartialEq, Eq)]
pub struct Secret(String);

impl Secret {
    pub fn new(words: String) -> Secret {
        Secret(words)
    }

    pub fn words(&self) -> &str {
        &self.0
    }

    /// Phones put a space after a word that they have completed: one at an end belongs to no words of ours.
    pub fn trimmed(&self) -> Secret {
        Secret(self.0.trim().to_owned())
    }

    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}

impl fmt::Debug for Secret {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("Secret")
    }
}

#[derive(Clone, Debug, PartialEq)]
pub enum LockTap {
    /// A copy of everything leaves locked.
    Wanted(CopyHow, Secret),
    /// These words may open the locked file that was chosen.
    Words(Secret),
    /// Locking or opening is given up.
    GivenUp,
    /// The locked file isn't opened.
    PutAway,
}

/// What the shell is asked. Answered by `Report::Locked`, but for `Stop`.
#[derive(Clone, Debug, PartialEq)]
pub enum LockJob {
    /// The copy that was written last; as text where the way takes nothing else.
    Lock {
        words: Secret,
        text: bool,
    },
    /// The file that was chosen last. What is in it becomes the file that was chosen.
    Open {
        words: Secret,
    },
    Stop,
}

/// Why it was not done.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LockFault {
    /// Other words, or the lock was changed on its way.
    Words,
    /// It asks for more work than a phone should do.
    Work,
    Damaged,
    /// Locked with a key, not with words.
    Key,
    Format,
    Large,
    /// The browser gives no random numbers.
    Chance,
    /// The program that does it did not start, ended too early, is of another build, or came to no end.
    NotStarted,
    Died,
    OtherBuild,
    NoEnd,
}

impl LockFault {
    /// By the name that the worker gives it.
    pub fn from_name(name: &str) -> Option<LockFault> {
        Some(match name {
            "words" => LockFault::Words,
            "work" => LockFault::Work,
            "damaged" => LockFault::Damaged,
            "key" => LockFault::Key,
            "format" => LockFault::Format,
            "large" => LockFault::Large,
            "chance" => LockFault::Chance,
            _ => return None,
        })
    }

    /// Other words, or another try, may do it.
    pub const fn may_be_asked_again(self) -> bool {
        matches!(
            self,
            LockFault::Words
                | LockFault::Chance
                | LockFault::NotStarted
                | LockFault::Died
                | LockFault::OtherBuild
                | LockFault::NoEnd
        )
    }
}

/// A copy on its way out under a lock.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum Locking {
    #[default]
    No,
    /// The copy is being written; then it is locked with these. Asked for at this monotonic time.
    Waits { words: Secret, asked_ms: u64 },
    /// It is being locked.
    On { ready: ReadyCopy, how: CopyHow, asked_ms: u64 },
}

/// A locked file that was chosen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LockedFile {
    pub name: String,
    /// Words were given and are tried.
    pub opening: bool,
}

/// `peppertally-2026-11-24-1840-locked.age`, for a copy of that name; `.txt` where it is text.
pub fn locked_name(name: &str, how: CopyHow) -> String {
    let stem = name.rsplit_once('.').map_or(name, |(stem, _)| stem);
    let end = match how {
        CopyHow::Download | CopyHow::Code => "age",
        // Share sheets take no file with an end that they don't know.
        CopyHow::ShareSheet => "txt",
    };
    format!("{stem}-locked.{end}")
}
