//! Copies: send one, open one, take one back; and the phone's own page.

use super::super::lock::Locking;
use super::super::model::{Model, Parcel, StorageState};
use super::super::practices::Practices;
use super::super::remote::Remote;
use super::super::settings::{Calls, Settings};
use super::super::update::{device_name, has_counted, kinds, unsent};
use super::super::words::{self, counts};
use super::super::work::{LOOKED_FILE, LOOKED_HERE, Preview, Span};
use super::board::{SavedView, saved};
use crate::domain::time::Stamp;

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ShareView {
    pub saved: SavedView,
    pub demo: bool,
    /// "214 contacts since the last copy" or "Everything is in the copy of Tuesday."
    pub since: String,
    /// What this phone is called; empty where it has no name.
    pub device_name: String,
    /// The first copy is still to leave: its name is asked before anything else.
    pub asks_name: bool,
    /// The phone has a share sheet.
    pub can_share: bool,
    /// A copy is being written.
    pub writing: bool,
    /// A copy stands ready and waits for a tap to be sent.
    pub ready: bool,
    /// A copy was given to the browser to save: asks whether it is there.
    pub given: Option<String>,
    /// A copy is being locked: that can be given up.
    pub locking: bool,
    /// A locked file asks for its words.
    pub locked: Option<LockedView>,
    /// A file is being looked at or taken in.
    pub reading: bool,
    /// Looked at: how far.
    pub looking: Option<LookingView>,
    /// "Two names may be one child"
    pub twice: Option<String>,
    /// "Two practices may be one"
    pub as_one: Option<String>,
    pub parcel: Option<ParcelView>,
    /// One clear sentence why the last file was refused, or that it was taken in.
    pub answer: Option<Answer>,
    pub parcels: Vec<ParcelRow>,
    /// How much may go out by itself: "Everything", "The last 7 days", "Tuesday 24 November, 18:40"
    pub spans: Vec<(String, Span)>,
    /// Whose data: everyone's, or one child's own by its key.
    pub whose: Vec<(String, Option<String>)>,
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
    pub preview: Preview,
    /// "3 things were changed on both sides, see below."
    pub differ: Option<String>,
}

/// A file is being looked at.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LookingView {
    /// In hundredths.
    pub at: u8,
    pub says: &'static str,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LockedView {
    pub name: String,
    /// Words are being tried: that can be given up.
    pub opening: bool,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ParcelRow {
    /// Its content's hash, as text.
    pub key: String,
    pub name: String,
    pub what: String,
    pub accepted: bool,
    /// Its taking back was tapped: what goes with it.
    pub asks: Option<String>,
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
    /// Which calls the coach wants, and which of them reach anybody with what is on above.
    pub calls: Calls,
    pub reaching: Calls,
    /// Why some don't.
    pub silent: Option<&'static str>,
    pub left_handed: bool,
    /// The wish and the lines, each with whether it is at an end of its range.
    pub lines: LinesView,
    pub remote: Remote,
    pub remote_refused: bool,
    pub kinds: Vec<String>,
    pub new_kind: String,
    /// A newer version is here: one sentence about it.
    pub update: Option<&'static str>,
    pub version: &'static str,
    /// Erase was tapped once and asks again.
    pub erase_asked: bool,
    /// A sentence when that did not succeed.
    pub not_erased: Option<String>,
    pub device_name: String,
}

/// How likely a goal should be, and over and under which line another ball is spoken of.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LinesView {
    pub wish: LineView,
    pub upper: LineView,
    pub lower: LineView,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LineView {
    /// "80 %"
    pub figure: String,
    pub at_least: bool,
    pub at_most: bool,
}

/// How to put the app on this phone, in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct InstallView {
    pub os: PhoneOs,
    pub installed: bool,
    /// Children are in the squad here already: they come along only in a copy.
    pub typed: bool,
}

#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum PhoneOs {
    Ios,
    Android,
    #[default]
    Other,
}

pub fn share(model: &Model) -> ShareView {
    ShareView {
        saved: saved(model),
        demo: model.demo,
        since: since(model),
        device_name: own_name(model),
        asks_name: !model.demo && model.settings.copied_wall_ms.is_none() && has_counted(model),
        can_share: model.phone.can_share,
        writing: model.copy.writing,
        ready: model.copy.ready.as_ref().is_some_and(|r| r.waits),
        // It waits while a file is looked at.
        given: model
            .copy
            .given
            .as_ref()
            .filter(|_| model.copy.offered.is_none())
            .map(|g| words::copies::given(&g.name)),
        locking: matches!(model.copy.locking, Locking::On { .. }),
        locked: model.copy.locked.as_ref().map(|f| LockedView { name: f.name.clone(), opening: f.opening }),
        reading: model.copy.reading.is_some(),
        looking: model.copy.looking.map(|at| LookingView { at, says: looking(at) }),
        twice: (model.copy.offered.is_none() && !model.parcels.is_empty())
            .then(|| super::joining::waiting(model))
            .flatten(),
        as_one: (model.copy.offered.is_none() && !model.parcels.is_empty())
            .then(|| super::as_one::waiting(model))
            .flatten(),
        parcel: model.copy.offered.as_ref().map(|o| ParcelView {
            name: o.name.clone(),
            from: o.from.clone(),
            preview: o.preview.clone(),
            differ: (!o.preview.differs.is_empty()).then(|| words::copies::differ(o.preview.differs.len())),
        }),
        answer: model.copy.answer.clone(),
        parcels: model.parcels.iter().map(|parcel| parcel_row(model, parcel)).collect(),
        spans: spans(model),
        whose: whose(model),
    }
}

fn own_name(model: &Model) -> String {
    if model.settings.device_name.is_empty() { String::new() } else { device_name(model) }
}

fn looking(at: u8) -> &'static str {
    match at {
        0..LOOKED_HERE => words::copies::LOOKING_HERE,
        LOOKED_HERE..LOOKED_FILE => words::copies::LOOKING_FILE,
        _ => words::copies::LOOKING_BOTH,
    }
}

/// What the last copy lacks.
pub(super) fn since(model: &Model) -> String {
    let last = model.settings.copied_wall_ms.map(|wall_ms| counts::when(Stamp { wall_ms, ..model.now }, model.now));
    words::copies::since(unsent(model), has_counted(model), last.as_deref())
}

fn whose(model: &Model) -> Vec<(String, Option<String>)> {
    let squad = model.squad();
    let children = squad.iter().map(|player| (model.name_of(player.id), Some(player.id.0.to_string())));
    std::iter::once((words::family::EVERYONE.to_owned(), None)).chain(children).collect()
}

/// Everything, some days up to now, each of the latest practices.
pub(super) fn spans(model: &Model) -> Vec<(String, Span)> {
    const DAY_MS: i64 = 24 * 60 * 60 * 1000;
    const N_PRACTICES: usize = 6;
    let (h, m) = model.now.hour_minute();
    // From the first minute of a day, so that it stays the same all day.
    let today_ms = model.now.wall_ms - model.now.wall_ms.rem_euclid(60_000) - i64::from(h * 60 + m) * 60_000;
    let days = [7, 30].map(|n| (words::copies::days(n), Span::Since(today_ms - (i64::from(n) - 1) * DAY_MS)));
    let all = Practices::of(model);
    let latest = all.latest_first().into_iter().take(N_PRACTICES).map(|practice| {
        let when = counts::when(practice.started, model.now);
        (words::copies::practice(&practice.title, &when), Span::One(practice.practice.0.to_string()))
    });
    let everything = (words::copies::EVERYTHING.to_owned(), Span::All);
    std::iter::once(everything).chain(days).chain(latest).collect()
}

pub fn phone(model: &Model) -> PhoneView {
    let reaching = Calls::reaching(&model.settings, model.phone.has_vibration);
    PhoneView {
        saved: saved(model),
        demo: model.demo,
        storage: storage_lines(model),
        can_ask_lasting: model.storage.lasting == Some(false),
        aside: model.storage.aside.clone(),
        sound: model.settings.sound,
        voice: model.settings.voice,
        vibration: model.settings.vibration,
        has_vibration: model.phone.has_vibration,
        calls: model.settings.calls,
        reaching,
        silent: words::screens::calls_silent(reaching),
        left_handed: model.settings.left_handed,
        lines: lines(&model.settings),
        remote: model.settings.remote.clone(),
        remote_refused: model.drafts.remote_refused,
        kinds: kinds(model),
        new_kind: model.drafts.kind.clone(),
        update: model.phone.update_waiting.then_some(if model.phone.update_refused {
            words::today::UPDATE_REFUSED
        } else {
            words::screens::UPDATE_LINE
        }),
        version: env!("CARGO_PKG_VERSION"),
        erase_asked: model.drafts.erase_asked,
        not_erased: model.storage.not_erased.clone(),
        device_name: own_name(model),
    }
}

fn lines(settings: &Settings) -> LinesView {
    let line = |n: u8, least: u8, most: u8| LineView {
        figure: words::steps::percent(n),
        at_least: n <= least,
        at_most: n >= most,
    };
    let Settings { wish, upper, lower, .. } = *settings;
    LinesView {
        wish: line(wish, Settings::WISH.1, Settings::WISH.2),
        upper: line(upper, lower + Settings::STEP, Settings::UPPER.2),
        lower: line(lower, Settings::LOWER.1, upper - Settings::STEP),
    }
}

pub fn install(model: &Model) -> InstallView {
    let typed = !model.demo && !model.base.players().is_empty();
    InstallView { os: model.phone.os, installed: model.phone.installed, typed }
}

fn parcel_row(model: &Model, parcel: &Parcel) -> ParcelRow {
    let note = &parcel.note;
    ParcelRow {
        key: parcel.key.clone(),
        name: note.name.clone(),
        what: format!("{}; {}", note.from, counts::plural(note.n_contacts, "contact", "contacts")),
        accepted: note.accepted,
        asks: (model.copy.back_asked.as_ref() == Some(&parcel.key)).then(|| words::copies::TAKE_BACK.to_owned()),
    }
}

/// What is safe, what is not, what to do.
pub(super) fn storage_lines(model: &Model) -> Vec<String> {
    let storage = &model.storage;
    let n_unsaved = storage.unsaved.len();
    let mut lines = Vec::new();
    match (&storage.state, &storage.failed) {
        (StorageState::Opening, _) => lines.push(words::trouble::OPENING.to_owned()),
        (_, Some(trouble)) => {
            lines.push(words::trouble::whole(trouble));
            if n_unsaved > 0 {
                lines.push(words::trouble::safe(n_unsaved, !storage.no_second_copy));
            }
        }
        (StorageState::Ready, None) if n_unsaved == 0 => lines.push(words::trouble::ALL_SAFE.to_owned()),
        (_, None) => lines.push(words::trouble::saving(n_unsaved)),
    }
    lines.extend(storage.work.clone());
    lines.push(match storage.lasting {
        Some(true) => words::trouble::LASTING.to_owned(),
        Some(false) => words::trouble::NOT_LASTING.to_owned(),
        None => words::trouble::LASTING_UNKNOWN.to_owned(),
    });
    lines
        .push(if model.phone.offline_ready { words::trouble::OFFLINE } else { words::trouble::NOT_OFFLINE }.to_owned());
    lines
}
