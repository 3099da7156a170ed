//! How large the first download is, as it stands and after brotli. Compression is left to node or brotli, whichever is here,
//! so that this crate stays quick to compile.

use crate::paths;
use crate::shell::{Failure, Result, command, read};
use crate::{precache, programs, whole};
use std::fs;
use std::path::Path;

/// Bytes of one file.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Size {
    pub raw: u64,
    /// After brotli at its best, window 24; absent without a compressor.
    pub brotli: Option<u64>,
}

/// Prints each file's size, the first download (what must arrive before the first screen of an empty phone stands), the app with
/// its bulk, and all that is kept for offline.
pub fn print(dist: &Path) -> Result {
    let files = precache::list(dist)?;
    println!("\n{:>10} {:>10}  file", "bytes", "brotli");
    let (mut first, mut bundles, mut all) = (Vec::new(), Vec::new(), Vec::new());
    for file in files {
        let size = measure(&dist.join(&file.path))?;
        print_line(size, &file.path);
        if is_in_first_download(&file.path) {
            first.push(size);
        }
        if programs::is_bundle(&file.path) {
            bundles.push(size);
        }
        all.push(size);
    }
    print_line(sum(&all), "= everything that is kept for offline");
    print_line(sum(&[sum(&first), sum(&bundles)]), "= all of the app: with its bulk");
    print_line(sum(&first), "= first download: what the first screen needs");
    if sum(&all).brotli.is_none() {
        println!("Install node or brotli to see the sizes after compression.");
    }
    Ok(())
}

/// Icons, the manifest and the parts that load when first wanted come later.
pub fn is_in_first_download(path: &str) -> bool {
    let later = path.starts_with("icons/")
        || path.starts_with("worker")
        || path.starts_with("licences")
        || whole::LATER_RULES.contains(&path)
        || programs::is_bundle(path)
        || path.ends_with(".webmanifest")
        || path.ends_with(".json");
    !later
}

fn measure(file: &Path) -> Result<Size> {
    let raw = fs::metadata(file).map_err(|error| Failure::with_file("measure", file, error))?.len();
    Ok(Size { raw, brotli: compressed(file)? })
}

fn compressed(file: &Path) -> Result<Option<u64>> {
    const SCRIPT: &str = "const z=require('zlib'),c=z.constants,d=require('fs').readFileSync(process.argv[1]);\
        console.log(z.brotliCompressSync(d,{params:{[c.BROTLI_PARAM_QUALITY]:11,[c.BROTLI_PARAM_LGWIN]:24,\
        [c.BROTLI_PARAM_SIZE_HINT]:d.length}}).length)";
    if paths::on_path("node").is_some() {
        let mut node = command("node", &["-e", SCRIPT]);
        node.arg(file);
        let printed = String::from_utf8_lossy(&read(node)?).trim().parse();
        return printed.map(Some).map_err(|_| Failure::new("node printed no size. Try another version of node."));
    }
    if paths::on_path("brotli").is_some() {
        let mut brotli = command("brotli", &["--stdout", "--quality=11", "--lgwin=24"]);
        brotli.arg(file);
        return Ok(Some(read(brotli)?.len() as u64));
    }
    Ok(None)
}

fn sum(sizes: &[Size]) -> Size {
    let raw = sizes.iter().map(|size| size.raw).sum();
    Size { raw, brotli: sizes.iter().map(|size| size.brotli).sum() }
}

fn print_line(size: Size, name: &str) {
    let brotli = size.brotli.map_or_else(|| "?".to_owned(), |bytes| bytes.to_string());
    println!("{:>10} {brotli:>10}  {name}", size.raw);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sum_with_an_unknown_part_is_unknown() {
        let known = Size { raw: 10, brotli: Some(4) };
        assert_eq!(sum(&[known, known]), Size { raw: 20, brotli: Some(8) });
        assert_eq!(sum(&[known, Size { raw: 1, brotli: None }]), Size { raw: 11, brotli: None });
    }

    #[test]
    fn what_loads_later_is_not_in_the_first_download() {
        for (path, first) in [
            ("index.html", true),
            ("app-1f/peppertally_bg.wasm", true),
            ("app-1f/split_rest.wasm", false),
            ("base-2a.css", true),
            ("worker_bg.wasm", false),
            ("worker-lock_bg.wasm", false),
            ("worker-codes_bg.wasm", false),
            ("codes.css", false),
            ("after.css", false),
            ("icons/icon-512.png", false),
            ("manifest.webmanifest", false),
            ("library.json", false),
        ] {
            assert_eq!(is_in_first_download(path), first, "{path}");
        }
    }
}
