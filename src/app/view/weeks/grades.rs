//! Pass grades month by month, as shares of 3-2-1-0. They are an order and no measure: a mean only on request, and with that said.

use super::Split;
use super::past::drills;
use crate::app::words::counts;
use crate::app::words::weeks::grades as words;
use crate::domain::ids::PlayerId;
use crate::domain::lots::{Lot, Seen, What};
use crate::domain::summary::PracticeSummary;

#[derive(Clone, Debug, PartialEq)]
pub struct GradesView {
    /// The latest month first.
    pub months: Vec<Split>,
    /// The mean of each month, for who asks for it.
    pub means: Vec<(String, String)>,
}

/// Outcomes of one month: year and month, and how many of each.
pub type Month = ((i32, u32), [u32; 4]);

pub fn grades(practices: &[&PracticeSummary], player: PlayerId) -> Option<GradesView> {
    let is_it = |lot: &Lot| lot.player == player && lot.what == What::Pass && lot.seen != Seen::Told;
    let months = by_month(practices, &is_it, &mut |lot| {
        let [gone, chased, moved, stood] = lot.outcomes;
        [stood, moved, chased, gone]
    });
    let split = |((year, month), parts): &Month| Split {
        title: counts::month(*year, *month),
        parts: *parts,
        line: words::passes(*parts),
        more: None,
    };
    let mean = |((year, month), [stood, moved, chased, gone]): &Month| {
        let n = f64::from(stood + moved + chased + gone);
        let sum = f64::from(3 * stood + 2 * moved + chased);
        (counts::month(*year, *month), words::mean(sum / n))
    };
    (!months.is_empty())
        .then(|| GradesView { months: months.iter().map(split).collect(), means: months.iter().map(mean).collect() })
}

/// Lots of drills summed by month, the latest first; months without any are left out.
pub fn by_month(
    practices: &[&PracticeSummary],
    is_it: &dyn Fn(&Lot) -> bool,
    outcomes: &mut dyn FnMut(&Lot) -> [u32; 4],
) -> Vec<Month> {
    let mut months: Vec<Month> = Vec::new();
    for practice in practices {
        let month = counts::month_of(practice.started.day());
        for lot in drills(practice).flat_map(|run| &run.lots).filter(|lot| is_it(lot)) {
            let at = months.iter().position(|(known, _)| *known == month).unwrap_or_else(|| {
                months.push((month, [0; 4]));
                months.len() - 1
            });
            months[at].1.iter_mut().zip(outcomes(lot)).for_each(|(sum, n)| *sum = sum.saturating_add(n));
        }
    }
    months.retain(|(_, parts)| parts.iter().any(|n| *n > 0));
    months
}
