//! The union, the reading and the size of two logs against general libraries for data that many devices write (`tests/peers`), in node.

use crate::shell::{Failure, Result, cargo, command, run, timed};
use crate::{paths, tools};

const YJS: (&str, &str) = ("yjs", "13.6.33");
const AUTOMERGE: (&str, &str) = ("@automerge/automerge", "3.5.0");

/// Prints the ratios of one run.
pub fn compare() -> Result {
    if paths::on_path("node").is_none() {
        return Err(Failure::new("This needs node, which is not here. Install Node.js with npm."));
    }
    let home = |(package, version): (&str, &str)| tools::installed_by_npm(package, version);
    let (yjs, automerge) = (home(YJS)?, home(AUTOMERGE)?);
    // For speed, as the worker that does this work in the app.
    run(cargo(&["build", "--profile", "worker", "--package", "peers", "--target", tools::WASM_TARGET]))?;
    let program = paths::target().join(tools::WASM_TARGET).join("worker/peers.wasm");
    timed("two logs of 100,000 contacts against peers", || {
        let mut node = command("node", &["tests/peers/peers.mjs"]);
        node.arg(&program).arg(&yjs).arg(&automerge);
        run(node)
    })
}
