//! Groups: what is tapped, what stands, and why groups can't be made. Strengths never leave `question`.

mod again;
mod question;

pub use again::{Again, again};
pub use question::{Question, question};

use super::model::Model;
use super::settings::{How, Settings};
use crate::domain::entry::Wishes;
use crate::domain::ids::PlayerId;
use crate::domain::together::Groups;
use crate::stats::split::Sizes;

/// What is tapped on the screen of groups.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum GroupsTap {
    How(How),
    /// Counted by their size, else by their number.
    BySize(bool),
    /// One more, one less.
    Stepped(bool),
    BallsStepped(bool),
    Made,
    Before,
    /// A child: the first of two who are exchanged, or one of a wish that is being put together.
    Name(PlayerId),
    /// The child tapped before comes into this group.
    Into(usize),
    WishOpened(Option<WishKind>),
    WishKept,
    WishDropped(WishNo),
    TagTyped(String),
    InThisDrill,
    Refit,
    /// As many groups, or children in one, as there can be.
    AsMany,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WishKind {
    Together,
    Apart,
    Tag,
}

/// One wish, by its place among all.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WishNo {
    Together(usize),
    Apart(usize),
    Tag,
    /// All of them.
    All,
}

/// Why groups can't be made as they are asked for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Trouble {
    Nobody,
    One(PlayerId),
    TooMany,
    /// So many groups of so many children.
    Number {
        n: usize,
        here: usize,
    },
    Size {
        size: usize,
        here: usize,
    },
    TogetherAndApart {
        a: PlayerId,
        b: PlayerId,
        directly: bool,
        drop: WishNo,
    },
    TooLarge {
        who: Vec<PlayerId>,
        most: usize,
        drop: WishNo,
    },
    Tagged {
        who: Vec<PlayerId>,
        drop: WishNo,
    },
    TooManyApart {
        who: Vec<PlayerId>,
        n: usize,
        drop: WishNo,
    },
    /// None of them alone; without this one they can be met, if there is such a one.
    NoWay(WishNo),
    GaveUp,
}

/// How groups are counted, as the coach chose it last.
pub fn sizes(settings: &Settings) -> Sizes {
    let n = usize::from(settings.groups_n);
    if settings.groups_by_size { Sizes::Size(n) } else { Sizes::Number(n) }
}

/// Groups as they were made last; before practice has started, as they were made for it; at a station of another phone's practice, as they
/// were made here.
pub fn made(model: &Model) -> Groups {
    let on = model.practice_today();
    if let Some(practice) = on.as_ref().filter(|practice| model.leads(practice.id)) {
        return practice.groups.clone();
    }
    let made = model.drafts.groups.made.clone().filter(|(day, _)| *day == model.now.day()).map(|(_, groups)| groups);
    made.unwrap_or_else(|| on.map(|practice| practice.groups).unwrap_or_default())
}

/// Groups as they stand: without those who are away, and with whoever came since in the smallest. A child stands in one alone.
pub fn standing(model: &Model) -> Groups {
    fitted(&made(model), &model.here(), &model.base.wishes())
}

pub fn fitted(made: &Groups, here: &[PlayerId], wishes: &Wishes) -> Groups {
    if made.is_empty() {
        return Groups::new();
    }
    let mut placed: Vec<PlayerId> = Vec::new();
    let mut groups: Groups = Vec::new();
    for group in made {
        let mut kept = Vec::new();
        for player in group.iter().filter(|p| here.contains(p)) {
            if !placed.contains(player) {
                placed.push(*player);
                kept.push(*player);
            }
        }
        groups.push(kept);
    }
    for player in here.iter().filter(|p| !placed.contains(p)) {
        let clashes = |group: &[PlayerId]| {
            wishes.apart.iter().any(|[a, b]| (a == player && group.contains(b)) || (b == player && group.contains(a)))
        };
        let smallest = groups.iter().map(Vec::len).min();
        let fits = |group: &Vec<PlayerId>| Some(group.len()) == smallest;
        let at = groups.iter().rposition(|g| fits(g) && !clashes(g)).or_else(|| groups.iter().rposition(fits));
        if let Some(at) = at {
            groups[at].push(*player);
        }
    }
    groups.retain(|group| !group.is_empty());
    groups
}
