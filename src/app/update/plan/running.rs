//! Practice follows its plan: parts begun, also by a drill's own key; the rest fitted; the end of a part called.

use super::super::super::effect::{Call, Effect, Signal};
use super::super::super::model::Model;
use super::super::super::plan::{shown, standing};
use super::super::super::screen::Screen;
use super::super::super::words::plan as words;
use super::super::{calendar, go, practice, write};
use super::fit;
use crate::domain::drill::{Board, DrillSpec};
use crate::domain::entry::Fact;
use crate::domain::ids::{DrillId, EntryId, PartNo, PlanId, PracticeId};
use crate::domain::plan::refit::{LockedTooLong, Way, refit};
use crate::domain::plan::{Fitted, PartKind, Plan, PlanPart};
use crate::domain::time::Absence;

/// The time of a part is over: called once, and not by a page that finds it over already.
pub fn call_over(model: &mut Model) -> Option<Effect> {
    let on = standing(model)?.1.on?;
    let over = on.left_ms? <= 0;
    let before = model.drafts.plan.called.replace((on.mark, over));
    let call = || Effect::Tell(Signal::Call(Call::Time, words::over(&on.title)));
    (over && before == Some((on.mark, false))).then(call)
}

/// The page is seen again after a long sleep, which a wall clock put forward looks like: a part that is over by it alone isn't called, and
/// the strip says why.
pub fn woke(model: &mut Model, absence: Absence) {
    let on = standing(model).and_then(|(_, s)| s.on);
    let over = on.and_then(|on| on.left_ms.filter(|left| *left <= 0).map(|left| (on.mark, left)));
    let hidden = i64::try_from(absence.hidden_ms).unwrap_or(i64::MAX);
    if let Some((mark, _)) = over.filter(|(_, left)| left.saturating_add(hidden) > 0) {
        model.drafts.plan.called = Some((mark, true));
        model.drafts.plan.slept = Some(mark);
    }
}

/// A drill was started by its own key while practice follows a plan: its part is on, or it is put in as one that nobody planned.
pub fn follow(model: &Model, practice: PracticeId, drill: DrillId, spec: &DrillSpec) -> Vec<Fact> {
    let Some((id, standing)) = standing(model) else { return Vec::new() };
    let Some(plan) = model.base.plan(id) else { return Vec::new() };
    let is_it = |no: &PartNo| plan.part(*no).is_some_and(|part| part.drill == Some(drill));
    if standing.on.as_ref().is_some_and(|on| is_it(&on.part)) {
        return Vec::new();
    }
    let title = spec.name.clone();
    if let Some(part) = standing.to_come.iter().copied().find(is_it) {
        return vec![Fact::PartBegun { practice, plan: id, part, title }];
    }
    // As full as a plan can be: the drill runs, and what is on stays on.
    if plan.is_full() {
        return Vec::new();
    }
    let mut changed = plan.clone();
    let at = standing.on.and_then(|on| plan.place_of(on.part)).map_or(usize::MAX, |at| at + 1);
    // Nobody said how long: it has no end that could be called or overrun.
    let page = model.writer.series();
    let part = changed.put_by(page, at, PlanPart { added: true, ..PlanPart::of_drill(drill, spec, 0) });
    let revision = model.base.next_plan_revision(id);
    vec![Fact::PlanChanged { plan: id, revision, changed }, Fact::PartBegun { practice, plan: id, part, title }]
}

/// A drill as its part has it: groups of its own, and no more of them than it has balls.
pub fn as_planned(model: &Model, drill: DrillId, spec: &DrillSpec) -> DrillSpec {
    part_for(model, drill).map_or_else(|| spec.clone(), |part| spec_for(part, spec))
}

/// Whether a run may be one of a part that is over: the drill's own key leads back to it as long as no other part wants it otherwise.
pub fn was_planned(model: &Model, drill: DrillId, spec: &DrillSpec, run: &DrillSpec) -> bool {
    let plan = standing(model).and_then(|(id, _)| model.base.plan(id)).filter(|_| part_for(model, drill).is_none());
    let parts = plan.into_iter().flat_map(|plan| &plan.parts).filter(|part| part.drill == Some(drill));
    parts.into_iter().any(|part| spec_for(part, spec) == *run)
}

/// So soon after another beginning nobody means the next part.
const SAME_TAP_MS: u64 = 1_000;

/// Starts the practice where none is on. What runs on a board goes on: a part may have several runs.
pub(super) fn begin(model: &mut Model, part: PartNo) -> Vec<Effect> {
    // Where the key to begin stood is now that of the next part: a second tap on it was meant for the first.
    let last = model.practice_today().and_then(|p| model.base.last_mark(p.id));
    let page = model.writer.series();
    if last.is_some_and(|m| m.id.series == page && model.now.mono_ms.saturating_sub(m.at.mono_ms) < SAME_TAP_MS) {
        return Vec::new();
    }
    let Some(id) = shown(model).filter(|_| model.along().is_none() && !model.is_known_soon()) else {
        return Vec::new();
    };
    let title = model.base.plan(id).and_then(|plan| plan.part(part)).map(|part| part.title.clone());
    let Some(title) = title else { return Vec::new() };
    let (mut facts, practice) = practice::opened(model);
    facts.extend(calendar::begun(model, &facts, practice, id));
    facts.push(Fact::PartBegun { practice, plan: id, part, title });
    begun(model, facts)
}

/// No plan was made: what is on is the first part of one that grows.
pub(super) fn as_it_goes(model: &mut Model) -> Vec<Effect> {
    if model.along().is_some() || model.is_known_soon() {
        return Vec::new();
    }
    let on = model.run_on().and_then(|run| Some((run.drill?, run.spec.clone())));
    let part = match on {
        Some((drill, spec)) => PlanPart::of_drill(drill, &spec, 0),
        None => PlanPart::plain(PartKind::Arrival, words::kind(PartKind::Arrival).to_owned(), 0),
    };
    let title = part.title.clone();
    let mut plan = Plan::new();
    let part = plan.put(0, PlanPart { added: true, ..part });
    let (mut facts, practice) = practice::opened(model);
    let id = PlanId(ahead(model, &facts));
    facts.push(Fact::PlanMade { plan });
    facts.push(Fact::PartBegun { practice, plan: id, part, title });
    begun(model, facts)
}

pub(super) fn not_begun(model: &mut Model) -> Vec<Effect> {
    let Some(practice) = model.practice_led().map(|practice| practice.id) else { return Vec::new() };
    let Some(target) = model.base.last_mark(practice).map(|mark| mark.id) else { return Vec::new() };
    let revision = model.base.next_take_back(target);
    let back = Fact::EntryTakenBack { run: None, target, revision, back: true };
    write(model, calendar::not_begun(model, practice).into_iter().chain([back]).collect())
}

/// The parts to come, once what is on and they no longer fit the gym's time.
pub(super) fn fit_rest(model: &mut Model, way: Way) -> Vec<Effect> {
    let Some((id, standing)) = standing(model) else { return Vec::new() };
    let Some(plan) = model.base.plan(id) else { return Vec::new() };
    match refit(&standing.rest(plan), standing.left_for_rest_min(), way) {
        Err(LockedTooLong { by }) => {
            model.drafts.plan.locked_by = Some(by);
            Vec::new()
        }
        Ok(minutes) => fit(model, |plan| {
            for (no, n) in standing.to_come.iter().zip(minutes) {
                if let Some(part) = plan.part_mut(*no) {
                    part.fitted = match n {
                        0 => Fitted::Dropped,
                        n if n == part.minutes => Fitted::AsPlanned,
                        n => Fitted::To(n),
                    };
                }
            }
        }),
    }
}

/// The part that this drill is begun for, while practice follows a plan: the one that is on, else the next with it.
fn part_for(model: &Model, drill: DrillId) -> Option<&PlanPart> {
    let (id, standing) = standing(model)?;
    let plan = model.base.plan(id)?;
    let on = standing.on.map(|on| on.part);
    let parts = on.into_iter().chain(standing.to_come).filter_map(|no| plan.part(no));
    parts.into_iter().find(|part| part.drill == Some(drill))
}

fn spec_for(part: &PlanPart, spec: &DrillSpec) -> DrillSpec {
    let mut planned = part.spec_of(spec);
    // Groups at once on a floor that is drawn once: the coach watches whom she sees, and nothing is scored for a group.
    if matches!(spec.board, Board::Floor { .. } | Board::ServeFloor { .. }) && !spec.rule.has_groups() {
        planned.on_floor.groups = spec.on_floor.groups;
    }
    if let (Some(groups), Some(balls), false) = (planned.on_floor.groups, part.balls, spec.rule.is_game()) {
        planned.on_floor.groups = Some(groups.min(balls).max(1));
    }
    // A number that its board or rule can't have.
    if planned.fault().is_some() { spec.clone() } else { planned }
}

fn begun(model: &mut Model, facts: Vec<Fact>) -> Vec<Effect> {
    model.drafts.plan = Default::default();
    practice::forget_drafts(model);
    let mut effects = write(model, facts);
    effects.extend(go(model, Screen::Today));
    effects
}

fn ahead(model: &Model, facts: &[Fact]) -> EntryId {
    model.writer.id_ahead(u32::try_from(facts.len()).unwrap_or(u32::MAX))
}
