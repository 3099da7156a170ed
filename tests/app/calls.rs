//! What the phone calls aloud: whose turn it is, challenge, swap; never what came of a ball. And the marks behind two of them.

use peppertally::app::action::Action;
use peppertally::app::effect::{Call, Effect, Signal};
use peppertally::app::screen::Screen;
use peppertally::app::settings::Settings;
use peppertally::app::view::board::{Ground, Keys};
use peppertally::app::view::report::{contacts, run_report};
use peppertally::app::view::share;
use peppertally::app::words::{ladder, screens};
use peppertally::domain::drill::{Board, ChallengeBy, DrillSpec, FirstTo, LineOrder, OnFloor, Rule};
use peppertally::domain::ids::{GroupNo, Place, Step};
use peppertally::domain::skill::{Feed, Outcome, ServeOutcome, Skill};

use super::phone::{Phone, pass};
use super::steps::{group, group_named, on_board};

const SQUAD: &str = "Mira\nTove\nOdile\nBram\nIva\nLasse";

/// What was called at this tap.
fn calls(phone: &mut Phone, action: Action) -> Vec<(Call, String)> {
    phone.effects.clear();
    phone.act(action);
    let told = phone.effects.iter().filter_map(|effect| match effect {
        Effect::Tell(Signal::Call(call, words)) => Some((*call, words.clone())),
        _ => None,
    });
    told.collect()
}

fn called(call: Call, words: &str) -> Vec<(Call, String)> {
    vec![(call, words.to_owned())]
}

/// The name is called when the turn moves on, whatever came of the ball, and never after an undo.
#[test]
fn the_next_name_is_called() {
    let mut phone = Phone::with_squad(SQUAD);
    phone.drill(2);
    for (grade, next) in [(3, "Tove"), (0, "Odile"), (1, "Bram")] {
        assert_eq!(calls(&mut phone, Action::OutcomeTapped(pass(grade))), called(Call::Name, next), "grade {grade}");
    }
    assert_eq!(calls(&mut phone, Action::NoChanceTapped), [], "the turn stays");
    assert_eq!(calls(&mut phone, Action::UndoTapped), [], "an undo calls nobody");
    assert_eq!(calls(&mut phone, Action::UndoTapped), []);
    let lasse = phone.player("Lasse");
    assert_eq!(calls(&mut phone, Action::NameTapped(lasse)), called(Call::Name, "Lasse"));
    assert_eq!(calls(&mut phone, Action::NameTapped(lasse)), []);
    assert_eq!(calls(&mut phone, Action::EffortTapped), []);
    // Where no turns are taken nobody is called.
    let mut phone = Phone::with_squad(SQUAD);
    phone.drill(0);
    assert_eq!(calls(&mut phone, Action::PlaceTapped(Place(0), pass(0))), []);
    // The same child again and again: not called.
    let stays = |spec: DrillSpec| DrillSpec { board: Board::Line { order: LineOrder::Stays }, ..spec };
    let mut phone = on_board(SQUAD, 2, stays);
    assert_eq!(calls(&mut phone, Action::OutcomeTapped(pass(3))), []);
    // After the tenth the next one to watch.
    let ten = |spec: DrillSpec| DrillSpec { board: Board::Line { order: LineOrder::TenForOne }, ..spec };
    let mut phone = on_board(SQUAD, 2, ten);
    for _ in 0..9 {
        assert_eq!(calls(&mut phone, Action::OutcomeTapped(pass(2))), []);
    }
    assert_eq!(calls(&mut phone, Action::OutcomeTapped(pass(2))), called(Call::Name, "Tove"));
}

/// No word for what came of a ball is ever called, on any board, whatever is tapped.
#[test]
fn a_fault_is_never_called() {
    let outcomes = [
        pass(0),
        Outcome::Serve { outcome: ServeOutcome::Net, fast: true },
        Outcome::TwoKey { good: false },
        Outcome::NoChance,
    ];
    for index in 0..8 {
        let mut phone = Phone::with_squad(SQUAD);
        phone.drill(index);
        let names = SQUAD.split('\n').map(str::to_owned).chain(["Swap", "Challenge", "Easy balls"].map(str::to_owned));
        let allowed: Vec<String> = names.collect();
        let places = (0..3u8).flat_map(|p| [0, 1].map(|grade| Action::PlaceTapped(Place(p), pass(grade))));
        let taps = outcomes.map(Action::OutcomeTapped).into_iter().chain(places);
        let more = [Action::NoChanceTapped, Action::ServeMissedTapped, Action::UndoTapped, Action::SwapTapped];
        for action in taps.chain(more) {
            for (_, words) in calls(&mut phone, action) {
                assert!(allowed.contains(&words), "drill {index}: {words}");
            }
        }
    }
}

/// The challenge mark: called, seen by the ground, undone under its own name, kept at each contact, told apart in the report.
#[test]
fn the_challenge_mark() {
    let by = |spec: DrillSpec| DrillSpec {
        on_floor: OnFloor { challenge: ChallengeBy::Distracted, ..OnFloor::default() },
        ..spec
    };
    let mut phone = on_board(SQUAD, 2, by);
    let three = |phone: &mut Phone| phone.act(Action::OutcomeTapped(pass(3)));
    assert_eq!((phone.board().challenge, phone.board().ground), (Some(false), Ground::Plain));
    three(&mut phone);
    three(&mut phone);
    assert_eq!(calls(&mut phone, Action::ChallengeTapped), called(Call::Phase, "Challenge"));
    let board = phone.board();
    assert_eq!((board.challenge, board.ground), (Some(true), Ground::Challenge));
    assert_eq!(board.call, "Challenge: touch neither ball nor player");
    assert!(board.undo.expect("an undo").starts_with("challenge on"));
    phone.act(Action::OutcomeTapped(pass(0)));
    phone.act(Action::OutcomeTapped(pass(3)));
    // Easy and challenge balls are never one figure: of tries nothing is told, the goal counts every good one.
    let figures = phone.board().figures;
    assert_eq!((figures.n_good, figures.of.as_str()), (3, "good ones"));
    let Keys::Line { current: Some(current), .. } = phone.board().keys else { panic!("a line") };
    assert_eq!((current.name.as_str(), current.of.as_str()), ("Iva", "0 of 0"));
    assert_eq!(calls(&mut phone, Action::ChallengeTapped), called(Call::Phase, "Easy balls"));
    assert!(phone.board().undo.expect("an undo").starts_with("challenge off"));
    phone.act(Action::UndoTapped);
    assert_eq!(phone.board().challenge, Some(true));
    // It survives a kill, as all that is folded.
    phone.restart();
    assert_eq!(phone.board().ground, Ground::Challenge);
    let Screen::Run(run) = phone.model.screen else { panic!("run") };
    let report = run_report(&phone.model, run).expect("a report");
    let headings: Vec<&str> = report.sections.iter().map(|s| s.heading.as_str()).collect();
    assert_eq!(headings, ["Passing, easy balls", "Passing, challenge balls"]);
    assert!(report.everyone.starts_with("Easy balls: 2 good of 2"), "{}", report.everyone);
    assert!(report.everyone.contains("Challenge balls: 1 good of 2"), "{}", report.everyone);
    // After a pause each is told for itself, as in a duel.
    for _ in 0..3 {
        phone.report(peppertally::app::effect::Report::Ticked);
    }
    let who: Vec<String> = phone.board().calm.expect("calm").lines.into_iter().map(|line| line.who).collect();
    assert_eq!(who, ["Everyone, challenge"]);
    // Duels give their own kinds of balls; told counts have none.
    for index in [1, 5] {
        let mut phone = Phone::with_squad(SQUAD);
        phone.drill(index);
        let before = phone.db.len();
        phone.act(Action::ChallengeTapped);
        assert_eq!((phone.board().challenge, phone.db.len()), (None, before), "drill {index}");
    }
}

/// A child's own step: kept for the drill over runs and kills, at each of its contacts, without a tap a ball.
#[test]
fn a_child_keeps_its_step() {
    let mut phone = Phone::with_squad(SQUAD);
    phone.drill(3);
    let serve = |fast| Action::OutcomeTapped(Outcome::Serve { outcome: ServeOutcome::In, fast });
    let mira = phone.player("Mira");
    assert_eq!((phone.board().has_ladder, phone.board().skill), (true, Skill::Serve));
    phone.act(Action::StepChosen(mira, Step(1)));
    let n_taps = phone.board().n_taps;
    let Keys::Serve { current: Some(current), .. } = phone.board().keys else { panic!("serves") };
    assert_eq!(
        (current.name.as_str(), current.step, current.step_words.as_deref()),
        ("Mira", Step(1), Some("from 4.5 m"))
    );
    phone.act(serve(false));
    phone.act(serve(false));
    let Keys::Serve { current: Some(current), .. } = phone.board().keys else { panic!("serves") };
    assert_eq!((current.name.as_str(), current.step, current.step_words), ("Odile", Step(0), None));
    // Nobody chose it, and it is kept all the same: so its key says it.
    assert_eq!(ladder::short(&phone.board().skill, current.step), "3 m");
    assert_eq!(phone.board().n_taps, n_taps + 2);
    let Screen::Run(run) = phone.model.screen else { panic!("run") };
    let rows = contacts(&phone.model, run).expect("contacts").rows;
    assert_eq!(rows.iter().rev().map(|r| r.feed.as_deref()).collect::<Vec<_>>(), [Some("4.5 m"), None]);
    // The next run of the drill, on a page loaded anew.
    phone.act(Action::Finish);
    phone.end_practice();
    phone.act(Action::Go(Screen::Today));
    phone.restart();
    phone.drill(3);
    phone.act(serve(false));
    let Screen::Run(run) = phone.model.screen else { panic!("run") };
    assert_eq!(phone.model.runs[&run].main.contacts[0].contact.feed.step, Step(1));
    // In another drill she has none.
    phone.act(Action::Go(Screen::Today));
    phone.drill(4);
    let Keys::Serve { current: Some(current), .. } = phone.board().keys else { panic!("serves") };
    assert_eq!(current.step, Step(0));
}

/// Who has it easier is no matter of the others', where all read the screen: on a phone that is propped up, and on keys of groups. A
/// group's ball is told where it has a name of its own.
#[test]
fn children_read_no_step() {
    let propped = |spec: DrillSpec| DrillSpec { board: Board::Propped { order: LineOrder::InTurn }, ..spec };
    let mut phone = on_board(SQUAD, 6, propped);
    phone.act(Action::StepChosen(phone.player("Mira"), Step(Step::EASIER)));
    let Keys::Propped { current: Some(current), .. } = phone.board().keys else { panic!("propped") };
    assert_eq!((current.name.as_str(), current.step, current.step_words), ("Mira", Step(Step::EASIER), None));
    let grouped = |spec: DrillSpec| DrillSpec {
        board: Board::Lanes,
        on_floor: OnFloor { groups: Some(2), ..OnFloor::default() },
        ..spec
    };
    let mut phone = on_board(SQUAD, 3, grouped);
    let (first, named) = (group(&phone, 0)[0], group_named(&phone, 0));
    phone.act(Action::StepChosen(first, Step(4)));
    let Keys::Lanes { lanes } = phone.board().keys else { panic!("lanes") };
    assert_eq!(lanes[0].figure.who, named);
    for (drill, word) in [(3, Some("4.5 m")), (2, Some("thrown over the net")), (6, None)] {
        let race =
            |spec: DrillSpec| DrillSpec { rule: Rule::FirstTo(FirstTo { n: 10, by_two: false }), ..grouped(spec) };
        let mut phone = on_board(SQUAD, drill, race);
        phone.act(Action::GroupStepChosen(GroupNo(1), Step(1)));
        let Keys::Lanes { lanes } = phone.board().keys else { panic!("lanes") };
        let balls: Vec<_> = lanes.into_iter().filter_map(|lane| lane.figure.ball).collect();
        assert_eq!((balls[1].step, balls[1].word.as_deref()), (Step(1), word));
        if word.is_none() {
            assert_eq!(balls[0].word, None, "one that is told would tell of the other");
        }
    }
}

#[test]
fn the_ladder_in_words() {
    let of = |skill: &Skill| (0..6).map(|i| ladder::step(skill, Step(i))).collect::<Vec<_>>().join(", ");
    assert_eq!(of(&Skill::Serve), "3 m, 4.5 m, 6 m, 7.5 m, behind the line, step 6");
    assert_eq!(of(&Skill::Pass), "tossed, thrown over the net, served easy, served hard, hard, far steps only, step 6");
    let own = Skill::Own("Setting".to_owned());
    assert_eq!(of(&own), "as it is, one harder, two harder, three harder, four harder, step 6");
    let all: Vec<_> = ladder::rungs(&own, None).iter().map(|rung| ladder::step(&own, *rung)).collect();
    assert_eq!(all[..3], ["two easier", "one easier", "as it is"]);
    assert_eq!(ladder::rungs(&Skill::Serve, Some(Step(2))), [0, 1, 2, 3, 4].map(Step));
    // The step in force is always one of the keys.
    assert_eq!(ladder::rungs(&own, Some(Step(7))).last(), Some(&Step(7)));
    assert_eq!(ladder::rungs(&Skill::Serve, Some(Step(9))), [0, 1, 2, 3, 4, 9].map(Step));
    assert_eq!(ladder::rungs(&Skill::Pass, Some(Step(255)))[..2], [Step(255), Step(0)]);
    // On a key there is room for a word or two, and no step is a bare number as long as it has one.
    let short = |skill: &Skill| (0..6).map(|i| ladder::short(skill, Step(i))).collect::<Vec<_>>().join(", ");
    assert_eq!(short(&Skill::Serve), "3 m, 4.5 m, 6 m, 7.5 m, far back, Step 6");
    assert_eq!(short(&Skill::Pass), "tossed, thrown, easy, hard, hard, far, Step 6");
    assert_eq!(short(&own), "as it is, harder, 2 harder, 3 harder, 4 harder, Step 6");
    assert_eq!([254, 255].map(|step| ladder::short(&own, Step(step))), ["2 easier", "easier"]);
    let question = |skill: &Skill| peppertally::app::words::board::which_ball("Mira", skill);
    assert_eq!([question(&Skill::Serve), question(&Skill::Pass)], ["Mira: from where?", "Mira: which ball?"]);
    // In the sheet too the two below the ladder are told apart.
    assert_eq!([254, 255, 0].map(|step| screens::step(Step(step))), ["two easier", "one easier", "1"]);
}

/// An easier feed is one step down the skill's own ladder: never from the easiest to a harder one, nor past the end of the numbers.
#[test]
fn an_easier_feed_is_one_step_easier() {
    let down = |skill: Skill, from: u8| {
        let mut phone = on_board("Mira\nTove", 2, |spec| DrillSpec {
            skill: skill.clone(),
            good_from: peppertally::domain::skill::GoodFrom::GoodKey,
            feed: Feed { step: Step(from), ..spec.feed },
            ..spec
        });
        let Screen::Run(run) = phone.model.screen else { panic!("a run") };
        let mut steps = Vec::new();
        for _ in 0..4 {
            phone.act(Action::EasierFeedTaken);
            steps.push(phone.model.runs[&run].main.feed.step.0);
        }
        steps
    };
    assert_eq!(down(Skill::Own("Setting".to_owned()), 1), [0, 255, 254, 254]);
    assert_eq!(down(Skill::Own("Setting".to_owned()), 7), [6, 5, 4, 3]);
}

/// Each call can be off, and is kept so; a text from before there were any has them all.
#[test]
fn each_call_can_be_off() {
    const ALL: [Call; 5] = [Call::Name, Call::Phase, Call::Swap, Call::Pace, Call::Time];
    let mut phone = Phone::with_squad(SQUAD);
    for call in ALL {
        assert!(share::phone(&phone.model).calls.has(call), "{call:?} is on at first");
        phone.act(Action::CallSet(call, false));
        assert!(!share::phone(&phone.model).calls.has(call), "{call:?}");
    }
    phone.act(Action::CallSet(Call::Swap, true));
    phone.restart();
    let on: Vec<Call> = ALL.into_iter().filter(|call| share::phone(&phone.model).calls.has(*call)).collect();
    assert_eq!(on, [Call::Swap]);
    let old = Settings::from_json("{\"sound\":true}").expect("settings");
    assert!(ALL.into_iter().all(|call| old.calls.has(call)));
}

/// A call that reaches nobody is not shown as if it did: neither voice nor sound is on at first, and what buzzes is felt.
#[test]
fn a_call_that_reaches_nobody_is_shown_so() {
    let mut phone = Phone::with_squad(SQUAD);
    let shown = |phone: &Phone| {
        let view = share::phone(&phone.model);
        ([Call::Name, Call::Swap, Call::Time].map(|call| view.reaching.has(call)), view.silent)
    };
    phone.act(Action::VibrationSet(false));
    let off = "Voice and sound are off, so nothing is called now. What you chose is kept.";
    assert_eq!(shown(&phone), ([false; 3], Some(off)));
    phone.act(Action::VibrationSet(true));
    phone.model.phone.has_vibration = true;
    assert_eq!(shown(&phone), ([false, true, true], Some("Voice and sound are off: the phone only buzzes.")));
    phone.model.phone.has_vibration = false;
    assert_eq!(shown(&phone), ([false; 3], Some(off)));
    for on in [Action::SoundSet(true), Action::VoiceSet(true)] {
        phone.act(on);
        assert_eq!(shown(&phone), ([true; 3], None));
    }
}
