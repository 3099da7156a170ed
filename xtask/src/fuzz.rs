//! Files and records that a fuzzer writes (`tests/fuzz`), from the frozen fixtures on. Without a sanitizer, so that the stable compiler does.

use crate::shell::{Failure, Result, command, run, timed};
use crate::tools;
use std::fs;
use std::path::Path;

/// What is fuzzed: the target, the ending of the fixtures it begins with, the longest input in bytes.
const TARGETS: [(&str, &str, usize); 3] =
    [("read", "json", 32_768), ("take", "json", 16_384), ("record", "jsonl", 4_096)];
const FIXTURES: &str = "tests/fixtures";

/// How long each target runs, in seconds.
#[derive(Clone, Copy)]
pub struct Seconds(pub u32);

/// In every test.
pub const SHORT: Seconds = Seconds(15);

/// `None`: ten million runs of each, for the record.
pub fn run_all(how_long: Option<Seconds>) -> Result {
    let fuzzer = tools::cargo_fuzz()?;
    timed("files and records that a fuzzer writes", || {
        let work = std::env::temp_dir().join(format!("peppertally-fuzz-{}", std::process::id()));
        for (target, ending, longest) in TARGETS {
            let (seeds, found) = (work.join(target).join("seeds"), work.join(target).join("found"));
            create(&found)?;
            sow(&seeds, ending)?;
            let mut fuzz = command(&fuzzer, &["run", "--fuzz-dir", "tests/fuzz", "--sanitizer", "none", target]);
            fuzz.arg(&found).arg(&seeds).args(["--", "-verbosity=0", "-print_final_stats=1", "-timeout=20"]);
            fuzz.arg(format!("-max_len={longest}")).arg(match how_long {
                Some(Seconds(n)) => format!("-max_total_time={n}"),
                None => "-runs=10000000".to_owned(),
            });
            run(fuzz)?;
        }
        fs::remove_dir_all(&work).map_err(|error| Failure::with_file("remove", &work, error))
    })
}

/// A file a fixture; of a file of records, a file a line.
fn sow(into: &Path, ending: &str) -> Result {
    create(into)?;
    let fixtures = Path::new(FIXTURES);
    let listed = fs::read_dir(fixtures).map_err(|error| Failure::with_file("list", fixtures, error))?;
    for file in listed {
        let file = file.map_err(|error| Failure::with_file("list", fixtures, error))?.path();
        if file.extension().is_none_or(|end| end != ending) {
            continue;
        }
        let name = file.file_stem().unwrap_or_default().to_string_lossy().into_owned();
        let text = fs::read_to_string(&file).map_err(|error| Failure::with_file("read", &file, error))?;
        let parts: Vec<&str> = if ending == "jsonl" { text.lines().collect() } else { vec![&text] };
        for (part, no) in parts.into_iter().zip(0..) {
            let seed = into.join(format!("{name}-{no}"));
            fs::write(&seed, part).map_err(|error| Failure::with_file("write", &seed, error))?;
        }
    }
    Ok(())
}

fn create(folder: &Path) -> Result {
    fs::create_dir_all(folder).map_err(|error| Failure::with_file("create", folder, error))
}
