//! After a run, for the coach alone: who is ready for a harder ball, whom an easier one would help, each with the key that gives it. In the
//! squad's order; of whom nothing is to be said nothing stands here.

use super::run::in_squad_order;
use super::{StepGiven, StepLine, StepsView};
use crate::app::action::Action;
use crate::app::model::Model;
use crate::app::steps::{Advice, Word, advice, is_asking, trouble};
use crate::app::words::steps as words;
use crate::domain::drill::Board;
use crate::domain::ids::{PlayerId, Step};
use crate::domain::replay::run::RunState;
use crate::domain::skill::{Feed, Skill};

/// Steps of a drill's ladder that have a word.
const MOST_STEP: u8 = 4;

pub fn steps(model: &Model, run: &RunState) -> StepsView {
    if !run.main.finished {
        return StepsView::default();
    }
    let Some(Advice { group, children }) = advice(model, run.id) else {
        let trouble = trouble(model, run.id).map(words::not_worked);
        return StepsView { working: is_asking(model, run.id), trouble, lines: Vec::new() };
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
        lines: group.into_iter().chain(children.into_iter().map(line)).collect(),
    }
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
