//! Sound, vibration and voice for the four things worth telling. The coach chooses which; the screen tells all of them anyway.

use std::rc::Rc;

use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use super::{Runtime, log};
use crate::app::effect::Signal;
use crate::platform::sound::Tone;
use crate::platform::{device, voice};

pub fn tell(rt: &Rc<Runtime>, signal: Signal) {
    let settings = rt.model.with_untracked(|m| m.settings.clone());
    let (tone, pattern_ms, say): (Tone, &[u32], Option<String>) = match signal {
        Signal::Taken => (Tone::Taken, &[15], None),
        Signal::Phase(word) => (Tone::Phase, &[60, 40, 60], Some(word)),
        Signal::Swap(word) => (Tone::Swap, &[40, 40, 40], Some(word)),
        Signal::NotSaved(word) => (Tone::NotSaved, &[200, 80, 200], Some(word)),
    };
    if settings.sound {
        let rt = rt.clone();
        spawn_local(async move {
            if let Err(fault) = rt.sound.play(tone).await {
                log(&fault);
            }
        });
    }
    if settings.vibration
        && rt.model.with_untracked(|m| m.phone.has_vibration)
        && let Err(fault) = device::vibrate(pattern_ms)
    {
        log(&fault);
    }
    if let Some(word) = say.filter(|_| settings.voice)
        && let Err(fault) = voice::say(&word, "en")
    {
        log(&fault);
    }
}
