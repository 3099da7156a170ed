//! The squad as the coach types or pastes it: one child a line, in any common form. Owns the reading and the writing of such a
//! list; refuses to guess (a line is understood or says why not) and to add anyone (that is an entry, after the preview).
//!
//! Nothing typed is lost: [`Reading::typed`] gives the text back, character for character.

mod alike;
mod line;
mod number;
mod same;

pub use alike::{Likeness, Names, Shirts, likeness};
pub use same::name_key;

use super::ids::ShirtNumber;
use std::collections::HashMap;

/// What was understood of a list.
///
/// Invariant: the lines' `typed` texts one after another are the text that was read.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Reading {
    pub lines: Vec<LineRead>,
}

/// One line of the list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LineRead {
    pub no: LineNo,
    /// As typed, its line end included.
    pub typed: String,
    pub what: What,
    /// Worth a second look. None of them stops the child from being added: two Miras are two children.
    pub notes: Vec<Note>,
}

/// A line's number, from 1.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct LineNo(pub usize);

/// What a line is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum What {
    /// Nothing to see on it.
    Blank,
    Child {
        name: String,
        number: Option<ShirtNumber>,
    },
    NotUnderstood(Why),
}

/// Why a line, or a name, can't be taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Why {
    /// A number and no name.
    NumberOnly,
    /// Neither a letter nor a picture, or nothing at all.
    SignsOnly,
    /// Over [`MAX_NUMBER`]; a telephone number, say.
    NumberTooBig,
    /// More than one number stands where a shirt number may stand; a date, or two children on one line.
    TwoNumbers,
    /// Over [`MAX_NAME`](super::drill::MAX_NAME) characters.
    NameTooLong,
}

/// What a line shares with the first earlier line that has it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Note {
    /// The same name, whatever its capitals and however its accents are encoded ([`name_key`]).
    SameName(LineNo),
    SameNumber(LineNo),
}

/// Highest number on a shirt.
pub const MAX_NUMBER: u16 = 999;

impl Reading {
    /// The text that was read.
    ///
    /// ```
    /// let text = "\u{feff}7 Mira\r\n\r\n???";
    /// assert_eq!(peppertally::domain::roster::read(text).typed(), text);
    /// ```
    pub fn typed(&self) -> String {
        self.lines.iter().map(|line| line.typed.as_str()).collect()
    }

    /// The children understood, in the order of the list.
    ///
    /// ```
    /// use peppertally::domain::{ids::ShirtNumber, roster::read};
    /// let reading = read("Mira, 7\n12\nJo");
    /// assert_eq!(reading.children().collect::<Vec<_>>(), [("Mira", Some(ShirtNumber(7))), ("Jo", None)]);
    /// ```
    pub fn children(&self) -> impl Iterator<Item = (&str, Option<ShirtNumber>)> {
        self.lines.iter().filter_map(|line| match &line.what {
            What::Child { name, number } => Some((name.as_str(), *number)),
            What::Blank | What::NotUnderstood(_) => None,
        })
    }
}

impl LineRead {
    /// As typed, without the line end: for showing.
    ///
    /// ```
    /// let reading = peppertally::domain::roster::read("??\r\n");
    /// assert_eq!(reading.lines[0].shown(), "??");
    /// ```
    pub fn shown(&self) -> &str {
        self.typed.trim_end_matches(is_line_end)
    }
}

/// Reads a list. The number may stand before or after the name, in any script's digits, with `#`, `No.`, brackets or any usual
/// sign between; bullets, quotes and empty cells of spreadsheets, direction marks and doubled spaces are passed over. A number
/// is only a number where a sign or space parts it from the name: `Mira2` and `2nd Mira` are names.
///
/// ```
/// use peppertally::domain::{ids::ShirtNumber, roster::{LineNo, Note, What, Why, read}};
/// let reading = read("#7 Mira\nMira (12)\n");
/// assert_eq!(reading.lines[0].what, What::Child { name: "Mira".into(), number: Some(ShirtNumber(7)) });
/// assert_eq!(reading.lines[1].notes, [Note::SameName(LineNo(1))]);
/// assert_eq!(read("7 Mira 9").lines[0].what, What::NotUnderstood(Why::TwoNumbers));
/// ```
pub fn read(text: &str) -> Reading {
    let (mut names, mut numbers) = (HashMap::new(), HashMap::new());
    let lines = lines(text).zip(1..).map(|(typed, no)| {
        let (no, what) = (LineNo(no), line::understand(typed));
        let mut notes = Vec::new();
        if let What::Child { name, number } = &what {
            let first = *names.entry(name_key(name)).or_insert(no);
            notes.extend((first != no).then_some(Note::SameName(first)));
            if let Some(number) = *number {
                let first = *numbers.entry(number).or_insert(no);
                notes.extend((first != no).then_some(Note::SameNumber(first)));
            }
        }
        LineRead { no, typed: typed.to_owned(), what, notes }
    });
    Reading { lines: lines.collect() }
}

/// Writes a list in the form `7 Mira`, a line each, that reads again the same, provided that each name is one [`clean_name`]
/// gives. A name that would be read otherwise (`Mira 2`) is written the way a spreadsheet does: `7,"Mira 2"`.
///
/// ```
/// use peppertally::domain::{ids::ShirtNumber, roster::write};
/// let list = [("Mira", Some(ShirtNumber(7))), ("Jo", None), ("Mira 2", None)];
/// assert_eq!(write(list), "7 Mira\nJo\n,\"Mira 2\"\n");
/// ```
pub fn write<'a>(players: impl IntoIterator<Item = (&'a str, Option<ShirtNumber>)>) -> String {
    players.into_iter().map(|(name, number)| write_line(name, number) + "\n").collect()
}

/// A name as it is kept: spaces single, nothing invisible but what joins letters or pictures, at most
/// [`MAX_NAME`](super::drill::MAX_NAME) characters, with at least one letter or picture. Accents stay as they were typed.
///
/// ```
/// use peppertally::domain::roster::{Why, clean_name};
/// assert_eq!(clean_name("\u{a0} Mira \t K. "), Ok("Mira K.".to_owned()));
/// assert_eq!(clean_name("7"), Err(Why::NumberOnly));
/// assert_eq!(clean_name(" "), Err(Why::SignsOnly));
/// ```
pub fn clean_name(text: &str) -> Result<String, Why> {
    line::name(&line::visible(text))
}

fn write_line(name: &str, number: Option<ShirtNumber>) -> String {
    let digits = number.map(|n| n.0.to_string()).unwrap_or_default();
    let plain = if digits.is_empty() { name.to_owned() } else { format!("{digits} {name}") };
    match line::understand(&plain) {
        What::Child { name: n, number: k } if n == name && k == number => plain,
        _ => format!("{digits},\"{}\"", name.replace('"', "\"\"")),
    }
}

/// Cuts behind every line end that any system writes; `\r\n` is one.
fn lines(text: &str) -> impl Iterator<Item = &str> {
    let mut rest = text;
    std::iter::from_fn(move || {
        let end = rest.find(is_line_end).unwrap_or(rest.len());
        let n_end = match &rest[end..] {
            tail if tail.starts_with("\r\n") => 2,
            tail => tail.chars().next().map_or(0, char::len_utf8),
        };
        let (line, after) = rest.split_at(end + n_end);
        rest = after;
        (!line.is_empty()).then_some(line)
    })
}

fn is_line_end(c: char) -> bool {
    matches!(c, '\n' | '\r' | '\u{85}' | '\u{2028}' | '\u{2029}')
}
