//! The coach's own tags and questions: added, put in other words, removed.

use super::super::super::effect::Effect;
use super::super::super::model::Model;
use super::super::super::notes::{ListTap, Typing, drill_of, tags};
use super::super::typed::plain;
use super::super::write;
use super::ask::fill_questions;
use crate::domain::drill::MAX_NAME;
use crate::domain::entry::Fact;

/// Longest question of the coach's own.
const MOST_QUESTION: usize = 2 * MAX_NAME;
/// Longest tag.
const MOST_TAG: usize = 30;

pub fn change_tags(model: &mut Model, tap: ListTap) -> Vec<Effect> {
    let had = tags(model);
    let tags = changed(&mut model.drafts.notes.tag, had, MOST_TAG, tap);
    let Some(tags) = tags else { return Vec::new() };
    let revision = model.base.next_tags_revision();
    write(model, vec![Fact::NoteTagsChanged { revision, tags }])
}

pub fn change_own(model: &mut Model, tap: ListTap) -> Vec<Effect> {
    let draft = &model.drafts.notes;
    let drill = drill_of(model, draft.ask.source).filter(|_| !draft.own_of_any);
    let had = model.base.questions(drill).to_vec();
    let questions = changed(&mut model.drafts.notes.own, had, MOST_QUESTION, tap);
    let Some(questions) = questions else { return Vec::new() };
    let revision = model.base.next_questions_revision(drill);
    let effects = write(model, vec![Fact::QuestionsChanged { drill, revision, questions }]);
    if !model.drafts.notes.ask.chosen {
        fill_questions(model);
    }
    effects
}

/// The list as it is after a tap, where the tap changes it.
fn changed(typing: &mut Typing, had: Vec<String>, most: usize, tap: ListTap) -> Option<Vec<String>> {
    match tap {
        ListTap::Typed(text) => typing.text = plain(&text, most),
        ListTap::Change(text) => {
            let other = typing.instead_of.as_ref() != Some(&text);
            *typing = if other { Typing { text: text.clone(), instead_of: Some(text) } } else { Typing::default() };
        }
        ListTap::Removed(text) => {
            *typing = Typing::default();
            return Some(had.into_iter().filter(|known| *known != text).collect());
        }
        ListTap::Kept => {
            let Typing { text, instead_of } = std::mem::take(typing);
            let text = text.trim().to_owned();
            if text.is_empty() || had.contains(&text) {
                return None;
            }
            let mut list = had;
            match instead_of.and_then(|old| list.iter().position(|known| *known == old)) {
                Some(at) => list[at] = text,
                None => list.push(text),
            }
            return Some(list);
        }
    }
    None
}
