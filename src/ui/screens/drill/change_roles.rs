//! What one tap makes of who stands beside the passers and when they change. Pure.

use super::change::step_u8;
use crate::domain::drill::{DrillSpec, OnFloor, SwapEvery};
use crate::domain::roles;

/// Most who toss, and most who fetch.
pub const MAX_FEEDERS: u8 = 2;
pub const MAX_GETTERS: u8 = 3;
/// Balls and minutes of a turn: first, least, most.
const BALLS: (u8, u8, u8) = (10, 2, 50);
const MINUTES: (u8, u8, u8) = (3, 1, 15);

/// The three answers to "When do they swap?".
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SwapChoice {
    OnTap,
    Balls,
    Minutes,
}

impl SwapChoice {
    pub const ALL: [SwapChoice; 3] = [SwapChoice::OnTap, SwapChoice::Balls, SwapChoice::Minutes];

    pub const fn of(swap: SwapEvery) -> SwapChoice {
        match swap {
            SwapEvery::Never => SwapChoice::OnTap,
            SwapEvery::Balls(_) => SwapChoice::Balls,
            SwapEvery::Minutes(_) => SwapChoice::Minutes,
        }
    }

    pub const fn usual(self) -> SwapEvery {
        match self {
            SwapChoice::OnTap => SwapEvery::Never,
            SwapChoice::Balls => SwapEvery::Balls(BALLS.0),
            SwapChoice::Minutes => SwapEvery::Minutes(MINUTES.0),
        }
    }
}

/// What is set; `None` on boards without passers as they stand, and where a rule has swaps of its own.
pub fn on_floor(spec: &DrillSpec) -> Option<OnFloor> {
    roles::stand(spec).then_some(spec.on_floor)
}

pub fn with(spec: &DrillSpec, change: impl FnOnce(&mut OnFloor)) -> DrillSpec {
    let mut spec = spec.clone();
    if on_floor(&spec).is_some() {
        change(&mut spec.on_floor);
    }
    spec
}

/// The figure of a swap with its ends: now, least, most.
pub const fn figure(swap: SwapEvery) -> Option<(u8, u8, u8)> {
    match swap {
        SwapEvery::Never => None,
        SwapEvery::Balls(n) => Some((n, BALLS.1, BALLS.2)),
        SwapEvery::Minutes(n) => Some((n, MINUTES.1, MINUTES.2)),
    }
}

pub fn step(swap: SwapEvery, more: bool) -> SwapEvery {
    match swap {
        SwapEvery::Never => SwapEvery::Never,
        SwapEvery::Balls(n) => SwapEvery::Balls(step_u8(n, more, BALLS.1, BALLS.2)),
        SwapEvery::Minutes(n) => SwapEvery::Minutes(step_u8(n, more, MINUTES.1, MINUTES.2)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_swap_after_nothing_cannot_be_set() {
        for choice in SwapChoice::ALL {
            let mut swap = choice.usual();
            for _ in 0..100 {
                swap = step(swap, false);
                assert!(!matches!(swap, SwapEvery::Balls(0) | SwapEvery::Minutes(0)));
                assert_eq!(SwapChoice::of(swap), choice);
            }
            assert_eq!(figure(swap).map(|(n, least, _)| n == least), (choice != SwapChoice::OnTap).then_some(true));
        }
    }
}
