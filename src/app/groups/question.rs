//! What is asked of `stats::split`, from the model: strengths, wishes and meetings by index; and its answer or fault in children.

use super::super::model::Model;
use super::again::rounds;
use super::{Trouble, WishNo};
use crate::domain::ids::PlayerId;
use crate::domain::skill::Skill;
use crate::domain::summary::{Count, Counts};
use crate::domain::together::{self, Groups};
use crate::stats::split::{self, Asked, Fault, Met, SizeFault, Sizes, Wish};

/// What is asked: children by index, and where each wish came from.
pub struct Question {
    here: Vec<PlayerId>,
    asked: Asked,
    together: Vec<usize>,
    apart: Vec<usize>,
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

/// How strong each is, as far as is known. Never shown. Once levels were worked out, each child's distance from the squad's middle, in hundredths
/// of log-odds: of the skill of the run that is on, corrected for how hard its balls were. In a game, or with nothing on, all that it does, and with it what
/// its sides won. Both are drawn towards the middle where little was seen, so they are added as they are.
fn strengths(model: &Model, here: &[PlayerId]) -> Vec<u32> {
    let run = model.run_on();
    let skill = run.filter(|run| !run.spec.rule.is_game()).map(|run| &run.spec.skill);
    let known = &model.weeks.known;
    let of = |player: &PlayerId| {
        let (level, side) = (known.level(*player, skill), known.side(*player).filter(|_| skill.is_none()));
        (level.is_some() || side.is_some()).then(|| level.unwrap_or(0.0) + side.unwrap_or(0.0))
    };
    match here.iter().map(of).collect::<Option<Vec<f64>>>() {
        Some(all) => {
            all.iter().map(|from_middle| (500.0 + 100.0 * from_middle).clamp(0.0, 1000.0).round() as u32).collect()
        }
        None => counted(model, here),
    }
}

/// As long as nothing was worked out: hundredths of good ones, drawn towards the squad's mean; of the skill of the run that is on, else of all.
fn counted(model: &Model, here: &[PlayerId]) -> Vec<u32> {
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
