//! The plan as a coach uses it: made, changed, run with a latecomer, an overrun and a kill, and what is told afterwards.

use crate::phone::{Phone, pass};
use crate::steps::take_in;
use peppertally::app::action::Action;
use peppertally::app::effect::{Call, Effect, Signal};
use peppertally::app::plan::{PartChange, PlanTap};
use peppertally::app::screen::Screen;
use peppertally::app::view::plan::{PartState, PlanView, Running, plan, strip};
use peppertally::app::view::report::{practice_report, run_report};
use peppertally::app::words::plan as words;
use peppertally::domain::drill::{DrillSpec, OnFloor};
use peppertally::domain::ids::{GroupNo, PartNo, Place};
use peppertally::domain::plan::refit::Way;
use peppertally::domain::plan::{PartKind, Plan};

const SQUAD: &str = "Mira\nTove\nOdile\nBram\nIva\nLasse\nJuno\nPepe\nRuna\nElif\nNour\nWren";
const MIN: u64 = 60_000;

fn tap(phone: &mut Phone, tap: PlanTap) {
    phone.act(Action::Plan(tap));
}

fn view(phone: &Phone) -> PlanView {
    plan(&phone.model)
}

fn running(phone: &Phone) -> Running {
    strip(&phone.model).running.expect("a part is on")
}

/// `title minutes` of every part.
fn lines(phone: &Phone) -> Vec<String> {
    view(phone).parts.iter().map(|part| format!("{} {}", part.title, part.minutes)).collect()
}

fn wait_min(phone: &mut Phone, n: u64) {
    phone.wait(n * MIN, i64::try_from(n * MIN).unwrap());
}

/// Another page at the same moment; its own clock begins anew.
fn killed(phone: &mut Phone) {
    let wall_ms = phone.model.now.wall_ms;
    phone.restart();
    phone.wait(0, wall_ms - phone.model.now.wall_ms);
}

fn no(phone: &Phone, at: usize) -> PartNo {
    view(phone).parts[at].no
}

/// Arrival game 8, drill 0 15, Break 3, drill 4 15: 41 of 45 minutes.
fn planned() -> Phone {
    let mut phone = Phone::with_squad(SQUAD);
    phone.act(Action::Go(Screen::Plan));
    assert!(view(&phone).empty);
    tap(&mut phone, PlanTap::Added(PartKind::Arrival));
    let drills = view(&phone).drills;
    tap(&mut phone, PlanTap::DrillAdded(drills[0].0));
    tap(&mut phone, PlanTap::Added(PartKind::Break));
    tap(&mut phone, PlanTap::DrillAdded(drills[4].0));
    for _ in 0..9 {
        tap(&mut phone, PlanTap::GymStepped(false));
    }
    phone
}

#[test]
fn made_the_evening_before() {
    let mut phone = planned();
    assert_eq!(view(&phone).total, "41 of 45 min");
    assert_eq!(lines(&phone), ["Arrival game 8 min", "Three passers 15 min", "Break 3 min", "Six servers 15 min"]);
    assert_eq!(view(&phone).parts.iter().map(|p| p.from.as_str()).collect::<Vec<_>>(), ["0", "8", "23", "26"]);
    // Moved by a key, and by a thumb.
    let serve = no(&phone, 3);
    tap(&mut phone, PlanTap::Stepped(serve, true));
    assert_eq!(lines(&phone)[2], "Six servers 15 min");
    tap(&mut phone, PlanTap::Placed(serve, 0));
    assert_eq!(lines(&phone)[0], "Six servers 15 min");
    tap(&mut phone, PlanTap::Placed(serve, 3));
    // Everything is an entry: killed, it is all there; taken out, it can be put back.
    phone.restart();
    phone.act(Action::Go(Screen::Plan));
    assert_eq!(lines(&phone).len(), 4);
    tap(&mut phone, PlanTap::Out(serve));
    assert_eq!(lines(&phone).len(), 3);
    assert_eq!(view(&phone).troubles[0].line, "“Six servers” is out.");
    let back = view(&phone).troubles[0].action.clone();
    phone.act(back);
    assert_eq!(no(&phone, 3), serve);
    // Thrown away, there is none; a proposal is one tap.
    tap(&mut phone, PlanTap::Thrown);
    assert!(view(&phone).empty);
    tap(&mut phone, PlanTap::Proposed);
    assert_eq!(view(&phone).parts[0].why.as_deref(), Some("Whoever is here plays; nobody waits for the last."));
}

#[test]
fn bad_input_is_a_sentence_and_a_way_out() {
    let mut phone = planned();
    // Over the gym's time.
    let first = no(&phone, 0);
    // 8, 10, 15: seven more.
    for minutes in ["10 min", "15 min"] {
        tap(&mut phone, PlanTap::Changed(first, PartChange::Minutes(true)));
        assert_eq!(view(&phone).parts[0].minutes, minutes);
    }
    let trouble = view(&phone).troubles[0].clone();
    assert_eq!((trouble.line.as_str(), trouble.way.as_str()), ("3 minutes more than the gym is yours.", "Make it fit"));
    phone.act(trouble.action);
    assert_eq!(view(&phone).total, "45 of 45 min");
    assert_eq!(view(&phone).troubles, []);
    // What stays alone is too long.
    for at in 0..4 {
        let no = no(&phone, at);
        tap(&mut phone, PlanTap::Changed(no, PartChange::Locked));
    }
    tap(&mut phone, PlanTap::GymStepped(false));
    phone.act(view(&phone).troubles[0].action.clone());
    let trouble = view(&phone).troubles[0].clone();
    assert_eq!(trouble.line, "What stays needs 5 minutes more than there are: one of them would have to be shorter.");
    phone.act(trouble.action);
    phone.act(view(&phone).troubles[0].action.clone());
    assert_eq!(view(&phone).total, "40 of 40 min");
    // No minutes.
    let mut phone = planned();
    let rest = no(&phone, 2);
    for _ in 0..3 {
        tap(&mut phone, PlanTap::Changed(rest, PartChange::Minutes(false)));
    }
    let trouble = view(&phone).troubles[0].clone();
    assert_eq!(trouble.line, "“Break” has no minutes.");
    phone.act(trouble.action);
    assert_eq!((view(&phone).troubles, lines(&phone)[2].as_str()), (vec![], "Break 5 min"));
    // For six, with four.
    for name in ["Mira", "Tove", "Odile", "Bram", "Iva", "Lasse", "Juno", "Pepe"] {
        let player = phone.player(name);
        phone.act(Action::PresenceTapped(player));
    }
    let trouble = view(&phone).troubles[0].clone();
    assert_eq!(trouble.line, "“Six servers” is made for 6, 4 are here: places stay empty.");
    assert!(matches!(trouble.action, Action::Go(Screen::Drill(Some(_)))));
    // Its drill is gone.
    let drill = view(&phone).drills[4].0;
    phone.act(Action::DrillArchived(drill));
    phone.act(Action::Go(Screen::Plan));
    let trouble = view(&phone).troubles[0].clone();
    assert!(trouble.line.starts_with("The drill of “Six servers” is no longer"), "{}", trouble.line);
    phone.act(trouble.action);
    assert_eq!(lines(&phone).len(), 3);
}

#[test]
fn run_with_a_latecomer_an_overrun_and_a_kill() {
    let mut phone = planned();
    let wren = phone.player("Wren");
    phone.act(Action::PresenceTapped(wren));
    let first = strip(&phone.model).begin.expect("the first part");
    assert_eq!(first.1, "Begin: Arrival game");
    tap(&mut phone, PlanTap::Begun(first.0));
    assert_eq!(phone.model.screen, Screen::Today);
    wait_min(&mut phone, 5);
    assert_eq!((running(&phone).title.as_str(), running(&phone).left_word), ("Arrival game", "left"));
    // 8 min less 5 min, and the moments between taps.
    assert!(running(&phone).left.starts_with("2:5"), "{}", running(&phone).left);
    // The latecomer is tapped in while it is on.
    phone.act(Action::PresenceTapped(wren));
    assert_eq!(phone.model.here().len(), 12);
    // Its end is called once.
    phone.effects.clear();
    wait_min(&mut phone, 3);
    wait_min(&mut phone, 0);
    let calls = phone.effects.iter().filter(|e| matches!(e, Effect::Tell(Signal::Call(Call::Time, _)))).count();
    assert_eq!(calls, 1);
    // The next by one tap; its board is one more away.
    let next = running(&phone).next.expect("a next part");
    assert_eq!((next.1.as_str(), next.2.as_str()), ("Next: Three passers", "15 min"));
    tap(&mut phone, PlanTap::Begun(next.0));
    phone.act(running(&phone).board.expect("a board"));
    for i in 0..6 {
        phone.act(Action::PlaceTapped(Place(i % 3), pass(3)));
    }
    phone.act(Action::Go(Screen::Today));
    assert!(matches!(running(&phone).board, Some(Action::Go(Screen::Run(_)))), "the run that is on");
    // It takes 22 of its 15 minutes: 7 late; 3 + 15 are to come, 45 - 30 are left.
    wait_min(&mut phone, 22);
    let now = running(&phone);
    assert!(now.over && now.left.starts_with("+7:"), "{}", now.left);
    assert_eq!(now.late, "7 min late");
    let question = now.question.expect("it no longer fits");
    assert_eq!(question.line, "What is left needs 4 min more than the gym is yours.");
    assert_eq!(question.shorten, "Six servers 11");
    assert_eq!(question.drop, "Six servers out");
    // Killed: another page tells the same.
    let left_before = now.left;
    killed(&mut phone);
    phone.act(Action::Go(Screen::Today));
    assert_eq!(running(&phone).left.split(':').next(), left_before.split(':').next());
    tap(&mut phone, PlanTap::Refit(Way::Shorten));
    assert_eq!(running(&phone).question, None);
    phone.act(Action::Go(Screen::Plan));
    assert_eq!(lines(&phone)[2..], ["Break 3 min", "Six servers 11 min"]);
    assert_eq!(view(&phone).parts[1].state, PartState::On);
    // The part that is on is taken out: a sentence, and the next is still one tap away.
    let on = no(&phone, 1);
    tap(&mut phone, PlanTap::Out(on));
    phone.act(Action::Go(Screen::Today));
    let out = running(&phone);
    assert!(out.trouble.is_some_and(|line| line.starts_with("“Three passers” is on and no longer in the plan")));
    assert_eq!(out.left_word, "gone");
    let next = out.next.expect("next");
    tap(&mut phone, PlanTap::Begun(next.0));
    assert_eq!(running(&phone).title, "Break");
    // A tap too many is taken back.
    tap(&mut phone, PlanTap::NotBegun);
    assert_eq!(running(&phone).title, "Three passers");
    tap(&mut phone, PlanTap::Begun(next.0));
    // A drill by its own key: nobody planned it, and it is in the plan from now on.
    phone.act(Action::Go(Screen::Today));
    phone.drill(7);
    phone.act(Action::Go(Screen::Today));
    assert_eq!(running(&phone).title, lines(&phone)[2].strip_suffix(" open").unwrap());
    // Afterwards: planned against done, and each child.
    phone.end_practice();
    let Screen::PracticeReport(id) = phone.model.screen else { panic!("{:?}", phone.model.screen) };
    let report = practice_report(&phone.model, id).expect("a report");
    let after = report.plan.expect("a plan was followed");
    let told: Vec<&str> = after.parts.iter().map(|part| part.what.as_str()).collect();
    assert_eq!(
        told,
        [
            "8 min planned, 8 min done",
            "3 min planned, 0 min done",
            "not planned, 0 min done",
            "15 min planned, not done",
            "taken out, 23 min done"
        ]
    );
    assert_eq!(after.children.len(), 12);
    assert_eq!((after.children[0].name.as_str(), after.children[0].what.as_str()), ("Mira", "2 contacts"));
    // Packed and read by another page it says the same; a new plan takes up what was left undone.
    phone.act(Action::Go(Screen::After));
    killed(&mut phone);
    let again = practice_report(&phone.model, id).expect("a report").plan.expect("a plan");
    assert_eq!(again.parts, after.parts);
    assert!(phone.model.packed.contains_key(&id), "it is packed");
    phone.act(Action::Go(Screen::Plan));
    assert!(view(&phone).empty, "a plan that was followed waits for nobody");
    let copies = view(&phone).copies;
    assert_eq!(copies.len(), 1);
    tap(&mut phone, PlanTap::Proposed);
    let whys: Vec<String> = view(&phone).parts.iter().filter_map(|part| part.why.clone()).collect();
    assert!(whys.iter().any(|why| why == "Planned last time and not done."), "{whys:?}");
    tap(&mut phone, PlanTap::Copied(copies[0].0));
    // As planned: without what was put in, with what was shortened as it was.
    assert_eq!(lines(&phone), ["Arrival game 8 min", "Break 3 min", "Six servers 15 min"]);
}

/// 15 min of passing: on its board, where the run is ended, stands what is left; then the next part is one tap away.
#[test]
fn the_board_tells_the_time_of_its_part() {
    let mut phone = planned();
    phone.drill(0);
    assert_eq!(phone.board().part_left, None, "no part was begun");
    phone.act(Action::Go(Screen::Today));
    let passing = no(&phone, 1);
    tap(&mut phone, PlanTap::Begun(passing));
    phone.act(running(&phone).board.expect("a board"));
    phone.act(Action::PlaceTapped(Place(0), pass(3)));
    let told = |phone: &Phone| {
        let left = phone.board().part_left.expect("a part is on");
        (left.short, left.line, left.over)
    };
    let (short, line) = ("15 min".to_owned(), "Three passers: 15 min left".to_owned());
    assert_eq!(told(&phone), (short, line, false), "a begun minute is told as a whole one");
    wait_min(&mut phone, 12);
    assert_eq!(told(&phone).0, "3 min");
    // 12 + 5 are 17 and some moments: two whole minutes over and a begun one.
    wait_min(&mut phone, 5);
    assert_eq!(told(&phone), ("+3 min".to_owned(), "Three passers: 3 min over its time".to_owned(), true));
    phone.act(Action::Uncovered);
    phone.act(Action::Finish);
    let Screen::RunReport(run) = phone.model.screen else { panic!("{:?}", phone.model.screen) };
    let next = run_report(&phone.model, run).and_then(|report| report.next_part).expect("a next part");
    assert_eq!(next.1, "Next: Arrival game", "the first that was never begun");
    tap(&mut phone, PlanTap::Begun(next.0));
    assert_eq!(running(&phone).title, "Arrival game");
    // Long after the gym's time nobody is still at it.
    phone.act(Action::Go(Screen::Run(run)));
    wait_min(&mut phone, 45 + 61);
    assert_eq!(phone.board().part_left, None);
}

/// Two phones put a part into one plan at the same time: the later plan stands whole, and what the other one began isn't taken for its part.
#[test]
fn two_phones_number_their_parts_apart() {
    let mut phone = planned();
    let mut other = Phone::other("Iva");
    take_in(&mut other, "k", &phone.copy());
    let last = |phone: &Phone| view(phone).parts.last().expect("a part").no;
    tap(&mut phone, PlanTap::Added(PartKind::Other));
    tap(&mut other, PlanTap::Added(PartKind::Break));
    assert_eq!((lines(&phone).len(), lines(&other).len()), (5, 5));
    assert_ne!(last(&phone), last(&other));
}

/// Three passers in two groups at once: the floor is drawn once, and the coach looks at whom she sees. Nothing is told of a group.
#[test]
fn a_floor_drawn_once_has_no_groups() {
    let mut phone = planned();
    let passing = no(&phone, 1);
    tap(&mut phone, PlanTap::Changed(passing, PartChange::Groups(true)));
    tap(&mut phone, PlanTap::Begun(passing));
    phone.act(running(&phone).board.expect("a board"));
    phone.act(Action::PlaceTapped(Place(0), pass(3)));
    assert!(phone.board().groups.is_empty() && phone.board().call.starts_with("How far"), "{}", phone.board().call);
    phone.act(Action::Finish);
    let Screen::RunReport(run) = phone.model.screen else { panic!("{:?}", phone.model.screen) };
    assert!(run_report(&phone.model, run).is_some_and(|report| report.groups.is_empty()));
    // Its own key leads to the same run and to no other.
    assert_eq!(phone.model.runs.len(), 1);
    phone.act(Action::Go(Screen::Today));
}

/// The key to begin stands where the next part's will stand: a double tap begins one part.
#[test]
fn a_double_tap_begins_one_part() {
    let mut phone = planned();
    let (first, second) = (no(&phone, 0), no(&phone, 1));
    tap(&mut phone, PlanTap::Begun(first));
    phone.act_after(180, Action::Plan(PlanTap::Begun(second)));
    assert_eq!(running(&phone).title, "Arrival game");
    phone.act_after(1_500, Action::Plan(PlanTap::Begun(second)));
    assert_eq!(running(&phone).title, "Three passers");
}

#[test]
fn no_plan_and_it_grows() {
    let mut phone = Phone::with_squad(SQUAD);
    phone.act(Action::Go(Screen::Plan));
    tap(&mut phone, PlanTap::AsItGoes);
    assert_eq!(running(&phone).title, "Arrival game");
    phone.drill(0);
    phone.act(Action::Go(Screen::Today));
    phone.drill(3);
    phone.act(Action::Go(Screen::Today));
    assert_eq!(lines(&phone).len(), 3);
    assert_eq!(running(&phone).title, lines(&phone)[2].strip_suffix(" open").unwrap());
    // The same drill again is the same part.
    phone.drill(3);
    assert_eq!(lines(&phone).len(), 3);
    // As it was before: what the line offers is what the copy has.
    wait_min(&mut phone, 12);
    phone.end_practice();
    phone.act(Action::Go(Screen::Plan));
    let (practice, offered) = view(&phone).copies[0].clone();
    tap(&mut phone, PlanTap::Copied(practice));
    let parts = view(&phone).parts;
    assert_eq!(parts.len(), 3);
    assert!(parts.iter().all(|part| offered.contains(&part.title)), "{offered}");
    assert_eq!(parts[2].minutes, "12 min");
}

#[test]
fn kept_on_it_asks_no_more_and_says_when_it_ends() {
    let mut phone = planned();
    let first = no(&phone, 0);
    tap(&mut phone, PlanTap::Begun(first));
    wait_min(&mut phone, 20);
    assert!(running(&phone).question.is_some_and(|q| q.keep.starts_with("ends about ")));
    tap(&mut phone, PlanTap::KeptOn);
    assert_eq!(running(&phone).question, None);
    let next = running(&phone).next.unwrap().0;
    tap(&mut phone, PlanTap::Begun(next));
    assert!(running(&phone).question.is_some(), "asked again with the next part");
}

/// 20 of 8 minutes: 12 late, 33 to come and 25 left.
#[test]
fn what_was_made_to_fit_can_be_as_it_was() {
    let mut phone = planned();
    let first = no(&phone, 0);
    tap(&mut phone, PlanTap::Begun(first));
    wait_min(&mut phone, 20);
    let before = lines(&phone);
    tap(&mut phone, PlanTap::Refit(Way::Drop));
    assert_eq!(running(&phone).fitted.as_deref(), Some("Fitted: Six servers out."));
    assert_eq!(running(&phone).question, None);
    tap(&mut phone, PlanTap::FitBack);
    assert_eq!((lines(&phone), running(&phone).fitted), (before, None));
    assert!(running(&phone).question.is_some(), "asked once more");
    // The next tap on the plan, whatever it is, is the end of it.
    tap(&mut phone, PlanTap::Refit(Way::Drop));
    tap(&mut phone, PlanTap::Picked(first));
    assert_eq!(running(&phone).fitted, None);
}

/// What a warm-up without a ball costs: 5 min, 40 times, are 200 min, 3 h 20 min; whole practices of 45 min are four.
#[test]
fn it_says_what_to_change() {
    let mut phone = planned();
    tap(&mut phone, PlanTap::Added(PartKind::Other));
    let advice = view(&phone).advice;
    let season =
        "5 min without a ball: over 40 practices (say) that is 3 h 20 min, as much as 4 practices of 45.".to_owned();
    assert!(advice.contains(&season), "{advice:?}");
    // 38 of 46 have a ball, 23 go over the net, and the arrival game is one: nothing to say of these.
    assert!(!advice.iter().any(|line| line.contains("have a ball") || line.contains("over the net")), "{advice:?}");
}

/// Mira passes all the time, tells ten serves and leaves in the last minute; Tove never came. The two lists of the page agree.
#[test]
fn who_went_early_keeps_her_line() {
    let mut phone = planned();
    let (mira, tove) = (phone.player("Mira"), phone.player("Tove"));
    phone.act(Action::PresenceTapped(tove));
    let passers = no(&phone, 1);
    tap(&mut phone, PlanTap::Begun(passers));
    phone.act(Action::Go(Screen::Today));
    phone.drill(0);
    (0..3).for_each(|_| phone.act(Action::PlaceTapped(Place(0), pass(3))));
    phone.act(Action::Finish);
    phone.act(Action::Go(Screen::Today));
    // Ten serves each, told.
    phone.drill(5);
    phone.act(Action::ToldTapped(mira, 7));
    phone.act(Action::Finish);
    phone.act(Action::Go(Screen::Today));
    let on_floor = OnFloor { n_feeders: 1, ..OnFloor::default() };
    let floor = DrillSpec { name: "Tossed".to_owned(), on_floor, ..phone.model.base.drills()[0].1.clone() };
    phone.new_drill(floor);
    phone.act(Action::PlaceTapped(Place(0), pass(3)));
    phone.act(Action::Finish);
    phone.act(Action::Go(Screen::Today));
    phone.act(Action::PresenceTapped(mira));
    phone.end_practice();
    let Screen::PracticeReport(id) = phone.model.screen else { panic!("{:?}", phone.model.screen) };
    let report = practice_report(&phone.model, id).expect("a report");
    assert_eq!(report.presence, "Away: Tove. Went early: Mira.");
    let children = report.plan.expect("a plan was followed").children;
    assert_eq!(children.len(), 11, "all but Tove: {children:?}");
    assert_eq!((children[0].name.as_str(), children[0].what.as_str()), ("Mira", "14 contacts"));
    let touches = report.touches.expect("somebody tossed");
    let of = |name: &str| touches.rows.iter().find(|row| row.name == name).map(|row| row.what.as_str());
    assert_eq!(of("Mira"), Some("4 judged, 10 told"));
    let tossed = touches.rows.iter().filter(|row| row.what == "by the places, 1 served or tossed").count();
    assert_eq!(tossed, 1, "{touches:?}");
    assert_eq!(of("Tove"), None);
}

/// Children see the plan once practice is on: no reason stands in it, and what is stored names nobody. The evening before the coach
/// reads the names.
#[test]
fn who_was_seen_least_is_for_the_coach_the_evening_before() {
    let mut phone = Phone::with_squad(SQUAD);
    phone.drill(0);
    // Eleven of twelve have a ball judged: Wren alone has none.
    let wren = phone.player("Wren");
    for _ in 0..60 {
        let lineup = phone.model.run_on().expect("a run").main.lineup.clone();
        for i in 0..3 {
            if lineup.places[usize::from(i)] != Some(wren) {
                phone.act(Action::PlaceTapped(Place(i), pass(2)));
            }
        }
        phone.act(Action::SwapTapped);
    }
    phone.end_practice();
    phone.act(Action::Go(Screen::Plan));
    tap(&mut phone, PlanTap::Proposed);
    let whys: Vec<String> = view(&phone).parts.iter().filter_map(|part| part.why.clone()).collect();
    assert!(whys.iter().any(|why| why == "For those who were seen least lately: Wren."), "{whys:?}");
    let id = peppertally::app::plan::shown(&phone.model).expect("a plan");
    let stored = phone.model.base.plan(id).expect("a plan");
    assert!(stored.parts.iter().all(|part| !part.why.contains("Wren")), "{stored:?}");
    let first = strip(&phone.model).begin.expect("the first part");
    tap(&mut phone, PlanTap::Begun(first.0));
    assert!(view(&phone).parts.iter().all(|part| part.why.is_none()));
}

/// 15 planned, stepped to 20 while it is on: the report still says what was planned.
#[test]
fn minutes_changed_while_it_is_on_leave_the_plan_as_it_was_made() {
    let mut phone = planned();
    let first = no(&phone, 0);
    tap(&mut phone, PlanTap::Begun(first));
    wait_min(&mut phone, 8);
    let drill = no(&phone, 1);
    tap(&mut phone, PlanTap::Begun(drill));
    tap(&mut phone, PlanTap::Changed(drill, PartChange::Minutes(true)));
    assert_eq!(lines(&phone)[1], "Three passers 20 min");
    assert!(view(&phone).parts[1].what.contains("15 planned"), "{}", view(&phone).parts[1].what);
    wait_min(&mut phone, 18);
    // 8 + 18 gone, 8 + 15 planned.
    assert_eq!((running(&phone).late.as_str(), running(&phone).over), ("3 min late", false));
    phone.end_practice();
    let Screen::PracticeReport(id) = phone.model.screen else { panic!("{:?}", phone.model.screen) };
    let after = practice_report(&phone.model, id).expect("a report").plan.expect("a plan");
    assert_eq!(after.parts[1].what, "15 min planned, 18 min done");
}

fn n_calls(phone: &Phone) -> usize {
    phone.effects.iter().filter(|e| matches!(e, Effect::Tell(Signal::Call(Call::Time, _)))).count()
}

/// Nobody said how long it is to be: nothing is over, nothing is called, nothing asked.
#[test]
fn what_nobody_planned_has_no_end() {
    let mut phone = Phone::with_squad(SQUAD);
    tap(&mut phone, PlanTap::AsItGoes);
    phone.drill(0);
    phone.act(Action::Go(Screen::Today));
    phone.effects.clear();
    for _ in 0..40 {
        wait_min(&mut phone, 1);
    }
    let now = running(&phone);
    assert_eq!((now.left_word, now.over, now.question), ("gone", false, None));
    assert_eq!(n_calls(&phone), 0);
}

/// Eight minutes. A wall clock put forward an hour while the page is hidden looks like sleep: no call, and a line that says so. In sight
/// of everyone it changes nothing.
#[test]
fn a_clock_put_forward_calls_no_part_over() {
    let mut phone = planned();
    let first = no(&phone, 0);
    tap(&mut phone, PlanTap::Begun(first));
    wait_min(&mut phone, 2);
    phone.effects.clear();
    phone.wait(0, 3_600_000);
    assert_eq!((running(&phone).over, n_calls(&phone)), (false, 0));
    phone.hide(1_000, 3_600_000);
    let now = running(&phone);
    assert_eq!(n_calls(&phone), 0);
    let line = "The phone slept long, or its clock was put forward: look whether “Arrival game” is over.";
    assert_eq!(now.trouble.as_deref(), Some(line));
    let next = now.next.expect("a next part");
    tap(&mut phone, PlanTap::Begun(next.0));
    assert_eq!(running(&phone).trouble, None);
}

/// What is on and what is over can't be shortened any more: the way out names the first to come that stays, on the strip too.
#[test]
fn the_way_out_unlocks_a_part_that_is_to_come() {
    let mut phone = planned();
    for at in 0..4 {
        let no = no(&phone, at);
        tap(&mut phone, PlanTap::Changed(no, PartChange::Locked));
    }
    let first = no(&phone, 0);
    tap(&mut phone, PlanTap::Begun(first));
    wait_min(&mut phone, 20);
    tap(&mut phone, PlanTap::Refit(Way::Shorten));
    let (label, action) = running(&phone).question.expect("it doesn't fit").unlock.expect("a way out");
    assert_eq!(label, "Let “Three passers” be shortened");
    assert_eq!(view(&phone).troubles[0].way, label);
    phone.act(action);
    tap(&mut phone, PlanTap::Refit(Way::Shorten));
    assert_eq!(running(&phone).question, None);
    // 45 - 20 - 3 - 15 are left for it, less the moments between taps.
    assert_eq!(lines(&phone)[1], "Three passers 6 min");
}

/// Dropped and had after all in other minutes, a part that is fitted before it is begun is planned so.
#[test]
fn made_to_fit_whatever_was_fitted_before() {
    let mut phone = planned();
    let first = no(&phone, 0);
    tap(&mut phone, PlanTap::Begun(first));
    let drill = no(&phone, 1);
    tap(&mut phone, PlanTap::Changed(drill, PartChange::Minutes(true)));
    tap(&mut phone, PlanTap::NotBegun);
    // Nothing is begun again: 8 + 20 + 3 + 15 are 46 of 45.
    let trouble = view(&phone).troubles[0].clone();
    assert_eq!(trouble.way, "Make it fit");
    phone.act(trouble.action);
    assert_eq!((view(&phone).total.as_str(), view(&phone).troubles), ("45 of 45 min", vec![]));
}

/// Twelve passes and not one serve: serving is what lacks balls.
#[test]
fn a_skill_without_any_balls_lacks_them_most() {
    let mut phone = Phone::with_squad(SQUAD);
    phone.drill(0);
    for i in 0..36 {
        phone.act(Action::PlaceTapped(Place(i % 3), pass(2)));
    }
    phone.end_practice();
    phone.act(Action::Go(Screen::Plan));
    tap(&mut phone, PlanTap::Proposed);
    let whys: Vec<String> = view(&phone).parts.iter().filter_map(|part| part.why.clone()).collect();
    assert!(whys.iter().any(|why| why == "Serving had no balls lately."), "{whys:?}");
}

/// Lotte joins after a practice: its report doesn't know her, and no plan says that she was seen least.
#[test]
fn who_joined_later_missed_nothing() {
    let mut phone = planned();
    let first = no(&phone, 0);
    tap(&mut phone, PlanTap::Begun(first));
    phone.drill(0);
    for i in 0..36 {
        phone.act(Action::PlaceTapped(Place(i % 3), pass(2)));
    }
    phone.end_practice();
    let Screen::PracticeReport(id) = phone.model.screen else { panic!("{:?}", phone.model.screen) };
    let before = practice_report(&phone.model, id).expect("a report").plan.expect("a plan");
    phone.act(Action::RosterTyped("Lotte".to_owned()));
    phone.act(Action::RosterTaken);
    phone.player("Lotte");
    let after = practice_report(&phone.model, id).expect("a report").plan.expect("a plan");
    assert_eq!((after.children.len(), &after.least), (12, &before.least));
    phone.act(Action::Go(Screen::Plan));
    tap(&mut phone, PlanTap::Proposed);
    let whys: Vec<String> = view(&phone).parts.iter().filter_map(|part| part.why.clone()).collect();
    assert!(!whys.iter().any(|why| why.contains("Lotte")), "{whys:?}");
}

/// Whatever becomes of the plan, what was done is told.
#[test]
fn with_every_part_taken_out_what_was_done_is_still_told() {
    let mut phone = planned();
    let first = no(&phone, 0);
    tap(&mut phone, PlanTap::Begun(first));
    wait_min(&mut phone, 8);
    for _ in 0..4 {
        let first = no(&phone, 0);
        tap(&mut phone, PlanTap::Out(first));
    }
    phone.end_practice();
    let Screen::PracticeReport(id) = phone.model.screen else { panic!("{:?}", phone.model.screen) };
    let told = |phone: &Phone| practice_report(&phone.model, id).expect("a report").plan.expect("a plan").parts;
    let parts = told(&phone);
    let lines: Vec<_> = parts.iter().map(|part| (part.title.as_str(), part.what.as_str())).collect();
    assert_eq!(lines, [("Arrival game", "taken out, 8 min done")]);
    // Packed, and read by another page.
    phone.act(Action::Go(Screen::After));
    killed(&mut phone);
    assert!(phone.model.packed.contains_key(&id), "it is packed");
    assert_eq!(told(&phone), parts);
}

/// Good ones alone are counted in lanes: they say nothing of how many balls there were.
#[test]
fn lanes_tell_no_pace() {
    let mut phone = Phone::with_squad(SQUAD);
    phone.drill(10);
    for i in 0..24 {
        phone.act(Action::LaneTapped(GroupNo(i % 3)));
    }
    assert_eq!(phone.model.run_on().expect("a run").main.contacts.len(), 24);
    phone.end_practice();
    phone.act(Action::Go(Screen::Plan));
    let drill = view(&phone).drills[10].0;
    tap(&mut phone, PlanTap::DrillAdded(drill));
    let lines = view(&phone).editor.expect("the part is open").lines;
    assert!(lines.iter().any(|line| line.contains("at a common pace, no source")), "{lines:?}");
}

/// The drill of lanes is set for three groups. Its part has two, or as few as its balls.
#[test]
fn a_drill_starts_with_the_groups_and_balls_of_its_part() {
    let begun = |change: fn(PartNo) -> Vec<PlanTap>| {
        let mut phone = planned();
        let drill = view(&phone).drills[10].0;
        tap(&mut phone, PlanTap::DrillAdded(drill));
        let part = no(&phone, 4);
        for change in change(part) {
            tap(&mut phone, change);
        }
        let first = no(&phone, 0);
        tap(&mut phone, PlanTap::Begun(first));
        phone.drill(10);
        assert_eq!(running(&phone).title, view(&phone).parts[4].title);
        let run = phone.model.run_on().expect("a run").id;
        let n_groups = phone.model.run_on().expect("a run").main.lineup.groups.len();
        // The next part is on: the drill's own key leads back to the run that is on, and starts no other.
        let next = running(&phone).next.expect("a next part");
        tap(&mut phone, PlanTap::Begun(next.0));
        phone.drill(10);
        assert_eq!(phone.model.screen, Screen::Run(run));
        n_groups
    };
    assert_eq!(begun(|_| vec![]), 3);
    assert_eq!(begun(|part| vec![PlanTap::Changed(part, PartChange::Groups(true))]), 2);
    // From none to one ball, then two.
    let balls = |part| [true, true].map(|more| PlanTap::Changed(part, PartChange::Balls(more))).to_vec();
    assert_eq!(begun(balls), 2);
}

/// Begun at half past eleven at night, 45 minutes of the gym: at half past twelve it is on, an hour and three quarters later it was left
/// open.
#[test]
fn a_practice_goes_on_past_midnight() {
    let mut phone = planned();
    // 17:05 and so many minutes.
    wait_min(&mut phone, 6 * 60 + 25);
    let first = no(&phone, 0);
    tap(&mut phone, PlanTap::Begun(first));
    let day = phone.model.now.day();
    wait_min(&mut phone, 60);
    assert_ne!(phone.model.now.day(), day);
    let next = running(&phone).next.expect("a next part");
    tap(&mut phone, PlanTap::Begun(next.0));
    assert_eq!((running(&phone).title.as_str(), phone.model.left_open().len()), ("Three passers", 0));
    wait_min(&mut phone, 46);
    assert_eq!(strip(&phone.model).running, None);
    assert_eq!(phone.model.left_open().len(), 1);
}

/// Opened again nothing is on: it says so, what comes is one tap away, and so is what was on.
#[test]
fn opened_again_nothing_is_on() {
    let mut phone = planned();
    let first = no(&phone, 0);
    tap(&mut phone, PlanTap::Begun(first));
    assert_eq!(running(&phone).undo, "Undo the start of Arrival game");
    phone.end_practice();
    let Screen::PracticeReport(id) = phone.model.screen else { panic!("{:?}", phone.model.screen) };
    phone.act(Action::PracticeReopened(id));
    let now = running(&phone);
    assert_eq!(
        (now.nothing, now.title.as_str(), now.undo.as_str()),
        (true, "Nothing is on", "Undo the end of Arrival game")
    );
    assert_eq!(now.next.expect("a next part").1, "Next: Three passers");
    tap(&mut phone, PlanTap::NotBegun);
    assert_eq!((running(&phone).nothing, running(&phone).title.as_str()), (false, "Arrival game"));
}

/// Each key that can do no more says so; a drill put away has no board to open.
#[test]
fn what_can_do_no_more_says_so() {
    let mut phone = planned();
    let drill = no(&phone, 1);
    tap(&mut phone, PlanTap::Picked(drill));
    let editor = |phone: &Phone| view(phone).editor.expect("the part is open");
    assert_eq!((editor(&phone).minutes_ends, editor(&phone).groups_ends), ((false, false), (true, false)));
    for _ in 0..24 {
        tap(&mut phone, PlanTap::Changed(drill, PartChange::Minutes(true)));
        tap(&mut phone, PlanTap::Changed(drill, PartChange::Groups(true)));
    }
    assert_eq!((editor(&phone).minutes.as_str(), editor(&phone).minutes_ends), ("120", (false, true)));
    assert_eq!((editor(&phone).groups.as_str(), editor(&phone).groups_ends), ("4", (false, true)));
    for _ in 0..9 {
        tap(&mut phone, PlanTap::GymStepped(false));
    }
    assert_eq!((view(&phone).gym.as_str(), view(&phone).gym_ends), ("5 min", (true, false)));
    // Begun, and its drill put away.
    tap(&mut phone, PlanTap::Begun(drill));
    assert!(running(&phone).board.is_some());
    let id = view(&phone).drills[0].0;
    phone.act(Action::DrillArchived(id));
    assert_eq!(running(&phone).board, None);
}

/// Forty are more than anyone can run: no key adds one more, and a drill by its own key runs without a part.
#[test]
fn forty_parts_are_the_most() {
    let mut phone = planned();
    while !view(&phone).full {
        tap(&mut phone, PlanTap::Added(PartKind::Break));
    }
    assert_eq!(view(&phone).parts.len(), 40);
    assert!(words::FULL.starts_with(&format!("{} parts", Plan::MOST_PARTS)), "{}", words::FULL);
    let first = no(&phone, 0);
    tap(&mut phone, PlanTap::Begun(first));
    phone.drill(7);
    assert_eq!((view(&phone).parts.len(), running(&phone).title.as_str()), (40, "Arrival game"));
    assert!(phone.model.run_on().is_some());
}
