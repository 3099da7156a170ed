//! Notes written, changed and taken back; questions proposed and kept as asked; the coach's own tags and questions. Every change is
//! an entry of the practice's and of no run's: undo on a board passes it by, and each note has its own.

mod ask;
mod changing;
mod own;
mod words;

use self::ask::{ask, more_questions, open_ask};
use self::changing::{edit, open_edit};
use self::own::{change_own, change_tags};
use self::words::{bind, go_on, keep_settings, keep_words, typed, wait};
use super::super::effect::Effect;
use super::super::model::Model;
use super::super::notes::{NotesTap, Pad, Source, Subject, about, spot};
use super::super::screen::Screen;
use super::{go, write};
use crate::domain::entry::Fact;
use crate::domain::ids::{EntryId, NoteId};
use crate::domain::notes::{Note, NoteAbout, Spot};

pub fn act(model: &mut Model, tap: NotesTap) -> Vec<Effect> {
    if matches!(model.screen, Screen::Run(_)) {
        // Whoever writes on a board has it in hand: it isn't in a pocket.
        model.board.last_tap_ms = model.now.mono_ms;
    }
    match tap {
        NotesTap::Opened => open_pad(model),
        NotesTap::Wanted(of, child) => {
            let effects = go(model, Screen::Note);
            let about = child.map(Subject::Child);
            let had = &model.drafts.notes.pad;
            let goes_on = (of.is_none() || of == had.of) && (about.is_none() || about == had.about);
            if !wait(model) {
                model.drafts.notes.pad = Pad { of, about, ..Pad::default() };
            } else if !goes_on {
                // The words in sight are about something else: whom they go to is for the coach to say.
                model.drafts.notes.pad = Pad { of, ..Pad::default() };
            }
            return effects;
        }
        NotesTap::About(subject) => {
            let pad = &mut model.drafts.notes.pad;
            *pad = Pad { of: pad.of, about: Some(subject), ..Pad::default() };
            // On a board they are out of sight, and a tag for another child leaves them where they belong.
            if model.screen == Screen::Note && wait(model) {
                bind(model);
                return keep_settings(model);
            }
        }
        NotesTap::Tagged(tag) => return tagged(model, tag),
        NotesTap::Typed(text) => return typed(model, &text),
        NotesTap::Kept => return keep_words(model),
        NotesTap::TakenBack(id) => return take_back(model, id, true),
        NotesTap::PutBack(id) => return take_back(model, id, false),
        NotesTap::Question(tap) => return ask(model, tap),
        NotesTap::Edit(tap) => return edit(model, tap),
        NotesTap::Tags(tap) => return change_tags(model, tap),
        NotesTap::Own(tap) => return change_own(model, tap),
        NotesTap::OwnOf(any) => model.drafts.notes.own_of_any = any,
        NotesTap::Sought(sought) => model.drafts.notes.sought = sought,
    }
    Vec::new()
}

/// The screen at hand is shown anew.
pub fn open(model: &mut Model) {
    match model.screen {
        Screen::Note => go_on(model),
        Screen::Ask => open_ask(model, Source::Here, None),
        Screen::Remark(id) => open_edit(model, id),
        _ => {}
    }
}

/// What the screen at hand needs isn't there yet, though the screen is.
pub fn lacks(model: &Model) -> bool {
    let draft = &model.drafts.notes;
    match model.screen {
        Screen::Note => draft.pad == Pad::default() && wait(model),
        Screen::Remark(id) => draft.edit.as_ref().is_none_or(|(note, _)| note.0 != id),
        Screen::Ask => draft.ask.children.is_empty(),
        _ => false,
    }
}

/// A practice was read: the screen at hand may have waited for it.
pub fn practice_came(model: &mut Model) {
    if lacks(model) {
        open(model);
    }
}

/// The library was read: questions of the drill at hand may have come with it.
pub fn library_came(model: &mut Model) {
    more_questions(model);
}

/// The child of the last contact is meant, or the group whose ball it was; else whose turn it is. Where words wait, what they are about.
fn open_pad(model: &mut Model) {
    if wait(model) {
        return go_on(model);
    }
    let Screen::Run(id) = model.screen else { return };
    let Some(run) = model.runs.get(&id) else { return };
    let last = run.main.contacts.last().map(|last| &last.contact);
    let child = last.and_then(|contact| contact.player).or_else(|| run.main.current(&run.spec)).map(Subject::Child);
    let group = last.and_then(|contact| contact.group).map(|group| Subject::Group(usize::from(group.0)));
    model.drafts.notes.pad = Pad { about: child.or(group), ..Pad::default() };
}

fn tagged(model: &mut Model, tag: String) -> Vec<Effect> {
    let Some(had) = said(model) else {
        let Some(about) = meant(model) else { return Vec::new() };
        let spot = spot_meant(model);
        return write_note(model, spot, Note { about, tags: vec![tag], text: String::new() });
    };
    let (id, mut note) = had;
    match note.tags.iter().position(|known| *known == tag) {
        Some(at) => {
            note.tags.remove(at);
        }
        None => note.tags.push(tag),
    }
    change(model, id, note)
}

/// The note that was just written here, while it stands.
fn said(model: &Model) -> Option<(NoteId, Note)> {
    let id = model.drafts.notes.pad.said.filter(|id| !model.base.is_taken_back(*id))?;
    Some((NoteId(id), model.base.remark(id)?.note()?.clone()))
}

fn meant(model: &Model) -> Option<NoteAbout> {
    about(model, model.drafts.notes.pad.about?)
}

/// Where the words were typed that wait, else here.
fn spot_meant(model: &Model) -> Spot {
    model.drafts.notes.pad.spot.unwrap_or_else(|| spot(model))
}

fn write_note(model: &mut Model, spot: Spot, note: Note) -> Vec<Effect> {
    let id = model.writer.id_ahead(0);
    let effects = write(model, vec![Fact::NoteWritten { spot, note }]);
    model.drafts.notes.pad.said = Some(id);
    effects
}

/// A note with nothing left in it is taken back.
fn change(model: &mut Model, note: NoteId, changed: Note) -> Vec<Effect> {
    if changed.is_empty() {
        return take_back(model, note.0, true);
    }
    // While it lies packed and unread nobody knows how often it was changed.
    if model.base.remark(note.0).is_none() {
        return Vec::new();
    }
    let revision = model.base.next_note_revision(note);
    write(model, vec![Fact::NoteChanged { note, revision, changed }])
}

fn take_back(model: &mut Model, target: EntryId, back: bool) -> Vec<Effect> {
    if model.base.remark(target).is_none() || model.base.is_taken_back(target) == back {
        return Vec::new();
    }
    let revision = model.base.next_take_back(target);
    write(model, vec![Fact::EntryTakenBack { run: None, target, revision, back }])
}
