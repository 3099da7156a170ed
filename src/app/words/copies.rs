//! Sentences about copies: sent, opened, refused, taken in.

use super::counts::plural;
use crate::app::update::Unsent;
use crate::wire::around::NotUnpacked;

pub const COPY_LEFT: &str = "The copy has left this phone.";
pub const COPY_SAVED: &str = "Good. It is safe only once it is somewhere else too: send that file on.";
/// What comes next, wherever the file went: on every phone the same two taps.
pub const THEN: &str = "On the other phone: Share, then “Open a file”.";
pub const ALL_IN_IT: &str = "Everything up to now is in it.";
pub const LATER_NOT_IN_IT: &str = "What came after it was written is not in it.";
pub const NO_CHILD: &str = "This child isn’t known here. Nothing was written.";
pub const PART_LEFT: &str = "It has left this phone. A part or a table replaces no copy of everything.";
pub const COPY_NOT_THERE: &str = "Then it counts as not sent. Save it once more. If it still isn't there, the phone may be short of room, or the browser may have asked where to put it.";
pub const NOTHING_NEW: &str = "Everything in this copy is here already. Nothing was changed.";
pub const PARCEL_TAKEN: &str = "Taken in. It stands in the list below and can be taken back.";

pub const NOTHING_STORED: &str = "Nothing is stored until you take it in, and it can be taken back.";
pub const NOTHING_STORED_REMOVES: &str =
    "Nothing is stored until you take it in. The rest of it can be taken back, the removal can’t.";
pub const TAKEN_REMOVES: &str = "Taken in. It stands in the list below. The removal stays; the rest can be taken back.";
/// Where a practice came with it that goes on.
pub const TAKE_PART: &str = "Its practice is on: under Today this phone can take part in it.";
pub const BY_PRACTICE: &str = "By practice";
pub const BY_PHONE: &str = "By phone";
pub const BY_CHILD: &str = "By child";
pub const DIFFERS: &str = "Changed on both sides";
pub const DIFFERS_LINE: &str = "Nobody has to choose: of each, one counts, on every phone the same one.";
pub const LOOKING_HERE: &str = "Reading what is on this phone";
pub const LOOKING_FILE: &str = "Reading the file";
pub const LOOKING_BOTH: &str = "Comparing the two";
pub const LOOK_STOP: &str = "Stop, leave the file";
pub const TAKING_IN: &str = "Storing it";

/// `By practice: 3`
pub fn counted_head(head: &str, n: usize) -> String {
    format!("{head}: {n}")
}

/// `3 things were changed on both sides, see below.`
pub fn differ(n: usize) -> String {
    format!("{} changed on both sides, see below.", plural(n, "thing was", "things were"))
}

pub fn failed(why: &str) -> String {
    format!("The copy could not be made ({why}). What is on this phone is unchanged; try again.")
}

/// The share sheet did not take it; it stands ready still.
pub fn not_shared(why: &str) -> String {
    format!("The share sheet did not open ({why}). The copy stands ready: tap “Send it now”, or save it as a file.")
}

pub fn partial(why: &str) -> String {
    format!("Only what is in memory could go into this copy ({why}). Earlier practices are missing from it.")
}

/// A block or parcel in the storage is damaged.
pub fn incomplete(why: &str) -> String {
    format!(
        "A part of what is stored on this phone can't be read ({why}) and is missing from this copy. All the rest is in it."
    )
}

pub const MAYBE_HERE: &str =
    "A part of what is stored on this phone can't be read, so some of this may be here already.";

/// `3 stored notes`: damaged ones, each by itself.
pub fn notes(n: usize) -> String {
    plural(n, "stored note", "stored notes")
}

pub const fn not_unpacked(why: NotUnpacked) -> &'static str {
    match why {
        NotUnpacked::TooLarge => "more than 100 MB come out of it when it is unpacked",
        NotUnpacked::Damaged => "it is packed, and cut off or changed on its way",
    }
}

pub fn unreadable(why: &str) -> String {
    format!("The file could not be read ({why}). Nothing was changed.")
}

/// `From Ana's phone, written Tuesday 24 November 2026, 18:40`
pub fn parcel_from(devices: &[String], written: &str) -> String {
    // A phone that was given no name calls itself this one, and here it is another.
    let named =
        |device: &String| if device == super::THIS_PHONE { "a phone without a name" } else { device }.to_owned();
    let devices: Vec<String> = devices.iter().map(named).collect();
    match devices.as_slice() {
        [] => format!("Written {written}"),
        [one] => format!("From {one}, written {written}"),
        many => format!("From {}, written {written}", many.join(", ")),
    }
}

/// A file was handed to the browser, which doesn't tell what became of it.
pub fn given(name: &str) -> String {
    format!(
        "The copy was given to the browser to save, as “{name}”. It goes where downloads go: on most phones into the folder Downloads, which the app Files shows. Is it there?"
    )
}

/// `214 contacts and 12 rallies`: a rally is no contact.
pub fn counted(unsent: Unsent) -> String {
    let rallies = || plural(unsent.n_rallies, "rally", "rallies");
    match unsent.n_counted.saturating_sub(unsent.n_rallies) {
        0 if unsent.n_rallies > 0 => rallies(),
        n if unsent.n_rallies > 0 => format!("{} and {}", plural(n, "contact", "contacts"), rallies()),
        n => plural(n, "contact", "contacts"),
    }
}

/// `214 contacts since the copy of Tuesday 24 November, 18:40.`
pub fn since(unsent: Unsent, has_counted: bool, last: Option<&str>) -> String {
    let n = counted(unsent);
    match (unsent.n_counted, last) {
        (0, _) if unsent.unknown => {
            "What is stored can't be read just now, so nobody can tell what the last copy lacks.".to_owned()
        }
        (_, _) if unsent.unknown => {
            format!("{n} in no copy yet. What is stored can't be read just now; there may be more.")
        }
        (0, None) if has_counted => "No copy has left this phone yet.".to_owned(),
        (0, None) => "Nothing to send yet.".to_owned(),
        (_, None) => format!("{n}, and no copy has left this phone yet."),
        (0, Some(when)) if unsent.nothing => format!("Everything is in the copy of {when}."),
        (0, Some(when)) => {
            format!(
                "Everything counted on this phone is in the copy of {when}. Corrections, names or files taken in since then are not."
            )
        }
        (_, Some(when)) if unsent.at_most => format!("Up to {n} since the copy of {when}."),
        (_, Some(when)) => format!("{n} since the copy of {when}."),
    }
}

/// What goes with a file that is taken back.
pub const TAKE_BACK: &str = "Take it back? What came with it alone goes from this phone’s screens, names of children too. What was counted here stays. It can be taken in again.";

/// A part or a table was handed to the browser.
pub fn part_given(name: &str) -> String {
    format!(
        "Given to the browser to save, as “{name}”; look among the downloads. A part or a table replaces no copy of everything."
    )
}

pub const EVERYTHING: &str = "Everything";

pub fn days(n: u32) -> String {
    format!("The last {n} days")
}

/// `Tuesday, 24 November, 18:40`; without a title the day alone.
pub fn practice(title: &str, when: &str) -> String {
    if title.is_empty() || when.contains(title) { when.to_owned() } else { format!("{title}, {when}") }
}
