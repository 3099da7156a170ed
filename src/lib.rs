//! Peppertally: a tap tally for youth volleyball practice. The code map, in reading order.
#![cfg_attr(rustfmt, rustfmt_skip)]

pub mod stats; // pure numbers: proportions, rows, pace; knows no volleyball
pub mod domain; // squad, drills, entries, and what they add up to; knows no browser
pub mod wire; // versioned JSON: types of their own, conversion, refusals
pub mod app; // action to model and effects, view models, words; still no browser

#[cfg(feature = "beside")]
pub mod store; // IndexedDB and local storage: bytes in, bytes out
#[cfg(feature = "beside")]
pub mod platform; // clock, device, files and sharing, voice, vibration, wake lock, app update
#[cfg(feature = "beside")]
pub mod beside; // the programs of the workers, without the page's crates
#[cfg(feature = "web")]
pub mod ui; // markup and signals over the view models
#[cfg(feature = "web")]
pub mod runtime; // the only place that carries out an effect
