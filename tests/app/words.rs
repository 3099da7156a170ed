//! Sentences that once were untrue, or not what a coach would say.

use peppertally::app::action::Action;
use peppertally::app::effect::{LockState, Report};
use peppertally::app::screen::Screen;
use peppertally::app::view::board::Cover;
use peppertally::app::view::report::{after, run_report};
use peppertally::app::view::share;
use peppertally::app::view::today::today;
use peppertally::app::words::counts::{rows, share as share_of, when, when_ever};
use peppertally::app::words::{board_lines, report, said_anew};
use peppertally::domain::ids::Place;
use peppertally::domain::skill::{Outcome, ServeOutcome};
use peppertally::domain::time::Stamp;
use peppertally::stats::proportion::Count;
use peppertally::stats::rows::Rows;

use super::phone::{Phone, pass};

#[test]
fn nearly_all_and_nearly_none() {
    let of = |good, tries| share_of(Count::new(good, tries).expect("a count"));
    assert_eq!((of(200, 200).as_str(), of(0, 200).as_str()), ("nearly all", "nearly none"));
}

/// After promises that it can be read next year: then the year stands there.
#[test]
fn another_year_is_named() {
    let at = Stamp { wall_ms: 1_795_968_300_000, offset_min: 60, mono_ms: 0 };
    let next_year = Stamp { wall_ms: at.wall_ms + 60 * 86_400_000, ..at };
    assert_eq!(when(at, at), "Sunday 29 November, 17:05");
    assert_eq!(when(at, next_year), when_ever(at));
    assert!(when_ever(at).contains(" November 2026, "), "{}", when_ever(at));
    let mut phone = Phone::with_squad("Mira\nTove\nOdile");
    phone.drill(0);
    phone.act(Action::PlaceTapped(Place(0), pass(3)));
    phone.end_practice();
    assert!(!after(&phone.model).practices[0].when.contains("2026"));
    for _ in 0..60 {
        phone.next_day();
    }
    assert!(after(&phone.model).practices[0].when.contains(" 2026, "));
    // What a file says of itself is kept, so it names its year at once.
    let mut other = Phone::other("Iva");
    other.choose("copy.json", "k", &phone.copy());
    assert!(share::share(&other.model).parcel.expect("a preview").from.contains(" 2027, "));
}

/// A count of fast swings says "at least" and carries a caution; no other report does.
#[test]
fn fast_swings_say_at_least() {
    let mut phone = Phone::with_squad("Mira\nTove\nOdile");
    phone.drill(3);
    phone.act(Action::OutcomeTapped(Outcome::Serve { outcome: ServeOutcome::Net, fast: false }));
    let Screen::Run(run) = phone.model.screen else { panic!("run") };
    assert_eq!(run_report(&phone.model, run).unwrap().caution, None);
    phone.act(Action::OutcomeTapped(Outcome::Serve { outcome: ServeOutcome::In, fast: true }));
    let report = run_report(&phone.model, run).unwrap();
    assert_eq!(report.sections[0].rows[1].more.as_deref(), Some("at least 1 fast swing"));
    assert!(report.caution.unwrap().contains("qualified staff come first"));
}

/// The second of two taps that say the same is heard too, and so is the third.
#[test]
fn the_same_text_is_said_again() {
    let mut said = String::new();
    for _ in 0..4 {
        let next = said_anew(&said, "Mira, stood 3, just now".to_owned());
        assert_ne!(next, said);
        assert_eq!(next.trim(), "Mira, stood 3, just now");
        said = next;
    }
}

/// Until the lock has answered nothing is said of another window.
#[test]
fn no_other_window_is_named_before_the_lock_has_answered() {
    let mut phone = Phone::with_squad("Mira\nTove\nOdile");
    phone.drill(0);
    phone.act(Action::PlaceTapped(Place(0), pass(3)));
    phone.restart_asking();
    assert_eq!(phone.board().cover, Some(Cover::Asking));
    phone.report(Report::Lock(LockState::Held));
    assert_eq!(phone.board().cover, None);
}

/// A pause shows sentences; a pace only after ten seconds of play, and never of taps that came all at once.
#[test]
fn the_calm_view_speaks_in_sentences() {
    let of = |good, tries| Count::new(good, tries).expect("a count");
    for (all, last, tries, said) in [
        (of(0, 1), of(0, 1), "-", ""),
        (of(6, 8), of(6, 8), "++++++--", "best 6 in a row"),
        (of(1, 2), of(1, 2), "-+", ""),
        // Nothing was there to beat.
        (of(3, 3), of(3, 3), "+++", "3 in a row now"),
        (of(3, 5), of(3, 5), "+-+-++", "2 in a row now"),
        // The best is beaten, and not before.
        (of(4, 5), of(4, 5), "++-++", "2 in a row now, level with the best"),
        (of(5, 6), of(5, 6), "++-+++", "3 in a row now, the best yet"),
        (of(18, 22), of(7, 10), "+++++++++-+++", "7 good of the last ten; 3 in a row now, best 9"),
        (of(18, 22), of(7, 10), "+++++++++-+", "7 good of the last ten; best 9 in a row"),
    ] {
        let mut row = Rows::default();
        tries.chars().for_each(|c| row.note(c == '+'));
        assert_eq!(rows(all, last, row), said);
    }
    for (n_taps, pace) in [(4, None), (9, Some("14 balls a minute"))] {
        let mut phone = Phone::with_squad("Mira\nTove\nOdile");
        phone.drill(0);
        for _ in 0..n_taps {
            phone.act(Action::PlaceTapped(Place(0), pass(3)));
        }
        for _ in 0..3 {
            phone.report(Report::Ticked);
        }
        assert_eq!(phone.board().calm.expect("a pause").pace.as_deref(), pace, "{n_taps} taps");
    }
}

/// Of a run that was finished a minute ago nobody says "last time".
#[test]
fn a_run_of_this_practice_is_todays() {
    let last = |phone: &Phone| today(&phone.model).drills[0].last.as_deref().map(|line| line.replace('\u{a0}', " "));
    let mut phone = Phone::with_squad("Mira\nTove\nOdile");
    phone.drill(0);
    phone.act(Action::PlaceTapped(Place(0), pass(3)));
    phone.act(Action::Finish);
    assert_eq!(last(&phone).as_deref(), Some("Today 1 good of 1"));
    phone.end_practice();
    phone.next_day();
    assert_eq!(last(&phone).as_deref(), Some("Last time 1 good of 1"));
}

/// Found in review: at every pause of the told board stood "0 good of the last 0".
#[test]
fn a_pause_says_nothing_of_the_last_none() {
    let mut phone = Phone::with_squad("Mira\nTove\nOdile");
    phone.drill(5);
    phone.act(Action::ToldTapped(phone.player("Mira"), 7));
    for _ in 0..3 {
        phone.report(Report::Ticked);
    }
    let line = &phone.board().calm.expect("a pause").lines[0];
    assert_eq!((line.rate.as_str(), line.rows.as_str()), ("7 of 10, about 4 to 9 in 10", ""));
}

/// A phone without a name calls itself "this phone", which is untrue of its file anywhere else. Found at the second trial.
#[test]
fn a_file_of_a_phone_without_a_name() {
    use peppertally::app::words::{THIS_PHONE, copies::parcel_from};
    let from = |names: &[&str]| parcel_from(&names.iter().map(|n| (*n).to_owned()).collect::<Vec<_>>(), "today");
    assert_eq!(from(&[THIS_PHONE]), "From a phone without a name, written today");
    assert_eq!(from(&["Ana's phone"]), "From Ana's phone, written today");
    assert_eq!(from(&[]), "Written today");
}

/// Places in a line, and figures that say what they count.
#[test]
fn places_and_figures_in_words() {
    let waits: Vec<String> = [0, 1, 2, 3, 9, 10, 11, 12, 20, 21, 22, 110].map(board_lines::waits).to_vec();
    let said = ["next", "then", "3rd", "4th", "10th", "11th", "12th", "13th", "21st", "22nd", "23rd", "111th"];
    assert_eq!(waits, said);
    let group = ["Group 1 (Mira)".to_owned()];
    assert_eq!(board_lines::over_groups(&group, 10), "Group 1 (Mira) has it, with 10 good ones.");
    assert_eq!(board_lines::over_groups(&group, 1), "Group 1 (Mira) has it, with 1 good one.");
    assert_eq!(board_lines::series_before(10, Some(6), 8).as_deref(), Some("last ten 6, best 8"));
    assert_eq!(board_lines::series_before(5, Some(3), 4).as_deref(), Some("last series 3, best 4"));
    assert_eq!(report::own_goal(8), "own next step: 8");
}

/// The longest time that can be stored is told, not overflowed.
#[test]
fn the_longest_time_is_told() {
    assert_eq!(report::on_court(1, u32::MAX), "1 rally, 71582 min");
}

/// Words of the code that say nothing to a coach stand in no sentence.
#[test]
fn no_word_of_the_code_is_on_a_screen() {
    let told = |line: &str| -> String { line.trim().split('"').skip(1).step_by(2).collect::<Vec<_>>().join(" ") };
    let theirs =
        ["entry", "entries", "parcel", "parcels", "identity", "log", "record", "records", "device", "revision"];
    let mut folders = vec![std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("src/app/words")];
    let (mut n_files, mut found) = (0, Vec::new());
    while let Some(folder) = folders.pop() {
        for path in std::fs::read_dir(folder).expect("there").map(|entry| entry.expect("one").path()) {
            if path.is_dir() {
                folders.push(path);
                continue;
            }
            n_files += 1;
            let text = std::fs::read_to_string(&path).expect("ours");
            for line in text.lines().filter(|line| !line.trim_start().starts_with("//")).map(told) {
                let words = line.split(|c: char| !c.is_alphanumeric() && c != '-').map(str::to_lowercase);
                found.extend(words.filter(|word| theirs.contains(&word.as_str())).map(|word| (word, line.clone())));
            }
        }
    }
    assert!(n_files > 40, "{n_files}");
    assert!(found.is_empty(), "{found:#?}");
}
