//! Where everything is, and what a check has found.

use super::counts::plural;
use crate::app::effect::Trouble;

pub const TITLE: &str = "Is everything safe?";
pub const OPEN: &str = "Is everything safe?";
pub const OPEN_LINE: &str = "where it lies, how much room, a check of all of it";
pub const WHERE: &str = "Where it lies";
pub const CHECK_HEAD: &str = "Check everything";
pub const CHECK_LINE: &str =
    "Reads every ball that is stored, counts all of it again and compares. Nothing stored is changed by it.";
pub const CHECK: &str = "Check now";
pub const CHECKING: &str = "Being counted again …";
pub const PUT_RIGHT: &str = "Put the counts right";

/// The answer to the question that is the page's name, before any detail.
pub const ALL_SAVED: &str = "Everything is saved on this phone.";
pub const SAVED_COUNTS_OFF: &str = "Every ball is saved on this phone. Some counts of them are to be put right, below.";
pub const NOT_KNOWN: &str = "The storage is being opened: in a moment it is known.";

/// `Not everything is safe: 3 notes are not stored yet, the phone is full.`
pub fn not_safe(n_unsaved: usize, trouble: Option<&Trouble>, n_unread: usize) -> String {
    let unsaved = (n_unsaved > 0).then(|| format!("{} not stored yet", plural(n_unsaved, "note is", "notes are")));
    let unread = (n_unread > 0).then(|| format!("{} can’t be read", plural(n_unread, "thing stored", "things stored")));
    let parts: Vec<String> =
        unsaved.into_iter().chain(trouble.map(|why| because(why).to_owned())).chain(unread).collect();
    format!("Not everything is safe: {}.", parts.join(", "))
}

const fn because(trouble: &Trouble) -> &'static str {
    match trouble {
        Trouble::Full => "the phone is full",
        Trouble::Newer => "the app is older than what is stored",
        Trouble::Refused(_) | Trouble::Unavailable | Trouble::Blocked => "the storage is closed to the app",
        Trouble::NoAnswer => "the storage doesn’t answer",
        Trouble::Lost | Trouble::Other(_) => "the storage failed and is tried again",
        Trouble::Erasing => "it is being erased",
    }
}

/// `64 practices packed away, 12 things that lie singly, such as names and drills, 2 files taken in`
pub fn lies(n_packed: usize, n_loose: usize, n_taken: usize) -> String {
    let mut parts = vec![
        format!("{} packed away", plural(n_packed, "practice", "practices")),
        format!("{} singly, such as names and drills", plural(n_loose, "thing that lies", "things that lie")),
    ];
    if n_taken > 0 {
        parts.push(format!("{} taken in", plural(n_taken, "file", "files")));
    }
    format!("In this browser’s storage, on this phone alone: {}.", parts.join(", "))
}

pub fn room(used_bytes: u64, most_bytes: u64) -> String {
    format!("It takes {} of about {} that the browser gives.", bytes(used_bytes), bytes(most_bytes))
}

pub fn checked(n_entries: usize, n_practices: usize, sound: bool) -> String {
    let all = format!(
        "{} of {} read and counted again",
        plural(n_entries, "thing noted", "things noted"),
        plural(n_practices, "practice", "practices")
    );
    if sound { format!("All is well: {all}, and every figure is as it was.") } else { format!("{all}.") }
}

pub fn otherwise(n: usize) -> String {
    let practices = plural(n, "practice is", "practices are");
    format!("{practices} counted otherwise than the balls stored say. The balls are safe; the counts can be put right.")
}

pub fn unread(n: usize) -> String {
    let parts = plural(n, "part", "parts");
    let lies = if n == 1 { "It lies" } else { "They lie" };
    format!(
        "{parts} can’t be read. {lies} there untouched; a copy sent earlier may have all of it, and can be opened here."
    )
}

pub fn put_right(n: usize) -> String {
    format!("Counted again: {}.", plural(n, "practice is right now", "practices are right now"))
}

pub fn not_checked(why: &str) -> String {
    format!("It could not be checked ({why}). Nothing was changed.")
}

/// `3.2 MB`: powers of ten, as phones tell room.
fn bytes(n: u64) -> String {
    const UNITS: [&str; 4] = ["kB", "MB", "GB", "TB"];
    let mut at = 0;
    let mut tenths = n / 100;
    while tenths >= 10_000 && at + 1 < UNITS.len() {
        tenths /= 1000;
        at += 1;
    }
    let unit = UNITS.get(at).copied().unwrap_or("kB");
    if tenths < 100 { format!("{}.{} {unit}", tenths / 10, tenths % 10) } else { format!("{} {unit}", tenths / 10) }
}
