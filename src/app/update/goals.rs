//! A goal that fits is taken; the coach's wish, the time, and the lines between steps.

use super::super::effect::Effect;
use super::super::goals::{GoalsTap, MOST_MINUTES, minutes, want, with_goal};
use super::super::model::Model;
use super::super::settings::Settings;
use super::super::stepper::{step_u8, step_u16};
use super::write;
use crate::domain::drill::DrillSpec;
use crate::domain::entry::Fact;

pub fn act(model: &mut Model, tap: GoalsTap) -> Vec<Effect> {
    let by = Settings::STEP;
    let step = |n: u8, more: bool, least: u8, most: u8| step_u8(n / by, more, least / by, most / by) * by;
    let settings = &mut model.settings;
    match tap {
        GoalsTap::Taken(goal) => {
            return taken(model, goal);
        }
        GoalsTap::MinutesStepped(more) => {
            model.goals.minutes = Some(step_u16(minutes(model), more, 1, 1, MOST_MINUTES));
            return want(model).into_iter().collect();
        }
        GoalsTap::WishStepped(more) => settings.wish = step(settings.wish, more, Settings::WISH.1, Settings::WISH.2),
        GoalsTap::UpperStepped(more) => {
            settings.upper = step(settings.upper, more, settings.lower + by, Settings::UPPER.2);
        }
        GoalsTap::LowerStepped(more) => {
            settings.lower = step(settings.lower, more, Settings::LOWER.1, settings.upper - by);
        }
    }
    vec![Effect::KeepSettings(model.settings.to_json())]
}

/// One tap keeps it, where nothing else of the drill is changed on the form; else it is kept with the rest.
fn taken(model: &mut Model, goal: u32) -> Vec<Effect> {
    let Some(draft) = &mut model.drafts.drill else { return Vec::new() };
    let Some(rule) = with_goal(draft.spec.rule, goal) else { return Vec::new() };
    let before = draft.spec.clone();
    draft.spec = DrillSpec { rule, ..before.clone() };
    let (drill, spec) = (draft.drill, draft.spec.clone());
    match drill {
        Some(drill) if model.base.drill(drill) == Some(&before) && spec != before => {
            let revision = model.base.next_drill_revision(drill);
            write(model, vec![Fact::DrillChanged { drill, revision, spec }])
        }
        _ => Vec::new(),
    }
}
