//! Folding entries into what is known: `base` for squad, drills and practices, `run` for one run. Folding is the same whatever
//! the order of arrival; advancing by one entry equals folding all.

pub mod amend;
pub mod base;
mod dates;
mod in_match;
pub mod joined;
pub mod line;
mod notes;
pub mod part;
pub mod places;
mod plans;
pub mod run;
