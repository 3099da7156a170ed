//! The ladder of a drill in words: what each step of the ball is called. Serving moves back, passing gets a harder ball (common
//! practice, no source); of a skill of the coach's own the ball is as it is, or easier or harder than that, by feed or distance.

use crate::domain::ids::Step;
use crate::domain::skill::Skill;

/// Where the server stands.
const SERVE: [&str; 5] = ["3 m", "4.5 m", "6 m", "7.5 m", "behind the line"];
/// How the ball comes to the passer. From the far steps only: the server who stands deepest gives it.
const PASS: [&str; 5] = ["tossed", "thrown over the net", "served easy", "served hard", "hard, far steps only"];
const OWN: [&str; 5] = ["as it is", "one harder", "two harder", "three harder", "four harder"];
const EASIER: [&str; 2] = ["two easier", "one easier"];

/// The steps to choose from, the easiest first. The one in force is among them even where the ladder ends before it: a drill may be
/// kept on a higher one, and was on some that have no word any more.
pub fn rungs(skill: &Skill, in_force: Option<Step>) -> Vec<Step> {
    const LADDER: [Step; 7] = [Step(Step::EASIER), Step(u8::MAX), Step(0), Step(1), Step(2), Step(3), Step(4)];
    let ladder = match skill {
        Skill::Own(_) => &LADDER[..],
        // Nothing is easier than a toss, or a serve from three metres.
        Skill::Pass | Skill::Serve => &LADDER[EASIER.len()..],
    };
    let mut rungs = ladder.to_vec();
    if let Some(step) = in_force.filter(|step| !ladder.contains(step)) {
        rungs.insert(if step.easier().is_some() { 0 } else { ladder.len() }, step);
    }
    rungs
}

/// `tossed`, `6 m`, `one easier`; past the top of a ladder its step has a number.
pub fn step(skill: &Skill, step: Step) -> String {
    let ladder: &[&str] = match skill {
        Skill::Pass => &PASS,
        Skill::Serve => &SERVE,
        Skill::Own(_) => &OWN,
    };
    let word = below(step).or_else(|| ladder.get(usize::from(step.0)).copied());
    word.map_or_else(|| format!("step {}", u32::from(step.0) + 1), str::to_owned)
}

/// `two easier`; `None` on the ladder itself.
pub fn below(step: Step) -> Option<&'static str> {
    EASIER.get(step.easier()?).copied()
}

/// What a step's ball is called where children read it: a distance, or how it is given. `None` where there is no word for the ball but
/// that it is easier or harder than another's.
pub fn open(skill: &Skill, at: Step) -> Option<String> {
    match skill {
        Skill::Own(_) => None,
        Skill::Pass | Skill::Serve => Some(step(skill, at)),
    }
}

/// `from 4.5 m`, `served easy`: a step in a sentence.
pub fn from(skill: &Skill, at: Step) -> String {
    match skill {
        Skill::Serve if usize::from(at.0) < SERVE.len() => format!("from {}", step(skill, at)),
        _ => step(skill, at),
    }
}

/// The same on a key, and beside a figure, where there is room for one word.
const SERVE_SHORT: [&str; 5] = ["3 m", "4.5 m", "6 m", "7.5 m", "far back"];
const PASS_SHORT: [&str; 5] = ["tossed", "thrown", "easy", "hard", "hard, far"];
const OWN_SHORT: [&str; 5] = ["as it is", "harder", "2 harder", "3 harder", "4 harder"];
const EASIER_SHORT: [&str; 2] = ["2 easier", "easier"];

pub fn short(skill: &Skill, step: Step) -> String {
    let ladder = match skill {
        Skill::Pass => &PASS_SHORT,
        Skill::Serve => &SERVE_SHORT,
        Skill::Own(_) => &OWN_SHORT,
    };
    let below = step.easier().and_then(|at| EASIER_SHORT.get(at));
    below.or_else(|| ladder.get(usize::from(step.0))).map_or_else(|| numbered(step), |word| (*word).to_owned())
}

/// `Step 2`, `Easier`, where the drill's ladder is set.
pub fn numbered(step: Step) -> String {
    match step.easier() {
        Some(_) => "Easier".to_owned(),
        None => format!("Step {}", u32::from(step.0) + 1),
    }
}
