//! Where a child's serves went: month by month, with the fast swings beside those in, so that speed first and accuracy later show as a path; by
//! style, and by how far from the net. A swing is fast where it was noted, so at least as many were.

use super::Split;
use super::chart::path;
use super::past::drills;
use crate::app::words::weeks as words;
use crate::app::words::weeks::serves as serve_words;
use crate::app::words::{counts, ladder};
use crate::domain::ids::{PlayerId, Step};
use crate::domain::lots::{Lot, Seen, What};
use crate::domain::skill::{ServeStyle, Skill};
use crate::domain::summary::{Count, PracticeSummary};
use crate::stats::proportion::{Confidence, wilson};
use crate::stats::share::ENOUGH;

#[derive(Clone, Debug, PartialEq)]
pub struct ServesView {
    pub path: Option<PathView>,
    /// The latest first; of those on the path its number stands before it.
    pub months: Vec<(Option<u32>, Split)>,
    pub styles: Vec<Split>,
    pub distances: Vec<Split>,
}

/// A path in a field of [`WIDE`] by [`HIGH`]: fast swings to the right, those in upwards.
#[derive(Clone, Debug, PartialEq)]
pub struct PathView {
    pub line: String,
    pub stops: Vec<Stop>,
    pub label: String,
}

#[derive(Clone, Debug, PartialEq)]
pub struct Stop {
    pub x: String,
    pub y: String,
    /// How sure the share in is.
    pub reach: String,
    pub no: String,
    pub latest: bool,
}

const WIDE: f64 = 320.0;
const HIGH: f64 = 150.0;
/// Two stops of a path may lie on one another; so many are told apart.
const MOST_STOPS: usize = 9;

/// Serves that are alike in something: where they went, and how many swings were fast.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Pile<K> {
    of: K,
    outcomes: [u32; 4],
    n_fast: u32,
}

pub fn serves(practices: &[&PracticeSummary], player: PlayerId) -> Option<ServesView> {
    let mut months: Vec<Pile<(i32, u32)>> = Vec::new();
    let mut styles: Vec<Pile<Option<ServeStyle>>> = Vec::new();
    let mut steps: Vec<Pile<Step>> = Vec::new();
    for practice in practices {
        let lots = drills(practice).flat_map(|run| &run.lots);
        for lot in lots.filter(|lot| lot.player == player && lot.what == What::Serve && lot.seen != Seen::Told) {
            add(&mut months, counts::month_of(practice.started.day()), lot);
            add(&mut styles, lot.style, lot);
            add(&mut steps, lot.feed.step, lot);
        }
    }
    if months.is_empty() {
        return None;
    }
    // From the first month on, those with enough serves.
    let on_path: Vec<&Pile<(i32, u32)>> = months.iter().filter(|pile| pile.n() >= ENOUGH).take(MOST_STOPS).collect();
    let no = |pile: &Pile<(i32, u32)>| {
        let at = on_path.iter().rev().position(|on| on.of == pile.of).filter(|_| on_path.len() > 1)?;
        u32::try_from(at + 1).ok()
    };
    let order = ServeStyle::ALL.into_iter().map(Some).chain([None]);
    let style = |style: Option<ServeStyle>| styles.iter().find(|pile| pile.of == style);
    let rungs = ladder::rungs(&Skill::Serve, None).into_iter();
    let beyond = steps.iter().map(|pile| pile.of).filter(|step| !ladder::rungs(&Skill::Serve, None).contains(step));
    let step = |step: Step| steps.iter().find(|pile| pile.of == step);
    Some(ServesView {
        path: path_of(&on_path),
        months: months.iter().map(|pile| (no(pile), pile.split(counts::month(pile.of.0, pile.of.1)))).collect(),
        styles: order.filter_map(style).map(|pile| pile.split(serve_words::style(pile.of))).collect(),
        distances: rungs
            .chain(beyond)
            .filter_map(step)
            .map(|pile| pile.split(ladder::from(&Skill::Serve, pile.of)))
            .collect(),
    })
}

fn add<K: PartialEq + Copy>(piles: &mut Vec<Pile<K>>, of: K, lot: &Lot) {
    let at = piles.iter().position(|pile| pile.of == of).unwrap_or_else(|| {
        piles.push(Pile { of, outcomes: [0; 4], n_fast: 0 });
        piles.len() - 1
    });
    let pile = &mut piles[at];
    pile.outcomes.iter_mut().zip(lot.outcomes).for_each(|(sum, n)| *sum = sum.saturating_add(n));
    pile.n_fast = pile.n_fast.saturating_add(lot.n_fast);
}

impl<K> Pile<K> {
    fn n(&self) -> u32 {
        self.outcomes.iter().fold(0, |sum, n| sum.saturating_add(*n))
    }

    fn split(&self, title: String) -> Split {
        let line = words::serves(self.n(), self.outcomes);
        Split { title, parts: self.outcomes, line, more: Some(words::fast(self.n_fast)) }
    }
}

/// `on_path`: the latest first.
fn path_of(on_path: &[&Pile<(i32, u32)>]) -> Option<PathView> {
    if on_path.len() < 2 {
        return None;
    }
    let share = |n: u32, of: u32| f64::from(n) / f64::from(of.max(1));
    let most = on_path.iter().map(|pile| share(pile.n_fast, pile.n())).fold(0.5, f64::max).min(1.0);
    let y = |share: f64| HIGH * (1.0 - share);
    let place =
        |pile: &Pile<(i32, u32)>| (WIDE * share(pile.n_fast, pile.n()) / most, y(share(pile.outcomes[0], pile.n())));
    let places: Vec<(f64, f64)> = on_path.iter().rev().map(|pile| place(pile)).collect();
    let stops = on_path.iter().rev().zip(&places).zip(1..).map(|((pile, (x, down)), no)| {
        let range = Count::new(pile.outcomes[0], pile.n()).and_then(|count| wilson(count, Confidence::P95));
        let reach = range.map(|range| format!("M{x:.1} {:.1}V{:.1}", y(range.low()), y(range.high())));
        Stop {
            x: format!("{x:.1}"),
            y: format!("{down:.1}"),
            reach: reach.unwrap_or_default(),
            no: no.to_string(),
            latest: no == places.len(),
        }
    });
    let told = |pile: &Pile<(i32, u32)>| {
        serve_words::stop(&counts::month(pile.of.0, pile.of.1), pile.n_fast, pile.outcomes[0], pile.n())
    };
    let all: Vec<String> = on_path.iter().rev().map(|pile| told(pile)).collect();
    Some(PathView { line: path(&mut places.iter().copied()), stops: stops.collect(), label: serve_words::path(&all) })
}
