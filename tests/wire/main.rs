//! The copy, the record and the block, from outside.
