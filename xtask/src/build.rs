//! The release build: Trunk, with the tools of this project, into `dist`.

use crate::shell::{Failure, Result, run, timed};
use crate::{paths, sizes, tools};
use std::env;

/// Sets up what is missing, builds, prints the sizes.
pub fn release() -> Result {
    let tools = tools::set_up()?;
    timed("building the app for release", || with_tools(&tools))?;
    sizes::print(&paths::dist())
}

fn with_tools(tools: &tools::Tools) -> Result {
    let this_program = env::current_exe().map_err(|error| {
        Failure::new(format!("The path of xtask itself is unknown ({error}). Run `cargo xtask build`."))
    })?;
    // Trunk runs wasm-opt in its release mode only, so without wasm-opt just cargo's release profile is asked for.
    let mode: &[&str] =
        if tools.has_wasm_opt { &["build", "--release"] } else { &["build", "--cargo-profile", "release"] };
    let mut trunk = tools.trunk(mode)?;
    trunk.arg("--dist").arg(paths::dist());
    trunk.env("XTASK_BIN", this_program);
    run(trunk)
}
