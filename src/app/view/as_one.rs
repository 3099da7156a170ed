//! Practices that may be one, pair by pair; what was said of such pairs; and which others a practice may be.

use super::super::as_one::{Begun, MayBeOne, Phone, may_be_one, others, phone};
use super::super::model::Model;
use super::super::practices::Practices;
use super::super::words::{as_one as words_of, counts, report};
use crate::domain::ids::{EntryId, PracticeId};
use crate::domain::replay::joined::Pair;
use crate::domain::summary::PracticeSummary;

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AsOneView {
    /// Of which practice, where it is of one.
    pub of: Option<String>,
    pub lead: Option<&'static str>,
    pub asks: Vec<AskView>,
    /// Which other practice this is, by hand.
    pub by_hand: Option<ByHand>,
    pub joined: Vec<SaidRow>,
    pub apart: Vec<SaidRow>,
}

/// Are these two one?
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AskView {
    pub one: SideView,
    pub other: SideView,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SideView {
    pub practice: PracticeId,
    /// "Tuesday 24 November, 18:02"
    pub when: String,
    /// "On Ana’s phone"
    pub phone: String,
    /// "3 drills, 214 contacts"
    pub what: String,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ByHand {
    pub of: PracticeId,
    /// The nearest in time first.
    pub others: Vec<SideView>,
    /// Why there is none.
    pub none: Option<&'static str>,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SaidRow {
    pub id: EntryId,
    /// "Tuesday 24 November"
    pub day: String,
    /// "On this phone from 18:02", "On Ana’s phone from 18:05"
    pub lines: [String; 2],
}

/// Of all practices, or of this one and its others.
pub fn as_one(model: &Model, of: Option<PracticeId>) -> AsOneView {
    let of = of.map(|id| model.read_under(id));
    let all = Practices::of(model);
    let all = all.latest_first();
    let side = |begun: &Begun| side(model, begun, all.iter().copied().find(|p| p.practice == begun.practice));
    let ask = |MayBeOne { one, other }: MayBeOne| AskView { one: side(&one), other: side(&other) };
    let is_of = |ask: &MayBeOne| of.is_none_or(|id| [ask.one.practice, ask.other.practice].contains(&id));
    let asks: Vec<AskView> = may_be_one(model).into_iter().filter(is_of).map(ask).collect();
    let members = of.map(|id| model.base.as_one().set(id));
    let concerns = |pair: &Pair<PracticeId>| {
        let is_it = |id: PracticeId| members.is_none_or(|set| set.contains(&id)) || of == Some(id);
        is_it(pair.one) || is_it(pair.other)
    };
    let pairs = model.base.practice_pairs().into_iter().filter(concerns);
    let (joined, apart): (Vec<_>, Vec<_>) = pairs.partition(|pair| pair.joined);
    let this = of.and_then(|id| all.iter().copied().find(|p| p.practice == id));
    AsOneView {
        of: this.map(|practice| {
            let SideView { when, phone, what, .. } = side(&Begun { practice: practice.practice, at: practice.started });
            words_of::this_one(&when, &phone, &what)
        }),
        lead: match (asks.is_empty(), of) {
            (false, _) => Some(words_of::LEAD),
            (true, None) if joined.is_empty() && apart.is_empty() => Some(words_of::NONE),
            (true, _) => None,
        },
        asks,
        by_hand: this.and_then(|practice| {
            let id = practice.practice;
            let others: Vec<SideView> = others(model, id).iter().map(side).collect();
            let none = match others.is_empty() {
                _ if model.goes_on(id) => Some(words_of::GOES_ON),
                true => Some(words_of::NO_OTHER),
                false => None,
            };
            // All there are is read as one already: nothing is left to say.
            let done = others.is_empty() && !joined.is_empty();
            let others = if none.is_none() { others } else { Vec::new() };
            (!done).then_some(ByHand { of: id, others, none })
        }),
        joined: joined.iter().filter_map(|pair| said(model, pair)).collect(),
        apart: apart.iter().filter_map(|pair| said(model, pair)).collect(),
    }
}

fn said(model: &Model, pair: &Pair<PracticeId>) -> Option<SaidRow> {
    let (one, other) = (begun(model, pair.one)?, begun(model, pair.other)?);
    let line = |begun: Begun| {
        let phone = phone_words(model, begun.practice);
        match begun.at.day() == one.at.day() {
            true => words_of::from(&phone, &counts::time(begun.at)),
            false => words_of::on(&phone, &counts::when(begun.at, model.now)),
        }
    };
    Some(SaidRow { id: pair.id, day: counts::day(one.at.day(), model.now.day()), lines: [line(one), line(other)] })
}

/// "Two practices may be one", where any may.
pub fn waiting(model: &Model) -> Option<String> {
    let n = may_be_one(model).len();
    (n > 0).then(|| words_of::waiting(n))
}

/// The way from the list of all practices: a pair that is asked about, or something that was said.
pub fn row(model: &Model) -> Option<String> {
    let said = || (!model.base.practice_pairs().is_empty()).then(|| words_of::SAID_BEFORE.to_owned());
    waiting(model).or_else(said)
}

/// The way from a practice that is over, where there is any other.
pub fn way(model: &Model, practice: PracticeId) -> Option<String> {
    let is_of = |pair: &MayBeOne| [pair.one.practice, pair.other.practice].contains(&practice);
    let n = may_be_one(model).iter().filter(|pair| is_of(pair)).count();
    if n > 0 {
        return Some(words_of::waiting(n));
    }
    if model.one_with(practice).len() > 1 {
        return Some(words_of::READ_AS_ONE.to_owned());
    }
    let there = !model.goes_on(practice) && !others(model, practice).is_empty();
    there.then(|| words_of::OTHER_STATION.to_owned())
}

/// "On this phone from 18:02; on Ana’s phone from 18:05." of those that are one.
pub fn phones(model: &Model, all: &[PracticeId]) -> Option<String> {
    let of_one = begun(model, *all.first()?)?.at.day();
    let from = |id: &PracticeId| {
        let begun = begun(model, *id)?;
        let phone = phone_words(model, *id);
        Some(match begun.at.day() == of_one {
            true => words_of::from(&phone, &counts::time(begun.at)),
            false => words_of::on(&phone, &counts::when(begun.at, model.now)),
        })
    };
    (all.len() > 1).then(|| words_of::phones(&all.iter().filter_map(from).collect::<Vec<_>>()))
}

fn side(model: &Model, begun: &Begun, practice: Option<&PracticeSummary>) -> SideView {
    let what = practice.map_or_else(String::new, |practice| {
        let n_contacts = practice.runs.iter().map(|run| run.n_contacts as usize).sum();
        let n_told = practice.runs.iter().filter(|run| run.everyone.told.tries() > 0).count();
        report::practice_line(practice.runs.len(), n_contacts, practice.n_rallies(), n_told, 0)
    });
    let mut phones: Vec<String> = Vec::new();
    for phone in model.one_with(begun.practice).into_iter().map(|id| phone_words(model, id)) {
        if !phones.contains(&phone) {
            phones.push(phone);
        }
    }
    SideView {
        practice: begun.practice,
        when: counts::when(begun.at, model.now),
        phone: words_of::phones_of_one(&phones),
        what,
    }
}

/// As it was begun, wherever it lies.
fn begun(model: &Model, practice: PracticeId) -> Option<Begun> {
    let known = || model.base.practice(practice).map(|known| known.started);
    let at = model.packed.get(&practice).map(|packed| packed.summary.started).or_else(known)?;
    Some(Begun { practice, at })
}

fn phone_words(model: &Model, practice: PracticeId) -> String {
    match phone(model, practice) {
        Phone::This => words_of::THIS_PHONE.to_owned(),
        Phone::Named(name) => words_of::on_phone(&name),
        Phone::Other => words_of::ANOTHER_PHONE.to_owned(),
    }
}
