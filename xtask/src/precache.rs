//! Writes `sw.js`: the service worker with the list of every file of this build and its SHA-256, when all other
//! files stand. Refuses a template without the two marks, because a worker without a list would keep nothing.

use crate::paths;
use crate::shell::{Failure, Result};
use sha2::{Digest, Sha256};
use std::fmt::Write;
use std::fs;
use std::path::Path;

pub const WORKER: &str = "sw.js";
const BUILD_MARK: &str = "__BUILD__";
const FILES_MARK: &str = "__FILES__";

/// One file of the build.
#[derive(Debug, PartialEq, Eq)]
pub struct Kept {
    /// Relative, with `/` between folders: what the browser asks for.
    pub path: String,
    /// SHA-256 of the content, in hex.
    pub hash: String,
}

/// Writes it for the finished files of this folder; gives their list.
pub fn write(folder: &Path) -> Result<Vec<Kept>> {
    let template = paths::root().join("public/sw.template.js");
    let template = fs::read_to_string(&template).map_err(|error| Failure::with_file("read", &template, error))?;
    let files = list(folder)?;
    let worker = folder.join(WORKER);
    fs::write(&worker, fill_in(&template, &files)?).map_err(|error| Failure::with_file("write", &worker, error))?;
    Ok(files)
}

/// Every file below a folder in the order of its path, save the worker itself and hidden files (which hosts don't serve).
pub fn list(folder: &Path) -> Result<Vec<Kept>> {
    let mut files = Vec::new();
    collect(folder, "", &mut files)?;
    files.sort_by(|a, b| a.path.cmp(&b.path));
    Ok(files)
}

/// The worker's text. The build's name is a hash over the template and all files, so any change makes a new worker.
pub fn fill_in(template: &str, files: &[Kept]) -> Result<String> {
    for mark in [BUILD_MARK, FILES_MARK] {
        if template.matches(mark).count() != 1 {
            return Err(Failure::new(format!("public/sw.template.js must hold {mark} exactly once.")));
        }
    }
    let mut list = String::from("[\n");
    for file in files {
        if file.path.contains(['"', '\\']) || file.path.contains(char::is_control) {
            return Err(Failure::new(format!("`{}` is no name for a file on the web. Rename it.", file.path)));
        }
        let _infallible = writeln!(list, "  [\"{}\", \"{}\"],", file.path, file.hash);
    }
    list.push(']');
    let build = short_hash(&format!("{template}{list}"));
    Ok(template.replace(BUILD_MARK, &build).replace(FILES_MARK, &list))
}

/// The first 16 digits of a text's SHA-256.
pub fn short_hash(text: &str) -> String {
    let mut hash = hex(&Sha256::digest(text));
    hash.truncate(16);
    hash
}

fn collect(folder: &Path, prefix: &str, files: &mut Vec<Kept>) -> Result {
    let entries = fs::read_dir(folder).map_err(|error| Failure::with_file("list", folder, error))?;
    for entry in entries {
        let entry = entry.map_err(|error| Failure::with_file("list", folder, error))?;
        let file = entry.path();
        let name = entry.file_name().into_string().map_err(|name| {
            Failure::new(format!(
                "{} is not UTF-8. Rename that file: browsers could not ask for it.",
                name.to_string_lossy()
            ))
        })?;
        if name.starts_with('.') || (prefix.is_empty() && name == WORKER) {
            continue;
        }
        let path = format!("{prefix}{name}");
        if file.is_dir() {
            collect(&file, &format!("{path}/"), files)?;
        } else {
            let content = fs::read(&file).map_err(|error| Failure::with_file("read", &file, error))?;
            files.push(Kept { path, hash: hex(&Sha256::digest(content)) });
        }
    }
    Ok(())
}

fn hex(bytes: &[u8]) -> String {
    bytes.iter().fold(String::new(), |mut text, byte| {
        let _infallible = write!(text, "{byte:02x}");
        text
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::TestFolder;

    const TEMPLATE: &str = "const BUILD = \"__BUILD__\"; const FILES = new Map(__FILES__);";

    fn paths_of(files: &[Kept]) -> Vec<&str> {
        files.iter().map(|file| file.path.as_str()).collect()
    }

    #[test]
    fn lists_every_file_in_order_but_the_worker_and_hidden_ones() {
        let content =
            [("index.html", "a"), ("icons/b.png", "b"), ("sw.js", "old"), (".hidden", ""), ("icons/sw.js", "c")];
        let folder = TestFolder::with("list", &content);
        let files = list(folder.path()).unwrap();
        assert_eq!(paths_of(&files), ["icons/b.png", "icons/sw.js", "index.html"]);
    }

    #[test]
    fn the_hash_is_the_published_one() {
        // FIPS 180-4, example of the one-block message "abc".
        let folder = TestFolder::with("hash", &[("abc", "abc")]);
        let expected = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
        assert_eq!(list(folder.path()).unwrap()[0].hash, expected);
    }

    #[test]
    fn any_change_makes_another_build() {
        let file = |hash: &str| Kept { path: "a.js".into(), hash: hash.into() };
        let first = fill_in(TEMPLATE, &[file("00")]).unwrap();
        assert!(first.contains(r#"["a.js", "00"],"#));
        assert_eq!(first, fill_in(TEMPLATE, &[file("00")]).unwrap());
        let name = |worker: &str| worker.split('"').nth(1).map(str::to_owned);
        assert_ne!(name(&first), name(&fill_in(TEMPLATE, &[file("01")]).unwrap()));
        assert_ne!(name(&first), name(&fill_in(&format!("{TEMPLATE} "), &[file("00")]).unwrap()));
    }

    #[test]
    fn a_template_without_marks_and_a_name_that_breaks_out_are_refused() {
        assert!(fill_in("const BUILD = 1;", &[]).is_err());
        let odd = Kept { path: "a\"]);alert(1)//.js".into(), hash: String::new() };
        assert!(fill_in(TEMPLATE, &[odd]).is_err());
    }

    #[test]
    fn the_own_template_can_be_filled_in() {
        let template = fs::read_to_string(paths::root().join("public/sw.template.js")).unwrap();
        let worker = fill_in(&template, &[Kept { path: "index.html".into(), hash: "00".into() }]).unwrap();
        assert!(!worker.contains(BUILD_MARK) && !worker.contains(FILES_MARK));
    }
}
