//! Samples of notes, tags and questions. A frozen fixture holds exactly these.

use super::samples::{MIRA, ODILE, Pages, RUN, TOVE};
use peppertally::domain::entry::{Entry, Fact};
use peppertally::domain::ids::{DrillId, EntryId, NoteId, PartNo, PracticeId, Revision};
use peppertally::domain::notes::{Asked, Note, NoteAbout, Spot};
use peppertally::wire::record;

const PRACTICE: PracticeId = PracticeId(EntryId::new(0x11, 5));

pub fn spots() -> [Spot; 4] {
    let practice = Spot { practice: Some(PRACTICE), ..Spot::default() };
    [
        Spot::default(),
        practice,
        Spot { run: Some(RUN), ..practice },
        Spot { part: Some(PartNo(u16::MAX.into())), run: Some(RUN), ..practice },
    ]
}

pub fn abouts() -> [NoteAbout; 6] {
    [
        NoteAbout::Practice,
        NoteAbout::Part,
        NoteAbout::Run,
        NoteAbout::Children(vec![MIRA]),
        NoteAbout::Children(vec![ODILE, TOVE, MIRA]),
        NoteAbout::Children(Vec::new()),
    ]
}

pub fn entries() -> Vec<Entry> {
    let mut pages = Pages { entries: Vec::new(), clock: 600 };
    let tags = || vec!["brave swing".to_owned(), "\u{e5}k \"sen\" \u{1f3d0}".to_owned()];
    for (i, about) in abouts().into_iter().enumerate() {
        let spot = spots()[i % 4];
        let text = if i % 2 == 0 { "two\n\tlines \\ \"quoted\"" } else { "" };
        pages.note(Fact::NoteWritten { spot, note: Note { about: about.clone(), tags: tags(), text: text.into() } });
        // Without tags, in every place: the first form has a field for a few of them.
        for spot in spots() {
            let note = Note { about: about.clone(), tags: Vec::new(), text: text.into() };
            pages.note(Fact::NoteWritten { spot, note });
        }
        let changed = Note { about, tags: tags(), text: text.into() };
        pages.note(Fact::NoteChanged { note: NoteId(EntryId::new(0x11, 9)), revision: Revision(3), changed });
    }
    for spot in spots() {
        let question = "Where did your hand finish, {name}?".to_owned();
        pages.note(Fact::QuestionAsked { spot, asked: Asked { player: TOVE, question } });
    }
    pages.note(Fact::NoteTagsChanged { revision: Revision(1), tags: tags() });
    pages.note(Fact::NoteTagsChanged { revision: Revision(2), tags: Vec::new() });
    for drill in [None, Some(DrillId(EntryId::new(0x11, 4)))] {
        let questions = vec!["What did you look at?".to_owned(), String::new()];
        pages.note(Fact::QuestionsChanged { drill, revision: Revision(1), questions });
    }
    pages.entries
}

/// What the first version could say stands as it did then; of anything else it must not take a part for the whole.
#[test]
fn the_first_form_is_for_what_it_can_say() {
    let first = |entry: &&Entry| !record::encode(entry).contains("\"about\":");
    let written: Vec<Entry> =
        entries().into_iter().filter(|entry| matches!(entry.fact, Fact::NoteWritten { .. })).collect();
    let plain: Vec<&Entry> = written.iter().filter(first).collect();
    // About the practice in it, about a child in none. A run's stands in a practice, which the first form couldn't say.
    assert_eq!(plain.len(), 2);
    for entry in written.iter().filter(|entry| !first(entry)) {
        let text = record::encode(entry);
        for field in ["practice", "run", "player"] {
            assert!(!text.contains(&format!("\"{field}\":")), "{text}");
        }
    }
}

/// A word that only a newer version knows: kept whole, never guessed.
#[test]
fn a_note_about_something_newer_is_kept() {
    let entry = &entries()[0];
    let text = record::encode(entry).replacen("\"about\":\"practice\"", "\"about\":\"season\"", 1);
    let read = record::decode(&text).expect("a record");
    assert!(matches!(&read.fact, Fact::Unknown { kind, .. } if kind == "note-written"), "{read:?}");
    assert_eq!(record::encode(&read), text);
}
