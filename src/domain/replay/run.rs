//! One run: the main line of its writers, and beside it what others wrote at the same time. Shown side by side, never
//! interleaved.

use super::super::drill::DrillSpec;
use super::super::entry::{Entry, Fact, Lineup};
use super::super::ids::{EntryId, EntryNo, PracticeId, RunId, SeriesId};
use super::super::log::Order;
use super::super::time::Stamp;
use super::amend::Amended;
use super::part::Part;

/// A run folded from its entries.
#[derive(Clone, Debug, PartialEq)]
pub struct RunState {
    pub id: RunId,
    pub practice: PracticeId,
    pub spec: DrillSpec,
    pub drill: Option<super::super::ids::DrillId>,
    pub started: Stamp,
    /// The series that may go on writing.
    pub writer: SeriesId,
    pub main: Part,
    /// What other pages wrote after somebody else had gone on.
    pub beside: Vec<(SeriesId, Part)>,
    pub amended: Amended,
    opening: Lineup,
    entries: Vec<Entry>,
    segments: Vec<Segment>,
    last: Option<Order>,
}

/// A stretch of the main line by one writer: numbers after `from`, up to and with `to`.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Segment {
    series: SeriesId,
    from: EntryNo,
    to: Option<EntryNo>,
}

impl RunState {
    /// Folds a run from its entries in any order. `None` without its `RunStarted`.
    pub fn fold(entries: Vec<Entry>) -> Option<RunState> {
        let start = entries.iter().find(|e| matches!(e.fact, Fact::RunStarted { .. }))?;
        let Fact::RunStarted { practice, drill, spec, lineup, .. } = &start.fact else { return None };
        let mut run = RunState {
            id: RunId(start.id),
            practice: *practice,
            spec: spec.clone(),
            drill: *drill,
            started: start.at,
            writer: start.id.series,
            main: Part::new(spec, lineup.clone()),
            beside: Vec::new(),
            amended: Amended::default(),
            opening: lineup.clone(),
            entries,
            segments: Vec::new(),
            last: None,
        };
        run.fold_again();
        Some(run)
    }

    /// Takes in one more entry of this run: totals advance by it where they can, else this one run is folded again.
    pub fn note(&mut self, entry: Entry) {
        let plain = !matches!(
            entry.fact,
            Fact::EntryTakenBack { .. }
                | Fact::ContactsCorrected { .. }
                | Fact::EffortCorrected { .. }
                | Fact::RunTakenOver { .. }
                | Fact::RunStarted { .. }
        );
        let next = entry.id.series == self.writer
            && self.last.is_none_or(|last| entry.order() > last)
            && self.is_main(&entry)
            && !self.amended.is_taken_back(entry.id);
        if plain && next {
            self.main.advance(&entry, &self.amended);
            self.last = Some(entry.order());
            self.entries.push(entry);
        } else if !self.entries.iter().any(|e| e.id == entry.id) {
            self.entries.push(entry);
            self.fold_again();
        }
    }

    pub fn entries(&self) -> &[Entry] {
        &self.entries
    }

    /// The last entry of the main line: what one who goes on has seen.
    pub fn last_seen(&self) -> EntryId {
        let main = self.entries.iter().filter(|e| self.is_main(e)).max_by_key(|e| e.order());
        main.map_or(self.id.0, |e| e.id)
    }

    /// What undo would take back, if anything.
    pub fn next_undo(&self) -> Option<&Entry> {
        let id = self.main.undoable.last()?;
        self.entries.iter().rev().find(|e| e.id == *id)
    }

    /// Main line first, then what stands beside it.
    pub fn parts(&self) -> impl Iterator<Item = &Part> {
        std::iter::once(&self.main).chain(self.beside.iter().map(|(_, part)| part))
    }

    fn fold_again(&mut self) {
        let mut entries = std::mem::take(&mut self.entries);
        entries.sort_unstable_by_key(Entry::order);
        self.amended = Amended::resolve(entries.iter());
        self.find_segments(&entries);
        self.main = Part::new(&self.spec, self.opening.clone());
        self.beside.clear();
        for entry in &entries {
            self.last = self.last.max(Some(entry.order()));
            if self.amended.is_taken_back(entry.id) {
                continue;
            }
            if self.is_main(entry) {
                self.main.advance(entry, &self.amended);
            } else if !matches!(
                entry.fact,
                // Amendments act wherever they were written; they make no part of their own.
                Fact::EntryTakenBack { .. } | Fact::ContactsCorrected { .. } | Fact::EffortCorrected { .. }
            ) {
                let series = entry.id.series;
                let at = self.beside.iter().position(|(s, _)| *s == series).unwrap_or_else(|| {
                    self.beside.push((series, Part::new(&self.spec, self.opening.clone())));
                    self.beside.len() - 1
                });
                self.beside[at].1.advance(entry, &self.amended);
            }
        }
        self.entries = entries;
    }

    /// The main line: from the start, each who went on (in the order of time) follows what it had seen of the one before.
    fn find_segments(&mut self, sorted: &[Entry]) {
        let start = Segment { series: self.id.0.series, from: self.id.0.no, to: None };
        self.segments = vec![start];
        for entry in sorted {
            let Fact::RunTakenOver { after, .. } = entry.fact else { continue };
            if let Some(open) = self.segments.last_mut() {
                // Having seen another line than this one, it leaves all of this one beside.
                open.to = Some(if after.series == open.series { after.no } else { open.from });
            }
            self.segments.push(Segment { series: entry.id.series, from: entry.id.no, to: None });
        }
        self.writer = self.segments.last().map_or(self.id.0.series, |s| s.series);
    }

    fn is_main(&self, entry: &Entry) -> bool {
        let no = entry.id.no;
        self.segments.iter().any(|s| s.series == entry.id.series && no >= s.from && s.to.is_none_or(|to| no <= to))
    }
}
