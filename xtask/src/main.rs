//! Sets up, serves, tests and measures.
fn main() {}
