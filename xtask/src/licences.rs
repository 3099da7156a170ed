//! Whose code is in the app, and on what terms: a page that is kept on the phone with the app (`public/licences.html`), and that it is true.
//! Also that nothing is linked whose terms or origin were not agreed to (`xtask/deny.toml`).

use crate::shell::{Failure, Result, cargo, command, read, run, timed};
use crate::{paths, tools};
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

/// Before each crate's name and version on the page.
const MARK: &str = "<li data-crate=\"";
const AGAIN: &str = "Run `cargo xtask licences` and look at what it changes.";

/// Writes the page anew from what is linked now, into the app and into the program that locks.
pub fn write() -> Result {
    let about = tools::cargo_about()?;
    let page = paths::root().join("public/licences.html");
    let made = timed("the licences of what is linked", || {
        let of = |manifest: &str| {
            let mut generate = command(&about, &["generate", "--config", "xtask/about.toml", "--offline"]);
            generate.args(["--manifest-path", manifest, "xtask/licences.hbs"]);
            read(generate).map(|page| String::from_utf8_lossy(&page).into_owned())
        };
        Ok(joined(&of("Cargo.toml")?, &of("lock/Cargo.toml")?))
    })?;
    fs::write(&page, made).map_err(|error| Failure::with_file("write", &page, error))?;
    is_true(&page)
}

/// One page, with those parts of another that name a crate which it hasn't.
fn joined(page: &str, other: &str) -> String {
    const END: &str = "</section>";
    let named = names(page);
    let parts = other.split("<section>").skip(1).filter_map(|part| part.split(END).next());
    let new = parts.filter(|part| names(part).iter().any(|name| !named.contains(name)));
    let more: String = new.map(|part| format!("\n    <section>{part}{END}")).collect();
    match page.rsplit_once(END) {
        Some((before, after)) => format!("{before}{END}{more}{after}"),
        None => page.to_owned(),
    }
}

fn names(page: &str) -> BTreeSet<String> {
    page.split(MARK).skip(1).filter_map(|rest| rest.split('"').next()).map(str::to_owned).collect()
}

/// The page is true, and all that is linked is allowed.
pub fn check() -> Result {
    is_true(&paths::root().join("public/licences.html"))?;
    let deny = tools::cargo_deny()?;
    timed("licences and sources", || {
        run(command(&deny, &["--config", "xtask/deny.toml", "check", "licenses", "sources", "bans"]))
    })
}

/// It names whatever is linked, and beside that only what wrote code that is linked (macros).
fn is_true(page: &Path) -> Result {
    let text = fs::read_to_string(page).map_err(|error| Failure::with_file("read", page, error))?;
    names_all(&text, &crates("normal,no-proc-macro")?, &crates("normal")?)
}

/// Name and version of the crates along such edges, for the browser.
fn crates(edges: &str) -> Result<BTreeSet<String>> {
    let mut tree = cargo(&["tree", "--package", "peppertally", "--package", "lock", "--target", tools::WASM_TARGET]);
    tree.args(["--edges", edges, "--prefix", "none", "--format", "{p}"]);
    let listed = read(tree)?;
    let listed = String::from_utf8_lossy(&listed);
    // "name v1.2.3", and more behind it for what is not from the registry or was listed before.
    let crates = listed.lines().filter_map(|line| {
        let mut words = line.split_whitespace();
        Some(format!("{} {}", words.next()?, words.next()?.strip_prefix('v')?))
    });
    Ok(crates.collect())
}

fn names_all(page: &str, linked: &BTreeSet<String>, known: &BTreeSet<String>) -> Result {
    let named = names(page);
    let missing: Vec<&str> = linked.difference(&named).map(String::as_str).collect();
    let gone: Vec<&str> = named.difference(known).map(String::as_str).collect();
    if missing.is_empty() && gone.is_empty() {
        return Ok(());
    }
    Err(Failure::new(format!(
        "public/licences.html doesn't name {missing:?}, and names {gone:?}, which are not there. {AGAIN}"
    )))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_page_names_what_is_linked_and_nothing_unknown() {
        let set = |names: &[&str]| names.iter().map(|name| (*name).to_owned()).collect::<BTreeSet<String>>();
        let (linked, known) = (set(&["a 1.0.0", "b 2.1.0"]), set(&["a 1.0.0", "b 2.1.0", "macros 1.0.0"]));
        let page = |names: &[&str]| names.iter().map(|name| format!("{MARK}{name}\">…</li>\n")).collect::<String>();
        for right in [&["b 2.1.0", "a 1.0.0", "a 1.0.0"][..], &["a 1.0.0", "b 2.1.0", "macros 1.0.0"]] {
            assert!(names_all(&page(right), &linked, &known).is_ok(), "{right:?}");
        }
        for wrong in [&["a 1.0.0"][..], &["a 1.0.0", "b 2.0.0"], &["a 1.0.0", "b 2.1.0", "c 1.0.0"], &[]] {
            assert!(names_all(&page(wrong), &linked, &known).is_err(), "{wrong:?}");
        }
    }

    #[test]
    fn another_page_brings_what_is_new() {
        let part = |name: &str| format!("<section>{MARK}{name}\"></section>");
        let page = |parts: &[&str]| format!("<main>{}</main>", parts.iter().map(|name| part(name)).collect::<String>());
        let both = joined(&page(&["a 1.0.0"]), &page(&["a 1.0.0", "b 1.0.0"]));
        assert_eq!(both, format!("<main>{}\n    {}</main>", part("a 1.0.0"), part("b 1.0.0")));
    }

    #[test]
    fn what_is_linked_is_listed() {
        let linked = crates("normal,no-proc-macro").unwrap();
        assert!(linked.iter().any(|named| named.starts_with("leptos ")), "{linked:?}");
        assert!(!linked.iter().any(|named| named.starts_with("serde_derive ")), "of the compiler's time: {linked:?}");
    }
}
