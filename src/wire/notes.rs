//! Notes and questions as fields of a record, and back. The table of the fields is in `record`. The first version of the format knew
//! notes about a practice, a run or a child and no tags; what such a note can say is written as it was then, and anything more without
//! the fields of that time, so that an older version keeps it whole and never takes it for less.

use super::fact::{push_id, push_maybe_id, take_maybe_id, take_maybe_player};
use super::json::{Fields, Misfit, Object, quoted};
use super::play::{maybe_players, push_players};
use super::words::Words;
use crate::domain::entry::Fact;
use crate::domain::ids::{PartNo, PracticeId, RunId};
use crate::domain::notes::{Note, NoteAbout, Spot};

/// What a note is about, but for the children.
#[derive(Clone, Copy, PartialEq)]
pub(super) enum Of {
    Practice,
    Part,
    Run,
    Children,
}

const OF: Words<Of> =
    Words(&[(Of::Practice, "practice"), (Of::Part, "part"), (Of::Run, "run"), (Of::Children, "children")]);

pub(super) fn push_written(to: &mut Object, spot: &Spot, note: &Note) {
    match first_form(spot, note) {
        Some((name, id)) => {
            push_id(to, name, id);
            to.text("text", &note.text);
        }
        None => {
            push_spot(to, spot);
            push_note(to, note);
        }
    }
}

pub(super) fn take_written(f: &mut Fields<'_>) -> Result<Fact, Misfit> {
    if f.has("about") {
        return Ok(Fact::NoteWritten { spot: take_spot(f)?, note: take_note(f)? });
    }
    let (spot, about) = if let Some(practice) = take_maybe_id(f, "practice")? {
        (Spot { practice: Some(PracticeId(practice)), ..Spot::default() }, NoteAbout::Practice)
    } else if let Some(run) = take_maybe_id(f, "run")? {
        (Spot { run: Some(RunId(run)), ..Spot::default() }, NoteAbout::Run)
    } else {
        // A note about something that only a newer version has notes about.
        let player = take_maybe_player(f)?.ok_or(Misfit::Newer)?;
        (Spot::default(), NoteAbout::Children(vec![player]))
    };
    Ok(Fact::NoteWritten { spot, note: Note { about, tags: Vec::new(), text: f.text("text")?.into_owned() } })
}

pub(super) fn push_spot(to: &mut Object, spot: &Spot) {
    push_maybe_id(to, "in_practice", spot.practice.map(|id| id.0));
    push_maybe_id(to, "in_run", spot.run.map(|id| id.0));
    if let Some(part) = spot.part {
        to.number("in_part", part.0);
    }
}

pub(super) fn take_spot(f: &mut Fields<'_>) -> Result<Spot, Misfit> {
    Ok(Spot {
        practice: take_maybe_id(f, "in_practice")?.map(PracticeId),
        run: take_maybe_id(f, "in_run")?.map(RunId),
        part: f.maybe("in_part")?.map(PartNo),
    })
}

pub(super) fn push_note(to: &mut Object, note: &Note) {
    let (of, players) = match &note.about {
        NoteAbout::Practice => (Of::Practice, &[][..]),
        NoteAbout::Part => (Of::Part, &[][..]),
        NoteAbout::Run => (Of::Run, &[][..]),
        NoteAbout::Children(players) => (Of::Children, players.as_slice()),
    };
    to.text("about", OF.word(of));
    if !players.is_empty() {
        push_players(to, "players", players);
    }
    if !note.tags.is_empty() {
        to.array("tags", note.tags.iter().map(|tag| quoted(tag)));
    }
    to.text("text", &note.text);
}

pub(super) fn take_note(f: &mut Fields<'_>) -> Result<Note, Misfit> {
    let about = match f.word("about", |word| OF.known(word))? {
        Of::Practice => NoteAbout::Practice,
        Of::Part => NoteAbout::Part,
        Of::Run => NoteAbout::Run,
        Of::Children => NoteAbout::Children(maybe_players(f, "players")?),
    };
    Ok(Note { about, tags: f.maybe::<Vec<String>>("tags")?.unwrap_or_default(), text: f.text("text")?.into_owned() })
}

/// The one field that the first version needs for this note.
fn first_form(spot: &Spot, note: &Note) -> Option<(&'static str, crate::domain::ids::EntryId)> {
    if !note.tags.is_empty() || spot.part.is_some() {
        return None;
    }
    match (&note.about, spot.practice, spot.run) {
        (NoteAbout::Practice, Some(practice), None) => Some(("practice", practice.0)),
        (NoteAbout::Run, None, Some(run)) => Some(("run", run.0)),
        (NoteAbout::Children(players), None, None) if players.len() == 1 => {
            players.first().map(|player| ("player", player.0))
        }
        _ => None,
    }
}
