//! Who was asked, noted and seen over the last weeks, so that nobody is forgotten. In the order of the squad: a list of what the coach
//! did, and no ranking of children.

use crate::app::model::Model;
use crate::app::notes::all;
use crate::app::plan::was_there;
use crate::app::practices::Practices;
use crate::app::words::{counts, notes as says};
use crate::domain::ids::PlayerId;
use crate::domain::notes::Remark;
use crate::domain::summary::PracticeSummary;

#[derive(Clone, Debug, Default, PartialEq)]
pub struct HeardView {
    /// "8 practices in four weeks, 24 in all"
    pub spans: String,
    /// Whom to think of next: "Not asked for 3 practices: Mira, Ilo."
    pub first: Vec<String>,
    pub rows: Vec<HeardRow>,
    /// Somebody is here to be asked.
    pub can_ask: bool,
}

#[derive(Clone, Debug, PartialEq)]
pub struct HeardRow {
    pub player: PlayerId,
    pub name: String,
    /// "Asked twice in four weeks, last on Tuesday 24 November; 5 times in all."
    pub asked: String,
    /// "3 notes, effort noticed once; here at 7 of 8."
    pub seen: String,
}

/// Four weeks.
const LATELY_MS: i64 = 28 * 86_400_000;
/// From so many practices without a question on a child is named.
const FORGOTTEN_FROM: usize = 2;
/// So many sentences of them at most.
const MOST_LINES: usize = 3;

/// What is known of one child.
struct Known {
    player: PlayerId,
    n_here: usize,
    n_asked: u32,
    n_asked_lately: u32,
    last_ms: Option<i64>,
    n_notes: usize,
    n_efforts: u32,
    /// Practices it was at since it was asked last.
    without: usize,
}

pub fn heard(model: &Model) -> HeardView {
    let practices = Practices::of(model);
    let practices = practices.latest_first();
    let since = model.now.wall_ms.saturating_sub(LATELY_MS);
    let lately: Vec<&PracticeSummary> = practices.iter().copied().filter(|p| p.started.wall_ms >= since).collect();
    let remarks = all(model);
    let squad: Vec<Known> =
        model.squad().iter().map(|p| known(model, p.id, &practices, &lately, &remarks, since)).collect();
    HeardView {
        spans: says::spans(lately.len(), practices.len()),
        first: if practices.is_empty() { Vec::new() } else { first(model, &squad) },
        rows: squad
            .iter()
            .map(|of| {
                let day = of.last_ms.map(|wall_ms| {
                    let at = crate::domain::time::Stamp { wall_ms, ..model.now };
                    counts::day(at.day(), model.now.day())
                });
                HeardRow {
                    player: of.player,
                    name: model.name_of(of.player),
                    asked: says::child_asked(of.n_asked_lately, of.n_asked, day.as_deref()),
                    seen: says::child_seen(of.n_notes, of.n_efforts, of.n_here, lately.len()),
                }
            })
            .collect(),
        can_ask: !model.here().is_empty(),
    }
}

fn known(
    model: &Model,
    player: PlayerId,
    practices: &[&PracticeSummary],
    lately: &[&PracticeSummary],
    remarks: &[Remark],
    since: i64,
) -> Known {
    let asked = || remarks.iter().filter(move |remark| remark.asked().is_some_and(|asked| asked.player == player));
    let n = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
    let last_ms = asked().map(|remark| remark.at.wall_ms).max();
    let here: Vec<&&PracticeSummary> = lately.iter().filter(|p| was_there(model, p, player)).collect();
    let efforts = here.iter().flat_map(|p| &p.runs).flat_map(|run| &run.children);
    // What is on isn't over: the child may still be asked in it.
    let on = model.practice_today().map(|p| p.id);
    let over = practices.iter().filter(|p| Some(p.practice) != on && was_there(model, p, player));
    // A question between two practices counts for the one before.
    let asked_in = |practice: &PracticeSummary| {
        last_ms.is_some_and(|last| last >= practice.started.wall_ms)
            || asked().any(|r| r.spot.practice == Some(practice.practice))
    };
    let today = asked().any(|r| r.spot.practice.is_some() && r.spot.practice == on);
    Known {
        player,
        n_here: here.len(),
        n_asked: n(asked().count()),
        n_asked_lately: n(asked().filter(|remark| remark.at.wall_ms >= since).count()),
        last_ms,
        n_notes: remarks
            .iter()
            .filter(|r| r.at.wall_ms >= since && r.note().is_some_and(|note| note.about.is_of(player)))
            .count(),
        n_efforts: efforts.filter(|(child, _)| *child == player).map(|(_, counts)| counts.n_efforts).sum(),
        without: if today { 0 } else { over.take_while(|p| !asked_in(p)).count() },
    }
}

/// Those who were not asked for longest come first, by sentences; within one in the order of the squad.
fn first(model: &Model, squad: &[Known]) -> Vec<String> {
    let names = |is: &dyn Fn(&Known) -> bool| -> Vec<String> {
        squad.iter().filter(|of| is(of)).map(|of| model.name_of(of.player)).collect()
    };
    if squad.iter().all(|of| of.n_asked == 0) {
        return vec![says::HEARD_NOBODY.to_owned()];
    }
    let mut lines = Vec::new();
    let mut below = usize::MAX;
    while lines.len() < MOST_LINES {
        let longest = squad.iter().map(|of| of.without).filter(|n| *n < below && *n >= FORGOTTEN_FROM).max();
        let Some(longest) = longest else { break };
        lines.push(says::not_asked(longest, &names(&|of| of.without == longest)));
        below = longest;
    }
    let never = names(&|of| of.n_asked == 0);
    match (lines.is_empty(), never.is_empty()) {
        (true, true) => lines.push(says::HEARD_ALL.to_owned()),
        (true, false) => lines.push(says::never_asked(&never)),
        (false, _) => {}
    }
    // Of one practice nothing can be said yet.
    let unheard =
        names(&|of| of.n_here >= FORGOTTEN_FROM && of.n_asked_lately == 0 && of.n_notes == 0 && of.n_efforts == 0);
    lines.extend((!unheard.is_empty()).then(|| says::unheard(&unheard)));
    lines
}
