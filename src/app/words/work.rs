//! Sentences about heavy work that could not be done: what is safe, what to do next.

pub const NO_START: &str = "The part of the app that does large tasks did not start. Everything counted is safe and nothing was changed. Try again; if it stays so, close the app and open it once more while online.";
pub const DIED: &str = "The phone stopped this task before its end; it may be short of memory. Everything counted is safe and nothing was changed. Close other apps and try again.";
pub const NO_END: &str = "The phone did not come to an end with this task, and it was given up. Everything counted is safe. Try again; if it stays so, close other apps first.";
pub const STOPPED: &str = "This task was given up when everything was to be erased. Do it once more.";
pub const CHANGED: &str =
    "Another window of the app stored something at the same time. Nothing was changed; try again.";
pub const NOT_SURE: &str = "The phone's storage did not answer in time, so nobody can tell yet whether this was done. Everything counted is safe. Close the app, open it again and look; then try once more if need be.";
pub const NONSENSE: &str = "This task ended without an answer that the app understands. Everything counted is safe. Reload the app and try again.";
pub const OTHER_BUILD: &str = "The app changed to a newer version while this window was open. Everything counted is safe. Change to it here too, on “Today” or on “This phone”, then do this again.";
pub const NOT_PACKED: &str =
    "A finished practice could not be stored in its short form yet. Everything in it is safe as it is.";
pub const DEMO_THERE: &str = "The demo is open in another window already. Reload to see it here.";
pub const NO_FILE: &str = "No file came along. Choose it once more.";
pub const FILE_CHANGED: &str = "it has changed since it was looked at; choose it once more";
pub const NO_NOTE: &str = "a file that was opened, and nobody can tell whether it was taken in";
pub const NO_RECORD: &str = "it is no note that the app understands";
pub const NO_PARCEL: &str = "it is no longer in the storage";

pub fn closed(why: &str) -> String {
    format!("The phone's storage can't be read just now ({why}). Nothing was changed; try again.")
}

pub fn not_written(why: &str) -> String {
    format!(
        "The phone's storage did not take it ({why}). Nothing was changed and everything counted is safe; try again."
    )
}
