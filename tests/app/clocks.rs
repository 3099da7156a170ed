//! A run's clock that stands: no ball counts, on any board and for whoever scores; and what becomes of it when the run ends.

use peppertally::app::action::Action;
use peppertally::app::screen::Screen;
use peppertally::app::view::board::{Cover, StationKeys};
use peppertally::domain::drill::*;
use peppertally::domain::ids::{GroupNo, Place, RunId};
use peppertally::domain::run_clock::RunClock;
use peppertally::domain::skill::{GoodFrom, Outcome, PassGrade, Skill};

use super::phone::{Phone, pass};

const FIRST: &str = "Start the clock when they are ready.";
const PAUSE: &str = "A pause: no ball counts until the clock goes on.";
const GOOD: Action = Action::OutcomeTapped(Outcome::TwoKey { good: true });

fn timed(skill: Skill, board: Board, whose: Whose, groups: Option<u8>) -> (Phone, RunId) {
    let mut phone = Phone::with_squad("Mira\nTove\nOdile\nBram");
    let good_from = if skill == Skill::Pass { GoodFrom::Grade(PassGrade::Moved) } else { GoodFrom::GoodKey };
    phone.new_drill(DrillSpec {
        name: "On time".to_owned(),
        skill,
        board,
        rule: Rule::InTime(InTime { seconds: 600, whose }),
        good_from,
        feed: DrillSpec::EASY,
        on_floor: OnFloor { groups, ..OnFloor::default() },
    });
    let Screen::Run(run) = phone.model.screen else { panic!("no board: {:?}", phone.model.screen) };
    (phone, run)
}

fn setting() -> Skill {
    Skill::Own("Setting".to_owned())
}

fn n_contacts(phone: &Phone, run: RunId) -> usize {
    phone.model.runs[&run].main.contacts.len()
}

fn left(phone: &Phone) -> String {
    phone.board().clock.expect("a clock").left
}

/// One rule for every board: balls count while the clock goes.
#[test]
fn a_clock_that_stands_counts_nothing() {
    let line = Board::Line { order: LineOrder::InTurn };
    let boards = [
        (Skill::Pass, Board::Floor { n_places: 2 }, Whose::Child, None, Action::PlaceTapped(Place(0), pass(3))),
        (setting(), line, Whose::Child, None, GOOD),
        (setting(), Board::Propped { order: LineOrder::InTurn }, Whose::Child, None, GOOD),
        (setting(), Board::Group, Whose::Group, None, GOOD),
        (setting(), Board::Lanes, Whose::Group, Some(2), Action::LaneTapped(GroupNo(0))),
    ];
    for (skill, board, whose, groups, tap) in boards {
        let (mut phone, run) = timed(skill, board, whose, groups);
        let tapped = |phone: &mut Phone, said: Option<&str>, n: usize| {
            assert_eq!(phone.board().nobody, said.is_some(), "{board:?}");
            assert!(said.is_none_or(|said| phone.board().call == said), "{board:?}: {}", phone.board().call);
            phone.act(tap.clone());
            phone.act(Action::NoChanceTapped);
            assert_eq!(n_contacts(phone, run), n, "{board:?} {said:?}");
        };
        tapped(&mut phone, Some(FIRST), 0);
        phone.act(Action::ClockTapped);
        tapped(&mut phone, None, 2);
        phone.act(Action::ClockTapped);
        tapped(&mut phone, Some(PAUSE), 2);
        phone.act(Action::ClockTapped);
        tapped(&mut phone, None, 4);
    }
}

/// Handed out before the clock goes, or in a pause, the phone would swallow every ball: it isn't.
#[test]
fn no_station_while_the_clock_stands() {
    let (mut phone, run) = timed(setting(), Board::Lanes, Whose::Group, Some(2));
    let open = || Action::StationOpened(Some(GroupNo(0)));
    assert!(phone.board().has_stations, "the key stays where it is");
    phone.act(open());
    assert_eq!((phone.board().station, phone.board().call.as_str()), (None, FIRST));
    phone.act(Action::ClockTapped);
    phone.act(Action::ClockTapped);
    phone.act(open());
    assert_eq!((phone.board().station, phone.board().call.as_str()), (None, PAUSE));
    phone.act(Action::ClockTapped);
    phone.act(open());
    let station = phone.board().station.expect("a station");
    assert_eq!((station.keys, station.waits), (StationKeys::Lane(GroupNo(0)), false));
    phone.act(Action::LaneTapped(GroupNo(0)));
    assert_eq!(n_contacts(&phone, run), 1);
}

/// A clock that stands all the same (no tap at a station stops it): the children's keys rest, and they are told.
#[test]
fn a_station_whose_clock_stands_says_so() {
    let (mut phone, run) = timed(setting(), Board::Lanes, Whose::Group, Some(2));
    phone.act(Action::ClockTapped);
    phone.act(Action::StationOpened(Some(GroupNo(0))));
    phone.model.runs.get_mut(&run).expect("the run").main.clock = RunClock::default();
    assert!(phone.board().station.expect("a station").waits);
    phone.act(Action::LaneTapped(GroupNo(0)));
    assert_eq!(n_contacts(&phone, run), 0);
}

/// Finished by mistake: the clock is stopped with the run, and opened again it shows the time as it stood.
#[test]
fn a_finished_run_has_a_clock_that_stands() {
    let by_practice = |phone: &mut Phone| phone.end_practice();
    let ways: [fn(&mut Phone); 2] = [|phone| phone.act(Action::Finish), by_practice];
    for finish in ways {
        let (mut phone, run) = timed(setting(), Board::Group, Whose::Group, None);
        phone.act(Action::ClockTapped);
        phone.act(GOOD);
        let before = left(&phone);
        finish(&mut phone);
        phone.wait(300_000, 300_000);
        phone.act(Action::RunReopened(run));
        let clock = phone.board().clock.expect("a clock");
        assert!(!clock.going && clock.started);
        let seconds = |left: &str| {
            let (min, s) = left.split_once(':').expect("minutes and seconds");
            min.parse::<i32>().expect("minutes") * 60 + s.parse::<i32>().expect("seconds")
        };
        let gone = seconds(&before) - seconds(&left(&phone));
        // The tap itself and the answers of the storage, and not the five minutes.
        assert!((0..30).contains(&gone), "{before}, then {}", left(&phone));
        assert_eq!(phone.board().call, PAUSE);
        phone.act(Action::ClockTapped);
        phone.act(GOOD);
        assert_eq!(n_contacts(&phone, run), 2);
    }
}

/// Another go ends the run before, whose clock is stopped too.
#[test]
fn another_go_stops_the_clock() {
    let (mut phone, run) = timed(setting(), Board::Group, Whose::Group, None);
    phone.act(Action::ClockTapped);
    phone.act(Action::Again(run));
    assert!(!phone.model.runs[&run].main.clock.is_going());
    assert!(phone.model.runs[&run].main.finished);
}

/// Seconds left, as the board tells them.
fn left_s(phone: &Phone) -> i32 {
    let left = left(phone);
    let (min, s) = left.split_once(':').expect("minutes and seconds");
    60 * min.parse::<i32>().expect("minutes") + s.parse::<i32>().expect("seconds")
}

/// A wall clock that is put forward while the page is hidden looks like sleep, and a long one ends nothing: the clock stands as it was,
/// the coach is told why, and goes on with one tap. A new page finds it so too.
#[test]
fn a_long_sleep_ends_no_clock() {
    let slept = "The phone slept long: the clock stands. Tap to go on.";
    // An hour by somebody's hand, and three minutes asleep at the end of a clock.
    for (before_ms, ahead_ms) in [(60_000, 3_600_000), (500_000, 180_000)] {
        let (mut phone, run) = timed(setting(), Board::Group, Whose::Group, None);
        phone.act(Action::ClockTapped);
        phone.act(GOOD);
        phone.wait(before_ms, before_ms as i64);
        let before = left_s(&phone);
        phone.hide(5_000, ahead_ms);
        let gone = before - left_s(&phone);
        // The answers of the storage; not the five seconds, let alone the sleep.
        assert!((0..=3).contains(&gone), "{gone} s");
        phone.act(Action::Uncovered);
        let board = phone.board();
        assert!(!board.clock.as_ref().expect("a clock").going);
        assert_eq!((board.cover, board.call.as_str()), (None, slept));
        phone.act(GOOD);
        assert_eq!(n_contacts(&phone, run), 1, "a clock that stands counts nothing");
        let stands = left_s(&phone);
        // Undo is for the ball before the sleep; the stop was nobody's, and taken back it would end the run.
        phone.act(Action::UndoTapped);
        assert_eq!((n_contacts(&phone, run), left_s(&phone), phone.board().cover), (0, stands, None));
        phone.restart();
        assert_eq!((left_s(&phone), phone.board().call.as_str()), (stands, PAUSE), "a new page knows no more of why");
        phone.act(Action::ClockTapped);
        phone.act(GOOD);
        assert_eq!((n_contacts(&phone, run), phone.board().cover), (1, None));
        phone.act(Action::ClockTapped);
        assert_eq!(phone.board().call, PAUSE, "and this one is the coach's own");
    }
}

/// Told once: the next pause is the coach's own.
#[test]
fn the_sleep_is_told_until_the_clock_goes() {
    let (mut phone, _) = timed(setting(), Board::Group, Whose::Group, None);
    phone.act(Action::ClockTapped);
    phone.hide(0, 3_600_000);
    phone.act(Action::Uncovered);
    assert!(phone.board().call.starts_with("The phone slept"));
    phone.act(Action::ClockTapped);
    phone.act(Action::ClockTapped);
    assert_eq!(phone.board().call, PAUSE);
}

/// A short sleep goes on as if nobody had slept, over the end too; a long one that isn't the end as well.
#[test]
fn other_sleep_is_time_that_went_by() {
    let (mut phone, _) = timed(setting(), Board::Group, Whose::Group, None);
    phone.act(Action::ClockTapped);
    for ahead_ms in [100_000, 200_000] {
        let before = left_s(&phone);
        phone.hide(1_000, ahead_ms);
        let gone = before - left_s(&phone) - i32::try_from(ahead_ms / 1000).expect("small");
        assert!((1..=6).contains(&gone), "{gone} s beside the sleep");
        assert!(phone.board().clock.expect("a clock").going);
    }
    phone.wait(200_000, 200_000);
    phone.hide(1_000, 110_000);
    phone.act(Action::Uncovered);
    assert!(matches!(phone.board().cover, Some(Cover::Over { .. })), "{}", left(&phone));
}
