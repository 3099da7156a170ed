//! A word on two children that brought one of them back into the squad, and what becomes of that when the word is taken back.

use peppertally::app::action::Action;
use peppertally::app::joining::JoiningTap;
use peppertally::app::view::joining;
use peppertally::domain::ids::{EntryId, PlayerId};

use super::phone::Phone;
use super::steps::take_in;

/// Mira left this squad; another phone has her in its own.
fn gone_and_here() -> (Phone, PlayerId, PlayerId) {
    let mut phone = Phone::with_squad("7 Mira\n9 Tove");
    let mira = phone.player("Mira");
    phone.act(Action::ChildArchived(mira, true));
    take_in(&mut phone, "other", &Phone::other("7 Myra\n5 Iva").copy());
    let myra = phone.player("Myra");
    (phone, mira, myra)
}

fn join(phone: &mut Phone, stays: PlayerId, also: PlayerId) -> EntryId {
    phone.act(Action::Joining(JoiningTap::Same { stays, also }));
    let same =
        |pair: &&peppertally::domain::replay::joined::Pair| pair.joined && [pair.one, pair.other].contains(&also);
    phone.model.base.pairs().iter().find(same).expect("said").id
}

fn take_back(phone: &mut Phone, word: EntryId) {
    phone.act(Action::Joining(JoiningTap::TakenBack(word)));
}

/// As it is entered, at once and after a kill.
#[track_caller]
fn check_archived(phone: &mut Phone, child: PlayerId, archived: bool) {
    for _ in 0..2 {
        assert_eq!(phone.model.base.as_entered(child).map(|child| child.archived), Some(archived));
        phone.restart();
    }
}

#[test]
fn it_goes_with_the_word_and_comes_with_it() {
    let (mut phone, mira, myra) = gone_and_here();
    for _ in 0..3 {
        let word = join(&mut phone, mira, myra);
        check_archived(&mut phone, mira, false);
        take_back(&mut phone, word);
        // A second tap on the same key says nothing new.
        let n_said = phone.db.len();
        take_back(&mut phone, word);
        assert_eq!(phone.db.len(), n_said);
        check_archived(&mut phone, mira, true);
        check_archived(&mut phone, myra, false);
        assert_eq!(joining::joining(&phone.model).asks.len(), 1, "it is asked again");
    }
}

/// The word was said on another phone, and is taken back on this one.
#[test]
fn whoever_takes_it_back() {
    let (mut phone, mira, myra) = gone_and_here();
    let word = join(&mut phone, mira, myra);
    let mut other = Phone::bare(31);
    take_in(&mut other, "said", &phone.copy());
    check_archived(&mut other, mira, false);
    take_back(&mut other, word);
    check_archived(&mut other, mira, true);
    take_in(&mut phone, "back", &other.copy());
    check_archived(&mut phone, mira, true);
}

/// What the coach said of it herself stands.
#[test]
fn what_was_said_by_hand_stays() {
    // Sent away and brought back since.
    let (mut phone, mira, myra) = gone_and_here();
    let word = join(&mut phone, mira, myra);
    [true, false].into_iter().for_each(|away| phone.act(Action::ChildArchived(mira, away)));
    take_back(&mut phone, word);
    check_archived(&mut phone, mira, false);
    // Sent away since: once is enough.
    let (mut phone, mira, myra) = gone_and_here();
    let word = join(&mut phone, mira, myra);
    phone.act(Action::ChildArchived(mira, true));
    let n_said = phone.db.len();
    take_back(&mut phone, word);
    assert_eq!(phone.db.len(), n_said + 1);
    check_archived(&mut phone, mira, true);
    // Both had left, so the word brought nobody back: the next tap did.
    let (mut phone, mira, myra) = gone_and_here();
    phone.act(Action::ChildArchived(myra, true));
    let word = join(&mut phone, mira, myra);
    phone.act(Action::ChildArchived(mira, false));
    take_back(&mut phone, word);
    check_archived(&mut phone, mira, false);
}

/// Under a third name it is in the squad still, so nothing says that it has left.
#[test]
fn who_is_here_under_another_name_stays() {
    let (mut phone, mira, myra) = gone_and_here();
    let mut third = Phone::bare(9_000);
    third.act(Action::RosterTyped("7 Mirra".to_owned()));
    third.act(Action::RosterTaken);
    take_in(&mut phone, "third", &third.copy());
    let mirra = phone.player("Mirra");
    let word = join(&mut phone, mira, myra);
    join(&mut phone, mira, mirra);
    take_back(&mut phone, word);
    check_archived(&mut phone, mira, false);
}
