//! The typed list in words: what was understood of a line, and why not.

use super::counts::plural;
use crate::app::update::DraftFault;
use crate::domain::drill::MAX_NAME;
use crate::domain::roster::{MAX_NUMBER, Note, Why};

pub fn why(why: Why) -> String {
    match why {
        Why::NumberOnly => "a number without a name".to_owned(),
        Why::SignsOnly => "no name in it".to_owned(),
        Why::NumberTooBig => format!("shirt numbers go up to {MAX_NUMBER}"),
        Why::TwoNumbers => "two numbers: which is the shirt’s?".to_owned(),
        Why::NameTooLong => format!("longer than {MAX_NAME} letters"),
    }
}

pub fn note(note: Note) -> String {
    match note {
        Note::SameName(line) => format!("same name as line {}: two children?", line.0),
        Note::SameNumber(line) => format!("same number as line {}", line.0),
    }
}

/// How a child is told apart from another of its name, on every key and in every report.
pub fn called(called: &str) -> String {
    format!("two of this name: shown as “{called}”")
}

pub fn summary(n_children: usize, n_not: usize) -> String {
    let children = plural(n_children, "child", "children");
    match n_not {
        0 if n_children == 0 => "Names appear here as you type.".to_owned(),
        0 => children,
        n => format!("{children}, {} not understood: it stays above", plural(n, "line", "lines")),
    }
}

pub fn take(n: usize) -> String {
    format!("Add {}", plural(n, "child", "children"))
}

pub fn draft_fault(fault: DraftFault) -> &'static str {
    match fault {
        DraftFault::Name => "A name is needed, 60 letters at most.",
        DraftFault::Number => "A shirt number is 0 to 999, or nothing.",
    }
}
