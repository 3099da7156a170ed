//! One line of a list: cells, quotes, bullets, and which part of it is the name. Owns what a name may be; where a number may
//! stand in a run of text is `number`'s.

use super::super::drill::MAX_NAME;
use super::super::ids::ShirtNumber;
use super::number::{self, Parted};
use super::{MAX_NUMBER, What, Why};

/// A part of the line between separators.
struct Cell {
    text: String,
    quoted: bool,
    /// The separator before it.
    after: char,
}

type Child = (String, Option<u32>);

/// What one line is. Its line end is white space like any other.
pub(super) fn understand(typed: &str) -> What {
    let text = visible(typed);
    if text.trim().is_empty() {
        return What::Blank;
    }
    let child = child(without_bullets(&text), true).and_then(|(name, number)| match number.map(u16::try_from) {
        None => Ok((name, None)),
        Some(Ok(number)) if number <= MAX_NUMBER => Ok((name, Some(ShirtNumber(number)))),
        Some(_) => Err(Why::NumberTooBig),
    });
    match child {
        Ok((name, number)) => What::Child { name, number },
        Err(why) => What::NotUnderstood(why),
    }
}

/// Without what can't be seen, tabs and every kind of space kept. Direction marks go: a name is shown isolated, and an override
/// within it could turn the words around it. What joins letters (Persian) or pictures (families) stays.
pub(super) fn visible(text: &str) -> String {
    let unseen = |c: char| {
        matches!(c, '\u{ad}' | '\u{61c}' | '\u{200b}' | '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}')
            || matches!(c, '\u{2060}' | '\u{2066}'..='\u{2069}' | '\u{feff}')
            || (c.is_control() && !c.is_whitespace())
    };
    text.chars().filter(|&c| !unseen(c)).collect()
}

/// A name, its spaces made single; or why it is none.
pub(super) fn name(text: &str) -> Result<String, Why> {
    let name = single_spaced(text);
    if !name.chars().any(is_nameable) {
        return Err(if name.chars().any(number::is_digit) { Why::NumberOnly } else { Why::SignsOnly });
    }
    if name.chars().count() > MAX_NAME { Err(Why::NameTooLong) } else { Ok(name) }
}

fn child(text: &str, quotes: bool) -> Result<Child, Why> {
    let cells = cells(text, quotes);
    // In quotes "No. 7" may be a name; bare digits are none anywhere.
    let is_number =
        |cell: &Cell| number::alone(&cell.text).filter(|_| !cell.quoted || !cell.text.chars().any(char::is_alphabetic));
    let numbers: Vec<u32> = cells.iter().filter_map(is_number).collect();
    let named: Vec<&Cell> = cells.iter().filter(|c| !c.text.is_empty() && is_number(c).is_none()).collect();
    match (numbers.as_slice(), named.as_slice()) {
        ([_, _, ..], _) => Err(Why::TwoNumbers),
        ([_], []) => Err(Why::NumberOnly),
        (_, [cell]) if cell.quoted && cells.len() > 1 => Ok((name(&cell.text)?, numbers.first().copied())),
        (_, [cell]) if cell.quoted => child(&cell.text, false),
        ([number], named) => match number::part(&single_spaced(&joined(named))) {
            Parted { number: None, name: text, .. } => Ok((loose_name(text)?, Some(*number))),
            _ => Err(Why::TwoNumbers),
        },
        ([], named) => {
            let n_numbered = named.iter().filter(|c| number::part(&c.text).number.is_some()).count();
            match number::part(&single_spaced(text)) {
                Parted { more: true, .. } => Err(Why::TwoNumbers),
                _ if n_numbered > 1 => Err(Why::TwoNumbers),
                Parted { number, name: text, .. } => match loose_name(text) {
                    Err(Why::SignsOnly) if number.is_some() => Err(Why::NumberOnly),
                    name => Ok((name?, number)),
                },
            }
        }
    }
}

/// Cuts at tabs, bars, commas and semicolons. A cell in straight quotes is taken as spreadsheets write it: doubled ones inside
/// stand for one, separators inside are text. Quotes that don't close, or close too early, are text.
fn cells(text: &str, quotes: bool) -> Vec<Cell> {
    let mut cells = Vec::new();
    let (mut rest, mut after) = (text, '\t');
    loop {
        let quoted = if quotes { quoted_cell(rest) } else { None };
        let is_quoted = quoted.is_some();
        let (cell, tail) = quoted.unwrap_or_else(|| {
            let (cell, tail) = rest.split_at(rest.find(is_separator).unwrap_or(rest.len()));
            (cell.to_owned(), tail)
        });
        cells.push(Cell { text: single_spaced(&cell), quoted: is_quoted, after });
        let mut tail = tail.chars();
        match tail.next() {
            None => return cells,
            Some(separator) => (rest, after) = (tail.as_str(), separator),
        }
    }
}

/// The text of a quoted cell and what follows it, a separator or nothing.
fn quoted_cell(text: &str) -> Option<(String, &str)> {
    let mut rest = text.trim_start_matches(is_blank).strip_prefix('"')?;
    let mut cell = String::new();
    loop {
        let (piece, tail) = rest.split_once('"')?;
        cell.push_str(piece);
        if let Some(tail) = tail.strip_prefix('"') {
            cell.push('"');
            rest = tail;
            continue;
        }
        let tail = tail.trim_start_matches(is_blank);
        return (tail.is_empty() || tail.starts_with(is_separator)).then_some((cell, tail));
    }
}

fn joined(cells: &[&Cell]) -> String {
    let mut text = String::new();
    for cell in cells {
        if !text.is_empty() {
            text.push_str(if matches!(cell.after, '\t' | '|') { " " } else { ", " });
        }
        text.push_str(&cell.text);
    }
    text
}

/// A name out of running text: without the separators of empty cells, a stray `#`, and quotes around it or left over.
fn loose_name(text: &str) -> Result<String, Why> {
    let edge = |c: char| is_separator(c) || is_blank(c) || matches!(c, ':' | '：');
    let text = text.trim_matches(edge).trim_start_matches(['#', '＃', ' ']);
    let n_quotes = text.matches('"').count();
    let around = |open, close| text.strip_prefix(open).and_then(|t| t.strip_suffix(close));
    let text = match n_quotes {
        1 => text.strip_prefix('"').or_else(|| text.strip_suffix('"')),
        2 => around('"', '"'),
        _ => around('“', '”').or_else(|| around('„', '“')).or_else(|| around('«', '»')),
    }
    .unwrap_or(text);
    name(text)
}

fn without_bullets(text: &str) -> &str {
    const BULLETS: &str = "-–—−*+>•·‣▪▫●○◦■□☐☑☒✓✔➤►▶→・\u{fe0f}";
    let bare = |t| str::trim_start_matches(t, |c: char| is_blank(c) || c == '\t' || BULLETS.contains(c));
    let text = bare(text);
    ["[ ]", "[x]", "[X]"].iter().find_map(|&tick| text.strip_prefix(tick)).map_or(text, bare)
}

fn single_spaced(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn is_separator(c: char) -> bool {
    matches!(c, '\t' | '|' | ',' | ';' | '،' | '؛' | '，' | '、' | '；')
}

fn is_blank(c: char) -> bool {
    c != '\t' && c.is_whitespace()
}

/// A letter of any script, or a picture.
fn is_nameable(c: char) -> bool {
    c.is_alphabetic() || matches!(c, '\u{1f000}'..='\u{1faff}')
}
