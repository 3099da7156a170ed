//! The screen stays on while it is wanted. Owns the one lock of this page and the race between wanting and getting;
//! refuses to decide when: the caller says what it wants, and calls `renew` when the page is shown again, because every
//! browser lets go of the lock while a page is hidden.

use super::js::{self, Fault};
use std::cell::{Cell, RefCell};
use std::rc::Rc;
use wasm_bindgen::JsValue;

/// A handle to the page's wake lock. Clones are the same lock.
#[derive(Clone, Default)]
pub struct WakeLock(Rc<State>);

#[derive(Default)]
struct State {
    wanted: Cell<bool>,
    asking: Cell<bool>,
    held: RefCell<Option<JsValue>>,
}

impl WakeLock {
    /// Says whether the screen shall stay on, and tries to make it so. `Unsupported` and a refusal (battery saver) leave
    /// the wish standing: `renew` tries again.
    pub async fn want(&self, on: bool) -> Result<(), Fault> {
        self.0.wanted.set(on);
        self.settle().await
    }

    /// To be called when the page is shown again.
    pub async fn renew(&self) -> Result<(), Fault> {
        self.settle().await
    }

    /// Whether the screen is kept on at this moment.
    pub fn is_held(&self) -> Result<bool, Fault> {
        match &*self.0.held.borrow() {
            Some(lock) => Ok(js::member(lock, "released")?.is_falsy()),
            None => Ok(false),
        }
    }

    async fn settle(&self) -> Result<(), Fault> {
        if self.0.asking.get() {
            return Ok(()); // the call that is under way looks at the wish once more when it gets its answer
        }
        let held = self.is_held()?;
        if self.0.wanted.get() && !held {
            self.0.asking.set(true);
            let answer =
                js::call_later(&js::of_navigator("wakeLock")?, "request", &[&JsValue::from_str("screen")]).await;
            self.0.asking.set(false);
            *self.0.held.borrow_mut() = Some(answer?);
        }
        if !self.0.wanted.get() {
            let lock = self.0.held.borrow_mut().take();
            if let Some(lock) = lock {
                js::call_later(&lock, "release", &[]).await?;
            }
        }
        Ok(())
    }
}
