//! The plan of a practice, from outside: hand-worked times and contacts, properties of the refit, a floor simulated ball by ball.

mod contacts;
mod floor_sim;
mod proposal;
mod refits;
mod times;

use peppertally::domain::drill::DrillSpec;
use peppertally::domain::ids::{DrillId, EntryId};
use peppertally::domain::plan::{PartKind, Plan, PlanPart};

fn starters() -> Vec<DrillSpec> {
    DrillSpec::starters(|i| format!("drill {i}"))
}

fn drill_id(n: u32) -> DrillId {
    DrillId(EntryId::new(7, n))
}

/// A plan of parts without a drill, of so many minutes each.
fn plain(gym_min: u16, minutes: &[u16]) -> Plan {
    let mut plan = Plan { gym_min, ..Plan::new() };
    for n in minutes {
        plan.put(usize::MAX, PlanPart::plain(PartKind::Other, format!("{n} min"), *n));
    }
    plan
}
