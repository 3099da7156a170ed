//! A file is looked at before anything changes: what is new by practice, phone and child, and what both sides changed. And the list of
//! what has to work when phones are brought together, a line a test, through one helper.

use peppertally::app::action::Action;
use peppertally::app::effect::{Effect, Report};
use peppertally::app::joining::JoiningTap;
use peppertally::app::screen::Screen;
use peppertally::app::update;
use peppertally::app::view::{joining, report, share};
use peppertally::app::words;
use peppertally::app::work::doing::{Found, do_job};
use peppertally::app::work::{Answer, Job, Line, ParcelChange, Preview};
use peppertally::domain::drill::DrillSpec;
use peppertally::domain::entry::{Entry, Fact};
use peppertally::domain::ids::{Clock, EntryId, EntryNo, Place, PlayerId, PracticeId, RunId};
use peppertally::domain::notes::{Note, NoteAbout, Spot};
use peppertally::wire::file::{self, FileHeader, Limits};

use super::phone::{Phone, pass};
use super::steps::{correct_last, practised, take_in};

pub const SQUAD: &str = "7 Mira\n9 Tove\n11 Odile\n4 Bram";

/// What a phone says of these bytes, and that looking stored nothing.
pub fn looked(phone: &mut Phone, hash: &str, bytes: &[u8]) -> Preview {
    let stored = |phone: &Phone| {
        (phone.db.clone(), phone.blocks.clone(), phone.summaries.clone(), phone.parcels.clone(), phone.notes.clone())
    };
    let before = stored(phone);
    phone.choose("copy.json", hash, bytes);
    assert_eq!(stored(phone), before, "looking stored something");
    share::share(&phone.model).parcel.expect("a preview").preview
}

fn lines(lines: &[Line]) -> Vec<String> {
    lines.iter().map(|line| format!("{}: {}", line.name, line.what)).collect()
}

/// All that a coach can read of what was counted, and of the squad.
pub fn figures(phone: &mut Phone) -> (Vec<String>, Vec<String>) {
    phone.restart_elsewhere();
    let squad = phone.model.base.players().into_iter().map(|player| player.name).collect();
    let practices: Vec<PracticeId> = report::after(&phone.model).practices.iter().map(|row| row.practice).collect();
    let mut told = Vec::new();
    for practice in practices {
        phone.act(Action::Go(Screen::PracticeReport(practice)));
        let view = report::practice_report(&phone.model, practice).expect("a practice");
        told.extend(view.runs.iter().map(|run| format!("{}: {}", run.name, run.count)));
    }
    phone.act(Action::Go(Screen::Today));
    (squad, told)
}

/// Another phone that has the squad of the first, a name of its own, and went on from there.
pub fn assistant(copy: &[u8], bits: u64, name: &str) -> Phone {
    let mut phone = Phone::bare(bits);
    phone.act(Action::DeviceNameTyped(name.to_owned()));
    take_in(&mut phone, "first", copy);
    phone
}

/// Two phones with one squad, each with a practice; what the second sends.
fn two_phones() -> (Phone, Vec<u8>) {
    let mut coach = Phone::with_squad(SQUAD);
    practised(&mut coach, &[3, 2, 0]);
    let mut other = assistant(&coach.copy(), 7_000, "Ana’s phone");
    practised(&mut other, &[3, 3, 1, 0]);
    (coach, other.copy())
}

/// One sentence, then practice by practice, phone by phone, child by child.
#[test]
fn what_is_new_is_told_before_anything_changes() {
    let (mut coach, copy) = two_phones();
    let preview = looked(&mut coach, "k", &copy);
    assert_eq!(preview.lead, "4 contacts of 1 practice, not here yet.");
    let practices = lines(&preview.practices);
    let days: Vec<&str> = practices.iter().filter_map(|line| line.split_once(", ")).map(|(day, _)| day).collect();
    // The other phone's clock is some days ahead.
    assert_eq!(days, ["Friday 4 December 2026", "Sunday 29 November 2026"]);
    assert!(practices[0].ends_with(": Three passers: 4 contacts new"), "{practices:?}");
    assert!(practices[1].ends_with(": Three passers: 3 contacts, all here already"), "{practices:?}");
    assert_eq!(lines(&preview.phones), ["This phone: 3 contacts, all here already", "Ana’s phone: 4 contacts new"]);
    assert_eq!(lines(&preview.children), ["Mira: 4 contacts new, 3 contacts here already"]);
    assert_eq!(preview.differs, Vec::<String>::new());
    assert!(coach.parcels.is_empty() && coach.model.base.players().len() == 4, "nothing is taken in yet");
}

/// What was undone is no contact, here and there.
#[test]
fn what_was_undone_is_not_new() {
    let mut coach = Phone::with_squad(SQUAD);
    coach.drill(0);
    (0..5).for_each(|_| coach.act(Action::PlaceTapped(Place(0), pass(3))));
    (0..2).for_each(|_| coach.act(Action::UndoTapped));
    let copy = coach.copy();
    assert_eq!(looked(&mut Phone::other("Iva"), "k", &copy).lead, "3 contacts of 1 practice, not here yet.");
}

fn rename(phone: &mut Phone, child: PlayerId, name: &str) {
    phone.act(Action::Go(Screen::Child(child)));
    phone.act(Action::ChildNameTyped(name.to_owned()));
    phone.act(Action::ChildKept);
}

fn change_first_drill(phone: &mut Phone, change: impl FnOnce(DrillSpec) -> DrillSpec) {
    let (drill, spec) = phone.model.base.drills().into_iter().map(|(id, spec)| (id, spec.clone())).next().expect("one");
    phone.act(Action::Go(Screen::Drill(Some(drill))));
    phone.act(Action::DrillDrafted(change(spec)));
    phone.act(Action::DrillKept);
}

/// Name, drill and ball were changed on both sides: each is told, with what will count; then exactly that counts, here and there.
#[test]
fn what_both_sides_changed_is_told_and_comes_true() {
    let mut coach = Phone::with_squad(SQUAD);
    let (practice, run) = practised(&mut coach, &[3, 2, 0]);
    let mira = coach.player("Mira");
    let mut other = assistant(&coach.copy(), 7_000, "Ana’s phone");
    rename(&mut coach, mira, "Mirabel");
    rename(&mut other, mira, "Mirjam");
    change_first_drill(&mut coach, |spec| DrillSpec { name: "Passing here".to_owned(), ..spec });
    change_first_drill(&mut other, |spec| DrillSpec { name: "Passing there".to_owned(), ..spec });
    correct_last(&mut coach, run, 1);
    correct_last(&mut other, run, 3);
    let (back, there) = (other.copy(), coach.copy());
    let preview = looked(&mut coach, "b", &back);
    assert_eq!(preview.differs.len(), 3, "{:?}", preview.differs);
    for (says, n) in [("“Mirabel 7”, in the file “Mirjam 7”", 0), ("its name", 1), ("chased 1”, in the file", 2)]
    {
        assert!(preview.differs[n].contains(says), "{:?}", preview.differs);
    }
    let file_counts: Vec<bool> = preview.differs.iter().map(|line| line.contains("the file’s counts")).collect();
    coach.act(Action::ParcelAccepted);
    take_in(&mut other, "t", &there);
    let stands = |phone: &mut Phone| {
        let name = phone.model.base.player(mira).expect("the child").name;
        let drill = phone.model.base.drills()[0].1.name.clone();
        phone.act(Action::Go(Screen::PracticeReport(practice)));
        let count = report::practice_report(&phone.model, practice).expect("a practice").runs[0].count.clone();
        (name, drill, count)
    };
    let now = stands(&mut coach);
    let told = |n: usize, file: &str, here: &str| if file_counts[n] { file.to_owned() } else { here.to_owned() };
    let expected =
        (told(0, "Mirjam", "Mirabel"), told(1, "Passing there", "Passing here"), told(2, "3 good of 3", "2 good of 3"));
    assert_eq!(now, expected);
    assert_eq!(stands(&mut other), now, "the same on both");
    // Whoever knows of it has the later word: nothing differs any more.
    let later = other.copy();
    assert_eq!(looked(&mut coach, "l", &later).differs, Vec::<String>::new());
}

/// A file that is being looked at can be left; what is heard of it after that changes nothing.
#[test]
fn looking_can_be_stopped() {
    let (mut coach, copy) = two_phones();
    // The file is chosen; the worker has told how far it is, and has no answer yet.
    coach.deaf = true;
    coach.choose("copy.json", "k", &copy);
    coach.report(Report::Looking(40));
    coach.report(Report::Looking(20));
    let view = share::share(&coach.model).looking.expect("looking");
    assert_eq!((view.at, view.says), (40, words::copies::LOOKING_HERE));
    coach.report(Report::Looking(65));
    assert_eq!(share::share(&coach.model).looking.expect("looking").says, words::copies::LOOKING_FILE);
    coach.act(Action::LookStopped);
    assert!(coach.effects.contains(&Effect::StopLooking));
    let view = share::share(&coach.model);
    assert!(!view.reading && view.looking.is_none() && view.parcel.is_none());
    coach.report(Report::Looking(90));
    coach.deaf = false;
    let Some(Effect::Work(job @ Job::Look { .. })) =
        coach.effects.iter().rfind(|effect| matches!(effect, Effect::Work(_))).cloned()
    else {
        panic!("no job")
    };
    coach.answer_late(job);
    assert!(share::share(&coach.model).parcel.is_none(), "it was left");
    // Another one that is chosen meanwhile takes its place at once.
    coach.deaf = true;
    coach.choose("copy.json", "k", &copy);
    coach.effects.clear();
    coach.choose("other.json", "o", &copy);
    assert!(matches!(coach.effects[..], [Effect::StopLooking, Effect::Work(Job::Look { .. })]), "{:?}", coach.effects);
    coach.act(Action::LookStopped);
    coach.deaf = false;
    // The next file is looked at as if nothing had been.
    assert_eq!(looked(&mut coach, "k", &copy).lead, "4 contacts of 1 practice, not here yet.");
}

// Children who are one.

/// The second phone has a list of its own: two children are in both, one of them with a slip of the thumb.
fn two_lists() -> (Phone, Phone, Vec<u8>) {
    let mut coach = Phone::with_squad("7 Mira\n9 Tove\nOdile Lund\n4 Bram");
    practised(&mut coach, &[3, 2, 0]);
    let mut other = Phone::other("7 Myra\nlund ODILE\n5 Iva");
    practised(&mut other, &[3, 3, 1, 0]);
    let copy = other.copy();
    (coach, other, copy)
}

fn asks(phone: &Phone) -> Vec<String> {
    let view = joining::joining(&phone.model);
    view.asks.iter().map(|ask| format!("{} / {}: {}", ask.one.name, ask.other.name, ask.why)).collect()
}

fn tap_same(phone: &mut Phone, n: usize) -> (PlayerId, PlayerId) {
    let ask = joining::joining(&phone.model).asks[n].clone();
    let (stays, also) = (ask.one.player, ask.other.player);
    phone.act(Action::Joining(JoiningTap::Same { stays, also }));
    (stays, also)
}

/// What each run tells of a child.
fn counts_of(phone: &mut Phone, child: &str) -> Vec<String> {
    phone.restart_elsewhere();
    let runs: Vec<RunId> = {
        let mut all: Vec<RunId> =
            phone.model.packed.values().flat_map(|p| p.summary.runs.iter().map(|r| r.run)).collect();
        all.sort();
        all
    };
    let mut told = Vec::new();
    for run in runs {
        phone.act(Action::Go(Screen::RunReport(run)));
        let view = report::run_report(&phone.model, run).expect("a run");
        let rows = view.sections.iter().flat_map(|section| &section.rows);
        told.extend(rows.filter(|row| row.name == child).map(|row| row.count.clone()));
    }
    phone.act(Action::Go(Screen::Today));
    told
}

/// The likeliest first; nothing is joined by itself; a no isn't asked again, and neither is a yes; both go back.
#[test]
fn a_pair_is_asked_about_once() {
    let (mut coach, _, copy) = two_lists();
    assert_eq!(asks(&coach), Vec::<String>::new());
    take_in(&mut coach, "k", &copy);
    assert_eq!(coach.model.base.players().len(), 7, "nothing is joined by itself");
    let both = [
        "Mira / Myra: The same shirt number, and names one letter apart.",
        "Odile Lund / lund ODILE: The same name in another order.",
    ];
    assert_eq!(asks(&coach), both);
    assert_eq!(share::share(&coach.model).twice.as_deref(), Some("2 pairs of names may each be one child"));
    tap_same(&mut coach, 0);
    assert_eq!(asks(&coach), [both[1]]);
    let ask = joining::joining(&coach.model).asks[0].clone();
    let no = Action::Joining(JoiningTap::Two { one: ask.one.player, other: ask.other.player });
    coach.act(no.clone());
    coach.act(no);
    coach.restart();
    assert_eq!(asks(&coach), Vec::<String>::new());
    assert_eq!(coach.model.base.players().len(), 6);
    let said = joining::joining(&coach.model);
    assert_eq!(said.joined.iter().map(|row| row.text.as_str()).collect::<Vec<_>>(), ["Myra 7 counts as Mira 7"]);
    assert_eq!(said.apart.iter().map(|row| row.text.as_str()).collect::<Vec<_>>(), ["Odile Lund and lund ODILE"]);
    for id in [said.joined[0].id, said.apart[0].id] {
        coach.act(Action::Joining(JoiningTap::TakenBack(id)));
    }
    coach.restart();
    assert_eq!(asks(&coach), both);
    assert_eq!(coach.model.base.players().len(), 7);
}

/// Two of one list are two, and so are two who stood in one run.
#[test]
fn who_was_told_apart_by_what_happened_is_not_asked_about() {
    let coach = Phone::with_squad("Mira\nMira\n7 Tove\n7 Tova");
    assert_eq!(asks(&coach), Vec::<String>::new());
    let mut coach = Phone::with_squad(SQUAD);
    coach.restart();
    coach.act(Action::RosterTyped("Mira".to_owned()));
    coach.act(Action::RosterTaken);
    assert_eq!(asks(&coach), ["Mira / Mira: The same name."]);
    practised(&mut coach, &[3]);
    assert_eq!(asks(&coach), Vec::<String>::new(), "they passed side by side");
    coach.restart();
    assert_eq!(asks(&coach), Vec::<String>::new());
}

/// All that was counted for either stands under the one that stays: on reports, in the season, in a table; and goes back with the word.
#[test]
fn all_counts_under_the_one_that_stays() {
    let (mut coach, _, copy) = two_lists();
    take_in(&mut coach, "k", &copy);
    let before = (counts_of(&mut coach, "Mira"), counts_of(&mut coach, "Myra"));
    assert_eq!(before, (vec!["2 of 3".to_owned()], vec!["2 of 4".to_owned()]));
    let (stays, also) = tap_same(&mut coach, 0);
    // At once, and after a kill.
    assert!(coach.summaries.values().all(|text| text.contains("\"same\":[[")), "counted again");
    assert_eq!(counts_of(&mut coach, "Mira"), ["2 of 3", "2 of 4"]);
    assert_eq!(counts_of(&mut coach, "Myra"), Vec::<String>::new());
    assert_eq!(coach.model.name_of(also), "Mira");
    let told = |phone: &Phone, player| phone.model.packed.values().filter(|p| p.summary.took_part(player)).count();
    assert_eq!((told(&coach, stays), told(&coach, also)), (2, 0));
    // Its page is the other's, a change there is a change of the one that stays.
    coach.act(Action::Go(Screen::Child(also)));
    assert_eq!(coach.model.screen, Screen::Child(stays));
    rename(&mut coach, also, "Mira K");
    assert_eq!(coach.model.name_of(stays), "Mira K");
    rename(&mut coach, stays, "Mira");
    let word = joining::joining(&coach.model).joined[0].id;
    coach.act(Action::Joining(JoiningTap::TakenBack(word)));
    assert_eq!((counts_of(&mut coach, "Mira"), counts_of(&mut coach, "Myra")), before);
}

/// Killed between the word and the counting again: the next start counts again.
#[test]
fn a_kill_before_it_was_counted_again() {
    let (mut coach, _, copy) = two_lists();
    take_in(&mut coach, "k", &copy);
    coach.fails = Some(Answer::Refused(words::work::DIED.to_owned()));
    tap_same(&mut coach, 0);
    assert!(coach.summaries.values().all(|text| !text.contains("\"same\"")));
    coach.restart();
    assert!(coach.summaries.values().all(|text| text.contains("\"same\":[[")));
    assert_eq!(counts_of(&mut coach, "Mira"), ["2 of 3", "2 of 4"]);
}

/// Taken back before it was counted again: what that job still stores is counted again, too.
#[test]
fn a_word_taken_back_before_it_was_counted_again() {
    let (mut coach, _, copy) = two_lists();
    take_in(&mut coach, "k", &copy);
    let before = (counts_of(&mut coach, "Mira"), counts_of(&mut coach, "Myra"));
    coach.deaf = true;
    tap_same(&mut coach, 0);
    let asked = |effect: &Effect| matches!(effect, Effect::Work(Job::Recount { .. }));
    let Some(Effect::Work(job)) = coach.effects.iter().rfind(|effect| asked(effect)).cloned() else { panic!("a job") };
    let word = joining::joining(&coach.model).joined[0].id;
    coach.act(Action::Joining(JoiningTap::TakenBack(word)));
    coach.deaf = false;
    coach.answer_late(job);
    assert!(coach.summaries.values().all(|text| !text.contains("\"same\"")), "counted as it is said now");
    assert_eq!((counts_of(&mut coach, "Mira"), counts_of(&mut coach, "Myra")), before);
}

/// One who is archived under the name that stays, and in the squad under the other, is in the squad.
#[test]
fn who_is_here_under_one_name_is_here() {
    let (mut coach, _, copy) = two_lists();
    let mira = coach.player("Mira");
    coach.act(Action::ChildArchived(mira, true));
    take_in(&mut coach, "k", &copy);
    let myra = coach.player("Myra");
    coach.act(Action::Joining(JoiningTap::Same { stays: mira, also: myra }));
    assert_eq!(coach.model.base.player(mira).map(|child| child.archived), Some(false));
    // Under both names gone it stays gone.
    let (odile, lund) = (coach.player("Odile Lund"), coach.player("lund ODILE"));
    [odile, lund].into_iter().for_each(|child| coach.act(Action::ChildArchived(child, true)));
    coach.act(Action::Joining(JoiningTap::Same { stays: odile, also: lund }));
    assert_eq!(coach.model.base.player(odile).map(|child| child.archived), Some(true));
}

/// While a run is on, a word on two children goes on with it: the ball counts under the one that stays.
#[test]
fn a_word_during_a_run() {
    let (mut coach, _, copy) = two_lists();
    take_in(&mut coach, "k", &copy);
    coach.act(Action::Go(Screen::Today));
    coach.drill(0);
    (0..2).for_each(|_| coach.act(Action::PlaceTapped(Place(0), pass(3))));
    let Screen::Run(run) = coach.model.screen else { panic!("run") };
    coach.act(Action::Go(Screen::Joining));
    // Both stand in this run now, so nobody asks; it was said on another phone.
    let (mira, myra) = (coach.player("Mira"), coach.player("Myra"));
    coach.act(Action::Joining(JoiningTap::Same { stays: myra, also: mira }));
    coach.act(Action::Go(Screen::Run(run)));
    coach.act(Action::PlaceTapped(Place(0), pass(3)));
    assert_eq!(coach.board().undo.as_deref(), Some("Myra, stood 3, just now"));
    let tally = &coach.model.runs[&run].main.by_child[&myra];
    assert_eq!(tally.of(None).count.tries(), 3);
    assert!(!coach.model.runs[&run].main.lineup.everyone().any(|player| player == mira));
}

// What has to work when phones are brought together.

/// Takes these copies in, in this order, and tells what stands then.
fn merged(start: &Phone, copies: &[(&str, &[u8])]) -> (Vec<String>, Vec<String>) {
    let mut phone = start.killed();
    for (hash, bytes) in copies {
        take_in(&mut phone, hash, bytes);
    }
    let (mut squad, mut told) = figures(&mut phone);
    squad.sort();
    told.sort();
    (squad, told)
}

/// Any order, any repetition, four phones, words on children among them: the same figures.
#[test]
fn any_order_any_repetition_any_number_of_phones() {
    let mut coach = Phone::with_squad(SQUAD);
    practised(&mut coach, &[3, 2, 0]);
    let first = coach.copy();
    let copies: Vec<(String, Vec<u8>)> = (1..5u64)
        .map(|n| {
            let mut phone = assistant(&first, 7_000 * n, &format!("Phone {n}"));
            // A fifth child under four spellings, and a practice of n balls.
            phone.act(Action::RosterTyped(["Iva", "IVA", "Ivá", "iva"][n as usize - 1].to_owned()));
            phone.act(Action::RosterTaken);
            practised(&mut phone, &vec![3; n as usize]);
            (format!("k{n}"), phone.copy())
        })
        .collect();
    // The second phone has heard of the first's, and said that they are one.
    let mut second = assistant(&first, 77_000, "Phone 5");
    for (hash, bytes) in &copies[..2] {
        take_in(&mut second, hash, bytes);
    }
    tap_same(&mut second, 0);
    let said = ("said".to_owned(), second.copy());
    let all: Vec<&(String, Vec<u8>)> = copies.iter().chain([&said]).collect();
    let in_order = |order: &[usize]| {
        let order: Vec<(&str, &[u8])> = order.iter().map(|n| (all[*n].0.as_str(), all[*n].1.as_slice())).collect();
        merged(&coach, &order)
    };
    let expected = in_order(&[0, 1, 2, 3, 4]);
    assert_eq!(expected.0.len(), 4 + 3, "{:?}", expected.0);
    assert_eq!(expected.1.len(), 5);
    for order in [&[4, 3, 2, 1, 0][..], &[2, 4, 0, 3, 1], &[0, 0, 1, 4, 2, 4, 3, 1], &[4, 2, 3]] {
        assert_eq!(in_order(order), expected, "{order:?}");
    }
}

/// Restored from an old backup, it went on writing; and a clone of the phone went on too: both sides keep what they wrote.
#[test]
fn a_restored_backup_and_a_clone_that_went_on() {
    let mut phone = Phone::with_squad(SQUAD);
    practised(&mut phone, &[3, 2, 0]);
    let mut backup = phone.killed();
    let mut clone = phone.killed_as(500);
    practised(&mut phone, &[3, 3]);
    practised(&mut backup, &[0, 0, 0]);
    practised(&mut clone, &[3]);
    let copies = [backup.copy(), clone.copy(), phone.copy()];
    let told = |start: &Phone| {
        let order: Vec<(&str, &[u8])> = ["a", "b", "c"].into_iter().zip(copies.iter().map(Vec::as_slice)).collect();
        merged(start, &order).1
    };
    let expected = ["0 good of 3", "1 good of 1", "2 good of 2", "2 good of 3"];
    for start in [&phone, &backup, &clone] {
        let told = told(start);
        let mut counts: Vec<&str> =
            told.iter().filter_map(|line| line.split_once(": ")).map(|(_, count)| count).collect();
        counts.sort_unstable();
        assert_eq!(counts, expected);
    }
}

/// Clocks on the wall that are wrong by hours, or by decades: nothing is lost, nothing counts twice, nobody's order is another's.
#[test]
fn clocks_wrong_by_hours_and_decades() {
    const HOUR: i64 = 3_600_000;
    for wrong in [-5 * HOUR, 9 * HOUR, -40 * 8_766 * HOUR, 60 * 8_766 * HOUR] {
        let mut coach = Phone::with_squad(SQUAD);
        practised(&mut coach, &[3, 2, 0]);
        let mut other = assistant(&coach.copy(), 7_000, "Ana’s phone");
        other.wait(1_000, wrong);
        practised(&mut other, &[3, 3, 1, 0]);
        let copy = other.copy();
        assert_eq!(looked(&mut coach, "k", &copy).lead, "4 contacts of 1 practice, not here yet.");
        coach.act(Action::ParcelAccepted);
        let (squad, mut told) = figures(&mut coach);
        told.sort();
        assert_eq!(squad.len(), 4);
        assert_eq!(
            told.iter().map(|line| line.split_once(": ").expect("a count").1).collect::<Vec<_>>(),
            ["2 good of 3", "2 good of 4"]
        );
        let clock = coach.model.writer.clock();
        let mira = coach.player("Mira");
        rename(&mut coach, mira, "Mirabel");
        assert_eq!(coach.model.writer.clock().0, clock.0 + 2, "importing moves no clock");
    }
}

/// What goes with a file is told before it goes, and a file is left by going.
#[test]
fn a_file_is_taken_back_by_two_taps() {
    let (mut coach, copy) = two_phones();
    take_in(&mut coach, "k", &copy);
    coach.act(Action::Go(Screen::Share));
    let asks = |phone: &Phone| share::share(&phone.model).parcels[0].asks.clone();
    assert_eq!(asks(&coach), None);
    coach.act(Action::ParcelBackAsked(Some("k".to_owned())));
    assert_eq!(asks(&coach).as_deref(), Some(words::copies::TAKE_BACK));
    coach.act(Action::Go(Screen::Squad));
    coach.act(Action::Go(Screen::Share));
    assert_eq!(asks(&coach), None);
    coach.act(Action::ParcelBackAsked(Some("k".to_owned())));
    coach.act(Action::ParcelTakenBack("k".to_owned()));
    assert!(asks(&coach).is_none() && !coach.model.parcels[0].note.accepted);
}

/// Whoever was typed in here keeps the plain name, though another phone's list is older.
#[test]
fn the_names_of_this_phone_stay_plain() {
    let older = Phone::bare(3);
    let mut older = older;
    older.act(Action::RosterTyped("Mira\nTove".to_owned()));
    older.act(Action::RosterTaken);
    let mut coach = Phone::other("Iva\nBram\nMira");
    let mira = coach.player("Mira");
    let copy = older.copy();
    take_in(&mut coach, "k", &copy);
    assert_eq!(coach.model.name_of(mira), "Mira");
    coach.restart();
    assert_eq!(coach.model.name_of(mira), "Mira");
    // And typed in once the file is here.
    let mut later = Phone::other("Iva");
    take_in(&mut later, "k", &copy);
    later.act(Action::RosterTyped("Tove".to_owned()));
    later.act(Action::RosterTaken);
    let tove = later.model.squad().into_iter().rfind(|p| p.name == "Tove" && later.model.own.get(p.id.0).is_some());
    assert_eq!(later.model.name_of(tove.expect("hers").id), "Tove");
    let theirs = coach.model.squad().into_iter().find(|p| p.name == "Mira" && p.id != mira).expect("the other one");
    assert_eq!(coach.model.name_of(theirs.id), "Mira II");
}

/// Emptied, and given its own old copy: everything of it is back, and what it writes after that is new to everybody.
#[test]
fn an_emptied_phone_is_given_its_own_copy() {
    let mut phone = Phone::with_squad(SQUAD);
    practised(&mut phone, &[3, 2, 0]);
    let own = phone.copy();
    let before = figures(&mut phone);
    let mut emptied = Phone::bare(3);
    take_in(&mut emptied, "own", &own);
    assert_eq!(figures(&mut emptied), before);
    practised(&mut emptied, &[3]);
    let later = emptied.copy();
    assert_eq!(looked(&mut phone, "l", &later).lead, "1 contact of 1 practice, not here yet.");
}

/// A newer version's kinds and fields are kept, told of, and sent on as they came.
#[test]
fn a_newer_version_s_entries_are_kept() {
    let (_, copy) = two_phones();
    let mut read = file::read(&copy, &Limits::default()).expect("ours");
    let newest = read.entries.last().expect("some").clone();
    let fact = Fact::Unknown { kind: "wind-noted".to_owned(), body: "{\"from\":\"west\"}".into() };
    let id = EntryId { no: EntryNo(newest.id.no.0 + 1), ..newest.id };
    read.entries.push(Entry { id, fact, ..newest });
    let header = FileHeader { app_version: "9.0.0".to_owned(), written_ms: 0, offset_min: 0 };
    let newer = file::write(&read.entries, &header).into_bytes();
    let mut phone = Phone::bare(31);
    let preview = looked(&mut phone, "k", &newer);
    assert!(
        preview.lines.iter().any(|line| line.starts_with("1 thing is from a newer version")),
        "{:?}",
        preview.lines
    );
    phone.act(Action::ParcelAccepted);
    let on = file::read(&phone.copy(), &Limits::default()).expect("ours").entries;
    assert!(on.iter().any(|entry| entry.id == id), "sent on");
}

/// The largest file that is looked at, and one byte more.
#[test]
fn the_largest_file_and_one_byte_more() {
    let mut phone = Phone::with_squad(SQUAD);
    phone.deaf = true;
    let looks = |phone: &Phone| phone.effects.iter().filter(|e| matches!(e, Effect::Work(Job::Look { .. }))).count();
    let chosen = |n_bytes| Report::FileChosen { name: "large.json".to_owned(), n_bytes };
    phone.report(chosen(update::MAX_FILE_BYTES));
    assert_eq!((looks(&phone), share::share(&phone.model).answer), (1, None));
    phone.act(Action::LookStopped);
    phone.report(chosen(update::MAX_FILE_BYTES + 1));
    assert_eq!(looks(&phone), 1);
    assert_eq!(share::share(&phone.model).answer.expect("said").text, words::trouble::TOO_LARGE);
    assert!(!share::share(&phone.model).reading);
}

/// Half a file, whichever half, changes nothing; the whole of it after that is taken in as ever.
#[test]
fn half_a_file_changes_nothing() {
    let (mut coach, copy) = two_phones();
    let before = figures(&mut coach);
    for half in [&copy[..copy.len() / 2], &copy[copy.len() / 2..], &copy[..copy.len() - 1], b""] {
        coach.choose("half.json", "h", half);
        let view = share::share(&coach.model);
        assert!(view.answer.expect("said").refused && view.parcel.is_none() && !view.reading && view.looking.is_none());
        coach.act(Action::ParcelAccepted);
        assert_eq!(figures(&mut coach), before);
    }
    take_in(&mut coach, "k", &copy);
    assert_eq!(figures(&mut coach).1.len(), 2);
}

/// Ten thousand small files: the phone opens with all of them, and one more is looked at. Each is taken in by the worker's own job.
#[test]
fn ten_thousand_small_files() {
    const N: u64 = 10_000;
    let mut phone = Phone::with_squad(SQUAD);
    let header = FileHeader { app_version: "0.1.0".to_owned(), written_ms: 0, offset_min: 0 };
    let stamp = phone.model.now;
    let of = |n: u64| {
        let note = Note { about: NoteAbout::Children(Vec::new()), tags: Vec::new(), text: format!("From phone {n}") };
        let fact = Fact::NoteWritten { spot: Spot::default(), note };
        let entry = Entry { id: EntryId::new(1_000_000 + n, 1), clock: Clock(n), at: stamp, fact, extra: None };
        file::write([&entry], &header).into_bytes()
    };
    for n in 0..N {
        let (key, name) = (format!("k{n}"), "small.json".to_owned());
        let job = Job::Parcel { key: key.clone(), name, from: String::new(), what: ParcelChange::Accept };
        let done = do_job(&job, Found { file: Some(Ok((key.clone(), of(n)))), ..Found::default() });
        let change = done.change.expect("taken in");
        phone.parcels.extend(change.parcels);
        phone.notes.extend(change.notes);
    }
    phone.restart();
    let notes = |phone: &Phone| phone.model.base.remarks(|_| true).len();
    assert_eq!((phone.model.parcels.len(), notes(&phone)), (10_000, 10_000));
    let again = of(77);
    assert!(looked(&mut phone, "other-name", &again).nothing_new);
    take_in(&mut phone, "one-more", &of(N));
    assert_eq!((phone.model.parcels.len(), notes(&phone)), (10_001, 10_001));
    phone.act(Action::ParcelTakenBack("k77".to_owned()));
    assert_eq!(notes(&phone), 10_000);
}
