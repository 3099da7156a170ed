//! Under stress, as far as no browser is needed: databases of every version that was shipped, a roll-back to an older app, a page killed in a job,
//! other hours on the wall. What needs a browser is in `tests/browser/tests/app/{survive,troubles,stress}.rs`; the whole list in DEVELOPERS.

use std::collections::BTreeMap;
use std::path::Path;

use peppertally::app::action::Action;
use peppertally::app::health::{Checked, HealthTap};
use peppertally::app::notes::NotesTap;
use peppertally::app::screen::Screen;
use peppertally::app::view::report;
use peppertally::app::words;
use peppertally::app::work::Answer;
use peppertally::domain::drill::*;
use peppertally::domain::ids::{Place, PracticeId};
use peppertally::domain::skill::{GoodFrom, Skill};
use serde::{Deserialize, Serialize};

use super::phone::{Phone, pass};
use super::steps::{practised, take_in};

/// What a phone has stored, as text.
#[derive(Clone, Serialize, Deserialize)]
struct Stored {
    entries: BTreeMap<String, String>,
    blocks: BTreeMap<String, String>,
    summaries: BTreeMap<String, String>,
    parcels: BTreeMap<String, String>,
    notes: BTreeMap<String, String>,
    settings: Option<String>,
}

impl Stored {
    fn of(phone: &Phone) -> Stored {
        let texts = |of: &BTreeMap<String, Vec<u8>>| {
            of.iter().map(|(key, bytes)| (key.clone(), String::from_utf8(bytes.clone()).expect("text"))).collect()
        };
        Stored {
            entries: phone.db.clone(),
            blocks: texts(&phone.blocks),
            summaries: phone.summaries.clone(),
            parcels: texts(&phone.parcels),
            notes: phone.notes.clone(),
            settings: phone.settings.clone(),
        }
    }

    fn opened(self) -> Phone {
        let bytes = |of: BTreeMap<String, String>| of.into_iter().map(|(key, text)| (key, text.into_bytes())).collect();
        let mut phone = Phone::new();
        phone.db = self.entries;
        phone.blocks = bytes(self.blocks);
        phone.summaries = self.summaries;
        phone.parcels = bytes(self.parcels);
        phone.notes = self.notes;
        phone.settings = self.settings;
        phone.restart();
        phone
    }
}

/// A packed practice with a note, a file taken in, a practice that is still on.
fn made() -> Phone {
    let mut other = Phone::other("Iva\nRemi");
    practised(&mut other, &[1, 1, 3]);
    let mut phone = Phone::with_squad("Mira 7\nTove\nOdile\nBram");
    practised(&mut phone, &[3, 2, 0, 3]);
    take_in(&mut phone, "theirs", &other.copy());
    phone.act(Action::Notes(NotesTap::Wanted(None, Some(phone.player("Tove")))));
    phone.act(Action::Notes(NotesTap::Typed("Calm in the last round".to_owned())));
    phone.act(Action::Notes(NotesTap::Kept));
    phone.act(Action::Go(Screen::Today));
    phone.drill(0);
    (0..2).for_each(|_| phone.act(Action::PlaceTapped(Place(1), pass(2))));
    phone
}

#[track_caller]
fn check_whole(phone: &mut Phone) {
    assert_eq!(phone.board().figures.of, "good of 2", "the run that was on is on again");
    assert_eq!(phone.model.base.players().len(), 6);
    assert!(phone.model.storage.aside.is_empty(), "{:?}", phone.model.storage.aside);
    let what: Vec<String> = report::after(&phone.model).practices.into_iter().map(|row| row.what).collect();
    assert_eq!(what, ["1 drill, 3 contacts", "1 drill, 2 contacts", "1 drill, 4 contacts"]);
    phone.act(Action::Health(HealthTap::Check));
    let Some(Checked::Found(found)) = &phone.model.health.found else { panic!("checked") };
    assert_eq!((found.otherwise.len(), &found.unread), (0, &Vec::new()));
    let copy = phone.copy();
    let mut third = Phone::new();
    take_in(&mut third, "all", &copy);
    assert_eq!(third.model.base.players().len(), 6, "a copy of it is taken in elsewhere");
}

/// Frozen, one a version.
const DATABASES: &[&str] = &["fold-11"];

/// `fold-11` is the database as the app had it before a child could be removed. A new one is written by its first
/// run, which fails, and then committed; those before stay as they are.
#[test]
fn every_database_that_was_shipped_opens() {
    for name in DATABASES {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("tests/fixtures/database-{name}.json"));
        if !path.exists() {
            std::fs::write(&path, serde_json::to_string_pretty(&Stored::of(&made())).unwrap()).unwrap();
            panic!("{name} was not there and is now written: read it, commit it, run again");
        }
        let stored: Stored = serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
        let mut phone = stored.opened();
        check_whole(&mut phone);
        phone.restart();
        check_whole(&mut phone);
    }
}

/// A newer app was here between two practices and is gone again: its summaries are made anew, what it wrote and this one doesn't know is
/// kept and goes into every copy, its settings that are unknown here hurt nothing.
#[test]
fn a_roll_back_between_practices() {
    let phone = made();
    let mut stored = Stored::of(&phone);
    for summary in stored.summaries.values_mut() {
        *summary = r#"{"fold":999,"weather":"hot"}"#.to_owned();
    }
    let newer =
        r#"{"v":1,"id":"00000000000000ee.00000000","c":77,"w":1795968300000,"o":60,"m":5,"k":"shoes-tied","by":"all"}"#;
    stored.entries.insert("00000000000000ee.00000000".to_owned(), newer.to_owned());
    let settings = stored.settings.take().expect("kept");
    stored.settings = Some(settings.replacen('{', r#"{"sky":"blue","#, 1));
    let mut back = stored.opened();
    check_whole(&mut back);
    back.act(Action::Finish);
    back.end_practice();
    back.act(Action::Go(Screen::Today));
    back.restart();
    let copy = String::from_utf8(back.copy()).expect("text");
    assert!(copy.contains("shoes-tied"), "what isn't known is kept");
}

/// Killed while summaries of an older app are made again, and while a file is taken in: it is as before, and done at the next chance.
#[test]
fn killed_while_it_migrates_and_takes_in() {
    let phone = made();
    let mut stored = Stored::of(&phone);
    stored.summaries.values_mut().for_each(|summary| *summary = "{}".to_owned());
    let mut migrating = Phone::new();
    migrating.fails = Some(Answer::Refused(words::work::DIED.to_owned()));
    migrating.db = stored.entries.clone();
    migrating.summaries = stored.summaries.clone();
    migrating.report(peppertally::app::effect::Report::Opened(Box::new(peppertally::app::effect::Opened {
        entries: stored.entries.iter().map(|(k, v)| (k.clone(), Ok(v.clone()))).collect(),
        summaries: stored.summaries.iter().map(|(k, v)| (k.clone(), Ok(v.clone()))).collect(),
        ..Default::default()
    })));
    assert_eq!(migrating.model.storage.work.as_deref(), Some(words::work::DIED), "lists miss them, which is said");
    assert_eq!(migrating.summaries, stored.summaries, "nothing was written");
    check_whole(&mut stored.opened());

    let mut phone = phone;
    let bytes = phone.copy();
    let mut other = Phone::new();
    other.fails = Some(Answer::Refused(words::work::DIED.to_owned()));
    take_in(&mut other, "all", &bytes);
    assert!(other.parcels.is_empty() && other.notes.is_empty());
    other.restart();
    assert_eq!(other.model.base.players().len(), 0, "nothing of it, rather than a part");
    take_in(&mut other, "all", &bytes);
    assert_eq!(other.model.base.players().len(), 6);
}

fn board_of_time() -> Phone {
    let mut phone = Phone::with_squad("Mira\nTove\nOdile\nBram");
    phone.new_drill(DrillSpec {
        name: "On time".to_owned(),
        skill: Skill::Pass,
        board: Board::Floor { n_places: 3 },
        rule: Rule::InTime(InTime { seconds: 600, whose: Whose::Group }),
        good_from: GoodFrom::Grade(peppertally::domain::skill::PassGrade::Moved),
        feed: DrillSpec::EASY,
        on_floor: OnFloor::default(),
    });
    phone.act(Action::ClockTapped);
    phone
}

/// The hour on the wall is another in mid-run: summer time ends and comes, and the phone flies to another zone and back. Order, counts and the
/// run's clock go by neither, over a new page too.
#[test]
fn another_hour_on_the_wall() {
    for offset_min in [0, 120, -300, 330] {
        let mut phone = board_of_time();
        let tap = |phone: &mut Phone| phone.act(Action::PlaceTapped(Place(0), pass(3)));
        (0..3).for_each(|_| tap(&mut phone));
        let practice = phone.model.practice_today().expect("on").id;
        let (left, undo) = (left_s(&phone), phone.board().undo);
        phone.offset_min = offset_min;
        tap(&mut phone);
        assert_eq!(n_contacts(&phone), 4);
        assert!((2..=5).contains(&(left - left_s(&phone))), "a tap and its answer, some seconds of play");
        assert_eq!(phone.board().undo.is_some(), undo.is_some());
        phone.restart();
        assert_eq!(n_contacts(&phone), 4, "the run is on screen again, at {offset_min}");
        assert_eq!(phone.model.practice_today().map(|p| p.id), Some(practice));
        phone.offset_min = 60;
        tap(&mut phone);
        let Screen::Run(run) = phone.model.screen else { panic!("a board") };
        let order: Vec<_> = phone.model.runs[&run].main.contacts.iter().map(|c| c.at.wall_ms).collect();
        assert!(order.is_sorted() && order.len() == 5);
        ended(&mut phone, practice);
    }
}

fn ended(phone: &mut Phone, practice: PracticeId) {
    phone.act(Action::Finish);
    phone.end_practice();
    phone.act(Action::Go(Screen::Today));
    phone.restart();
    assert_eq!(report::after(&phone.model).practices[0].what, "1 drill, 5 contacts");
    assert!(phone.model.packed.contains_key(&practice));
}

fn n_contacts(phone: &Phone) -> usize {
    let Screen::Run(run) = phone.model.screen else { panic!("a board") };
    phone.model.runs[&run].main.contacts.len()
}

fn left_s(phone: &Phone) -> u32 {
    let Screen::Run(run) = phone.model.screen else { panic!("a board") };
    let run = &phone.model.runs[&run];
    let ms = peppertally::app::update::left_ms(&phone.model, run).expect("a clock");
    ms / 1000
}
