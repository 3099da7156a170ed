//! Sentences about locked copies and files that come from elsewhere.

use crate::app::lock::LockFault;

pub const OPEN: &str = "Lock it with words";
pub const LEAD: &str =
    "For a copy that goes through mail or a cloud. Whoever has the file also needs your words to read it.";
pub const NO_WAY_BACK: &str = "Nobody can open it without them: not you, not us. Keep them apart from the file, and don’t make this your only copy.";
pub const FIELD: &str = "Your words";
pub const SEND: &str = "Send it locked";
pub const SAVE: &str = "Save it locked";
pub const NOT_KEPT: &str = "The words aren’t kept on this phone.";
pub const LOCKING: &str = "Locking. This takes a few seconds: trying words out should cost as much.";
pub const GIVE_UP: &str = "Stop";

pub const ASK_HEAD: &str = "This file is locked";
pub const ASK_LEAD: &str = "It opens with the words that it was locked with.";
pub const TRY: &str = "Open it";
pub const PUT_AWAY: &str = "Leave it";
pub const OPENING: &str = "Trying your words. This takes a few seconds.";

pub const MORE_SINCE: &str =
    "More was noted since this copy was locked. Lock a new one, so that all of it is in there.";

/// While something is dragged over the app.
pub const DROP: &str = "Let go to look at the file. Nothing is taken in yet.";
pub const ONE_AT_A_TIME: &str = "One file at a time: only the first was opened.";
pub const NOT_KEPT_FOR_US: &str = "The file that was sent to the app could not be kept; the phone may be short of room. Save it, then open it with “Open a file”.";

/// The share sheet did not take it; it stands ready still.
pub fn not_shared(why: &str) -> String {
    format!(
        "The share sheet did not open ({why}). The locked copy stands ready: tap “Send it now”, or save one locked."
    )
}

/// How hard they are to guess, as far as their length tells.
pub fn strength(words: &str) -> &'static str {
    let words = words.trim();
    let (n_words, n_letters) = (words.split_whitespace().count(), words.chars().count());
    let mut different: Vec<char> = words.chars().collect();
    different.sort_unstable();
    different.dedup();
    match (n_letters, different.len()) {
        (0, _) => "Four words or more that don’t belong together are easy to keep and hard to guess.",
        (..10, _) | (_, ..5) => "Easy to guess. Take four words or more that don’t belong together.",
        _ if n_words >= 4 && n_letters >= 16 || n_letters >= 24 => {
            "Hard to guess, unless it is a saying, a song or a name."
        }
        _ => "Somebody with time and good machines may guess it. Longer is safer.",
    }
}

/// Why a copy was not locked. It has not left.
pub const fn not_locked(fault: LockFault) -> &'static str {
    match fault {
        LockFault::NotStarted => {
            "The part of the app that locks did not start. Nothing has left this phone. Try again; if it stays so, open the app once more while online."
        }
        LockFault::OtherBuild => {
            "The app changed to a newer version while this window was open. Nothing has left this phone. Change to it here too, on “Today” or on “This phone”."
        }
        LockFault::Large => "This copy is too large to be locked. Nothing has left this phone.",
        LockFault::Chance => {
            "This browser gives no random numbers, and without them no lock is safe. Nothing has left this phone."
        }
        _ => {
            "The phone did not come to an end with locking; it may be short of memory. Nothing has left this phone. Close other apps and try again."
        }
    }
}

/// Why a locked file was not opened.
pub const fn not_opened(fault: LockFault) -> &'static str {
    match fault {
        LockFault::Words => {
            "These words don’t open it. Look at capitals and spaces, and try again. If they are surely right, the file was changed on its way: let it be sent once more."
        }
        LockFault::Work => {
            "This file asks for more work than a phone should do for one, so it was not opened. Lock it once more, in this app or with a lower work factor (18 at most)."
        }
        LockFault::Damaged => {
            "This file is cut off or was changed on its way, so nothing in it can be trusted. Let it be sent once more."
        }
        LockFault::Key => "This file is locked with a key and not with words, so it can’t be opened here.",
        LockFault::Format => "This file is locked in a way that the app doesn’t know.",
        LockFault::Large => {
            "What is in this file is larger than 100 MB, more than any copy needs. Nothing was changed."
        }
        LockFault::NotStarted => {
            "The part of the app that opens locked files did not start. Nothing was changed. Try again; if it stays so, open the app once more while online."
        }
        LockFault::OtherBuild => {
            "The app changed to a newer version while this window was open. Change to it here too, on “Today” or on “This phone”, then choose the file again."
        }
        LockFault::Chance | LockFault::Died | LockFault::NoEnd => {
            "The phone did not come to an end with this file; it may be short of memory. Nothing was changed. Close other apps and try again."
        }
    }
}
