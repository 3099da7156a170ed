//! Groups as they stand on the floor, what was wished, and what can't be. Shows names and nothing that tells who is strong.

use super::super::groups::{GroupsTap, Trouble, WishKind, WishNo, again, standing};
use super::super::model::Model;
use super::super::screen::Screen;
use super::super::settings::How;
use super::super::update::{LEAST_IN_GROUPS, MOST_BALLS, MOST_GROUPS, run_for_groups};
use super::super::words::board_lines::group_name;
use super::super::words::groups as words;
use crate::app::action::Action;
use crate::domain::entry::Wishes;
use crate::domain::ids::{GroupNo, PlayerId, RunId};

#[derive(Clone, Debug, PartialEq)]
pub struct GroupsView {
    /// The way back: the run that is on, else Today.
    pub back: Option<RunId>,
    pub here: String,
    pub how: How,
    pub by_size: bool,
    pub n: u8,
    pub at_least: bool,
    pub at_most: bool,
    pub balls: u8,
    pub balls_least: bool,
    pub balls_most: bool,
    pub groups: Vec<GroupCard>,
    /// "Sizes 4, 4, 3. Nobody is with the same again."
    pub told: String,
    /// What refitting made of it.
    pub said: Option<String>,
    pub trouble: Option<TroubleView>,
    /// It tells of what the coach wished, so it stands with the wishes, for her alone.
    pub of_wishes: bool,
    /// Counts how often new groups were asked for: what keeps them from being made is brought into view each time.
    pub n_asked: u32,
    pub can_go_back: bool,
    pub in_drill: bool,
    pub wishes: Vec<WishRow>,
    pub picking: Option<Picking>,
    pub tag: String,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct GroupCard {
    /// "Group 1"
    pub name: String,
    pub children: Vec<GroupName>,
    /// "Mira to Group 1", where a child was tapped who is in another.
    pub into: Option<String>,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct GroupName {
    pub player: PlayerId,
    pub name: String,
    pub picked: bool,
}

/// One sentence, and a way out of it.
#[derive(Clone, Debug, PartialEq)]
pub struct TroubleView {
    pub line: String,
    pub way: String,
    pub action: Action,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WishRow {
    pub line: String,
    pub no: WishNo,
}

/// A wish that is being put together.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Picking {
    pub kind: WishKind,
    pub line: &'static str,
    pub names: Vec<(PlayerId, String, bool)>,
    pub can_keep: bool,
}

pub fn groups(model: &Model) -> GroupsView {
    let draft = &model.drafts.groups;
    let groups = standing(model);
    let sizes: Vec<usize> = groups.iter().map(Vec::len).collect();
    let wishes = model.base.wishes();
    let squad = model.squad();
    let name = |at: usize| group_name(GroupNo(u8::try_from(at).unwrap_or(u8::MAX)));
    let card = |(at, group): (usize, &Vec<PlayerId>)| GroupCard {
        name: name(at),
        children: group
            .iter()
            .map(|p| GroupName { player: *p, name: model.name_of(*p), picked: draft.picked == Some(*p) })
            .collect(),
        into: draft.picked.filter(|p| !group.contains(p)).map(|p| words::into(&model.name_of(p), &name(at))),
    };
    let n = model.settings.groups_n;
    GroupsView {
        back: model.run_at_hand().map(|run| run.id),
        here: super::super::words::today::here(model.here().len(), squad.len()),
        how: model.settings.groups_how,
        by_size: model.settings.groups_by_size,
        n,
        at_least: n <= LEAST_IN_GROUPS,
        at_most: n >= MOST_GROUPS,
        balls: model.settings.balls,
        balls_least: model.settings.balls <= 1,
        balls_most: model.settings.balls >= MOST_BALLS,
        told: match &draft.trouble {
            Some(_) if groups.is_empty() => words::NOTHING_YET.to_owned(),
            _ => words::told(&sizes, again(model, &groups), model.settings.groups_how == How::ByHand),
        },
        groups: groups.iter().enumerate().map(card).collect(),
        // That nobody is here is said by the trouble, with the way out.
        said: draft.said.clone().filter(|_| !matches!(draft.trouble, Some(Trouble::Nobody))),
        trouble: draft.trouble.as_ref().map(|trouble| trouble_view(model, &wishes, trouble)),
        of_wishes: draft.trouble.as_ref().is_some_and(is_of_wishes),
        n_asked: draft.n_made,
        can_go_back: draft.before.is_some(),
        in_drill: run_for_groups(model, &groups).is_some(),
        wishes: rows(model, &wishes),
        picking: draft.wish.as_ref().map(|wish| Picking {
            kind: wish.kind,
            line: words::picking(wish.kind),
            names: squad.iter().map(|p| (p.id, model.name_of(p.id), wish.chosen.contains(&p.id))).collect(),
            can_keep: match wish.kind {
                WishKind::Together => wish.chosen.len() > 1,
                WishKind::Apart => wish.chosen.len() == 2,
                WishKind::Tag => !wish.chosen.is_empty() || !wishes.tagged.is_empty(),
            },
        }),
        tag: draft.wish.as_ref().map_or_else(|| wishes.tag.clone(), |wish| wish.tag.clone()),
    }
}

fn rows(model: &Model, wishes: &Wishes) -> Vec<WishRow> {
    let together = (0..wishes.together.len()).map(WishNo::Together);
    let apart = (0..wishes.apart.len()).map(WishNo::Apart);
    let tag = (!wishes.tagged.is_empty()).then_some(WishNo::Tag);
    together.chain(apart).chain(tag).map(|no| WishRow { line: line(model, wishes, no), no }).collect()
}

/// Empty for what isn't one wish.
fn line(model: &Model, wishes: &Wishes, no: WishNo) -> String {
    let (kind, who): (WishKind, &[PlayerId]) = match no {
        WishNo::Together(at) => (WishKind::Together, wishes.together.get(at).map_or(&[], Vec::as_slice)),
        WishNo::Apart(at) => (WishKind::Apart, wishes.apart.get(at).map_or(&[], |pair| pair.as_slice())),
        WishNo::Tag => (WishKind::Tag, &wishes.tagged),
        WishNo::All => return String::new(),
    };
    let names: Vec<String> = who.iter().map(|p| model.name_of(*p)).collect();
    words::wish(kind, &names, &wishes.tag)
}

/// Whether a wish is named, or all of them are meant.
const fn is_of_wishes(trouble: &Trouble) -> bool {
    match trouble {
        Trouble::Nobody | Trouble::One(_) | Trouble::TooMany | Trouble::Number { .. } | Trouble::Size { .. } => false,
        Trouble::TogetherAndApart { .. }
        | Trouble::TooLarge { .. }
        | Trouble::Tagged { .. }
        | Trouble::TooManyApart { .. }
        | Trouble::NoWay(_)
        | Trouble::GaveUp => true,
    }
}

fn trouble_view(model: &Model, wishes: &Wishes, trouble: &Trouble) -> TroubleView {
    let drop = |no: WishNo| {
        let way = match no {
            WishNo::All => words::DROP_ALL.to_owned(),
            no => words::drop_wish(&line(model, wishes, no)),
        };
        (way, Action::Groups(GroupsTap::WishDropped(no)))
    };
    let (way, action) = match trouble {
        Trouble::Nobody | Trouble::One(_) | Trouble::TooMany => {
            (words::WHO_IS_HERE.to_owned(), Action::Go(Screen::Today))
        }
        Trouble::Number { .. } | Trouble::Size { .. } => (words::AS_MANY.to_owned(), Action::Groups(GroupsTap::AsMany)),
        Trouble::TogetherAndApart { drop: no, .. }
        | Trouble::TooLarge { drop: no, .. }
        | Trouble::Tagged { drop: no, .. }
        | Trouble::TooManyApart { drop: no, .. }
        | Trouble::NoWay(no) => drop(*no),
        Trouble::GaveUp => (words::TRY_AGAIN.to_owned(), Action::Groups(GroupsTap::Made)),
    };
    let dropped = match trouble {
        Trouble::NoWay(no) => line(model, wishes, *no),
        _ => String::new(),
    };
    TroubleView { line: words::trouble(trouble, |p| model.name_of(p), &dropped), way, action }
}
