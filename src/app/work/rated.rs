//! What is worked out of who met whom: how hard the served balls of an occasion were, so that levels are corrected; and who gives a small side how
//! much. Numbers are places in a list of children; nothing of it is ever shown.

use serde::{Deserialize, Serialize};

use crate::stats::faced::{Faced, hardness, worth};
use crate::stats::level::Seen;
use crate::stats::proportion::Count;
use crate::stats::ratings::{Meeting, best_rated};

/// Who met whom, of everyone and over all the time.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Met {
    pub n_children: u16,
    /// Series by series, which child each of its lines is.
    pub who: Vec<Vec<u16>>,
    pub served: Vec<ServedRow>,
    pub sides: Vec<SidesRow>,
}

/// Series, or one more than there are for a game's; day; server; passer; good, tries.
pub type ServedRow = (u16, i32, u16, u16, u32, u32);

/// The two sides, whether the first served, rallies that the first won and lost.
pub type SidesRow = (Vec<u16>, Vec<u16>, bool, u32, u32);

/// How far children may lie apart in what they give a side, in log-odds of a rally: that is taken which foresaw best what was seen. A choice
/// of ours.
const SPREADS: [f64; 3] = [0.1, 0.25, 0.5];
/// What the serve gives: free within this.
const SERVE: f64 = 1.0;

/// Puts into each occasion how hard the balls were that were served in it.
pub fn correct(all: &mut [Vec<Vec<Seen>>], met: &Met) {
    let faced: Vec<Faced> = met.served.iter().filter_map(faced).collect();
    if faced.is_empty() {
        return;
    }
    let hard = hardness(&faced);
    for (kind, (children, who)) in all.iter_mut().zip(&met.who).enumerate() {
        for (seen, child) in children.iter_mut().zip(who) {
            let own: Vec<&Faced> =
                faced.iter().filter(|one| one.kind == kind && one.member == usize::from(*child)).collect();
            // What it scored itself, or told, came from nobody's serve.
            for seen in seen.iter_mut().filter(|seen| seen.weight >= 1.0) {
                let had: Vec<(usize, u32)> =
                    own.iter().filter(|one| one.day == seen.day).map(|one| (one.task, one.count.tries())).collect();
                if !had.is_empty() {
                    let (offset, error) = hard.offset(seen.day, &had, seen.count);
                    (seen.offset, seen.weight) = (seen.offset + offset, seen.weight * worth(seen.count, error));
                }
            }
        }
    }
}

fn faced((kind, day, server, passer, good, tries): &ServedRow) -> Option<Faced> {
    let [kind, task, member] = [*kind, *server, *passer].map(usize::from);
    Some(Faced { kind, member, task, day: *day, count: Count::new(*good, *tries)? })
}

/// What each child gives a side of equal size, in log-odds of a rally and hundredths; nothing where there were no such rallies. Sides of unequal size are left
/// out: what one more is worth nobody has shown.
pub fn sides(met: &Met) -> Vec<i16> {
    let n = usize::from(met.n_children);
    // The serve counts for the side that has it, as one more of them would.
    let with = |side: &[u16], serves: bool| -> Vec<usize> {
        side.iter().map(|no| usize::from(*no)).chain(serves.then_some(n)).collect()
    };
    let rows: Vec<(Vec<usize>, Vec<usize>, f64, f64)> = met
        .sides
        .iter()
        .filter(|(first, second, ..)| first.len() == second.len() && !first.is_empty())
        .map(|(first, second, served, won, lost)| {
            (with(first, *served), with(second, !served), f64::from(*won), f64::from(*lost))
        })
        .collect();
    let meetings: Vec<Meeting<'_>> =
        rows.iter().map(|(first, second, won, lost)| Meeting { first, second, won: *won, lost: *lost }).collect();
    let spreads: Vec<Vec<f64>> = SPREADS
        .iter()
        .map(|spread| {
            let mut spreads = vec![*spread; n];
            spreads.push(SERVE);
            spreads
        })
        .collect();
    let candidates: Vec<&[f64]> = spreads.iter().map(Vec::as_slice).collect();
    match best_rated(&candidates, &meetings).filter(|_| !meetings.is_empty()) {
        Some(ratings) => (0..n).map(|at| hundredths(ratings.of(at).map_or(0.0, |(value, _)| value))).collect(),
        None => Vec::new(),
    }
}

/// Held within what it can hold: a number without a fraction crosses unchanged.
pub fn hundredths(value: f64) -> i16 {
    (value * 100.0).round().clamp(-400.0, 400.0) as i16
}
