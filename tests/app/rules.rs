//! Scoring rules on the phone: the clock through reload, sleep and a wall clock that is set; the squad's own best; groups at once;
//! a drill changed while its run is on.

use peppertally::app::action::Action;
use peppertally::app::effect::{Effect, Signal};
use peppertally::app::groups::GroupsTap;
use peppertally::app::screen::Screen;
use peppertally::app::view::board::{BoardView, Cover, Keys, Ways};
use peppertally::app::view::{report, today};
use peppertally::domain::drill::*;
use peppertally::domain::entry::Fact;
use peppertally::domain::ids::{DrillId, GroupNo, Place, RunId, Step};
use peppertally::domain::skill::{GoodFrom, Outcome, PassGrade, Skill};

use super::phone::Phone;
use super::steps::group_named;

const SQUAD: &str = "Mira\nTove\nOdile\nBram\nIva\nLasse";

fn spec(board: Board, rule: Rule, groups: Option<u8>) -> DrillSpec {
    DrillSpec {
        name: "A rule".to_owned(),
        skill: Skill::Own("Setting".to_owned()),
        board,
        rule,
        good_from: GoodFrom::GoodKey,
        feed: DrillSpec::EASY,
        on_floor: OnFloor { groups, ..OnFloor::default() },
    }
}

fn in_turn() -> Board {
    Board::Line { order: LineOrder::InTurn }
}

fn timed(seconds: u16) -> DrillSpec {
    spec(Board::Lanes, Rule::InTime(InTime { seconds, whose: Whose::Group }), Some(2))
}

fn with_run(spec: DrillSpec) -> Phone {
    let mut phone = Phone::with_squad(SQUAD);
    phone.new_drill(spec);
    phone
}

fn on_screen(phone: &Phone) -> RunId {
    let Screen::Run(run) = phone.model.screen else { panic!("no run on screen") };
    run
}

fn drill_of(phone: &Phone) -> DrillId {
    phone.model.runs[&on_screen(phone)].drill.expect("a drill")
}

fn good(phone: &mut Phone, good: bool) {
    phone.act(Action::OutcomeTapped(Outcome::TwoKey { good }));
}

fn lanes(view: &BoardView) -> Vec<u32> {
    let Keys::Lanes { lanes } = &view.keys else { panic!("lanes") };
    lanes.iter().map(|lane| lane.figure.now).collect()
}

fn left(phone: &Phone) -> String {
    phone.board().clock.expect("a clock").left
}

fn calls(phone: &Phone) -> Vec<String> {
    let call = |effect: &Effect| match effect {
        Effect::Tell(Signal::Call(_, word)) => Some(word.clone()),
        _ => None,
    };
    phone.effects.iter().filter_map(call).collect()
}

/// Before the clock goes the keys rest; it goes on through pauses, and its end ends the counting.
#[test]
fn a_clock_from_start_to_end() {
    let mut phone = with_run(timed(60));
    assert_eq!(phone.board().call, "Start the clock when they are ready.");
    assert!(phone.board().nobody);
    phone.act(Action::LaneTapped(GroupNo(0)));
    assert_eq!(lanes(&phone.board()), [0, 0], "nothing counts before it goes");
    phone.act(Action::ClockTapped);
    assert!(!phone.board().nobody);
    // Each action of the test takes 2.1 seconds, and its saving as many.
    phone.act(Action::LaneTapped(GroupNo(0)));
    phone.act(Action::LaneTapped(GroupNo(1)));
    phone.act(Action::LaneTapped(GroupNo(1)));
    assert_eq!((lanes(&phone.board()), left(&phone)), (vec![1, 2], "0:46".to_owned()));
    phone.act(Action::ClockTapped);
    let paused = left(&phone);
    phone.wait(20_000, 20_000);
    assert_eq!(left(&phone), paused, "a pause");
    phone.act(Action::ClockTapped);
    phone.wait(30_000, 30_000);
    assert!(phone.board().cover.is_none());
    phone.wait(30_000, 30_000);
    // So long without a tap it has covered itself; under that it is over.
    assert_eq!(phone.board().cover, Some(Cover::Pocket));
    phone.act(Action::Uncovered);
    let Some(Cover::Over { line, ways }) = phone.board().cover else { panic!("over") };
    assert_eq!(line, format!("Group 2 ({}) has it, with 2 good ones.", group_named(&phone, 1)));
    assert_eq!(ways, Ways { again: true, play_on: false });
    // What is tapped after the end is not written.
    let n = phone.db.len();
    phone.act(Action::LaneTapped(GroupNo(0)));
    assert_eq!((phone.db.len(), lanes(&phone.board())), (n, vec![1, 2]));
    // Undo stays.
    phone.act(Action::LaneUndone(GroupNo(1)));
    assert_eq!(lanes(&phone.board()), [1, 1]);
    let Some(Cover::Over { line, .. }) = phone.board().cover else { panic!("over") };
    let level = [0, 1].map(|at| format!("Group {} ({})", at + 1, group_named(&phone, at))).join(" and ");
    assert_eq!(line, format!("Level, with 1 good one each: {level}."));
}

/// Time is called ten seconds before its end and at the end, each once.
#[test]
fn time_is_called() {
    let mut phone = with_run(timed(30));
    phone.act(Action::ClockTapped);
    for _ in 0..20 {
        phone.wait(0, 0);
    }
    assert_eq!(calls(&phone), ["Ten seconds", "Time"]);
    // Ten seconds are no warning of ten seconds; a phone that slept over the end calls the end alone.
    let mut phone = with_run(timed(60));
    phone.act(Action::ClockTapped);
    phone.wait(0, 0);
    phone.wait(90_000, 90_000);
    assert_eq!(calls(&phone), ["Time"]);
}

#[test]
fn the_clock_survives_a_new_page() {
    let mut phone = with_run(timed(120));
    phone.act(Action::ClockTapped);
    phone.act(Action::LaneTapped(GroupNo(0)));
    let before = phone.board().clock.expect("a clock");
    assert_eq!(before.left, "1:54");
    let started = phone.model.runs[&on_screen(&phone)].entries().find(|e| matches!(e.fact, Fact::ClockSet { .. }));
    let started = started.expect("it was set going").at.wall_ms;
    phone.restart();
    let after = phone.board().clock.expect("a clock");
    assert!(after.going && after.started);
    // By the wall clock, since the new page has no other.
    let gone_ms = phone.model.now.wall_ms - started;
    assert!(gone_ms > 30_000, "some time passed: {gone_ms} ms");
    let left_s = (120_000 - gone_ms + 999) / 1000;
    assert_eq!(after.left, format!("{}:{:02}", left_s / 60, left_s % 60));
    assert_eq!(lanes(&phone.board()), [1, 0]);
    phone.act(Action::LaneTapped(GroupNo(0)));
    assert_eq!(lanes(&phone.board()), [2, 0], "it counts on the new page");
    // Paused, then killed: it stands where it stood.
    phone.act(Action::ClockTapped);
    let paused = left(&phone);
    phone.restart();
    assert_eq!(left(&phone), paused);
    assert!(!phone.board().clock.expect("a clock").going);
}

/// Someone sets the phone's clock back: on the page that set it going the time goes on; on a new page it shows no less than then.
#[test]
fn a_wall_clock_turned_back_gives_no_time() {
    let mut phone = with_run(timed(120));
    phone.act(Action::ClockTapped);
    phone.wait(30_000, -3_600_000);
    let shown = left(&phone);
    assert!(shown.as_str() < "1:30", "{shown}");
    phone.restart();
    phone.wait(0, -3_600_000);
    assert_eq!(left(&phone), "2:00", "what it showed when it was set, and no more than that");
    phone.act(Action::ClockTapped);
    phone.act(Action::ClockTapped);
    assert!(phone.board().clock.expect("a clock").going);
}

/// Someone sets the phone's clock forward in mid-run: on the page that set the run's clock going nothing jumps. A new page has nothing
/// but the wall clock, from the last ball on: what was set before that ball moves nothing, and it never shows less than the ball had.
#[test]
fn a_wall_clock_put_forward_ends_no_run() {
    let mut phone = with_run(timed(240));
    phone.act(Action::ClockTapped);
    phone.wait(10_000, 3_600_000);
    let shown = left(&phone);
    assert!(shown.as_str() > "3:40" && shown.as_str() < "3:50", "{shown}");
    assert!(phone.board().cover.is_none(), "{:?}", phone.board().cover);
    phone.act(Action::LaneTapped(GroupNo(0)));
    let noted = left(&phone);
    // A new page begins a minute later, by the wall clock as it was set.
    phone.restart();
    phone.wait(0, 3_600_000);
    let after = left(&phone);
    assert!(phone.board().cover.is_none(), "{after}");
    assert!(after.as_str() > "2:30" && after.as_str() < "3:30", "{noted}, then {after}");
    // And one whose wall clock was turned back shows what the last ball was noted at.
    phone.restart();
    let back = left(&phone);
    assert!(back >= noted && back.as_str() < "3:50", "{noted}, then {back}");
}

/// A browser's own clock may stand still while the phone sleeps, which it does with the page hidden: the page's reading goes on then.
#[test]
fn a_phone_that_slept_shows_the_right_time() {
    use peppertally::domain::time::Slept;
    let mut slept = Slept::default();
    // Put forward by an hour before somebody's eyes: no sleep.
    slept.shown(3_600_000, 1_000);
    assert_eq!(slept.awake_ms(1_000), 1_000);
    // Hidden for a minute, of which the browser's clock saw five seconds.
    slept.hidden(3_600_000, 1_000);
    slept.hidden(3_600_500, 1_500);
    slept.shown(3_660_000, 6_000);
    assert_eq!(slept.awake_ms(6_000), 61_000);
    // Hidden and awake, and a second of drift.
    slept.hidden(3_670_000, 16_000);
    slept.shown(3_731_000, 76_000);
    assert_eq!(slept.awake_ms(76_000), 131_000);
    // Turned back while hidden: never less than the clock itself.
    slept.hidden(3_731_000, 76_000);
    slept.shown(0, 80_000);
    assert_eq!(slept.awake_ms(80_000), 135_000);
    let mut phone = with_run(timed(120));
    phone.act(Action::ClockTapped);
    phone.wait(60_000, 60_000);
    let shown = left(&phone);
    assert!(shown.as_str() <= "0:58" && shown.as_str() > "0:50", "{shown}");
    phone.wait(600_000, 600_000);
    phone.act(Action::Uncovered);
    assert!(matches!(phone.board().cover, Some(Cover::Over { .. })));
}

/// Another go is a run of its own; the finished one keeps what it had.
#[test]
fn another_go_is_a_new_run() {
    let mut phone = with_run(timed(30));
    let (first, named) = (on_screen(&phone), group_named(&phone, 0));
    phone.act(Action::ClockTapped);
    phone.act(Action::LaneTapped(GroupNo(0)));
    phone.wait(30_000, 30_000);
    phone.act(Action::Again(first));
    let second = on_screen(&phone);
    assert_ne!(first, second);
    assert!(phone.model.runs[&first].main.finished);
    assert_eq!((lanes(&phone.board()), left(&phone)), (vec![0, 0], "0:30".to_owned()));
    let report = report::run_report(&phone.model, first).expect("a report");
    assert_eq!(report.score, Some(format!("Group 1 ({named}) has it, with 1 good one.")));
}

/// Who has another ball keeps it in another go, as long as they are the same; the drill's own start has none.
#[test]
fn another_go_keeps_each_groups_ball() {
    let race = Rule::FirstTo(FirstTo { n: 3, by_two: false });
    let mut phone = Phone::with_squad(SQUAD);
    phone.act(Action::Groups(GroupsTap::Made));
    phone.new_drill(spec(Board::Lanes, race, Some(phone.model.settings.groups_n)));
    assert_eq!(phone.model.settings.groups_n, 3);
    phone.act(Action::GroupStepChosen(GroupNo(1), Step(1)));
    let steps = |phone: &Phone| match phone.board().keys {
        Keys::Lanes { lanes } => {
            lanes.iter().map(|lane| lane.figure.ball.clone().expect("a ball").step.0).collect::<Vec<_>>()
        }
        _ => Vec::new(),
    };
    (0..3).for_each(|_| phone.act(Action::LaneTapped(GroupNo(0))));
    let first = on_screen(&phone);
    phone.act(Action::Again(first));
    assert_ne!(on_screen(&phone), first);
    assert_eq!(steps(&phone), [0, 1, 0]);
    phone.restart();
    assert_eq!(steps(&phone), [0, 1, 0], "killed, and still so");
    let second = on_screen(&phone);
    let gone = phone.model.runs[&second].main.lineup.groups[1][0];
    phone.act(Action::PresenceTapped(gone));
    phone.act(Action::Again(second));
    assert_eq!(steps(&phone), [0, 1, 0], "who is left of them");
    let third = on_screen(&phone);
    phone.act(Action::PresenceTapped(gone));
    let drill = drill_of(&phone);
    phone.act(Action::Finish);
    phone.act(Action::DrillTapped(drill));
    assert_ne!(on_screen(&phone), third);
    assert_eq!(steps(&phone), [0, 0, 0]);
}

/// After a ten it is the next child's turn, and what the ten was is said; the number stands once.
#[test]
fn after_a_ten_comes_the_next_child() {
    let stays = Board::Line { order: LineOrder::Stays };
    let mut phone = with_run(spec(stays, Rule::Tens(Tens { n: 10 }), None));
    for ball in 0..10 {
        assert_eq!(phone.current(), "Mira");
        good(&mut phone, ball < 8);
    }
    let Keys::Line { current: Some(current), .. } = phone.board().keys else { panic!("a line") };
    assert_eq!((current.name.as_str(), current.of.as_str(), current.then.as_deref()), ("Tove", "", Some("then Odile")));
    assert_eq!(phone.board().call, "Mira: 8 of 10. Now Tove.");
    assert_eq!((phone.board().figures.n_good, phone.board().figures.of.as_str()), (0, "of 0, 10 to come"));
    good(&mut phone, true);
    assert_eq!((phone.current(), phone.board().call), ("Tove".to_owned(), "Setting".to_owned()));
    phone.restart();
    assert_eq!(phone.current(), "Tove");
    // The coach has the last word.
    let mira = phone.player("Mira");
    phone.act(Action::NameTapped(mira));
    assert_eq!(phone.current(), "Mira");
}

/// On a phone that is propped up it is seen how many of the ten were watched, and that they are over.
#[test]
fn ten_for_one_propped_up_counts_them() {
    let mut phone = with_run(spec(Board::Propped { order: LineOrder::TenForOne }, Rule::Tally { goal: None }, None));
    let then = |phone: &Phone| match phone.board().keys {
        Keys::Propped { current, .. } => current.expect("a child").then.unwrap_or_default(),
        _ => String::new(),
    };
    let first = phone.board();
    let Keys::Propped { current: Some(current), .. } = first.keys else { panic!("propped") };
    assert_eq!(then(&phone), "ball 1 of 10");
    (0..9).for_each(|_| good(&mut phone, true));
    assert_eq!(then(&phone), "ball 10 of 10");
    good(&mut phone, false);
    assert_eq!(then(&phone), format!("{}: 10 done", current.name));
    good(&mut phone, true);
    assert_eq!(then(&phone), "ball 2 of 10");
}

/// Finished early, the report claims no more balls than there were.
#[test]
fn together_of_as_many_as_were_played() {
    let mut phone = with_run(together(Some(4)));
    (0..2).for_each(|ball| good(&mut phone, ball == 0));
    let run = on_screen(&phone);
    phone.act(Action::Finish);
    let score = report::run_report(&phone.model, run).expect("a report").score;
    assert_eq!(score.as_deref(), Some("1 together, of 2 balls; 4 were the aim. It is your first of its kind."));
}

/// Finished with time left nobody has it, and the report says so.
#[test]
fn finished_before_the_time_is_up() {
    let mut phone = with_run(timed(60));
    let run = on_screen(&phone);
    phone.act(Action::ClockTapped);
    phone.act(Action::LaneTapped(GroupNo(0)));
    phone.act(Action::Finish);
    phone.wait(90_000, 90_000);
    let score = report::run_report(&phone.model, run).expect("a report").score.expect("a sentence");
    assert!(score.starts_with("1 good one. The time wasn’t up: 0:5") && score.ends_with(" of 1 min left."), "{score}");
    // Each child for itself: no time is claimed either.
    let own = Rule::InTime(InTime { seconds: 60, whose: Whose::Child });
    let mut phone = with_run(spec(in_turn(), own, None));
    let run = on_screen(&phone);
    phone.act(Action::ClockTapped);
    good(&mut phone, true);
    phone.act(Action::Finish);
    let report = report::run_report(&phone.model, run).expect("a report");
    let more = report.sections[0].rows[0].more.as_deref();
    assert!(more.is_some_and(|more| more.starts_with("1 good one") && !more.contains(" in ")), "{more:?}");
}

/// Three lanes, an undo of each, the first who has it; a step of its own for one group.
#[test]
fn groups_at_once() {
    let race = Rule::FirstTo(FirstTo { n: 3, by_two: false });
    let mut phone = with_run(spec(Board::Lanes, race, Some(3)));
    for lane in [0, 1, 0, 2] {
        phone.act(Action::LaneTapped(GroupNo(lane)));
    }
    assert_eq!(lanes(&phone.board()), [2, 1, 1]);
    assert_eq!(phone.board().undo.as_deref(), Some("Group 3, good, just now"));
    phone.act(Action::LaneUndone(GroupNo(0)));
    assert_eq!(lanes(&phone.board()), [1, 1, 1]);
    let figures = phone.board().figures;
    assert_eq!(
        (figures.n_good, figures.of.as_str(), figures.goal.as_deref()),
        (3, "good ones in all", Some("first to 3"))
    );
    let step = |phone: &Phone| match phone.board().keys {
        Keys::Lanes { lanes } => lanes[1].figure.ball.clone().expect("a step"),
        _ => panic!("lanes"),
    };
    assert_eq!(step(&phone).step, Step(0));
    phone.act(Action::GroupStepChosen(GroupNo(1), Step(1)));
    assert_eq!(step(&phone).step, Step(1));
    phone.act(Action::LaneTapped(GroupNo(1)));
    let last = phone.model.runs[&on_screen(&phone)].main.contacts.last().expect("a contact").contact.clone();
    assert_eq!((last.feed.step, last.group), (Step(1), Some(GroupNo(1))));
    phone.act(Action::LaneTapped(GroupNo(1)));
    let Some(Cover::Over { line, ways }) = phone.board().cover else { panic!("over") };
    let said = format!("Group 2 ({}) has it, with 3 good ones.", group_named(&phone, 1));
    assert_eq!((line, ways), (said, Ways { again: true, play_on: true }));
    phone.restart();
    assert_eq!(lanes(&phone.board()), [1, 3, 1], "killed, and still there");
    phone.act(Action::PlayOn);
    phone.act(Action::LaneTapped(GroupNo(0)));
    assert_eq!(lanes(&phone.board()), [2, 3, 1]);
    phone.act(Action::Finish);
    let Screen::RunReport(run) = phone.model.screen else { panic!("report") };
    let report = report::run_report(&phone.model, run).expect("a report");
    assert_eq!(report.everyone, "6 good ones.");
    assert_eq!(report.counts_only, Some("Good ones were counted and misses weren't: counts only, no rate."));
    let lines: Vec<_> = report.groups.iter().map(|line| (line.name.as_str(), line.what.as_str())).collect();
    assert_eq!(lines, [("Group 1", "2 good ones"), ("Group 2", "3 good ones"), ("Group 3", "1 good one")]);
    phone.act(Action::Go(Screen::Today));
    let card = today::today(&phone.model).drills.pop().expect("a drill");
    assert_eq!(card.last.as_deref(), Some("Today 6\u{a0}good\u{a0}ones"));
    assert_eq!(today::today(&phone.model).open.expect("a practice").runs[0].count, "6 good ones");
}

fn together(balls: Option<u16>) -> DrillSpec {
    spec(in_turn(), Rule::Together(Together { row: false, balls, to_beat: None }), None)
}

/// A run of one drill: so many good ones of four balls.
fn four_balls(phone: &mut Phone, drill: DrillId, n_good: usize) {
    phone.act(Action::Go(Screen::Today));
    phone.act(Action::DrillTapped(drill));
    (0..4).for_each(|ball| good(phone, ball < n_good));
}

/// What is to beat comes from earlier runs, in memory and packed; it stays as it was known at the start.
#[test]
fn the_squads_own_best() {
    let mut phone = with_run(together(Some(4)));
    let drill = drill_of(&phone);
    assert_eq!(phone.board().figures.goal.as_deref(), Some("your first: no best yet"));
    // Tapped again, the drill leads to the run that is on.
    let run = on_screen(&phone);
    phone.act(Action::Go(Screen::Today));
    phone.act(Action::DrillTapped(drill));
    assert_eq!(on_screen(&phone), run);
    (0..4).for_each(|ball| good(&mut phone, ball < 3));
    let Some(Cover::Over { line, ways }) = phone.board().cover else { panic!("over") };
    assert_eq!(line, "All balls are played: 3 good together. It is your first of its kind.");
    assert_eq!(ways, Ways { again: true, play_on: false });
    phone.act(Action::Finish);
    four_balls(&mut phone, drill, 2);
    let Some(Cover::Over { line, .. }) = phone.board().cover else { panic!("over") };
    assert_eq!(line, "All balls are played: 2 good together. Your best before was 3.");
    // A run that is on leads back to itself, with its best before filled in.
    let run = on_screen(&phone);
    phone.act(Action::Go(Screen::Today));
    phone.act(Action::DrillTapped(drill));
    assert_eq!(on_screen(&phone), run);
    phone.act(Action::Finish);
    phone.end_practice();
    phone.restart();
    assert!(phone.model.runs.is_empty(), "all lies packed");
    four_balls(&mut phone, drill, 4);
    let report = report::run_report(&phone.model, on_screen(&phone)).expect("a report");
    assert_eq!(report.score.as_deref(), Some("4 together, of 4 balls. Your best before was 3."));
    // Three runs of this drill: 3, 2, 4 good, so each child's next step can be told. Mira had the first ball of each, all good,
    // and the fifth never came: one more than one.
    let goals: Vec<_> = report.goals.iter().map(|goal| (goal.name.as_str(), goal.goal.as_str())).collect();
    assert_eq!(
        goals,
        [("Mira", "2 good ones"), ("Tove", "2 good ones"), ("Odile", "2 good ones"), ("Bram", "1 good one")]
    );
}

/// Of another number of balls nothing is compared.
#[test]
fn only_the_same_is_compared() {
    let mut phone = with_run(together(Some(4)));
    let drill = drill_of(&phone);
    (0..4).for_each(|_| good(&mut phone, true));
    phone.act(Action::Finish);
    phone.act(Action::Go(Screen::Drill(Some(drill))));
    phone.act(Action::DrillDrafted(together(Some(9))));
    phone.act(Action::DrillKept);
    four_balls(&mut phone, drill, 1);
    assert_eq!(phone.board().figures.goal.as_deref(), Some("your first: no best yet"));
}

/// A run keeps the rule it began with, on its board and in its report; the drill's next run has the new one.
#[test]
fn a_drill_changed_while_its_run_is_on() {
    let row = |goal| {
        spec(in_turn(), Rule::InRow(InRow { goal: Some(goal), whose: Whose::Group, falls_to_five: false }), None)
    };
    let mut phone = with_run(row(10));
    let (drill, run) = (drill_of(&phone), on_screen(&phone));
    good(&mut phone, true);
    good(&mut phone, true);
    phone.act(Action::Go(Screen::Drill(Some(drill))));
    phone.act(Action::DrillDrafted(row(3)));
    phone.act(Action::DrillKept);
    phone.act(Action::Go(Screen::Run(run)));
    good(&mut phone, true);
    let figures = phone.board().figures;
    assert_eq!((figures.n_good, figures.goal.as_deref()), (3, Some("best 3, goal 10")));
    phone.act(Action::Go(Screen::Today));
    phone.act(Action::DrillTapped(drill));
    assert_ne!(on_screen(&phone), run, "what was changed starts anew");
    assert_eq!(phone.board().figures.goal.as_deref(), Some("best 0, goal 3"));
    let report = report::run_report(&phone.model, run).expect("a report");
    assert!(report.finished);
    assert_eq!(report.score.as_deref(), Some("Best row 3, goal 10."));
}

/// One row that all keep alive: nothing on the board says who ended it.
#[test]
fn nobody_ended_the_row() {
    let rule = Rule::InRow(InRow { goal: None, whose: Whose::Group, falls_to_five: true });
    let mut phone = with_run(spec(in_turn(), rule, None));
    (0..7).for_each(|_| good(&mut phone, true));
    good(&mut phone, false);
    let view = phone.board();
    assert_eq!((view.figures.n_good, view.figures.goal.as_deref()), (5, Some("best 7")));
    assert_eq!(view.undo.as_deref(), Some("not good, just now"));
    let Keys::Line { current: Some(current), .. } = view.keys else { panic!("a line") };
    assert_eq!((current.name.as_str(), current.of.as_str()), ("Odile", ""));
    phone.wait(6_000, 6_000);
    let who: Vec<_> = phone.board().calm.expect("calm").lines.into_iter().map(|line| line.who).collect();
    assert_eq!(who, ["Everyone"]);
}

/// Bad input: nobody here, one child alone, more groups than children.
#[test]
fn few_children_or_none() {
    let race = |n| spec(Board::Lanes, Rule::FirstTo(FirstTo { n, by_two: false }), Some(3));
    let mut phone = Phone::with_squad("Mira\nTove");
    phone.new_drill(race(5));
    assert_eq!(phone.board().call, "A group has nobody: Refit, under “here”.");
    let n = phone.db.len();
    phone.act(Action::LaneTapped(GroupNo(2)));
    assert_eq!(phone.db.len(), n, "a group of nobody plays no ball");
    phone.act(Action::Finish);
    phone.act(Action::Go(Screen::Today));
    for child in ["Mira", "Tove"] {
        phone.act(Action::PresenceTapped(phone.player(child)));
    }
    phone.new_drill(spec(in_turn(), Rule::Tens(Tens { n: 10 }), None));
    assert_eq!(phone.board().call, "Nobody stands here. Tap who is here, above.");
    phone.act(Action::Go(Screen::Drill(None)));
    phone.act(Action::DrillDrafted(race(0)));
    assert_eq!(today::drill(&phone.model).fault.as_deref(), Some("A number of this rule is 0: it takes 1 or more."));
    phone.act(Action::DrillDrafted(DrillSpec { on_floor: OnFloor::default(), ..race(5) }));
    assert_eq!(
        today::drill(&phone.model).fault.as_deref(),
        Some("Two to four groups can play, three at most on one board of groups: choose how many.")
    );
}

/// Propped up the phone stands in sight: it doesn't cover itself, as it would in a pocket.
#[test]
fn a_propped_up_phone_is_in_no_pocket() {
    for (board, covers) in [(Board::Propped { order: LineOrder::InTurn }, false), (in_turn(), true)] {
        let mut phone = with_run(spec(board, Rule::Tally { goal: Some(20) }, None));
        good(&mut phone, true);
        phone.wait(60_000, 60_000);
        assert_eq!(phone.board().cover == Some(Cover::Pocket), covers, "{board:?}");
    }
}

/// Own next steps come of runs of the same rule and of as many balls: three of four balls and one of nine tell none for nine.
#[test]
fn own_next_steps_come_of_the_same() {
    let mut phone = with_run(together(Some(4)));
    let drill = drill_of(&phone);
    let goals = |phone: &Phone| report::run_report(&phone.model, on_screen(phone)).expect("a report").goals.len();
    (0..4).for_each(|_| good(&mut phone, true));
    phone.act(Action::Finish);
    for goals_of in [0, 4] {
        four_balls(&mut phone, drill, 4);
        assert_eq!(goals(&phone), goals_of, "of three runs, each child's");
        phone.act(Action::Finish);
    }
    phone.act(Action::Go(Screen::Drill(Some(drill))));
    phone.act(Action::DrillDrafted(together(Some(9))));
    phone.act(Action::DrillKept);
    four_balls(&mut phone, drill, 4);
    assert_eq!(goals(&phone), 0, "in memory");
    phone.act(Action::Finish);
    phone.end_practice();
    phone.restart();
    assert!(phone.model.runs.is_empty(), "all lies packed");
    four_balls(&mut phone, drill, 4);
    assert_eq!(goals(&phone), 0, "packed");
}

/// Easy and challenge balls are never one figure: not on the board of series told on the floor, and what a rule makes of both stands
/// in neither's table.
#[test]
fn easy_and_challenge_balls_stand_apart() {
    let pass = |place| Action::PlaceTapped(Place(place), super::phone::pass(3));
    let floor = |rule| DrillSpec {
        skill: Skill::Pass,
        good_from: GoodFrom::Grade(PassGrade::Moved),
        ..spec(Board::Floor { n_places: 2 }, rule, None)
    };
    let mut phone = with_run(floor(Rule::Tens(Tens { n: 10 })));
    (0..3).for_each(|_| phone.act(pass(0)));
    assert_eq!(phone.board().figures.n_good, 3);
    phone.act(Action::ChallengeTapped);
    phone.act(pass(0));
    let figures = phone.board().figures;
    assert_eq!((figures.n_good, figures.of.as_str()), (1, "good of 1"));

    let rows = Rule::InRow(InRow { goal: None, whose: Whose::Child, falls_to_five: false });
    for (rule, said) in [(Rule::Tens(Tens { n: 10 }), "now 4 of 4"), (rows, "4 in a row")] {
        let mut phone = with_run(floor(rule));
        (0..2).for_each(|_| phone.act(pass(0)));
        phone.act(Action::ChallengeTapped);
        (0..2).for_each(|_| phone.act(pass(0)));
        let sections = report::run_report(&phone.model, on_screen(&phone)).expect("a report").sections;
        let told: Vec<_> = sections
            .iter()
            .map(|s| (s.heading.as_str(), s.rows[0].count.as_str(), s.rows[0].row.clone(), s.rows[0].more.clone()))
            .map(|(heading, count, row, more)| (heading, count, row.or(more).is_some_and(|line| line == said)))
            .collect();
        let apart = [
            ("Easy and challenge balls together", said, false),
            ("Passing, easy balls", "2 of 2", false),
            ("Passing, challenge balls", "2 of 2", false),
        ];
        assert_eq!(told, apart);
    }
}

/// The step that is shown of the ball that comes is the one that is written: a child's own, else its group's, else the run's.
#[test]
fn the_step_shown_is_the_step_written() {
    let race = Rule::FirstTo(FirstTo { n: 10, by_two: false });
    let mut phone = with_run(spec(in_turn(), race, Some(2)));
    let step = |phone: &Phone| match phone.board().keys {
        Keys::Line { current: Some(current), .. } => (current.player, current.step),
        keys => panic!("{keys:?}"),
    };
    let (player, _) = step(&phone);
    let run = on_screen(&phone);
    let group = phone.model.runs[&run].main.group_of(player).expect("a group");
    phone.act(Action::GroupStepChosen(group, Step(2)));
    assert_eq!(step(&phone), (player, Step(2)));
    good(&mut phone, true);
    assert_eq!(phone.model.runs[&run].main.contacts[0].contact.feed.step, Step(2));
    phone.act(Action::NameTapped(player));
    phone.act(Action::StepChosen(player, Step(1)));
    assert_eq!(step(&phone), (player, Step(1)));
}

/// Groups are evened out by the ball, on every board on which they are scored: each tap by its child's group is fed the group's ball.
#[test]
fn every_board_of_scored_groups_offers_each_its_ball() {
    let race = Rule::FirstTo(FirstTo { n: 10, by_two: false });
    let timed = Rule::InTime(InTime { seconds: 60, whose: Whose::Group });
    let row = Rule::InRow(InRow { goal: None, whose: Whose::Group, falls_to_five: false });
    for rule in [race, timed, row] {
        for board in [in_turn(), Board::Propped { order: LineOrder::InTurn }] {
            let mut phone = with_run(spec(board, rule, Some(2)));
            if matches!(rule, Rule::InTime(_)) {
                phone.act(Action::ClockTapped);
            }
            let balls = |phone: &Phone| -> Vec<Step> {
                phone.board().groups.into_iter().filter_map(|g| g.ball).map(|ball| ball.step).collect()
            };
            assert_eq!(balls(&phone), [Step(0), Step(0)], "{rule:?} on {board:?}");
            for group in [GroupNo(0), GroupNo(1)] {
                phone.act(Action::GroupStepChosen(group, Step(u8::MAX)));
            }
            phone.act(Action::GroupStepChosen(GroupNo(1), Step(2)));
            assert_eq!(balls(&phone), [Step(u8::MAX), Step(2)]);
            for _ in 0..4 {
                good(&mut phone, true);
            }
            let run = on_screen(&phone);
            let steps = phone.model.runs[&run].main.contacts.iter().map(|c| (c.contact.group, c.contact.feed.step));
            let own = |group| if group == Some(GroupNo(0)) { Step(u8::MAX) } else { Step(2) };
            assert!(steps.clone().all(|(group, step)| step == own(group)), "{:?}", steps.collect::<Vec<_>>());
            phone.restart();
            assert_eq!(balls(&phone), [Step(u8::MAX), Step(2)]);
        }
    }
    // Good ones that nobody plays against another for need no evening out.
    let phone = with_run(spec(in_turn(), Rule::Tally { goal: None }, Some(2)));
    assert!(phone.board().groups.iter().all(|group| group.ball.is_none()));
}

/// Whosever rows they were, the report says that a miss didn't end them.
#[test]
fn a_row_tells_how_it_broke() {
    for (whose, groups) in [(Whose::Child, None), (Whose::Group, Some(2)), (Whose::Group, None)] {
        for falls_to_five in [false, true] {
            let mut phone = with_run(spec(in_turn(), Rule::InRow(InRow { goal: None, whose, falls_to_five }), groups));
            good(&mut phone, true);
            phone.act(Action::Finish);
            let Screen::RunReport(run) = phone.model.screen else { panic!("report") };
            let said = report::run_report(&phone.model, run).expect("a report").score.unwrap_or_default();
            assert_eq!(
                said.ends_with("A miss fell back to the last five."),
                falls_to_five,
                "{whose:?} {groups:?}: {said}"
            );
        }
    }
}

/// Over by its rule: nothing is told at a pause that the cover would cut.
#[test]
fn no_calm_view_under_a_cover() {
    let mut phone = with_run(spec(in_turn(), Rule::FirstTo(FirstTo { n: 2, by_two: false }), Some(2)));
    good(&mut phone, true);
    phone.wait(6_000, 6_000);
    assert!(phone.board().calm.is_some());
    while phone.board().cover.is_none() {
        good(&mut phone, true);
    }
    phone.wait(6_000, 6_000);
    assert_eq!(phone.board().calm, None);
}
