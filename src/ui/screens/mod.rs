//! One component a screen: markup and handlers over a view model. Works nothing out; what is tapped goes to the shell.

pub mod after;
pub mod calendar;
pub mod child;
pub mod contacts;
pub mod drill;
pub mod groups;
pub mod install;
pub mod library;
pub mod library_drill;
pub mod my_drills;
pub mod notes;
pub mod parts;
pub mod phone;
pub mod pictures;
pub mod plan;
pub mod practice_report;
pub mod remote;
pub mod report;
pub mod roster;
pub mod run;
pub mod run_report;
pub mod share;
pub mod squad;
pub mod today;
pub mod weeks;
