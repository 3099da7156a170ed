//! Step up, stay, ease: levels of those in a run, asked of the worker when it ends, and on its board when it pauses after ten more balls.
//! Owns when a word is due and how sure it must be; never changes a step.

use super::effect::Effect;
use super::model::Model;
use super::practices::Practices;
use super::update::feed_of;
use super::weeks::counted;
use super::work::Job;
use super::work::levels::Counts;
use crate::domain::alike::{Alike, seen};
use crate::domain::drill::Board;
use crate::domain::ids::{DrillId, PlayerId, RunId};
use crate::domain::replay::part::Part;
use crate::domain::replay::run::RunState;
use crate::domain::skill::{Feed, FeedKind};
use crate::domain::weeks::day_no;
use crate::stats::arrange::arranged;
use crate::stats::level::Level;

#[derive(Clone, Debug, Default, PartialEq)]
pub struct Steps {
    /// What the last question was about.
    asked: Option<Question>,
    /// It has no answer yet.
    asking: bool,
    /// Kind by kind, child by child in the question's order: mean and spread of the log-odds.
    found: Option<Vec<Vec<(f64, f64)>>>,
    /// Why they could not be worked out.
    trouble: Option<String>,
    /// The run of the last look on a board and the balls that were judged by then, whether there was anything to ask or not.
    looked: Option<(RunId, u32)>,
}

#[derive(Clone, Debug, PartialEq)]
struct Question {
    run: RunId,
    today: i32,
    /// Balls that were judged in the run.
    n_tries: u32,
    /// The ball that each child of the run had last, and its place among those who had such balls.
    children: Vec<(PlayerId, Feed, usize, usize)>,
    /// The last of them is the balls of all together as one's, where they had one and the same ball.
    series: Vec<Vec<Counts>>,
    together: bool,
}

/// Another ball would fit, and how likely that is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Word {
    Harder(f64),
    Easier(f64),
}

/// What there is to say after a run.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Advice {
    /// Of all who had one and the same ball, two at least.
    pub group: Option<(Feed, Word)>,
    /// Each with the ball it is about, in the order of the question.
    pub children: Vec<(PlayerId, Feed, Word)>,
}

/// So sure it must be that a level lies beyond a line; how often that errs stands in DEVELOPERS.md. A choice of ours.
pub const SURE: f64 = 0.9;
/// On a board a look is taken again after so many balls.
const TEN: u32 = 10;

/// What the worker is asked for this run, unless it has been: a run that is over, of the day or the practice that is on.
pub fn want(model: &mut Model, run: RunId) -> Option<Effect> {
    let run = model.runs.get(&run).filter(|run| run.main.finished && is_now(model, run))?;
    let question = question(model, run)?;
    ask(model, question)
}

/// The board has paused: a look is taken where ten balls were judged since the last, and where a line could say what came of it.
pub fn paused(model: &mut Model, run: RunId) -> Option<Effect> {
    let run = model.runs.get(&run).filter(|run| model.is_mine(run) && !run.main.finished && is_now(model, run))?;
    let n_tries = n_tries(&run.main);
    let before = model.steps.looked.filter(|(looked, _)| *looked == run.id).map_or(0, |(_, n)| n / TEN);
    if model.steps.asking || n_tries / TEN <= before {
        return None;
    }
    on_board(model, run)?;
    let (id, question) = (run.id, question(model, run));
    model.steps.looked = Some((id, n_tries));
    ask(model, question?)
}

/// The drill that a line on the board leads to; `None` where there is none: not in sight of the children, nor in rounds of a duel, nor without a
/// drill that could be changed.
pub fn on_board(model: &Model, run: &RunState) -> Option<DrillId> {
    if matches!(run.spec.board, Board::Propped { .. }) || run.main.transition().is_some() {
        return None;
    }
    run.drill.filter(|drill| model.base.drill(*drill).is_some())
}

/// The answer to this question; of another one it is dropped.
pub fn worked_out(
    model: &mut Model,
    today: i32,
    series: &[Vec<Counts>],
    found: Vec<Vec<(f64, f64)>>,
) -> Option<Effect> {
    let steps = &mut model.steps;
    steps.asking = false;
    if steps.asked.as_ref().is_some_and(|asked| asked.today == today && asked.series == series) {
        steps.found = Some(found);
    }
    // Another run has ended meanwhile.
    super::update::wanted_by_screen(model)
}

pub fn not_worked_out(model: &mut Model, why: String) {
    model.steps.asking = false;
    model.steps.trouble = Some(why);
}

/// Being worked out for this run.
pub fn is_asking(model: &Model, run: RunId) -> bool {
    model.steps.asking && model.steps.asked.as_ref().is_some_and(|asked| asked.run == run)
}

/// Why it could not be worked out for this run.
pub fn trouble(model: &Model, run: RunId) -> Option<&str> {
    model.steps.trouble.as_deref().filter(|_| model.steps.asked.as_ref().is_some_and(|asked| asked.run == run))
}

/// A child's level on the balls of this run, as the last look had it; `None` where the run gave it more than one kind: the level is that of the last.
pub fn level_of(model: &Model, run: &RunState, player: PlayerId) -> Option<Level> {
    let asked = model.steps.asked.as_ref().filter(|asked| asked.run == run.id)?;
    let mut feeds = feeds(&run.main, player);
    let first = feeds.next()?;
    if feeds.any(|feed| feed != first) {
        return None;
    }
    let (.., series, at) = *asked.children.iter().find(|(child, ..)| *child == player)?;
    let (mean, sd) = *model.steps.found.as_ref()?.get(series)?.get(at)?;
    Level::new(mean, sd)
}

/// What is to be said of the last look at this run, by the coach's lines; nothing before the answer, and of what lies between them.
pub fn advice(model: &Model, run: RunId) -> Option<Advice> {
    let asked = model.steps.asked.as_ref().filter(|asked| asked.run == run)?;
    let found = model.steps.found.as_ref()?;
    let level = |series: usize, at: usize| {
        let (mean, sd) = *found.get(series)?.get(at)?;
        Level::new(mean, sd)
    };
    let levels: Vec<(PlayerId, Feed, Level)> = asked
        .children
        .iter()
        .filter_map(|(player, feed, series, at)| Some((*player, *feed, level(*series, *at)?)))
        .collect();
    let word = |level: Level| word(model, level);
    let all = found.last().filter(|_| asked.together).and_then(|all| all.first());
    Some(Advice {
        group: all
            .and_then(|(mean, sd)| Level::new(*mean, *sd))
            .and_then(word)
            .zip(levels.first())
            .map(|(word, (_, feed, _))| (*feed, word)),
        children: levels.iter().filter_map(|(player, feed, level)| Some((*player, *feed, word(*level)?))).collect(),
    })
}

/// The level of all of a run together, as if their balls were one's, and the balls that were judged in it. `None` where they had more than one kind.
pub fn of_all(model: &Model, run: RunId) -> Option<(Level, u32)> {
    let asked = model.steps.asked.as_ref().filter(|asked| asked.run == run && asked.together)?;
    let (mean, sd) = *model.steps.found.as_ref()?.last()?.first()?;
    Some((Level::new(mean, sd)?, asked.n_tries))
}

/// How sure it is that all of a run are ready for a harder ball than the one they had; nothing once any of them has another than the last look was at,
/// nor once there is one, by its balls or in the lineup, whom that look knew nothing of.
pub fn ready(model: &Model, run: &RunState) -> Option<(Feed, f64)> {
    let asked = model.steps.asked.as_ref().filter(|asked| asked.run == run.id)?;
    let part = &run.main;
    let now = |player: PlayerId| match part.transition() {
        Some(_) => part.feed,
        None => feed_of(model, run, Some(player), part.group_of(player)),
    };
    if asked.children.iter().any(|(player, feed, ..)| *feed != now(*player) || last_feed(part, *player) != Some(*feed))
    {
        return None;
    }
    let is_known = |player: PlayerId| asked.children.iter().any(|(known, ..)| *known == player);
    let has_had = part.by_child.keys().copied().filter(|player| last_feed(part, *player).is_some());
    if !has_had.chain(part.lineup.everyone()).all(is_known) {
        return None;
    }
    match advice(model, run.id)?.group {
        Some((feed, Word::Harder(sure))) => Some((feed, sure)),
        _ => None,
    }
}

fn word(model: &Model, level: Level) -> Option<Word> {
    let line = |hundredths: u8| f64::from(hundredths) / 100.0;
    let (above, below) = (level.above(line(model.settings.upper)), level.below(line(model.settings.lower)));
    match (above >= SURE, below >= SURE) {
        (true, _) => Some(Word::Harder(above)),
        (_, true) => Some(Word::Easier(below)),
        _ => None,
    }
}

fn ask(model: &mut Model, question: Question) -> Option<Effect> {
    let steps = &mut model.steps;
    let known = steps.asked.as_ref() == Some(&question) && steps.found.is_some();
    if steps.asking || known {
        return None;
    }
    let job = Job::Steps { today: question.today, series: question.series.clone() };
    (steps.asked, steps.asking, steps.found, steps.trouble) = (Some(question), true, None, None);
    Some(Effect::Work(job))
}

/// Of a run that is long over, the levels of today say nothing.
fn is_now(model: &Model, run: &RunState) -> bool {
    let on = model.practice_today().is_some_and(|on| on.id == run.practice);
    on || run.started.day() == model.now.day()
}

/// Nothing where no ball has its child, or how good one was isn't kept.
fn question(model: &Model, run: &RunState) -> Option<Question> {
    let part = &run.main;
    if matches!(run.spec.board, Board::Court | Board::Lanes | Board::Group) {
        return None;
    }
    Alike::of(&run.spec, run.spec.feed)?;
    let practices = Practices::of(model);
    let practices = practices.latest_first();
    let mut balls: Vec<(Alike, Vec<PlayerId>)> = Vec::new();
    let mut series: Vec<Vec<Counts>> = Vec::new();
    let mut children = Vec::new();
    for player in part.by_child.keys() {
        let Some(feed) = last_feed(part, *player) else { continue };
        let ball = Alike::of(&run.spec, feed)?;
        let at = balls.iter().position(|(known, _)| *known == ball).unwrap_or_else(|| {
            let seen = seen(&practices, model.now.day(), &ball);
            balls.push((ball, seen.iter().map(|(player, _)| *player).collect()));
            series.push(seen.iter().map(|(_, seen)| counted(seen)).collect());
            balls.len() - 1
        });
        // Who has no judged ball of the kind has no level of its own.
        if let Some(place) = balls[at].1.iter().position(|had| had == player) {
            children.push((*player, feed, at, place));
        }
    }
    let together = children.len() > 1 && series.len() == 1;
    if together {
        series.push(vec![as_one(&children.iter().map(|(.., at)| &series[0][*at]).collect::<Vec<_>>())]);
    }
    (!children.is_empty()).then(|| Question {
        run: run.id,
        together,
        today: day_no(model.now.day()),
        n_tries: n_tries(part),
        children,
        series,
    })
}

/// Balls of several as if they were one's, day by day. Levels of several hang together (what is known of one says something of the others), so
/// they can't be added up.
fn as_one(all: &[&Counts]) -> Counts {
    let mut one: Counts = Vec::new();
    for (day, good, tries, worth, offset) in all.iter().copied().flatten() {
        match one.iter_mut().find(|had| (had.0, had.3, had.4) == (*day, *worth, *offset)) {
            Some(had) => (had.1, had.2) = (had.1.saturating_add(*good), had.2.saturating_add(*tries)),
            None => one.push((*day, *good, *tries, *worth, *offset)),
        }
    }
    arranged(one, |a, b| a.0.cmp(&b.0))
}

/// The ball that a child had last; in rounds of a duel the easy one, which everyone has alike. A told number has the run's.
fn last_feed(part: &Part, player: PlayerId) -> Option<Feed> {
    let in_rounds = part.transition().is_some();
    feeds(part, player).find(|feed| !in_rounds || feed.kind == FeedKind::Easy)
}

/// How the balls of a child were given that were judged, the last first; then those of its told numbers.
fn feeds(part: &Part, player: PlayerId) -> impl Iterator<Item = Feed> {
    let judged = part.contacts.iter().rev().map(|counted| &counted.contact);
    let judged = judged
        .filter(move |contact| contact.player == Some(player) && contact.good_from.judge(contact.outcome).is_some())
        .map(|contact| contact.feed);
    let told = part.all_told().filter(move |(child, told)| *child == player && told.count.tries() > 0);
    judged.chain(told.map(|(_, told)| told.feed))
}

fn n_tries(part: &Part) -> u32 {
    part.everyone.all().tries()
}
