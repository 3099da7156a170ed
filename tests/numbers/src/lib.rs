//! Peppertally's `stats`, compiled by itself: that it compiles shows that it names nothing else, and it can be optimised alone (with all the pure
//! layers optimised, every change would be compiled for minutes). Beside it stands what it is held against and the app doesn't use.

pub mod difficulty;

#[path = "../../../src/stats/mod.rs"]
pub mod stats;
