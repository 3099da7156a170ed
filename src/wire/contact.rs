//! A contact and its corrections as fields of a record. The table of the fields is in `record`.

use super::fact::{push_change, push_maybe_id, take_id, take_maybe_id, take_maybe_player, take_revision};
use super::json::{Fields, Misfit, Object};
use super::record::RecordError;
use super::spec::{push_feed, take_feed};
use super::words::{GOOD_FROM, OUTCOMES, ROLES, STYLES, marked, unmarked};
use crate::domain::entry::{Contact, Correction, Turn};
use crate::domain::ids::{ContactId, GroupNo, Place, PlayerId, Round, Step};
use crate::domain::skill::Outcome;

pub(super) fn push_contact(to: &mut Object, contact: &Contact) {
    push_maybe_id(to, "player", contact.player.map(|player| player.0));
    to.text("role", ROLES.word(contact.role));
    if let Some(place) = contact.place {
        to.number("place", place.0);
    }
    push_outcome(to, contact.outcome);
    to.text("good_from", GOOD_FROM.word(contact.good_from));
    push_feed(to, contact.feed);
    if let Some(style) = contact.style {
        to.text("style", STYLES.word(style));
    }
    if let Some(turn) = contact.turn {
        to.number("round", turn.round.0);
        to.number("restart", turn.restart);
    }
    push_maybe_id(to, "server", contact.server.map(|server| server.0));
    to.mark("self", contact.self_scored);
    push_group(to, contact.group);
    if let Some(shown) = contact.clock_ms {
        to.number("shown_ms", shown);
    }
    to.mark("watched", contact.watched);
}

pub(super) fn push_group(to: &mut Object, group: Option<GroupNo>) {
    if let Some(group) = group {
        to.number("group", group.0);
    }
}

pub(super) fn take_group(f: &mut Fields<'_>) -> Result<Option<GroupNo>, RecordError> {
    Ok(f.maybe("group")?.map(GroupNo))
}

pub(super) fn take_contact(f: &mut Fields<'_>) -> Result<Contact, Misfit> {
    Ok(Contact {
        player: take_maybe_player(f)?,
        role: f.word("role", |word| ROLES.known(word))?,
        place: f.maybe("place")?.map(Place),
        outcome: take_outcome(f)?,
        good_from: f.word("good_from", |word| GOOD_FROM.known(word))?,
        feed: take_feed(f)?,
        style: f.maybe_word("style", |word| STYLES.known(word))?,
        turn: match f.maybe("round")? {
            Some(round) => Some(Turn { round: Round(round), restart: f.need("restart")? }),
            None => None,
        },
        server: take_maybe_id(f, "server")?.map(PlayerId),
        self_scored: f.mark("self")?,
        group: take_group(f)?,
        clock_ms: f.maybe("shown_ms")?,
        watched: f.mark("watched")?,
    })
}

pub(super) fn push_outcome(to: &mut Object, outcome: Outcome) {
    let (plain, mark) = unmarked(outcome);
    to.text("outcome", OUTCOMES.word(plain));
    if let Some(name) = mark_of(plain) {
        to.mark(name, mark);
    }
}

pub(super) fn take_outcome(f: &mut Fields<'_>) -> Result<Outcome, Misfit> {
    let plain = f.word("outcome", |word| OUTCOMES.known(word))?;
    match mark_of(plain) {
        Some(name) if f.mark(name)? => Ok(marked(plain).unwrap_or(plain)),
        _ => Ok(plain),
    }
}

fn mark_of(outcome: Outcome) -> Option<&'static str> {
    match outcome {
        Outcome::Pass { .. } => Some("over_net"),
        Outcome::Serve { .. } => Some("fast"),
        Outcome::ServeMissed | Outcome::TwoKey { .. } | Outcome::NoChance | Outcome::Counted | Outcome::Removed => None,
    }
}

pub(super) fn correction_text(change: &Correction) -> String {
    let mut object = Object::default();
    push_change(&mut object, "contact", change.contact.0, change.revision);
    push_maybe_id(&mut object, "player", change.player.map(|player| player.0));
    push_outcome(&mut object, change.outcome);
    object.number("step", change.step.0);
    object.to_string()
}

pub(super) fn take_changes(f: &mut Fields<'_>) -> Result<Vec<Correction>, Misfit> {
    f.objects("changes")?.into_iter().map(|mut change| take_correction(&mut change)).collect()
}

fn take_correction(f: &mut Fields<'_>) -> Result<Correction, Misfit> {
    let change = Correction {
        contact: ContactId(take_id(f, "contact")?),
        revision: take_revision(f)?,
        player: take_maybe_player(f)?,
        outcome: take_outcome(f)?,
        step: Step(f.need("step")?),
    };
    // A list has no place to keep a field for: the whole correction is left to the version that knows it.
    if f.rest().is_some() { Err(Misfit::Newer) } else { Ok(change) }
}
