//! A first plan: each line with its reason, never over the gym's time.

use super::{drill_id, starters};
use peppertally::domain::ids::{DrillId, EntryId, PlayerId};
use peppertally::domain::plan::propose::{Lately, Titles, Why, propose};
use peppertally::domain::plan::{PartKind, PlanPart};
use peppertally::domain::skill::Skill;
use proptest::prelude::*;

fn titles() -> Titles {
    Titles { arrival: "Arrival game".into(), rest: "Break".into() }
}

#[test]
fn each_line_has_its_reason() {
    let specs = starters();
    let drills: Vec<(DrillId, _)> = specs.iter().enumerate().map(|(i, s)| (drill_id(i as u32), s)).collect();
    let juno = PlayerId(EntryId::new(1, 1));
    let lately = Lately {
        undone: vec![PlanPart::of_drill(drill_id(0), &specs[0], 12)],
        balls: vec![(Skill::Pass, 40), (Skill::Serve, 18)],
        seen_least: vec![juno],
        drills,
    };
    let (plan, whys) = propose(&lately, 90, &titles());
    let lines: Vec<_> = plan.parts.iter().map(|p| (p.title.as_str(), p.minutes)).collect();
    // Serving has a drill of its own (the first that serves), Juno one that names children and isn't in it yet. 8 + 12 + 15 + 15 + 20 = 70:
    // one more drill of 15, not used for the longest, 85; a break of 3, 88; the two minutes that are left go to the first two drills.
    let expected = [
        ("Arrival game", 8),
        ("drill 0", 13),
        ("drill 3", 16),
        ("Break", 3),
        ("drill 1", 15),
        ("drill 2", 15),
        ("drill 12", 20),
    ];
    assert_eq!(lines, expected);
    let expected = [
        Why::Arriving,
        Why::NotDone,
        Why::FewBalls(Skill::Serve, 18),
        Why::Break,
        Why::SeenLeast(vec![juno]),
        Why::LongAgo,
        Why::Playing,
    ];
    assert_eq!(whys, expected);
    assert_eq!(plan.minutes().all, 90);
    // Nothing is known yet: a game while they arrive, and one to play.
    let (plan, whys) = propose(&Lately { drills: lately.drills.clone(), ..Lately::default() }, 45, &titles());
    // 8 + 20 leave 17: one drill; two minutes more, one for each drill.
    assert_eq!(whys, [Why::Arriving, Why::LongAgo, Why::Playing]);
    assert_eq!(plan.parts.iter().map(|p| p.minutes).collect::<Vec<_>>(), [8, 16, 21]);
}

/// A file may bring any number: what the last plan left undone is cut to the gym's time, however long it was.
#[test]
fn undone_parts_of_any_length() {
    let specs = starters();
    let undone = specs.iter().take(2).map(|s| PlanPart::of_drill(drill_id(99), s, u16::MAX)).collect();
    let (plan, _) = propose(&Lately { undone, ..Lately::default() }, 90, &titles());
    assert_eq!(plan.minutes().all, 90);
}

proptest! {
    #[test]
    fn never_over_the_gyms_time(gym in 0..200u16, n_drills in 0..14usize, undone in 0..4usize, some in any::<bool>()) {
        let specs = starters();
        let lately = Lately {
            drills: specs.iter().enumerate().take(n_drills).map(|(i, s)| (drill_id(i as u32), s)).collect(),
            undone: specs.iter().take(undone).map(|s| PlanPart::of_drill(drill_id(99), s, 30)).collect(),
            balls: if some { vec![(Skill::Serve, 3)] } else { vec![] },
            seen_least: if some { vec![PlayerId(EntryId::new(1, 1))] } else { vec![] },
        };
        let (plan, whys) = propose(&lately, gym, &titles());
        prop_assert_eq!(plan.parts.len(), whys.len());
        prop_assert!(plan.minutes().all <= gym);
        prop_assert!(plan.parts.iter().all(|p| p.minutes > 0));
        prop_assert!(gym < 10 || plan.parts[0].kind == PartKind::Arrival);
        let mut numbers: Vec<u32> = plan.parts.iter().map(|p| p.no.0).collect();
        numbers.dedup();
        prop_assert_eq!(numbers.len(), plan.parts.len());
    }
}
