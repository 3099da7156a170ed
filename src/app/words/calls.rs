//! What the phone calls to the gym.

pub const SOON: &str = "Ten seconds";
pub const TIME: &str = "Time";
