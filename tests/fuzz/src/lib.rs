//! What the targets share: how much memory was wanted, and changes to a copy that keep it JSON, so that more of them come past the reader.

pub mod change;
pub mod memory;
