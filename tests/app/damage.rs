//! Damaged or forged records: nothing overflows, the first content stands, what can't be read is kept aside and shown.

use peppertally::app::action::Action;
use peppertally::domain::drill::Rule;
use peppertally::domain::entry::{Fact, Turn};
use peppertally::domain::ids::{Clock, Place};
use peppertally::wire::record;

use super::phone::{Phone, pass};

const SQUAD: &str = "Mira\nTove\nOdile\nBram\nIva\nLasse";

/// A record with the highest of all clocks: the next entry doesn't begin again at zero.
#[test]
fn the_highest_clock_stands_still() {
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
    assert_eq!(phone.model.writer.clock(), Clock(u64::MAX));
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
