//! Refuses a build from which something is missing: a file that the page or one of its scripts asks for, a style sheet with next
//! to nothing in it. Such a build starts, looks broken or fails at the first large task, and would be kept on phones for weeks.

use crate::precache::{Kept, WORKER};
use crate::programs::LOADER;
use crate::shell::{Failure, Result};
use std::fs;
use std::path::Path;

const PAGE: &str = "index.html";
/// Asked for by the program alone, when a screen first wants it.
const LIBRARY: &str = "library.json";
/// Rules that the program asks for: of screens that nobody sees first, and of those that show and read a moving code.
pub const LATER_RULES: [&str; 6] =
    ["library.css", "after.css", "merging.css", "notes.css", "calendar.css", "codes.css"];
/// What asks for files by name: the page's own scripts, the workers' starters (named by the program alone) and the manifest.
const ASKING: [&str; 7] = [
    "boot.js",
    "start.js",
    "offline.js",
    "worker-start.js",
    "worker-codes-start.js",
    "worker-lock-start.js",
    "manifest.webmanifest",
];
const ATTRIBUTES: [&str; 4] = [" src=\"", " href=\"", " data-js=\"", " data-wasm=\""];
const ENDS: [&str; 6] = [".js", ".wasm", ".css", ".png", ".svg", ".webmanifest"];
/// Fewer bytes of rules than this are no style sheet of ours; the smallest has ten times as many.
const LEAST_STYLE: usize = 100;

/// The files of a finished build, its worker written already.
pub fn check(folder: &Path, files: &[Kept]) -> Result {
    let read = |path: &str| {
        let file = folder.join(path);
        fs::read_to_string(&file).map_err(|error| Failure::with_file("read", &file, error))
    };
    let there = |path: &str| path == WORKER || files.iter().any(|file| file.path == path);
    let mut faults = Vec::new();
    let mut need = |by: &str, path: &str| {
        if !there(path) {
            faults.push(format!("{path} is missing; {by} asks for it"));
        }
    };
    for path in [PAGE, LIBRARY].into_iter().chain(LATER_RULES).chain(ASKING) {
        need("the app", path);
    }
    if there(PAGE) {
        asked_by_page(&read(PAGE)?).for_each(|path| need(PAGE, &path));
    }
    for script in ASKING.into_iter().filter(|script| there(script)) {
        asked_by_script(&read(script)?).for_each(|path| need(script, &path));
    }
    for loader in files.iter().filter(|file| file.path.ends_with(LOADER)) {
        let folder = loader.path.trim_end_matches(LOADER);
        asked_by_script(&read(&loader.path)?).for_each(|name| need(&loader.path, &format!("{folder}{name}")));
    }
    if !files.iter().any(|file| file.path.ends_with(LOADER)) {
        need("the program", LOADER);
    }
    for file in files {
        if fs::metadata(folder.join(&file.path)).is_ok_and(|found| found.len() == 0) {
            faults.push(format!("{} is empty", file.path));
        } else if file.path.ends_with(".css") && rules(&read(&file.path)?) < LEAST_STYLE {
            faults.push(format!("{} has next to no rules in it", file.path));
        }
    }
    if faults.is_empty() {
        return Ok(());
    }
    Err(Failure::new(format!("This build is not whole and must not reach a phone:\n  {}.", faults.join(".\n  "))))
}

/// Relative addresses in the page's tags, without what stands in comments.
fn asked_by_page(page: &str) -> impl Iterator<Item = String> {
    let page = without(page, "<!--", "-->");
    let mut asked = Vec::new();
    for attribute in ATTRIBUTES {
        let values = page.split(attribute).skip(1).filter_map(|rest| rest.split('"').next());
        asked.extend(values.map(|value| value.trim_start_matches("./").to_owned()));
    }
    asked.into_iter().filter(|path| is_file(path))
}

/// Texts in quotes that are names of files.
fn asked_by_script(script: &str) -> impl Iterator<Item = String> + use<> {
    let quoted: Vec<String> =
        script.lines().flat_map(|line| line.split('"').skip(1).step_by(2)).map(str::to_owned).collect();
    quoted.into_iter().map(|text| text.trim_start_matches("./").to_owned()).filter(|text| is_file(text))
}

fn is_file(path: &str) -> bool {
    let plain = |c: char| c.is_ascii_alphanumeric() || matches!(c, '.' | '-' | '_' | '/');
    ENDS.iter().any(|end| path.len() > end.len() && path.ends_with(end)) && path.chars().all(plain)
}

/// Bytes of a style sheet that are neither comment nor space.
fn rules(style: &str) -> usize {
    without(style, "/*", "*/").bytes().filter(|byte| !byte.is_ascii_whitespace()).count()
}

fn without(text: &str, open: &str, close: &str) -> String {
    let mut parts = text.split(open);
    let first = parts.next().unwrap_or_default().to_owned();
    parts.fold(first, |all, part| all + part.split_once(close).map_or("", |(_, after)| after))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::precache::list;
    use crate::testing::TestFolder;

    const RULES: &str = ".tile { display: flex; gap: 8px; min-height: 72px; padding: 8px 10px; border: 1px solid; } .tile-name { font-weight: 700; line-height: 1.2; }";

    fn whole() -> Vec<(&'static str, &'static str)> {
        vec![
            (
                "index.html",
                r#"<!-- <script src="never.js"> --><link rel="stylesheet" href="./base-1f.css"/><link rel="icon" href="icons/icon.svg">
                <script src="boot.js"></script><script type="module" id="start" src="./start.js" data-js="app-2a/peppertally.js" data-wasm="app-2a/peppertally_bg.wasm"></script>
                <a href="./">Try again</a><a href="https://example.org/far.js">far</a>"#,
            ),
            ("base-1f.css", RULES),
            ("icons/icon.svg", "<svg/>"),
            ("boot.js", r#"show("failed");"#),
            ("start.js", r#"document.getElementById("start");"#),
            ("offline.js", r#"await workers.register("sw.js", { scope: "./" });"#),
            ("worker-start.js", r#"importScripts("worker.js"); wasm_bindgen({ module_or_path: "worker_bg.wasm" });"#),
            (
                "worker-lock-start.js",
                r#"importScripts("worker-lock.js"); wasm_bindgen({ module_or_path: "worker-lock_bg.wasm" });"#,
            ),
            ("worker-lock.js", "let wasm_bindgen;"),
            ("worker-lock_bg.wasm", "w"),
            ("worker.js", "let wasm_bindgen;"),
            ("worker_bg.wasm", "w"),
            ("worker-codes-start.js", r#"importScripts("worker-codes.js");"#),
            ("worker-codes.js", "let wasm_bindgen;"),
            ("library.css", RULES),
            ("after.css", RULES),
            ("merging.css", RULES),
            ("notes.css", RULES),
            ("calendar.css", RULES),
            ("codes.css", RULES),
            ("library.json", "{}"),
            ("app-2a/peppertally.js", "export default 1;"),
            ("app-2a/peppertally_bg.wasm", "w"),
            (
                "app-2a/__wasm_split.js",
                r#"import { initSync } from "./peppertally.js"; fetch(new URL("./split_rest.wasm", import.meta.url));"#,
            ),
            ("app-2a/split_rest.wasm", "w"),
            ("manifest.webmanifest", r#"{ "icons": [{ "src": "icons/icon.svg", "type": "image/svg+xml" }] }"#),
        ]
    }

    /// With these files changed (`None`: gone) the build is refused in words that hold each of these; none: it is whole.
    #[track_caller]
    fn check_build(name: &str, changes: &[(&'static str, Option<&'static str>)], refused: &[&str]) {
        let mut files = whole();
        for (path, content) in changes {
            files.retain(|(p, _)| p != path);
            files.extend(content.map(|content| (*path, content)));
        }
        let folder = TestFolder::with(&format!("whole-{name}"), &files);
        let found = check(folder.path(), &list(folder.path()).unwrap());
        match found {
            Ok(()) => assert!(refused.is_empty(), "{name}: taken"),
            Err(failure) => {
                let text = failure.to_string();
                assert!(!refused.is_empty(), "{name}: {text}");
                refused.iter().for_each(|part| assert!(text.contains(part), "{name}: {text}"));
            }
        }
    }

    #[test]
    fn a_whole_build_is_taken_and_any_other_refused() {
        check_build("whole", &[], &[]);
        check_build("style-gone", &[("base-1f.css", None)], &["base-1f.css is missing; index.html asks for it"]);
        check_build("style-empty", &[("base-1f.css", Some(""))], &["base-1f.css is empty"]);
        let comment = "/* A header that says a lot about what should follow, and then nothing follows at all, not even a rule. */\n";
        check_build("style-comment", &[("base-1f.css", Some(comment))], &["base-1f.css has next to no rules"]);
        check_build("worker", &[("worker_bg.wasm", None)], &["worker_bg.wasm is missing; worker-start.js asks for it"]);
        check_build(
            "lock",
            &[("worker-lock_bg.wasm", None)],
            &["worker-lock_bg.wasm is missing; worker-lock-start.js asks for it"],
        );
        check_build("library", &[("library.json", None)], &["library.json is missing; the app asks for it"]);
        check_build("starter", &[("worker-start.js", None)], &["worker-start.js is missing; the app asks for it"]);
        let gone = |path: &'static str| [(path, None)];
        check_build(
            "program",
            &gone("app-2a/peppertally_bg.wasm"),
            &["app-2a/peppertally_bg.wasm is missing; index.html asks for it"],
        );
        check_build(
            "bundle",
            &gone("app-2a/split_rest.wasm"),
            &["app-2a/split_rest.wasm is missing; app-2a/__wasm_split.js asks for it"],
        );
        check_build(
            "loader",
            &gone("app-2a/__wasm_split.js"),
            &["__wasm_split.js is missing; the program asks for it"],
        );
        check_build(
            "icon",
            &[("icons/icon.svg", None)],
            &["index.html asks for it", "manifest.webmanifest asks for it"],
        );
        check_build("page", &[("index.html", None)], &["index.html is missing"]);
    }
}
