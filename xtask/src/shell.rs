//! Running other programs, and the one error type of this crate. Never hides what a program prints.

use std::ffi::OsStr;
use std::fmt;
use std::io::{BufRead, BufReader};
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::Instant;

/// A sentence that says what went wrong and what to do about it.
#[derive(Debug, PartialEq, Eq)]
pub struct Failure(String);

pub type Result<T = ()> = std::result::Result<T, Failure>;

impl Failure {
    pub fn new(sentence: impl Into<String>) -> Self {
        Self(sentence.into())
    }

    /// What could not be done with a file or folder.
    pub fn with_file(action: &str, path: &Path, error: std::io::Error) -> Self {
        Self(format!("Could not {action} {}: {error}.", path.display()))
    }
}

impl fmt::Display for Failure {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&self.0)
    }
}

/// A command whose output goes straight to the terminal.
pub fn command(program: impl AsRef<OsStr>, words: &[&str]) -> Command {
    let mut command = Command::new(program);
    command.args(words).current_dir(crate::paths::root());
    command
}

/// Cargo, as the one that started this program.
pub fn cargo(words: &[&str]) -> Command {
    command(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into()), words)
}

/// Runs to the end; anything but success is a failure.
pub fn run(mut command: Command) -> Result {
    match command.status() {
        Ok(status) if status.success() => Ok(()),
        Ok(status) => Err(Failure::new(format!("`{}` failed ({status}); the reason stands above.", spoken(&command)))),
        Err(error) => Err(Failure::new(format!("`{}` could not be started: {error}.", spoken(&command)))),
    }
}

/// Runs to the end, passes on what is printed to standard output line by line, each after `by`, and gives whether it ended well and what that
/// was.
pub fn told(mut command: Command, by: &str) -> Result<(bool, String)> {
    let not = |error: std::io::Error, command: &Command| {
        Failure::new(format!("`{}` could not be started or heard: {error}.", spoken(command)))
    };
    let mut child = command.stdout(Stdio::piped()).spawn().map_err(|error| not(error, &command))?;
    let mut said = String::new();
    if let Some(out) = child.stdout.take() {
        for line in BufReader::new(out).lines() {
            let line = line.map_err(|error| not(error, &command))?;
            println!("{by}{line}");
            said.push_str(&line);
            said.push('\n');
        }
    }
    let status = child.wait().map_err(|error| not(error, &command))?;
    Ok((status.success(), said))
}

/// Runs to the end and gives what was printed to standard output.
pub fn read(mut command: Command) -> Result<Vec<u8>> {
    match command.stderr(Stdio::inherit()).stdin(Stdio::null()).output() {
        Ok(output) if output.status.success() => Ok(output.stdout),
        Ok(output) => Err(Failure::new(format!("`{}` failed ({}).", spoken(&command), output.status))),
        Err(error) => Err(Failure::new(format!("`{}` could not be started: {error}.", spoken(&command)))),
    }
}

/// Says what is done, does it, says how long it took.
pub fn timed<T>(what: &str, work: impl FnOnce() -> Result<T>) -> Result<T> {
    println!("\n── {what}");
    let start = Instant::now();
    let result = work();
    let seconds = start.elapsed().as_secs_f32();
    match &result {
        Ok(_) => println!("── {what}: done in {seconds:.1} s"),
        Err(_) => println!("── {what}: FAILED after {seconds:.1} s"),
    }
    result
}

fn spoken(command: &Command) -> String {
    let words = std::iter::once(command.get_program()).chain(command.get_args());
    words.map(|word| word.to_string_lossy()).collect::<Vec<_>>().join(" ")
}
