//! A question as it is said, whom it goes to, and the coach's own questions beside it.

use super::{SaidView, said_of};
use crate::app::model::Model;
use crate::app::notes::{Ask, Source, Typing, drill_of};
use crate::app::screen::Screen;
use crate::app::words::{counts, notes as says};
use crate::domain::notes::{Turn, said};
use crate::domain::time::Stamp;

#[derive(Clone, Debug, Default, PartialEq)]
pub struct AskView {
    /// "Where did your hand finish, Mira?"; nothing where nobody is here.
    pub sentence: Option<String>,
    pub name: String,
    /// "Mira was not asked yet, in 3 practices."
    pub why: String,
    pub other_question: bool,
    pub other_child: bool,
    /// It was asked: what is said of that, and its way back.
    pub said: Option<SaidView>,
    /// The drill it is about.
    pub drill: Option<String>,
    /// Where the way back leads.
    pub back: Option<Screen>,
}

/// The coach's own questions, of this drill or of any.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct OwnList {
    pub questions: Vec<String>,
    pub typing: Typing,
    /// There is a drill that they can be of.
    pub has_drill: bool,
    pub of_any: bool,
}

pub fn ask(model: &Model) -> AskView {
    let ask = &model.drafts.notes.ask;
    let drill = drill_of(model, ask.source).and_then(|id| model.base.drill(id)).map(|spec| spec.name.clone());
    let back = match ask.source {
        Source::Library(no) => Some(Screen::LibraryDrill(no)),
        Source::Drill(id) => Some(Screen::Drill(Some(id))),
        Source::Here | Source::Nothing => None,
    };
    let Some((player, question)) = ask.player().zip(ask.question()) else {
        return AskView { drill, back, ..AskView::default() };
    };
    let name = model.name_of(player);
    AskView {
        sentence: Some(said(question, &name)),
        why: turn(model, ask).map(|turn| why(model, &name, turn)).unwrap_or_default(),
        name,
        other_question: ask.questions.len() > 1,
        other_child: ask.children.len() > 1,
        said: ask.asked.and_then(|id| said_of(model, id)),
        drill,
        back,
    }
}

pub fn own(model: &Model) -> OwnList {
    let draft = &model.drafts.notes;
    let drill = drill_of(model, draft.ask.source);
    let of_any = draft.own_of_any || drill.is_none();
    OwnList {
        questions: model.base.questions(drill.filter(|_| !of_any)).to_vec(),
        typing: draft.own.clone(),
        has_drill: drill.is_some(),
        of_any,
    }
}

/// As it stood when the question was opened, and with this one once it was asked: no board works through a season at every tap.
fn turn(model: &Model, ask: &Ask) -> Option<Turn> {
    let turn = ask.turn()?;
    let asked = ask.asked.filter(|id| !model.base.is_taken_back(*id)).and_then(|id| model.base.remark(id));
    Some(match asked {
        Some(remark) => Turn { n_asked: turn.n_asked.saturating_add(1), last_ms: Some(remark.at.wall_ms), ..turn },
        None => turn,
    })
}

fn why(model: &Model, name: &str, turn: Turn) -> String {
    let day = turn.last_ms.map(|wall_ms| counts::day(Stamp { wall_ms, ..model.now }.day(), model.now.day()));
    says::why(name, turn.n_asked, turn.n_here, day.as_deref())
}
