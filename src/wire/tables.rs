//! What columns point at: series, players, runs and texts. Collected and numbered before a document is written, looked up while
//! one is read. 0 stands for nobody or nothing where that may be, else one more than the place in the table.

use std::collections::{BTreeMap, BTreeSet};

use super::refusal::RuleBroken;
use crate::domain::entry::{Fact, LineupCause};
use crate::domain::ids::{EntryId, PlayerId, RunId, SeriesId};

/// What columns point at, collected before they are written: each once, in order, so that the same entries give the same bytes.
#[derive(Default)]
pub(super) struct Pointers {
    pub series: BTreeSet<SeriesId>,
    pub players: BTreeSet<EntryId>,
    pub runs: BTreeSet<EntryId>,
    pub strings: BTreeSet<String>,
}

impl Pointers {
    /// Notes what the columns of this fact will point at.
    pub fn note(&mut self, fact: &Fact) {
        match fact {
            Fact::ContactNoted { run, contact } => {
                self.run(*run);
                self.players(contact.player.iter().chain(&contact.server));
            }
            Fact::LineupSet { run, lineup, cause } => {
                self.run(*run);
                self.players(lineup.places.iter().flatten().chain(&lineup.waiting).chain(&lineup.servers));
                if let LineupCause::AfterContact(contact) = cause {
                    self.series.insert(contact.0.series);
                }
            }
            Fact::RallyNoted { run, rally } => {
                self.run(*run);
                self.players(rally.near.iter().chain(&rally.far));
            }
            Fact::TurnGiven { run, player } | Fact::CountTold { run, player, .. } => {
                self.run(*run);
                self.players([player]);
            }
            Fact::EffortNoted { run, player, kind } => {
                self.run(*run);
                self.players(player);
                self.strings.extend(kind.clone());
            }
            _ => {}
        }
    }

    /// The tables of these pointers, with the way back.
    pub fn index(self) -> Index {
        fn places<T: Ord>(set: BTreeSet<T>) -> BTreeMap<T, i64> {
            set.into_iter().zip(0..).collect()
        }
        Index {
            series: places(self.series),
            players: places(self.players),
            runs: places(self.runs),
            strings: places(self.strings),
        }
    }

    fn run(&mut self, run: RunId) {
        self.series.insert(run.0.series);
        self.runs.insert(run.0);
    }

    fn players<'a>(&mut self, players: impl IntoIterator<Item = &'a PlayerId>) {
        for player in players {
            self.series.insert(player.0.series);
            self.players.insert(player.0);
        }
    }
}

/// The place of each pointer's target in its table.
pub(super) struct Index {
    pub series: BTreeMap<SeriesId, i64>,
    pub players: BTreeMap<EntryId, i64>,
    pub runs: BTreeMap<EntryId, i64>,
    pub strings: BTreeMap<String, i64>,
}

impl Index {
    pub fn run(&self, run: RunId) -> i64 {
        // All were noted before; -1 would be refused by every reader.
        self.runs.get(&run.0).copied().unwrap_or(-1)
    }

    pub fn player(&self, player: PlayerId) -> i64 {
        self.players.get(&player.0).copied().unwrap_or(-1)
    }

    /// 0 for nobody, else the place plus 1.
    pub fn maybe_player(&self, player: Option<PlayerId>) -> i64 {
        player.map_or(0, |player| self.player(player) + 1)
    }

    pub fn maybe_string(&self, text: Option<&String>) -> i64 {
        text.map_or(0, |text| self.strings.get(text).map_or(-1, |place| place + 1))
    }
}

/// The tables of a file that was read.
#[derive(Default)]
pub(super) struct Tables {
    pub series: Vec<SeriesId>,
    pub players: Vec<EntryId>,
    pub runs: Vec<EntryId>,
    pub strings: Vec<String>,
}

impl Tables {
    pub fn run(&self, place: i64) -> Result<RunId, RuleBroken> {
        at(&self.runs, place).map(|id| RunId(*id))
    }

    pub fn player(&self, place: i64) -> Result<PlayerId, RuleBroken> {
        at(&self.players, place).map(|id| PlayerId(*id))
    }

    pub fn maybe_player(&self, code: i64) -> Result<Option<PlayerId>, RuleBroken> {
        maybe(code, |place| self.player(place))
    }

    pub fn maybe_string(&self, code: i64) -> Result<Option<String>, RuleBroken> {
        maybe(code, |place| at(&self.strings, place).cloned())
    }
}

/// A value at its place in a table.
pub(super) fn at<T>(table: &[T], place: i64) -> Result<&T, RuleBroken> {
    usize::try_from(place).ok().and_then(|place| table.get(place)).ok_or(RuleBroken::OutOfRange)
}

/// 0 is nothing; anything else is one more than what it stands for.
pub(super) fn maybe<T>(code: i64, read: impl FnOnce(i64) -> Result<T, RuleBroken>) -> Result<Option<T>, RuleBroken> {
    match code {
        0 => Ok(None),
        i64::MIN..0 => Err(RuleBroken::OutOfRange),
        1.. => read(code - 1).map(Some),
    }
}
