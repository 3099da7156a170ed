//! After a practice in two minutes: what went to plan, what is worth knowing, what is worth asking, the next plan. What is
//! worth knowing names no child on top, since the children are still there when practice ends: who it is stands behind a tap. A question names
//! whom to ask, for it has to, and tells nothing else of the child but how often it was here and was asked.

use super::counts::{of, plural, share};
use super::fair::and;
use super::plan::Done;
use super::weeks;
use crate::app::after::Better;
use crate::stats::proportion::Count;

pub const PLAN: &str = "To plan";
pub const KNOW: &str = "Worth knowing";
pub const KNOW_NONE: &str = "Nothing stands out.";
pub const KNOW_NOTHING: &str = "Nothing was counted, so there is nothing to know.";
pub const ASK: &str = "Worth asking";
pub const ASK_LINE: &str = "Of those asked least, as they leave or next time.";
pub const IS_ASKED: &str = "Asked";
/// The same key before.
pub const NOTE_ASKED: &str = "Note as asked";
pub const ALL: &str = "All of it";
pub const WORKING: &str = "What has changed over weeks is being worked out.";

/// `What has changed over weeks isn’t among this. It could not be worked out. …` Each time the report is opened it is tried again.
pub fn not_worked_out(why: &str) -> String {
    format!("What has changed over weeks isn’t among this. {} {why}", weeks::NOT_WORKED)
}

pub const CHANGED_HOW: &str = "It stands beside everyone else’s changes, from balls of weeks; of such claims about one in ten is chance all the same. Over the weeks says how it is worked out.";
pub const ASKED_NOW: &str = "Asked after this practice.";
pub const SHORT_HOW: &str = "Of balls that were tapped or told. Who was away, came late or went early is short of nothing. Two thirds of an even share or less, and four balls at least, is called short: a choice of ours.";
pub const DRILL_HOW: &str = "Told only where the range of half as many balls lies beyond the line, since balls of one child are alike, and where more than half of the children have a share of their own beyond it. The lines are yours (This phone). As they stand at first: over 8 in 10 beat practice without a criterion in volleyball (French and others 1991); under 5 in 10 is a choice of ours.";
pub const LEFT_OUT_HOW: &str = "Planned and never begun. The next plan has it first.";
pub const NO_EFFORT_HOW: &str = "Efforts are those you tapped, so this tells of the tapping. Who ran, dived or helped is worth a word as they leave.";

pub const WAY_WEEKS: &str = "Over the weeks";
pub const WAY_FAIR: &str = "Who had how much";
pub const WAY_DRILL: &str = "Change the drill";
pub const WAY_FIRST: &str = "Put it first next time";
pub const WAY_PLAN: &str = "The next plan";
pub const WAY_RUN: &str = "Look at it";
pub const WAY_NOTE: &str = "Note one now";

/// What became of a plan.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ToPlan {
    /// Parts that were planned, and those of them that were begun.
    pub n_planned: usize,
    pub n_done: usize,
    pub left_out: Vec<String>,
    /// The part that took longest beyond its minutes: as it is called, planned, done.
    pub longer: Option<(String, u16, u16)>,
    /// Begun though nobody had planned it.
    pub n_added: usize,
    /// The end of each part that was begun was noted, near its minutes.
    pub all_near: bool,
    /// Minutes that the parts which were done took and had, where all their ends were noted.
    pub took: Option<(u32, u32)>,
}

/// One sentence or two: `4 of 5 parts were done; not done: Serving. Games took 20 min instead of 12.`
pub fn to_plan(plan: &ToPlan) -> String {
    if plan.n_planned == 0 {
        let parts = plural(plan.n_added, "part", "parts");
        return format!("Nothing was planned: {parts} as it went.");
    }
    let parts = plural(plan.n_planned, "part", "parts");
    let done = match (plan.n_planned, plan.n_done) {
        (n, done) if n == done && n == 1 => "The one part was done".to_owned(),
        (n, done) if n == done => format!("All {parts} were done"),
        (_, 0) => format!("None of {parts} was done"),
        (n, 1) => format!("1 of {n} parts was done"),
        (n, done) => format!("{done} of {n} parts were done"),
    };
    let out = match &plan.left_out[..] {
        [] => String::new(),
        few if few.len() <= 2 => format!("; not done: {}", and(few)),
        [first, rest @ ..] => format!("; not done: {first} and {} more", rest.len()),
    };
    let added = match plan.n_added {
        0 => String::new(),
        n => format!("; {} not planned", plural(n, "part was", "parts were")),
    };
    let longer = match &plan.longer {
        Some((title, planned, done)) => format!(" {title} took {done} min instead of {planned}."),
        None if plan.all_near && plan.n_done > 0 => " Each took about as long as planned.".to_owned(),
        None => match plan.took {
            Some((took, had)) if plan.n_done > 0 && took != had => format!(" Together they took {took} min of {had}."),
            _ => String::new(),
        },
    };
    format!("{done}{out}{added}.{longer}")
}

/// `No plan: 3 drills, 120 contacts.`
pub fn no_plan(what: &str) -> String {
    format!("No plan was followed: {what}.")
}

/// So much longer than planned is worth a word: three minutes, and a fifth of it.
pub fn is_longer(planned: u16, done: Done) -> Option<u16> {
    let Done::For(ms) = done else { return None };
    let done = u16::try_from(ms.saturating_add(30_000) / 60_000).unwrap_or(u16::MAX);
    let by = done.saturating_sub(planned);
    (by >= 3 && u32::from(by) * 5 >= u32::from(planned)).then_some(done)
}

/// By less than that either way.
pub fn is_near(planned: u16, done: Done) -> bool {
    let Done::For(ms) = done else { return false };
    let by = (i64::from(ms) / 1_000 - i64::from(planned) * 60).abs();
    by < 180 || by * 5 < i64::from(planned) * 60
}

pub fn changed(n: usize) -> String {
    match n {
        1 => "More of one child’s balls are good than some weeks ago, and luck hardly explains it.".to_owned(),
        n => format!("More balls of {n} children are good than some weeks ago, and luck hardly explains it."),
    }
}

/// `Mira. Passing, tossed: more than on 3 September …`
pub fn changed_of(name: &str, better: &Better, since: &str) -> String {
    let kind = weeks::kind(&better.skill, better.feed, better.by_one_line);
    format!("{name}: {}", weeks::of_kind(&kind, &weeks::more(since, better.change.likely)))
}

pub fn short(n: usize, by_rallies: bool) -> String {
    let what = if by_rallies { "rallies" } else { "balls" };
    match n {
        1 => format!("One child had far fewer {what} than an even share."),
        n => format!("{n} children had far fewer {what} than an even share."),
    }
}

pub fn drill(name: &str, easy: bool) -> String {
    if easy {
        format!("“{name}” was easy for most: a harder ball would teach more.")
    } else {
        format!("“{name}” was hard for most: an easier ball, or less at once, would teach more.")
    }
}

/// `52 of 60 good: about 8 to 9 in 10.`
pub fn drill_count(count: Count) -> String {
    format!("{} good: {}.", of(count), share(count))
}

pub fn left_out(titles: &[String]) -> String {
    format!("Planned and not done: {}.", and(titles))
}

pub fn together(best: u32, before: u32, row: bool) -> String {
    let row = if row { " in a row" } else { "" };
    format!("Together you reached {best}{row}, {} more than ever before.", best.saturating_sub(before))
}

pub fn together_how(name: &str, before: u32) -> String {
    format!("In “{name}”, by the same rule and of as many balls. Before it was {before}.")
}

pub const NO_EFFORT: &str = "No effort was noted, in a practice with many balls.";

/// The key for the next plan, and the line under it.
pub fn next_plan(made: bool) -> &'static str {
    if made { "The next plan" } else { "Make the next plan" }
}

/// Of a date, or of the next practice whenever it is.
pub fn next_line(date: Option<&str>, made: bool, from_this: bool) -> String {
    let day = date.map_or_else(|| "the next practice".to_owned(), str::to_owned);
    match (made, from_this) {
        (true, _) => format!("{day}: the plan that you have already"),
        (false, true) => format!("{day}: as this one, what was left out first"),
        (false, false) => format!("{day}: out of the last practices"),
    }
}
