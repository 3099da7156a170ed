//! What a file would change, told before anything changes: what of it is new and what is here, by practice, by phone, by child; and what
//! both sides changed. Stores nothing and decides nothing: whatever would count is asked of the fold.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::practices::practice_of;
use crate::app::names::Names;
use crate::app::phones::{named, opening};
use crate::app::words::{self, counts, merging};
use crate::domain::entry::{Entry, Fact};
use crate::domain::ids::{PlayerId, PracticeId, SeriesId};
use crate::domain::log::Log;
use crate::domain::phones::Phones;
use crate::domain::replay::amend::Amended;
use crate::domain::replay::base::{Base, Practice};
use crate::domain::skill::Outcome;

mod differs;

/// The whole of it, in sentences.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Preview {
    /// Whom it removes for good, in a sentence: no other word of it is as grave.
    #[serde(default)]
    pub removes: Option<String>,
    /// "44 contacts of 2 practices that are not here."
    pub lead: String,
    /// What else: children, drills, notes; what is here already.
    pub lines: Vec<String>,
    pub practices: Vec<Line>,
    pub phones: Vec<Line>,
    pub children: Vec<Line>,
    /// What both sides changed, and what will count.
    pub differs: Vec<String>,
    pub nothing_new: bool,
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Line {
    pub name: String,
    pub what: String,
}

/// Counted, and not taken back.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Amount {
    pub contacts: usize,
    /// Balls whose count was told.
    pub told: usize,
    pub rallies: usize,
}

impl Amount {
    pub fn is_none(self) -> bool {
        self == Amount::default()
    }

    fn note(&mut self, fact: &Fact) {
        match fact {
            // Of a child that was removed: it counts nothing.
            Fact::ContactNoted { contact, .. } => self.contacts += usize::from(contact.outcome != Outcome::Removed),
            Fact::CountTold { of, .. } => self.told += usize::from(*of),
            Fact::RallyNoted { .. } => self.rallies += 1,
            _ => {}
        }
    }
}

/// New in the file, and here already.
#[derive(Clone, Copy, Debug, Default)]
struct Both {
    new: Amount,
    here: Amount,
}

impl Both {
    fn note(&mut self, is_new: bool, fact: &Fact) {
        if is_new { &mut self.new } else { &mut self.here }.note(fact);
    }
}

/// So many of what both sides changed are told one by one.
const MOST_DIFFERING: usize = 12;

/// `here`: all that is known on this phone. `own`: which of its series are its own.
pub fn preview(copy: &[Entry], here: &Log, own: &Log) -> Preview {
    let mut everything = here.clone();
    everything.extend(copy.iter().cloned());
    let base = Base::fold(everything.iter());
    let practices = base.practices();
    let amended = Amended::resolve(everything.iter());
    let names = Names::with_own_first(base.players(), |player| own.get(player.0).is_some());
    let called = |player: PlayerId| names.of_child(base.same().of(player)).unwrap_or(words::UNKNOWN_CHILD).to_owned();

    let mut seen = Seen::default();
    let mut last: Option<&Practice> = None;
    for entry in copy {
        let is_new = here.get(entry.id).is_none();
        last = practice_of(entry, &practices, last);
        seen.note(entry, is_new, last.map(|practice| practice.id), &base, &amended);
    }
    let new = seen.practices.values().fold(Amount::default(), |sum, both| plus(sum, both.new));
    let is_here = |practice: &Practice| here.get(practice.id.0).is_some();
    let with_new = practices.iter().filter(|p| seen.practices.get(&p.id).is_some_and(|both| !both.new.is_none()));
    let mut differs = differs::differing(
        copy,
        here,
        &differs::Told { base: &base, practices: &practices, amended: &amended, called: &called },
    );
    let n_more = differs.len().saturating_sub(MOST_DIFFERING);
    differs.truncate(MOST_DIFFERING);
    differs.extend((n_more > 0).then(|| merging::more_differ(n_more)));
    let n_other_content = copy.iter().filter(|e| here.get(e.id).is_some_and(|known| known != *e)).count();
    differs.extend((n_other_content > 0).then(|| merging::other_content(n_other_content)));

    let of_practice = |practice: &Practice| {
        let both = seen.practices.get(&practice.id)?;
        let drills = drills(practice, copy, &everything);
        Some(Line {
            name: counts::when_ever(practice.started),
            what: merging::practice(&drills, both.new, both.here, is_here(practice)),
        })
    };
    let phones_known = Phones::of(everything.iter());
    let opened = |series: SeriesId| device(&phones_known, own, series);
    let mut phones: Vec<(Option<String>, Both)> = Vec::new();
    for (series, both) in &seen.phones {
        let name = opened(*series);
        match phones.iter_mut().find(|(known, _)| *known == name) {
            Some((_, sum)) => *sum = Both { new: plus(sum.new, both.new), here: plus(sum.here, both.here) },
            None => phones.push((name, *both)),
        }
    }
    let of_phone = |(name, both): (Option<String>, Both)| Line {
        name: name.unwrap_or_else(|| merging::THIS_PHONE.to_owned()),
        what: merging::amounts(both.new, both.here),
    };
    let of_child = |player: crate::domain::replay::base::Player| {
        let both = seen.children.get(&player.id).copied();
        let is_new = base.same().all(player.id).all(|id| here.get(id.0).is_none());
        let in_copy = both.is_some() || is_new && seen.n_children > 0;
        let both = both.unwrap_or_default();
        in_copy.then(|| Line { name: called(player.id), what: merging::child(both.new, both.here, is_new) })
    };
    let n_new = copy.iter().filter(|entry| here.get(entry.id).is_none()).count();
    Preview {
        removes: None,
        lead: merging::lead(new, with_new.count(), n_new),
        lines: merging::besides(&seen.besides, copy.len() - n_new),
        practices: practices.iter().filter_map(of_practice).collect(),
        phones: phones.into_iter().map(of_phone).collect(),
        children: base.players().into_iter().filter_map(of_child).collect(),
        differs,
        nothing_new: n_new == 0,
    }
}

/// New things that aren't counted.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Besides {
    pub children: usize,
    pub drills: usize,
    pub notes: usize,
    pub plans: usize,
    pub dates: usize,
    pub efforts: usize,
    pub corrections: usize,
    /// Children who were said to be one, or two.
    pub pairs: usize,
    /// The same of practices.
    pub practice_pairs: usize,
    /// Kinds of entries that this version doesn't know.
    pub unknown: usize,
}

#[derive(Default)]
struct Seen {
    practices: BTreeMap<PracticeId, Both>,
    phones: BTreeMap<SeriesId, Both>,
    children: BTreeMap<PlayerId, Both>,
    n_children: usize,
    besides: Besides,
}

impl Seen {
    fn note(&mut self, entry: &Entry, is_new: bool, practice: Option<PracticeId>, base: &Base, amended: &Amended) {
        let fact = &entry.fact;
        self.n_children += usize::from(is_new && matches!(fact, Fact::PlayerAdded { .. }));
        if is_new {
            self.beside(fact);
        }
        if let (Some(practice), true) = (practice, matches!(fact, Fact::PracticeStarted { .. })) {
            self.practices.entry(practice).or_default();
        }
        if !fact.is_counted() || amended.is_taken_back(entry.id) {
            return;
        }
        if let Some(practice) = practice {
            self.practices.entry(practice).or_default().note(is_new, fact);
        }
        self.phones.entry(entry.id.series).or_default().note(is_new, fact);
        let player = match fact {
            Fact::ContactNoted { contact, .. } => {
                amended.contact(crate::domain::ids::ContactId(entry.id)).map_or(contact.player, |fix| fix.player)
            }
            Fact::CountTold { player, .. } => Some(*player),
            _ => None,
        };
        if let Some(player) = player {
            self.children.entry(base.same().of(player)).or_default().note(is_new, fact);
        }
    }

    fn beside(&mut self, fact: &Fact) {
        let count = match fact {
            Fact::PlayerAdded { .. } => &mut self.besides.children,
            Fact::DrillAdded { .. } => &mut self.besides.drills,
            Fact::NoteWritten { .. } | Fact::QuestionAsked { .. } => &mut self.besides.notes,
            Fact::PlanMade { .. } => &mut self.besides.plans,
            Fact::DateSet { .. } => &mut self.besides.dates,
            Fact::EffortNoted { .. } => &mut self.besides.efforts,
            Fact::ContactsCorrected { .. }
            | Fact::RallyCorrected { .. }
            | Fact::EffortCorrected { .. }
            | Fact::EntryTakenBack { .. } => &mut self.besides.corrections,
            Fact::ChildrenJoined { .. } | Fact::ChildrenToldApart { .. } => &mut self.besides.pairs,
            Fact::PracticesJoined { .. } | Fact::PracticesToldApart { .. } => &mut self.besides.practice_pairs,
            Fact::Unknown { .. } => &mut self.besides.unknown,
            _ => return,
        };
        *count += 1;
    }
}

fn plus(a: Amount, b: Amount) -> Amount {
    Amount { contacts: a.contacts + b.contacts, told: a.told + b.told, rallies: a.rallies + b.rallies }
}

/// The drills of a practice that the file speaks of, each once, in their order.
fn drills(practice: &Practice, copy: &[Entry], all: &Log) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for run in &practice.runs {
        if copy.binary_search_by(|entry| entry.id.cmp(&run.0)).is_err() {
            continue;
        }
        if let Some(Fact::RunStarted { spec, .. }) = all.get(run.0).map(|entry| &entry.fact)
            && !names.contains(&spec.name)
        {
            names.push(spec.name.clone());
        }
    }
    names
}

/// The phone that wrote a series; `None`: this one.
fn device(phones: &Phones, own: &Log, series: SeriesId) -> Option<String> {
    if own.get(opening(series)).is_some() {
        return None;
    }
    Some(named(phones, series).map_or_else(|| merging::NO_NAME.to_owned(), str::to_owned))
}
