//! Items into groups: of even strength, or drawn at random; with some kept together, some apart, some spread, and with few pairs
//! that have met before. Who the items are, and why, is the caller's.

pub(super) mod chance;
mod exchange;
mod met;
mod plan;
mod search;
mod searched;
mod series;
mod why;

pub use met::Met;
pub use series::{Series, rounds};

use chance::Chance;
use exchange::{Exchange, Goal, drawn};
use plan::Plan;

/// More items than this are not split.
pub const MOST: usize = 64;

/// How many steps an exact search may take: it then gives the best it has found and says that it isn't proved. Up to 20 items in
/// up to 4 groups of like size end before it (measured with random strengths and wishes).
const STEPS: u32 = 8_000_000;

/// What is to be split. Items are told by their place in `strengths`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Asked {
    pub strengths: Vec<u32>,
    pub sizes: Sizes,
    /// Sets that stay in one group; sets that share an item are one set.
    pub together: Vec<Vec<usize>>,
    /// Pairs that are never in one group.
    pub apart: Vec<(usize, usize)>,
    /// Items that are spread evenly: any two groups' counts differ by at most one.
    pub tagged: Vec<usize>,
    pub met: Met,
}

/// How many groups, and how large. Nowhere is a group empty.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sizes {
    /// So many groups, their sizes within one of each other ([`sizes_by_number`]).
    Number(usize),
    /// Groups of about this size, their sizes within one of each other ([`sizes_by_size`]).
    Size(usize),
    /// So many groups of any size.
    Free(usize),
}

/// Items in groups.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Split {
    /// The larger groups first; items in rising order.
    pub groups: Vec<Vec<usize>>,
    /// The strength of each group.
    pub sums: Vec<u64>,
    /// How many pairs within a group have met before.
    pub repeats: u32,
    /// Whether no split can be more even, by a search that left nothing out. Never said of a random split.
    pub proved: bool,
}

/// Why there are no such sizes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SizeFault {
    Nobody,
    NoGroups,
    MoreGroupsThanItems,
    SizeZero,
    /// Not even one group of this size.
    SizeAboveItems,
}

/// Why there is no split.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Fault {
    Sizes(SizeFault),
    /// More than [`MOST`].
    TooMany,
    /// `met` is about another number of items.
    Met,
    /// A wish names an item that isn't there.
    Unknown(usize),
    /// One wish names this item twice.
    Doubled(usize),
    /// To be kept apart, and together too.
    ApartAndTogether(usize, usize),
    /// This set, as it has grown by what it shares with others, is larger than the largest group.
    TogetherTooLarge(Vec<usize>),
    /// The tagged items of one set are more than a group may get.
    TagsTogether(Vec<usize>),
    /// All of these would each need a group of their own.
    TooManyApart(Vec<usize>),
    /// Nothing is wrong with any one wish, and all of them together can't be met. It would work without any single one of these;
    /// none are named when no single one is enough.
    NoWay(Vec<Wish>),
    /// Neither a split was found nor that there is none.
    GaveUp,
}

/// One wish, by its place in [`Asked`].
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wish {
    Together(usize),
    Apart(usize),
    Tagged,
}

impl Asked {
    /// Without any wish, and nobody has met.
    pub fn new(strengths: Vec<u32>, sizes: Sizes) -> Self {
        let met = Met::nobody(strengths.len());
        Self { strengths, sizes, together: Vec::new(), apart: Vec::new(), tagged: Vec::new(), met }
    }
}

/// The sizes of k groups of n items, within one of each other, the larger first.
///
/// ```
/// use peppertally::stats::split::{SizeFault, sizes_by_number};
/// assert_eq!(sizes_by_number(11, 3), Ok(vec![4, 4, 3]));
/// assert_eq!(sizes_by_number(2, 3), Err(SizeFault::MoreGroupsThanItems));
/// ```
pub fn sizes_by_number(n: usize, k: usize) -> Result<Vec<usize>, SizeFault> {
    if n == 0 {
        Err(SizeFault::Nobody)
    } else if k == 0 {
        Err(SizeFault::NoGroups)
    } else if k > n {
        Err(SizeFault::MoreGroupsThanItems)
    } else {
        Ok((0..k).map(|i| n / k + usize::from(i < n % k)).collect())
    }
}

/// The sizes of groups of about `size`, within one of each other, the larger first. Of the two numbers of groups that come
/// near, the one whose sizes are off by less in sum; if that is the same, fewer groups, so that nobody is left alone beside pairs.
///
/// ```
/// use peppertally::stats::split::sizes_by_size;
/// assert_eq!(sizes_by_size(11, 4), Ok(vec![4, 4, 3]));
/// assert_eq!(sizes_by_size(11, 2), Ok(vec![3, 2, 2, 2, 2]));
/// ```
pub fn sizes_by_size(n: usize, size: usize) -> Result<Vec<usize>, SizeFault> {
    if n == 0 {
        return Err(SizeFault::Nobody);
    }
    if size == 0 {
        return Err(SizeFault::SizeZero);
    }
    if size > n {
        return Err(SizeFault::SizeAboveItems);
    }
    let fewer = sizes_by_number(n, n / size)?;
    let more = sizes_by_number(n, n.div_ceil(size))?;
    let off = |sizes: &[usize]| sizes.iter().map(|s| s.abs_diff(size)).sum::<usize>();
    Ok(if off(&more) < off(&fewer) { more } else { fewer })
}

/// The most even split there is: the largest sum of a group is as small as it can be. Where sizes differ by one it is the largest
/// mean of a group that is as small as can be, compared as a fraction. Among the splits found to be as even, one with few meetings
/// again.
///
/// ```
/// use peppertally::stats::split::{Asked, Sizes, even};
/// let split = even(&Asked::new(vec![5, 4, 3, 3, 2, 1], Sizes::Number(2))).unwrap();
/// assert_eq!((split.sums, split.proved), (vec![9, 9], true));
/// ```
pub fn even(asked: &Asked) -> Result<Split, Fault> {
    let mut chance = Chance::new(0);
    let plan = Plan::new(asked, None)?;
    let start = why::start(asked, &plan, &mut chance)?;
    let (mut groups, cost, proved) = search::best(&plan, start, STEPS, &mut chance);
    let goal = Goal::met(asked, &plan);
    if !goal.is_idle() {
        groups = Exchange::new(&plan, &goal, cost, &mut chance).run(groups, 20_000);
    }
    Ok(told(asked, &plan, &groups, proved))
}

/// A split drawn at random. Without wishes every split of these sizes is as likely as any other. With wishes it is drawn
/// anew until they are met; where that fails, one is searched for and then stirred, and some splits are likelier than others. If
/// some have met before, many are drawn and bettered by exchanges, and the one with the fewest meetings again is given.
pub fn random(asked: &Asked, seed: u64) -> Result<Split, Fault> {
    let mut chance = Chance::new(seed);
    let plan = Plan::new(asked, Some(&mut chance))?;
    let goal = Goal::met(asked, &plan);
    let mut best = why::start(asked, &plan, &mut chance)?;
    if !goal.is_idle() {
        let mut fewest = u64::MAX;
        for _ in 0..12 {
            let start = drawn(&plan, 100, &mut chance).unwrap_or_else(|| best.clone());
            let groups = Exchange::new(&plan, &goal, u64::MAX, &mut chance).run(start, 2_000);
            let meetings = goal.sum(&plan, &groups);
            if meetings < fewest {
                (best, fewest) = (groups, meetings);
            }
            if fewest == 0 {
                break;
            }
        }
    }
    Ok(told(asked, &plan, &best, false))
}

fn told(asked: &Asked, plan: &Plan, groups: &[u64], proved: bool) -> Split {
    let mut groups: Vec<Vec<usize>> = groups.iter().map(|&mask| plan.items(mask)).collect();
    groups = super::arrange::arranged(groups, |a, b| b.len().cmp(&a.len()));
    let sums = groups.iter().map(|group| group.iter().map(|&i| u64::from(asked.strengths[i])).sum()).collect();
    Split { repeats: asked.met.repeats(&groups), groups, sums, proved }
}
