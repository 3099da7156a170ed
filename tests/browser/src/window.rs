//! Owns WebKit's window without a driver, since under one it keeps nothing: it opens a page, which does by itself what has to be done,
//! and dies by SIGKILL. Refuses to look inside: the page tells the [`crate::Site`] by what it asks for.

use crate::engine::Engine;
use crate::error::{Error, Result};
use crate::folder::Folder;
use crate::gate::Gate;
use crate::process::{Killer, Program};
use std::process::Command;

/// Where a window's storage lies, from one start to the next. Gone when it is dropped.
pub struct Home {
    gate: Gate,
    folder: Folder,
}

/// Dropping it kills it with all its processes.
pub struct Window {
    program: Program,
}

impl Home {
    pub fn fresh() -> Result<Self> {
        Ok(Self { gate: Gate::start()?, folder: Folder::fresh(Engine::WebKit)? })
    }

    pub fn open(&self, url: &str) -> Result<Window> {
        let mut command = Command::new(Engine::WebKit.browser()?);
        command
            .arg(format!("--proxy=http://{}", self.gate.address()))
            .args(["--ignore-host=127.0.0.1", "--geometry=400x700", url])
            .env("DISPLAY", crate::display::number()?)
            .env("NO_AT_BRIDGE", "1");
        let mut program = Program::start(command, &self.folder)?;
        program.reads_on();
        Ok(Window { program })
    }

    /// What left for another host: nothing should.
    pub fn attempts(&self) -> Vec<String> {
        self.gate.attempts()
    }
}

impl Window {
    pub fn killer(&self) -> Killer {
        self.program.killer()
    }
}

/// How often a browser is killed: `PEPPERTALLY_KILLS`, or twenty times.
pub fn n_kills() -> Result<u64> {
    let Some(named) = std::env::var_os("PEPPERTALLY_KILLS") else { return Ok(20) };
    let number = named.to_str().and_then(|text| text.parse().ok()).filter(|n| *n > 0);
    number.ok_or_else(|| Error::Missing { what: format!("PEPPERTALLY_KILLS is a number, not {}.", named.display()) })
}
