//! Actions in, model and effects out; view models for every screen. No browser in here: time, randomness and identity arrive as
//! arguments.

pub mod action;
pub mod after;
pub mod apart;
pub mod as_one;
pub mod calendar;
pub mod codes;
pub mod demo;
pub mod effect;
pub mod fair;
mod forget;
pub mod goals;
pub mod groups;
pub mod health;
pub mod home;
pub mod joining;
pub mod library;
pub mod lock;
pub mod model;
pub mod named;
pub mod names;
pub mod notes;
mod on;
pub mod phones;
pub mod plan;
pub mod practices;
pub mod remote;
pub mod screen;
pub mod settings;
pub mod stepper;
pub mod steps;
pub mod update;
pub mod view;
pub mod weeks;
pub mod words;
pub mod work;
pub mod writer;
