//! What is wrong with a plan, before anybody stands on the floor. Each has a way out; none keeps a practice from starting.

use super::super::drill::DrillSpec;
use super::super::ids::{DrillId, PartNo};
use super::{PartKind, Plan, made_for};

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PlanFault {
    /// More minutes than the gym is ours.
    OverGym {
        by: u16,
    },
    NoMinutes(PartNo),
    /// The drill is made for more children than are here.
    TooFew {
        part: PartNo,
        made_for: usize,
        here: usize,
    },
    /// Its drill is no longer among the drills.
    DrillGone(PartNo),
}

/// Everything wrong, the whole plan first, then part by part. Parts that are over or dropped have nothing wrong (`spared`).
pub fn faults<'a>(
    plan: &Plan,
    n_here: usize,
    drill: impl Fn(DrillId) -> Option<&'a DrillSpec>,
    spared: impl Fn(PartNo) -> bool,
) -> Vec<PlanFault> {
    let over = plan.minutes().all.checked_sub(plan.gym_min).filter(|by| *by > 0);
    let mut faults: Vec<PlanFault> = over.map(|by| PlanFault::OverGym { by }).into_iter().collect();
    for part in plan.parts.iter().filter(|part| !part.is_dropped() && !spared(part.no)) {
        if part.minutes_now() == 0 {
            faults.push(PlanFault::NoMinutes(part.no));
        }
        let Some(id) = part.drill.filter(|_| part.kind == PartKind::Drill) else { continue };
        match drill(id) {
            None => faults.push(PlanFault::DrillGone(part.no)),
            Some(spec) => {
                let made_for = made_for(&part.spec_of(spec));
                if n_here > 0 && n_here < made_for {
                    faults.push(PlanFault::TooFew { part: part.no, made_for, here: n_here });
                }
            }
        }
    }
    faults
}
