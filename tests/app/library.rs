//! The library: read when wanted, searched, narrowed, taken from; and the coach's own drills beside it.

use peppertally::app::action::Action;
use peppertally::app::effect::{Effect, Report};
use peppertally::app::library::LibraryTap;
use peppertally::app::screen::Screen;
use peppertally::app::view::library::{LibraryView, MyDrillsView, library, library_drill, my_drills, page_of_form};
use peppertally::app::view::{library as view, today};
use peppertally::app::words::library as words;
use peppertally::domain::drill::{DrillSpec, MAX_NAME, Rule};
use peppertally::domain::ids::DrillId;
use peppertally::domain::library::{Have, LibraryNo};

use super::phone::Phone;
use super::steps::{practised, take_in};

const SQUAD: &str = "7 Mira\n9 Tove\n11 Odile\n4 Bram\n5 Iva\n6 Lasse\n8 Juno\n10 Pepe";

/// What `public/library.json` holds: here the file is part of the test.
const FILE: &str = include_str!("../../public/library.json");

fn with_library() -> Phone {
    let mut phone = Phone::with_squad(SQUAD);
    phone.act(Action::Go(Screen::Library));
    assert_eq!(library(&phone.model), LibraryView::Reading);
    assert_eq!(phone.effects.iter().filter(|e| **e == Effect::ReadLibrary).count(), 1);
    phone.report(Report::Library(Some(FILE.to_owned())));
    phone
}

fn tap(phone: &mut Phone, tap: LibraryTap) {
    phone.act(Action::Library(tap));
}

/// What is found, and how it is told.
fn found(phone: &Phone) -> (Vec<String>, String) {
    let LibraryView::Read { seek, shelves } = library(&phone.model) else { panic!("not read") };
    (shelves.into_iter().flat_map(|shelf| shelf.cards).map(|card| card.name).collect(), seek.count)
}

/// Taps an answer by its key, as it stands on screen.
fn pick(phone: &mut Phone, key: &str) {
    let LibraryView::Read { seek, .. } = library(&phone.model) else { panic!("not read") };
    let picks = seek.focus.into_iter().chain(seek.rows.into_iter().flat_map(|row| row.picks));
    let next = picks.into_iter().find(|pick| pick.key == key).unwrap_or_else(|| panic!("{key}")).next;
    tap(phone, LibraryTap::Have(next));
}

fn drills(phone: &Phone) -> Vec<(DrillId, String)> {
    today::today(&phone.model).drills.into_iter().map(|card| (card.drill, card.name)).collect()
}

#[test]
fn every_word_that_is_looked_for_must_be_there() {
    let mut phone = with_library();
    assert_eq!(found(&phone).1, "30 drills");
    tap(&mut phone, LibraryTap::Typed("  TOSS drop ".to_owned()));
    assert_eq!(found(&phone), (vec!["Toss and let it drop".to_owned()], "1 of 30 drills".to_owned()));
    // The serve's style is not in the drill's name, nor on the card of one that is for any serve.
    tap(&mut phone, LibraryTap::Typed("JUMP".to_owned()));
    assert_eq!(found(&phone).1, "4 of 30 drills");
    tap(&mut phone, LibraryTap::Typed("jump advanced".to_owned()));
    assert_eq!(found(&phone).0, ["Jump from the inside out"]);
    tap(&mut phone, LibraryTap::Typed("zebra".to_owned()));
    assert_eq!(found(&phone), (Vec::new(), "0 of 30 drills".to_owned()));
    tap(&mut phone, LibraryTap::Cleared);
    assert_eq!(found(&phone).1, "30 drills");
}

/// Each answer narrows, a second tap takes it back; the way to a page and back keeps what was chosen.
#[test]
fn what_the_coach_has_narrows_the_list() {
    let mut phone = with_library();
    pick(&mut phone, "pick.setting");
    assert_eq!(found(&phone).0, ["Two, one, none", "Three touches, one row", "Run in and set"]);
    pick(&mut phone, "pick.net.without");
    assert_eq!(found(&phone).0, ["Two, one, none"]);
    // Three children share a ball: eight who are here need three.
    pick(&mut phone, "pick.children.8");
    pick(&mut phone, "pick.balls.2");
    assert_eq!(found(&phone).0, Vec::<String>::new());
    pick(&mut phone, "pick.balls.4");
    assert_eq!(found(&phone).0, ["Two, one, none"]);
    pick(&mut phone, "pick.minutes.5");
    assert_eq!(found(&phone).0, Vec::<String>::new());
    pick(&mut phone, "pick.minutes.5");
    phone.act(Action::Go(Screen::LibraryDrill(LibraryNo(21))));
    phone.act(Action::Go(Screen::Library));
    let LibraryView::Read { seek, .. } = library(&phone.model) else { panic!("not read") };
    assert_eq!(seek.have.as_deref(), Some("8 children, 4 balls, no net"));
    assert!(seek.narrowed);
    let here = &seek.rows[0].picks[0];
    assert_eq!((here.label.as_str(), here.on), ("8 here", true));
}

/// Taken once it is the coach's, whole; a second time adds nothing, and one put away comes back.
#[test]
fn a_drill_is_taken_once() {
    let mut phone = with_library();
    let n_before = drills(&phone).len();
    let no = LibraryNo(6);
    assert_eq!(library_drill(&phone.model, no).unwrap().mine, None);
    tap(&mut phone, LibraryTap::Taken(no));
    let (id, name) = drills(&phone)[n_before].clone();
    assert_eq!(name, "Down the row");
    assert_eq!(library_drill(&phone.model, no).unwrap().mine, Some(id));
    tap(&mut phone, LibraryTap::Taken(no));
    assert_eq!(drills(&phone).len(), n_before + 1);
    tap(&mut phone, LibraryTap::PutAway(id, true));
    assert_eq!(library_drill(&phone.model, no).unwrap().mine, None);
    tap(&mut phone, LibraryTap::Taken(no));
    assert_eq!(drills(&phone).last(), Some(&(id, "Down the row".to_owned())));
    // It survives the page.
    phone.restart();
    assert_eq!(drills(&phone).last(), Some(&(id, "Down the row".to_owned())));
}

/// One tap: taken, started, and its board is there as the library has it.
#[test]
fn a_drill_is_started_from_its_page() {
    let mut phone = with_library();
    phone.drill(0);
    let page = library_drill(&phone.model, LibraryNo(13)).unwrap();
    assert!(page.can_start && page.practice_on);
    tap(&mut phone, LibraryTap::Started(LibraryNo(13)));
    assert!(matches!(phone.model.screen, Screen::Run(_)));
    let run = phone.model.run_on().expect("a run");
    let peppertally::app::library::Shelf::Read(all) = &phone.model.shelf else { panic!("not read") };
    assert_eq!(run.spec, all.drill(LibraryNo(13)).unwrap().spec);
    // Every drill of it opens a board.
    for no in 1..=30 {
        tap(&mut phone, LibraryTap::Started(LibraryNo(no)));
        phone.board();
    }
    // Nobody to start it with.
    let mut phone = Phone::with_squad("");
    phone.act(Action::Go(Screen::Library));
    phone.report(Report::Library(Some(FILE.to_owned())));
    assert!(!library_drill(&phone.model, LibraryNo(1)).expect("a page").can_start);
}

/// The page is found again from the coach's drill while it keeps its name or everything else.
#[test]
fn a_drill_that_was_taken_leads_to_its_page() {
    let mut phone = with_library();
    tap(&mut phone, LibraryTap::Taken(LibraryNo(6)));
    let id = drills(&phone).last().expect("a drill").0;
    let spec = phone.model.base.drill(id).unwrap().clone();
    let keep = |phone: &mut Phone, spec: DrillSpec| {
        phone.act(Action::Go(Screen::Drill(Some(id))));
        phone.act(Action::DrillDrafted(spec));
        phone.act(Action::DrillKept);
        phone.act(Action::Go(Screen::Drill(Some(id))));
        page_of_form(&phone.model)
    };
    let named = DrillSpec { name: "Our row".to_owned(), ..spec.clone() };
    let changed = DrillSpec { rule: Rule::Tally { goal: Some(12) }, ..spec.clone() };
    assert_eq!(keep(&mut phone, named.clone()), Some(LibraryNo(6)));
    assert_eq!(keep(&mut phone, changed.clone()), Some(LibraryNo(6)));
    assert_eq!(keep(&mut phone, DrillSpec { name: named.name, ..changed }), None, "both: it is the coach's own");
}

#[test]
fn a_drill_is_copied_put_away_and_brought_back() {
    let mut phone = with_library();
    let (id, name) = drills(&phone)[0].clone();
    tap(&mut phone, LibraryTap::Copied(id));
    assert_eq!(phone.model.screen, Screen::Drill(None));
    phone.act(Action::DrillKept);
    let all = drills(&phone);
    assert_eq!(all.last().unwrap().1, words::copy_of(&name));
    assert_ne!(all.last().unwrap().0, id);
    phone.act(Action::Go(Screen::MyDrills));
    let names = |view: &MyDrillsView| (view.drills.len(), view.away.iter().map(|d| d.name.clone()).collect::<Vec<_>>());
    tap(&mut phone, LibraryTap::PutAway(id, true));
    assert_eq!(phone.model.screen, Screen::MyDrills, "the list stays");
    assert_eq!(names(&my_drills(&phone.model)), (all.len() - 1, vec![name.clone()]));
    tap(&mut phone, LibraryTap::PutAway(id, false));
    assert_eq!(names(&my_drills(&phone.model)), (all.len(), Vec::new()));
    assert_eq!(drills(&phone)[0], (id, name), "where it was");
}

/// However long the name is, the copy is told apart and can be kept.
#[test]
fn a_copy_has_a_name_of_its_own() {
    let mut name = "Ü".repeat(MAX_NAME);
    for _ in 0..4 {
        let copy = words::copy_of(&name);
        assert_ne!(copy, name);
        assert!(copy.chars().count() <= MAX_NAME && copy.ends_with(", another"), "{copy}");
        name = copy;
    }
    assert_eq!(words::copy_of("Down the row"), "Down the row, another");
}

/// A net that is there is in nobody's way.
#[test]
fn with_a_net_any_drill_goes() {
    let mut phone = with_library();
    pick(&mut phone, "pick.net.with");
    assert_eq!(found(&phone).1, "30 drills");
    pick(&mut phone, "pick.net.without");
    let without: usize = found(&phone).0.len();
    assert!((1..30).contains(&without), "{without}");
}

/// What is looked for narrows the coach's own drills too, by what is known of them.
#[test]
fn own_drills_are_searched() {
    let mut phone = with_library();
    tap(&mut phone, LibraryTap::Taken(LibraryNo(21)));
    phone.act(Action::Go(Screen::MyDrills));
    let names = |phone: &Phone| my_drills(&phone.model).drills.into_iter().map(|d| d.name).collect::<Vec<_>>();
    tap(&mut phone, LibraryTap::Have(Have { focus: Some(view_focus("Setting")), ..Have::default() }));
    assert_eq!(names(&phone), ["Setting to the target", "First to ten", "Two, one, none"]);
    tap(&mut phone, LibraryTap::Typed("none".to_owned()));
    assert_eq!(names(&phone), ["Two, one, none"]);
    assert_eq!(my_drills(&phone.model).drills[0].page, Some(LibraryNo(21)));
    assert_eq!(my_drills(&phone.model).seek.count, "1 of 15 drills");
}

fn view_focus(name: &str) -> peppertally::domain::library::Focus {
    let all = peppertally::domain::library::Focus::ALL;
    all.into_iter().find(|focus| words::focus(*focus) == name).expect("a focus")
}

/// A library that can't be had or read says so, and is asked for once more; the coach's own drills are there all the same.
#[test]
fn a_library_that_fails_says_so() {
    let mut phone = Phone::with_squad(SQUAD);
    phone.act(Action::Go(Screen::LibraryDrill(LibraryNo(3))));
    assert_eq!(view::why_no_page(&phone.model), None);
    let newer = FILE.replacen("\"library\": 1", "\"library\": 2", 1);
    let cut = FILE[..FILE.len() / 2].trim_end().to_owned();
    for (text, why) in [(None, words::NOT_FETCHED), (Some(newer), words::OTHER_VERSION), (Some(cut), words::BROKEN)] {
        phone.report(Report::Library(text));
        assert_eq!(library(&phone.model), LibraryView::Failed(why));
        assert_eq!(view::why_no_page(&phone.model), Some(why));
        assert_eq!(my_drills(&phone.model).drills.len(), 14);
        phone.effects.clear();
        phone.act(Action::ReadAgain);
        assert!(phone.effects.contains(&Effect::ReadLibrary));
        assert_eq!(library(&phone.model), LibraryView::Reading);
    }
    phone.report(Report::Library(Some(FILE.to_owned())));
    assert!(library_drill(&phone.model, LibraryNo(3)).is_some());
    assert_eq!(library_drill(&phone.model, LibraryNo(999)), None);
    assert_eq!(view::why_no_page(&phone.model), Some(words::NO_SUCH));
    // Read once, it is never asked for again.
    phone.effects.clear();
    phone.act(Action::Go(Screen::Library));
    assert!(!phone.effects.contains(&Effect::ReadLibrary));
}

/// The drills that are ready are the same on every phone, to the last letter: brought together, phones have each once, with what was noted of
/// it. The fixture is never changed: one that changes gets a number that none had, and a line more here.
#[test]
fn ready_drills_are_the_same_everywhere() {
    let added = |phone: &Phone| {
        let drills = phone.db.values().filter(|record| record.contains("\"drill-added\""));
        drills.cloned().collect::<Vec<String>>().join("\n")
    };
    let (mut coach, other) = (Phone::with_squad(SQUAD), Phone::other("9 Tove\n5 Iva"));
    assert_eq!(added(&coach), include_str!("../fixtures/ready-drills.jsonl").trim_end());
    assert_eq!(added(&coach), added(&other));
    let mut other = other;
    let drill = today::today(&other.model).drills[0].drill;
    practised(&mut other, &[3, 2]);
    let copy = other.copy();
    take_in(&mut coach, "k", &copy);
    let names = |phone: &Phone| my_drills(&phone.model).drills.into_iter().map(|d| d.name).collect::<Vec<_>>();
    assert_eq!(names(&coach).len(), 14);
    let runs = coach.model.packed.values().flat_map(|p| &p.summary.runs).filter(|run| run.drill == Some(drill));
    assert_eq!(runs.count(), 1, "the other phone's run is one of the drill that is here");
    // With the file goes what came with it, and no drill.
    coach.act(Action::ParcelTakenBack("k".to_owned()));
    assert_eq!(names(&coach).len(), 14);
    // Those that were put away stay away, whoever is typed in later.
    for card in today::today(&coach.model).drills {
        coach.act(Action::DrillArchived(card.drill));
    }
    coach.act(Action::RosterTyped("Wren".to_owned()));
    coach.act(Action::RosterTaken);
    assert_eq!((names(&coach).len(), my_drills(&coach.model).away.len()), (0, 14));
}

#[test]
fn its_screens_have_addresses() {
    for screen in [Screen::Library, Screen::LibraryDrill(LibraryNo(12)), Screen::MyDrills] {
        assert_eq!(Screen::from_address(&screen.address()), Some(screen));
    }
    for text in ["library/", "library/x", "library/70000", "drills/1"] {
        assert_eq!(Screen::from_address(text), None, "{text}");
    }
}
