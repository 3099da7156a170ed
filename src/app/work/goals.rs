//! How likely goals are for those on the floor, and where everyone's level lies: takes up to some seconds on a slow phone, so it is the
//! worker's. Owns which exact working a rule's goal has; the workings stand in `stats::goal`.

use serde::{Deserialize, Serialize};

use super::Answer;
use super::doing::Done;
use super::levels::{Counts, seen};
use crate::stats::goal::draws::{FEW_SETS, SETS, laid_out};
use crate::stats::goal::race::Race;
use crate::stats::goal::rounds::Rounds;
use crate::stats::goal::row::Row;
use crate::stats::goal::several::{first_of, totals};
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
    /// So many good of each child's balls.
    Own,
    /// First to so many among groups, who all play at the same time.
    Race,
    /// Points of two sides, one a challenge ball, after easy balls.
    Duel {
        n_easy: u32,
        earn: u32,
        n_hard: u32,
    },
    /// Points of two sides of whom neither is taken to be better.
    Match,
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
    Some(match asked.game {
        Game::Total => {
            let levels: Vec<Level> = everyone().copied().collect();
            evenly(&levels, SETS, |shares| Some(totals(shares, tries, goals)))?
        }
        Game::OwnRow { step } => each(everyone(), tries, |share| {
            goals.iter().map(|long| row(*long, step, &[share])).collect::<Option<Vec<_>>>()
        })?,
        Game::Own => each(everyone(), tries, |share| Some(totals(&[share], tries, goals)))?,
        Game::GroupRow { step } => {
            let weight = 1.0 / groups.len() as f64;
            let one = |group: &Vec<Level>| {
                evenly(group, SETS, |shares| goals.iter().map(|long| row(*long, step, shares)).collect())
            };
            averaged(
                groups
                    .iter()
                    .map(|group| one(group).map(|goals| (goals, weight)))
                    .collect::<Option<Vec<_>>>()?
                    .into_iter(),
            )
        }
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
        Game::Match => {
            let end =
                |to: &u32| Race { to: *to, lead: 2, chances: &[1.0, 1.0], scores: &[0, 0], within: tries }.ended();
            let within = |to: &u32| end(to).map(|end| Within { chance: 1.0 - end.open, tries: end.points });
            goals.iter().map(within).collect::<Option<_>>()?
        }
    })
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
