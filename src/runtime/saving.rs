//! From an entry to the disk: the second copy in the same task, the database strictly after it, one transaction at a time;
//! what was not confirmed is written again.

use std::rc::Rc;

use wasm_bindgen_futures::spawn_local;

use super::{Runtime, database, report, runtime, trouble};
use crate::app::effect::{Record, Report};
use crate::store::second_copy;

/// Records on their way.
#[derive(Default)]
pub struct Queue {
    waiting: Vec<Record>,
    /// Not confirmed at the last try.
    failed: Vec<Record>,
    busy: bool,
}

/// Second copies now, the database as soon as it is free.
pub fn save(rt: &Rc<Runtime>, records: Vec<Record>) {
    if rt.leaving.get() {
        return;
    }
    let mut no_second_copy = false;
    for (key, text) in &records {
        no_second_copy |= second_copy::put(rt.db_name, key, text).is_err();
    }
    rt.saving.borrow_mut().waiting.extend(records);
    if no_second_copy {
        // Reported after this update has ended: a report is an update too.
        spawn_local(async { report(Report::SecondCopyFailed) });
    }
    start(rt);
}

/// Tries once more what was not confirmed.
pub fn again(rt: &Rc<Runtime>) {
    start(rt);
}

pub fn has_failed(rt: &Rc<Runtime>) -> bool {
    !rt.saving.borrow().failed.is_empty()
}

fn start(rt: &Rc<Runtime>) {
    let mut queue = rt.saving.borrow_mut();
    if queue.busy || rt.leaving.get() || (queue.waiting.is_empty() && queue.failed.is_empty()) {
        return;
    }
    queue.busy = true;
    drop(queue);
    spawn_local(flush(rt.clone()));
}

async fn flush(rt: Rc<Runtime>) {
    loop {
        let batch: Vec<Record> = {
            let mut queue = rt.saving.borrow_mut();
            let mut batch = std::mem::take(&mut queue.failed);
            batch.append(&mut queue.waiting);
            batch
        };
        if batch.is_empty() {
            break;
        }
        match put(&rt, &batch).await {
            Ok(()) => {
                // Only now: another tab shows as saved whatever it hears.
                super::life::post_written(&rt, &batch);
                let keys: Vec<String> = batch.into_iter().map(|(key, _)| key).collect();
                if second_copy::remove_many(rt.db_name, keys.iter().map(String::as_str)).is_err() {
                    // A second copy that stays is harmless: it is united by identity at the next start.
                    report(Report::SecondCopyFailed);
                }
                report(Report::Saved(keys));
            }
            Err(why) => {
                let keys = batch.iter().map(|(key, _)| key.clone()).collect();
                rt.saving.borrow_mut().failed = batch;
                if rt.leaving.get() {
                    break;
                }
                report(Report::SaveFailed { keys, trouble: why });
                // New taps may have come meanwhile; they are tried with these at the next tick.
                break;
            }
        }
    }
    rt.saving.borrow_mut().busy = false;
}

/// One try, and a second one on a fresh connection if the first was lost.
async fn put(rt: &Rc<Runtime>, batch: &[Record]) -> Result<(), crate::app::effect::Trouble> {
    let db = database(rt).await.map_err(trouble)?;
    match db.put_entries(batch).await {
        Ok(()) => Ok(()),
        Err(crate::store::StoreError::ConnectionLost(_)) => {
            *rt.db.borrow_mut() = None;
            let db = database(rt).await.map_err(trouble)?;
            db.put_entries(batch).await.map_err(trouble)
        }
        Err(other) => Err(trouble(other)),
    }
}

/// What can't be read is kept beside, untouched.
pub async fn set_aside(records: Vec<Record>) {
    let Some(rt) = runtime() else { return };
    for (key, text) in records {
        let kept = match database(&rt).await {
            Ok(db) => db.set_aside(&key, &text).await,
            Err(error) => Err(error),
        };
        if let Err(error) = kept {
            // It still lies where it was found; only the copy of it couldn't be made.
            web_sys::console::warn_1(&format!("set aside: {error:?}").into());
        }
    }
}
