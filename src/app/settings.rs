//! What the coach chose on this phone. Kept as one JSON text in local storage; not part of the log.

use serde::{Deserialize, Serialize};

/// Choices of this phone. Missing fields take their default, so an older text can be read.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Settings {
    pub sound: bool,
    pub voice: bool,
    pub vibration: bool,
    pub left_handed: bool,
    /// The floor is drawn from the other side.
    pub turned: bool,
    pub device_name: String,
    pub install_hint_closed: bool,
    /// Lasting storage was asked for once.
    pub lasting_asked: bool,
    /// The clock of the last copy that left this phone, and when.
    pub copied_clock: u64,
    pub copied_wall_ms: Option<i64>,
}

impl Default for Settings {
    fn default() -> Self {
        Settings {
            sound: false,
            voice: false,
            vibration: true,
            left_handed: false,
            turned: false,
            device_name: String::new(),
            install_hint_closed: false,
            lasting_asked: false,
            copied_clock: 0,
            copied_wall_ms: None,
        }
    }
}

impl Settings {
    pub fn to_json(&self) -> String {
        // A struct of plain fields always serialises; the empty object stands for "all as usual".
        serde_json::to_string(self).unwrap_or_else(|_| "{}".to_owned())
    }

    /// `None` for a text that isn't settings: the caller sets it aside.
    pub fn from_json(text: &str) -> Option<Settings> {
        serde_json::from_str(text).ok()
    }
}
