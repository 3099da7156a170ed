//! The release build into `dist`: Trunk for the page, its styles and plain files; then the programs, the list for offline use, and
//! whether everything is there.

use crate::shell::{Failure, Result, run, timed};
use crate::{paths, precache, programs, sizes, tools, whole};
use std::path::PathBuf;
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
    let mut trunk = tools.trunk(&["build"]);
    trunk.arg("--dist").arg(paths::dist());
    trunk.env("XTASK_BIN", this_program).env("PEPPERTALLY_BUILD", sources()?);
    run(trunk)
}

/// The step of Trunk's `post_build` hook: the programs, then the list of all files. Trunk names its folders in the environment.
pub fn finish_for_trunk() -> Result {
    let staging = env::var_os("TRUNK_STAGING_DIR").map(PathBuf::from).ok_or_else(|| {
        Failure::new("`finish` is a step of the build: Trunk calls it and says where. Run `cargo xtask build` instead.")
    })?;
    programs::build_into(&staging, &tools::set_up()?)?;
    let files = precache::write(&staging)?;
    whole::check(&staging, &files)
}

/// A name for these sources: the app compares it with its worker's, which has no hash in its file's name.
fn sources() -> Result<String> {
    let root = paths::root();
    let mut all = String::new();
    for folder in ["src", "lock/src"] {
        precache::list(&root.join(folder))?.iter().for_each(|file| all += &file.hash);
    }
    for name in ["Cargo.toml", "Cargo.lock"] {
        let file = root.join(name);
        all += &fs::read_to_string(&file).map_err(|error| Failure::with_file("read", &file, error))?;
    }
    Ok(precache::short_hash(&all))
}
