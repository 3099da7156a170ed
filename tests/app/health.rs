//! Everything counted again and held against what was counted before: what is sound is said to be, what differs can be put right, what
//! can't be read is told and left alone.

use peppertally::app::action::Action;
use peppertally::app::effect::{Effect, Report, Trouble};
use peppertally::app::health::{HealthTap, Room};
use peppertally::app::model::StorageState;
use peppertally::app::screen::Screen;
use peppertally::app::view::health::{HealthView, health};
use peppertally::app::view::report;
use peppertally::app::words;
use peppertally::app::work::Answer;

use super::phone::Phone;
use super::steps::{correct_last, practised, take_in};

const SQUAD: &str = "Mira\nTove\nOdile\nBram";

fn checked(phone: &mut Phone) -> HealthView {
    phone.act(Action::Go(Screen::Health));
    phone.act(Action::Health(HealthTap::Check));
    health(&phone.model)
}

/// Two practices, packed, and the page begun anew.
fn season() -> Phone {
    let mut phone = Phone::with_squad(SQUAD);
    practised(&mut phone, &[3, 2, 0]);
    practised(&mut phone, &[3, 3, 1, 0]);
    phone.restart();
    phone.act(Action::Go(Screen::After));
    phone.restart();
    assert_eq!(phone.blocks.len(), 2);
    phone
}

#[test]
fn all_is_well() {
    let mut phone = season();
    let view = checked(&mut phone);
    assert!(view.found[0].starts_with("All is well: "), "{:?}", view.found);
    assert!(view.found[0].contains("of 2 practices"), "{:?}", view.found);
    assert_eq!((view.found.len(), view.trouble, view.can_put_right, view.checking), (1, false, false, false));
    assert!(view.lies[0].contains("2 practices packed away"), "{:?}", view.lies);
    assert_eq!((view.answer.as_str(), view.grave), ("Everything is saved on this phone.", false));
    assert!(view.safe.iter().all(|line| !line.starts_with("Everything counted")), "said once: {:?}", view.safe);
}

/// A summary of another practice's figures: the balls say what is right, and the list of practices shows it again.
#[test]
fn counts_that_differ_are_put_right() {
    let mut phone = season();
    let sound: Vec<String> = phone.summaries.values().cloned().collect();
    let key = phone.summaries.keys().next().expect("one").clone();
    let wrong = sound[0].replace("Three passers", "Nothing of it");
    assert_ne!(wrong, sound[0]);
    phone.summaries.insert(key.clone(), wrong.clone());
    phone.restart();
    let view = checked(&mut phone);
    assert_eq!((view.trouble, view.can_put_right), (true, true), "{:?}", view.found);
    assert!(view.answer.starts_with("Every ball is saved on this phone. Some counts") && view.grave, "{}", view.answer);
    assert!(view.found[1].starts_with("1 practice is counted otherwise"), "{:?}", view.found);
    assert_eq!(phone.summaries[&key], wrong, "a check changes nothing");
    phone.act(Action::Health(HealthTap::PutRight));
    let view = health(&phone.model);
    assert_eq!(
        (view.found.as_slice(), view.trouble),
        (&["Counted again: 1 practice is right now.".to_owned()][..], false)
    );
    assert_eq!(phone.summaries.values().cloned().collect::<Vec<_>>(), sound);
    assert!(checked(&mut phone).found[0].starts_with("All is well"));
}

#[test]
fn what_cannot_be_read_is_told_and_left() {
    let mut phone = season();
    let key = phone.blocks.keys().next().expect("one").clone();
    phone.blocks.insert(key.clone(), b"damaged".to_vec());
    let summary = phone.summaries[&key].clone();
    let view = checked(&mut phone);
    assert_eq!((view.trouble, view.can_put_right), (true, false), "{:?}", view.found);
    assert!(view.found[1].starts_with("1 part can’t be read"), "{:?}", view.found);
    assert!(view.found[2].contains(&key), "{:?}", view.found);
    assert_eq!((&phone.blocks[&key][..], &phone.summaries[&key]), (&b"damaged"[..], &summary));
    assert_eq!(report::after(&phone.model).practices.len(), 2, "the counts are still there");
}

/// One opened again and corrected is counted from memory: its stored counts are no fault.
#[test]
fn one_opened_again_is_no_fault() {
    let mut phone = Phone::with_squad(SQUAD);
    let (practice, run) = practised(&mut phone, &[3, 2, 0]);
    phone.restart();
    phone.act(Action::Go(Screen::Contacts(run)));
    correct_last(&mut phone, run, 3);
    assert!(!checked(&mut phone).trouble);
    phone.act(Action::PracticeReopened(practice));
    assert!(!checked(&mut phone).trouble);
}

#[test]
fn a_check_that_fails_is_one_sentence() {
    let mut phone = season();
    phone.fails = Some(Answer::Refused(words::work::DIED.to_owned()));
    let view = checked(&mut phone);
    assert_eq!((view.found.len(), view.trouble, view.checking), (1, true, false));
    phone.fails = None;
    phone.closed = true;
    let view = checked(&mut phone);
    assert!(view.found[0].starts_with("It could not be checked"), "{:?}", view.found);
}

#[test]
fn room_is_told_as_the_browser_does() {
    let mut phone = season();
    phone.effects.clear();
    phone.act(Action::Go(Screen::Health));
    assert!(phone.effects.contains(&Effect::AskRoom));
    let check = |phone: &mut Phone, used_bytes, most_bytes, line: Option<&str>| {
        phone.report(Report::RoomTold((most_bytes > 0).then_some(Room { used_bytes, most_bytes })));
        assert_eq!(health(&phone.model).lies.get(1).map(String::as_str), line);
    };
    check(&mut phone, 3_214_000, 2_000_000_000, Some("It takes 3.2 MB of about 2.0 GB that the browser gives."));
    check(&mut phone, 0, 999_999, Some("It takes 0.0 kB of about 999 kB that the browser gives."));
    check(&mut phone, u64::MAX, u64::MAX, Some("It takes 18446744 TB of about 18446744 TB that the browser gives."));
    check(&mut phone, 0, 0, None);
}

/// A practice known from another phone's file alone, which can't be read any more: its counts are all there is, and stay.
#[test]
fn counts_of_a_file_that_cannot_be_read_stay() {
    let mut other = Phone::other("Iva");
    other.act(Action::RosterTyped("Pell\nSuri".to_owned()));
    other.act(Action::RosterTaken);
    practised(&mut other, &[3, 1]);
    let copy = other.copy();
    let mut phone = season();
    take_in(&mut phone, "k", &copy);
    assert!(!checked(&mut phone).trouble);
    let n = report::after(&phone.model).practices.len();
    phone.parcels.get_mut("k").expect("a parcel").clone_from(&b"damaged".to_vec());
    let view = checked(&mut phone);
    assert_eq!((view.trouble, view.can_put_right), (true, false), "{:?}", view.found);
    assert!(view.found.iter().any(|line| line.starts_with("1 part can’t be read")), "{:?}", view.found);
    phone.act(Action::Health(HealthTap::PutRight));
    assert_eq!(report::after(&phone.model).practices.len(), n);
}

/// An entry that lies loose and can't be read is no case of "all is well".
#[test]
fn a_damaged_entry_is_told() {
    let mut phone = season();
    phone.db.insert("0000000000000001.00000001".to_owned(), "nonsense".to_owned());
    let view = checked(&mut phone);
    assert!(view.trouble && !view.found[0].starts_with("All is well"), "{:?}", view.found);
}

/// The page answers its question first, and never says yes where something isn't in the storage.
#[test]
fn the_answer_comes_first() {
    let mut phone = season();
    let answer = |phone: &Phone| {
        let view = health(&phone.model);
        (view.answer, view.grave)
    };
    phone.model.storage.state = StorageState::Opening;
    assert_eq!(answer(&phone), ("The storage is being opened: in a moment it is known.".to_owned(), false));
    phone.model.storage.state = StorageState::Ready;
    phone.model.storage.unsaved.insert("k".to_owned());
    assert_eq!(answer(&phone), ("1 note is being stored.".to_owned(), false));
    phone.model.storage.failed = Some(Trouble::Full);
    let full = "Not everything is safe: 1 note is not stored yet, the phone is full.";
    assert_eq!(answer(&phone), (full.to_owned(), true));
    phone.model.storage.unsaved.clear();
    phone.model.storage.failed = None;
    phone.model.storage.state = StorageState::Refused(Trouble::Unavailable);
    assert_eq!(answer(&phone), ("Not everything is safe: the storage is closed to the app.".to_owned(), true));
    phone.model.storage.state = StorageState::Ready;
    phone.model.storage.aside.push("a note".to_owned());
    assert_eq!(answer(&phone), ("Not everything is safe: 1 thing stored can’t be read.".to_owned(), true));
    // What lies beside another of its identity can be read.
    let entry = phone.model.own.iter().next().expect("an entry").clone();
    phone.model.storage.other_content.push(("a note".to_owned(), entry));
    assert_eq!(answer(&phone), ("Everything is saved on this phone.".to_owned(), false));
}

/// What lies packed doesn't lie singly, looked at or not.
#[test]
fn what_was_looked_at_lies_where_it_lay() {
    let mut phone = season();
    let lies = |phone: &Phone| health(&phone.model).lies[0].clone();
    let before = lies(&phone);
    let practice = *phone.model.packed.keys().next().expect("packed");
    phone.act(Action::Go(Screen::PracticeReport(practice)));
    assert!(phone.model.packed[&practice].read);
    assert_eq!(lies(&phone), before);
}
