//! Groups and the run that is on: taken into it, and both fitted to who is here and to the balls there are.

use std::collections::BTreeMap;

use super::super::super::effect::Effect;
use super::super::super::groups::{sizes, standing};
use super::super::super::model::Model;
use super::super::super::screen::Screen;
use super::super::super::words;
use super::super::{go, write};
use super::{MOST, check, dealt, set};
use crate::domain::drill::{Board, Rule};
use crate::domain::entry::{Fact, Lineup, LineupCause};
use crate::domain::ids::{GroupNo, PlayerId, Step};
use crate::domain::refit::{self, Fit, refit};
use crate::domain::replay::run::RunState;
use crate::domain::roles;
use crate::domain::together::{Groups, in_order};
use crate::stats::arrange::arranged;
use crate::stats::split::Sizes;

/// The run at hand, where these groups can be its own.
pub fn run_for_groups<'a>(model: &'a Model, groups: &Groups) -> Option<&'a RunState> {
    let run = model.run_at_hand().filter(|run| !run.main.lineup.groups.is_empty())?;
    let most = match run.spec.board {
        Board::Lanes => Board::MAX_LANES,
        Board::Court => MOST,
        _ => Board::MAX_GROUPS,
    };
    let fits = (2..=usize::from(most)).contains(&groups.len());
    let fits = fits && (!matches!(run.spec.rule, Rule::MatchGame(_)) || groups.len() == 2);
    (fits && in_order(&run.main.lineup.groups) != in_order(groups)).then_some(run)
}

pub(super) fn in_this_drill(model: &mut Model) -> Vec<Effect> {
    let groups = standing(model);
    let Some(run) = run_for_groups(model, &groups) else { return Vec::new() };
    if is_scored(run) {
        model.drafts.groups.said = Some(words::groups::SCORED.to_owned());
        return Vec::new();
    }
    let id = run.id;
    let mut facts = balls(run, &groups);
    let lineup = Lineup { groups, ..here_now(model, run) };
    facts.push(Fact::LineupSet { run: id, lineup, cause: LineupCause::ByHand });
    let mut effects = write(model, facts);
    effects.extend(go(model, Screen::Run(id)));
    effects
}

/// Whether points were made that belong to its groups: dealt anew, these would have what others made.
fn is_scored(run: &RunState) -> bool {
    match run.spec.rule {
        Rule::MatchGame(_) => !run.main.rallies.is_empty(),
        rule => rule.has_groups() && run.main.contacts.iter().any(|c| c.contact.group.is_some()),
    }
}

/// Groups with the balls of their own that some have.
pub struct Balls<'a> {
    pub groups: &'a Groups,
    pub steps: &'a BTreeMap<GroupNo, Step>,
}

impl Balls<'_> {
    /// A step belongs to children and not to their group's number: who plays together keeps the ball, whatever the number is now; groups
    /// that others make up have the usual one.
    pub fn of(&self, group: &[PlayerId], usual: Step) -> Step {
        let is_same = |was: &Vec<PlayerId>| was.len() == group.len() && was.iter().all(|player| group.contains(player));
        let at = self.groups.iter().position(is_same).and_then(|at| u8::try_from(at).ok());
        at.and_then(|at| self.steps.get(&GroupNo(at)).copied()).unwrap_or(usual)
    }
}

/// The balls of a run whose groups will be these. Taken back with the lineup that is written after them.
fn balls(run: &RunState, groups: &Groups) -> Vec<Fact> {
    let (usual, steps) = (run.main.feed.step, &run.main.group_steps);
    let had = Balls { groups: &run.main.lineup.groups, steps };
    let numbered = (0_u8..).map(GroupNo).zip(groups).map(|(no, group)| (no, had.of(group, usual)));
    let gone = steps.keys().filter(|no| usize::from(no.0) >= groups.len()).map(|no| (*no, usual));
    let changed = numbered.chain(gone).filter(|(no, step)| steps.get(no).copied().unwrap_or(usual) != *step);
    changed.map(|(group, step)| Fact::GroupStepSet { run: run.id, group, step }).collect()
}

/// The lineup of a run with exactly those who are here.
fn here_now(model: &Model, run: &RunState) -> Lineup {
    let here = model.here();
    let mut lineup = run.main.lineup.clone();
    for gone in run.main.lineup.everyone().filter(|p| !here.contains(p)) {
        lineup = lineup.with_presence_in(&run.spec.rule, gone, false);
    }
    for came in &here {
        lineup = lineup.with_presence_in(&run.spec.rule, *came, true);
    }
    if roles::rotates(&run.spec) { roles::filled(&run.spec, &lineup) } else { lineup }
}

/// What a refit of a run makes of it.
pub struct RunFit {
    pub fit: Fit,
    /// Points belong to its groups, so these stay as far as can be.
    pub keeps_groups: bool,
    /// The lineup as it would be; groups that are to be dealt anew are still as they were.
    lineup: Lineup,
    deals: bool,
}

impl RunFit {
    /// Groups have balls of their own that go with it.
    pub fn balls_back(&self, run: &RunState) -> bool {
        let usual = run.main.feed.step;
        self.deals && run.main.group_steps.values().any(|step| *step != usual)
    }

    /// Whether anything would change.
    pub fn changes(&self, run: &RunState) -> bool {
        self.deals || self.lineup != run.main.lineup
    }
}

/// The run fitted to the children who are here and to the balls there are. Groups that are scored stay, and as few children as can be
/// change theirs; others are dealt anew where their sizes aren't right.
pub fn fit_of(model: &Model, run: &RunState) -> RunFit {
    let mut fit = refit(&run.spec, model.here().len(), usize::from(model.settings.balls));
    let mut lineup = here_now(model, run);
    let keeps_groups = is_scored(run) && sizes_of(&lineup) != fit.sizes;
    if keeps_groups {
        // The teams of a match are as the coach set them.
        if !run.spec.rule.is_game() {
            leveled(&mut lineup.groups);
        }
        fit.sizes = sizes_of(&lineup);
    }
    let deals = fit.sizes.iter().any(|size| *size > 0) && sizes_of(&lineup) != fit.sizes;
    RunFit { fit, keeps_groups, lineup, deals }
}

/// The last of the largest group goes to the smallest, until none has two more than another.
fn leveled(groups: &mut Groups) {
    let place = |groups: &Groups, size: Option<usize>| groups.iter().rposition(|group| Some(group.len()) == size);
    while let (Some(most), Some(least)) =
        (place(groups, groups.iter().map(Vec::len).max()), place(groups, groups.iter().map(Vec::len).min()))
        && groups[most].len() > groups[least].len() + 1
        && let Some(player) = groups[most].pop()
    {
        groups[least].push(player);
    }
}

/// "Eleven came, eight balls": the run at hand, or else the groups, laid out for the children and balls there are.
pub(super) fn refit_now(model: &mut Model) -> Vec<Effect> {
    let (here, n_balls) = (model.here(), usize::from(model.settings.balls));
    let Some(run) = model.run_at_hand() else { return refit_groups(model, &here, n_balls) };
    let fitted = fit_of(model, run);
    let mut said =
        words::groups::refitted(here.len(), n_balls, &fitted.fit, roles::rotates(&run.spec), run.spec.rule.is_game());
    if fitted.keeps_groups {
        said = format!("{said} {}", words::groups::SCORED);
    }
    if fitted.balls_back(run) {
        said = format!("{said} {}", words::groups::BALLS_BACK);
    }
    let facts = fitting(model, run, &here, fitted);
    let effects = write(model, facts);
    check(model);
    model.drafts.groups.said = Some(said);
    effects
}

/// No run is on: groups for the next one.
fn refit_groups(model: &mut Model, here: &[PlayerId], n_balls: usize) -> Vec<Effect> {
    let wanted = match sizes(&model.settings) {
        Sizes::Size(size) => here.len().div_ceil(size.max(1)),
        Sizes::Number(n) | Sizes::Free(n) => n,
    };
    let fit = Fit { sizes: refit::group_sizes(wanted, here.len(), n_balls), ..Fit::default() };
    let said = words::groups::refitted(here.len(), n_balls, &fit, false, false);
    let mut effects = Vec::new();
    if !here.is_empty() {
        let groups = dealt(model, here, fit.sizes.len());
        effects.extend(set(model, groups, false));
    }
    check(model);
    model.drafts.groups.said = Some(said);
    effects
}

fn fitting(model: &Model, run: &RunState, here: &[PlayerId], fitted: RunFit) -> Vec<Fact> {
    if !fitted.changes(run) {
        return Vec::new();
    }
    let mut lineup = fitted.lineup;
    let mut facts = Vec::new();
    // Who is together stays so where the sizes are right already.
    if fitted.deals {
        lineup.groups = dealt(model, here, fitted.fit.sizes.len());
        facts.extend(balls(run, &lineup.groups));
        if !run.spec.rule.is_game() {
            facts.push(Fact::GroupsMade { practice: run.practice, groups: lineup.groups.clone(), by_hand: false });
        }
    }
    facts.push(Fact::LineupSet { run: run.id, lineup, cause: LineupCause::ByHand });
    facts
}

/// The larger first.
fn sizes_of(lineup: &Lineup) -> Vec<usize> {
    arranged(lineup.groups.iter().map(Vec::len).collect(), |a, b| b.cmp(a))
}
