//! The ways by which a file comes without the input: dropped on the app, opened with it, shared with it. Each hands the file on as the input
//! does; nothing is read here.

use std::cell::Cell;
use std::rc::Rc;

use wasm_bindgen_futures::spawn_local;

use super::{Runtime, log, report, with, work};
use crate::app::effect::Report;
use crate::app::words;
use crate::platform::files::Chosen;
use crate::platform::{Fault, ways_in};
use crate::store::DbName;

thread_local! {
    static HEARD: Cell<bool> = const { Cell::new(false) };
}

/// Hears of files for as long as the page lives. The storage may be opened more than once: this is done once.
pub fn hear(rt: &Rc<Runtime>) {
    if HEARD.replace(true) {
        return;
    }
    told(ways_in::on_drop(words::lock::DROP, came));
    // What was shared with the app, or opened with it, is no business of the demo.
    if rt.db_name == DbName::Demo {
        return;
    }
    match ways_in::on_launch(|file| came(vec![file])) {
        Err(Fault::Unsupported) => {} // few browsers have it, and those only once the app is installed
        other => told(other),
    }
    match ways_in::was_lost() {
        Ok(false) => {}
        Ok(true) => spawn_local(async { report(Report::FileLost) }),
        Err(fault) => log(&fault),
    }
    spawn_local(async {
        match ways_in::received().await {
            Ok(Some((file, others))) => one_came(file, others),
            Ok(None) | Err(Fault::Unsupported) => {}
            Err(fault) => log(&fault),
        }
    });
}

fn came(files: Vec<Chosen>) {
    let others = files.len().saturating_sub(1);
    if let Some(first) = files.into_iter().next() {
        one_came(first, others);
    }
}

fn one_came(file: Chosen, others: usize) {
    let heard = Report::FileCame { name: file.name(), n_bytes: file.size_bytes(), others };
    with(|rt| work::keep_file(rt, file));
    report(heard);
}

fn told(done: Result<(), Fault>) {
    if let Err(fault) = done {
        log(&fault);
    }
}
