//! Random taps as entries: one run, a writer and stale pages. Owns the generator; what must hold is elsewhere.

use std::collections::HashMap;

use peppertally::domain::drill::*;
use peppertally::domain::entry::{Correction, Entry, Fact, Lineup, LineupCause};
use peppertally::domain::ids::{EntryId, GroupNo, PlayerId, RunId, Step};
use peppertally::domain::replay::part::Part;
use peppertally::domain::replay::run::RunState;
use peppertally::domain::skill::*;
use proptest::prelude::*;

use crate::support::{Page, child, contact, run_started};

pub const N_CHILDREN: usize = 6;
pub const N_PAGES: usize = 3;

/// What somebody does; the numbers choose among whatever is there.
#[derive(Clone, Copy, Debug)]
pub enum Act {
    Tap {
        who: u8,
        outcome: u8,
    },
    StaleTap {
        page: u8,
        who: u8,
        outcome: u8,
    },
    Effort {
        who: u8,
    },
    Kind {
        which: u8,
    },
    Told {
        who: u8,
        told_no: u8,
        good: u8,
    },
    Correct {
        which: u8,
        who: u8,
        outcome: u8,
    },
    Swap,
    Presence {
        who: u8,
        here: bool,
    },
    Turn {
        who: u8,
    },
    Feed {
        step: u8,
    },
    /// The run's clock goes or stands.
    Clock {
        shown: u8,
    },
    GroupStep {
        who: u8,
    },
    /// The coach saw the last ball too.
    Check {
        outcome: u8,
    },
    Finish,
    Undo,
    /// Takes any entry back, or puts it back.
    Take {
        which: u8,
        back: bool,
    },
    TakeOver {
        page: u8,
    },
    Unknown,
}

/// Taps as a coach makes them: only the writer amends, and only by undo.
pub fn coach() -> impl Strategy<Value = Vec<Act>> {
    let n = any::<u8>;
    let act = prop_oneof![
        8 => (n(), n()).prop_map(|(who, outcome)| Act::Tap { who, outcome }),
        1 => (n(), n(), n()).prop_map(|(page, who, outcome)| Act::StaleTap { page, who, outcome }),
        1 => n().prop_map(|who| Act::Effort { who }),
        1 => n().prop_map(|which| Act::Kind { which }),
        1 => (n(), n(), n()).prop_map(|(who, told_no, good)| Act::Told { who, told_no, good }),
        2 => (n(), n(), n()).prop_map(|(which, who, outcome)| Act::Correct { which, who, outcome }),
        1 => Just(Act::Swap),
        1 => (n(), any::<bool>()).prop_map(|(who, here)| Act::Presence { who, here }),
        1 => n().prop_map(|who| Act::Turn { who }),
        1 => n().prop_map(|step| Act::Feed { step }),
        1 => n().prop_map(|shown| Act::Clock { shown }),
        1 => n().prop_map(|who| Act::GroupStep { who }),
        1 => n().prop_map(|outcome| Act::Check { outcome }),
        1 => Just(Act::Finish),
        5 => Just(Act::Undo),
        1 => n().prop_map(|page| Act::TakeOver { page }),
        1 => Just(Act::Unknown),
    ];
    prop::collection::vec(act, 1..50)
}

/// The same, and entries taken back and put back anywhere.
pub fn anyone() -> impl Strategy<Value = Vec<Act>> {
    let take = (any::<u8>(), any::<bool>()).prop_map(|(which, back)| Act::Take { which, back });
    let some = prop::collection::vec((any::<prop::sample::Index>(), take), 0..8);
    (coach(), some).prop_map(|(mut acts, takes)| {
        for (at, take) in takes {
            acts.insert(at.index(acts.len() + 1), take);
        }
        acts
    })
}

pub fn specs() -> impl Strategy<Value = DrillSpec> {
    let board = |skill: Skill, board, good_from, rule| {
        let feed = DrillSpec::EASY;
        DrillSpec { name: "A drill".to_owned(), skill, board, rule, good_from, feed, on_floor: OnFloor::default() }
    };
    let goal = Rule::Tally { goal: Some(30) };
    let moved = GoodFrom::Grade(PassGrade::Moved);
    let floor = Board::Floor { n_places: 2 };
    let short = Transition { n_easy: 2, n_challenge: 2, ..Transition::default() };
    let children = Transition { earn: Some(1), between: DuelBetween::Children, ..short };
    prop::sample::select(vec![
        board(Skill::Pass, floor, moved, goal),
        board(Skill::Pass, Board::Line { order: LineOrder::InTurn }, moved, goal),
        board(Skill::Serve, Board::ServeFloor { n_places: 3, receiver: true }, GoodFrom::FastServeIn, goal),
        board(Skill::Serve, Board::ServeLine { order: LineOrder::Stays, receiver: false }, GoodFrom::ServeIn, goal),
        board(Skill::Pass, floor, moved, Rule::Transition(short)),
        board(Skill::Pass, floor, moved, Rule::Transition(children)),
    ])
}

/// Every rule that is no duel and no game, on boards that it fits.
pub fn rule_specs() -> impl Strategy<Value = DrillSpec> {
    let moved = GoodFrom::Grade(PassGrade::Moved);
    let spec = |skill: Skill, board, good_from, rule, groups| DrillSpec {
        name: "A drill".to_owned(),
        skill,
        board,
        rule,
        good_from,
        feed: DrillSpec::EASY,
        on_floor: OnFloor { groups, ..OnFloor::default() },
    };
    let line = |rule, groups| spec(Skill::Pass, Board::Line { order: LineOrder::InTurn }, moved, rule, groups);
    let floor = |rule, groups| spec(Skill::Pass, Board::Floor { n_places: 2 }, moved, rule, groups);
    let own = |board, rule, groups| spec(Skill::Own("Setting".to_owned()), board, GoodFrom::GoodKey, rule, groups);
    let in_row = |whose, falls_to_five| Rule::InRow(InRow { goal: Some(5), whose, falls_to_five });
    let first_to = |by_two| Rule::FirstTo(FirstTo { n: 4, by_two });
    let in_time = |whose| Rule::InTime(InTime { seconds: 60, whose });
    let together = |row, balls| Rule::Together(Together { row, balls, to_beat: Some(3) });
    let specs = vec![
        line(in_row(Whose::Child, false), None),
        line(in_row(Whose::Group, true), Some(3)),
        floor(in_row(Whose::Group, false), None),
        line(Rule::Tens(Tens { n: 3 }), None),
        spec(Skill::Serve, Board::Told { of: 10 }, GoodFrom::ServeIn, Rule::Tens(Tens { n: 10 }), None),
        floor(first_to(false), Some(4)),
        own(Board::Lanes, first_to(true), Some(3)),
        own(Board::Lanes, in_time(Whose::Group), Some(2)),
        own(Board::Propped { order: LineOrder::Stays }, in_time(Whose::Child), None),
        own(Board::Group, together(true, None), None),
        line(together(false, Some(8)), None),
        own(Board::Lanes, together(false, None), Some(2)),
    ];
    assert!(specs.iter().all(|spec| spec.fault().is_none()));
    prop::sample::select(specs)
}

/// One run being written.
pub struct Court {
    pub run: RunState,
    /// In the order in which they were written.
    pub log: Vec<Entry>,
    /// The main part before each entry.
    pub before: HashMap<EntryId, Part>,
    pages: Vec<Page>,
    writer: usize,
}

impl Court {
    pub fn open(spec: &DrillSpec) -> Court {
        // Later pages have lower series and clocks: importing moves no clock.
        let mut pages: Vec<Page> = (0..N_PAGES as u64).map(|n| Page::new(30 - n, 900 - 300 * n)).collect();
        let here: Vec<PlayerId> = (0..N_CHILDREN).map(child).collect();
        let n = usize::from(spec.on_floor.groups.unwrap_or(0));
        let groups = (0..n).map(|at| here.iter().copied().skip(at).step_by(n).collect()).collect();
        let lineup = Lineup { groups, ..Lineup::opening(spec, &here, &[]) };
        let start = pages[0].write(run_started(spec, lineup));
        let run = RunState::fold(vec![start.clone()]).expect("a start is a run");
        Court { run, log: vec![start], before: HashMap::new(), pages, writer: 0 }
    }

    pub fn played(spec: &DrillSpec, acts: &[Act]) -> Court {
        let mut court = Court::open(spec);
        acts.iter().for_each(|act| court.play(*act));
        court
    }

    pub fn play(&mut self, act: Act) {
        if let Act::StaleTap { page, who, outcome } = act {
            let page = usize::from(page) % N_PAGES;
            if page != self.writer {
                let contact = contact(&self.run.spec, Some(some_child(who)), outcome_of(&self.run.spec, outcome));
                self.write(page, Fact::ContactNoted { run: self.run.id, contact });
            }
            return;
        }
        if let Act::TakeOver { page } = act {
            self.writer = usize::from(page) % N_PAGES;
        }
        let Some(fact) = self.fact(act) else { return };
        let was = self.run.stood();
        self.write(self.writer, fact);
        if let Some(due) = self.run.places_due(&was) {
            self.write(self.writer, due);
        } else if let (Act::Tap { .. }, Some(due)) = (act, self.run.turn_due(0)) {
            self.write(self.writer, due);
        }
    }

    /// Whether `Act::Take` of this number would take a contact.
    pub fn is_contact(&self, which: u8) -> bool {
        matches!(self.log[usize::from(which) % self.log.len()].fact, Fact::ContactNoted { .. })
    }

    fn write(&mut self, page: usize, fact: Fact) {
        let entry = self.pages[page].write(fact);
        self.before.insert(entry.id, self.run.main.clone());
        self.log.push(entry.clone());
        self.run.note(entry);
    }

    fn fact(&self, act: Act) -> Option<Fact> {
        let run: RunId = self.run.id;
        let main = &self.run.main;
        let spec = &self.run.spec;
        Some(match act {
            Act::Tap { who, outcome } => {
                let player = (who % 8 != 7).then(|| some_child(who));
                let mut contact = contact(spec, player, outcome_of(spec, outcome));
                contact.feed = main.feed;
                contact.group = player.and_then(|player| main.lineup.group_of(player));
                if spec.board == Board::Lanes {
                    contact.player = None;
                    contact.group = Some(GroupNo(who % spec.on_floor.groups.unwrap_or(1)));
                }
                // A clock that goes on with the balls, past the end of the time.
                let shown = u32::try_from(main.contacts.len()).unwrap_or(u32::MAX) * 4_000;
                contact.clock_ms = main.clock.was_set().then_some(shown);
                if matches!(spec.rule, Rule::Transition(_)) {
                    let next = main.transition().expect("a duel").next();
                    contact.turn = Some(next.turn);
                    contact.feed.kind = next.kind;
                    contact.server = (next.kind == FeedKind::Challenge).then(|| main.current(spec)).flatten();
                }
                Fact::ContactNoted { run, contact }
            }
            Act::Effort { who } => Fact::EffortNoted { run, player: Some(some_child(who)), kind: None },
            Act::Kind { which } => {
                let effort = main.efforts.get(usize::from(which) % main.efforts.len().max(1))?;
                let revision = self.run.amended.next_effort_revision(effort.id);
                let kind = Some(format!("kind {which}"));
                Fact::EffortCorrected { run, effort: effort.id, revision, player: effort.player, kind }
            }
            Act::Told { who, told_no, good } => Fact::CountTold {
                run,
                player: some_child(who),
                told_no: u16::from(told_no % 2),
                good: u16::from(good % 11),
                of: 10,
                good_from: spec.good_from,
                feed: spec.feed,
                self_scored: true,
            },
            Act::Correct { which, who, outcome } => {
                let had = main.contacts.get(usize::from(which) % main.contacts.len().max(1))?;
                let revision = self.run.amended.next_contact_revision(had.id);
                let (player, outcome) = (Some(some_child(who)), outcome_of(spec, outcome));
                let change = Correction { contact: had.id, revision, player, outcome, step: Step(who % 3) };
                Fact::ContactsCorrected { run, changes: vec![change] }
            }
            Act::Swap => Fact::LineupSet { run, lineup: main.lineup.slid(), cause: LineupCause::Swap },
            Act::Presence { who, here } => {
                let lineup = main.lineup.with_presence(some_child(who), here);
                Fact::LineupSet { run, lineup, cause: LineupCause::ByHand }
            }
            Act::Turn { who } => Fact::TurnGiven { run, player: some_child(who) },
            Act::Feed { step } => Fact::FeedSet { run, feed: Feed { kind: FeedKind::Easy, step: Step(step % 4) } },
            Act::Clock { shown } => {
                Fact::ClockSet { run, going: shown % 2 == 0, shown_ms: u32::from(shown) * 500 + 1, slept: false }
            }
            Act::GroupStep { who } => Fact::GroupStepSet { run, group: GroupNo(who % 4), step: Step(who % 5) },
            Act::Check { outcome } => {
                Fact::BallChecked { run, contact: main.contacts.last()?.id, outcome: outcome_of(spec, outcome) }
            }
            Act::Finish => Fact::RunFinished { run },
            Act::Undo => self.take(self.run.next_undo()?.id, true),
            Act::Take { which, back } => self.take(self.log[usize::from(which) % self.log.len()].id, back),
            Act::TakeOver { .. } => Fact::RunTakenOver { run, after: self.run.last_seen(), recorder: String::new() },
            Act::Unknown => Fact::Unknown { kind: "Newer".to_owned(), body: "{}".into() },
            Act::StaleTap { .. } => return None,
        })
    }

    fn take(&self, target: EntryId, back: bool) -> Fact {
        let revision = self.run.amended.next_take_back(target);
        Fact::EntryTakenBack { run: Some(self.run.id), target, revision, back }
    }
}

fn some_child(n: u8) -> PlayerId {
    child(usize::from(n) % N_CHILDREN)
}

fn outcome_of(spec: &DrillSpec, n: u8) -> Outcome {
    let (which, mark) = (usize::from(n / 2), n % 2 == 1);
    match (n % 16, &spec.skill) {
        (15, _) => Outcome::NoChance,
        _ if spec.board == Board::Lanes => Outcome::Counted,
        (14, Skill::Pass) if matches!(spec.rule, Rule::Transition(_)) => Outcome::ServeMissed,
        (_, Skill::Serve) => Outcome::Serve { outcome: ServeOutcome::ALL[which % 5], fast: mark },
        (_, Skill::Pass) => {
            let grade = PassGrade::ALL[which % 4];
            Outcome::Pass { grade, over_net: mark && grade == PassGrade::Gone }
        }
        (_, Skill::Own(_)) => Outcome::TwoKey { good: mark },
    }
}
