//! Squad, drills, entries and what they add up to. Knows volleyball practice, knows no browser.

pub mod drill;
pub mod entry;
pub mod ids;
pub mod skill;
pub mod time;
