//! Roles on the floor and refit, through the app: fair turns, who comes and goes, and the children and balls there are.

use super::groups::{ELEVEN, floor_with, kept, lanes, race, tap, view};
use super::phone::{Phone, pass};
use peppertally::app::action::Action;
use peppertally::app::effect::Report;
use peppertally::app::groups::{GroupsTap, standing};
use peppertally::app::screen::Screen;
use peppertally::app::view::{report, today};
use peppertally::domain::drill::{Board, LineOrder, OnFloor, SwapEvery};
use peppertally::domain::ids::{GroupNo, Place};
use peppertally::domain::turns::Slot;

/// "Eleven came, eight balls": lanes of three groups; with two balls there are two.
#[test]
fn one_tap_refits_the_run_that_is_on() {
    let mut phone = Phone::with_squad(&format!("{ELEVEN}\nPelle"));
    let drill = kept(&mut phone, lanes);
    phone.drill(drill);
    let Screen::Run(run) = phone.model.screen else { panic!("a run") };
    phone.act(Action::LaneTapped(GroupNo(0)));
    let pelle = phone.player("Pelle");
    phone.act(Action::PresenceTapped(pelle));
    for _ in 0..4 {
        tap(&mut phone, GroupsTap::BallsStepped(false));
    }
    tap(&mut phone, GroupsTap::Refit);
    let said = phone.model.drafts.groups.said.clone();
    assert_eq!(said.as_deref(), Some("Eleven children, eight balls: three groups of 4, 4, 3."));
    let sizes = |phone: &Phone| -> Vec<usize> {
        let mut sizes: Vec<usize> = phone.model.runs[&run].main.lineup.groups.iter().map(Vec::len).collect();
        sizes.sort_unstable_by(|a, b| b.cmp(a));
        sizes
    };
    assert_eq!(sizes(&phone), [4, 4, 3]);
    for _ in 0..6 {
        tap(&mut phone, GroupsTap::BallsStepped(false));
    }
    tap(&mut phone, GroupsTap::Refit);
    assert_eq!(sizes(&phone), [6, 5]);
    assert_eq!(phone.board().figures.n_good, 1, "no ball is lost");
    phone.act(Action::UndoTapped);
    assert_eq!(sizes(&phone), [4, 4, 3]);
}

/// One tosses, one catches, one fetches; after five balls everyone moves on, and undoing the fifth ball undoes that too.
#[test]
fn roles_swap_after_so_many_balls() {
    let on_floor =
        OnFloor { target: true, n_getters: 1, n_feeders: 1, swap: SwapEvery::Balls(5), ..OnFloor::default() };
    let mut phone = Phone::with_squad(ELEVEN);
    let drill = kept(&mut phone, floor_with(on_floor));
    phone.drill(drill);
    let Screen::Run(run) = phone.model.screen else { panic!("a run") };
    let lineup = |phone: &Phone| phone.model.runs[&run].main.lineup.clone();
    assert_eq!(phone.board().roles.as_deref(), Some("Bram tosses, Iva catches, Lasse fetches"));
    let first = lineup(&phone);
    // Eleven, six of them at work: five rest, and who is told to come on is who does.
    let next_on = phone.board().next_on.expect("five rest");
    let coming =
        ["Swap in 5 balls.", "Swap in 4 balls.", "Swap in 3 balls.", "Swap in 2 balls.", "Swap after this ball."];
    for n in 1..=5 {
        assert_eq!(lineup(&phone), first, "before ball {n}");
        assert_eq!(phone.board().swap_in.as_deref(), Some(coming[n - 1]));
        phone.act(Action::PlaceTapped(Place(1), pass(3)));
    }
    let second = lineup(&phone);
    assert_ne!(second, first);
    let came_on = first.waiting.iter().filter(|p| !second.waiting.contains(p)).map(|p| phone.model.name_of(*p));
    assert_eq!(next_on, format!("Next on: {}.", came_on.collect::<Vec<_>>().join(", ")));
    assert_eq!(next_on, "Next on: Runa, Silje, Jonne, Veda, Ilka.");
    phone.act(Action::UndoTapped);
    assert_eq!(lineup(&phone), first);
    assert_eq!(phone.board().figures.of, "good of 4");
    phone.act(Action::PlaceTapped(Place(1), pass(0)));
    assert_eq!(lineup(&phone), second);
    phone.restart();
    assert_eq!(lineup(&phone), second);
    phone.act(Action::PlaceTapped(Place(0), pass(3)));
    // The ball before the swap is taken back from the list: they stand where they stand, since play has gone on.
    let last_of_turn = phone.model.runs[&run].main.contacts[4].id;
    phone.act(Action::ContactTakenBack(last_of_turn));
    assert_eq!(lineup(&phone), second);
    phone.act(Action::Finish);
    let report = report::run_report(&phone.model, run).expect("a report");
    let touches = report.touches.expect("touches");
    let of = |name: &str| touches.rows.iter().find(|r| r.name == name).map(|r| r.what.as_str());
    // Four balls of the first turn: Tove passed all, Bram tossed all, Iva caught all four (grade 3).
    assert_eq!(of("Tove"), Some("4 judged"));
    assert!(of("Bram").is_some_and(|what| what.contains("4 served or tossed")), "{touches:?}");
    assert!(of("Iva").is_some_and(|what| what.contains("4 caught")), "{touches:?}");
}

/// Passers alone who change places: no line of roles is there, so the call tells of the swap when it is near.
#[test]
fn the_call_tells_of_a_swap_that_is_near() {
    let mut phone = Phone::with_squad(ELEVEN);
    let drill = kept(&mut phone, floor_with(OnFloor { swap: SwapEvery::Balls(4), ..OnFloor::default() }));
    phone.drill(drill);
    let mut calls = Vec::new();
    for _ in 0..5 {
        calls.push(phone.board().call);
        phone.act(Action::PlaceTapped(Place(1), pass(3)));
    }
    let plain = "How far did the target move?";
    assert_eq!(calls, [plain, plain, "Swap in 2 balls.", "Swap after this ball.", plain]);
}

/// By minutes too, but never by time alone: the first ball after the time is the last of the turn.
#[test]
fn roles_swap_at_the_first_ball_after_the_minutes() {
    let on_floor = OnFloor { n_feeders: 1, swap: SwapEvery::Minutes(1), ..OnFloor::default() };
    let mut phone = Phone::with_squad(ELEVEN);
    let drill = kept(&mut phone, floor_with(on_floor));
    phone.drill(drill);
    let Screen::Run(run) = phone.model.screen else { panic!("a run") };
    let first = phone.model.runs[&run].main.lineup.clone();
    let mut first_ms = None;
    loop {
        phone.act(Action::PlaceTapped(Place(0), pass(2)));
        let now = &phone.model.runs[&run].main;
        let last_ms = now.contacts.last().expect("a ball").at.mono_ms;
        let lasted_ms = last_ms - *first_ms.get_or_insert(last_ms);
        assert_eq!(now.lineup != first, lasted_ms >= 60_000, "{lasted_ms} ms after the first ball");
        if lasted_ms >= 60_000 {
            break;
        }
        // Time alone moves nobody.
        phone.report(Report::Ticked);
        assert_eq!(phone.model.runs[&run].main.lineup, first);
    }
}

/// A long sleep, which may be a wall clock that was put forward, is no part of a turn that it would end; a short one is.
#[test]
fn a_long_sleep_ends_no_turn() {
    let on_floor = OnFloor { n_feeders: 1, swap: SwapEvery::Minutes(3), ..OnFloor::default() };
    for (ahead_ms, swaps) in [(3_600_000, false), (119_000, true)] {
        let mut phone = Phone::with_squad(ELEVEN);
        let drill = kept(&mut phone, floor_with(on_floor));
        phone.drill(drill);
        let Screen::Run(run) = phone.model.screen else { panic!("a run") };
        let lineup = |phone: &Phone| phone.model.runs[&run].main.lineup.clone();
        let first = lineup(&phone);
        phone.act(Action::PlaceTapped(Place(0), pass(2)));
        phone.wait(60_000, 60_000);
        phone.hide(0, ahead_ms);
        phone.act(Action::Uncovered);
        phone.act(Action::PlaceTapped(Place(0), pass(2)));
        assert_eq!(lineup(&phone) != first, swaps, "{ahead_ms} ms");
        phone.wait(120_000, 120_000);
        phone.act(Action::Uncovered);
        phone.act(Action::PlaceTapped(Place(0), pass(2)));
        assert_ne!(lineup(&phone), first, "time that nobody slept through is");
    }
}

/// Found in review: a drill changed from the floor to a line kept its roles, and three children never had a turn.
#[test]
fn a_drill_that_leaves_the_floor_leaves_its_roles_there() {
    let on_floor = OnFloor { target: true, n_getters: 2, swap: SwapEvery::Balls(10), ..OnFloor::default() };
    let mut phone = Phone::with_squad(ELEVEN);
    let drill = kept(&mut phone, floor_with(on_floor));
    let id = today::today(&phone.model).drills[drill].drill;
    phone.act(Action::Go(Screen::Drill(Some(id))));
    let mut spec = phone.model.drafts.drill.clone().expect("a draft").spec;
    assert_eq!(spec.on_floor, on_floor);
    spec.board = Board::Line { order: LineOrder::InTurn };
    phone.act(Action::DrillDrafted(spec));
    phone.act(Action::DrillKept);
    assert_eq!(phone.model.base.drill(id).expect("the drill").on_floor, OnFloor::default());
    phone.drill(drill);
    let mut had_one = Vec::new();
    for _ in 0..11 {
        had_one.push(phone.current());
        phone.act(Action::OutcomeTapped(pass(2)));
    }
    had_one.sort_unstable();
    had_one.dedup();
    assert_eq!(had_one.len(), 11, "everyone has a turn");
}

/// Found in review: who went after a swap had been fitted into the places after it, yet the swap was taken for undone with its ball,
/// and the turn before it for not played.
#[test]
fn a_turn_after_which_somebody_went_is_counted() {
    let on_floor = OnFloor { n_feeders: 1, swap: SwapEvery::Balls(2), ..OnFloor::default() };
    let mut phone = Phone::with_squad(ELEVEN);
    let drill = kept(&mut phone, floor_with(on_floor));
    phone.drill(drill);
    let Screen::Run(run) = phone.model.screen else { panic!("a run") };
    let first = phone.model.runs[&run].main.lineup.clone();
    for _ in 0..2 {
        phone.act(Action::PlaceTapped(Place(0), pass(2)));
    }
    let gone = *first.waiting.last().expect("one who waits");
    phone.act(Action::PresenceTapped(gone));
    let second = phone.model.runs[&run].main.lineup.clone();
    let ball = phone.model.runs[&run].main.contacts[1].id;
    phone.act(Action::ContactTakenBack(ball));
    let main = &phone.model.runs[&run].main;
    assert_eq!(main.lineup, second, "they stand where they stand");
    let passed = first.at(Place(0)).expect("a passer");
    assert_eq!(main.turns.had(passed, Some(Slot(0))), 1, "and the turn before is counted");
}

/// Points belong to the groups that made them: neither refitting nor new groups deal these anew, and the screen says why.
#[test]
fn groups_stay_once_a_ball_is_scored_for_them() {
    let mut phone = Phone::with_squad(&format!("{ELEVEN}\nPelle"));
    let drill = kept(&mut phone, race);
    phone.drill(drill);
    let Screen::Run(run) = phone.model.screen else { panic!("a run") };
    let groups = |phone: &Phone| phone.model.runs[&run].main.lineup.groups.clone();
    let first = groups(&phone);
    // Before the first ball they may change: two balls, two groups.
    for _ in 0..10 {
        tap(&mut phone, GroupsTap::BallsStepped(false));
    }
    tap(&mut phone, GroupsTap::Refit);
    assert_eq!(groups(&phone).len(), 2);
    phone.act(Action::Go(Screen::Run(run)));
    phone.act(Action::UndoTapped);
    assert_eq!(groups(&phone), first);
    phone.act(Action::LaneTapped(GroupNo(2)));
    let pelle = phone.player("Pelle");
    phone.act(Action::PresenceTapped(pelle));
    let now = groups(&phone);
    tap(&mut phone, GroupsTap::Refit);
    assert_eq!(groups(&phone), now, "who is here stays in its group");
    let said = view(&phone).said.expect("a sentence");
    let why = "This run is scored for its groups already, so they stay: new ones are for the next run.";
    assert!(said.ends_with(why), "{said}");
    tap(&mut phone, GroupsTap::Made);
    tap(&mut phone, GroupsTap::InThisDrill);
    assert_eq!(groups(&phone), now);
    assert_eq!(view(&phone).said.as_deref(), Some(why));
    phone.act(Action::Go(Screen::Run(run)));
    phone.act(Action::UndoTapped);
    phone.act(Action::UndoTapped);
    assert_eq!(phone.board().figures.n_good, 0);
    tap(&mut phone, GroupsTap::Refit);
    assert_eq!(groups(&phone).len(), 2, "no ball is counted any more");
}

/// Found in review: undo took back the run's groups, and those of the practice stayed.
#[test]
fn undoing_a_refit_undoes_the_groups_of_the_practice_too() {
    let mut phone = Phone::with_squad(ELEVEN);
    let drill = kept(&mut phone, lanes);
    phone.act(Action::Go(Screen::Groups));
    tap(&mut phone, GroupsTap::Made);
    phone.drill(drill);
    let Screen::Run(run) = phone.model.screen else { panic!("a run") };
    let made = standing(&phone.model);
    for _ in 0..10 {
        tap(&mut phone, GroupsTap::BallsStepped(false));
    }
    tap(&mut phone, GroupsTap::Refit);
    let refit = standing(&phone.model);
    assert_eq!((refit.len(), &phone.model.runs[&run].main.lineup.groups), (2, &refit));
    phone.act(Action::Go(Screen::Run(run)));
    phone.act(Action::UndoTapped);
    assert_eq!(phone.model.runs[&run].main.lineup.groups, made);
    assert_eq!(standing(&phone.model), made);
    // Nobody ever stood in the groups that were undone: they are no round.
    phone.act(Action::Go(Screen::Groups));
    assert_eq!(view(&phone).told, "Sizes 4, 4, 3.");
    phone.restart();
    assert_eq!((standing(&phone.model), &phone.model.runs[&run].main.lineup.groups), (made.clone(), &made));
    // What was made since is not undone with it.
    phone.act(Action::Go(Screen::Groups));
    tap(&mut phone, GroupsTap::Refit);
    tap(&mut phone, GroupsTap::Made);
    let newest = standing(&phone.model);
    phone.act(Action::Go(Screen::Run(run)));
    phone.act(Action::UndoTapped);
    assert_eq!((standing(&phone.model), &phone.model.runs[&run].main.lineup.groups), (newest, &made));
}
