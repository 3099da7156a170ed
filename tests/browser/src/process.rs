//! Owns the driver's process and the browser's, which share one process group: starts them and ends exactly those, by number.
//! Refuses to end anything by the name of its program.

use crate::error::{Error, Result};
use rustix::process::{Pid, Signal, kill_process, kill_process_group};
use std::io::{BufRead, BufReader};
use std::os::unix::process::CommandExt;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicU32, Ordering};
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

    pub(crate) fn root(&self) -> &Path {
        &self.root
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

/// A running driver. Dropping it ends the browser that it started and the driver.
pub(crate) struct Driver {
    guard: Child,
    driver: Child,
    port: u16,
    killer: Killer,
}

impl Driver {
    /// Starts `CHROMEDRIVER`, or /usr/bin/chromedriver, on a free port. All that it and its browser write goes below the folder.
    pub(crate) fn start(folder: &Folder) -> Result<Self> {
        let program = program("CHROMEDRIVER", "/usr/bin/chromedriver")?;
        // Leads a process group of its own, which the driver and so the browser join. When this process ends, however it
        // does, the guard's input ends, and it takes the group with it: nothing stays of an interrupted test.
        let mut guard = Command::new("/bin/sh")
            .args(["-c", "read -r _; kill -KILL 0"])
            .process_group(0)
            .stdin(Stdio::piped())
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .map_err(Error::io("starting the guard of the browser"))?;
        let group = pid(guard.id());
        let driver = Command::new(&program)
            .args(["--port=0", "--log-level=WARNING"])
            .env("XDG_CONFIG_HOME", folder.root())
            .env("XDG_CACHE_HOME", folder.root())
            .process_group(group.as_raw_nonzero().get())
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn();
        let mut driver = match driver {
            Ok(driver) => driver,
            Err(error) => {
                end(&mut guard);
                return Err(Error::io(format!("starting {}", program.display()))(error));
            }
        };
        let port = driver.stdout.take().and_then(|out| {
            let mut lines = BufReader::new(out).lines();
            let port = lines.by_ref().map_while(std::io::Result::ok).find_map(|line| port_in(&line));
            // Read on, or the driver would stand still at a full pipe.
            std::thread::spawn(move || lines.map_while(std::io::Result::ok).for_each(drop));
            port
        });
        let killer = Killer { group, folder: folder.root().to_path_buf(), over: Arc::default() };
        let running = Self { guard, driver, port: port.unwrap_or(0), killer };
        match port {
            Some(_) => Ok(running),
            None => Err(Error::Missing { what: format!("{} ended without naming its port.", program.display()) }),
        }
    }

    pub(crate) fn address(&self) -> String {
        format!("http://127.0.0.1:{}", self.port)
    }

    pub(crate) fn killer(&self) -> Killer {
        self.killer.clone()
    }
}

impl Drop for Driver {
    fn drop(&mut self) {
        self.killer.fire();
        // The number of the group may be given to another one from here on.
        self.killer.over.store(true, Ordering::SeqCst);
        let limit = Instant::now() + LIMIT;
        while self.killer.living(true) > 0 && Instant::now() < limit {
            std::thread::sleep(Duration::from_millis(2));
        }
        end(&mut self.driver);
        end(&mut self.guard);
    }
}

/// Ends a process of ours and waits for it, so that nothing stays. It may have ended by itself.
fn end(child: &mut Child) {
    child.kill().unwrap_or(());
    child.wait().map(drop).unwrap_or(());
}

/// Kills one browser, with all its processes and its driver, by SIGKILL: from another thread too, in the middle of a tap.
#[derive(Debug, Clone)]
pub struct Killer {
    group: Pid,
    folder: PathBuf,
    over: Arc<AtomicBool>,
}

impl Killer {
    /// Sends SIGKILL to the whole process group at one stroke and does not wait. Does nothing once the phone has ended it itself.
    pub fn fire(&self) {
        if self.over.load(Ordering::SeqCst) {
            return;
        }
        // Whoever is gone already can't be killed, which is fine.
        kill_process_group(self.group, Signal::KILL).unwrap_or(());
        for process in processes().iter().filter(|process| process.names(&self.folder)) {
            kill_process(pid(process.pid), Signal::KILL).unwrap_or(());
        }
    }

    /// Whether every process of the group is gone.
    pub fn is_gone(&self) -> bool {
        self.living(false) == 0
    }

    /// How many processes of the group are there: the browser's, the driver, its guard.
    pub fn n_processes(&self) -> usize {
        self.living(false)
    }

    fn living(&self, with_strays: bool) -> usize {
        let group = u32::try_from(self.group.as_raw_nonzero().get()).unwrap_or(0);
        let is_ours = |p: &&Process| p.group == group || (with_strays && p.names(&self.folder));
        processes().iter().filter(|p| !p.is_dead).filter(is_ours).count()
    }
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
    group: u32,
    /// Ended, but nobody has waited for it yet.
    is_dead: bool,
}

impl Process {
    /// Whether its command names something in a phone's folder. The crash handler leaves the group, but names its place there.
    fn names(&self, folder: &Path) -> bool {
        let bytes = std::fs::read(format!("/proc/{}/cmdline", self.pid)).unwrap_or_default();
        // With a slash, or phone 1 would end the processes of phone 12.
        String::from_utf8_lossy(&bytes).contains(&format!("{}/", folder.display()))
    }
}

fn processes() -> Vec<Process> {
    let Ok(entries) = std::fs::read_dir("/proc") else { return Vec::new() };
    let pids = entries.flatten().filter_map(|entry| entry.file_name().to_str()?.parse().ok());
    pids.filter_map(|pid: u32| {
        let stat = std::fs::read_to_string(format!("/proc/{pid}/stat")).ok()?;
        let mut words = after_name(&stat).split(' ');
        let is_dead = words.next() == Some("Z");
        Some(Process { pid, group: words.nth(1)?.parse().ok()?, is_dead })
    })
    .collect()
}

/// The fields of /proc/…/stat after the name, which may itself hold spaces and brackets: state, parent, group …
fn after_name(stat: &str) -> &str {
    stat.rsplit_once(')').map_or("", |(_, rest)| rest.trim_start())
}

/// The system's own numbers of processes are never 0 and always fit.
fn pid(raw: u32) -> Pid {
    i32::try_from(raw).ok().and_then(Pid::from_raw).unwrap_or_else(|| unreachable!("no process has the number {raw}"))
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
