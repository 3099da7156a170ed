//! After a run, for the coach alone: who is ready for a harder ball, whom an easier one would help, each with the key that gives it. In the
//! squad's order; of whom nothing is to be said nothing stands here.

use super::run::in_squad_order;
use super::{StepGiven, StepLine, StepsView};
use crate::app::action::Action;
use crate::app::model::Model;
use crate::app::steps::{Advice, Word, advice, is_asking, of_all, trouble};
use crate::app::words::steps as words;
use crate::domain::drill::Board;
use crate::domain::ids::{PlayerId, Step};
use crate::domain::replay::run::RunState;
use crate::domain::rule::{Rule, Together};
use crate::domain::skill::{Feed, Skill};
use crate::stats::beta::mixed;
use crate::stats::goal::{at_least, fewest_tries};

/// Steps of a drill's ladder that have a word.
const MOST_STEP: u8 = 4;

pub fn steps(model: &Model, run: &RunState) -> StepsView {
    if !run.main.finished {
        return StepsView::default();
    }
    let Some(Advice { group, children }) = advice(model, run.id) else {
        let trouble = trouble(model, run.id).map(words::not_worked);
        return StepsView { working: is_asking(model, run.id), trouble, ..StepsView::default() };
    };
    let skill = &run.spec.skill;
    let kind = |feed: Feed| words::kind(run.main.transition().is_some(), feed.kind);
    let line = |(player, feed, word): (PlayerId, Feed, Word)| StepLine {
        player: Some(player),
        name: model.name_of(player),
        line: said(model, word, kind(feed)),
        given: given(model, run, player, feed.step, word),
        ends: next(skill, feed.step, word).is_none().then(|| ends(word)),
    };
    let children = in_squad_order(model, children, |(player, ..)| *player);
    let group = group.map(|(feed, word)| StepLine {
        player: None,
        name: words::TOGETHER.to_owned(),
        line: said(model, word, kind(feed)),
        given: None,
        ends: None,
    });
    StepsView {
        working: false,
        trouble: None,
        next: for_all(model, run),
        lines: group.into_iter().chain(children.into_iter().map(line)).collect(),
    }
}

/// Fewer balls are no goal, and of more than these the next run has hardly ever as many.
const BALLS: std::ops::RangeInclusive<u32> = 10..=200;

/// A goal for next time, of as many balls as this time: the one whose chance is nearest to the coach's wish. Where what is counted is good ones of
/// everyone; the other rules have theirs on the drill's form.
fn for_all(model: &Model, run: &RunState) -> Option<String> {
    if !matches!(run.spec.rule, Rule::Tally { .. } | Rule::Together(Together { row: false, .. })) {
        return None;
    }
    let (level, n) = of_all(model, run.id).filter(|(_, n)| BALLS.contains(n))?;
    let (nodes, wish) = (level.nodes(n), f64::from(model.settings.wish) / 100.0);
    let chance = |goal: u32| mixed(&nodes, &mut |p| at_least(goal, n, p));
    // The more, the less likely: the first that is less likely than wished, or the one before it.
    let beyond = fewest_tries(1.0 - wish, n, &mut |goal| 1.0 - chance(goal)).unwrap_or(n);
    let goal = if wish - chance(beyond) > chance(beyond.saturating_sub(1)) - wish { beyond - 1 } else { beyond };
    (goal > 0).then(|| words::next_for_all(goal, n, chance(goal)))
}

fn said(model: &Model, word: Word, kind: &str) -> String {
    match word {
        Word::Harder(sure) => words::harder(sure, model.settings.upper, kind),
        Word::Easier(sure) => words::easier(sure, model.settings.lower, kind),
    }
}

fn next(skill: &Skill, step: Step, word: Word) -> Option<Step> {
    match word {
        Word::Harder(_) => step.one_harder(MOST_STEP),
        Word::Easier(_) => step.one_easier(skill),
    }
}

fn ends(word: Word) -> &'static str {
    match word {
        Word::Harder(_) => words::NO_HARDER,
        Word::Easier(_) => words::NO_EASIER,
    }
}

/// A child has a step of its own where the drill is kept and a ball names its child; in rounds of a duel all have the same.
fn given(model: &Model, run: &RunState, player: PlayerId, had: Step, word: Word) -> Option<StepGiven> {
    let skill = &run.spec.skill;
    let drill = run.drill.filter(|_| model.is_mine(run) && run.spec.rule.transition().is_none())?;
    if !(run.spec.board.order().is_some() || matches!(run.spec.board, Board::Floor { .. } | Board::ServeFloor { .. })) {
        return None;
    }
    let to = next(skill, had, word)?;
    let now = model.base.step_of(drill, player).unwrap_or(run.spec.feed.step);
    Some(if now == to {
        StepGiven {
            said: Some(words::given(skill, to)),
            label: words::back(skill, had),
            action: Action::StepChosen(player, had),
        }
    } else {
        StepGiven { said: None, label: words::give(skill, to), action: Action::StepChosen(player, to) }
    })
}
