//! The note home on screen: the sheet as it will leave, sentence by sentence; what was left out; the ways out, which rest while another
//! child is named.

use super::share::Answer;
use crate::app::home::{HomeScreen, Piece, composed, draft, in_it, names_in, sheet};
use crate::app::model::Model;
use crate::app::words::home as words;
use crate::domain::ids::PlayerId;

#[derive(Clone, Debug, PartialEq)]
pub struct HomeView {
    pub player: PlayerId,
    pub name: String,
    pub date: String,
    pub lines: Vec<Line>,
    /// What was left out, each as it would read.
    pub out: Vec<(Piece, String)>,
    pub open: Option<Open>,
    /// Another child is named, or nothing is left: nothing goes.
    pub fault: Option<String>,
    pub working: bool,
    /// There is nothing to tell of this child yet.
    pub nothing: bool,
    pub changed: bool,
    pub can_share: bool,
    pub answer: Option<Answer>,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    pub piece: Piece,
    /// Empty while it is open: what is typed stands in its field.
    pub text: String,
    pub open: bool,
    pub question: bool,
    pub named: bool,
}

/// The sentence that is being changed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Open {
    pub piece: Piece,
    pub typed: String,
    /// As it would read by itself, where that differs.
    pub composed: Option<String>,
}

pub fn home(model: &Model, player: PlayerId) -> Option<HomeView> {
    model.base.player(player)?;
    let HomeScreen { open, answer } = model.drafts.home.clone();
    let (all, stands) = (composed(model, player), in_it(model, player));
    let named = names_in(model, player);
    let sheet = sheet(model, player);
    let mut lines: Vec<Line> = stands
        .iter()
        .map(|(piece, text)| Line {
            piece: *piece,
            text: if open == Some(*piece) { String::new() } else { text.clone() },
            open: open == Some(*piece),
            question: *piece == Piece::Question,
            named: open != Some(*piece) && named.iter().any(|(of, _)| of == piece),
        })
        .collect();
    if let Some(piece) = open.filter(|piece| lines.iter().all(|line| line.piece != *piece)) {
        // Emptied while it is typed at, or not begun.
        let at = lines.iter().position(|line| line.piece > piece).unwrap_or(lines.len());
        let question = piece == Piece::Question;
        lines.insert(at, Line { piece, text: String::new(), open: true, question, named: false });
    }
    let draft = draft(model, player);
    let worded = |piece: Piece| draft.and_then(|d| d.piece(piece)).and_then(|own| own.said.clone());
    let in_words = |piece: Piece| worded(piece).filter(|said| !said.trim().is_empty());
    // Left out, or emptied when the screen was left.
    let out = all.iter().filter(|(piece, _)| lines.iter().all(|line| line.piece != *piece));
    let out = out.map(|(piece, line)| (*piece, in_words(*piece).unwrap_or_else(|| line.clone()))).collect();
    let names: Vec<String> = named.iter().flat_map(|(_, names)| names.clone()).collect();
    let by_itself = |piece: Piece| all.iter().find(|(of, _)| *of == piece).map(|(_, line)| line.clone());
    let fault = if !names.is_empty() {
        Some(words::named(&names))
    } else if sheet.lines.is_empty() {
        Some(words::EMPTY.to_owned())
    } else {
        None
    };
    Some(HomeView {
        player,
        name: sheet.name,
        date: sheet.date,
        out,
        open: open.map(|piece| {
            let composed = by_itself(piece);
            let typed = worded(piece).or_else(|| composed.clone()).unwrap_or_default();
            Open { piece, composed: composed.filter(|line| *line != typed), typed }
        }),
        fault: fault.filter(|_| !all.is_empty()),
        working: model.weeks.found.is_none() && model.weeks.trouble.is_none() && !model.weeks.series.is_empty(),
        nothing: all.is_empty(),
        changed: draft.is_some(),
        can_share: model.phone.can_share,
        answer,
        lines,
    })
}
