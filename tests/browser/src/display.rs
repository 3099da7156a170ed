//! Owns the display without a screen on which WebKit's window stands: one Xvfb for this process, started when it is first wanted. It
//! ends with this process, however that ends. Refuses to use a display that it did not start.

use crate::error::{Error, Result};
use crate::start::program;
use std::io::{BufRead, BufReader};
use std::process::{Command, Stdio};
use std::sync::{Mutex, PoisonError};

static NUMBER: Mutex<Option<String>> = Mutex::new(None);

/// `:99`.
pub(crate) fn number() -> Result<String> {
    let mut number = NUMBER.lock().unwrap_or_else(PoisonError::into_inner);
    if let Some(number) = &*number {
        return Ok(number.clone());
    }
    let started = start()?;
    *number = Some(started.clone());
    Ok(started)
}

fn start() -> Result<String> {
    let xvfb = program("XVFB", &["/usr/bin/Xvfb"])?;
    // The shell outlives this process by a moment: its input ends with us, and it takes the display along.
    let script = "\"$0\" -displayfd 1 -screen 0 1600x1600x24 -nolisten tcp <&- 2>/dev/null & read -r _; kill $!; wait";
    let mut shell = Command::new("/bin/sh")
        .args(["-c", script])
        .arg(&xvfb)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .map_err(Error::io(format!("starting {}", xvfb.display())))?;
    let mut line = String::new();
    if let Some(out) = shell.stdout.take() {
        BufReader::new(out).read_line(&mut line).map_err(Error::io("reading the number of the display"))?;
    }
    match line.trim().parse::<u32>() {
        Ok(number) => {
            // Its end of the pipe is held open until this process is over.
            std::mem::forget(shell.stdin.take());
            Ok(format!(":{number}"))
        }
        Err(_) => Err(Error::Missing { what: format!("{} ended without naming its display.", xvfb.display()) }),
    }
}
