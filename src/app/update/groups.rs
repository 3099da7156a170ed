//! Groups: made, exchanged, wished for, fitted to who is here; and which ones a run opens with.

mod fit;

pub(super) use fit::Balls;
pub use fit::{fit_of, run_for_groups};

use super::super::effect::Effect;
use super::super::groups::{GroupsTap, Question, Trouble, WishKind, WishNo, fitted, question, sizes, standing};
use super::super::model::{Model, WishDraft};
use super::super::settings::How;
use super::super::stepper::step_u8;
use super::super::words;
use super::typed::plain;
use super::write;
use crate::domain::drill::{DrillSpec, MAX_NAME};
use crate::domain::entry::{Fact, Wishes};
use crate::domain::ids::PlayerId;
use crate::domain::refit;
use crate::domain::replay::run::RunState;
use crate::domain::together::Groups;
use crate::stats::split::Sizes;

/// Most groups, or children in one, that the steppers go to.
pub const MOST: u8 = 10;
/// Fewer than two are no groups, and one child no group.
pub const LEAST: u8 = 2;
pub const MOST_BALLS: u8 = 30;

pub(super) fn act(model: &mut Model, tap: GroupsTap) -> Vec<Effect> {
    model.drafts.groups.said = None;
    match tap {
        GroupsTap::How(how) => model.settings.groups_how = how,
        GroupsTap::BySize(by_size) => model.settings.groups_by_size = by_size,
        GroupsTap::Stepped(more) => model.settings.groups_n = step_u8(model.settings.groups_n, more, LEAST, MOST),
        GroupsTap::BallsStepped(more) => model.settings.balls = step_u8(model.settings.balls, more, 1, MOST_BALLS),
        GroupsTap::AsMany => {
            let most = if model.settings.groups_by_size { model.here().len() } else { model.here().len() / 2 };
            model.settings.groups_n = u8::try_from(most).unwrap_or(MOST).clamp(LEAST, MOST);
        }
        GroupsTap::Made => return make(model),
        GroupsTap::Before => return before(model),
        GroupsTap::Name(player) => return name(model, player),
        GroupsTap::Into(at) => return into(model, at),
        GroupsTap::WishOpened(kind) => {
            model.drafts.groups.wish = kind.map(|kind| WishDraft {
                kind,
                chosen: if kind == WishKind::Tag { model.base.wishes().tagged } else { Vec::new() },
                tag: model.base.wishes().tag,
            });
            return Vec::new();
        }
        GroupsTap::TagTyped(tag) => {
            if let Some(wish) = &mut model.drafts.groups.wish {
                wish.tag = plain(&tag, MAX_NAME);
            }
            return Vec::new();
        }
        GroupsTap::WishKept => return keep_wish(model),
        GroupsTap::WishDropped(no) => return drop_wish(model, no),
        GroupsTap::InThisDrill => return fit::in_this_drill(model),
        GroupsTap::Refit => return fit::refit_now(model),
    }
    check(model);
    vec![Effect::KeepSettings(model.settings.to_json())]
}

/// The screen opens: what can't be is said before anything is tapped.
pub(super) fn open(model: &mut Model) {
    let draft = &mut model.drafts.groups;
    (draft.picked, draft.wish, draft.said) = (None, None, None);
    check(model);
}

/// The groups of a run that is about to start: those of this practice where they fit, else new ones. None where the drill wants none.
pub(in crate::app) fn opening(model: &Model, spec: &DrillSpec, here: &[PlayerId]) -> Groups {
    let Some(n) = refit::wanted(spec, here.len()) else { return Vec::new() };
    let made = standing(model);
    if made.len() == n && !spec.rule.is_game() {
        return made;
    }
    dealt(model, here, n)
}

/// New teams of a run out of everyone in it, with few who were together before. Nothing where there are none to make.
pub(super) fn mixed(model: &Model, run: &RunState) -> Groups {
    let here: Vec<PlayerId> = run.main.lineup.everyone().collect();
    let Some(n) = refit::wanted(&run.spec, here.len()).filter(|n| *n > 1 && here.len() >= *n) else {
        return Vec::new();
    };
    answered(question(model, &here, Sizes::Number(n)), false, seed(model)).unwrap_or_default()
}

/// Even only where the coach chose that last.
fn dealt(model: &Model, here: &[PlayerId], n: usize) -> Groups {
    let even = model.settings.groups_how == How::Even;
    if model.settings.groups_how == How::ByHand && n > 0 {
        // As cards are dealt, in the order of the squad: the coach does the rest.
        return (0..n).map(|at| here.iter().copied().skip(at).step_by(n).collect()).collect();
    }
    // With fewer children than groups some of these stay empty.
    let n_filled = n.min(here.len());
    let split =
        (n_filled > 1).then(|| answered(question(model, here, Sizes::Number(n_filled)), even, seed(model))).flatten();
    let mut groups = split.unwrap_or_else(|| vec![here.to_vec()]);
    groups.resize(n, Vec::new());
    groups
}

/// A drill starts whatever is wished: where wishes can't be met, without them. The screen of groups says which.
fn answered(question: Question, even: bool, seed: u64) -> Option<Groups> {
    question.answer(even, seed).or_else(|_| question.without_wishes().answer(even, seed)).ok()
}

/// The same entries and taps, the same draw.
fn seed(model: &Model) -> u64 {
    let (series, clock) = (model.writer.series().0, model.writer.clock().0);
    series.rotate_left(17) ^ clock.wrapping_mul(0x9e37_79b9_7f4a_7c15) ^ u64::from(model.drafts.groups.n_made) << 40
}

fn wanted(model: &Model) -> Result<Groups, Trouble> {
    let here = model.here();
    if here.is_empty() {
        return Err(Trouble::Nobody);
    }
    let question = question(model, &here, sizes(&model.settings));
    match model.settings.groups_how {
        How::Even => question.answer(true, seed(model)),
        How::Mixed => question.answer(false, seed(model)),
        // In the order of the squad, without a wish: the coach does the rest.
        How::ByHand => {
            let sizes = question.without_wishes().answer(true, 0)?;
            let mut left = here.into_iter();
            Ok(sizes.iter().map(|group| left.by_ref().take(group.len()).collect()).collect())
        }
    }
}

fn make(model: &mut Model) -> Vec<Effect> {
    model.drafts.groups.n_made = model.drafts.groups.n_made.wrapping_add(1);
    match wanted(model) {
        Ok(groups) => {
            model.drafts.groups.trouble = None;
            let by_hand = model.settings.groups_how == How::ByHand;
            let breaks = by_hand && breaks(&model.base.wishes(), &groups);
            let effects = set(model, groups, false);
            model.drafts.groups.said = breaks.then(|| words::groups::BY_HAND_BREAKS.to_owned());
            effects
        }
        Err(trouble) => {
            model.drafts.groups.trouble = Some(trouble);
            Vec::new()
        }
    }
}

/// Whether who is here is apart from whom it is wished with, or with whom it is wished apart from.
fn breaks(wishes: &Wishes, groups: &Groups) -> bool {
    let group_of = |player: &PlayerId| groups.iter().position(|group| group.contains(player));
    let all_in_one = |set: &[PlayerId]| {
        let mut at = set.iter().filter_map(group_of);
        let first = at.next();
        at.all(|group| Some(group) == first)
    };
    let are_together = |[a, b]: &[PlayerId; 2]| group_of(a).is_some_and(|group| Some(group) == group_of(b));
    wishes.together.iter().any(|set| !all_in_one(set)) || wishes.apart.iter().any(are_together)
}

/// Writes them, or keeps them until practice starts. The ones before can come back.
fn set(model: &mut Model, groups: Groups, by_hand: bool) -> Vec<Effect> {
    let was = standing(model);
    model.drafts.groups.picked = None;
    if was == groups {
        return Vec::new();
    }
    model.drafts.groups.before = (!was.is_empty()).then_some(was);
    match model.practice_led() {
        Some(practice) => write(model, vec![Fact::GroupsMade { practice: practice.id, groups, by_hand }]),
        None => {
            model.drafts.groups.made = Some((model.now.day(), groups));
            Vec::new()
        }
    }
}

fn before(model: &mut Model) -> Vec<Effect> {
    let Some(groups) = model.drafts.groups.before.clone() else { return Vec::new() };
    let groups = fitted(&groups, &model.here(), &Wishes::default());
    set(model, groups, true)
}

/// What is wrong with what is asked now, if anything. A search for what may not be is only made when groups are asked for: seen
/// here is what contradicts at sight.
fn check(model: &mut Model) {
    let here = model.here();
    model.drafts.groups.trouble = if here.is_empty() {
        Some(Trouble::Nobody)
    } else {
        question(model, &here, sizes(&model.settings)).answer(false, 0).err()
    };
}

fn name(model: &mut Model, player: PlayerId) -> Vec<Effect> {
    let draft = &mut model.drafts.groups;
    if let Some(wish) = &mut draft.wish {
        match wish.chosen.iter().position(|p| *p == player) {
            Some(at) => drop(wish.chosen.remove(at)),
            None => wish.chosen.push(player),
        }
        if wish.kind == WishKind::Apart && wish.chosen.len() > 2 {
            wish.chosen.remove(0);
        }
        return Vec::new();
    }
    match draft.picked.take() {
        None => draft.picked = Some(player),
        Some(first) if first == player => {}
        Some(first) => {
            let other = |p: PlayerId| match p {
                p if p == first => player,
                p if p == player => first,
                p => p,
            };
            let groups = standing(model).into_iter().map(|g| g.into_iter().map(other).collect()).collect();
            return set(model, groups, true);
        }
    }
    Vec::new()
}

/// The last one of a group stays: an empty group is none.
fn into(model: &mut Model, at: usize) -> Vec<Effect> {
    let Some(player) = model.drafts.groups.picked else { return Vec::new() };
    let mut groups = standing(model);
    let Some(from) = groups.iter().position(|g| g.contains(&player)) else { return Vec::new() };
    if from == at || at >= groups.len() || groups[from].len() < 2 {
        model.drafts.groups.picked = None;
        return Vec::new();
    }
    groups[from].retain(|p| *p != player);
    groups[at].push(player);
    set(model, groups, true)
}

fn keep_wish(model: &mut Model) -> Vec<Effect> {
    let Some(wish) = model.drafts.groups.wish.clone() else { return Vec::new() };
    let mut wishes = model.base.wishes();
    match (wish.kind, wish.chosen.as_slice()) {
        (WishKind::Together, [_, _, ..]) => wishes.together.push(wish.chosen),
        (WishKind::Apart, [a, b]) => wishes.apart.push([*a, *b]),
        (WishKind::Tag, _) => {
            wishes.tag = wish.tag.trim().to_owned();
            wishes.tagged = wish.chosen;
        }
        _ => return Vec::new(),
    }
    model.drafts.groups.wish = None;
    set_wishes(model, wishes)
}

fn drop_wish(model: &mut Model, no: WishNo) -> Vec<Effect> {
    let mut wishes = model.base.wishes();
    match no {
        WishNo::Together(at) if at < wishes.together.len() => drop(wishes.together.remove(at)),
        WishNo::Apart(at) if at < wishes.apart.len() => drop(wishes.apart.remove(at)),
        WishNo::Tag => wishes.tagged.clear(),
        WishNo::All => wishes = Wishes::default(),
        WishNo::Together(_) | WishNo::Apart(_) => return Vec::new(),
    }
    set_wishes(model, wishes)
}

fn set_wishes(model: &mut Model, wishes: Wishes) -> Vec<Effect> {
    if wishes == model.base.wishes() {
        return Vec::new();
    }
    let revision = model.base.next_wishes_revision();
    let effects = write(model, vec![Fact::WishesChanged { revision, wishes }]);
    check(model);
    effects
}
