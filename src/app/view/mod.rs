//! View models: what each screen shows, as plain values worked out from the model. `ui` draws them and does no arithmetic.

pub mod after;
pub mod as_one;
pub mod board;
pub mod calendar;
pub mod codes;
pub mod fair;
pub mod goals;
pub mod groups;
pub mod health;
pub mod home;
pub mod joining;
pub mod library;
pub mod notes;
pub mod own_goal;
pub mod plan;
pub mod removal;
pub mod report;
pub mod share;
pub mod squad;
pub mod today;
pub mod trust;
pub mod weeks;
