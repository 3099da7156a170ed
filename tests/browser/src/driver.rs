//! Owns the engine's driver: starts it on a free port, again if it ends at once, and ends it with its browser.

use crate::engine::Engine;
use crate::error::{Error, Result};
use crate::folder::Folder;
use crate::process::{Killer, LIMIT, Program};
use std::net::{Ipv4Addr, TcpListener, TcpStream};
use std::path::Path;
use std::process::Command;
use std::time::{Duration, Instant};

/// How often a driver is started that ends before it is ready.
const TRIES: usize = 4;

/// A running driver. Dropping it ends the browser that it started and the driver.
pub(crate) struct Driver {
    program: Program,
    port: u16,
}

impl Driver {
    /// Starts the engine's driver on a free port.
    pub(crate) fn start(engine: Engine, folder: &Folder) -> Result<Self> {
        Self::start_at(engine, &engine.driver()?, folder)
    }

    /// A port that is free for one kind of address may be taken for the other, and then chromedriver ends at once
    /// (from memory; that it does end so is seen): it is started again, for another port, up to `TRIES` times.
    fn start_at(engine: Engine, path: &Path, folder: &Folder) -> Result<Self> {
        let mut said = Vec::new();
        for _ in 0..TRIES {
            match Self::try_at(engine, path, folder)? {
                Ok(driver) => return Ok(driver),
                Err(line) => said.push(line),
            }
        }
        let path = path.display();
        Err(Error::Missing { what: format!("{path} ended {TRIES} times without naming its port. It said: {said:?}.") })
    }

    /// The driver, or what it said before it ended.
    fn try_at(engine: Engine, path: &Path, folder: &Folder) -> Result<std::result::Result<Self, String>> {
        let mut command = Command::new(path);
        match engine {
            Engine::Chromium => command.args(["--port=0", "--log-level=WARNING"]),
            Engine::Firefox => command
                .args(["--port=0", "--allow-system-access"])
                .env("MOZ_CRASHREPORTER_DISABLE", "1")
                // Without this it doesn't let itself be told to leave its makers' settings alone.
                .env("MOZ_REMOTE_SETTINGS_DEVTOOLS", "1"),
            Engine::WebKit => {
                let port = free_port()?;
                command
                    .arg(format!("--port={port}"))
                    .env("DISPLAY", crate::display::number()?)
                    .env("NO_AT_BRIDGE", "1");
                let mut program = Program::start(command, folder)?;
                program.reads_on();
                let silent = || format!("nothing answers at port {port}");
                return Ok(answers(port).then_some(Self { program, port }).ok_or_else(silent));
            }
        };
        let mut program = Program::start(command, folder)?;
        Ok(program.hears(port_in).map(|port| Self { program, port }))
    }

    pub(crate) fn address(&self) -> String {
        format!("http://127.0.0.1:{}", self.port)
    }

    pub(crate) fn killer(&self) -> Killer {
        self.program.killer()
    }
}

/// A driver that doesn't say its port is given one that nobody had a moment ago.
fn free_port() -> Result<u16> {
    let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, 0)).map_err(Error::io("looking for a free port"))?;
    Ok(listener.local_addr().map_err(Error::io("looking for a free port"))?.port())
}

fn answers(port: u16) -> bool {
    let limit = Instant::now() + LIMIT;
    while Instant::now() < limit {
        if TcpStream::connect((Ipv4Addr::LOCALHOST, port)).is_ok() {
            return true;
        }
        std::thread::sleep(Duration::from_millis(10));
    }
    false
}

fn port_in(line: &str) -> Option<u16> {
    let (_, rest) =
        line.split_once("started successfully on port ").or_else(|| line.split_once("Listening on 127.0.0.1:"))?;
    rest.trim_end_matches('.').parse().ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::os::unix::fs::PermissionsExt;
    use std::path::PathBuf;

    #[test]
    fn a_port_is_read_from_the_drivers_greeting() {
        assert_eq!(port_in("ChromeDriver was started successfully on port 40123."), Some(40123));
        assert_eq!(port_in("1795	geckodriver	INFO	Listening on 127.0.0.1:4455"), Some(4455));
        assert_eq!(port_in("Starting ChromeDriver 1.2.3 on port 0"), None);
    }

    /// A driver that ends at once as often as `fails` says, and keeps the count in its folder.
    fn stubborn(fails: usize) -> (Folder, PathBuf) {
        let folder = Folder::fresh(Engine::Chromium).expect("a folder");
        let path = folder.root().join("driver.sh");
        let script = format!(
            "#!/bin/sh\ncd \"$(dirname \"$0\")\"\necho >>tries\n\
             if [ \"$(wc -l <tries)\" -le {fails} ]; then echo IPv6 port not available; exit 1; fi\n\
             echo ChromeDriver was started successfully on port 40123.\nexec cat <&0\n"
        );
        std::fs::write(&path, script).expect("the script");
        std::fs::set_permissions(&path, std::fs::Permissions::from_mode(0o700)).expect("the script may run");
        (folder, path)
    }

    #[test]
    fn a_driver_that_ends_at_once_is_started_again() {
        let (folder, path) = stubborn(TRIES - 1);
        let driver = Driver::start_at(Engine::Chromium, &path, &folder).expect("started at last");
        assert_eq!(driver.port, 40123);
    }

    #[test]
    fn a_driver_that_never_starts_is_told_with_what_it_said() {
        let (folder, path) = stubborn(TRIES);
        let Err(error) = Driver::start_at(Engine::Chromium, &path, &folder) else { panic!("it started") };
        assert!(error.to_string().contains("IPv6 port not available"), "{error}");
    }
}
