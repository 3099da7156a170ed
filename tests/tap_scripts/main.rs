//! Tap scripts in, reports out. A script is a list of taps as a coach makes them; the lines that begin with `=` are the report
//! at that moment, worked out by hand. Every script is folded by one entry at a time and whole from shuffled entries, and every
//! undo has to restore what was there before, exactly.

mod report;
mod script;
#[path = "../support/mod.rs"]
mod support;

use script::Court;

/// Runs every case of a file. `case` begins one; `#` begins a comment.
fn check(name: &str, text: &str) {
    let mut court = Court::default();
    let mut case = String::new();
    let mut n_checked = 0;
    for (i, line) in text.lines().enumerate() {
        let line = line.split('#').next().unwrap_or_default().trim();
        let at = || format!("{name}.txt:{}", i + 1);
        if line.is_empty() {
            continue;
        } else if let Some(title) = line.strip_prefix("case ") {
            (court, case) = (Court::default(), title.to_owned());
        } else if let Some(wanted) = line.strip_prefix("= ") {
            let report = report::report(&court);
            assert!(
                report.iter().any(|had| had == wanted),
                "{}, case {case}\n wanted: {wanted}\n report:\n  {}",
                at(),
                report.join("\n  ")
            );
            n_checked += 1;
        } else if let Some(unwanted) = line.strip_prefix("! ") {
            let report = report::report(&court);
            let had = report.iter().find(|had| had.starts_with(unwanted));
            assert_eq!(had, None, "{}, case {case}: nothing should begin with '{unwanted}'", at());
            n_checked += 1;
        } else {
            court.play(line).unwrap_or_else(|why| panic!("{}, case {case}, '{line}': {why}", at()));
        }
    }
    assert!(n_checked > 0, "{name}.txt checks nothing");
}

macro_rules! scripts {
    ($($name:ident),* $(,)?) => {
        $(#[test] fn $name() { check(stringify!($name), include_str!(concat!(stringify!($name), ".txt"))); })*

        #[test]
        fn no_script_is_left_out() {
            let dir = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/tap_scripts");
            let listed = [$(stringify!($name)),*];
            for file in std::fs::read_dir(dir).unwrap() {
                let name = file.unwrap().file_name().into_string().unwrap();
                if let Some(stem) = name.strip_suffix(".txt") {
                    assert!(listed.contains(&stem), "{name} runs nowhere: add it to scripts!");
                }
            }
        }
    };
}

scripts! { floor, line, serve, two_key, told, efforts, corrections, undo, transition, duel, earn, late, ten, writers, in_row, tens, first_to,
in_time, together, lanes, games, match_game, match_notes }

#[test]
#[should_panic(expected = "wanted: Mira 1/1")]
fn a_wrong_report_fails() {
    check("made_up", "squad Mira Tove\nrun floor 2\nMira 1\n= Mira 1/1 best 1");
}

#[test]
#[should_panic(expected = "no such child")]
fn a_misspelt_name_fails() {
    check("made_up", "squad Mira Tove\nrun floor 2\nMiro 1");
}
