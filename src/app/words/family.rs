//! One child's own data, for its family.

use super::counts::plural;
use crate::domain::touches::Touches;

pub const ABOUT: &str = "These are the balls that somebody tapped, so at least as many were played. Ten balls say little: a range such as “about 4 to 9 in 10” says how little. Serves and tosses, catches and fetches are told by where the children stood. The app puts no other child in this page; drills are called as the coach calls them, unless that names another child. What a coach writes for itself, notes and questions, isn’t in it either.";
pub const A_DRILL: &str = "A drill";
pub const OPEN: &str = "Whose";
pub const EVERYONE: &str = "Everyone";

pub fn title(name: &str) -> String {
    format!("{name}: what was counted")
}

pub fn what(name: &str, n_practices: usize, written: &str) -> String {
    match n_practices {
        0 => format!("Nothing of {name} was counted in this time. Written {written}."),
        n => format!("What was counted of {name} in {}. Written {written}.", plural(n, "practice", "practices")),
    }
}

/// `18 judged; by the places, 4 served or tossed, 2 caught.`
pub fn touches(touches: Touches) -> String {
    let others = [(touches.fed, "served or tossed"), (touches.caught, "caught"), (touches.fetched, "fetched")];
    let others: Vec<String> = others.iter().filter(|(n, _)| *n > 0).map(|(n, word)| format!("{n} {word}")).collect();
    match (touches.judged, others.as_slice()) {
        (n, []) => format!("{} of its own.", plural(n as usize, "ball", "balls")),
        (0, others) => format!("By the places: {}.", others.join(", ")),
        (n, others) => {
            format!("{} of its own; by the places, {}.", plural(n as usize, "ball", "balls"), others.join(", "))
        }
    }
}

/// `Effort noticed 3 times: dived, ran for it.`
pub fn efforts(kinds: &[Option<String>]) -> String {
    let mut named: Vec<&str> = Vec::new();
    for kind in kinds.iter().flatten() {
        if !named.contains(&kind.as_str()) {
            named.push(kind);
        }
    }
    let times = match kinds.len() {
        1 => "once".to_owned(),
        2 => "twice".to_owned(),
        n => format!("{n} times"),
    };
    if named.is_empty() {
        format!("Effort noticed {times}.")
    } else {
        format!("Effort noticed {times}: {}.", named.join(", "))
    }
}
