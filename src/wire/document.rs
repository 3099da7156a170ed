//! What the copy and the block share: a JSON document with entries in columns, in the order of their identity. Its format is
//! told in `file`.

use serde_json::value::RawValue;
use std::collections::BTreeMap;
use std::fmt::Display;

use super::column::{Plain, Runs, section};
use super::json::{Fields, quoted};
use super::record::{self, RecordError};
use super::refusal::{Limits, Refusal, RuleBroken, Spot, broken_by, name_broken};
use super::sections::{Home, Rallies, Sections, due, fit};
use super::tables::{Index, Pointers, Tables, at};
use crate::domain::entry::Entry;
use crate::domain::ids::{Clock, EntryId, EntryNo, SeriesId};
use crate::domain::time::Stamp;

/// The newest version of the document. What needs none of its columns is written as the first, which every reader knows.
pub(super) const VERSION: u64 = 2;
const FIRST: u64 = 1;

section! {
    /// What stands around a fact, one row an entry.
    Around { no: Runs, clock: Runs, wall: Plain, offset: Runs, skew: Runs, kind: Runs }
}

/// Writes a document. `parts` stand between the version and the entries, as they are.
pub(super) fn write<'a>(
    format: &str,
    parts: &[(&str, String)],
    entries: impl IntoIterator<Item = &'a Entry>,
) -> String {
    let mut entries: Vec<&Entry> = entries.into_iter().collect();
    // Stable: given one identity twice, the first stands.
    entries.sort_by_key(|entry| entry.id);
    entries.dedup_by_key(|entry| entry.id);

    let mut pointers = Pointers::default();
    for entry in &entries {
        pointers.series.insert(entry.id.series);
        if home(entry) != Home::Rare {
            pointers.note(&entry.fact);
        }
    }
    let index = pointers.index();

    let (mut around, mut sections, mut rare) = (Around::default(), Sections::default(), Vec::new());
    let mut before = Before::default();
    for entry in &entries {
        before.push(&mut around, entry);
        match home(entry) {
            Home::Rare => rare.push(record::encode_fact(entry)),
            _ => sections.push(entry.id, &entry.fact, &index),
        }
    }

    let version = if sections.needs_newest { VERSION } else { FIRST };
    let mut out = format!("{{\"format\":{},\"version\":{version}", quoted(format));
    for (name, json) in parts {
        push_part(&mut out, name, json);
    }
    push_tables(&mut out, &entries, &index);
    push_part(&mut out, "entries", &around);
    push_part(&mut out, "rare", &format!("[{}]", rare.join(",")));
    push_part(&mut out, "contacts", &sections.contacts);
    push_part(&mut out, "lineups", &sections.lineups);
    push_part(&mut out, "turns", &sections.turns);
    push_part(&mut out, "efforts", &sections.efforts);
    push_part(&mut out, "told", &sections.told);
    // Left out where no game was played.
    if !sections.rallies.run.is_done() {
        push_part(&mut out, "rallies", &sections.rallies);
    }
    out.push('}');
    out
}

/// A document that was read: its entries by identity, and the parts that the caller knows.
pub(super) struct Document<'a> {
    pub parts: Fields<'a>,
    pub entries: Vec<Entry>,
}

/// Reads a document. From elsewhere (`limits`) it also has to keep the rules on size, numbers and texts; an own one has not, so
/// that nothing once stored becomes unreadable. `known` are the names of the caller's parts.
pub(super) fn read<'a>(
    bytes: &'a [u8],
    format: &str,
    known: &[&str],
    limits: Option<&Limits>,
) -> Result<Document<'a>, Refusal> {
    if let Some(limits) = limits {
        let n_bytes = u64::try_from(bytes.len()).unwrap_or(u64::MAX);
        if n_bytes > limits.n_bytes {
            return Err(Refusal::TooLarge { bytes: n_bytes, limit: limits.n_bytes });
        }
    }
    let mut parts = parse(bytes, format)?;
    if !matches!(parts.text("format"), Ok(name) if name == format) {
        return Err(Refusal::NotOurs);
    }
    match parts.need::<u64>("version") {
        Ok(FIRST..=VERSION) => {}
        Ok(version) if version > VERSION => return Err(Refusal::Newer { version }),
        _ => return Err(broken(RuleBroken::Shape, Spot::Part("version"))),
    }
    let max_entries = limits.map_or(usize::MAX, |limits| limits.n_entries);
    let mut entries = Reader::new(&mut parts, max_entries)?.entries()?;
    if parts.untaken().any(|name| !known.contains(&name)) {
        return Err(broken(RuleBroken::UnknownPart, Spot::Part("file")));
    }
    in_order(&mut entries)?;
    if limits.is_some() {
        for entry in &entries {
            if let Some(which) = broken_by(entry) {
                return Err(broken(which, Spot::Entry(entry.id)));
            }
        }
    }
    Ok(Document { parts, entries })
}

pub(super) fn broken(which: RuleBroken, at: Spot) -> Refusal {
    Refusal::BreaksRule { which, at }
}

/// A part that must be there and of its type.
pub(super) fn part<'a, T: serde::Deserialize<'a>>(parts: &mut Fields<'a>, name: &'static str) -> Result<T, Refusal> {
    parts.need(name).map_err(|_| broken(RuleBroken::Shape, Spot::Part(name)))
}

/// Where the fact of an entry is written: fields of a newer version have no columns.
fn home(entry: &Entry) -> Home {
    if entry.extra.is_some() { Home::Rare } else { Home::of(&entry.fact) }
}

fn push_part(out: &mut String, name: &str, json: &impl Display) {
    out.push_str(&format!(",{}:{json}", quoted(name)));
}

fn push_tables(out: &mut String, entries: &[&Entry], index: &Index) {
    let mut n_entries: BTreeMap<SeriesId, u64> = BTreeMap::new();
    for entry in entries {
        *n_entries.entry(entry.id.series).or_default() += 1;
    }
    let count = |series: &SeriesId| n_entries.get(series).copied().unwrap_or(0);
    let list = |items: Vec<String>| format!("[{}]", items.join(","));
    let series = index.series.keys().map(|series| format!("[\"{:016x}\",{}]", series.0, count(series)));
    push_part(out, "series", &list(series.collect()));
    let pairs = |ids: &mut dyn Iterator<Item = &EntryId>| {
        let mut column = Plain::default();
        for id in ids {
            column.push(index.series.get(&id.series).copied().unwrap_or(-1));
            column.push(i64::from(id.no.0));
        }
        column
    };
    push_part(out, "runs", &pairs(&mut index.runs.keys()));
    push_part(out, "players", &pairs(&mut index.players.keys()));
    push_part(out, "strings", &list(index.strings.keys().map(|text| quoted(text)).collect()));
}

/// The row before, which the next one is written as a difference to. Differences of times and clocks are modulo 2^64, so that
/// every value can be written; the rule on large numbers is checked on the sums.
#[derive(Default)]
struct Before {
    series: Option<SeriesId>,
    /// The last number plus 1.
    no: i64,
    clock: u64,
    wall: i64,
    skew: i64,
}

impl Before {
    fn at_series(&mut self, series: SeriesId) {
        if self.series != Some(series) {
            *self = Before { series: Some(series), ..Before::default() };
        }
    }

    fn push(&mut self, to: &mut Around, entry: &Entry) {
        self.at_series(entry.id.series);
        let no = i64::from(entry.id.no.0);
        to.no.push(no - self.no);
        to.clock.push(entry.clock.0.wrapping_sub(self.clock).cast_signed());
        let skew = entry.at.mono_ms.cast_signed().wrapping_sub(entry.at.wall_ms);
        to.wall.push(entry.at.wall_ms.wrapping_sub(self.wall));
        to.offset.push(i64::from(entry.at.offset_min));
        to.skew.push(skew.wrapping_sub(self.skew));
        to.kind.push(home(entry).code());
        *self = Before { series: self.series, no: no + 1, clock: entry.clock.0, wall: entry.at.wall_ms, skew };
    }

    fn next(&mut self, from: &mut Around, series: SeriesId) -> Result<(EntryId, Clock, Stamp), RuleBroken> {
        self.at_series(series);
        let no = self.no.checked_add(due(from.no.next())?).ok_or(RuleBroken::OutOfRange)?;
        let no_fits: u32 = fit(no)?;
        self.no = no + 1;
        self.clock = self.clock.wrapping_add(due(from.clock.next())?.cast_unsigned());
        self.wall = self.wall.wrapping_add(due(from.wall.next())?);
        self.skew = self.skew.wrapping_add(due(from.skew.next())?);
        let at = Stamp {
            wall_ms: self.wall,
            offset_min: fit(due(from.offset.next())?)?,
            mono_ms: self.skew.wrapping_add(self.wall).cast_unsigned(),
        };
        Ok((EntryId { series, no: EntryNo(no_fits) }, Clock(self.clock), at))
    }
}

struct Reader<'a> {
    /// Each with the number of its entries.
    series: Vec<(SeriesId, u64)>,
    tables: Tables,
    around: Around,
    rare: std::vec::IntoIter<&'a RawValue>,
    sections: Sections,
}

impl<'a> Reader<'a> {
    fn new(parts: &mut Fields<'a>, max_entries: usize) -> Result<Self, Refusal> {
        let around: Around = part(parts, "entries")?;
        let series = read_series(parts)?;
        let claimed = series.iter().try_fold(0u64, |sum, (_, n)| sum.checked_add(*n));
        if around.wall.len() > max_entries {
            return Err(broken(RuleBroken::TooMany, Spot::Part("entries")));
        }
        // From here on a count is backed by numbers that are really there.
        if claimed != u64::try_from(around.wall.len()).ok() {
            return Err(broken(RuleBroken::UnequalColumns, Spot::Part("series")));
        }
        let tables = read_tables(parts, series.iter().map(|(series, _)| *series).collect())?;
        let sections = Sections {
            contacts: part(parts, "contacts")?,
            lineups: part(parts, "lineups")?,
            turns: part(parts, "turns")?,
            efforts: part(parts, "efforts")?,
            told: part(parts, "told")?,
            needs_newest: false,
            rallies: if parts.has("rallies") { part(parts, "rallies")? } else { Rallies::default() },
        };
        let rare: Vec<&RawValue> = part(parts, "rare")?;
        Ok(Self { series, tables, around, rare: rare.into_iter(), sections })
    }

    fn entries(mut self) -> Result<Vec<Entry>, Refusal> {
        let mut entries = Vec::new();
        let mut before = Before::default();
        for (series, n) in std::mem::take(&mut self.series) {
            for _ in 0..n {
                let row = before.next(&mut self.around, series);
                let (id, clock, at) = row.map_err(|which| broken(which, Spot::Part("entries")))?;
                let entry = self.entry(id, clock, at).map_err(|which| broken(which, Spot::Entry(id)))?;
                entries.push(entry);
            }
        }
        self.is_done().map(|()| entries)
    }

    fn entry(&mut self, id: EntryId, clock: Clock, at: Stamp) -> Result<Entry, RuleBroken> {
        let home = Home::of_code(due(self.around.kind.next())?).ok_or(RuleBroken::OutOfRange)?;
        let (fact, extra) = match home {
            Home::Rare => {
                let text = self.rare.next().ok_or(RuleBroken::UnequalColumns)?.get();
                record::decode_fact(text).map_err(RuleBroken::Record)?
            }
            _ => (self.sections.next(home, id, &self.tables)?, None),
        };
        Ok(Entry { id, clock, at, fact, extra })
    }

    /// Whatever is left over belongs to no entry.
    fn is_done(&self) -> Result<(), Refusal> {
        let parts = [
            ("entries", self.around.is_done()),
            ("rare", self.rare.len() == 0),
            ("contacts", self.sections.contacts.is_done()),
            ("lineups", self.sections.lineups.is_done()),
            ("turns", self.sections.turns.is_done()),
            ("efforts", self.sections.efforts.is_done()),
            ("told", self.sections.told.is_done()),
            ("rallies", self.sections.rallies.is_done()),
        ];
        match parts.iter().find(|(_, done)| !done) {
            Some((name, _)) => Err(broken(RuleBroken::UnequalColumns, Spot::Part(name))),
            None => Ok(()),
        }
    }
}

fn read_series(parts: &mut Fields<'_>) -> Result<Vec<(SeriesId, u64)>, Refusal> {
    let list: Vec<(String, u64)> = part(parts, "series")?;
    let read = |(text, n): (String, u64)| match EntryId::from_text(&format!("{text}.00000000")) {
        Some(id) => Ok((id.series, n)),
        None => Err(broken(RuleBroken::OutOfRange, Spot::Part("series"))),
    };
    list.into_iter().map(read).collect()
}

fn read_tables(parts: &mut Fields<'_>, series: Vec<SeriesId>) -> Result<Tables, Refusal> {
    let ids = |mut column: Plain, name| {
        let mut ids = Vec::new();
        while let Some(place) = column.next() {
            let id = at(&series, place)
                .and_then(|series| Ok(EntryId { series: *series, no: EntryNo(fit(due(column.next())?)?) }));
            ids.push(id.map_err(|which| broken(which, Spot::Part(name)))?);
        }
        Ok(ids)
    };
    let runs = ids(part(parts, "runs")?, "runs")?;
    let players = ids(part(parts, "players")?, "players")?;
    let strings: Vec<String> = part(parts, "strings")?;
    Ok(Tables { series, players, runs, strings })
}

/// Entries in the order of their identity, each once.
fn in_order(entries: &mut Vec<Entry>) -> Result<(), Refusal> {
    entries.sort_by_key(|entry| entry.id);
    if let Some(pair) = entries.windows(2).find(|pair| pair[0].id == pair[1].id && pair[0] != pair[1]) {
        return Err(broken(RuleBroken::TwoContents, Spot::Entry(pair[0].id)));
    }
    entries.dedup();
    Ok(())
}

fn parse<'a>(bytes: &'a [u8], format: &str) -> Result<Fields<'a>, Refusal> {
    // Some apps put a byte order mark before a text that passes through them.
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    let ours = starts_as(bytes, format);
    let refuse = |which| match (ours, which) {
        (false, _) => Refusal::NotOurs,
        (true, Err(())) => Refusal::CutOff,
        (true, Ok(at)) => broken(RuleBroken::NotJson, Spot::Byte(at)),
    };
    let text = std::str::from_utf8(bytes).map_err(|error| match error.error_len() {
        None => refuse(Err(())),
        Some(_) => refuse(Ok(error.valid_up_to())),
    })?;
    Fields::parse(text).map_err(|error| match error {
        RecordError::CutOff => refuse(Err(())),
        RecordError::NotAnObject { at } => refuse(Ok(at)),
        _ => broken(RuleBroken::Shape, Spot::Part("file")),
    })
}

/// Whether the first bytes are those of a document of this format, as far as there are any.
fn starts_as(bytes: &[u8], format: &str) -> bool {
    let start = format!("{{\"format\":{}", quoted(format));
    let mut solid = bytes.iter().filter(|byte| !byte.is_ascii_whitespace());
    start.bytes().all(|expected| solid.next().is_none_or(|byte| *byte == expected))
}

/// A text of the header, under the rule for names.
pub(super) fn header_name(text: &str) -> Result<(), Refusal> {
    name_broken(text).map_or(Ok(()), |which| Err(broken(which, Spot::Part("written"))))
}
