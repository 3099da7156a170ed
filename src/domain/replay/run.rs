//! One run: the main line of its writers, and beside it what others wrote at the same time. Shown side by side, never
//! interleaved.

use std::collections::BTreeMap;
use std::collections::btree_map::Entry::Vacant;

use super::super::drill::DrillSpec;
use super::super::entry::{Entry, Fact, Lineup};
use super::super::ids::{DrillId, EntryId, EntryNo, PlayerId, PracticeId, Round, RunId, SeriesId};
use super::super::scoring::match_game::decided_by;
use super::super::skill::Outcome;
use super::super::summary::Counts;
use super::super::time::Stamp;
use super::amend::Amended;
use super::line::{GoneOn, MainLine};
use super::part::Part;
use super::places::{Swaps, reached};

/// A run folded from its entries.
#[derive(Clone, Debug, PartialEq)]
pub struct RunState {
    pub id: RunId,
    pub practice: PracticeId,
    pub spec: DrillSpec,
    pub drill: Option<DrillId>,
    pub started: Stamp,
    /// The series that may go on writing.
    pub writer: SeriesId,
    pub main: Part,
    /// What other pages wrote after somebody else had gone on. Each begins as the run began; a page that counted
    /// nothing is left out.
    pub beside: Vec<(SeriesId, Part)>,
    pub amended: Amended,
    opening: Lineup,
    /// By identity: a writer's own numbers are its order in time, whatever became of the clocks.
    entries: BTreeMap<EntryId, Entry>,
    line: MainLine,
    /// The earliest round whose swap waits in the main line for the round to be over.
    void: Option<Round>,
}

impl RunState {
    /// Folds a run from its entries in any order. `None` without its `RunStarted`.
    pub fn fold(entries: Vec<Entry>) -> Option<RunState> {
        let mut by_id = BTreeMap::new();
        for entry in entries {
            by_id.entry(entry.id).or_insert(entry);
        }
        let (start, practice, drill, spec, opening) = by_id.values().find_map(|e| match &e.fact {
            Fact::RunStarted { practice, drill, spec, lineup, .. } => {
                Some((e, *practice, *drill, spec.clone(), lineup.clone()))
            }
            _ => None,
        })?;
        let id = RunId(start.id);
        let mut run = RunState {
            id,
            practice,
            drill,
            started: start.at,
            writer: id.0.series,
            main: Part::new(&spec, opening.clone()),
            beside: Vec::new(),
            amended: Amended::default(),
            line: MainLine::find(id, std::iter::empty()),
            void: None,
            spec,
            opening,
            entries: by_id,
        };
        run.fold_again();
        Some(run)
    }

    /// Takes in one more entry of this run: totals advance by it where they can, else this one run is folded again. The
    /// writer's next contact costs the same however many there are.
    pub fn note(&mut self, entry: Entry) {
        let plain = !matches!(
            entry.fact,
            Fact::EntryTakenBack { .. }
                | Fact::ContactsCorrected { .. }
                | Fact::EffortCorrected { .. }
                | Fact::RallyCorrected { .. }
                | Fact::RunTakenOver { .. }
                | Fact::RunStarted { .. }
        );
        if plain && self.line.now().holds(entry.id) && entry.id > self.last_seen() {
            if !self.amended.is_taken_back(entry.id) {
                let swaps = Swaps { entries: &self.entries, amended: &self.amended, spec: &self.spec };
                let reached = reached(&self.main);
                let early = swaps.advance(&mut self.main, &entry, reached);
                self.void = [self.void, early].into_iter().flatten().min();
            }
            self.entries.insert(entry.id, entry);
            if self.void.is_some_and(|round| round < reached(&self.main)) {
                self.fold_again();
            }
        } else if let Vacant(free) = self.entries.entry(entry.id) {
            free.insert(entry);
            self.fold_again();
        }
    }

    /// Every entry of the run, in the order of identity.
    pub fn entries(&self) -> impl Iterator<Item = &Entry> {
        self.entries.values()
    }

    pub fn entry(&self, id: EntryId) -> Option<&Entry> {
        self.entries.get(&id)
    }

    /// The last entry of the main line: what one who goes on has seen.
    pub fn last_seen(&self) -> EntryId {
        self.entries.range(self.line.now().ids()).next_back().map_or(self.id.0, |(id, _)| *id)
    }

    /// The main line from its end, the latest first.
    pub fn lately(&self) -> impl Iterator<Item = &Entry> {
        let stretches = self.line.stretches().iter().rev();
        stretches.flat_map(|stretch| self.entries.range(stretch.ids()).rev()).map(|(_, entry)| entry)
    }

    /// What undo would take back, if anything.
    pub fn next_undo(&self) -> Option<&Entry> {
        self.entries.get(self.main.undoable.last()?)
    }

    /// The serve that decided this rally and was noted with it by one tap: they go back together.
    pub fn serve_with(&self, entry: &Entry) -> Option<&Entry> {
        let Fact::RallyNoted { rally, .. } = &entry.fact else { return None };
        let serve = self.entries.get(&EntryId { no: EntryNo(entry.id.no.0.checked_sub(1)?), ..entry.id })?;
        let Fact::ContactNoted { contact, .. } = &serve.fact else { return None };
        let Outcome::Serve { outcome, .. } = contact.outcome else { return None };
        let decided = decided_by(outcome, rally.served) == Some(rally.won);
        (decided && serve.at == entry.at && !self.amended.is_taken_back(serve.id)).then_some(serve)
    }

    /// Main line first, then what stands beside it.
    pub fn parts(&self) -> impl Iterator<Item = &Part> {
        std::iter::once(&self.main).chain(self.beside.iter().map(|(_, part)| part))
    }

    /// Everyone who stood in it at any time: those who are here now in their order, then those who have gone since.
    pub fn everyone(&self) -> Vec<PlayerId> {
        let mut all: Vec<PlayerId> = self.main.lineup.everyone().collect();
        let stood = self.entries.values().filter_map(|e| match &e.fact {
            Fact::RunStarted { lineup, .. } | Fact::LineupSet { lineup, .. } => Some(lineup.everyone()),
            _ => None,
        });
        for player in stood.flatten() {
            if !all.contains(&player) {
                all.push(player);
            }
        }
        all
    }

    /// What was counted in all that stands beside the main line.
    pub fn counted_beside(&self) -> Counts {
        self.beside.iter().map(|(_, part)| Counts::of(&part.everyone)).fold(Counts::default(), |a, b| a + b)
    }

    /// Rallies among it.
    pub fn rallies_beside(&self) -> u32 {
        u32::try_from(self.beside.iter().map(|(_, part)| part.rallies.len()).sum::<usize>()).unwrap_or(u32::MAX)
    }

    /// A match's serves and passes among it: no tries, so the counts don't hold them.
    pub fn noted_beside(&self) -> u32 {
        let of_matches = self.beside.iter().filter(|(_, part)| part.score.match_game().is_some());
        u32::try_from(of_matches.map(|(_, part)| part.contacts.len()).sum::<usize>()).unwrap_or(u32::MAX)
    }

    fn fold_again(&mut self) {
        self.amended = Amended::resolve(self.entries.values());
        self.line = MainLine::find(
            self.id,
            self.entries.values().filter_map(|e| match e.fact {
                Fact::RunTakenOver { after, .. } => Some(GoneOn { order: e.order(), after }),
                _ => None,
            }),
        );
        self.writer = self.line.now().series;
        let swaps = Swaps { entries: &self.entries, amended: &self.amended, spec: &self.spec };
        let stretches = self.line.stretches().iter();
        let main = stretches.flat_map(|stretch| self.entries.range(stretch.ids())).map(|(_, entry)| entry);
        (self.main, self.void) = swaps.fold(self.opening.clone(), main);
        self.fold_beside();
    }

    fn fold_beside(&mut self) {
        let swaps = Swaps { entries: &self.entries, amended: &self.amended, spec: &self.spec };
        let mut by_series: Vec<(SeriesId, Vec<&Entry>)> = Vec::new();
        for entry in self.entries.values().filter(|e| !self.line.holds(e.id)) {
            match by_series.last_mut() {
                Some((series, entries)) if *series == entry.id.series => entries.push(entry),
                _ => by_series.push((entry.id.series, vec![entry])),
            }
        }
        let part = |entries: Vec<&Entry>| swaps.fold(self.opening.clone(), entries.into_iter()).0;
        self.beside = by_series.into_iter().map(|(series, entries)| (series, part(entries))).collect();
        self.beside.retain(|(_, part)| part.counts_something());
    }
}
