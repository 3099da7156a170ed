//! The next plan in one tap, after a practice: of the next date where there is one, else the plan that waits. Where it stands already it is
//! shown and nothing is written, so a second tap makes no second plan.

use super::super::super::after::next_plan;
use super::super::super::effect::Effect;
use super::super::super::model::Model;
use super::super::super::plan::seen_least_lately;
use super::super::super::practices::Practices;
use super::super::super::screen::Screen;
use super::super::super::words::plan as words;
use super::super::{calendar, go, write};
use super::proposal;
use crate::domain::entry::Fact;
use crate::domain::ids::{DateId, PlanId, PracticeId};
use crate::domain::plan::next::next as left_out_first;
use crate::domain::plan::propose::Why;
use crate::domain::plan::{Plan, PlanPart};

pub(super) fn next(model: &mut Model, practice: PracticeId) -> Vec<Effect> {
    let Some(next) = next_plan(model, practice) else { return Vec::new() };
    let screen = next.date.map_or(Screen::Plan, Screen::DatePlan);
    let mut effects = if next.made { Vec::new() } else { make(model, practice, next.date, next.plan) };
    effects.extend(go(model, screen));
    effects
}

fn make(model: &mut Model, practice: PracticeId, date: Option<DateId>, had: Option<PlanId>) -> Vec<Effect> {
    let of_date = date.and_then(|id| model.base.date(id)).map(|dated| dated.date.minutes);
    let mut plan = made(model, practice, of_date);
    // The gym's time is the date's.
    plan.gym_min = of_date.unwrap_or(plan.gym_min);
    let facts = match had {
        Some(id) => {
            let revision = model.base.next_plan_revision(id);
            vec![Fact::PlanChanged { plan: id, revision, changed: numbered_after(model, id, plan) }]
        }
        None => {
            let id = PlanId(model.writer.id_ahead(0));
            let of_date = date.and_then(|date| calendar::planned(model, date, Some(id)));
            [Fact::PlanMade { plan }].into_iter().chain(of_date).collect()
        }
    };
    write(model, facts)
}

/// As the practice was planned or went, what was left out first; of a practice without parts a proposal.
fn made(model: &Model, practice: PracticeId, gym_min: Option<u16>) -> Plan {
    let all = Practices::of(model);
    let practices = all.latest_first();
    let done = practices.iter().find(|p| p.practice == practice).and_then(|p| p.plan.as_ref());
    let Some((mut plan, left_out)) = done.map(left_out_first).filter(|(plan, _)| !plan.parts.is_empty()) else {
        return proposal(model, gym_min.unwrap_or(Plan::GYM_MIN));
    };
    let is_left_out = |part: &PlanPart| left_out.iter().any(|out| out.no == part.no);
    for part in plan.parts.iter_mut().filter(|part| is_left_out(part)) {
        part.why = words::why(&Why::NotDone, false);
    }
    // Who that is stands in no plan: it is told where the plan is looked at.
    let named =
        |part: &PlanPart| part.drill.and_then(|id| model.base.drill(id)).is_some_and(|s| s.board.names_children());
    if !seen_least_lately(model, &practices).is_empty()
        && let Some(part) = plan.parts.iter_mut().find(|part| part.why.is_empty() && named(part))
    {
        part.why = words::WHY_SEEN_LEAST.to_owned();
    }
    plan
}

/// In a plan that was there already, though empty, no number is used twice.
fn numbered_after(model: &Model, id: PlanId, made: Plan) -> Plan {
    let next_no = model.base.plan(id).map_or(0, |had| had.next_no);
    let mut plan = Plan { next_no, parts: Vec::new(), gym_min: made.gym_min, collect_s: made.collect_s };
    for part in made.parts {
        plan.put_by(model.writer.series(), usize::MAX, part);
    }
    plan
}
