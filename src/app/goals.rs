//! A goal that fits: what is asked of the worker for the drill that is being set, and what came of it. One question at a time; says nothing,
//! for that is the view's. What a question rests on is in `about`.

mod about;
mod choices;

pub use about::{About, Basis};

use super::effect::Effect;
use super::model::Model;
use super::plan::shown;
use super::words;
use super::work::Job;
use super::work::goals::{Asked, Reach};
use crate::domain::ids::DrillId;
use crate::domain::plan::{Plan, PlanPart};
use crate::domain::rule::{FirstTo, InRow, MatchGame, Rule, Transition, TransitionEnd, WinnersStay};

/// What is tapped on the card of a goal, and where its lines are set.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GoalsTap {
    /// This one, for the drill that is being set.
    Taken(u32),
    MinutesStepped(bool),
    WishStepped(bool),
    UpperStepped(bool),
    LowerStepped(bool),
}

#[derive(Clone, Debug, Default, PartialEq)]
pub struct Goals {
    /// What the last question was about.
    pub about: Option<About>,
    /// It has no answer yet.
    asking: bool,
    /// Each goal's, in the order of the question.
    pub found: Option<Vec<Reach>>,
    /// Why they could not be worked out.
    pub trouble: Option<String>,
    /// As the coach set them for this drill; the plan's until then.
    pub minutes: Option<u16>,
}

/// Where neither plan nor coach says otherwise.
const MINUTES: u16 = 8;
pub const MOST_MINUTES: u16 = 30;
/// What the worker is asked, unless it has been.
pub fn want(model: &mut Model) -> Option<Effect> {
    if model.goals.asking {
        return None;
    }
    let about = about::about(model)?;
    let goals = &mut model.goals;
    if goals.about.as_ref() == Some(&about) && goals.trouble.is_none() {
        return None;
    }
    let had = goals.about.as_ref().and_then(About::asked);
    let asked = about.asked().filter(|asked| had != Some(*asked) || goals.found.is_none()).cloned();
    if asked.is_some() || about.asked().is_none() {
        goals.found = None;
    }
    (goals.about, goals.asking, goals.trouble) = (Some(about), asked.is_some(), None);
    asked.map(|asked| Effect::Work(Job::Goals { asked }))
}

/// The answer to this question; of another one it is dropped. One that isn't about each goal is none: that is said, and not asked again by itself.
pub fn worked_out(model: &mut Model, asked: &Asked, found: Vec<Reach>) -> Option<Effect> {
    let goals = &mut model.goals;
    goals.asking = false;
    if goals.about.as_ref().and_then(About::asked) == Some(asked) {
        if found.len() != asked.goals.len() {
            goals.trouble = Some(words::goals::NO_ANSWER.to_owned());
            return None;
        }
        goals.found = Some(found);
    }
    // The drill was changed meanwhile.
    super::update::wanted_by_screen(model)
}

pub fn not_worked_out(model: &mut Model, why: String) {
    model.goals.asking = false;
    model.goals.trouble = Some(why);
}

/// The part of the plan for now that this drill is.
fn planned(model: &Model, drill: DrillId) -> Option<(&Plan, &PlanPart)> {
    let plan = model.base.plan(shown(model)?)?;
    plan.parts.iter().find(|part| part.drill == Some(drill) && !part.is_dropped()).map(|part| (plan, part))
}

/// The time there is: as it was set, as it is planned, or a few minutes.
pub fn minutes(model: &Model) -> u16 {
    let drill = model.drafts.drill.as_ref().and_then(|draft| draft.drill);
    let planned = || drill.and_then(|drill| planned(model, drill)).map(|(_, part)| part.minutes_now());
    model.goals.minutes.or_else(planned).unwrap_or(MINUTES).clamp(1, MOST_MINUTES)
}

/// The rule with this goal; `None` where it has none that could be set.
pub fn with_goal(rule: Rule, goal: u32) -> Option<Rule> {
    let goal = u16::try_from(goal).ok().filter(|goal| *goal > 0)?;
    Some(match rule {
        Rule::Tally { .. } => Rule::Tally { goal: Some(goal) },
        Rule::InRow(rule) => Rule::InRow(InRow { goal: Some(goal), ..rule }),
        Rule::FirstTo(rule) => Rule::FirstTo(FirstTo { n: goal, ..rule }),
        Rule::Transition(rule) => {
            let end = match rule.end {
                TransitionEnd::DuelPoints(_) => TransitionEnd::DuelPoints(goal),
                TransitionEnd::Rounds(_) => TransitionEnd::Rounds(goal),
                TransitionEnd::Coach => return None,
            };
            Rule::Transition(Transition { end, ..rule })
        }
        Rule::WinnersStay(rule) => Rule::WinnersStay(WinnersStay { off_after: Some(u8::try_from(goal).ok()?), ..rule }),
        Rule::MatchGame(rule) => Rule::MatchGame(MatchGame { to: goal, ..rule }),
        Rule::Tens(_) | Rule::InTime(_) | Rule::Together(_) => return None,
    })
}

/// The goal that a rule has now.
pub const fn goal_of(rule: &Rule) -> Option<u16> {
    match rule {
        Rule::Tally { goal } => *goal,
        Rule::InRow(rule) => rule.goal,
        Rule::FirstTo(rule) => Some(rule.n),
        Rule::Transition(Transition { end: TransitionEnd::DuelPoints(n) | TransitionEnd::Rounds(n), .. }) => Some(*n),
        Rule::WinnersStay(WinnersStay { off_after: Some(n), .. }) => Some(*n as u16),
        Rule::MatchGame(rule) => Some(rule.to),
        _ => None,
    }
}
