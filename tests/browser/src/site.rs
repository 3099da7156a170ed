//! Owns the static file server that the phone loads the app from: a folder on a free port of 127.0.0.1, on threads of this
//! process. It behaves as the plainest static host does: no fallback page, no compression. Refuses to write to the folder:
//! a changed file lives in memory only.

use crate::error::{Error, Result};
use crate::http::{Answer, Request, below, decode, read_head};
use crate::listen::{Running, Serve};
use std::collections::HashMap;
use std::net::{Ipv4Addr, SocketAddr, TcpListener, TcpStream};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::{Duration, Instant};

/// The server. It stops when it is dropped.
pub struct Site {
    shared: Arc<Shared>,
    address: SocketAddr,
    running: Option<Running>,
}

impl Site {
    /// Serves `folder` at `http://127.0.0.1:<free port>/`.
    pub fn start(folder: impl Into<PathBuf>) -> Result<Self> {
        Self::start_under(folder, "/")
    }

    /// Serves `folder` under a path, as a project's page on a static host is: `/club/tally/`.
    pub fn start_under(folder: impl Into<PathBuf>, path: &str) -> Result<Self> {
        let folder = folder.into();
        let prefix = format!("/{}", path.trim_matches('/'));
        let prefix = if prefix == "/" { prefix } else { format!("{prefix}/") };
        let shared = Arc::new(Shared { folder, prefix, state: Mutex::default() });
        let mut site = Self { shared, address: SocketAddr::from((Ipv4Addr::LOCALHOST, 0)), running: None };
        site.start_again()?;
        Ok(site)
    }

    /// Serves the app's release build, which `PEPPERTALLY_DIST` names.
    pub fn of_the_app() -> Result<Self> {
        Self::start(dist()?)
    }

    /// The same under a path.
    pub fn of_the_app_under(path: &str) -> Result<Self> {
        Self::start_under(dist()?, path)
    }

    /// Where the app is: `http://127.0.0.1:43123/`, with the sub-path and a slash at the end.
    pub fn base(&self) -> String {
        format!("http://{}{}", self.address, self.shared.prefix)
    }

    /// Refuses connections from now on, as a gym without signal does. Open ones are cut.
    pub fn stop(&mut self) {
        self.running = None;
    }

    /// Serves again, on the same port.
    pub fn start_again(&mut self) -> Result<()> {
        if self.running.is_some() {
            return Ok(());
        }
        // The port may be in use for a moment, as some other connection's outgoing one.
        let limit = Instant::now() + Duration::from_secs(5);
        let listener = loop {
            match TcpListener::bind(self.address) {
                Ok(listener) => break listener,
                Err(_) if self.address.port() != 0 && Instant::now() < limit => std::thread::yield_now(),
                Err(error) => return Err(Error::io(format!("opening {}", self.address))(error)),
            }
        };
        self.address = listener.local_addr().map_err(Error::io("asking for the server's port"))?;
        self.running = Some(Running::start(listener, Arc::clone(&self.shared)));
        Ok(())
    }

    pub fn is_running(&self) -> bool {
        self.running.is_some()
    }

    /// From now on `path` (relative to the base, `sw.js`) answers with `body`: a new version of the app, say.
    pub fn change(&self, path: &str, body: impl Into<Vec<u8>>) {
        self.shared.lock().changed.insert(path.to_string(), Some(body.into()));
    }

    /// From now on `path` is not there.
    pub fn take_away(&self, path: &str) {
        self.shared.lock().changed.insert(path.to_string(), None);
    }

    /// The path of a file of the app's program, whose folder bears the build's name.
    pub fn in_program(&self, name: &str) -> Result<String> {
        let folder = &self.shared.folder;
        let listed = std::fs::read_dir(folder).map_err(Error::io(format!("listing {}", folder.display())))?;
        let folders = listed.filter_map(|entry| entry.ok()?.file_name().into_string().ok());
        let path = folders.filter(|folder| folder.starts_with("app-")).map(|folder| format!("{folder}/{name}"));
        let missing = || Error::Missing { what: format!("The build has no {name} in the folder of its program.") };
        path.into_iter().find(|path| folder.join(path).is_file()).ok_or_else(missing)
    }

    /// Every file is as in the folder again.
    pub fn change_back(&self) {
        self.shared.lock().changed.clear();
    }

    /// How long answers may be kept by the browser's own cache, in seconds. Until this is called: not at all, unasked.
    /// Many static hosts say 600, which a service worker's precache must survive.
    pub fn cache_for_s(&self, seconds: u32) {
        self.shared.lock().cache_s = seconds;
    }

    /// Every request so far, in the order of arrival.
    pub fn requests(&self) -> Vec<Request> {
        self.shared.lock().requests.clone()
    }

    /// How often `path` (relative to the base) was asked for, whatever its query.
    pub fn count(&self, path: &str) -> usize {
        let whole = format!("{}{path}", self.shared.prefix);
        self.shared.lock().requests.iter().filter(|r| r.target.split('?').next() == Some(&whole)).count()
    }

    pub fn forget_requests(&self) {
        self.shared.lock().requests.clear();
    }
}

/// The folder with the app's release build.
pub(crate) fn dist() -> Result<PathBuf> {
    let missing = || Error::Missing {
        what:
            "PEPPERTALLY_DIST does not name the folder of the release build. `cargo xtask test` builds it and sets it."
                .to_string(),
    };
    let folder = PathBuf::from(std::env::var_os("PEPPERTALLY_DIST").ok_or_else(missing)?);
    if folder.join("index.html").is_file() { Ok(folder) } else { Err(missing()) }
}

struct Shared {
    folder: PathBuf,
    prefix: String,
    state: Mutex<State>,
}

#[derive(Default)]
struct State {
    requests: Vec<Request>,
    /// `None`: taken away.
    changed: HashMap<String, Option<Vec<u8>>>,
    cache_s: u32,
}

impl Shared {
    fn lock(&self) -> MutexGuard<'_, State> {
        self.state.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn find(&self, target: &str) -> Answer {
        let nothing = || Answer::plain(404, "Nothing here.");
        let path = target.split(['?', '#']).next().unwrap_or(target);
        if format!("{path}/") == self.prefix {
            return Answer::moved(self.prefix.clone());
        }
        let Some(name) = path.strip_prefix(&self.prefix).and_then(decode) else { return nothing() };
        let name = if name.is_empty() || name.ends_with('/') { format!("{name}index.html") } else { name };
        let state = self.lock();
        let body = match state.changed.get(&name) {
            Some(changed) => changed.clone(),
            None => below(&self.folder, &name).and_then(|file| read(&file)),
        };
        let cache = if state.cache_s == 0 { "no-cache".to_string() } else { format!("max-age={}", state.cache_s) };
        body.map_or_else(nothing, |body| Answer::file(&name, body, &cache))
    }
}

fn read(file: &Path) -> Option<Vec<u8>> {
    std::fs::read(file).ok()
}

impl Serve for Shared {
    fn serve_one(&self, stream: &TcpStream) {
        let Some((method, target)) = read_head(stream) else { return };
        let answer = match method.as_str() {
            "GET" | "HEAD" => self.find(&target),
            _ => Answer::plain(405, "Only files here."),
        };
        let head_only = method == "HEAD";
        self.lock().requests.push(Request { method, target, status: answer.status });
        // The browser may have gone by now, which is its own affair.
        answer.write(stream, head_only).unwrap_or(());
    }
}
