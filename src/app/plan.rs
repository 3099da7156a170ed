//! The plan: what is tapped, which plan a screen shows, and what the last practices say to it.

use super::calendar;
use super::model::Model;
use super::screen::Screen;
use crate::domain::calendar::Dated;
use crate::domain::drill::DrillSpec;
use crate::domain::ids::{DateId, DrillId, EntryId, PartNo, PlanId, PlayerId, PracticeId};
use crate::domain::plan::clock::{Mark, On, Standing};
use crate::domain::plan::expect::{Floor, Pace};
use crate::domain::plan::propose::Lately;
use crate::domain::plan::refit::Way;
use crate::domain::plan::{PartKind, Plan, PlanPart};
use crate::domain::replay::base::Practice;
use crate::domain::skill::Skill;
use crate::domain::summary::{PracticeSummary, RunSummary};
use crate::stats::arrange::arranged;

/// What is tapped of a plan.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PlanTap {
    /// An empty one; out of the last practices; as it was in this practice.
    Made,
    Proposed,
    Copied(PracticeId),
    /// The plan after this practice: the one that stands for the next date, else one made from this practice.
    Next(PracticeId),
    /// The practice that is on writes its own as it goes.
    AsItGoes,
    Thrown,
    GymStepped(bool),
    CollectStepped(bool),
    /// All a little shorter, so that it fits the gym's time.
    Fitted,
    AddOpened,
    Added(PartKind),
    DrillAdded(DrillId),
    Picked(PartNo),
    Changed(PartNo, PartChange),
    /// One place up, or down.
    Stepped(PartNo, bool),
    /// Let go over this place.
    Placed(PartNo, usize),
    Out(PartNo),
    PutBack,
    Begun(PartNo),
    /// The last beginning was none.
    NotBegun,
    /// The rest, where it no longer fits.
    Refit(Way),
    /// As it was before it was made to fit.
    FitBack,
    /// As it is, though it ends late.
    KeptOn,
}

/// What changes of one part.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PartChange {
    Minutes(bool),
    /// Those that a way out offers.
    MinutesGiven,
    Groups(bool),
    Balls(bool),
    Feeds(bool),
    Titled(String),
    Locked,
    Ball,
    Net,
    Game,
    /// It was dropped, and comes after all.
    Wanted,
}

/// What is tapped on the screen of the plan and not an entry.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PlanDraft {
    pub picked: Option<PartNo>,
    pub adding: bool,
    /// The part that was taken out last, and where it stood.
    pub out: Option<(usize, PlanPart)>,
    /// The plan before it was made to fit, until the next tap on it.
    pub before_fit: Option<Plan>,
    /// While this part is on the rest stays as it is, late or not.
    pub kept_on: Option<EntryId>,
    /// Whose end was called, or was over when this page first looked.
    pub called: Option<(EntryId, bool)>,
    /// It was over only by a sleep that was long, or no sleep at all.
    pub slept: Option<EntryId>,
    /// What is locked needs so many minutes more than there are.
    pub locked_by: Option<u16>,
}

/// The date whose plan is on screen.
pub fn for_date(model: &Model) -> Option<DateId> {
    match model.screen {
        Screen::DatePlan(date) => Some(date),
        _ => None,
    }
}

/// The plan that is shown: of the date on screen; else the one for now.
pub fn shown(model: &Model) -> Option<PlanId> {
    match for_date(model) {
        Some(date) => model.base.date(date)?.plan.filter(|plan| model.base.plan(*plan).is_some()),
        None => for_now(model),
    }
}

/// The plan of the practice that is on; before it has begun one, that of the date it is held on or that is due today; else the one that
/// waits for the next.
fn for_now(model: &Model) -> Option<PlanId> {
    let of_date = || of_now(model).and_then(|dated| dated.plan).filter(|plan| model.base.plan(*plan).is_some());
    let followed = model.practice_led().and_then(|practice| practice.plan);
    followed.or_else(of_date).or_else(|| model.base.plan_waiting())
}

/// The date that a plan made now is for: the one on screen, that of the practice which is on, or the one due today.
pub fn date_for(model: &Model) -> Option<DateId> {
    for_date(model).or_else(|| of_now(model).map(|dated| dated.id))
}

fn of_now(model: &Model) -> Option<Dated> {
    match model.practice_led() {
        Some(_) => calendar::on(model),
        None => calendar::due(model),
    }
}

/// What was begun of the plan that is shown, in the practice that is on.
pub fn marks(model: &Model) -> Vec<Mark> {
    let here = |p: &Practice| for_date(model).is_none() || p.plan.is_some() && p.plan == shown(model);
    model.practice_led().filter(here).map(|p| model.base.marks(p.id)).unwrap_or_default()
}

/// How the practice that is on stands to the plan that is shown; nothing where it follows none, or another.
pub fn standing_here(model: &Model) -> Option<(PlanId, Standing)> {
    standing(model).filter(|(id, _)| for_date(model).is_none() || shown(model) == Some(*id))
}

/// How the practice that is on stands to its plan; nothing where it follows none.
pub fn standing(model: &Model) -> Option<(PlanId, Standing)> {
    let practice = model.practice_led()?;
    let id = practice.plan?;
    let plan = model.base.plan(id)?;
    let marks = model.base.marks(practice.id);
    let standing = Standing::of(plan, &marks, model.writer.series(), model.now)?;
    // On a date the gym's time is the date's, whenever the first part began; begun early, the plan has its minutes.
    let begun = marks.first().map(|mark| calendar::wall(mark.at));
    let date = model.base.dates().into_iter().find(|dated| dated.plan == Some(id) && !dated.dropped);
    let late = begun.zip(date).map_or(0, |(begun, dated)| (begun - dated.date.starts()).num_milliseconds());
    let is_that_evening = (0..i64::from(plan.gym_min) * 60_000).contains(&late);
    Some((id, if is_that_evening { standing.begun_late(late) } else { standing }))
}

/// The part that is on in this practice, as long as the gym may still be ours.
pub fn part_on(model: &Model, practice: PracticeId) -> Option<On> {
    let (plan, last) = model.base.last_of_plan(practice)?;
    let on = On::of(plan, last, model.writer.series(), model.now)?;
    (on.gone_ms <= i64::from(plan.gym_min + Model::MARGIN_MIN) * 60_000).then_some(on)
}

/// Who and what a plan counts on: those who are here, the balls of the coach's bag.
pub fn floor(model: &Model, plan: &Plan) -> Floor {
    Floor { n_children: model.here().len(), n_balls: usize::from(model.settings.balls), collect_s: plan.collect_s }
}

/// So many of a drill's last runs tell the squad's pace.
const RUNS: usize = 8;

/// The squad's last runs of a drill.
pub fn own_pace(practices: &[&PracticeSummary], drill: DrillId) -> Vec<Pace> {
    let runs = practices.iter().flat_map(|p| p.runs.iter().rev()).filter(|run| run.drill == Some(drill));
    runs.filter_map(RunSummary::paced).take(RUNS).collect()
}

/// So many practices back is lately.
const LATELY: usize = 4;

/// What a proposal goes by.
pub fn lately<'a>(model: &'a Model, practices: &[&PracticeSummary]) -> Lately<'a> {
    let last_used = |id: DrillId| practices.iter().position(|p| p.runs.iter().any(|run| run.drill == Some(id)));
    let drills = model.base.drills();
    // Used longest ago first; never used is longest.
    let drills = arranged(drills, |a, b| {
        let at = |id| last_used(id).unwrap_or(usize::MAX);
        at(b.0).cmp(&at(a.0))
    });
    let planned = practices.iter().find_map(|p| p.plan.as_ref());
    let undone = planned.map_or_else(Vec::new, |done| {
        let begun = |no: PartNo| done.done.iter().any(|(part, _)| *part == no);
        done.plan.parts.iter().filter(|part| !part.added && !begun(part.no)).cloned().collect()
    });
    let kept = |part: &PlanPart| part.drill.is_none_or(|id| drills.iter().any(|(known, _)| *known == id));
    let recent = &practices[..practices.len().min(LATELY)];
    Lately {
        balls: balls(&drills, recent),
        seen_least: seen_least(model, recent),
        undone: undone.into_iter().filter(kept).collect(),
        drills,
    }
}

/// Who was seen least in the last practices.
pub fn seen_least_lately(model: &Model, practices: &[&PracticeSummary]) -> Vec<PlayerId> {
    seen_least(model, &practices[..practices.len().min(LATELY)])
}

/// Of each skill that is practised in drills, the balls each child had on average; one with none at all lacks them most. Nothing where
/// nothing was counted, or there is no other skill to compare with.
fn balls(drills: &[(DrillId, &DrillSpec)], practices: &[&PracticeSummary]) -> Vec<(Skill, u32)> {
    let mut skills: Vec<(Skill, u32)> = Vec::new();
    for (_, spec) in drills.iter().filter(|(_, spec)| !spec.rule.is_game()) {
        if skills.iter().any(|(skill, _)| *skill == spec.skill) {
            continue;
        }
        let runs = practices.iter().flat_map(|p| &p.runs).filter(|run| run.skill == spec.skill);
        let (n, children) =
            runs.fold((0, 0), |(n, most), run| (n + run.everyone.n_noted(), most.max(run.children.len())));
        skills.push((spec.skill.clone(), n / u32::try_from(children.max(1)).unwrap_or(u32::MAX)));
    }
    let some = skills.iter().any(|(_, n)| *n > 0);
    if some && skills.len() > 1 { skills } else { Vec::new() }
}

/// Who had the fewest balls judged, each time they were here; nobody where more than half had as few.
fn seen_least(model: &Model, practices: &[&PracticeSummary]) -> Vec<PlayerId> {
    let counted = practices.iter().copied().filter(|p| p.runs.iter().any(|run| run.everyone.n_noted() > 0));
    let counted: Vec<&PracticeSummary> = counted.collect();
    let seen = |player: PlayerId| {
        let here = counted.iter().filter(|p| was_there(model, p, player));
        let (n, times) = here.fold((0, 0), |(n, times), p| (n + judged_in(p, player), times + 1));
        // In tenths a practice, so that one who was away isn't behind for that.
        (n * 10).checked_div(times)
    };
    let all: Vec<(PlayerId, u32)> = model.squad().iter().filter_map(|p| Some((p.id, seen(p.id)?))).collect();
    let fewest = all.iter().map(|(_, n)| *n).min().unwrap_or(0);
    let least: Vec<PlayerId> = all.iter().filter(|(_, n)| *n == fewest).map(|(player, _)| *player).collect();
    if least.len() * 2 <= all.len() { least } else { Vec::new() }
}

/// A child that stood in a run, or was of the squad when practice began and not away: who joined later missed nothing.
pub fn was_there(model: &Model, practice: &PracticeSummary, player: PlayerId) -> bool {
    let joined = || model.own.get(player.0).or_else(|| model.theirs.get(player.0));
    let of_squad = || joined().is_some_and(|entry| entry.at.wall_ms <= practice.started.wall_ms);
    practice.took_part(player) || !practice.away.contains(&player) && of_squad()
}

/// Balls of a child that were judged or told, and rallies it played.
pub fn seen_in(practice: &PracticeSummary, player: PlayerId) -> u32 {
    let games = practice.runs.iter().filter_map(|run| run.game.as_ref()).flat_map(|game| &game.children);
    judged_in(practice, player) + games.filter(|child| child.player == player).map(|child| child.n_rallies).sum::<u32>()
}

/// Balls of a child that were judged or told.
pub fn judged_in(practice: &PracticeSummary, player: PlayerId) -> u32 {
    let of = practice.runs.iter().flat_map(|run| &run.children).filter(|(child, _)| *child == player);
    of.map(|(_, counts)| counts.n_noted()).sum()
}
