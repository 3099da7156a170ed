//! The sentences of a note home as they come by themselves, out of what the child's own balls carry. Nothing of what is less, nothing out of
//! one evening's luck, and nothing that names another child.

use super::{Piece, WEEKS, draft};
use crate::app::model::Model;
use crate::app::named::Named;
use crate::app::practices::Practices;
use crate::app::weeks::of_child;
use crate::app::words::{counts, home as words};
use crate::domain::ids::{PlayerId, Step};
use crate::domain::notes::said;
use crate::domain::skill::Skill;
use crate::domain::summary::PracticeSummary;
use crate::domain::weeks::{day_no, day_of};

/// Sentences on progress, the surest first.
const MOST_PROGRESS: usize = 2;
/// A row says something once it is this long; a step once so many balls were played there, and before it.
const LEAST_ROW: u32 = 3;
const LEAST_AT_STEP: u32 = 5;

/// The sentences as they come by themselves; nothing before the child was at any practice.
pub fn composed(model: &Model, player: PlayerId) -> Vec<(Piece, String)> {
    let Some(name) = model.base.player(player).map(|p| p.name.trim().to_owned()) else { return Vec::new() };
    let all = Practices::of(model);
    let today = day_no(model.now.day());
    let practices: Vec<&PracticeSummary> =
        all.latest_first().into_iter().filter(|p| day_no(p.started.day()) <= today).collect();
    let n_ever = practices.iter().filter(|p| p.took_part(player)).count();
    if n_ever == 0 {
        return Vec::new();
    }
    let others = Named::but(&model.base, player);
    let (recent, before): (Vec<_>, Vec<_>) =
        practices.iter().copied().partition(|p| today - day_no(p.started.day()) <= WEEKS * 7);
    let n_there = recent.iter().filter(|p| p.took_part(player)).count();
    let mut pieces = Vec::new();
    pieces.extend(efforts(&recent, player, &others).map(|line| (Piece::Effort, line)));
    pieces.extend(words::was_there(&name, n_there).map(|line| (Piece::There, line)));
    let progress = progress(model, &recent, &before, player, &others);
    pieces.extend([Piece::Progress, Piece::More].into_iter().zip(progress));
    pieces.extend(practised(&recent, player, &others).map(|line| (Piece::Practised, line)));
    pieces.push((Piece::Question, question(model, player, &name, n_ever, &others)));
    pieces
}

/// Nothing where none was noticed: that says something of the noticing.
fn efforts(recent: &[&PracticeSummary], player: PlayerId, others: &Named) -> Option<String> {
    let mut kinds: Vec<String> = Vec::new();
    let mut n: u32 = 0;
    let runs = recent.iter().flat_map(|p| &p.runs);
    for alike in runs.flat_map(|run| &run.efforts).filter(|alike| alike.player == player) {
        n = n.saturating_add(alike.n);
        if let Some(kind) = &alike.kind
            && !kinds.contains(kind)
            && !others.stand_in(kind)
        {
            kinds.push(kind.clone());
        }
    }
    (n > 0).then(|| words::efforts(n, &kinds))
}

/// Its own against its own before: a change that stands, then a step on, then a longer row.
fn progress(
    model: &Model,
    recent: &[&PracticeSummary],
    before: &[&PracticeSummary],
    player: PlayerId,
    others: &Named,
) -> Vec<String> {
    let clean = |skill: &Skill| !matches!(skill, Skill::Own(name) if others.stand_in(name));
    let changes = of_child(model, player).into_iter().filter_map(|(series, found, _)| {
        let change = found.change.filter(|change| change.stands && change.up > 0.5 && clean(&series.skill))?;
        let since = counts::date(day_of(change.since), model.now.day());
        let kind = words::kind(&series.skill, series.feed, series.by_one_line);
        Some(words::more(&kind, &since, change.likely))
    });
    let mut lines: Vec<String> = changes.collect();
    let skills: Vec<Skill> = skills_of(recent, player).into_iter().filter(clean).collect();
    lines.extend(skills.iter().filter_map(|skill| step_on(model, recent, before, player, skill)));
    lines.extend(skills.iter().filter_map(|skill| longer_row(recent, before, player, skill)));
    lines.truncate(MOST_PROGRESS);
    lines
}

/// Skills of its balls in runs that are no games, those played most lately first.
fn skills_of(practices: &[&PracticeSummary], player: PlayerId) -> Vec<Skill> {
    let mut skills: Vec<Skill> = Vec::new();
    for run in practices.iter().flat_map(|p| &p.runs).filter(|run| run.game.is_none()) {
        let has = run.children.iter().any(|(child, counts)| *child == player && counts.n_noted() > 0);
        if has && !skills.contains(&run.skill) {
            skills.push(run.skill.clone());
        }
    }
    skills
}

/// A harder ball than any before, with some balls at either.
fn step_on(
    model: &Model,
    recent: &[&PracticeSummary],
    before: &[&PracticeSummary],
    player: PlayerId,
    skill: &Skill,
) -> Option<String> {
    let (now, _) = highest(recent, player, skill)?;
    let (was, _) = highest(before, player, skill)?;
    if now.height() <= was.height() {
        return None;
    }
    // The first day on which it had that ball at all; where that was before these weeks, no day is when it began.
    let had = |p: &&&PracticeSummary| n_at(&[p], player, skill).iter().any(|(step, n)| *step == now && *n > 0);
    let first = recent.iter().rev().find(had).filter(|_| !before.iter().any(|p| had(&p)));
    let since = first.map(|p| counts::date(p.started.day(), model.now.day()));
    Some(words::step(skill, now, was, since.as_deref()))
}

/// The highest step at which it had some balls, and how many.
fn highest(practices: &[&PracticeSummary], player: PlayerId, skill: &Skill) -> Option<(Step, u32)> {
    let steps = n_at(practices, player, skill).into_iter();
    steps.filter(|(_, n)| *n >= LEAST_AT_STEP).max_by_key(|(step, _)| step.height())
}

/// Its balls at each step.
fn n_at(practices: &[&PracticeSummary], player: PlayerId, skill: &Skill) -> Vec<(Step, u32)> {
    let mut steps: Vec<(Step, u32)> = Vec::new();
    let runs = practices.iter().flat_map(|p| &p.runs).filter(|run| run.game.is_none() && run.skill == *skill);
    for lot in runs.flat_map(|run| &run.lots).filter(|lot| lot.player == player) {
        match steps.iter_mut().find(|(step, _)| *step == lot.feed.step) {
            Some((_, n)) => *n = n.saturating_add(lot.count.tries()),
            None => steps.push((lot.feed.step, lot.count.tries())),
        }
    }
    steps
}

fn longer_row(
    recent: &[&PracticeSummary],
    before: &[&PracticeSummary],
    player: PlayerId,
    skill: &Skill,
) -> Option<String> {
    let best = |practices: &[&PracticeSummary]| {
        let runs = practices.iter().flat_map(|p| &p.runs).filter(|run| run.game.is_none() && run.skill == *skill);
        let counts = runs.flat_map(|run| &run.children).filter(|(child, _)| *child == player);
        counts.map(|(_, counts)| counts.best_easy.max(counts.best_challenge)).max()
    };
    let (now, was) = (best(recent)?, best(before)?);
    (now >= LEAST_ROW && was > 0 && now > was).then(|| words::row(skill, now))
}

fn practised(recent: &[&PracticeSummary], player: PlayerId, others: &Named) -> Option<String> {
    let counts = recent.iter().flat_map(|p| &p.runs).flat_map(|run| &run.children);
    let n: u32 = counts.filter(|(child, _)| *child == player).map(|(_, counts)| counts.n_noted()).sum();
    let skills = skills_of(recent, player);
    let named: Vec<String> = skills.iter().map(words::skill_in_list).filter(|name| !others.stand_in(name)).collect();
    (n > 0).then(|| words::practised(n, &named))
}

/// Another one after every practice, and by a tap. By all practices it ever was at: of the last weeks' there may be as many for ever.
fn question(model: &Model, player: PlayerId, name: &str, n_ever: usize, others: &Named) -> String {
    let own = model.base.questions(None).iter().filter(|question| !others.stand_in(question)).cloned();
    let all: Vec<String> = words::QUESTIONS.iter().map(|q| (*q).to_owned()).chain(own).collect();
    let on = draft(model, player).map_or(0, |draft| draft.question);
    let at = n_ever.wrapping_add(usize::try_from(on).unwrap_or(0)) % all.len().max(1);
    words::question(&said(all.get(at).map_or("", String::as_str), name))
}
