//! Versioned JSON: the record of one entry, the file of a whole copy, the block of a finished practice. Types of their own,
//! converted to and from `domain`. Reads no clock, touches no storage, panics for no bytes.

pub mod record; // one entry as one JSON text; its format

mod fact; // a fact as the fields of a record
mod json; // objects whose unknown fields survive
mod spec; // the nested parts of a record
mod words; // the word and the number of every choice
