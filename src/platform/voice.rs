//! The phone's own voice. Owns the choice of a voice that is on the phone itself, so that nothing is sent anywhere and it
//! speaks without signal; refuses any other voice, and stays silent then.

use std::cell::Cell;

use super::clock;
use super::js::{self, Fault};
use wasm_bindgen::JsCast;
use web_sys::{SpeechSynthesis, SpeechSynthesisUtterance, SpeechSynthesisVoice};

/// What one tap has to say (another phase, a swap) is said one after the other.
const SAME_MOMENT_MS: u64 = 100;

thread_local! {
    /// When something was said last.
    static SAID_MS: Cell<u64> = const { Cell::new(0) };
}

/// What came of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Said {
    /// Given to the voice; what was said before is cut off.
    Spoken,
    /// No voice of this language on the phone itself. Some browsers list their voices only a moment after the start.
    NoVoice,
}

/// Says it in that language ("en" fits "en-GB" too).
pub fn say(text: &str, language: &str) -> Result<Said, Fault> {
    let speech = speech()?;
    let Some(voice) = own_voice(&speech, language) else { return Ok(Said::NoVoice) };
    let sentence = SpeechSynthesisUtterance::new_with_text(text)?;
    sentence.set_voice(Some(&voice));
    sentence.set_lang(&voice.lang());
    let now_ms = clock::mono_ms();
    if now_ms.saturating_sub(SAID_MS.replace(now_ms)) > SAME_MOMENT_MS {
        speech.cancel(); // the latest news is the one that counts
    }
    speech.speak(&sentence);
    Ok(Said::Spoken)
}

fn speech() -> Result<SpeechSynthesis, Fault> {
    js::member(&js_sys::global(), "SpeechSynthesisUtterance")?;
    Ok(js::member(&js_sys::global(), "speechSynthesis")?.unchecked_into())
}

/// The phone's default voice if it fits, else the first that does.
fn own_voice(speech: &SpeechSynthesis, language: &str) -> Option<SpeechSynthesisVoice> {
    let fits = |voice: &SpeechSynthesisVoice| {
        let lang = voice.lang().replace('_', "-").to_ascii_lowercase();
        let wanted = language.to_ascii_lowercase();
        let same = lang == wanted || lang.strip_prefix(&wanted).is_some_and(|rest| rest.starts_with('-'));
        voice.local_service() && same
    };
    let mut first = None;
    for voice in speech.get_voices().iter() {
        let voice: SpeechSynthesisVoice = voice.unchecked_into();
        if fits(&voice) {
            if voice.default() {
                return Some(voice);
            }
            first = first.or(Some(voice));
        }
    }
    first
}
