//! On the first screen: what is on, how much of it is left, what is next, and what to do where it no longer fits.

use crate::app::action::Action;
use crate::app::groups::GroupsTap;
use crate::app::model::Model;
use crate::app::plan::{shown, standing};
use crate::app::screen::Screen;
use crate::app::update::MOST_BALLS;
use crate::app::words::{counts, plan as words};
use crate::domain::ids::PartNo;
use crate::domain::plan::Plan;
use crate::domain::plan::clock::Standing;
use crate::domain::plan::refit::{Way, refit};
use crate::domain::time::Stamp;

#[derive(Clone, Debug, PartialEq)]
pub struct StripView {
    /// "6 parts, 85 of 90 min"
    pub short: String,
    /// Nothing is begun: the first part, to begin with.
    pub begin: Option<(PartNo, String)>,
    pub running: Option<Running>,
}

#[derive(Clone, Debug, PartialEq)]
pub struct Running {
    /// Between parts, and of a practice opened again: the title says so, and there is no time to show.
    pub nothing: bool,
    pub title: String,
    pub ball: bool,
    pub net: bool,
    pub game: bool,
    pub what: String,
    /// "12:05", "+1:20"
    pub left: String,
    /// "left", "over its time"
    pub left_word: &'static str,
    pub over: bool,
    /// How much of it is gone.
    pub percent: u8,
    /// "3 min late"
    pub late: String,
    pub gym: String,
    /// Its board, one tap away.
    pub board: Option<Action>,
    pub next: Option<(PartNo, String, String)>,
    pub question: Option<Question>,
    /// The rest was just made to fit: "Fitted: Six servers 11.", and it can be as it was.
    pub fitted: Option<String>,
    /// "Undo the start of Serving": what the way back takes back.
    pub undo: String,
    /// The part that is on was taken out of the plan, or its time may be over only by the clock.
    pub trouble: Option<String>,
    pub balls: u8,
    pub fewer_balls: Action,
    pub more_balls: Action,
    pub balls_least: bool,
    pub balls_most: bool,
}

/// What is left no longer fits: the coach chooses.
#[derive(Clone, Debug, PartialEq)]
pub struct Question {
    pub line: String,
    /// Each with what would come of it.
    pub shorten: String,
    pub drop: String,
    pub keep: String,
    /// What stays needs more than there is.
    pub locked: Option<String>,
    /// The key that lets one of it be shortened.
    pub unlock: Option<(String, Action)>,
}

/// Asked from a whole minute on: below that it is no trouble.
const ASK_FROM_MS: i64 = 60_000;

pub fn strip(model: &Model) -> StripView {
    let plan = shown(model).and_then(|id| model.base.plan(id));
    let n = plan.map_or(0, |plan| plan.parts.iter().filter(|part| !part.is_dropped()).count());
    let running = standing(model).zip(plan).map(|((_, standing), plan)| running(model, plan, &standing));
    let first = plan.filter(|_| running.is_none()).and_then(|plan| plan.parts.iter().find(|part| !part.is_dropped()));
    StripView {
        short: plan.map_or_else(|| words::short(0, 0, 0), |plan| words::short(n, plan.minutes().all, plan.gym_min)),
        // Another phone's practice is led there.
        begin: first.filter(|_| model.along().is_none()).map(|part| (part.no, words::begin(&part.title))),
        running,
    }
}

fn running(model: &Model, plan: &Plan, standing: &Standing) -> Running {
    let on = standing.on.as_ref();
    let part = on.and_then(|on| plan.part(on.part));
    let left = on.and_then(|on| on.left_ms);
    let gone = on.map_or(0, |on| on.gone_ms);
    let whole = part.map_or(0, |part| i64::from(part.minutes_now()) * 60_000);
    let next = standing.next.and_then(|no| plan.part(no));
    let kept = super::drill_here(model);
    let drill = part.and_then(|part| part.drill).filter(|id| kept(*id).is_some());
    let has_ball = part.is_some_and(|part| part.ball);
    let run = model.run_on().filter(|run| run.drill.is_some() && run.drill == drill);
    Running {
        nothing: on.is_none(),
        title: on.map_or_else(|| words::NOTHING_ON.to_owned(), |on| on.title.clone()),
        ball: has_ball,
        net: part.is_some_and(|part| part.net),
        game: part.is_some_and(|part| part.game),
        what: match (on, part) {
            (None, _) => words::NOTHING_ON_LINE.to_owned(),
            (Some(_), part) => part.map(|part| words::marks(part.ball, part.net, part.game)).unwrap_or_default(),
        },
        left: words::left(left.unwrap_or(gone)),
        left_word: match left {
            None => words::GONE,
            Some(ms) if ms < 0 => words::OVER,
            Some(_) => words::LEFT,
        },
        over: left.is_some_and(|ms| ms < 0),
        percent: if whole > 0 { u8::try_from((gone * 100 / whole).clamp(0, 100)).unwrap_or(100) } else { 100 },
        late: words::late(standing.late_ms),
        gym: words::gym_left(standing.left_ms),
        board: run.map(|run| Action::Go(Screen::Run(run.id))).or(drill.map(Action::DrillTapped)),
        next: next.map(|part| (part.no, words::next(&part.title), words::lasts(part.minutes_now(), part.added))),
        question: question(model, plan, standing),
        fitted: super::fitted(model, plan),
        undo: undo(model, plan),
        trouble: on.and_then(|on| match part {
            None => Some(words::on_but_out(&on.title)),
            Some(_) => (model.drafts.plan.slept == Some(on.mark)).then(|| words::slept(&on.title)),
        }),
        balls: model.settings.balls,
        fewer_balls: Action::Groups(GroupsTap::BallsStepped(false)),
        more_balls: Action::Groups(GroupsTap::BallsStepped(true)),
        balls_least: model.settings.balls <= 1,
        balls_most: model.settings.balls >= MOST_BALLS,
    }
}

fn undo(model: &Model, plan: &Plan) -> String {
    let marks = crate::app::plan::marks(model);
    let Some(last) = marks.last() else { return String::new() };
    let begun = marks.iter().rev().find(|mark| mark.part == last.part && !mark.ends);
    let title = plan.part(last.part).map(|part| part.title.as_str()).or(begun.map(|mark| mark.title.as_str()));
    words::take_back(title.unwrap_or_default(), last.ends)
}

fn question(model: &Model, plan: &Plan, standing: &Standing) -> Option<Question> {
    let kept =
        standing.on.as_ref().map(|on| on.mark) == model.drafts.plan.kept_on && model.drafts.plan.kept_on.is_some();
    if standing.over_ms < ASK_FROM_MS || kept || standing.to_come.is_empty() {
        return None;
    }
    let would_be = |way| {
        let minutes = refit(&standing.rest(plan), standing.left_for_rest_min(), way).ok()?;
        let parts = standing.to_come.iter().filter_map(|no| plan.part(*no)).zip(minutes);
        let changed = parts.filter(|(part, n)| part.minutes_now() != *n).map(|(part, n)| (part.title.clone(), n));
        Some(words::would_be(&changed.collect::<Vec<_>>()))
    };
    let end = Stamp { wall_ms: model.now.wall_ms + standing.left_ms + standing.over_ms, ..model.now };
    Some(Question {
        line: words::too_long(standing.over_ms),
        shorten: would_be(Way::Shorten).unwrap_or_default(),
        drop: would_be(Way::Drop).unwrap_or_default(),
        keep: words::ends_late(&counts::time(end)),
        locked: model.drafts.plan.locked_by.map(words::locked_too_long),
        unlock: model.drafts.plan.locked_by.and_then(|_| super::unlocks(plan, |no| !standing.to_come.contains(&no))),
    })
}
