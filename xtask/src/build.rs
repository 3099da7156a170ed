//! The release build: Trunk, with the tools of this project, into `dist`.

use crate::shell::{Failure, Result, run, timed};
use crate::{paths, precache, sizes, tools};
use std::{env, fs};

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
    trunk.env("XTASK_BIN", this_program).env("PEPPERTALLY_BUILD", sources()?);
    run(trunk)
}

/// A name for these sources: the app compares it with its worker's, which has no hash in its file's name.
fn sources() -> Result<String> {
    let root = paths::root();
    let mut all = String::new();
    for file in precache::list(&root.join("src"))? {
        all += &file.hash;
    }
    for name in ["Cargo.toml", "Cargo.lock"] {
        let file = root.join(name);
        all += &fs::read_to_string(&file).map_err(|error| Failure::with_file("read", &file, error))?;
    }
    Ok(precache::short_hash(&all))
}
