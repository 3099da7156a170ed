//! The layers hold: every edge between the top modules is allowed, every module opens with what it owns, and the pure layers
//! name no browser and no clock. Owns the table of edges; each has its reason in DEVELOPERS.md.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// Which top module may name which.
const EDGES: &[(&str, &[&str])] = &[
    ("stats", &[]),
    ("domain", &["stats"]),
    ("wire", &["domain"]),
    ("app", &["domain", "stats", "wire"]),
    ("store", &[]),
    ("platform", &[]),
    // What passes through an action or a view model (a child's id, an outcome) is named by its own name.
    ("beside", &["app", "domain", "store", "platform"]),
    ("runtime", &["app", "beside", "domain", "store", "platform"]),
    ("ui", &["app", "domain"]),
    ("lib", &["stats", "domain", "wire", "app", "store", "platform", "beside", "runtime", "ui"]),
    ("main", &["runtime", "ui"]),
    ("bin", &["beside"]),
];

const PURE: &[&str] = &["stats", "domain", "wire", "app"];

const BROWSER: &[&str] =
    &["leptos", "web_sys", "js_sys", "wasm_bindgen", "wasm_bindgen_futures", "gloo_storage", "indexed_db_futures"];

const CLOCKS: &[&str] = &["SystemTime::now", "Instant::now", "Utc::now", "Local::now"];

/// Everything wrong with one file, by its path under `src`.
fn faults(path: &str, source: &str) -> Vec<String> {
    let top = path.split(['/', '.']).next().unwrap_or_default();
    let mut faults = Vec::new();
    if source.lines().next().is_none_or(|first| first.strip_prefix("//!").is_none_or(|says| says.trim().is_empty())) {
        faults.push(format!("{path}: opens with no `//!` line"));
    }
    let Some((_, allowed)) = EDGES.iter().find(|(from, _)| *from == top) else {
        faults.push(format!("{path}: a top module that the table of edges doesn't know"));
        return faults;
    };
    let code = code_of(source);
    for to in named(path, &code) {
        if to != top && !allowed.contains(&to.as_str()) {
            faults.push(format!("{path}: {top} names {to}"));
        }
    }
    if PURE.contains(&top) {
        let words = tokens(&code);
        for word in BROWSER {
            if words.iter().any(|w| w == word) {
                faults.push(format!("{path}: a pure layer names {word}"));
            }
        }
        let joined = words.concat();
        for clock in CLOCKS {
            if joined.contains(clock) {
                faults.push(format!("{path}: a pure layer reads a clock, {clock}"));
            }
        }
    }
    faults
}

/// The source without comments, and without what stands in texts and characters.
fn code_of(source: &str) -> String {
    let mut code = String::new();
    let mut rest = source;
    while let Some(c) = rest.chars().next() {
        let word = code.rsplit(|c: char| !c.is_alphanumeric() && c != '_').next().unwrap_or_default();
        let in_word = !matches!(word, "" | "b" | "c");
        let hashes = rest.strip_prefix('r').map(|r| r.len() - r.trim_start_matches('#').len());
        if rest.starts_with("//") {
            rest = rest.find('\n').map_or("", |end| &rest[end..]);
        } else if rest.starts_with("/*") {
            rest = rest.find("*/").map_or("", |end| &rest[end + 2..]);
        } else if let Some(n) = hashes.filter(|n| !in_word && rest[1 + n..].starts_with('"')) {
            let end = format!("\"{}", "#".repeat(n));
            let text = &rest[2 + n..];
            rest = text.find(&end).map_or("", |at| &text[at + end.len()..]);
        } else if c == '"' {
            rest = after_text(&rest[1..]);
        } else if let Some(after) = after_character(rest) {
            rest = after;
        } else {
            code.push(c);
            rest = &rest[c.len_utf8()..];
            continue;
        }
        code.push(' ');
    }
    code
}

fn after_text(rest: &str) -> &str {
    let mut escaped = false;
    for (at, c) in rest.char_indices() {
        match c {
            '"' if !escaped => return &rest[at + 1..],
            '\\' => escaped = !escaped,
            _ => escaped = false,
        }
    }
    ""
}

/// What follows a character such as `'{'`; `None` for a lifetime or anything else.
fn after_character(rest: &str) -> Option<&str> {
    let inner = rest.strip_prefix('\'')?;
    let first = inner.chars().next()?;
    if first != '\\' {
        return inner[first.len_utf8()..].strip_prefix('\'');
    }
    let escape = inner[1..].chars().next()?.len_utf8();
    inner[1 + escape..].split_once('\'').map(|(_, after)| after)
}

/// Words and signs; `::` is one sign, white space is none.
fn tokens(code: &str) -> Vec<String> {
    let mut tokens: Vec<String> = Vec::new();
    let mut in_word = false;
    for c in code.chars() {
        let word = c.is_alphanumeric() || c == '_';
        match tokens.last_mut() {
            Some(last) if word && in_word => last.push(c),
            Some(last) if c == ':' && last == ":" => last.push(c),
            _ if c.is_whitespace() => {}
            _ => tokens.push(c.to_string()),
        }
        in_word = word;
    }
    tokens
}

/// The top modules that a file names by `crate::`, `peppertally::` or as many `super::` as lead to the root.
fn named(path: &str, code: &str) -> BTreeSet<String> {
    let depth = depth(path);
    let words = tokens(code);
    // A module written inside a file lies one deeper, so there one `super` leads less far.
    let mut inner: Vec<i32> = Vec::new();
    let mut braces = 0;
    let mut tops = BTreeSet::new();
    let word = |at: usize| words.get(at).map(String::as_str).unwrap_or_default();
    let mut at = 0;
    while at < words.len() {
        match word(at) {
            "{" => {
                braces += 1;
                if at >= 2 && word(at - 2) == "mod" {
                    inner.push(braces);
                }
            }
            "}" => {
                if inner.last() == Some(&braces) {
                    inner.pop();
                }
                braces -= 1;
            }
            // The crate's own name after `::` or as a plain name is something else.
            "crate" | "peppertally" if word(at + 1) == "::" => at = collect(&words, at + 2, &mut tops),
            "super" => {
                let mut n_up = 1;
                while word(at + 1) == "::" && word(at + 2) == "super" {
                    n_up += 1;
                    at += 2;
                }
                let here = depth + inner.len();
                if n_up >= here && word(at + 1) == "::" {
                    at = collect(&words, at + 2, &mut tops);
                }
            }
            _ => {}
        }
        at += 1;
    }
    tops
}

/// The name at a path's end, or each name of a `{…}` there. Gives the place of the last word read.
fn collect(words: &[String], at: usize, tops: &mut BTreeSet<String>) -> usize {
    if words.get(at).is_none_or(|w| w != "{") {
        tops.extend(words.get(at).cloned());
        return at;
    }
    let mut depth = 0;
    let mut starts = false;
    for (at, word) in words.iter().enumerate().skip(at) {
        match word.as_str() {
            "{" => {
                depth += 1;
                starts = depth == 1;
            }
            "}" if depth == 1 => return at,
            "}" => depth -= 1,
            "," => starts = depth == 1,
            _ if starts => {
                tops.insert(word.clone());
                starts = false;
            }
            _ => {}
        }
    }
    words.len()
}

/// How many modules deep a file is: `lib.rs` 0, `stats/mod.rs` 1, `domain/replay/run.rs` 3.
fn depth(path: &str) -> usize {
    let parts = path.split('/').count();
    match path.rsplit('/').next() {
        Some("lib.rs" | "main.rs") if parts == 1 => 0,
        // A binary's file is a root of its own.
        _ if path.starts_with("bin/") => parts.saturating_sub(2),
        Some("mod.rs") => parts - 1,
        _ => parts,
    }
}

fn files(dir: &Path, found: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(dir).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            files(&path, found);
        } else if path.extension().is_some_and(|ext| ext == "rs") {
            found.push(path);
        }
    }
}

#[test]
fn the_layers_hold() {
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut found = Vec::new();
    files(&src, &mut found);
    assert!(found.len() > 20, "only {} files found under src", found.len());
    let mut all = Vec::new();
    for file in &found {
        let path = file.strip_prefix(&src).unwrap().to_str().unwrap().replace('\\', "/");
        all.extend(faults(&path, &fs::read_to_string(file).unwrap()));
    }
    assert!(all.is_empty(), "\n{}", all.join("\n"));
}

/// Each made-up source with the faults that it must have.
#[test]
fn the_checker_can_fail() {
    let check = |path: &str, source: &str, wanted: &[&str]| {
        let had: Vec<String> = faults(path, &format!("//! Owns nothing.\n{source}"));
        let had: Vec<&str> = had.iter().map(|f| f.strip_prefix(path).unwrap().trim_start_matches(": ")).collect();
        assert_eq!(had, wanted, "{path}: {source}");
    };
    check("domain/log.rs", "use crate::stats::rows::Rows;", &[]);
    check("domain/log.rs", "use crate::wire::file;", &["domain names wire"]);
    check("domain/log.rs", "fn f() { crate :: app::words::x() }", &["domain names app"]);
    check("domain/log.rs", "use peppertally::ui::x;", &["domain names ui"]);
    check("domain/log.rs", "use crate::{stats::{rows::Rows, pace}, wire as w, domain::ids};", &["domain names wire"]);
    check("domain/log.rs", "use super::super::store::local;", &["domain names store"]);
    check("domain/log.rs", "use super::ids::Clock;", &[]);
    check("domain/mod.rs", "use super::ui::x;", &["domain names ui"]);
    check("domain/replay/run.rs", "use super::super::drill::Board;", &[]);
    check("domain/replay/run.rs", "use super::super::super::{app, stats};", &["domain names app"]);
    check("domain/replay/mod.rs", "use super::super::wire;", &["domain names wire"]);
    // One deeper inside a module written in the file; back again after it.
    check("domain/log.rs", "mod tests { use super::super::ids::Clock; }", &[]);
    check("domain/log.rs", "mod tests { use super::super::super::wire::x; }", &["domain names wire"]);
    check("domain/log.rs", "mod t { fn f() {} }\nuse super::super::wire::x;", &["domain names wire"]);
    check("wire/json.rs", "use crate::stats::share;", &["wire names stats"]);
    check("stats/rows.rs", "use crate::domain::log;", &["stats names domain"]);
    check("app/mod.rs", "use crate::{domain, stats, wire};", &[]);
    check("app/mod.rs", "use crate::store::local;", &["app names store"]);
    check("store/mod.rs", "use crate::wire::file;", &["store names wire"]);
    check("platform/mod.rs", "use crate::app::model;", &["platform names app"]);
    check("runtime.rs", "use crate::{app, platform, store};", &[]);
    check("runtime.rs", "use crate::ui::app;", &["runtime names ui"]);
    check("runtime/effects.rs", "use super::super::wire::file;", &["runtime names wire"]);
    check("ui/mod.rs", "use crate::app; use crate::runtime;", &["ui names runtime"]);
    check("main.rs", "fn main() { peppertally::ui::start(peppertally::runtime::new()) }", &[]);
    check("bin/worker.rs", "use peppertally::wire::file;", &["bin names wire"]);
    check("extras/mod.rs", "", &["a top module that the table of edges doesn't know"]);
    // What pure layers may not name; and what only looks like it.
    check("app/mod.rs", "use leptos::prelude::*;", &["a pure layer names leptos"]);
    check("wire/mod.rs", "fn f(w: web_sys::Window) {}", &["a pure layer names web_sys"]);
    check("domain/log.rs", "let t = std::time::Instant\n::now();", &["a pure layer reads a clock, Instant::now"]);
    check("stats/pace.rs", "let t = chrono::Utc::now();", &["a pure layer reads a clock, Utc::now"]);
    check("ui/mod.rs", "use leptos::prelude::*;", &[]);
    check(
        "domain/log.rs",
        "// crate::wire\n/* leptos */ const A: &str = \"crate::app \\\" leptos\"; use crate::stats;",
        &[],
    );
    for odd in ["'\"'", "'{'", "'\\''", "'\\u{7d}'", "\"\\\\\"", "r#\"\"}\"#", "br\"\\\"", "&'a str"] {
        let source = format!("mod t {{ const A: X = {odd}; }} use super::super::wire::x; const B: X = {odd};");
        check("domain/log.rs", &source, &["domain names wire"]);
    }
    for source in ["", "use std::fmt;\n//! Late.", "//!\n", "/// Not of the module.\n"] {
        assert_eq!(faults("stats/rows.rs", source), ["stats/rows.rs: opens with no `//!` line"], "{source}");
    }
}
