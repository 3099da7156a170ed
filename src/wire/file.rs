//! The copy: one JSON file with every entry of a log, which a coach sends, keeps and opens. Lossless: the very entries come
//! back, with whatever this version doesn't know. Canonical: the same set of entries gives the same bytes, apart from `written`.
//!
//! # Format
//! One object, compact, in this order when written; any order is read. A part or column that is not in these tables is
//! refused, for what it says would be lost: whoever adds one raises `version`. New kinds, words and fields need no new version, for
//! they go to `rare`. A file that needs nothing of version 2 is written as version 1.
//!
//! | part | meaning |
//! |---|---|
//! | `format` | `"peppertally-copy"` |
//! | `version` | 1; or 2 where there are rallies, contacts of groups or by a clock, watched ones, or ones only counted |
//! | `written` | by which `app` version, and when: `wall` (ms since 1970-01-01 UTC), `offset` (min east of UTC). The only part where unknown fields are passed over |
//! | `series` | pairs of a series (16 hex digits) and the number of its entries in this file, which may be 0 for one that is only pointed at |
//! | `runs`, `players` | what columns point at: flat pairs of series index and entry number |
//! | `strings` | kinds of effort that columns point at |
//! | `entries` | columns, one row an entry, series after series, by number: what stands around a fact |
//! | `rare` | the facts with `kind` 0: records (see `record`) without what `entries` says of them; `v` where it isn't 1 |
//! | `contacts`, `lineups`, `turns`, `efforts`, `told` | columns, one row a fact of that kind, in the order of `entries` |
//! | `rallies` | as these; only where there are any (version 2) |
//!
//! **A column** is an array of whole numbers; `[value,count]` stands for eight or more equal values in a row. *Plain* columns spell out
//! every value. *Difference* is to the row before; in `entries` it starts again from 0 with every series. *Or 0*: 0 is none,
//! else one more than the value. An index counts from 0.
//!
//! | `entries` | unit | written as |
//! |---|---|---|
//! | `no` | | difference to the number that would be next; gaps are fine |
//! | `clock` | | difference |
//! | `wall` | ms | difference, plain, modulo 2^64 as are `clock` and `skew` |
//! | `offset` | min | value |
//! | `skew` | ms | difference of (monotonic reading − wall time), nearly 0 while nobody turns the clock |
//! | `kind` | | 0 rare, 1 contacts, 2 lineups (those without target, ball-getters and groups), 3 turns, 4 efforts, 5 told, 6 rallies |
//!
//! | `contacts` | written as |
//! |---|---|
//! | `run` | index into `runs` |
//! | `player`, `server` | index into `players`, or 0 |
//! | `role` | 0 passer, 1 server, 2 target, 3 ball-getter, 4 doer |
//! | `place` | value or 0 |
//! | `outcome` | pass 0 gone, 1 chased, 2 moved, 3 stood; serve 4 ace, 5 in, 6 long, 7 wide, 8 net; 9 missed; 10 good, 11 not; 12 no chance; 13 only counted (version 2); and 20 more for a pass over the net, a fast serve |
//! | `good_from` | from 0 gone, 1 chased, 2 moved, 3 stood; 4 in, 5 fast and in, 6 the good key |
//! | `feed`, `step` | 0 easy, 1 challenge; the step's value, 254 and 255 easier than 0 |
//! | `style` | 0 none, 1 underhand, 2 roundhouse, 3 standing overhead, 4 jump |
//! | `round`, `restart` | value or 0; value, 0 where there is no round |
//! | `by_child` | 1 where the child scored itself |
//! | `group` | version 2, left out where all are 0: from 0 in the lineup's order, or 0 |
//! | `shown` | version 2, left out where all are 0: what the run's clock showed, in ms, or 0 |
//! | `watched` | version 2, left out where all are 0: 1 where the coach watched this child alone |
//!
//! | `lineups` | written as |
//! |---|---|
//! | `run` | index into `runs` |
//! | `cause` | 0 swap, 1 by hand, 2 after a contact |
//! | `after_series`, `after_no` | only for rows with cause 2: index of the contact's series; own number minus the contact's |
//! | `places`, `waiting`, `servers` | how many of each |
//! | `who` | plain; those, row after row: index into `players`, or 0 for a gap (at a place only) |
//!
//! | others | columns |
//! |---|---|
//! | `turns` | `run`, `player` (index) |
//! | `efforts` | `run`, `player` (index or 0), `what` (index into `strings`, or 0) |
//! | `told` | `run`, `player` (index), `told`, `good`, `of` (values), `good_from`, `feed`, `step`, `by_child` as above |
//! | `rallies` | `run`, `near` and `far` (how many on each side), `served` and `won` (0 near, 1 far), `second` (1: a second serve), `who` (plain: those, row after row: index into `players`) |
//!
//! # Rules that a file must keep
//! At most 100 MB and 2,000,000 entries; JSON, no name twice in an object; columns of one section equally long, every index within its
//! table, every value within its type; times, clocks and readings up to 2^53; names and titles up to 240 characters without control
//! characters, notes up to 20,000 with tabs and line ends; dates of practices within their day, with minutes;
//! one identity never with two contents. Numbers with gaps, an entry
//! twice, references to what isn't there, and any order of entries are fine.

use super::document::{self, broken, header_name};
use super::json::{Fields, Object};
use super::record::RecordError;
use super::refusal::broken_by;
pub use super::refusal::{Limits, MAX_NAME_CHARS, MAX_NUMBER, MAX_TEXT_CHARS, Refusal, RuleBroken, Spot};
use crate::domain::entry::Entry;

/// The newest version of the format, the one that is written.
pub const VERSION: u64 = document::VERSION;

/// The name of the format, as the file gives it.
pub const FORMAT: &str = "peppertally-copy";

/// Who wrote a copy, and when.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FileHeader {
    pub app_version: String,
    /// Milliseconds since 1970-01-01 UTC.
    pub written_ms: i64,
    /// Minutes east of UTC.
    pub offset_min: i16,
}

/// A copy that was read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Copy {
    pub header: FileHeader,
    /// In the order of their identity, each once.
    pub entries: Vec<Entry>,
}

/// The text of a copy. Their order doesn't matter; of two entries with one identity the first is written.
///
/// ```
/// use peppertally::wire::file::{FileHeader, Limits, read, write};
/// let header = FileHeader { app_version: "0.1.0".to_owned(), written_ms: 1_700_000_000_000, offset_min: 60 };
/// let text = write([], &header);
/// let copy = read(text.as_bytes(), &Limits::default()).unwrap();
/// assert_eq!((copy.header, copy.entries.len()), (header, 0));
/// ```
pub fn write<'a>(entries: impl IntoIterator<Item = &'a Entry>, header: &FileHeader) -> String {
    let mut written = Object::default();
    written.text("app", &header.app_version);
    written.number("wall", header.written_ms);
    written.number("offset", header.offset_min);
    document::write(FORMAT, &[("written", written.to_string())], entries)
}

/// The copy in these bytes. A byte order mark before it is passed over.
///
/// # Errors
/// [`Refusal`], and nothing of it is taken. Never panics, and never allocates from a number that the file merely claims.
pub fn read(bytes: &[u8], limits: &Limits) -> Result<Copy, Refusal> {
    let mut document = document::read(bytes, FORMAT, &["written"], Some(limits))?;
    let header = header(&mut document.parts).map_err(|_| broken(RuleBroken::Shape, Spot::Part("written")))?;
    header_name(&header.app_version)?;
    Ok(Copy { header, entries: document.entries })
}

/// Whether readers take this entry: a copy with one that breaks a rule is refused whole.
pub fn keeps_rules(entry: &Entry) -> bool {
    broken_by(entry).is_none()
}

fn header(parts: &mut Fields<'_>) -> Result<FileHeader, RecordError> {
    let mut written = parts.object("written")?;
    Ok(FileHeader {
        app_version: written.text("app")?.into_owned(),
        written_ms: written.need("wall")?,
        offset_min: written.need("offset")?,
    })
}
