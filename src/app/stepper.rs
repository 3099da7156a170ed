//! One tap of a stepper: one more or one less, within its ends.

pub fn step_u8(n: u8, more: bool, low: u8, high: u8) -> u8 {
    let n = if more { n.saturating_add(1) } else { n.saturating_sub(1) };
    n.clamp(low, high)
}

/// Several at once.
pub fn step_u16(n: u16, more: bool, by: u16, low: u16, high: u16) -> u16 {
    let n = if more { n.saturating_add(by) } else { n.saturating_sub(by) };
    n.clamp(low, high)
}
