//! Keys of a keyboard, or of a small remote that is one, and what each stands for on a board. A key means one thing on any one
//! board; which keys a board has is the board's own matter.

use serde::{Deserialize, Serialize};

/// What a key can stand for: a key of a board, by its sense.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stands {
    Pass3,
    Pass2,
    Pass1,
    Pass0,
    ServeAce,
    ServeIn,
    ServeLong,
    ServeWide,
    ServeNet,
    Good,
    NotGood,
    NoChance,
    Effort,
    Swap,
    Undo,
}

/// Keys of which no two groups answer at once, so that one key of a remote may stand for one in each. A match that notes serves and
/// passes lays out both, and only those that are due answer. What all boards have is a group of its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Boards {
    Passing,
    Serving,
    TwoKeys,
    Every,
}

impl Boards {
    pub const ALL: [Boards; 4] = [Self::Passing, Self::Serving, Self::TwoKeys, Self::Every];

    pub const fn keys(self) -> &'static [Stands] {
        match self {
            Self::Passing => &[Stands::Pass3, Stands::Pass2, Stands::Pass1, Stands::Pass0],
            Self::Serving => {
                &[Stands::ServeAce, Stands::ServeIn, Stands::ServeLong, Stands::ServeWide, Stands::ServeNet]
            }
            Self::TwoKeys => &[Stands::Good, Stands::NotGood],
            Self::Every => &[Stands::NoChance, Stands::Effort, Stands::Swap, Stands::Undo],
        }
    }
}

impl Stands {
    /// The `data-key` of the board's key.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Pass3 => "pass-3",
            Self::Pass2 => "pass-2",
            Self::Pass1 => "pass-1",
            Self::Pass0 => "pass-0",
            Self::ServeAce => "serve-ace",
            Self::ServeIn => "serve-in",
            Self::ServeLong => "serve-long",
            Self::ServeWide => "serve-wide",
            Self::ServeNet => "serve-net",
            Self::Good => "good",
            Self::NotGood => "not-good",
            Self::NoChance => "no-chance",
            Self::Effort => "effort",
            Self::Swap => "swap",
            Self::Undo => "undo",
        }
    }

    /// The sense of a name that was kept. At first `pass-3` was kept as `pass3`.
    fn named(name: &str) -> Option<Stands> {
        let plain = |text: &str| text.replace('-', "");
        let all = Boards::ALL.iter().flat_map(|boards| boards.keys());
        all.copied().find(|stands| plain(stands.id()) == plain(name))
    }

    pub fn boards(self) -> Boards {
        Boards::ALL.into_iter().find(|boards| boards.keys().contains(&self)).unwrap_or(Boards::Every)
    }
}

/// The keys that were given a sense: the sense's name, and the name that the browser has for the key. A sense that this version
/// doesn't know is passed over and kept: another version of the app may have set it, and one word must not cost all settings.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Remote(Vec<(String, String)>);

/// With these one moves about on a page, or a press of them is only half of one.
const NEVER: [&str; 11] =
    ["Tab", "Escape", "Shift", "Control", "Alt", "AltGraph", "Meta", "Dead", "Process", "Unidentified", ""];

impl Remote {
    /// From now on this key stands for that, and for nothing else where both could be on one board. `false`: this key can't be had.
    pub fn give(&mut self, stands: Stands, name: &str) -> bool {
        let name = told(name);
        if NEVER.contains(&name.as_str()) || name.len() > 40 {
            return false;
        }
        let boards = stands.boards();
        let meet = |other: Boards| other == boards || other == Boards::Every || boards == Boards::Every;
        self.0.retain(|(other, key)| match Stands::named(other) {
            Some(other) => other != stands && (*key != name || !meet(other.boards())),
            // Nobody knows which boards it is on.
            None => *key != name,
        });
        self.0.push((stands.id().to_owned(), name));
        true
    }

    pub fn free(&mut self, stands: Stands) {
        self.0.retain(|(other, _)| Stands::named(other) != Some(stands));
    }

    pub fn key_of(&self, stands: Stands) -> Option<&str> {
        self.0.iter().find(|(other, _)| Stands::named(other) == Some(stands)).map(|(_, key)| key.as_str())
    }

    /// What this key stands for: at most one thing on any board.
    pub fn senses(&self, name: &str) -> impl Iterator<Item = Stands> {
        let name = told(name);
        self.0.iter().filter(move |(_, key)| *key == name).filter_map(|(stands, _)| Stands::named(stands))
    }
}

/// A letter is the same key with and without capitals.
fn told(name: &str) -> String {
    if name.chars().count() == 1 { name.to_lowercase() } else { name.to_owned() }
}
