//! Owns what it costs to group 20 children into 4 evenly, proved; measured natively beside the folding of a practice of 300 contacts,
//! since only the ratio counts. Takes both in turns.

use super::table::Times;
use browser_tests::{Error, Result};
use peppertally::app::demo::{self, Size};
use peppertally::domain::entry::{Entry, Fact};
use peppertally::domain::replay::run::RunState;
use peppertally::domain::time::Stamp;
use peppertally::stats::split::{Asked, Sizes, even};
use std::hint::black_box;
use std::time::Instant;

const N_TURNS: usize = 60;
const N_CHILDREN: usize = 20;
const N_GROUPS: usize = 4;
const N_CONTACTS: u32 = 300;

pub struct Grouping {
    plain: Times,
    wished: Times,
    fold: Times,
}

pub fn measure() -> Result<Grouping> {
    let size = Size { n_children: 12, n_practices: 1, n_contacts_a_practice: N_CONTACTS };
    let season = demo::season(7, size, Stamp { wall_ms: 1_795_968_300_000, offset_min: 60, mono_ms: 0 });
    let entries: Vec<Entry> = season.practices.into_iter().flatten().collect();
    let mut grouping = Grouping { plain: Times::default(), wished: Times::default(), fold: Times::default() };
    for turn in 0..N_TURNS {
        let plain = asked(turn);
        let wished = Asked {
            together: vec![vec![0, 1], vec![2, 3, 4]],
            apart: vec![(0, 2), (5, 6), (6, 7), (5, 7)],
            tagged: vec![8, 9, 10, 11, 12],
            ..plain.clone()
        };
        grouping.fold.push(timed(|| drop(black_box(fold(&entries)))));
        for (asked, times) in [(plain, &mut grouping.plain), (wished, &mut grouping.wished)] {
            let mut proved = false;
            times.push(timed(|| proved = black_box(even(&asked)).is_ok_and(|split| split.proved)));
            if !proved {
                return Err(Error::Missing {
                    what: format!("Groups of turn {turn} are not proved to be the most even."),
                });
            }
        }
    }
    Ok(grouping)
}

impl Grouping {
    pub fn print(&self) {
        let fold = self.fold.median();
        println!(
            "Grouping {N_CHILDREN} into {N_GROUPS}, proved, to folding a practice of {N_CONTACTS} contacts ({fold:.2} ms), natively:"
        );
        for (what, times) in [("without wishes", &self.plain), ("with wishes", &self.wished)] {
            let (median, worst) = (times.median() / fold, times.p99() / fold);
            println!("  {what}: median {median:.2}, 99 of 100 under {worst:.2}");
        }
        println!();
    }
}

/// Levels from 0 to 100, others at each turn (the generator of Knuth's MMIX).
fn asked(turn: usize) -> Asked {
    let mut state = turn as u64 + 1;
    let mut level = || {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        u32::try_from((state >> 33) % 101).unwrap_or(0)
    };
    Asked::new((0..N_CHILDREN).map(|_| level()).collect(), Sizes::Number(N_GROUPS))
}

fn fold(entries: &[Entry]) -> Vec<RunState> {
    let starts = entries.iter().filter(|e| matches!(e.fact, Fact::RunStarted { .. }));
    let of_run = |run| entries.iter().filter(|e| e.fact.run(e.id) == run).cloned().collect();
    starts.filter_map(|start| RunState::fold(of_run(start.fact.run(start.id)))).collect()
}

fn timed(f: impl FnOnce()) -> f64 {
    let begun = Instant::now();
    f();
    begun.elapsed().as_secs_f64() * 1000.0
}
