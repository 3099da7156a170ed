//! Owns what stands between the site and a browser that has no scripts of the driver's own before a document: it hands on what the
//! site answers, with one script more in every page, which it gives by itself whether or not the site is there; and it is told what
//! the page's console says. The page's policy stays as it is. Refuses to keep anything: without the site there is no answer.

use crate::error::{Error, Result};
use crate::http::{Answer, decode, read_head};
use crate::listen::{Running, Serve};
use sha2::{Digest, Sha256};
use std::collections::BTreeMap;
use std::io::{Read, Write};
use std::net::{Ipv4Addr, SocketAddr, TcpListener, TcpStream};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

const SCRIPTS: &str = "/__phone/scripts.js";
const TOLD: &str = "/__phone/told?";

pub(crate) struct Front {
    shared: Arc<Shared>,
    address: SocketAddr,
    path: String,
    _running: Running,
}

struct Shared {
    /// The site's own, `127.0.0.1:43123`.
    site: String,
    /// The address of its first page.
    path: String,
    state: Mutex<State>,
}

#[derive(Default)]
struct State {
    scripts: String,
    told: Vec<String>,
    /// What a page is called by its content, as the site has it and as it is handed on: the offline worker checks that.
    names: BTreeMap<String, String>,
}

impl Front {
    /// Before the site at `base`, `http://127.0.0.1:43123/club/`.
    pub(crate) fn start(base: &str) -> Result<Self> {
        let strange = || Error::Missing { what: format!("{base} is no address of a site.") };
        let (site, path) = base.strip_prefix("http://").and_then(|rest| rest.split_once('/')).ok_or_else(strange)?;
        let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, 0)).map_err(Error::io("opening the front's port"))?;
        let address = listener.local_addr().map_err(Error::io("asking for the front's port"))?;
        let path = format!("/{path}");
        let shared = Arc::new(Shared { site: site.to_string(), path: path.clone(), state: Mutex::default() });
        let running = Running::start(listener, Arc::clone(&shared));
        Ok(Self { shared, address, path, _running: running })
    }

    pub(crate) fn base(&self) -> String {
        format!("http://{}{}", self.address, self.path)
    }

    /// What runs before every document from now on.
    pub(crate) fn put_on(&self, scripts: &[String]) {
        let all = [TELLER.to_string()].iter().chain(scripts).map(|script| format!("{script}\n;\n")).collect();
        self.shared.lock().scripts = all;
    }

    /// What the console said since this was last asked.
    pub(crate) fn take_told(&self) -> Vec<String> {
        std::mem::take(&mut self.shared.lock().told)
    }
}

impl Serve for Shared {
    fn serve_one(&self, stream: &TcpStream) {
        let Some((method, target)) = read_head(stream) else { return };
        let answer = if target == SCRIPTS {
            let scripts = self.lock().scripts.clone();
            Some(Answer::file(SCRIPTS, scripts.into_bytes(), "no-store").into_bytes(false))
        } else if let Some(told) = target.strip_prefix(TOLD) {
            let told = decode(told).unwrap_or_else(|| told.to_string());
            self.lock().told.push(told);
            Some(Answer::plain(200, "").into_bytes(false))
        } else {
            self.hand_on(&method, &target)
        };
        // Without an answer the connection closes, as where nobody listens. The browser may have gone by now, its own affair.
        if let Some(answer) = answer {
            (&mut &*stream).write_all(&answer).unwrap_or(());
        }
    }
}

impl Shared {
    fn lock(&self) -> MutexGuard<'_, State> {
        self.state.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn hand_on(&self, method: &str, target: &str) -> Option<Vec<u8>> {
        let (head, body) = self.ask(method, target)?;
        if method == "HEAD" || !head.starts_with("HTTP/1.1 200") {
            return Some(whole(&head, &body));
        }
        let body = if head.contains("Content-Type: text/html") {
            self.with_script(body)
        } else if target.split('?').next().is_some_and(|path| path.ends_with("/sw.js")) {
            self.with_names(body)
        } else {
            body
        };
        Some(whole(&head, &body))
    }

    /// What the site answers, or nothing where it is away or was cut off.
    fn ask(&self, method: &str, target: &str) -> Option<(String, Vec<u8>)> {
        let mut site = TcpStream::connect(&self.site).ok()?;
        site.write_all(format!("{method} {target} HTTP/1.1\r\nHost: {}\r\n\r\n", self.site).as_bytes()).ok()?;
        let mut bytes = Vec::new();
        site.read_to_end(&mut bytes).ok()?;
        let end = bytes.windows(4).position(|four| four == b"\r\n\r\n")?;
        let body = bytes.split_off(end + 4);
        let head = String::from_utf8(bytes).ok()?;
        let length: usize = head.split("Content-Length: ").nth(1)?.lines().next()?.parse().ok()?;
        (method == "HEAD" || body.len() == length).then_some((head, body))
    }

    fn with_script(&self, page: Vec<u8>) -> Vec<u8> {
        let Ok(text) = String::from_utf8(page.clone()) else { return page };
        let Some(at) = text.find("<script").or_else(|| text.find("</html>")) else { return page };
        let more = format!("{}<script src=\"{SCRIPTS}\"></script>\n{}", &text[..at], &text[at..]).into_bytes();
        self.lock().names.insert(name(&page), name(&more));
        more
    }

    fn with_names(&self, worker: Vec<u8>) -> Vec<u8> {
        let Ok(mut text) = String::from_utf8(worker.clone()) else { return worker };
        // Every page that it names is handed on with one script more, asked for before or not.
        for named in text.split('"').filter(|word| word.ends_with(".html")) {
            if let Some((_, page)) = self.ask("GET", &format!("{}{named}", self.path)) {
                self.with_script(page);
            }
        }
        for (before, now) in &self.lock().names {
            text = text.replace(before, now);
        }
        text.into_bytes()
    }
}

fn name(content: &[u8]) -> String {
    Sha256::digest(content).iter().map(|byte| format!("{byte:02x}")).collect()
}

fn whole(head: &str, body: &[u8]) -> Vec<u8> {
    let kept = head.trim_end().lines().filter(|line| !line.starts_with("Content-Length: "));
    let mut bytes: Vec<u8> = kept.flat_map(|line| format!("{line}\r\n").into_bytes()).collect();
    bytes.extend_from_slice(format!("Content-Length: {}\r\n\r\n", body.len()).as_bytes());
    bytes.extend_from_slice(body);
    bytes
}

/// Tells what the console is told, and waits until it was heard: a page that is left may otherwise say nothing more. What is broken off
/// because the page is being left is no fault of it.
const TELLER: &str = r"(() => {
    const real = console.error.bind(console);
    let leaving = false;
    for (const kind of ['beforeunload', 'pagehide']) addEventListener(kind, () => { leaving = true; setTimeout(() => { leaving = false; }, 2000); });
    console.error = (...said) => {
        real(...said);
        if (leaving) return;
        const address = '/__phone/told?' + encodeURIComponent(said.map(one => `${one}${one?.stack ? '\n' + one.stack : ''}`).join(' ').slice(0, 2000));
        try {
            const telling = new XMLHttpRequest();
            telling.open('POST', address, false);
            telling.send();
        } catch {
            navigator.sendBeacon(address);
        }
    };
})()";

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_page_has_one_script_more_and_the_worker_knows_it_so() {
        let shared = Shared { site: String::new(), path: "/".to_string(), state: Mutex::default() };
        let page = b"<html><head><script src=\"boot.js\"></script></html>".to_vec();
        let more = shared.with_script(page.clone());
        assert_eq!(
            String::from_utf8(more.clone()).unwrap(),
            "<html><head><script src=\"/__phone/scripts.js\"></script>\n<script src=\"boot.js\"></script></html>"
        );
        let worker = shared.with_names(format!("a {} b", name(&page)).into_bytes());
        assert_eq!(String::from_utf8(worker).unwrap(), format!("a {} b", name(&more)));
    }

    #[test]
    fn the_length_told_is_that_of_what_follows() {
        let bytes = whole("HTTP/1.1 200 OK\r\nContent-Length: 9\r\nCache-Control: no-cache\r\n\r\n", b"abc");
        let text = String::from_utf8(bytes).unwrap();
        assert_eq!(text, "HTTP/1.1 200 OK\r\nCache-Control: no-cache\r\nContent-Length: 3\r\n\r\nabc");
    }
}
