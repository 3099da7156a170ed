//! What a question about goals rests on: those who are here and their balls, the balls there are in the time, the goals to choose among.
//! What is played for stands in `choices`.

use super::choices::{game, goals, tries};
use super::{minutes, planned, with_goal};
use crate::app::model::Model;
use crate::app::plan::{floor, own_pace};
use crate::app::practices::Practices;
use crate::app::update::{best_before, opening_groups};
use crate::app::weeks::counted;
use crate::app::work::goals::{Asked, Game, Stands};
use crate::app::work::levels::Counts;
use crate::domain::alike::{Alike, seen};
use crate::domain::drill::{Board, DrillSpec};
use crate::domain::ids::{DrillId, PlayerId};
use crate::domain::plan::expect::{Expected, Pace, expect_in};
use crate::domain::plan::{Fitted, PartKind, Plan, PlanPart};
use crate::domain::rule::{FirstTo, Rule};
use crate::domain::skill::{Feed, FeedKind};
use crate::domain::summary::PracticeSummary;
use crate::domain::weeks::day_no;

/// What a question is about, or why there is none.
#[derive(Clone, Debug, PartialEq)]
pub enum About {
    /// Nobody is here, or fewer than its groups need.
    Nobody,
    /// The time isn't enough for the least that is looked at.
    TooShort(Game),
    /// How many fast serves are in isn't kept.
    FastServes,
    /// Of this ball nobody has had any.
    NoBalls(Alike),
    Known(Box<Basis>),
}

/// What a question rests on.
#[derive(Clone, Debug, PartialEq)]
pub struct Basis {
    pub asked: Asked,
    /// None where nothing of the children is known: of a match.
    pub ball: Option<Alike>,
    pub n_children: usize,
    /// Those whose ball somebody has had: the others are left out where each plays for itself.
    pub n_known: usize,
    /// Balls that the levels come from.
    pub n_balls: u64,
    pub minutes: u16,
    /// The rule's own time instead, in seconds.
    pub seconds: Option<u16>,
    /// Of the balls that these minutes bring, as the question counts them: more than it looks at where there are very many.
    pub expected: u32,
    /// The squad's own runs that its pace comes from; 0: what is common.
    pub n_runs: usize,
    /// Balls of everyone in the time.
    pub n_all: u32,
    /// The number of balls is the rule's own, whatever the time.
    pub is_set: bool,
    /// Two ahead are asked for as well, which isn't worked out.
    pub by_two: bool,
    /// A tap sets it; else it can only be said.
    pub takes: bool,
    /// The squad's own best so far, where that is to be beaten.
    pub best: Option<u32>,
}

/// More balls than these are not looked at.
const MOST_TRIES: u32 = 600;
impl Basis {
    /// How long so many of the question's balls take.
    pub fn minutes_of(&self, tries: f64) -> f64 {
        f64::from(self.minutes) * tries / f64::from(self.expected)
    }
}

impl About {
    pub fn asked(&self) -> Option<&Asked> {
        match self {
            About::Known(basis) => Some(&basis.asked),
            _ => None,
        }
    }
}

/// Nothing while no drill is being set.
pub fn about(model: &Model) -> Option<About> {
    let draft = model.drafts.drill.as_ref()?;
    let spec = &draft.spec;
    let here = model.here();
    let game = game(spec, here.len());
    let practices = Practices::of(model);
    let practices = practices.latest_first();
    let minutes = minutes(model);
    let seconds = match spec.rule {
        Rule::InTime(rule) => Some(rule.seconds),
        _ => None,
    };
    let time = (minutes, seconds);
    let Some((expected, n_runs)) = expected(model, draft.drill, spec, here.len(), time, &practices) else {
        return Some(About::Nobody);
    };
    let mut floor = OnFloor::new(model, draft.drill, spec, &practices);
    let mut groups: Vec<Vec<PlayerId>> = match game {
        Game::GroupRow { .. } | Game::GroupGood if spec.on_floor.groups.is_some() => opening_groups(model, spec, &here),
        Game::Race => opening_groups(model, spec, &here),
        _ => vec![here.clone()],
    };
    groups.retain(|group| !group.is_empty());
    let sides = matches!(game, Game::Stay { .. }) && here.len() < 2;
    if groups.is_empty() || game == Game::Race && groups.len() < 2 || sides {
        return Some(About::Nobody);
    }
    let (needs_balls, needs_hard) = game.rests_on_balls();
    if needs_balls && Alike::of(spec, spec.feed).is_none() {
        return Some(About::FastServes);
    }
    let kind = if spec.rule.transition().is_some() { FeedKind::Easy } else { spec.feed.kind };
    let each = game.is_each();
    let (mut stands, mut hard) = (Vec::new(), Vec::new());
    if needs_balls {
        for group in &groups {
            let all = group.iter().map(|player| floor.stands(*player, kind)).collect::<Option<Vec<_>>>()?;
            stands.push(all);
        }
        if needs_hard {
            hard = here.iter().map(|player| floor.stands(*player, FeedKind::Challenge)).collect::<Option<_>>()?;
        }
        // A ball that nobody has had says nothing of anyone.
        let unknown = stands.iter().flatten().chain(&hard).find(|at| !floor.is_known(**at)).map(|at| at.0);
        if each {
            stands.iter_mut().for_each(|group| group.retain(|at| floor.is_known(*at)));
        }
        if let Some(at) = unknown.filter(|_| !each || stands.iter().all(Vec::is_empty)) {
            return Some(About::NoBalls(floor.balls[at].clone()));
        }
    }
    let n_known = stands.iter().map(Vec::len).sum();
    let (all_tries, is_set) = tries(spec, game, &expected, groups.len());
    let tries = all_tries.clamp(1, MOST_TRIES);
    // A time that is set may be too short for a ball each.
    let too_few = all_tries == 0 || game == Game::OwnGood && (expected.balls.likely as usize) < here.len();
    let goals = if seconds.is_some() && too_few { Vec::new() } else { goals(spec, game, tries) };
    if goals.is_empty() {
        return Some(About::TooShort(game));
    }
    Some(About::Known(Box::new(Basis {
        ball: floor.balls.first().cloned(),
        n_balls: floor.n_balls(),
        asked: Asked { today: day_no(model.now.day()), series: floor.counts, groups: stands, hard, game, tries, goals },
        n_children: here.len(),
        n_known,
        minutes,
        seconds,
        expected: all_tries.max(1),
        n_runs,
        n_all: expected.balls.likely,
        is_set,
        by_two: matches!(spec.rule, Rule::FirstTo(FirstTo { by_two: true, .. })),
        takes: with_goal(spec.rule, 1).is_some(),
        best: match (spec.rule, draft.drill) {
            (Rule::Together(rule), Some(drill)) => best_before(model, drill, rule).map(u32::from),
            _ => None,
        },
    })))
}

/// Balls of the drill in so many minutes, by the squad's own pace where it has one.
fn expected(
    model: &Model,
    drill: Option<DrillId>,
    spec: &DrillSpec,
    n_children: usize,
    (minutes, seconds): (u16, Option<u16>),
    practices: &[&PracticeSummary],
) -> Option<(Expected, usize)> {
    if n_children == 0 {
        return None;
    }
    let planned = drill.and_then(|drill| planned(model, drill));
    let plain = || PlanPart::plain(PartKind::Drill, String::new(), minutes);
    let part = planned.map_or_else(plain, |(_, part)| PlanPart { minutes, fitted: Fitted::AsPlanned, ..part.clone() });
    let floor = planned.map_or_else(|| floor(model, &Plan::new()), |(plan, _)| floor(model, plan));
    // Lanes count good ones alone: how many balls there were they can't say.
    let own = match drill {
        Some(drill) if spec.board != Board::Lanes => own_pace(practices, drill).into_iter().filter(is_played).collect(),
        _ => Vec::new(),
    };
    let ms = seconds.map_or(u64::from(minutes) * 60_000, |seconds| u64::from(seconds) * 1_000);
    let expected = expect_in(ms, &part, spec, floor, &own)?;
    let n_runs = expected.n_runs;
    Some((expected, n_runs))
}

/// Balls a minute from one source that nobody plays: the taps came later than the balls, all at once.
const PACE_MOST: u64 = 60;

fn is_played(pace: &Pace) -> bool {
    u64::from(pace.n) * 60_000 <= PACE_MOST * pace.ms.saturating_mul(pace.n_groups.max(1) as u64)
}

/// The kinds of balls of those on the floor, each looked up once.
struct OnFloor<'a> {
    model: &'a Model,
    drill: Option<DrillId>,
    spec: &'a DrillSpec,
    practices: &'a [&'a PracticeSummary],
    balls: Vec<Alike>,
    had: Vec<Vec<PlayerId>>,
    counts: Vec<Vec<Counts>>,
}

impl<'a> OnFloor<'a> {
    fn new(
        model: &'a Model,
        drill: Option<DrillId>,
        spec: &'a DrillSpec,
        practices: &'a [&'a PracticeSummary],
    ) -> Self {
        OnFloor { model, drill, spec, practices, balls: Vec::new(), had: Vec::new(), counts: Vec::new() }
    }

    /// Where a child's level stands. In rounds of a duel everyone has the drill's own step.
    fn stands(&mut self, player: PlayerId, kind: FeedKind) -> Option<Stands> {
        let own = self.drill.filter(|_| self.spec.rule.transition().is_none());
        let step = own.and_then(|drill| self.model.base.step_of(drill, player)).unwrap_or(self.spec.feed.step);
        let ball = Alike::of(self.spec, Feed { kind, step })?;
        let at = self.balls.iter().position(|known| *known == ball).unwrap_or_else(|| {
            let seen = seen(self.practices, self.model.now.day(), &ball);
            self.had.push(seen.iter().map(|(player, _)| *player).collect());
            self.counts.push(seen.iter().map(|(_, seen)| counted(seen)).collect());
            self.balls.push(ball);
            self.balls.len() - 1
        });
        Some((at, self.had[at].iter().position(|had| *had == player)))
    }

    fn is_known(&self, at: Stands) -> bool {
        self.counts.get(at.0).is_some_and(|counts| !counts.is_empty())
    }

    fn n_balls(&self) -> u64 {
        self.counts.iter().flatten().flatten().map(|(_, _, tries, ..)| u64::from(*tries)).sum()
    }
}
