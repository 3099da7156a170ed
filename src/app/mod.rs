//! Actions in, model and effects out; view models for every screen. No browser in here: time, randomness and identity arrive as
//! arguments.

pub mod action;
pub mod screen;
pub mod view;
