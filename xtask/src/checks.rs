//! Everything that must hold before a change is accepted, in order, quickest first. Stops at the first failure. The browser
//! tests come last, so that the run ends with the test runner's own lines. What may differ in Firefox and in WebKit is a step by itself.

use crate::browser::Kit;
use crate::engines::Others;
use crate::shell::{Result, cargo, run, timed};
use crate::{again, build, club, compare, fuzz, licences, locks, tools};
use std::time::Instant;

/// The whole check.
pub fn run_all() -> Result {
    let start = Instant::now();
    let kit = timed("setting up what tests need", || {
        tools::set_up()?;
        Kit::set_up()
    })?;
    for (name, words) in STAGES {
        timed(name, || run(cargo(words)))?;
    }
    licences::check()?;
    fuzz::run_all(Some(fuzz::SHORT))?;
    compare::where_python_is()?;
    club::where_python_is(club::SMALL)?;
    locks::exchange()?;
    build::release()?;
    println!("\n── the rest took {:.0} s; now the browser tests", start.elapsed().as_secs_f32());
    again::run_tests("", |names| {
        let mut tests = cargo(&BROWSER_TESTS);
        tests.args(by_name(names)).env("PEPPERTALLY_ENGINE", "chromium");
        kit.tell(&mut tests);
        tests
    })
}

/// The browser tests in Firefox and in WebKit, on a fresh release build.
pub fn run_engines() -> Result {
    let kit = Kit::set_up()?;
    let others = Others::set_up()?;
    build::release()?;
    others.check(&kit)
}

/// Runs a program of the browser tests' crate, such as `bench`, on a fresh release build.
pub fn run_browser_program(name: &str) -> Result {
    let kit = Kit::set_up()?;
    build::release()?;
    let mut program = cargo(&["run", "--quiet", "--release", "--package", "browser-tests", "--bin", name]);
    kit.tell(&mut program);
    run(program)
}

const STAGES: [(&str, &[&str]); 8] = [
    ("format", &["fmt", "--all", "--check"]),
    ("clippy", &["clippy", "--quiet", "--workspace", "--all-targets", "--", "-D", "warnings"]),
    (
        "clippy for the browser",
        &[
            "clippy",
            "--quiet",
            "--package",
            "peppertally",
            "--target",
            "wasm32-unknown-unknown",
            "--",
            "-D",
            "warnings",
        ],
    ),
    (
        "tests of the pure layers, without the browser's crates",
        &["test", "--package", "peppertally", "--no-default-features"],
    ),
    ("tests of locked copies", &["test", "--package", "lock"]),
    ("tests of the pure numbers, with simulations", &["test", "--package", "numbers"]),
    ("unit tests of the screens", &["test", "--package", "peppertally", "--lib"]),
    ("tests of xtask", &["test", "--package", "xtask"]),
];

/// One at a time: each test starts a browser of its own, and two browsers share the machine's two cores badly.
const BROWSER_TESTS: [&str; 6] = ["test", "--package", "browser-tests", "--no-fail-fast", "--", "--test-threads=1"];

/// What a program of tests is told to run those alone.
pub fn by_name(names: &[String]) -> impl Iterator<Item = &str> {
    let exact = (!names.is_empty()).then_some("--exact");
    exact.into_iter().chain(names.iter().map(String::as_str))
}
