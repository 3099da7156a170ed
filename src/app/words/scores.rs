//! What a scoring rule says at the end of a run: of groups who has it, of children only what is each one's own.

use super::board_lines;
use super::counts::plural;
use super::rules;
use crate::domain::rule::{InRow, InTime, Together};
use crate::domain::scoring::Standing;

pub const COUNTS_ONLY: &str = "Good ones were counted and misses weren't: counts only, no rate.";
pub const GROUPS: &str = "Who was with whom";
pub const OWN_GOALS: &str = "Each child's own next step";
pub const OWN_GOALS_LINE: &str =
    "One more than it usually has: than the middle one of its last three times. For you, not for the others.";

/// `Best row 12, goal 10 reached. A miss fell back to the last five.`
pub fn row(rule: InRow, standing: Standing) -> String {
    let goal = standing.goal.map(|goal| match standing.best >= goal {
        true => format!(", goal {goal} reached"),
        false => format!(", goal {goal}"),
    });
    let how = falls(rule).map(|how| format!(" {how}")).unwrap_or_default();
    format!("Best row {}{}.{how}", standing.best, goal.unwrap_or_default())
}

/// How rows broke, where not to nothing.
pub fn falls(rule: InRow) -> Option<String> {
    rule.falls_to_five.then(|| "A miss fell back to the last five.".to_owned())
}

/// `25 points`, of a team in a match
pub fn points(n: u32) -> String {
    plural(n as usize, "point", "points")
}

/// `best row 12`, of a group
pub fn row_short(best: u32) -> String {
    format!("best row {best}")
}

/// `12 in a row, goal reached`, of a child
pub fn own_row(rule: InRow, best: u32) -> Option<String> {
    (best > 1).then(|| match rule.goal {
        Some(goal) if best >= u32::from(goal) => format!("{best} in a row, goal reached"),
        _ => format!("{best} in a row"),
    })
}

/// `now 7 of 8, last ten 6, best 9`, of a child's series
pub fn tens(n: u8, standing: Standing) -> String {
    let mut text = format!("now {} of {}", standing.now, standing.of.unwrap_or(0));
    if let Some(last) = standing.last {
        text.push_str(&format!(", {} {last}", board_lines::last_series(n)));
    }
    if standing.best > 0 {
        text.push_str(&format!(", best {}", standing.best));
    }
    text
}

/// `12 good ones in 2 min`, of a child. Where the time wasn't up, only the good ones.
pub fn own_time(rule: InTime, n: u32, is_up: bool) -> String {
    if is_up { format!("{} in {}", counted(n), rules::time(rule.seconds)) } else { counted(n) }
}

/// `27 good ones in 2 min.`
pub fn time(rule: InTime, n: u32) -> String {
    format!("{}.", own_time(rule, n, true))
}

/// `27 good ones. The time wasn’t up: 1:55 of 2 min left.`
pub fn time_left(rule: InTime, n: u32, left_s: u32) -> String {
    let left = board_lines::clock(left_s);
    format!("{}. The time wasn’t up: {left} of {} left.", counted(n), rules::time(rule.seconds))
}

/// `34 together, of 40 balls. Your best before was 31.`, `9 together, of 12 balls; 40 were the aim. It is your first of its kind.`
pub fn together(rule: Together, standing: Standing) -> String {
    let short = rule.balls.map(u32::from).zip(standing.of).filter(|(n, of)| of < n);
    let aim = |(n, of): (u32, u32)| format!("of {}; {n} were the aim", plural(of as usize, "ball", "balls"));
    let now = match (rule.row, rule.balls) {
        (true, _) => match short {
            Some(short) => format!("{} in a row together, {}", standing.best, aim(short)),
            None => format!("{} in a row together", standing.best),
        },
        (false, Some(n)) => {
            format!("{} together, {}", standing.now, short.map_or_else(|| format!("of {n} balls"), aim))
        }
        (false, None) => format!("{} together", standing.now),
    };
    format!("{now}. {}", board_lines::against_best(standing.last))
}

/// Nobody has it yet.
pub fn race_on(n: u16) -> String {
    format!("Nobody has it yet: first to {n}.")
}

pub const NO_BALLS: &str = "no balls counted";

/// `34 good ones`
pub fn counted(n: u32) -> String {
    plural(n as usize, "good one", "good ones")
}

/// Of a child's own goal: `about 6 in 10 times, of 10 balls as today`
pub fn own_goal(chance: f64, n_balls: u32) -> String {
    format!("{}, of {} as today", super::goals::often(chance), plural(n_balls as usize, "ball", "balls"))
}

/// `8 good ones`
pub fn goal(goal: u32) -> String {
    counted(goal)
}
