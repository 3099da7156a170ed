//! The other two engines of the browser tests: Firefox and WebKit, each with its driver, and the display without a screen on which WebKit's
//! window stands. Installs Debian's packages through apt-get and only as root, geckodriver from crates.io into the cache of this project.
//! What is missing fails the check, unless `PEPPERTALLY_ENGINES` names those that are wanted.

use crate::browser::{Kit, find, install_with_apt};
use crate::checks::by_name;
use crate::shell::{Failure, Result, cargo, timed};
use crate::{again, paths, tools};
use std::path::{Path, PathBuf};
use std::{env, fs, thread};

const GECKODRIVER_VERSION: &str = "0.37.1";
const FIREFOX: [&str; 2] = ["firefox-esr", "firefox"];
const PACKAGES: [&str; 3] = ["firefox-esr", "webkit2gtk-driver", "xvfb"];
/// Where Debian's package of the driver puts the browser that belongs to it.
const MINI_BROWSER: [&str; 2] =
    ["/usr/lib/x86_64-linux-gnu/webkit2gtk-4.1/MiniBrowser", "/usr/lib/aarch64-linux-gnu/webkit2gtk-4.1/MiniBrowser"];
/// What the other two run of the app's tests: storage and its troubles, kills, copies, no server, tabs, the whole job, transition, the
/// station, the weeks, the library. The rest is of the app and no engine's own.
const SELECTION: [&str; 12] = [
    "boards::",
    "bulk::",
    "copies::",
    "duel::",
    "hands::",
    "keeps::",
    "library::",
    "station::",
    "survive::",
    "troubles::",
    "weeks::",
    "worker::",
];

/// Firefox and WebKit, those that are wanted.
pub struct Others(Vec<Other>);

struct Other {
    name: &'static str,
    told: Vec<(&'static str, PathBuf)>,
}

impl Others {
    /// Finds them, and installs what is missing where that is allowed.
    pub fn set_up() -> Result<Self> {
        let wanted = wanted()?;
        let is_wanted = |name: &str| wanted.iter().any(|one| one == name);
        if (is_wanted("firefox") && firefox().is_none()) || (is_wanted("webkit") && webkit().is_none()) {
            install_with_apt(&PACKAGES, || missing("installed"))?;
        }
        let mut others = Vec::new();
        if is_wanted("firefox") {
            let firefox = firefox().ok_or_else(|| missing("found"))?;
            let driver = match find("GECKODRIVER", &[]) {
                Some(driver) => driver,
                None => tools::installed_by_cargo("geckodriver", "geckodriver", GECKODRIVER_VERSION, &["--locked"])?,
            };
            others.push(Other { name: "firefox", told: vec![("FIREFOX", firefox), ("GECKODRIVER", driver)] });
        }
        if is_wanted("webkit") {
            let told = webkit().ok_or_else(|| missing("found"))?;
            others.push(Other { name: "webkit", told });
        }
        Ok(Self(others))
    }

    /// The browser tests in each, and how many were left out of them.
    pub fn check(&self, kit: &Kit) -> Result {
        let note = paths::target().join("left-out.txt");
        if note.exists() {
            fs::remove_file(&note).map_err(|error| Failure::with_file("remove", &note, error))?;
        }
        // Both at once: a browser that is waited for leaves its core to the other.
        let ends: Vec<Result> = thread::scope(|scope| {
            let running: Vec<_> = self.0.iter().map(|other| scope.spawn(|| other.check(kit, &note))).collect();
            let end = |thread: thread::ScopedJoinHandle<'_, Result>| {
                thread
                    .join()
                    .unwrap_or_else(|_| Err(Failure::new("The check of an engine panicked; the reason stands above.")))
            };
            running.into_iter().map(end).collect()
        });
        if note.exists() {
            let lines = fs::read_to_string(&note).map_err(|error| Failure::with_file("read", &note, error))?;
            print!("{}", summary(&lines));
        }
        ends.into_iter().collect()
    }
}

impl Other {
    fn check(&self, kit: &Kit, note: &Path) -> Result {
        for (name, program, all) in [("the harness", "harness", &[][..]), ("the app", "app", &SELECTION[..])] {
            timed(&format!("{name} in {}", self.name), || {
                again::run_tests(&format!("{}: ", self.name), |names| {
                    let mut tests =
                        cargo(&["test", "--package", "browser-tests", "--test", program, "--", "--test-threads=1"]);
                    tests.args(if names.is_empty() { all } else { &[] }).args(by_name(names));
                    kit.tell(&mut tests);
                    tests.env("PEPPERTALLY_ENGINE", self.name).env("PEPPERTALLY_LEFT_OUT", note);
                    for (variable, path) in &self.told {
                        tests.env(variable, path);
                    }
                    tests
                })
            })?;
        }
        Ok(())
    }
}

/// Lines of what was left out, and how many they are.
fn summary(lines: &str) -> String {
    let n = lines.lines().filter(|line| line.starts_with("left out")).count();
    format!("\n── told by the other engines:\n{lines}{n} tests or steps were left out of them\n")
}

fn wanted() -> Result<Vec<String>> {
    let Ok(named) = env::var("PEPPERTALLY_ENGINES") else { return Ok(vec!["firefox".into(), "webkit".into()]) };
    let names: Vec<String> = named.split(',').map(|name| name.trim().to_owned()).collect();
    match names.iter().find(|name| !["chromium", "firefox", "webkit"].contains(&name.as_str())) {
        Some(strange) => Err(Failure::new(format!(
            "PEPPERTALLY_ENGINES names chromium, firefox and webkit, with commas between, not `{strange}`."
        ))),
        None => Ok(names),
    }
}

fn firefox() -> Option<PathBuf> {
    find("FIREFOX", &FIREFOX)
}

fn webkit() -> Option<Vec<(&'static str, PathBuf)>> {
    let browser =
        find("MINIBROWSER", &[]).or_else(|| MINI_BROWSER.map(PathBuf::from).into_iter().find(|f| f.is_file()));
    let driver = find("WEBKITDRIVER", &["WebKitWebDriver"]);
    let display = find("XVFB", &["Xvfb"]);
    Some(vec![("MINIBROWSER", browser?), ("WEBKITDRIVER", driver?), ("XVFB", display?)])
}

fn missing(what: &str) -> Failure {
    Failure::new(format!(
        "The browser tests want Firefox and WebKit too, which could not be {what}: install Debian's packages {}, or name the engines \
         that are wanted in PEPPERTALLY_ENGINES, such as chromium.",
        PACKAGES.join(", ")
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_left_out_is_counted() {
        let said =
            summary("left out on WebKit: a needs b\nWebKit: 20 kills, 9 contacts\nleft out on WebKit: c needs d\n");
        assert!(said.ends_with("c needs d\n2 tests or steps were left out of them\n"), "{said}");
    }
}
