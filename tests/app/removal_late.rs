//! What comes later, or at the same time: from another window, from a tap on a screen that still has the child, from the worker.

use peppertally::app::action::Action;
use peppertally::app::effect::{Effect, Opened, Report};
use peppertally::app::groups::GroupsTap;
use peppertally::app::health::{Checked, HealthTap};
use peppertally::app::joining::JoiningTap;
use peppertally::app::notes::{AskTap, NotesTap, Sought, Source, Subject};
use peppertally::app::screen::Screen;
use peppertally::app::work::{Answer, Job};
use peppertally::domain::entry::{Entry, Fact};
use peppertally::domain::ids::Clock;
use peppertally::domain::skill::Outcome;
use peppertally::wire::{block, record};

use super::phone::Phone;
use super::removal::{check_gone, remove, stored, used, write_note};
use super::steps::{correct_last, on_board, take_in};

/// What another window writes is heard often: only a removal, or something of those removed, is worth going through everything.
#[test]
fn nothing_is_gone_through_for_an_entry_of_others() {
    let mut phone = used();
    let mut window = phone.second_window();
    phone.deaf = true;
    remove(&mut phone, "Quilla");
    window.hear(&phone);
    phone.effects.clear();
    window.act(Action::RosterTyped("Ylva".to_owned()));
    window.act(Action::RosterTaken);
    let added = window.model.own.get(window.player("Ylva").0).expect("Ylva");
    phone.report(Report::Heard(vec![record::encode(added)]));
    assert_eq!(phone.player("Ylva").0, added.id);
    assert_eq!(jobs(&phone), 0, "the first one isn't answered yet");
}

fn jobs(phone: &Phone) -> usize {
    phone.effects.iter().filter(|effect| matches!(effect, Effect::Work(Job::Remove { .. }))).count()
}

/// A file that removes nobody leaves groups that are made and not played yet as they are.
#[test]
fn a_file_that_removes_nobody_changes_no_groups() {
    let mut phone = used();
    remove(&mut phone, "Quilla");
    phone.act(Action::Go(Screen::Groups));
    phone.act(Action::Groups(GroupsTap::Made));
    let made = phone.model.drafts.groups.made.clone();
    assert!(made.is_some());
    let file = Phone::other("Iva").copy();
    take_in(&mut phone, "other", &file);
    assert_eq!(phone.model.drafts.groups.made, made);
}

/// Two who turn out to be one are counted again from what lies packed, where those removed still stand: the removal came with a file, and
/// this phone's own was never written. What is emptied there counts as this phone's own still, as everywhere else.
#[test]
fn counted_again_it_is_in_no_count() {
    let mut phone = used();
    let run = phone.model.packed.values().next().expect("packed").summary.runs[0].run;
    correct_last(&mut phone, run, 1);
    phone.restart();
    let mut other = phone.killed();
    let player = remove(&mut other, "Quilla");
    let file = other.copy();
    let before = phone.blocks.clone();
    take_in(&mut phone, "new", &file);
    phone.blocks = before;
    phone.db.retain(|_, record| !record.contains("child-removed"));
    let (stays, also) = (phone.player("Tove"), phone.player("Bram"));
    phone.act(Action::Joining(JoiningTap::Same { stays, also }));
    assert!(phone.effects.iter().any(|effect| matches!(effect, Effect::Work(Job::Recount { .. }))));
    let id = player.0.to_string();
    assert!(phone.summaries.values().all(|summary| !summary.contains(&id)));
    phone.act(Action::Health(HealthTap::Check));
    let Some(Checked::Found(found)) = &phone.model.health.found else { panic!("checked") };
    assert_eq!(found.otherwise.len(), 0);
}

/// A screen may still have the child when a tap comes: nothing of it is stored.
#[test]
fn what_is_written_later_is_stored_empty() {
    let mut phone = used();
    let player = remove(&mut phone, "Quilla");
    let n_before = phone.db.len();
    write_note(&mut phone, player, "Late words");
    assert_eq!(phone.db.len(), n_before + 1, "an entry was written");
    assert!(!stored(&phone).contains("Late words"));
    check_gone(&mut phone, player);
}

/// Another window that hasn't heard of it writes on: what it has stored is stored again, emptied. Also what was here already.
#[test]
fn what_another_window_writes_later_is_emptied() {
    let mut phone = used();
    let mut window = phone.second_window();
    let player = phone.player("Quilla");
    write_note(&mut window, player, "Late words");
    let mut late = window.db.clone();
    late.retain(|key, _| !phone.db.contains_key(key));
    assert!(late.values().any(|record| record.contains("Late words")));
    remove(&mut phone, "Quilla");
    for _ in 0..2 {
        phone.db.extend(late.clone());
        phone.report(Report::Heard(late.values().cloned().collect()));
        assert!(!stored(&phone).contains("Late words"));
    }
    check_gone(&mut phone, player);
}

/// What another window removes is in nothing that is tapped here and no entry yet, nor in the file that is looked at.
#[test]
fn nothing_that_is_drafted_has_it() {
    let mut phone = used();
    let mut window = phone.second_window();
    let file = phone.copy();
    let (player, tove) = (phone.player("Quilla"), phone.player("Tove"));
    phone.act(Action::Notes(NotesTap::Sought(Sought { child: Some(player), tag: None })));
    phone.act(Action::Notes(NotesTap::Question(AskTap::Wanted(Source::Nothing, None))));
    let asked = |phone: &Phone| phone.model.drafts.notes.ask.children.iter().any(|turn| turn.player == player);
    assert!(asked(&phone));
    phone.act(Action::PresenceTapped(player));
    phone.act(Action::PresenceTapped(tove));
    phone.act(Action::Notes(NotesTap::Typed(String::new())));
    phone.act(Action::Notes(NotesTap::About(Subject::Child(player))));
    phone.choose("copy.json", "old", &file);
    assert!(phone.model.copy.offered.is_some());
    remove(&mut window, "Quilla");
    phone.hear(&window);
    let drafts = &phone.model.drafts;
    assert_eq!(drafts.away.as_ref().map(|(_, away)| away.iter().copied().collect()), Some(vec![tove]));
    assert_eq!((drafts.notes.sought.child, drafts.notes.pad.about), (None, None));
    assert!(!asked(&phone) && !drafts.notes.ask.children.is_empty());
    assert_eq!(phone.model.copy.offered, None);
}

/// A file that is still being looked at was looked at before: its answer would show the child.
#[test]
fn a_file_that_is_looked_at_meanwhile_is_not_offered() {
    let mut phone = used();
    let file = phone.copy();
    phone.deaf = true;
    phone.choose("copy.json", "old", &file);
    let is_look = |effect: &&Effect| matches!(effect, Effect::Work(Job::Look { .. }));
    let Some(Effect::Work(look)) = phone.effects.iter().find(is_look).cloned() else { panic!("it is looked at") };
    let mut before = phone.killed();
    phone.deaf = false;
    remove(&mut phone, "Quilla");
    before.file = phone.file.clone();
    before.choose("copy.json", "old", &file);
    let offered = before.model.copy.offered.expect("offered before");
    let answer = Answer::Looked { key: offered.key, from: offered.from, preview: Box::new(offered.preview) };
    phone.report(Report::Worked { job: look, answer });
    assert_eq!(phone.model.copy.offered, None);
}

/// Another file is chosen before that answer has come: the one that is looked at for nobody is stopped, and whatever it still says isn't taken for
/// the other's.
#[test]
fn nor_is_it_taken_for_the_next_file() {
    let mut phone = used();
    let (file, next) = (phone.copy(), Phone::other("Iva").copy());
    let mut before = phone.killed();
    before.choose("copy.json", "old", &file);
    let offered = before.model.copy.offered.expect("offered before");
    let looked = Answer::Looked { key: offered.key, from: offered.from, preview: Box::new(offered.preview) };
    phone.deaf = true;
    phone.choose("copy.json", "old", &file);
    let is_look = |effect: &&Effect| matches!(effect, Effect::Work(Job::Look { .. }));
    let Some(Effect::Work(look)) = phone.effects.iter().find(is_look).cloned() else { panic!("it is looked at") };
    phone.deaf = false;
    remove(&mut phone, "Quilla");
    phone.deaf = true;
    // Chosen before the answer: the worker is told to stop, once.
    let mut at_once = phone.killed();
    at_once.model.copy = phone.model.copy.clone();
    at_once.deaf = true;
    for _ in 0..2 {
        at_once.effects.clear();
        at_once.choose("next.json", "next", &next);
        assert!(matches!(at_once.effects[..], [Effect::StopLooking, Effect::Work(Job::Look { .. })]));
    }
    at_once.effects.clear();
    at_once.deaf = false;
    at_once.act(Action::LookStopped);
    at_once.choose("next.json", "next", &next);
    assert!(!at_once.effects[1..].contains(&Effect::StopLooking), "nothing is looked at any more");
    assert_eq!(at_once.model.copy.offered.map(|offered| offered.key).as_deref(), Some("next"));
    // After it, whatever it was: there is nothing to be stopped, and nothing is said of it.
    for answer in [looked, Answer::Locked, Answer::Refused("not read".to_owned())] {
        let mut after = phone.killed();
        after.model.copy = phone.model.copy.clone();
        after.report(Report::Worked { job: look.clone(), answer });
        assert!(after.model.copy.offered.is_none() && after.model.copy.locked.is_none());
        assert_eq!(after.model.copy.answer, None);
        after.effects.clear();
        after.choose("next.json", "next", &next);
        assert!(!after.effects.contains(&Effect::StopLooking));
        assert_eq!(after.model.copy.offered.map(|offered| offered.key).as_deref(), Some("next"));
    }
}

/// What the coach saw of a ball that the child scored itself goes with the ball, in memory and where it lies packed.
#[test]
fn checks_of_its_balls_go() {
    for packed in [false, true] {
        let mut phone = on_board("Quilla\nTove\nOdile", 6, |spec| spec);
        phone.act(Action::CheckOpened);
        for _ in 0..3 {
            phone.act(Action::OutcomeTapped(Outcome::TwoKey { good: true }));
            phone.act(Action::OutcomeTapped(Outcome::TwoKey { good: false }));
        }
        phone.act(Action::StationLeft);
        phone.act(Action::Finish);
        let Screen::RunReport(run) = phone.model.screen else { panic!("over") };
        let n_checked = |phone: &Phone| {
            let is_check = |entry: &&Entry| matches!(entry.fact, Fact::BallChecked { .. });
            phone.model.own.iter().filter(is_check).count()
        };
        let all = n_checked(&phone);
        let main = &phone.model.runs[&run].main;
        let quilla = phone.player("Quilla");
        let of_quilla = main.contacts.iter().filter(|ball| ball.contact.player == Some(quilla)).count();
        assert!(of_quilla > 0 && of_quilla < all);
        if packed {
            phone.end_practice();
            phone.act(Action::Go(Screen::Today));
            phone.restart();
            assert_eq!(n_checked(&phone), 0, "unread");
        }
        let player = remove(&mut phone, "Quilla");
        if packed {
            let blocks = phone.blocks.values().flat_map(|bytes| block::unpack(bytes).expect("ours"));
            let is_check = |entry: &Entry| matches!(entry.fact, Fact::BallChecked { .. });
            assert_eq!(blocks.filter(is_check).count(), all - of_quilla, "where it lies");
            phone.act(Action::Go(Screen::RunReport(run)));
        }
        assert_eq!(n_checked(&phone), all - of_quilla);
        let text = String::from_utf8(phone.copy()).expect("text");
        assert_eq!(text.matches("ball-checked").count(), all - of_quilla, "packed: {packed}");
        if packed {
            check_gone(&mut phone, player);
        }
    }
}

fn set_aside(phone: &Phone) -> Vec<(String, String)> {
    let aside = |effect: &Effect| if let Effect::SetAside(records) = effect { Some(records.clone()) } else { None };
    phone.effects.iter().filter_map(aside).flatten().collect()
}

/// What was set aside because its identity is here with other content says nothing of the child either, under the key that it had: found by
/// this page, or by one before it.
#[test]
fn what_was_set_aside_is_emptied() {
    let mut phone = used();
    phone.act(Action::Go(Screen::Today));
    phone.drill(0);
    phone.act(Action::Finish);
    let player = phone.player("Quilla");
    check_aside(&phone, "Quilla", &|entry| matches!(entry.fact, Fact::PlayerAdded { .. }) && entry.id == player.0);
    check_aside(&phone, &player.0.to_string(), &|entry| matches!(entry.fact, Fact::RunStarted { .. }));
}

fn check_aside(used: &Phone, says: &str, is_it: &dyn Fn(&Entry) -> bool) {
    let mut phone = used.killed();
    let mut other = phone.model.own.iter().find(|entry| is_it(entry)).expect("loose").clone();
    other.clock = Clock(other.clock.0 + 1);
    phone.report(Report::Heard(vec![record::encode(&other)]));
    let [(key, text)] = &set_aside(&phone)[..] else { panic!("set aside") };
    let (key, text) = (key.clone(), text.clone());
    assert!(text.contains(says));
    let aside_there = |phone: &Phone| {
        let entries = phone.db.iter().map(|(key, text)| (key.clone(), Ok(text.clone()))).collect();
        let (settings, aside) = (phone.settings.clone(), vec![(key.clone(), text.clone())]);
        Report::Opened(Box::new(Opened { entries, aside, settings, ..Opened::default() }))
    };
    let mut next = phone.killed_as(900);
    next.report(aside_there(&phone));
    for phone in [&mut phone, &mut next] {
        phone.effects.clear();
        remove(phone, "Quilla");
        phone.report(Report::Heard(Vec::new()));
        let [(key_now, text_now)] = &set_aside(phone)[..] else { panic!("written again once") };
        assert!(*key_now == key && !text_now.contains(says), "{text_now}");
        assert_eq!(phone.model.storage.aside, *std::slice::from_ref(&key), "nothing more is shown");
    }
    // A page that was not there when it went.
    let mut later = next.killed_as(901);
    later.effects.clear();
    later.report(aside_there(&next));
    assert!(matches!(&set_aside(&later)[..], [(_, text)] if !text.contains(says)));
}
