//! What to change, in sentences: the share with a ball, over the net, like a game; long waiting; roles; what a warm-up without a ball
//! costs over the season.

use super::part::expected;
use crate::app::model::Model;
use crate::app::plan::floor;
use crate::app::words::plan::{self as words, Practices};
use crate::domain::drill::Board;
use crate::domain::plan::expect::{Each, coverage};
use crate::domain::plan::{PartKind, Plan, PlanPart};
use crate::domain::summary::PracticeSummary;

/// Practices of a season while there are no dates, and the squad has fewer of its own in the last year.
const SEASON: u32 = 40;
const YEAR_MS: i64 = 365 * 86_400_000;
/// Fewer contacts in so many minutes are long waiting.
const WAIT_MIN: u32 = 3;

pub fn advice(model: &Model, plan: &Plan, practices: &[&PracticeSummary]) -> Vec<String> {
    let minutes = plan.minutes();
    if minutes.all == 0 {
        return Vec::new();
    }
    let third = |n: u16| u32::from(n) * 3;
    let mut said = Vec::new();
    let longest = plan.parts.iter().filter(|p| !p.ball && p.kind != PartKind::Break).max_by_key(|p| p.minutes_now());
    if let Some(part) = longest.filter(|_| third(minutes.ball) < u32::from(minutes.all) * 2) {
        said.push(words::little_ball(minutes.ball, minutes.all, &part.title));
    }
    if third(minutes.net) < u32::from(minutes.all) {
        said.push(words::NO_NET.to_owned());
    }
    if minutes.game == 0 {
        said.push(words::NO_GAME.to_owned());
    }
    for part in plan.parts.iter().filter(|part| !part.is_dropped()) {
        said.extend(waits(model, plan, part, practices));
        let spec = part.drill.and_then(|id| model.base.drill(id));
        let turns = spec.and_then(|spec| {
            let expected = expected(model, plan, part, practices);
            coverage(part, spec, floor(model, plan).n_children, expected.as_ref())
        });
        said.extend(turns.and_then(|turns| words::too_few_turns(&part.title, turns)));
    }
    if minutes.without > 0 {
        let year = practices.iter().filter(|p| p.started.wall_ms > model.now.wall_ms - YEAR_MS).count();
        let (of_dates, own) = (crate::app::calendar::n_dates(model), u32::try_from(year).unwrap_or(u32::MAX));
        let (n, from) = match (of_dates, own) {
            (0, SEASON..) => (own, Practices::LastYear),
            (0, _) => (SEASON, Practices::Guessed),
            (n, _) => (n, Practices::Dates),
        };
        said.push(words::season(minutes.without, n, plan.gym_min, from));
    }
    said
}

/// A drill with one source of balls where two or more groups would give everyone more.
fn waits(model: &Model, plan: &Plan, part: &PlanPart, practices: &[&PracticeSummary]) -> Option<String> {
    part.drill.and_then(|id| model.base.drill(id)).filter(|spec| !spec.rule.is_game())?;
    let contacts = |each| match each {
        Each::Contacts(n) => Some(n.likely),
        Each::Court { .. } => None,
    };
    let now = contacts(expected(model, plan, part, practices)?.each)?;
    let floor = floor(model, plan);
    if now * WAIT_MIN >= u32::from(part.minutes_now()) * 2 || part.groups.is_some() || floor.n_children < 4 {
        return None;
    }
    let most = usize::from(Board::MAX_GROUPS).min(floor.n_children / 2).min(floor.n_balls);
    let with = |groups: usize| {
        let part = PlanPart { groups: u8::try_from(groups).ok(), ..part.clone() };
        contacts(expected(model, plan, &part, practices)?.each)
    };
    let (groups, then) =
        (2..=most).filter_map(|n| Some((n, with(n)?))).find(|(_, then)| *then >= now + now.div_ceil(2))?;
    Some(words::wait_long(&part.title, now, part.minutes_now(), groups, then))
}
