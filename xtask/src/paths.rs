//! Where things are. Owns no file; creates nothing.

use crate::shell::{Failure, Result};
use std::env;
use std::path::{Path, PathBuf};

/// The repository's top folder: of the checkout that this was started in, even where two share a target folder and so this program.
pub fn root() -> PathBuf {
    let started_in = env::var_os("CARGO_MANIFEST_DIR").map(PathBuf::from);
    let here = started_in.unwrap_or_else(|| PathBuf::from(env!("CARGO_MANIFEST_DIR")));
    here.parent().unwrap_or(&here).to_owned()
}

/// Where the finished files go: `dist` in the repository, or what PEPPERTALLY_DIST says.
pub fn dist() -> PathBuf {
    match env::var_os("PEPPERTALLY_DIST") {
        Some(chosen) => root().join(chosen),
        None => root().join("dist"),
    }
}

/// Where cargo builds: `target` in the repository, or what CARGO_TARGET_DIR says.
pub fn target() -> PathBuf {
    root().join(env::var_os("CARGO_TARGET_DIR").map_or_else(|| PathBuf::from("target"), PathBuf::from))
}

/// The folder of one tool at one version in this project's own cache, so that nothing the user has installed is changed.
pub fn cached(tool: &str, version: &str) -> Result<PathBuf> {
    let cache = match (env::var_os("XDG_CACHE_HOME"), env::var_os("HOME").or_else(|| env::var_os("USERPROFILE"))) {
        (Some(cache), _) if Path::new(&cache).is_absolute() => PathBuf::from(cache),
        (_, Some(home)) => Path::new(&home).join(".cache"),
        _ => {
            return Err(Failure::new(
                "There is no place to keep the tools: set XDG_CACHE_HOME to a folder that may be written.",
            ));
        }
    };
    Ok(cache.join("peppertally").join(format!("{tool}-{version}")))
}

/// The file of this name in the first folder of PATH that has one.
pub fn on_path(program: &str) -> Option<PathBuf> {
    let path = env::var_os("PATH")?;
    env::split_paths(&path).map(|folder| folder.join(executable(program))).find(|file| file.is_file())
}

/// `trunk` is `trunk.exe` on Windows.
pub fn executable(program: &str) -> String {
    format!("{program}{}", env::consts::EXE_SUFFIX)
}
