//! A copy shown to another phone, and one read from there.

use super::super::codes::{A_SECOND, A_SECOND_CALM, Reading, Seen, Shown};
use super::super::model::Model;
use super::super::words::codes as words;
use super::super::work::Span;
use super::share::spans;

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ShowView {
    pub at: ShowAt,
    /// What can be shown, and which of it stands chosen at first.
    pub spans: Vec<(String, Span)>,
    pub first: usize,
    /// Another copy is being written: this one waits.
    pub busy: bool,
    /// What isn't in what is shown.
    pub missing: Option<String>,
    /// "12 pictures; a round takes 2 seconds."
    pub round: String,
    pub paused: bool,
    pub calm: bool,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ShowAt {
    /// What it is to be; and why it couldn't be shown.
    Choosing(Option<String>),
    Making,
    Standing,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ReadView {
    pub at: ReadAt,
    /// Which pieces are here.
    pub here: Vec<bool>,
    /// What is seen, in words.
    pub line: String,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ReadAt {
    /// The camera is off; and why it ended.
    Off(Option<String>),
    Asking,
    Looking,
}

pub fn show(model: &Model) -> ShowView {
    let codes = &model.codes;
    let (at, n) = match &codes.shown {
        Shown::Nothing => (ShowAt::Choosing(None), 0),
        Shown::Not(why) => (ShowAt::Choosing(Some(why.clone())), 0),
        Shown::Making => (ShowAt::Making, 0),
        Shown::Standing { n } => (ShowAt::Standing, *n),
    };
    let spans = spans(model);
    // The latest practice: what two coaches want of each other after it.
    let first = spans.iter().position(|(_, span)| matches!(span, Span::One(_))).unwrap_or_default();
    ShowView {
        at,
        spans,
        first,
        busy: model.copy.writing,
        missing: codes.missing.clone(),
        round: words::round(n, if codes.calm { A_SECOND_CALM } else { A_SECOND }),
        paused: codes.paused,
        calm: codes.calm,
    }
}

pub fn read(model: &Model) -> ReadView {
    let (at, here, seen) = match &model.codes.read {
        Reading::Nothing => (ReadAt::Off(None), Vec::new(), Seen::Nothing),
        Reading::Not(why) => (ReadAt::Off(Some(why.clone())), Vec::new(), Seen::Nothing),
        Reading::Asking => (ReadAt::Asking, Vec::new(), Seen::Nothing),
        Reading::Looking { here, seen } => (ReadAt::Looking, here.clone(), *seen),
    };
    let line = match seen {
        Seen::Foreign => words::FOREIGN.to_owned(),
        Seen::Newer => words::NEWER.to_owned(),
        Seen::Broken => words::BROKEN.to_owned(),
        Seen::Piece | Seen::Nothing if !here.is_empty() => {
            words::here(here.iter().filter(|is| **is).count(), here.len())
        }
        Seen::Piece | Seen::Nothing => words::NOTHING_SEEN.to_owned(),
    };
    ReadView { at, here, line }
}
