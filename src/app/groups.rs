//! Groups: what the model knows as a question to `stats::split`, and the answer in children. Strengths never leave this module.

use super::model::Model;
use super::settings::{How, Settings};
use crate::domain::entry::Wishes;
use crate::domain::ids::PlayerId;
use crate::domain::skill::Skill;
use crate::domain::summary::{Count, Counts};
use crate::domain::together::{self, Groups};
use crate::stats::split::{self, Asked, Fault, Met, SizeFault, Sizes, Wish};

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

/// What is asked: children by index, and where each wish came from.
pub struct Question {
    here: Vec<PlayerId>,
    asked: Asked,
    together: Vec<usize>,
    apart: Vec<usize>,
}

/// How groups are counted, as the coach chose it last.
pub fn sizes(settings: &Settings) -> Sizes {
    let n = usize::from(settings.groups_n);
    if settings.groups_by_size { Sizes::Size(n) } else { Sizes::Number(n) }
}

/// Groups as they were made last; before practice has started, as they were made for it.
pub fn made(model: &Model) -> Groups {
    match model.practice_today() {
        Some(practice) => practice.groups,
        None => model
            .drafts
            .groups
            .made
            .clone()
            .filter(|(day, _)| *day == model.now.day())
            .map(|(_, g)| g)
            .unwrap_or_default(),
    }
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

/// Rounds of this practice in order, and those of earlier ones as far as they are in memory, the latest practice last.
fn rounds(model: &Model) -> (Vec<Groups>, Vec<Vec<Groups>>) {
    let entries = || model.own.iter().chain(model.theirs.iter());
    let today = model.practice_today();
    let mut earlier = Vec::new();
    for practice in model.base.practices().iter().rev() {
        if today.as_ref().is_some_and(|p| p.id == practice.id) || model.packed.contains_key(&practice.id) {
            continue;
        }
        earlier.push((practice.started.wall_ms, together::rounds(practice, entries())));
    }
    let packed = model.packed.values().map(|p| (p.summary.started.wall_ms, p.summary.rounds.clone()));
    earlier.extend(packed);
    earlier.retain(|(_, rounds)| !rounds.is_empty());
    let earlier = crate::stats::arrange::arranged(earlier, |(a, _), (b, _)| a.cmp(b));
    let today = today.map(|practice| together::rounds(&practice, entries())).unwrap_or_default();
    (today, earlier.into_iter().map(|(_, rounds)| rounds).collect())
}

/// How often pairs were together weighs more in this practice than in those before.
const TODAY: usize = 4;

pub fn question(model: &Model, here: &[PlayerId], sizes: Sizes) -> Question {
    let at = |player: &PlayerId| here.iter().position(|p| p == player);
    let wishes = model.base.wishes();
    let mut together = Vec::new();
    let mut from_together = Vec::new();
    for (no, set) in wishes.together.iter().enumerate() {
        let mut items: Vec<usize> = Vec::new();
        for item in set.iter().filter_map(at) {
            if !items.contains(&item) {
                items.push(item);
            }
        }
        if items.len() > 1 {
            together.push(items);
            from_together.push(no);
        }
    }
    let mut apart = Vec::new();
    let mut from_apart = Vec::new();
    for (no, [a, b]) in wishes.apart.iter().enumerate() {
        if let (Some(a), Some(b)) = (at(a), at(b))
            && a != b
        {
            apart.push((a, b));
            from_apart.push(no);
        }
    }
    let mut tagged: Vec<usize> = Vec::new();
    for item in wishes.tagged.iter().filter_map(at) {
        if !tagged.contains(&item) {
            tagged.push(item);
        }
    }
    let mut met = Met::nobody(here.len());
    let (today, earlier) = rounds(model);
    let practices = earlier.iter().map(|rounds| (rounds, 1)).chain([(&today, TODAY)]);
    for (rounds, weight) in practices {
        for (a, b) in together::pairs(rounds) {
            if let (Some(a), Some(b)) = (at(&a), at(&b)) {
                (0..weight).for_each(|_| met.note(a, b));
            }
        }
    }
    let asked = Asked { strengths: strengths(model, here), sizes, together, apart, tagged, met };
    Question { here: here.to_vec(), asked, together: from_together, apart: from_apart }
}

impl Question {
    /// The same without any wish: for a drill that must start whatever is wished.
    pub fn without_wishes(mut self) -> Question {
        self.asked.together.clear();
        self.asked.apart.clear();
        self.asked.tagged.clear();
        self
    }

    /// Even, or mixed as this seed says.
    pub fn answer(&self, even: bool, seed: u64) -> Result<Groups, Trouble> {
        if let [one] = self.here[..] {
            return Err(Trouble::One(one));
        }
        let split = if even { split::even(&self.asked) } else { split::random(&self.asked, seed) };
        let split = split.map_err(|fault| self.trouble(fault))?;
        Ok(split.groups.iter().map(|group| self.players(group)).collect())
    }

    fn players(&self, items: &[usize]) -> Vec<PlayerId> {
        items.iter().filter_map(|item| self.here.get(*item)).copied().collect()
    }

    fn trouble(&self, fault: Fault) -> Trouble {
        let here = self.here.len();
        let n = match self.asked.sizes {
            Sizes::Number(n) | Sizes::Size(n) | Sizes::Free(n) => n,
        };
        let last_set = |who: &[usize]| {
            let holds = |set: &Vec<usize>| set.iter().any(|item| who.contains(item));
            self.together_no(self.asked.together.iter().rposition(holds))
        };
        match fault {
            Fault::Sizes(SizeFault::Nobody) => Trouble::Nobody,
            Fault::Sizes(SizeFault::NoGroups | SizeFault::MoreGroupsThanItems) => Trouble::Number { n, here },
            Fault::Sizes(SizeFault::SizeZero | SizeFault::SizeAboveItems) => Trouble::Size { size: n, here },
            Fault::TooMany => Trouble::TooMany,
            Fault::ApartAndTogether(a, b) => Trouble::TogetherAndApart {
                a: self.here[a],
                b: self.here[b],
                directly: self.asked.together.iter().any(|set| set.contains(&a) && set.contains(&b)),
                drop: self.apart_no(self.asked.apart.iter().position(|pair| *pair == (a, b))),
            },
            Fault::TogetherTooLarge(who) => {
                let most = self.sizes().first().copied().unwrap_or(0);
                Trouble::TooLarge { drop: last_set(&who), who: self.players(&who), most }
            }
            Fault::TagsTogether(who) => Trouble::Tagged { drop: last_set(&who), who: self.players(&who) },
            Fault::TooManyApart(who) => {
                let among = |&(a, b): &(usize, usize)| who.contains(&a) && who.contains(&b);
                let drop = self.apart_no(self.asked.apart.iter().rposition(among));
                Trouble::TooManyApart { who: self.players(&who), n: self.sizes().len(), drop }
            }
            Fault::NoWay(wishes) => Trouble::NoWay(match wishes.first() {
                Some(Wish::Together(no)) => self.together_no(Some(*no)),
                Some(Wish::Apart(no)) => self.apart_no(Some(*no)),
                Some(Wish::Tagged) => WishNo::Tag,
                None => WishNo::All,
            }),
            Fault::GaveUp => Trouble::GaveUp,
            // The question asks for nobody who isn't here, nor twice: should it be so all the same, the way out is the same.
            Fault::Met | Fault::Unknown(_) | Fault::Doubled(_) => Trouble::NoWay(WishNo::All),
        }
    }

    fn sizes(&self) -> Vec<usize> {
        let n = self.here.len();
        match self.asked.sizes {
            Sizes::Size(size) => split::sizes_by_size(n, size),
            Sizes::Number(k) | Sizes::Free(k) => split::sizes_by_number(n, k),
        }
        .unwrap_or_default()
    }

    fn together_no(&self, at: Option<usize>) -> WishNo {
        at.and_then(|at| self.together.get(at)).map_or(WishNo::All, |no| WishNo::Together(*no))
    }

    fn apart_no(&self, at: Option<usize>) -> WishNo {
        at.and_then(|at| self.apart.get(at)).map_or(WishNo::All, |no| WishNo::Apart(*no))
    }
}

/// So many balls of the squad's mean are added to what a child has: with few balls nobody is called strong or weak.
const PRIOR: u64 = 10;

/// Hundredths of good ones, drawn towards the squad's mean; of the skill of the run that is on, else of all. Never shown.
fn strengths(model: &Model, here: &[PlayerId]) -> Vec<u32> {
    let skill = model.run_on().map(|run| run.spec.skill.clone());
    let counts: Vec<Count> = here.iter().map(|player| recorded(model, *player, skill.as_ref())).collect();
    let all: Count = counts.iter().copied().sum();
    let (good, tries) = (u64::from(all.good()), u64::from(all.tries()));
    counts
        .iter()
        .map(|count| {
            if tries == 0 {
                return 50;
            }
            let above = u64::from(count.good()) * tries + PRIOR * good;
            let below = (u64::from(count.tries()) + PRIOR) * tries;
            u32::try_from((100 * above + below / 2) / below).unwrap_or(100)
        })
        .collect()
}

fn recorded(model: &Model, player: PlayerId, skill: Option<&Skill>) -> Count {
    let wanted = |of: &Skill| skill.is_none_or(|skill| skill == of);
    let of = |counts: &Counts| counts.easy + counts.challenge + counts.told;
    let in_memory =
        model.runs.values().filter(|run| !model.packed.contains_key(&run.practice) && wanted(&run.spec.skill));
    let in_memory = in_memory.filter_map(|run| run.main.by_child.get(&player)).map(|tally| of(&Counts::of(tally)));
    let packed = model.packed.values().flat_map(|p| &p.summary.runs).filter(|run| wanted(&run.skill));
    let packed = packed.flat_map(|run| &run.children).filter(|(p, _)| *p == player).map(|(_, counts)| of(counts));
    in_memory.chain(packed).sum()
}

/// Who is with the same again, as far as that can be known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Again {
    /// Pairs who were together before.
    pub n: usize,
    /// So many can't be helped, whatever groups are made.
    pub at_least: usize,
    /// Before in this practice; else in the last one with groups.
    pub today: bool,
}

/// `None` where there were no groups before.
pub fn again(model: &Model, groups: &Groups) -> Option<Again> {
    let (mut today, mut earlier) = rounds(model);
    while today.last().is_some_and(|last| is_same(last, groups)) {
        today.pop();
    }
    let is_today = !today.is_empty();
    let before = if is_today { today } else { earlier.pop()? };
    let here: Vec<PlayerId> = groups.concat();
    let index = |p: &PlayerId| here.iter().position(|q| q == p);
    let mut met = Met::nobody(here.len());
    for (a, b) in together::pairs(&before) {
        if let (Some(a), Some(b)) = (index(&a), index(&b)) {
            met.note(a, b);
        }
    }
    let by_index: Vec<Vec<usize>> = groups.iter().map(|g| g.iter().filter_map(index).collect()).collect();
    let sizes: Vec<usize> = groups.iter().map(Vec::len).collect();
    // A round that everyone here was in: who comes from how few of its groups.
    let whole = |round: &&Groups| here.iter().all(|p| round.iter().any(|g| g.contains(p)));
    let by_round = before.iter().filter(whole).map(|round| together::fewest_again(&sizes, round.len())).max();
    let n = here.len();
    let all = n * n.saturating_sub(1) / 2;
    let n_met = (0..n).map(|a| (0..a).filter(|b| met.times(a, *b) > 0).count()).sum::<usize>();
    let needed: usize = sizes.iter().map(|s| s * s.saturating_sub(1) / 2).sum();
    let by_pairs = (needed + n_met).saturating_sub(all);
    let repeats = usize::try_from(met.repeats(&by_index)).unwrap_or(usize::MAX);
    Some(Again { n: repeats, at_least: by_round.unwrap_or(0).max(by_pairs), today: is_today })
}

/// The same groups but for who came or went.
fn is_same(one: &Groups, other: &Groups) -> bool {
    let group_in = |groups: &Groups, p: &PlayerId| groups.iter().position(|g| g.contains(p));
    let both: Vec<(usize, usize)> =
        one.iter().flatten().filter_map(|p| Some((group_in(one, p)?, group_in(other, p)?))).collect();
    both.iter().all(|(a, b)| both.iter().all(|(c, d)| (a == c) == (b == d)))
}
