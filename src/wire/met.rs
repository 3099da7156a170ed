//! Who met whom, and what was judged twice, in the summary of a packed practice. Children stand in a list once, then by their place in it.

use serde::{Deserialize, Serialize};

use super::lots::{FEEDS, WHATS, at, place};
use crate::domain::checks::{Checked, Checks};
use crate::domain::ids::{EntryId, PlayerId, Step};
use crate::domain::met::{Met, Served, Sides};
use crate::domain::skill::Feed;
use crate::domain::summary::Count;

type SidesText = (Vec<u32>, Vec<u32>, bool, u32, u32);

#[derive(Default, Serialize, Deserialize)]
pub(super) struct Text {
    who: Vec<String>,
    /// Server, passer, feed (0 easy, 1 challenge), step, good, tries.
    served: Vec<[u32; 6]>,
    /// The first side, the second, whether the first served, won, lost.
    sides: Vec<SidesText>,
}

/// What (0 pass, 1 serve, 2 own), the coach's step, the child's, how many; and balls alone.
pub(super) type ChecksText = (Vec<[u32; 4]>, u32);

impl Text {
    pub fn of(met: &Met) -> Option<Text> {
        if *met == Met::default() {
            return None;
        }
        let mut who: Vec<PlayerId> = Vec::new();
        let mut no = |player: PlayerId| {
            let at = who.iter().position(|known| *known == player).unwrap_or_else(|| {
                who.push(player);
                who.len() - 1
            });
            u32::try_from(at).unwrap_or(u32::MAX)
        };
        let mut text = Text::default();
        for one in &met.served {
            let (server, passer) = (no(one.server), no(one.passer));
            let (kind, step) = (place(&FEEDS, one.feed.kind), u32::from(one.feed.step.0));
            text.served.push([server, passer, kind, step, one.count.good(), one.count.tries()]);
        }
        for one in &met.sides {
            let first = one.first.iter().map(|player| no(*player)).collect();
            let second = one.second.iter().map(|player| no(*player)).collect();
            text.sides.push((first, second, one.served, one.won, one.lost));
        }
        text.who = who.iter().map(|player| player.0.to_string()).collect();
        Some(text)
    }

    pub fn back(&self) -> Option<Met> {
        let who: Vec<PlayerId> =
            self.who.iter().map(|id| EntryId::from_text(id).map(PlayerId)).collect::<Option<_>>()?;
        let side = |side: &[u32]| side.iter().map(|no| at(&who, *no)).collect::<Option<Vec<PlayerId>>>();
        let served = |[server, passer, kind, step, good, tries]: &[u32; 6]| {
            Some(Served {
                server: at(&who, *server)?,
                passer: at(&who, *passer)?,
                feed: Feed { kind: at(&FEEDS, *kind)?, step: Step(u8::try_from(*step).ok()?) },
                count: Count::new(*good, *tries)?,
            })
        };
        let sides = |(first, second, served, won, lost): &SidesText| {
            Some(Sides { first: side(first)?, second: side(second)?, served: *served, won: *won, lost: *lost })
        };
        Some(Met {
            served: self.served.iter().map(served).collect::<Option<_>>()?,
            sides: self.sides.iter().map(sides).collect::<Option<_>>()?,
        })
    }
}

/// Nothing where nothing was judged twice.
pub(super) fn checks_text(checks: &Checks) -> Option<ChecksText> {
    let row = |one: &Checked| [place(&WHATS, one.what), u32::from(one.coach), u32::from(one.child), one.n];
    (*checks != Checks::default()).then(|| (checks.checked.iter().map(row).collect(), checks.n_alone))
}

pub(super) fn checks_back((rows, n_alone): &ChecksText) -> Option<Checks> {
    let one = |[what, coach, child, n]: &[u32; 4]| {
        let (coach, child) = (u8::try_from(*coach).ok()?, u8::try_from(*child).ok()?);
        Some(Checked { what: at(&WHATS, *what)?, coach, child, n: *n })
    };
    Some(Checks { checked: rows.iter().map(one).collect::<Option<_>>()?, n_alone: *n_alone })
}
