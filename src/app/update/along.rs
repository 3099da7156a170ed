//! A practice that another phone leads, and in which this one takes part: one practice, a run a station. How it is called, planned and ended is said
//! where it was begun. Owns how this phone comes and goes; what it counts meanwhile is its own, as ever.
//!
//! Whoever takes part keeps the entry that began the practice among its own, the same to the last letter: so the practice is here whatever becomes
//! of the file with which it came, and union knows the two for one.

use super::super::effect::Effect;
use super::super::model::Model;
use super::super::screen::Screen;
use super::{go, packing, practice, record_of, write};
use crate::domain::ids::PracticeId;

/// More than anybody goes to and leaves in a day.
const MOST_LEFT: usize = 20;

/// It is read, and then it is the one that is on. Until then no drill begins another.
pub fn take_part(model: &mut Model, id: PracticeId) -> Vec<Effect> {
    if !model.can_take_part().iter().any(|summary| summary.practice == id) {
        return Vec::new();
    }
    model.taking_part = Some(id);
    packing::want(model, id).into_iter().collect()
}

/// It was read.
pub fn read(model: &mut Model, id: PracticeId) -> Vec<Effect> {
    if model.taking_part != Some(id) {
        return Vec::new();
    }
    model.taking_part = None;
    // Where the file was taken back meanwhile there is nothing to take part in. Packed once, it lies loose again: so the next start reads it.
    let Some(start) = model.own.get(id.0).or_else(|| model.theirs.get(id.0)).cloned() else { return Vec::new() };
    let mut effects = Vec::new();
    let n_left = model.settings.left.len();
    model.settings.left.retain(|left| *left != id.0.to_string());
    if model.settings.left.len() < n_left {
        effects.push(Effect::KeepSettings(model.settings.to_json()));
    }
    let record = record_of(&start);
    // What is counted here from now on comes after it, also by the clock: what is sent is told by it.
    model.writer.heard(&start);
    model.loose.insert(start.id);
    model.own.add(start);
    model.storage.unsaved.insert(record.0.clone());
    effects.push(Effect::Save(vec![record]));
    effects
}

/// The drill that was tapped before it was asked whose it is.
pub fn go_on(model: &mut Model, id: PracticeId) -> Vec<Effect> {
    if model.along() != Some(id) {
        return Vec::new();
    }
    let drill = model.drafts.part_asked.take();
    drill.map_or_else(Vec::new, |drill| practice::start(model, drill))
}

/// It could not be read.
pub fn unread(model: &mut Model, id: PracticeId) {
    if model.taking_part.take_if(|taking| *taking == id).is_some() {
        model.drafts.part_asked = None;
    }
}

/// This phone's runs are over; the practice goes on where it was begun. Who is at the station, and who is with whom there, was of the station.
pub fn leave(model: &mut Model, id: PracticeId) -> Vec<Effect> {
    let Some(practice) = model.base.practice(id).filter(|practice| model.is_open(practice) && !model.leads(id)) else {
        return Vec::new();
    };
    let mut effects = write(model, practice::finishing(model, &practice, |_| false));
    let left = &mut model.settings.left;
    left.retain(|left| *left != id.0.to_string());
    left.push(id.0.to_string());
    // Those of earlier days are over anyway.
    left.drain(..left.len().saturating_sub(MOST_LEFT));
    practice::forget_station(model);
    effects.push(Effect::KeepSettings(model.settings.to_json()));
    effects.extend(go(model, Screen::PracticeReport(id)));
    effects
}
