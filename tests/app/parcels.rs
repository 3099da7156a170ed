//! Accepted parcels without their bytes: what belongs to no practice is in memory, practices are summaries until they are wanted,
//! and what a parcel says of a practice counts with it.

use peppertally::app::action::Action;
use peppertally::app::screen::Screen;
use peppertally::app::view::report::{self, Missing};
use peppertally::app::view::{share, today};
use peppertally::app::words;
use peppertally::app::work::Answer;
use peppertally::app::work::Goes;
use peppertally::domain::ids::{Place, PracticeId};

use super::phone::{Phone, pass};
use super::steps::{correct_last, practised, take_in};

fn count(phone: &Phone, practice: PracticeId) -> String {
    report::practice_report(&phone.model, practice).expect("a practice").runs[0].count.clone()
}

/// Opening the app reads a parcel's note: squad and summaries are there, its contacts only once they are wanted.
#[test]
fn opening_needs_no_bytes() {
    let mut coach = Phone::with_squad("Mira\nTove\nOdile\nBram");
    let (practice, run) = practised(&mut coach, &[3, 2, 0]);
    let bytes = coach.copy();
    let mut other = Phone::other("Iva");
    take_in(&mut other, "k", &bytes);
    other.restart();
    assert!(other.model.runs.is_empty(), "no run was read");
    assert_eq!(other.model.base.players().len(), 5);
    assert_eq!(share::share(&other.model).parcels[0].what.split("; ").last(), Some("3 contacts"));
    assert_eq!(report::after(&other.model).practices[0].what, "1 drill, 3 contacts");
    other.act(Action::Go(Screen::PracticeReport(practice)));
    assert_eq!(report::run_report(&other.model, run).expect("read").sections[0].rows[0].count, "2 of 3");
    assert!(other.model.own.iter().all(|e| e.id.series.0 >= 7_000), "theirs stays theirs");
}

/// The other phone corrects a contact of ours and sends everything back: our packed practice counts it, and no more once it is
/// taken back.
#[test]
fn a_correction_from_elsewhere_counts_while_it_is_accepted() {
    let mut coach = Phone::with_squad("Mira\nTove\nOdile\nBram");
    let (practice, run) = practised(&mut coach, &[3, 2, 0]);
    let mut other = Phone::other("Iva");
    take_in(&mut other, "k", &coach.copy());
    correct_last(&mut other, run, 3);
    assert!(other.db.values().all(|r| !r.contains("corrected")), "own words on their practice are packed too");
    other.restart();
    assert_eq!(count(&other, practice), "3 good of 3");
    let back = other.copy();

    take_in(&mut coach, "b", &back);
    assert_eq!(count(&coach, practice), "3 good of 3");
    coach.restart();
    assert_eq!(count(&coach, practice), "3 good of 3");
    coach.act(Action::Go(Screen::RunReport(run)));
    assert_eq!(report::run_report(&coach.model, run).expect("read").sections[0].rows[0].count, "3 of 3");
    coach.act(Action::ParcelTakenBack("b".to_owned()));
    coach.act(Action::Go(Screen::PracticeReport(practice)));
    assert_eq!(count(&coach, practice), "2 good of 3");
    coach.restart();
    assert_eq!(count(&coach, practice), "2 good of 3");
    assert_eq!(coach.model.base.players().len(), 4);
}

/// A parcel that speaks of the practice that is on is read at once, and counts when it is packed.
#[test]
fn a_parcel_about_the_practice_that_is_on() {
    let mut coach = Phone::with_squad("Mira\nTove\nOdile\nBram");
    coach.drill(0);
    for grade in [3, 2, 0] {
        coach.act(Action::PlaceTapped(Place(0), pass(grade)));
    }
    let Screen::Run(run) = coach.model.screen else { panic!("run") };
    coach.act(Action::Finish);
    let mut other = Phone::other("Iva");
    take_in(&mut other, "k", &coach.copy());
    correct_last(&mut other, run, 3);
    take_in(&mut coach, "b", &other.copy());
    let practice = coach.model.practice_today().expect("on").id;
    assert_eq!(count(&coach, practice), "3 good of 3");
    coach.restart();
    assert_eq!(count(&coach, practice), "3 good of 3");
    coach.end_practice();
    coach.act(Action::Go(Screen::Today));
    coach.restart();
    assert!(coach.model.runs.is_empty());
    assert_eq!(count(&coach, practice), "3 good of 3");
}

/// A worker that fails is one honest sentence, nothing changes, and the same again later succeeds.
#[test]
fn a_worker_that_fails_loses_nothing() {
    let mut phone = Phone::with_squad("Mira\nTove\nOdile\nBram");
    phone.fails = Some(Answer::Refused(words::work::DIED.to_owned()));
    let (practice, run) = practised(&mut phone, &[3, 2, 0]);
    assert!(phone.blocks.is_empty() && phone.db.values().any(|r| r.contains("contact-noted")), "it lies as it was");
    phone.act(Action::Go(Screen::Share));
    phone.act(Action::CopyWanted(peppertally::app::action::CopyHow::Download, Goes::default()));
    let view = share::share(&phone.model);
    assert_eq!((view.writing, view.answer.expect("said").text.as_str()), (false, words::work::DIED));
    phone.choose("x", "k", b"{}");
    assert!(!share::share(&phone.model).reading);
    phone.restart();
    phone.act(Action::Go(Screen::After));
    assert_eq!(phone.blocks.len(), 1, "packed at the next chance");
    phone.restart();
    // Not the kind of answer that belongs to the job.
    phone.fails = Some(Answer::CopyNeedsAll);
    phone.act(Action::Go(Screen::RunReport(run)));
    assert_eq!(report::missing(&phone.model), Missing::Unread(words::work::NONSENSE.to_owned()));
    phone.fails = None;
    phone.act(Action::Go(Screen::RunReport(run)));
    assert!(report::run_report(&phone.model, run).is_some());
    assert_eq!(count(&phone, practice), "2 good of 3");
}

/// With the database closed the copy holds what is in memory, and says what is missing.
#[test]
fn a_copy_leaves_a_closed_database() {
    let mut phone = Phone::with_squad("Mira\nTove");
    phone.drill(0);
    phone.act(Action::PlaceTapped(Place(0), pass(3)));
    phone.closed = true;
    let bytes = phone.copy();
    assert!(share::share(&phone.model).answer.is_some_and(|a| a.refused && a.text.contains("Only what is in memory")));
    let mut other = Phone::other("Iva");
    take_in(&mut other, "k", &bytes);
    assert_eq!(other.model.base.players().len(), 3);
    assert_eq!(report::after(&other.model).practices[0].what, "1 drill, 1 contact");
}

/// A block that can't be read lies where it is, is shown, and doesn't keep a copy from leaving.
#[test]
fn a_damaged_block_is_shown() {
    let mut phone = Phone::with_squad("Mira\nTove");
    let (practice, _) = practised(&mut phone, &[3, 2, 0]);
    let bytes = b"damaged".to_vec();
    phone.blocks.values_mut().for_each(|b| b.clone_from(&bytes));
    phone.restart();
    phone.act(Action::Go(Screen::PracticeReport(practice)));
    assert!(report::practice_report(&phone.model, practice).expect("its summary").trouble.is_some());
    assert_eq!(phone.model.storage.aside.len(), 1);
    assert!(today::today(&phone.model).notices.iter().any(|n| n.grave));
    assert!(!phone.copy().is_empty());
    assert!(share::share(&phone.model).answer.is_some_and(|a| a.refused));
    assert_eq!(phone.blocks.values().next(), Some(&bytes));
}
