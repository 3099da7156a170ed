//! The nested parts of a record: a drill's spec, a lineup, a feed. The table of their fields is in `record`.

use super::json::{Fields, Misfit, Object, quoted};
use super::play::{maybe_players, push_groups, push_players, take_groups, take_players};
use super::record::IdText;
use super::rule::{push_rule, take_rule};
use super::words::{FEEDS, GOOD_FROM, Words};
use crate::domain::drill::{Board, ChallengeBy, DrillSpec, LineOrder, OnFloor, SwapEvery};
use crate::domain::entry::Lineup;
use crate::domain::ids::{PlayerId, Step};
use crate::domain::skill::{Feed, Skill};

const ORDERS: Words<LineOrder> =
    Words(&[(LineOrder::InTurn, "in-turn"), (LineOrder::Stays, "stays"), (LineOrder::TenForOne, "ten-for-one")]);
const CHALLENGES: Words<ChallengeBy> =
    Words(&[(ChallengeBy::Harder, "harder"), (ChallengeBy::Distracted, "distracted")]);

pub(super) fn push_feed(to: &mut Object, feed: Feed) {
    to.text("feed", FEEDS.word(feed.kind));
    to.number("step", feed.step.0);
}

pub(super) fn take_feed(f: &mut Fields<'_>) -> Result<Feed, Misfit> {
    Ok(Feed { kind: f.word("feed", |word| FEEDS.known(word))?, step: Step(f.need("step")?) })
}

pub(super) fn push_lineup(to: &mut Object, lineup: &Lineup) {
    let id = |player: &PlayerId| quoted(&player.0.to_string());
    let mut inner = Object::default();
    let places = lineup.places.iter().map(|place| place.as_ref().map_or_else(|| "null".to_owned(), id));
    inner.array("places", places);
    push_players(&mut inner, "waiting", &lineup.waiting);
    push_players(&mut inner, "servers", &lineup.servers);
    if let Some(target) = lineup.target {
        inner.text("target", &target.0.to_string());
    }
    if !lineup.getters.is_empty() {
        push_players(&mut inner, "getters", &lineup.getters);
    }
    push_groups(&mut inner, "groups", &lineup.groups);
    to.nested("lineup", inner);
}

pub(super) fn take_lineup(f: &mut Fields<'_>) -> Result<Lineup, Misfit> {
    f.nested("lineup", |inner| {
        let places: Vec<Option<IdText>> = inner.need("places")?;
        Ok(Lineup {
            places: places.into_iter().map(|place| place.map(|id| PlayerId(id.0))).collect(),
            waiting: take_players(inner, "waiting")?,
            servers: take_players(inner, "servers")?,
            target: inner.maybe::<IdText>("target")?.map(|id| PlayerId(id.0)),
            getters: maybe_players(inner, "getters")?,
            groups: take_groups(inner, "groups")?,
        })
    })
}

pub(super) fn push_spec(to: &mut Object, spec: &DrillSpec) {
    let mut inner = Object::default();
    inner.text("name", &spec.name);
    match &spec.skill {
        Skill::Pass => inner.text("skill", "pass"),
        Skill::Serve => inner.text("skill", "serve"),
        Skill::Own(name) => {
            inner.text("skill", "own");
            inner.text("own", name);
        }
    }
    push_board(&mut inner, spec.board);
    push_rule(&mut inner, spec.rule);
    inner.text("good_from", GOOD_FROM.word(spec.good_from));
    push_feed(&mut inner, spec.feed);
    push_on_floor(&mut inner, spec.on_floor);
    to.nested("spec", inner);
}

pub(super) fn take_spec(f: &mut Fields<'_>) -> Result<DrillSpec, Misfit> {
    f.nested("spec", |inner| {
        Ok(DrillSpec {
            name: inner.text("name")?.into_owned(),
            skill: match &*inner.text("skill")? {
                "pass" => Skill::Pass,
                "serve" => Skill::Serve,
                "own" => Skill::Own(inner.text("own")?.into_owned()),
                _ => return Err(Misfit::Newer),
            },
            board: take_board(inner)?,
            rule: take_rule(inner)?,
            good_from: inner.word("good_from", |word| GOOD_FROM.known(word))?,
            feed: take_feed(inner)?,
            on_floor: take_on_floor(inner)?,
        })
    })
}

/// What a drill doesn't have is left out.
fn push_on_floor(to: &mut Object, on_floor: OnFloor) {
    if let Some(groups) = on_floor.groups {
        to.number("groups", groups);
    }
    to.mark("target", on_floor.target);
    for (name, n) in [("getters", on_floor.n_getters), ("feeders", on_floor.n_feeders)] {
        if n > 0 {
            to.number(name, n);
        }
    }
    match on_floor.swap {
        SwapEvery::Never => {}
        SwapEvery::Balls(n) => to.number("swap_balls", n),
        SwapEvery::Minutes(n) => to.number("swap_minutes", n),
    }
    if on_floor.challenge != ChallengeBy::default() {
        to.text("challenge_by", CHALLENGES.word(on_floor.challenge));
    }
}

fn take_on_floor(f: &mut Fields<'_>) -> Result<OnFloor, Misfit> {
    let (balls, minutes) = (f.maybe("swap_balls")?, f.maybe("swap_minutes")?);
    Ok(OnFloor {
        groups: f.maybe("groups")?,
        target: f.mark("target")?,
        n_getters: f.maybe("getters")?.unwrap_or(0),
        n_feeders: f.maybe("feeders")?.unwrap_or(0),
        swap: balls.map(SwapEvery::Balls).or(minutes.map(SwapEvery::Minutes)).unwrap_or_default(),
        challenge: f.maybe_word("challenge_by", |word| CHALLENGES.known(word))?.unwrap_or_default(),
    })
}

fn push_board(to: &mut Object, board: Board) {
    match board {
        Board::Floor { n_places } => {
            to.text("board", "floor");
            to.number("places", n_places);
        }
        Board::Line { order } => {
            to.text("board", "line");
            to.text("order", ORDERS.word(order));
        }
        Board::ServeFloor { n_places, receiver } => {
            to.text("board", "serve-floor");
            to.number("places", n_places);
            to.mark("receiver", receiver);
        }
        Board::ServeLine { order, receiver } => {
            to.text("board", "serve-line");
            to.text("order", ORDERS.word(order));
            to.mark("receiver", receiver);
        }
        Board::Told { of } => {
            to.text("board", "told");
            to.number("of", of);
        }
        Board::Group => to.text("board", "group"),
        Board::Lanes => to.text("board", "lanes"),
        Board::Court => to.text("board", "court"),
        Board::Propped { order } => {
            to.text("board", "propped");
            to.text("order", ORDERS.word(order));
        }
    }
}

fn take_board(f: &mut Fields<'_>) -> Result<Board, Misfit> {
    Ok(match &*f.text("board")? {
        "floor" => Board::Floor { n_places: f.need("places")? },
        "line" => Board::Line { order: f.word("order", |word| ORDERS.known(word))? },
        "serve-floor" => Board::ServeFloor { n_places: f.need("places")?, receiver: f.mark("receiver")? },
        "serve-line" => {
            Board::ServeLine { order: f.word("order", |word| ORDERS.known(word))?, receiver: f.mark("receiver")? }
        }
        "told" => Board::Told { of: f.need("of")? },
        "group" => Board::Group,
        "lanes" => Board::Lanes,
        "court" => Board::Court,
        "propped" => Board::Propped { order: f.word("order", |word| ORDERS.known(word))? },
        _ => return Err(Misfit::Newer),
    })
}
