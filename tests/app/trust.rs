//! A station that is checked: the child taps, then the coach, and nothing is counted twice; what both said tells what such scores are worth.

use peppertally::app::action::Action;
use peppertally::app::effect::Effect;
use peppertally::app::screen::Screen;
use peppertally::app::view::board::{StationCheck, StationView, can_check};
use peppertally::app::view::trust::{KindTrust, trust};
use peppertally::app::view::weeks::child_weeks;
use peppertally::app::work::Job;
use peppertally::domain::checks::checks;
use peppertally::domain::drill::{DrillSpec, Rule};
use peppertally::domain::ids::RunId;
use peppertally::domain::lots::What;
use peppertally::domain::rule::Together;
use peppertally::domain::skill::Outcome;

use super::phone::{Phone, pass};
use super::steps::on_board;

const SQUAD: &str = "Mira\nTove\nOdile";
const GOOD: Action = Action::OutcomeTapped(Outcome::TwoKey { good: true });
const NOT: Action = Action::OutcomeTapped(Outcome::TwoKey { good: false });
const NOT_SEEN: Action = Action::OutcomeTapped(Outcome::NoChance);

fn run_of(phone: &Phone) -> RunId {
    let Screen::Run(run) = phone.model.screen else { panic!("no board: {:?}", phone.model.screen) };
    run
}

fn shown(phone: &Phone) -> StationView {
    phone.board().station.expect("a station")
}

/// A key without grades, or passes by grade, with the phone handed out to be checked.
fn checked(index: usize) -> Phone {
    let mut phone = on_board(SQUAD, index, |spec| spec);
    phone.act(Action::CheckOpened);
    phone
}

/// A ball that the child and the coach saw so.
fn both(phone: &mut Phone, child: Action, coach: Action) {
    phone.act(child);
    assert_eq!(shown(phone).check, Some(StationCheck::Coach));
    phone.act(coach);
}

fn ended(phone: &mut Phone) {
    phone.act(Action::StationLeft);
    phone.act(Action::Finish);
    phone.end_practice();
    phone.act(Action::Go(Screen::Trust));
}

fn kind(phone: &Phone, at: usize) -> KindTrust {
    trust(&phone.model).kinds[at].clone()
}

#[test]
fn the_coach_judges_right_after_the_child_and_nothing_counts_twice() {
    let mut phone = checked(6);
    let run = run_of(&phone);
    assert_eq!(
        (shown(&phone).check, shown(&phone).played.as_str()),
        (Some(StationCheck::Child), "your first ball; 0 of 10 checked")
    );
    phone.act(GOOD);
    let view = shown(&phone);
    // The ball was Mira's, though Tove is next.
    assert_eq!((view.turn.as_str(), view.played.as_str()), ("Mira", "0 of 10 checked"));
    phone.act(NOT);
    let view = shown(&phone);
    assert_eq!((view.turn.as_str(), view.check), ("Tove", Some(StationCheck::Child)));
    assert_eq!(view.undo, None, "what was checked is no child's to take back");
    let part = |phone: &Phone| phone.model.runs[&run].main.clone();
    assert_eq!(
        (part(&phone).contacts.len(), part(&phone).everyone.all().tries(), part(&phone).checks.len()),
        (1, 1, 1)
    );
    // Killed between the child's tap and the coach's: it is the coach's turn still.
    phone.act(NOT);
    phone.restart();
    assert_eq!((shown(&phone).check, shown(&phone).turn.as_str()), (Some(StationCheck::Coach), "Tove"));
    // The child takes its ball back before anyone has judged it.
    phone.act(Action::UndoTapped);
    assert_eq!((shown(&phone).check, part(&phone).contacts.len()), (Some(StationCheck::Child), 1));
    both(&mut phone, GOOD, NOT_SEEN);
    assert_eq!(shown(&phone).played, "your first ball; 1 of 10 checked", "one that wasn't seen is none of the ten");
    // Taken back by the coach, a check goes first, then its ball.
    phone.act(Action::StationLeft);
    assert!(phone.board().undo.is_some_and(|line| line.starts_with("your look at a ball")));
    phone.act(Action::UndoTapped);
    assert_eq!((part(&phone).checks.len(), part(&phone).contacts.len()), (1, 2));
    phone.act(Action::UndoTapped);
    assert_eq!((part(&phone).checks.len(), part(&phone).contacts.len()), (1, 1));
    // The coach's own ball is no child's: nothing to check.
    phone.act(GOOD);
    assert_eq!((part(&phone).contacts.len(), part(&phone).to_check()), (2, None));
}

/// Whoever taps a second key within a second is the child still: no judgement of the coach's, on whichever key.
#[test]
fn a_childs_second_tap_is_no_check() {
    let mut phone = checked(6);
    let run = run_of(&phone);
    let n = |phone: &Phone| (phone.model.runs[&run].main.contacts.len(), phone.model.runs[&run].main.checks.len());
    phone.act(GOOD);
    phone.act_after(400, NOT);
    phone.act_after(400, NOT_SEEN);
    phone.act_after(199, GOOD);
    assert_eq!((n(&phone), shown(&phone).check), ((1, 0), Some(StationCheck::Coach)), "999 ms after the child's");
    phone.act_after(1, NOT);
    assert_eq!((n(&phone), shown(&phone).check), ((1, 1), Some(StationCheck::Child)));
    assert_eq!(checks(&phone.model.runs[&run]).good(What::Own), [0, 0, 1, 0]);
    // The wall clock that is put forward changes nothing.
    phone.act(GOOD);
    phone.wait(0, 60_000);
    phone.act_after(500, NOT);
    assert_eq!(n(&phone), (2, 1));
}

/// The rule is over with a child's ball: that one is still the coach's to judge, and nothing more is played.
#[test]
fn the_last_ball_of_a_rule_can_be_checked() {
    let rule = Rule::Together(Together { row: false, balls: Some(5), to_beat: None });
    let mut phone = on_board(SQUAD, 6, |spec| DrillSpec { rule, ..spec });
    phone.act(Action::CheckOpened);
    for _ in 0..4 {
        assert!(!shown(&phone).rests);
        both(&mut phone, GOOD, GOOD);
    }
    phone.act(GOOD);
    let view = shown(&phone);
    assert_eq!((view.done, view.check, view.rests), (true, Some(StationCheck::Coach), false));
    phone.act(NOT);
    let view = shown(&phone);
    assert_eq!((view.done, view.check, view.rests), (true, Some(StationCheck::Child), true));
    assert_eq!(checks(&phone.model.runs[&run_of(&phone)]).good(What::Own), [4, 0, 1, 0]);
}

#[test]
fn ten_are_enough_and_the_children_go_on() {
    let mut phone = checked(6);
    for _ in 0..10 {
        both(&mut phone, GOOD, GOOD);
    }
    assert_eq!(
        (shown(&phone).check, shown(&phone).played.as_str()),
        (Some(StationCheck::Child), "3 balls played; 10 of 10 checked")
    );
    phone.act(GOOD);
    phone.act_after(1_000, NOT);
    let main = &phone.model.runs[&run_of(&phone)].main;
    assert_eq!((main.contacts.len(), main.checks.len()), (12, 10));
    // A station that is opened without a check is none.
    phone.act(Action::StationLeft);
    phone.act(Action::StationOpened(None));
    assert_eq!(shown(&phone).check, None);
}

/// A lane is a group's key, a floor is the coach's: there nobody can check.
#[test]
fn only_where_a_ball_is_somebodys() {
    for (index, can) in [(6, true), (2, true), (3, true), (0, false), (1, false), (10, false)] {
        let mut phone = on_board("Mira\nTove\nOdile\nBram\nIva\nLasse", index, |spec| spec);
        assert_eq!(can_check(&phone.model, run_of(&phone)), can, "drill {index}");
        phone.act(Action::CheckOpened);
        assert_eq!(phone.board().station.is_some(), can, "drill {index}");
    }
}

#[test]
fn nothing_checked_counts_half() {
    let phone = Phone::with_squad(SQUAD);
    for at in 0..3 {
        assert_eq!(kind(&phone, at).lines, ["Not checked yet: such a ball counts half."]);
        assert_eq!(kind(&phone, at).figures, [] as [&str; 0]);
    }
    assert_eq!(trust(&phone.model).alone, None);
    assert_eq!(Screen::from_address(&Screen::Trust.address()), Some(Screen::Trust));
}

/// Sixty by grade: each fifth good one is called good by the child alone. Worked by hand: 24 both good, 12 by the child alone, 24 neither.
#[test]
fn what_both_saw_is_told_once_packed_too() {
    let mut phone = checked(2);
    for i in 0..60 {
        if i % 10 == 0 && i > 0 {
            phone.act(Action::StationLeft);
            phone.act(Action::CheckOpened);
        }
        let (child, coach) = match i % 5 {
            0 | 1 => (3, 3),
            2 => (2, 1),
            _ => (0, 0),
        };
        both(&mut phone, Action::OutcomeTapped(pass(child)), Action::OutcomeTapped(pass(coach)));
    }
    let run = run_of(&phone);
    let all = checks(&phone.model.runs[&run]);
    assert_eq!(all.good(What::Pass), [24, 0, 12, 24]);
    assert_eq!(all.table(What::Pass).1, 4);
    ended(&mut phone);
    let told = kind(&phone, 0);
    assert_eq!(
        told.lines,
        [
            "You checked 60 of their balls. Of about 7 to 9 in\u{a0}10 you both said the same, good or not.",
            "The very same step: 48 of 60.",
            "They call about 2 in 10 more good than you do. Show once more what counts as good.",
            // Phi squared with twenty of a half: ((32.54 · 32.54 - 1.46 · 13.46)² / (34 · 46 · 46 · 34) = 0.42.
            "So such a ball counts as about 4\u{a0}in\u{a0}10 of one that you tapped.",
        ]
    );
    // (0.8 - 0.48) / (1 - 0.48) = 0.615.
    assert!(told.figures[0].starts_with("Kappa 0.62, between 0.4"), "{:?}", told.figures);
    assert!(
        told.figures[1].starts_with("They called 36 of 60 good, you 24: 20 in 100 more, between "),
        "{:?}",
        told.figures
    );
    let before = trust(&phone.model);
    let now = phone.model.now.wall_ms;
    phone.restart();
    phone.wait(0, now - phone.model.now.wall_ms);
    assert!(phone.model.runs.is_empty());
    assert_eq!(trust(&phone.model), before);
    // Only one kind was checked.
    assert_eq!(kind(&phone, 1).lines.len(), 1);
}

/// Each station by itself: a drill's, of whatever practice; what a ball counts comes from all of a kind, and of few nothing is said.
#[test]
fn each_station_is_told_by_itself() {
    let mut phone = checked(2);
    (0..10).for_each(|_| both(&mut phone, Action::OutcomeTapped(pass(3)), Action::OutcomeTapped(pass(3))));
    ended(&mut phone);
    // The same drill another day, and another one with three balls.
    phone.next_day();
    for (index, n) in [(2, 10), (6, 3)] {
        phone.act(Action::Go(Screen::Today));
        phone.drill(index);
        phone.act(Action::CheckOpened);
        for _ in 0..n {
            let [child, coach] = if index == 2 { [3, 0].map(|g| Action::OutcomeTapped(pass(g))) } else { [GOOD, NOT] };
            both(&mut phone, child, coach);
        }
        phone.act(Action::StationLeft);
        phone.act(Action::Finish);
    }
    phone.end_practice();
    phone.act(Action::Go(Screen::Trust));
    let told = trust(&phone.model).stations;
    let name = |at: usize| phone.model.base.drills()[at].1.name.clone();
    let titles: Vec<&str> = told.iter().map(|station| station.title.as_str()).collect();
    assert_eq!(titles, [name(6), name(2)], "the last one first");
    assert_eq!(told[0].lines, ["You checked 3 of their balls: too few to say more."]);
    assert!(told[0].figures.is_empty());
    // Ten alike and ten that the child alone called good.
    assert!(told[1].lines[0].starts_with("You checked 20 of their balls. Of "), "{:?}", told[1].lines);
    assert!(told[1].lines.iter().any(|line| line.starts_with("They call about 5 in 10 more")), "{:?}", told[1].lines);
    assert!(told.iter().flat_map(|station| &station.lines).all(|line| !line.contains("such a ball")), "{told:?}");
    let text = format!("{told:?}");
    assert!(!["Mira", "Tove", "Odile"].iter().any(|name| text.contains(name)), "never of a child: {text}");
    assert!(kind(&phone, 0).lines.last().is_some_and(|line| line.starts_with("So such a ball counts")));
}

/// All alike, all the other way, all good: a sentence each, and no number that is none.
#[test]
fn the_edges_are_told() {
    for (child, coach, worth) in [
        (vec![GOOD, NOT], vec![GOOD, NOT], "So such a ball counts as about 7\u{a0}in\u{a0}10 of one that you tapped."),
        (vec![GOOD, NOT], vec![NOT, GOOD], "So such a ball counts next to nothing."),
        (vec![GOOD], vec![GOOD], "So such a ball counts as about 6\u{a0}in\u{a0}10 of one that you tapped."),
    ] {
        let mut phone = checked(6);
        for i in 0..20 {
            if i == 10 {
                phone.act(Action::StationLeft);
                phone.act(Action::CheckOpened);
            }
            both(&mut phone, child[i % child.len()].clone(), coach[i % coach.len()].clone());
        }
        ended(&mut phone);
        let told = kind(&phone, 2);
        assert_eq!(told.lines.last().map(String::as_str), Some(worth), "{told:?}");
        let text = format!("{told:?}");
        assert!(!text.contains("NaN") && !text.contains("inf"), "{text}");
        let one_grade = child.len() == 1;
        assert_eq!(
            told.figures.first().map(String::as_str)
                == Some("Kappa can’t be told where one of you said the same of every ball."),
            one_grade
        );
    }
    // Three say nothing.
    let mut phone = checked(6);
    (0..3).for_each(|_| both(&mut phone, GOOD, GOOD));
    ended(&mut phone);
    assert_eq!(kind(&phone, 2).lines[0], "You checked 3 of their balls: too few to say more.");
    assert_eq!(kind(&phone, 2).lines.len(), 2);
}

/// A checked ball that is taken back is no pair; one that the coach corrects later is still what the child said.
#[test]
fn what_is_corrected_later_stays_what_the_child_said() {
    let mut phone = checked(6);
    both(&mut phone, GOOD, NOT);
    both(&mut phone, GOOD, GOOD);
    let run = run_of(&phone);
    phone.act(Action::StationLeft);
    let contacts: Vec<_> = phone.model.runs[&run].main.contacts.iter().map(|c| (c.id, c.contact.player)).collect();
    phone.act(Action::ContactFixed {
        contact: contacts[0].0,
        player: contacts[0].1,
        outcome: Outcome::TwoKey { good: false },
        step: 0,
    });
    assert_eq!(checks(&phone.model.runs[&run]).good(What::Own), [1, 0, 1, 0]);
    phone.act(Action::Go(Screen::Contacts(run)));
    phone.act(Action::ContactTakenBack(contacts[0].0));
    assert_eq!(checks(&phone.model.runs[&run]).good(What::Own), [1, 0, 0, 0]);
}

/// Another window goes on with the run, and both see the same children: what stands beside is laid against the station's, ball by ball.
#[test]
fn another_phones_look_is_laid_beside() {
    let mut station = on_board(SQUAD, 6, |spec| spec);
    let run = run_of(&station);
    station.act(Action::StationOpened(None));
    let mut coach = station.second_window();
    // Both phones have the time from the network.
    let ahead = coach.model.now.wall_ms - station.model.now.wall_ms;
    coach.wait(0, -ahead);
    coach.act(Action::TakeOver(run));
    coach.act(Action::StationLeft);
    // The coach's page writes now; the station's balls stand beside. Both clocks go two seconds a tap.
    for (child, seen) in [(GOOD, GOOD), (GOOD, NOT), (NOT, NOT)] {
        station.act(child);
        coach.act(seen);
    }
    // One more long after.
    station.wait(30_000, 30_000);
    station.act(GOOD);
    coach.hear(&station);
    let all = checks(&coach.model.runs[&run]);
    assert_eq!((all.good(What::Own), all.n_alone), ([1, 0, 1, 1], 0), "the coach had left by then: {all:?}");
    coach.act(Action::Go(Screen::Trust));
    assert_eq!(trust(&coach.model).alone, None);
    // What the coach makes of a child's ball afterwards is no word of the child's: they still differ on Tove's.
    let tove = station.player("Tove");
    let theirs = &coach.model.runs[&run].beside[0].1.contacts;
    let contact = theirs.iter().find(|c| c.contact.player == Some(tove)).expect("Tove's").id;
    coach.act(Action::Go(Screen::Contacts(run)));
    coach.act(Action::ContactFixed { contact, player: Some(tove), outcome: Outcome::TwoKey { good: false }, step: 0 });
    assert_eq!(coach.model.runs[&run].beside[0].1.everyone.all().good(), 2, "it was corrected");
    assert_eq!(checks(&coach.model.runs[&run]).good(What::Own), [1, 0, 1, 1]);
}

/// A ball that one of two phones has alone counts as such while both were at it: before the one came and after it went there was nobody to see.
#[test]
fn alone_is_what_one_of_two_missed() {
    let mut station = on_board("Mira", 6, |spec| spec);
    let run = run_of(&station);
    station.act(Action::StationOpened(None));
    let mut coach = station.second_window();
    coach.wait(0, station.model.now.wall_ms - coach.model.now.wall_ms);
    coach.act(Action::TakeOver(run));
    coach.act(Action::StationLeft);
    // The child's balls, and which of them the coach saw: the first and the last two came while it was elsewhere.
    for seen in [false, true, false, true, false, false] {
        if seen {
            coach.act(GOOD);
        } else {
            coach.wait(2_100, 2_100);
        }
        station.act(GOOD);
        station.wait(16_000, 16_000);
        coach.wait(16_000, station.model.now.wall_ms - coach.model.now.wall_ms);
    }
    coach.hear(&station);
    let all = checks(&coach.model.runs[&run]);
    assert_eq!((all.good(What::Own), all.n_alone), ([2, 0, 0, 0], 1), "{all:?}");
    coach.act(Action::Go(Screen::Trust));
    assert_eq!(
        trust(&coach.model).alone.as_deref(),
        Some("1 ball stands on one phone alone and could not be compared.")
    );
}

/// Two other phones saw the same ball: it was checked once, as the first of them has it.
#[test]
fn a_ball_is_compared_once_however_many_saw_it() {
    let mut station = on_board("Mira", 6, |spec| spec);
    let run = run_of(&station);
    let mut first = station.second_window();
    first.act(Action::TakeOver(run));
    let mut second = first.second_window();
    second.act(Action::TakeOver(run));
    station.hear(&second);
    station.act(Action::TakeOver(run));
    station.act(Action::StationOpened(None));
    for phone in [&mut first, &mut second] {
        phone.wait(0, station.model.now.wall_ms - phone.model.now.wall_ms);
    }
    for _ in 0..3 {
        first.act(GOOD);
        second.act(NOT);
        station.act(GOOD);
    }
    station.hear(&first);
    station.hear(&second);
    let state = &station.model.runs[&run];
    assert_eq!((state.main.contacts.len(), state.beside.len()), (3, 2));
    let all = checks(state);
    assert_eq!((all.good(What::Own), all.n_alone), ([3, 0, 0, 0], 0), "{all:?}");
}

/// What levels make of it: half until checked, then what the checks say; with what the child gives itself taken off.
#[test]
fn levels_weigh_own_scores_by_their_checks() {
    let mut phone = Phone::with_squad(SQUAD);
    phone.drill(6);
    phone.act(Action::StationOpened(None));
    for i in 0..30 {
        phone.act_after(1_000, if i % 4 == 3 { NOT } else { GOOD });
    }
    phone.act(Action::StationLeft);
    phone.act(Action::Finish);
    phone.end_practice();
    let weights = |phone: &mut Phone| -> Vec<(u8, i16)> {
        let mira = phone.player("Mira");
        // The report of a practice that has just ended may have asked already.
        phone.act(Action::Go(Screen::Weeks(Some(mira))));
        let job = phone.effects.iter().rev().find_map(|effect| match effect {
            Effect::Work(Job::Levels { series, .. }) => Some(series.clone()),
            _ => None,
        });
        job.expect("a question").concat().concat().iter().map(|(.., worth, offset)| (*worth, *offset)).collect()
    };
    assert!(weights(&mut phone).iter().all(|had| *had == (50, 0)));
    phone.act(Action::Go(Screen::Today));
    phone.drill(6);
    for _ in 0..6 {
        phone.act(Action::CheckOpened);
        // Each fifth: the child calls good what the coach doesn't.
        for i in 0..10 {
            let coach = if i % 5 == 0 || i % 2 == 1 { NOT } else { GOOD };
            both(&mut phone, if i % 2 == 1 && i % 5 != 0 { NOT } else { GOOD }, coach);
        }
        phone.act(Action::StationLeft);
    }
    phone.act(Action::Finish);
    phone.end_practice();
    let after = weights(&mut phone);
    assert!(after.iter().all(|(worth, offset)| (20..60).contains(worth) && *offset > 20), "{after:?}");
    let mira = phone.player("Mira");
    let view = child_weeks(&phone.model, mira).expect("Mira");
    assert!(view.kinds[0].days[0].count.ends_with("not by you"), "{:?}", view.kinds[0].days);
}
