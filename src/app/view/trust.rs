//! How far to trust what children score themselves: from the balls that a child and the coach judged both, each kind of station and each
//! station. Never of a child.

use crate::app::model::Model;
use crate::app::practices::Practices;
use crate::app::words::trust as words;
use crate::domain::checks::Checks;
use crate::domain::lots::What;
use crate::domain::summary::{PracticeSummary, RunSummary};
use crate::domain::weeks::checked;
use crate::stats::agreement::{Kappa, Steps, bias, kappa, reading};
use crate::stats::proportion::{Confidence, Count, wilson};
use crate::stats::share::ENOUGH;

#[derive(Clone, Debug, PartialEq)]
pub struct TrustView {
    pub kinds: Vec<KindTrust>,
    /// The same of each station by itself, the one that was checked last first.
    pub stations: Vec<KindTrust>,
    pub alone: Option<String>,
}

#[derive(Clone, Debug, PartialEq)]
pub struct KindTrust {
    pub title: String,
    /// One after another; the first alone where nothing was checked.
    pub lines: Vec<String>,
    /// What it rests on: kappa and bias, each with its range.
    pub figures: Vec<String>,
}

/// Balls from which it is told how far to trust them, and which way they lean: with fewer the range is wider than half of everything.
const TELLS: u32 = 20;

const WHATS: [What; 3] = [What::Pass, What::Serve, What::Own];

pub fn trust(model: &Model) -> TrustView {
    let all = Practices::of(model);
    let mut practices = all.latest_first();
    practices.retain(|practice| practice.started.day() <= model.now.day());
    let checks = checked(&practices);
    TrustView {
        kinds: WHATS.map(|what| kind(&checks, what)).to_vec(),
        stations: stations(&practices),
        alone: words::alone(checks.n_alone),
    }
}

/// One station is one drill's, of whatever practice, whoever was at it; of a run without a drill those of its name.
fn stations(practices: &[&PracticeSummary]) -> Vec<KindTrust> {
    let mut all: Vec<(&RunSummary, Checks)> = Vec::new();
    for run in practices.iter().flat_map(|practice| practice.runs.iter().rev()) {
        if run.checks.checked.is_empty() {
            continue;
        }
        let same = |had: &RunSummary| match (had.drill, run.drill) {
            (None, None) => had.name == run.name,
            (had, drill) => had == drill,
        };
        match all.iter_mut().find(|(had, _)| same(had)) {
            Some((_, checks)) => checks.add(&run.checks),
            None => all.push((run, run.checks.clone())),
        }
    }
    let of_one = |(run, checks): &(&RunSummary, Checks)| {
        let told = WHATS.iter().filter_map(|what| compared(checks, *what, false)).collect::<Vec<_>>();
        told.into_iter()
            .map(|(lines, figures)| KindTrust { title: run.name.clone(), lines, figures })
            .collect::<Vec<_>>()
    };
    all.iter().flat_map(of_one).collect()
}

fn kind(checks: &Checks, what: What) -> KindTrust {
    let title = words::kind(what).to_owned();
    let (lines, figures) =
        compared(checks, what, true).unwrap_or_else(|| (vec![words::NOT_CHECKED.to_owned()], Vec::new()));
    KindTrust { title, lines, figures }
}

/// Sentences and figures. `weighs`: what such a ball counts comes from these, which is so of all stations of a kind alone. `None` where nothing
/// was checked.
fn compared(checks: &Checks, what: What, weighs: bool) -> Option<(Vec<String>, Vec<String>)> {
    let good = checks.good(what);
    let n = good.iter().fold(0_u32, |all, n| all.saturating_add(*n));
    if n == 0 {
        return None;
    }
    let (table, n_steps) = checks.table(what);
    let alike = Count::new(good[0].saturating_add(good[3]).min(n), n);
    let range = alike.and_then(|alike| wilson(alike, Confidence::P95)).filter(|_| n >= ENOUGH);
    let mut lines = vec![words::agreed(n, range)];
    if n_steps > 2 {
        let same = (0..n_steps).filter_map(|step| table.get(step * (n_steps + 1))).sum();
        lines.push(words::same_step(same, n));
    }
    let gap = bias(good, Confidence::P95);
    if let Some(gap) = gap.filter(|_| n >= TELLS) {
        lines.push(words::leans(gap.low, gap.seen, gap.high));
    }
    if weighs {
        lines.push(words::counts_as(reading(good).worth));
    } else if n < ENOUGH {
        // Of one station so few say nothing at all, by no figure either.
        return Some((lines, Vec::new()));
    }
    let told = |kappa: Kappa| (kappa.value, kappa.low, kappa.high);
    // Of one who said the same of every ball, nothing tells agreement from habit.
    let [both, coach, child, neither] = good;
    let differed = both
        .saturating_add(child)
        .min(coach.saturating_add(neither))
        .min(both.saturating_add(coach))
        .min(child.saturating_add(neither))
        > 0;
    let plain = kappa(&good, 2, Steps::Equal, Confidence::P95).filter(|_| differed).map(told);
    let by_steps = kappa(&table, n_steps, Steps::Linear, Confidence::P95).map(told).filter(|_| n_steps > 2);
    let kappa = plain.map_or_else(|| words::NO_KAPPA.to_owned(), |plain| words::kappa(plain, by_steps));
    let counts = [both.saturating_add(child), both.saturating_add(coach), n];
    let bias = gap.map(|gap| words::bias(counts, gap.low, gap.seen, gap.high));
    Some((lines, [kappa].into_iter().chain(bias).collect()))
}
