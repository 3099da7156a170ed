//! The nested parts of a record: a drill's spec, a lineup, a feed. The table of their fields is in `record`.

use super::json::{Fields, Misfit, Object, quoted};
use super::record::{IdText, RecordError};
use super::words::{FEEDS, GOOD_FROM, Words};
use crate::domain::drill::{Board, DrillSpec, DuelBetween, LineOrder, Rule, Transition, TransitionEnd};
use crate::domain::entry::Lineup;
use crate::domain::ids::{PlayerId, Step};
use crate::domain::skill::{Feed, Skill};

const ORDERS: Words<LineOrder> = Words(&[(LineOrder::InTurn, "in-turn"), (LineOrder::Stays, "stays")]);
const BETWEEN: Words<DuelBetween> = Words(&[(DuelBetween::Sides, "sides"), (DuelBetween::Children, "children")]);

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
    inner.array("waiting", lineup.waiting.iter().map(id));
    inner.array("servers", lineup.servers.iter().map(id));
    to.nested("lineup", inner);
}

pub(super) fn take_lineup(f: &mut Fields<'_>) -> Result<Lineup, Misfit> {
    f.nested("lineup", |inner| {
        let places: Vec<Option<IdText>> = inner.need("places")?;
        Ok(Lineup {
            places: places.into_iter().map(|place| place.map(|id| PlayerId(id.0))).collect(),
            waiting: take_players(inner, "waiting")?,
            servers: take_players(inner, "servers")?,
        })
    })
}

fn take_players(f: &mut Fields<'_>, name: &'static str) -> Result<Vec<PlayerId>, RecordError> {
    let players: Vec<IdText> = f.need(name)?;
    Ok(players.into_iter().map(|id| PlayerId(id.0)).collect())
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
        })
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
        _ => return Err(Misfit::Newer),
    })
}

fn push_rule(to: &mut Object, rule: Rule) {
    match rule {
        Rule::Tally { goal } => {
            to.text("rule", "tally");
            if let Some(goal) = goal {
                to.number("goal", goal);
            }
        }
        Rule::Transition(transition) => {
            to.text("rule", "transition");
            push_transition(to, transition);
        }
    }
}

fn push_transition(to: &mut Object, transition: Transition) {
    to.number("easy", transition.n_easy);
    to.number("challenge", transition.n_challenge);
    if let Some(earn) = transition.earn {
        to.number("earn", earn);
    }
    to.text("between", BETWEEN.word(transition.between));
    match transition.end {
        TransitionEnd::DuelPoints(points) => {
            to.text("end", "duel-points");
            to.number("end_at", points);
        }
        TransitionEnd::Rounds(rounds) => {
            to.text("end", "rounds");
            to.number("end_at", rounds);
        }
        TransitionEnd::Coach => to.text("end", "coach"),
    }
    to.mark("swap", transition.swap);
}

fn take_rule(f: &mut Fields<'_>) -> Result<Rule, Misfit> {
    Ok(match &*f.text("rule")? {
        "tally" => Rule::Tally { goal: f.maybe("goal")? },
        "transition" => Rule::Transition(Transition {
            n_easy: f.need("easy")?,
            n_challenge: f.need("challenge")?,
            earn: f.maybe("earn")?,
            between: f.word("between", |word| BETWEEN.known(word))?,
            end: match &*f.text("end")? {
                "duel-points" => TransitionEnd::DuelPoints(f.need("end_at")?),
                "rounds" => TransitionEnd::Rounds(f.need("end_at")?),
                "coach" => TransitionEnd::Coach,
                _ => return Err(Misfit::Newer),
            },
            swap: f.mark("swap")?,
        }),
        _ => return Err(Misfit::Newer),
    })
}
