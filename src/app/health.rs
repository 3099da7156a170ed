//! What the health page knows beyond the storage's own state: how much room there is, and what a check of everything has found.

use super::work::Verified;

#[derive(Clone, Debug, Default, PartialEq)]
pub struct Health {
    pub room: Option<Room>,
    /// Everything is being counted again.
    pub checking: bool,
    pub found: Option<Checked>,
}

/// By the browser's own estimate.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Room {
    pub used_bytes: u64,
    pub most_bytes: u64,
}

#[derive(Clone, Debug, PartialEq)]
pub enum Checked {
    Found(Verified),
    /// What differed was put right.
    PutRight(Verified),
    /// It could not be done: one sentence.
    Not(String),
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HealthTap {
    Check,
    PutRight,
}
