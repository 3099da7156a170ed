//! Owns the size of the first download: the files that a first start really asked the server for, each after brotli at its best, as
//! a static host sends it; those of the first screen, and what is fetched once it stands. The service worker then keeps the same
//! files once more in the background; that is not counted.

use super::table::Line;
use browser_tests::{Error, Request, Result};
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

const AIM_KB: f64 = 220.0;

pub struct Download {
    /// Path, bytes as they stand, bytes after brotli; largest first.
    files: Vec<(String, usize, usize)>,
}

impl Download {
    /// Of everything that was asked for before the service worker's script.
    pub fn of(requests: &[Request]) -> Result<Self> {
        let folder = std::env::var_os("PEPPERTALLY_DIST").map(PathBuf::from);
        let folder = folder.ok_or_else(|| Error::Missing { what: "PEPPERTALLY_DIST is not set.".to_owned() })?;
        let paths = requests.iter().filter(|request| request.status == 200).map(|request| {
            let path = request.target.split('?').next().unwrap_or_default().trim_start_matches('/');
            if path.is_empty() { "index.html" } else { path }
        });
        let first: BTreeSet<&str> = paths.take_while(|path| *path != "sw.js").collect();
        let mut files = first.into_iter().map(|path| measured(&folder, path)).collect::<Result<Vec<_>>>()?;
        files.sort_by_key(|(_, _, small)| std::cmp::Reverse(*small));
        if !files.iter().any(|(path, ..)| path.ends_with(".wasm")) {
            return Err(Error::Missing {
                what: "The first start asked for no WebAssembly: nothing was measured.".to_owned(),
            });
        }
        Ok(Self { files })
    }

    pub fn print(&self) {
        println!("First download (what a first start asks for, after brotli 11, window 24)");
        let (icons, app): (Vec<_>, Vec<_>) = self.files.iter().partition(|(path, ..)| is_icon(path));
        let first: Vec<_> = app.iter().copied().filter(|(path, ..)| !is_bundle(path)).collect();
        for (path, raw, small) in &app {
            println!("  {:>9} {:>9}  {path}", kb(*raw), kb(*small));
        }
        let sum = |files: &[&(String, usize, usize)]| files.iter().fold((0, 0), |a, f| (a.0 + f.1, a.1 + f.2));
        let ((raw, small), (icons_raw, icons_small)) = (sum(&app), sum(&icons));
        println!("  {:>9} {:>9}  manifest and icons, apart", kb(icons_raw), kb(icons_small));
        println!("  {:>9} {:>9}  all but manifest and icons", kb(raw), kb(small));
        let (first_raw, first_small) = sum(&first);
        println!("  {:>9} {:>9}  of these for the first screen", kb(first_raw), kb(first_small));
        Line::aim("first screen, kB", first_small as f64 / 1000.0, AIM_KB);
        println!();
    }
}

/// As the build names what is fetched once the first screen stands.
fn is_bundle(path: &str) -> bool {
    path.rsplit('/').next().is_some_and(|name| name.starts_with("split_") || name.starts_with("chunk_"))
}

fn is_icon(path: &str) -> bool {
    path.starts_with("icons/") || path.ends_with(".webmanifest") || path == "favicon.ico"
}

fn kb(bytes: usize) -> String {
    format!("{:.1} kB", bytes as f64 / 1000.0)
}

fn measured(folder: &Path, path: &str) -> Result<(String, usize, usize)> {
    let file = folder.join(path);
    let refused = |doing: &str| {
        let doing = format!("{doing} {path}");
        move |source| Error::Io { doing, source }
    };
    let bytes = std::fs::read(&file).map_err(refused("reading"))?;
    let best =
        brotli::enc::BrotliEncoderParams { quality: 11, lgwin: 24, size_hint: bytes.len(), ..Default::default() };
    let mut small = Vec::new();
    brotli::BrotliCompress(&mut bytes.as_slice(), &mut small, &best).map_err(refused("compressing"))?;
    Ok((path.to_owned(), bytes.len(), small.len()))
}
