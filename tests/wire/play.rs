//! Samples of groups, games, clocks, stations and the rules that came with them. A frozen fixture holds exactly these.

use super::samples::{self, MIRA, ODILE, Pages, RUN, TOVE};
use peppertally::domain::drill::*;
use peppertally::domain::entry::{Contact, Entry, Fact, Lineup, LineupCause, Rally, Side, Wishes};
use peppertally::domain::ids::{DrillId, EntryId, GroupNo, PracticeId, RallyId, Revision, Step};
use peppertally::domain::skill::{FeedKind, GoodFrom, Outcome, Role, Skill};

const DRILL: DrillId = DrillId(EntryId::new(0x11, 4));
const PRACTICE: PracticeId = PracticeId(EntryId::new(0x11, 5));

pub fn entries() -> Vec<Entry> {
    let mut pages = Pages { entries: Vec::new(), clock: 300 };
    for (rule, at) in rules().into_iter().zip(0usize..) {
        let spec = DrillSpec { board: boards()[at % 5], rule, on_floor: on_floors()[at % 4], ..plain() };
        pages.note(Fact::DrillChanged { drill: DRILL, revision: Revision(1), spec: spec.clone() });
        pages.note(samples::run_started(Some(DRILL), spec));
    }
    squad(&mut pages);
    let groups = vec![vec![MIRA, TOVE], vec![ODILE], vec![]];
    let grouped = Lineup { waiting: vec![MIRA, ODILE, TOVE], groups: groups.clone(), ..Lineup::default() };
    let roles =
        Lineup { places: vec![Some(MIRA), None], target: Some(TOVE), getters: vec![ODILE], ..Lineup::default() };
    pages.note(Fact::GroupsMade { practice: PRACTICE, groups, by_hand: false });
    pages.note(Fact::GroupsMade { practice: PRACTICE, groups: vec![], by_hand: true });
    for lineup in [grouped, roles] {
        pages.note(Fact::LineupSet { run: RUN, lineup, cause: LineupCause::ByHand });
    }
    run(&mut pages);
    pages.entries
}

pub fn boards() -> [Board; 5] {
    [
        Board::Lanes,
        Board::Court,
        Board::Propped { order: LineOrder::TenForOne },
        Board::Line { order: LineOrder::TenForOne },
        Board::Propped { order: LineOrder::InTurn },
    ]
}

pub fn on_floors() -> [OnFloor; 4] {
    let none = OnFloor::default();
    [
        OnFloor { groups: Some(3), ..none },
        OnFloor { target: true, n_getters: 2, n_feeders: 1, swap: SwapEvery::Balls(10), ..none },
        OnFloor { swap: SwapEvery::Minutes(3), challenge: ChallengeBy::Distracted, ..none },
        none,
    ]
}

pub fn rules() -> Vec<Rule> {
    let stays = WinnersStay::default();
    vec![
        Rule::InRow(InRow { goal: Some(10), whose: Whose::Child, falls_to_five: true }),
        Rule::InRow(InRow { goal: None, whose: Whose::Group, falls_to_five: false }),
        Rule::Tens(Tens { n: 10 }),
        Rule::FirstTo(FirstTo { n: 10, by_two: true }),
        Rule::FirstTo(FirstTo { n: u16::MAX, by_two: false }),
        Rule::InTime(InTime { seconds: 90, whose: Whose::Group }),
        Rule::InTime(InTime { seconds: 1, whose: Whose::Child }),
        Rule::Together(Together { row: true, balls: None, to_beat: Some(31) }),
        Rule::Together(Together { row: false, balls: Some(60), to_beat: None }),
        Rule::WinnersStay(stays),
        Rule::WinnersStay(WinnersStay { off_after: Some(3), serves: Serves::LastWinner, second_serve: false, ..stays }),
        Rule::WinnersStay(WinnersStay { to: 5, near_only: false, serves: Serves::WinnersSide, paced: false, ..stays }),
        Rule::MatchGame(MatchGame::default()),
        Rule::MatchGame(MatchGame { to: 15, a_side: 3, serve_cap: Some(5), ..MatchGame::default() }),
    ]
}

fn plain() -> DrillSpec {
    DrillSpec {
        name: "Keep it up".into(),
        skill: Skill::Own("Setting".into()),
        board: Board::Group,
        rule: Rule::Tally { goal: None },
        good_from: GoodFrom::GoodKey,
        feed: DrillSpec::EASY,
        on_floor: OnFloor::default(),
    }
}

fn squad(pages: &mut Pages) {
    pages.note(Fact::StepNoted { player: MIRA, drill: DRILL, revision: Revision(2), step: Step(3) });
    let wishes = Wishes {
        together: vec![vec![MIRA, TOVE]],
        apart: vec![[MIRA, ODILE]],
        tag: "t\u{e5}ll".into(),
        tagged: vec![ODILE],
    };
    for wishes in [wishes, Wishes::default()] {
        pages.note(Fact::WishesChanged { revision: Revision(1), wishes });
    }
}

fn run(pages: &mut Pages) {
    let run = RUN;
    pages.note(Fact::GroupStepSet { run, group: GroupNo(1), step: Step(2) });
    pages.note(Fact::ClockSet { run, going: true, shown_ms: 0, slept: false });
    pages.note(Fact::ClockSet { run, going: false, shown_ms: u32::MAX, slept: false });
    pages.note(Fact::StationSet { run, open: true, group: Some(GroupNo(0)), check: false });
    pages.note(Fact::StationSet { run, open: false, group: None, check: false });
    for (at, outcome) in [Outcome::Counted, Outcome::TwoKey { good: true }, Outcome::NoChance].into_iter().enumerate() {
        let contact = Contact {
            player: (at > 0).then_some(TOVE),
            role: Role::Doer,
            place: None,
            outcome,
            good_from: GoodFrom::GoodKey,
            feed: peppertally::domain::skill::Feed { kind: FeedKind::Challenge, step: Step(1) },
            style: None,
            turn: None,
            server: None,
            self_scored: at == 1,
            group: Some(GroupNo(if at == 2 { u8::MAX } else { 0 })),
            clock_ms: [Some(0), None, Some(u32::MAX)][at],
            watched: at == 2,
        };
        pages.note(Fact::ContactNoted { run, contact });
    }
    let rally =
        Rally { near: vec![MIRA], far: vec![TOVE, ODILE], served: Side::Far, won: Side::Near, second_serve: false };
    let other = Rally { near: vec![], far: vec![], served: Side::Near, won: Side::Far, second_serve: true };
    for rally in [rally, other] {
        let id = RallyId(pages.note(Fact::RallyNoted { run, rally }).id);
        pages.note(Fact::RallyCorrected { run, rally: id, revision: Revision(1), won: Side::Far });
    }
}
