//! Over the weeks: what is told of a child, from which balls, and what is never told.

use crate::phone::{Phone, pass};
use peppertally::app::action::Action;
use peppertally::app::effect::Effect;
use peppertally::app::screen::Screen;
use peppertally::app::view::weeks::{ChildWeeks, State, child_weeks, pictures, weeks};
use peppertally::app::weeks::worked_out;
use peppertally::app::work::Job;
use peppertally::app::work::rated::Met;
use peppertally::domain::ids::Place;

const SQUAD: &str = "Mira\nTove\nOdile";

fn of(phone: &mut Phone, name: &str) -> ChildWeeks {
    let player = phone.player(name);
    phone.act(Action::Go(Screen::Weeks(Some(player))));
    child_weeks(&phone.model, player).expect("a child of the squad")
}

/// A practice in which three passers stood and each had these grades, over and over.
fn practise(phone: &mut Phone, times: usize, grades: [u8; 3]) {
    phone.drill(0);
    for _ in 0..times {
        for (place, grade) in (0..).zip(grades) {
            phone.act(Action::PlaceTapped(Place(place), pass(grade)));
        }
    }
    phone.act(Action::Finish);
    phone.end_practice();
}

fn week_later(phone: &mut Phone) {
    (0..7).for_each(|_| phone.next_day());
    phone.act(Action::Go(Screen::Today));
}

#[test]
fn nothing_is_told_of_nothing() {
    let mut phone = Phone::with_squad(SQUAD);
    let mira = of(&mut phone, "Mira");
    assert_eq!((mira.state, mira.kinds.len()), (State::Nothing, 0));
    assert_eq!((mira.effort.line, mira.grades, mira.serves, mira.rows, mira.load), (None, None, None, None, None));
    assert_eq!(weeks(&phone.model).children.len(), 3);
}

/// Three of three say hardly anything, and no chart is drawn of one day.
#[test]
fn one_practice_is_a_point() {
    let mut phone = Phone::with_squad(SQUAD);
    practise(&mut phone, 3, [3, 3, 0]);
    let mira = of(&mut phone, "Mira");
    assert_eq!(mira.state, State::Known);
    let kind = &mira.kinds[0];
    assert_eq!(kind.title, "Passing, tossed");
    assert!(
        kind.now.starts_with("3 balls so far. Until they say more, it is taken to be as the squad is: about"),
        "{}",
        kind.now
    );
    assert_eq!((kind.chart.is_none(), kind.change.as_deref()), (true, None));
    assert_eq!((kind.days[0].count.as_str(), kind.from.as_str()), ("3 of 3", "From 3 balls on 1 day."));
}

/// Mira has none good for three weeks and then nearly all, 24 a week; Tove is as she was. Only what changed is told as a change, and the same
/// is told by a page that has just been opened.
#[test]
fn a_change_is_told_where_there_is_one() {
    let mut phone = Phone::with_squad(SQUAD);
    for week in 0..6 {
        let mira = if week < 3 { 0 } else { 3 };
        practise(&mut phone, 12, [mira, 3, 1]);
        phone.drill(0);
        phone.act(Action::PlaceTapped(Place(1), pass(0)));
        phone.act(Action::Finish);
        week_later(&mut phone);
    }
    let mira = of(&mut phone, "Mira");
    let change = mira.kinds[0].change.clone().expect("six weeks lie between");
    assert!(change.starts_with("More than on "), "{change}");
    assert!(mira.kinds[0].chart.is_some() && !mira.kinds[0].question);
    let tove = of(&mut phone, "Tove");
    assert!(
        tove.kinds[0].change.as_deref().is_some_and(|line| line.starts_with("About as on ")),
        "{:?}",
        tove.kinds[0].change
    );
    let now = phone.model.now.wall_ms;
    phone.restart();
    phone.wait(0, now - phone.model.now.wall_ms);
    assert_eq!(of(&mut phone, "Mira"), mira);
    // Of what doesn't stand it isn't said that there is none, on the squad's page either.
    let all = pictures(&phone.model, 0);
    let says = all[1].as_ref().and_then(|spark| spark.says.as_deref());
    assert!(
        says.is_some_and(|line| line.starts_with("About as on ") && line.ends_with(", as far as the balls tell.")),
        "{says:?}"
    );
    // Everyone is in the squad's order, whoever is better.
    let names: Vec<String> = weeks(&phone.model).children.into_iter().map(|child| child.name).collect();
    assert_eq!(names, ["Mira", "Tove", "Odile"]);
}

/// Where less is good there is a question, no verdict.
#[test]
fn less_is_a_question() {
    let mut phone = Phone::with_squad(SQUAD);
    for week in 0..6 {
        practise(&mut phone, 12, [if week < 3 { 3 } else { 0 }, 3, 1]);
        week_later(&mut phone);
    }
    let mira = of(&mut phone, "Mira");
    assert!(
        mira.kinds[0].question && mira.kinds[0].change.as_deref().is_some_and(|line| line.contains("That happens"))
    );
}

/// What a child was like when it was last seen is not what it is: four weeks without a practice, and no change is told of anyone.
#[test]
fn an_old_change_is_told_no_more() {
    let mut phone = Phone::with_squad(SQUAD);
    for week in 0..6 {
        practise(&mut phone, 12, [if week < 3 { 0 } else { 3 }, 3, 1]);
        week_later(&mut phone);
    }
    (0..28).for_each(|_| phone.next_day());
    let mira = of(&mut phone, "Mira");
    assert_eq!((mira.kinds[0].change.as_deref(), mira.kinds[0].question), (None, false));
    assert_eq!(weeks(&phone.model).children[0].line, None);
}

/// An answer to another question than the last one says who is how good in another order of children: it is dropped.
#[test]
fn a_late_answer_is_dropped() {
    let mut phone = Phone::with_squad(SQUAD);
    practise(&mut phone, 3, [3, 2, 0]);
    of(&mut phone, "Mira");
    let had = phone.model.weeks.clone();
    let other = vec![vec![vec![(1, 0, 9, 100, 0)]]];
    let answer = (vec![Vec::new()], Vec::new());
    assert_eq!(worked_out(&mut phone.model, 1, (&other, &Met::default()), answer), None);
    assert_eq!(phone.model.weeks, had);
}

/// It is worked out once, and again only when something was counted.
#[test]
fn it_is_asked_of_the_worker_once() {
    let mut phone = Phone::with_squad(SQUAD);
    let asked = |phone: &Phone| phone.effects.iter().filter(|e| matches!(e, Effect::Work(Job::Levels { .. }))).count();
    phone.effects.clear();
    // The report of a practice that has just ended wants them first.
    practise(&mut phone, 3, [3, 2, 0]);
    of(&mut phone, "Mira");
    of(&mut phone, "Tove");
    assert_eq!(asked(&phone), 1);
    phone.act(Action::Go(Screen::Today));
    practise(&mut phone, 1, [3, 2, 0]);
    of(&mut phone, "Mira");
    assert_eq!(asked(&phone), 2);
}

/// The demo's season: every sentence is one, and no figure is none.
#[test]
fn the_demo_has_a_season_to_look_at() {
    let mut phone = Phone::demo();
    phone.act(Action::Go(Screen::Weeks(None)));
    assert_eq!(weeks(&phone.model).state, State::Known);
    for child in weeks(&phone.model).children {
        let view = child_weeks(&phone.model, child.player).expect("a child");
        assert!(!view.kinds.is_empty(), "{}", view.name);
        for kind in &view.kinds {
            assert!(kind.now.ends_with("are good.") || kind.now.contains("so far"), "{}", kind.now);
            let paths = kind.chart.iter().map(|chart| format!("{:?}", chart)).collect::<String>();
            assert!(!paths.contains("NaN") && !paths.contains("inf"), "{paths}");
        }
    }
}
