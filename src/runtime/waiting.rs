//! The engine, which alone changes the model, is in the bulk of the app and comes after the first screen. Until it is here everything
//! asked and reported waits in its order, each with the reading of the clock it came with: nothing is lost or done twice.

use std::cell::{Cell, RefCell};
use std::collections::VecDeque;
use std::rc::Rc;

use leptos::prelude::*;

use super::{Runtime, carry_out, now, with};
use crate::app::action::Action;
use crate::app::effect::Report;
use crate::app::update;
use crate::domain::time::Stamp;
use crate::platform::panic;

pub enum Asked {
    Action(Action),
    Report(Report),
}

pub type Engine = fn(Asked, Stamp);

/// Does what is asked, and whatever comes of it. To be named by the bulk alone: what it names is then in the bulk. Does nothing after
/// a panic: the state may be half applied.
pub fn engine(asked: Asked, at: Stamp) {
    if panic::panicked() {
        return;
    }
    with(|rt| {
        let mut effects = Vec::new();
        rt.model.update(|model| {
            effects = match asked {
                Asked::Action(action) => update::act(model, action, at),
                Asked::Report(report) => update::heard(model, report, at),
            };
        });
        carry_out(rt, effects);
    });
}

#[derive(Default)]
pub(super) struct Waiting {
    engine: Cell<Option<Engine>>,
    asked: RefCell<VecDeque<(Asked, Stamp)>>,
}

/// The engine is here: what has waited is done first.
pub fn goes_on_with(engine: Engine) {
    with(|rt| {
        // What comes of one of them is asked meanwhile and waits behind the others.
        while let Some((asked, at)) = rt.waiting.next() {
            engine(asked, at);
        }
        rt.waiting.engine.set(Some(engine));
    });
}

pub(super) fn give(asked: Asked) {
    with(|rt| match rt.waiting.engine.get() {
        Some(engine) => engine(asked, now()),
        None => rt.waiting.put(rt, asked),
    });
}

impl Waiting {
    fn next(&self) -> Option<(Asked, Stamp)> {
        self.asked.borrow_mut().pop_front()
    }

    fn put(&self, rt: &Rc<Runtime>, asked: Asked) {
        if matches!(asked, Asked::Report(Report::Ticked)) {
            return; // the next one tells the same
        }
        rt.model.update(|model| match &asked {
            Asked::Action(action) => update::early::act(model, action),
            Asked::Report(report) => update::early::heard(model, report),
        });
        self.asked.borrow_mut().push_back((asked, now()));
    }
}
