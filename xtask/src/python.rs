//! A Python that has what a check needs: the machine's own, or one set up in a folder of this project's cache. Where it can't be had the check is
//! skipped, and that is said.

use crate::paths;
use crate::shell::{Result, command, run, timed};
use std::path::{Path, PathBuf};
use std::process::Stdio;

/// What a check needs of Python.
pub struct Needs {
    /// How the check is called where it is skipped.
    pub what: &'static str,
    /// Statements that succeed where everything is there.
    pub imports: &'static str,
    pub requirements: &'static str,
    /// The folder in the cache; its version is raised when the requirements change.
    pub folder: (&'static str, &'static str),
}

impl Needs {
    /// `None`: it is skipped, which was said.
    pub fn python(&self) -> Result<Option<PathBuf>> {
        let Some(machines) = paths::on_path("python3").or_else(|| paths::on_path("python")) else {
            println!("\n── {}: SKIPPED, there is no Python on this machine", self.what);
            return Ok(None);
        };
        if has(&machines, self.imports) {
            return Ok(Some(machines));
        }
        let home = paths::cached(self.folder.0, self.folder.1)?;
        let own = home.join(if cfg!(windows) { "Scripts" } else { "bin" }).join(paths::executable("python"));
        if has(&own, self.imports) {
            return Ok(Some(own));
        }
        let set_up = timed(&format!("installing {} into {}", self.requirements, home.display()), || {
            let mut folder = command(&machines, &["-m", "venv"]);
            folder.arg(&home);
            run(folder)?;
            run(command(&own, &["-m", "pip", "install", "--quiet", "--requirement", self.requirements]))
        });
        if let Err(failure) = set_up {
            println!("\n── {}: SKIPPED, what it needs of Python could not be installed. {failure}", self.what);
            return Ok(None);
        }
        Ok(Some(own))
    }
}

/// Whether this Python is there and finds all of it.
pub fn has(python: &Path, imports: &str) -> bool {
    let mut asked = command(python, &["-c", imports]);
    asked.stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null());
    asked.status().is_ok_and(|status| status.success())
}
