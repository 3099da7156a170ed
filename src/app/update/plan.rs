//! The plan made and changed; `running` follows it. Every change is an entry with the whole plan.

mod next;
mod running;

pub use running::{as_planned, call_over, follow, was_planned, woke};

use self::running::{as_it_goes, begin, fit_rest, not_begun};
use super::super::effect::Effect;
use super::super::model::Model;
use super::super::plan::{PartChange, PlanTap, date_for, lately, shown, standing_here};
use super::super::practices::Practices;
use super::super::stepper::{step_u8, step_u16};
use super::super::words::plan as words;
use super::typed::plain;
use super::{calendar, write};
use crate::domain::drill::{Board, MAX_NAME};
use crate::domain::entry::Fact;
use crate::domain::ids::{PartNo, PlanId};
use crate::domain::plan::propose::{Titles, propose};
use crate::domain::plan::refit::{Left, LockedTooLong, Way, refit};
use crate::domain::plan::{Fitted, PartKind, Plan, PlanPart};

/// Most minutes of one part that the stepper goes to, and by how many at once.
pub const MOST_MIN: u16 = 120;
pub const STEP_MIN: u16 = 5;
pub const MOST_FEEDS: u8 = 30;
pub const MOST_COLLECT_S: u16 = 300;

pub fn act(model: &mut Model, tap: PlanTap) -> Vec<Effect> {
    model.drafts.plan.locked_by = None;
    let (out, before_fit) = (model.drafts.plan.out.take(), model.drafts.plan.before_fit.take());
    match tap {
        PlanTap::Made => change(model, |_| {}),
        PlanTap::Proposed => proposed(model),
        PlanTap::Copied(practice) => {
            let all = Practices::of(model);
            let from = all.latest_first().into_iter().find(|p| p.practice == practice).and_then(|p| p.plan.clone());
            let from = from.filter(|_| standing_here(model).is_none());
            from.map_or_else(Vec::new, |from| change(model, |plan| *plan = from.again()))
        }
        PlanTap::Next(practice) => next::next(model, practice),
        PlanTap::AsItGoes => as_it_goes(model),
        PlanTap::Thrown => thrown(model),
        PlanTap::GymStepped(more) => {
            change(model, |plan| plan.gym_min = step_u16(plan.gym_min, more, STEP_MIN, STEP_MIN, Plan::MOST_MIN))
        }
        PlanTap::CollectStepped(more) => {
            change(model, |plan| plan.collect_s = step_u16(plan.collect_s, more, 10, 0, MOST_COLLECT_S))
        }
        PlanTap::Fitted => fitted(model),
        PlanTap::AddOpened => {
            model.drafts.plan.adding = !model.drafts.plan.adding;
            Vec::new()
        }
        PlanTap::Added(kind) => add(model, PlanPart::plain(kind, words::kind(kind).to_owned(), kind.minutes())),
        PlanTap::DrillAdded(drill) => {
            let part = model.base.drill(drill).map(|spec| PlanPart::of_drill(drill, spec, PartKind::Drill.minutes()));
            part.map_or_else(Vec::new, |part| add(model, part))
        }
        PlanTap::Picked(no) => {
            let draft = &mut model.drafts.plan;
            draft.picked = if draft.picked == Some(no) { None } else { Some(no) };
            draft.adding = false;
            Vec::new()
        }
        PlanTap::Changed(no, what) => change_part(model, no, &what),
        PlanTap::Stepped(no, up) => change(model, |plan| {
            if let Some(at) = plan.place_of(no) {
                plan.moved(no, if up { at.saturating_sub(1) } else { at + 1 });
            }
        }),
        PlanTap::Placed(no, to) => change(model, |plan| plan.moved(no, to)),
        PlanTap::Out(no) => take_out(model, no),
        PlanTap::PutBack => {
            let Some((at, part)) = out else { return Vec::new() };
            // Under its own number: what was begun of it is its own again.
            change(model, |plan| plan.parts.insert(at.min(plan.parts.len()), part))
        }
        PlanTap::Begun(no) => begin(model, no),
        PlanTap::NotBegun => not_begun(model),
        PlanTap::Refit(way) => fit_rest(model, way),
        PlanTap::FitBack => before_fit.map_or_else(Vec::new, |before| change(model, |plan| *plan = before)),
        PlanTap::KeptOn => {
            model.drafts.plan.kept_on = standing_here(model).and_then(|(_, s)| s.on).map(|on| on.mark);
            Vec::new()
        }
    }
}

/// Writes the plan with a change, or makes one that begins with it.
fn change(model: &mut Model, change: impl FnOnce(&mut Plan)) -> Vec<Effect> {
    let date = date_for(model).and_then(|date| model.base.date(date));
    let facts = match shown(model).and_then(|id| Some((id, model.base.plan(id)?.clone()))) {
        None => {
            let gym_min = date.as_ref().map_or(Plan::GYM_MIN, |dated| dated.date.minutes);
            let mut plan = Plan { gym_min, ..Plan::new() };
            change(&mut plan);
            // One that was copied, too: the gym's time is the date's.
            plan.gym_min = if date.is_some() { gym_min } else { plan.gym_min };
            let id = PlanId(model.writer.id_ahead(0));
            let of_date = date.and_then(|dated| calendar::planned(model, dated.id, Some(id)));
            [Fact::PlanMade { plan }].into_iter().chain(of_date).collect()
        }
        Some((id, plan)) => {
            let mut changed = plan.clone();
            change(&mut changed);
            if changed == plan {
                return Vec::new();
            }
            let gym_min = changed.gym_min;
            let date = date.filter(|dated| dated.plan == Some(id) && gym_min != plan.gym_min);
            let of_date = date.as_ref().and_then(|dated| calendar::with_minutes(model, dated.id, gym_min));
            if date.is_some_and(|dated| of_date.is_none() && dated.date.minutes != gym_min) {
                // It would end after midnight.
                return Vec::new();
            }
            let changed = Fact::PlanChanged { plan: id, revision: model.base.next_plan_revision(id), changed };
            of_date.into_iter().chain([changed]).collect()
        }
    };
    write(model, facts)
}

/// A change that makes the plan fit, and can be had back by the next tap.
fn fit(model: &mut Model, fit: impl FnOnce(&mut Plan)) -> Vec<Effect> {
    let before = shown(model).and_then(|id| model.base.plan(id)).cloned();
    let effects = change(model, fit);
    model.drafts.plan.before_fit = before.filter(|_| !effects.is_empty());
    effects
}

/// Behind the part that is picked, else at the end, so that plans are made from the top; while practice is on, marked as put in.
fn add(model: &mut Model, part: PlanPart) -> Vec<Effect> {
    let picked = model.drafts.plan.picked;
    let (added, page) = (standing_here(model).is_some(), model.writer.series());
    let mut no = None;
    let effects = change(model, |plan| {
        if !plan.is_full() {
            let at = picked.and_then(|no| plan.place_of(no)).map_or(usize::MAX, |at| at + 1);
            no = Some(plan.put_by(page, at, PlanPart { added, ..part }));
        }
    });
    model.drafts.plan.picked = no;
    model.drafts.plan.adding = false;
    effects
}

fn change_part(model: &mut Model, no: PartNo, what: &PartChange) -> Vec<Effect> {
    let most_balls = model.settings.balls;
    // Once practice is on, what was planned stays what was planned: the report holds against it what was done.
    let runs = standing_here(model).is_some();
    let set = |part: &mut PlanPart, minutes: u16| match part.fitted {
        _ if runs && !part.added && minutes == part.minutes => part.fitted = Fitted::AsPlanned,
        _ if runs && !part.added => part.fitted = Fitted::To(minutes),
        Fitted::AsPlanned => part.minutes = minutes,
        _ => part.fitted = Fitted::To(minutes),
    };
    change(model, |plan| {
        let Some(part) = plan.part_mut(no) else { return };
        // From none (as the drill has it, all there are) on to a number of its own, and back.
        let own = |had: Option<u8>, more: bool, from: u8, low: u8, high: u8| match had {
            None if more => Some(from.clamp(low, high)),
            None => None,
            Some(n) if !more && n <= low => None,
            Some(n) => Some(step_u8(n, more, low, high)),
        };
        match what {
            PartChange::Minutes(more) => {
                let minutes = stepped(part.minutes_now(), *more);
                set(part, minutes);
            }
            PartChange::MinutesGiven => set(part, STEP_MIN),
            PartChange::Groups(more) => part.groups = own(part.groups, *more, 2, 2, Board::MAX_GROUPS),
            PartChange::Balls(more) => part.balls = own(part.balls, *more, 1, 1, most_balls.max(1)),
            PartChange::Feeds(more) => part.feeds = own(part.feeds, *more, 4, 1, MOST_FEEDS),
            PartChange::Titled(title) => {
                let title = plain(title, MAX_NAME);
                part.title = if title.trim().is_empty() { words::kind(part.kind).to_owned() } else { title };
            }
            PartChange::Locked => part.locked = !part.locked,
            PartChange::Ball => part.ball = !part.ball,
            PartChange::Net => part.net = !part.net,
            PartChange::Game => part.game = !part.game,
            PartChange::Wanted => part.fitted = Fitted::AsPlanned,
        }
    })
}

/// To the next five, so that odd minutes of a refit come even again; one by one below.
fn stepped(now: u16, more: bool) -> u16 {
    match now {
        n if n < STEP_MIN || (n == STEP_MIN && !more) => step_u16(n, more, 1, 0, MOST_MIN),
        n if more => (n / STEP_MIN + 1).saturating_mul(STEP_MIN).min(MOST_MIN),
        n => (n - 1) / STEP_MIN * STEP_MIN,
    }
}

fn take_out(model: &mut Model, no: PartNo) -> Vec<Effect> {
    let mut out = None;
    let effects = change(model, |plan| {
        if let Some(at) = plan.place_of(no) {
            out = Some((at, plan.parts.remove(at)));
        }
    });
    model.drafts.plan.out = out;
    model.drafts.plan.picked = None;
    effects
}

fn proposed(model: &mut Model) -> Vec<Effect> {
    // Its numbers begin anew: what was begun would be another part's.
    if standing_here(model).is_some() {
        return Vec::new();
    }
    let of_date = date_for(model).and_then(|date| model.base.date(date)).map(|dated| dated.date.minutes);
    let of_plan = shown(model).and_then(|id| model.base.plan(id)).map(|plan| plan.gym_min);
    let proposal = proposal(model, of_plan.or(of_date).unwrap_or(Plan::GYM_MIN));
    change(model, |plan| {
        *plan = Plan { collect_s: plan.collect_s, ..proposal };
    })
}

/// Out of the last practices, for so many minutes.
fn proposal(model: &Model, gym_min: u16) -> Plan {
    let all = Practices::of(model);
    let practices = all.latest_first();
    let titles =
        Titles { arrival: words::kind(PartKind::Arrival).to_owned(), rest: words::kind(PartKind::Break).to_owned() };
    let (mut proposal, whys) = propose(&lately(model, &practices), gym_min, &titles);
    for (part, why) in proposal.parts.iter_mut().zip(&whys) {
        part.why = words::why(why, practices.is_empty());
    }
    proposal
}

/// Before it is begun the minutes themselves are made less.
fn fitted(model: &mut Model) -> Vec<Effect> {
    let Some(plan) = shown(model).and_then(|id| model.base.plan(id)).cloned() else { return Vec::new() };
    let parts: Vec<Left> =
        plan.parts.iter().map(|part| Left { minutes: part.minutes_now(), locked: part.locked }).collect();
    match refit(&parts, plan.gym_min, Way::Shorten) {
        Err(LockedTooLong { by }) => {
            model.drafts.plan.locked_by = Some(by);
            Vec::new()
        }
        Ok(minutes) => fit(model, |plan| {
            for (part, n) in plan.parts.iter_mut().zip(minutes) {
                match n {
                    0 if part.minutes_now() > 0 => part.fitted = Fitted::Dropped,
                    n if n != part.minutes_now() => (part.minutes, part.fitted) = (n, Fitted::AsPlanned),
                    _ => {}
                }
            }
        }),
    }
}

/// Only one that no practice follows: what was begun is a fact.
fn thrown(model: &mut Model) -> Vec<Effect> {
    let followed = model.practice_today().and_then(|p| p.plan);
    let Some(id) = shown(model).filter(|id| followed != Some(*id)) else { return Vec::new() };
    model.drafts.plan = Default::default();
    let revision = model.base.next_take_back(id.0);
    let date = date_for(model).and_then(|date| model.base.date(date)).filter(|dated| dated.plan == Some(id));
    let of_date = date.and_then(|dated| calendar::planned(model, dated.id, None));
    let thrown = Fact::EntryTakenBack { run: None, target: id.0, revision, back: true };
    write(model, of_date.into_iter().chain([thrown]).collect())
}
