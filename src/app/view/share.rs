//! Copies: send one, open one, take one back; and the phone's own page.

use super::board::SavedView;

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ShareView {
    pub saved: SavedView,
    pub demo: bool,
    /// "214 contacts since the last copy" or "Everything is in the copy of Tuesday."
    pub since: String,
    /// The phone has a share sheet.
    pub can_share: bool,
    /// A copy is being written.
    pub writing: bool,
    pub parcel: Option<ParcelView>,
    /// One clear sentence why the last file was refused, or that it was taken in.
    pub answer: Option<Answer>,
    pub parcels: Vec<ParcelRow>,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Answer {
    pub text: String,
    pub refused: bool,
}

/// A file opened and not yet accepted: what is new in it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ParcelView {
    pub name: String,
    /// "From Ana's phone, written Tuesday 24 November, 18:40"
    pub from: String,
    /// "2 practices, 3 children, 120 contacts are new; 300 are here already."
    pub news: Vec<String>,
    pub nothing_new: bool,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ParcelRow {
    /// Its content's hash, as text.
    pub key: String,
    pub name: String,
    pub what: String,
    pub accepted: bool,
}

/// The phone: storage, sound, hand, demo, erase.
#[derive(Clone, Debug, PartialEq)]
pub struct PhoneView {
    pub saved: SavedView,
    pub demo: bool,
    /// What is safe, what is not, what to do: sentences.
    pub storage: Vec<String>,
    pub can_ask_lasting: bool,
    /// Records that couldn't be read, set aside: shown, never overwritten.
    pub aside: Vec<String>,
    pub sound: bool,
    pub voice: bool,
    pub vibration: bool,
    pub has_vibration: bool,
    pub left_handed: bool,
    pub kinds: Vec<String>,
    pub new_kind: String,
    pub update_waiting: bool,
    pub offline_ready: bool,
    pub version: &'static str,
    /// Erase was tapped once and asks again.
    pub erase_asked: bool,
    pub device_name: String,
}

/// How to put the app on this phone, in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct InstallView {
    pub os: PhoneOs,
    pub installed: bool,
}

#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum PhoneOs {
    Ios,
    Android,
    #[default]
    Other,
}
