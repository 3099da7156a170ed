//! A child removed for good is nowhere: on no screen, in nothing that is stored, in no copy; whatever comes in later, and whatever is broken off.

use peppertally::app::action::{Action, RemovalTap};
use peppertally::app::effect::Report;
use peppertally::app::health::{Checked, HealthTap};
use peppertally::app::home::{HomeTap, Piece};
use peppertally::app::notes::NotesTap;
use peppertally::app::screen::Screen;
use peppertally::app::view::removal::removal;
use peppertally::app::view::{report, squad};
use peppertally::app::words;
use peppertally::app::work::Answer;
use peppertally::domain::entry::{Entry, Fact};
use peppertally::domain::ids::{Clock, EntryId, Place, PlayerId, Revision};
use peppertally::wire::record;

use super::phone::{Phone, pass};
use super::steps::{practised, take_in};

const SQUAD: &str = "Quilla 7\nTove\nOdile\nBram";

pub fn tap(phone: &mut Phone, tap: RemovalTap) {
    phone.act(Action::Removal(tap));
}

pub fn remove(phone: &mut Phone, name: &str) -> PlayerId {
    let player = phone.player(name);
    phone.act(Action::Go(Screen::Child(player)));
    tap(phone, RemovalTap::Asked(player));
    tap(phone, RemovalTap::Sure);
    player
}

/// Everything that this phone has stored, as one text.
pub fn stored(phone: &Phone) -> String {
    let blocks = phone.blocks.values().chain(phone.parcels.values()).map(|bytes| String::from_utf8_lossy(bytes).into());
    let texts = phone.db.values().chain(phone.summaries.values()).chain(phone.notes.values()).chain(&phone.settings);
    blocks.chain(texts.cloned()).collect::<Vec<String>>().join("\n")
}

#[track_caller]
pub fn check_gone(phone: &mut Phone, player: PlayerId) {
    for _ in 0..2 {
        let stored = stored(phone);
        let at =
            stored.to_lowercase().find("quilla").map(|at| &stored[at.saturating_sub(200)..(at + 80).min(stored.len())]);
        assert_eq!(at, None, "stored");
        // An entry keeps its identity, and the removal says whom it removes.
        let id = player.0.to_string();
        let kept =
            stored.replace('\\', "").replace(&format!("\"id\":\"{id}\""), "").replace(&format!("[\"{id}\"]"), "");
        assert!(!kept.contains(&id), "nothing else points at it");
        assert_eq!(phone.model.base.player(player), None);
        assert!(!phone.model.base.players().iter().any(|child| child.name == "Quilla"));
        let summaries = phone.model.packed.values().map(|p| &p.summary);
        assert!(summaries.clone().all(|summary| !summary.everyone().contains(&player) && !summary.took_part(player)));
        assert!(phone.model.runs.values().all(|run| !run.everyone().contains(&player)));
        assert!(phone.model.own.aside().is_empty() && phone.model.storage.aside.is_empty());
        phone.act(Action::Health(HealthTap::Check));
        let Some(Checked::Found(found)) = &phone.model.health.found else { panic!("checked") };
        assert_eq!((found.otherwise.len(), &found.unread), (0, &Vec::new()));
        phone.restart();
    }
    let copy = phone.copy();
    assert!(!String::from_utf8_lossy(&copy).contains("Quilla"), "no copy has it");
}

pub fn write_note(phone: &mut Phone, about: PlayerId, words: &str) {
    phone.act(Action::Notes(NotesTap::Wanted(None, Some(about))));
    phone.act(Action::Notes(NotesTap::Typed(words.to_owned())));
    phone.act(Action::Notes(NotesTap::Kept));
}

/// A season of one practice, packed, with notes and half-typed words about the child.
pub fn used() -> Phone {
    let mut phone = Phone::with_squad(SQUAD);
    practised(&mut phone, &[3, 2, 0]);
    let player = phone.player("Quilla");
    for (child, words) in
        [(player, "Brave today"), (phone.player("Tove"), "Fed Quilla well"), (phone.player("Bram"), "Calm")]
    {
        write_note(&mut phone, child, words);
    }
    phone.act(Action::Go(Screen::Home(player)));
    phone.act(Action::Home(HomeTap::Opened(Piece::Question)));
    phone.act(Action::Home(HomeTap::Typed("How was it, Quilla?".to_owned())));
    phone.act(Action::Home(HomeTap::Closed));
    phone.act(Action::Notes(NotesTap::Wanted(None, Some(player))));
    phone.act(Action::Notes(NotesTap::Typed("Half a word of Quilla".to_owned())));
    phone.act(Action::Go(Screen::Today));
    assert!(stored(&phone).contains("How was it, Quilla?"), "the words lie in the settings");
    phone
}

#[test]
fn nothing_of_it_is_left() {
    let mut phone = used();
    let player = remove(&mut phone, "Quilla");
    assert_eq!(phone.model.screen, Screen::Squad);
    let names: Vec<String> = squad::squad(&phone.model).active.into_iter().map(|row| row.name).collect();
    assert_eq!(names, ["Tove", "Odile", "Bram"]);
    check_gone(&mut phone, player);
    // Its three balls count no more, in no total either; what was noted of others stays, unless its name was in it.
    assert_eq!(report::after(&phone.model).practices.len(), 1);
    let summary = &phone.model.packed.values().next().expect("packed").summary;
    assert_eq!((summary.n_counted(), summary.runs[0].everyone.tries()), (0, 0));
    let stored = stored(&phone);
    assert!(stored.contains("Calm") && !stored.contains("Brave") && !stored.contains("Fed "));
}

/// It is asked first, what it does stands there, and nothing happens before it is held.
#[test]
fn it_takes_two_steps() {
    let mut phone = used();
    let player = phone.player("Quilla");
    phone.act(Action::Go(Screen::Child(player)));
    tap(&mut phone, RemovalTap::Sure);
    assert!(phone.model.base.player(player).is_some(), "nobody was asked");
    assert_eq!(removal(&phone.model).expect("on its page").asked, None);
    tap(&mut phone, RemovalTap::Asked(player));
    let asked = removal(&phone.model).and_then(|view| view.asked).expect("asked");
    assert_eq!(
        (asked.head.as_str(), asked.look.map(|(word, _)| word)),
        ("Remove Quilla for good?", ["Goes", "Stays", "For ever"])
    );
    assert_eq!(asked.lines, ["1 note about the child goes; 1 other note has the name in it and goes whole."]);
    let says = |words: &str| asked.more.iter().any(|line| line.contains(words));
    assert!(
        says("before they were changed or taken back") && says("also with the name in it: titles of practices, plans")
    );
    assert!(says("no longer knows the name") && !says("set aside"));
    assert_eq!((asked.hold.as_str(), asked.waits), ("Hold to remove Quilla for good", None));
    phone.model.storage.aside.push("parcel b".to_owned());
    let lines = removal(&phone.model).and_then(|view| view.asked).expect("asked").more;
    let aside = "1 thing that could not be read lies set aside, untouched: whether the child is in it nobody can tell.";
    assert_eq!(lines.last().map(String::as_str), Some(aside));
    phone.model.storage.aside.clear();
    tap(&mut phone, RemovalTap::Declined);
    tap(&mut phone, RemovalTap::Sure);
    assert!(phone.model.base.player(player).is_some(), "declined");
    tap(&mut phone, RemovalTap::Asked(player));
    phone.act(Action::Go(Screen::Squad));
    tap(&mut phone, RemovalTap::Sure);
    assert!(phone.model.base.player(player).is_some(), "another screen forgets that it was asked");
}

#[test]
fn not_while_something_is_counted() {
    let mut phone = Phone::with_squad(SQUAD);
    phone.drill(0);
    phone.act(Action::PlaceTapped(Place(0), pass(3)));
    let player = phone.player("Quilla");
    phone.act(Action::Go(Screen::Child(player)));
    tap(&mut phone, RemovalTap::Asked(player));
    let asked = removal(&phone.model).and_then(|view| view.asked).expect("asked");
    assert_eq!(asked.waits, Some(words::removal::WAITS));
    tap(&mut phone, RemovalTap::Sure);
    assert!(phone.model.base.player(player).is_some());
}

/// Nothing takes it back: no undo, not the entry that would.
#[test]
fn nothing_takes_it_back() {
    let mut phone = used();
    let player = remove(&mut phone, "Quilla");
    let target = phone.model.own.iter().find(|e| matches!(e.fact, Fact::ChildRemoved { .. })).expect("noted").id;
    let fact = Fact::EntryTakenBack { run: None, target, revision: Revision(9), back: true };
    let back = Entry { id: EntryId::new(0xbac, 0), clock: Clock(1), at: phone.model.now, fact, extra: None };
    phone.report(Report::Heard(vec![record::encode(&back)]));
    phone.db.insert(back.id.to_string(), record::encode(&back));
    check_gone(&mut phone, player);
}

/// Other phones: one that has the child learns of it from a file, is told before it takes it in, and keeps the removal when the file goes
/// again. Files from before say nothing any more.
#[test]
fn a_file_carries_the_removal_along() {
    let mut coach = used();
    let before = coach.copy();
    let mut other = Phone::other("Iva");
    take_in(&mut other, "old", &before);
    assert!(stored(&other).contains("Quilla"));
    let player = remove(&mut coach, "Quilla");
    let after = coach.copy();
    other.choose("copy.json", "new", &after);
    let removes = other.model.copy.offered.clone().expect("offered").preview.removes;
    let lead = |phone: &Phone| phone.model.copy.offered.clone().expect("offered").preview.lead;
    assert!(lead(&other).starts_with("Nothing counted is new, but"), "the balls of one who is removed count nothing");
    assert_eq!(
        removes.as_deref(),
        Some(
            "It removes Quilla for good, here too, and notes that have the name in them. That stays, also where the file is taken back."
        )
    );
    other.act(Action::ParcelAccepted);
    let answer = other.model.copy.answer.clone().expect("an answer");
    assert_eq!(answer.text, words::copies::TAKEN_REMOVES, "nobody is told that all of it can be taken back");
    let note = |phone: &Phone| phone.model.parcels.iter().find(|p| p.key == "new").map(|p| p.note.n_contacts);
    assert_eq!(note(&other), Some(0));
    check_gone(&mut other, player);
    other.act(Action::ParcelTakenBack("new".to_owned()));
    check_gone(&mut other, player);
    // The file of before once more, under another name and hash; and put back where it was taken back.
    take_in(&mut other, "again", &before);
    other.act(Action::ParcelTakenBack("old".to_owned()));
    other.act(Action::ParcelPutBack("old".to_owned()));
    check_gone(&mut other, player);
    // And back where the removal came from.
    take_in(&mut coach, "back", &before);
    check_gone(&mut coach, player);
}

/// The file with the removal may come before the one with the child.
#[test]
fn the_removal_may_come_first() {
    let mut coach = used();
    let before = coach.copy();
    let player = remove(&mut coach, "Quilla");
    let after = coach.copy();
    let mut other = Phone::other("Iva");
    take_in(&mut other, "new", &after);
    take_in(&mut other, "old", &before);
    check_gone(&mut other, player);
    assert_eq!(other.model.base.players().len(), 4, "Tove, Odile, Bram and Iva");
}

/// The worker fails: the screens have nothing of it, and what lies stored goes at the next start.
#[test]
fn broken_off_it_is_gone_through_again() {
    let mut phone = used();
    phone.fails = Some(Answer::Refused(words::work::DIED.to_owned()));
    let player = remove(&mut phone, "Quilla");
    assert_eq!(phone.model.base.player(player), None);
    assert!(phone.model.packed.values().all(|p| !p.summary.everyone().contains(&player)));
    assert_eq!(phone.model.storage.work.as_deref(), Some(words::work::DIED), "it is said");
    let left = phone.db.values().filter(|record| record.contains("Quilla"));
    let left: Vec<Entry> = left.map(|record| record::decode(record).expect("ours")).collect();
    let is_name = |entry: &Entry| matches!(entry.fact, Fact::PlayerAdded { .. }) && entry.id == player.0;
    assert!(
        left.len() == 1 && left.iter().all(is_name),
        "what lies loose goes at once, but for what the rest is found by"
    );
    phone.restart();
    check_gone(&mut phone, player);
}

#[test]
fn another_window_learns_of_it() {
    let mut phone = used();
    let mut window = phone.second_window();
    let player = remove(&mut phone, "Quilla");
    window.hear(&phone);
    assert_eq!(window.model.base.player(player), None);
    assert!(window.model.packed.values().all(|p| !p.summary.everyone().contains(&player)));
    assert!(!window.settings.clone().unwrap_or_default().contains("Quilla"), "nor does it write its words back");
    assert!(window.model.own.iter().all(|entry| !record::encode(entry).contains("Quilla")));
}

/// The invented squad of the demo too, over its whole season.
#[test]
fn in_the_demo_too() {
    let mut demo = Phone::demo();
    let child = demo.model.squad().into_iter().next().expect("a child");
    let n_before = demo.model.packed.values().filter(|p| p.summary.took_part(child.id)).count();
    assert!(n_before > 10);
    demo.act(Action::Go(Screen::Child(child.id)));
    tap(&mut demo, RemovalTap::Asked(child.id));
    tap(&mut demo, RemovalTap::Sure);
    let stored = stored(&demo);
    assert!(!stored.contains(&format!("\"{}\"", child.name)));
    assert!(demo.model.packed.values().all(|p| !p.summary.took_part(child.id)));
    demo.act(Action::Health(HealthTap::Check));
    let Some(Checked::Found(found)) = &demo.model.health.found else { panic!("checked") };
    assert_eq!((found.otherwise.len(), &found.unread), (0, &Vec::new()));
}

/// A ball that was another child's after all stays that child's, and one that was given to the child removed goes, from whomever.
#[test]
fn corrections_stand() {
    let mut phone = Phone::with_squad(SQUAD);
    let (quilla, tove, odile) = (phone.player("Quilla"), phone.player("Tove"), phone.player("Odile"));
    let (practice, run) = practised(&mut phone, &[3, 3, 3, 3]);
    phone.act(Action::Go(Screen::Contacts(run)));
    let rows = report::contacts(&phone.model, run).expect("contacts").rows;
    let fix = |player, row: usize| Action::ContactFixed {
        contact: rows[row].contact,
        player: Some(player),
        outcome: pass(2),
        step: 0,
    };
    // All four were Quilla's: two become Tove's, and of these one Quilla's again; one becomes Odile's.
    for action in [fix(tove, 0), fix(tove, 1), fix(quilla, 1), fix(odile, 2)] {
        phone.act(action);
    }
    phone.act(Action::Go(Screen::Today));
    let counts = |phone: &Phone| {
        let runs = &phone.model.packed[&practice].summary.runs[0];
        let of =
            |player| runs.children.iter().find(|(child, _)| *child == player).map_or(0, |(_, counts)| counts.tries());
        [of(quilla), of(tove), of(odile), runs.everyone.tries()]
    };
    assert_eq!(counts(&phone), [2, 1, 1, 4]);
    remove(&mut phone, "Quilla");
    assert_eq!(counts(&phone), [0, 1, 1, 2]);
    check_gone(&mut phone, quilla);
    phone.restart();
    assert_eq!(counts(&phone), [0, 1, 1, 2]);
}
