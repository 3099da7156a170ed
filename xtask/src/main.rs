//! `cargo xtask <step>`: hands the words of the command line to the library and turns a failure into a sentence and an exit
//! code.

use std::process::ExitCode;

fn main() -> ExitCode {
    match xtask::run(std::env::args().skip(1).collect()) {
        Ok(()) => ExitCode::SUCCESS,
        Err(failure) => {
            eprintln!("\nxtask: {failure}");
            ExitCode::FAILURE
        }
    }
}
