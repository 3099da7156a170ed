//! The card of a goal that fits: one sentence, the goals next to it, and what they rest on.

use crate::app::goals::{About, Basis, MOST_MINUTES, goal_of, minutes};
use crate::app::model::Model;
use crate::app::settings::Settings;
use crate::app::words::{goals as words, weeks};
use crate::app::work::goals::{Game, Reach};
use crate::domain::alike::Alike;
use crate::domain::rule::Rule;
use crate::domain::skill::Skill;
use crate::stats::goal::propose;

#[derive(Clone, Debug, PartialEq)]
pub struct GoalsView {
    pub state: State,
    /// "8 in a row: about 7 in 10 would reach it in 6 minutes."
    pub said: String,
    /// The goal that fits between its neighbours, the easiest first.
    pub keys: Vec<GoalKey>,
    /// What must be known beside the sentence: no pace yet, two ahead, that it can only be said.
    pub hints: Vec<String>,
    /// What it opens to.
    pub rests_on: Vec<String>,
    pub wish: String,
    pub wish_ends: (bool, bool),
    /// The time is asked for, where the rule doesn't say how many balls there are.
    pub minutes: Option<String>,
    pub minutes_ends: (bool, bool),
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub enum State {
    /// No drill is being set.
    Hidden,
    Working,
    /// One sentence why there is none.
    Told(String),
    Known,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct GoalKey {
    pub goal: u32,
    /// "7 in 10"
    pub short: String,
    /// The whole sentence.
    pub label: String,
    pub fits: bool,
    /// The drill has this goal now.
    pub chosen: bool,
    /// A tap sets it.
    pub takes: bool,
}

pub fn goals(model: &Model) -> GoalsView {
    let goals = &model.goals;
    let basis = match &goals.about {
        Some(About::Known(basis)) => Some(basis),
        _ => None,
    };
    let state = match (&goals.about, &goals.trouble, &goals.found) {
        (None, ..) => State::Hidden,
        (Some(About::Nobody), ..) => State::Told(words::NOBODY.to_owned()),
        (Some(About::TooShort(game)), ..) => State::Told(words::too_short(*game).to_owned()),
        (Some(About::FastServes), ..) => State::Told(words::FAST.to_owned()),
        (Some(About::NoBalls(ball)), ..) => State::Told(words::no_balls(&kind(ball))),
        (_, Some(why), _) => State::Told(words::not_worked(why)),
        (_, None, None) => State::Working,
        (_, None, Some(_)) => State::Known,
    };
    let known = basis.zip(goals.found.as_ref()).filter(|_| state == State::Known);
    let told = known.and_then(|(basis, found)| told(model, basis, found));
    let (said, keys, rests_on) = told.unwrap_or_default();
    let (wish, minutes) = (model.settings.wish, minutes(model));
    GoalsView {
        state,
        said,
        keys,
        hints: known.map(|(basis, found)| hints(basis, found)).unwrap_or_default(),
        rests_on,
        wish: words::wish(wish),
        wish_ends: (wish <= Settings::WISH.1, wish >= Settings::WISH.2),
        minutes: (!has_own_time(model) && basis.is_none_or(|basis| !basis.is_set)).then(|| minutes.to_string()),
        minutes_ends: (minutes <= 1, minutes >= MOST_MINUTES),
    }
}

/// The rule says how long it takes.
fn has_own_time(model: &Model) -> bool {
    model.drafts.drill.as_ref().is_some_and(|draft| matches!(draft.spec.rule, Rule::InTime(_)))
}

/// Of fewer balls a child than this a goal says so.
const FEW: usize = 10;

type Told = (String, Vec<GoalKey>, Vec<String>);

fn told(model: &Model, basis: &Basis, found: &[Reach]) -> Option<Told> {
    let chances: Vec<f64> = found.iter().map(|reach| reach.chance).collect();
    let looked = worth_a_look(&chances);
    let from = looked.start;
    let proposal = propose(&chances[looked], f64::from(model.settings.wish) / 100.0)?;
    let nearest = proposal.nearest + from;
    let beside = |at: Option<usize>| at.map(|at| at + from);
    let has = model.drafts.drill.as_ref().and_then(|draft| goal_of(&draft.spec.rule)).map(u32::from);
    let (asked, time) = (&basis.asked, time(basis));
    let said = |at: usize| words::said(asked.game, asked.goals[at], asked.tries, chances[at], &time);
    let places: Vec<usize> =
        [beside(proposal.easier), Some(nearest), beside(proposal.harder)].into_iter().flatten().collect();
    let alike = |at: &usize| *at != nearest && words::short(chances[*at]) == words::short(chances[nearest]);
    let in_tenths = !places.iter().any(alike);
    let key = |at: usize| GoalKey {
        goal: asked.goals[at],
        short: if in_tenths { words::short(chances[at]) } else { words::in_hundredths(chances[at]) },
        label: if basis.takes { words::take(&said(at)) } else { said(at) },
        fits: at == nearest,
        chosen: has == Some(asked.goals[at]),
        takes: basis.takes,
    };
    let number = |at: usize| {
        let reach = found[at];
        let by_pace = basis.n_runs > 0 && !basis.is_set && basis.seconds.is_none();
        let minutes = by_pace.then(|| basis.minutes_of(reach.tries));
        words::number(asked.game, asked.goals[at], asked.tries, reach.chance, reach.tries, minutes)
    };
    let mut rests_on: Vec<String> = places.iter().map(|at| number(*at)).collect();
    rests_on.extend(of_balls(basis));
    if basis.n_runs > 0 && !basis.is_set {
        rests_on.push(words::pace(basis.n_runs, &words::length(basis.minutes, basis.seconds), basis.n_all));
    }
    rests_on.push(words::formula(asked.game).to_owned());
    if basis.ball.is_some() {
        rests_on.extend([words::OF_LEVELS, words::LIMITS].map(str::to_owned));
    }
    let mut told = said(nearest);
    if basis.ball.is_some() && basis.n_balls < (FEW * basis.n_children) as u64 {
        told.push(' ');
        told.push_str(&words::few(basis.n_balls as u32));
    }
    Some((told, places.into_iter().map(key).collect(), rests_on))
}

/// Of goals that are all but sure the hardest, of those out of reach the easiest, and all between: the others say nothing more.
fn worth_a_look(chances: &[f64]) -> std::ops::Range<usize> {
    let sure = chances.iter().take_while(|chance| **chance > 0.995).count();
    let beyond = chances.iter().rev().take_while(|chance| **chance < 0.005).count();
    let from = sure.saturating_sub(1);
    from..(chances.len() - beyond + usize::from(beyond > 0)).max(from)
}

fn of_balls(basis: &Basis) -> Option<String> {
    let ball = basis.ball.as_ref()?;
    Some(words::balls_behind(basis.n_balls, &kind(ball), basis.n_known, basis.n_children))
}

fn time(basis: &Basis) -> String {
    match (basis.is_set, basis.n_runs) {
        (true, _) => String::new(),
        (false, 0) => words::in_balls(basis.asked.game, basis.asked.tries),
        // Where there are more balls than are looked at, those that are take less.
        (false, _) if basis.seconds.is_some() => words::in_time(&words::length(0, basis.seconds)),
        (false, _) => {
            let minutes = basis.minutes_of(basis.asked.tries.into()).round().max(1.0) as u16;
            words::in_time(&words::length(minutes, None))
        }
    }
}

fn hints(basis: &Basis, found: &[Reach]) -> Vec<String> {
    let asked = &basis.asked;
    let beat = basis.best.and_then(|best| {
        let at = asked.goals.iter().position(|goal| *goal == best + 1)?;
        Some(words::to_beat(best, found.get(at)?.chance))
    });
    let mut hints: Vec<String> = beat.into_iter().collect();
    let mut hint = |on: bool, line: &str| hints.extend(on.then(|| line.to_owned()));
    hint(!basis.takes && basis.best.is_none(), words::SAY_IT);
    hint(basis.by_two, words::BY_TWO);
    hint(asked.game == Game::Match, words::EVEN);
    hint(matches!(asked.game, Game::Stay { .. }), words::EVEN_TEAMS);
    hint(matches!(asked.game, Game::Rounds { earn: 0, .. }), words::SAME_BALLS);
    hint(basis.seconds.is_some(), words::FASTER);
    if basis.n_runs == 0 && !basis.is_set {
        hints.push(words::no_minutes(&words::length(basis.minutes, basis.seconds), basis.n_all));
    }
    hints
}

fn kind(ball: &Alike) -> String {
    let by_one_line = matches!(ball.skill, Skill::Own(_)) || !ball.is_as_said();
    weeks::kind(&ball.skill, ball.feed, by_one_line)
}
