//! Writes what many phones would send: tables of contacts of invented practices, in a folder a squad, most practices twice (an early table, and
//! one after corrections and takings-back), and prints the totals that the app's own summaries give: squad, month, tries, good.
//!
//!     made FOLDER SQUADS PRACTICES CONTACTS

#[path = "../wire/practice.rs"]
#[allow(dead_code, reason = "the tests of the file use the rest of it")]
mod practice;

use std::collections::BTreeMap;
use std::error::Error;
use std::path::Path;

use peppertally::domain::entry::{Entry, Fact};
use peppertally::domain::ids::{EntryId, Revision, RunId};
use peppertally::domain::replay::base::Base;
use peppertally::domain::replay::run::RunState;
use peppertally::domain::summary::PracticeSummary;
use peppertally::wire::table::Table;

const DAY_MS: i64 = 86_400_000;

fn main() -> Result<(), Box<dyn Error>> {
    let args: Vec<String> = std::env::args().collect();
    let [_, folder, squads, practices, contacts] = args.as_slice() else {
        return Err("made FOLDER SQUADS PRACTICES CONTACTS".into());
    };
    let (squads, practices, contacts): (u64, u64, usize) = (squads.parse()?, practices.parse()?, contacts.parse()?);
    let mut totals: BTreeMap<(String, String), (u32, u32)> = BTreeMap::new();
    for squad in 0..squads {
        let name = format!("squad-{squad}");
        let folder = Path::new(folder).join(format!("squad={name}"));
        std::fs::create_dir_all(&folder)?;
        for at in 0..practices {
            let seed = squad * 1_000_003 + at;
            let early = entries(seed, at, contacts);
            let late = later(&early, seed);
            let told_late = told(&late)?;
            std::fs::write(folder.join(format!("{at}-late.csv")), told_late.table)?;
            // Every third practice was sent once.
            if at % 3 != 0 {
                std::fs::write(folder.join(format!("{at}-early.csv")), told(&early)?.table)?;
            }
            let total = totals.entry((name.clone(), told_late.month)).or_default();
            *total = (total.0 + told_late.tries, total.1 + told_late.good);
        }
    }
    for ((squad, month), (tries, good)) in totals {
        println!("{squad},{month},{tries},{good}");
    }
    Ok(())
}

/// An invented practice, three days after the one before.
fn entries(seed: u64, at: u64, contacts: usize) -> Vec<Entry> {
    let invented = practice::invented(seed, contacts);
    let mut all = [invented.squad, invented.practice].concat();
    let later = at.cast_signed() * 3 * DAY_MS;
    all.iter_mut().for_each(|entry| entry.at.wall_ms += later);
    all
}

/// Some of its balls taken back afterwards, on another page.
fn later(early: &[Entry], seed: u64) -> Vec<Entry> {
    let noted = early.iter().filter_map(|entry| match &entry.fact {
        Fact::ContactNoted { run, .. } => Some((entry, *run)),
        _ => None,
    });
    let mut all = early.to_vec();
    for ((entry, run), no) in noted.step_by(17).zip(0..) {
        let mut taken = entry.clone();
        taken.id = EntryId::new(!seed, no);
        taken.clock.0 += 1_000_000;
        taken.fact = Fact::EntryTakenBack { run: Some(run), target: entry.id, revision: Revision(9), back: true };
        all.push(taken);
    }
    all
}

/// What a phone has of a practice.
struct Told {
    month: String,
    /// By its summary.
    tries: u32,
    good: u32,
    table: Vec<u8>,
}

fn told(entries: &[Entry]) -> Result<Told, Box<dyn Error>> {
    let base = Base::fold(entries);
    let practice = base.practices().into_iter().next().ok_or("a practice")?;
    let of = |run: &RunId| entries.iter().filter(|e| e.fact.run(e.id) == Some(*run)).cloned().collect();
    let runs: Vec<RunState> = practice.runs.iter().filter_map(|run| RunState::fold(of(run))).collect();
    let summary = PracticeSummary::of(&practice, runs.iter());
    let judged = summary.runs.iter().map(|run| run.everyone.easy + run.everyone.challenge);
    let (tries, good) = judged.fold((0, 0), |(tries, good), count| (tries + count.tries(), good + count.good()));
    let mut table = Table::of_contacts()?;
    runs.iter().try_for_each(|run| table.run(&base, &practice, run))?;
    let day = practice.started.day();
    Ok(Told { month: day.format("%Y-%m").to_string(), tries, good, table: table.finish()? })
}
