//! The words that children are called by, and whether a text has one of them: what leaves this phone for others names nobody it needn't.

use crate::domain::entry::{Entry, Fact};
use crate::domain::ids::{NoteId, PlayerId};
use crate::domain::notes::Note;
use crate::domain::replay::base::{Base, Player};

/// Words of names, as they are compared and as they are written.
pub struct Named(Vec<(String, String)>);

/// Shorter words of a name are initials and particles, which any place may have.
const SHORTEST: usize = 3;

impl Named {
    /// Everyone of the squad, archived ones too, by every name under which it was entered.
    pub fn everyone(base: &Base) -> Named {
        Named(base.ever_entered().iter().flat_map(|p| words_of_name(&p.name)).collect())
    }

    /// Everyone but this child. A word that it is called by itself is its own, whoever else has it.
    pub fn but(base: &Base, player: PlayerId) -> Named {
        let same = base.same();
        let is_own = |p: &Player| same.of(p.id) == same.of(player);
        let (own, others): (Vec<Player>, Vec<Player>) = base.ever_entered().into_iter().partition(is_own);
        let own: Vec<String> = own.iter().flat_map(|p| words_of(&p.name)).map(|(key, _)| key).collect();
        Named(others.iter().flat_map(|p| words_of_name(&p.name)).filter(|(key, _)| !own.contains(key)).collect())
    }

    /// These, under whichever of their identities, by the words that nobody else is called by. `once`: what they were called before.
    pub fn alone(base: &Base, once: &[String], is_it: &dyn Fn(PlayerId) -> bool) -> Named {
        let (own, others): (Vec<Player>, Vec<Player>) = base.ever_entered().into_iter().partition(|p| is_it(p.id));
        let others: Vec<String> = others.iter().flat_map(|p| words_of(&p.name)).map(|(key, _)| key).collect();
        let names = own.iter().map(|player| &player.name).chain(once);
        Named(names.flat_map(|name| words_of_name(name)).filter(|(key, _)| !others.contains(key)).collect())
    }

    /// As [`Named::keys`] gave them.
    pub fn of_keys(keys: &[String]) -> Named {
        Named(keys.iter().map(|key| (key.clone(), key.clone())).collect())
    }

    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// The words as they are compared.
    pub fn keys(&self) -> impl Iterator<Item = &String> {
        self.0.iter().map(|(key, _)| key)
    }

    /// Whether a word of the text is one of them.
    pub fn stand_in(&self, text: &str) -> bool {
        !self.is_empty() && !self.found_in(text).is_empty()
    }

    /// Its tags are the coach's own words too.
    pub fn stand_in_note(&self, note: &Note) -> bool {
        self.stand_in(&note.text) || note.tags.iter().any(|tag| self.stand_in(tag))
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

/// Whether anybody here is called by this word, as it is compared.
pub fn is_called(base: &Base, word: &str) -> bool {
    base.ever_entered().iter().any(|player| words_of(&player.name).iter().any(|(key, _)| key == word))
}

/// What an entry says that a child is called.
pub fn name_in(entry: &Entry) -> Option<(PlayerId, &String)> {
    match &entry.fact {
        Fact::PlayerAdded { name, .. } => Some((PlayerId(entry.id), name)),
        Fact::PlayerChanged { player, name, .. } => Some((*player, name)),
        _ => None,
    }
}

/// What an entry says of a note, as it was then.
pub fn note_in(entry: &Entry) -> Option<(NoteId, &Note)> {
    match &entry.fact {
        Fact::NoteWritten { note, .. } => Some((NoteId(entry.id), note)),
        Fact::NoteChanged { note, changed, .. } => Some((*note, changed)),
        _ => None,
    }
}

fn words_of_name(name: &str) -> Vec<(String, String)> {
    let words = words_of(name).into_iter().filter(|(key, _)| key.parse::<u32>().is_err());
    let (long, short): (Vec<_>, Vec<_>) = words.partition(|(key, _)| key.chars().count() >= SHORTEST);
    // A name that has nothing else is known by it.
    if long.is_empty() { short } else { long }
}

/// Words as they are compared, and as they are written.
pub fn words_of(text: &str) -> Vec<(String, String)> {
    let words = text.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
    words.map(|word| (word.to_lowercase(), word.to_owned())).collect()
}
