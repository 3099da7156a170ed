//! The next plan out of one that was followed: the same parts, those that were left out first, so that they aren't left out again.

use super::{PartKind, Plan, PlanDone, PlanPart};

/// What becomes of it, and the parts that stand ahead because they were left out. What is played while children arrive stays first.
pub fn next(done: &PlanDone) -> (Plan, Vec<PlanPart>) {
    let again = done.again();
    let begun = |part: &&PlanPart| done.done.iter().any(|(no, _)| *no == part.no);
    let grew = done.plan.grew();
    // As `again` has them, in the same order.
    let was = done.plan.parts.iter().filter(|part| grew || !part.added);
    let was: Vec<bool> = was.map(|part| begun(&part) || part.kind == PartKind::Break).collect();
    let arrival = again.parts.iter().take_while(|part| part.kind == PartKind::Arrival).count();
    let mut plan = Plan { gym_min: again.gym_min, collect_s: again.collect_s, ..Plan::new() };
    let mut left_out = Vec::new();
    let all = || again.parts.iter().zip(&was).skip(arrival);
    for part in again.parts.iter().take(arrival) {
        plan.put(usize::MAX, part.clone());
    }
    for (part, _) in all().filter(|(_, was)| !**was) {
        let no = plan.put(usize::MAX, part.clone());
        left_out.extend(plan.part(no).cloned());
    }
    for (part, _) in all().filter(|(_, was)| **was) {
        plan.put(usize::MAX, part.clone());
    }
    (plan, left_out)
}
