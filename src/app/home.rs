//! The note home of one child: composed of what its own balls carry, changed by the coach, checked so that no other child is in it. What
//! is changed or left out is kept on this phone; nothing of it is an entry.

mod composed;

pub use composed::composed;

use serde::{Deserialize, Serialize};

use super::model::Model;
use super::named::{Named, words_of};
use super::screen::Screen;
use super::view::share::Answer;
use super::words::home as words;
use crate::domain::ids::PlayerId;
use crate::stats::arrange::arranged;

/// A sentence of it, in this order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Piece {
    Effort,
    There,
    Progress,
    More,
    Practised,
    Own,
    Question,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub enum HomeTap {
    Opened(Piece),
    Closed,
    Typed(String),
    /// Left out, or put in again.
    Out(Piece, bool),
    AsComposed(Piece),
    OtherQuestion,
    Anew,
    Goes(Way),
    AnswerSeen,
}

/// How it leaves.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    CopyText,
    ShareText,
    Print,
    SavePicture,
    SharePicture,
}

/// What is open on screen.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct HomeScreen {
    pub open: Option<Piece>,
    pub answer: Option<Answer>,
}

/// What the coach has changed of one child's note.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct HomeDraft {
    /// The child's identity, as the log has it.
    pub child: String,
    pub pieces: Vec<PieceDraft>,
    /// So many questions on from the one that comes by itself.
    pub question: u32,
}

#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PieceDraft {
    pub piece: Piece,
    /// In the coach's words.
    pub said: Option<String>,
    pub out: bool,
}

/// What leaves: the same by whatever way.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sheet {
    pub band: &'static str,
    pub name: String,
    pub date: String,
    pub lines: Vec<String>,
    /// The last of the lines is a question.
    pub asks: bool,
    pub foot: &'static str,
}

impl Sheet {
    pub fn text(&self) -> String {
        words::text(&self.name, &self.date, &self.lines)
    }
}

/// Lately: six weeks.
pub const WEEKS: i32 = 6;
/// Notes that are remembered: more children than any squad.
pub const MOST_DRAFTS: usize = 60;

/// Whose note is on screen.
pub fn on_screen(model: &Model) -> Option<PlayerId> {
    match model.screen {
        Screen::Home(player) => Some(player),
        _ => None,
    }
}

/// Of a child that was entered twice: the one that stays had words of its own, or those of the other.
pub fn draft(model: &Model, player: PlayerId) -> Option<&HomeDraft> {
    let of = |id: PlayerId| {
        let id = id.0.to_string();
        model.settings.home.iter().find(|draft| draft.child == id)
    };
    model.base.same().all(player).find_map(of)
}

impl HomeDraft {
    pub fn piece(&self, piece: Piece) -> Option<&PieceDraft> {
        self.pieces.iter().find(|draft| draft.piece == piece)
    }
}

/// As it would leave now.
pub fn sheet(model: &Model, player: PlayerId) -> Sheet {
    let lines = in_it(model, player);
    Sheet {
        band: words::BAND,
        name: model.base.player(player).map(|p| p.name.trim().to_owned()).unwrap_or_default(),
        date: words::date(model.now.day()),
        asks: lines.last().is_some_and(|(piece, _)| *piece == Piece::Question),
        lines: lines.into_iter().map(|(_, line)| line).collect(),
        foot: words::FOOT,
    }
}

/// The sentences that are in it, as they stand.
pub fn in_it(model: &Model, player: PlayerId) -> Vec<(Piece, String)> {
    let draft = draft(model, player);
    let mut pieces = composed(model, player);
    let known = |piece: Piece| draft.and_then(|draft| draft.piece(piece));
    // What the coach has put in stays, though nothing would come by itself any more.
    for own in draft.into_iter().flat_map(|draft| &draft.pieces).filter(|own| own.said.is_some()) {
        if pieces.iter().all(|(piece, _)| *piece != own.piece) {
            pieces.push((own.piece, String::new()));
        }
    }
    let pieces = arranged(pieces, |a, b| a.0.cmp(&b.0));
    let stands = pieces.into_iter().filter(|(piece, _)| known(*piece).is_none_or(|own| !own.out));
    let worded = stands.map(|(piece, line)| (piece, known(piece).and_then(|own| own.said.clone()).unwrap_or(line)));
    worded.filter(|(_, line)| !line.trim().is_empty()).collect()
}

/// Other children whom the coach's words name, sentence by sentence. What the sentence said by itself names nobody, so its words are
/// words, though a child may be called like one.
pub fn names_in(model: &Model, player: PlayerId) -> Vec<(Piece, Vec<String>)> {
    let Some(draft) = draft(model, player) else { return Vec::new() };
    let others = Named::but(&model.base, player);
    let composed = composed(model, player);
    let found = |(piece, line): (Piece, String)| {
        draft.piece(piece)?.said.as_ref()?;
        let own = composed.iter().find(|(of, _)| *of == piece).map(|(_, line)| words_of(line)).unwrap_or_default();
        let mut names = others.found_in(&line);
        names.retain(|name| own.iter().all(|(key, _)| *key != name.to_lowercase()));
        (!names.is_empty()).then_some((piece, names))
    };
    in_it(model, player).into_iter().filter_map(found).collect()
}
