//! Two children of one name: told apart on every screen, and the preview of the list says how.

use peppertally::app::action::Action;
use peppertally::app::names::{Child, told_apart};
use peppertally::app::screen::Screen;
use peppertally::app::view::board::Keys;
use peppertally::app::view::report::{contacts, practice_report, run_report};
use peppertally::app::view::squad::{LineView, roster, squad};
use peppertally::app::view::today::today;
use peppertally::domain::ids::{Place, ShirtNumber};

use super::phone::{Phone, pass};

/// One child a word: `Mira/7`, `-Mira/7` for an archived one, a name with spaces with `_`. The names on screen, with `, ` between.
fn check(squad: &str, shown: &str) {
    let children: Vec<(String, Option<ShirtNumber>, bool)> = squad
        .split(' ')
        .map(|word| {
            let (name, number) = word.split_once('/').map_or((word, None), |(name, n)| (name, n.parse().ok()));
            (name.trim_start_matches('-').replace('_', " "), number.map(ShirtNumber), name.starts_with('-'))
        })
        .collect();
    let children: Vec<Child> =
        children.iter().map(|(name, number, archived)| Child { name, number: *number, archived: *archived }).collect();
    assert_eq!(told_apart(&children).join(", "), shown, "{squad}");
}

#[test]
fn names_are_told_apart() {
    check("Mira/7 Tove/9", "Mira, Tove");
    check("Mira/7 Tove Mira/9", "Mira 7, Tove, Mira 9");
    check("Mira Mira Mira", "Mira, Mira II, Mira III");
    check("Mira/7 Mira", "Mira 7, Mira");
    check("Mira/7 Mira/7", "Mira 7, Mira 7 II");
    // As a reader would: capitals don't matter, nor how an accent is written; another accent does.
    check("MIRA/7 mira/9", "MIRA 7, mira 9");
    check("José/7 Jose\u{301}/9 Jose/5", "José 7, Jose\u{301} 9, Jose");
    // Another child's own name is nobody's sign.
    check("Mira/7 Mira/9 Mira_7/3", "Mira 7 II, Mira 9, Mira 7");
    // Who is archived gives way, and nobody's sign changes when another leaves.
    check("-Mira/7 Mira/9", "Mira 7 (archived), Mira");
    check("-Mira Mira Mira", "Mira (archived), Mira II, Mira III");
    check("-Mira Mira", "Mira (archived), Mira");
    // Short enough that the sign is still on the key.
    check("Maximiliane-Luise/7 Maximiliane-Luise/9", "Maximilian… 7, Maximilian… 9");
    check("Anna_Maria_Luise/7 Anna_Maria_Luise/9", "Anna Maria… 7, Anna Maria… 9");
    check("Maximiliane-Luise/7", "Maximiliane-Luise");
    check("Maximiliane-Luise Maximiliane-Luise", "Maximiliane-Luise, Maximilian… II");
}

const SQUAD: &str = "7 Mira\nTove\n9 Mira\nBram\nTove\nIva";

/// Every place of the app layer that says a name says it in the one way.
#[test]
fn two_of_a_name_on_every_screen() {
    let mut phone = Phone::with_squad(SQUAD);
    let labels: Vec<String> = today(&phone.model).children.into_iter().map(|c| c.label).collect();
    assert_eq!(labels, ["Mira 7", "Tove", "Mira 9", "Bram", "Tove II", "Iva"]);
    // The squad shows the shirt beside the name.
    let rows: Vec<(String, Option<String>)> =
        squad(&phone.model).active.into_iter().map(|c| (c.name, c.number)).take(5).collect();
    let row = |name: &str, number: Option<&str>| (name.to_owned(), number.map(str::to_owned));
    assert_eq!(
        rows,
        [row("Mira", Some("7")), row("Tove", None), row("Mira", Some("9")), row("Bram", None), row("Tove II", None)]
    );
    phone.drill(0);
    phone.act(Action::PlaceTapped(Place(2), pass(3)));
    phone.act(Action::EffortTapped);
    let board = phone.board();
    let Keys::Floor { columns, .. } = board.keys else { panic!("floor") };
    assert_eq!(columns.iter().map(|c| c.name.as_str()).collect::<Vec<_>>(), ["Mira 7", "Tove", "Mira 9"]);
    assert_eq!(board.effort.expect("a strip").line, "Effort noticed: Mira 9");
    assert_eq!(board.undo.as_deref(), Some("Mira 9, effort, just now"));
    phone.act(Action::Finish);
    let Screen::RunReport(run) = phone.model.screen else { panic!("report") };
    let report = run_report(&phone.model, run).expect("a report");
    assert_eq!((report.sections[0].rows[0].name.as_str(), report.efforts[0].name.as_str()), ("Mira 9", "Mira 9"));
    assert_eq!(contacts(&phone.model, run).expect("a list").rows[0].who, "Mira 9");
    // A duel, where one of them may serve while the other passes.
    phone.drill(1);
    for place in [0, 1, 2, 0] {
        phone.act(Action::PlaceTapped(Place(place), pass(3)));
    }
    let duel = phone.board().duel.expect("a duel");
    assert_eq!(duel.server.as_deref(), Some("Bram serves"));
    assert_eq!(duel.servers_here.iter().map(|k| k.name.as_str()).collect::<Vec<_>>(), ["Bram", "Tove II", "Iva"]);
    // Told counts and serves.
    phone.drill(5);
    let Keys::Told { rows, .. } = phone.board().keys else { panic!("told") };
    assert_eq!(rows.iter().map(|r| r.name.as_str()).take(3).collect::<Vec<_>>(), ["Mira 7", "Tove", "Mira 9"]);
    phone.drill(3);
    assert_eq!(phone.current(), "Mira 7");
    let practice = phone.model.practice_today().expect("a practice").id;
    let away = phone.model.squad()[2].id;
    phone.act(Action::PresenceTapped(away));
    assert_eq!(
        practice_report(&phone.model, practice).expect("a report").presence,
        "Everyone was here. Went early: Mira 9."
    );
    // Once one of them is archived, the other needs no sign; what was counted is still told apart.
    phone.act(Action::ChildArchived(away, true));
    assert_eq!(today(&phone.model).children[0].label, "Mira");
    let report = run_report(&phone.model, run).expect("a report");
    assert_eq!(report.sections[0].rows[0].name, "Mira 9 (archived)");
    let before = today(&phone.model).children;
    phone.restart();
    assert_eq!(today(&phone.model).children, before, "the same after opening");
}

/// The preview says how two of a name will be told apart, also from those who are in the squad already.
#[test]
fn the_preview_says_how() {
    let notes = |phone: &Phone| -> Vec<Option<String>> {
        let note = |read| if let LineView::Child { note, .. } = read { note } else { None };
        roster(&phone.model).lines.into_iter().map(|line| note(line.read)).collect()
    };
    let said = |name: &str| Some(format!("two of this name: shown as “{name}”"));
    let mut phone = Phone::new();
    phone.act(Action::RosterTyped("7 Mira\nTove\n9 mira\nBram".to_owned()));
    assert_eq!(notes(&phone), [said("Mira 7"), None, said("mira 9"), None]);
    phone.act(Action::RosterTaken);
    phone.act(Action::RosterTyped("Tove\n4 Bram\n4 Iva".to_owned()));
    assert_eq!(notes(&phone), [said("Tove II"), said("Bram 4"), Some("same number as line 2".to_owned())]);
}
