//! Which phone counted what, in words: this one, one by its name, or plainly another.

use super::model::Model;
use super::words;
use crate::domain::entry::Fact;
use crate::domain::ids::{EntryId, EntryNo, RunId, SeriesId};
use crate::domain::phones::Phones;

/// The entry that opens a series.
pub const fn opening(series: SeriesId) -> EntryId {
    EntryId { series, no: EntryNo(0) }
}

/// As the phone that wrote it calls itself; `None` where that is no name.
pub fn named(phones: &Phones, series: SeriesId) -> Option<&str> {
    phones.name(series).filter(|name| *name != words::THIS_PHONE)
}

/// Of the runs of one practice, in their order, each with the phone that counted it: said where there was more than one.
pub fn counted_on(model: &Model, runs: &[RunId]) -> Vec<Option<String>> {
    let phones = Phones::of(model.own.iter().chain(model.theirs.iter()));
    let is_here = |series: SeriesId| model.own.get(opening(series)).is_some();
    let mut known: Vec<(Seen, String)> = Vec::new();
    let mut n_nameless = 0;
    let mut said = Vec::new();
    for run in runs {
        let series = run.0.series;
        let seen = match named(&phones, series) {
            _ if is_here(series) => Seen::Here,
            Some(name) => Seen::Named(name.to_owned()),
            None => Seen::Nameless(phones.phone(series)),
        };
        let text = match known.iter().find(|(had, _)| *had == seen) {
            Some((_, text)) => text.clone(),
            None => {
                let text = match &seen {
                    Seen::Here => words::report::COUNTED_HERE.to_owned(),
                    Seen::Named(name) => words::report::counted_on(name),
                    Seen::Nameless(_) => {
                        n_nameless += 1;
                        words::report::counted_on(&words::other_phone(n_nameless))
                    }
                };
                known.push((seen, text.clone()));
                text
            }
        };
        said.push(text);
    }
    let several = known.len() > 1;
    said.into_iter().map(|text| several.then_some(text)).collect()
}

/// One phone: two of one name are one, as far as can be told.
#[derive(PartialEq)]
enum Seen {
    Here,
    Named(String),
    Nameless(SeriesId),
}

/// What is to be written so that a copy tells what this phone is called, and which of its series are one phone's; nothing where that is told.
pub fn to_tell(model: &Model) -> Option<Fact> {
    let phones = Phones::of(model.own.iter());
    let named_here = |series: &SeriesId| named(&phones, *series).unwrap_or_default();
    let all = || {
        let opened = model.own.iter().filter(|e| matches!(e.fact, Fact::SeriesOpened { .. }) && e.id.no == EntryNo(0));
        opened.map(|entry| entry.id.series)
    };
    let first = all().next()?;
    // Who calls it "this phone" gives it no name.
    let name = Some(model.settings.device_name.trim()).filter(|name| *name != words::THIS_PHONE).unwrap_or_default();
    // Phones of one name are taken for one; without a name they have to say it.
    let is_told = |series: &SeriesId| {
        named_here(series) == name && (!name.is_empty() || phones.phone(*series) == phones.phone(first))
    };
    let missing: Vec<SeriesId> = all().filter(|series| !is_told(series)).collect();
    if missing.is_empty() {
        return None;
    }
    let anchor = (name.is_empty() && !missing.contains(&first)).then_some(first);
    let revision = model.own.iter().filter_map(|entry| match &entry.fact {
        Fact::PhoneNamed { revision, .. } => Some(revision.0),
        _ => None,
    });
    Some(Fact::PhoneNamed {
        revision: crate::domain::ids::Revision(revision.max().map_or(0, |highest| highest.saturating_add(1))),
        name: name.to_owned(),
        opened: anchor.into_iter().chain(missing).map(opening).collect(),
    })
}
