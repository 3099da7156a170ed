//! Teams of a game: who comes on for whom when a child comes or goes. The first two play, the others wait in order; in a match who
//! is over the number a side waits beside the court. Nobody is lost, nobody is in two teams.

use super::entry::Lineup;
use super::ids::PlayerId;
use super::rule::Rule;

impl Lineup {
    /// As `with_presence`, with the teams of a game kept fit to play.
    pub fn with_presence_in(&self, rule: &Rule, player: PlayerId, here: bool) -> Lineup {
        if here || !rule.is_game() {
            return self.with_presence(player, here);
        }
        let stood = self.groups.iter().enumerate().find_map(|(at, team)| Some((at, place_in(team, player)?)));
        let mut next = self.with_presence(player, false);
        let Some((team, place)) = stood else { return next };
        match *rule {
            Rule::MatchGame(rule) => comes_on(&mut next.groups[team], place, usize::from(rule.a_side)),
            _ => next.groups = without_empty(next.groups),
        }
        next.groups = both_sides(next.groups);
        next
    }
}

fn place_in(team: &[PlayerId], player: PlayerId) -> Option<usize> {
    team.iter().position(|other| *other == player)
}

/// Who waits beside the court comes on at the place of the one who left it, so that nobody else's place in the rotation changes.
fn comes_on(team: &mut Vec<PlayerId>, place: usize, a_side: usize) {
    // The one who left is gone from the list already: with a full side there is still a full side's worth of children in it.
    if place < a_side && team.len() >= a_side {
        let first_beside = team.remove(a_side - 1);
        team.insert(place, first_beside);
    }
}

/// A team that nobody is left of makes room: those behind it move up, onto the court too.
fn without_empty(groups: Vec<Vec<PlayerId>>) -> Vec<Vec<PlayerId>> {
    let mut teams: Vec<Vec<PlayerId>> = groups.into_iter().filter(|team| !team.is_empty()).collect();
    teams.resize(teams.len().max(2), Vec::new());
    teams
}

/// Where one side of the court has nobody and no team waits, half of the other side walks across.
fn both_sides(mut groups: Vec<Vec<PlayerId>>) -> Vec<Vec<PlayerId>> {
    if let [near, far] = groups.as_mut_slice()
        && near.is_empty() != far.is_empty()
    {
        let (full, empty) = if near.is_empty() { (far, near) } else { (near, far) };
        *empty = full.split_off(full.len().div_ceil(2));
    }
    groups
}

/// Whether these are the same team, though some may have come or some have gone: one holds the other, and is not twice as many.
pub fn is_same_team(a: &[PlayerId], b: &[PlayerId]) -> bool {
    let (few, many) = if a.len() <= b.len() { (a, b) } else { (b, a) };
    !few.is_empty() && 2 * few.len() >= many.len() && few.iter().all(|player| many.contains(player))
}
