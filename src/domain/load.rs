//! What a shoulder and two knees did, as far as entries truly tell: serves with the arm overhead, and those of them out of a jump. Always "at
//! least": who throws, hits or warms up is noted nowhere. Sets no limit, for there is none of ours.

use super::entry::Contact;
use super::ids::PlayerId;
use super::replay::part::Part;
use super::skill::{Outcome, Role, ServeStyle};

/// Of one child.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Load {
    pub player: PlayerId,
    pub swings: u32,
    /// Each of them is a swing too.
    pub jumps: u32,
}

/// Of the main line of a run, in drills and in matches.
pub fn loads(part: &Part) -> Vec<Load> {
    let mut loads: Vec<Load> = Vec::new();
    for (player, jumped) in part.contacts.iter().filter_map(|counted| swing(&counted.contact)) {
        let at = loads.iter().position(|load| load.player == player).unwrap_or_else(|| {
            loads.push(Load { player, swings: 0, jumps: 0 });
            loads.len() - 1
        });
        loads[at].swings += 1;
        loads[at].jumps += u32::from(jumped);
    }
    loads
}

/// Who swung, and whether out of a jump. Of an underhand or roundhouse serve, and of one of no noted style, nothing is claimed.
fn swing(contact: &Contact) -> Option<(PlayerId, bool)> {
    let who = match contact.outcome {
        // The style is the server's; whose passing it would have been swung nothing.
        Outcome::ServeMissed => contact.server,
        Outcome::Serve { .. } | Outcome::TwoKey { .. } if contact.role == Role::Server => contact.player,
        _ => None,
    }?;
    match contact.style? {
        ServeStyle::StandingOverhead => Some((who, false)),
        ServeStyle::Jump => Some((who, true)),
        ServeStyle::Underhand | ServeStyle::Roundhouse => None,
    }
}
