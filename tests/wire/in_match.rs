//! Samples of a match whose serves and passes are noted, and of what is said of a serve. A frozen fixture holds exactly these.

use super::samples::{self, MIRA, ODILE, Pages, RUN, TOVE};
use peppertally::domain::drill::{Board, DrillSpec, MatchGame, OnFloor, Rule};
use peppertally::domain::entry::{Contact, Entry, Fact, Rally, Said, Side};
use peppertally::domain::ids::{GroupNo, Place};
use peppertally::domain::skill::{GoodFrom, Outcome, PassGrade, Role, ServeOutcome, ServeStyle, Skill};

pub fn entries() -> Vec<Entry> {
    let mut pages = Pages { entries: Vec::new(), clock: 500 };
    for rule in rules() {
        let spec = DrillSpec {
            name: "Match game".into(),
            skill: Skill::Own("Playing".into()),
            board: Board::Court,
            rule,
            good_from: GoodFrom::GoodKey,
            feed: DrillSpec::EASY,
            on_floor: OnFloor::default(),
        };
        pages.note(samples::run_started(None, spec));
    }
    for what in [Said::OtherSide, Said::Second] {
        for on in [true, false] {
            pages.note(Fact::ServeSaid { run: RUN, what, on });
        }
    }
    rally(&mut pages);
    pages.entries
}

pub fn rules() -> [Rule; 2] {
    [
        Rule::MatchGame(MatchGame { a_side: 3, serves: true, ..MatchGame::default() }),
        Rule::MatchGame(MatchGame { to: 99, serves: true, passes: true, ..MatchGame::default() }),
    ]
}

fn rally(pages: &mut Pages) {
    let serve = Contact {
        player: Some(MIRA),
        role: Role::Server,
        place: Some(Place(0)),
        outcome: Outcome::Serve { outcome: ServeOutcome::In, fast: false },
        good_from: GoodFrom::ServeIn,
        feed: DrillSpec::EASY,
        style: Some(ServeStyle::Underhand),
        turn: None,
        server: None,
        self_scored: false,
        group: Some(GroupNo(0)),
        clock_ms: None,
        watched: false,
    };
    let pass = Contact {
        player: Some(TOVE),
        role: Role::Passer,
        place: Some(Place(5)),
        outcome: Outcome::Pass { grade: PassGrade::Moved, over_net: false },
        good_from: GoodFrom::Grade(PassGrade::Moved),
        style: None,
        server: Some(MIRA),
        group: Some(GroupNo(1)),
        ..serve.clone()
    };
    let won =
        Rally { near: vec![MIRA, ODILE], far: vec![TOVE], served: Side::Near, won: Side::Far, second_serve: false };
    pages.note(Fact::ContactNoted { run: RUN, contact: serve });
    pages.note(Fact::TurnGiven { run: RUN, player: TOVE });
    pages.note(Fact::ContactNoted { run: RUN, contact: pass });
    pages.note(Fact::RallyNoted { run: RUN, rally: won });
}
