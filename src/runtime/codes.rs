//! A moving code: pictures made by the worker of codes and drawn one after another; the camera's pictures, given to the same worker until it
//! has a copy. The worker lives as long as one of the two is wanted. No picture of the camera is kept.

use std::cell::RefCell;
use std::rc::Rc;

use js_sys::Uint8Array;
use wasm_bindgen_futures::spawn_local;

use super::{Runtime, log, report, with, work};
use crate::app::codes::{Ask, CAMERA, CODE, CameraEnd, CodesReport, CodesTask, Told};
use crate::app::effect::Report;
use crate::app::words::codes as words;
use crate::app::work::BUILD;
use crate::beside::{ANSWER, DIED, READY};
use crate::platform::camera::{Camera, NoCamera};
use crate::platform::files::{self, Chosen};
use crate::platform::worker::{Said, Worker};
use crate::platform::{device, squares, timer};

const SCRIPT: &str = "worker-codes-start.js";
/// Between one look and the next: a picture stands for a hundred.
const LOOK_MS: u32 = 30;
/// So often another worker is started for one that died of a picture.
const N_WORKERS: u32 = 5;

thread_local! {
    // Not in `Runtime`: what that holds is in the program itself, and this comes with the bulk.
    static CODES: RefCell<Codes> = RefCell::new(Codes::default());
}

#[derive(Default)]
struct Codes {
    worker: Option<Worker>,
    /// How many were started: what an earlier one still says is not heard.
    n_started: u32,
    n_died: u32,
    ready: bool,
    /// The copy that is to be drawn once the worker is ready.
    copy: Option<Chosen>,
    shown: Option<Pictures>,
    /// Between two pictures; 0: they stand still.
    each_ms: u32,
    next: Option<timer::Once>,
    camera: Option<Camera>,
    /// How often the camera was wanted or ended: one that comes too late is ended at once.
    n_camera: u32,
    /// A picture is being looked at.
    looking: bool,
    look: Option<timer::Once>,
}

struct Pictures {
    side: u32,
    squares: Vec<u8>,
    order: Vec<u16>,
    at: usize,
}

pub fn carry_out(rt: &Rc<Runtime>, task: CodesTask) {
    match task {
        CodesTask::Show => show(rt),
        CodesTask::Pace(a_second) => pace(a_second),
        CodesTask::EndShowing => changed(|codes| {
            (codes.shown, codes.next, codes.copy) = (None, None, None);
            codes.rest();
        }),
        CodesTask::Camera(true) => look_out(),
        CodesTask::Camera(false) => changed(|codes| {
            codes.n_camera += 1;
            (codes.camera, codes.look, codes.looking) = (None, None, false);
            codes.rest();
        }),
    }
}

impl Codes {
    /// Nothing is wanted of the worker any more: it gives its memory back.
    fn rest(&mut self) {
        if self.camera.is_none() && self.copy.is_none() && self.look.is_none() {
            (self.worker, self.ready, self.n_died) = (None, false, 0);
        }
    }
}

fn changed<R>(change: impl FnOnce(&mut Codes) -> R) -> R {
    CODES.with(|codes| change(&mut codes.borrow_mut()))
}

// --- the worker ---

/// Starts one if there is none. Gives whether there is.
fn start() -> bool {
    let n = changed(|codes| {
        if codes.worker.is_some() {
            return None;
        }
        (codes.ready, codes.looking) = (false, false);
        codes.n_started += 1;
        Some(codes.n_started)
    });
    let Some(n) = n else { return true };
    let died = move || spawn_local(async move { ended(n, "an error without a catch") });
    match Worker::start(SCRIPT, move |said| heard(n, said), died) {
        Ok(worker) => {
            changed(|codes| codes.worker = Some(worker));
            true
        }
        Err(fault) => {
            log(&fault);
            false
        }
    }
}

fn heard(n: u32, said: Said) {
    if changed(|codes| codes.n_started != n || codes.worker.is_none()) {
        return;
    }
    match said.word.as_str() {
        READY if said.text == BUILD => {
            let copy = changed(|codes| {
                codes.ready = true;
                codes.copy.clone()
            });
            if let Some(copy) = copy {
                ask_to_draw(&copy);
            }
        }
        READY => failed(crate::app::words::work::OTHER_BUILD),
        ANSWER => match Told::from_text(&said.text) {
            Some(Told::Drawn { n, side }) => drawn(n, side, &said.bytes),
            Some(Told::Whole) => whole(said.bytes.first()),
            Some(told) => not_yet(told),
            None => failed(words::NONSENSE),
        },
        DIED => {
            let why = said.text;
            spawn_local(async move { ended(n, &why) });
        }
        _ => {}
    }
}

/// The worker has ended before its time. One that was looking is replaced by another, which sees everything anew.
fn ended(n: u32, why: &str) {
    let again = changed(|codes| {
        if codes.n_started != n || codes.worker.is_none() {
            return None;
        }
        codes.worker = None;
        codes.n_died += 1;
        Some(codes.ready && codes.camera.is_some() && codes.n_died < N_WORKERS)
    });
    let Some(again) = again else { return };
    web_sys::console::warn_1(&format!("worker of codes: {why}").into());
    if !again || !start() {
        failed(words::NO_WORKER);
    }
}

/// Neither of the two goes on without the worker.
fn failed(sentence: &str) {
    let (drawing, reading) = changed(|codes| {
        let wanted = (codes.copy.take().is_some(), codes.camera.is_some() || codes.look.is_some());
        codes.worker = None;
        wanted
    });
    if drawing {
        made(Told::Not(sentence.to_owned()));
    }
    if reading {
        tell(CodesReport::CameraEnded(CameraEnd::NoReader(sentence.to_owned())));
    }
}

/// By itself: whoever tells it may be in the midst of an effect.
fn tell(what: CodesReport) {
    spawn_local(async move { report(Report::Codes(what)) });
}

fn made(told: Told) {
    let calm = device::wants_less_motion().unwrap_or_else(|fault| {
        log(&fault);
        false
    });
    tell(CodesReport::Made { told, calm });
}

// --- showing ---

fn show(rt: &Rc<Runtime>) {
    let copy = work::copy(rt).ok_or_else(|| words::NONSENSE.to_owned());
    let copy = copy.and_then(|blob| Chosen::made("copy", &blob).map_err(|fault| fault.to_string()));
    let copy = match copy {
        Ok(copy) => copy,
        Err(why) => return made(Told::Not(words::not_made(&why))),
    };
    changed(|codes| codes.copy = Some(copy.clone()));
    if !start() {
        return failed(words::NO_WORKER);
    }
    if changed(|codes| codes.ready) {
        ask_to_draw(&copy);
    }
}

fn ask_to_draw(copy: &Chosen) {
    let given =
        changed(|codes| codes.worker.as_ref().map(|worker| worker.give([&Ask::Show.to_text(), ""], Some(copy))));
    if let Some(Err(fault)) = given {
        log(&fault);
        failed(words::NO_WORKER);
    }
}

fn drawn(n: u16, side: u32, bytes: &[Uint8Array]) {
    let [squares, order] = bytes else { return failed(words::NONSENSE) };
    let order = order.to_vec().chunks_exact(2).map(|pair| u16::from_le_bytes([pair[0], pair[1]])).collect();
    let wanted = changed(|codes| {
        let wanted = codes.copy.take().is_some();
        if wanted {
            codes.shown = Some(Pictures { side, squares: squares.to_vec(), order, at: 0 });
            codes.each_ms = 0;
        }
        codes.rest();
        wanted
    });
    if wanted {
        made(Told::Drawn { n, side });
    }
}

fn pace(a_second: u32) {
    changed(|codes| {
        codes.next = None;
        codes.each_ms = 1000_u32.checked_div(a_second).unwrap_or_default();
    });
    later();
}

/// The next picture, in its time.
fn later() {
    let each_ms = changed(|codes| codes.each_ms);
    if each_ms == 0 {
        return;
    }
    match timer::once(each_ms, next) {
        Ok(once) => changed(|codes| codes.next = Some(once)),
        Err(fault) => log(&fault),
    }
}

fn next() {
    let drawn = changed(|codes| {
        let Some(Pictures { side, squares, order, at }) = &mut codes.shown else { return Ok(false) };
        let size = (*side * *side) as usize;
        let start = order.get(*at).map_or(0, |number| usize::from(*number) * size);
        *at = (*at + 1) % order.len().max(1);
        // Until the screen has its canvas nothing is drawn, and nothing is lost: it comes round again.
        squares::draw(CODE, *side, squares.get(start..start + size).unwrap_or_default())
    });
    if let Err(fault) = drawn {
        log(&fault);
        return made(Told::Not(words::not_made(&fault.to_string())));
    }
    later();
}

// --- reading ---

fn look_out() {
    let n = changed(|codes| {
        codes.n_camera += 1;
        codes.n_camera
    });
    // It comes while the coach is asked for the camera.
    if !start() {
        return tell(CodesReport::CameraEnded(CameraEnd::NoReader(words::NO_WORKER.to_owned())));
    }
    spawn_local(async move {
        let opened = Camera::open(CAMERA).await;
        if changed(|codes| codes.n_camera != n) {
            return; // it ends with `opened`
        }
        match opened {
            Ok(camera) => {
                changed(|codes| codes.camera = Some(camera));
                report(Report::Codes(CodesReport::CameraOn));
                look_later();
            }
            Err(why) => report(Report::Codes(CodesReport::CameraEnded(end_of(why)))),
        }
    });
}

fn look_later() {
    match timer::once(LOOK_MS, look) {
        Ok(once) => changed(|codes| codes.look = codes.camera.is_some().then_some(once)),
        Err(fault) => log(&fault),
    }
}

fn look() {
    let looked = changed(|codes| {
        let (Some(camera), Some(worker)) = (&codes.camera, &codes.worker) else { return Ok(()) };
        if !codes.ready || codes.looking {
            return Ok(());
        }
        if let Some(still) = camera.still()? {
            let ask = Ask::Look { width: still.width, height: still.height };
            worker.hand_over([&ask.to_text(), ""], &still.rgba).map_err(NoCamera::from)?;
            codes.looking = true;
        }
        Ok(())
    });
    match looked {
        Ok(()) => look_later(),
        Err(why) => tell(CodesReport::CameraEnded(end_of(why))),
    }
}

/// A picture was looked at, or something can't be done.
fn not_yet(told: Told) {
    let reading = changed(|codes| {
        codes.looking = false;
        codes.camera.is_some()
    });
    match told {
        told if reading => report(Report::Codes(CodesReport::Read(told))),
        Told::Not(why) => failed(&why),
        _ => {}
    }
}

/// The copy is here: it goes the way of a file that was chosen.
fn whole(bytes: Option<&Uint8Array>) {
    if changed(|codes| codes.camera.is_none()) {
        return;
    }
    let file = bytes.ok_or_else(|| words::NONSENSE.to_owned()).and_then(|bytes| {
        let made = files::blob_of(bytes).and_then(|blob| Chosen::made(words::FROM_PHONE, &blob));
        made.map_err(|fault| fault.to_string())
    });
    match file {
        Ok(file) => {
            let heard = Report::FileChosen { name: file.name(), n_bytes: file.size_bytes() };
            with(|rt| work::keep_file(rt, file));
            report(Report::Codes(CodesReport::Read(Told::Whole)));
            report(heard);
        }
        Err(why) => report(Report::Codes(CodesReport::Read(Told::Not(why)))),
    }
}

fn end_of(why: NoCamera) -> CameraEnd {
    match why {
        NoCamera::Refused => CameraEnd::Refused,
        NoCamera::Absent => CameraEnd::Absent,
        NoCamera::Busy => CameraEnd::Busy,
        NoCamera::Other(why) => CameraEnd::Other(why),
    }
}
