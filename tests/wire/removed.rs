//! Samples of a child that was removed for good, and what holds for every log in which one is. A frozen fixture holds exactly the samples.

use std::collections::BTreeSet;

use super::random;
use super::samples::{MIRA, Pages, RUN, TOVE};
use peppertally::domain::entry::{Contact, Correction, Entry, Fact};
use peppertally::domain::ids::{Clock, ContactId, EntryId, NoteId, PlayerId, PracticeId, Revision, Round, Step};
use peppertally::domain::log::Log;
use peppertally::domain::removed::Removed;
use peppertally::domain::skill::{Feed, FeedKind, GoodFrom, Outcome, Role};
use peppertally::domain::time::Stamp;
use peppertally::wire::{file, record};
use proptest::prelude::*;

const PRACTICE: PracticeId = PracticeId(EntryId::new(0x11, 5));

pub fn entries() -> Vec<Entry> {
    let mut pages = Pages { entries: Vec::new(), clock: 1_300 };
    pages.note(Fact::ChildRemoved { players: vec![TOVE], notes: vec![] });
    pages.note(Fact::ChildRemoved { players: vec![TOVE, MIRA], notes: vec![NoteId(EntryId::new(0x11, 9))] });
    pages.note(Fact::Emptied { practice: None, run: None });
    pages.note(Fact::Emptied { practice: Some(PRACTICE), run: None });
    pages.note(Fact::Emptied { practice: None, run: Some(RUN) });
    let contact = nobodys();
    let id = ContactId(pages.note(Fact::ContactNoted { run: RUN, contact }).id);
    let change =
        Correction { contact: id, revision: Revision(1), player: None, outcome: Outcome::Removed, step: Step(0) };
    pages.note(Fact::ContactsCorrected { run: RUN, changes: vec![change] });
    pages.entries
}

fn nobodys() -> Contact {
    Contact {
        player: None,
        role: Role::Passer,
        place: None,
        outcome: Outcome::Removed,
        good_from: GoodFrom::GoodKey,
        feed: Feed { kind: FeedKind::Easy, step: Step(0) },
        style: None,
        turn: Some(peppertally::domain::entry::Turn { round: Round(2), restart: 1 }),
        server: None,
        self_scored: false,
        group: None,
        clock_ms: None,
        watched: false,
    }
}

/// A file with somebody removed in it needs no newer version: older ones keep what they don't know.
#[test]
fn a_removal_needs_no_new_version() {
    let text = file::write(&entries(), &super::header());
    assert!(text.starts_with(r#"{"format":"peppertally-copy","version":1,"#), "{text}");
}

/// Children that entries name, in whatever part.
fn named(entries: &[Entry]) -> Vec<PlayerId> {
    let mut all = BTreeSet::new();
    for entry in entries {
        match &entry.fact {
            Fact::PlayerAdded { .. } => all.extend([PlayerId(entry.id)]),
            Fact::ContactNoted { contact, .. } => all.extend(contact.player.into_iter().chain(contact.server)),
            Fact::ContactsCorrected { changes, .. } => all.extend(changes.iter().filter_map(|change| change.player)),
            Fact::RallyNoted { rally, .. } => all.extend(rally.near.iter().chain(&rally.far)),
            Fact::RunStarted { lineup, .. } | Fact::LineupSet { lineup, .. } => {
                all.extend(lineup.everyone().chain(lineup.groups.iter().flatten().copied()));
            }
            Fact::GroupsMade { groups, .. } => all.extend(groups.iter().flatten()),
            Fact::WishesChanged { wishes, .. } => {
                all.extend(wishes.together.iter().flatten().chain(wishes.apart.iter().flatten()).chain(&wishes.tagged));
            }
            Fact::PlayerChanged { player, .. }
            | Fact::PlayerArchived { player, .. }
            | Fact::StyleNoted { player, .. }
            | Fact::StepNoted { player, .. }
            | Fact::PresenceNoted { player, .. }
            | Fact::TurnGiven { player, .. }
            | Fact::CountTold { player, .. } => all.extend([*player]),
            Fact::EffortNoted { player, .. } | Fact::EffortCorrected { player, .. } => all.extend(*player),
            Fact::QuestionAsked { asked, .. } => all.extend([asked.player]),
            _ => {}
        }
    }
    all.into_iter().collect()
}

/// The `n`th removal, of an identity that nothing else has.
fn removal(n: u32, players: Vec<PlayerId>) -> Entry {
    let at = Stamp { wall_ms: 0, offset_min: 0, mono_ms: 0 };
    let fact = Fact::ChildRemoved { players, notes: Vec::new() };
    Entry { id: EntryId::new(0xdead_0000_dead, n), clock: Clock(1), at, fact, extra: None }
}

/// Entries, and two removals of some of those they name.
fn with_removals() -> impl Strategy<Value = (Vec<Entry>, [Entry; 2])> {
    (random::entries(), any::<u64>(), any::<u64>()).prop_map(|(entries, first, second)| {
        let named = named(&entries);
        let some = |mask: u64| (0..).zip(&named).filter(|(i, _)| mask >> (i % 64) & 1 == 1).map(|(_, p)| *p).collect();
        let removals = [removal(0, some(first)), removal(1, some(second))];
        (entries, removals)
    })
}

fn log(entries: impl IntoIterator<Item = Entry>) -> Log {
    entries.into_iter().collect()
}

/// A ball of a child who goes, one of a child who stays, what the coach saw of each, and the removal.
fn checked() -> [Entry; 5] {
    let at = Stamp { wall_ms: 0, offset_min: 0, mono_ms: 0 };
    let entry =
        |no: u32, fact| Entry { id: EntryId::new(0x77, no), clock: Clock(u64::from(no)), at, fact, extra: None };
    let pass = Outcome::Pass { grade: peppertally::domain::skill::PassGrade::Gone, over_net: false };
    let ball = |player| Fact::ContactNoted {
        run: RUN,
        contact: Contact { player: Some(player), outcome: pass, self_scored: true, ..nobodys() },
    };
    let check = |no| Fact::BallChecked { run: RUN, contact: ContactId(EntryId::new(0x77, no)), outcome: pass };
    [entry(0, ball(TOVE)), entry(1, check(0)), entry(2, ball(MIRA)), entry(3, check(2)), removal(0, vec![TOVE])]
}

/// What the coach saw of the ball names the ball alone, and goes with it, whichever of the three comes first.
#[test]
fn a_check_goes_with_its_ball_in_any_order() {
    let all = checked();
    let gone = Fact::Emptied { practice: None, run: Some(RUN) };
    let at_once = log(all.clone());
    assert_eq!(at_once.get(all[1].id).map(|check| &check.fact), Some(&gone));
    assert_eq!(at_once.get(all[3].id), Some(&all[3]));
    for order in [[0, 1, 4], [0, 4, 1], [1, 0, 4], [1, 4, 0], [4, 0, 1], [4, 1, 0]] {
        let some = order.map(|i| all[i].clone());
        let [first, second, third] = order.map(|i| log([all[i].clone()]));
        let united = first.clone().union(second.clone()).union(third.clone());
        assert_eq!(united, first.union(second.union(third)), "{order:?}");
        assert_eq!(log(some), united, "{order:?}");
        let rest = log([all[2].clone(), all[3].clone()]);
        assert_eq!(united.clone().union(rest.clone()), at_once);
        assert_eq!(rest.union(united), at_once);
    }
    // One that knows of the removal already, and the emptied one from elsewhere.
    let mut late = log(all[..4].to_vec());
    assert_eq!(late.know(at_once.removed()), [all[0].id, all[1].id]);
    let elsewhere = log([at_once.get(all[1].id).cloned().expect("emptied")]);
    assert_eq!(log(all.clone()).union(elsewhere.clone()), at_once);
    assert_eq!(log([all[1].clone()]).union(elsewhere.clone()), elsewhere.clone());
    assert_eq!(elsewhere.union(log(all.clone())), at_once);
}

proptest! {
    /// A list is emptied as a log is.
    #[test]
    fn a_list_is_emptied_as_a_log((entries, [first, _]) in with_removals()) {
        let all: Vec<Entry> = entries.into_iter().chain(checked()[..4].iter().cloned()).chain([first]).collect();
        let removed = Removed::of(&all);
        let log = log(all.clone());
        for entry in removed.emptied_all(all) {
            prop_assert_eq!(log.get(entry.id), Some(&entry));
        }
    }

    /// Twice is as once, and one removal after another as both together, in either order.
    #[test]
    fn emptied_once_is_emptied_for_good((entries, [first, second]) in with_removals()) {
        let (one, other) = (Removed::of([&first]), Removed::of([&second]));
        let both = Removed::of([&first, &second]);
        for entry in entries {
            let once = one.emptied(entry.clone());
            prop_assert_eq!(&one.emptied(once.clone()), &once);
            prop_assert_eq!(other.emptied(once.clone()), both.emptied(entry.clone()));
            prop_assert_eq!(one.emptied(other.emptied(entry.clone())), both.emptied(entry.clone()));
            prop_assert_eq!((once.id, once.clock, once.at), (entry.id, entry.clock, entry.at));
        }
    }

    /// Nobody who was removed is named by anything but the removal.
    #[test]
    fn nothing_names_who_was_removed((entries, [first, second]) in with_removals()) {
        let log = log(entries.into_iter().chain([first, second]));
        let left: Vec<Entry> = log.iter().cloned().collect();
        prop_assert!(named(&left).iter().all(|player| !log.removed().has(*player)));
    }

    /// Some phones have the removal and have emptied what they hold, others hold it as it was: together they hold the same, whoever comes
    /// first, with nothing set aside.
    #[test]
    fn union_with_the_emptied_is_union((entries, [first, second]) in with_removals(), which in prop::collection::vec(0..8u8, 24)) {
        let part = |bit: u8| {
            let has = |(i, _): &(usize, &Entry)| which[i % which.len()] >> bit & 1 == 1;
            entries.iter().enumerate().filter(has).map(|(_, entry)| entry.clone()).collect::<Vec<_>>()
        };
        let a = log(part(0).into_iter().chain([first.clone()]));
        let b = log(part(1));
        let c = log([second.clone()].into_iter().chain(part(2)));
        let ab = a.clone().union(b.clone());
        prop_assert_eq!(&ab, &b.clone().union(a.clone()));
        prop_assert_eq!(ab.clone().union(c.clone()), a.clone().union(b.clone().union(c.clone())));
        prop_assert_eq!(ab.clone().union(a.clone()), ab.clone());
        let all = ab.union(c);
        prop_assert!(all.aside().is_empty());
        let at_once = log(part(0).into_iter().chain(part(1)).chain(part(2)).chain([second, first]));
        prop_assert_eq!(at_once, all);
    }

    /// The entry that was emptied beats the one that wasn't, also where nobody tells of the removal.
    #[test]
    fn the_emptied_one_stands_whoever_comes_first((entries, [first, _]) in with_removals()) {
        let removed = Removed::of([&first]);
        for entry in entries {
            let emptied = removed.emptied(entry.clone());
            if !matches!(emptied.fact, Fact::Emptied { .. }) {
                continue;
            }
            for order in [[entry.clone(), emptied.clone()], [emptied.clone(), entry.clone()]] {
                let log = log(order);
                prop_assert_eq!(log.iter().collect::<Vec<_>>(), [&emptied]);
                prop_assert!(log.aside().is_empty());
            }
        }
    }

    /// What is emptied is written and read as any other entry.
    #[test]
    fn the_emptied_survives_its_record((entries, [first, second]) in with_removals()) {
        let removed = Removed::of([&first, &second]);
        for entry in entries {
            let emptied = removed.emptied(entry);
            let back = record::decode(&record::encode(&emptied));
            prop_assert_eq!(back.as_ref(), Ok(&emptied));
        }
    }
}
