//! Everyone over the weeks, in words.

use crate::app::words::counts::plural;

pub const PICTURES: &str = "What the pictures show";
pub const BEFORE: &str = "the kind of ball before";
pub const AFTER: &str = "the next kind of ball";
pub const PICTURES_LINE: &str =
    "Top of a picture: all good; the band is where the level lies. All of the same days, in the squad’s order.";
pub const NOT_NOTICED: &str = "Not noticed yet";
pub const NOT_NOTICED_LINE: &str = "For your eyes alone. It tells where you looked, not how anyone tried.";

/// For those who can't see it.
pub fn spark(n_days: usize) -> String {
    format!("level over {}", plural(n_days, "day", "days"))
}

pub fn not_noticed(n_noticed: usize, weeks: u32) -> String {
    match n_noticed {
        0 => {
            format!("No effort of anyone was noticed in {weeks} weeks. Next practice, watch one child for five balls.")
        }
        _ => format!(
            "Here at two practices or more in {weeks} weeks, and no effort noticed yet. Someone to watch next time:"
        ),
    }
}
