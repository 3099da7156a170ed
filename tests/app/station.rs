//! Children score themselves: a double tap is one, undo is the last tap's alone, every such contact is marked, and nothing but the
//! coach's hold leads away.

use peppertally::app::action::Action;
use peppertally::app::effect::{LockState, Report};
use peppertally::app::screen::Screen;
use peppertally::app::view::board::{Cover, StationKeys, StationView, stations};
use peppertally::app::view::report::{contacts, run_report};
use peppertally::domain::drill::{Board, DrillSpec, LineOrder, OnFloor, Rule};
use peppertally::domain::ids::{GroupNo, Place, RunId};
use peppertally::domain::skill::{GoodFrom, Outcome, ServeOutcome, Skill};

use super::phone::{Phone, pass};
use super::steps::{group, group_named, on_board};

const SQUAD: &str = "Mira\nTove\nOdile\nBram\nIva\nLasse";
const GOOD: Action = Action::OutcomeTapped(Outcome::TwoKey { good: true });
const NOT: Action = Action::OutcomeTapped(Outcome::TwoKey { good: false });

/// Setting, one after another, with the phone handed to all.
fn at_station() -> Phone {
    let mut phone = on_board(SQUAD, 6, |spec| spec);
    phone.act(Action::StationOpened(None));
    phone
}

fn run_of(phone: &Phone) -> RunId {
    let Screen::Run(run) = phone.model.screen else { panic!("no board: {:?}", phone.model.screen) };
    run
}

fn shown(phone: &Phone) -> StationView {
    phone.board().station.expect("a station")
}

/// Whose turn it is, and that child's balls in words.
fn turn(phone: &Phone) -> (String, String) {
    let view = shown(phone);
    (view.turn, view.played)
}

fn is(name: &str, played: &str) -> (String, String) {
    (name.to_owned(), played.to_owned())
}

fn n_contacts(phone: &Phone) -> usize {
    phone.model.runs[&run_of(phone)].main.contacts.len()
}

#[test]
fn each_ball_is_its_childs_and_marked_as_self_scored() {
    let mut phone = on_board(SQUAD, 6, |spec| spec);
    phone.act(GOOD);
    phone.act(Action::StationOpened(None));
    assert_eq!(turn(&phone), is("Tove", "your first ball"));
    phone.act(NOT);
    phone.act(GOOD);
    let mira = phone.player("Mira");
    phone.act(Action::NameTapped(mira));
    assert_eq!(turn(&phone), is("Mira", "1 ball played"));
    phone.act(GOOD);
    phone.act(Action::NameTapped(mira));
    assert_eq!(turn(&phone), is("Mira", "2 balls played"));
    let run = run_of(&phone);
    let marked: Vec<bool> = phone.model.runs[&run].main.contacts.iter().map(|c| c.contact.self_scored).collect();
    assert_eq!(marked, [false, true, true, true]);
    phone.act(Action::StationLeft);
    assert_eq!(phone.board().station, None);
    phone.act(GOOD);
    assert!(!phone.model.runs[&run].main.contacts.last().expect("a contact").contact.self_scored);

    // The reports say so, and for ever: after a restart and packed as well.
    phone.act(Action::Go(Screen::Contacts(run)));
    let rows = contacts(&phone.model, run).expect("contacts").rows;
    let marks: Vec<Option<&str>> = rows.iter().rev().map(|row| row.feed.as_deref()).collect();
    assert_eq!(marks, [None, Some("self-scored"), Some("self-scored"), Some("self-scored"), None]);
    let report = run_report(&phone.model, run).expect("a report");
    assert_eq!(report.self_scored.as_deref(), Some("3 of these balls were scored by the children themselves."));
    let more: Vec<_> = report.sections[0].rows.iter().map(|row| (row.name.as_str(), row.more.as_deref())).collect();
    // Mira: one seen by the coach, one of her own, and the last by the coach again.
    assert_eq!(
        more,
        [
            ("Mira", Some("1 of 1 self-scored")),
            ("Tove", Some("0 of 1 self-scored")),
            ("Odile", Some("1 of 1 self-scored"))
        ]
    );
}

#[test]
fn a_double_tap_is_one() {
    let mut phone = at_station();
    phone.act_after(2_000, GOOD);
    phone.act_after(349, GOOD);
    assert_eq!(n_contacts(&phone), 1);
    // Drumming on is one tap too.
    phone.act_after(349, GOOD);
    assert_eq!(n_contacts(&phone), 1);
    phone.act_after(350, GOOD);
    assert_eq!(n_contacts(&phone), 2);
    // Another key is another tap.
    phone.act_after(100, NOT);
    assert_eq!(n_contacts(&phone), 3);
    // The coach taps as fast as she likes.
    phone.act(Action::StationLeft);
    phone.act_after(100, GOOD);
    phone.act_after(100, GOOD);
    assert_eq!(n_contacts(&phone), 5);
}

#[test]
fn a_child_undoes_its_last_tap_only() {
    let mut phone = on_board(SQUAD, 6, |spec| spec);
    phone.act(GOOD);
    phone.act(Action::StationOpened(None));
    assert_eq!(shown(&phone).undo, None, "the coach's ball is nobody's to undo");
    phone.act(Action::UndoTapped);
    assert_eq!(n_contacts(&phone), 1);
    phone.act(NOT);
    phone.act(NOT);
    assert_eq!(shown(&phone).undo.as_deref(), Some("Undo my last (Odile)"));
    phone.act(Action::UndoTapped);
    assert_eq!((n_contacts(&phone), turn(&phone).0.as_str()), (2, "Odile"));
    // Not twice in a row: the ball before was Tove's.
    assert_eq!(shown(&phone).undo, None);
    phone.act(Action::UndoTapped);
    assert_eq!(n_contacts(&phone), 2);
    // Nor after the page was loaded again.
    phone.restart();
    assert_eq!(shown(&phone).undo, None);
    phone.act(Action::UndoTapped);
    assert_eq!(n_contacts(&phone), 2);
    phone.act(GOOD);
    assert_eq!(shown(&phone).undo.as_deref(), Some("Undo my last (Odile)"));
    // Once another has tapped its name, the ball before is past.
    let iva = phone.player("Iva");
    phone.act(Action::NameTapped(iva));
    assert_eq!(shown(&phone).undo, None);
    phone.act(Action::UndoTapped);
    assert_eq!((n_contacts(&phone), turn(&phone).0.as_str()), (3, "Iva"));
    // The coach has the whole way back.
    phone.act(Action::StationLeft);
    for _ in 0..4 {
        phone.act(Action::UndoTapped);
    }
    assert_eq!((n_contacts(&phone), phone.board().undo), (0, None));
}

#[test]
fn nothing_but_the_coachs_hold_leads_away() {
    let mut phone = at_station();
    let run = run_of(&phone);
    let drill = phone.model.base.drills()[0].0;
    let practice = phone.model.practice_today().expect("a practice").id;
    phone.act(GOOD);
    let before = phone.db.len();
    let refused = [
        Action::Go(Screen::Today),
        Action::Go(Screen::Contacts(run)),
        Action::Finish,
        Action::DrillTapped(drill),
        Action::PracticeEnded(practice),
        Action::PlayOn,
        Action::ChallengeTapped,
        Action::EffortTapped,
        Action::NoChanceTapped,
        Action::PlaceTapped(Place(0), pass(3)),
        Action::EraseSure,
        Action::StationOpened(Some(GroupNo(0))),
    ];
    for action in refused {
        phone.act(action.clone());
        assert_eq!(phone.model.screen, Screen::Run(run), "{action:?}");
    }
    for address in ["#today", "#squad", "#after", "#phone", "", "#nonsense"] {
        phone.report(Report::Address(address.to_owned()));
        assert_eq!(phone.model.screen, Screen::Run(run), "{address}");
    }
    assert_eq!(phone.db.len(), before, "nothing was written");
    assert!(!phone.model.runs[&run].main.finished);
    phone.act(Action::StationLeft);
    phone.act(Action::Go(Screen::Today));
    assert_eq!(phone.model.screen, Screen::Today);
}

/// Killed, loaded again, at whatever address: it is the station again, and it goes on.
#[test]
fn it_survives_a_restart() {
    let mut phone = at_station();
    phone.act(GOOD);
    phone.restart();
    assert_eq!(turn(&phone), is("Tove", "your first ball"));
    phone.act(GOOD);
    phone.restart_elsewhere();
    assert_eq!(turn(&phone), is("Odile", "your first ball"));
    phone.act(NOT);
    assert_eq!(n_contacts(&phone), 3);
    phone.restart_asking();
    assert_eq!(phone.board().cover, Some(Cover::Asking));
    phone.act(Action::Go(Screen::Today));
    phone.report(Report::Lock(LockState::Held));
    assert_eq!((turn(&phone).0.as_str(), phone.board().cover), ("Bram", None));
    phone.act(Action::StationLeft);
    phone.restart();
    assert_eq!(phone.board().station, None);
    phone.act(Action::Finish);
    assert!(matches!(phone.model.screen, Screen::RunReport(_)));
}

/// Another window of the phone is not held: there the coach finds the ways out.
#[test]
fn another_window_is_not_held() {
    let first = at_station();
    let mut second = first.second_window();
    second.act(Action::Go(Screen::Squad));
    assert_eq!(second.model.screen, Screen::Squad);
}

/// Covered after a while, and anyone may uncover it.
#[test]
fn anyone_uncovers_it() {
    let mut phone = at_station();
    for _ in 0..25 {
        phone.report(Report::Ticked);
    }
    assert_eq!(phone.board().cover, Some(Cover::Pocket));
    phone.act(GOOD);
    assert_eq!(n_contacts(&phone), 0);
    phone.act(Action::Uncovered);
    phone.act(GOOD);
    assert_eq!(n_contacts(&phone), 1);
}

/// One group's station: its children alone, in their order.
#[test]
fn one_group_has_it() {
    let grouped = |spec: DrillSpec| DrillSpec { on_floor: OnFloor { groups: Some(2), ..OnFloor::default() }, ..spec };
    let mut phone = on_board(SQUAD, 6, grouped);
    let offered: Vec<String> = stations(&phone.model, run_of(&phone)).into_iter().map(|(_, name)| name).collect();
    let named = [0, 1].map(|at| format!("Group {} ({})", at + 1, group_named(&phone, at)));
    assert_eq!(offered, ["All of them", &named[0], &named[1]]);
    let (own, other) = (group(&phone, 1), group(&phone, 0)[0]);
    // The line is in the order of the squad.
    let own: Vec<String> =
        phone.model.squad().iter().filter(|p| own.contains(&p.id)).map(|p| phone.model.name_of(p.id)).collect();
    phone.act(Action::StationOpened(Some(GroupNo(1))));
    let names: Vec<String> = shown(&phone).names.into_iter().map(|n| n.name).collect();
    assert_eq!(names, own);
    assert_eq!(shown(&phone).group.as_deref(), Some("Group 2"));
    for _ in 0..4 {
        phone.act(GOOD);
    }
    assert_eq!(turn(&phone), is(&own[1], "1 ball played"));
    // A name of another group isn't among them.
    phone.act(Action::NameTapped(other));
    assert_eq!(turn(&phone).0, own[1]);
}

/// Groups on a board of their own: a station is one group's key, and the board without names marks whose balls they are.
#[test]
fn lanes_and_balls_without_names() {
    let lanes = |spec: DrillSpec| DrillSpec {
        board: Board::Lanes,
        on_floor: OnFloor { groups: Some(3), ..OnFloor::default() },
        ..spec
    };
    let mut phone = on_board(SQUAD, 7, lanes);
    assert_eq!(stations(&phone.model, run_of(&phone)).len(), 3, "no lane is everybody's");
    phone.act(Action::StationOpened(Some(GroupNo(1))));
    assert_eq!(shown(&phone).keys, StationKeys::Lane(GroupNo(1)));
    phone.act(Action::LaneTapped(GroupNo(1)));
    phone.act(Action::LaneTapped(GroupNo(0)));
    assert_eq!((n_contacts(&phone), shown(&phone).played.as_str()), (1, "1 good one together"));
    phone.act(Action::UndoTapped);
    assert_eq!(n_contacts(&phone), 0);

    let mut phone =
        on_board(SQUAD, 7, |spec| DrillSpec { on_floor: OnFloor { groups: Some(2), ..OnFloor::default() }, ..spec });
    phone.act(Action::StationOpened(Some(GroupNo(1))));
    phone.act(NOT);
    let run = run_of(&phone);
    assert_eq!(phone.model.runs[&run].main.contacts[0].contact.group, Some(GroupNo(1)));
    assert_eq!((turn(&phone).0.as_str(), shown(&phone).names.len()), ("All together", 0));
}

/// A serve is in, long, wide or in the net; nobody judges its own swing. Boards that need the coach don't offer it.
#[test]
fn what_children_can_score() {
    let mut phone = on_board(SQUAD, 3, |spec| DrillSpec { good_from: GoodFrom::ServeIn, ..spec });
    phone.act(Action::StationOpened(None));
    let StationKeys::Outcomes(keys) = shown(&phone).keys else { panic!("outcomes") };
    assert_eq!(keys.iter().map(|key| key.word).collect::<Vec<_>>(), ["in", "long", "wide", "net"]);
    phone.act(Action::OutcomeTapped(Outcome::Serve { outcome: ServeOutcome::Long, fast: false }));
    assert_eq!(n_contacts(&phone), 1);
    for (index, offered) in [(0, false), (1, false), (2, true), (3, true), (4, true), (5, false), (6, true), (7, true)]
    {
        let mut phone = Phone::with_squad(SQUAD);
        phone.drill(index);
        assert_eq!(phone.board().has_stations, offered, "drill {index}");
        let before = phone.db.len();
        phone.act(Action::StationOpened(None));
        assert_eq!(phone.db.len() > before, offered, "drill {index}");
    }
}

/// The rule has had its fill: the children are told to bring the phone back, and who has it is the coach's to say.
#[test]
fn over_is_said_without_a_name() {
    use peppertally::domain::rule::Together;
    let rule = Rule::Together(Together { row: false, balls: Some(2), to_beat: None });
    let mut phone = on_board(SQUAD, 6, |spec| DrillSpec { skill: Skill::Own("Setting".to_owned()), rule, ..spec });
    phone.act(Action::StationOpened(None));
    phone.act(GOOD);
    assert!(!shown(&phone).done);
    phone.act(NOT);
    assert!(shown(&phone).done);
    assert_eq!(phone.board().cover, None);
    phone.act(Action::StationLeft);
    assert!(matches!(phone.board().cover, Some(Cover::Over { .. })));
}

/// Ten for one: whom the coach knows least comes first, in memory and packed, and what children score themselves is no sample.
#[test]
fn the_least_known_is_watched_first() {
    let ten = |spec: DrillSpec| DrillSpec { board: Board::Line { order: LineOrder::TenForOne }, ..spec };
    let mut phone = on_board(SQUAD, 2, ten);
    let three = || Action::OutcomeTapped(pass(3));
    assert_eq!((phone.current().as_str(), phone.board().call.as_str()), ("Mira", "Watch Mira: 0 of 10"));
    for _ in 0..10 {
        phone.act(three());
    }
    assert_eq!((phone.current().as_str(), phone.board().call.as_str()), ("Tove", "Watch Tove: 0 of 10"));
    // Left before her ten: she stays less known than Mira.
    phone.act(three());
    phone.act(Action::NoChanceTapped);
    assert_eq!(phone.board().call, "Watch Tove: 1 of 10");
    let iva = phone.player("Iva");
    phone.act(Action::NameTapped(iva));
    phone.act(three());
    phone.act(Action::StationOpened(None));
    let lasse = phone.player("Lasse");
    phone.act(Action::NameTapped(lasse));
    phone.act(three());
    phone.act(Action::StationLeft);
    let run = run_of(&phone);
    let report = run_report(&phone.model, run).expect("a report");
    let more = |name: &str| report.sections[0].rows.iter().find(|r| r.name == name).and_then(|r| r.more.clone());
    assert_eq!(more("Mira").as_deref(), Some("10 of 10 while watched"));
    assert_eq!(more("Lasse").as_deref(), Some("1 of 1 self-scored"));

    // Never watched: Odile, Bram, Lasse. Then one ball each, Tove and Iva; then Mira.
    let order = |phone: &Phone| {
        let run = &phone.model.runs[&run_of(phone)];
        run.main.lineup.waiting.iter().map(|p| phone.model.name_of(*p)).collect::<Vec<_>>().join(" ")
    };
    phone.act(Action::Finish);
    phone.act(Action::Go(Screen::Today));
    phone.drill(2);
    assert_eq!(order(&phone), "Odile Bram Lasse Tove Iva Mira");
    phone.act(three());
    // The next day, with that practice packed and only its summary in memory.
    phone.end_practice();
    phone.act(Action::Go(Screen::Today));
    phone.restart();
    assert!(phone.model.packed.values().any(|p| !p.read), "packed");
    phone.next_day();
    phone.drill(2);
    // Odile has one ball now, later than Tove's and Iva's.
    assert_eq!(order(&phone), "Bram Lasse Tove Iva Odile Mira");
    // In another skill nobody is known yet.
    let serving = phone.model.base.drills().into_iter().map(|(id, s)| (id, s.clone())).nth(3).expect("serving");
    phone.act(Action::Go(Screen::Drill(Some(serving.0))));
    let board = Board::ServeLine { order: LineOrder::TenForOne, receiver: false };
    phone.act(Action::DrillDrafted(DrillSpec { board, ..serving.1 }));
    phone.act(Action::DrillKept);
    phone.drill(3);
    assert_eq!(order(&phone), "Mira Tove Odile Bram Iva Lasse");
}

/// Another window began a run of its own since: a page that is loaded again is the children's all the same.
#[test]
fn two_open_runs_lead_to_the_station() {
    let first = at_station();
    let station = run_of(&first);
    let mut second = first.second_window();
    second.act(Action::Go(Screen::Today));
    second.drill(0);
    assert_ne!(run_of(&second), station);
    second.restart();
    assert_eq!(run_of(&second), station);
    second.restart_elsewhere();
    assert_eq!(run_of(&second), station);
}

/// A second window gets the lock when the first is gone: it is the children's from then on, and their keys answer.
#[test]
fn a_window_that_gets_the_lock_is_the_station() {
    let first = at_station();
    let mut second = first.second_window();
    second.act(Action::Go(Screen::Today));
    assert_eq!(second.model.screen, Screen::Today);
    second.report(Report::Lock(LockState::Held));
    assert_eq!(second.model.screen, Screen::Run(run_of(&first)));
    second.act(GOOD);
    assert_eq!(n_contacts(&second), 1);
}

/// Found by a first-time coach: who has had its ten sees so, and whose turn is next; never how many were good.
#[test]
fn who_has_had_its_ten_sees_so() {
    let mut phone = on_board("Mira\nTove", 6, |spec| spec);
    phone.act(Action::StationOpened(None));
    (0..18).for_each(|_| phone.act(GOOD));
    assert_eq!((shown(&phone).ten, shown(&phone).turn.as_str()), (None, "Mira"));
    phone.act(NOT);
    assert_eq!((shown(&phone).ten.as_deref(), shown(&phone).turn.as_str()), (Some("Mira: 10 done"), "Tove"));
    phone.act(GOOD);
    assert_eq!((shown(&phone).ten.as_deref(), shown(&phone).turn.as_str()), (Some("Tove: 10 done"), "Mira"));
    phone.restart();
    assert_eq!(shown(&phone).ten.as_deref(), Some("Tove: 10 done"));
    phone.act(GOOD);
    assert_eq!(shown(&phone).ten, None);
}

/// Found in review: there nobody is watched, so the ten balls were never full and the same child stayed on.
#[test]
fn ten_balls_of_one_child_go_on_in_turn_at_a_station() {
    let ten = Board::Line { order: LineOrder::TenForOne };
    let mut phone = on_board(SQUAD, 6, |spec| DrillSpec { board: ten, ..spec });
    phone.act(GOOD);
    phone.act(Action::StationOpened(None));
    let mut turns = Vec::new();
    for _ in 0..6 {
        turns.push(turn(&phone).0);
        phone.act(GOOD);
    }
    assert_eq!(turns, ["Tove", "Odile", "Bram", "Iva", "Lasse", "Mira"]);
    // The coach has it back, and watches the child who was on last from her first ball.
    phone.act(Action::StationLeft);
    assert_eq!(phone.board().call, "Watch Mira: 0 of 10");
}
