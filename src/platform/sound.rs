//! Short tones, made here and now. Owns what they sound like; refuses to play one late: a tone that could not sound
//! at its moment is dropped.

use super::clock;
use super::js::Fault;
use std::cell::RefCell;
use wasm_bindgen_futures::JsFuture;
use web_sys::{AudioContext, AudioContextState, OscillatorType};

/// What a tone tells. They differ in direction and length, so that a poor loudspeaker in a loud hall keeps them apart.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tone {
    /// The tap was taken: one short note.
    Taken,
    /// Another phase: two notes up.
    Phase,
    /// Change places: up and back.
    Swap,
    /// Another child's turn: two notes down.
    Next,
    /// A count of the pace: one short low note.
    Count,
    /// Time: one long note.
    Time,
    /// Not saved: three low notes down.
    NotSaved,
}

/// The page's loudspeaker. Made at the first tone, which must answer a tap: browsers allow sound only then.
#[derive(Default)]
pub struct Sound {
    context: RefCell<Option<AudioContext>>,
}

/// One note: hertz, seconds after the start, seconds long.
type Note = (f32, f64, f64);

impl Tone {
    const fn notes(self) -> &'static [Note] {
        match self {
            Self::Taken => &[(880.0, 0.0, 0.05)],
            Self::Phase => &[(587.0, 0.0, 0.12), (880.0, 0.13, 0.18)],
            Self::Swap => &[(659.0, 0.0, 0.09), (988.0, 0.10, 0.09), (659.0, 0.20, 0.12)],
            Self::Next => &[(784.0, 0.06, 0.09), (587.0, 0.16, 0.12)],
            Self::Count => &[(523.0, 0.0, 0.07)],
            Self::Time => &[(740.0, 0.0, 0.6)],
            Self::NotSaved => &[(392.0, 0.0, 0.15), (330.0, 0.17, 0.15), (262.0, 0.34, 0.3)],
        }
    }
}

impl Sound {
    /// Plays the tone. On `Err` nothing was heard.
    pub async fn play(&self, tone: Tone) -> Result<(), Fault> {
        const STILL_ITS_MOMENT_MS: u64 = 250;
        let context = self.context()?;
        if context.state() != AudioContextState::Running {
            // A phone call or a locked screen has stopped it. It is asked at every tone, since only an asking that answers
            // a tap is granted; those that were not, wait until one is.
            let asked_ms = clock::mono_ms();
            JsFuture::from(context.resume()?).await?;
            if clock::mono_ms() - asked_ms > STILL_ITS_MOMENT_MS {
                return Err(Fault::said("sound", "allowed too late for this tone"));
            }
        }
        for note in tone.notes() {
            sound(&context, *note)?;
        }
        Ok(())
    }

    fn context(&self) -> Result<AudioContext, Fault> {
        let mut kept = self.context.borrow_mut();
        match &*kept {
            Some(context) => Ok(context.clone()),
            None => {
                super::js::member(&js_sys::global(), "AudioContext")?;
                Ok(kept.insert(AudioContext::new()?).clone())
            }
        }
    }
}

fn sound(context: &AudioContext, (hertz, after_s, long_s): Note) -> Result<(), Fault> {
    const LOUD: f32 = 0.4;
    const EDGE_S: f64 = 0.008; // without a short rise and fall a note clicks
    let (from, to) = (context.current_time() + after_s, context.current_time() + after_s + long_s);
    let source = context.create_oscillator()?;
    let level = context.create_gain()?;
    source.set_type(OscillatorType::Triangle);
    source.frequency().set_value(hertz);
    level.gain().set_value_at_time(0.0, from)?;
    level.gain().linear_ramp_to_value_at_time(LOUD, from + EDGE_S)?;
    level.gain().set_value_at_time(LOUD, to - EDGE_S)?;
    level.gain().linear_ramp_to_value_at_time(0.0, to)?;
    source.connect_with_audio_node(&level)?;
    level.connect_with_audio_node(&context.destination())?;
    source.start_with_when(from)?;
    source.stop_with_when(to)?;
    Ok(())
}
