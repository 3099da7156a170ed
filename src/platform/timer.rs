//! A timer for the page's life.

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
