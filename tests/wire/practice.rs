//! An invented practice, the same for the same seed: twelve children, serves, passes in transition, a told count.

use peppertally::domain::drill::{Board, DrillSpec, LineOrder, Rule, Transition};
use peppertally::domain::entry::{Contact, Correction, Entry, Fact, Lineup, LineupCause, Turn};
use peppertally::domain::ids::{
    Clock, ContactId, DrillId, EntryId, Place, PlayerId, PracticeId, Revision, Round, RunId, ShirtNumber, Step,
};
use peppertally::domain::notes::{Note, NoteAbout, Spot};
use peppertally::domain::skill::{Feed, FeedKind, GoodFrom, Outcome, PassGrade, Role, ServeOutcome, ServeStyle, Skill};
use peppertally::domain::time::Stamp;

const NAMES: [&str; 12] =
    ["Mira", "Tove", "Odile", "Bram", "Ines", "Jorun", "Pell", "Suri", "Wanda", "Zeno", "Ravi", "Lotte"];

/// The squad's entries (written on another day) and the practice's.
pub struct Invented {
    pub squad: Vec<Entry>,
    pub practice: Vec<Entry>,
}

/// A practice of `n` contacts, at least 4, and the told count.
pub fn invented(seed: u64, n: usize) -> Invented {
    let mut page = Page::new(seed, 1_788_000_000_000);
    page.note(Fact::SeriesOpened { device: "gym phone".into(), app_version: "0.1.0".into() });
    let players: Vec<PlayerId> = NAMES
        .iter()
        .zip(3..)
        .map(|(name, number)| {
            PlayerId(page.note(Fact::PlayerAdded { name: (*name).into(), number: Some(ShirtNumber(number)) }))
        })
        .collect();
    let specs = DrillSpec::starters(|i| format!("Drill {i}"));
    let drills: Vec<DrillId> =
        specs.iter().map(|spec| DrillId(page.note(Fact::DrillAdded { spec: spec.clone() }))).collect();
    let squad = std::mem::take(&mut page.entries);

    let mut page = Page::new(seed ^ 0x9e37_79b9_7f4a_7c15, 1_788_270_000_000);
    page.clock = 40;
    page.note(Fact::SeriesOpened { device: "gym phone".into(), app_version: "0.1.0".into() });
    let practice = PracticeId(page.note(Fact::PracticeStarted { title: "Tuesday".into() }));
    let mut court = Court { page, players, practice, recorder: "Ada".into() };
    court.passes(&specs[0], drills[0], n / 4);
    court.serves(&specs[3], drills[3], n / 4);
    court.transition(&specs[1], drills[1], n / 4);
    court.own(&specs[6], drills[6], n - 3 * (n / 4));
    court.told(&specs[5], drills[5]);
    court.page.wait(30_000, 60_000);
    court.page.note(Fact::NoteWritten {
        spot: Spot { practice: Some(practice), ..Spot::default() },
        note: Note { about: NoteAbout::Practice, tags: Vec::new(), text: "Long rows, tired at the end.".into() },
    });
    court.page.note(Fact::PracticeEnded { practice });
    Invented { squad, practice: court.page.entries }
}

/// Practices, each in a series of its own, after one squad's entries.
pub fn season(n_practices: u64, n_contacts: usize) -> Vec<Entry> {
    let practices = (0..n_practices).flat_map(|seed| invented(seed, n_contacts).practice);
    invented(0, 4).squad.into_iter().chain(practices).collect()
}

pub fn n_contacts(entries: &[Entry]) -> usize {
    entries.iter().filter(|entry| matches!(entry.fact, Fact::ContactNoted { .. })).count()
}

/// One page of the app, its clocks, and what it wrote.
struct Page {
    series: u64,
    random: u64,
    clock: u64,
    /// In microseconds, so that the two clocks round each on its own.
    mono_us: u64,
    wall_us: i64,
    entries: Vec<Entry>,
}

impl Page {
    fn new(seed: u64, wall_ms: i64) -> Self {
        let mut page = Page {
            series: 0,
            random: seed,
            clock: 0,
            mono_us: 812_345,
            wall_us: wall_ms * 1000 + 417,
            entries: vec![],
        };
        page.series = page.random();
        page
    }

    /// Splitmix64 (Steele, Lea, Flood 2014).
    fn random(&mut self) -> u64 {
        self.random = self.random.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let z = (self.random ^ (self.random >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    fn below(&mut self, n: u64) -> u64 {
        self.random() % n
    }

    /// One of the choices, by weight.
    fn pick<T: Copy>(&mut self, choices: &[(u64, T)]) -> T {
        let mut at = self.below(choices.iter().map(|(weight, _)| weight).sum());
        for (weight, choice) in choices {
            if at < *weight {
                return *choice;
            }
            at -= weight;
        }
        unreachable!("weights add up")
    }

    /// The wall clock drifts by 20 millionths against the other.
    fn wait(&mut self, from_ms: u64, to_ms: u64) {
        let us = from_ms * 1000 + self.below((to_ms - from_ms) * 1000);
        self.mono_us += us;
        self.wall_us += (us + us / 50_000).cast_signed();
    }

    fn note(&mut self, fact: Fact) -> EntryId {
        let id = EntryId::new(self.series, u32::try_from(self.entries.len()).unwrap());
        self.clock += 1;
        let at = Stamp { wall_ms: self.wall_us / 1000, offset_min: 120, mono_ms: self.mono_us / 1000 };
        self.entries.push(Entry { id, clock: Clock(self.clock), at, fact, extra: None });
        self.wait(5, 30);
        id
    }
}

struct Court {
    page: Page,
    players: Vec<PlayerId>,
    practice: PracticeId,
    recorder: String,
}

impl Court {
    fn start(&mut self, spec: &DrillSpec, drill: DrillId, lineup: Lineup) -> RunId {
        self.page.wait(40_000, 120_000);
        RunId(self.page.note(Fact::RunStarted {
            practice: self.practice,
            drill: Some(drill),
            spec: spec.clone(),
            lineup,
            recorder: self.recorder.clone(),
        }))
    }

    /// Notes a contact; now and then one is taken back, corrected, or followed by an effort.
    fn contact(&mut self, run: RunId, contact: Contact) -> ContactId {
        self.page.wait(2000, 6000);
        let player = contact.player;
        let id = self.page.note(Fact::ContactNoted { run, contact });
        match self.page.below(100) {
            0..2 => {
                self.page.wait(400, 900);
                self.page.note(Fact::EntryTakenBack { run: Some(run), target: id, revision: Revision(1), back: true });
            }
            2 => {
                self.page.wait(1000, 3000);
                let outcome = Outcome::Pass { grade: PassGrade::Chased, over_net: false };
                let change =
                    Correction { contact: ContactId(id), revision: Revision(1), player, outcome, step: Step(0) };
                self.page.note(Fact::ContactsCorrected { run, changes: vec![change] });
            }
            3..5 => {
                self.page.wait(300, 900);
                self.page.note(Fact::EffortNoted { run, player, kind: None });
            }
            _ => {}
        }
        ContactId(id)
    }

    fn grade(&mut self) -> Outcome {
        let grade = self.page.pick(&[
            (22, PassGrade::Stood),
            (34, PassGrade::Moved),
            (26, PassGrade::Chased),
            (18, PassGrade::Gone),
        ]);
        let over_net = grade == PassGrade::Gone && self.page.below(4) == 0;
        if self.page.below(30) == 0 { Outcome::NoChance } else { Outcome::Pass { grade, over_net } }
    }

    /// Three at a time, eight balls, then the next three.
    fn passes(&mut self, spec: &DrillSpec, drill: DrillId, n: usize) {
        let mut lineup = self.lineup(3, 0);
        let run = self.start(spec, drill, lineup.clone());
        for i in 0..n {
            let place = usize::try_from(self.page.below(3)).unwrap();
            let outcome = self.grade();
            let contact = pass(lineup.places[place], place, outcome, DrillSpec::EASY, None, None);
            self.contact(run, contact);
            if i % 8 == 7 {
                lineup = swapped(&lineup);
                self.page.note(Fact::LineupSet { run, lineup: lineup.clone(), cause: LineupCause::Swap });
            }
        }
        self.page.note(Fact::RunFinished { run });
    }

    fn serves(&mut self, spec: &DrillSpec, drill: DrillId, n: usize) {
        let run = self.start(spec, drill, self.lineup(0, 0));
        let styles: Vec<ServeStyle> =
            (0..12).map(|_| self.page.pick(&[(5, ServeStyle::Underhand), (4, ServeStyle::StandingOverhead)])).collect();
        for i in 0..n {
            let mut turn = i % 12;
            if self.page.below(20) == 0 {
                turn = usize::try_from(self.page.below(12)).unwrap();
                self.page.note(Fact::TurnGiven { run, player: self.players[turn] });
            }
            let outcome = self.page.pick(&[
                (60, ServeOutcome::In),
                (14, ServeOutcome::Long),
                (8, ServeOutcome::Wide),
                (18, ServeOutcome::Net),
            ]);
            let fast = self.page.below(6) == 0;
            let contact = Contact {
                player: Some(self.players[turn]),
                role: Role::Server,
                place: None,
                outcome: Outcome::Serve { outcome, fast },
                good_from: GoodFrom::ServeIn,
                feed: DrillSpec::EASY,
                style: Some(styles[turn]),
                turn: None,
                server: None,
                self_scored: false,
                group: None,
                clock_ms: None,
                watched: false,
            };
            self.contact(run, contact);
        }
        self.page.note(Fact::RunFinished { run });
    }

    /// Four easy balls, three challenge balls, a swap after each round.
    fn transition(&mut self, spec: &DrillSpec, drill: DrillId, n: usize) {
        assert_eq!(spec.rule, Rule::Transition(Transition::default()));
        let mut lineup = self.lineup(3, 4);
        let run = self.start(spec, drill, lineup.clone());
        for i in 0..n {
            let ball = i % 7;
            let kind = if ball < 4 { FeedKind::Easy } else { FeedKind::Challenge };
            let place = usize::try_from(self.page.below(3)).unwrap();
            let missed = kind == FeedKind::Challenge && self.page.below(4) == 0;
            let outcome = if missed { Outcome::ServeMissed } else { self.grade() };
            let server = (kind == FeedKind::Challenge).then(|| lineup.servers[i % lineup.servers.len()]);
            let turn = Turn { round: Round(u16::try_from(i / 7).unwrap() + 1), restart: 0 };
            let feed = Feed { kind, step: Step(0) };
            let contact = pass(lineup.places[place], place, outcome, feed, Some(turn), server);
            let id = self.contact(run, contact);
            if ball == 6 {
                lineup = swapped(&lineup);
                let cause = LineupCause::AfterContact(id);
                self.page.note(Fact::LineupSet { run, lineup: lineup.clone(), cause });
            }
        }
        self.page.note(Fact::RunFinished { run });
    }

    fn own(&mut self, spec: &DrillSpec, drill: DrillId, n: usize) {
        assert_eq!(spec.board, Board::Line { order: LineOrder::InTurn });
        assert!(matches!(spec.skill, Skill::Own(_)));
        let run = self.start(spec, drill, self.lineup(0, 0));
        for i in 0..n {
            let contact = Contact {
                player: Some(self.players[i % 12]),
                role: Role::Doer,
                place: None,
                outcome: Outcome::TwoKey { good: self.page.below(3) > 0 },
                good_from: GoodFrom::GoodKey,
                feed: DrillSpec::EASY,
                style: None,
                turn: None,
                server: None,
                self_scored: false,
                group: None,
                clock_ms: None,
                watched: false,
            };
            self.contact(run, contact);
        }
        self.page.note(Fact::RunFinished { run });
    }

    fn told(&mut self, spec: &DrillSpec, drill: DrillId) {
        let run = self.start(spec, drill, self.lineup(0, 0));
        for player in self.players.clone() {
            self.page.wait(1500, 4000);
            let good = u16::try_from(3 + self.page.below(8)).unwrap();
            let good_from = GoodFrom::ServeIn;
            let feed = DrillSpec::EASY;
            self.page.note(Fact::CountTold {
                run,
                player,
                told_no: 0,
                good,
                of: 10,
                good_from,
                feed,
                self_scored: true,
            });
        }
        self.page.note(Fact::RunFinished { run });
    }

    fn lineup(&self, n_places: usize, n_servers: usize) -> Lineup {
        let (places, rest) = self.players.split_at(n_places);
        let (servers, waiting) = rest.split_at(n_servers);
        let places = places.iter().copied().map(Some).collect();
        Lineup { places, waiting: waiting.to_vec(), servers: servers.to_vec(), ..Lineup::default() }
    }
}

fn pass(
    player: Option<PlayerId>,
    place: usize,
    outcome: Outcome,
    feed: Feed,
    turn: Option<Turn>,
    server: Option<PlayerId>,
) -> Contact {
    Contact {
        player,
        role: Role::Passer,
        place: Some(Place(u8::try_from(place).unwrap())),
        outcome,
        good_from: GoodFrom::Grade(PassGrade::Moved),
        feed,
        style: None,
        turn,
        server,
        self_scored: false,
        group: None,
        clock_ms: None,
        watched: false,
    }
}

/// Everyone moves on by as many as there are places.
fn swapped(lineup: &Lineup) -> Lineup {
    let n_places = lineup.places.len();
    let mut everyone: Vec<PlayerId> =
        lineup.places.iter().flatten().chain(&lineup.waiting).chain(&lineup.servers).copied().collect();
    everyone.rotate_left(n_places);
    let servers = everyone.split_off(everyone.len() - lineup.servers.len());
    let waiting = everyone.split_off(n_places);
    Lineup { places: everyone.into_iter().map(Some).collect(), waiting, servers, ..Lineup::default() }
}
