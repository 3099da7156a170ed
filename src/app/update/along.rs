//! A practice that another phone began, and for which this one counts too: one practice, a run a station. It is the other phone's: how it is
//! called, planned and ended is said there. Owns how this phone comes and goes; what it counts meanwhile is its own, as ever.

use super::super::effect::Effect;
use super::super::model::Model;
use super::super::screen::Screen;
use super::{go, packing, practice, write};
use crate::domain::ids::PracticeId;

/// It is read, and then it is the one that is on.
pub fn take_part(model: &mut Model, id: PracticeId) -> Vec<Effect> {
    if !model.can_take_part().iter().any(|summary| summary.practice == id) {
        return Vec::new();
    }
    model.settings.along = Some(id.0.to_string());
    let mut effects = vec![Effect::KeepSettings(model.settings.to_json())];
    effects.extend(read(model));
    effects
}

/// What it is made of, where that lies packed still or again: a file of it has come.
pub fn read(model: &mut Model) -> Option<Effect> {
    let id = model.along().filter(|id| model.packed.contains_key(id))?;
    packing::want(model, id)
}

/// This phone's runs are over; the practice goes on where it was begun.
pub fn leave(model: &mut Model, id: PracticeId) -> Vec<Effect> {
    if model.along() != Some(id) {
        return Vec::new();
    }
    let facts = model.base.practice(id).map(|on| practice::finishing(model, &on, |_| false)).unwrap_or_default();
    let mut effects = write(model, facts);
    model.settings.along = None;
    effects.push(Effect::KeepSettings(model.settings.to_json()));
    effects.extend(go(model, Screen::PracticeReport(id)));
    effects
}
