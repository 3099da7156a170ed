//! Notes written, changed and taken back; questions proposed and kept as asked; the coach's own tags and questions. Every change is
//! an entry of the practice's and of no run's: undo on a board passes it by, and each note has its own.

mod ask;
mod own;

use self::ask::{ask, fill_questions, open_ask};
use self::own::{change_own, change_tags};
use super::super::effect::Effect;
use super::super::model::Model;
use super::super::notes::{EditTap, NotesTap, Pad, Source, Subject, about, remark, spot};
use super::super::screen::Screen;
use super::super::words::notes::MOST_WORDS;
use super::{go, write};
use crate::domain::entry::Fact;
use crate::domain::ids::{EntryId, NoteId};
use crate::domain::notes::{Note, NoteAbout, What};

pub fn act(model: &mut Model, tap: NotesTap) -> Vec<Effect> {
    if matches!(model.screen, Screen::Run(_)) {
        // Whoever writes on a board has it in hand: it isn't in a pocket.
        model.board.last_tap_ms = model.now.mono_ms;
    }
    match tap {
        NotesTap::Opened => open_pad(model),
        NotesTap::Wanted(of, child) => {
            let effects = go(model, Screen::Note);
            model.drafts.notes.pad = Pad { of, about: child.map(Subject::Child), said: None };
            return effects;
        }
        NotesTap::About(subject) => {
            let pad = &mut model.drafts.notes.pad;
            *pad = Pad { of: pad.of, about: Some(subject), said: None };
        }
        NotesTap::Tagged(tag) => return tagged(model, tag),
        NotesTap::Typed(text) => {
            model.settings.note_words = plain(&text, MOST_WORDS, true);
            return vec![Effect::KeepSettings(model.settings.to_json())];
        }
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
        Screen::Note => model.drafts.notes.pad = Pad::default(),
        Screen::Ask => open_ask(model, Source::Here, None),
        Screen::Remark(id) => open_edit(model, id),
        _ => {}
    }
}

/// What the screen at hand needs isn't there yet, though the screen is.
pub fn lacks(model: &Model) -> bool {
    let draft = &model.drafts.notes;
    match model.screen {
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
    if !model.drafts.notes.ask.chosen {
        fill_questions(model);
    }
}

/// The child of the last contact is meant, or the group whose ball it was; else whose turn it is.
fn open_pad(model: &mut Model) {
    let Screen::Run(id) = model.screen else { return };
    let Some(run) = model.runs.get(&id) else { return };
    let last = run.main.contacts.last().map(|last| &last.contact);
    let child = last.and_then(|contact| contact.player).or_else(|| run.main.current(&run.spec)).map(Subject::Child);
    let group = last.and_then(|contact| contact.group).map(|group| Subject::Group(usize::from(group.0)));
    model.drafts.notes.pad = Pad { of: None, about: child.or(group), said: None };
}

fn tagged(model: &mut Model, tag: String) -> Vec<Effect> {
    let Some(had) = said(model) else {
        let Some(about) = meant(model) else { return Vec::new() };
        return write_note(model, Note { about, tags: vec![tag], text: String::new() });
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

/// What is typed goes onto the note that was just written, else it is one.
fn keep_words(model: &mut Model) -> Vec<Effect> {
    let text = model.settings.note_words.trim().to_owned();
    if text.is_empty() {
        return Vec::new();
    }
    let mut effects = match said(model) {
        Some((id, note)) => {
            let text = if note.text.is_empty() { text } else { format!("{}\n{text}", note.text) };
            change(model, id, Note { text, ..note })
        }
        None => {
            let Some(about) = meant(model) else { return Vec::new() };
            write_note(model, Note { about, tags: Vec::new(), text })
        }
    };
    model.settings.note_words.clear();
    effects.push(Effect::KeepSettings(model.settings.to_json()));
    effects
}

/// The note that was just written here, while it stands.
fn said(model: &Model) -> Option<(NoteId, Note)> {
    let id = model.drafts.notes.pad.said.filter(|id| !model.base.is_taken_back(*id))?;
    Some((NoteId(id), model.base.remark(id)?.note()?.clone()))
}

fn meant(model: &Model) -> Option<NoteAbout> {
    about(model, model.drafts.notes.pad.about?)
}

fn write_note(model: &mut Model, note: Note) -> Vec<Effect> {
    let spot = spot(model);
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

/// As it stands, with the words that were being changed when the page went away.
fn open_edit(model: &mut Model, id: EntryId) {
    let note = remark(model, id).and_then(|remark| match remark.what {
        What::Note(note) => Some(note),
        What::Asked(_) => None,
    });
    let typed = model.settings.note_changing.as_ref().filter(|(of, _)| *of == id.to_string()).map(|(_, text)| text);
    model.drafts.notes.edit = note.map(|note| {
        let text = typed.cloned().unwrap_or_else(|| note.text.clone());
        (NoteId(id), Note { text, ..note })
    });
}

fn edit(model: &mut Model, tap: EditTap) -> Vec<Effect> {
    let Some((id, note)) = &mut model.drafts.notes.edit else { return Vec::new() };
    match tap {
        EditTap::About(about) => note.about = about,
        EditTap::Child(player) => {
            let mut players = match &note.about {
                NoteAbout::Children(players) => players.clone(),
                _ => Vec::new(),
            };
            match players.iter().position(|known| *known == player) {
                // Somebody it is about.
                Some(at) if players.len() > 1 => {
                    players.remove(at);
                }
                Some(_) => {}
                None => players.push(player),
            }
            note.about = NoteAbout::Children(players);
        }
        EditTap::Tagged(tag) => match note.tags.iter().position(|known| *known == tag) {
            Some(at) => {
                note.tags.remove(at);
            }
            None => note.tags.push(tag),
        },
        EditTap::Typed(text) => {
            note.text = plain(&text, MOST_WORDS, true);
            model.settings.note_changing = Some((id.0.to_string(), note.text.clone()));
            return vec![Effect::KeepSettings(model.settings.to_json())];
        }
        EditTap::Kept => {
            let (id, changed) = (*id, Note { text: note.text.trim().to_owned(), ..note.clone() });
            let same = model.base.remark(id.0).is_some_and(|had| had.note() == Some(&changed));
            let mut effects = if same { Vec::new() } else { change(model, id, changed) };
            model.settings.note_changing = None;
            effects.push(Effect::KeepSettings(model.settings.to_json()));
            effects.extend(go(model, Screen::Notes));
            return effects;
        }
    }
    Vec::new()
}

/// Without control characters, which no file may bring, and no longer than it may be.
fn plain(text: &str, most: usize, lines: bool) -> String {
    text.chars().filter(|c| !c.is_control() || lines && *c == '\n').take(most).collect()
}
