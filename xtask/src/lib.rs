//! Sets a machine up, then builds, serves, tests and measures Peppertally. The code map, in reading order:
//!
//! - [`paths`]: where the repository, the tool cache and the finished files are
//! - [`shell`]: running other programs; the one error type
//! - [`tools`]: Trunk, wasm-bindgen, wasm-split, wasm-opt, the wasm target, each at its version, in a cache of its own
//! - [`build`]: the release build, and the step of it that Trunk's hook calls
//! - [`programs`]: the WebAssembly programs: the app's, cut in bundles, and its workers'
//! - [`precache`]: the service worker's list of files
//! - [`whole`]: what a finished build must not lack
//! - [`sizes`]: how large the first download is
//! - [`server`]: a static file server on localhost, such as any host would be
//! - [`browser`]: Chromium, its driver and the accessibility rules
//! - [`engines`]: Firefox and WebKit for the browser tests
//! - [`again`]: the few tests of browsers that fail once are run again, and named
//! - [`checks`]: everything that must hold, in order
//! - [`club`]: a club's tables read by engines for tables
//! - [`locks`]: locked copies against another implementation of their format
//! - [`compare`]: the pure numbers against scipy and statsmodels
//! - [`python`]: a Python that has what a check needs
//! - [`fuzz`]: files and records that a fuzzer writes
//! - [`peers`]: union, reading and size of logs against general libraries
//! - [`licences`]: whose code is in the app, and on what terms
//! - [`icons`]: the icons as pictures, from their drawings

pub mod again;
pub mod browser;
pub mod build;
pub mod checks;
pub mod club;
pub mod compare;
pub mod engines;
pub mod fuzz;
pub mod icons;
pub mod licences;
pub mod locks;
pub mod paths;
pub mod peers;
pub mod precache;
pub mod programs;
pub mod python;
pub mod server;
pub mod shell;
pub mod sizes;
#[cfg(test)]
mod testing;
pub mod tools;
pub mod whole;

use shell::{Failure, Result};

const HELP: &str = "\
Usage: cargo xtask <step>

  serve [--port N] [--base /x/]   set up what is missing, build, serve on this machine and print the address
  build                           the release build into dist/, with its sizes
  test                            set up what tests need and check everything
  engines                         what may differ in Firefox and in WebKit, in both
  locks                           locked copies against another implementation of their format, where node is (test does so too)
  compare                         the pure numbers against scipy and statsmodels, where Python is there (test does so too)
  club                            2,000 tables of a club read by DuckDB, and by Spark SQL where Python has pyspark
  fuzz                            10 million files and records for each reader, from the frozen ones on (test runs 15 s of each)
  peers                           union, reading and size of logs against general libraries, in node
  licences                        writes public/licences.html anew
  bench                           the figures, measured in a real browser
  pictures                        the README's pictures, taken from the real screens
  icons                           the icons' PNG files, from their drawings in public/icons

serve takes --no-build to serve what was built last.";

/// Runs one step, named by the first word.
pub fn run(words: Vec<String>) -> Result {
    let mut words = words.into_iter();
    let step = words.next().unwrap_or_default();
    let rest: Vec<String> = words.collect();
    if step != "serve" && !rest.is_empty() {
        return Err(Failure::new(format!("`{step}` takes no further words, but got `{}`.", rest.join(" "))));
    }
    match step.as_str() {
        "serve" => serve(ServeOptions::parse(rest)?),
        "build" => build::release(),
        "test" => checks::run_all(),
        "engines" => checks::run_engines(),
        "locks" => locks::exchange(),
        "compare" => compare::where_python_is(),
        "club" => club::where_python_is(club::wanted()?),
        "fuzz" => fuzz::run_all(None),
        "peers" => peers::compare(),
        "licences" => licences::write(),
        "bench" => checks::run_browser_program("bench"),
        "pictures" => checks::run_browser_program("pictures"),
        "icons" => icons::draw(),
        "finish" => build::finish_for_trunk(),
        "" | "help" | "--help" | "-h" => {
            println!("{HELP}");
            Ok(())
        }
        unknown => Err(Failure::new(format!("There is no step `{unknown}`.\n\n{HELP}"))),
    }
}

#[derive(Debug, PartialEq, Eq)]
struct ServeOptions {
    port: Option<u16>,
    base: String,
    build_first: bool,
}

impl ServeOptions {
    fn parse(words: Vec<String>) -> Result<Self> {
        let mut options = Self { port: None, base: "/".to_owned(), build_first: true };
        let mut words = words.into_iter();
        while let Some(word) = words.next() {
            match word.as_str() {
                "--port" => {
                    let port = words.next().and_then(|number| number.parse().ok());
                    options.port =
                        Some(port.ok_or_else(|| Failure::new("Give --port a number from 1 to 65535, such as 8080."))?);
                }
                "--base" => {
                    options.base =
                        words.next().ok_or_else(|| Failure::new("Give --base a path, such as /practice/."))?;
                }
                "--no-build" => options.build_first = false,
                unknown => {
                    return Err(Failure::new(format!(
                        "`serve` knows --port N, --base /x/ and --no-build, not `{unknown}`."
                    )));
                }
            }
        }
        Ok(options)
    }
}

fn serve(options: ServeOptions) -> Result {
    if options.build_first {
        build::release()?;
    }
    let site = server::Site::new(paths::dist(), &options.base)?;
    let server = match options.port {
        Some(port) => server::Server::start(site, port)?,
        None => server::Server::start_near(site, 8080)?,
    };
    println!("\nPeppertally is served at {}\nStop it with Ctrl-C.", server.address());
    server.wait();
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn words(line: &str) -> Vec<String> {
        line.split_whitespace().map(str::to_owned).collect()
    }

    #[test]
    fn serve_reads_its_options() {
        let read = |line| ServeOptions::parse(words(line)).unwrap();
        assert_eq!(read(""), ServeOptions { port: None, base: "/".into(), build_first: true });
        assert_eq!(read("--port 9000"), ServeOptions { port: Some(9000), base: "/".into(), build_first: true });
        assert_eq!(read("--base /x/ --no-build"), ServeOptions { port: None, base: "/x/".into(), build_first: false });
    }

    #[test]
    fn words_that_mean_nothing_are_refused() {
        for line in ["serve --port many", "serve --port", "serve --loud", "build now", "sevre"] {
            assert!(run(words(line)).is_err(), "`{line}` was taken");
        }
    }
}
