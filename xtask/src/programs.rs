//! The WebAssembly programs, the app and its workers: cargo's release build, then wasm-bindgen, then wasm-opt. The app's own is cut in bundles between
//! the first two: what is linked, with its relocations, into what the first screen needs and what comes after it (where the cuts
//! are stands in `src/main.rs`). All its files lie in one folder that bears the hash of them all, so that a page never
//! mixes two builds.

use crate::shell::{Failure, Result, cargo, command, run};
use crate::tools::{Tools, WASM_TARGET};
use crate::{paths, precache};
use std::fs;
use std::path::{Path, PathBuf};

const APP: &str = "peppertally";
/// The programs beside the page: package, name, features. Each is loaded when it is first wanted.
const WORKERS: [Worker; 3] =
    [Worker(APP, "worker", "beside"), Worker(APP, "worker-codes", "beside"), Worker("lock", "worker-lock", "")];
/// What loads the bundles, as the cutter names it.
pub const LOADER: &str = "__wasm_split.js";
/// What comes after the first screen, as `src/main.rs` and the cutter name it.
const BULK: &str = "split_bulk.wasm";
/// Where the page names the folder of the program.
const FOLDER_MARK: &str = "__APP__";
/// The profile of Cargo.toml for what works beside the page.
const FOR_SPEED: &str = "worker";
const SMALL: &str = "-Os";
const FAST: &str = "-O3";
const OPTIMISE: [&str; 10] = [
    "--converge",
    // A function with one caller isn't made a part of it, unless it is small: a browser translates a function whole when it is first
    // called, and all that may be asked of the app would be one.
    "--one-caller-inline-max-function-size=400",
    "--low-memory-unused",
    "--reorder-functions-by-name",
    "--enable-bulk-memory",
    "--enable-nontrapping-float-to-int",
    "--enable-sign-ext",
    "--enable-mutable-globals",
    "--enable-reference-types",
    "--enable-multivalue",
];

#[derive(Clone, Copy)]
struct Worker(&'static str, &'static str, &'static str);

/// Builds all into the folder of finished files and names the app's in its page.
pub fn build_into(site: &Path, tools: &Tools) -> Result {
    let work = paths::target().join("programs");
    empty(&work)?;
    WORKERS.into_iter().try_for_each(|program| build_worker(program, site, &work, tools))?;
    let app = work.join("app");
    build_app(&app, &work, tools)?;
    let folder = folder_name(&app)?;
    copy_all(&app, &site.join(&folder))?;
    name_in_page(&site.join("index.html"), &folder)
}

/// Whether a path of the finished files is a bundle that comes after the first screen.
pub fn is_bundle(path: &str) -> bool {
    let name = path.rsplit('/').next().unwrap_or(path);
    path.starts_with("app-") && (name.starts_with("split_") || name.starts_with("chunk_"))
}

fn build_worker(Worker(package, name, features): Worker, site: &Path, work: &Path, tools: &Tools) -> Result {
    let linked = compile(package, name, FOR_SPEED, &["--no-default-features", "--features", features])?;
    bind(&linked, name, "no-modules", work, tools)?;
    let script = format!("{name}.js");
    copy(&work.join(&script), &site.join(&script))?;
    let program = format!("{name}_bg.wasm");
    optimise(&work.join(&program), &site.join(&program), FAST, tools)
}

fn build_app(app: &Path, work: &Path, tools: &Tools) -> Result {
    let linked = compile(APP, APP, "release", &["--", "-C", "link-arg=--emit-relocs"])?;
    let cut = work.join("cut");
    let mut split = command(&tools.wasm_split, &[]);
    split.arg(&linked).arg(&cut).args(["--out-name", APP]);
    run(split)?;
    let bound = work.join("bound");
    bind(&cut.join(format!("{APP}.wasm")), APP, "web", &bound, tools)?;
    create(app)?;
    copy(&bound.join(format!("{APP}.js")), &app.join(format!("{APP}.js")))?;
    let loader = cut.join(LOADER);
    let text = fs::read_to_string(&loader).map_err(|error| Failure::with_file("read", &loader, error))?;
    write(&app.join(LOADER), &for_any_host(&text)?)?;
    let main = format!("{APP}_bg.wasm");
    cut_holds(size(&bound.join(&main))?, size(&cut.join(BULK))?)?;
    optimise(&bound.join(&main), &app.join(main), SMALL, tools)?;
    for file in entries(&cut)? {
        let name = name_of(&file)?;
        if name != LOADER && name != format!("{APP}.wasm") {
            optimise(&file, &app.join(name), SMALL, tools)?;
        }
    }
    Ok(())
}

/// Gives what cargo has linked, by a profile of Cargo.toml.
fn compile(package: &str, program: &str, profile: &str, link: &[&str]) -> Result<PathBuf> {
    let mut build =
        cargo(&["rustc", "--profile", profile, "--package", package, "--target", WASM_TARGET, "--bin", program]);
    build.args(link);
    run(build)?;
    Ok(paths::target().join(WASM_TARGET).join(profile).join(format!("{program}.wasm")))
}

fn bind(linked: &Path, name: &str, kind: &str, into: &Path, tools: &Tools) -> Result {
    let mut bind = command(&tools.wasm_bindgen, &["--no-typescript", "--target", kind, "--out-name", name]);
    if name == APP {
        bind.arg("--keep-lld-exports"); // the bundles share its table of functions
    }
    bind.arg("--out-dir").arg(into).arg(linked);
    run(bind)
}

fn optimise(from: &Path, to: &Path, level: &str, tools: &Tools) -> Result {
    let Some(wasm_opt) = &tools.wasm_opt else { return copy(from, to) };
    let mut optimise = command(wasm_opt, &OPTIMISE);
    optimise.arg(level).arg(from).arg("-o").arg(to);
    run(optimise)
}

/// One name too many in the program and all of the bulk is in it; both would still run.
fn cut_holds(program: u64, bulk: u64) -> Result {
    if bulk > program {
        return Ok(());
    }
    Err(Failure::new(format!(
        "The cut doesn't hold: the program has {program} bytes and its bulk {bulk}. Something that is not in the bulk names \
         `bulk::draw`, `waiting::engine` or what only they should name."
    )))
}

/// The cutter's loader wants each bundle to arrive as `application/wasm`; not every static host says so. Where one does, the browser translates it as
/// it comes, and may keep what it has translated for the next start.
fn for_any_host(loader: &str) -> Result<String> {
    const STREAMED: &str = "WebAssembly.instantiateStreaming(src, imports)";
    if !loader.contains(STREAMED) {
        return Err(Failure::new(format!(
            "{LOADER} no longer holds `{STREAMED}`: the cutter has changed. Look at `for_any_host` in xtask/src/programs.rs."
        )));
    }
    let own = "\nasync function instantiate(asked, imports) {
    const answer = await asked;
    if (!answer.ok) throw new Error(`${answer.url}: the host answered ${answer.status}.`);
    const type = answer.headers.get('Content-Type') ?? '';
    if (type.split(';')[0].trim() === 'application/wasm') return WebAssembly.instantiateStreaming(answer, imports);
    return WebAssembly.instantiate(await answer.arrayBuffer(), imports);
}\n";
    Ok(loader.replace(STREAMED, "instantiate(src, imports)") + own)
}

/// `app-` and the hash of everything in it.
fn folder_name(app: &Path) -> Result<String> {
    let all: String = precache::list(app)?.iter().map(|file| format!("{} {}\n", file.path, file.hash)).collect();
    Ok(format!("app-{}", precache::short_hash(&all)))
}

fn name_in_page(page: &Path, folder: &str) -> Result {
    let text = fs::read_to_string(page).map_err(|error| Failure::with_file("read", page, error))?;
    if !text.contains(FOLDER_MARK) {
        return Err(Failure::new(format!(
            "public/index.html must hold {FOLDER_MARK} where the program's folder is named."
        )));
    }
    write(page, &text.replace(FOLDER_MARK, folder))
}

fn size(file: &Path) -> Result<u64> {
    fs::metadata(file).map(|found| found.len()).map_err(|error| Failure::with_file("measure", file, error))
}

fn empty(folder: &Path) -> Result {
    if folder.exists() {
        fs::remove_dir_all(folder).map_err(|error| Failure::with_file("empty", folder, error))?;
    }
    create(folder)
}

fn copy_all(from: &Path, to: &Path) -> Result {
    create(to)?;
    entries(from)?.iter().try_for_each(|file| copy(file, &to.join(name_of(file)?)))
}

fn entries(folder: &Path) -> Result<Vec<PathBuf>> {
    let listed = fs::read_dir(folder).and_then(|all| all.map(|entry| entry.map(|entry| entry.path())).collect());
    let mut files: Vec<PathBuf> = listed.map_err(|error| Failure::with_file("list", folder, error))?;
    files.sort();
    Ok(files)
}

fn name_of(file: &Path) -> Result<&str> {
    let name = file.file_name().and_then(|name| name.to_str());
    name.ok_or_else(|| Failure::new(format!("{} has no name that can be asked for.", file.display())))
}

fn create(folder: &Path) -> Result {
    fs::create_dir_all(folder).map_err(|error| Failure::with_file("create", folder, error))
}

fn copy(from: &Path, to: &Path) -> Result {
    fs::copy(from, to).map(|_bytes| ()).map_err(|error| Failure::with_file("copy", from, error))
}

fn write(file: &Path, text: &str) -> Result {
    fs::write(file, text).map_err(|error| Failure::with_file("write", file, error))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::TestFolder;

    #[test]
    fn a_bundle_is_told_by_its_name() {
        for (path, is) in [
            ("app-1f/split_rest.wasm", true),
            ("app-1f/chunk_3.wasm", true),
            ("app-1f/peppertally_bg.wasm", false),
            ("app-1f/__wasm_split.js", false),
            ("split_rest.wasm", false),
        ] {
            assert_eq!(is_bundle(path), is, "{path}");
        }
    }

    #[test]
    fn a_program_that_holds_its_bulk_is_refused() {
        assert!(cut_holds(500, 1_500).is_ok());
        assert!(cut_holds(2_000, 10).is_err());
    }

    #[test]
    fn the_loader_takes_bundles_from_any_host() {
        let loader = "return async (imports) => (WebAssembly.instantiateStreaming(src, imports));";
        let own = for_any_host(loader).unwrap();
        assert!(own.starts_with("return async (imports) => (instantiate(src, imports));"), "{own}");
        assert!(for_any_host("import.source(x)").is_err());
    }

    #[test]
    fn any_change_makes_another_folder() {
        let name = |which: &str, js: &str| {
            folder_name(TestFolder::with(&format!("program-{which}"), &[("a.js", js), ("b.wasm", "w")]).path()).unwrap()
        };
        assert_eq!(name("same", "1"), name("same-again", "1"));
        assert_ne!(name("same", "1"), name("other", "2"));
    }

    #[test]
    fn the_own_page_names_the_program() {
        let page = fs::read_to_string(paths::root().join("public/index.html")).unwrap();
        let folder = TestFolder::with("page", &[("index.html", &page), ("none.html", "<p>")]);
        let file = folder.path().join("index.html");
        name_in_page(&file, "app-1f").unwrap();
        let named = fs::read_to_string(file).unwrap();
        assert!(named.contains("\"app-1f/peppertally.js\"") && !named.contains(FOLDER_MARK), "{named}");
        assert!(name_in_page(&folder.path().join("none.html"), "app-1f").is_err());
    }
}
