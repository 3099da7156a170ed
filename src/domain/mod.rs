//! Squad, drills, entries and what they add up to. Knows volleyball practice, knows no browser.

pub mod calendar;
pub mod drill;
pub mod entry;
pub mod ids;
pub mod library;
pub mod lineup;
pub mod log;
pub mod lots;
pub mod notes;
pub mod plan;
pub mod refit;
pub mod replay;
pub mod roles;
pub mod roster;
pub mod rule;
pub mod run_clock;
pub mod scoring;
pub mod skill;
pub mod summary;
pub mod teams;
pub mod time;
pub mod together;
pub mod touches;
pub mod turns;
pub mod weeks;
