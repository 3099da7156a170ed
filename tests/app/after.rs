//! The first two minutes after a practice: the order of worth, what is never told, three questions that stay, the next plan once.

use crate::phone::{Phone, pass};
use peppertally::app::action::Action;
use peppertally::app::after::{Worth, worth_knowing};
use peppertally::app::calendar::CalendarTap;
use peppertally::app::notes::NotesTap;
use peppertally::app::plan::PlanTap;
use peppertally::app::practices::Practices;
use peppertally::app::screen::Screen;
use peppertally::app::view::after::{AskRow, Minutes};
use peppertally::app::view::report::{PracticeReportView, practice_report};
use peppertally::app::words::after::{ToPlan, to_plan};
use peppertally::domain::ids::{Place, PracticeId};
use peppertally::domain::plan::PartKind;

const SQUAD: &str = "Mira\nTove\nOdile\nBram\nIva\nLasse";

fn report(phone: &Phone) -> PracticeReportView {
    let Screen::PracticeReport(id) = phone.model.screen else { panic!("{:?}", phone.model.screen) };
    practice_report(&phone.model, id).expect("a report")
}

fn minutes(phone: &Phone) -> Minutes {
    report(phone).minutes.expect("it is over")
}

fn lines(phone: &Phone) -> Vec<String> {
    minutes(phone).know.into_iter().map(|know| know.line).collect()
}

/// Passers who stand in the first places of a drill on the floor: each so often, with this grade.
fn passes(phone: &mut Phone, times: &[(u8, usize, u8)]) {
    for (place, n, grade) in times {
        (0..*n).for_each(|_| phone.act(Action::PlaceTapped(Place(*place), pass(*grade))));
    }
}

/// The kinds, in order, of what the practice on screen has.
fn kinds(phone: &Phone) -> Vec<&'static str> {
    let Screen::PracticeReport(id) = phone.model.screen else { panic!("{:?}", phone.model.screen) };
    let all = Practices::of(&phone.model);
    let summary = all.latest_first().into_iter().find(|p| p.practice == id).expect("a practice").clone();
    let kind = |worth: &Worth| match worth {
        Worth::Changed(_) => "changed",
        Worth::Short(_) => "short",
        Worth::Drill(..) => "drill",
        Worth::LeftOut(_) => "left out",
        Worth::Together(..) => "together",
        Worth::NoEffort => "no effort",
    };
    worth_knowing(&phone.model, &summary).iter().map(kind).collect()
}

#[test]
fn nothing_is_known_of_nothing() {
    let mut phone = Phone::with_squad(SQUAD);
    phone.drill(0);
    phone.act(Action::Finish);
    phone.end_practice();
    let minutes = minutes(&phone);
    assert_eq!((minutes.know.len(), minutes.know_none.is_some()), (0, true));
    assert_eq!(minutes.plan, "No plan was followed: 1 drill, 0 contacts.");
    assert_eq!(report(&phone).asks.len(), 3, "asking needs no ball");
}

/// While it is on there is nothing to look back on.
#[test]
fn a_practice_that_is_on_has_no_minutes() {
    let mut phone = Phone::with_squad(SQUAD);
    phone.drill(0);
    phone.act(Action::Finish);
    let id = phone.model.practice_today().expect("it is on").id;
    phone.act(Action::Go(Screen::PracticeReport(id)));
    assert_eq!((report(&phone).minutes, report(&phone).asks.len()), (None, 0));
}

/// Ten balls, all near an even share and none beyond a line: nothing stands out, and nothing is filled in.
#[test]
fn fewer_than_three_where_there_are_fewer() {
    let mut phone = Phone::with_squad("Mira\nTove\nOdile");
    phone.drill(0);
    passes(&mut phone, &[(0, 3, 3), (1, 4, 1), (2, 3, 2)]);
    phone.act(Action::Finish);
    phone.end_practice();
    assert_eq!(kinds(&phone), [""; 0]);
    assert_eq!(minutes(&phone).know_none, Some("Nothing stands out."));
}

/// The worker fails: that nothing stands out is of what is known, and what isn't known is said, with why. Opened again it is tried again.
#[test]
fn what_could_not_be_worked_out_is_said() {
    use peppertally::app::work::Answer;
    let mut phone = Phone::with_squad("Mira\nTove\nOdile");
    phone.drill(0);
    passes(&mut phone, &[(0, 3, 3), (1, 4, 1), (2, 3, 2)]);
    phone.act(Action::Finish);
    phone.fails = Some(Answer::Refused("No room.".to_owned()));
    phone.end_practice();
    let failed = minutes(&phone);
    assert_eq!(
        failed.trouble.as_deref(),
        Some("What has changed over weeks isn’t among this. It could not be worked out. No room.")
    );
    assert!(!failed.working);
    phone.fails = None;
    let screen = phone.model.screen;
    phone.act(Action::Go(Screen::After));
    phone.act(Action::Go(screen));
    assert_eq!(minutes(&phone).trouble, None);
}

/// 12, 12 and 3 balls: even is 9, and 3 is less than two thirds of it. No name stands on top.
#[test]
fn a_child_that_was_short_is_told_without_its_name() {
    let mut phone = Phone::with_squad("Mira\nTove\nOdile");
    phone.drill(0);
    passes(&mut phone, &[(0, 12, 3), (1, 12, 0), (2, 3, 2)]);
    phone.act(Action::Finish);
    phone.end_practice();
    assert_eq!(lines(&phone), ["One child had far fewer balls than an even share."]);
    let know = minutes(&phone).know[0].clone();
    assert_eq!(know.rests, ["Odile had 3 of an even 9: first in line next time, or a ball for one alone at the wall."]);
    assert_eq!(know.way.1, Action::Go(Screen::Fair));
}

/// Whoever was away or went early is short of nothing.
#[test]
fn who_went_early_is_not_short() {
    let mut phone = Phone::with_squad("Mira\nTove\nOdile");
    phone.drill(0);
    passes(&mut phone, &[(0, 12, 3), (1, 12, 0), (2, 3, 2)]);
    phone.act(Action::Finish);
    phone.act(Action::Go(Screen::Today));
    let odile = phone.player("Odile");
    phone.act(Action::PresenceTapped(odile));
    phone.end_practice();
    assert_eq!(kinds(&phone), [""; 0]);
}

/// The order of worth: short before the drill before the effort that nobody noted.
#[test]
fn the_order_of_worth() {
    let mut phone = Phone::with_squad("Mira\nTove\nOdile\nBram");
    phone.drill(3);
    // Serves, one after another: all in.
    use peppertally::domain::skill::{Outcome, ServeOutcome};
    let serve = || Action::OutcomeTapped(Outcome::Serve { outcome: ServeOutcome::In, fast: false });
    (0..80).for_each(|_| phone.act(serve()));
    phone.act(Action::Finish);
    phone.act(Action::Go(Screen::Today));
    phone.end_practice();
    assert_eq!(kinds(&phone), ["drill", "no effort"], "80 of 80 among four");
    let know = minutes(&phone).know;
    assert!(know[0].line.contains("was easy for most"), "{}", know[0].line);
    assert_eq!(know[0].rests, ["80 of 80 good: nearly all."]);
    phone.act(Action::Go(Screen::Today));
    phone.next_day();
    phone.drill(3);
    // Bram has two of 62 though he was there all the time: even is 15.5.
    (0..8).for_each(|_| phone.act(serve()));
    for i in 0..54 {
        let player = phone.player(["Mira", "Tove", "Odile"][i % 3]);
        phone.act(Action::NameTapped(player));
        phone.act(serve());
    }
    phone.act(Action::Finish);
    phone.end_practice();
    assert_eq!(kinds(&phone), ["short", "drill", "no effort"]);
}

/// Two serve 60 each, all in; two serve 8 each, 6 of them in. 132 of 136 are in, far over 8 in 10, but of the children only half are: easy for
/// most it wasn't. With 7 of 8 for one of the two it was, for three of four.
#[test]
fn easy_for_most_is_of_children() {
    use peppertally::domain::skill::{Outcome, ServeOutcome};
    let of = |tove_in: usize| {
        let names = ["Mira", "Tove", "Odile", "Bram"];
        let mut phone = Phone::with_squad(&names.join("\n"));
        phone.drill(3);
        for (name, n, n_in) in [("Mira", 8, 6), ("Tove", 8, tove_in), ("Odile", 60, 60), ("Bram", 60, 60)] {
            let player = phone.player(name);
            for i in 0..n {
                let outcome = if i < n_in { ServeOutcome::In } else { ServeOutcome::Net };
                phone.act(Action::NameTapped(player));
                phone.act(Action::OutcomeTapped(Outcome::Serve { outcome, fast: false }));
            }
        }
        phone.act(Action::Finish);
        phone.end_practice();
        kinds(&phone).contains(&"drill")
    };
    assert_eq!((of(6), of(7)), (false, true));
}

/// A drill of three children says less of the drill than of them; nor do 29 balls.
#[test]
fn few_balls_or_children_are_beyond_no_line() {
    let mut phone = Phone::with_squad("Mira\nTove\nOdile");
    phone.drill(0);
    passes(&mut phone, &[(0, 20, 0), (1, 20, 0), (2, 20, 0)]);
    phone.act(Action::EffortTapped);
    phone.act(Action::Finish);
    phone.end_practice();
    assert_eq!(kinds(&phone), [""; 0], "60 of three children, none good, an effort noted");
}

/// A change over weeks comes first, names nobody on top, and is told of this practice alone: an older report tells none.
#[test]
fn a_change_that_stands_comes_first() {
    let mut phone = Phone::with_squad("Mira\nTove\nOdile");
    let mut reports = Vec::new();
    for week in 0..6 {
        phone.drill(0);
        passes(&mut phone, &[(0, 12, if week < 3 { 0 } else { 3 }), (1, 12, 3), (2, 12, 1)]);
        phone.act(Action::Finish);
        phone.end_practice();
        reports.push(phone.model.screen);
        if week < 5 {
            (0..7).for_each(|_| phone.next_day());
            phone.act(Action::Go(Screen::Today));
        }
    }
    assert_eq!(kinds(&phone)[0], "changed");
    let know = minutes(&phone).know[0].clone();
    assert_eq!(know.line, "More of one child’s balls are good than some weeks ago, and luck hardly explains it.");
    assert!(
        know.rests.len() == 1 && know.rests[0].starts_with("Mira: Passing, tossed. More than on "),
        "{:?}",
        know.rests
    );
    let mira = phone.player("Mira");
    assert_eq!(know.way.1, Action::Go(Screen::Weeks(Some(mira))));
    phone.act(Action::Go(reports[4]));
    assert!(!kinds(&phone).contains(&"changed"), "levels are those of today");
    // Nobody's name stands in any line on top.
    for screen in reports {
        phone.act(Action::Go(screen));
        for line in lines(&phone) {
            assert!(!["Mira", "Tove", "Odile"].iter().any(|name| line.contains(name)), "{line}");
        }
    }
}

/// Three who were there, none twice, none the same question; one tap keeps one as asked, another takes it back; the three stay.
#[test]
fn three_questions_that_stay() {
    let mut phone = Phone::with_squad(SQUAD);
    let bram = phone.player("Bram");
    phone.act(Action::PresenceTapped(bram));
    phone.drill(0);
    phone.act(Action::Finish);
    phone.end_practice();
    let asks = report(&phone).asks;
    let said = |asks: &[AskRow]| asks.iter().map(|ask| ask.said.clone()).collect::<Vec<_>>();
    assert_eq!(
        said(&asks),
        ["What did you look at, Mira?", "What will you try on the next ball, Tove?", "What helped you there, Odile?"]
    );
    assert_eq!(asks[1].why, "Tove was not asked yet, in 1 practice.");
    phone.act(asks[1].tap.clone());
    // A second tap that was on its way asks nobody twice.
    phone.act(asks[1].tap.clone());
    let after = report(&phone);
    assert_eq!(said(&after.asks), said(&asks), "none of them changes under the thumb");
    assert_eq!(after.asks.iter().map(|ask| ask.asked).collect::<Vec<_>>(), [false, true, false]);
    assert_eq!(after.remarks.len(), 1);
    // The practice knows it after a kill, packed or not.
    let screen = phone.model.screen;
    phone.act(Action::Go(Screen::After));
    phone.restart();
    phone.act(Action::Go(screen));
    assert_eq!(report(&phone).asks, after.asks);
    phone.act(after.asks[1].tap.clone());
    let back = report(&phone);
    assert_eq!((back.asks[1].asked, back.remarks.len()), (false, 0));
    phone.act(back.asks[1].tap.clone());
    assert!(report(&phone).asks[1].asked);
    // At the next practice the others come first: Tove was asked.
    phone.next_day();
    phone.drill(0);
    phone.act(Action::Finish);
    phone.end_practice();
    let next = said(&report(&phone).asks);
    assert!(!next.iter().any(|line| line.contains("Tove")), "{next:?}");
}

/// What was asked while the practice was on counts: the child comes later, and its question isn't asked of it twice.
#[test]
fn asked_in_practice_is_asked() {
    use peppertally::app::notes::{AskTap, NotesTap};
    let mut phone = Phone::with_squad("Mira\nTove");
    phone.drill(0);
    phone.act(Action::Finish);
    phone.act(Action::Go(Screen::Ask));
    phone.act(Action::Notes(NotesTap::Question(AskTap::Asked)));
    phone.act(Action::Go(Screen::Today));
    phone.end_practice();
    let asks = report(&phone).asks;
    let said: Vec<(&str, bool)> = asks.iter().map(|ask| (ask.said.as_str(), ask.asked)).collect();
    assert_eq!(said, [("What will you try on the next ball, Tove?", false), ("What helped you there, Mira?", false)]);
}

/// Nobody in the squad: nothing to ask, no plan line that is wrong, no panic.
#[test]
fn nobody_is_here() {
    let mut phone = Phone::with_squad("Mira");
    phone.drill(0);
    phone.act(Action::Finish);
    phone.act(Action::Go(Screen::Today));
    let mira = phone.player("Mira");
    phone.act(Action::PresenceTapped(mira));
    phone.end_practice();
    assert_eq!(report(&phone).asks.len(), 1, "she stood in the drill");
    let screen = phone.model.screen;
    phone.act(Action::ChildArchived(mira, true));
    phone.act(Action::Go(screen));
    assert_eq!(report(&phone).asks.len(), 0);
}

fn plans(phone: &Phone) -> usize {
    phone.model.own.iter().filter(|e| matches!(e.fact, peppertally::domain::entry::Fact::PlanMade { .. })).count()
}

fn next_key(phone: &Phone) -> (&'static str, String) {
    let next = minutes(phone).next.expect("it was the last practice");
    (next.label, next.line)
}

/// A practice without a plan: the next one is proposed, once, for the next practice whenever it is.
#[test]
fn the_next_plan_is_made_once() {
    let mut phone = Phone::with_squad(SQUAD);
    phone.drill(0);
    passes(&mut phone, &[(0, 2, 3)]);
    phone.act(Action::Finish);
    phone.end_practice();
    let report = phone.model.screen;
    assert_eq!(next_key(&phone), ("Make the next plan", "the next practice: out of the last practices".to_owned()));
    let tap = minutes(&phone).next.expect("a key").tap;
    phone.act(tap.clone());
    assert_eq!((phone.model.screen, plans(&phone)), (Screen::Plan, 1));
    // A double tap, and one later: the same plan.
    phone.act(tap.clone());
    phone.act(Action::Go(report));
    assert_eq!(next_key(&phone), ("The next plan", "the next practice: the plan that you have already".to_owned()));
    phone.act(tap);
    assert_eq!((phone.model.screen, plans(&phone)), (Screen::Plan, 1));
}

/// What was left out comes first, after what is played while children arrive; its reason stands with it. On the date that comes next, with
/// its minutes.
#[test]
fn what_was_left_out_comes_first() {
    let mut phone = Phone::with_squad(SQUAD);
    let drills: Vec<_> = phone.model.base.drills().iter().map(|(id, spec)| (*id, spec.name.clone())).collect();
    phone.act(Action::Go(Screen::Plan));
    phone.act(Action::Plan(PlanTap::Made));
    phone.act(Action::Plan(PlanTap::Added(PartKind::Arrival)));
    phone.act(Action::Plan(PlanTap::Picked(part(&phone, 0))));
    for drill in [0, 3, 5] {
        phone.act(Action::Plan(PlanTap::DrillAdded(drills[drill].0)));
    }
    let (first, second) = (part(&phone, 0), part(&phone, 1));
    phone.act(Action::Plan(PlanTap::Begun(first)));
    phone.act(Action::Plan(PlanTap::Begun(second)));
    phone.act(Action::Go(Screen::Today));
    phone.end_practice();
    let report = phone.model.screen;
    let minutes = minutes(&phone);
    assert_eq!(minutes.plan, "2 of 4 parts were done. Together they took 0 min of 23.");
    assert_eq!(kinds(&phone), ["left out"]);
    assert_eq!(minutes.know[0].line, format!("Planned and not done: {} and {}.", drills[3].1, drills[5].1));
    // The next date stands in the calendar.
    phone.act(Action::Go(Screen::Dates(None)));
    let day = phone.model.now.day() + chrono::Days::new(4);
    for tap in [
        CalendarTap::FromTyped(day.to_string()),
        CalendarTap::StartTyped("17:30".to_owned()),
        CalendarTap::MinutesStepped(false),
        CalendarTap::Kept,
    ] {
        phone.act(Action::Calendar(tap));
    }
    let date = phone.model.base.dates()[0].id;
    phone.act(Action::Go(report));
    let (label, line) = next_key(&phone);
    assert_eq!(label, "Make the next plan");
    assert!(line.ends_with(": as this one, what was left out first") && line.starts_with("Thursday 3"), "{line}");
    phone.act(Action::Plan(PlanTap::Next(practice(report))));
    phone.act(Action::Plan(PlanTap::Next(practice(report))));
    assert_eq!((phone.model.screen, plans(&phone)), (Screen::DatePlan(date), 2), "the first, and this one once");
    let dated = phone.model.base.date(date).expect("a date");
    let plan = phone.model.base.plan(dated.plan.expect("planned")).expect("a plan").clone();
    let titles: Vec<&str> = plan.parts.iter().map(|part| part.title.as_str()).collect();
    assert_eq!(titles, ["Arrival game", drills[3].1.as_str(), drills[5].1.as_str(), drills[0].1.as_str()]);
    assert_eq!(plan.parts[1].why, "Planned last time and not done.");
    assert_eq!(plan.gym_min, dated.date.minutes);
    assert!(plan.parts.iter().all(|part| !plan.parts.iter().any(|other| other.no == part.no && other != part)));
}

/// A plan that waits is what the next practice takes, though a date stands before it: it is shown, and none is made beside it.
#[test]
fn a_plan_that_waits_is_the_next() {
    let mut phone = Phone::with_squad(SQUAD);
    phone.drill(0);
    phone.act(Action::Finish);
    phone.end_practice();
    let report = phone.model.screen;
    phone.act(minutes(&phone).next.expect("a key").tap);
    assert_eq!((phone.model.screen, plans(&phone)), (Screen::Plan, 1));
    phone.act(Action::Go(Screen::Dates(None)));
    let day = phone.model.now.day() + chrono::Days::new(4);
    for tap in [CalendarTap::FromTyped(day.to_string()), CalendarTap::StartTyped("17:30".to_owned()), CalendarTap::Kept]
    {
        phone.act(Action::Calendar(tap));
    }
    phone.act(Action::Go(report));
    assert_eq!(next_key(&phone).0, "The next plan");
    phone.act(Action::Plan(PlanTap::Next(practice(report))));
    assert_eq!((phone.model.screen, plans(&phone)), (Screen::Plan, 1));
}

fn part(phone: &Phone, at: usize) -> peppertally::domain::ids::PartNo {
    let id = phone.model.base.plan_waiting().or(phone.model.practice_today().and_then(|p| p.plan)).expect("a plan");
    phone.model.base.plan(id).expect("a plan").parts[at].no
}

fn practice(screen: Screen) -> PracticeId {
    let Screen::PracticeReport(id) = screen else { panic!("{screen:?}") };
    id
}

/// Of an older practice there is no next plan, and while one is on there is none either.
#[test]
fn only_the_last_practice_leads_on() {
    let mut phone = Phone::with_squad(SQUAD);
    phone.drill(0);
    phone.act(Action::Finish);
    phone.end_practice();
    let first = phone.model.screen;
    phone.next_day();
    phone.drill(0);
    phone.act(Action::Finish);
    phone.act(Action::Go(first));
    assert_eq!(minutes(&phone).next, None);
    phone.act(Action::Plan(PlanTap::Next(practice(first))));
    assert_eq!((phone.model.screen, plans(&phone)), (first, 0));
    phone.end_practice();
    assert!(minutes(&phone).next.is_some());
    phone.act(Action::Go(first));
    assert_eq!(minutes(&phone).next, None);
    // A note can be added all the same.
    phone.act(Action::Notes(NotesTap::Wanted(Some(practice(first)), None)));
    assert_eq!(phone.model.screen, Screen::Note);
}

#[test]
fn what_went_to_plan_in_a_sentence() {
    let of = ToPlan { n_planned: 5, n_done: 5, all_near: true, ..ToPlan::default() };
    assert_eq!(to_plan(&of), "All 5 parts were done. Each took about as long as planned.");
    let left = |n: usize| ["Serving", "Games", "Passing"].iter().take(n).map(|t| (*t).to_owned()).collect::<Vec<_>>();
    let of = ToPlan { n_planned: 5, n_done: 4, left_out: left(1), ..ToPlan::default() };
    assert_eq!(to_plan(&of), "4 of 5 parts were done; not done: Serving.");
    let of = ToPlan { n_done: 2, left_out: left(3), longer: Some(("Toss".to_owned(), 12, 20)), ..of };
    assert_eq!(to_plan(&of), "2 of 5 parts were done; not done: Serving and 2 more. Toss took 20 min instead of 12.");
    let of = ToPlan { n_planned: 5, n_done: 5, took: Some((38, 81)), ..ToPlan::default() };
    assert_eq!(to_plan(&of), "All 5 parts were done. Together they took 38 min of 81.");
    let of = ToPlan { n_added: 2, ..ToPlan::default() };
    assert_eq!(to_plan(&of), "Nothing was planned: 2 parts as it went.");
    let of = ToPlan { n_planned: 1, n_done: 0, n_added: 1, ..ToPlan::default() };
    assert_eq!(to_plan(&of), "None of 1 part was done; 1 part was not planned.");
}
