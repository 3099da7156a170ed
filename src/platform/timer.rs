//! Timers: one for the page's life, and one that comes once unless it is dropped before.

use wasm_bindgen::prelude::*;

use super::js::{self, Fault};

/// Calls `ticked` with 1, 2, 3 … every `ms` milliseconds, for as long as the page lives.
pub fn every(ms: i32, mut ticked: impl FnMut(u32) + 'static) -> Result<(), Fault> {
    let mut n = 0_u32;
    let tick = Closure::<dyn FnMut()>::new(move || {
        n = n.wrapping_add(1);
        ticked(n);
    });
    js::window()?.set_interval_with_callback_and_timeout_and_arguments_0(tick.as_ref().unchecked_ref(), ms)?;
    tick.forget(); // for the page's life
    Ok(())
}

/// Comes once; dropped, it doesn't come any more.
pub struct Once {
    id: i32,
    _call: Closure<dyn FnMut()>,
}

/// Calls `come` once, after so many milliseconds.
pub fn once(ms: u32, come: impl FnOnce() + 'static) -> Result<Once, Fault> {
    let call = Closure::once(come);
    let ms = i32::try_from(ms).unwrap_or(i32::MAX);
    let id = js::window()?.set_timeout_with_callback_and_timeout_and_arguments_0(call.as_ref().unchecked_ref(), ms)?;
    Ok(Once { id, _call: call })
}

impl Drop for Once {
    fn drop(&mut self) {
        // A page without a window has no timers either.
        if let Ok(window) = js::window() {
            window.clear_timeout_with_handle(self.id);
        }
    }
}
