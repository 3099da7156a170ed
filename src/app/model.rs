//! Everything the app knows while it runs. Changed only by `update`; read by the view functions.

use std::collections::{BTreeMap, BTreeSet};

use chrono::NaiveDate;

use super::action::Action;
use super::calendar::{CalendarDraft, CalendarFile};
use super::codes::Codes;
use super::effect::{LockState, Trouble};
use super::goals::Goals;
use super::groups::{Trouble as GroupsTrouble, WishKind};
use super::health::Health;
use super::home::HomeScreen;
use super::library::{Shelf, Sought};
use super::lock::{LockedFile, Locking};
use super::names::Names;
use super::notes::NotesDraft;
use super::plan::PlanDraft;
use super::screen::Screen;
use super::settings::Settings;
use super::steps::Steps;
use super::weeks::Weeks;
use super::work::{Goes, Job, Note, Preview};
use super::writer::Writer;
use crate::domain::drill::DrillSpec;
use crate::domain::entry::{Entry, Fact};
use crate::domain::ids::{ContactId, DrillId, EffortId, EntryId, PlayerId, PracticeId, RunId, SeriesId};
use crate::domain::log::{Arrival, Log};
use crate::domain::removed::Removed;
use crate::domain::replay::base::Base;
use crate::domain::replay::run::RunState;
use crate::domain::same::Same;
use crate::domain::skill::ServeStyle;
use crate::domain::summary::PracticeSummary;
use crate::domain::time::Stamp;

/// The app's state.
pub struct Model {
    pub screen: Screen,
    /// The coach has asked for something on this page: nothing opens by itself any more.
    pub asked: bool,
    /// The latest moment the shell told.
    pub now: Stamp,
    pub writer: Writer,
    /// Entries of this phone that are in memory: all that aren't packed, and those of practices opened since.
    pub own: Log,
    /// Entries of accepted parcels that are in memory: what belongs to no practice, and practices opened since.
    pub theirs: Log,
    /// Folded from `own` and `theirs`.
    pub base: Base,
    /// What each child of it is called on screen.
    names: Names,
    pub runs: BTreeMap<RunId, RunState>,
    /// Finished practices that lie packed in the database.
    pub packed: BTreeMap<PracticeId, PackedPractice>,
    /// Entries that the database holds one by one, outside any block.
    pub loose: BTreeSet<EntryId>,
    /// Some of them, which lie there as they were before a child was removed.
    pub stale: BTreeSet<EntryId>,
    /// Others of them, which lie there and name the child: what is noted elsewhere is found by its name, so these go last.
    pub held: BTreeSet<EntryId>,
    /// The practice that is being packed.
    pub packing: Option<PracticeId>,
    /// The practice of another phone in which this one is about to take part: it is being read.
    pub taking_part: Option<PracticeId>,
    /// Tried once by this page and not again.
    pub not_packed: BTreeSet<PracticeId>,
    /// Whom children were counted under when all was last counted again.
    pub recounted: Option<Same>,
    /// Practices being read, and why one couldn't be.
    pub reading: BTreeMap<PracticeId, Option<String>>,
    pub parcels: Vec<Parcel>,
    pub storage: Storage,
    pub settings: Settings,
    pub lock: LockState,
    /// Other pages of this phone that wrote while this one was open.
    pub live: BTreeSet<SeriesId>,
    pub board: BoardMemory,
    pub drafts: Drafts,
    pub phone: PhoneFacts,
    pub copy: CopyState,
    pub codes: Codes,
    /// The dates as a file for another calendar.
    pub calendar_file: CalendarFile,
    /// The library of drills.
    pub shelf: Shelf,
    /// Levels over weeks, once a screen has asked for them.
    pub weeks: Weeks,
    pub health: Health,
    /// How likely goals are, for the drill that is being set.
    pub goals: Goals,
    /// Levels of the run that was looked at last, for who is ready for another step.
    pub steps: Steps,
    pub demo: bool,
}

/// A finished practice in the database: its summary in memory, its entries only once they were asked for.
#[derive(Clone, Debug, PartialEq)]
pub struct PackedPractice {
    pub summary: PracticeSummary,
    /// All that is known of it is in memory.
    pub read: bool,
    /// This phone's own entries of it are in memory, though what parcels say of it may have to be read again.
    pub own_here: bool,
}

/// A file that was opened: kept as it came, counted while it is accepted. In memory is only what its note says.
#[derive(Clone, Debug, PartialEq)]
pub struct Parcel {
    /// Hash of its bytes, as text.
    pub key: String,
    pub note: Note,
}

/// What is safe and what isn't.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Storage {
    pub state: StorageState,
    /// Keys of entries that the database has not confirmed.
    pub unsaved: BTreeSet<String>,
    /// Why the last writing failed, until one succeeds.
    pub failed: Option<Trouble>,
    /// The second copy in local storage can't be written.
    pub no_second_copy: bool,
    /// The browser has promised to keep the data; `None`: not asked or not told.
    pub lasting: Option<bool>,
    /// Records that can't be read: set aside and shown.
    pub aside: Vec<String>,
    /// Those of them that can be read, whose identity is here with other content.
    pub other_content: Vec<(String, Entry)>,
    /// A sentence when erasing did not succeed.
    pub not_erased: Option<String>,
    /// Why something that the screens need could not be worked out.
    pub work: Option<String>,
    /// What that was: it can be tried again.
    pub undone: Vec<Job>,
}

#[derive(Clone, Debug, Default, PartialEq)]
pub enum StorageState {
    #[default]
    Opening,
    Ready,
    Refused(Trouble),
}

/// What the board remembers between taps and forgets with the page.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct BoardMemory {
    pub last_tap_ms: u64,
    pub n_taps: u32,
    /// The effort whose strip is open.
    pub effort: Option<EffortId>,
    pub pocket: bool,
    /// The coach plays on after the rule said over.
    pub play_on: bool,
    /// Seconds left on the run's clock when it was last looked at: what was called is called once.
    pub left_s: Option<u32>,
    /// The clock stands because the phone slept long; until it goes again.
    pub slept: bool,
    /// What a turn by minutes slept through.
    pub turn_slept: Option<TurnSlept>,
    /// The run that all this is about.
    pub run: Option<RunId>,
    /// At a station: what was tapped last, and when. A double tap is one.
    pub station_tap: Option<(Action, u64)>,
    /// The contact under correction.
    pub fixing: Option<ContactId>,
    /// The effort of the list that is being told more of.
    pub fixing_effort: Option<EffortId>,
}

/// Long sleep that is no part of a turn by minutes. Known to this page alone: after a kill the wall clock is all there is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TurnSlept {
    /// When the turn began.
    pub from: Stamp,
    pub ms: u64,
}

/// What is typed and not yet an entry.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Drafts {
    pub roster: String,
    pub child: Option<ChildDraft>,
    pub drill: Option<DrillDraft>,
    /// The drill that was kept last, until another screen comes.
    pub kept: Option<DrillId>,
    pub kind: String,
    /// A drill that was tapped while another phone's practice of today is known here: of which practice it is, is asked.
    pub part_asked: Option<DrillId>,
    /// Said to be this phone's own practice, of this day alone.
    pub part_own: Option<NaiveDate>,
    /// Tapped away before the practice has started, of this day alone.
    pub away: Option<(NaiveDate, BTreeSet<PlayerId>)>,
    pub erase_asked: bool,
    /// The child whose removal was tapped once and asks again.
    pub removal: Option<PlayerId>,
    /// The key pressed last can stand for nothing.
    pub remote_refused: bool,
    pub groups: GroupsDraft,
    /// What is looked for in the library.
    pub sought: Sought,
    pub plan: PlanDraft,
    pub calendar: CalendarDraft,
    pub notes: NotesDraft,
    pub home: HomeScreen,
}

/// What is tapped on the screen of groups and not an entry.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct GroupsDraft {
    /// Made before the practice has started, of this day alone.
    pub made: Option<(NaiveDate, Vec<Vec<PlayerId>>)>,
    /// The groups before these.
    pub before: Option<Vec<Vec<PlayerId>>>,
    /// The first of two who are exchanged.
    pub picked: Option<PlayerId>,
    pub wish: Option<WishDraft>,
    /// Why they can't be made as they are asked for.
    pub trouble: Option<GroupsTrouble>,
    pub said: Option<String>,
    /// Draws differ though nothing was written between them.
    pub n_made: u32,
}

/// A wish that isn't kept yet.
#[derive(Clone, Debug, PartialEq)]
pub struct WishDraft {
    pub kind: WishKind,
    pub chosen: Vec<PlayerId>,
    pub tag: String,
}

#[derive(Clone, Debug, PartialEq)]
pub struct ChildDraft {
    pub player: PlayerId,
    pub name: String,
    pub number: String,
    pub style: Option<ServeStyle>,
}

#[derive(Clone, Debug, PartialEq)]
pub struct DrillDraft {
    pub drill: Option<DrillId>,
    pub spec: DrillSpec,
}

/// What the shell found out about the phone.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PhoneFacts {
    pub os: super::view::share::PhoneOs,
    pub installed: bool,
    pub has_vibration: bool,
    pub can_share: bool,
    /// Its share sheet takes a calendar's file.
    pub can_share_dates: bool,
    /// The day that a week begins with here, from Monday; 0 where the browser doesn't tell.
    pub first_weekday: u8,
    pub update_waiting: bool,
    /// The change to it was asked for and refused: a run is on in some window.
    pub update_refused: bool,
    pub offline_ready: bool,
}

/// A copy that stands written.
#[derive(Clone, Debug, PartialEq)]
pub struct ReadyCopy {
    pub goes: Goes,
    pub name: String,
    /// This phone's clock when it was asked for: later entries aren't in it.
    pub clock: u64,
    /// When that was.
    pub wall_ms: i64,
    /// Nothing that is stored is missing from it.
    pub whole: bool,
    /// The accepted parcels that are in it.
    pub parcels: Vec<String>,
    /// The share sheet opens only in answer to a tap: it waits for one.
    pub waits: bool,
    /// It opens with words alone.
    pub locked: bool,
}

/// Copies on their way out and in.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CopyState {
    pub writing: bool,
    /// The name of the file that is being looked at or taken in.
    pub reading: Option<String>,
    /// How far it was looked at, in hundredths; `None`: it is taken in, or there is none.
    pub looking: Option<u8>,
    /// One is still looked at for which nobody waits any more: what comes of it is dropped.
    pub dropped: bool,
    /// The file that is being taken in removes a child.
    pub removes: bool,
    /// The file whose taking back was tapped once and asks.
    pub back_asked: Option<String>,
    /// A file opened, looked at, not yet accepted.
    pub offered: Option<OfferedParcel>,
    /// A locked file that was chosen.
    pub locked: Option<LockedFile>,
    pub locking: Locking,
    pub answer: Option<super::view::share::Answer>,
    /// The copy that was written last and waits for the share sheet, or is on its way.
    pub ready: Option<ReadyCopy>,
    /// The copy that the browser was given to save. Browsers don't tell what became of it: the coach does.
    pub given: Option<ReadyCopy>,
}

#[derive(Clone, Debug, PartialEq)]
pub struct OfferedParcel {
    pub key: String,
    pub name: String,
    pub from: String,
    pub preview: Preview,
}

impl Model {
    pub fn new(writer: Writer, now: Stamp, demo: bool) -> Model {
        Model {
            screen: Screen::Today,
            asked: false,
            now,
            writer,
            own: Log::default(),
            theirs: Log::default(),
            base: Base::default(),
            names: Names::default(),
            runs: BTreeMap::new(),
            packed: BTreeMap::new(),
            loose: BTreeSet::new(),
            stale: BTreeSet::new(),
            held: BTreeSet::new(),
            packing: None,
            taking_part: None,
            not_packed: BTreeSet::new(),
            recounted: None,
            reading: BTreeMap::new(),
            parcels: Vec::new(),
            storage: Storage::default(),
            settings: Settings::default(),
            lock: LockState::Asked,
            live: BTreeSet::new(),
            board: BoardMemory::default(),
            drafts: Drafts::default(),
            phone: PhoneFacts::default(),
            copy: CopyState::default(),
            codes: Codes::default(),
            calendar_file: CalendarFile::default(),
            shelf: Shelf::default(),
            weeks: Weeks::default(),
            health: Health::default(),
            goals: Goals::default(),
            steps: Steps::default(),
            demo,
        }
    }

    /// The database can't be read: there may be more than is in memory.
    pub fn is_closed(&self) -> bool {
        matches!(self.storage.state, StorageState::Refused(_))
    }

    /// Folds everything in memory again: after opening, and when a parcel comes or goes.
    pub fn fold_all(&mut self) {
        self.base = Base::fold(self.own.iter().chain(self.theirs.iter().filter(|e| self.own.get(e.id).is_none())));
        self.name_all();
        let (own, theirs) = (&self.own, &self.theirs);
        let all = || own.iter().chain(theirs.iter().filter(|e| own.get(e.id).is_none()));
        let mut by_run: BTreeMap<RunId, Vec<Entry>> = BTreeMap::new();
        for entry in all() {
            if let Some(run) = entry.fact.run(entry.id) {
                by_run.entry(run).or_default().push(self.base.same().read(entry.clone()));
            }
        }
        self.runs.clear();
        self.runs.extend(by_run.into_iter().filter_map(|(id, entries)| Some((id, RunState::fold(entries)?))));
    }

    /// Takes in the entries of a practice that was read: folds its runs and no others.
    pub fn take_in(&mut self, own: Vec<Entry>, theirs: Vec<Entry>) {
        let mut touched = BTreeSet::new();
        own.iter().for_each(|e| self.writer.heard(e));
        for (list, log) in [(own, &mut self.own), (theirs, &mut self.theirs)] {
            for entry in list {
                let id = entry.id;
                if log.add(entry) != Arrival::New {
                    continue;
                }
                if let Some(entry) = log.get(id) {
                    self.base.note(entry);
                    touched.extend(entry.fact.run(id));
                }
            }
        }
        self.name_all();
        let mut of_runs: BTreeMap<RunId, Vec<Entry>> = BTreeMap::new();
        of_runs.extend(touched.into_iter().map(|run| (run, Vec::new())));
        // Own ones first: should a parcel hold the same identity with other content, the one here stands.
        for entry in self.own.iter().chain(self.theirs.iter()) {
            if let Some(entries) = entry.fact.run(entry.id).and_then(|run| of_runs.get_mut(&run)) {
                entries.push(self.base.same().read(entry.clone()));
            }
        }
        self.runs.extend(of_runs.into_iter().filter_map(|(id, entries)| Some((id, RunState::fold(entries)?))));
    }

    /// Takes in one more entry of this phone, as it is written by this page or by another that is open too.
    pub fn note(&mut self, entry: Entry) {
        self.writer.heard(&entry);
        if entry.id.series != self.writer.series() {
            self.live.insert(entry.id.series);
        }
        if matches!(entry.fact, Fact::ChildRemoved { .. }) {
            self.forget(&Removed::of([&entry]));
            self.own.add(entry);
            return;
        }
        let entry = self.own.removed().emptied(entry);
        let before = self.base.same().clone();
        self.base.note(&entry);
        let names =
            matches!(entry.fact, Fact::PlayerAdded { .. } | Fact::PlayerChanged { .. } | Fact::PlayerArchived { .. });
        if *self.base.same() != before {
            // All that was noted of them counts under another child: nothing in memory stays as it was.
            self.own.add(entry);
            return self.fold_all();
        }
        if let Some(id) = entry.fact.run(entry.id) {
            let read = || self.base.same().read(entry.clone());
            match self.runs.get_mut(&id) {
                Some(run) => run.note(read()),
                None if matches!(entry.fact, Fact::RunStarted { .. }) => {
                    self.runs.extend(RunState::fold(vec![read()]).map(|run| (id, run)));
                }
                None => {}
            }
        }
        self.own.add(entry);
        // Only a change of the squad, never a tap of a run; and once it is known whose it is.
        if names {
            self.name_all();
        }
    }

    fn name_all(&mut self) {
        let own = &self.own;
        self.names = Names::with_own_first(self.base.players(), |player| own.get(player.0).is_some());
    }

    /// What a child is called on every screen, told apart from others of its name; one not known here is told by a word.
    pub fn name_of(&self, player: PlayerId) -> String {
        self.names.of_child(self.base.same().of(player)).unwrap_or(super::words::UNKNOWN_CHILD).to_owned()
    }
}
