//! Not shown to anybody, for `xtask/src/locks.rs`. `exchange make FOLDER` locks contents of many sizes for another implementation to open; `exchange open FOLDER` opens what it made of
//! them. Which file is which is told by their names: `N-content`, `N-words`, `N-ours.age`, `N-ours.txt`, `N-theirs.age`, `N-theirs.txt`.

use std::error::Error;
use std::fs;
use std::path::Path;

use lock::{Shape, lock, open};

const WORDS: [&str; 4] = ["four words stand apart", "", "Räder über Straße", "排球 👩‍👩‍👧"];
const SIZES: [u32; 7] = [0, 1, 600, 65_535, 65_536, 65_537, 200_000];
/// Enough to be work, and quick.
const WORK: u8 = 10;

fn main() -> Result<(), Box<dyn Error>> {
    let given: Vec<String> = std::env::args().skip(1).collect();
    let [verb, folder] = given.as_slice() else { return Err("exchange make|open FOLDER".into()) };
    let folder = Path::new(folder);
    let n = match verb.as_str() {
        "make" => make(folder)?,
        "open" => opened(folder)?,
        other => return Err(format!("exchange knows no {other}").into()),
    };
    println!("{verb}: {n} files");
    Ok(())
}

fn contents() -> impl Iterator<Item = (usize, &'static str, Vec<u8>)> {
    let all = WORDS.into_iter().flat_map(|words| SIZES.map(|size| (words, size)));
    all.enumerate()
        .map(|(n, (words, size))| (n, words, (0..size).map(|at| (at.wrapping_mul(31) % 251) as u8).collect()))
}

fn make(folder: &Path) -> Result<usize, Box<dyn Error>> {
    let mut n_made = 0;
    for (n, words, content) in contents() {
        fs::write(folder.join(format!("{n}-content")), &content)?;
        fs::write(folder.join(format!("{n}-words")), words)?;
        for (shape, end) in [(Shape::Binary, "age"), (Shape::Text, "txt")] {
            let locked = lock(&content, words, shape, WORK).map_err(|fault| fault.name())?;
            fs::write(folder.join(format!("{n}-ours.{end}")), locked)?;
            n_made += 1;
        }
    }
    Ok(n_made)
}

fn opened(folder: &Path) -> Result<usize, Box<dyn Error>> {
    let mut n_opened = 0;
    for (n, words, content) in contents() {
        for end in ["age", "txt"] {
            let file = folder.join(format!("{n}-theirs.{end}"));
            let given = open(&fs::read(&file)?, words, 1_000_000)
                .map_err(|fault| format!("{}: {}", file.display(), fault.name()))?;
            if given != content {
                return Err(format!("{}: something else is in it", file.display()).into());
            }
            n_opened += 1;
        }
    }
    Ok(n_opened)
}
