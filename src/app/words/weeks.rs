//! How a child is doing over weeks, in words: how many are good now and how sure that is, whether that has changed, what it rests on.
//! Effort comes first; where less is good than before there is a question and no verdict.

pub mod carry;
pub mod days;
pub mod drill;
pub mod effort;
pub mod grades;
pub mod load;
pub mod rows;
pub mod serves;
pub mod squad;

use super::counts::{of, plural, share_words};
use super::ladder;
use crate::domain::ids::Step;
use crate::domain::skill::{Feed, FeedKind, Skill};
use crate::stats::proportion::{Count, Range};
use crate::stats::share::Share;

pub const TITLE: &str = "Over the weeks";
pub const OPEN: &str = "Over the weeks";
pub const OPEN_LINE: &str = "child by child";
pub const WORKING: &str = "Being worked out …";
pub const NOT_WORKED: &str = "It could not be worked out.";
pub const NOTHING: &str = "No balls yet";
pub const NOTHING_LINE: &str =
    "Once balls were tallied in a few practices, this page says how many are good, and whether that has changed.";
pub const SERVES: &str = "Where serves went";
pub const SERVES_LINE: &str =
    "Fast swings first, accuracy later: both show as a path. Swings are those noticed, so at least as many.";
pub const GAP: &str = "Easy and challenge balls";
pub const GAP_LINE: &str =
    "Of the last six weeks, all steps together; without balls that children scored themselves or told.";
pub const COUNTED: &str = "counted";
pub const LEVEL: &str = "level";
pub const NO_KIND: &str = "None of its balls are of the six kinds that the squad has most of.";
pub const BY_DAY: &str = "Day by day";
pub const HOW: &str = "How this is worked out";
pub const THIS_WEEK: &str = "this week";
pub const TODAY: &str = "today";
pub const TO_CHILD: &str = "Back to the child";
pub const TO_WEEKS: &str = "Back to all";
pub const QUESTION: &str = "Worth asking: what feels different from before?";

/// What the figures are, from which balls, how sure, by which formula and source.
pub const HOW_LINES: [&str; 7] = [
    "Good is a pass of grade 2 or better, a serve that is in, or what the drill of a skill of your own calls good. Numbers told, and passes or serves by two keys, stand by themselves. Games are left out: not every ball is noted there. The six kinds with most balls are looked at.",
    "Each child's level may move a little from week to week, and is taken to be near the squad's until its own balls say otherwise. So three of three don't lead.",
    "A ball that a child scored itself counts as much as your checks of such balls have shown, and half until you have checked some; so does a number told, for nobody sees those balls twice. Where a child scores more kindly than you, that is taken off.",
    "Where serves are passed, who served counts: the level is what the child would have against the squad's average serve.",
    "The band and the words hold in 95 of 100 cases, checked by simulated squads. A change is told only if it stands beside everyone else's; of those told about one in ten is chance all the same (Benjamini and Hochberg 1995).",
    "It all rests on every ball being tapped. Where mostly good ones are tapped, or mostly bad ones, the words are wrong, and no formula can tell.",
    "A walk of the log-odds with pooling over the squad, by Laplace's approximation (Fahrmeir 1992; Rue, Martino and Chopin 2009).",
];

/// `Passing, thrown over the net`, `Serving, from 6 m, challenge balls`
pub fn kind(skill: &Skill, feed: Feed, by_one_line: bool) -> String {
    let told = if by_one_line { "" } else { ", as told or by two keys" };
    let name = name(skill);
    let challenge = if feed.kind == FeedKind::Challenge { ", challenge balls" } else { "" };
    // The ball as it is needs no word where it was never another.
    let ball = match skill {
        Skill::Own(_) if feed.step == Step(0) => String::new(),
        _ => format!(", {}", ladder::from(skill, feed.step)),
    };
    format!("{name}{ball}{challenge}{told}")
}

/// `About 5 to 7 in 10 are good.`
pub fn now(range: Range) -> String {
    // The two words that tell of what are never on two lines.
    format!("{} are good.", capital(&share_words(Share::of_range(range))).replace("in 10", "in\u{a0}10"))
}

/// Where its own balls hardly say anything.
pub fn now_open(range: Range, n_tries: u32) -> String {
    let share = share_words(Share::of_range(range)).replace("in 10", "in\u{a0}10");
    let balls = plural(n_tries as usize, "ball", "balls");
    format!("{balls} so far. Until they say more, it is taken to be as the squad is: {share}.")
}

/// `Passing, tossed: more than on 3 September …`
pub fn of_kind(kind: &str, line: &str) -> String {
    format!("{kind}. {line}")
}

/// `4 of 5, by itself`: a count that nobody else has seen.
pub fn by_itself(count: &str) -> String {
    format!("{count}, not by you")
}

pub fn more(since: &str, likely: f64) -> String {
    format!("More than on {since}: {} more.", tenths(likely))
}

pub fn fewer(skill: &Skill, since: &str) -> String {
    let why =
        if *skill == Skill::Serve { "That happens while swings get faster." } else { "That happens: days differ." };
    format!("Fewer than on {since}. {why}")
}

pub fn no_change(since: &str) -> String {
    format!("About as on {since}, as far as the balls can tell.")
}

/// `About 45 more balls would tell whether it is over 8 in 10.`
pub fn would_tell(n: u32, line: u8) -> String {
    let line = if line.is_multiple_of(10) { format!("{} in 10", line / 10) } else { format!("{line} in 100") };
    format!("About {} would tell whether it is over {line}.", plural(n as usize, "more ball", "more balls"))
}

/// What was noticed; of a child that was hardly here there is nothing to miss.
pub fn efforts(n: u32, n_there: usize, n_practices: usize, weeks: u32) -> Option<String> {
    match (n, n_there) {
        (1.., _) => Some(format!("{} noticed in {weeks} weeks.", plural(n as usize, "effort", "efforts"))),
        (0, 2..) => Some(format!("No effort noticed in {weeks} weeks: something to look for.")),
        (0, 0) if n_practices > 0 => Some(format!("Not here in {weeks} weeks.")),
        _ => None,
    }
}

/// Of challenge balls against easy ones.
pub fn gap(low: f64, high: f64) -> String {
    match fewer_or_more(low, high) {
        Some(gap) => format!("Of challenge balls {gap} are good."),
        None => "The two can't be told apart yet.".to_owned(),
    }
}

/// `1 to 4 in 10 fewer`; `None` where the range holds no difference.
fn fewer_or_more(low: f64, high: f64) -> Option<String> {
    let both = |low: f64, high: f64| match ((low * 10.0).round(), (high * 10.0).round()) {
        (_, high) if high <= 1.0 => "up to 1 in 10".to_owned(),
        (low, high) if low < 1.0 => format!("up to {high} in 10"),
        (low, high) if low >= high => format!("about {high} in 10"),
        (low, high) => format!("{low} to {high} in 10"),
    };
    if high < 0.0 {
        Some(format!("{} fewer", both(-high, -low)))
    } else if low > 0.0 {
        Some(format!("{} more", both(low, high)))
    } else {
        None
    }
}

/// `week of 9 November`, `this week`
pub fn week(monday: &str, ago: i32) -> String {
    if ago == 0 { THIS_WEEK.to_owned() } else { format!("week of {monday}") }
}

/// `Passing: 14 of 20 easy, 5 of 12 challenge`
pub fn counted(skill: &Skill, easy: Count, challenge: Count) -> String {
    format!("{}: {} easy, {} challenge", name(skill), of(easy), of(challenge))
}

/// `at least 12 fast swings`
pub fn fast(n: u32) -> String {
    match n {
        0 => "no fast swings noted".to_owned(),
        n => format!("at least {}", plural(n as usize, "fast swing", "fast swings")),
    }
}

/// `34 serves: 20 in, 9 long, 3 wide, 2 net`
pub fn serves(n: u32, [n_in, long, wide, net]: [u32; 4]) -> String {
    let parts = [(n_in, "in"), (long, "long"), (wide, "wide"), (net, "net")];
    let parts: Vec<String> = parts.iter().filter(|(n, _)| *n > 0).map(|(n, word)| format!("{n}\u{a0}{word}")).collect();
    format!("{}: {}", plural(n as usize, "serve", "serves"), parts.join(", "))
}

/// For those who can't see the chart.
pub fn chart(kind: &str, first: &str, last: &str, now: &str) -> String {
    format!("{kind}, from {first} to {last}. {now}")
}

fn name(skill: &Skill) -> &str {
    match skill {
        Skill::Pass => "Passing",
        Skill::Serve => "Serving",
        Skill::Own(name) => name,
    }
}

fn tenths(share: f64) -> String {
    match (share.abs() * 10.0).round() {
        n if n < 1.0 => "a little".to_owned(),
        n => format!("about {n} in 10"),
    }
}

fn capital(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or_else(String::new, |first| first.to_uppercase().collect::<String>() + chars.as_str())
}
