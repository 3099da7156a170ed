//! Tests of whole browsers, on a machine that others use too: the few that fail are run once more, by name, and named. Owns who failed and whether
//! that may be told a second time; refuses to keep quiet about it. One that fails twice has failed, and so has a run in which many did.

use crate::shell::{Failure, Result, told};
use std::process::Command;

/// More than these at once are no accident.
const MOST: usize = 3;

/// Runs the tests that `of` gives a command for: all (no names), or those with exactly these names. What they say is passed on after `by`.
pub fn run_tests(by: &str, of: impl Fn(&[String]) -> Command) -> Result {
    let (ended, said) = told(of(&[]), by)?;
    if ended {
        return Ok(());
    }
    let names = failed(&said);
    // A program that died has told of none of its tests.
    let all_told =
        n_lines(&said, |line| line.starts_with("running ")) == n_lines(&said, |line| line.starts_with("test result: "));
    if !all_told || n_failed(&said) != names.len() || names.is_empty() || names.len() > MOST {
        return Err(Failure::new(format!(
            "{by}{} browser tests failed, or not all have run; the reasons stand above.",
            names.len()
        )));
    }
    let all = names.join(", ");
    println!("\n── {by}unsteady or broken, run once more: {all}");
    let (ended, _) = told(of(&names), by)?;
    if !ended {
        return Err(Failure::new(format!("{by}failed twice: {all}; the reasons stand above.")));
    }
    println!("\n── {by}UNSTEADY, failed once and passed then: {all}");
    Ok(())
}

/// The names in the lists with which each program of tests ends.
fn failed(said: &str) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    let mut in_list = false;
    for line in said.lines() {
        if line == "failures:" {
            in_list = true;
        } else if line.starts_with("----") || line.starts_with("test result") {
            // The reasons stand under the same heading, each after a line of its own.
            in_list = false;
        } else if in_list {
            let name =
                line.strip_prefix("    ").filter(|name| is_name(name) && !names.iter().any(|known| known == name));
            names.extend(name.map(str::to_owned));
        }
    }
    names
}

fn n_lines(said: &str, is: impl Fn(&str) -> bool) -> usize {
    said.lines().filter(|line| is(line)).count()
}

/// As each program counts them itself.
fn n_failed(said: &str) -> usize {
    let of_program = |line: &str| -> Option<usize> {
        let (before, _) = line.strip_prefix("test result: ")?.split_once(" failed")?;
        before.rsplit(' ').next()?.parse().ok()
    };
    said.lines().filter_map(of_program).sum()
}

fn is_name(word: &str) -> bool {
    !word.is_empty() && word.chars().all(|c| c.is_alphanumeric() || "_:".contains(c))
}

#[cfg(test)]
mod tests {
    use super::*;

    const SAID: &str = "
running 3 tests
test a::one ... ok
test a::two ... FAILED
test b::three ... FAILED

failures:

---- a::two stdout ----
Error: the driver ended
    at some place
---- b::three stdout ----
    left

failures:
    a::two
    b::three

test result: FAILED. 1 passed; 2 failed; 0 ignored; 0 measured; 0 filtered out; finished in 9.46s

running 1 test
test four ... ok

test result: ok. 1 passed; 0 failed; 0 ignored; 0 measured; 0 filtered out; finished in 0.1s
";

    /// A test run of a shell's: what it says and how it ends, the first time and when it is asked by name.
    fn of(first: &str, second: &str) -> Result {
        run_tests("a shell: ", |names| {
            let mut shell = Command::new("sh");
            shell.args(["-c", if names.is_empty() { first } else { second }, "sh"]).args(names);
            shell
        })
    }

    fn says(words: &str, code: u8) -> String {
        format!("printf '{words}'; exit {code}")
    }

    #[test]
    fn who_failed_is_read_from_the_last_lists() {
        assert_eq!(failed(SAID), ["a::two", "b::three"]);
        assert!(failed("test result: ok. 1 passed").is_empty());
    }

    #[test]
    fn what_passes_when_asked_again_has_passed() {
        let once = says(
            "running 2 tests\\nfailures:\\n    a::two\\n\\ntest result: FAILED. 1 passed; 1 failed; 0 ignored\\n",
            1,
        );
        assert_eq!(of(&once, "test \"$*\" = a::two"), Ok(()));
        assert_eq!(of(&says("test result: ok", 0), "exit 1"), Ok(()));
    }

    #[test]
    fn what_fails_twice_has_failed_and_so_have_many() {
        let ended = |n: usize| format!("test result: FAILED. 1 passed; {n} failed; 0 ignored\\n");
        assert!(of(&says(&format!("running 2 tests\\nfailures:\\n    a::two\\n{}", ended(1)), 1), "exit 1").is_err());
        let many = format!("running 5 tests\\nfailures:\\n    a\\n    b\\n    c\\n    d\\n{}", ended(4));
        assert!(of(&says(&many, 1), "exit 0").is_err());
        // One program told of its only failure, another died; one told of a failure that bears no such name.
        let died = format!("running 60 tests\\nrunning 2 tests\\nfailures:\\n    a::two\\n{}", ended(1));
        assert!(of(&says(&died, 1), "exit 0").is_err());
        let more = format!("running 2 tests\\nfailures:\\n    a::two\\n    src/lib.rs - a (line 3)\\n{}", ended(2));
        assert!(of(&says(&more, 1), "exit 0").is_err());
        // It didn't even begin.
        assert!(of("exit 101", "exit 0").is_err());
    }
}
