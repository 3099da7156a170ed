//! Practices read, packed, summarised. A block holds this phone's own entries; a summary counts those and the accepted parcels'.

use super::doing::{Change, Done, Found, loose, taken_in};
use super::{Answer, removal};
use crate::app::words;
use crate::domain::entry::Entry;
use crate::domain::ids::{EntryId, PracticeId, RunId};
use crate::domain::log::Log;
use crate::domain::replay::base::{Base, Practice};
use crate::domain::replay::run::RunState;
use crate::domain::same::Same;
use crate::domain::summary::PracticeSummary;
use crate::domain::together;
use crate::wire::{block, record, summary};

/// How a damaged parcel is called where the app shows it, as it does at the start.
pub const PARCEL: &str = "parcel";

pub fn read(key: &str, found: &Found) -> Done {
    let own = match block_of(found) {
        Ok(own) => own,
        Err(why) => return Done::said(Answer::Damaged(why)),
    };
    let parcels = taken_in(found, None);
    let loose = loose(found).entries;
    let mut all = Log::default();
    all.know(&removal::known(&loose, found));
    all.extend(own.iter().cloned().chain(loose).chain(parcels.entries.iter().cloned()));
    let practice = practice_id(key).and_then(|id| Base::fold(all.iter()).practice(id));
    let holds = |e: &&Entry| practice.as_ref().is_some_and(|p| p.holds(e));
    let theirs = all.removed().emptied_all(parcels.entries.clone());
    let theirs: Vec<Entry> = theirs.into_iter().filter(|e| all.get(e.id) == Some(e)).collect();
    Done::said(Answer::Read {
        theirs: theirs.iter().filter(holds).map(record::encode).collect(),
        own: all.removed().emptied_all(own).iter().map(record::encode).collect(),
        damaged: parcels.lines(PARCEL),
    })
}

pub fn pack(key: &str, wanted: &[String], same: &Same, found: &Found) -> Done {
    let mut own: Log = match block_of(found) {
        Ok(own) => own.into_iter().collect(),
        Err(why) => return Done::said(Answer::Damaged(why)),
    };
    own.know(&removal::known(&loose(found).entries, found));
    let mut removed = Vec::new();
    for id in wanted {
        let there = found.entries.iter().find(|(key, _)| key == id).map(|(_, text)| text);
        match there.and_then(|text| text.as_ref().ok()).and_then(|text| record::decode(text).ok()) {
            Some(entry) => {
                own.add(entry);
                removed.push(id.clone());
            }
            // Another window has packed it already.
            None if EntryId::from_text(id).is_some_and(|id| own.get(id).is_some()) => removed.push(id.clone()),
            None => return Done::refused(words::work::NOT_PACKED.to_owned()),
        }
    }
    if !own.aside().is_empty() {
        return Done::refused(words::work::NOT_PACKED.to_owned());
    }
    let parcels = taken_in(found, None);
    let mut all = own.clone();
    all.extend(loose(found).entries.into_iter().chain(parcels.entries.iter().cloned()));
    let summary = summary_text(key, &all, &own, same);
    let change = Change {
        as_read: as_read([key], found),
        blocks: vec![(key.to_owned(), block::pack(own.iter()))],
        summaries: summary.iter().map(|text| (key.to_owned(), text.clone())).collect(),
        remove_entries: removed.clone(),
        ..Change::default()
    };
    let answer = Answer::Packed { removed, summary, damaged: parcels.lines(PARCEL) };
    Done { answer, change: Some(change), file: None }
}

pub fn summarise(key: &str, same: &Same, found: &Found) -> Done {
    let own = match block_of(found) {
        Ok(own) => own,
        Err(why) => return Done::said(Answer::Damaged(why)),
    };
    let mut own: Log = own.into_iter().collect();
    own.know(&removal::known(&loose(found).entries, found));
    let parcels = taken_in(found, None);
    let mut all = own.clone();
    all.extend(loose(found).entries.into_iter().chain(parcels.entries.iter().cloned()));
    let summary = summary_text(key, &all, &own, same);
    let change = Change {
        as_read: as_read([key], found),
        summaries: summary.iter().map(|text| (key.to_owned(), text.clone())).collect(),
        ..Change::default()
    };
    let answer = Answer::Summarised { summary, damaged: parcels.lines(PARCEL) };
    Done { answer, change: Some(change), file: None }
}

/// The blocks of these practices as they were found. A summary is true of these alone: what another window packs meanwhile would
/// be missing from it for good.
pub fn as_read<'a>(keys: impl IntoIterator<Item = &'a str>, found: &Found) -> Vec<(String, Option<Vec<u8>>)> {
    let block = |key: &str| {
        let there = found.blocks.iter().find(|(found, _)| found == key);
        (key.to_owned(), there.and_then(|(_, bytes)| bytes.clone().ok()))
    };
    keys.into_iter().map(block).collect()
}

pub fn practice_id(key: &str) -> Option<PracticeId> {
    EntryId::from_text(key).map(PracticeId)
}

/// The summary of a practice among these entries, some of them this phone's own; `None` without its start.
fn summary_text(key: &str, all: &Log, own: &Log, same: &Same) -> Option<String> {
    let practice = Base::fold(all.iter()).under(same.clone()).practice(practice_id(key)?)?;
    Some(summary::encode(&summarised(&practice, all.iter(), own, same)))
}

/// A practice folded from entries that may hold more than it.
pub fn summarised<'a>(
    practice: &Practice,
    all: impl Iterator<Item = &'a Entry>,
    own: &Log,
    same: &Same,
) -> PracticeSummary {
    let kept: Vec<&Entry> = all.collect();
    let folded = folded(practice, kept.iter().copied(), same);
    let base = Base::fold(kept.iter().copied()).under(same.clone());
    let (plan, remarks) = (base.plan_done(practice.id), base.remarks_of(practice));
    let rounds = together::rounds(practice, same, kept.into_iter());
    PracticeSummary::of(practice, folded.iter())
        .with_same(same.clone())
        .with_rounds(rounds)
        .with_plan(plan)
        .with_remarks(remarks)
        .with_clocks(own.iter().filter(|e| practice.holds(e)))
}

/// Its runs, from entries that may hold more than it, read under those who stay.
pub fn folded<'a>(practice: &Practice, all: impl Iterator<Item = &'a Entry>, same: &Same) -> Vec<RunState> {
    let mut runs: std::collections::BTreeMap<RunId, Vec<Entry>> = std::collections::BTreeMap::new();
    for entry in all {
        if let Some(run) = entry.fact.run(entry.id).filter(|run| practice.runs.contains(run)) {
            runs.entry(run).or_default().push(same.read(entry.clone()));
        }
    }
    practice.runs.iter().filter_map(|run| RunState::fold(runs.remove(run).unwrap_or_default())).collect()
}

/// The entries of the one block that was asked for; none where there is no block.
fn block_of(found: &Found) -> Result<Vec<Entry>, String> {
    match found.blocks.first() {
        None => Ok(Vec::new()),
        Some((_, Ok(bytes))) => block::unpack(bytes).map_err(|refusal| words::trouble::refusal(&refusal)),
        Some((_, Err(instead))) => Err(instead.clone()),
    }
}

/// The practice that an entry belongs to; the last one's is looked at first, for entries of one practice mostly stand together.
pub fn practice_of<'a>(entry: &Entry, practices: &'a [Practice], last: Option<&'a Practice>) -> Option<&'a Practice> {
    last.filter(|practice| practice.holds(entry)).or_else(|| practices.iter().find(|practice| practice.holds(entry)))
}
