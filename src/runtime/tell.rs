//! Sound, vibration and voice for what is worth telling. The coach chooses which; the screen tells all of it anyway.

use std::rc::Rc;

use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use super::{Runtime, log};
use crate::app::effect::{Call, Signal};
use crate::platform::sound::Tone;
use crate::platform::voice::Said;
use crate::platform::{device, timer, voice};

pub fn tell(rt: &Rc<Runtime>, signal: Signal) {
    let settings = rt.model.with_untracked(|m| m.settings.clone());
    let (tone, pattern_ms, call): (Tone, &[u32], Option<String>) = match signal {
        Signal::Call(call, _) if !settings.calls.has(call) => return,
        Signal::Taken => (Tone::Taken, &[15], None),
        Signal::Call(Call::Phase, words) => (Tone::Phase, &[60, 40, 60], Some(words)),
        Signal::Call(Call::Swap, words) => (Tone::Swap, &[40, 40, 40], Some(words)),
        // A name comes with every tap, a count by itself: the thumb need not feel them too.
        Signal::Call(Call::Name, words) => (Tone::Next, &[], Some(words)),
        Signal::Call(Call::Pace, words) => (Tone::Count, &[], Some(words)),
        Signal::Call(Call::Time, words) => (Tone::Time, &[200], Some(words)),
        Signal::NotSaved(words) => (Tone::NotSaved, &[200, 80, 200], Some(words)),
    };
    let alarm = tone == Tone::NotSaved;
    let spoken = call.filter(|_| settings.voice).is_some_and(|words| said(&words));
    if settings.sound && (alarm || !spoken) {
        play(rt, tone);
    }
    if settings.vibration
        && !pattern_ms.is_empty()
        && rt.model.with_untracked(|m| m.phone.has_vibration)
        && let Err(fault) = device::vibrate(pattern_ms)
    {
        log(&fault);
    }
}

/// Whether the phone's own voice says it; without one a tone stands in.
fn said(words: &str) -> bool {
    voice::say(words, "en").unwrap_or_else(|fault| {
        log(&fault);
        Said::NoVoice
    }) == Said::Spoken
}

/// Each after its time; what was still to come of the last asking doesn't come.
pub fn tell_later(rt: &Rc<Runtime>, signals: Vec<(u32, Signal)>) {
    let mut later = Vec::new();
    for (ms, signal) in signals {
        let rt = rt.clone();
        match timer::once(ms, move || tell(&rt, signal)) {
            Ok(once) => later.push(once),
            Err(fault) => log(&fault),
        }
    }
    rt.later.replace(later);
}

fn play(rt: &Rc<Runtime>, tone: Tone) {
    let rt = rt.clone();
    spawn_local(async move {
        if let Err(fault) = rt.sound.play(tone).await {
            log(&fault);
        }
    });
}
