//! The ladder of a drill in words: what each step of the ball is called. Serving moves back, passing gets a harder ball (common
//! practice, no source); a skill of the coach's own has numbered steps.

use crate::domain::ids::Step;
use crate::domain::skill::Skill;

/// Where the server stands.
const SERVE: [&str; 5] = ["3 m", "4.5 m", "6 m", "7.5 m", "behind the line"];
/// How the ball comes to the passer. From the far steps only: the server who stands deepest gives it.
const PASS: [&str; 5] = ["tossed", "thrown over the net", "served easy", "served hard", "hard, far steps only"];

/// `tossed`, `6 m`, `step 3`; past the top of a ladder its step has a number.
pub fn step(skill: &Skill, step: Step) -> String {
    let ladder: &[&str] = match skill {
        Skill::Pass => &PASS,
        Skill::Serve => &SERVE,
        Skill::Own(_) => &[],
    };
    ladder.get(usize::from(step.0)).map_or_else(|| format!("step {}", u32::from(step.0) + 1), |word| (*word).to_owned())
}

/// The highest step of a ladder; that of a skill of the coach's own ends there too.
pub const TOP: Step = Step(4);
