//! Sentences of the plan: what it adds up to, what can be expected, what to change, what is on.

use super::counts::plural;
use crate::domain::plan::PartKind;
use crate::domain::plan::expect::{Coverage, Each, Expected};
use crate::domain::plan::propose::Why;
use crate::domain::skill::Skill;
use crate::stats::feeding::Range;

pub const TITLE: &str = "Plan";
pub const BACK: &str = "Back to Today";
pub const EMPTY: &str = "No plan yet";
pub const EMPTY_LINE: &str = "Parts in order with their minutes. While practice runs, the first screen shows what is on, how long, and what is next.";
pub const PROPOSE: &str = "Propose one";
pub const PROPOSE_LINE: &str = "From the last practices; change what you like";
pub const MAKE: &str = "Begin with nothing";
pub const AS_IT_GOES: &str = "No plan: keep it as it goes";
pub const COPY: &str = "As it was before";
pub const THROW: &str = "Throw this plan away";
pub const GYM: &str = "The gym is yours for";
pub const COLLECT: &str = "To collect the balls";
pub const COLLECT_LINE: &str = "Common practice, no source: change it to what you see.";
pub const ADD: &str = "Add a part";
/// As many as `Plan::MOST_PARTS`.
pub const FULL: &str = "40 parts: take one out first";
pub const ADD_CLOSE: &str = "Add nothing";
pub const ADDING: &str = "What comes?";
pub const NO_PARTS: &str = "Nothing in it yet. Add a part, in the order of practice.";
pub const PARTS: &str = "Parts";
pub const BALANCE: &str = "What is in it";
pub const CHANGE: &str = "What you could change";
pub const SETTINGS: &str = "Time and balls";
pub const MINUTES: &str = "Minutes";
pub const GROUPS: &str = "Groups at once";
pub const BALLS: &str = "Balls";
pub const FEEDS: &str = "Balls a minute from one source";
pub const AS_DRILL: &str = "as set";
pub const ALL_BALLS: &str = "all";
pub const AS_KNOWN: &str = "as known";
pub const NAME: &str = "Called";
pub const LOCK: &str = "Stays as long as it is";
pub const LOCK_LINE: &str = "Whatever overruns.";
pub const BALL: &str = "ball";
pub const NET: &str = "net";
pub const GAME: &str = "game-like";
pub const NO_BALL: &str = "no ball";
pub const WITH_BALL: &str = "With a ball";
pub const OVER_NET: &str = "Over the net";
pub const LIKE_GAME: &str = "Like a game";
pub const UP: &str = "Earlier";
pub const DOWN: &str = "Later";
pub const OUT: &str = "Take out";
pub const PUT_BACK: &str = "Put it back";
pub const WANTED: &str = "Have it after all";
pub const DROPPED: &str = "dropped";
pub const LOCKED: &str = "stays";
pub const ADDED: &str = "not planned";
pub const ON: &str = "on";
pub const BEGIN: &str = "Begin";
pub const BOARD: &str = "Open its board";
pub const NOTHING_ON: &str = "Nothing is on";
pub const NOTHING_ON_LINE: &str = "Begin the next part, or any drill.";
pub const NO_NEXT: &str = "Nothing is next";
pub const TO_PLAN: &str = "The plan";
pub const SHORTEN: &str = "Shorten the rest";
pub const DROP: &str = "Drop the last";
pub const KEEP: &str = "Keep it all";
pub const FIT: &str = "Make it fit";
pub const GIVE_MINUTES: &str = "Give it 5";
pub const CHANGE_DRILL: &str = "Change the drill";
pub const TAKE_OUT: &str = "Take it out";
pub const ON_TIME: &str = "on time";
pub const IN_PLAN: &str = "Planned and done";
pub const CHILDREN: &str = "Each child";
pub const CHILDREN_LINE: &str = "What the phone knows of: contacts were tapped or told; who served, caught or fetched is known by the places as they stood.";
pub const CHILDREN_HOME: &str = "A name leads to that child’s note home.";
/// Where the figures come from while the squad has none of its own.
pub const COMMON: &str = "at a common pace, no source";

pub fn move_label(title: &str) -> String {
    format!("Move {title}")
}

pub const fn kind(kind: PartKind) -> &'static str {
    match kind {
        PartKind::Arrival => "Arrival game",
        PartKind::Drill => "Drill",
        PartKind::Break => "Break",
        PartKind::Other => "Talk or warm-up",
    }
}

/// Beside Today's way to the plan.
pub fn short(n_parts: usize, minutes: u16, gym: u16) -> String {
    match n_parts {
        0 => "none yet".to_owned(),
        n => format!("{}, {}", plural(n, "part", "parts"), total(minutes, gym)),
    }
}

/// `85 of 90 min`
pub fn total(minutes: u16, gym: u16) -> String {
    format!("{minutes} of {gym} min")
}

pub fn minutes(n: u16) -> String {
    format!("{n} min")
}

/// Of a part: nobody said how long one lasts that came by itself.
pub fn lasts(n: u16, added: bool) -> String {
    if added && n == 0 { NO_END.to_owned() } else { minutes(n) }
}

pub const NO_END: &str = "open";

/// `15 planned`, beside the minutes it was fitted to.
pub fn fitted(planned: u16) -> String {
    format!("{planned} planned")
}

/// `ball, net, game-like`
pub fn marks(ball: bool, net: bool, game: bool) -> String {
    let all = [(ball, BALL), (net, NET), (game, GAME)];
    let said: Vec<&str> = all.into_iter().filter(|(on, _)| *on).map(|(_, word)| word).collect();
    if ball { said.join(", ") } else { [NO_BALL].into_iter().chain(said).collect::<Vec<_>>().join(", ") }
}

pub fn span(range: Range) -> String {
    if range.low == range.high { range.low.to_string() } else { format!("{} to {}", range.low, range.high) }
}

/// `about 6 contacts each, 4 to 8`
pub fn each(expected: &Expected) -> String {
    match expected.each {
        Each::Contacts(n) if n.high == 0 => "hardly a contact each".to_owned(),
        Each::Contacts(n) => format!("about {} each, {}", plural(n.likely as usize, "contact", "contacts"), span(n)),
        Each::Court { rallies, minutes } => {
            format!("about {minutes} min on the court each, {} rallies", span(rallies))
        }
    }
}

/// All of it, for the part that is open.
pub fn expected(expected: &Expected) -> Vec<String> {
    let from = match expected.n_runs {
        0 => COMMON.to_owned(),
        n => format!("as in your last {}, collecting included", plural(n, "run", "runs")),
    };
    let what = if matches!(expected.each, Each::Court { .. }) { "rallies" } else { "balls" };
    let mut lines = vec![
        format!("{}.", upper(&each(expected))),
        format!("About {} {what} in all, {}: {from}.", expected.balls.likely, span(expected.balls)),
    ];
    lines.extend(expected.fed.map(|n| format!("Each serves or tosses about {}, {}.", n.likely, span(n))));
    lines.extend(expected.fetched.map(|n| format!("Each catches or fetches about {}, {}.", n.likely, span(n))));
    lines
}

pub fn coverage(coverage: Coverage) -> String {
    match coverage {
        Coverage::Enough { turns, needed } => {
            format!("Every role comes round: {needed} turns are needed, there is time for {turns}.")
        }
        Coverage::TooFew { turns, needed, minutes } => {
            let way = minutes.map_or_else(String::new, |n| format!(" {n} min would do."));
            format!("Not every role comes round: {needed} turns are needed, there is time for {turns}.{way}")
        }
        Coverage::OnTap { needed } => format!("Every role has come round after {needed} turns; they change on tap."),
    }
}

pub fn too_few_turns(title: &str, coverage: Coverage) -> Option<String> {
    matches!(coverage, Coverage::TooFew { .. }).then(|| format!("“{title}”: {}", lower(&self::coverage(coverage))))
}

/// Kept with a plan, which stands on the phone while the children are there: it names nobody. By these words plans that wait are known
/// to have it, so they stay as they are.
pub const WHY_SEEN_LEAST: &str = "For those who were seen least lately.";

/// The evening before, for the coach alone.
pub fn why_seen_least(names: &[String]) -> String {
    format!("For those who were seen least lately: {}.", names.join(", "))
}

/// `no_practice`: there is none yet that anything could be told from.
pub fn why(why: &Why, no_practice: bool) -> String {
    match why {
        Why::Arriving => "Whoever is here plays; nobody waits for the last.".to_owned(),
        Why::NotDone => "Planned last time and not done.".to_owned(),
        Why::FewBalls(skill, 0) => format!("{} had no balls lately.", upper(skill_word(skill))),
        Why::FewBalls(skill, n) => {
            let balls = plural(*n as usize, "ball", "balls");
            format!("{} had the fewest balls lately: about {balls} each.", upper(skill_word(skill)))
        }
        Why::SeenLeast(_) => WHY_SEEN_LEAST.to_owned(),
        Why::LongAgo if no_practice => "One of your drills, to begin with.".to_owned(),
        Why::LongAgo => "Not used for the longest time.".to_owned(),
        Why::Break => "Water, in the middle.".to_owned(),
        Why::Playing => "To play what was practised.".to_owned(),
    }
}

fn skill_word(skill: &Skill) -> &str {
    match skill {
        Skill::Pass => "passing",
        Skill::Serve => "serving",
        Skill::Own(name) => name,
    }
}

pub fn little_ball(ball: u16, all: u16, title: &str) -> String {
    format!("{ball} of {all} min have a ball. One in “{title}” gives everyone more contacts.")
}

pub const NO_NET: &str = "Less than a third goes over the net. Turn a drill so that the ball crosses it.";
pub const NO_GAME: &str = "Nothing in it is like a game. Ten minutes of winners stay, two a side, would be.";

pub fn wait_long(title: &str, now: u32, minutes: u16, groups: usize, then: u32) -> String {
    format!(
        "“{title}”: about {} each in {minutes} min is long waiting. {groups} groups would give about {then}.",
        plural(now as usize, "contact", "contacts")
    )
}

/// Where a number of practices comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Practices {
    /// As many as stand in the calendar.
    Dates,
    LastYear,
    Guessed,
}

/// `10 min without a ball: over 40 practices (say) that is 6 h 40 min, as much as 4 practices of 90.`
pub fn season(without: u16, n_practices: u32, gym: u16, from: Practices) -> String {
    let all = u32::from(without) * n_practices;
    let which = match from {
        Practices::Dates => "as many as stand in this season’s calendar",
        Practices::LastYear => "as many as in your last year",
        Practices::Guessed => "say",
    };
    let (time, same) = (super::calendar::time(all), as_much_as(all, gym));
    let practices = plural(n_practices as usize, "practice", "practices");
    format!("{without} min without a ball: over {practices} ({which}) that is {time}{same}.")
}

/// `, as much as 4 practices of 90`; nothing where it is less than one.
pub fn as_much_as(min: u32, gym: u16) -> String {
    match min / u32::from(gym.max(1)) {
        0 => String::new(),
        whole => format!(", as much as {} of {gym}", plural(whole as usize, "practice", "practices")),
    }
}

pub fn over_gym(by: u16) -> String {
    format!("{} than the gym is yours.", plural(usize::from(by), "minute more", "minutes more"))
}

pub fn no_minutes(title: &str) -> String {
    format!("“{title}” has no minutes.")
}

pub fn too_few(title: &str, made_for: usize, here: usize) -> String {
    let are = if here == 1 { "is" } else { "are" };
    format!("“{title}” is made for {made_for}, {here} {are} here: places stay empty.")
}

pub fn drill_gone(title: &str) -> String {
    format!("The drill of “{title}” is no longer among your drills: it keeps its time and has no board.")
}

pub fn locked_too_long(by: u16) -> String {
    format!(
        "What stays needs {} more than there are: one of them would have to be shorter.",
        plural(usize::from(by), "minute", "minutes")
    )
}

pub fn lock_off(title: &str) -> String {
    format!("Let “{title}” be shortened")
}

pub fn was_taken_out(title: &str) -> String {
    format!("“{title}” is out.")
}

pub fn on_but_out(title: &str) -> String {
    format!("“{title}” is on and no longer in the plan: nobody knows how long. Begin the next when it is done.")
}

/// The way back from a tap too many, by what it takes back.
pub fn take_back(title: &str, ended: bool) -> String {
    if ended { format!("Undo the end of {title}") } else { format!("Undo the start of {title}") }
}

/// Which of the two can't be told.
pub fn slept(title: &str) -> String {
    format!("The phone slept long, or its clock was put forward: look whether “{title}” is over.")
}

/// `12:05`, or `+1:20` once its time is over; an hour is 60 minutes and more.
pub fn left(ms: i64) -> String {
    let s = ms.div_euclid(1_000);
    let (sign, s) = if s < 0 { ("+", -s) } else { ("", s) };
    format!("{sign}{}:{:02}", s / 60, s % 60)
}

/// On a board, under the key that ends the run: "8 min", "+2 min".
pub fn left_short(ms: i64) -> String {
    match ms {
        ms if ms >= 0 => format!("{} min", minutes_up(ms)),
        ms => format!("+{} min", minutes_up(-ms)),
    }
}

/// `left_short` in full.
pub fn left_of(title: &str, ms: i64) -> String {
    let what = if ms >= 0 { LEFT } else { OVER };
    format!("{title}: {} min {what}", minutes_up(ms.abs()))
}

/// Begun minutes are told as whole ones.
fn minutes_up(ms: i64) -> i64 {
    ms.unsigned_abs().div_ceil(60_000).try_into().unwrap_or(i64::MAX)
}

pub const LEFT: &str = "left";
pub const OVER: &str = "over its time";
pub const GONE: &str = "gone";

/// Called aloud.
pub fn over(title: &str) -> String {
    format!("Time for {title} is over")
}

/// How far the plan is behind, to the whole minute.
pub fn late(ms: i64) -> String {
    match ms / 60_000 {
        0 => ON_TIME.to_owned(),
        n if n > 0 => format!("{n} min late"),
        n => format!("{} min early", -n),
    }
}

pub fn gym_left(ms: i64) -> String {
    match ms / 60_000 {
        n if ms < 0 => format!("gym time over by {} min", -n + 1),
        n => format!("{n} min of gym time left"),
    }
}

pub fn next(title: &str) -> String {
    format!("Next: {title}")
}

pub fn begin(title: &str) -> String {
    format!("{BEGIN}: {title}")
}

/// `What is left needs 4 min more than the gym is yours.`
pub fn too_long(ms: i64) -> String {
    let min = (ms + 59_999) / 60_000;
    format!("What is left needs {min} min more than the gym is yours.")
}

/// What a choice would make of it: `Serving 12, Games 18`.
pub fn would_be(parts: &[(String, u16)]) -> String {
    let one = |(title, n): &(String, u16)| if *n == 0 { format!("{title} out") } else { format!("{title} {n}") };
    parts.iter().map(one).collect::<Vec<_>>().join(", ")
}

/// What a choice made of it.
pub fn made_to_fit(parts: &[(String, u16)]) -> String {
    format!("Fitted: {}.", would_be(parts))
}

/// Where a part stands among the others: `Serving, 2 of 5`.
pub fn place(title: &str, at: usize, of: usize) -> String {
    format!("{title}, {at} of {of}")
}

pub const AS_IT_WAS: &str = "As it was";

pub fn ends_late(time: &str) -> String {
    format!("ends about {time}")
}

/// `15 min planned, 18 min done`
pub fn planned_done(planned: Option<u16>, done: Done) -> String {
    let planned_min = planned.map(|n| format!("{n} min planned"));
    let planned_min = planned_min.unwrap_or_else(|| "not planned".to_owned());
    and_done(&planned_min, done)
}

/// `taken out, 22 min done`
pub fn out_done(done: Done) -> String {
    and_done("taken out", done)
}

fn and_done(planned_min: &str, done: Done) -> String {
    match done {
        Done::Not => format!("{planned_min}, not done"),
        Done::Begun => format!("{planned_min}, begun; its end wasn’t noted"),
        Done::For(ms) => format!("{planned_min}, {} min done", (ms + 30_000) / 60_000),
    }
}

/// What became of a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Done {
    Not,
    /// Nobody noted its end.
    Begun,
    /// So many milliseconds.
    For(u32),
}

/// `24 contacts, 6 served or tossed, 12 rallies in 8 min on the court`
pub fn child(judged: u32, fed: u32, fetched: u32, rallies: u32, court_ms: u32) -> String {
    let mut parts = Vec::new();
    if judged > 0 {
        parts.push(plural(judged as usize, "contact", "contacts"));
    }
    if fed > 0 {
        parts.push(format!("{fed} served or tossed"));
    }
    if fetched > 0 {
        parts.push(format!("{fetched} caught or fetched"));
    }
    if rallies > 0 {
        let min = match (court_ms + 30_000) / 60_000 {
            0 => "under a minute".to_owned(),
            n => format!("{n} min"),
        };
        parts.push(format!("{} in {min} on the court", plural(rallies as usize, "rally", "rallies")));
    }
    if parts.is_empty() { "nothing counted".to_owned() } else { parts.join(", ") }
}

pub const WHO_LEAST: &str = "Who was seen least";

pub fn seen_least(names: &[String]) -> String {
    format!("Seen least: {}.", names.join(", "))
}

/// A practice to copy from: `Wednesday 25 November: Arrival game, Serving, Games`
pub fn copy(day: &str, titles: &[&str]) -> String {
    format!("{day}: {}", titles.join(", "))
}

fn upper(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or_else(String::new, |first| first.to_uppercase().chain(chars).collect())
}

fn lower(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or_else(String::new, |first| first.to_lowercase().chain(chars).collect())
}
