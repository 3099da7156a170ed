//! A note that is changed later. Its half-typed words wait with it, and each note has its own.

use super::super::super::effect::Effect;
use super::super::super::model::Model;
use super::super::super::notes::{EditTap, remark};
use super::super::super::screen::Screen;
use super::super::super::words::notes::MOST_WORDS;
use super::super::go;
use super::super::typed::lines;
use super::change;
use super::words::keep_settings;
use crate::domain::ids::{EntryId, NoteId};
use crate::domain::notes::{Note, NoteAbout, What};
use crate::wire::file::MAX_TEXT_CHARS;

/// As it stands, with the words that were being changed when it was left.
pub fn open_edit(model: &mut Model, id: EntryId) {
    let note = remark(model, id).and_then(|remark| match remark.what {
        What::Note(note) => Some(note),
        What::Asked(_) => None,
    });
    let of = id.to_string();
    let typed = model.settings.note_changes.iter().find(|(known, _)| *known == of).map(|(_, text)| text);
    model.drafts.notes.edit = note.map(|note| {
        let text = typed.cloned().unwrap_or_else(|| note.text.clone());
        (NoteId(id), Note { text, ..note })
    });
}

pub fn edit(model: &mut Model, tap: EditTap) -> Vec<Effect> {
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
            let had = model.base.remark(id.0).and_then(|remark| remark.note().map(|note| note.text.clone()));
            // Nothing of what a longer one holds is cut off: it came so, or grew by words that were added.
            let most = had.as_ref().map_or(0, |had| had.chars().count()).max(MOST_WORDS);
            note.text = lines(&text, most);
            let half = (had.as_ref() != Some(&note.text)).then(|| note.text.clone());
            let of = id.0.to_string();
            half_changed(model, of, half);
            return keep_settings(model);
        }
        EditTap::Kept => {
            let (id, changed) = (*id, Note { text: note.text.trim().to_owned(), ..note.clone() });
            // It would be in no copy.
            if changed.text.chars().count() > MAX_TEXT_CHARS {
                return Vec::new();
            }
            let same = model.base.remark(id.0).is_some_and(|had| had.note() == Some(&changed));
            let mut effects = if same { Vec::new() } else { change(model, id, changed) };
            half_changed(model, id.0.to_string(), None);
            effects.extend(keep_settings(model));
            effects.extend(go(model, Screen::Notes));
            return effects;
        }
    }
    Vec::new()
}

fn half_changed(model: &mut Model, of: String, text: Option<String>) {
    let all = &mut model.settings.note_changes;
    all.retain(|(known, _)| *known != of);
    all.extend(text.map(|text| (of, text)));
}
