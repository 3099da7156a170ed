//! What is on, what is left, how late: worked by hand. Over a sleep, another page, a clock put back, a change of summer time.

use super::plain;
use peppertally::domain::ids::{EntryId, PartNo, PlanId, SeriesId};
use peppertally::domain::plan::clock::{Mark, Standing, done};
use peppertally::domain::plan::{Fitted, Minutes, PartKind, Plan, PlanDone, PlanPart};
use peppertally::domain::time::Stamp;

/// 2026-10-24 22:50 UTC: an hour and ten minutes before summer time ends in central Europe.
const START_MS: i64 = 1_792_882_200_000;
const PAGE: SeriesId = SeriesId(1);
const OTHER: SeriesId = SeriesId(2);

/// So many seconds after the start.
fn at(s: i64) -> Stamp {
    // The clock on the wall is put back an hour at 01:00 UTC; UTC goes on.
    let wall_ms = START_MS + s * 1_000;
    let offset_min = if wall_ms < 1_792_890_000_000 { 120 } else { 60 };
    Stamp { wall_ms, offset_min, mono_ms: u64::try_from(s).unwrap() * 1_000 }
}

fn begun(part: u32, s: i64) -> Mark {
    Mark {
        id: EntryId::new(PAGE.0, u32::try_from(s).unwrap()),
        at: at(s),
        part: PartNo(part),
        title: format!("part {part}"),
        ends: false,
    }
}

fn ended(part: u32, s: i64) -> Mark {
    Mark { ends: true, title: String::new(), ..begun(part, s) }
}

const MIN: i64 = 60;

/// `on, left, next, late, over` in seconds.
fn shown(plan: &Plan, marks: &[Mark], series: SeriesId, now: Stamp) -> String {
    let Some(s) = Standing::of(plan, marks, series, now) else { return "not begun".to_owned() };
    let on = s.on.as_ref().map_or("nothing".to_owned(), |on| match on.left_ms {
        Some(left) => format!("{} {}s", on.part.0, left / 1_000),
        None => format!("{} unknown", on.part.0),
    });
    let next = s.next.map_or("none".to_owned(), |no| no.0.to_string());
    format!("on {on}, next {next}, late {}s, over {}s", s.late_ms / 1_000, s.over_ms / 1_000)
}

#[test]
fn ninety_minutes_worked_by_hand() {
    let plan = plain(90, &[10, 20, 20, 5, 35]);
    assert_eq!(shown(&plan, &[], PAGE, at(0)), "not begun");
    let first = [begun(0, 0)];
    assert_eq!(shown(&plan, &first, PAGE, at(0)), "on 0 600s, next 1, late 0s, over 0s");
    // Four minutes in; all is as planned.
    assert_eq!(shown(&plan, &first, PAGE, at(4 * MIN)), "on 0 360s, next 1, late 0s, over 0s");
    // It takes 13 of its 10: 3 late, and 20+20+5+35 = 80 are to come in the 77 that are left.
    assert_eq!(shown(&plan, &first, PAGE, at(13 * MIN)), "on 0 -180s, next 1, late 180s, over 180s");
    let second = [begun(0, 0), begun(1, 13 * MIN)];
    assert_eq!(shown(&plan, &second, PAGE, at(14 * MIN)), "on 1 1140s, next 2, late 180s, over 180s");
    // Ended after 15 of its 20, at 28; due was 30: 2 before the plan, and the end comes 2 before the gym's.
    let third = [begun(0, 0), begun(1, 13 * MIN), begun(2, 28 * MIN)];
    assert_eq!(shown(&plan, &third, PAGE, at(28 * MIN)), "on 2 1200s, next 3, late -120s, over -120s");
    // The last part; nothing is next.
    let last = [begun(0, 0), begun(4, 55 * MIN)];
    let mut skipped = plan.clone();
    for no in [1, 2, 3] {
        skipped.part_mut(PartNo(no)).unwrap().fitted = Fitted::Dropped;
    }
    assert_eq!(shown(&skipped, &last, PAGE, at(60 * MIN)), "on 4 1800s, next none, late 0s, over 0s");
    let over = [begun(0, 0), ended(0, 10 * MIN)];
    assert_eq!(shown(&plan, &over, PAGE, at(12 * MIN)), "on nothing, next 1, late 120s, over 120s");
}

/// A part that was shortened is made up for: at its end the plan is that much less late.
#[test]
fn shortened_parts_make_up_for_it() {
    let mut plan = plain(45, &[10, 20, 15]);
    let late = [begun(0, 0), begun(1, 15 * MIN)];
    assert_eq!(shown(&plan, &late, PAGE, at(15 * MIN)), "on 1 1200s, next 2, late 300s, over 300s");
    let standing = Standing::of(&plan, &late, PAGE, at(15 * MIN)).unwrap();
    assert_eq!((standing.left_for_rest_min(), standing.rest(&plan).len()), (10, 1)); // 45 - 15 - 20
    plan.part_mut(PartNo(2)).unwrap().fitted = Fitted::To(10);
    assert_eq!(shown(&plan, &late, PAGE, at(15 * MIN)), "on 1 1200s, next 2, late 300s, over 0s");
    // 9:30 into the gym's last ten minutes: whole minutes alone are given out.
    assert_eq!(Standing::of(&plan, &late, PAGE, at(15 * MIN + 30)).unwrap().left_for_rest_min(), 10);
    assert_eq!(Standing::of(&plan, &late, PAGE, at(36 * MIN)).unwrap().left_for_rest_min(), 9);
    assert_eq!(Standing::of(&plan, &late, PAGE, at(50 * MIN)).unwrap().left_for_rest_min(), 0);
}

#[test]
fn a_part_taken_out_while_it_is_on() {
    let mut plan = plain(45, &[10, 20, 15]);
    let marks = [begun(0, 0), begun(1, 10 * MIN)];
    plan.parts.remove(1);
    assert_eq!(shown(&plan, &marks, PAGE, at(12 * MIN)), "on 1 unknown, next 2, late 0s, over -1080s");
    // Its number is nobody else's, so what comes instead is not what is on.
    let no = plan.put(1, PlanPart::plain(PartKind::Other, "instead".to_owned(), 5));
    assert_eq!(no, PartNo(3));
    assert_eq!(shown(&plan, &marks, PAGE, at(12 * MIN)), "on 1 unknown, next 3, late 0s, over -780s");
}

#[test]
fn the_clock_is_right_after_sleep_kill_and_summer_time() {
    let plan = plain(180, &[60, 120]);
    let marks = [begun(0, 0), begun(1, 60 * MIN)];
    // 130 minutes on: the wall clock was put back an hour at 130 minutes; the part has 60 + 120 - 150 = 30 minutes left.
    assert_eq!(at(129 * MIN).offset_min, 120);
    assert_eq!(at(131 * MIN).offset_min, 60);
    assert_eq!(shown(&plan, &marks, PAGE, at(150 * MIN)), "on 1 1800s, next none, late 0s, over 0s");
    // Somebody put the wall clock forward an hour before everyone's eyes: sleep is in the page's own reading, so that alone tells, and
    // nothing is over by it.
    let forward = Stamp { wall_ms: at(150 * MIN).wall_ms + 3_600_000, ..at(150 * MIN) };
    assert_eq!(shown(&plan, &marks, PAGE, forward), "on 1 1800s, next none, late 0s, over 0s");
    // Another page, after a kill: its own clock began anew.
    let other = Stamp { mono_ms: 400, ..at(150 * MIN) };
    assert_eq!(shown(&plan, &marks, OTHER, other), "on 1 1800s, next none, late 0s, over 0s");
    // Somebody put the wall clock back an hour: the page's own clock goes on.
    let back = Stamp { wall_ms: at(150 * MIN).wall_ms - 3_600_000, ..at(150 * MIN) };
    assert_eq!(shown(&plan, &marks, PAGE, back), "on 1 1800s, next none, late 0s, over 0s");
}

#[test]
fn done_is_told_by_part() {
    // Part 0 is begun twice: 5 and 10 minutes; part 1 between them 7; a pause of 3 belongs to none.
    let marks = [begun(0, 0), begun(1, 5 * MIN), begun(0, 12 * MIN), ended(0, 22 * MIN), begun(2, 25 * MIN)];
    let told = |marks: &[Mark]| done(marks).iter().map(|(p, ms)| (p.0, ms.map(|ms| ms / 60_000))).collect::<Vec<_>>();
    assert_eq!(told(&marks), [(0, Some(15)), (1, Some(7)), (2, None)]);
    let ended: Vec<Mark> = marks.into_iter().chain([ended(2, 40 * MIN)]).collect();
    assert_eq!(told(&ended), [(0, Some(15)), (1, Some(7)), (2, Some(15))]);
}

#[test]
fn minutes_by_what_is_there() {
    let mut plan = plain(90, &[8, 12, 20]);
    for (at, ball, net, game) in [(1, true, false, false), (2, true, true, true)] {
        let part = &mut plan.parts[at];
        (part.ball, part.net, part.game) = (ball, net, game);
    }
    plan.put(2, PlanPart::plain(PartKind::Break, "Break".to_owned(), 4));
    plan.put(9, PlanPart { fitted: Fitted::Dropped, ..PlanPart::plain(PartKind::Arrival, "Game".to_owned(), 30) });
    let all = Minutes { all: 44, ball: 32, net: 20, game: 20, breaks: 4, without: 8 };
    assert_eq!(plan.minutes(), all);
    // Copied for another day, what was dropped is planned again.
    assert_eq!(copied(plan, Vec::new()).minutes().all, 74);
}

fn copied(plan: Plan, done: Vec<(PartNo, Option<u32>)>) -> Plan {
    PlanDone { id: PlanId(EntryId::new(1, 1)), plan, done, out: Vec::new() }.again()
}

/// Nobody planned these: 8 min 29 s are 8, 40 s are one whole minute, and the last, whose end nobody noted, keeps what it had.
#[test]
fn a_practice_that_grew_is_copied_as_long_as_it_took() {
    let mut plan = plain(90, &[5, 15, 15]);
    for part in &mut plan.parts {
        part.added = true;
    }
    let done = vec![(PartNo(0), Some(509_000)), (PartNo(1), Some(40_000)), (PartNo(2), None)];
    let again = copied(plan.clone(), done.clone());
    assert_eq!(
        again.parts.iter().map(|p| (p.minutes, p.added)).collect::<Vec<_>>(),
        [(8, false), (1, false), (15, false)]
    );
    // Where something was planned, that is what is copied, with its own minutes.
    plan.parts[1].added = false;
    assert_eq!(copied(plan, done).parts.iter().map(|p| p.minutes).collect::<Vec<_>>(), [15]);
}

/// Three parts of 10, 20 and 15. What is late is what went by beyond the minutes of the parts begun.
#[test]
fn late_is_told_by_what_was_begun() {
    let late = |plan: &Plan, marks: &[Mark], min: i64| {
        Standing::of(plan, marks, PAGE, at(min * MIN)).unwrap().late_ms / 60_000
    };
    let plan = plain(45, &[10, 20, 15]);
    // The third begun by its own key after the first: at 12, two minutes into it, all is as planned, not 20 early.
    let third = [begun(0, 0), begun(2, 10 * MIN)];
    assert_eq!(late(&plan, &third, 12), 0);
    // A part to come moved above the one that is on: nothing changes.
    let mut moved = plan.clone();
    moved.moved(PartNo(2), 0);
    assert_eq!(late(&moved, &[begun(0, 0), begun(1, 13 * MIN)], 14), 3);
    // The first, ten minutes as planned, is taken out once it is over: still on time.
    let mut out = plan.clone();
    out.parts.remove(0);
    assert_eq!(late(&out, &[begun(0, 0), begun(1, 10 * MIN)], 14), 0);
    // 13 of 10, then four of what nobody planned: 7, and 7 still once it is over.
    let mut more = plan.clone();
    let no = more.put(1, PlanPart { added: true, ..PlanPart::plain(PartKind::Other, "talk".to_owned(), 5) });
    let talk = [begun(0, 0), begun(no.0, 13 * MIN)];
    assert_eq!(late(&more, &talk, 17), 7);
    assert_eq!(late(&more, &[talk[0].clone(), talk[1].clone(), begun(1, 17 * MIN)], 20), 7);
    // Shortened by hand while it is on: what it saves is saved once it is over. 20 become 12; at 22 the next begins, 8 early.
    let mut short = plan.clone();
    short.part_mut(PartNo(1)).unwrap().fitted = Fitted::To(12);
    let next = [begun(0, 0), begun(1, 10 * MIN), begun(2, 22 * MIN)];
    assert_eq!((late(&short, &next[..2], 21), late(&short, &next, 22)), (0, -8));
    // 10, then the 20 that are dropped, and five of the third: 20 early, with the third taken out too. Back at the first, whose ten begin
    // anew: 15 are gone for the third's 15, the 20 are saved.
    let mut early = plan.clone();
    early.part_mut(PartNo(1)).unwrap().fitted = Fitted::Dropped;
    let third = [begun(0, 0), begun(2, 10 * MIN), begun(0, 15 * MIN)];
    assert_eq!((late(&early, &third[..2], 15), late(&early, &third, 15)), (-20, -20));
    early.parts.remove(2);
    assert_eq!(late(&early, &third[..2], 15), -20);
    // Nobody planned any of it: nothing is late.
    let mut grown = plan;
    grown.parts.iter_mut().for_each(|part| part.added = true);
    assert_eq!(late(&grown, &next, 60), 0);
}
