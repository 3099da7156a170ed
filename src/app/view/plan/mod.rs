//! The plan as it is made: a timeline by minutes, what is in it, what can be expected, what to change.

mod advice;
mod after;
mod part;
mod strip;

pub use after::{AfterChild, AfterPlan, after};
pub use part::{Editor, PartRow, PartState};
pub use strip::{Question, Running, StripView, strip};

use super::groups::TroubleView;
use crate::app::action::Action;
use crate::app::model::Model;
use crate::app::plan::{PartChange, PlanTap, floor, for_date, shown, standing_here};
use crate::app::practices::Practices;
use crate::app::screen::Screen;
use crate::app::update::plan::{MOST_COLLECT_S, STEP_MIN};
use crate::app::words::{counts, plan as words};
use crate::domain::drill::DrillSpec;
use crate::domain::ids::{DrillId, PartNo, PracticeId};
use crate::domain::plan::Plan;
use crate::domain::plan::fault::{PlanFault, faults};
use crate::domain::summary::PracticeSummary;

#[derive(Clone, Debug, PartialEq)]
pub struct PlanView {
    /// No plan yet: the ways to one.
    pub empty: bool,
    /// Practice follows it.
    pub running: bool,
    /// "85 of 90 min"
    pub total: String,
    pub over: bool,
    pub gym: String,
    pub gym_ends: Ends,
    pub collect: String,
    pub collect_ends: Ends,
    /// No part more can be put in.
    pub full: bool,
    pub parts: Vec<PartRow>,
    pub shares: Vec<Share>,
    pub advice: Vec<String>,
    pub troubles: Vec<TroubleView>,
    /// "Fitted: Six servers 11.": it can be as it was by one tap.
    pub fitted: Option<String>,
    pub editor: Option<Editor>,
    pub adding: bool,
    pub drills: Vec<(DrillId, String)>,
    pub copies: Vec<(PracticeId, String)>,
    /// The first part, to begin with; nothing where its day is another.
    pub begin: Option<(PartNo, String)>,
    /// "For Thursday 3 December, 17:30 to 19:00"
    pub date: Option<String>,
    /// Of a date on screen: whence the coach came.
    pub of_date: bool,
    /// Practice could begin now.
    pub now: bool,
}

/// A stepper can't go on: below, above.
pub type Ends = (bool, bool);

/// "With a ball: 62 of 85 min", and how full its bar is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Share {
    pub label: &'static str,
    pub what: String,
    pub texture: &'static str,
    pub percent: u8,
}

/// So many earlier plans are offered.
const MOST_COPIES: usize = 6;

pub fn plan(model: &Model) -> PlanView {
    let standing = standing_here(model).map(|(_, standing)| standing);
    let found = shown(model).and_then(|id| model.base.plan(id));
    let empty = found.is_none();
    let plan = found.cloned().unwrap_or_default();
    let all = Practices::of(model);
    let practices = all.latest_first();
    let minutes = plan.minutes();
    let parts = part::rows(model, &plan, standing.as_ref(), &practices);
    let running = standing.is_some();
    let date = for_date(model).and_then(|date| model.base.date(date));
    let now = date.is_none_or(|dated| dated.date.day == model.now.day());
    let first = if running || !now { None } else { plan.parts.iter().find(|part| !part.is_dropped()) };
    PlanView {
        empty,
        running,
        total: words::total(minutes.all, plan.gym_min),
        over: minutes.all > plan.gym_min,
        gym: words::minutes(plan.gym_min),
        gym_ends: (plan.gym_min <= STEP_MIN, plan.gym_min >= Plan::MOST_MIN),
        collect: format!("{} s", plan.collect_s),
        collect_ends: (plan.collect_s == 0, plan.collect_s >= MOST_COLLECT_S),
        full: plan.is_full(),
        shares: if minutes.all == 0 { Vec::new() } else { shares(&plan) },
        advice: advice::advice(model, &plan, &practices),
        troubles: troubles(model, &plan),
        fitted: fitted(model, &plan),
        editor: model.drafts.plan.picked.and_then(|no| part::editor(model, &plan, no, &practices)),
        adding: model.drafts.plan.adding,
        drills: model.base.drills().into_iter().map(|(id, spec)| (id, spec.name.clone())).collect(),
        copies: if empty { copies(model, &practices) } else { Vec::new() },
        begin: first.filter(|_| model.along().is_none()).map(|part| (part.no, words::begin(&part.title))),
        date: super::calendar::plan_for(model),
        of_date: for_date(model).is_some(),
        now: now && model.along().is_none(),
        parts,
    }
}

fn shares(plan: &Plan) -> Vec<Share> {
    let minutes = plan.minutes();
    let share = |label, texture, n: u16| Share {
        label,
        what: words::total(n, minutes.all),
        texture,
        percent: u8::try_from(u32::from(n) * 100 / u32::from(minutes.all.max(1))).unwrap_or(100),
    };
    vec![
        share(words::WITH_BALL, "is-ball", minutes.ball),
        share(words::OVER_NET, "is-net", minutes.net),
        share(words::LIKE_GAME, "is-game", minutes.game),
    ]
}

fn copies(model: &Model, practices: &[&PracticeSummary]) -> Vec<(PracticeId, String)> {
    // What a copy will have, and nothing else.
    let again = practices.iter().copied().filter_map(|p| Some((p, p.plan.as_ref()?.again())));
    let planned = again.filter(|(_, plan)| !plan.parts.is_empty());
    let copy = |(practice, plan): (&PracticeSummary, Plan)| {
        let titles: Vec<&str> = plan.parts.iter().map(|part| part.title.as_str()).collect();
        (practice.practice, words::copy(&counts::day(practice.started.day(), model.now.day()), &titles))
    };
    planned.take(MOST_COPIES).map(copy).collect()
}

/// Each with its way out.
fn troubles(model: &Model, plan: &Plan) -> Vec<TroubleView> {
    let draft = &model.drafts.plan;
    let way = |line: String, way: &str, action: Action| TroubleView { line, way: way.to_owned(), action };
    let tap = |tap| Action::Plan(tap);
    let title = |no: PartNo| plan.part(no).map(|part| part.title.clone()).unwrap_or_default();
    let marks = crate::app::plan::marks(model);
    let running = standing_here(model).is_some();
    let floor = floor(model, plan);
    let spared = |no: PartNo| marks.iter().any(|mark| mark.part == no);
    let of_fault = |fault| match fault {
        // While it runs the first screen asks what to do.
        PlanFault::OverGym { .. } if running => None,
        PlanFault::OverGym { by } => Some(way(words::over_gym(by), words::FIT, tap(PlanTap::Fitted))),
        PlanFault::NoMinutes(no) => {
            let more = tap(PlanTap::Changed(no, PartChange::MinutesGiven));
            Some(way(words::no_minutes(&title(no)), words::GIVE_MINUTES, more))
        }
        PlanFault::TooFew { part, made_for, here } => {
            let drill = plan.part(part).and_then(|part| part.drill);
            let to = Action::Go(Screen::Drill(drill));
            Some(way(words::too_few(&title(part), made_for, here), words::CHANGE_DRILL, to))
        }
        PlanFault::DrillGone(no) => Some(way(words::drill_gone(&title(no)), words::TAKE_OUT, tap(PlanTap::Out(no)))),
    };
    let here = drill_here(model);
    let mut troubles: Vec<TroubleView> =
        faults(plan, floor.n_children, here, spared).into_iter().filter_map(of_fault).collect();
    if let Some((_, part)) = &draft.out {
        troubles.insert(0, way(words::was_taken_out(&part.title), words::PUT_BACK, tap(PlanTap::PutBack)));
    }
    if let Some((by, (title, action))) = draft.locked_by.zip(unlocks(plan, spared)) {
        troubles.insert(0, way(words::locked_too_long(by), &title, action));
    }
    troubles
}

/// It was just made to fit: what became shorter, longer, or fell out.
fn fitted(model: &Model, plan: &Plan) -> Option<String> {
    let before = model.drafts.plan.before_fit.as_ref()?;
    let had = |no: PartNo| before.part(no).map(|part| part.minutes_now());
    let changed = plan.parts.iter().filter(|part| had(part.no).is_some_and(|n| n != part.minutes_now()));
    Some(words::made_to_fit(&changed.map(|part| (part.title.clone(), part.minutes_now())).collect::<Vec<_>>()))
}

/// The way out where what stays is too long: the first part to come that stays, by its name.
pub(super) fn unlocks(plan: &Plan, begun: impl Fn(PartNo) -> bool) -> Option<(String, Action)> {
    let part = plan.parts.iter().find(|part| part.locked && !part.is_dropped() && !begun(part.no))?;
    Some((words::lock_off(&part.title), Action::Plan(PlanTap::Changed(part.no, PartChange::Locked))))
}

/// Drills that are still among the drills.
fn drill_here<'a>(model: &'a Model) -> impl Fn(DrillId) -> Option<&'a DrillSpec> {
    let kept = model.base.drills();
    move |id| kept.iter().find(|(known, _)| *known == id).map(|(_, spec)| *spec)
}
