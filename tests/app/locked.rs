//! Locked copies: what was asked for under a lock never leaves without it, the words are stored nowhere, and a locked file that was opened is
//! looked at as any other. The lock itself is tested in `lock/`.

use std::fs;

use peppertally::app::action::{Action, CopyHow};
use peppertally::app::effect::{Effect, Report};
use peppertally::app::lock::{LockFault, LockJob, LockTap, Secret};
use peppertally::app::screen::Screen;
use peppertally::app::update::MAX_FILE_BYTES;
use peppertally::app::view::share::{self, ShareView};
use peppertally::app::words;
use peppertally::app::work::{Goes, Job};

use super::phone::Phone;
use super::steps::{on_board, practised};

const WORDS: &str = "four words stand apart";

fn secret(words: &str) -> Secret {
    Secret::new(words.to_owned())
}

fn wanted(phone: &mut Phone, how: CopyHow) {
    phone.effects.clear();
    phone.act(Action::Lock(LockTap::Wanted(how, secret(WORDS))));
}

fn view(phone: &Phone) -> ShareView {
    share::share(&phone.model)
}

fn said(phone: &Phone) -> String {
    view(phone).answer.map(|answer| answer.text).unwrap_or_default()
}

/// The files that were offered since the effects were last cleared, by name.
fn offered(phone: &Phone) -> Vec<&str> {
    phone
        .effects
        .iter()
        .filter_map(|e| if let Effect::Offer { name, .. } = e { Some(name.as_str()) } else { None })
        .collect()
}

fn asked_of_lock(phone: &Phone) -> Vec<&LockJob> {
    phone.effects.iter().filter_map(|e| if let Effect::Lock(job) = e { Some(job) } else { None }).collect()
}

fn phone() -> Phone {
    let mut phone = Phone::with_squad("Mira\nTove");
    practised(&mut phone, &[3; 5]);
    phone.act(Action::Go(Screen::Share));
    phone
}

#[test]
fn a_copy_is_written_then_locked_then_offered() {
    for (how, text, end) in [(CopyHow::Download, false, "-locked.age"), (CopyHow::ShareSheet, true, "-locked.txt")] {
        let mut phone = phone();
        wanted(&mut phone, how);
        assert_eq!(asked_of_lock(&phone), [&LockJob::Lock { words: secret(WORDS), text }]);
        assert!(offered(&phone).is_empty(), "nothing leaves before it is locked");
        assert!(view(&phone).writing && view(&phone).locking);
        phone.wait(0, 0);
        phone.report(Report::Locked(Ok(900)));
        // By the phone's clock two ticks have gone by since the tap: a share sheet would come too late, and waits for another.
        if how == CopyHow::ShareSheet {
            assert!(offered(&phone).is_empty() && view(&phone).ready);
            phone.act(Action::CopySent);
        }
        let [name] = offered(&phone)[..] else { panic!("{:?}", offered(&phone)) };
        assert!(name.starts_with("peppertally-2026-") && name.ends_with(end), "{name}");
        phone.report(Report::CopyLeft { how, left: Ok(true) });
        if how == CopyHow::Download {
            phone.act(Action::CopySeen(true));
        }
        assert!(said(&phone).contains(words::copies::ALL_IN_IT), "{}", said(&phone));
        assert!(!view(&phone).writing && !view(&phone).locking);
    }
}

#[test]
fn the_words_are_stored_nowhere_and_printed_nowhere() {
    let mut phone = phone();
    wanted(&mut phone, CopyHow::Download);
    let written = format!("{:?}", phone.effects.iter().filter(|e| !matches!(e, Effect::Lock(_))).collect::<Vec<_>>());
    assert!(!written.contains(WORDS));
    assert!(!format!("{:?} {:?}", asked_of_lock(&phone), phone.model.copy).contains(WORDS));
    phone.report(Report::Locked(Ok(900)));
    phone.report(Report::CopyLeft { how: CopyHow::Download, left: Ok(true) });
    let settings = phone.model.settings.to_json();
    assert!(
        phone.db.values().chain(phone.settings.iter()).chain([&settings]).all(|text| !text.contains("stand apart"))
    );
}

/// Every way in which locking can fail, and every tap meanwhile: nothing is offered.
#[test]
fn what_was_asked_for_under_a_lock_never_leaves_without_it() {
    for fault in [
        LockFault::Chance,
        LockFault::Large,
        LockFault::Died,
        LockFault::NoEnd,
        LockFault::NotStarted,
        LockFault::OtherBuild,
        LockFault::Damaged,
    ] {
        let mut phone = phone();
        wanted(&mut phone, CopyHow::ShareSheet);
        phone.act(Action::CopySent);
        phone.act(Action::CopyWanted(CopyHow::Download, Goes::default()));
        phone.act(Action::Go(Screen::Today));
        phone.act(Action::Go(Screen::Share));
        phone.report(Report::Locked(Err(fault)));
        phone.act(Action::CopySent);
        assert!(offered(&phone).is_empty(), "{fault:?}");
        assert!(said(&phone).contains("othing has left this phone"), "{fault:?}: {}", said(&phone));
        assert!(!view(&phone).writing && !view(&phone).ready, "it can be tried again");
    }
    // Given up, and an answer that comes all the same.
    let mut phone = phone();
    wanted(&mut phone, CopyHow::Download);
    phone.act(Action::Lock(LockTap::GivenUp));
    assert_eq!(asked_of_lock(&phone).last(), Some(&&LockJob::Stop));
    assert!(!view(&phone).writing);
    phone.report(Report::Locked(Ok(900)));
    assert!(offered(&phone).is_empty());
    // The copy itself could not be written.
    phone.fails = Some(peppertally::app::work::Answer::Refused("no room".to_owned()));
    wanted(&mut phone, CopyHow::Download);
    assert!(asked_of_lock(&phone).is_empty());
    phone.fails = None;
    // A plain one after it is a plain one.
    phone.effects.clear();
    phone.act(Action::CopyWanted(CopyHow::Download, Goes::default()));
    assert!(asked_of_lock(&phone).is_empty() && offered(&phone)[0].ends_with(".json"));
}

/// One that stands ready while more is noted can't be locked again: its words are gone.
#[test]
fn a_locked_copy_that_is_behind_is_not_sent() {
    let mut phone = phone();
    wanted(&mut phone, CopyHow::ShareSheet);
    phone.wait(5_000, 5_000);
    phone.report(Report::Locked(Ok(900)));
    assert!(view(&phone).ready);
    phone.act(Action::RosterTyped("Iva".to_owned()));
    phone.act(Action::RosterTaken);
    phone.act(Action::CopySent);
    assert!(offered(&phone).is_empty());
    assert_eq!((said(&phone).as_str(), view(&phone).ready), (words::lock::MORE_SINCE, false));
}

#[test]
fn no_words_lock_nothing() {
    let mut phone = phone();
    for nothing in ["", " ", "\t\n"] {
        phone.effects.clear();
        phone.act(Action::Lock(LockTap::Wanted(CopyHow::Download, secret(nothing))));
        assert!(phone.effects.is_empty(), "{nothing:?}");
    }
    // A phone's own space after the last word is none of them.
    phone.act(Action::Lock(LockTap::Wanted(CopyHow::Download, secret("blue net "))));
    assert_eq!(asked_of_lock(&phone), [&LockJob::Lock { words: secret("blue net"), text: false }]);
}

fn locked_file() -> Vec<u8> {
    fs::read("lock/tests/fixtures/binary.age").expect("a fixture")
}

/// What comes out of the lock is looked at, and asked for, as any other copy.
#[test]
fn a_locked_file_asks_for_its_words_and_is_then_as_any() {
    let copy = fs::read("lock/tests/fixtures/content.json").expect("a fixture");
    let mut phone = phone();
    phone.choose("anas.age", "k1", &locked_file());
    let locked = view(&phone).locked.expect("asked for its words");
    assert_eq!((locked.name.as_str(), locked.opening), ("anas.age", false));
    assert!(view(&phone).parcel.is_none() && !view(&phone).reading && view(&phone).looking.is_none());

    phone.effects.clear();
    phone.act(Action::Lock(LockTap::Words(secret("other words"))));
    assert_eq!(asked_of_lock(&phone), [&LockJob::Open { words: secret("other words") }]);
    assert!(view(&phone).locked.is_some_and(|l| l.opening));
    // A second tap asks for nothing more.
    phone.act(Action::Lock(LockTap::Words(secret("other words"))));
    assert_eq!(asked_of_lock(&phone).len(), 1);
    phone.report(Report::Locked(Err(LockFault::Words)));
    assert!(said(&phone).starts_with("These words don’t open it."));
    assert!(view(&phone).locked.is_some_and(|l| !l.opening), "and it asks again");

    phone.act(Action::Lock(LockTap::Words(secret(WORDS))));
    assert_eq!(said(&phone), "", "what was said of the former try is gone");
    phone.file = Some(("k2".to_owned(), copy));
    phone.deaf = true;
    phone.report(Report::Locked(Ok(2_136)));
    phone.report(Report::Looking(40));
    assert_eq!(view(&phone).looking.expect("being looked at").at, 40, "how far it is");
    phone.deaf = false;
    let job = Job::Look { records: Vec::new() };
    phone.answer_late(job);
    let parcel = view(&phone).parcel.expect("looked at");
    assert!(parcel.name == "anas.age" && !parcel.preview.nothing_new && view(&phone).locked.is_none());
    phone.act(Action::ParcelAccepted);
    assert_eq!(phone.model.parcels.len(), 1);
    // It lies there open, as the copy that it is, and is read at the next start.
    phone.restart_elsewhere();
    assert!(phone.model.storage.aside.is_empty());
}

#[test]
fn a_file_that_no_words_open_is_put_away_with_the_reason() {
    for (fault, reason) in [
        (LockFault::Damaged, "cut off"),
        (LockFault::Work, "more work than a phone should do"),
        (LockFault::Key, "a key and not with words"),
        (LockFault::Format, "doesn’t know"),
        (LockFault::Large, "100 MB"),
    ] {
        let mut phone = phone();
        phone.choose("anas.age", "k1", &locked_file());
        phone.act(Action::Lock(LockTap::Words(secret(WORDS))));
        phone.report(Report::Locked(Err(fault)));
        assert!(said(&phone).contains(reason), "{fault:?}: {}", said(&phone));
        assert!(view(&phone).locked.is_none() && view(&phone).parcel.is_none());
    }
}

#[test]
fn opening_can_be_given_up_put_away_and_replaced() {
    let mut phone = phone();
    let open = |phone: &mut Phone| {
        phone.choose("anas.age", "k1", &locked_file());
        phone.act(Action::Lock(LockTap::Words(secret(WORDS))));
        phone.effects.clear();
    };
    open(&mut phone);
    phone.act(Action::Lock(LockTap::GivenUp));
    assert!(view(&phone).locked.is_some_and(|l| !l.opening));
    assert_eq!(asked_of_lock(&phone), [&LockJob::Stop]);

    open(&mut phone);
    phone.act(Action::Lock(LockTap::PutAway));
    assert_eq!((view(&phone).locked, asked_of_lock(&phone)), (None, vec![&LockJob::Stop]));

    open(&mut phone);
    phone.choose("another.json", "k3", b"{}");
    assert_eq!((view(&phone).locked, asked_of_lock(&phone)), (None, vec![&LockJob::Stop]));
    // What the one that was stopped still says is about no file that is here.
    phone.effects.clear();
    phone.report(Report::Locked(Ok(5)));
    assert!(phone.effects.is_empty());
}

/// Dropped, shared with the app or opened with it: as from the input, on its screen.
#[test]
fn a_file_that_comes_by_another_way_is_looked_at() {
    let copy = fs::read("lock/tests/fixtures/content.json").expect("a fixture");
    let mut phone = phone();
    phone.act(Action::Go(Screen::Squad));
    phone.file = Some(("k".to_owned(), copy.clone()));
    let came = |n_bytes: u64, others: usize| Report::FileCame { name: "anas.json".to_owned(), n_bytes, others };
    phone.report(came(2_136, 0));
    assert_eq!(phone.model.screen, Screen::Share);
    assert!(view(&phone).parcel.is_some() && phone.model.parcels.is_empty(), "looked at, and nothing taken in");
    phone.report(came(2_136, 2));
    assert_eq!(said(&phone), words::lock::ONE_AT_A_TIME);
    phone.report(came(MAX_FILE_BYTES + 1, 0));
    assert_eq!((said(&phone).as_str(), view(&phone).parcel), (words::trouble::TOO_LARGE, None));
    phone.report(Report::FileLost);
    assert_eq!(said(&phone), words::lock::NOT_KEPT_FOR_US);
}

/// A phone that is propped up for children stays theirs; the file waits on its screen.
#[test]
fn a_file_that_comes_takes_no_station_from_the_children() {
    let mut phone = on_board("Mira\nTove\nOdile\nBram", 6, |spec| spec);
    phone.act(Action::StationOpened(None));
    let board = phone.model.screen;
    assert!(phone.model.runs.values().any(|run| run.main.station.is_some()), "a station is open");
    phone.file = Some(("k".to_owned(), fs::read("lock/tests/fixtures/content.json").expect("a fixture")));
    phone.report(Report::FileCame { name: "anas.json".to_owned(), n_bytes: 2_136, others: 0 });
    assert_eq!(phone.model.screen, board);
    assert!(view(&phone).parcel.is_some());
}

#[test]
fn ways_in_are_heard_of_once_the_storage_is_open() {
    assert!(Phone::new().effects.contains(&Effect::HearOfFiles));
}

#[test]
fn strength_is_said_plainly() {
    for (words, begins) in [
        ("", "Four words or more"),
        ("net", "Easy to guess"),
        ("aaaaaaaaaaaaaaaaaaaaaaaaaaaa", "Easy to guess"),
        ("lasse2014x", "Somebody with time"),
        ("blue net and whistle", "Hard to guess"),
        ("four words stand apart ", "Hard to guess"),
    ] {
        assert!(words::lock::strength(words).starts_with(begins), "{words}: {}", words::lock::strength(words));
    }
}

/// A job that crosses to the worker never holds words.
#[test]
fn the_copys_own_job_knows_no_words() {
    let mut phone = phone();
    wanted(&mut phone, CopyHow::Download);
    let job =
        phone.effects.iter().find_map(|e| if let Effect::Work(job @ Job::Copy { .. }) = e { Some(job) } else { None });
    assert!(!job.expect("a copy").to_text().contains(WORDS));
}
