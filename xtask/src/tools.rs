//! The tools of the build, each at a fixed version, each in a folder of this project's own cache. Says what it installs; does
//! nothing when everything is there; never changes what the user has installed.

use crate::paths;
use crate::shell::{self, Failure, Result, cargo, command, run, timed};
use std::path::PathBuf;
use std::process::Command;
use std::{env, fs};

pub const TRUNK_VERSION: &str = "0.21.14";
/// The one that fits leptos' `wasm_split_helpers` in the lock file.
pub const WASM_SPLIT_VERSION: &str = "0.2.4";
pub const BINARYEN_VERSION: &str = "132";
const CARGO_FUZZ_VERSION: &str = "0.13.2";
const CARGO_ABOUT_VERSION: &str = "0.9.3";
const CARGO_DENY_VERSION: &str = "0.20.2";
pub const WASM_TARGET: &str = "wasm32-unknown-unknown";

/// Everything the release build calls.
pub struct Tools {
    trunk: PathBuf,
    pub wasm_bindgen: PathBuf,
    /// Cuts the app's program in bundles.
    pub wasm_split: PathBuf,
    /// Without one the build is only larger.
    pub wasm_opt: Option<PathBuf>,
}

impl Tools {
    /// Trunk, told to download nothing by itself.
    pub fn trunk(&self, words: &[&str]) -> Command {
        let mut trunk = command(&self.trunk, words);
        trunk.env("TRUNK_OFFLINE", "true").env("TRUNK_SKIP_VERSION_CHECK", "true");
        trunk.env_remove("NO_COLOR"); // Trunk 0.21 takes only "true" and "false" there, others set "1"
        trunk
    }
}

/// Finds the tools, and installs those that are missing.
pub fn set_up() -> Result<Tools> {
    add_wasm_target()?;
    let trunk = installed_by_cargo("trunk", "trunk", TRUNK_VERSION, &["--locked"])?;
    // Its own lock file pins versions that newer compilers refuse now and then: without --locked.
    let version = locked_version(&read_lock()?, "wasm-bindgen")?;
    let wasm_bindgen = installed_by_cargo("wasm-bindgen-cli", "wasm-bindgen", &version, &[])?;
    let words = ["--locked", "--features", "build-binary"];
    let wasm_split = installed_by_cargo("wasm_split_cli_support", "wasm-split-cli", WASM_SPLIT_VERSION, &words)?;
    Ok(Tools { trunk, wasm_bindgen, wasm_split, wasm_opt: find_wasm_opt()? })
}

/// The version of a crate in Cargo.lock. Of several, the first.
pub fn locked_version(lock: &str, krate: &str) -> Result<String> {
    let name = format!("name = \"{krate}\"");
    let mut lines = lock.lines().map(str::trim).skip_while(|line| *line != name).skip(1);
    let version =
        lines.next().and_then(|line| line.strip_prefix("version = \"")).and_then(|rest| rest.strip_suffix('"'));
    version.map(str::to_owned).ok_or_else(|| {
        Failure::new(format!("Cargo.lock names no version of {krate}. Run `cargo generate-lockfile` and try again."))
    })
}

/// Installs one npm package at one version into a folder of the cache, unless it is there. Gives the package's folder.
pub fn installed_by_npm(package: &str, version: &str) -> Result<PathBuf> {
    let plain = package.replace('/', "-");
    let home = paths::cached(&plain, version)?;
    let folder = home.join("node_modules").join(package);
    if folder.is_dir() {
        return Ok(folder);
    }
    if paths::on_path("npm").is_none() {
        return Err(Failure::new(format!("{package} comes through npm, which is not here. Install Node.js with npm.")));
    }
    // Into a folder beside it, renamed at the end: one that was cut off never passes for a whole one.
    let unfinished = home.with_file_name(format!("unfinished-{plain}-{}", std::process::id()));
    timed(&format!("installing {package} {version} with npm into {}", home.display()), || {
        fs::create_dir_all(&unfinished).map_err(|error| Failure::with_file("create", &unfinished, error))?;
        let mut npm = command("npm", &["install", "--no-audit", "--no-fund", "--loglevel=error", "--prefix"]);
        npm.arg(&unfinished).arg(format!("{package}@{version}"));
        run(npm)?;
        match fs::rename(&unfinished, &home) {
            Ok(()) => Ok(()),
            // Another run was quicker.
            Err(_) if folder.is_dir() => {
                fs::remove_dir_all(&unfinished).map_err(|error| Failure::with_file("remove", &unfinished, error))
            }
            Err(error) => Err(Failure::with_file("put into place", &home, error)),
        }
    })?;
    Ok(folder)
}

/// Writes files for the readers to fail on.
pub fn cargo_fuzz() -> Result<PathBuf> {
    installed_by_cargo("cargo-fuzz", "cargo-fuzz", CARGO_FUZZ_VERSION, &["--locked"])
}

/// Gathers the licences of what is linked.
pub fn cargo_about() -> Result<PathBuf> {
    installed_by_cargo("cargo-about", "cargo-about", CARGO_ABOUT_VERSION, &["--locked", "--features", "cli"])
}

/// Holds what is linked against `xtask/deny.toml`.
pub fn cargo_deny() -> Result<PathBuf> {
    installed_by_cargo("cargo-deny", "cargo-deny", CARGO_DENY_VERSION, &["--locked", "--no-default-features"])
}

fn read_lock() -> Result<String> {
    let lock = paths::root().join("Cargo.lock");
    fs::read_to_string(&lock).map_err(|error| Failure::with_file("read", &lock, error))
}

fn add_wasm_target() -> Result {
    let sysroot = shell::read(command("rustc", &["--print", "sysroot"]))?;
    let sysroot = PathBuf::from(String::from_utf8_lossy(&sysroot).trim());
    if sysroot.join("lib/rustlib").join(WASM_TARGET).is_dir() {
        return Ok(());
    }
    if paths::on_path("rustup").is_none() {
        return Err(Failure::new(format!(
            "The Rust target {WASM_TARGET} is missing and there is no rustup to add it. Install rustup, or that target."
        )));
    }
    timed("adding the wasm target with rustup", || run(command("rustup", &["target", "add", WASM_TARGET])))
}

/// Installs one crate's program at one version into a folder of the cache, unless it is there.
pub fn installed_by_cargo(krate: &str, program: &str, version: &str, words: &[&str]) -> Result<PathBuf> {
    let home = paths::cached(program, version)?;
    let file = home.join("bin").join(paths::executable(program));
    if file.is_file() {
        return Ok(file);
    }
    timed(&format!("installing {krate} {version} into {} (once, some minutes)", home.display()), || {
        let mut install = cargo(&["install", krate, "--version", version]);
        install.args(words).arg("--root").arg(&home);
        // Not into the folder that the outer cargo may hold locked.
        install.env_remove("CARGO_TARGET_DIR").current_dir(env::temp_dir());
        run(install)
    })?;
    if file.is_file() {
        Ok(file)
    } else {
        Err(Failure::new(format!("{krate} was installed but {} is not there.", file.display())))
    }
}

fn find_wasm_opt() -> Result<Option<PathBuf>> {
    if let Some(file) = paths::on_path("wasm-opt") {
        return Ok(Some(file));
    }
    if paths::on_path("npm").is_none() {
        println!("There is neither wasm-opt nor npm: the build works without, it is only larger.");
        return Ok(None);
    }
    let file = installed_by_npm("binaryen", BINARYEN_VERSION)?.join("bin/wasm-opt");
    Ok(Some(file))
}

#[cfg(test)]
mod tests {
    use super::*;

    const LOCK: &str = r#"
version = 4

[[package]]
name = "wasm-bindgen-futures"
version = "0.4.50"

[[package]]
name = "wasm-bindgen"
version = "0.2.130"
source = "registry+https://example.org/index"
dependencies = [
 "wasm-bindgen-macro",
]
"#;

    #[test]
    fn the_lock_file_names_the_version() {
        assert_eq!(locked_version(LOCK, "wasm-bindgen").unwrap(), "0.2.130");
        assert_eq!(locked_version(LOCK, "wasm-bindgen-futures").unwrap(), "0.4.50");
    }

    #[test]
    fn a_crate_that_is_not_locked_is_a_failure() {
        for krate in ["wasm", "bindgen", "wasm-bindgen-macro"] {
            assert!(locked_version(LOCK, krate).is_err(), "{krate}");
        }
        assert!(locked_version("", "wasm-bindgen").is_err());
    }

    #[test]
    fn the_own_lock_file_is_understood() {
        assert!(locked_version(&read_lock().unwrap(), "wasm-bindgen").is_ok());
    }
}
