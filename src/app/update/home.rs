//! The note home: a sentence changed or left out, and the note on its way. Refuses to let it go while another child is named.

use super::super::effect::Effect;
use super::super::home::{
    HomeDraft, HomeTap, MOST_DRAFTS, Piece, PieceDraft, Way, composed, names_in, on_screen, sheet,
};
use super::super::model::Model;
use super::super::view::share::Answer;
use super::super::words::{home as words, notes::MOST_WORDS};
use super::typed::lines;
use crate::domain::ids::PlayerId;

pub fn act(model: &mut Model, tap: HomeTap) -> Vec<Effect> {
    let Some(player) = on_screen(model) else { return Vec::new() };
    // What is said while a sentence is typed (whose words had to go) outlives the next letter; opening it has cleared what was there.
    if !matches!(tap, HomeTap::AnswerSeen | HomeTap::Typed(_) | HomeTap::Closed) {
        model.drafts.home.answer = None;
    }
    match tap {
        HomeTap::Opened(piece) => {
            close(model, player);
            model.drafts.home.open = Some(piece);
        }
        HomeTap::Closed => close(model, player),
        HomeTap::Typed(text) => {
            let Some(piece) = model.drafts.home.open else { return Vec::new() };
            change(model, player, piece, |own| own.said = Some(lines(&text, MOST_WORDS)));
        }
        HomeTap::Out(piece, out) => {
            if model.drafts.home.open == Some(piece) {
                model.drafts.home.open = None;
            }
            change(model, player, piece, |own| {
                own.out = out;
                own.said.take_if(|said| said.trim().is_empty());
            });
        }
        HomeTap::AsComposed(piece) => change(model, player, piece, |own| own.said = None),
        HomeTap::OtherQuestion => {
            let draft = draft_of(model, player);
            draft.question = draft.question.wrapping_add(1);
            change(model, player, Piece::Question, |own| own.said = None);
        }
        HomeTap::Anew => {
            let ids: Vec<String> = model.base.same().all(player).map(|id| id.0.to_string()).collect();
            model.settings.home.retain(|draft| !ids.contains(&draft.child));
            model.drafts.home.open = None;
        }
        HomeTap::AnswerSeen => {
            model.drafts.home.answer = None;
            return Vec::new();
        }
        HomeTap::Goes(way) => {
            close(model, player);
            let kept = Effect::KeepSettings(model.settings.to_json());
            return [kept].into_iter().chain(goes(model, player, way)).collect();
        }
    }
    vec![Effect::KeepSettings(model.settings.to_json())]
}

/// It has left, or not. Of printing nobody tells. Where another child's note is on screen by now, the answer says whose it was.
pub fn left(model: &mut Model, way: Way, player: PlayerId, name: &str, left: Result<bool, String>) {
    let answer = match (left, way) {
        (Ok(false), _) | (Ok(true), Way::Print) => None,
        (Ok(true), Way::CopyText) => Some((words::COPIED.to_owned(), false)),
        (Ok(true), Way::SavePicture) => Some((words::saved(name), false)),
        (Ok(true), Way::ShareText | Way::SharePicture) => Some((words::SHARED.to_owned(), false)),
        (Err(why), _) => Some((words::not_gone(&why), true)),
    };
    let elsewhere = on_screen(model) != Some(player);
    let worded = |text: String| if elsewhere { words::answer_of(&model.name_of(player), &text) } else { text };
    model.drafts.home.answer = answer.map(|(text, refused)| Answer { text: worded(text), refused });
}

fn goes(model: &Model, player: PlayerId, way: Way) -> Option<Effect> {
    let sheet = sheet(model, player);
    let goes = !sheet.lines.is_empty() && names_in(model, player).is_empty();
    goes.then(|| Effect::NoteHome { way, player, name: file_name(model, player), sheet: Box::new(sheet) })
}

/// Emptied is left out; as it was is not changed.
fn close(model: &mut Model, player: PlayerId) {
    let Some(piece) = model.drafts.home.open.take() else { return };
    let by_itself = composed(model, player).into_iter().find(|(of, _)| *of == piece).map(|(_, line)| line);
    let Some(said) = super::super::home::draft(model, player).and_then(|d| d.piece(piece)?.said.clone()) else {
        return;
    };
    if said.trim().is_empty() {
        change(model, player, piece, |own| *own = PieceDraft { piece, said: None, out: by_itself.is_some() });
    } else if by_itself.as_deref() == Some(said.as_str()) {
        change(model, player, piece, |own| own.said = None);
    }
}

fn change(model: &mut Model, player: PlayerId, piece: Piece, change: impl FnOnce(&mut PieceDraft)) {
    let draft = draft_of(model, player);
    let at = draft.pieces.iter().position(|own| own.piece == piece).unwrap_or_else(|| {
        draft.pieces.push(PieceDraft { piece, said: None, out: false });
        draft.pieces.len() - 1
    });
    change(&mut draft.pieces[at]);
    draft.pieces.retain(|own| own.out || own.said.is_some());
    let id = player.0.to_string();
    model.settings.home.retain(|draft| draft.child != id || !draft.pieces.is_empty() || draft.question > 0);
}

fn draft_of(model: &mut Model, player: PlayerId) -> &mut HomeDraft {
    let id = player.0.to_string();
    let at = model.settings.home.iter().position(|draft| draft.child == id).unwrap_or_else(|| {
        if model.settings.home.len() >= MOST_DRAFTS {
            drop_one(model);
        }
        // What was written under the other name of one that was entered twice goes on.
        let before = super::super::home::draft(model, player).cloned().unwrap_or_default();
        model.settings.home.push(HomeDraft { child: id, ..before });
        model.settings.home.len() - 1
    });
    &mut model.settings.home[at]
}

/// One too many is remembered: the oldest of a child that has left, else the oldest without words of the coach's own. Where all have such
/// words the oldest of them goes, and that is said.
fn drop_one(model: &mut Model) {
    let squad = model.squad();
    let of = |draft: &HomeDraft| squad.iter().find(|child| child.id.0.to_string() == draft.child);
    let drafts = &model.settings.home;
    let gone = drafts.iter().position(|draft| of(draft).is_none());
    let bare = || drafts.iter().position(|draft| draft.pieces.iter().all(|own| own.said.is_none()));
    let quietly = gone.or_else(bare);
    let said = drafts.first().and_then(of).filter(|_| quietly.is_none()).map(|child| words::dropped(&child.name));
    model.settings.home.remove(quietly.unwrap_or(0));
    if let Some(text) = said {
        model.drafts.home.answer = Some(Answer { text, refused: true });
    }
}

/// `mira-2026-11-27.png`
fn file_name(model: &Model, player: PlayerId) -> String {
    let name = model.base.player(player).map(|p| p.name).unwrap_or_default().to_lowercase();
    let name: String = name.chars().map(|c| if c.is_alphanumeric() { c } else { '-' }).collect();
    let name = name.trim_matches('-');
    format!("{}-{}.png", if name.is_empty() { "note" } else { name }, model.now.day())
}
