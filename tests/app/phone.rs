//! A phone without a browser: a model, a clock that goes on by itself, and a storage that confirms what it is given.

use std::collections::BTreeMap;

use peppertally::app::action::{Action, CopyHow};
use peppertally::app::effect::{Effect, LockState, Opened, Report, Trouble};
use peppertally::app::model::Model;
use peppertally::app::screen::Screen;
use peppertally::app::update;
use peppertally::app::view::board::{BoardView, Keys, board};
use peppertally::app::view::today;
use peppertally::app::work::Goes;
use peppertally::app::work::doing::{Change, Found, FoundParcel, Need, Which, do_job};
use peppertally::app::work::{Answer, Job, Note};
use peppertally::app::writer::Writer;
use peppertally::domain::drill::DrillSpec;
use peppertally::domain::ids::PlayerId;
use peppertally::domain::skill::{Outcome, PassGrade};
use peppertally::domain::time::{Slept, Stamp};

/// Between one thing and the next.
const PACE_MS: u32 = 2_100;

pub struct Phone {
    pub model: Model,
    pub db: BTreeMap<String, String>,
    pub blocks: BTreeMap<String, Vec<u8>>,
    pub summaries: BTreeMap<String, String>,
    pub parcels: BTreeMap<String, Vec<u8>>,
    pub notes: BTreeMap<String, String>,
    /// What the small store keeps of the settings.
    pub settings: Option<String>,
    /// The file that was chosen last: hash and bytes.
    pub file: Option<(String, Vec<u8>)>,
    /// The copy that was written last.
    pub copied: Option<String>,
    /// The worker fails with this answer.
    pub fails: Option<Answer>,
    /// The database can't be read any more.
    pub closed: bool,
    /// The worker has been given a job and says nothing.
    pub deaf: bool,
    /// What another window does to the database between a job's reading and its writing.
    pub meanwhile: Option<fn(&mut Phone)>,
    pub effects: Vec<Effect>,
    /// Minutes east of UTC, as the phone is set.
    pub offset_min: i16,
    held: Vec<String>,
    holding: bool,
    wall_ms: i64,
    mono_ms: u64,
    /// When the last tap was.
    acted_ms: u64,
    bits: u64,
}

/// What outlives the page.
#[derive(Clone, Default)]
struct Disk {
    db: BTreeMap<String, String>,
    blocks: BTreeMap<String, Vec<u8>>,
    summaries: BTreeMap<String, String>,
    parcels: BTreeMap<String, Vec<u8>>,
    notes: BTreeMap<String, String>,
    settings: Option<String>,
}

pub fn pass(digit: u8) -> Outcome {
    Outcome::Pass { grade: PassGrade::from_digit(digit).expect("a grade"), over_net: false }
}

impl Phone {
    pub fn new() -> Phone {
        Phone::opened(&Disk::default(), 1, LockState::Held)
    }

    pub fn with_squad(list: &str) -> Phone {
        Phone::new().listed(list)
    }

    /// Another phone, with a squad of its own.
    pub fn other(list: &str) -> Phone {
        Phone::opened(&Disk::default(), 7_000, LockState::Held).listed(list)
    }

    /// Another phone on which nobody typed anything.
    pub fn bare(bits: u64) -> Phone {
        Phone::opened(&Disk::default(), bits, LockState::Held)
    }

    /// The same storage opened again, beside this one: a backup, or what a kill leaves.
    pub fn killed(&self) -> Phone {
        self.killed_as(self.bits + 50)
    }

    /// The same, as the page with these random bits.
    pub fn killed_as(&self, bits: u64) -> Phone {
        Phone::opened(&self.disk(), bits, LockState::Held)
    }

    /// What the worker says of a job when nobody waits for it any more.
    pub fn answer_late(&mut self, job: Job) {
        let answer = self.work(&job);
        self.report(Report::Worked { job, answer });
    }

    /// The worker does a job and the page that gave it is gone before it is told.
    pub fn work_unheard(&mut self, job: &Job) {
        self.work(job);
    }

    pub fn demo() -> Phone {
        Phone::started(&Disk::default(), 1, LockState::Held, true)
    }

    /// The demo on a phone that is in use: it has the phone's settings and a database of its own.
    pub fn demo_on(phone: &Phone) -> Phone {
        let disk = Disk { settings: phone.settings.clone(), ..Disk::default() };
        Phone::started(&disk, 1, LockState::Held, true)
    }

    fn listed(self, list: &str) -> Phone {
        let mut phone = self;
        phone.act(Action::RosterTyped(list.to_owned()));
        phone.act(Action::RosterTaken);
        phone
    }

    fn opened(disk: &Disk, bits: u64, lock: LockState) -> Phone {
        Phone::started(disk, bits, lock, false)
    }

    fn started(disk: &Disk, bits: u64, lock: LockState, demo: bool) -> Phone {
        // 2026-11-29 17:05 UTC+1.
        let at = Stamp { wall_ms: 1_795_968_300_000, offset_min: 60, mono_ms: 0 };
        let model = Model::new(Writer::new(bits, "this phone".to_owned()), at, demo);
        let mut phone = Phone {
            model,
            db: disk.db.clone(),
            blocks: disk.blocks.clone(),
            summaries: disk.summaries.clone(),
            parcels: disk.parcels.clone(),
            notes: disk.notes.clone(),
            settings: disk.settings.clone(),
            file: None,
            copied: None,
            fails: None,
            closed: false,
            deaf: false,
            meanwhile: None,
            effects: Vec::new(),
            offset_min: 60,
            held: Vec::new(),
            holding: false,
            wall_ms: at.wall_ms + i64::try_from(bits).expect("small") * 60_000,
            mono_ms: 0,
            acted_ms: 0,
            bits,
        };
        phone.report(phone.all_read());
        phone.report(Report::Lock(lock));
        phone
    }

    fn all_read(&self) -> Report {
        let entries = self.db.iter().map(|(k, v)| (k.clone(), Ok(v.clone()))).collect();
        let summaries = self.summaries.iter().map(|(k, v)| (k.clone(), Ok(v.clone()))).collect();
        let parcels = self.notes.clone().into_iter().collect();
        Report::Opened(Box::new(Opened {
            entries,
            summaries,
            parcels,
            settings: self.settings.clone(),
            ..Opened::default()
        }))
    }

    /// Started again while the storage does not open.
    pub fn restart_refused(&mut self) {
        let disk = self.disk();
        let at = self.model.now;
        self.bits += 1;
        self.model = Model::new(Writer::new(self.bits, "this phone".to_owned()), at, false);
        self.effects.clear();
        self.report(Report::Refused { trouble: Trouble::Blocked, second: Vec::new(), settings: self.settings.clone() });
        self.report(Report::Lock(LockState::Held));
        self.put(disk);
    }

    /// Killed and started again: a new page with what the storage holds.
    pub fn restart(&mut self) {
        *self = Phone::opened(&self.disk(), self.bits + 1, LockState::Held);
    }

    /// The same, and the worker says nothing.
    pub fn restart_deaf(&mut self) {
        let disk = self.disk();
        *self = Phone::opened(&Disk::default(), self.bits + 1, LockState::Held);
        self.put(disk);
        self.deaf = true;
        self.report(self.all_read());
    }

    /// The same, with the address of a screen where no run is opened by itself.
    pub fn restart_elsewhere(&mut self) {
        let mut disk = self.disk();
        let (db, bits) = (std::mem::take(&mut disk.db), self.bits + 1);
        *self = Phone::opened(&disk, bits, LockState::Held);
        self.model.screen = Screen::Squad;
        self.db = db;
        self.report(self.all_read());
    }

    /// The same, with the address of this screen, which is there before anything was read.
    pub fn restart_at(&mut self, screen: Screen) {
        let disk = self.disk();
        *self = Phone::opened(&Disk::default(), self.bits + 1, LockState::Held);
        self.put(disk);
        self.report(Report::Address(screen.address()));
        self.report(self.all_read());
    }

    /// The same, and the lock has not answered yet.
    pub fn restart_asking(&mut self) {
        *self = Phone::opened(&self.disk(), self.bits + 1, LockState::Asked);
    }

    pub fn second_window(&self) -> Phone {
        Phone::opened(&self.disk(), self.bits + 100, LockState::Elsewhere)
    }

    fn put(&mut self, disk: Disk) {
        Disk {
            db: self.db,
            blocks: self.blocks,
            summaries: self.summaries,
            parcels: self.parcels,
            notes: self.notes,
            settings: self.settings,
        } = disk;
    }

    fn disk(&self) -> Disk {
        Disk {
            db: self.db.clone(),
            blocks: self.blocks.clone(),
            summaries: self.summaries.clone(),
            parcels: self.parcels.clone(),
            notes: self.notes.clone(),
            settings: self.settings.clone(),
        }
    }

    /// Another window's entries reach this one.
    pub fn hear(&mut self, other: &Phone) {
        self.report(Report::Heard(other.db.values().cloned().collect()));
    }

    pub fn act(&mut self, action: Action) {
        let now = self.now();
        self.acted_ms = now.mono_ms;
        let effects = update::act(&mut self.model, action, now);
        self.carry_out(effects);
    }

    /// A tap so long after the one before, whatever the storage said meanwhile.
    pub fn act_after(&mut self, ms: u32, action: Action) {
        self.mono_ms = self.acted_ms + u64::from(ms) - u64::from(PACE_MS);
        self.act(action);
    }

    pub fn report(&mut self, report: Report) {
        let now = self.now();
        let effects = update::heard(&mut self.model, report, now);
        self.carry_out(effects);
    }

    /// The storage keeps what it is given but says nothing.
    pub fn hold_back(&mut self, on: bool) {
        self.holding = on;
    }

    pub fn confirm_all(&mut self) {
        let keys = std::mem::take(&mut self.held);
        self.report(Report::Saved(keys));
    }

    pub fn drill(&mut self, index: usize) {
        let drill = today::today(&self.model).drills[index].drill;
        self.act(Action::DrillTapped(drill));
    }

    /// The practice that is on is over.
    pub fn end_practice(&mut self) {
        let practice = self.model.practice_today().expect("a practice is on").id;
        self.act(Action::PracticeEnded(practice));
    }

    /// The same page a day later.
    pub fn next_day(&mut self) {
        self.wall_ms += 86_400_000;
        self.report(Report::Ticked);
    }

    /// Time passes by both clocks: the page's own, and the one on the wall, which someone may set meanwhile.
    pub fn wait(&mut self, mono_ms: u64, wall_ms: i64) {
        self.mono_ms += mono_ms;
        self.wall_ms += wall_ms;
        self.report(Report::Ticked);
    }

    /// The page is hidden and seen again: awake for so long, and the wall clock further on by so much more, because the phone slept or
    /// because somebody set it.
    pub fn hide(&mut self, awake_ms: u64, ahead_ms: i64) {
        let mut slept = Slept::default();
        slept.hidden(self.wall_ms, self.mono_ms);
        self.wall_ms += i64::try_from(awake_ms).expect("small") + ahead_ms;
        self.mono_ms += awake_ms;
        let absence = slept.shown(self.wall_ms, self.mono_ms);
        self.mono_ms = slept.awake_ms(self.mono_ms);
        if let Some(absence) = absence {
            self.report(Report::Woke(absence));
        }
        self.report(Report::Ticked);
    }

    /// Keeps a drill, and starts it.
    pub fn new_drill(&mut self, spec: DrillSpec) {
        self.act(Action::Go(Screen::Drill(None)));
        self.act(Action::DrillDrafted(spec));
        self.act(Action::DrillKept);
        let drills = today::today(&self.model).drills;
        self.act(Action::DrillTapped(drills.last().expect("a drill").drill));
    }

    pub fn board(&self) -> BoardView {
        let Screen::Run(run) = self.model.screen else { panic!("no board on screen: {:?}", self.model.screen) };
        board(&self.model, run).expect("a board")
    }

    pub fn current(&self) -> String {
        match self.board().keys {
            Keys::Line { current, .. } | Keys::Serve { current, .. } => current.map(|c| c.name).unwrap_or_default(),
            _ => String::new(),
        }
    }

    pub fn player(&self, name: &str) -> PlayerId {
        self.model.squad().into_iter().find(|p| p.name == name).expect("a child").id
    }

    fn now(&mut self) -> Stamp {
        self.wall_ms += i64::from(PACE_MS);
        self.mono_ms += u64::from(PACE_MS);
        Stamp { wall_ms: self.wall_ms, offset_min: self.offset_min, mono_ms: self.mono_ms }
    }

    /// A file was chosen, whose hash is this.
    pub fn choose(&mut self, name: &str, hash: &str, bytes: &[u8]) {
        self.file = Some((hash.to_owned(), bytes.to_vec()));
        self.report(Report::FileChosen { name: name.to_owned(), n_bytes: bytes.len() as u64 });
    }

    pub fn copy(&mut self) -> Vec<u8> {
        self.act(Action::CopyWanted(CopyHow::Download, Goes::default()));
        self.report(Report::CopyLeft { how: CopyHow::Download, left: Ok(true) });
        self.copied.clone().expect("a file").into_bytes()
    }

    /// What the worker does, with this phone's storage for its database. Jobs and answers cross as text.
    fn work(&mut self, job: &Job) -> Answer {
        if let Some(answer) = &self.fails {
            return answer.clone();
        }
        let job = Job::from_text(&job.to_text()).expect("a job that crosses");
        for _ in 0..3 {
            let done = do_job(&job, self.found(&Need::of(&job)));
            if let Some(meanwhile) = self.meanwhile.take() {
                meanwhile(self);
            }
            if done.change.is_some_and(|change| !self.write(change)) {
                continue;
            }
            self.copied = done.file.or(self.copied.take());
            return Answer::from_text(&done.answer.to_text()).expect("an answer that crosses");
        }
        Answer::Refused("changed".to_owned())
    }

    fn found(&self, need: &Need) -> Found {
        let file = self.file.clone().filter(|_| need.file).map(Ok);
        if self.closed {
            return Found { file, closed: Some("closed".to_owned()), ..Found::default() };
        }
        let wanted = |key: &String| match &need.blocks {
            Which::None => false,
            Which::Of(practice) => practice == key,
            Which::All => true,
        };
        let parcel = |(key, note): (&String, &String)| {
            let note = Note::from_text(note)?;
            let bytes = Ok(self.parcels[key].clone());
            need.wants_parcel(&note).then_some(FoundParcel { key: key.clone(), note, bytes })
        };
        let entries = self.db.iter().filter(|_| need.entries).map(|(k, v)| (k.clone(), Ok(v.clone())));
        Found {
            blocks: self.blocks.iter().filter(|(k, _)| wanted(k)).map(|(k, v)| (k.clone(), Ok(v.clone()))).collect(),
            parcels: self.notes.iter().filter_map(parcel).collect(),
            without_note: self
                .notes
                .iter()
                .filter(|(_, n)| Note::from_text(n).is_none())
                .map(|(k, _)| k.clone())
                .collect(),
            entries: entries.collect(),
            file,
            closed: None,
        }
    }

    /// All of it, or nothing where a block is no longer as it was read.
    fn write(&mut self, change: Change) -> bool {
        if change.as_read.iter().any(|(key, bytes)| self.blocks.get(key) != bytes.as_ref()) {
            return false;
        }
        self.blocks.extend(change.blocks);
        self.summaries.extend(change.summaries);
        self.parcels.extend(change.parcels);
        self.notes.extend(change.notes);
        self.db.extend(change.entries);
        self.db.retain(|key, _| !change.remove_entries.contains(key));
        self.summaries.retain(|key, _| !change.remove_summaries.contains(key));
        true
    }

    fn carry_out(&mut self, effects: Vec<Effect>) {
        let mut answers = Vec::new();
        for effect in &effects {
            match effect {
                Effect::Save(records) => {
                    self.db.extend(records.iter().cloned());
                    self.held.extend(records.iter().map(|(key, _)| key.clone()));
                }
                Effect::KeepSettings(text) => self.settings = Some(text.clone()),
                Effect::OpenAgain => answers.push(self.all_read()),
                Effect::Work(_) if self.deaf => {}
                Effect::Work(job) => answers.push(Report::Worked { job: job.clone(), answer: self.work(job) }),
                _ => {}
            }
        }
        self.effects.extend(effects);
        answers.into_iter().for_each(|report| self.report(report));
        if !self.holding && !self.held.is_empty() {
            self.confirm_all();
        }
    }
}
