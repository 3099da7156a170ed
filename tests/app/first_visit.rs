//! What a coach meets in the first hour: the form of a drill, lists that agree with their figures, advice that fits.

use peppertally::app::action::Action;
use peppertally::app::screen::Screen;
use peppertally::app::view::report::{contacts, run_report};
use peppertally::app::view::share::install;
use peppertally::app::view::today::{self, NoticeKind, Picture};
use peppertally::domain::drill::{Board, DrillSpec, LineOrder};
use peppertally::domain::ids::Place;
use peppertally::domain::skill::{GoodFrom, Outcome, Skill};

use super::phone::{Phone, pass};

const SQUAD: &str = "Mira\nTove\nOdile\nBram\nIva";

/// The draft of a new drill with this name and, for another skill, what it is called.
fn drafted(name: &str, skill: Option<&str>) -> Phone {
    let mut phone = Phone::with_squad(SQUAD);
    phone.act(Action::Go(Screen::Drill(None)));
    let spec = today::drill(&phone.model).spec;
    assert_eq!(spec.name, "", "nothing stands where the coach types");
    let spec = match skill {
        Some(skill) => DrillSpec {
            name: name.to_owned(),
            skill: Skill::Own(skill.to_owned()),
            board: Board::Line { order: LineOrder::InTurn },
            good_from: GoodFrom::GoodKey,
            ..spec
        },
        None => DrillSpec { name: name.to_owned(), ..spec },
    };
    phone.act(Action::DrillDrafted(spec));
    phone
}

/// A name left empty is the skill's; a skill without one is asked for by the field's own words.
#[test]
fn a_drill_is_named() {
    for (name, skill, hint, kept) in [
        ("", None, "Passing", Some("Passing")),
        ("Hands up", None, "Passing", Some("Hands up")),
        ("", Some("Hands up"), "Hands up", Some("Hands up")),
        ("Hands up", Some(""), "", None),
        ("", Some(" "), "", None),
    ] {
        let mut phone = drafted(name, skill);
        let view = today::drill(&phone.model);
        assert_eq!(view.name_hint, hint);
        let fault = kept.is_none().then_some("Say what is practised: “What you call this skill” is still empty.");
        assert_eq!(view.fault.as_deref(), fault, "{name} {skill:?}");
        phone.act(Action::DrillKept);
        let last = today::today(&phone.model).drills.pop().expect("drills");
        assert_eq!(last.kept.then_some(last.name.as_str()), kept);
    }
}

/// After keeping, the screen leads to that drill, once.
#[test]
fn a_kept_drill_is_led_to() {
    let mut phone = drafted("Hands up", None);
    phone.act(Action::DrillKept);
    let kept = |phone: &Phone| -> Vec<String> {
        today::today(&phone.model).drills.into_iter().filter(|d| d.kept).map(|d| d.name).collect()
    };
    assert_eq!(kept(&phone), ["Hands up"]);
    phone.act(Action::Go(Screen::Squad));
    phone.act(Action::Go(Screen::Today));
    assert!(kept(&phone).is_empty());
    let second = today::today(&phone.model).drills[1].drill;
    phone.act(Action::Go(Screen::Drill(Some(second))));
    phone.act(Action::DrillKept);
    assert_eq!(kept(&phone), ["Easy balls, then a challenge"]);
}

/// What a drill card says before the first tap, and that no two kinds of serving look the same.
#[test]
fn drill_cards_are_plain() {
    let drills = today::today(&Phone::with_squad(SQUAD).model).drills;
    assert_eq!(drills[0].how, "good if stood or moved, reach 30");
    assert_eq!((drills[3].picture, drills[4].picture), (Picture::ServeLine, Picture::Serve));
}

/// The last number of the list is the number of the figures: what is nobody's try has none.
#[test]
fn numbers_agree_with_the_figures() {
    let mut phone = Phone::with_squad(SQUAD);
    phone.drill(0);
    phone.act(Action::PlaceTapped(Place(0), pass(3)));
    phone.act(Action::NoChanceTapped);
    phone.act(Action::PlaceTapped(Place(1), pass(0)));
    assert_eq!(phone.board().figures.of, "good of 2");
    phone.act(Action::Finish);
    let Screen::RunReport(run) = phone.model.screen else { panic!("report") };
    let list = contacts(&phone.model, run).expect("a list");
    let numbers: Vec<Option<&str>> = list.rows.iter().map(|r| r.no.as_deref()).collect();
    assert_eq!((numbers, list.unnumbered), (vec![Some("2"), None, Some("1")], true));
    let line = |phone: &mut Phone, i: usize| {
        phone.act(Action::ContactChosen(Some(list.rows[i].contact)));
        contacts(&phone.model, run).and_then(|v| v.fix).expect("a sheet").line
    };
    assert_eq!(line(&mut phone, 0), "Ball 2: Tove, gone 0");
    assert_eq!(line(&mut phone, 1), "nobody named, no chance");
}

/// The group keeps the ball up: its report says the longest row, its board its name once.
#[test]
fn the_group_is_told_its_row() {
    let mut phone = Phone::with_squad(SQUAD);
    phone.drill(7);
    let board = phone.board();
    assert_eq!((board.title.as_str(), board.call.as_str()), ("Keep it off the floor", "Good or not?"));
    for good in [true, true, true, false, true] {
        phone.act(Action::OutcomeTapped(Outcome::TwoKey { good }));
    }
    phone.act(Action::Finish);
    let Screen::RunReport(run) = phone.model.screen else { panic!("report") };
    assert_eq!(run_report(&phone.model, run).expect("a report").row.as_deref(), Some("3 in a row"));
    phone.drill(0);
    phone.act(Action::PlaceTapped(Place(0), pass(3)));
    phone.act(Action::PlaceTapped(Place(0), pass(3)));
    phone.act(Action::Finish);
    let Screen::RunReport(run) = phone.model.screen else { panic!("report") };
    let report = run_report(&phone.model, run).expect("a report");
    assert_eq!((report.row, report.sections[0].rows[0].row.as_deref()), (None, Some("2 in a row")));
}

/// A drill that was opened and left without a tap is not among what was done.
#[test]
fn an_unused_drill_is_not_told_of() {
    let mut phone = Phone::with_squad(SQUAD);
    let so_far = |phone: &Phone| today::today(&phone.model).open.map_or(0, |open| open.runs.len());
    phone.drill(0);
    assert_eq!(so_far(&phone), 1, "it is on");
    phone.act(Action::Finish);
    assert_eq!(so_far(&phone), 0);
    phone.drill(0);
    phone.act(Action::EffortTapped);
    phone.act(Action::Finish);
    assert_eq!(so_far(&phone), 1);
}

/// A day is named once.
#[test]
fn a_practice_left_open_is_named_by_its_day() {
    let mut phone = Phone::with_squad(SQUAD);
    phone.drill(0);
    phone.act(Action::PlaceTapped(Place(0), pass(3)));
    phone.next_day();
    let left = today::today(&phone.model).notices.into_iter().find(|n| matches!(n.kind, NoticeKind::LeftOpen(_)));
    assert_eq!(left.expect("a notice").text, "The practice of Sunday 29 November was never ended.");
}

/// The advice to install comes first; where names are typed already it says how they come along.
#[test]
fn install_advice_fits_what_is_there() {
    let advice = |phone: &Phone| {
        let notice = today::today(&phone.model).notices.into_iter().find(|n| n.kind == NoticeKind::Install);
        (install(&phone.model).typed, notice.expect("a notice").text.contains("come along in a copy"))
    };
    let mut phone = Phone::new();
    assert_eq!(advice(&phone), (false, false));
    phone.act(Action::RosterTyped(SQUAD.to_owned()));
    phone.act(Action::RosterTaken);
    assert_eq!(advice(&phone), (true, true));
}
