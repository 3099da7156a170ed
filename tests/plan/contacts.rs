//! Expected contacts, roles and faults, worked by hand.

use super::{drill_id, plain, starters};
use peppertally::domain::drill::{DrillSpec, OnFloor, SwapEvery};
use peppertally::domain::ids::PartNo;
use peppertally::domain::plan::expect::{Coverage, Each, Expected, Floor, Pace, coverage, expect, turns_needed};
use peppertally::domain::plan::fault::{PlanFault, faults};
use peppertally::domain::plan::{PlanPart, made_for};
use peppertally::stats::feeding::Range;

fn part(spec: &DrillSpec, minutes: u16, feeds: Option<u8>) -> PlanPart {
    PlanPart { feeds, ..PlanPart::of_drill(drill_id(1), spec, minutes) }
}

fn floor(n_children: usize, n_balls: usize) -> Floor {
    Floor { n_children, n_balls, collect_s: 40 }
}

fn range(low: u32, likely: u32, high: u32) -> Range {
    Range { low, likely, high }
}

#[test]
fn contacts_worked_by_hand() {
    let specs = starters();
    // Passing, 12 children, 12 balls, 10 a minute. A cycle: 12 * 6 s + 40 s = 112 s. In 10 min: 5 cycles (560 s) and 6 balls in 40 s: 66.
    // Slower by 30 %: 7.8 s and 52 s, a cycle 145.6 s: 4 cycles (582.4 s) and 2 in 17.6 s: 50. Faster: 4.2 s, 28 s, 78.4 s:
    // 7 cycles (548.8 s) and 12 in 51.2 s: 96. Each of 12: 50/12 = 4 to 96/12 = 8, most likely 66/12 = 5.5, so 6.
    let passing = expect(&part(&specs[0], 10, Some(10)), &specs[0], floor(12, 12), &[]).unwrap();
    assert_eq!(passing.balls, range(50, 66, 96));
    assert_eq!(passing.each, Each::Contacts(range(4, 6, 8)));
    assert_eq!((passing.n_runs, passing.fed, passing.fetched), (0, None, None));
    // Three groups at once, four balls and four children each: a cycle 4 * 6 + 40 = 64 s; 9 cycles (576 s) and 4 in 24 s: 40 a group, 120.
    // Slower 83.2 s: 7 cycles and 2 balls, 30; faster 44.8 s: 13 cycles and 4, 56. Each of twelve 90/12 to 168/12.
    let lanes = expect(&part(&specs[10], 10, Some(10)), &specs[10], floor(12, 12), &[]).unwrap();
    assert_eq!(lanes.balls.likely, 120);
    assert_eq!(lanes.each, Each::Contacts(range(7, 10, 14)));
    // One ball: one group, one ball a cycle of 46 s: 13 in 598 s.
    let one_ball = expect(&part(&specs[10], 10, Some(10)), &specs[10], floor(12, 1), &[]).unwrap();
    assert_eq!(one_ball.balls.likely, 13);
    // All serve at the whistle, two a minute each, who serves fetches: 8 balls for 12 children, so 8 sources: 20 each in 10 min, 160.
    let told = expect(&part(&specs[5], 10, Some(2)), &specs[5], floor(12, 8), &[]).unwrap();
    assert_eq!((told.balls.likely, told.each), (160, Each::Contacts(range(10, 13, 19))));
    // Nobody, no minutes: nothing to expect.
    assert_eq!(expect(&part(&specs[0], 10, None), &specs[0], floor(0, 12), &[]), None);
    assert_eq!(expect(&part(&specs[0], 0, None), &specs[0], floor(12, 12), &[]), None);
}

#[test]
fn the_squads_own_pace_goes_first() {
    let spec = &starters()[0];
    // 60 balls in 10 min, 40 in 10 min, 45 in 5 min: 6, 4 and 9 a minute; 15 minutes: 60 to 135, most likely 90. Each of ten 6 to 14.
    let own = [(60, 600_000), (40, 600_000), (45, 300_000)].map(|(n, ms)| pace(n, ms, 10, 0));
    let expected = expect(&part(spec, 15, None), spec, floor(10, 12), &own).unwrap();
    assert_eq!((expected.n_runs, expected.balls), (3, range(60, 90, 135)));
    assert_eq!(expected.each, Each::Contacts(range(6, 9, 14)));
    // What the coach says goes before both.
    assert_eq!(expect(&part(spec, 15, Some(10)), spec, floor(10, 12), &own).unwrap().n_runs, 0);
    // One run alone has no range of its own: 30 % either way of 90 balls.
    let one = expect(&part(spec, 15, None), spec, floor(10, 12), &own[..1]).unwrap();
    assert_eq!((one.n_runs, one.balls), (1, range(63, 90, 117)));
}

fn pace(n: u32, ms: u64, n_children: usize, n_groups: usize) -> Pace {
    Pace { n, ms, n_children, n_groups }
}

/// The squad's own pace is of the sources, children and balls it had: with others it is what the formula makes of the two.
#[test]
fn the_squads_own_pace_in_other_groups_and_with_other_balls() {
    let spec = &starters()[0];
    let own = [pace(60, 600_000, 12, 0); 3];
    let balls = |part: &PlanPart| expect(part, spec, floor(12, 12), &own).unwrap().balls.likely;
    let as_it_was = part(spec, 10, None);
    assert_eq!(balls(&as_it_was), 60);
    // Then one source, a cycle of 12 * 6 + 40 = 112 s: in ten hours 321 cycles (35 952 s) and 8 balls in 48 s: 3860. In three groups each has
    // four balls, a cycle of 64 s: 562 cycles (35 968 s) and the four of 32 s: 2252, 6756 of all three. 60 * 6756 / 3860 = 105.01.
    assert_eq!(balls(&PlanPart { groups: Some(3), ..as_it_was.clone() }), 105);
    // Six balls, a cycle of 76 s: 473 cycles (35 948 s) and the six of 52 s: 2844. 60 * 2844 / 3860 = 44.2.
    assert_eq!(balls(&PlanPart { balls: Some(6), ..as_it_was.clone() }), 44);
    // All at the whistle: 60 with six children are 120 with twelve, each as many as before.
    let told = &starters()[5];
    let six = [pace(60, 600_000, 6, 0); 3];
    let twelve = expect(&part(told, 10, None), told, floor(12, 12), &six).unwrap();
    assert_eq!((twelve.balls.likely, twelve.each), (120, Each::Contacts(range(10, 10, 10))));
}

#[test]
fn time_on_the_court() {
    // Winners stay, two a side, 5 rallies a minute, 12 children: 20 min are 100 rallies; 4 of 12 stand on the court: 33 rallies, 6 min each.
    let spec = &starters()[12];
    let expected = expect(&part(spec, 20, Some(5)), spec, floor(12, 12), &[]).unwrap();
    assert_eq!(expected.balls.likely, 100);
    let Each::Court { rallies, minutes } = expected.each else { panic!("{expected:?}") };
    let on = u32::from(spec.rule.a_side().unwrap()) * 2;
    assert_eq!((rallies.likely, u32::from(minutes)), (100 * on / 12, 20 * on / 12));
}

/// Three pass, one feeds, one catches, one fetches: six of seven act.
fn with_roles(swap: SwapEvery) -> DrillSpec {
    let on_floor = OnFloor { target: true, n_getters: 1, n_feeders: 1, swap, ..OnFloor::default() };
    DrillSpec { on_floor, ..starters().remove(0) }
}

#[test]
fn roles_come_round_or_not() {
    let by = |swap, minutes| {
        let spec = with_roles(swap);
        let part = part(&spec, minutes, Some(10));
        let expected = expect(&part, &spec, floor(7, 12), &[]);
        coverage(&part, &spec, 7, expected.as_ref())
    };
    // Six roles and one who rests: seven turns, and everyone has had each.
    assert_eq!(turns_needed(&with_roles(SwapEvery::Minutes(2)), 7), Some(7));
    assert_eq!(by(SwapEvery::Minutes(2), 14), Some(Coverage::Enough { turns: 7, needed: 7 }));
    assert_eq!(by(SwapEvery::Minutes(2), 13), Some(Coverage::TooFew { turns: 6, needed: 7, minutes: Some(14) }));
    assert_eq!(by(SwapEvery::Never, 13), Some(Coverage::OnTap { needed: 7 }));
    // With ball-getters nobody waits for balls: 10 a minute, 100 in ten; ten a turn make ten turns.
    assert_eq!(by(SwapEvery::Balls(10), 10), Some(Coverage::Enough { turns: 10, needed: 7 }));
    // Twenty a turn make five; 140 balls are needed, 14 minutes.
    assert_eq!(by(SwapEvery::Balls(20), 10), Some(Coverage::TooFew { turns: 5, needed: 7, minutes: Some(14) }));
    let spec = with_roles(SwapEvery::Balls(10));
    let expected: Expected = expect(&part(&spec, 10, Some(10)), &spec, floor(7, 12), &[]).unwrap();
    assert_eq!(
        (expected.balls.likely, expected.fed.map(|r| r.likely), expected.fetched.map(|r| r.likely)),
        (100, Some(14), Some(14))
    );
    // Nobody changes places there, and a drill with nobody in it has no turns.
    assert_eq!(coverage(&part(&starters()[3], 10, None), &starters()[3], 7, None), None);
    assert_eq!(turns_needed(&spec, 0), None);
}

#[test]
fn what_is_wrong_with_a_plan() {
    let specs = starters();
    let find = |id| if id == drill_id(4) { Some(&specs[4]) } else { None };
    let mut plan = plain(90, &[50, 0, 45]);
    plan.put(9, part(&specs[4], 10, None));
    plan.parts[3].drill = Some(drill_id(4));
    plan.put(9, part(&specs[0], 5, None));
    let none = |_: PartNo| false;
    assert_eq!(made_for(&specs[4]), 6);
    assert_eq!(
        faults(&plan, 4, find, none),
        [
            PlanFault::OverGym { by: 20 },
            PlanFault::NoMinutes(PartNo(1)),
            PlanFault::TooFew { part: PartNo(3), made_for: 6, here: 4 },
            PlanFault::DrillGone(PartNo(4)),
        ]
    );
    // Six are enough; nobody known to be here is no fault of the plan; what is over is over.
    assert!(!faults(&plan, 6, find, none).iter().any(|f| matches!(f, PlanFault::TooFew { .. })));
    assert!(!faults(&plan, 0, find, none).iter().any(|f| matches!(f, PlanFault::TooFew { .. })));
    assert_eq!(faults(&plan, 4, find, |_| true), [PlanFault::OverGym { by: 20 }]);
    assert_eq!(faults(&plain(90, &[40, 50]), 4, find, none), []);
}
