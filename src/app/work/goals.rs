//! How likely goals are for those on the floor, and where everyone's level lies: takes up to some seconds on a slow phone, so it is the
//! worker's. Owns which exact working a rule's goal has; the workings stand in `stats::goal`.

use serde::{Deserialize, Serialize};

use super::Answer;
use super::doing::Done;
use super::levels::{Counts, seen};
use crate::stats::goal::draws::{FEW_SETS, SETS, laid_out};
use crate::stats::goal::points::{Ring, played_out};
use crate::stats::goal::race::Race;
use crate::stats::goal::rounds::{Brings, Course, Rounds};
use crate::stats::goal::row::Row;
use crate::stats::goal::several::{first_of, totals};
use crate::stats::goal::stays::stays;
use crate::stats::goal::{Within, averaged};
use crate::stats::level::{Level, Levels, fit, together};

/// Where a child's level stands: the kind of ball, and its place among those who had that ball. `None`: it had none.
pub type Stands = (usize, Option<usize>);

/// What is played for, as far as its chance hangs on it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Game {
    /// So many good of everyone's balls.
    Total,
    /// In a row, each child's own; of a group. A row that breaks falls to the last full multiple of `step`, with 0 to nothing.
    OwnRow {
        step: u32,
    },
    GroupRow {
        step: u32,
    },
    /// So many good of each child's balls; the same, where the time is set and not the balls; of each group's.
    Own,
    OwnGood,
    GroupGood,
    /// First to so many among groups, who all play at the same time.
    Race,
    /// Points of two sides, one a challenge ball, after easy balls.
    Duel {
        n_easy: u32,
        earn: u32,
        n_hard: u32,
    },
    /// The same child by child: a point is of whoever passes well, else of the one who served it, where that is a child. So many places pass,
    /// so many serve in turn, and after each round all move on or don't.
    Points {
        n_easy: u32,
        earn: u32,
        n_hard: u32,
        n_places: usize,
        n_servers: usize,
        moves: bool,
    },
    /// Good easy balls of such rounds; the rounds themselves.
    Joint {
        n_easy: u32,
        earn: u32,
        n_hard: u32,
    },
    Rounds {
        n_easy: u32,
        earn: u32,
        n_hard: u32,
    },
    /// Points of two sides of whom neither is taken to be better.
    Match,
    /// Games of so many rallies that one team wins in a row; none is taken to be better.
    Stay {
        to: u32,
    },
}

impl Game {
    /// Balls of those on the floor say something of it; of easy ones and of challenge balls apart.
    pub const fn rests_on_balls(self) -> (bool, bool) {
        match self {
            Game::Match | Game::Stay { .. } | Game::Rounds { earn: 0, .. } => (false, false),
            Game::Duel { .. } | Game::Points { .. } => (true, true),
            _ => (true, false),
        }
    }

    /// Each child plays for itself.
    pub const fn is_each(self) -> bool {
        matches!(self, Game::OwnRow { .. } | Game::Own | Game::OwnGood)
    }
}

/// What is asked.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Asked {
    pub today: i32,
    /// Everyone's counts in each kind of ball.
    pub series: Vec<Vec<Counts>>,
    /// Those on the floor, group by group.
    pub groups: Vec<Vec<Stands>>,
    /// The same children on challenge balls, where the game has these apart.
    pub hard: Vec<Stands>,
    pub game: Game,
    /// Balls there are: of a child where it plays for itself, of a group where it does, else of all.
    pub tries: u32,
    pub goals: Vec<u32>,
}

/// Of one goal.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Reach {
    pub chance: f64,
    /// Balls played until then, or until the last, on average.
    pub tries: f64,
}

/// Games that are played out with each of the sets of levels: 4,016 in all.
const GAMES: u32 = 16;

/// No goals: of one of the kinds of balls nobody had any.
pub fn work_out(asked: &Asked) -> Done {
    Done::said(Answer::Goals { goals: reached(asked).unwrap_or_default() })
}

/// Everyone's level today, kind by kind, as mean and spread of the log-odds.
pub fn steps(today: i32, series: &[Vec<Counts>]) -> Done {
    let one = |children: &Vec<Counts>| {
        let Some(levels) = levels(children) else { return Vec::new() };
        let on = |child| levels.on(child, today).unwrap_or(levels.newcomer()).parts();
        (0..children.len()).map(on).collect()
    };
    Done::said(Answer::Steps { levels: series.iter().map(one).collect() })
}

fn levels(children: &[Counts]) -> Option<Levels> {
    let all: Vec<Vec<_>> = children.iter().map(|counts| counts.iter().filter_map(seen).collect()).collect();
    fit(&all)
}

fn reached(asked: &Asked) -> Option<Vec<Reach>> {
    let known: Vec<Option<Levels>> = asked.series.iter().map(|children| levels(children)).collect();
    let level = |stands: &Stands| {
        let levels = known.get(stands.0)?.as_ref()?;
        stands.1.map_or(Some(levels.newcomer()), |child| levels.on(child, asked.today))
    };
    let all = |stands: &[Stands]| stands.iter().map(&level).collect::<Option<Vec<Level>>>();
    let groups: Vec<Vec<Level>> = asked.groups.iter().map(|group| all(group)).collect::<Option<_>>()?;
    let goals = goals(asked, &groups, &all(&asked.hard)?)?;
    // Sums of many parts are off by a hair, which mustn't make a chance none.
    let most = f64::from(asked.tries);
    let sound = |within: Within| Reach { chance: within.chance.clamp(0.0, 1.0), tries: within.tries.clamp(0.0, most) };
    Some(goals.into_iter().map(sound).collect())
}

fn goals(asked: &Asked, groups: &[Vec<Level>], hard: &[Level]) -> Option<Vec<Within>> {
    let (tries, goals) = (asked.tries, &asked.goals[..]);
    let row = |long: u32, step: u32, shares: &[f64]| Row::new(long, step).map(|row| row.in_turn(shares, tries));
    let everyone = || groups.iter().flatten();
    let bring = |what: Brings, (n_easy, earn, n_hard): (u32, u32, u32)| {
        let course = Course::new(n_easy, earn, n_hard)?;
        let levels: Vec<Level> = everyone().copied().collect();
        if levels.is_empty() {
            // Whatever becomes of the easy balls.
            return course.goals(what, tries, &[0.0], goals);
        }
        evenly(&levels, FEW_SETS, |shares| course.goals(what, tries, shares, goals))
    };
    Some(match asked.game {
        Game::Total => {
            let levels: Vec<Level> = everyone().copied().collect();
            evenly(&levels, SETS, |shares| Some(totals(shares, tries, goals)))?
        }
        Game::OwnRow { step } => each(everyone(), tries, |share| {
            goals.iter().map(|long| row(*long, step, &[share])).collect::<Option<Vec<_>>>()
        })?,
        Game::Own | Game::OwnGood => each(everyone(), tries, |share| Some(totals(&[share], tries, goals)))?,
        Game::GroupRow { step } => {
            each_group(groups, |shares| goals.iter().map(|long| row(*long, step, shares)).collect())?
        }
        Game::GroupGood => each_group(groups, |shares| Some(totals(shares, tries, goals)))?,
        Game::Race => {
            let levels: Vec<Level> = everyone().copied().collect();
            evenly(&levels, SETS, |shares| {
                let mut rest = shares;
                let sides = groups.iter().map(|group| {
                    let (side, after) = rest.split_at(group.len());
                    rest = after;
                    side.to_vec()
                });
                Some(first_of(&sides.collect::<Vec<_>>(), tries, goals))
            })?
        }
        Game::Duel { n_easy, earn, n_hard } => {
            let easy: Vec<Level> = everyone().copied().collect();
            // Whose ball it is changes all the time: their average is what counts.
            let both = [together(&easy)?, together(hard)?];
            evenly(&both, FEW_SETS, |shares| {
                let end = |to: &u32| {
                    Rounds { n_easy, earn, n_hard, to: *to, other_to: *to }.within(tries, shares[0], shares[1])
                };
                let within = |to: &u32| end(to).map(|end| Within { chance: 1.0 - end.open, tries: end.tries });
                goals.iter().map(within).collect()
            })?
        }
        Game::Points { n_easy, earn, n_hard, n_places, n_servers, moves } => {
            let course = Course::new(n_easy, earn, n_hard)?;
            let easy: Vec<Level> = everyone().copied().collect();
            let mut levels = hard.to_vec();
            levels.push(together(&easy)?);
            let split = |mut shares: Vec<f64>| shares.pop().map(|easy| (shares, easy));
            let sets: Vec<_> = laid_out(&levels, SETS).into_iter().filter_map(split).collect();
            let ring = Ring { n_have: n_places, n_give: n_servers, moves };
            played_out(course, ring, &sets, GAMES, tries, goals)?
        }
        Game::Joint { n_easy, earn, n_hard } => bring(Brings::GoodEasy, (n_easy, earn, n_hard))?,
        Game::Rounds { n_easy, earn, n_hard } => bring(Brings::Rounds, (n_easy, earn, n_hard))?,
        Game::Stay { to } => stays(to, tries, goals)?,
        Game::Match => {
            let end =
                |to: &u32| Race { to: *to, lead: 2, chances: &[1.0, 1.0], scores: &[0, 0], within: tries }.ended();
            let within = |to: &u32| end(to).map(|end| Within { chance: 1.0 - end.open, tries: end.points });
            goals.iter().map(within).collect::<Option<_>>()?
        }
    })
}

/// Averaged over the groups.
fn each_group(groups: &[Vec<Level>], mut of: impl FnMut(&[f64]) -> Option<Vec<Within>>) -> Option<Vec<Within>> {
    let weight = 1.0 / groups.len() as f64;
    let one = |group: &Vec<Level>| evenly(group, SETS, &mut of).map(|goals| (goals, weight));
    Some(averaged(groups.iter().map(one).collect::<Option<Vec<_>>>()?.into_iter()))
}

/// Averaged over levels that are not known.
fn evenly(levels: &[Level], sets: usize, mut of: impl FnMut(&[f64]) -> Option<Vec<Within>>) -> Option<Vec<Within>> {
    let laid_out = laid_out(levels, sets);
    let weight = 1.0 / laid_out.len() as f64;
    let all = laid_out.iter().map(|shares| of(shares).map(|goals| (goals, weight))).collect::<Option<Vec<_>>>()?;
    Some(averaged(all.into_iter()))
}

/// Averaged over the children, of each over what isn't known of it: about so many of them.
fn each<'a>(
    levels: impl Iterator<Item = &'a Level> + Clone,
    tries: u32,
    mut of: impl FnMut(f64) -> Option<Vec<Within>>,
) -> Option<Vec<Within>> {
    let n = levels.clone().count() as f64;
    let nodes = levels.flat_map(|level| level.nodes(tries));
    let all = nodes.map(|node| of(node.chance).map(|goals| (goals, node.weight / n))).collect::<Option<Vec<_>>>()?;
    Some(averaged(all.into_iter()))
}
