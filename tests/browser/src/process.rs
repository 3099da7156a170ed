//! Owns a program and all that it starts, which share one process group: starts them and ends exactly those, by number.
//! Refuses to end anything by the name of its program.

use crate::error::{Error, Result};
use crate::folder::Folder;
use rustix::process::{Pid, Signal, kill_process, kill_process_group};
use std::io::{BufRead, BufReader};
use std::os::unix::process::CommandExt;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::{Duration, Instant};

/// How long a process may take to start or to be gone.
pub(crate) const LIMIT: Duration = Duration::from_secs(20);

/// A program in a process group of its own, with all that it starts. Dropping it ends them.
pub(crate) struct Program {
    guard: Child,
    child: Child,
    killer: Killer,
}

impl Program {
    /// Starts it; all that it writes goes below the folder. What it says on its output is `said`.
    pub(crate) fn start(mut command: Command, folder: &Folder) -> Result<Self> {
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
        for place in ["XDG_CONFIG_HOME", "XDG_CACHE_HOME", "XDG_DATA_HOME"] {
            command.env(place, folder.root());
        }
        command
            .process_group(group.as_raw_nonzero().get())
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::null());
        let child = match command.spawn() {
            Ok(child) => child,
            Err(error) => {
                end(&mut guard);
                let name = command.get_program().to_string_lossy().into_owned();
                return Err(Error::io(format!("starting {name}"))(error));
            }
        };
        let killer = Killer { group, folder: folder.root().to_path_buf(), over: Arc::default() };
        Ok(Self { guard, child, killer })
    }

    /// The first of its lines in which something is found, or else all that it said before it ended. The rest is read on,
    /// or it would stand still at a full pipe.
    pub(crate) fn hears<T>(&mut self, find: impl Fn(&str) -> Option<T>) -> std::result::Result<T, String> {
        let Some(out) = self.child.stdout.take() else { return Err(String::new()) };
        let mut lines = BufReader::new(out).lines();
        let mut said = Vec::new();
        for line in lines.by_ref().map_while(std::io::Result::ok) {
            if let Some(found) = find(&line) {
                std::thread::spawn(move || lines.map_while(std::io::Result::ok).for_each(drop));
                return Ok(found);
            }
            said.push(line);
        }
        Err(said.join(" "))
    }

    /// What it says is read and dropped, or it would stand still at a full pipe.
    pub(crate) fn reads_on(&mut self) {
        if let Some(out) = self.child.stdout.take() {
            std::thread::spawn(move || BufReader::new(out).lines().map_while(std::io::Result::ok).for_each(drop));
        }
    }

    pub(crate) fn killer(&self) -> Killer {
        self.killer.clone()
    }
}

impl Drop for Program {
    fn drop(&mut self) {
        self.killer.fire();
        // The number of the group may be given to another one from here on.
        self.killer.over.store(true, Ordering::SeqCst);
        let limit = Instant::now() + LIMIT;
        while self.killer.living(true) > 0 && Instant::now() < limit {
            std::thread::sleep(Duration::from_millis(2));
        }
        end(&mut self.child);
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_with_brackets_does_not_shift_the_fields() {
        assert_eq!(after_name("12 (a) b) S 4 12 12"), "S 4 12 12");
    }
}
