//! A drill laid out for the children and balls there are: a table worked by hand.

use peppertally::domain::drill::{Board, DrillSpec, LineOrder, MatchGame, OnFloor, Rule, WinnersStay};
use peppertally::domain::entry::Lineup;
use peppertally::domain::ids::{EntryId, PlayerId};
use peppertally::domain::refit::{Fit, refit};

fn drill(board: Board, on_floor: OnFloor) -> DrillSpec {
    let spec = DrillSpec::starters(|i| format!("drill {i}")).remove(0);
    DrillSpec { board, on_floor, rule: Rule::Tally { goal: None }, ..spec }
}

fn groups(n: u8) -> OnFloor {
    OnFloor { groups: Some(n), ..OnFloor::default() }
}

#[test]
fn groups_have_a_ball_and_two_children_each() {
    // Children, balls, groups wanted; the sizes.
    let table: &[(usize, usize, u8, &[usize])] = &[
        (11, 8, 3, &[4, 4, 3]), // "eleven came, eight balls"
        (12, 8, 3, &[4, 4, 4]),
        (11, 2, 3, &[6, 5]), // a ball for two groups only
        (11, 1, 3, &[11]),   // one ball: one group
        (5, 8, 3, &[3, 2]),  // three groups would leave one child alone
        (4, 8, 4, &[2, 2]),
        (3, 8, 2, &[3]),
        (1, 8, 2, &[1]),
        (20, 30, 4, &[5, 5, 5, 5]),
        (7, 8, 3, &[3, 2, 2]),
    ];
    for (children, balls, wanted, sizes) in table {
        let fit = refit(&drill(Board::Lanes, groups(*wanted)), *children, *balls);
        assert_eq!(fit.sizes, *sizes, "{children} children, {balls} balls, {wanted} groups");
    }
    assert_eq!(refit(&drill(Board::Lanes, groups(3)), 0, 8), Fit::default(), "nobody");
}

#[test]
fn with_few_children_roles_go_from_the_last() {
    let on_floor = OnFloor { target: true, n_getters: 2, n_feeders: 1, ..OnFloor::default() };
    let spec = drill(Board::Floor { n_places: 3 }, on_floor);
    // Children; places, feeders, target, getters, resting.
    let table = [
        (0, 0, 0, false, 0, 0),
        (1, 1, 0, false, 0, 0),
        (3, 3, 0, false, 0, 0),
        (4, 3, 1, false, 0, 0),
        (5, 3, 1, true, 0, 0),
        (6, 3, 1, true, 1, 0),
        (7, 3, 1, true, 2, 0),
        (11, 3, 1, true, 2, 4),
    ];
    for (n, places, feeders, target, getters, resting) in table {
        let fit = Fit { sizes: Vec::new(), places, feeders, target, getters, resting };
        assert_eq!(refit(&spec, n, 8), fit, "{n} children");
    }
}

/// Teams of three, to the nearest number, and always two; one ball is enough.
#[test]
fn a_game_makes_teams_by_their_size() {
    let spec = DrillSpec {
        board: Board::Court,
        rule: Rule::WinnersStay(WinnersStay::default()),
        ..drill(Board::Court, OnFloor::default())
    };
    for (n, sizes) in [(11, vec![3, 3, 3, 2]), (12, vec![3, 3, 3, 3]), (10, vec![4, 3, 3]), (4, vec![2, 2])] {
        assert_eq!(refit(&spec, n, 1).sizes, sizes, "{n} children");
    }
}

/// Found in review: roles left over from the floor took children out of a line's turns.
#[test]
fn roles_stand_on_the_floor_alone() {
    let on_floor = OnFloor { target: true, n_getters: 2, n_feeders: 1, ..OnFloor::default() };
    let here: Vec<PlayerId> = (0..8).map(|no| PlayerId(EntryId::new(7, no))).collect();
    let line = Board::Line { order: LineOrder::Stays };
    for board in [line, Board::Group, Board::Lanes, Board::Propped { order: LineOrder::InTurn }] {
        let spec = drill(board, on_floor);
        let lineup = Lineup::opening(&spec, &here, &[]);
        assert_eq!(lineup, Lineup { waiting: here.clone(), ..Lineup::default() }, "{board:?}");
        assert_eq!(refit(&spec, 8, 8), Fit { resting: 8, ..Fit::default() }, "{board:?}");
    }
    // On the floor they are filled: 3 pass, 1 tosses, 1 catches, 2 fetch, 1 rests.
    let lineup = Lineup::opening(&drill(Board::Floor { n_places: 3 }, on_floor), &here, &[]);
    assert_eq!((lineup.servers.len(), lineup.target, lineup.getters.len()), (1, Some(here[4]), 2));
    assert_eq!(lineup.waiting, [here[7]]);
}

/// Found in review: a refit game had other teams than one that starts. Three children play two against one; seven in pairs are
/// 2, 2, 2 and one who waits for the next to come.
#[test]
fn a_refit_game_has_the_sizes_it_starts_with() {
    let stay = |a_side| Rule::WinnersStay(WinnersStay { a_side, ..WinnersStay::default() });
    let game = |rule| DrillSpec { rule, ..drill(Board::Court, OnFloor::default()) };
    // Children, a side; the sizes.
    let table: &[(usize, u8, &[usize])] = &[
        (0, 3, &[]),
        (1, 3, &[1, 0]),
        (2, 3, &[1, 1]),
        (3, 3, &[2, 1]),
        (4, 3, &[2, 2]),
        (7, 2, &[2, 2, 2, 1]),
        (10, 3, &[4, 3, 3]),
    ];
    for (n, a_side, sizes) in table {
        assert_eq!(refit(&game(stay(*a_side)), *n, 1).sizes, *sizes, "{n} children, {a_side} a side");
    }
    let match_game = Rule::MatchGame(MatchGame::default());
    for (n, sizes) in [(1, vec![1, 0]), (3, vec![2, 1]), (11, vec![6, 5])] {
        assert_eq!(refit(&game(match_game), n, 1).sizes, sizes, "{n} children");
    }
}
