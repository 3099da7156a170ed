//! Afterwards: planned against done, part by part; what each child had of it; who was seen least.

use crate::app::model::Model;
use crate::app::plan::{judged_in, seen_in, was_there};
use crate::app::words::plan::{self as words, Done};
use crate::domain::ids::PlayerId;
use crate::domain::plan::PlanPart;
use crate::domain::summary::PracticeSummary;
use crate::domain::touches::Touches;

#[derive(Clone, Debug, PartialEq)]
pub struct AfterPlan {
    pub parts: Vec<AfterPart>,
    pub children: Vec<AfterChild>,
    /// "Seen least: Tove."
    pub least: Option<String>,
}

#[derive(Clone, Debug, PartialEq)]
pub struct AfterChild {
    pub player: PlayerId,
    pub name: String,
    /// "24 contacts, 6 served or tossed"
    pub what: String,
}

#[derive(Clone, Debug, PartialEq)]
pub struct AfterPart {
    pub title: String,
    /// "15 min planned, 18 done"
    pub what: String,
    /// Bars beside each other, in hundredths of the longest.
    pub planned: u8,
    pub done: u8,
}

/// Nothing where practice followed no plan.
pub fn after(model: &Model, summary: &PracticeSummary) -> Option<AfterPlan> {
    let plan = summary.plan.as_ref()?;
    let done_of = |no| match plan.done.iter().find(|(part, _)| *part == no) {
        None => Done::Not,
        Some((_, ms)) => ms.map_or(Done::Begun, Done::For),
    };
    let ms_of = |done| if let Done::For(ms) = done { ms } else { 0 };
    let planned = |part: &PlanPart| {
        let minutes = (!part.added).then_some(part.minutes);
        let what = words::planned_done(minutes, done_of(part.no));
        (part.title.clone(), minutes, done_of(part.no), what)
    };
    let out = plan.out.iter().map(|(no, title)| (title.clone(), None, done_of(*no), words::out_done(done_of(*no))));
    let all: Vec<(String, Option<u16>, Done, String)> = plan.plan.parts.iter().map(planned).chain(out).collect();
    let longest = all
        .iter()
        .map(|(_, planned, done, _)| (u32::from(planned.unwrap_or(0)) * 60_000).max(ms_of(*done)))
        .max()?
        .max(1);
    let percent = |ms: u32| u8::try_from(u64::from(ms) * 100 / u64::from(longest)).unwrap_or(100);
    let parts = all.into_iter().map(|(title, planned, done, what)| AfterPart {
        title,
        what,
        planned: percent(u32::from(planned.unwrap_or(0)) * 60_000),
        done: percent(ms_of(done)),
    });
    let (children, least) = children(model, summary);
    Some(AfterPlan { parts: parts.collect(), children, least })
}

/// Those who were here, in the order of the squad.
fn children(model: &Model, summary: &PracticeSummary) -> (Vec<AfterChild>, Option<String>) {
    let squad = model.base.players();
    // Who went early was here too.
    let archived = |player: PlayerId| squad.iter().any(|p| p.id == player && p.archived);
    let there = |player: &PlayerId| was_there(model, summary, *player) && !archived(*player);
    let here = squad.iter().map(|p| p.id).filter(|p| summary.took_part(*p) || there(p));
    let here: Vec<PlayerId> = here.collect();
    let line = |player: PlayerId| {
        let of_runs = summary.runs.iter().flat_map(|run| &run.touches).filter(|(p, _)| *p == player);
        let t = of_runs.fold(Touches::default(), |sum, (_, t)| sum + *t);
        let games = summary.runs.iter().filter_map(|run| run.game.as_ref()).flat_map(|game| &game.children);
        let (rallies, ms) =
            games.filter(|c| c.player == player).fold((0, 0), |(n, ms), c| (n + c.n_rallies, ms + c.court_ms));
        words::child(t.judged + summary.told(player), t.fed, t.caught + t.fetched, rallies, ms)
    };
    let seen: Vec<u32> = here.iter().map(|player| seen_in(summary, *player)).collect();
    let judged: Vec<u32> = here.iter().map(|player| judged_in(summary, *player)).collect();
    // A ball that somebody judged is seen more truly than a rally among six.
    let seen = if judged.iter().any(|n| *n > 0) { judged } else { seen };
    let (fewest, most) = (seen.iter().min().copied().unwrap_or(0), seen.iter().max().copied().unwrap_or(0));
    let least: Vec<String> =
        here.iter().zip(&seen).filter(|(_, n)| **n == fewest).map(|(player, _)| model.name_of(*player)).collect();
    let least = (fewest < most && least.len() * 2 <= here.len()).then(|| words::seen_least(&least));
    let row = |player: &PlayerId| AfterChild { player: *player, name: model.name_of(*player), what: line(*player) };
    let rows = if most == 0 { Vec::new() } else { here.iter().map(row).collect() };
    (rows, least)
}
