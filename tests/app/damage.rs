//! Damaged or forged records: nothing overflows, the first content stands, what can't be read is kept aside and shown.

use peppertally::app::action::Action;
use peppertally::app::effect::{Effect, Opened, Report, Trouble};
use peppertally::app::screen::Screen;
use peppertally::app::view::share;
use peppertally::app::view::today::{self, NoticeKind};
use peppertally::domain::drill::Rule;
use peppertally::domain::entry::{Fact, Turn};
use peppertally::domain::ids::{Clock, Place};
use peppertally::wire::record;

use super::phone::{Phone, pass};

const SQUAD: &str = "Mira\nTove\nOdile\nBram\nIva\nLasse";

/// Records with the highest of all clocks, which only damage can bring: they count, and move no clock.
#[test]
fn the_highest_clock_moves_nothing() {
    let mut phone = Phone::with_squad(SQUAD);
    phone.drill(0);
    phone.act(Action::PlaceTapped(Place(0), pass(3)));
    for text in phone.db.values_mut() {
        let mut entry = record::decode(text).expect("ours");
        entry.clock = Clock(u64::MAX);
        *text = record::encode(&entry);
    }
    phone.restart();
    phone.act(Action::PlaceTapped(Place(0), pass(3)));
    assert!(phone.model.writer.clock() < Clock(1_000));
    assert_eq!(phone.board().figures.of, "good of 2");
}

/// A turn that was started over 255 times, and a feed changed in it.
#[test]
fn the_highest_restart_stands_still() {
    let mut phone = Phone::with_squad(SQUAD);
    phone.drill(1);
    phone.act(Action::PlaceTapped(Place(0), pass(3)));
    for text in phone.db.values_mut() {
        let mut entry = record::decode(text).expect("ours");
        if let Fact::ContactNoted { contact, .. } = &mut entry.fact {
            contact.turn = contact.turn.map(|turn| Turn { restart: u8::MAX, ..turn });
            *text = record::encode(&entry);
        }
    }
    phone.restart();
    let run = phone.model.run_on().expect("on");
    assert!(matches!(run.spec.rule, Rule::Transition(_)));
    phone.act(Action::EasierFeedTaken);
    assert_eq!(phone.board().duel.expect("a duel").offer_easier, None);
    assert_eq!(phone.board().figures.of, "good of 1");
}

/// A record with another clock: the same identity, other content.
fn forged(text: &str) -> String {
    let mut entry = record::decode(text).expect("ours");
    entry.clock = Clock(entry.clock.0 + 1_000);
    record::encode(&entry)
}

fn set_aside(phone: &Phone) -> Vec<String> {
    let records =
        phone.effects.iter().filter_map(|e| if let Effect::SetAside(records) = e { Some(records) } else { None });
    records.flatten().map(|(_, text)| text.clone()).collect()
}

fn saved(phone: &Phone, record: &str) -> bool {
    phone.effects.iter().any(|e| matches!(e, Effect::Save(records) if records.iter().any(|(_, text)| text == record)))
}

/// A second copy whose content differs from the record is kept aside and shown; the record stands.
#[test]
fn a_second_copy_never_overwrites() {
    let mut phone = Phone::with_squad(SQUAD);
    phone.drill(0);
    phone.act(Action::PlaceTapped(Place(0), pass(3)));
    let (key, text) = phone.db.iter().find(|(_, text)| text.contains("contact-noted")).expect("a contact");
    let (key, text) = (key.clone(), text.clone());
    let others = [forged(&text), forged(&forged(&text))];
    phone.restart();
    for other in &others {
        let entries = phone.db.iter().map(|(k, v)| (k.clone(), Ok(v.clone()))).collect();
        let aside = phone.model.storage.aside.iter().map(|key| (key.clone(), String::new())).collect();
        let second = vec![(key.clone(), other.clone())];
        phone.report(Report::Opened(Box::new(Opened { entries, second, aside, ..Opened::default() })));
        assert!(!saved(&phone, other));
    }
    assert_eq!(phone.db[&key], text);
    assert_eq!(set_aside(&phone), others, "each once");
    assert_eq!(phone.model.storage.aside.len(), 2, "{:?}", phone.model.storage.aside);
    assert!(phone.model.writer.clock() < Clock(1_000), "the other content moves no clock");
    assert!(today::today(&phone.model).notices.iter().any(|n| n.kind == NoticeKind::Aside));
}

/// The same where the database doesn't open, and what stands here came from another tab.
#[test]
fn a_forged_entry_of_another_tab_is_shown() {
    let mut phone = Phone::with_squad(SQUAD);
    let text = phone.db.values().next().expect("an entry").clone();
    phone.report(Report::Heard(vec![text.clone(), forged(&text)]));
    assert_eq!((set_aside(&phone), phone.model.storage.aside.len()), (vec![forged(&text)], 1));
    let second = vec![("k".to_owned(), forged(&text)), ("d".to_owned(), "damaged".to_owned())];
    phone.report(Report::Refused { trouble: Trouble::Blocked, second, settings: None });
    assert_eq!(phone.model.storage.aside.len(), 2, "{:?}", phone.model.storage.aside);
    assert!(phone.model.storage.unsaved.is_empty());
}

/// A block holds other content than the record that lies loose: one stands, the other is shown.
#[test]
fn a_block_and_a_record_that_differ() {
    let mut phone = Phone::with_squad(SQUAD);
    phone.drill(0);
    phone.act(Action::PlaceTapped(Place(0), pass(3)));
    let (key, text) = phone.db.iter().find(|(_, text)| text.contains("contact-noted")).expect("a contact");
    let (key, text) = (key.clone(), text.clone());
    phone.act(Action::Finish);
    let practice = phone.model.practice_today().expect("on").id;
    phone.act(Action::PracticeEnded(practice));
    assert_eq!(phone.blocks.len(), 1);
    phone.db.insert(key.clone(), forged(&text));
    phone.restart();
    assert_eq!(set_aside(&phone), [text]);
    phone.act(Action::Go(Screen::After));
    assert!(phone.db.contains_key(&key), "both stay where they lie");
}

/// Settings that can't be understood are moved aside before others are written, whether the database opens or not.
#[test]
fn settings_are_not_written_over() {
    let text = Some("[1]".to_owned());
    for refused in [false, true] {
        let mut phone = Phone::new();
        phone.effects.clear();
        phone.report(if refused {
            Report::Refused { trouble: Trouble::Blocked, second: Vec::new(), settings: text.clone() }
        } else {
            Report::Opened(Box::new(Opened { settings: text.clone(), ..Opened::default() }))
        });
        assert_eq!(phone.effects.first(), Some(&Effect::SetSettingsAside));
        for _ in 0..2 {
            phone.report(Report::SettingsAside(vec!["settings 1".to_owned()]));
        }
        assert_eq!(share::phone(&phone.model).aside, ["settings 1"]);
    }
}
