//! Who has which role next, so that since joining everyone has each role, and rests, equally often. Owns no ball and no clock:
//! when a turn is over is somebody else's.
//!
//! What holds, and how far (`tests/properties/turns.rs`):
//! - Everybody here is in exactly one slot or rests. Slots stay empty only where there are fewer children than slots, the last first.
//! - A group that stays together: after every turn, in each role and in resting, any two differ by at most one. Checked for every
//!   group of 3 to 20 and every way to split 1 to 8 slots into roles, over two full rounds. What is owed is nothing after each round,
//!   and the choice goes by nothing else but what each did last and the order of the last turn, so the next round is the same under
//!   other names, and it holds for ever.
//! - When children come, or leave for good: exactly one for every pair isn't kept. Counting for each pair the turns both played,
//!   at most two: seen in 0.14 % of 232 million pairs and roles of random practices, never three.
//! - When children also return: two in one or two of a hundred, three in a few of 100,000. Nobody can keep any bound for pairs here: whoever is
//!   away each time it would be its turn has had nothing of it.
//! - A newcomer begins at the level of the group: it gets nothing to make up and nothing held back. A child who comes back goes on
//!   where it stopped.
//! - Places are roles of their own and yet alike: where it costs no role its evenness, whoever has stood in fewest places comes first. For 4 to
//!   20 children, 2 to 4 places and up to 3 roles beside, any two differ by at most two over two rounds, not by four.
//! - Where at most half rest, of a hundred who rest two have rested the turn before; keeping the counts even comes first.

mod cheapest;
mod even;

use self::even::{Spots, Standing, WHOLE, share};
use super::ids::PlayerId;
use crate::stats::arrange::arranged;

/// A place in the drill to be filled. Equal slots are one role: two ball-getters are one role with two slots, left and right passer
/// are two roles.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Slot(pub u8);

impl Slot {
    /// From here on roles beside the places. Places are roles of their own and yet alike: whoever has stood in fewer of them comes first
    /// where their roles cost the same.
    pub const BESIDE: u8 = 100;
}

/// What a child does in a turn: a slot's role, or `None` for resting.
pub type Doing = Option<Slot>;

/// One turn: who has which slot, and who rests.
#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub struct Assignment {
    pub slots: Vec<(Slot, Option<PlayerId>)>,
    pub resting: Vec<PlayerId>,
}

impl Assignment {
    /// Everyone in it with what they do; a child set twice by hand counts where it stands first.
    fn doings(&self) -> Vec<(PlayerId, Doing)> {
        let in_slots = self.slots.iter().filter_map(|(slot, player)| player.map(|p| (p, Some(*slot))));
        let mut doings: Vec<(PlayerId, Doing)> = Vec::new();
        for (player, doing) in in_slots.chain(self.resting.iter().map(|p| (*p, None))) {
            if doings.iter().all(|(known, _)| *known != player) {
                doings.push((player, doing));
            }
        }
        doings
    }
}

/// What is remembered of every child that took part in a turn, whether it is still here or not. Its order is that of the last turn,
/// roles with most slots first, then who rested, then who was away.
#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub struct History {
    children: Vec<Child>,
}

#[derive(Clone, Debug, PartialEq, Eq)]
struct Child {
    player: PlayerId,
    accounts: Vec<Account>,
    last: Doing,
}

/// One child in one role.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Account {
    doing: Doing,
    had: u32,
    /// Its share of the turns it was here for, less what it had, in parts of `WHOLE`; plus the level it began at.
    owed: i64,
}

impl Child {
    fn owed(&self, doing: Doing) -> i64 {
        self.accounts.iter().find(|a| a.doing == doing).map_or(0, |a| a.owed)
    }

    fn account(&mut self, doing: Doing) -> &mut Account {
        let at = self.accounts.iter().position(|a| a.doing == doing).unwrap_or(self.accounts.len());
        if at == self.accounts.len() {
            self.accounts.push(Account { doing, had: 0, owed: 0 });
        }
        &mut self.accounts[at]
    }
}

impl History {
    /// A turn that was played, as proposed or as set by hand. Who isn't in it was away; who is in it for the first time has joined.
    pub fn note(&mut self, turn: &Assignment) {
        let doings = turn.doings();
        let here: Vec<PlayerId> = doings.iter().map(|(player, _)| *player).collect();
        let mut known: Vec<Doing> = roles(doings.iter().map(|(_, doing)| *doing));
        for account in self.children.iter().flat_map(|c| &c.accounts) {
            if !known.contains(&account.doing) {
                known.push(account.doing);
            }
        }
        let levels: Vec<i64> = known.iter().map(|doing| self.level(&here, *doing)).collect();
        let mut order = Vec::with_capacity(self.children.len());
        for role in roles(doings.iter().map(|(_, doing)| *doing)) {
            for (player, _) in doings.iter().filter(|(_, doing)| *doing == role) {
                let at = self.children.iter().position(|c| c.player == *player);
                order.push(match at {
                    Some(at) => self.children.remove(at),
                    None => {
                        let begin = known.iter().zip(&levels).map(|(doing, owed)| Account {
                            doing: *doing,
                            had: 0,
                            owed: *owed,
                        });
                        Child { player: *player, accounts: begin.collect(), last: None }
                    }
                });
            }
        }
        for child in &mut order {
            for role in roles(doings.iter().map(|(_, doing)| *doing)) {
                let n_spots = doings.iter().filter(|(_, doing)| *doing == role).count();
                child.account(role).owed += share(n_spots, here.len());
            }
            if let Some((_, doing)) = doings.iter().find(|(player, _)| *player == child.player) {
                let account = child.account(*doing);
                account.had += 1;
                account.owed -= WHOLE;
                child.last = *doing;
            }
        }
        order.append(&mut self.children);
        self.children = order;
    }

    /// How often a child has had a role, or rested, since it joined.
    pub fn had(&self, player: PlayerId, doing: Doing) -> u32 {
        let account = self.child(player).and_then(|c| c.accounts.iter().find(|a| a.doing == doing));
        account.map_or(0, |a| a.had)
    }

    /// What those here who are known are owed on average: where a newcomer begins.
    fn level(&self, here: &[PlayerId], doing: Doing) -> i64 {
        let known: Vec<i64> = here.iter().filter_map(|p| self.child(*p)).map(|c| c.owed(doing)).collect();
        if known.is_empty() { 0 } else { known.iter().sum::<i64>() / known.len() as i64 }
    }

    fn child(&self, player: PlayerId) -> Option<&Child> {
        self.children.iter().find(|c| c.player == player)
    }
}

/// The next turn. The first one fills the slots in the order of `here`; then what each is owed decides, and where that is equal,
/// nobody does the same twice running. The same history and the same children in the same order give the same answer.
pub fn next(slots: &[Slot], here: &[PlayerId], history: &History) -> Assignment {
    let mut children: Vec<PlayerId> = history.children.iter().map(|c| c.player).filter(|p| here.contains(p)).collect();
    let n_known = children.len();
    for player in here {
        if !children.contains(player) {
            children.push(*player);
        }
    }
    let n_filled = slots.len().min(children.len());
    let doings = slots[..n_filled].iter().copied().map(Some).chain(vec![None; children.len() - n_filled]);
    let doings: Vec<Doing> = doings.collect();
    let chosen = if n_known == 0 { doings.clone() } else { chosen(&doings, &children, history) };

    let mut left: Vec<(PlayerId, Doing)> = children.into_iter().zip(chosen).collect();
    let mut take = |doing: Doing| left.iter().position(|(_, d)| *d == doing).map(|at| left.remove(at).0);
    let filled: Vec<(Slot, Option<PlayerId>)> = slots
        .iter()
        .enumerate()
        .map(|(at, slot)| (*slot, if at < n_filled { take(Some(*slot)) } else { None }))
        .collect();
    Assignment { slots: filled, resting: left.into_iter().map(|(player, _)| player).collect() }
}

/// What each child does, where there are as many doings as children.
fn chosen(doings: &[Doing], children: &[PlayerId], history: &History) -> Vec<Doing> {
    let roles = roles(doings.iter().copied());
    let sizes: Vec<usize> = roles.iter().map(|role| doings.iter().filter(|d| *d == role).count()).collect();
    let levels: Vec<i64> = roles.iter().map(|role| history.level(children, *role)).collect();
    let places = roles.iter().map(|role| role.is_some_and(|slot| slot.0 < Slot::BESIDE)).collect();
    let known = |player: &PlayerId| history.child(*player);
    let owed = |player: &PlayerId| match known(player) {
        Some(child) => roles.iter().zip(&levels).map(|(role, level)| child.owed(*role) - level).collect(),
        None => vec![0; roles.len()],
    };
    let last = |player: &PlayerId| known(player).and_then(|child| roles.iter().position(|role| *role == child.last));
    let standing = Standing { owed: children.iter().map(owed).collect(), last: children.iter().map(last).collect() };
    Spots::new(&sizes, places).choose(&standing).into_iter().map(|role| roles[role]).collect()
}

/// Each role once: those with most slots first, equal ones as they came, resting last.
fn roles(doings: impl Iterator<Item = Doing>) -> Vec<Doing> {
    let mut counted: Vec<(Doing, usize)> = Vec::new();
    for doing in doings {
        match counted.iter_mut().find(|(known, _)| *known == doing) {
            Some((_, n)) => *n += 1,
            None => counted.push((doing, 1)),
        }
    }
    let by_size = |a: &(Doing, usize), b: &(Doing, usize)| a.0.is_none().cmp(&b.0.is_none()).then(b.1.cmp(&a.1));
    arranged(counted, by_size).into_iter().map(|(doing, _)| doing).collect()
}
