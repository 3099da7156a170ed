//! Groups and the run that is on: taken into it, and both fitted to who is here and to the balls there are.

use super::super::super::effect::Effect;
use super::super::super::groups::{sizes, standing};
use super::super::super::model::Model;
use super::super::super::screen::Screen;
use super::super::super::words;
use super::super::{go, write};
use super::{MOST, check, dealt, set};
use crate::domain::drill::{Board, Rule};
use crate::domain::entry::{Fact, Lineup, LineupCause};
use crate::domain::ids::PlayerId;
use crate::domain::refit::{self, Fit, refit};
use crate::domain::replay::run::RunState;
use crate::domain::roles;
use crate::domain::together::{Groups, in_order};
use crate::stats::arrange::arranged;
use crate::stats::split::Sizes;

/// The run that is on here, where these groups can be its own.
pub fn run_for_groups<'a>(model: &'a Model, groups: &Groups) -> Option<&'a RunState> {
    let run = model.run_on().filter(|run| model.is_mine(run) && !run.main.lineup.groups.is_empty())?;
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
    let lineup = Lineup { groups, ..here_now(model, run) };
    let mut effects = write(model, vec![Fact::LineupSet { run: id, lineup, cause: LineupCause::ByHand }]);
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

/// "Eleven came, eight balls": the run that is on, or else the groups, laid out for the children and balls there are.
pub(super) fn refit_now(model: &mut Model) -> Vec<Effect> {
    let (here, n_balls) = (model.here(), usize::from(model.settings.balls));
    let run = model.run_on().filter(|run| model.is_mine(run));
    let is_game = run.is_some_and(|run| run.spec.rule.is_game());
    let mut scored = false;
    let (facts, fit, for_roles) = match run {
        Some(run) => {
            let mut fit = refit(&run.spec, here.len(), n_balls);
            let now = sizes_of(&here_now(model, run));
            scored = is_scored(run) && now != fit.sizes;
            if scored {
                fit.sizes = now;
            }
            (fitting(model, run, &here, &fit), fit, roles::rotates(&run.spec))
        }
        None => {
            let wanted = match sizes(&model.settings) {
                Sizes::Size(size) => here.len().div_ceil(size.max(1)),
                Sizes::Number(n) | Sizes::Free(n) => n,
            };
            (Vec::new(), Fit { sizes: refit::group_sizes(wanted, here.len(), n_balls), ..Fit::default() }, false)
        }
    };
    let mut said = words::groups::refitted(here.len(), n_balls, &fit, for_roles, is_game);
    if scored {
        said = format!("{said} {}", words::groups::SCORED);
    }
    let mut effects = write(model, facts);
    if run_id_on(model).is_none() && !here.is_empty() {
        let groups = dealt(model, &here, fit.sizes.len());
        effects.extend(set(model, groups, false));
    }
    check(model);
    model.drafts.groups.said = Some(said);
    effects
}

fn run_id_on(model: &Model) -> Option<crate::domain::ids::RunId> {
    model.run_on().filter(|run| model.is_mine(run)).map(|run| run.id)
}

fn fitting(model: &Model, run: &RunState, here: &[PlayerId], fit: &Fit) -> Vec<Fact> {
    let mut lineup = here_now(model, run);
    let n = fit.sizes.len();
    let mut facts = Vec::new();
    if n > 0 && !here.is_empty() {
        // Who is together stays so where the sizes are right already.
        if sizes_of(&lineup) != fit.sizes {
            lineup.groups = dealt(model, here, n);
            if !run.spec.rule.is_game() {
                facts.push(Fact::GroupsMade { practice: run.practice, groups: lineup.groups.clone(), by_hand: false });
            }
        }
    }
    if lineup != run.main.lineup {
        facts.push(Fact::LineupSet { run: run.id, lineup, cause: LineupCause::ByHand });
    }
    facts
}

/// The larger first.
fn sizes_of(lineup: &Lineup) -> Vec<usize> {
    arranged(lineup.groups.iter().map(Vec::len).collect(), |a, b| b.cmp(a))
}
