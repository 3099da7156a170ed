//! What holds for every sequence of taps, whoever wrote it and in whatever order it arrived. Examples are in `tap_scripts`.

mod as_one;
mod asking;
mod base;
mod games;
mod joined;
mod lineup;
mod removed;
mod roles;
mod rules;
mod runs;
#[path = "../support/mod.rs"]
mod support;
mod taps;
mod turns;
mod writers;
