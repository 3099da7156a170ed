//! What time it is, and chance. Owns the reading of the phone's clocks; refuses to keep or compare times. Works on a page
//! and in a worker.

use super::js::Fault;
use wasm_bindgen::prelude::*;

/// Milliseconds since 1970-01-01 UTC by the wall clock. May jump either way.
pub fn wall_ms() -> i64 {
    js_sys::Date::now() as i64
}

/// Minutes east of UTC, now and here.
pub fn offset_min() -> i16 {
    // The browser counts westward. No place is further than 14 hours from UTC.
    -js_sys::Date::new_0().get_timezone_offset() as i16
}

/// Milliseconds since the page was loaded; never goes back.
pub fn mono_ms() -> u64 {
    performance_now() as u64
}

/// 64 random bits of the quality that keys are made from.
pub fn random_64() -> Result<u64, Fault> {
    let mut bytes = [0; 8];
    get_random_values(&mut bytes)?;
    Ok(u64::from_le_bytes(bytes))
}

#[wasm_bindgen]
extern "C" {
    #[wasm_bindgen(js_namespace = performance, js_name = now)]
    fn performance_now() -> f64;

    #[wasm_bindgen(catch, js_namespace = crypto, js_name = getRandomValues)]
    fn get_random_values(bytes: &mut [u8]) -> Result<JsValue, JsValue>;
}
