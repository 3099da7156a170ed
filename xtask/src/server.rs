//! A static file server on this machine, as plain as the plainest host: it sends files with their type and nothing else, at the
//! root or under a sub-path. Tests start and stop it. It is not meant for the open internet.

use crate::shell::{Failure, Result};
use std::fs;
use std::io::{BufRead, BufReader, Read, Write};
use std::net::{Ipv4Addr, SocketAddr, TcpListener, TcpStream};
use std::path::{Component, Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread::{self, JoinHandle};
use std::time::Duration;

const PATIENCE: Duration = Duration::from_secs(10);
const MAX_REQUEST_BYTES: u64 = 64 * 1024;

/// A folder and the path under which it is served.
#[derive(Clone, Debug)]
pub struct Site {
    folder: PathBuf,
    /// Begins and ends with `/`.
    base: String,
}

impl Site {
    /// `base` is `/` or a sub-path such as `/x/`; slashes at its ends may be left out.
    pub fn new(folder: PathBuf, base: &str) -> Result<Self> {
        if !folder.join("index.html").is_file() {
            return Err(Failure::new(format!(
                "There is no index.html in {}. Run `cargo xtask build` first.",
                folder.display()
            )));
        }
        let inner = base.trim_matches('/');
        let base = if inner.is_empty() { "/".to_owned() } else { format!("/{inner}/") };
        Ok(Self { folder, base })
    }

    /// What is sent for a request.
    fn answer(&self, method: &str, target: &str) -> Answer {
        if method != "GET" && method != "HEAD" {
            return Answer::text(405, "Only GET and HEAD are served here.");
        }
        let path = target.split(['?', '#']).next().unwrap_or_default();
        if format!("{path}/") == self.base {
            return Answer { location: Some(self.base.clone()), ..Answer::text(301, "") };
        }
        let Some(file) = path.strip_prefix(&self.base).and_then(decoded).and_then(|inner| self.file(&inner)) else {
            return Answer::text(404, "There is no such file.");
        };
        match fs::read(&file) {
            Ok(body) => Answer { status: 200, mime: mime_of(&file), location: None, body },
            Err(_) => Answer::text(404, "There is no such file."),
        }
    }

    /// Only what lies inside the folder; a folder stands for its index.html.
    fn file(&self, inner: &str) -> Option<PathBuf> {
        let inner = Path::new(inner);
        if !inner.components().all(|part| matches!(part, Component::Normal(_))) {
            return None;
        }
        let file = self.folder.join(inner);
        Some(if file.is_dir() { file.join("index.html") } else { file })
    }
}

/// A server that runs in threads of its own until it is stopped or dropped.
pub struct Server {
    at: SocketAddr,
    base: String,
    stopping: Arc<AtomicBool>,
    listening: Option<JoinHandle<()>>,
}

impl Server {
    /// Serves on this port of 127.0.0.1; port 0 takes any free one.
    pub fn start(site: Site, port: u16) -> Result<Self> {
        let trouble = |error| {
            Failure::new(format!(
                "Port {port} cannot be used ({error}). Choose another one: cargo xtask serve --port N"
            ))
        };
        let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, port)).map_err(trouble)?;
        let at = listener.local_addr().map_err(trouble)?;
        let base = site.base.clone();
        let stopping = Arc::new(AtomicBool::new(false));
        let stop = Arc::clone(&stopping);
        let listening = thread::spawn(move || listen(&listener, &site, &stop));
        Ok(Self { at, base, stopping, listening: Some(listening) })
    }

    /// Serves on this port or, if it is taken, on one of the twenty above it.
    pub fn start_near(site: Site, port: u16) -> Result<Self> {
        let free = (port..port + 20).find_map(|port| Self::start(site.clone(), port).ok());
        free.map_or_else(|| Self::start(site, port), Ok)
    }

    /// What to type into a browser. "localhost" counts as a secure place, which the offline worker needs.
    pub fn address(&self) -> String {
        format!("http://localhost:{}{}", self.at.port(), self.base)
    }

    /// Until the program is ended.
    pub fn wait(mut self) {
        if let Some(listening) = self.listening.take() {
            let _ended_or_panicked = listening.join();
        }
    }

    /// From the moment this returns, connections are refused: for a browser, no signal.
    pub fn stop(mut self) {
        self.close();
    }

    fn close(&mut self) {
        self.stopping.store(true, Ordering::SeqCst);
        let _wakes_the_listener = TcpStream::connect(self.at);
        if let Some(listening) = self.listening.take() {
            let _ended_or_panicked = listening.join();
        }
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        self.close();
    }
}

struct Answer {
    status: u16,
    mime: &'static str,
    location: Option<String>,
    body: Vec<u8>,
}

impl Answer {
    fn text(status: u16, words: &str) -> Self {
        Self { status, mime: "text/plain; charset=utf-8", location: None, body: words.as_bytes().to_vec() }
    }

    fn send(&self, stream: &mut TcpStream, with_body: bool) -> std::io::Result<()> {
        let reason = match self.status {
            200 => "OK",
            301 => "Moved Permanently",
            404 => "Not Found",
            _ => "Method Not Allowed",
        };
        let location = self.location.as_ref().map(|to| format!("Location: {to}\r\n")).unwrap_or_default();
        write!(
            stream,
            "HTTP/1.1 {} {reason}\r\nContent-Type: {}\r\nContent-Length: {}\r\nCache-Control: no-cache\r\n{location}Connection: close\r\n\r\n",
            self.status,
            self.mime,
            self.body.len(),
        )?;
        if with_body {
            stream.write_all(&self.body)?;
        }
        stream.flush()
    }
}

/// The type of a file, by its ending. WebAssembly and the manifest are refused by browsers under any other.
pub fn mime_of(file: &Path) -> &'static str {
    match file.extension().and_then(|ending| ending.to_str()).unwrap_or_default() {
        "html" => "text/html; charset=utf-8",
        "js" | "mjs" => "text/javascript; charset=utf-8",
        "css" => "text/css; charset=utf-8",
        "wasm" => "application/wasm",
        "webmanifest" => "application/manifest+json",
        "json" => "application/json",
        "svg" => "image/svg+xml",
        "png" => "image/png",
        "ico" => "image/x-icon",
        "txt" => "text/plain; charset=utf-8",
        _ => "application/octet-stream",
    }
}

fn listen(listener: &TcpListener, site: &Site, stopping: &AtomicBool) {
    for stream in listener.incoming() {
        if stopping.load(Ordering::SeqCst) {
            return;
        }
        // A connection that breaks is the browser's to repeat.
        let Ok(stream) = stream else { continue };
        let site = site.clone();
        thread::spawn(move || serve(stream, &site));
    }
}

/// One request, one answer. Browsers also open connections that they never use; those end with their patience.
fn serve(mut stream: TcpStream, site: &Site) -> Option<()> {
    stream.set_read_timeout(Some(PATIENCE)).ok()?;
    let mut reader = BufReader::new(stream.try_clone().ok()?.take(MAX_REQUEST_BYTES));
    let mut request = String::new();
    reader.read_line(&mut request).ok()?;
    let mut header = String::new();
    while reader.read_line(&mut header).ok()? > 0 && header.trim() != "" {
        header.clear();
    }
    let mut words = request.split_whitespace();
    let (method, target) = (words.next()?, words.next()?);
    site.answer(method, target).send(&mut stream, method != "HEAD").ok()
}

/// `%20` and the like; none if that is no text.
fn decoded(path: &str) -> Option<String> {
    let mut bytes = Vec::with_capacity(path.len());
    let mut rest = path.bytes();
    while let Some(byte) = rest.next() {
        if byte == b'%' {
            let digits = [rest.next()?, rest.next()?];
            bytes.push(u8::from_str_radix(std::str::from_utf8(&digits).ok()?, 16).ok()?);
        } else {
            bytes.push(byte);
        }
    }
    String::from_utf8(bytes).ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::TestFolder;

    fn site(folder: &TestFolder, base: &str) -> Site {
        Site::new(folder.path().to_owned(), base).unwrap()
    }

    fn folder(name: &str) -> TestFolder {
        TestFolder::with(name, &[("index.html", "start"), ("a b.js", "js"), ("icons/i.png", "png")])
    }

    fn check(site: &Site, target: &str, status: u16, body: &str) {
        let answer = site.answer("GET", target);
        assert_eq!((answer.status, String::from_utf8_lossy(&answer.body).as_ref()), (status, body), "{target}");
    }

    const MISSING: &str = "There is no such file.";

    #[test]
    fn serves_at_the_root() {
        let folder = folder("root");
        let site = site(&folder, "/");
        check(&site, "/", 200, "start");
        check(&site, "/?source=home", 200, "start");
        check(&site, "/a%20b.js", 200, "js");
        check(&site, "/icons/i.png", 200, "png");
        check(&site, "/icons/", 404, MISSING);
        check(&site, "/none.js", 404, MISSING);
        assert_eq!(site.answer("POST", "/").status, 405);
    }

    #[test]
    fn serves_under_a_sub_path_only() {
        let folder = folder("sub");
        for base in ["/x/y/", "x/y", "/x/y"] {
            let site = site(&folder, base);
            check(&site, "/x/y/", 200, "start");
            check(&site, "/x/y/index.html", 200, "start");
            check(&site, "/", 404, MISSING);
            check(&site, "/index.html", 404, MISSING);
            let moved = site.answer("GET", "/x/y");
            assert_eq!((moved.status, moved.location.as_deref()), (301, Some("/x/y/")));
        }
    }

    #[test]
    fn nothing_outside_the_folder_is_sent() {
        let folder = TestFolder::with("inside", &[("site/index.html", "start"), ("secret", "secret")]);
        let site = Site::new(folder.path().join("site"), "/").unwrap();
        let outside = folder.path().join("secret");
        assert!(outside.is_file());
        let absolute = format!("/{}", outside.display());
        for up in ["/../secret", "/%2e%2e/secret", "/icons/../../secret", "/..%2fsecret", absolute.as_str()] {
            check(&site, up, 404, MISSING);
        }
        check(&site, "/%ff%fe", 404, MISSING);
        check(&site, "/%4", 404, MISSING);
    }

    #[test]
    fn browsers_get_the_types_they_insist_on() {
        for (file, mime) in [
            ("index.html", "text/html; charset=utf-8"),
            ("a-1f_bg.wasm", "application/wasm"),
            ("manifest.webmanifest", "application/manifest+json"),
            ("sw.js", "text/javascript; charset=utf-8"),
            ("noending", "application/octet-stream"),
        ] {
            assert_eq!(mime_of(Path::new(file)), mime, "{file}");
        }
    }

    #[test]
    fn answers_over_the_wire_and_refuses_once_stopped() {
        let folder = folder("wire");
        let server = Server::start(site(&folder, "/"), 0).unwrap();
        let at = server.at;
        let mut stream = TcpStream::connect(at).unwrap();
        stream.write_all(b"GET / HTTP/1.1\r\nHost: localhost\r\n\r\n").unwrap();
        let mut answer = String::new();
        stream.read_to_string(&mut answer).unwrap();
        assert!(answer.starts_with("HTTP/1.1 200 OK\r\n") && answer.ends_with("\r\n\r\nstart"), "{answer}");
        assert!(answer.contains("Cache-Control: no-cache\r\n"));
        server.stop();
        assert!(TcpStream::connect(at).is_err());
    }

    #[test]
    fn a_folder_without_a_build_is_refused() {
        assert!(Site::new(std::env::temp_dir().join("peppertally-nothing-here"), "/").is_err());
    }
}
