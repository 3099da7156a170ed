//! Versioned JSON: the record of one entry, the file of a whole copy, the block of a finished practice. Types of their own,
//! converted to and from `domain`. Reads no clock, touches no storage, panics for no bytes.

pub mod around; // a copy that is packed or locked
pub mod block; // a finished practice, packed for the database
pub mod calendar; // a date as fields of a record
pub mod file; // the copy that a coach sends and opens; its format
pub mod ics; // dates as an iCalendar file
pub mod library; // the drills that come with the app
pub mod moving; // a copy shown as codes, one after another
pub mod record; // one entry as one JSON text; its format
pub mod summary; // the counts of a packed practice
pub mod table; // contacts and children for a spreadsheet, as CSV

mod column; // columns of small numbers, written as rows of equal values
mod contact; // a contact and its corrections
mod document; // what the copy and the block share: entries in columns
mod fact; // a fact as the fields of a record
mod json; // objects whose unknown fields survive
mod lots; // balls given alike, in a summary
mod met; // who met whom, and what was judged twice, in a summary
mod notes;
mod plan;
mod play; // groups and games
mod refusal; // why a file is not taken, and the rules it must keep
mod rule; // a scoring rule
mod sections; // the columns of the frequent kinds
mod spec; // the nested parts of a record
mod tables; // what columns point at
mod words; // the word and the number of every choice
