//! The pure numbers against scipy and statsmodels (`tests/compare`), where there is a Python. What it needs is installed into a folder of this
//! project's own cache. Where it can't be done it is skipped, and says so: the published values in the tests stand without it.

use crate::paths;
use crate::shell::{Result, command, run, timed};
use std::path::{Path, PathBuf};
use std::process::Stdio;

const WHAT: &str = "pure numbers against scipy and statsmodels";
const NEEDED: &str = "import mpmath, numpy, scipy, statsmodels";
const REQUIREMENTS: &str = "tests/compare/requirements.txt";
/// Raised when the requirements change.
const VERSION: &str = "1";

/// Compares, or prints why it doesn't.
pub fn where_python_is() -> Result {
    match python()? {
        Some(python) => timed(WHAT, || {
            let mut compare = command(python, &["-W", "ignore", "tests/compare/compare.py"]);
            compare.arg(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into()));
            compare.args(["run", "--quiet", "--package", "numbers", "--example", "compare"]);
            run(compare)
        }),
        None => Ok(()),
    }
}

/// A Python that has what is needed: the machine's, or one set up here.
fn python() -> Result<Option<PathBuf>> {
    let Some(machines) = paths::on_path("python3").or_else(|| paths::on_path("python")) else {
        println!("\n── {WHAT}: SKIPPED, there is no Python on this machine");
        return Ok(None);
    };
    if has_needed(&machines) {
        return Ok(Some(machines));
    }
    let home = paths::cached("compare", VERSION)?;
    let own = home.join(if cfg!(windows) { "Scripts" } else { "bin" }).join(paths::executable("python"));
    if has_needed(&own) {
        return Ok(Some(own));
    }
    let set_up = timed(&format!("installing {REQUIREMENTS} into {}", home.display()), || {
        let mut folder = command(&machines, &["-m", "venv"]);
        folder.arg(&home);
        run(folder)?;
        run(command(&own, &["-m", "pip", "install", "--quiet", "--requirement", REQUIREMENTS]))
    });
    if let Err(failure) = set_up {
        println!(
            "\n── {WHAT}: SKIPPED, Python has no scipy and statsmodels and they could not be installed. {failure}"
        );
        return Ok(None);
    }
    Ok(Some(own))
}

/// Whether this Python is there and finds all it needs.
fn has_needed(python: &Path) -> bool {
    let mut asked = command(python, &["-c", NEEDED]);
    asked.stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null());
    asked.status().is_ok_and(|status| status.success())
}
