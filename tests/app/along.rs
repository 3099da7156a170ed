//! A second phone takes part in a practice that another began: one practice, a run a station. Whatever becomes of files, pages and days, what it
//! counts is there, and it says nothing of the practice itself.

use peppertally::app::action::Action;
use peppertally::app::groups::GroupsTap;
use peppertally::app::health::{Checked, HealthTap};
use peppertally::app::plan::PlanTap;
use peppertally::app::screen::Screen;
use peppertally::app::view::report::PracticeWay;
use peppertally::app::view::today::NoticeKind;
use peppertally::app::view::{report, today};
use peppertally::app::work::{Answer, Job};
use peppertally::domain::entry::{Entry, Fact};
use peppertally::domain::ids::{Place, PracticeId};
use peppertally::wire::file::{self, Limits};

use super::merging::{SQUAD, assistant, figures, looked};
use super::phone::{Phone, pass};
use super::steps::take_in;

/// Takes part in the coach's practice, which came with her copy, and counts these.
fn station(first: &[u8], bits: u64, name: &str, grades: &[u8]) -> Phone {
    let mut phone = assistant(first, bits, name);
    phone.act(Action::Go(Screen::Today));
    let notices = today::today(&phone.model).notices;
    let theirs = notices.iter().find_map(|notice| match notice.kind {
        NoticeKind::TakePart(practice) => Some((practice, notice.text.clone())),
        _ => None,
    });
    let (practice, text) = theirs.expect("it is offered");
    assert!(text.starts_with("Another phone began a practice at 17:"), "{text}");
    phone.act(Action::Along(practice, true));
    assert_eq!(phone.model.practice_today().map(|on| on.id), Some(practice));
    phone.drill(0);
    grades.iter().for_each(|grade| phone.act(Action::PlaceTapped(Place(0), pass(*grade))));
    phone
}

/// One practice at three stations: each phone takes part in the coach's and runs a drill of it. One practice, three runs, on every phone.
#[test]
fn one_practice_at_three_stations() {
    let mut coach = Phone::with_squad(SQUAD);
    coach.drill(0);
    (0..3).for_each(|_| coach.act(Action::PlaceTapped(Place(0), pass(3))));
    let practice = coach.model.practice_today().expect("on").id;
    let first = coach.copy();
    let mut two = station(&first, 60, "Ana’s phone", &[3, 0]);
    let mut three = station(&first, 90, "Bea’s phone", &[2; 5]);
    let copies = [two.copy(), three.copy()];
    assert_eq!(looked(&mut coach, "b", &copies[0]).lead, "2 contacts of 1 practice, not here yet.");
    for (hash, copy) in ["b", "c"].iter().zip(&copies) {
        take_in(&mut coach, hash, copy);
    }
    // The others' runs are no boards of this phone: its own is the one that is on.
    coach.act(Action::Go(Screen::Today));
    let open = today::today(&coach.model).open.expect("on");
    assert_eq!((open.led, open.runs.iter().filter(|run| run.on).count(), open.runs.len()), (true, 1, 3));
    coach.drill(0);
    coach.act(Action::Finish);
    coach.end_practice();
    coach.act(Action::Go(Screen::Today));
    let told = |phone: &mut Phone| {
        let (_, told) = figures(phone);
        assert_eq!(report::after(&phone.model).practices.len(), 1);
        told.iter().filter_map(|line| Some(line.split_once(": ")?.1.to_owned())).collect::<Vec<String>>()
    };
    let all = ["3 good of 3", "1 good of 2", "5 good of 5"];
    assert_eq!(told(&mut coach), all);
    // The whole goes back, and stands there as it stands here; whether she has said that she goes, or not.
    let whole = coach.copy();
    two.act(Action::Along(practice, false));
    for phone in [&mut two, &mut three] {
        take_in(phone, "whole", &whole);
        assert_eq!(told(phone), all);
        phone.restart();
        assert_eq!(told(phone), all);
        phone.act(Action::Health(HealthTap::Check));
        let Some(Checked::Found(found)) = &phone.model.health.found else { panic!("checked") };
        assert_eq!(found.otherwise.len(), 0);
    }
}

/// The coach's practice with a ball, and a phone that takes part in it with a board open: its copy, its identity.
fn taking_part() -> (Phone, Phone, PracticeId) {
    let mut coach = Phone::with_squad(SQUAD);
    coach.drill(0);
    coach.act(Action::PlaceTapped(Place(0), pass(3)));
    let practice = coach.model.practice_today().expect("on").id;
    let phone = station(&coach.copy(), 60, "Ana’s phone", &[3, 0]);
    (coach, phone, practice)
}

fn is_on(phone: &Phone, practice: PracticeId) -> bool {
    phone.model.practice_today().is_some_and(|on| on.id == practice) && phone.model.run_on().is_some()
}

/// Killed, told to go, or left until another day: what was counted for another phone's practice is there and in the copy, and nothing was said
/// of that practice itself.
#[test]
fn at_a_station_nothing_is_said_of_the_practice_itself() {
    let (mut coach, mut phone, practice) = taking_part();
    let mira = phone.player("Mira");
    phone.act(Action::PresenceTapped(mira));
    assert!(!phone.model.here().contains(&mira), "not at this station");
    // The small store may be behind at a kill.
    phone.settings = None;
    phone.restart();
    let Screen::Run(_) = phone.model.screen else { panic!("the board is open again: {:?}", phone.model.screen) };
    phone.act(Action::PlaceTapped(Place(0), pass(2)));
    phone.act(Action::PracticeEnded(practice));
    phone.act(Action::Groups(GroupsTap::Made));
    phone.act(Action::Plan(PlanTap::AsItGoes));
    phone.act(Action::PresenceTapped(mira));
    assert!(is_on(&phone, practice), "another phone ends it");
    // The coach's next copy comes in while a board is open here; one of somebody who has nothing to do with it; and the first goes.
    coach.act(Action::PlaceTapped(Place(1), pass(3)));
    for (hash, copy) in [("later", coach.copy()), ("other", Phone::other("Wren").copy())] {
        take_in(&mut phone, hash, &copy);
        assert!(is_on(&phone, practice), "{hash}");
    }
    phone.act(Action::ParcelTakenBack("first".to_owned()));
    assert!(is_on(&phone, practice), "what is counted here stays, whatever becomes of the file");
    phone.act(Action::ParcelPutBack("first".to_owned()));
    let mut gone = phone.killed();
    gone.act(Action::Along(practice, false));
    assert_eq!(gone.model.practice_today(), None);
    // A day is 1,440 minutes: there the run was never finished, which is said, and its report is the way to end it.
    let mut next_day = phone.killed_as(1_500);
    assert_eq!(next_day.model.left_open().iter().map(|left| left.id).collect::<Vec<_>>(), [practice]);
    // A drill that is tapped without it finishes the run and ends nothing that another phone leads.
    let mut tapped = next_day.killed_as(1_510);
    tapped.act(Action::Go(Screen::Today));
    tapped.drill(0);
    let ended = |e: &&Entry| matches!(e.fact, Fact::PracticeEnded { .. });
    assert_eq!((tapped.model.own.iter().filter(ended).count(), tapped.model.left_open().len()), (0, 0));
    next_day.act(Action::Go(Screen::PracticeReport(practice)));
    let ways = report::practice_report(&next_day.model, practice).map(|view| view.ways).unwrap_or_default();
    assert_eq!(ways.iter().map(|row| row.way).collect::<Vec<_>>(), [PracticeWay::Leave]);
    next_day.act(Action::Along(practice, false));
    next_day.act(Action::Go(Screen::Today));
    assert_eq!(next_day.model.left_open(), []);
    for phone in [&mut next_day, &mut gone] {
        assert_eq!(phone.model.practice_today(), None);
        let (_, told) = figures(phone);
        assert_eq!(told, ["Three passers: 2 good of 2", "Three passers: 2 good of 3"]);
        assert!(!phone.db.values().any(|record| record.contains("\"run-started\"")), "packed");
        let copy = file::read(&phone.copy(), &Limits::default()).expect("ours");
        let said =
            copy.entries.iter().filter(|e| [60, 61, 110, 111, 112, 1_500, 1_501, 1_502].contains(&e.id.series.0));
        let of_phone = |e: &Entry| matches!(e.fact, Fact::SeriesOpened { .. } | Fact::PhoneNamed { .. });
        let of_a_run = |e: &&Entry| e.fact.run(e.id).is_some() || of_phone(e);
        let others: Vec<_> = said.filter(|e| !of_a_run(e)).map(|e| &e.fact).collect();
        assert!(others.is_empty(), "{others:?}");
        phone.act(Action::Health(HealthTap::Check));
        let Some(Checked::Found(found)) = &phone.model.health.found else { panic!("checked") };
        assert_eq!(found.otherwise.len(), 0);
    }
}

/// The coach ends her practice while a run goes on here: it goes on until it is finished here.
#[test]
fn a_run_at_a_station_outlives_the_practice() {
    let (mut coach, mut phone, practice) = taking_part();
    coach.act(Action::Finish);
    coach.end_practice();
    let copy = coach.copy();
    take_in(&mut phone, "ended", &copy);
    assert!(is_on(&phone, practice));
    phone.restart();
    assert!(is_on(&phone, practice));
    phone.act(Action::PlaceTapped(Place(0), pass(3)));
    phone.act(Action::Finish);
    assert_eq!(phone.model.practice_today(), None);
    phone.act(Action::Go(Screen::Today));
    let (_, told) = figures(&mut phone);
    assert_eq!(told, ["Three passers: 1 good of 1", "Three passers: 2 good of 3"]);
}

/// Come and gone with nothing counted, it is offered again; and what was tapped for the station is of no practice after it.
#[test]
fn taking_part_can_be_taken_up_again() {
    let mut coach = Phone::with_squad(SQUAD);
    coach.drill(0);
    coach.act(Action::PlaceTapped(Place(0), pass(3)));
    let practice = coach.model.practice_today().expect("on").id;
    let copy = coach.copy();
    let mut phone = assistant(&copy, 60, "Ana’s phone");
    let offered = |phone: &Phone| phone.model.can_take_part().len();
    for _ in 0..2 {
        assert_eq!(offered(&phone), 1);
        phone.deaf = true;
        phone.act(Action::Along(practice, true));
        assert_eq!((phone.model.practice_today(), offered(&phone)), (None, 0));
        phone.deaf = false;
        phone.answer_late(Job::Read { practice: practice.0.to_string() });
        assert_eq!(phone.model.along(), Some(practice));
        // Another window of the phone learns of it.
        let mut window = assistant(&copy, 60, "Ana’s phone");
        window.hear(&phone);
        assert_eq!(window.model.along(), Some(practice));
        phone.restart();
        assert_eq!(phone.model.along(), Some(practice));
        let mira = phone.player("Mira");
        phone.act(Action::PresenceTapped(mira));
        phone.act(Action::Along(practice, false));
        phone.act(Action::Go(Screen::Today));
    }
    // Taken up again, it stays on when a file comes, though it lies packed from before.
    let mut again = phone.killed();
    again.act(Action::Along(practice, true));
    again.drill(0);
    coach.act(Action::PlaceTapped(Place(1), pass(3)));
    take_in(&mut again, "later", &coach.copy());
    assert!(is_on(&again, practice));
    // A drill that is tapped now may be one of it: that is asked, once a day, and a way off asks nothing.
    let asks = |phone: &Phone| today::today(&phone.model).asks_part.map(|ask| ask.practice);
    phone.drill(0);
    assert_eq!((asks(&phone), phone.model.practice_today()), (Some(practice), None));
    phone.act(Action::Go(Screen::Squad));
    phone.act(Action::Go(Screen::Today));
    assert_eq!(asks(&phone), None);
    let mut part = phone.killed();
    for phone in [&mut phone, &mut part] {
        phone.act(Action::Go(Screen::Today));
        phone.drill(0);
    }
    part.act(Action::Along(practice, true));
    assert!(is_on(&part, practice), "the drill that was tapped is on, in that practice");
    phone.act(Action::PartOwn);
    let own = phone.model.practice_today().expect("her own");
    assert!(phone.model.leads(own.id) && own.away.is_empty() && phone.model.run_on().is_some());
    phone.end_practice();
    phone.act(Action::Go(Screen::Today));
    phone.drill(1);
    assert!(asks(&phone).is_none() && phone.model.run_on().is_some());
}

/// A drill that is tapped while the practice is being read begins in it, and none where it can't be read.
#[test]
fn a_drill_that_is_tapped_early_waits() {
    let mut coach = Phone::with_squad(SQUAD);
    coach.drill(0);
    coach.act(Action::PlaceTapped(Place(0), pass(3)));
    let practice = coach.model.practice_today().expect("on").id;
    let mut phone = assistant(&coach.copy(), 60, "Ana’s phone");
    phone.deaf = true;
    phone.act(Action::Along(practice, true));
    phone.drill(0);
    assert_eq!((phone.model.practice_today(), phone.model.can_take_part().len()), (None, 0));
    phone.deaf = false;
    let mut refused = phone.killed();
    phone.answer_late(Job::Read { practice: practice.0.to_string() });
    assert!(is_on(&phone, practice));
    refused.fails = Some(Answer::Refused("no worker".to_owned()));
    refused.act(Action::Along(practice, true));
    assert_eq!((refused.model.taking_part, refused.model.practice_today()), (None, None));
    refused.fails = None;
    assert_eq!(refused.model.can_take_part().len(), 1, "it can be tried again");
}

/// What stands counts: opened again by its phone it is offered again, ended once more it isn't, whether its copies came one after another
/// or the last alone.
#[test]
fn a_practice_that_was_opened_again_is_offered_again() {
    let mut coach = Phone::with_squad(SQUAD);
    coach.drill(0);
    coach.act(Action::PlaceTapped(Place(0), pass(3)));
    let practice = coach.model.practice_today().expect("on").id;
    coach.act(Action::Finish);
    coach.end_practice();
    let mut phone = assistant(&coach.copy(), 60, "Ana’s phone");
    assert!(phone.model.can_take_part().is_empty(), "it is over");
    coach.act(Action::PracticeReopened(practice));
    let opened = coach.copy();
    take_in(&mut phone, "opened", &opened);
    for phone in [&mut phone, &mut assistant(&opened, 90, "Bea’s phone")] {
        let offered = |phone: &Phone| phone.model.can_take_part().iter().map(|s| s.practice).collect::<Vec<_>>();
        assert_eq!(offered(phone), [practice]);
        phone.restart();
        assert_eq!(offered(phone), [practice]);
        let mut along = phone.killed();
        along.act(Action::Along(practice, true));
        along.drill(0);
        assert!(is_on(&along, practice));
    }
    coach.end_practice();
    take_in(&mut phone, "over", &coach.copy());
    assert!(phone.model.can_take_part().is_empty(), "it is over once more");
}
