//! Pure numbers: proportions and how they are told, rows, pace, even groups. Knows no volleyball, reads no clock, writes no sentence.

pub mod agreement;
pub mod arrange;
pub mod beta;
pub mod chart;
pub mod faced;
pub mod feeding;
pub mod goal;
pub mod level;
pub mod many;
pub mod pace;
pub mod proportion;
pub mod ratings;
pub mod rows;
pub mod share;
pub mod special;
pub mod split;
