//! Locked copies: the worker's program that locks and opens is started when it is wanted and ended with its answer, so that neither words nor
//! memory stay. What it made takes the place of the copy that was written, or of the file that was chosen. A worker that doesn't start, dies or
//! comes to no end is an answer too.

use std::cell::RefCell;
use std::rc::Rc;

use wasm_bindgen_futures::spawn_local;
use web_sys::Blob;

use super::work;
use super::{Runtime, log, report, with};
use crate::app::effect::Report;
use crate::app::lock::{LockFault, LockJob, Secret};
use crate::app::work::BUILD;
use crate::beside::{ANSWER, READY};
use crate::platform::files::Chosen;
use crate::platform::timer::{self, Once};
use crate::platform::worker::{Said, Worker};

const SCRIPT: &str = "worker-lock-start.js";
/// Within which it must have started, and answered: the slowest phone, and the most work that is done for a file.
const START_WITHIN_MS: u32 = 45_000;
const ANSWER_WITHIN_MS: u32 = 180_000;

#[derive(Default)]
struct Desk {
    /// How many were started: what an earlier one still says is not heard.
    n_started: u32,
    at_work: Option<AtWork>,
}

struct AtWork {
    worker: Worker,
    late: Option<Once>,
    task: Task,
}

struct Task {
    verb: &'static str,
    words: Secret,
    file: Chosen,
    /// The file's place is taken by what comes out of it, under this name.
    opens: Option<String>,
}

thread_local! {
    static DESK: RefCell<Desk> = RefCell::default();
}

pub fn carry_out(rt: &Rc<Runtime>, job: LockJob) {
    let task = match job {
        LockJob::Stop => return stop(),
        LockJob::Lock { words, text } => {
            let copy = work::copy(rt).and_then(|copy| Chosen::made("copy", &copy).map_err(|fault| log(&fault)).ok());
            let verb = if text { "lock-text" } else { "lock" };
            copy.map(|file| Task { verb, words, file, opens: None })
        }
        LockJob::Open { words } => {
            work::file(rt).map(|file| Task { verb: "open", words, opens: Some(file.name()), file })
        }
    };
    match task {
        Some(task) => start(task),
        None => later(Err(LockFault::Died)),
    }
}

fn start(task: Task) {
    stop();
    let n = DESK.with_borrow_mut(|desk| {
        desk.n_started += 1;
        desk.n_started
    });
    let failed = move || spawn_local(async move { ended(n, LockFault::NotStarted) });
    match Worker::start(SCRIPT, move |said| heard(n, said), failed) {
        Ok(worker) => {
            let late = late(n, START_WITHIN_MS, LockFault::NotStarted);
            DESK.with_borrow_mut(|desk| desk.at_work = Some(AtWork { worker, late, task }));
        }
        Err(fault) => {
            log(&fault);
            later(Err(LockFault::NotStarted));
        }
    }
}

/// Ended at once, in the midst of whatever it does.
fn stop() {
    DESK.with_borrow_mut(|desk| {
        desk.n_started += 1;
        desk.at_work = None;
    });
}

fn heard(n: u32, said: Said) {
    if DESK.with_borrow(|desk| desk.n_started) != n {
        return;
    }
    // In a task of its own: this one runs inside the worker's listener, which goes with it.
    let end = |fault| spawn_local(async move { ended(n, fault) });
    match said.word.as_str() {
        READY if said.text == BUILD => {
            let given = DESK.with_borrow_mut(|desk| {
                let at_work = desk.at_work.as_mut()?;
                at_work.late = late(n, ANSWER_WITHIN_MS, LockFault::NoEnd);
                let task = &at_work.task;
                Some(at_work.worker.give([task.verb, task.words.words()], Some(&task.file)))
            });
            if let Some(Err(fault)) = given {
                log(&fault);
                end(LockFault::NotStarted);
            }
        }
        READY => end(LockFault::OtherBuild),
        ANSWER => match (said.file, LockFault::from_name(&said.text)) {
            (Some(made), _) => spawn_local(async move { made_of_it(n, made) }),
            (None, Some(fault)) => end(fault),
            (None, None) => end(LockFault::Died),
        },
        _ => {
            web_sys::console::warn_1(&format!("the lock's worker: {}", said.text).into());
            end(LockFault::Died);
        }
    }
}

/// What came out takes its place.
fn made_of_it(n: u32, made: Blob) {
    let Some(task) = take(n) else { return };
    let n_bytes = made.size() as u64;
    let kept = match task.opens {
        None => {
            with(|rt| work::keep_copy(rt, made));
            Ok(n_bytes)
        }
        Some(name) => match Chosen::made(&name, &made) {
            Ok(file) => {
                with(|rt| work::keep_file(rt, file));
                Ok(n_bytes)
            }
            Err(fault) => {
                log(&fault);
                Err(LockFault::Died)
            }
        },
    };
    report(Report::Locked(kept));
}

fn ended(n: u32, fault: LockFault) {
    if take(n).is_some() {
        report(Report::Locked(Err(fault)));
    }
}

/// The task that this worker was at; the worker ends.
fn take(n: u32) -> Option<Task> {
    DESK.with_borrow_mut(|desk| if desk.n_started == n { desk.at_work.take() } else { None })
        .map(|at_work| at_work.task)
}

fn late(n: u32, ms: u32, fault: LockFault) -> Option<Once> {
    match timer::once(ms, move || spawn_local(async move { ended(n, fault) })) {
        Ok(once) => Some(once),
        Err(why) => {
            log(&why);
            None
        }
    }
}

fn later(done: Result<u64, LockFault>) {
    spawn_local(async move { report(Report::Locked(done)) });
}
