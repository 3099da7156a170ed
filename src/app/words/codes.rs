//! A copy shown to another phone, and one read from there.

use super::counts::plural;
use crate::app::codes::CameraEnd;

pub const SHOW: &str = "Show it to another phone";
pub const SHOW_LINE: &str = "A moving code, no network";
pub const READ: &str = "Read from another phone";
pub const READ_LINE: &str = "With the camera, no network";

/// Short, so that the code has the room.
pub const SHOW_TITLE: &str = "Show a copy";
pub const READ_TITLE: &str = "Read a copy";
pub const SHOW_WHAT: &str = "The other phone’s camera reads it. Nothing goes over any network.";
pub const SHOW_SPAN: &str = "What is shown";
pub const SHOW_SPAN_LINE: &str = "The squad and its drills always go along. One practice takes a few seconds; a whole season is better sent as a file.";
pub const SHOW_FLICKER: &str = "The code changes ten times a second, and it flickers: not for anyone who is sensitive to that. It can be slowed down or stopped.";
pub const SHOW_START: &str = "Show the code";
pub const MAKING: &str = "The code is being made …";
pub const SHOW_HOW: &str = "Turn the brightness up and hold the phones still, a forearm apart. On the other phone: Share, “Read from another phone”.";
pub const SHOW_HOLD: &str = "Turn the brightness up and hold the phones still, a forearm apart.";
/// One line under the code itself.
pub const SHOW_THEN: &str = "On the other phone: Share, “Read from another phone”.";
/// What the picture is to those who can't see it.
pub const CODE: &str = "The moving code, for the other phone’s camera";
pub const PAUSE: &str = "Stop";
pub const GO_ON: &str = "Go on";
pub const CALM: &str = "Slowly";
pub const CALM_LINE: &str = "Two pictures a second: calmer, and five times as long";
pub const DONE: &str = "Done";
pub const NOT_SENT: &str = "Showing a copy doesn’t count as sent: this phone can’t tell what the other one has read.";
pub const AS_FILE: &str = "Send it as a file";

pub const READ_HOW: &str = "Hold this phone’s camera over the other one’s screen, a forearm away, until the whole code is in the picture. Pieces that are missed come round again.";
pub const READ_CAMERA: &str =
    "The browser will ask for the camera. It is on only while this screen reads, and no picture is kept.";
pub const READ_START: &str = "Start the camera";
pub const READ_ASKING: &str = "The browser asks for the camera. Allow it to go on.";
pub const READ_STOP: &str = "Stop the camera";
pub const READ_AGAIN: &str = "Try again";
/// What the live picture is to those who can't see it.
pub const CAMERA: &str = "What the camera sees";
pub const NOTHING_SEEN: &str = "No code in the picture yet.";
pub const FOREIGN: &str = "There is a code in the picture, and it is not one of this app.";
pub const NEWER: &str = "The other phone has a newer version of the app. Bring this one up to date first.";
pub const BROKEN: &str = "All of it was here, but it makes no copy. It is read once more.";
/// The name of what was read, where a file has its own.
pub const FROM_PHONE: &str = "read from another phone";

pub const NO_WORKER: &str =
    "The part of the app that makes and reads codes did not start. Close other apps and try again, or send a file.";
pub const NONSENSE: &str = "That was not understood. Nothing was changed; try again, or send a file.";

pub fn too_large(n_bytes: usize) -> String {
    let kb = n_bytes.div_ceil(1000);
    format!("This is too much for a moving code ({kb} kB; it would take minutes). Choose less, or send it as a file.")
}

pub fn not_made(why: &str) -> String {
    format!("The code could not be made ({why}). What is on this phone is unchanged; send a file instead.")
}

pub fn no_picture(n_bytes: usize) -> String {
    format!("{n_bytes} bytes in one picture")
}

/// `12 pictures, a round takes 2 seconds. Show it until the other phone has all.`
pub fn round(n: u16, a_second: u32) -> String {
    let seconds = u32::from(n).div_ceil(a_second) as usize;
    format!(
        "{}, a round takes {}. Show it until the other phone has all.",
        plural(usize::from(n), "picture", "pictures"),
        plural(seconds, "second", "seconds")
    )
}

/// `7 of 12 pieces are here.`
pub fn here(n_here: usize, n: usize) -> String {
    format!("{n_here} of {} here.", plural(n, "piece", "pieces"))
}

/// Why the camera doesn't read, and what to do.
pub fn camera(end: &CameraEnd) -> String {
    match end {
        CameraEnd::Refused => "The camera is not allowed for this app. Allow it in the browser’s settings for this page and try again, or let the other phone send a file.".to_owned(),
        CameraEnd::Absent => "This phone’s browser offers no camera. Let the other phone send a file, and open it here.".to_owned(),
        CameraEnd::Busy => "The camera stopped or another app has it. Close that app and try again.".to_owned(),
        CameraEnd::Hidden => "The camera was turned off because this page was out of sight. Start it again to read.".to_owned(),
        CameraEnd::NoReader(why) => why.clone(),
        CameraEnd::Other(why) => format!("The camera did not start ({why}). Try again, or let the other phone send a file."),
    }
}
