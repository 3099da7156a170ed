//! A club's tables, as many phones would send them, read by engines for tables (`tests/club`), where there is a Python: every ball once, and
//! totals as the app's own.

use crate::python::{self, Needs};
use crate::shell::{Failure, Result, command, run, timed};
use std::fs;
use std::path::Path;
use std::process::Command;

const NEEDS: Needs = Needs {
    what: "a club's tables against the app's own totals",
    imports: "import duckdb",
    requirements: "tests/club/requirements.txt",
    folder: ("club", "1"),
};

/// Squads, practices, contacts of a practice: what is made.
#[derive(Clone, Copy)]
pub struct Size(pub u32, pub u32, pub u32);

/// In every test: 200 tables.
pub const SMALL: Size = Size(4, 30, 60);
/// More contacts are made by a program compiled for speed, which takes a while itself.
const MANY: u64 = 1_000_000;
/// 2,000 tables.
pub const CLUB: Size = Size(20, 60, 300);

/// As `PEPPERTALLY_CLUB` asks for a record: squads, practices, contacts of a practice, with commas between.
pub fn wanted() -> Result<Size> {
    let Ok(wanted) = std::env::var("PEPPERTALLY_CLUB") else { return Ok(CLUB) };
    let numbers: Vec<u32> = wanted.split(',').filter_map(|number| number.trim().parse().ok()).collect();
    match numbers[..] {
        [squads, practices, contacts] => Ok(Size(squads, practices, contacts)),
        _ => Err(Failure::new(format!("PEPPERTALLY_CLUB is three numbers such as 20,60,300, not `{wanted}`."))),
    }
}

/// Reads them by DuckDB, and by Spark SQL where Python has it; or prints why it doesn't.
pub fn where_python_is(size: Size) -> Result {
    let Some(python) = NEEDS.python()? else { return Ok(()) };
    timed(NEEDS.what, || {
        let made = std::env::temp_dir().join(format!("peppertally-club-{}", std::process::id()));
        let read = read(&python, &made, size);
        let gone = fs::remove_dir_all(&made).map_err(|e| Failure::new(format!("{} stays: {e}", made.display())));
        read.and(gone)
    })
}

fn read(python: &Path, folder: &Path, Size(squads, practices, contacts): Size) -> Result {
    let told = |what: &str, error: std::io::Error| Failure::new(format!("{what}: {error}"));
    fs::create_dir_all(folder).map_err(|error| told("a folder for tables", error))?;
    let mut made = Command::new(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into()));
    made.args(["run", "--quiet", "--no-default-features", "--example", "made"]);
    if u64::from(squads) * u64::from(practices) * u64::from(contacts) > MANY {
        made.args(["--profile", "worker"]);
    }
    made.arg("--").arg(folder.join("tables"));
    made.args([squads, practices, contacts].map(|n| n.to_string()));
    let made = made.output().map_err(|error| told("making tables", error))?;
    if !made.status.success() {
        return Err(Failure::new(format!("making tables: {}", String::from_utf8_lossy(&made.stderr))));
    }
    let totals = folder.join("totals");
    fs::write(&totals, made.stdout).map_err(|error| told("writing totals", error))?;
    let engines =
        ["duckdb", "spark"].into_iter().filter(|engine| *engine == "duckdb" || python::has(python, "import pyspark"));
    for engine in engines {
        let mut club = command(python, &["tests/club/club.py", engine]);
        club.arg(folder.join("tables")).arg(&totals);
        run(club)?;
    }
    Ok(())
}
