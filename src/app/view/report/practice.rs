//! After a practice, and the list of all practices.

use super::run::efforts;
use super::touches::touches;
use super::{
    AfterView, Missing, PracticeReportView, PracticeRow, PracticeRunRow, PracticeWay, PracticeWayRow, TouchesView,
};
use crate::app::model::{Model, StorageState};
use crate::app::phones::{counted_on, opening};
use crate::app::practices::{self, Practices};
use crate::app::screen::Screen;
use crate::app::update::practice_on_screen;
use crate::app::view::as_one;
use crate::app::words::report::Here;
use crate::app::words::{self, counts};
use crate::domain::ids::{PlayerId, PracticeId, RunId};
use crate::domain::replay::base::Practice;
use crate::domain::summary::{PracticeSummary, RunSummary};
use crate::domain::touches::Touches;
use crate::stats::arrange::arranged;

pub fn practice_report(model: &Model, id: PracticeId) -> Option<PracticeReportView> {
    let (id, all) = (model.read_under(id), model.one_with(id));
    let summary = practices::one(model, id)?;
    let unread = |id: &PracticeId| model.packed.get(id).is_some_and(|packed| !packed.read);
    let (read, trouble) =
        (!all.iter().any(unread), all.iter().filter(|id| unread(id)).find_map(|id| why_unread(model, *id)));
    let (early, away): (Vec<PlayerId>, Vec<PlayerId>) = summary.away.iter().partition(|p| summary.took_part(**p));
    let names = |players: Vec<PlayerId>| players.into_iter().map(|p| model.name_of(p)).collect::<Vec<_>>();
    let in_memory = summary.runs.iter().filter_map(|r| model.runs.get(&r.run));
    Some(PracticeReportView {
        practice: id,
        title: summary.title.clone(),
        when: counts::when(summary.started, model.now),
        phones: as_one::phones(model, &all),
        ways: all
            .iter()
            .filter(|id| !unread(id))
            .filter_map(|id| way(model, &model.base.practice(*id)?, all.len() > 1))
            .collect(),
        runs: run_rows(model, &summary.runs),
        touches: touches_of(model, &summary),
        minutes: crate::app::view::after::minutes(model, &summary),
        // Who was asked since it ended is known once it is read.
        asks: if read { crate::app::view::after::asks(model, &summary) } else { Vec::new() },
        plan: crate::app::view::plan::after(model, &summary),
        efforts: efforts(model, in_memory.flat_map(|r| &r.main.efforts)),
        remarks: crate::app::view::notes::of_practice(model, id),
        as_one: as_one::way(model, id),
        presence: words::report::presence(&names(away), &names(early), &here(model, &summary)),
        loading: !read && trouble.is_none(),
        trouble,
    })
}

/// Everyone is here until tapped away: said of those alone of whom that is so.
fn here(model: &Model, summary: &PracticeSummary) -> Here {
    let took_part = summary.everyone();
    let led = model.own.get(opening(summary.practice.0.series)).is_some();
    // On this phone's own list when it began.
    let listed = |id: &PlayerId| {
        let added = |id: PlayerId| model.own.get(id.0).map(|entry| entry.at.wall_ms);
        led && model.base.same().all(*id).filter_map(added).any(|ms| ms <= summary.started.wall_ms)
    };
    let was_here = |id: &PlayerId| took_part.contains(id) || listed(id);
    match led {
        _ if model.squad().iter().all(|player| was_here(&player.id)) => Here::Everyone,
        true => Here::ThatList,
        false => Here::These(took_part.into_iter().map(|id| model.name_of(id)).collect()),
    }
}

/// Of each practice by itself: it is opened again as it was begun.
fn way(model: &Model, practice: &Practice, of_several: bool) -> Option<PracticeWayRow> {
    let way = match model.leads(practice.id) {
        true if practice.ended => PracticeWay::OpenAgain,
        true => PracticeWay::End,
        false if model.is_open(practice) => PracticeWay::Leave,
        false => return None,
    };
    let again = (of_several && way == PracticeWay::OpenAgain)
        .then(|| words::as_one::open_again(&counts::time(practice.started)));
    Some(PracticeWayRow { practice: practice.id, way, again })
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
    let all = Practices::of(model);
    let when = |practice: &PracticeSummary| (practice.started.wall_ms, practice.practice);
    let practices = arranged(all.latest_first(), |a, b| when(b).cmp(&when(a)));
    AfterView {
        practices: practices.into_iter().map(|practice| row(model, practice, on)).collect(),
        as_one: as_one::row(model),
    }
}

/// Of all its runs together.
fn touches_of(model: &Model, summary: &PracticeSummary) -> Option<TouchesView> {
    touches(model, &summary.everyone(), |player| {
        let of_runs = summary.runs.iter().flat_map(|run| &run.touches).filter(|(p, _)| *p == player);
        (of_runs.fold(Touches::default(), |sum, (_, t)| sum + *t), summary.told(player))
    })
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

fn run_rows(model: &Model, runs: &[RunSummary]) -> Vec<PracticeRunRow> {
    let ids: Vec<RunId> = runs.iter().map(|run| run.run).collect();
    runs.iter().zip(counted_on(model, &ids)).map(|(run, phone)| run_row(run, phone)).collect()
}

fn run_row(run: &RunSummary, phone: Option<String>) -> PracticeRunRow {
    PracticeRunRow {
        phone,
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
