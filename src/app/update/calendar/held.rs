//! Which practice is held on which date, as it is noted: when practice starts, when a part of a date's plan is begun, and by the coach.

use super::super::super::calendar::{dates, due};
use super::super::super::effect::Effect;
use super::super::super::model::Model;
use super::super::super::plan::for_date;
use super::super::write;
use super::planned;
use crate::domain::entry::Fact;
use crate::domain::ids::{DateId, PlanId, PracticeId};

/// A practice begins: it is held on the date of today whose plan is on screen, else on the one that is due. Whoever begins the plan of a date
/// on which something was counted already means that date all the same.
pub fn held(model: &Model, practice: PracticeId) -> Option<Fact> {
    let unbegun = |plan: PlanId| model.base.is_unbegun(plan);
    let on_screen = for_date(model).and_then(|id| dates(model).into_iter().find(|(dated, _)| dated.id == id));
    let on_screen = on_screen.filter(|(dated, held)| {
        dated.date.day == model.now.day() && (held.is_none() || dated.plan.is_some_and(unbegun))
    });
    let date = on_screen.map(|(dated, _)| dated).filter(|dated| !dated.dropped).or_else(|| due(model))?.id;
    Some(is_held(model, date, Some(practice)))
}

/// A part of a plan is begun. A date of this day that has it is held by this practice, if it is on no other; any other date has the plan no
/// more. Either entry has in its revision how often the plan was changed, which nobody can tell once it lies packed. `facts`: what is
/// written with it.
pub fn begun(model: &Model, facts: &[Fact], practice: PracticeId, plan: PlanId) -> Vec<Fact> {
    if !model.base.is_unbegun(plan) {
        return Vec::new();
    }
    let day = model.base.practice(practice).map_or(model.now.day(), |practice| practice.started.day());
    let written = facts.iter().find_map(|fact| match fact {
        Fact::DateHeld { date, practice: Some(by), .. } if *by == practice => Some(*date),
        _ => None,
    });
    let all = model.base.dates();
    let mut on = written.or_else(|| all.iter().find(|dated| dated.held == Some(practice)).map(|dated| dated.id));
    let mut more = Vec::new();
    for dated in all.iter().filter(|dated| dated.plan == Some(plan) && written != Some(dated.id)) {
        if on == Some(dated.id) || on.is_none() && !dated.dropped && dated.date.day == day {
            on = Some(dated.id);
            more.push(is_held(model, dated.id, Some(practice)));
        } else {
            more.extend(planned(model, dated.id, None));
        }
    }
    more
}

/// The last beginning was none: the practice may follow again what it followed before.
pub fn not_begun(model: &Model, practice: PracticeId) -> Option<Fact> {
    let dated = model.base.dates().into_iter().find(|dated| dated.held == Some(practice))?;
    Some(is_held(model, dated.id, Some(practice)))
}

/// By the coach. A plan that a practice began stays with that practice.
pub(super) fn noted(model: &mut Model, date: DateId, practice: Option<PracticeId>) -> Vec<Effect> {
    let Some(dated) = model.base.date(date) else { return Vec::new() };
    let mut facts = vec![is_held(model, date, practice)];
    if practice.is_none() && dated.plan.is_some_and(|plan| !model.base.is_unbegun(plan)) {
        facts.extend(planned(model, date, None));
    }
    write(model, facts)
}

fn is_held(model: &Model, date: DateId, practice: Option<PracticeId>) -> Fact {
    Fact::DateHeld { date, revision: model.base.next_date_revision(date), practice }
}
