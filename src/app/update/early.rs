//! What may be shown before the engine (the rest of `update`) is here. Only where nothing at all is stored: then the first screen can
//! say so, and a tap leads on to a screen that is on its way. The same is given to the engine afterwards, which does all of it.

use super::super::action::Action;
use super::super::effect::{Opened, Report};
use super::super::model::{Model, StorageState};

/// Shows what an action asks for, as far as that can be shown.
pub fn act(model: &mut Model, action: &Action) {
    match action {
        // Only `heard` below says, before the engine, that the storage is ready.
        Action::Go(screen) if model.storage.state == StorageState::Ready => model.screen = *screen,
        _ => {}
    }
}

pub fn heard(model: &mut Model, report: &Report) {
    match report {
        Report::Opened(opened) if !model.demo && **opened == Opened::default() => {
            model.storage.state = StorageState::Ready;
        }
        Report::Phone(facts) => model.phone = facts.clone(),
        _ => {}
    }
}
