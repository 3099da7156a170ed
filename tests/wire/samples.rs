//! Every kind, every choice and every field that exists, in invented entries. The frozen fixtures hold exactly these: never
//! change one, add the new ones behind.

use peppertally::domain::drill::{Board, DrillSpec, DuelBetween, LineOrder, OnFloor, Rule, Transition, TransitionEnd};
use peppertally::domain::entry::{Contact, Correction, Entry, Fact, Lineup, LineupCause, Turn};
use peppertally::domain::ids::{
    Clock, ContactId, DrillId, EffortId, EntryId, Place, PlayerId, PracticeId, Revision, Round, RunId, ShirtNumber,
    Step,
};
use peppertally::domain::notes::{Note, NoteAbout, Spot};
use peppertally::domain::skill::{Feed, FeedKind, GoodFrom, Outcome, PassGrade, Role, ServeOutcome, ServeStyle, Skill};
use peppertally::domain::time::Stamp;

/// The page that wrote most of them, a page before it, and one after it that goes on.
pub const PAGE: u64 = 0x5eed_0000_c0ff_ee01;
const BEFORE: u64 = 0x00ab_cdef_0123_4567;
const AFTER: u64 = 0xffff_ffff_ffff_fff0;

pub const MIRA: PlayerId = PlayerId(EntryId::new(BEFORE, 1));
pub const TOVE: PlayerId = PlayerId(EntryId::new(BEFORE, 2));
pub const ODILE: PlayerId = PlayerId(EntryId::new(PAGE, 1));
pub const PRACTICE: PracticeId = PracticeId(EntryId::new(PAGE, 2));
pub const RUN: RunId = RunId(EntryId::new(PAGE, 3));
const DRILL: DrillId = DrillId(EntryId::new(BEFORE, 3));
/// A reference to what isn't there.
const NOWHERE: EntryId = EntryId::new(0x0bad, u32::MAX);

pub fn every_kind() -> Vec<Entry> {
    let mut pages = Pages { entries: Vec::new(), clock: 0 };
    before(&mut pages);
    runs(&mut pages);
    pages.entries.push(entry(EntryId::new(PAGE, 2), 6, Fact::PracticeStarted { title: "Salle \u{e9}t\u{e9}".into() }));
    pages.entries.push(entry(
        RUN.0,
        7,
        run_started(Some(DRILL), DrillSpec::starters(|i| format!("Drill {i}")).remove(1)),
    ));
    contacts(&mut pages);
    others(&mut pages);
    newer(&mut pages);
    pages.entries
}

/// What the first fixtures didn't know: each kind has fixtures of its own.
pub fn told_series() -> Vec<Entry> {
    let mut pages = Pages { entries: Vec::new(), clock: 200 };
    for told_no in [1, u16::MAX] {
        pages.note(Fact::ToldSeriesOpened { run: RUN, told_no });
    }
    pages.note(Fact::ToldSeriesOpened { run: RUN, told_no: 2 }).extra = Some(r#"{"by":"whistle"}"#.into());
    pages.entries
}

pub fn entry(id: EntryId, clock: u64, fact: Fact) -> Entry {
    let no = u64::from(id.no.0);
    let wall_ms = 1_788_270_000_000 + (no * 3_917).cast_signed();
    Entry {
        id,
        clock: Clock(clock),
        at: Stamp { wall_ms, offset_min: 120, mono_ms: 900 + no * 3_916 },
        fact,
        extra: None,
    }
}

pub struct Pages {
    pub entries: Vec<Entry>,
    pub clock: u64,
}

impl Pages {
    fn at(&mut self, series: u64, no: u32, fact: Fact) -> &mut Entry {
        self.clock += 1;
        self.entries.push(entry(EntryId::new(series, no), self.clock, fact));
        self.entries.last_mut().unwrap()
    }

    /// On the page, from number 100 on.
    pub fn note(&mut self, fact: Fact) -> &mut Entry {
        let no = 100 + u32::try_from(self.entries.len()).unwrap();
        self.at(PAGE, no, fact)
    }
}

fn before(pages: &mut Pages) {
    let opened = |device: &str| Fact::SeriesOpened { device: device.into(), app_version: "0.1.0".into() };
    pages.at(BEFORE, 0, opened("gym phone"));
    pages.at(BEFORE, 1, Fact::PlayerAdded { name: "Mira".into(), number: Some(ShirtNumber(0)) });
    // A wall clock before 1970, far west, and a name from right to left.
    let tove = pages.at(BEFORE, 2, Fact::PlayerAdded { name: "\u{5d8}\u{5d5}\u{5d1}\u{5d4}".into(), number: None });
    tove.at = Stamp { wall_ms: -86_400_001, offset_min: -720, mono_ms: 0 };
    pages.at(BEFORE, 3, Fact::DrillAdded { spec: spec(Skill::Pass, Board::Group, Rule::Tally { goal: None }) });
    pages.at(PAGE, 0, opened("bench phone \"two\""));
    pages.at(PAGE, 1, Fact::PlayerAdded { name: "Odile <b> \u{1f3d0}".into(), number: Some(ShirtNumber(999)) });
}

/// Every board, order, rule and end.
fn runs(pages: &mut Pages) {
    let transition = |earn, between, end, swap| {
        Rule::Transition(Transition { n_easy: 10, n_challenge: 1, earn, between, end, swap })
    };
    let tally = Rule::Tally { goal: Some(u16::MAX) };
    let own = || Skill::Own("High hands".into());
    let specs = [
        spec(
            Skill::Pass,
            Board::Floor { n_places: 3 },
            transition(Some(2), DuelBetween::Sides, TransitionEnd::DuelPoints(8), true),
        ),
        spec(
            Skill::Pass,
            Board::Floor { n_places: 1 },
            transition(None, DuelBetween::Children, TransitionEnd::Rounds(5), false),
        ),
        spec(
            Skill::Pass,
            Board::Floor { n_places: 2 },
            transition(None, DuelBetween::Sides, TransitionEnd::Coach, true),
        ),
        spec(own(), Board::Line { order: LineOrder::InTurn }, tally),
        spec(own(), Board::Line { order: LineOrder::Stays }, tally),
        spec(Skill::Serve, Board::ServeFloor { n_places: 6, receiver: true }, tally),
        spec(Skill::Serve, Board::ServeFloor { n_places: 5, receiver: false }, tally),
        spec(Skill::Serve, Board::ServeLine { order: LineOrder::InTurn, receiver: false }, tally),
        spec(Skill::Serve, Board::ServeLine { order: LineOrder::Stays, receiver: true }, tally),
        spec(Skill::Serve, Board::Told { of: 10 }, tally),
        spec(own(), Board::Group, tally),
    ];
    for (spec, revision) in specs.into_iter().zip(1..) {
        pages.note(Fact::DrillChanged { drill: DRILL, revision: Revision(revision), spec: spec.clone() });
        pages.note(run_started(None, spec));
    }
}

pub fn run_started(drill: Option<DrillId>, spec: DrillSpec) -> Fact {
    let lineup = Lineup { places: vec![Some(MIRA), None, Some(ODILE)], waiting: vec![TOVE], ..Lineup::default() };
    Fact::RunStarted { practice: PRACTICE, drill, spec, lineup, recorder: "Ada".into() }
}

fn spec(skill: Skill, board: Board, rule: Rule) -> DrillSpec {
    let good_from = match skill {
        Skill::Pass => GoodFrom::Grade(PassGrade::Stood),
        Skill::Serve => GoodFrom::FastServeIn,
        Skill::Own(_) => GoodFrom::GoodKey,
    };
    let feed = Feed { kind: FeedKind::Challenge, step: Step(4) };
    DrillSpec { name: "Short balls".into(), skill, board, rule, good_from, feed, on_floor: OnFloor::default() }
}

pub fn outcomes() -> Vec<Outcome> {
    let passes = PassGrade::ALL.map(|grade| Outcome::Pass { grade, over_net: false });
    let over = Outcome::Pass { grade: PassGrade::Gone, over_net: true };
    let serves = [false, true].map(|fast| ServeOutcome::ALL.map(|outcome| Outcome::Serve { outcome, fast }));
    let others = [Outcome::ServeMissed, Outcome::TwoKey { good: true }, Outcome::TwoKey { good: false }];
    passes.into_iter().chain([over]).chain(serves.concat()).chain(others).chain([Outcome::NoChance]).collect()
}

pub const GOOD_FROM: [GoodFrom; 7] = [
    GoodFrom::Grade(PassGrade::Gone),
    GoodFrom::Grade(PassGrade::Chased),
    GoodFrom::Grade(PassGrade::Moved),
    GoodFrom::Grade(PassGrade::Stood),
    GoodFrom::ServeIn,
    GoodFrom::FastServeIn,
    GoodFrom::GoodKey,
];

pub const ROLES: [Role; 5] = [Role::Passer, Role::Server, Role::Target, Role::BallGetter, Role::Doer];

/// Every outcome, role, style and meaning of good; every optional field there and not there.
fn contacts(pages: &mut Pages) {
    for (i, outcome) in outcomes().into_iter().enumerate() {
        let byte = u8::try_from(i).unwrap();
        let some = i % 2 == 0;
        let contact = Contact {
            player: [None, Some(MIRA), Some(TOVE), Some(PlayerId(NOWHERE))][i % 4],
            role: ROLES[i % 5],
            place: some.then_some(Place(if i == 0 { 255 } else { byte % 3 })),
            outcome,
            good_from: GOOD_FROM[i % 7],
            feed: Feed { kind: if some { FeedKind::Easy } else { FeedKind::Challenge }, step: Step(byte) },
            style: ServeStyle::ALL.into_iter().map(Some).chain([None]).nth(i % 5).unwrap(),
            turn: (i % 3 > 0).then_some(Turn { round: Round(if i == 1 { u16::MAX } else { 2 }), restart: byte }),
            server: (i % 3 == 0).then_some(ODILE),
            self_scored: i % 4 == 3,
            group: None,
            clock_ms: None,
            watched: false,
        };
        pages.note(Fact::ContactNoted { run: RUN, contact });
    }
}

fn others(pages: &mut Pages) {
    let contact = ContactId(EntryId::new(PAGE, 128));
    let lineup = Lineup { places: vec![None, Some(TOVE)], servers: vec![MIRA, ODILE], ..Lineup::default() };
    for (fact, revision) in [
        Fact::PlayerChanged {
            player: MIRA,
            revision: Revision(1),
            name: "Mirabel".into(),
            number: Some(ShirtNumber(7)),
        },
        Fact::PlayerArchived { player: TOVE, revision: Revision(1), archived: true },
        Fact::PlayerArchived { player: TOVE, revision: Revision(u32::MAX), archived: false },
        Fact::StyleNoted { player: MIRA, revision: Revision(1), style: ServeStyle::Roundhouse },
        Fact::DrillArchived { drill: DRILL, revision: Revision(3), archived: true },
        Fact::EffortKindsChanged { revision: Revision(1), kinds: vec!["chase".into(), "floor".into()] },
        Fact::EffortKindsChanged { revision: Revision(2), kinds: vec![] },
        Fact::PresenceNoted { practice: PRACTICE, player: TOVE, revision: Revision(2), here: false },
        Fact::LineupSet { run: RUN, lineup: lineup.clone(), cause: LineupCause::Swap },
        Fact::LineupSet { run: RUN, lineup: Lineup::default(), cause: LineupCause::ByHand },
        Fact::LineupSet { run: RUN, lineup: lineup.clone(), cause: LineupCause::AfterContact(contact) },
        Fact::LineupSet { run: RunId(NOWHERE), lineup, cause: LineupCause::AfterContact(ContactId(NOWHERE)) },
        Fact::TurnGiven { run: RUN, player: ODILE },
        Fact::FeedSet { run: RUN, feed: Feed { kind: FeedKind::Challenge, step: Step(2) } },
        Fact::EffortNoted { run: RUN, player: Some(MIRA), kind: Some("floor".into()) },
        Fact::EffortNoted { run: RUN, player: None, kind: None },
    ]
    .into_iter()
    .zip(0u16..)
    {
        pages.note(fact);
        let good = revision;
        let told = Fact::CountTold {
            run: RUN,
            player: TOVE,
            told_no: revision,
            good,
            of: u16::MAX,
            good_from: GOOD_FROM[usize::from(revision) % 7],
            feed: DrillSpec::EASY,
            self_scored: revision % 2 == 0,
        };
        pages.note(told);
    }
    let changes = outcomes().into_iter().zip(1..).map(|(outcome, n)| Correction {
        contact,
        revision: Revision(n),
        player: (n % 2 == 0).then_some(ODILE),
        outcome,
        step: Step(u8::MAX),
    });
    pages.note(Fact::ContactsCorrected { run: RUN, changes: changes.collect() });
    pages.note(Fact::ContactsCorrected { run: RUN, changes: vec![] });
    let effort = EffortId(NOWHERE);
    for (player, kind) in [(Some(TOVE), Some("chase".into())), (None, None)] {
        pages.note(Fact::EffortCorrected { run: RUN, effort, revision: Revision(1), player, kind });
    }
    for (run, back) in [(Some(RUN), true), (None, false)] {
        pages.note(Fact::EntryTakenBack { run, target: contact.0, revision: Revision(2), back });
    }
    let nowhere = Spot::default();
    for (spot, about) in [
        (Spot { practice: Some(PRACTICE), ..nowhere }, NoteAbout::Practice),
        (Spot { run: Some(RUN), ..nowhere }, NoteAbout::Run),
        (nowhere, NoteAbout::Children(vec![MIRA])),
    ] {
        let text = "two\n\tlines \\ \"quoted\"".into();
        pages.note(Fact::NoteWritten { spot, note: Note { about, tags: Vec::new(), text } });
    }
    pages.note(Fact::RunFinished { run: RUN });
    pages.note(Fact::PracticeEnded { practice: PRACTICE });
    pages.at(AFTER, 0, Fact::SeriesOpened { device: "spare phone".into(), app_version: "0.2.0".into() });
    pages.at(AFTER, u32::MAX, Fact::RunTakenOver { run: RUN, after: EntryId::new(PAGE, 140), recorder: "Bram".into() });
}

/// What this version doesn't know.
fn newer(pages: &mut Pages) {
    let unknown = |kind: &str, body: &str| Fact::Unknown { kind: kind.into(), body: body.into() };
    pages.note(unknown("ball-counted", r#"{"n":123456789012345678901234567890.10,"deep":{"a":[1,{"b":null}]}}"#));
    pages.note(unknown("whistle-blown", "{}"));
    // A known kind in a newer version of the record, and one with a newer word.
    pages.note(unknown("turn-given", r#"{"v":2,"run":7,"why":"\u00e9 kept as written"}"#));
    pages.note(unknown("style-noted", r#"{"player":"5eed0000c0ffee01.00000001","rev":1,"style":"sky-ball"}"#));
    // Newer fields: beside the known ones, within a drill, within a lineup, and on a kind that has columns.
    pages.note(Fact::RunFinished { run: RUN }).extra = Some(r#"{"weather":"hot","n":1.50}"#.into());
    let deep = r#"{"wind":[3, 4],"spec":{"net":"low"},"lineup":{"bench":["x"]}}"#;
    pages.note(run_started(None, DrillSpec::starters(|i| format!("Drill {i}")).remove(0))).extra = Some(deep.into());
    pages.note(Fact::TurnGiven { run: RUN, player: MIRA }).extra = Some(r#"{"by":"voice"}"#.into());
}
