//! Locked copies against another implementation of their format, the one in TypeScript that its makers publish on npm: it opens what ours has
//! locked, and ours what it has. Both kinds of file, words of several scripts, contents around the format's chunks.

use crate::shell::{Failure, Result, cargo, command, run, timed};
use crate::{paths, tools};
use std::fs;
use std::path::Path;

const VERSION: &str = "0.3.1";

/// Where there is no node, that is said and nothing is checked.
pub fn exchange() -> Result {
    const WHAT: &str = "locked copies by another implementation";
    if paths::on_path("node").is_none() {
        println!("\n── {WHAT}: left out, because node is not here. Install Node.js with npm.");
        return Ok(());
    }
    let package = tools::installed_by_npm("age-encryption", VERSION)?;
    timed(WHAT, || {
        let folder = std::env::temp_dir().join(format!("peppertally-locked-{}", std::process::id()));
        fs::create_dir_all(&folder).map_err(|error| Failure::with_file("make", &folder, error))?;
        let done = ours("make", &folder).and_then(|()| theirs(&package, &folder)).and_then(|()| ours("open", &folder));
        let gone = fs::remove_dir_all(&folder).map_err(|error| Failure::with_file("remove", &folder, error));
        done.and(gone)
    })
}

fn ours(verb: &str, folder: &Path) -> Result {
    let mut exchange = cargo(&["run", "--quiet", "--package", "lock", "--example", "exchange", "--", verb]);
    exchange.arg(folder);
    run(exchange)
}

fn theirs(package: &Path, folder: &Path) -> Result {
    let mut node = command("node", &["xtask/src/locks.mjs"]);
    node.arg(package).arg(folder);
    run(node)
}
