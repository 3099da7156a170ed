//! A moving code: shown from the copy that was just written, and read until it makes a file. What was read goes the way of a file that
//! was chosen. Whatever leaves the screen ends both.

use super::super::codes::{A_SECOND, A_SECOND_CALM, Codes, CodesReport, CodesTap, CodesTask};
use super::super::codes::{Reading, Seen, Shown, Told};
use super::super::effect::Effect;
use super::super::model::Model;
use super::super::screen::Screen;
use super::super::words::codes as words;

pub fn act(model: &mut Model, tap: CodesTap) -> Vec<Effect> {
    match tap {
        CodesTap::Paused(paused) => {
            model.codes.paused = paused;
            paced(model)
        }
        CodesTap::Calm(calm) => {
            model.codes.calm = calm;
            paced(model)
        }
        CodesTap::Ended => end_showing(model),
        CodesTap::Camera(true) if is_reading(model) => Vec::new(),
        CodesTap::Camera(true) => {
            model.codes.read = Reading::Asking;
            vec![Effect::Codes(CodesTask::Camera(true))]
        }
        CodesTap::Camera(false) => end_reading(model, Reading::Nothing),
    }
}

pub fn heard(model: &mut Model, report: CodesReport) -> Vec<Effect> {
    match report {
        CodesReport::Made { .. } if model.codes.shown != Shown::Making => end_showing(model),
        CodesReport::Made { told: Told::Drawn { n, .. }, calm } => {
            model.codes.shown = Shown::Standing { n };
            model.codes.calm = calm;
            let mut effects = paced(model);
            effects.push(Effect::RunOn(true)); // the screen stays awake
            effects
        }
        CodesReport::Made { told: Told::Not(why), .. } => not_shown(model, why),
        CodesReport::Made { .. } => not_shown(model, words::NONSENSE.to_owned()),

        CodesReport::CameraOn if model.codes.read == Reading::Asking => {
            model.codes.read = Reading::Looking { here: Vec::new(), seen: Seen::Nothing };
            vec![Effect::RunOn(true)]
        }
        // The coach has gone on meanwhile.
        CodesReport::CameraOn => vec![Effect::Codes(CodesTask::Camera(false))],
        CodesReport::CameraEnded(_) if !is_reading(model) => Vec::new(),
        CodesReport::CameraEnded(end) => end_reading(model, Reading::Not(words::camera(&end))),
        CodesReport::Read(_) if !is_reading(model) => Vec::new(),
        CodesReport::Read(Told::Seen { here, seen }) => {
            looked(model, here, seen);
            Vec::new()
        }
        CodesReport::Read(Told::Whole) => {
            let mut effects = end_reading(model, Reading::Nothing);
            effects.extend(super::go(model, Screen::Share));
            effects
        }
        CodesReport::Read(Told::Not(why)) => end_reading(model, Reading::Not(why)),
        CodesReport::Read(Told::Drawn { .. }) => end_reading(model, Reading::Not(words::NONSENSE.to_owned())),
    }
}

/// A copy is being written, to be shown.
pub fn wanted(model: &mut Model) {
    model.codes.shown = Shown::Making;
    (model.codes.paused, model.codes.missing) = (false, None);
}

/// It is written: what isn't in it is said beside it.
pub fn copied(model: &mut Model, missing: Option<String>) -> Vec<Effect> {
    model.copy.writing = false;
    if model.codes.shown != Shown::Making {
        return Vec::new();
    }
    model.codes.missing = missing;
    vec![Effect::Codes(CodesTask::Show)]
}

pub fn not_copied(model: &mut Model, why: String) {
    model.copy.writing = false;
    model.codes.shown = Shown::Not(why);
}

/// Another screen comes.
pub fn left(model: &mut Model, to: Screen) -> Vec<Effect> {
    match model.screen {
        Screen::Show if to != Screen::Show && model.codes.shown != Shown::Nothing => end_showing(model),
        Screen::Read if to != Screen::Read && is_reading(model) => end_reading(model, Reading::Nothing),
        Screen::Read if to != Screen::Read => {
            model.codes.read = Reading::Nothing;
            Vec::new()
        }
        _ => Vec::new(),
    }
}

fn is_reading(model: &Model) -> bool {
    matches!(model.codes.read, Reading::Asking | Reading::Looking { .. })
}

/// What the last picture showed; one without a code says nothing once a piece is here.
fn looked(model: &mut Model, now_here: Vec<bool>, now_seen: Seen) {
    if let Reading::Looking { here, seen } = &mut model.codes.read {
        if now_seen != Seen::Nothing || now_here.is_empty() {
            *seen = now_seen;
        }
        *here = now_here;
    }
}

fn paced(model: &Model) -> Vec<Effect> {
    let Codes { shown: Shown::Standing { .. }, paused, calm, .. } = model.codes else { return Vec::new() };
    let a_second = match (paused, calm) {
        (true, _) => 0,
        (false, true) => A_SECOND_CALM,
        (false, false) => A_SECOND,
    };
    vec![Effect::Codes(CodesTask::Pace(a_second))]
}

fn not_shown(model: &mut Model, why: String) -> Vec<Effect> {
    let effects = end_showing(model);
    model.codes.shown = Shown::Not(why);
    effects
}

fn end_showing(model: &mut Model) -> Vec<Effect> {
    let read = std::mem::take(&mut model.codes.read);
    model.codes = Codes { read, ..Codes::default() };
    vec![Effect::Codes(CodesTask::EndShowing), Effect::RunOn(false)]
}

fn end_reading(model: &mut Model, then: Reading) -> Vec<Effect> {
    model.codes.read = then;
    vec![Effect::Codes(CodesTask::Camera(false)), Effect::RunOn(false)]
}
