//! The check of everything that is stored: asked for, answered, what differs put right.

use super::super::effect::Effect;
use super::super::health::{Checked, Health, HealthTap, Room};
use super::super::model::Model;
use super::super::work::{Job, Verified};
use super::packing;
use crate::wire::summary;

pub fn act(model: &mut Model, tap: HealthTap) -> Vec<Effect> {
    if model.health.checking {
        return Vec::new();
    }
    let repair = tap == HealthTap::PutRight;
    model.health.checking = true;
    // One that was opened again is counted from memory, and again when it is packed.
    let packed = model.packed.iter().filter(|(_, packed)| !packed.own_here);
    let counted = packed.map(|(id, packed)| (id.0.to_string(), summary::encode(&packed.summary))).collect();
    vec![Effect::Work(Job::Verify { counted, repair })]
}

pub fn verified(model: &mut Model, repaired: bool, found: Verified) {
    model.health.checking = false;
    if repaired {
        for (key, made) in &found.otherwise {
            // One that was opened again meanwhile is counted from memory.
            let still = model.packed.iter().any(|(id, packed)| id.0.to_string() == *key && !packed.own_here);
            if still {
                packing::summarised(model, (key.clone(), made.clone()), false);
            }
        }
    }
    model.health.found = Some(if repaired { Checked::PutRight(found) } else { Checked::Found(found) });
}

pub fn not_verified(model: &mut Model, why: String) {
    model.health.checking = false;
    model.health.found = Some(Checked::Not(why));
}

pub fn room_told(model: &mut Model, room: Option<Room>) {
    model.health.room = room;
}

/// What was found was true then.
pub fn visited(model: &mut Model) {
    model.health = Health { checking: model.health.checking, ..Health::default() };
}
