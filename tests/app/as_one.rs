//! Three station phones began a practice each on the same evening, for there was no time to send a file first. They meet afterwards: it is asked
//! whether that was one practice, and what one practice means holds everywhere, on every phone, and can be taken back.

use peppertally::app::action::{Action, CopyHow};
use peppertally::app::as_one::{MayBeOne, may_be_one};
use peppertally::app::calendar::CalendarTap;
use peppertally::app::effect::Report;
use peppertally::app::fair::Fair;
use peppertally::app::health::{Checked, HealthTap};
use peppertally::app::joining::JoiningTap;
use peppertally::app::practices::Practices;
use peppertally::app::screen::Screen;
use peppertally::app::view::report::PracticeWay;
use peppertally::app::view::{as_one, calendar, notes, report, share};
use peppertally::app::work::{Goes, Span, TableOf};
use peppertally::domain::entry::Fact;
use peppertally::domain::ids::{Place, PracticeId};
use peppertally::wire::file::{self, Limits};

use super::merging::{SQUAD, assistant, looked};
use super::phone::{Phone, pass};
use super::steps::{practised, take_in};

/// Between the coach's start and Ana's; Bea's comes as long after hers twice over.
const LATER_MS: u64 = 180_000;

/// The squad on three phones, and a practice on each: three balls at the coach's, two at Ana's, five at Bea's.
fn evening() -> ([Phone; 3], [PracticeId; 3]) {
    let mut coach = Phone::with_squad(SQUAD);
    let squad = coach.copy();
    // As far on as the coach's clock: the tests' phones start days apart.
    let begin = |mut phone: Phone, later: u64, grades: &[u8]| {
        let behind = coach_ms(&coach) + i64::try_from(later).unwrap() - coach_ms(&phone);
        phone.wait(later, behind);
        let (practice, _) = practised(&mut phone, grades);
        (phone, practice)
    };
    let (ana, b) = begin(assistant(&squad, 60, "Ana’s phone"), LATER_MS, &[3, 0]);
    let (bea, c) = begin(assistant(&squad, 90, "Bea’s phone"), 3 * LATER_MS, &[2; 5]);
    let (a, _) = practised(&mut coach, &[3; 3]);
    ([coach, ana, bea], [a, b, c])
}

fn coach_ms(phone: &Phone) -> i64 {
    phone.model.now.wall_ms
}

fn rows(phone: &Phone) -> Vec<String> {
    report::after(&phone.model).practices.iter().map(|row| row.what.clone()).collect()
}

fn counts(phone: &mut Phone, practice: PracticeId) -> Vec<String> {
    phone.act(Action::Go(Screen::PracticeReport(practice)));
    let view = report::practice_report(&phone.model, practice).expect("a report");
    assert!(!view.loading && view.trouble.is_none());
    view.runs.iter().map(|run| run.count.clone()).collect()
}

fn say_one(phone: &mut Phone) {
    let asks = as_one::as_one(&phone.model, None).asks;
    let (stays, also) = (asks[0].one.practice, asks[0].other.practice);
    phone.act(Action::Joining(JoiningTap::OnePractice { stays, also }));
}

fn asked(phone: &Phone) -> Vec<(PracticeId, PracticeId)> {
    may_be_one(&phone.model).iter().map(|MayBeOne { one, other }| (one.practice, other.practice)).collect()
}

fn check_whole(phone: &mut Phone) {
    phone.act(Action::Health(HealthTap::Check));
    let Some(Checked::Found(found)) = &phone.model.health.found else { panic!("checked") };
    assert_eq!(found.otherwise.len(), 0);
}

#[test]
fn one_practice_three_runs() {
    let ([mut coach, mut ana, mut bea], [a, b, c]) = evening();
    let copies = [ana.copy(), bea.copy()];
    assert_eq!((asked(&coach), rows(&coach).len()), (Vec::new(), 1));
    take_in(&mut coach, "b", &copies[0]);
    assert_eq!(share::share(&coach.model).as_one.as_deref(), Some("Two practices may be one"));
    take_in(&mut coach, "c", &copies[1]);
    assert_eq!(share::share(&coach.model).as_one.as_deref(), Some("Several practices may be one"));
    // Two questions are enough for three practices, the nearest in time first; nothing was joined by itself.
    assert_eq!(rows(&coach).len(), 3);
    assert_eq!(asked(&coach), [(a, b), (b, c)]);
    let view = as_one::as_one(&coach.model, None);
    assert_eq!(
        [&view.asks[0].one, &view.asks[0].other].map(|side| side.phone.as_str()),
        ["On this phone", "On Ana’s phone"]
    );
    assert_eq!(view.asks[0].one.what, "1 drill, 3 contacts");
    coach.act(Action::Go(Screen::AsOne(None)));
    say_one(&mut coach);
    // A and B are read under A; of C it is asked once more, and then of nothing.
    assert_eq!(asked(&coach), [(a, c)]);
    let ask = &as_one::as_one(&coach.model, None).asks[0];
    assert_eq!(
        [&ask.one, &ask.other].map(|side| side.phone.as_str()),
        ["On this phone and on Ana’s phone", "On Bea’s phone"]
    );
    say_one(&mut coach);
    assert_eq!(asked(&coach), []);
    let check = |coach: &mut Phone| {
        assert_eq!(rows(coach), ["3 drills, 10 contacts"]);
        // Whichever of the three is asked for.
        for practice in [a, b, c] {
            assert_eq!(counts(coach, practice), ["3 good of 3", "1 good of 2", "5 good of 5"]);
            assert_eq!(coach.model.screen, Screen::PracticeReport(a));
        }
        let view = report::practice_report(&coach.model, a).expect("a report");
        let phones = view.phones.expect("three");
        assert!(phones.starts_with("On this phone from 17:"), "{phones}");
        assert!(
            phones.contains("; on Ana’s phone from 17:") && phones.contains("; on Bea’s phone from 17:"),
            "{phones}"
        );
        // Only what was begun here is opened again here.
        let ways: Vec<_> = view.ways.iter().map(|row| (row.practice, row.way)).collect();
        assert_eq!(ways, [(a, PracticeWay::OpenAgain)]);
        coach.act(Action::Go(Screen::Today));
        check_whole(coach);
    };
    check(&mut coach);
    coach.restart();
    check(&mut coach);
    // On another day too: by then all lie packed.
    coach.next_day();
    coach.restart();
    check(&mut coach);
    // What was said goes along; there nothing is asked any more.
    let whole = coach.copy();
    let preview = looked(&mut ana, "whole", &whole);
    assert!(
        preview.lines.iter().any(|line| line.contains("2 words on practices that may be one")),
        "{:?}",
        preview.lines
    );
    for phone in [&mut ana, &mut bea] {
        take_in(phone, "whole", &whole);
        assert_eq!((rows(phone), asked(phone)), (vec!["3 drills, 10 contacts".to_owned()], Vec::new()));
        phone.restart();
        assert_eq!(counts(phone, b), ["3 good of 3", "1 good of 2", "5 good of 5"]);
        check_whole(phone);
    }
    // It can be taken back, one by one.
    let said = as_one::as_one(&coach.model, None).joined;
    assert_eq!(said.len(), 2);
    coach.act(Action::Joining(JoiningTap::TakenBack(said[0].id)));
    assert_eq!((rows(&coach).len(), asked(&coach).len()), (2, 1));
    coach.act(Action::Joining(JoiningTap::TakenBack(said[1].id)));
    coach.restart();
    assert_eq!((rows(&coach).len(), asked(&coach).len()), (3, 2));
    for (practice, said) in [(a, "3 good of 3"), (b, "1 good of 2"), (c, "5 good of 5")] {
        assert_eq!(counts(&mut coach, practice), [said]);
    }
}

/// Each says it on her own phone, of other pairs and in another order; whoever takes in whose copies first, all read the same.
#[test]
fn whoever_says_it_and_in_whatever_order_it_comes() {
    let (phones, _) = evening();
    let [mut coach, mut ana, mut bea] = phones;
    let first = [coach.copy(), ana.copy(), bea.copy()];
    for (n, phone) in [&mut coach, &mut ana, &mut bea].into_iter().enumerate() {
        for k in [(n + 1) % 3, (n + 2) % 3] {
            take_in(phone, &format!("first{k}"), &first[k]);
        }
    }
    say_one(&mut coach);
    say_one(&mut ana);
    say_one(&mut bea);
    say_one(&mut bea);
    let second = [coach.copy(), ana.copy(), bea.copy()];
    for (n, phone) in [&mut coach, &mut ana, &mut bea].into_iter().enumerate() {
        let from = if n == 1 { [2, 0] } else { [(n + 1) % 3, (n + 2) % 3] };
        from.iter().for_each(|k| take_in(phone, &format!("second{k}"), &second[*k]));
    }
    let sets: Vec<_> = [&coach, &ana, &bea].map(|phone| phone.model.base.as_one().sets().to_vec()).into();
    assert_eq!(sets[0][0].len(), 3);
    assert!(sets.iter().all(|set| *set == sets[0]));
    let reports = [&mut coach, &mut ana, &mut bea].map(|phone| counts(phone, sets[0][0][0]));
    assert_eq!(reports, [["3 good of 3", "1 good of 2", "5 good of 5"]; 3]);
}

/// Two, said once: asked nowhere again, after a kill and on the other phone; unless it is taken back.
#[test]
fn two_is_said_once() {
    let ([mut coach, mut ana, _], [a, b, _]) = evening();
    take_in(&mut coach, "b", &ana.copy());
    let tap = Action::Joining(JoiningTap::TwoPractices { one: a, other: b });
    coach.act(tap.clone());
    let n = coach.db.len();
    coach.act(tap);
    assert_eq!(coach.db.len(), n, "a second tap says nothing new");
    coach.restart();
    assert_eq!((asked(&coach), rows(&coach).len()), (Vec::new(), 2));
    take_in(&mut ana, "a", &coach.copy());
    assert_eq!(asked(&ana), []);
    let apart = as_one::as_one(&ana.model, None).apart;
    ana.act(Action::Joining(JoiningTap::TakenBack(apart[0].id)));
    assert_eq!(asked(&ana), [(a, b)]);
}

/// One here, two there: told before the file is taken in, with what will count; and then that counts on both.
#[test]
fn what_both_sides_said_is_told() {
    let ([mut coach, mut ana, _], [a, b, _]) = evening();
    let of_coach = coach.copy();
    take_in(&mut coach, "b", &ana.copy());
    take_in(&mut ana, "a", &of_coach);
    say_one(&mut coach);
    ana.act(Action::Joining(JoiningTap::TwoPractices { one: a, other: b }));
    // Said later by nobody, and as often: the higher clock counts, which is the coach's or Ana's by what each had counted.
    let copy = ana.copy();
    let differs = looked(&mut coach, "b2", &copy).differs;
    assert_eq!(differs.len(), 1);
    assert!(differs[0].starts_with("Practice of Sunday 29 November 2026, 17:06 and of Sunday 29"), "{differs:?}");
    assert!(differs[0].contains("one practice, that of Sunday") && differs[0].contains("two practices"), "{differs:?}");
    let of_coach = coach.copy();
    take_in(&mut coach, "b2", &copy);
    take_in(&mut ana, "a2", &of_coach);
    assert_eq!(coach.model.base.as_one(), ana.model.base.as_one());
    assert_eq!((rows(&coach).len(), asked(&coach)), (rows(&ana).len(), asked(&ana)));
}

/// What is on is a part of nothing else until it is over: not asked of, not joined by hand; and joined, opened again, it stands alone until it
/// has ended.
#[test]
fn what_is_on_stands_by_itself() {
    let ([mut coach, mut ana, _], [a, b, _]) = evening();
    take_in(&mut coach, "b", &ana.copy());
    coach.act(Action::PracticeReopened(a));
    assert_eq!(asked(&coach), []);
    coach.act(Action::Joining(JoiningTap::OnePractice { stays: b, also: a }));
    assert_eq!(coach.model.base.as_one().sets().len(), 0);
    let by_hand = as_one::as_one(&coach.model, Some(a)).by_hand.expect("why not");
    assert_eq!(by_hand.none, Some("It is still on. Once it has ended it can be one with another."));
    coach.end_practice();
    assert_eq!(asked(&coach), [(a, b)]);
    say_one(&mut coach);
    assert_eq!(rows(&coach), ["2 drills, 5 contacts"]);
    coach.act(Action::PracticeReopened(a));
    assert_eq!(rows(&coach).len(), 2);
    assert_eq!(counts(&mut coach, a), ["3 good of 3"]);
    assert_eq!(counts(&mut coach, b), ["1 good of 2"]);
    coach.act(Action::Go(Screen::Today));
    // A drill of the evening after all: it is of this phone's practice.
    coach.drill(0);
    coach.act(Action::PlaceTapped(Place(0), pass(3)));
    coach.act(Action::Finish);
    coach.end_practice();
    // In the order of time: Ana's phone began three minutes later.
    assert_eq!(counts(&mut coach, a), ["3 good of 3", "1 good of 1", "1 good of 2"]);
    coach.restart();
    assert_eq!(counts(&mut coach, a), ["3 good of 3", "1 good of 1", "1 good of 2"]);
}

/// A file that was written before the practice in it had ended: it may go on there, so it is asked on another day.
#[test]
fn another_phones_may_still_go_on() {
    let ([mut coach, mut ana, _], [a, b, _]) = evening();
    ana.act(Action::PracticeReopened(b));
    let ended_again = |entry: &peppertally::domain::entry::Entry| matches!(entry.fact, Fact::PracticeEnded { .. });
    // As if it had been sent before: without its end.
    let sent = file::read(&ana.copy(), &Limits::default()).expect("a copy");
    let entries: Vec<_> =
        sent.entries.iter().filter(|e| !ended_again(e) && !matches!(e.fact, Fact::EntryTakenBack { .. })).collect();
    let bytes = file::write(entries, &sent.header).into_bytes();
    take_in(&mut coach, "b", &bytes);
    assert_eq!(asked(&coach), []);
    coach.next_day();
    assert_eq!(asked(&coach), [(a, b)]);
}

/// A clock that is wrong by years is asked of nothing; by hand any two can be made one, and the day of the page that was open stays.
#[test]
fn a_clock_that_was_wrong() {
    let mut coach = Phone::with_squad(SQUAD);
    let squad = coach.copy();
    for wrong_ms in [-9 * 3_600_000_i64, -400 * 86_400_000, -50 * 365 * 86_400_000] {
        let mut coach = coach.killed();
        let mut ana = assistant(&squad, 60, "Ana’s phone");
        let behind = coach_ms(&coach) - coach_ms(&ana);
        ana.wait(1_000, behind + wrong_ms - 12 * 3_600_000);
        let (b, _) = practised(&mut ana, &[3, 0]);
        let (a, _) = practised(&mut coach, &[3; 3]);
        take_in(&mut coach, "b", &ana.copy());
        assert_eq!(asked(&coach), [], "{wrong_ms}");
        coach.act(Action::Go(Screen::PracticeReport(a)));
        let view = report::practice_report(&coach.model, a).expect("a report");
        assert_eq!(view.as_one.as_deref(), Some("Counted on another phone too?"));
        let by_hand = as_one::as_one(&coach.model, Some(a)).by_hand.expect("a list");
        assert_eq!(by_hand.others.iter().map(|row| row.practice).collect::<Vec<_>>(), [b]);
        // Over the weeks: Mira's balls of two days, then of one.
        let n_occasions = |phone: &Phone| {
            let all = Practices::of(&phone.model);
            let series = peppertally::domain::weeks::series(&all.latest_first(), phone.model.now.day());
            series[0].children.iter().map(|(_, seen)| seen.len()).collect::<Vec<_>>()
        };
        assert_eq!(n_occasions(&coach), [2]);
        coach.act(Action::Joining(JoiningTap::OnePractice { stays: a, also: b }));
        assert_eq!(n_occasions(&coach), [1]);
        let list = report::after(&coach.model).practices;
        assert_eq!((list.len(), list[0].practice), (1, a));
        assert_eq!(counts(&mut coach, b).len(), 2);
    }
    coach.act(Action::Go(Screen::Today));
}

/// Of one phone's two practices of a day nothing is asked, nor of two squads that share nobody.
#[test]
fn what_is_not_asked() {
    let mut coach = Phone::with_squad(SQUAD);
    practised(&mut coach, &[3]);
    practised(&mut coach, &[2, 2]);
    assert_eq!((rows(&coach).len(), asked(&coach)), (2, Vec::new()));
    // The same seen from another phone, whether the phone has a name or not.
    let mut other = Phone::bare(400);
    take_in(&mut other, "c", &coach.copy());
    assert_eq!((rows(&other).len(), asked(&other)), (2, Vec::new()));
    // Another squad, in the gym next door.
    let mut next_door = Phone::other("1 Runa\n2 Siv");
    let behind = coach_ms(&coach) - coach_ms(&next_door);
    next_door.wait(1_000, behind);
    practised(&mut next_door, &[3, 3]);
    take_in(&mut coach, "n", &next_door.copy());
    assert_eq!((rows(&coach).len(), asked(&coach)), (3, Vec::new()));
}

/// Three phones without a name, as they come out of a box, brought together on a fourth: they were on at once, so they are three phones.
#[test]
fn phones_without_a_name() {
    let mut coach = Phone::with_squad(SQUAD);
    let squad = coach.copy();
    let mut stations: Vec<Phone> = [60, 90].map(Phone::bare).into();
    for phone in &mut stations {
        take_in(phone, "first", &squad);
        let behind = coach_ms(&coach) - coach_ms(phone);
        phone.wait(1_000, behind);
        practised(phone, &[3, 2, 1]);
    }
    for (n, phone) in stations.iter_mut().enumerate() {
        take_in(&mut coach, &format!("s{n}"), &phone.copy());
    }
    assert_eq!((rows(&coach).len(), asked(&coach).len()), (2, 1));
    let asks = as_one::as_one(&coach.model, None).asks;
    assert_eq!(asks[0].one.phone, "On another phone");
}

/// A date on which the coach's was held is held by the one that it is read under; taken back, it is held by the coach's again.
#[test]
fn a_date_is_held_by_what_it_is_read_under() {
    let mut coach = Phone::with_squad(SQUAD);
    let squad = coach.copy();
    let day = coach.model.now.day();
    coach.act(Action::Go(Screen::Dates(None)));
    for typed in
        [CalendarTap::FromTyped(day.to_string()), CalendarTap::StartTyped("17:00".to_owned()), CalendarTap::Kept]
    {
        coach.act(Action::Calendar(typed));
    }
    let mut ana = assistant(&squad, 60, "Ana’s phone");
    let behind = coach_ms(&coach) - coach_ms(&ana);
    ana.wait(1_000, behind);
    let (b, _) = practised(&mut ana, &[3, 0]);
    let (a, _) = practised(&mut coach, &[3; 3]);
    take_in(&mut coach, "b", &ana.copy());
    let held = |phone: &Phone| {
        let dates = peppertally::app::calendar::dates(&phone.model);
        (dates.iter().map(|(_, held)| *held).collect::<Vec<_>>(), calendar_items(phone, day))
    };
    assert_eq!(held(&coach), (vec![Some(a)], 2));
    coach.act(Action::Joining(JoiningTap::OnePractice { stays: b, also: a }));
    assert_eq!(held(&coach), (vec![Some(b)], 1));
    let said = as_one::as_one(&coach.model, None).joined;
    coach.act(Action::Joining(JoiningTap::TakenBack(said[0].id)));
    assert_eq!(held(&coach), (vec![Some(a)], 2));
}

/// Dates and practices of a day, as the calendar shows them.
fn calendar_items(phone: &Phone, day: chrono::NaiveDate) -> usize {
    let mut model = phone.killed();
    model.act(Action::Go(Screen::Calendar));
    if model.model.drafts.calendar.picked != Some(day) {
        model.act(Action::Calendar(CalendarTap::Picked(day)));
    }
    calendar::calendar(&model.model).day.expect("open").items.len()
}

/// One occasion everywhere: shares, weeks, notes, the calendar, and a copy of one practice.
#[test]
fn one_practice_everywhere() {
    let ([mut coach, mut ana, _], [a, b, _]) = evening();
    take_in(&mut coach, "b", &ana.copy());
    let note = |practice| Action::Notes(peppertally::app::notes::NotesTap::Wanted(Some(practice), None));
    coach.act(note(a));
    coach.act(Action::Notes(peppertally::app::notes::NotesTap::Tagged("effort".to_owned())));
    let fair = |phone: &Phone| {
        let all = Practices::of(&phone.model);
        let fair = Fair::of(&phone.model, &all.latest_first());
        let mira = fair.children.iter().find(|child| phone.model.name_of(child.player) == "Mira").copied().unwrap();
        (mira.n_whole + mira.n_part, mira.had.contacts)
    };
    assert_eq!(fair(&coach), (2, 5));
    let day = coach.model.now.day();
    assert_eq!(calendar_items(&coach, day), 2);
    coach.act(Action::Go(Screen::AsOne(None)));
    say_one(&mut coach);
    assert_eq!(fair(&coach), (1, 5));
    assert_eq!(calendar_items(&coach, day), 1);
    assert_eq!(peppertally::app::calendar::this_season(&coach.model).expect("a season").n_held, 1);
    coach.act(Action::Go(Screen::Heard));
    let heard = notes::heard(&coach.model);
    assert!(heard.spans.starts_with("1 practice"), "{}", heard.spans);
    // In a table, too: each row has its practice and when that began.
    for (table, n_rows) in [(TableOf::Children, 4), (TableOf::Contacts, 5)] {
        coach.act(Action::CopyWanted(CopyHow::Download, Goes { table: Some(table), ..Goes::default() }));
        coach.report(Report::CopyLeft { how: CopyHow::Download, left: Ok(true) });
        let text = coach.copied.clone().expect("written");
        let rows: Vec<&str> = text.lines().skip(1).filter(|line| !line.is_empty()).collect();
        assert_eq!(rows.len(), n_rows, "{text}");
        assert!(rows.iter().all(|row| row.contains(&format!("{},2026-", a.0))), "{text}");
    }
    // A copy of one practice has both, and none of another.
    practised(&mut coach, &[1; 4]);
    let spans = share::share(&coach.model).spans;
    let one: Vec<_> = spans.iter().filter(|(_, span)| matches!(span, Span::One(_))).collect();
    assert_eq!(one.len(), 2);
    let goes = Goes { span: Span::One(a.0.to_string()), ..Goes::default() };
    coach.act(Action::CopyWanted(CopyHow::Download, goes));
    let copy = file::read(coach.copied.as_ref().expect("written").as_bytes(), &Limits::default()).expect("a copy");
    let begun: Vec<_> = copy.entries.iter().filter(|e| matches!(e.fact, Fact::PracticeStarted { .. })).collect();
    assert_eq!(begun.iter().map(|entry| PracticeId(entry.id)).collect::<Vec<_>>(), [a, b]);
    assert_eq!(copy.entries.iter().filter(|e| matches!(e.fact, Fact::ContactNoted { .. })).count(), 5);
}
