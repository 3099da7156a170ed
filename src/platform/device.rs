//! What kind of phone this is and what it will do for us. Owns the questions about display mode, lasting storage,
//! language and motion, and vibration. Refuses to guess a browser's abilities from its name: the system is guessed only to
//! choose which installing guide to show.

use super::js::{self, Fault};
use js_sys::{Array, Number};
use wasm_bindgen::prelude::*;

/// The system, for the installing guide only.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Os {
    Ios,
    Android,
    Other,
}

/// What this origin uses of the disk, and how much the browser would give it, in bytes. Both are the browser's estimate.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Space {
    pub used_bytes: u64,
    pub quota_bytes: u64,
}

/// Whether the app runs from the home screen rather than in a browser tab.
pub fn is_standalone() -> Result<bool, Fault> {
    // iOS says it in its own way; other browsers don't have the member.
    match js::of_navigator("standalone") {
        Ok(said) if said.is_truthy() => return Ok(true),
        Ok(_) | Err(Fault::Unsupported) => {}
        Err(fault) => return Err(fault),
    }
    Ok(media("(display-mode: standalone)")? || media("(display-mode: fullscreen)")?)
}

/// The phone's settings ask for less motion.
pub fn wants_less_motion() -> Result<bool, Fault> {
    media("(prefers-reduced-motion: reduce)")
}

pub fn os() -> Result<Os, Fault> {
    let agent = js::window()?.navigator().user_agent()?;
    let has = |name: &str| agent.contains(name);
    // An iPad calls itself a Macintosh; no Macintosh has a touch screen.
    let touch_macintosh = has("Macintosh") && js::window()?.navigator().max_touch_points() > 1;
    Ok(if has("iPhone") || has("iPad") || has("iPod") || touch_macintosh {
        Os::Ios
    } else if has("Android") {
        Os::Android
    } else {
        Os::Other
    })
}

/// The day that a week begins with in the coach's language, 1 for Monday to 7 for Sunday, where the browser tells.
pub fn first_weekday() -> Result<u8, Fault> {
    let locale = js::member(&js::member(&js_sys::global(), "Intl")?, "Locale")?;
    let locale: js_sys::Function = locale.dyn_into().map_err(|_not_callable| Fault::Unsupported)?;
    let language = js::of_navigator("language")?;
    let here = js_sys::Reflect::construct(&locale, &Array::of1(&language))?;
    // A method now; a member in browsers of some years ago.
    let week = match js::call(&here, "getWeekInfo", &[]) {
        Err(Fault::Unsupported) => js::member(&here, "weekInfo")?,
        told => told?,
    };
    let first = js::member(&week, "firstDay")?.as_f64().unwrap_or(0.0);
    Ok(if (1.0..=7.0).contains(&first) { first as u8 } else { 0 })
}

/// Asks the browser to keep this origin's data when the disk runs full. True when it promises to.
pub async fn persist() -> Result<bool, Fault> {
    Ok(js::call_later(&js::of_navigator("storage")?, "persist", &[]).await?.is_truthy())
}

/// Whether that was promised already.
pub async fn persisted() -> Result<bool, Fault> {
    Ok(js::call_later(&js::of_navigator("storage")?, "persisted", &[]).await?.is_truthy())
}

pub async fn estimate() -> Result<Space, Fault> {
    let told = js::call_later(&js::of_navigator("storage")?, "estimate", &[]).await?;
    let bytes = |name: &str| match js::member(&told, name)?.dyn_into::<Number>() {
        Ok(number) => Ok(number.value_of() as u64),
        Err(other) => Err(Fault::said(name, &format!("not a number: {other:?}"))),
    };
    Ok(Space { used_bytes: bytes("usage")?, quota_bytes: bytes("quota")? })
}

/// The language that the phone is set to, as a tag like "en-GB".
pub fn language() -> Option<String> {
    js::window().map_or(None, |window| window.navigator().language())
}

/// Vibrates: milliseconds on, off, on, … Unsupported on every iOS browser. Refused before the first touch of a page.
/// That is asked first, because Chromium reports the bare attempt as an error in the console.
pub fn vibrate(pattern_ms: &[u32]) -> Result<(), Fault> {
    let navigator = js::member(&js_sys::global(), "navigator")?;
    match js::member(&navigator, "userActivation") {
        Ok(activation) if js::member(&activation, "hasBeenActive")?.is_falsy() => {
            return Err(Fault::said("vibrate", "the page was not touched yet"));
        }
        Ok(_) | Err(Fault::Unsupported) => {}
        Err(fault) => return Err(fault),
    }
    let pattern: Array = pattern_ms.iter().map(|ms| JsValue::from(*ms)).collect();
    let taken = js::call(&navigator, "vibrate", &[pattern.as_ref()])?;
    if taken.is_truthy() { Ok(()) } else { Err(Fault::said("vibrate", "the browser would not")) }
}

fn media(query: &str) -> Result<bool, Fault> {
    let list = js::window()?.match_media(query)?;
    list.map(|list| list.matches()).ok_or(Fault::Unsupported)
}

/// Whether the browser can vibrate at all (never on iOS).
pub fn has_vibration() -> bool {
    js::window().is_ok_and(|window| js::member(window.navigator().as_ref(), "vibrate").is_ok())
}
