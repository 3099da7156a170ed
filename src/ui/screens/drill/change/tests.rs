//! Whatever is chosen, the draft can be used.

use super::*;
use crate::domain::rule::Whose;

fn starters() -> Vec<DrillSpec> {
    DrillSpec::starters(|i| format!("drill {i}"))
}

/// A skill of the coach's own needs its name, which the form asks for.
fn named(mut spec: DrillSpec) -> DrillSpec {
    if let Skill::Own(name) = &mut spec.skill {
        "setting".clone_into(name);
    }
    spec
}

/// What the settings of a rule make of a draft, each tapped from each.
fn settings(spec: &DrillSpec) -> Vec<DrillSpec> {
    let mut all = vec![spec.clone()];
    let taps: [fn(&DrillSpec) -> DrillSpec; 12] = [
        |s| with_whose(s, Whose::Group),
        |s| with_whose(s, Whose::Child),
        |s| step_groups(s, true),
        |s| step_groups(s, false),
        |s| with_goal(s, true),
        |s| with_goal(s, false),
        |s| step_goal(s, false),
        |s| with_besides(s, true),
        |s| with_one_row(s, true),
        |s| with_one_row(s, false),
        |s| step_number(s, true),
        |s| step_number(s, false),
    ];
    for _ in 0..2 {
        let next: Vec<DrillSpec> = all.iter().flat_map(|s| taps.map(|tap| tap(s))).collect();
        for spec in next {
            if !all.contains(&spec) {
                all.push(spec);
            }
        }
    }
    all
}

/// Every way through the large choices, from every ready drill, and every setting of every rule that is offered then, gives a draft
/// without a fault.
#[test]
fn every_choice_keeps_the_draft_usable() {
    for start in starters() {
        for skill in SkillChoice::ALL {
            for &board in skill.boards() {
                let spec = named(with_board(&with_skill(&start, skill), board));
                assert_eq!(picture(&spec), board);
                for &good_from in skill.goods(board) {
                    assert_eq!(DrillSpec { good_from, ..spec.clone() }.fault(), None, "{start:?} {skill:?} {board:?}");
                }
                for played in offered(&spec) {
                    for chosen in settings(&with_played(&spec, played)) {
                        assert_eq!(chosen.fault(), None, "{chosen:?}");
                        assert_eq!(Played::of(&chosen.rule), Some(played), "{chosen:?}");
                        assert_eq!(picture(&chosen), board);
                        for &other in skill.boards() {
                            let moved = with_board(&chosen, other);
                            assert_eq!(moved.fault(), None, "{chosen:?} to {other:?}");
                            assert_eq!(picture(&moved), other);
                        }
                        for other in SkillChoice::ALL {
                            assert_eq!(named(with_skill(&chosen, other)).fault(), None, "{chosen:?} to {other:?}");
                        }
                    }
                }
            }
        }
    }
}

/// A rule that its board can't keep isn't there to be tapped.
#[test]
fn only_rules_that_fit_the_board_are_offered() {
    let on = |board| {
        let spec = named(with_board(&with_skill(&starters()[0], SkillChoice::Own), board));
        offered(&spec)
    };
    use Played::*;
    assert_eq!(on(Picture::Line), [Goal, InRow, Tens, FirstTo, InTime, Together]);
    assert_eq!(on(Picture::Propped), [Goal, InRow, Tens, FirstTo, InTime, Together]);
    // No order of balls is known there, and no child of a ball.
    assert_eq!(on(Picture::Told), [Goal, Tens]);
    assert_eq!(on(Picture::Group), [Goal, InRow, InTime, Together]);
    // Misses aren't counted.
    assert_eq!(on(Picture::Lanes), [Goal, FirstTo, InTime, Together]);
    assert_eq!(offered(&with_board(&starters()[0], Picture::Duel)), []);
}

#[test]
fn steppers_stop_at_their_ends() {
    let spec = starters().remove(1);
    let few = with_transition(&spec, |t| {
        t.earn = Some(4);
        t.n_easy = 2;
    });
    assert_eq!(transition(&few).and_then(|t| t.earn), Some(2));
    let mut spec = with_board(&spec, Picture::Floor);
    for more in [true, false] {
        for _ in 0..300 {
            spec = step_goal(&step_places(&spec, more), more);
            assert_eq!(spec.fault(), None);
        }
    }
    assert_eq!(goal(&spec), Some(Some(1)));
    for played in [Played::Tens, Played::FirstTo, Played::InTime] {
        let mut spec = with_played(&spec, played);
        for more in [true, false] {
            for _ in 0..100 {
                spec = step_groups(&step_number(&spec, more), more);
                assert_eq!(spec.fault(), None);
            }
            let (now, least, most) = number(&spec).unwrap();
            assert_eq!(now, if more { most } else { least }, "{played:?}");
        }
    }
}

/// Each step that can be left is reached again: of a skill of the coach's own those below the ladder too.
#[test]
fn a_step_that_was_left_is_reached_again() {
    let own = Skill::Own("setting".to_owned());
    let down = std::iter::successors(Some(Step(MAX_STEP)), |step| {
        (!is_lowest(&own, *step)).then(|| step_ladder(&own, *step, false))
    });
    let down: Vec<Step> = down.collect();
    assert_eq!(down[usize::from(MAX_STEP)..], [Step(0), Step(255), Step(254)]);
    for two in down.windows(2) {
        assert_eq!((step_ladder(&own, two[1], true), step_ladder(&own, two[0], false)), (two[0], two[1]));
    }
    assert!(is_highest(Step(MAX_STEP)) && !is_highest(Step(255)));
    assert!(is_lowest(&Skill::Pass, Step(0)) && step_ladder(&Skill::Pass, Step(0), false) == Step(0));
}

/// A row falls back to the same, whether the drill is ready or a new one: the last five, so that a miss late in a long row doesn't take
/// it all.
#[test]
fn rows_fall_back_alike() {
    let falls = |rule: Rule| if let Rule::InRow(rule) = rule { Some(rule.falls_to_five) } else { None };
    let ready: Vec<bool> = starters().into_iter().filter_map(|spec| falls(spec.rule)).collect();
    assert!(!ready.is_empty() && ready.iter().all(|falls| *falls));
    for start in starters() {
        if offered(&start).contains(&Played::InRow) && falls(start.rule).is_none() {
            assert_eq!(falls(with_played(&start, Played::InRow).rule), Some(true), "{start:?}");
        }
    }
}
