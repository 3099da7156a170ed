//! A copy shown to another phone as a moving code, and one read from there: how far both are, and what the page and the worker of codes
//! say to each other. [`doing`] does it and is linked by that worker alone. What a code holds stands in `wire::moving`.

pub mod doing;

use serde::{Deserialize, Serialize};

/// So many pictures are shown in a second, and where that is too restless.
pub const A_SECOND: u32 = 10;
pub const A_SECOND_CALM: u32 = 2;

/// The canvas and the video that the screens have for the shell, by their ids.
pub const CODE: &str = "code";
pub const CAMERA: &str = "camera";

#[derive(Clone, Debug, Default, PartialEq)]
pub struct Codes {
    pub shown: Shown,
    pub paused: bool,
    /// Fewer pictures in a second.
    pub calm: bool,
    /// What of the copy isn't in what is shown.
    pub missing: Option<String>,
    pub read: Reading,
}

/// What is shown to another phone.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum Shown {
    #[default]
    Nothing,
    Making,
    /// So many pictures, one after another.
    Standing {
        n: u16,
    },
    /// Why not, in a sentence.
    Not(String),
}

/// What is read from another phone.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum Reading {
    #[default]
    Nothing,
    /// The browser asks the coach for the camera, or starts it.
    Asking,
    Looking {
        /// Which pieces are here; empty before the first.
        here: Vec<bool>,
        seen: Seen,
    },
    Not(String),
}

/// What the last pictures of the camera showed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Seen {
    #[default]
    Nothing,
    Piece,
    /// Some other code.
    Foreign,
    /// A piece that a newer version shows.
    Newer,
    /// All of it was here and made no copy.
    Broken,
}

/// What the coach taps.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CodesTap {
    /// The pictures stand still, or go on.
    Paused(bool),
    Calm(bool),
    /// Back to what is to be shown.
    Ended,
    /// The camera on, and off.
    Camera(bool),
}

/// What the shell is to do.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CodesTask {
    /// The copy that was written last is made a code.
    Show,
    /// So many pictures a second; 0: they stand still.
    Pace(u32),
    EndShowing,
    Camera(bool),
}

/// What the shell tells.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum CodesReport {
    /// Of what is shown; `calm`: this phone's settings ask for less motion.
    Made {
        told: Told,
        calm: bool,
    },
    CameraOn,
    Read(Told),
    CameraEnded(CameraEnd),
}

/// Why there is no camera, or none any more.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum CameraEnd {
    /// The coach or the phone's settings don't allow it.
    Refused,
    /// This phone has none.
    Absent,
    /// Another app has it, or it stopped.
    Busy,
    /// The page was left or hidden.
    Hidden,
    /// The worker that reads codes is not to be had: one sentence.
    NoReader(String),
    Other(String),
}

/// What the page asks of the worker. With `Show` goes the copy's file, with `Look` the camera's picture as RGBA.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Ask {
    Show,
    Look { width: u32, height: u32 },
}

/// What the worker says.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Told {
    /// `n` pictures of `side` squares across. With it go their squares, a byte each, and the order in which they are shown: two
    /// bytes each, the lower first, round after round.
    Drawn {
        n: u16,
        side: u32,
    },
    Seen {
        here: Vec<bool>,
        seen: Seen,
    },
    /// All is here. With it goes the copy's file.
    Whole,
    Not(String),
}

impl Ask {
    pub fn to_text(self) -> String {
        // Numbers always serialise; an empty text is nonsense to whoever reads it, and is told as that.
        serde_json::to_string(&self).unwrap_or_default()
    }

    pub fn from_text(text: &str) -> Option<Ask> {
        serde_json::from_str(text).ok()
    }
}

impl Told {
    pub fn to_text(&self) -> String {
        serde_json::to_string(self).unwrap_or_default() // as above
    }

    pub fn from_text(text: &str) -> Option<Told> {
        serde_json::from_str(text).ok()
    }
}
