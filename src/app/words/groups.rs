//! Sentences of the screen of groups, of roles and of a drill fitted to who is here. No word tells how strong anyone is.

use super::capital;
use crate::app::groups::{Again, Trouble, WishKind};
use crate::domain::drill::{DrillSpec, SwapEvery};
use crate::domain::refit::Fit;
use crate::domain::roles::rotates;

pub const TITLE: &str = "Groups";
pub const NOBODY: &str = "Nobody is here: tap who came, under Today.";
pub const BACK: &str = "Back to Today";
pub const BACK_TO_RUN: &str = "Back to the drill";
pub const BY_NUMBER: &str = "How many groups";
pub const BY_SIZE: &str = "Children in each";
pub const N_GROUPS: &str = "Groups";
pub const N_IN_GROUP: &str = "Children in a group";
pub const SIZES: &str = "How groups are counted";
pub const HOW: &str = "How groups are made";
pub const EVEN: &str = "Even";
pub const MIXED: &str = "Mixed";
pub const BY_HAND: &str = "By hand";
pub const MAKE: &str = "New groups";
pub const BEFORE: &str = "As before";
pub const REFIT: &str = "Refit";
pub const REFIT_LINE: &str = "Groups and roles for the children and balls there are";
pub const BALLS: &str = "Balls";
pub const IN_DRILL: &str = "Use in this drill";
/// Where points belong to the groups that made them.
pub const SCORED: &str = "This run is scored for its groups already, so they stay: new ones are for the next run.";
pub const FLOOR: &str = "Groups on the floor";
pub const NOTHING_MADE: &str = "No groups yet. One tap on “New groups” makes them.";
/// Where they can't be made as they are asked for: why stands beside it.
pub const NOTHING_YET: &str = "No groups yet.";
pub const TAP_TWO: &str = "Tap two names to exchange them.";
pub const WISHES: &str = "Wishes";
pub const WISHES_LINE: &str = "For you alone: fold them away before children look.";
/// What even groups rest on.
pub const EVEN_LINE: &str = "Even groups go by all that was tallied, with hard balls allowed for, and by what small sides won. Who is how good stands nowhere.";
/// Before the children's eyes: neither who nor what. It stands beside the wishes while they are folded away.
pub const WISHES_STOP: &str = "Not all of them can be met, so no new groups are made. Unfold to see why.";
/// Dealt in the order of the squad; who is with whom the coach sees.
pub const BY_HAND_BREAKS: &str = "Dealt in the order of the squad, for you to change: not every wish is kept.";
pub const TOGETHER: &str = "Together";
pub const APART: &str = "Apart";
pub const TAG: &str = "Spread evenly";
pub const TAG_WORD: &str = "Your word for them";
pub const TAG_HINT: &str = "for example: new";
pub const KEEP_WISH: &str = "Keep this wish";
pub const CLOSE_WISH: &str = "Leave it";
pub const DROP: &str = "Drop";

/// Which wish goes: a pair may be in two.
pub fn drop_wish(wish: &str) -> String {
    format!("Drop: {wish}")
}

pub const DROP_ALL: &str = "Drop all wishes";
pub const AS_MANY: &str = "As many as can be";
pub const WHO_IS_HERE: &str = "Who is here?";
pub const TRY_AGAIN: &str = "Try again";

pub const BESIDE: &str = "Beside the passers";
pub const BESIDE_LINE: &str = "Everyone has each role equally often, left and right place too.";
pub const FEEDERS: &str = "Servers or tossers";
pub const TARGET: &str = "A catcher at the target";
pub const GETTERS: &str = "Ball-getters";
pub const SWAP_WHEN: &str = "When do they swap?";
pub const SWAP_TAP: &str = "On tap";
pub const SWAP_BALLS: &str = "By balls";
pub const SWAP_MINUTES: &str = "By time";
pub const BALLS_A_TURN: &str = "Balls a turn";
pub const MINUTES_A_TURN: &str = "Minutes a turn";
pub const TOUCHES: &str = "Touches";
pub const TOUCHES_LINE: &str = "Judged balls were tapped, told ones told. Who served, tossed, caught or fetched is known only by the places as they stood. For fairness, never for rates.";

/// Under Today, beside who is here: `3 groups: 4, 4, 3`.
pub fn short(sizes: &[usize]) -> String {
    match sizes {
        [] => "none yet".to_owned(),
        [n] => format!("one of {n}"),
        sizes => format!("{}: {}", sizes.len(), list(sizes)),
    }
}

pub fn into(name: &str, group: &str) -> String {
    format!("{name} to {group}")
}

/// What is being put together by taps on names.
pub fn picking(kind: WishKind) -> &'static str {
    match kind {
        WishKind::Together => "Tap who stays together.",
        WishKind::Apart => "Tap two who are never in one group.",
        WishKind::Tag => "Tap whom to spread evenly.",
    }
}

/// `Mira and Tove together`
pub fn wish(kind: WishKind, names: &[String], tag: &str) -> String {
    let names = and(names);
    match kind {
        WishKind::Together => format!("{names} together"),
        WishKind::Apart => format!("{names} apart"),
        WishKind::Tag if tag.trim().is_empty() => format!("{names} spread evenly"),
        WishKind::Tag => format!("“{}”, spread evenly: {names}", tag.trim()),
    }
}

/// `Sizes 4, 4, 3. Nobody is with the same again.` Only what is known is claimed.
pub fn told(sizes: &[usize], again: Option<Again>, by_hand: bool) -> String {
    let mut text = match sizes {
        [] => return NOTHING_MADE.to_owned(),
        [n] => format!("One group of {n}."),
        sizes => format!("Sizes {}.", list(sizes)),
    };
    let n_alone = sizes.iter().filter(|size| **size == 1).count();
    if sizes.len() > 1 && n_alone > 0 {
        text.push(' ');
        text.push_str(&alone(n_alone));
    }
    if let Some(again) = again.filter(|_| sizes.len() > 1) {
        text.push(' ');
        text.push_str(&with_the_same(again, by_hand));
    }
    text
}

/// `Two children are alone in a group: with fewer groups nobody is.`
fn alone(n: usize) -> String {
    let verb = if n == 1 { "is" } else { "are" };
    capital(&format!("{} {verb} alone in a group: with fewer groups nobody is.", counted(n, "child", "children")))
}

fn with_the_same(again: Again, by_hand: bool) -> String {
    let when = if again.today { "before in this practice" } else { "last time" };
    match again.n {
        0 if again.today => "Nobody is with the same again.".to_owned(),
        0 => "Nobody is with the same as last time.".to_owned(),
        n => {
            let pairs = if n == 1 { "One pair was".to_owned() } else { format!("{n} pairs were") };
            let why = match again.at_least {
                least if least == n => ": with these numbers fewer can’t be.",
                _ if by_hand => ".",
                _ => ". No groups with fewer were found that keep to what you asked.",
            };
            format!("{pairs} together {when}{why}")
        }
    }
}

/// One sentence that names the children it is about.
pub fn trouble(trouble: &Trouble, name: impl Fn(crate::domain::ids::PlayerId) -> String, dropped: &str) -> String {
    let names = |who: &[crate::domain::ids::PlayerId]| and(&who.iter().map(|p| name(*p)).collect::<Vec<_>>());
    match trouble {
        Trouble::Nobody => NOBODY.to_owned(),
        Trouble::One(player) => format!("Only {} is here: groups need two.", name(*player)),
        Trouble::TooMany => "More than 64 children can’t be put in groups at once.".to_owned(),
        Trouble::Number { n, here } => format!("{n} groups can’t be made of {here} children."),
        Trouble::Size { size, here } => format!("{here} children are here: that isn’t one group of {size}."),
        Trouble::TogetherAndApart { a, b, directly: true, .. } => {
            format!("{} and {} are wished both together and apart.", name(*a), name(*b))
        }
        Trouble::TogetherAndApart { a, b, .. } => {
            format!("{} and {} are wished apart, and together by way of others.", name(*a), name(*b))
        }
        Trouble::TooLarge { who, most, .. } => {
            format!("{} are wished together: that is more than a group of {most}.", names(who))
        }
        Trouble::Tagged { who, .. } => {
            format!("{} are wished together, and spread evenly too: with these sizes both can’t be.", names(who))
        }
        Trouble::TooManyApart { who, n, .. } => {
            format!("{} are wished apart from each other: with {n} groups that can’t be.", names(who))
        }
        Trouble::NoWay(_) if dropped.is_empty() => "All these wishes at once can’t be met with these sizes.".to_owned(),
        Trouble::NoWay(_) => {
            format!("All wishes at once can’t be met with these sizes. Without one they can: {dropped}.")
        }
        Trouble::GaveUp => "No groups that meet all wishes were found in the time there is.".to_owned(),
    }
}

/// `Eleven children, eight balls: three groups of 4, 4, 3.` A game needs one ball: `Three children: two teams of 2, 1.`
pub fn refitted(n_children: usize, n_balls: usize, fit: &Fit, for_roles: bool, is_game: bool) -> String {
    if n_children == 0 {
        return NOBODY.to_owned();
    }
    let children = counted(n_children, "child", "children");
    let balls = if fit.sizes.is_empty() || is_game {
        String::new()
    } else {
        format!(", {}", counted(n_balls, "ball", "balls"))
    };
    capital(&format!("{children}{balls}: {}.", fits(fit, for_roles, is_game)))
}

/// What a refit makes of it: `three groups of 4, 4, 3`, `three pass, one tosses, two rest`.
pub fn fits(fit: &Fit, for_roles: bool, is_game: bool) -> String {
    let mut parts = Vec::new();
    if let Some(first) = fit.sizes.first() {
        let equal = fit.sizes.iter().all(|size| size == first);
        let sizes = if equal { first.to_string() } else { list(&fit.sizes) };
        parts.push(match fit.sizes.len() {
            1 => format!("one group of {first}"),
            n if is_game => format!("{} teams of {sizes}", number(n)),
            n => format!("{} groups of {sizes}", number(n)),
        });
    }
    if for_roles {
        let (places, feeders, getters) = (fit.places, fit.feeders, fit.getters);
        let with = |n: usize, one: &str, many: &str| {
            (n > 0).then(|| format!("{} {}", number(n), if n == 1 { one } else { many }))
        };
        parts.extend(with(places, "passes", "pass"));
        parts.extend(with(feeders, "tosses", "toss"));
        parts.extend(with(usize::from(fit.target), "catches", "catch"));
        parts.extend(with(getters, "fetches", "fetch"));
        parts.extend(with(fit.resting, "rests", "rest"));
    }
    if parts.is_empty() { "everyone is in the drill that is on".to_owned() } else { parts.join(", ") }
}

/// Beside a refit that deals groups anew, where some had a ball of their own.
pub const BALLS_BACK: &str = "Their balls are the drill’s again.";

/// In a run, beside the key that does it: what it would do.
pub fn will_fit(fit: &Fit, for_roles: bool, is_game: bool, keeps_groups: bool, changes: bool) -> String {
    let fits = capital(&fits(fit, for_roles, is_game));
    match (changes, keeps_groups) {
        (false, true) => format!("{fits}: scored already, so they stay."),
        (false, false) => format!("{fits}: it fits."),
        (true, true) => format!("{fits}. They are scored already: as few as can be change."),
        (true, false) => format!("{fits}."),
    }
}

/// Won by groups that aren't there any more: whose it is can't be said.
pub fn over_unnamed(points: u32) -> String {
    format!("It is over, with {points}.")
}

/// `Odile tosses, Bram catches, Veda fetches`
pub fn roles(feeds: &[String], catches: Option<&str>, fetches: &[String]) -> String {
    let verb = |names: &[String], one: &str, many: &str| {
        (!names.is_empty()).then(|| format!("{} {}", and(names), if names.len() == 1 { one } else { many }))
    };
    let catches = catches.map(|name| format!("{name} catches"));
    [verb(feeds, "tosses", "toss"), catches, verb(fetches, "fetches", "fetch")]
        .into_iter()
        .flatten()
        .collect::<Vec<_>>()
        .join(", ")
}

/// Of more who rest than these only the number is told.
const RESTING_NAMED: usize = 3;

/// `Next on: Mira, Ilka. Pelle rests.`
pub fn next_on(coming: &[String], resting: &[String]) -> String {
    let rest = match resting.len() {
        0 => String::new(),
        1 => format!("{} rests.", resting.concat()),
        n if n <= RESTING_NAMED => format!("{} rest.", and(resting)),
        n => format!("{} more rest.", capital(&number(n))),
    };
    match (coming.is_empty(), rest.is_empty()) {
        (true, _) => rest,
        (false, true) => format!("Next on: {}.", coming.join(", ")),
        (false, false) => format!("Next on: {}. {rest}", coming.join(", ")),
    }
}

/// What a drill's sentence says of roles: `one tosses, one catches, swap after 10 balls`.
pub fn beside(spec: &DrillSpec) -> Vec<String> {
    if !rotates(spec) {
        return Vec::new();
    }
    let with = |n: u8, one: &str, many: &str| {
        (n > 0).then(|| format!("{} {}", number(usize::from(n)), if n == 1 { one } else { many }))
    };
    let on_floor = spec.on_floor;
    let swap = match on_floor.swap {
        SwapEvery::Never => None,
        SwapEvery::Balls(n) => Some(format!("swap after {n} balls")),
        SwapEvery::Minutes(1) => Some("swap after a minute".to_owned()),
        SwapEvery::Minutes(n) => Some(format!("swap after {n} minutes")),
    };
    [
        with(on_floor.n_feeders, "tosses", "toss"),
        with(u8::from(on_floor.target), "catches", "catch"),
        with(on_floor.n_getters, "fetches", "fetch"),
        swap,
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// `18 judged, 10 told; by the places, 4 served or tossed, 2 caught`. What is judged is counted; of the rest the phone knows only who stood
/// there.
pub fn touches([judged, told]: [u32; 2], [fed, caught, fetched]: [u32; 3]) -> String {
    let parts = |all: &[(u32, &str)]| {
        let parts: Vec<String> = all.iter().filter(|(n, _)| *n > 0).map(|(n, what)| format!("{n} {what}")).collect();
        (!parts.is_empty()).then(|| parts.join(", "))
    };
    let counted = parts(&[(judged, "judged"), (told, "told")]);
    let by_place = parts(&[(fed, "served or tossed"), (caught, "caught"), (fetched, "fetched")]);
    match (counted, by_place) {
        (None, None) => "none seen".to_owned(),
        (Some(counted), None) => counted,
        (None, Some(by_place)) => format!("by the places, {by_place}"),
        (Some(counted), Some(by_place)) => format!("{counted}; by the places, {by_place}"),
    }
}

/// Over the line that names whom to give the ball to: a coach's line, no list.
pub const FEWEST: &str = "For the coach: next time first";

/// For the coach's report alone: `Fewest touches in all roles: Tove, 9 that the phone knows of.`
pub fn fewest(names: &[String], n: u32) -> String {
    format!(
        "Fewest touches in all roles: {}, {n}{} that the phone knows of.",
        and(names),
        if names.len() > 1 { " each" } else { "" }
    )
}

/// `Mira, Tove and Odile`
pub fn and(names: &[String]) -> String {
    match names {
        [] => String::new(),
        [one] => one.clone(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

fn list(sizes: &[usize]) -> String {
    sizes.iter().map(ToString::to_string).collect::<Vec<_>>().join(", ")
}

fn counted(n: usize, one: &str, many: &str) -> String {
    format!("{} {}", number(n), if n == 1 { one } else { many })
}

/// As words up to twelve.
fn number(n: usize) -> String {
    const WORDS: [&str; 13] =
        ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];
    WORDS.get(n).map_or_else(|| n.to_string(), |word| (*word).to_owned())
}

/// `Swap in 2 balls.`, `Swap after this ball.`
pub fn swap_in(balls: u32) -> String {
    match balls {
        1 => "Swap after this ball.".to_owned(),
        n => format!("Swap in {n} balls."),
    }
}

/// Right after places changed by themselves.
pub fn swapped(line: &str) -> String {
    format!("Swap! {line}")
}
