//! Noticed efforts over the weeks, in words.

pub const NO_KIND: &str = "no kind given";
pub const BY_WEEK: &str = "Week by week, and what this is";
pub const MOMENTS: &str = "moments";
pub const WHAT: &str = "Moments that you noticed and gave to this child, by their kind. There is no rate and none can be made: nobody counts the moments that went unseen, and more are seen of whoever stands near you.";

/// For those who can't see it.
pub fn columns(n_weeks: i32) -> String {
    format!("Moments of effort noticed, week by week, {n_weeks} weeks")
}
