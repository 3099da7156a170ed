//! What a real browser test needs: Chromium, its driver, the accessibility rules. Installs the first two only through apt-get
//! and only as root; otherwise says in one line what is missing.

use crate::paths;
use crate::shell::{Failure, Result, command, run, timed};
use crate::tools;
use std::path::PathBuf;
use std::process::Command;
use std::{env, fs};

const AXE_VERSION: &str = "4.14.1";
const CHROMIUM: [&str; 4] = ["chromium", "chromium-browser", "google-chrome", "google-chrome-stable"];
const DRIVER: [&str; 1] = ["chromedriver"];

/// Everything that the browser tests are told, each as an environment variable.
pub struct Kit {
    pub chromium: PathBuf,
    driver: PathBuf,
    axe: PathBuf,
}

impl Kit {
    /// Finds everything, and installs what is missing where that is allowed.
    pub fn set_up() -> Result<Self> {
        if find("CHROME", &CHROMIUM).is_none() || find("CHROMEDRIVER", &DRIVER).is_none() {
            install_with_apt(&["chromium", "chromium-driver"], missing)?;
        }
        let chromium = chromium()?;
        let driver = find("CHROMEDRIVER", &DRIVER).ok_or_else(missing)?;
        let axe = tools::installed_by_npm("axe-core", AXE_VERSION)?.join("axe.min.js");
        Ok(Self { chromium, driver, axe })
    }

    /// PEPPERTALLY_DIST, PEPPERTALLY_AXE, CHROME, CHROMEDRIVER: absolute paths.
    pub fn tell(&self, command: &mut Command) {
        command
            .env("PEPPERTALLY_DIST", paths::dist())
            .env("PEPPERTALLY_AXE", &self.axe)
            .env("CHROME", &self.chromium)
            .env("CHROMEDRIVER", &self.driver);
    }
}

/// Chromium alone.
pub fn chromium() -> Result<PathBuf> {
    find("CHROME", &CHROMIUM).ok_or_else(missing)
}

pub(crate) fn find(variable: &str, names: &[&str]) -> Option<PathBuf> {
    let chosen = env::var_os(variable).map(PathBuf::from).filter(|file| file.is_file());
    chosen.or_else(|| names.iter().find_map(|name| paths::on_path(name)))
}

/// As root, where there is an apt-get; else what `missing` says.
pub(crate) fn install_with_apt(packages: &[&str], missing: impl Fn() -> Failure) -> Result {
    if paths::on_path("apt-get").is_none() || !is_root() {
        return Err(missing());
    }
    timed(&format!("installing {} with apt-get", packages.join(", ")), || {
        run(command("apt-get", &["update", "--quiet"]))?;
        let mut install = command("apt-get", &["install", "--yes", "--quiet", "--no-install-recommends"]);
        install.args(packages).env("DEBIAN_FRONTEND", "noninteractive");
        run(install)
    })
}

/// Who this process is, as Linux tells it; elsewhere there is no apt-get.
fn is_root() -> bool {
    let status = fs::read_to_string("/proc/self/status").unwrap_or_default();
    let ids = status.lines().find_map(|line| line.strip_prefix("Uid:"));
    ids.and_then(|ids| ids.split_whitespace().nth(1)) == Some("0")
}

fn missing() -> Failure {
    Failure::new(
        "The browser tests need Chromium and chromedriver: install Debian's packages chromium and chromium-driver, or set \
         CHROME and CHROMEDRIVER to their files.",
    )
}
