//! Which phone counted which drill: said where there was more than one, by the name that was given before the copy left, and plainly without.
//! And who was at a practice that another phone began.

use peppertally::app::action::{Action, CopyHow};
use peppertally::app::effect::Report;
use peppertally::app::screen::Screen;
use peppertally::app::view::{report, share};
use peppertally::app::work::Goes;
use peppertally::domain::entry::{Entry, Fact};
use peppertally::domain::ids::{Place, PracticeId};
use peppertally::domain::phones::Phones;
use peppertally::wire::file::{self, Limits};

use super::merging::{SQUAD, assistant, looked};
use super::phone::{Phone, pass};
use super::steps::{practised, take_in};

/// The coach's practice with a run, and its copy.
fn coach() -> (Phone, PracticeId, Vec<u8>) {
    let mut coach = Phone::with_squad(SQUAD);
    coach.drill(0);
    coach.act(Action::PlaceTapped(Place(0), pass(3)));
    let practice = coach.model.practice_today().expect("on").id;
    let copy = coach.copy();
    (coach, practice, copy)
}

/// A run in it, counted on another phone.
fn station(copy: &[u8], bits: u64, name: &str, practice: PracticeId) -> Phone {
    let mut phone = assistant(copy, bits, name);
    phone.act(Action::Along(practice, true));
    phone.drill(0);
    phone.act(Action::PlaceTapped(Place(0), pass(2)));
    phone
}

fn said(phone: &Phone, practice: PracticeId) -> Vec<String> {
    let view = report::practice_report(&phone.model, practice).expect("there");
    view.runs.into_iter().map(|run| run.phone.unwrap_or_default()).collect()
}

/// The name is typed after everything was counted, just before the copy leaves, and still stands at the run; so it does once it is another.
#[test]
fn a_name_given_before_the_copy_leaves_is_in_it() {
    let (mut coach, practice, copy) = coach();
    assert_eq!(said(&coach, practice), [""], "one phone needs no name");
    let mut phone = station(&copy, 60, "", practice);
    phone.act(Action::Go(Screen::Share));
    let view = share::share(&phone.model);
    assert_eq!((view.device_name.as_str(), view.asks_name), ("", true), "asked first, before the first copy");
    phone.act(Action::DeviceNameTyped("Ana’s phone".to_owned()));
    let theirs = phone.copy();
    let preview = looked(&mut coach, "theirs", &theirs);
    let names: Vec<&str> = preview.phones.iter().map(|line| line.name.as_str()).collect();
    assert!(names.contains(&"Ana’s phone"), "{names:?}");
    let shared = share::share(&coach.model);
    assert!(
        coach.model.copy.given.is_some() && shared.given.is_none(),
        "what is new comes before the question of the last copy"
    );
    let from = shared.parcel.expect("offered").from;
    assert!(from.starts_with("From Ana’s phone, written"), "of the others alone: {from}");
    phone.act(Action::CopySeen(true));
    let view = share::share(&phone.model);
    assert_eq!((view.device_name.as_str(), view.asks_name), ("Ana’s phone", false));
    take_in(&mut coach, "theirs", &theirs);
    let both = ["counted here", "counted on Ana’s phone"];
    assert_eq!(said(&coach, practice), both);
    coach.restart();
    assert_eq!(said(&coach, practice), both);
    // There the other one is the coach's, which has no name.
    assert_eq!(said(&phone, practice), ["counted on another phone", "counted here"]);
    // Packed, and not read.
    coach.act(Action::Finish);
    coach.end_practice();
    coach.act(Action::Go(Screen::After));
    assert_eq!(said(&coach, practice), both);
    phone.act(Action::DeviceNameTyped("Station two".to_owned()));
    take_in(&mut coach, "later", &phone.copy());
    assert_eq!(said(&coach, practice), ["counted here", "counted on Station two"]);
}

/// Phones without a name are told apart, and one that was closed and opened again is still one.
#[test]
fn phones_without_a_name_are_told_apart() {
    let (mut coach, practice, copy) = coach();
    let mut two = station(&copy, 60, "", practice);
    // Another page of the same phone.
    two.act(Action::Finish);
    let mut two = two.killed_as(61);
    two.act(Action::Go(Screen::Today));
    two.drill(1);
    two.act(Action::PlaceTapped(Place(0), pass(1)));
    let mut three = station(&copy, 90, "", practice);
    for (hash, bytes) in [("two", two.copy()), ("three", three.copy())] {
        take_in(&mut coach, hash, &bytes);
    }
    let told = said(&coach, practice);
    let n = |text: &str| told.iter().filter(|line| *line == text).count();
    let (another, second) = (n("counted on another phone"), n("counted on a second other phone"));
    // Two runs of the one, in two pages, and one of the other.
    assert_eq!((told.len(), n("counted here"), another.min(second), another.max(second)), (4, 1, 1, 2), "{told:?}");
    // In any order of what was said.
    let all: Vec<Entry> = coach.model.own.iter().chain(coach.model.theirs.iter()).cloned().collect();
    let (there, back) = (Phones::of(&all), Phones::of(all.iter().rev()));
    let same = |entry: &Entry| {
        let by = entry.id.series;
        (there.phone(by), there.name(by)) == (back.phone(by), back.name(by))
    };
    assert!(all.iter().all(same));
    // Sent again nothing is said anew.
    let named = |phone: &Phone| phone.model.own.iter().filter(|e| matches!(e.fact, Fact::PhoneNamed { .. })).count();
    let before = (named(&two), named(&three));
    two.copy();
    three.copy();
    assert_eq!((before, named(&two), named(&three)), ((1, 0), 1, 0));
}

/// By each of the ways out, and a name that is taken away again is gone.
#[test]
fn every_way_out_tells_the_name() {
    for how in [CopyHow::ShareSheet, CopyHow::Download, CopyHow::Code] {
        let (coach, ..) = coach();
        let mut phone = coach.killed();
        let series = phone.model.base.practices()[0].id.0.series;
        let name = |phone: &mut Phone| {
            phone.act(Action::CopyWanted(how, Goes::default()));
            let copy = phone.copied.take().expect("a copy").into_bytes();
            phone.report(Report::CopyLeft { how, left: Ok(true) });
            let copy = file::read(&copy, &Limits::default()).expect("ours");
            Phones::of(&copy.entries).name(series).map(str::to_owned)
        };
        phone.act(Action::DeviceNameTyped("Ana’s phone".to_owned()));
        assert_eq!(name(&mut phone).as_deref(), Some("Ana’s phone"), "{how:?}");
        phone.act(Action::DeviceNameTyped(String::new()));
        assert_eq!(name(&mut phone), None, "{how:?}");
    }
}

/// A phone that calls itself what every phone is to itself has no name, and says so once at most.
#[test]
fn this_phone_is_no_name() {
    let mut coach = Phone::with_squad(SQUAD);
    coach.act(Action::DeviceNameTyped("this phone".to_owned()));
    (0..3).for_each(|_| drop(coach.copy()));
    let named = coach.model.own.iter().filter(|e| matches!(e.fact, Fact::PhoneNamed { .. })).count();
    assert!(named <= 1, "{named}");
}

/// What stands ready to be shared is written anew once the phone has another name.
#[test]
fn a_name_typed_since_is_in_what_is_shared() {
    let (mut coach, ..) = coach();
    coach.act(Action::CopyWanted(CopyHow::ShareSheet, Goes::default()));
    // The sheet was closed: the copy stands ready still.
    coach.report(Report::CopyLeft { how: CopyHow::ShareSheet, left: Ok(false) });
    coach.act(Action::DeviceNameTyped("Ana’s phone".to_owned()));
    coach.copied = None;
    coach.act(Action::CopySent);
    let copy = coach.copied.take().expect("written anew");
    let copy = file::read(copy.as_bytes(), &Limits::default()).expect("ours");
    assert!(copy.entries.iter().any(|e| matches!(&e.fact, Fact::PhoneNamed { name, .. } if name == "Ana’s phone")));
}

/// "Everyone was here" is said of whom it is known: not of another list of children, on neither phone.
#[test]
fn everyone_is_who_was_known() {
    let presence = |phone: &Phone, practice| report::practice_report(&phone.model, practice).expect("there").presence;
    let mut coach = Phone::with_squad("Mira\nTove\nOdile");
    let (own, _) = practised(&mut coach, &[3, 2]);
    assert_eq!(presence(&coach, own), "Everyone was here.");
    let mut other = Phone::other("Wren\nIva\nBram");
    let (theirs, _) = practised(&mut other, &[3]);
    let copy = other.copy();
    take_in(&mut coach, "other", &copy);
    assert_eq!(presence(&coach, theirs), "Here: Wren, Iva, Bram.");
    assert_eq!(presence(&coach, own), "Everyone who was in the squad then was here.");
    coach.restart();
    assert_eq!(presence(&coach, theirs), "Here: Wren, Iva, Bram.", "packed and not read");
    // On one's own phone nothing of that is to be told.
    assert_eq!(presence(&other, theirs), "Everyone was here.");
}
