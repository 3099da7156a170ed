//! What becomes of the parts to come where less time is left than they need. Whole minutes; keeps the order, never takes more than is
//! left, never touches what is locked.

/// A part to come.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Left {
    pub minutes: u16,
    pub locked: bool,
}

/// What the coach chose.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// All a little shorter, the longer ones by more; only where that isn't enough the last is dropped.
    Shorten,
    /// From the end.
    Drop,
}

/// What is locked needs so many minutes more than are left.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LockedTooLong {
    pub by: u16,
}

/// A part shorter than this isn't worth the walk; one that was planned shorter stays so.
pub const LEAST_MIN: u16 = 3;

/// The minutes of each from now on, in their order; 0: dropped.
///
/// ```
/// use peppertally::domain::plan::refit::{Left, Way, refit};
/// let left = [(20, false), (10, true), (15, false)].map(|(minutes, locked)| Left { minutes, locked });
/// // 38 are left. The locked 10 stay; 28 for 20 + 15: 3 each, and 22 more as 17 is to 12: 12.9 and 9.1.
/// assert_eq!(refit(&left, 38, Way::Shorten).unwrap(), [16, 10, 12]);
/// assert_eq!(refit(&left, 38, Way::Drop).unwrap(), [20, 10, 0]);
/// ```
///
/// # Errors
/// [`LockedTooLong`] where the locked parts alone need more than is left.
pub fn refit(left: &[Left], left_min: u16, way: Way) -> Result<Vec<u16>, LockedTooLong> {
    let locked = sum(left.iter().filter(|part| part.locked).map(|part| part.minutes));
    let free = u32::from(left_min)
        .checked_sub(locked)
        .ok_or_else(|| LockedTooLong { by: u16::try_from(locked - u32::from(left_min)).unwrap_or(u16::MAX) })?;
    let mut minutes: Vec<u16> = left.iter().map(|part| part.minutes).collect();
    let open = |minutes: &[u16]| sum(minutes.iter().zip(left).filter(|(_, part)| !part.locked).map(|(n, _)| *n));
    let least = |minutes: u16| minutes.min(LEAST_MIN);
    let must = |minutes: &[u16]| match way {
        Way::Drop => open(minutes),
        Way::Shorten => sum(minutes.iter().zip(left).filter(|(_, part)| !part.locked).map(|(n, _)| least(*n))),
    };
    while must(&minutes) > free {
        // There is one: what must be fitted isn't nothing.
        let Some(last) = (0..minutes.len()).rev().find(|at| !left[*at].locked && minutes[*at] > 0) else { break };
        minutes[last] = 0;
    }
    if open(&minutes) > free {
        let over = free - must(&minutes);
        shorten(&mut minutes, left, over);
    }
    Ok(minutes)
}

/// Each keeps its least; what is over is shared as its rest is to the rests of all, the largest fractions first.
fn shorten(minutes: &mut [u16], left: &[Left], over: u32) {
    let rest: Vec<u32> = minutes
        .iter()
        .zip(left)
        .map(|(n, part)| if part.locked { 0 } else { u32::from(n.saturating_sub(LEAST_MIN)) })
        .collect();
    let whole: u32 = rest.iter().sum();
    let shares: Vec<(u32, u32)> = rest.iter().map(|r| ((r * over) / whole.max(1), (r * over) % whole.max(1))).collect();
    let given: u32 = shares.iter().map(|(share, _)| share).sum();
    let mut order: Vec<usize> = (0..minutes.len()).filter(|at| rest[*at] > 0).collect();
    order = crate::stats::arrange::arranged(order, |a, b| shares[*b].1.cmp(&shares[*a].1));
    let more = usize::try_from(over - given).unwrap_or(0);
    for at in 0..minutes.len() {
        if left[at].locked || rest[at] == 0 {
            continue;
        }
        let extra = u32::from(order.iter().take(more).any(|other| *other == at));
        minutes[at] = LEAST_MIN + u16::try_from(shares[at].0 + extra).unwrap_or(u16::MAX);
    }
}

fn sum(minutes: impl Iterator<Item = u16>) -> u32 {
    minutes.map(u32::from).sum()
}
