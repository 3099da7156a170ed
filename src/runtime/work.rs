//! Jobs go to the worker, one after another; its answers come back as reports. The worker is started when the first job is there
//! and ended when it has had none for a while. One that doesn't start, dies, or is of another build is an answer too.

use std::collections::VecDeque;
use std::rc::Rc;

use wasm_bindgen_futures::spawn_local;
use web_sys::Blob;

use super::{Runtime, log, report, with};
use crate::app::effect::Report;
use crate::app::words::work as words;
use crate::app::work::{Answer, BUILD, Job};
use crate::beside::{ANSWER, LOOKING, READY};
use crate::platform::files::Chosen;
use crate::platform::worker::{Said, Worker};

const SCRIPT: &str = "worker-start.js";
/// Ticks within which it must have started; a slow network may have to bring it first.
const START_WITHIN: u32 = 45;
/// Ticks within which it must have answered: five minutes, for the largest file on the slowest phone.
const ANSWER_WITHIN: u32 = 300;
/// Ticks without a job after which it gives its memory back.
const IDLE_FOR: u32 = 60;

/// Why it was ended, where it had begun well.
const NO_END: &str = "no answer";

#[derive(Default)]
pub struct Desk {
    worker: Option<Worker>,
    /// How many were started: what an earlier one still says is not heard.
    n_started: u32,
    ready: bool,
    n_ticks: u32,
    current: Option<Task>,
    waiting: VecDeque<Task>,
    /// The file that the coach chose last.
    file: Option<Chosen>,
    /// The copy that was written last.
    copy: Option<Blob>,
    /// The calendar's file that was written last.
    dates: Option<Blob>,
}

struct Task {
    job: Job,
    file: Option<Chosen>,
}

pub fn give(rt: &Rc<Runtime>, job: Job) {
    if rt.leaving.get() {
        return spawn_local(async move { stopped(vec![job]) });
    }
    {
        let mut desk = rt.desk.borrow_mut();
        let file = desk.file.clone();
        // A copy waits for a tap's answer; numbers can wait for it.
        let at = match job {
            Job::Copy { .. } => desk.waiting.iter().position(|task| task.job.is_of_numbers()),
            _ => None,
        };
        let at = at.unwrap_or(desk.waiting.len());
        desk.waiting.insert(at, Task { job, file });
    }
    next(rt);
}

pub fn keep_file(rt: &Rc<Runtime>, file: Chosen) {
    rt.desk.borrow_mut().file = Some(file);
}

/// The file that was chosen last.
pub fn file(rt: &Rc<Runtime>) -> Option<Chosen> {
    rt.desk.borrow().file.clone()
}

/// In place of the copy that was written last: the same, locked.
pub fn keep_copy(rt: &Rc<Runtime>, copy: Blob) {
    rt.desk.borrow_mut().copy = Some(copy);
}

pub fn dates(rt: &Rc<Runtime>) -> Option<Blob> {
    rt.desk.borrow().dates.clone()
}

pub fn copy(rt: &Rc<Runtime>) -> Option<Blob> {
    // It stays: a share sheet that was closed may be opened again.
    rt.desk.borrow().copy.clone()
}

/// Nothing is done any more: everything is about to be erased. The jobs that were given, for [`stopped`] if the page stays.
pub fn stop(rt: &Rc<Runtime>) -> Vec<Job> {
    let mut desk = rt.desk.borrow_mut();
    desk.worker = None;
    let current = desk.current.take();
    current.into_iter().chain(std::mem::take(&mut desk.waiting)).map(|task| task.job).collect()
}

/// The file that is being looked at is left. Nothing is written by that, so the worker may end in its midst.
pub fn stop_looking(rt: &Rc<Runtime>) {
    {
        let mut desk = rt.desk.borrow_mut();
        let looks = |task: &Task| matches!(task.job, Job::Look { .. });
        desk.waiting.retain(|task| !looks(task));
        if desk.current.as_ref().is_some_and(looks) {
            (desk.current, desk.worker) = (None, None);
        }
    }
    next(rt);
}

/// Each is answered, so that nothing waits for it for good.
pub fn stopped(jobs: Vec<Job>) {
    for job in jobs {
        report(Report::Worked { job, answer: Answer::Refused(words::STOPPED.to_owned()) });
    }
}

pub fn tick(rt: &Rc<Runtime>) {
    let mut desk = rt.desk.borrow_mut();
    if desk.worker.is_none() {
        return;
    }
    desk.n_ticks += 1;
    let idle = desk.ready && desk.current.is_none();
    if idle && desk.n_ticks > IDLE_FOR {
        desk.worker = None;
    } else if !desk.ready && desk.n_ticks > START_WITHIN {
        let n = desk.n_started;
        spawn_local(async move { ended(n, "no sign of life") });
    } else if desk.ready && !idle && desk.n_ticks > ANSWER_WITHIN {
        let n = desk.n_started;
        spawn_local(async move { ended(n, NO_END) });
    }
}

/// The next job is given, if there is one and the worker is free.
fn next(rt: &Rc<Runtime>) {
    let mut desk = rt.desk.borrow_mut();
    if desk.current.is_some() || rt.leaving.get() {
        return;
    }
    let Some(task) = desk.waiting.pop_front() else { return };
    desk.current = Some(task);
    desk.n_ticks = 0;
    if desk.worker.is_some() {
        // One that is still starting gets it once it is ready.
        if desk.ready {
            hand_over(rt, &desk);
        }
        return;
    }
    desk.n_started += 1;
    desk.ready = false;
    let n = desk.n_started;
    match Worker::start(
        SCRIPT,
        move |said| heard(n, said),
        move || spawn_local(async move { ended(n, "an error without a catch") }),
    ) {
        Ok(worker) => desk.worker = Some(worker),
        Err(fault) => {
            log(&fault);
            spawn_local(async move { ended(n, "not started") });
        }
    }
}

fn hand_over(rt: &Rc<Runtime>, desk: &Desk) {
    let (Some(worker), Some(task)) = (&desk.worker, &desk.current) else { return };
    if let Err(fault) = worker.give([rt.db_name.as_str(), &task.job.to_text()], task.file.as_ref()) {
        log(&fault);
        let n = desk.n_started;
        spawn_local(async move { ended(n, "not reached") });
    }
}

fn heard(n: u32, said: Said) {
    with(|rt| {
        if rt.desk.borrow().n_started != n {
            return;
        }
        match said.word.as_str() {
            READY if said.text == BUILD => {
                let mut desk = rt.desk.borrow_mut();
                desk.ready = true;
                hand_over(rt, &desk);
            }
            READY => {
                let rt = rt.clone();
                spawn_local(async move { refuse(&rt, words::OTHER_BUILD) });
            }
            LOOKING => {
                if let Ok(at) = said.text.parse() {
                    // Not within this borrow of the runtime's parts: what is reported may ask for more.
                    spawn_local(async move { report(Report::Looking(at)) });
                }
            }
            ANSWER => match Answer::from_text(&said.text) {
                Some(answer) => {
                    if said.file.is_some() {
                        let mut desk = rt.desk.borrow_mut();
                        match answer {
                            Answer::Dated => desk.dates = said.file,
                            _ => desk.copy = said.file,
                        }
                    }
                    answered(rt, answer);
                }
                None => {
                    let rt = rt.clone();
                    spawn_local(async move { refuse(&rt, words::NONSENSE) });
                }
            },
            _ => spawn_local(async move { ended(n, &said.text) }),
        }
    });
}

/// The worker has ended before its answer.
fn ended(n: u32, why: &str) {
    with(|rt| {
        let ready = {
            let desk = rt.desk.borrow();
            if desk.n_started != n {
                return;
            }
            desk.ready
        };
        web_sys::console::warn_1(&format!("worker: {why}").into());
        refuse(
            rt,
            match (ready, why) {
                (true, NO_END) => words::NO_END,
                (true, _) => words::DIED,
                (false, _) => words::NO_START,
            },
        );
    });
}

/// The current job is answered with a sentence; what waits is given to another worker.
fn refuse(rt: &Rc<Runtime>, sentence: &str) {
    rt.desk.borrow_mut().worker = None;
    answered(rt, Answer::Refused(sentence.to_owned()));
}

fn answered(rt: &Rc<Runtime>, answer: Answer) {
    let task = {
        let mut desk = rt.desk.borrow_mut();
        desk.n_ticks = 0;
        desk.current.take()
    };
    if let Some(task) = task {
        report(Report::Worked { job: task.job, answer });
    }
    next(rt);
}
