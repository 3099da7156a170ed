//! How a drill is laid out for the children and balls there are: how many groups and of which sizes, and which roles. Numbers alone;
//! who does what is told elsewhere.

use super::drill::{Board, DrillSpec};
use super::roles;
use crate::stats::split::sizes_by_number;

/// A drill laid out.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Fit {
    /// The sizes of the groups, the larger first; none where the drill wants no groups, or there is nobody.
    pub sizes: Vec<usize>,
    /// Passing (or serving) places that are filled.
    pub places: usize,
    pub feeders: usize,
    pub target: bool,
    pub getters: usize,
    /// Who is over: they come on at the next swap, or stand in line.
    pub resting: usize,
}

/// Fewer than two are no group.
const LEAST: usize = 2;

/// As many groups as are wanted, and fewer where there aren't a ball for each and two children in each; never less than one.
///
/// ```
/// use peppertally::domain::refit::group_sizes;
/// assert_eq!(group_sizes(3, 11, 8), [4, 4, 3]);
/// assert_eq!(group_sizes(4, 11, 2), [6, 5]);
/// ```
pub fn group_sizes(wanted: usize, n_children: usize, n_balls: usize) -> Vec<usize> {
    let n = wanted.min(n_balls).min(n_children / LEAST).max(1);
    sizes_by_number(n_children, n).unwrap_or_default()
}

/// The teams of a game, as it starts with them: one ball is enough, one child may be a side, and there are always two sides; one of them
/// has nobody where one child is here alone. None where nobody is.
fn team_sizes(wanted: usize, n_children: usize) -> Vec<usize> {
    let mut sizes = sizes_by_number(n_children, wanted.min(n_children)).unwrap_or_default();
    if sizes.len() == 1 {
        sizes.push(0);
    }
    sizes
}

/// Places are filled first, then who feeds, who catches, who fetches: with few children the last of these goes first.
pub fn refit(spec: &DrillSpec, n_children: usize, n_balls: usize) -> Fit {
    let sizes = match wanted(spec, n_children) {
        Some(n) if spec.rule.is_game() => team_sizes(n, n_children),
        Some(n) => group_sizes(n, n_children, n_balls),
        None => Vec::new(),
    };
    let n_places = match spec.board {
        Board::Floor { n_places } | Board::ServeFloor { n_places, .. } => usize::from(n_places),
        _ => 0,
    };
    let on_floor = roles::standing(spec);
    let mut left = n_children;
    let mut take = |wanted: usize| {
        let n = wanted.min(left);
        left -= n;
        n
    };
    let (places, feeders) = (take(n_places), take(usize::from(on_floor.n_feeders)));
    let (target, getters) = (take(usize::from(on_floor.target)) == 1, take(usize::from(on_floor.n_getters)));
    Fit { sizes, places, feeders, target, getters, resting: left }
}

/// How many groups a drill wants of so many children: its own number, or teams of so many a side.
pub fn wanted(spec: &DrillSpec, n_children: usize) -> Option<usize> {
    let teams = spec.rule.a_side().map(usize::from).map(|a_side| match spec.rule {
        super::rule::Rule::MatchGame(_) => 2,
        // To the nearest number of teams, and always two.
        _ => ((n_children + a_side / 2) / a_side.max(1)).max(2),
    });
    teams.or(spec.on_floor.groups.map(usize::from))
}
