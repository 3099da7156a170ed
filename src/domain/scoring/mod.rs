//! What contacts add up to: totals of a child, and each scoring rule in a module of its own. Scores are functions of the
//! stored facts; what comes next is only proposed.

pub mod tally;
pub mod transition;
