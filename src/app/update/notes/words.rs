//! Words that are half typed: they wait with whom or what they are about and with the place where they were typed, so that no ball,
//! screen or kill gives them to another child. Kept they go onto the note that was just written, else they are one.

use super::super::super::effect::Effect;
use super::super::super::model::Model;
use super::super::super::notes::{Pad, Subject, groups, spot};
use super::super::super::screen::Screen;
use super::super::super::settings::WordsOf;
use super::super::super::words::notes::MOST_WORDS;
use super::super::typed::lines;
use super::{change, meant, said, spot_meant, write_note};
use crate::domain::notes::{Note, NoteAbout, Spot};
use crate::wire::file::MAX_TEXT_CHARS;

/// Words are typed and not kept.
pub fn wait(model: &Model) -> bool {
    !model.settings.note_words.is_empty()
}

pub fn typed(model: &mut Model, text: &str) -> Vec<Effect> {
    model.settings.note_words = lines(text, MOST_WORDS);
    bind(model);
    keep_settings(model)
}

/// The words are about what is meant now.
pub fn bind(model: &mut Model) {
    let of = wait(model).then(|| WordsOf::of(spot_meant(model), meant(model).as_ref()));
    model.settings.note_words_of = of;
}

/// An empty pad; where words wait, what they are about is meant, else nobody.
pub fn go_on(model: &mut Model) {
    model.drafts.notes.pad = Pad::default();
    let Some(of) = model.settings.note_words_of.as_ref().filter(|_| wait(model)) else { return };
    let (at, about) = (of.spot(), of.about());
    if model.screen == Screen::Note && spot(model).practice != at.practice {
        model.drafts.notes.pad.of = at.practice;
    }
    let subject = about.and_then(|about| subject(model, at, &about));
    let pad = &mut model.drafts.notes.pad;
    (pad.about, pad.spot) = (subject, subject.map(|_| at));
}

/// What can be tapped here for that; nothing where it can't, such as the drill on the board of another.
fn subject(model: &Model, at: Spot, about: &NoteAbout) -> Option<Subject> {
    let here = spot(model);
    let same_practice = at.practice == here.practice;
    match about {
        NoteAbout::Practice => same_practice.then_some(Subject::Practice),
        NoteAbout::Part => (same_practice && at.part == here.part).then_some(Subject::Part),
        NoteAbout::Run => (at.run == here.run).then_some(Subject::Run),
        NoteAbout::Children(players) => match players[..] {
            [player] => model.base.player(player).map(|_| Subject::Child(player)),
            _ => groups(model).iter().position(|group| group == players).map(Subject::Group),
        },
    }
}

pub fn keep_words(model: &mut Model) -> Vec<Effect> {
    let text = model.settings.note_words.trim().to_owned();
    if text.is_empty() {
        return Vec::new();
    }
    let mut effects = match said(model) {
        Some((id, note)) => {
            let joined = if note.text.is_empty() { text.clone() } else { format!("{}\n{text}", note.text) };
            // One that is longer would be in no copy.
            let fits = joined.chars().count() <= MAX_TEXT_CHARS;
            if fits {
                change(model, id, Note { text: joined, ..note })
            } else {
                let spot = model.base.remark(id.0).map_or_else(|| spot_meant(model), |remark| remark.spot);
                let effects = write_note(model, spot, Note { tags: Vec::new(), text, ..note });
                model.drafts.notes.pad.anew = true;
                effects
            }
        }
        None => {
            let Some(about) = meant(model) else { return Vec::new() };
            let spot = spot_meant(model);
            write_note(model, spot, Note { about, tags: Vec::new(), text })
        }
    };
    model.settings.note_words.clear();
    bind(model);
    effects.extend(keep_settings(model));
    effects
}

pub fn keep_settings(model: &Model) -> Vec<Effect> {
    vec![Effect::KeepSettings(model.settings.to_json())]
}
