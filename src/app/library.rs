//! The library as the app holds it: whether it has been read, and what the coach looks for in it.

use crate::domain::ids::DrillId;
use crate::domain::library::{Have, Library, LibraryNo};

/// The library's file is read when a screen first wants it.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum Shelf {
    #[default]
    Unasked,
    Reading,
    Read(Library),
    /// One sentence: why not.
    Failed(&'static str),
}

impl Shelf {
    pub const fn library(&self) -> Option<&Library> {
        match self {
            Shelf::Read(library) => Some(library),
            _ => None,
        }
    }
}

/// What the coach looks for, until she clears it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Sought {
    pub text: String,
    pub have: Have,
}

impl Sought {
    /// Every word of it stands in one of these texts, in any case.
    pub fn is_said_in(&self, texts: &[&str]) -> bool {
        let said: Vec<String> = texts.iter().map(|text| text.to_lowercase()).collect();
        self.text.to_lowercase().split_whitespace().all(|word| said.iter().any(|text| text.contains(word)))
    }
}

/// What is tapped in the library and among the coach's own drills.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LibraryTap {
    Typed(String),
    Have(Have),
    Cleared,
    /// Among the coach's drills from now on.
    Taken(LibraryNo),
    /// The same, and its board is there.
    Started(LibraryNo),
    /// Another one like it, to be changed and kept.
    Copied(DrillId),
    /// Put away, or back among the others.
    PutAway(DrillId, bool),
}
