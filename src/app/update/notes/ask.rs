//! A question proposed, and kept as asked.

use super::super::super::effect::Effect;
use super::super::super::model::Model;
use super::super::super::notes::{Ask, AskTap, Pad, Source, Subject, all, questions, spot, to_ask};
use super::super::super::screen::Screen;
use super::super::{go, library, write};
use crate::domain::entry::Fact;
use crate::domain::notes::{Asked, Remark, Spot};

pub fn ask(model: &mut Model, tap: AskTap) -> Vec<Effect> {
    match tap {
        AskTap::Opened => {
            // On a screen of its own it goes on with what it was opened for.
            let had = &model.drafts.notes.ask;
            let on_board = matches!(model.screen, Screen::Run(_));
            let question = had.question().filter(|_| had.chosen && !on_board).cloned();
            let source = if on_board { Source::Here } else { had.source };
            open_ask(model, source, question);
            return library::asked_for(model, false).into_iter().collect();
        }
        AskTap::Wanted(source, question) => {
            let effects = go(model, Screen::Ask);
            open_ask(model, source, question);
            return effects;
        }
        AskTap::OtherQuestion => {
            let ask = &mut model.drafts.notes.ask;
            ask.question = next(ask.question, ask.questions.len());
        }
        AskTap::OtherChild => {
            let ask = &mut model.drafts.notes.ask;
            ask.child = next(ask.child, ask.children.len());
            ask.asked = None;
            if !ask.chosen {
                fill_questions(model);
            }
        }
        AskTap::Asked => {
            let ask = &model.drafts.notes.ask;
            let (Some(player), Some(question), None) = (ask.player(), ask.question().cloned(), ask.asked) else {
                return Vec::new();
            };
            let spot = spot(model);
            let id = model.writer.id_ahead(0);
            let effects = write(model, vec![Fact::QuestionAsked { spot, asked: Asked { player, question } }]);
            model.drafts.notes.ask.asked = Some(id);
            // What comes of it is noted about this child.
            model.drafts.notes.pad = Pad { about: Some(Subject::Child(player)), ..Pad::default() };
            return effects;
        }
        AskTap::AskedAfter(practice, player, question) => {
            let spot = Spot { practice: Some(practice), ..Spot::default() };
            let asked = Asked { player, question };
            // A second tap on the same asks nobody twice.
            let is = |remark: &Remark| remark.spot == spot && remark.asked() == Some(&asked);
            if all(model).iter().any(is) {
                return Vec::new();
            }
            return write(model, vec![Fact::QuestionAsked { spot, asked }]);
        }
    }
    Vec::new()
}

pub fn open_ask(model: &mut Model, source: Source, question: Option<String>) {
    let children = to_ask(model);
    let chosen = question.is_some();
    let questions = question.into_iter().collect();
    model.drafts.notes.ask = Ask { source, children, questions, chosen, ..Ask::default() };
    if !chosen {
        fill_questions(model);
    }
}

pub fn fill_questions(model: &mut Model) {
    let ask = &model.drafts.notes.ask;
    let Some(player) = ask.player().filter(|_| ask.asked.is_none()) else { return };
    let questions = questions(model, ask.source, player);
    let ask = &mut model.drafts.notes.ask;
    (ask.questions, ask.question) = (questions, 0);
}

/// More questions came. The one that is being read out stays, and the others stand behind it.
pub fn more_questions(model: &mut Model) {
    let ask = &model.drafts.notes.ask;
    if ask.chosen || ask.asked.is_some() {
        return;
    }
    let current = ask.question().cloned();
    fill_questions(model);
    if let Some(current) = current {
        let questions = &mut model.drafts.notes.ask.questions;
        questions.retain(|question| *question != current);
        questions.insert(0, current);
    }
}

const fn next(at: usize, n: usize) -> usize {
    if at + 1 < n { at + 1 } else { 0 }
}
