//! Everyone over the weeks, in words.

use crate::app::words::counts::plural;

pub const PICTURES: &str = "What the pictures show";
pub const BEFORE: &str = "the kind of ball before";
pub const AFTER: &str = "the next kind of ball";
pub const WHAT_LINES: [&str; 3] = [
    "Children stand in the squad’s order, whatever their figures. The pictures are of one kind of ball at a time, all of the same days; top: all good, bottom: none; the band is where the level lies, in 95 of 100 cases.",
    "What there is more of is said here; what is less is on the child’s own page, with a question. A band that looks higher than another says little while the two overlap.",
    "Efforts are those you noticed in the last six weeks, so they tell of your eyes too.",
];
pub const NOT_NOTICED: &str = "Not noticed yet";
pub const NOT_NOTICED_LINE: &str = "For your eyes alone. It tells where you looked, not how anyone tried.";

/// Where nothing stands out: what the balls can't tell isn't said to be none. The whole sentence is the child's page's.
pub fn as_on(since: &str) -> String {
    format!("About as on {since}, as far as the balls tell.")
}

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
