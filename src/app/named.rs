//! The words that children are called by, and whether a text has one of them: what leaves this phone for others names nobody it needn't.

use crate::domain::ids::PlayerId;
use crate::domain::replay::base::{Base, Player};

/// Words of names, as they are compared and as they are written.
pub struct Named(Vec<(String, String)>);

/// Shorter words of a name are initials and particles, which any place may have.
const SHORTEST: usize = 3;

impl Named {
    /// Everyone of the squad, archived ones too, by every name under which it was entered.
    pub fn everyone(base: &Base) -> Named {
        Named(base.ever_entered().iter().flat_map(words_of_name).collect())
    }

    /// Everyone but this child. A word that it is called by itself is its own, whoever else has it.
    pub fn but(base: &Base, player: PlayerId) -> Named {
        let same = base.same();
        let is_own = |p: &Player| same.of(p.id) == same.of(player);
        let (own, others): (Vec<Player>, Vec<Player>) = base.ever_entered().into_iter().partition(is_own);
        let own: Vec<String> = own.iter().flat_map(|p| words_of(&p.name)).map(|(key, _)| key).collect();
        Named(others.iter().flat_map(words_of_name).filter(|(key, _)| !own.contains(key)).collect())
    }

    /// This child, by the words that no other child is called by.
    pub fn alone(base: &Base, player: PlayerId) -> Named {
        let (own, others): (Vec<Player>, Vec<Player>) = base.players().into_iter().partition(|p| p.id == player);
        let others: Vec<String> = others.iter().flat_map(|p| words_of(&p.name)).map(|(key, _)| key).collect();
        Named(own.iter().flat_map(words_of_name).filter(|(key, _)| !others.contains(key)).collect())
    }

    /// Whether a word of the text is one of them.
    pub fn stand_in(&self, text: &str) -> bool {
        !self.found_in(text).is_empty()
    }

    /// Those that stand in the text, each once, as the children are called.
    pub fn found_in(&self, text: &str) -> Vec<String> {
        let mut found: Vec<String> = Vec::new();
        for (key, _) in words_of(text) {
            let named = self.0.iter().find(|(known, _)| *known == key).map(|(_, name)| name);
            found.extend(named.filter(|name| !found.contains(name)).cloned());
        }
        found
    }
}

fn words_of_name(player: &Player) -> Vec<(String, String)> {
    let words = words_of(&player.name).into_iter().filter(|(key, _)| key.parse::<u32>().is_err());
    let (long, short): (Vec<_>, Vec<_>) = words.partition(|(key, _)| key.chars().count() >= SHORTEST);
    // A name that has nothing else is known by it.
    if long.is_empty() { short } else { long }
}

/// Words as they are compared, and as they are written.
pub fn words_of(text: &str) -> Vec<(String, String)> {
    let words = text.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
    words.map(|word| (word.to_lowercase(), word.to_owned())).collect()
}
