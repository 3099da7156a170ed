//! Small parts that know how to be touched and nothing of what they mean.

pub mod floor;
pub mod hold;
pub mod icon;
pub mod key;
pub mod press;
pub mod saved;

pub use floor::{floor, small_floor};
pub use hold::HoldKey;
pub use icon::{Icon, Shape};
pub use key::{Answer, Key, unmark};
pub use press::{Clicked, Press, Turn, clicked};
pub use saved::Saved;
