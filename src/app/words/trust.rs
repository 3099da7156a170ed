//! How far to trust what children score themselves: how often they and the coach agree, and which way they lean. Of stations, never of a child.

use super::counts::{plural, share_words};
use crate::domain::lots::What;
use crate::stats::proportion::Range;
use crate::stats::share::Share;

pub const TITLE: &str = "Self-scored balls";
pub const OPEN_LINE: &str = "How far to trust what children tap themselves";
pub const LEAD: &str =
    "Of all children together, never of one: it is the station that is checked, and how it is explained.";
pub const NOT_CHECKED: &str = "Not checked yet: such a ball counts half.";
pub const TO_CHECK: &str = "To check: in a drill, “Children”, then “All, and I check ten”. Each child taps its ball, then you tap the same ball as you saw it.";
pub const TOLD: &str = "Numbers told";
pub const TOLD_LINE: &str =
    "They count half. Nobody sees those balls twice, so nothing here can show what they are worth.";
pub const LEVEL: &str = "They call about as many good as you do, as far as these balls can tell.";
pub const HOW: &str = "How this is worked out";
pub const STATIONS: &str = "Station by station";
pub const STATIONS_LINE: &str = "One drill’s stations together, whoever was at them: one that leans may need to be shown once more. What a ball counts comes from all of a kind, as above.";
pub const TO_AFTER: &str = "Back to all practices";

/// What the figures are, from which balls, how sure, by which formula and source.
pub const HOW_LINES: [&str; 5] = [
    "Only balls that both of you judged: at a station while you check, and where another phone counted the same drill at the same time. There a child’s balls are laid against each other in their order, at most 15 seconds apart; which of them are pairs is our choice.",
    "Kappa is agreement beyond chance, 1 all and 0 none (Cohen 1960); by steps, a grade next to yours counts for two thirds, the next for one (Cicchetti and Allison 1971). Its range is that of Fleiss, Cohen and Everitt (1969), in 95 of 100 cases.",
    "Which way they lean: the difference of the two shares good of the same balls, by Newcombe’s method for pairs (1998).",
    "What a ball is worth is how much it still tells of the share after such errors: the square of the correlation of the two judgements, which is the ratio of the two Fisher informations. Twenty balls worth a half are thought of beside those you checked; that is our choice.",
    "It assumes that the balls you checked are like the others. If children score otherwise while you watch, no formula can tell.",
];

pub const fn kind(what: What) -> &'static str {
    match what {
        What::Pass => "Passes, by grade",
        What::Serve => "Serves, by where they went",
        What::Own => "Good or not good",
    }
}

/// `You checked 60 of their balls. Of about 8 to 9 in 10 you both said the same, good or not.`
pub fn agreed(n: u32, range: Option<Range>) -> String {
    let balls = plural(n as usize, "of their balls", "of their balls");
    match range {
        Some(range) => {
            let share = share_words(Share::of_range(range)).replace("in 10", "in\u{a0}10");
            format!("You checked {balls}. Of {share} you both said the same, good or not.")
        }
        None => format!("You checked {balls}: too few to say more."),
    }
}

/// Grades, and where a serve went: the same, or another.
pub fn same_step(same: u32, n: u32) -> String {
    format!("The very same step: {same} of {n}.")
}

/// Which way they lean, once that can be told.
pub fn leans(low: f64, seen: f64, high: f64) -> String {
    if low <= 0.0 && high >= 0.0 {
        return LEVEL.to_owned();
    }
    let tenths = match (seen.abs() * 10.0).round() {
        n if n < 1.0 => "fewer than 1 in 10".to_owned(),
        n => format!("about {n} in 10"),
    };
    let (more, why) = if seen > 0.0 {
        ("more", "Show once more what counts as good.")
    } else {
        ("fewer", "They are stricter with themselves than you are.")
    };
    format!("They call {tenths} {more} good than you do. {why}")
}

/// `So such a ball counts as about 7 in 10 of one that you tapped.`
pub fn counts_as(worth: f64) -> String {
    match (worth * 10.0).round() {
        n if n < 1.0 => "So such a ball counts next to nothing.".to_owned(),
        n if n > 9.0 => "So such a ball counts nearly as one that you tapped.".to_owned(),
        n => format!("So such a ball counts as about {n}\u{a0}in\u{a0}10 of one that you tapped."),
    }
}

/// `Kappa 0.72, between 0.51 and 0.86; by steps 0.80, between 0.62 and 0.91.`
pub fn kappa(plain: (f64, f64, f64), by_steps: Option<(f64, f64, f64)>) -> String {
    let one = |(value, low, high): (f64, f64, f64)| format!("{value:.2}, between {low:.2} and {high:.2}");
    let steps = by_steps.map_or_else(String::new, |kappa| format!("; by steps {}", one(kappa)));
    format!("Kappa {}{steps}.", one(plain))
}

/// `They called 36 of 60 good, you 24: 20 in 100 more, between 11 and 31 more.`
pub fn bias([child, coach, n]: [u32; 3], low: f64, seen: f64, high: f64) -> String {
    let hundredths = |share: f64| {
        let n = (share * 100.0).round();
        if n < 0.0 { format!("{} fewer", -n) } else { format!("{} more", n.abs()) }
    };
    let of = hundredths(seen).replacen(' ', " in 100 ", 1);
    format!("They called {child} of {n} good, you {coach}: {of}, between {} and {}.", hundredths(low), hundredths(high))
}

pub const NO_KAPPA: &str = "Kappa can’t be told where one of you said the same of every ball.";

/// `12 balls stand on one phone alone and could not be compared.`
pub fn alone(n: u32) -> Option<String> {
    let balls = plural(n as usize, "ball stands", "balls stand");
    (n > 0).then(|| format!("{balls} on one phone alone and could not be compared."))
}
