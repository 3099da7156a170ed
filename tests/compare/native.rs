//! Reads what to work out, one a line (a name and its numbers), and prints the results, a line each, with every digit. The other half of
//! `compare.py`, which makes the lines up and holds the results against scipy and statsmodels. Asked for it, it says on the error stream how many
//! seconds the working out took, reading and printing left out.

use std::io::{self, BufRead, BufWriter, Write};
use std::time::{Duration, Instant};

use numbers::stats::agreement::{Steps, kappa};
use numbers::stats::beta::{Beta, Node, second_higher};
use numbers::stats::chart::by_chance;
use numbers::stats::goal::at_least;
use numbers::stats::goal::race::Race;
use numbers::stats::goal::row::Row;
use numbers::stats::many::adjusted;
use numbers::stats::proportion::{Confidence, Count, difference, jeffreys, wilson};
use numbers::stats::ratings::{Meeting, rated};
use numbers::stats::special::{ln_gamma, normal_below, normal_quantile};

/// The results of one line; `None` where the name is unknown or the numbers don't fit it.
fn worked_out(name: &str, v: &[f64]) -> Option<Vec<f64>> {
    let beta = |at: usize| Beta::new(*v.get(at)?, *v.get(at + 1)?);
    let count = |at: usize| Count::new(*v.get(at)? as u32, *v.get(at + 1)? as u32);
    let sure = Confidence::P95;
    Some(match name {
        "normal_below" => vec![normal_below(*v.first()?)],
        "normal_quantile" => vec![normal_quantile(*v.first()?)?],
        "ln_gamma" => vec![ln_gamma(*v.first()?)],
        "beta_below" => vec![beta(0)?.below(*v.get(2)?)],
        "beta_quantile" => vec![beta(0)?.quantile(*v.get(2)?)?],
        "wilson" => wilson(count(0)?, sure).map(|r| vec![r.low(), r.high()])?,
        "jeffreys" => jeffreys(count(0)?, sure).map(|r| vec![r.low(), r.high()])?,
        "difference" => difference(count(0)?, count(2)?, sure).map(|gap| vec![gap.low, gap.high])?,
        "second_higher" => vec![second_higher(beta(0)?, beta(2)?)],
        "adjusted" => adjusted(v),
        "at_least" => vec![at_least(*v.first()? as u32, *v.get(1)? as u32, *v.get(2)?)],
        // Length, step, tries, chance.
        "row_within" => vec![Row::new(*v.first()? as u32, *v.get(1)? as u32)?.within(*v.get(2)? as u32, *v.get(3)?)],
        "row_tries" => Row::new(*v.first()? as u32, 0)?.tries(*v.get(1)?).map(|t| vec![t.mean, t.sd])?,
        // Points to reach, lead, then the chance of each.
        "race" => {
            let (to, lead, chances) = (*v.first()? as u32, *v.get(1)? as u32, v.get(2..)?);
            Race { to, lead, chances, scores: &vec![0; chances.len()], within: u32::MAX }.ended()?.wins
        }
        // Which weights, then the table.
        "kappa" => {
            let steps = [Steps::Equal, Steps::Linear, Steps::Square];
            let table: Vec<u32> = v.get(1..)?.iter().map(|n| *n as u32).collect();
            let n_grades = (table.len() as f64).sqrt() as usize;
            kappa(&table, n_grades, *steps.get(*v.first()? as usize)?, sure).map(|k| vec![k.value, k.error])?
        }
        // Good, tries, the share known.
        "by_chance" => vec![by_chance(count(0)?, &[Node { chance: *v.get(2)?, weight: 1.0 }])],
        // Good, tries, a and b of what is known.
        "by_chance_mixed" => vec![by_chance(count(0)?, &beta(2)?.nodes(*v.get(1)? as u32))],
        // Wins of each over each, five by five, row by row: how far each is above the last, and the errors.
        "pairs" => {
            let places: Vec<[usize; 1]> = (0..5).map(|i| [i]).collect();
            let mut meetings = Vec::new();
            for i in 0..5 {
                for j in 0..i {
                    let (won, lost) = (*v.get(i * 5 + j)?, *v.get(j * 5 + i)?);
                    meetings.push(Meeting { first: places.get(i)?, second: places.get(j)?, won, lost });
                }
            }
            // The last is the measure of the others and held fast, they are free.
            let ratings = rated(&[1e5, 1e5, 1e5, 1e5, 1e-5], &meetings)?;
            let apart: Vec<(f64, f64)> = places[..4].iter().map(|place| ratings.apart(place, &places[4])).collect();
            apart.iter().map(|(value, _)| *value).chain(apart.iter().map(|(_, error)| *error)).collect()
        }
        _ => return None,
    })
}

fn main() -> io::Result<()> {
    let mut took = Duration::ZERO;
    let mut out = BufWriter::new(io::stdout().lock());
    for line in io::stdin().lock().lines() {
        let line = line?;
        let mut words = line.split_whitespace();
        let name = words.next().unwrap_or_default();
        let numbers: Result<Vec<f64>, _> = words.map(str::parse).collect();
        let begun = Instant::now();
        let results = numbers.ok().and_then(|numbers| worked_out(name, &numbers));
        took += begun.elapsed();
        match results {
            Some(results) => {
                writeln!(out, "{}", results.iter().map(|r| format!("{r:e}")).collect::<Vec<_>>().join(" "))?
            }
            None => return Err(io::Error::other(format!("can't work out: {line}"))),
        }
    }
    if std::env::args().any(|arg| arg == "--timed") {
        eprintln!("{}", took.as_secs_f64());
    }
    out.flush()
}
