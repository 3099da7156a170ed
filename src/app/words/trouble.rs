//! What went wrong, what is safe, what to do next. One sentence each, no blame, no code.

use crate::app::effect::Trouble;
use crate::wire::file::Refusal;

pub const OPENING: &str = "The storage is being opened.";
pub const ALL_SAFE: &str = "Everything counted is stored on this phone.";
pub const LASTING: &str = "The browser has promised to keep it until you erase it.";
pub const NOT_LASTING: &str = "The browser may clear it when the phone runs short of room. Put the app on the home screen, and send a copy now and then.";
pub const LASTING_UNKNOWN: &str = "The browser does not say whether it keeps data for good. Send a copy now and then.";
pub const OFFLINE: &str = "The app itself is on this phone and opens without a signal.";
pub const NOT_OFFLINE: &str = "The app is not yet kept for use without a signal. Open it once more while online.";

pub const TOO_LARGE: &str = "This file is larger than 100 MB, more than any copy needs. Nothing was changed.";

/// Where a screen has nothing to show because the database can't be read.
pub const CLOSED_HERE: &str =
    "What is stored on this phone can't be read just now, so this can't be shown. It lies there untouched.";

pub fn saving(n: usize) -> String {
    format!("{} being stored.", super::counts::plural(n, "note is", "notes are"))
}

/// In the small place beside the dot.
pub fn short(trouble: &Trouble) -> &'static str {
    match trouble {
        Trouble::Full => "phone is full",
        Trouble::Newer => "app is older than its data",
        Trouble::Refused(_) | Trouble::Unavailable | Trouble::Blocked => "storage is closed",
        Trouble::NoAnswer => "storage doesn't answer",
        Trouble::Lost | Trouble::Other(_) => "trying again",
        Trouble::Erasing => "being erased",
    }
}

/// What happened and what to do.
pub fn whole(trouble: &Trouble) -> String {
    match trouble {
        Trouble::Full => {
            "The phone has no room left. Free some room (pictures, other apps), then tap “Save again”. You can also send a copy now."
                .to_owned()
        }
        Trouble::Refused(why) => format!(
            "The browser does not let the app store anything ({why}). A private window or blocked site data does this. Send a copy before closing, and open the app in an ordinary window."
        ),
        Trouble::Blocked => {
            "Another window holds an older version of the storage open. Close the other windows of the app, then tap “Save again”.".to_owned()
        }
        Trouble::Newer => {
            "The data on this phone was written by a newer version of the app. Nothing was changed. Reload to get the newer app; send a copy first if you tallied just now.".to_owned()
        }
        Trouble::NoAnswer => {
            "The phone's storage does not answer. What lies in it is untouched and can't be read just now. Tap “Save again” to try once more; if it stays so, close the app and open it again.".to_owned()
        }
        Trouble::Lost => "The browser closed the storage for a moment. The app opens it again by itself.".to_owned(),
        Trouble::Erasing => {
            "Erasing waits for another window of the app. Close the other windows, then tap “Erase everything” once more. Nothing counted from now on is kept.".to_owned()
        }
        Trouble::Unavailable => {
            "This browser has no storage that the app can use. Send a copy before closing, or open the app in another browser.".to_owned()
        }
        Trouble::Other(why) => format!("Storing failed ({why}). The app tries again; you can send a copy now."),
    }
}

/// What is safe while the database doesn't answer.
pub fn safe(n_unsaved: usize, second_copy: bool) -> String {
    let n = super::counts::plural(n_unsaved, "note is", "notes are");
    if second_copy {
        format!(
            "{n} not in the storage yet. A second copy of each lies in the browser's small store and is taken in at the next start."
        )
    } else {
        format!("{n} only on this screen: they are lost if it closes. Send a copy now.")
    }
}

pub fn not_erased(why: &str) -> String {
    format!(
        "Not everything could be erased ({why}). What is left is as it was. Close the other windows of the app and try again."
    )
}

/// Records that couldn't be read.
pub fn aside(n: usize) -> String {
    format!(
        "{} could not be read and lie set aside, untouched. All else is here.",
        super::counts::plural(n, "stored note", "stored notes")
    )
}

/// Why a file was refused. Nothing stored has changed.
pub fn refusal(refusal: &Refusal) -> String {
    match refusal {
        Refusal::NotOurs => "This file is not a Peppertally copy. Nothing was changed.".to_owned(),
        Refusal::CutOff => {
            "This copy is cut off: its end is missing. Ask for it again. Nothing was changed.".to_owned()
        }
        Refusal::Newer { .. } => {
            "This copy was written by a newer version of the app. Update this app first. Nothing was changed."
                .to_owned()
        }
        Refusal::TooLarge { .. } => TOO_LARGE.to_owned(),
        Refusal::BreaksRule { .. } => {
            "This copy is damaged: something in it contradicts itself. Ask for it again. Nothing was changed."
                .to_owned()
        }
    }
}
