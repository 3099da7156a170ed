//! After a practice, and the list of all practices.

use super::run::efforts;
use super::touches::touches;
use super::{AfterView, Missing, PracticeReportView, PracticeRow, PracticeRunRow, PracticeWay, TouchesView};
use crate::app::model::{Model, StorageState};
use crate::app::screen::Screen;
use crate::app::update::practice_on_screen;
use crate::app::words::{self, counts};
use crate::domain::ids::{PlayerId, PracticeId};
use crate::domain::replay::base::Practice;
use crate::domain::summary::{PracticeSummary, RunSummary};
use crate::domain::time::Stamp;
use crate::domain::touches::Touches;
use crate::stats::arrange::arranged;

pub fn practice_report(model: &Model, id: PracticeId) -> Option<PracticeReportView> {
    let packed = model.packed.get(&id).filter(|p| !p.read);
    let summary = match packed {
        Some(packed) => packed.summary.clone(),
        None => summary_of(model, &model.base.practice(id)?),
    };
    let (early, away): (Vec<PlayerId>, Vec<PlayerId>) = summary.away.iter().partition(|p| summary.took_part(**p));
    let names = |players: Vec<PlayerId>| players.into_iter().map(|p| model.name_of(p)).collect::<Vec<_>>();
    let loading = packed.is_some() && why_unread(model, id).is_none();
    let in_memory = summary.runs.iter().filter_map(|r| model.runs.get(&r.run));
    Some(PracticeReportView {
        practice: id,
        title: summary.title.clone(),
        when: counts::when(summary.started, model.now),
        way: model.base.practice(id).filter(|_| packed.is_none()).and_then(|p| way(model, &p)),
        runs: summary.runs.iter().map(run_row).collect(),
        touches: touches_of(model, &summary),
        minutes: crate::app::view::after::minutes(model, &summary),
        // Who was asked since it ended is known once it is read.
        asks: if packed.is_none() { crate::app::view::after::asks(model, &summary) } else { Vec::new() },
        plan: crate::app::view::plan::after(model, &summary),
        efforts: efforts(model, in_memory.flat_map(|r| &r.main.efforts)),
        remarks: crate::app::view::notes::of_practice(model, id),
        presence: words::report::presence(&names(away), &names(early)),
        loading,
        trouble: packed.and_then(|_| why_unread(model, id)),
    })
}

fn way(model: &Model, practice: &Practice) -> Option<PracticeWay> {
    if model.leads(practice.id) {
        return Some(if practice.ended { PracticeWay::OpenAgain } else { PracticeWay::End });
    }
    model.is_open(practice).then_some(PracticeWay::Leave)
}

/// Why the screen of a practice or run has nothing to show.
pub fn missing(model: &Model) -> Missing {
    let id = match model.screen {
        Screen::PracticeReport(id) => Some(id),
        _ => practice_on_screen(model),
    };
    match id.map(|id| model.reading.get(&id)) {
        Some(Some(Some(why))) => Missing::Unread(why.clone()),
        Some(Some(None)) => Missing::BeingRead,
        _ if model.storage.state == StorageState::Opening => Missing::BeingRead,
        // It may lie there all the same.
        _ if model.is_closed() => Missing::Unread(words::trouble::CLOSED_HERE.to_owned()),
        _ => Missing::Gone,
    }
}

fn why_unread(model: &Model, id: PracticeId) -> Option<String> {
    model.reading.get(&id).cloned().flatten()
}

pub fn after(model: &Model) -> AfterView {
    let on = model.practice_today().map(|p| p.id);
    let rows: Vec<(Stamp, PracticeRow)> = model
        .base
        .practices()
        .iter()
        .filter(|p| !model.packed.contains_key(&p.id))
        .map(|p| summary_of(model, p))
        .chain(model.packed.values().map(|p| p.summary.clone()))
        .map(|s| (s.started, row(model, &s, on)))
        .collect();
    let when = |(at, row): &(Stamp, PracticeRow)| (at.wall_ms, row.practice);
    let rows = arranged(rows, |a, b| when(b).cmp(&when(a)));
    AfterView { practices: rows.into_iter().map(|(_, row)| row).collect() }
}

/// Of all its runs together.
fn touches_of(model: &Model, summary: &PracticeSummary) -> Option<TouchesView> {
    touches(model, &summary.everyone(), |player| {
        let of_runs = summary.runs.iter().flat_map(|run| &run.touches).filter(|(p, _)| *p == player);
        (of_runs.fold(Touches::default(), |sum, (_, t)| sum + *t), summary.told(player))
    })
}

fn summary_of(model: &Model, practice: &Practice) -> PracticeSummary {
    PracticeSummary::of(practice, model.runs_of(practice)).with_plan(model.base.plan_done(practice.id))
}

fn row(model: &Model, summary: &PracticeSummary, on: Option<PracticeId>) -> PracticeRow {
    let n_contacts = summary.runs.iter().map(|r| r.n_contacts as usize).sum();
    let n_rallies = summary.runs.iter().filter_map(|r| r.game.as_ref()).map(|game| game.n_rallies as usize).sum();
    let beside = |r: &RunSummary| r.beside.n_noted() + r.noted_beside + r.rallies_beside;
    let n_beside = summary.runs.iter().map(|r| beside(r) as usize).sum();
    let n_told: usize = summary.runs.iter().filter(|r| r.everyone.told.tries() > 0).count();
    PracticeRow {
        practice: summary.practice,
        title: summary.title.clone(),
        when: counts::when(summary.started, model.now),
        what: words::report::practice_line(summary.runs.len(), n_contacts, n_rallies, n_told, n_beside),
        on: on == Some(summary.practice),
    }
}

fn run_row(run: &RunSummary) -> PracticeRunRow {
    PracticeRunRow {
        run: run.run,
        name: run.name.clone(),
        count: words::today::what_came(&run.everyone, run.game.as_ref()),
        share: match &run.game {
            Some(game) => match words::in_match::everyone(game) {
                Some(noted) => format!("{}. {noted}", words::report::court_time(game)),
                None => words::report::court_time(game),
            },
            None => words::report::shares(&run.everyone),
        },
        beside: words::report::beside(&run.beside, run.noted_beside, run.rallies_beside),
    }
}
