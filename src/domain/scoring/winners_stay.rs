//! Winners stay: small-sided games. The side that wins has the winners' side, the next team comes on against it, the losers join the
//! line. Points follow the children, since teams change.

use std::collections::BTreeMap;

use super::court::{CourtShares, anchored};
use super::{Ball, Over, ScoringRule, Standing, Who};
use crate::domain::entry::{Lineup, Rally, Side};
use crate::domain::ids::PlayerId;
use crate::domain::rule::{Serves, WinnersStay};
use crate::domain::teams::is_same_team;

#[derive(Clone, Debug, PartialEq)]
pub struct CourtScore {
    rule: WinnersStay,
    pub shares: CourtShares,
    points: BTreeMap<PlayerId, u32>,
    /// Rallies won in the game that is on, by the winners' side and the challengers.
    game: (u32, u32),
    /// Who plays it.
    playing: Option<(Vec<PlayerId>, Vec<PlayerId>)>,
    /// Games won in a row, and by whom: a team that has come on since has won nothing yet.
    streak: u32,
    holders: Vec<PlayerId>,
    /// What the last rally decided.
    decided: Option<Decided>,
    last_won: Option<Side>,
    pub n_games: u32,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Decided {
    won: Side,
    /// They have won so many in a row that they join the line too.
    off: bool,
}

impl CourtScore {
    pub fn new(rule: WinnersStay) -> Self {
        CourtScore {
            rule,
            shares: CourtShares::default(),
            points: BTreeMap::new(),
            game: (0, 0),
            playing: None,
            streak: 0,
            holders: Vec::new(),
            decided: None,
            last_won: None,
            n_games: 0,
        }
    }

    /// The side that serves next.
    pub fn serves_next(&self) -> Side {
        match self.rule.serves {
            Serves::Challengers => Side::Far,
            Serves::WinnersSide => Side::Near,
            Serves::LastWinner => match (self.decided, self.last_won) {
                // Winners who stay, or have walked across, stand on the winners' side; those who went off let the next ones serve.
                (Some(Decided { off, .. }), _) => {
                    if off {
                        Side::Far
                    } else {
                        Side::Near
                    }
                }
                (None, won) => won.unwrap_or(Side::Far),
            },
        }
    }

    /// A game is more than one rally.
    pub fn is_short_game(&self) -> bool {
        self.rule.to > 1
    }

    /// Rallies won in the game that is on: the winners' side, the challengers.
    pub fn game(&self) -> (u32, u32) {
        self.game
    }

    /// Games that this team has won in a row.
    pub fn streak_of(&self, team: &[PlayerId]) -> u32 {
        if is_same_team(&self.holders, team) { self.streak } else { 0 }
    }

    fn play(&mut self, rally: &Rally) {
        // One who came or left goes on with the game; other teams begin a new one.
        let goes_on = self
            .playing
            .as_ref()
            .is_some_and(|(near, far)| is_same_team(near, &rally.near) && is_same_team(far, &rally.far));
        if !goes_on {
            self.game = (0, 0);
        }
        self.playing = Some((rally.near.clone(), rally.far.clone()));
        let points = match rally.won {
            Side::Near => &mut self.game.0,
            Side::Far => &mut self.game.1,
        };
        *points += 1;
        self.last_won = Some(rally.won);
        self.decided = None;
        if *points < u32::from(self.rule.to) {
            return;
        }
        self.game = (0, 0);
        self.playing = None;
        self.n_games += 1;
        let team = rally.team(rally.won);
        self.shares.note_won(team);
        if rally.won == Side::Near || !self.rule.near_only {
            for player in team {
                *self.points.entry(*player).or_default() += 1;
            }
        }
        self.streak = self.streak_of(team) + 1;
        self.holders = team.to_vec();
        let off = self.rule.off_after.is_some_and(|n| self.streak >= u32::from(n));
        if off {
            self.streak = 0;
        }
        self.decided = Some(Decided { won: rally.won, off });
    }
}

impl ScoringRule for CourtScore {
    fn note(&mut self, ball: Ball<'_>) {
        let Ball::Rally { rally, lineup, lasted_ms } = ball else { return };
        self.shares.note(rally, lineup, lasted_ms);
        self.play(rally);
    }

    /// Everyone's: games played.
    fn standing(&self, who: Who) -> Standing {
        let now = match who {
            Who::Child(player) => self.points.get(&player).copied().unwrap_or(0),
            Who::Everyone => self.n_games,
            Who::Group(_) => 0,
        };
        Standing { now, best: now, ..Standing::default() }
    }

    /// The coach ends it.
    fn over(&self, _: u32) -> Option<Over> {
        None
    }

    fn after_rally(&self, lineup: &Lineup, rally: &Rally) -> Lineup {
        let mut groups = anchored(&lineup.groups, rally);
        if let Some(Decided { won, off }) = self.decided.filter(|_| groups.len() >= 2) {
            let far = groups.remove(1);
            let near = groups.remove(0);
            let (winners, losers) = match won {
                Side::Near => (near, far),
                Side::Far => (far, near),
            };
            groups.push(losers);
            if off {
                groups.push(winners);
            } else {
                groups.insert(0, winners);
            }
        }
        Lineup { groups, ..lineup.clone() }
    }
}
