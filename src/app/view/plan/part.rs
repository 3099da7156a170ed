//! One part: its row in the timeline, and what is shown once it is open.

use super::Ends;
use crate::app::model::Model;
use crate::app::plan::{floor, own_pace, seen_least_lately};
use crate::app::update::plan::{MOST_FEEDS, MOST_MIN};
use crate::app::words::{counts, plan as words};
use crate::domain::drill::Board;
use crate::domain::ids::PartNo;
use crate::domain::plan::clock::Standing;
use crate::domain::plan::expect::{Expected, coverage, expect};
use crate::domain::plan::{Fitted, Plan, PlanPart};
use crate::domain::summary::PracticeSummary;
use crate::domain::time::Stamp;

#[derive(Clone, Debug, PartialEq)]
pub struct PartRow {
    pub no: PartNo,
    /// Minutes from the start ("25"), the hour once practice runs ("17:30").
    pub from: String,
    pub title: String,
    pub minutes: String,
    /// "ball, net", and in words whatever else its shape says.
    pub what: String,
    pub ball: bool,
    pub net: bool,
    pub game: bool,
    pub state: PartState,
    pub picked: bool,
    /// How long its block is, in steps of five minutes, 1 to 8.
    pub height: u8,
    /// "about 6 contacts each, 4 to 8"
    pub each: Option<String>,
    pub why: Option<String>,
    /// "Move Serving"
    pub move_label: String,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PartState {
    ToCome,
    On,
    Over,
    Dropped,
}

/// What is open of one part.
#[derive(Clone, Debug, PartialEq)]
pub struct Editor {
    pub no: PartNo,
    pub title: String,
    pub minutes: String,
    pub minutes_ends: Ends,
    pub has_drill: bool,
    pub groups: String,
    pub groups_ends: Ends,
    pub balls: String,
    pub balls_ends: Ends,
    pub feeds: String,
    pub feeds_ends: Ends,
    pub locked: bool,
    pub ball: bool,
    pub net: bool,
    pub game: bool,
    pub dropped: bool,
    pub first: bool,
    pub last: bool,
    /// "Serving, 2 of 5": said once it was moved.
    pub place: String,
    /// What can be expected of it, and whether every role comes round.
    pub lines: Vec<String>,
}

pub fn rows(model: &Model, plan: &Plan, standing: Option<&Standing>, practices: &[&PracticeSummary]) -> Vec<PartRow> {
    let mut at_min: u16 = 0;
    let mut coming_ms = standing.map_or(0, |s| s.on.as_ref().and_then(|on| on.left_ms).unwrap_or(0).max(0));
    let marks = crate::app::plan::marks(model);
    let mut row = |part: &PlanPart| {
        let minutes = part.minutes_now();
        let begun = marks.iter().find(|mark| mark.part == part.no);
        let state = match standing {
            _ if part.is_dropped() => PartState::Dropped,
            Some(s) if s.on.as_ref().is_some_and(|on| on.part == part.no) => PartState::On,
            _ if begun.is_some() => PartState::Over,
            _ => PartState::ToCome,
        };
        let from = match (state, begun, standing) {
            (PartState::Dropped, ..) => String::new(),
            (_, Some(mark), _) => counts::time(Stamp { offset_min: model.now.offset_min, ..mark.at }),
            (_, None, Some(_)) => {
                let at = Stamp { wall_ms: model.now.wall_ms.saturating_add(coming_ms), ..model.now };
                coming_ms += i64::from(minutes) * 60_000;
                counts::time(at)
            }
            (_, None, None) => at_min.to_string(),
        };
        at_min = at_min.saturating_add(minutes);
        PartRow {
            no: part.no,
            from,
            title: part.title.clone(),
            minutes: words::lasts(minutes, part.added),
            what: what(part, state),
            ball: part.ball,
            net: part.net,
            game: part.game,
            state,
            picked: model.drafts.plan.picked == Some(part.no),
            height: u8::try_from(minutes.div_ceil(5).clamp(1, 8)).unwrap_or(8),
            each: expected(model, plan, part, practices).as_ref().map(words::each),
            // Why it was proposed is for the coach, the evening before: once practice is on, children see this screen.
            why: (standing.is_none() && !part.why.is_empty()).then(|| why(model, part, practices)),
            move_label: words::move_label(&part.title),
        }
    };
    plan.parts.iter().map(&mut row).collect()
}

/// Names are worked out for this look and kept nowhere.
fn why(model: &Model, part: &PlanPart, practices: &[&PracticeSummary]) -> String {
    let least = if part.why == words::WHY_SEEN_LEAST { seen_least_lately(model, practices) } else { Vec::new() };
    if least.is_empty() {
        return part.why.clone();
    }
    words::why_seen_least(&least.into_iter().map(|player| model.name_of(player)).collect::<Vec<_>>())
}

fn what(part: &PlanPart, state: PartState) -> String {
    let mut said = vec![words::marks(part.ball, part.net, part.game)];
    said.extend(part.locked.then(|| words::LOCKED.to_owned()));
    said.extend(part.added.then(|| words::ADDED.to_owned()));
    match part.fitted {
        Fitted::To(n) if n != part.minutes => said.push(words::fitted(part.minutes)),
        Fitted::Dropped => said.push(words::DROPPED.to_owned()),
        _ => {}
    }
    said.extend((state == PartState::On).then(|| words::ON.to_owned()));
    said.join(", ")
}

/// Of a part that has a drill.
pub fn expected(model: &Model, plan: &Plan, part: &PlanPart, practices: &[&PracticeSummary]) -> Option<Expected> {
    let drill = part.drill?;
    let spec = model.base.drill(drill)?;
    // Lanes count good ones alone: how many balls there were they can't say.
    let own = if matches!(spec.board, Board::Lanes) { Vec::new() } else { own_pace(practices, drill) };
    expect(part, spec, floor(model, plan), &own)
}

pub fn editor(model: &Model, plan: &Plan, no: PartNo, practices: &[&PracticeSummary]) -> Option<Editor> {
    let at = plan.place_of(no)?;
    let part = &plan.parts[at];
    let or = |own: Option<u8>, word: &str| own.map_or_else(|| word.to_owned(), |n| n.to_string());
    let spec = part.drill.and_then(|id| model.base.drill(id));
    let expected = expected(model, plan, part, practices);
    let mut lines = expected.as_ref().map(words::expected).unwrap_or_default();
    let turns = spec.and_then(|spec| coverage(part, spec, floor(model, plan).n_children, expected.as_ref()));
    lines.extend(turns.map(words::coverage));
    let ends = |own: Option<u8>, most: u8| (own.is_none(), own.is_some_and(|n| n >= most));
    let minutes = part.minutes_now();
    Some(Editor {
        no,
        title: part.title.clone(),
        minutes: minutes.to_string(),
        minutes_ends: (minutes == 0, minutes >= MOST_MIN),
        has_drill: spec.is_some(),
        groups: or(part.groups, words::AS_DRILL),
        groups_ends: ends(part.groups, Board::MAX_GROUPS),
        balls: or(part.balls, words::ALL_BALLS),
        balls_ends: ends(part.balls, model.settings.balls.max(1)),
        feeds: or(part.feeds, words::AS_KNOWN),
        feeds_ends: ends(part.feeds, MOST_FEEDS),
        locked: part.locked,
        ball: part.ball,
        net: part.net,
        game: part.game,
        dropped: part.is_dropped(),
        first: at == 0,
        last: at + 1 == plan.parts.len(),
        place: words::place(&part.title, at + 1, plan.parts.len()),
        lines,
    })
}
