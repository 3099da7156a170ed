//! Step up, stay, ease: when a word is due, to whom it is said, and that nothing changes by itself.

use peppertally::app::action::Action;
use peppertally::app::effect::Effect;
use peppertally::app::goals::GoalsTap;
use peppertally::app::screen::Screen;
use peppertally::app::view::report::{StepsView, run_report};
use peppertally::app::work::{Answer, Job};
use peppertally::domain::drill::{Board, DrillSpec};
use peppertally::domain::ids::{Place, PlayerId, RunId, Step};
use peppertally::domain::rule::{Rule, Tens, Together};
use peppertally::domain::skill::Outcome;

use crate::phone::{Phone, pass};

const SQUAD: &str = "Mira\nTove\nOdile";

/// Balls of each of three passers, so many times over, on the board that is on.
fn play(phone: &mut Phone, times: usize, grades: [u8; 3]) {
    for _ in 0..times {
        for (place, grade) in (0..).zip(grades) {
            phone.act(Action::PlaceTapped(Place(place), pass(grade)));
        }
    }
}

fn begin(phone: &mut Phone) -> RunId {
    phone.act(Action::Go(Screen::Today));
    phone.drill(0);
    let Screen::Run(run) = phone.model.screen else { panic!("a board") };
    run
}

fn steps(phone: &Phone, run: RunId) -> StepsView {
    run_report(&phone.model, run).expect("a report").steps
}

fn said(view: &StepsView) -> Vec<(&str, &str)> {
    view.lines.iter().map(|line| (line.name.as_str(), line.line.split('.').next().unwrap_or_default())).collect()
}

fn asked(phone: &Phone) -> usize {
    phone.effects.iter().filter(|effect| matches!(effect, Effect::Work(Job::Steps { .. }))).count()
}

/// Mira has 30 of 30, Tove 15 of 30, Odile none: she is ready, Tove is right as she is, Odile would be helped. In the squad's order, and of
/// all together (15 in 30) nothing.
#[test]
fn each_is_told_of_by_itself() {
    let mut phone = Phone::with_squad(SQUAD);
    let run = begin(&mut phone);
    for _ in 0..15 {
        play(&mut phone, 1, [3, 3, 0]);
        play(&mut phone, 1, [3, 0, 0]);
    }
    assert_eq!(asked(&phone), 0, "never in between");
    phone.act(Action::Finish);
    assert_eq!(phone.model.screen, Screen::RunReport(run));
    let view = steps(&phone, run);
    assert_eq!(
        said(&view),
        [("Mira", "Ready for a harder ball"), ("Odile", "An easier ball would let more succeed")],
        "{view:?}"
    );
    assert!(view.lines[0].line.contains("8 in 10 or more are good: "), "{view:?}");
    // Nothing is easier than a toss.
    assert!(view.lines[1].given.is_none() && view.lines[1].ends.is_some());
}

/// A goal for all next time, of as many balls: nearest to seven in ten for a share near a half of ninety, so a little under the half.
#[test]
fn a_goal_for_all_next_time() {
    let mut phone = Phone::with_squad(SQUAD);
    let run = begin(&mut phone);
    for _ in 0..15 {
        play(&mut phone, 1, [3, 3, 0]);
        play(&mut phone, 1, [3, 0, 0]);
    }
    phone.act(Action::Finish);
    let line = steps(&phone, run).next.expect("a goal");
    let goal = line
        .strip_prefix("Next time for all: ")
        .and_then(|rest| rest.split_once(" good of 90 balls, about 7 in 10 times."));
    let goal: u32 = goal.and_then(|(goal, _)| goal.parse().ok()).unwrap_or_else(|| panic!("{line}"));
    assert!((36..45).contains(&goal), "{line}");
    // With a handful of balls there is none.
    let run = begin(&mut phone);
    play(&mut phone, 2, [3, 3, 0]);
    phone.act(Action::Finish);
    assert_eq!(steps(&phone, run).next, None);
}

/// The key gives the next step, says so, and gives the old one back; untouched, everything stays as it is.
#[test]
fn a_step_changes_by_a_tap_alone() {
    let mut phone = Phone::with_squad(SQUAD);
    let run = begin(&mut phone);
    play(&mut phone, 30, [3, 2, 0]);
    phone.act(Action::Finish);
    let mira = phone.player("Mira");
    let drill = phone.model.runs[&run].drill.expect("a drill");
    let step = |phone: &Phone, player: PlayerId| phone.model.base.step_of(drill, player);
    assert_eq!(step(&phone, mira), None);
    let given = steps(&phone, run).lines[0].given.clone().expect("a key");
    assert_eq!((given.label.as_str(), given.said), ("Next time thrown over the net", None));
    phone.act(given.action);
    assert_eq!((step(&phone, mira), step(&phone, phone.player("Tove"))), (Some(Step(1)), None));
    let given = steps(&phone, run).lines[0].given.clone().expect("a key");
    assert_eq!(
        (given.label.as_str(), given.said.as_deref()),
        ("Back to tossed", Some("From now on thrown over the net."))
    );
    phone.act(given.action);
    assert_eq!(step(&phone, mira), Some(Step(0)));
    // It outlives a kill.
    let given = steps(&phone, run).lines[0].given.clone().expect("a key");
    phone.act(given.action);
    phone.restart_elsewhere();
    assert_eq!(step(&phone, mira), Some(Step(1)));
}

/// On the board: nothing before ten balls, nothing while it is tapped, one line once it pauses; it names nobody, and says nothing where a
/// ball should be easier.
#[test]
fn the_board_says_one_thing_when_it_pauses() {
    let mut phone = Phone::with_squad(SQUAD);
    begin(&mut phone);
    play(&mut phone, 3, [3, 3, 3]);
    phone.wait(6_000, 6_000);
    assert_eq!((asked(&phone), phone.board().calm.expect("a pause").step), (0, None));
    play(&mut phone, 15, [3, 3, 2]);
    assert!(asked(&phone) == 0 && phone.board().calm.is_none());
    phone.wait(6_000, 6_000);
    let (line, drill) = phone.board().calm.expect("a pause").step.expect("a line");
    assert!(line.starts_with("Ready for a harder ball? ") && line.ends_with("that 8 in 10 are good."), "{line}");
    for name in SQUAD.lines() {
        assert!(!line.contains(name), "{line}");
    }
    // No second look at every tick of the pause, nor before ten more balls.
    phone.wait(6_000, 6_000);
    play(&mut phone, 1, [3, 3, 3]);
    phone.wait(6_000, 6_000);
    assert_eq!(asked(&phone), 1);
    phone.act(Action::Go(Screen::Drill(Some(drill))));
    assert_eq!(phone.model.drafts.drill.as_ref().and_then(|draft| draft.drill), Some(drill));

    let mut phone = Phone::with_squad(SQUAD);
    begin(&mut phone);
    play(&mut phone, 15, [0, 0, 1]);
    phone.wait(6_000, 6_000);
    assert_eq!((asked(&phone), phone.board().calm.expect("a pause").step), (1, None));
    let Screen::Run(run) = phone.model.screen else { panic!("a board") };
    phone.act(Action::Finish);
    let view = steps(&phone, run);
    assert_eq!(said(&view)[0], ("All together", "An easier ball would let more succeed"), "{view:?}");
}

/// In rounds of a duel it is about the easy balls, and said after the run; of challenge balls that the coach marks it is said that they are.
#[test]
fn the_kind_of_ball_is_said() {
    let mut phone = Phone::with_squad("Mira\nTove\nOdile\nBram\nIva\nLasse");
    phone.act(Action::Go(Screen::Today));
    phone.drill(1);
    let Screen::Run(run) = phone.model.screen else { panic!("a board") };
    for ball in 0..45 {
        // Four easy balls good, of three challenge balls every other.
        let good = ball % 7 < 4 || ball % 2 == 0;
        phone.act(Action::PlaceTapped(Place(ball % 3), pass(if good { 3 } else { 0 })));
        phone.act(Action::PlayOn);
    }
    phone.wait(6_000, 6_000);
    assert_eq!((asked(&phone), phone.board().calm.expect("a pause").step), (0, None));
    phone.act(Action::Finish);
    let view = steps(&phone, run);
    assert!(view.lines[0].line.contains("8 in 10 or more easy balls are good"), "{view:?}");
    assert!(view.lines.iter().all(|line| line.given.is_none()), "all have the same ball in a duel: {view:?}");

    let mut phone = Phone::with_squad(SQUAD);
    begin(&mut phone);
    phone.act(Action::ChallengeTapped);
    play(&mut phone, 20, [3, 3, 3]);
    phone.wait(6_000, 6_000);
    let (line, _) = phone.board().calm.expect("a pause").step.expect("a line");
    assert!(line.ends_with("that 8 in 10 challenge balls are good."), "{line}");
}

/// A phone that is propped up is the children's to see: no key there leads away from the run.
#[test]
fn a_propped_phone_says_nothing() {
    let mut phone = Phone::with_squad(SQUAD);
    phone.act(Action::Go(Screen::Today));
    phone.drill(11);
    for _ in 0..39 {
        phone.act(Action::OutcomeTapped(Outcome::TwoKey { good: true }));
    }
    phone.wait(6_000, 6_000);
    assert_eq!((asked(&phone), phone.board().calm.expect("a pause").step), (0, None));
    let Screen::Run(run) = phone.model.screen else { panic!("a board") };
    phone.act(Action::Finish);
    assert_eq!(asked(&phone), 1);
    assert_eq!(steps(&phone, run).lines[0].name, "All together");
}

/// Once somebody has another ball, the old look says nothing any more.
#[test]
fn another_ball_ends_the_line() {
    let mut phone = Phone::with_squad(SQUAD);
    begin(&mut phone);
    play(&mut phone, 20, [3, 3, 3]);
    phone.wait(6_000, 6_000);
    assert!(phone.board().calm.expect("a pause").step.is_some());
    let mira = phone.player("Mira");
    phone.act(Action::StepChosen(mira, Step(1)));
    phone.wait(6_000, 6_000);
    assert_eq!(phone.board().calm.expect("a pause").step, None);
}

/// Who joins is no part of the look that was taken: nothing is said of all until that one has had such balls too. Nor of another kind of ball.
#[test]
fn who_joined_since_is_not_spoken_for() {
    let mut phone = Phone::with_squad("Mira\nTove\nOdile\nBram");
    let bram = phone.player("Bram");
    phone.act(Action::PresenceTapped(bram));
    begin(&mut phone);
    play(&mut phone, 20, [3, 3, 3]);
    phone.wait(6_000, 6_000);
    assert!(phone.board().calm.expect("a pause").step.is_some());
    phone.act(Action::ChallengeTapped);
    phone.wait(6_000, 6_000);
    assert_eq!(phone.board().calm.expect("a pause").step, None, "of challenge balls nothing was looked at");
    phone.act(Action::ChallengeTapped);
    phone.wait(6_000, 6_000);
    assert!(phone.board().calm.expect("a pause").step.is_some());
    phone.act(Action::PresenceTapped(bram));
    assert!(phone.model.run_on().expect("on").main.lineup.everyone().any(|player| player == bram));
    phone.wait(6_000, 6_000);
    assert_eq!(phone.board().calm.expect("a pause").step, None);
}

/// On a board where nothing could be asked the practices are gone through once in ten balls, not at every tick of the pause.
#[test]
fn a_look_without_a_question_is_taken_once() {
    let mut phone = Phone::with_squad(SQUAD);
    let line = phone.model.base.drills()[6].1.clone();
    phone.new_drill(DrillSpec { name: "Good or not".to_owned(), board: Board::Group, ..line });
    for _ in 0..12 {
        phone.act(Action::OutcomeTapped(Outcome::TwoKey { good: true }));
    }
    let before = phone.model.steps.clone();
    phone.wait(6_000, 6_000);
    let looked = phone.model.steps.clone();
    assert!(asked(&phone) == 0 && looked != before, "{looked:?}");
    phone.act(Action::OutcomeTapped(Outcome::TwoKey { good: true }));
    phone.wait(6_000, 6_000);
    assert_eq!(phone.model.steps, looked);
    for _ in 0..10 {
        phone.act(Action::OutcomeTapped(Outcome::TwoKey { good: true }));
    }
    phone.wait(6_000, 6_000);
    assert!(phone.model.steps != looked);
}

/// The coach's own lines: with the upper one at 95 nobody is ready, with the lower one at 90 one who has 8 in 10 is helped by an easier one.
#[test]
fn the_lines_are_the_coachs() {
    let mut phone = Phone::with_squad(SQUAD);
    let run = begin(&mut phone);
    for _ in 0..10 {
        play(&mut phone, 4, [3, 3, 3]);
        play(&mut phone, 1, [3, 0, 0]);
    }
    phone.act(Action::Finish);
    assert_eq!(said(&steps(&phone, run))[0].0, "Mira");
    for _ in 0..3 {
        phone.act(Action::Goals(GoalsTap::UpperStepped(true)));
    }
    for _ in 0..8 {
        phone.act(Action::Goals(GoalsTap::LowerStepped(true)));
    }
    let view = steps(&phone, run);
    let lines = said(&view);
    assert!(lines.iter().all(|(_, line)| !line.starts_with("Ready")), "{view:?}");
    assert!(lines.contains(&("Tove", "An easier ball would let more succeed")), "{view:?}");
    assert!(view.lines.iter().any(|line| line.line.contains("Fewer than 9 in 10")), "{view:?}");
}

/// The last ball is counted in, and so is one that was corrected after the end.
#[test]
fn levels_are_asked_again_at_the_end() {
    let mut phone = Phone::with_squad(SQUAD);
    let run = begin(&mut phone);
    play(&mut phone, 4, [3, 3, 3]);
    phone.wait(6_000, 6_000);
    assert_eq!(asked(&phone), 1);
    play(&mut phone, 1, [3, 3, 3]);
    phone.act(Action::Finish);
    assert_eq!(asked(&phone), 2);
    phone.act(Action::Go(Screen::Today));
    phone.act(Action::Go(Screen::RunReport(run)));
    assert_eq!(asked(&phone), 2, "what is known isn't asked again");
    phone.act(Action::Go(Screen::Contacts(run)));
    let contact = phone.model.runs[&run].main.contacts[0].clone();
    phone.act(Action::ContactFixed { contact: contact.id, player: contact.contact.player, outcome: pass(0), step: 0 });
    phone.act(Action::Go(Screen::RunReport(run)));
    assert_eq!(asked(&phone), 3);
}

/// On the board of thirty balls together.
fn thirty_together() -> Phone {
    let mut phone = Phone::with_squad(SQUAD);
    let spec = phone.model.base.drills()[0].1.clone();
    let together = Together { row: false, balls: Some(30), to_beat: None };
    phone.new_drill(DrillSpec { name: "Thirty".to_owned(), rule: Rule::Together(together), ..spec });
    phone
}

/// A child's own small goal has its chance once the levels are there: Mira has 6 of 10 each time, so 7 is her goal; at 0.6 that is 0.38 by the
/// binomial, and what isn't known of her level moves it a little.
#[test]
fn own_goals_say_how_often() {
    let mut phone = thirty_together();
    let Screen::Run(first) = phone.model.screen else { panic!("a board") };
    let drill = phone.model.runs[&first].drill.expect("a drill");
    let mut run = first;
    for time in 0..3 {
        if time > 0 {
            phone.act(Action::Go(Screen::Today));
            phone.act(Action::DrillTapped(drill));
            let Screen::Run(next) = phone.model.screen else { panic!("a board") };
            run = next;
        }
        play(&mut phone, 6, [3, 3, 0]);
        play(&mut phone, 4, [0, 3, 0]);
        phone.act(Action::Finish);
    }
    let goals = run_report(&phone.model, run).expect("a report").goals;
    assert_eq!((goals[0].name.as_str(), goals[0].goal.as_str()), ("Mira", "7 good ones"));
    assert_eq!(goals[0].chance.as_deref(), Some("about 4 in 10 times, of 10 balls as today"));
    // One more than ten of ten can't be had in ten: nothing is said of that.
    assert_eq!((goals[1].goal.as_str(), goals[1].chance.as_deref()), ("11 good ones", None));
}

/// Balls of two kinds in the run: the level is that of the last alone, so no chance of the goal over both is told.
#[test]
fn own_goals_over_two_balls_have_no_chance() {
    let mut phone = thirty_together();
    let Screen::Run(mut run) = phone.model.screen else { panic!("a board") };
    let drill = phone.model.runs[&run].drill.expect("a drill");
    for time in 0..3 {
        if time > 0 {
            phone.act(Action::Go(Screen::Today));
            phone.act(Action::DrillTapped(drill));
            let Screen::Run(next) = phone.model.screen else { panic!("a board") };
            run = next;
        }
        play(&mut phone, 6, [3, 3, 0]);
        if time == 2 {
            phone.act(Action::ChallengeTapped);
        }
        play(&mut phone, 4, [0, 3, 0]);
        phone.act(Action::Finish);
    }
    let goals = run_report(&phone.model, run).expect("a report").goals;
    assert_eq!((goals[0].goal.as_str(), goals[0].chance.as_deref()), ("7 good ones", None));
}

/// Nothing where nothing was judged, one child alone, a rule of tens, a worker that can't: no panic, and nothing said that isn't known.
#[test]
fn the_edges() {
    let mut phone = Phone::with_squad(SQUAD);
    let run = begin(&mut phone);
    phone.act(Action::NoChanceTapped);
    phone.act(Action::Finish);
    assert_eq!((asked(&phone), steps(&phone, run)), (0, StepsView::default()));

    let mut phone = Phone::with_squad("Mira");
    let run = begin(&mut phone);
    play(&mut phone, 40, [3, 3, 3]);
    phone.act(Action::Finish);
    let view = steps(&phone, run);
    assert_eq!(said(&view), [("Mira", "Ready for a harder ball")], "{view:?}");

    let mut phone = Phone::with_squad("Mira\nTove");
    let line = phone.model.base.drills()[2].1.clone();
    phone.new_drill(DrillSpec { name: "Tens".to_owned(), rule: Rule::Tens(Tens { n: 10 }), ..line });
    for _ in 0..40 {
        phone.act(Action::OutcomeTapped(pass(3)));
    }
    phone.fails = Some(Answer::Refused("No room.".to_owned()));
    let Screen::Run(run) = phone.model.screen else { panic!("a board") };
    phone.act(Action::Finish);
    let view = steps(&phone, run);
    assert!(view.lines.is_empty() && view.trouble.is_some_and(|why| why.ends_with("No room.")));
    phone.fails = None;
    phone.act(Action::ReadAgain);
    assert!(!steps(&phone, run).lines.is_empty());

    // A run of another day: what children are like today says nothing of it.
    let mut phone = Phone::with_squad(SQUAD);
    let run = begin(&mut phone);
    play(&mut phone, 30, [3, 3, 3]);
    phone.act(Action::Finish);
    phone.next_day();
    phone.effects.clear();
    crate::steps::correct_last(&mut phone, run, 0);
    phone.act(Action::Go(Screen::RunReport(run)));
    assert_eq!(asked(&phone), 0);
}
