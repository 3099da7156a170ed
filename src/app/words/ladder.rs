//! The steps of a drill's ladder in words: how far from the net, how hard the ball comes. Easiest first.

use crate::domain::ids::Step;
use crate::domain::skill::Skill;

/// From where one serves.
const SERVE: [&str; 5] = ["3 m", "4.5 m", "6 m", "7.5 m", "behind the line"];
/// How the ball comes to one who passes. Hard serves come from the far steps alone.
const PASS: [&str; 5] = ["tossed", "thrown over the net", "served easy", "served hard", "hard, far steps only"];

/// `4.5 m`, `served easy`; `step 3` of a skill of the coach's own and beyond the list.
pub fn step(skill: &Skill, step: Step) -> String {
    let named = match skill {
        Skill::Serve => SERVE.get(usize::from(step.0)),
        Skill::Pass => PASS.get(usize::from(step.0)),
        Skill::Own(_) => None,
    };
    named.map_or_else(|| format!("step {}", u16::from(step.0) + 1), |word| (*word).to_owned())
}
