//! What each child is called on screen. A name alone does while no other child has it; two who share one are told apart by the
//! shirt's number, else by a small sign in the order in which they were added. Pure: the squad in, names out. Changes no name.

use std::collections::{BTreeMap, BTreeSet};

use super::words;
use crate::domain::ids::{PlayerId, ShirtNumber};
use crate::domain::replay::base::Player;
use crate::domain::roster::name_key;

/// So much of a shared name stands before its sign: on a narrow key a longer one would be cut off with the sign.
const MOST_BEFORE_SIGN: usize = 12;

/// Of whom a name is asked: what the coach typed of the child.
#[derive(Clone, Copy, Debug)]
pub struct Child<'a> {
    pub name: &'a str,
    pub number: Option<ShirtNumber>,
    pub archived: bool,
}

/// What the children are called, kept beside the squad so that a tap asks for no more than a look.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Names(BTreeMap<PlayerId, String>);

impl Names {
    /// In the order in which they were added.
    pub fn of(squad: &[Player]) -> Names {
        let children: Vec<Child> = squad.iter().map(Child::from).collect();
        Names(squad.iter().map(|p| p.id).zip(told_apart(&children)).collect())
    }

    /// Where two share a name, the one who was typed in on this phone keeps it plain.
    pub fn with_own_first(squad: Vec<Player>, is_own: impl Fn(PlayerId) -> bool) -> Names {
        let (mut own, others): (Vec<Player>, Vec<Player>) = squad.into_iter().partition(|player| is_own(player.id));
        own.extend(others);
        Names::of(&own)
    }

    pub fn of_child(&self, player: PlayerId) -> Option<&str> {
        self.0.get(&player).map(String::as_str)
    }
}

impl<'a> From<&'a Player> for Child<'a> {
    fn from(p: &'a Player) -> Self {
        Child { name: &p.name, number: p.number, archived: p.archived }
    }
}

/// The names on screen, one for each child, no two of them the same to a reader.
///
/// A child who shares a name with nobody at practice is called by it. One who is archived gives way: whoever is at practice keeps
/// the plain name. The order of adding counts the archived too, so that nobody's sign changes when another leaves.
///
/// ```
/// use peppertally::app::names::{Child, told_apart};
/// use peppertally::domain::ids::ShirtNumber;
/// let child = |name, number: Option<u16>| Child { name, number: number.map(ShirtNumber), archived: false };
/// let squad = [child("Mira", Some(7)), child("Tove", None), child("mira", Some(9)), child("Tove", None)];
/// assert_eq!(told_apart(&squad), ["Mira 7", "Tove", "mira 9", "Tove II"]);
/// ```
pub fn told_apart(squad: &[Child]) -> Vec<String> {
    let keys: Vec<String> = squad.iter().map(|c| name_key(c.name)).collect();
    let shares = |i: usize| {
        let mut others = (0..squad.len()).filter(|j| *j != i && keys[*j] == keys[i]);
        // An archived one gives way to anybody, one at practice only to another at practice.
        others.any(|j| squad[i].archived || !squad[j].archived)
    };
    let shared: Vec<bool> = (0..squad.len()).map(shares).collect();
    let mut taken: BTreeSet<String> = BTreeSet::new();
    taken.extend((0..squad.len()).filter(|i| !shared[*i]).map(|i| keys[i].clone()));
    // How many of this name and number were added before, archived ones too.
    let mut n_before: BTreeMap<(&str, Option<ShirtNumber>), usize> = BTreeMap::new();
    let mut called = Vec::with_capacity(squad.len());
    for (i, child) in squad.iter().enumerate() {
        let n = n_before.entry((&keys[i], child.number)).or_default();
        let first = *n;
        *n += 1;
        if !shared[i] {
            called.push(child.name.to_owned());
            continue;
        }
        // Where the sign is another child's own name ("Mira 7"), the next one is taken.
        let free = (first..).map(|nth| signed(child, nth)).find(|name| taken.insert(name_key(name)));
        called.push(free.unwrap_or_else(|| child.name.to_owned()));
    }
    called
}

fn signed(child: &Child, nth: usize) -> String {
    let number = child.number.map(|n| n.0);
    // Without a sign there is none to be cut off.
    let plain = if number.is_none() && nth == 0 { child.name.to_owned() } else { short(child.name) };
    let name = words::called(&plain, number, nth);
    if child.archived { words::called_archived(&name) } else { name }
}

/// A long name up to its last space or letter that leaves room; never between a letter and its marks.
fn short(name: &str) -> String {
    if name.chars().count() <= MOST_BEFORE_SIGN {
        return name.to_owned();
    }
    let starts = || name.char_indices().take(MOST_BEFORE_SIGN).skip(1);
    let space = starts().filter(|(_, c)| *c == ' ').last();
    match space.or_else(|| starts().filter(|(_, c)| c.is_alphanumeric()).last()) {
        Some((at, _)) => format!("{}…", &name[..at]),
        None => name.to_owned(),
    }
}
