//! One day among others, in words: within chance or not, and what has changed since then.

use crate::app::words::counts::plural;

pub const LATEST: &str = "The latest day; touch an earlier one for the change since.";
pub const EARLIER: &str = "earlier";
pub const LATER: &str = "later";
pub const ALL: &str = "all";
pub const HALF: &str = "half";
pub const NONE: &str = "none";
pub const DAY: &str = "Day";

/// What stands behind a kind's chart.
pub const WHAT: &str = "What this is";
pub const WHAT_LINES: [&str; 4] = [
    "Top line: all good; bottom line: none. A ball is a day, larger with more balls; the band is where the level lies, in 95 of 100 cases, and the line its middle.",
    "The thin bar at a day is as far as so many balls stray by chance: three standard deviations either side of what all the other days lead to (as in Shewhart’s chart for shares), with the usual ups and downs of days, how hard the balls were where that is known, and all that isn’t known of the level. Ten balls stray far.",
    "A ringed day is more than chance: held against what all the other days show, the usual ups and downs of days included, with everyone’s days looked at together. Of the ringed ones about one in ten is chance all the same (Benjamini and Hochberg 1995).",
    "The change since a day is a range that holds in 95 of 100 cases. Whoever chooses the day after looking finds change where there is none; what stands over everyone is said by itself.",
];

/// `From 214 balls on 18 days.`
pub fn from(n_tries: u32, n_days: usize) -> String {
    format!("From {} on {}.", plural(n_tries as usize, "ball", "balls"), plural(n_days, "day", "days"))
}

pub fn within(count: &str) -> String {
    format!("{count}. Within chance.")
}

pub fn rare(count: &str, chance: f64) -> String {
    format!("{count}. Chance brings a day like this about {}, and there are many days.", once_in(chance))
}

pub fn beyond(count: &str, chance: f64, more: bool) -> String {
    let ask = if more { "Worth asking: what went so well?" } else { "Worth asking: what was different?" };
    format!("{count}. More than chance, which brings a day like this about {}. {ask}", once_in(chance))
}

/// `Since then: 1 to 3 in 10 more good. The chance that it is more: 9 in 10.`
pub fn since(low: f64, high: f64, up: f64) -> String {
    format!("Since then: {}. {}", between(low, high), how_likely(up))
}

/// In tenths: finer would look like more than is known.
fn between(low: f64, high: f64) -> String {
    let tenth = |share: f64| (share * 10.0).round() as i32;
    let end = |n: i32| match n {
        0 => "the same".to_owned(),
        1.. => format!("{n} in 10 more"),
        _ => format!("{} in 10 fewer", -n),
    };
    match (tenth(low), tenth(high)) {
        (0, 0) => "hardly any change".to_owned(),
        (low, high) if low == high => format!("about {} good", end(low)),
        (low @ 1.., high) => format!("{low} to {high} in 10 more good"),
        (low, high @ ..=-1) => format!("{} to {} in 10 fewer good", -high, -low),
        (low, high) => format!("between {} and {} good", end(low), end(high)),
    }
}

fn how_likely(up: f64) -> String {
    let way = if up > 0.5 { "more" } else { "less" };
    match (up.max(1.0 - up) * 10.0).round() as u8 {
        ..=5 => "As likely more as less.".to_owned(),
        10.. => format!("That it is {way} is nearly sure."),
        n => format!("The chance that it is {way}: {n} in 10."),
    }
}

/// `once in 40`: two figures are more than enough.
pub fn once_in(chance: f64) -> String {
    let n = 1.0 / chance.max(1e-4);
    match n {
        n if n >= 9_500.0 => "once in 10,000 or less".to_owned(),
        n if n >= 1_000.0 => format!("once in {},000", (n / 1_000.0).round()),
        n if n >= 100.0 => format!("once in {}", (n / 100.0).round() * 100.0),
        n => format!("once in {}", (n / 10.0).round() * 10.0),
    }
}
