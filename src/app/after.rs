//! What is worth knowing and worth asking once a practice is over. Owns the order of worth; refuses to fill up: where there are fewer than
//! three things to know there are fewer, and what may be chance is none. Says nothing itself, for that is the view's.

use super::calendar;
use super::fair::{Fair, OF_ONE};
use super::model::Model;
use super::notes::{Source, all, questions_by};
use super::plan::was_there;
use super::practices::Practices;
use super::weeks::of_child;
use crate::app::work::levels::Changed;
use crate::domain::entry::Fact;
use crate::domain::ids::{DateId, EntryId, PlanId, PlayerId, PracticeId};
use crate::domain::notes::{Asked, Remark, Spot, Turn, in_turn};
use crate::domain::plan::{PartKind, PlanDone, PlanPart};
use crate::domain::skill::{Feed, Skill};
use crate::domain::summary::{PracticeSummary, RunSummary};
use crate::domain::weeks::day_no;
use crate::stats::proportion::{Confidence, Count, wilson};

/// So many things to know, and to ask.
pub const MOST: usize = 3;

/// One thing worth knowing, in the order of worth: what rests on weeks of balls before what rests on one evening; what only the coach can
/// mend before what is pleasant to hear; what nobody noted last, since it says something of the noting alone.
#[derive(Clone, Debug, PartialEq)]
pub enum Worth {
    /// Children of whom more is good than some weeks ago, beside everyone else: each with its kinds of balls.
    Changed(Vec<(PlayerId, Vec<Better>)>),
    /// Who had far fewer balls than an even share.
    Short(Fair),
    /// A drill that is surely beyond the lines: too easy (`true`), too hard.
    Drill(RunSummary, Count, bool),
    /// Parts that were planned and never begun.
    LeftOut(Vec<PlanPart>),
    /// More together than ever before: the run, and the best before it.
    Together(RunSummary, u32),
    /// Many balls and no effort noted.
    NoEffort,
}

/// A kind of ball, and how it has changed.
#[derive(Clone, Debug, PartialEq)]
pub struct Better {
    pub skill: Skill,
    pub feed: Feed,
    pub by_one_line: bool,
    pub change: Changed,
}

/// A drill of fewer children or balls says less of the drill than of who was in it.
const LEAST_CHILDREN: usize = 4;
const LEAST_BALLS: u32 = 30;
/// Balls of one child are more alike than balls of many: a range out of all of them together is taken from half as many. A choice of ours.
const ALIKE: u32 = 2;
/// Of fewer balls than this nobody can miss an effort.
const MANY_BALLS: u32 = 30;

/// The first three.
pub fn worth_knowing(model: &Model, practice: &PracticeSummary) -> Vec<Worth> {
    let candidates: [fn(&Model, &PracticeSummary) -> Option<Worth>; 6] =
        [changed, short, beyond_lines, left_out, together, no_effort];
    candidates.iter().filter_map(|find| find(model, practice)).take(MOST).collect()
}

/// Only of balls that were played this time, and only after the last practice: levels are those of today.
fn changed(model: &Model, practice: &PracticeSummary) -> Option<Worth> {
    if !is_last(model, practice.practice) {
        return None;
    }
    let today = day_no(practice.started.day());
    let of = |player: PlayerId| {
        let more = of_child(model, player).into_iter().filter_map(|(series, found, seen)| {
            let played = seen.last().is_some_and(|last| last.day == today);
            let change = found.change.filter(|change| change.stands && change.up > 0.5 && played)?;
            let (skill, feed, by_one_line) = (series.skill.clone(), series.feed, series.by_one_line);
            Some(Better { skill, feed, by_one_line, change })
        });
        let more: Vec<_> = more.collect();
        (!more.is_empty()).then_some((player, more))
    };
    let all: Vec<_> = model.squad().iter().filter_map(|p| of(p.id)).collect();
    (!all.is_empty()).then_some(Worth::Changed(all))
}

fn short(model: &Model, practice: &PracticeSummary) -> Option<Worth> {
    let fair = Fair::of(model, &[practice]);
    (!fair.short(OF_ONE).is_empty()).then_some(Worth::Short(fair))
}

/// The drill that is furthest beyond either of the coach's lines, all its balls together and most of its children each.
fn beyond_lines(model: &Model, practice: &PracticeSummary) -> Option<Worth> {
    let [upper, lower] = [model.settings.upper, model.settings.lower].map(|hundredths| f64::from(hundredths) / 100.0);
    let mut furthest: Option<(f64, Worth)> = None;
    for run in practice.runs.iter().filter(|run| run.game.is_none() && run.everyone.n_counted == 0) {
        let [(_, count)] = run.everyone.apart()[..] else { continue };
        let n_children = run.children.iter().filter(|(_, counts)| counts.tries() > 0).count();
        if n_children < LEAST_CHILDREN || count.tries() < LEAST_BALLS {
            continue;
        }
        let fewer = Count::new(count.good() / ALIKE, count.tries() / ALIKE);
        let Some(range) = fewer.and_then(|count| wilson(count, Confidence::P95)) else { continue };
        let (over, under) = (range.low() - upper, lower - range.high());
        let by = over.max(under);
        // Many balls of a few children say nothing of the others.
        let beyond = |share: f64| if over > under { share > upper } else { share < lower };
        let shares = run.children.iter().filter(|(_, counts)| counts.tries() > 0);
        let shares = shares.map(|(_, counts)| f64::from(counts.good()) / f64::from(counts.tries()));
        if shares.filter(|share| beyond(*share)).count() * 2 <= n_children {
            continue;
        }
        if by > 0.0 && furthest.as_ref().is_none_or(|(had, _)| by > *had) {
            furthest = Some((by, Worth::Drill(run.clone(), count, over > under)));
        }
    }
    furthest.map(|(_, worth)| worth)
}

/// After the last practice, whose parts the next plan can take up.
fn left_out(model: &Model, practice: &PracticeSummary) -> Option<Worth> {
    if !is_last(model, practice.practice) {
        return None;
    }
    let out = parts_left_out(practice.plan.as_ref()?);
    (!out.is_empty()).then_some(Worth::LeftOut(out))
}

/// Planned and never begun; a break that was left out is no loss.
pub fn parts_left_out(done: &PlanDone) -> Vec<PlanPart> {
    let begun = |part: &PlanPart| done.done.iter().any(|(no, _)| *no == part.no);
    let planned = done.plan.parts.iter().filter(|part| !part.added && part.kind != PartKind::Break);
    planned.filter(|part| !begun(part)).cloned().collect()
}

/// Against runs of the same drill by the same rule, before this practice.
fn together(model: &Model, practice: &PracticeSummary) -> Option<Worth> {
    let all = Practices::of(model);
    let before = all.latest_first().into_iter().filter(|p| p.started.wall_ms < practice.started.wall_ms);
    let runs: Vec<&RunSummary> = before.flat_map(|p| &p.runs).collect();
    let beaten = |run: &RunSummary| {
        let now = run.together?;
        let alike = |had: &&RunSummary| had.drill == run.drill && run.drill.is_some();
        let had = runs.iter().copied().filter(alike).filter_map(|had| had.together);
        let best = had.filter(|had| (had.row, had.balls) == (now.row, now.balls)).map(|had| had.best).max()?;
        (best > 0 && now.best > best).then(|| Worth::Together(run.clone(), best))
    };
    practice.runs.iter().find_map(beaten)
}

fn no_effort(_: &Model, practice: &PracticeSummary) -> Option<Worth> {
    let noted: u32 = practice.runs.iter().map(|run| run.everyone.n_efforts).sum();
    let balls: u32 = practice.runs.iter().map(|run| run.everyone.n_noted()).sum();
    (noted == 0 && balls >= MANY_BALLS).then_some(Worth::NoEffort)
}

/// The practice that was last, and none is on.
pub fn is_last(model: &Model, practice: PracticeId) -> bool {
    let all = Practices::of(model);
    let last = all.latest_first().first().map(|p| p.practice);
    last == Some(practice) && model.practice_today().is_none()
}

/// A question for one child, and the entry that says it was asked.
#[derive(Clone, Debug, PartialEq)]
pub struct ToAsk {
    pub turn: Turn,
    pub question: String,
    pub asked: Option<EntryId>,
}

/// Three of those who were there, asked least: a question each, of a drill that the child was in. What is asked once practice is over
/// leaves the three as they are, so that none of them changes under the thumb.
pub fn worth_asking(model: &Model, practice: &PracticeSummary) -> Vec<ToAsk> {
    let ended_ms = ended_ms(model, practice);
    // Of all that are read as this one.
    let of_it = model.one_with(practice.practice);
    let is_of_it =
        |spot: &Spot| spot.practice.is_some_and(|id| of_it.contains(&id)) && spot.run.is_none() && spot.part.is_none();
    let remarks = all(model);
    let after = |remark: &Remark| is_of_it(&remark.spot) && remark.at.wall_ms >= ended_ms;
    let of_this = || remarks.iter().filter(|remark| after(remark));
    let asked: Vec<(i64, Asked)> = remarks
        .iter()
        .filter(|remark| !after(remark))
        .filter_map(|remark| Some((remark.at.wall_ms, remark.asked()?.clone())))
        .collect();
    let there: Vec<PlayerId> =
        model.squad().iter().map(|p| p.id).filter(|player| was_there(model, practice, *player)).collect();
    let turns = super::notes::turns_of(model, there, &asked);
    let known: Vec<&Asked> = asked.iter().map(|(_, asked)| asked).collect();
    let mut list: Vec<ToAsk> = Vec::new();
    for (i, player) in in_turn(&turns).into_iter().take(MOST).enumerate() {
        let Some(turn) = turns.iter().find(|turn| turn.player == player).copied() else { continue };
        let said = of_this().find(|remark| remark.asked().is_some_and(|asked| asked.player == player));
        if let Some((said, asked)) = said.and_then(|remark| Some((remark.id, remark.asked()?))) {
            list.push(ToAsk { turn, question: asked.question.clone(), asked: Some(said) });
            continue;
        }
        let questions = questions_by(model, source(practice, player, i), player, &known);
        let fresh = questions.iter().find(|question| list.iter().all(|had| had.question != **question));
        let Some(question) = fresh.or(questions.first()).cloned() else { continue };
        // The same may have been asked while the practice was on.
        let same = Asked { player, question: question.clone() };
        let had = remarks.iter().find(|remark| is_of_it(&remark.spot) && remark.asked() == Some(&same));
        list.push(ToAsk { turn, question, asked: had.map(|remark| remark.id) });
    }
    list
}

/// A drill that the child was in, another one each time.
fn source(practice: &PracticeSummary, player: PlayerId, i: usize) -> Source {
    let of = practice.runs.iter().filter(|run| run.order.contains(&player)).filter_map(|run| run.drill);
    let mut drills: Vec<_> = of.collect();
    drills.dedup();
    drills.get(i % drills.len().max(1)).map_or(Source::Nothing, |drill| Source::Drill(*drill))
}

/// When it was ended last; never, as far as is known. Of several that are read as one, when the first of them was: another phone's clock may be
/// ahead.
fn ended_ms(model: &Model, practice: &PracticeSummary) -> i64 {
    let entry = |id: &EntryId| model.own.get(*id).or_else(|| model.theirs.get(*id));
    let stands = practice.endings.iter().filter(|id| !model.base.is_taken_back(**id));
    let mut ends: Vec<(PracticeId, i64)> = Vec::new();
    for entry in stands.filter_map(entry) {
        let Fact::PracticeEnded { practice } = entry.fact else { continue };
        match ends.iter_mut().find(|(of, _)| *of == practice) {
            Some((_, last)) => *last = entry.at.wall_ms.max(*last),
            None => ends.push((practice, entry.at.wall_ms)),
        }
    }
    ends.into_iter().map(|(_, last)| last).min().unwrap_or(i64::MAX)
}

/// Where the next plan stands, or will.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NextPlan {
    /// The date it is for; else it waits for the next practice.
    pub date: Option<DateId>,
    /// It is there already.
    pub plan: Option<PlanId>,
    /// With something in it.
    pub made: bool,
}

/// After the last practice, while none is on. A plan that waits is the one that the next practice would take, date or not: none is made
/// beside it.
pub fn next_plan(model: &Model, practice: PracticeId) -> Option<NextPlan> {
    if !is_last(model, practice) {
        return None;
    }
    let full = |plan: PlanId| model.base.plan(plan).is_some_and(|plan| !plan.parts.is_empty());
    let date = calendar::next(model);
    let of_date = date.as_ref().and_then(|dated| dated.plan).filter(|plan| model.base.plan(*plan).is_some());
    let waiting = model.base.plan_waiting();
    Some(match (date.map(|dated| dated.id), of_date) {
        (Some(date), Some(plan)) if full(plan) => NextPlan { date: Some(date), plan: Some(plan), made: true },
        (date, _) if waiting.is_some_and(full) && (date.is_none() || of_date.is_none()) => {
            NextPlan { date: None, plan: waiting, made: true }
        }
        (Some(date), plan) => NextPlan { date: Some(date), plan, made: false },
        (None, _) => NextPlan { date: None, plan: waiting, made: false },
    })
}
