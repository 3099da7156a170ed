//! Owns the driver's process and the browser's: starts them, finds the browser's, ends exactly those, by number.
//! Refuses to end anything by its name.

use crate::error::{Error, Result};
use rustix::process::{Pid, Signal, kill_process, kill_process_group, test_kill_process};
use std::collections::HashSet;
use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::atomic::{AtomicU32, Ordering};
use std::time::{Duration, Instant};

/// How long a process may take to start or to be gone.
const LIMIT: Duration = Duration::from_secs(20);

/// An empty page at the start, as the usual one asks search engine and account for news; and no dictionary to fetch.
const PREFERENCES: &str = r#"{
    "session": { "restore_on_startup": 4, "startup_urls": ["about:blank"] },
    "browser": { "enable_spellchecking": false },
    "spellcheck": { "dictionaries": [] }
}"#;

/// A folder of the phone's own, with the browser's profile and its downloads. Gone when it is dropped.
pub(crate) struct Folder {
    root: PathBuf,
}

impl Folder {
    pub(crate) fn fresh() -> Result<Self> {
        static NEXT: AtomicU32 = AtomicU32::new(1);
        let number = NEXT.fetch_add(1, Ordering::Relaxed);
        let root = std::env::temp_dir().join(format!("peppertally-phone-{}-{number}", std::process::id()));
        let folder = Self { root };
        for path in [folder.profile(), folder.downloads()] {
            std::fs::create_dir_all(&path).map_err(Error::io(format!("making {}", path.display())))?;
        }
        let preferences = folder.profile().join("Default");
        std::fs::create_dir_all(&preferences).map_err(Error::io("making the profile"))?;
        std::fs::write(preferences.join("Preferences"), PREFERENCES).map_err(Error::io("writing the preferences"))?;
        Ok(folder)
    }

    pub(crate) fn profile(&self) -> PathBuf {
        self.root.join("profile")
    }

    pub(crate) fn downloads(&self) -> PathBuf {
        self.root.join("downloads")
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        // A dying process may still write; it can't once it is gone, so this ends.
        let limit = Instant::now() + LIMIT;
        while std::fs::remove_dir_all(&self.root).is_err() && self.root.exists() && Instant::now() < limit {
            std::thread::sleep(Duration::from_millis(5));
        }
    }
}

/// A running driver. Dropping it ends the browser that it started and then the driver.
pub(crate) struct Driver {
    child: Child,
    port: u16,
    profile: PathBuf,
}

impl Driver {
    /// Starts `CHROMEDRIVER`, or /usr/bin/chromedriver, on a free port.
    pub(crate) fn start(profile: PathBuf) -> Result<Self> {
        let program = program("CHROMEDRIVER", "/usr/bin/chromedriver")?;
        let mut child = Command::new(&program)
            .args(["--port=0", "--log-level=WARNING"])
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .map_err(Error::io(format!("starting {}", program.display())))?;
        let port = child.stdout.take().and_then(|out| {
            let mut lines = BufReader::new(out).lines();
            let port = lines.by_ref().map_while(std::io::Result::ok).find_map(|line| port_in(&line));
            // Read on, or the driver would stand still at a full pipe.
            std::thread::spawn(move || lines.map_while(std::io::Result::ok).for_each(drop));
            port
        });
        let Some(port) = port else {
            child.kill().and_then(|()| child.wait().map(drop)).map_err(Error::io("ending the driver"))?;
            return Err(Error::Missing { what: format!("{} ended without naming its port.", program.display()) });
        };
        Ok(Self { child, port, profile })
    }

    pub(crate) fn address(&self) -> String {
        format!("http://127.0.0.1:{}", self.port)
    }

    /// What kills the browser at this moment. Made once its browser runs.
    pub(crate) fn killer(&self) -> Killer {
        Killer::of(self.child.id(), &self.profile)
    }
}

impl Drop for Driver {
    fn drop(&mut self) {
        let killer = self.killer();
        killer.fire();
        killer.wait_gone();
        // It may have ended by itself; either way it is waited for, so that no process stays.
        self.child.kill().unwrap_or(());
        self.child.wait().map(drop).unwrap_or(());
    }
}

/// Kills one browser, with all its processes, by SIGKILL: from another thread too, in the middle of a tap.
#[derive(Debug, Clone)]
pub struct Killer {
    /// The browser's own process group, which dies at one stroke.
    group: Option<Pid>,
    all: Vec<Pid>,
}

impl Killer {
    fn of(driver: u32, profile: &Path) -> Self {
        let processes = processes();
        let mut below = HashSet::from([driver]);
        // Children come in any order, so go round until nothing is added.
        loop {
            let is_new = |p: &&Process| below.contains(&p.parent) && !below.contains(&p.pid);
            let new: Vec<u32> = processes.iter().filter(is_new).map(|p| p.pid).collect();
            if new.is_empty() {
                break;
            }
            below.extend(new);
        }
        below.remove(&driver);
        let profile = profile.to_string_lossy();
        // The crash handler detaches itself, but names the profile, which is this phone's alone.
        let ours = |p: &&Process| below.contains(&p.pid) || (p.pid != driver && p.command().contains(&*profile));
        let ours: Vec<&Process> = processes.iter().filter(ours).collect();
        let browser = ours.iter().find(|p| p.parent == driver && p.group == p.pid);
        Self { group: browser.and_then(|p| pid(p.pid)), all: ours.iter().filter_map(|p| pid(p.pid)).collect() }
    }

    /// Sends SIGKILL to the whole browser and does not wait.
    pub fn fire(&self) {
        // Whoever is gone already can't be killed, which is fine.
        if let Some(group) = self.group {
            kill_process_group(group, Signal::KILL).unwrap_or(());
        }
        for pid in &self.all {
            kill_process(*pid, Signal::KILL).unwrap_or(());
        }
    }

    /// Whether every one of its processes is gone.
    pub fn is_gone(&self) -> bool {
        !self.all.iter().any(|pid| is_alive(*pid))
    }

    pub(crate) fn wait_gone(&self) {
        let limit = Instant::now() + LIMIT;
        while !self.is_gone() && Instant::now() < limit {
            std::thread::sleep(Duration::from_millis(2));
        }
    }

    pub fn n_processes(&self) -> usize {
        self.all.len()
    }
}

/// Whether a process still does anything; a dead one that nobody waited for does not.
fn is_alive(pid: Pid) -> bool {
    let state = || std::fs::read_to_string(format!("/proc/{}/stat", pid.as_raw_nonzero()));
    test_kill_process(pid).is_ok() && state().is_ok_and(|stat| !after_name(&stat).starts_with('Z'))
}

/// The program that a variable names, or the usual one.
pub(crate) fn program(variable: &str, usual: &str) -> Result<PathBuf> {
    let path = std::env::var_os(variable).map_or_else(|| PathBuf::from(usual), PathBuf::from);
    if path.is_file() {
        return Ok(path);
    }
    let what = format!("There is no {}: install Chromium and its driver, or set {variable}.", path.display());
    Err(Error::Missing { what })
}

struct Process {
    pid: u32,
    parent: u32,
    group: u32,
}

impl Process {
    fn command(&self) -> String {
        let bytes = std::fs::read(format!("/proc/{}/cmdline", self.pid)).unwrap_or_default();
        String::from_utf8_lossy(&bytes).into_owned()
    }
}

fn processes() -> Vec<Process> {
    let Ok(entries) = std::fs::read_dir("/proc") else { return Vec::new() };
    let pids = entries.flatten().filter_map(|entry| entry.file_name().to_str()?.parse().ok());
    pids.filter_map(|pid: u32| {
        let stat = std::fs::read_to_string(format!("/proc/{pid}/stat")).ok()?;
        let mut words = after_name(&stat).split(' ').skip(1);
        Some(Process { pid, parent: words.next()?.parse().ok()?, group: words.next()?.parse().ok()? })
    })
    .collect()
}

/// The fields of /proc/…/stat after the name, which may itself hold spaces and brackets: state, parent, group …
fn after_name(stat: &str) -> &str {
    stat.rsplit_once(')').map_or("", |(_, rest)| rest.trim_start())
}

fn pid(raw: u32) -> Option<Pid> {
    i32::try_from(raw).ok().and_then(Pid::from_raw)
}

fn port_in(line: &str) -> Option<u16> {
    let (_, rest) = line.split_once("started successfully on port ")?;
    rest.trim_end_matches('.').parse().ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_port_is_read_from_the_drivers_greeting() {
        assert_eq!(port_in("ChromeDriver was started successfully on port 40123."), Some(40123));
        assert_eq!(port_in("Starting ChromeDriver 1.2.3 on port 0"), None);
    }

    #[test]
    fn a_name_with_brackets_does_not_shift_the_fields() {
        assert_eq!(after_name("12 (a) b) S 4 12 12"), "S 4 12 12");
    }
}
