//! The database can't be read, or not all of it: no screen says that nothing is there, no copy passes for whole, and what comes
//! late from the storage leaves alone what the coach is doing.

use peppertally::app::action::{Action, CopyHow};
use peppertally::app::effect::{Effect, Report};
use peppertally::app::screen::Screen;
use peppertally::app::view::report::{self, Missing};
use peppertally::app::view::{share, today};
use peppertally::app::words;
use peppertally::app::work::Goes;
use peppertally::app::work::{Answer, Job};
use peppertally::domain::ids::{Place, RunId};

use super::phone::{Phone, pass};
use super::steps::{correct_last, practised, take_in};

const SQUAD: &str = "Mira\nTove\nOdile\nBram";

fn corrected_elsewhere(copy: &[u8], run: RunId) -> Vec<u8> {
    let mut other = Phone::other("Ana");
    take_in(&mut other, "k", copy);
    correct_last(&mut other, run, 0);
    other.copy()
}

/// What is asked for and can't be read may be there all the same: it is told so, with a way to try again.
#[test]
fn nothing_is_called_gone() {
    let mut phone = Phone::with_squad(SQUAD);
    let (practice, run) = practised(&mut phone, &[3; 3]);
    phone.restart_refused();
    assert!(phone.model.is_closed());
    for screen in [Screen::PracticeReport(practice), Screen::RunReport(run), Screen::Contacts(run), Screen::Run(run)] {
        phone.act(Action::Go(screen));
        assert_eq!(
            report::missing(&phone.model),
            Missing::Unread(words::trouble::CLOSED_HERE.to_owned()),
            "{screen:?}"
        );
    }
    phone.act(Action::Go(Screen::RunReport(run)));
    phone.act(Action::ReadAgain);
    assert!(!phone.model.is_closed());
    assert!(report::run_report(&phone.model, run).is_some());
}

/// Names typed while the storage is closed bring drills to tap; once it opens each drill stands there once, and the one that was
/// used stays.
#[test]
fn no_drill_is_doubled() {
    let names = |phone: &Phone| today::today(&phone.model).drills.into_iter().map(|d| d.name).collect::<Vec<_>>();
    let mut phone = Phone::with_squad(SQUAD);
    practised(&mut phone, &[3; 3]);
    let before = today::today(&phone.model).drills;
    let mut sorted = names(&phone);
    sorted.sort();
    phone.restart_refused();
    phone.act(Action::RosterTyped("Iva".to_owned()));
    phone.hold_back(true);
    phone.act(Action::RosterTaken);
    assert_eq!(names(&phone).len(), before.len(), "there is something to tap");
    phone.hold_back(false);
    phone.confirm_all();
    let mut after = names(&phone);
    after.sort();
    assert_eq!(after, sorted);
    let drills = today::today(&phone.model).drills;
    assert!(drills.iter().any(|d| d.drill == before[0].drill && d.last.is_some()), "{drills:?}");
    phone.restart();
    assert_eq!(names(&phone).len(), sorted.len());
}

/// A copy that lacks something says so and counts as nothing sent.
#[test]
fn a_copy_in_parts_says_so() {
    type Damage = fn(&mut Phone);
    let damage: [(&str, Damage); 4] = [
        ("1 stored note", |phone| {
            let text = phone.db.values_mut().find(|t| t.contains("player-added")).expect("a child");
            *text = "damaged".to_owned();
        }),
        ("nobody can tell", |phone| phone.notes.values_mut().for_each(|note| *note = "damaged".to_owned())),
        ("not a Peppertally copy", |phone| phone.parcels.values_mut().for_each(|b| *b = b"damaged".to_vec())),
        ("not a Peppertally copy", |phone| phone.blocks.values_mut().for_each(|b| *b = b"damaged".to_vec())),
    ];
    for (says, damage) in damage {
        let mut phone = Phone::with_squad(SQUAD);
        let (_, run) = practised(&mut phone, &[3; 3]);
        let back = corrected_elsewhere(&phone.copy(), run);
        take_in(&mut phone, "b", &back);
        damage(&mut phone);
        assert!(!phone.copy().is_empty());
        let view = share::share(&phone.model);
        let answer = view.answer.expect("said");
        assert!(answer.refused && answer.text.contains(says), "{}", answer.text);
        assert_eq!((view.given, phone.model.settings.copied_wall_ms), (None, None));
    }
}

/// A parcel whose bytes can't be read any more is shown where its words are missing from a practice.
#[test]
fn a_damaged_parcel_is_shown() {
    let mut phone = Phone::with_squad(SQUAD);
    let (practice, run) = practised(&mut phone, &[3; 3]);
    let back = corrected_elsewhere(&phone.copy(), run);
    take_in(&mut phone, "b", &back);
    phone.parcels.values_mut().for_each(|b| *b = b"damaged".to_vec());
    phone.restart();
    phone.act(Action::Go(Screen::PracticeReport(practice)));
    phone.act(Action::Go(Screen::RunReport(run)));
    let aside = &phone.model.storage.aside;
    assert!(aside.len() == 1 && aside[0].starts_with("parcel b: "), "{aside:?}");
}

/// Another window packs newer contacts between a parcel's reading and its writing: its summary counts them all the same.
#[test]
fn a_parcels_summary_is_true_of_what_lies_packed() {
    let mut phone = Phone::with_squad(SQUAD);
    let (practice, run) = practised(&mut phone, &[3; 3]);
    let back = corrected_elsewhere(&phone.copy(), run);
    phone.restart();
    phone.choose("copy.json", "b", &back);
    phone.meanwhile = Some(|phone| {
        let mut second = phone.second_window();
        let practice = *second.model.packed.keys().next().expect("packed");
        let run = second.model.packed[&practice].summary.runs[0].run;
        second.act(Action::Go(Screen::RunReport(run)));
        second.act(Action::RunReopened(run));
        second.act(Action::TakeOver(run));
        (0..2).for_each(|_| second.act(Action::PlaceTapped(Place(0), pass(3))));
        second.act(Action::Finish);
        second.act(Action::PracticeEnded(practice));
        second.act(Action::Go(Screen::Today));
        (phone.db, phone.blocks, phone.summaries) = (second.db, second.blocks, second.summaries);
    });
    phone.act(Action::ParcelAccepted);
    phone.restart();
    assert_eq!(report::practice_report(&phone.model, practice).expect("there").runs[0].count, "4 good of 5");
}

/// What comes late leaves the coach where she is: what was said stays, an open correction stays, no board opens by itself.
#[test]
fn a_late_answer_moves_nothing() {
    let mut phone = Phone::with_squad(SQUAD);
    phone.drill(0);
    phone.act(Action::PlaceTapped(Place(0), pass(3)));
    let Screen::Run(run) = phone.model.screen else { panic!("run") };
    let practice = phone.model.practice_today().expect("on").id.0.to_string();
    let read_late = |phone: &mut Phone| {
        let answer = Answer::Read { own: Vec::new(), theirs: Vec::new(), damaged: Vec::new() };
        phone.report(Report::Worked { job: Job::Read { practice: practice.clone() }, answer });
    };
    phone.act(Action::Go(Screen::Today));
    read_late(&mut phone);
    assert_eq!(phone.model.screen, Screen::Today);
    let back = corrected_elsewhere(&phone.copy(), run);
    phone.act(Action::Go(Screen::Share));
    take_in(&mut phone, "b", &back);
    assert!(
        phone.effects.iter().any(|e| matches!(e, Effect::Work(Job::Read { .. }))),
        "the practice that is on is read"
    );
    assert_eq!(share::share(&phone.model).answer.expect("said").text, words::copies::PARCEL_TAKEN);

    phone.act(Action::Go(Screen::Contacts(run)));
    let contact = report::contacts(&phone.model, run).expect("contacts").rows[0].contact;
    phone.act(Action::ContactChosen(Some(contact)));
    read_late(&mut phone);
    assert_eq!(phone.model.board.fixing, Some(contact));
    phone.act(Action::Go(Screen::Phone));
    phone.act(Action::EraseAsked);
    read_late(&mut phone);
    assert!(share::phone(&phone.model).erase_asked);
}

/// Whatever was asked of a worker that was stopped is answered: no key rests for good.
#[test]
fn what_was_stopped_can_be_asked_again() {
    let mut phone = Phone::with_squad(SQUAD);
    phone.fails = Some(Answer::Refused(words::work::STOPPED.to_owned()));
    practised(&mut phone, &[3; 3]);
    phone.act(Action::CopyWanted(CopyHow::Download, Goes::default()));
    phone.choose("x", "k", b"{}");
    let view = share::share(&phone.model);
    assert!(!view.writing && !view.reading && phone.model.packing.is_none());
    assert_eq!(view.answer.expect("said").text, words::work::STOPPED);
}
