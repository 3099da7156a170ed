//! How children and drills are doing over weeks: effort first, then each kind of ball in a sentence and a chart; everything opens to what it
//! rests on. All children in the squad's order, never by how good they are. Each part of a page has a module of its own.

pub mod carry;
pub mod chart;
pub mod drill;
pub mod effort;
pub mod grades;
pub mod kinds;
pub mod load;
mod past;
pub mod rows;
pub mod serves;
pub mod squad;

pub use drill::{DrillWeeks, drill_weeks};
pub use squad::{ChildLine, WeeksView, pictures, weeks};

use self::carry::Gap;
use self::chart::Columns;
use self::effort::EffortView;
use self::grades::GradesView;
use self::kinds::KindView;
use self::load::LoadView;
use self::past::up_to_today;
use self::serves::ServesView;
use crate::app::model::Model;
use crate::app::practices::Practices;
use crate::domain::ids::PlayerId;

/// Whether the levels are there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum State {
    Working,
    Known,
    /// Nobody has a ball.
    Nothing,
    Trouble(String),
}

#[derive(Clone, Debug, PartialEq)]
pub struct ChildWeeks {
    pub player: PlayerId,
    pub name: String,
    pub state: State,
    pub effort: EffortView,
    pub kinds: Vec<KindView>,
    pub grades: Option<GradesView>,
    /// Easy balls against challenge balls; drills against matches.
    pub gaps: Vec<Gap>,
    pub match_gaps: Vec<Gap>,
    pub serves: Option<ServesView>,
    pub rows: Option<Told>,
    pub load: Option<LoadView>,
}

pub fn child_weeks(model: &Model, player: PlayerId) -> Option<ChildWeeks> {
    model.base.player(player)?;
    let all = Practices::of(model);
    let practices = up_to_today(model, all.latest_first());
    Some(ChildWeeks {
        player,
        name: model.name_of(player),
        state: state(model),
        effort: effort::effort(model, &practices, player),
        kinds: kinds::kinds(model, player),
        grades: grades::grades(&practices, player),
        gaps: carry::easy_and_challenge(model, &practices, player),
        match_gaps: carry::drill_and_match(model, &practices, player),
        serves: serves::serves(&practices, player),
        rows: rows::rows(model, &practices, player),
        load: load::load(model, &practices, player),
    })
}

fn state(model: &Model) -> State {
    match (&model.weeks.trouble, &model.weeks.found) {
        (Some(trouble), _) => State::Trouble(trouble.clone()),
        (None, Some(_)) => State::Known,
        (None, None) if model.weeks.series.is_empty() => State::Nothing,
        (None, None) => State::Working,
    }
}

/// Shares side by side, the best first: told by how full each part is.
#[derive(Clone, Debug, PartialEq)]
pub struct Split {
    pub title: String,
    /// Of four outcomes, the best first.
    pub parts: [u32; 4],
    pub line: String,
    pub more: Option<String>,
}

/// Columns with their words.
#[derive(Clone, Debug, PartialEq)]
pub struct Told {
    pub line: String,
    pub columns: Option<Columns>,
}
