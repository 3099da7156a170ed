//! Owns the few lines of HTTP that the file server needs: reading a request's head, naming a file's type, writing an answer.
//! Refuses everything but GET and HEAD, and a path that leaves its folder.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::path::{Component, Path, PathBuf};

/// One request, as the server saw it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Request {
    pub method: String,
    /// As asked for, with the query: `/team/index.html?x=1`. For a proxy request or `CONNECT`, the whole target.
    pub target: String,
    /// What the server answered.
    pub status: u16,
}

/// A request's first line; the remaining head is read and dropped. `None` when the other side sent nothing.
pub(crate) fn read_head(stream: &TcpStream) -> Option<(String, String)> {
    let mut lines = BufReader::new(stream.take(64 * 1024)).lines();
    let first = lines.next()?.ok()?;
    for line in lines {
        if line.ok()?.is_empty() {
            break;
        }
    }
    let mut words = first.split(' ');
    Some((words.next()?.to_string(), words.next()?.to_string()))
}

pub(crate) struct Answer {
    pub(crate) status: u16,
    pub(crate) headers: Vec<(&'static str, String)>,
    pub(crate) body: Vec<u8>,
}

impl Answer {
    pub(crate) fn file(path: &str, body: Vec<u8>, cache_control: &str) -> Self {
        let headers = vec![("Content-Type", mime(path).to_string()), ("Cache-Control", cache_control.to_string())];
        Self { status: 200, headers, body }
    }

    pub(crate) fn plain(status: u16, text: &str) -> Self {
        Self { status, headers: vec![("Content-Type", mime(".txt").to_string())], body: text.as_bytes().to_vec() }
    }

    pub(crate) fn moved(to: String) -> Self {
        Self { status: 301, headers: vec![("Location", to)], body: Vec::new() }
    }

    pub(crate) fn write(self, mut stream: &TcpStream, head_only: bool) -> std::io::Result<()> {
        stream.write_all(&self.into_bytes(head_only))?;
        stream.flush()
    }

    pub(crate) fn into_bytes(self, head_only: bool) -> Vec<u8> {
        let reason = match self.status {
            200 => "OK",
            301 => "Moved Permanently",
            403 => "Forbidden",
            404 => "Not Found",
            405 => "Method Not Allowed",
            _ => "Answer",
        };
        let mut head = format!("HTTP/1.1 {} {reason}\r\n", self.status);
        for (name, value) in &self.headers {
            head.push_str(&format!("{name}: {value}\r\n"));
        }
        head.push_str(&format!("Content-Length: {}\r\nConnection: close\r\n\r\n", self.body.len()));
        let mut bytes = head.into_bytes();
        if !head_only {
            bytes.extend_from_slice(&self.body);
        }
        bytes
    }
}

/// The file below `root` that a decoded path names, or `None` when it would leave the folder.
pub(crate) fn below(root: &Path, path: &str) -> Option<PathBuf> {
    let relative = Path::new(path);
    let tame = relative.components().all(|part| matches!(part, Component::Normal(_)));
    tame.then(|| root.join(relative))
}

/// `%20` and the like, decoded. `None` when it isn't UTF-8 or is cut off.
pub(crate) fn decode(path: &str) -> Option<String> {
    let mut bytes = Vec::with_capacity(path.len());
    let mut rest = path.bytes();
    while let Some(byte) = rest.next() {
        if byte == b'%' {
            let high = char::from(rest.next()?).to_digit(16)?;
            let low = char::from(rest.next()?).to_digit(16)?;
            bytes.push(u8::try_from(high * 16 + low).ok()?);
        } else {
            bytes.push(byte);
        }
    }
    String::from_utf8(bytes).ok()
}

fn mime(path: &str) -> &'static str {
    match path.rsplit_once('.').map_or("", |(_, ending)| ending) {
        "html" => "text/html; charset=utf-8",
        "js" | "mjs" => "text/javascript; charset=utf-8",
        "css" => "text/css; charset=utf-8",
        "wasm" => "application/wasm",
        "json" => "application/json",
        "webmanifest" => "application/manifest+json",
        "svg" => "image/svg+xml",
        "png" => "image/png",
        "ico" => "image/x-icon",
        "woff2" => "font/woff2",
        "txt" | "md" => "text/plain; charset=utf-8",
        _ => "application/octet-stream",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_path_cannot_leave_the_folder() {
        let root = Path::new("/srv");
        assert_eq!(below(root, "a/b.js"), Some(PathBuf::from("/srv/a/b.js")));
        assert_eq!(below(root, "../secret"), None);
        assert_eq!(below(root, "a/../../secret"), None);
        assert_eq!(below(root, "/etc/passwd"), None);
    }

    #[test]
    fn percent_signs_are_decoded() {
        assert_eq!(decode("a%20b"), Some("a b".to_string()));
        assert_eq!(decode("%e4%ff"), None);
        assert_eq!(decode("%e"), None);
    }
}
