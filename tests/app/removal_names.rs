//! Words that have the name of a child that was removed: in notes of others, in what they once said, under every name it was entered by, and in
//! what is half typed.

use peppertally::app::action::{Action, RemovalTap};
use peppertally::app::effect::Effect;
use peppertally::app::home::{HomeTap, Piece};
use peppertally::app::joining::JoiningTap;
use peppertally::app::notes::{EditTap, ListTap, NotesTap};
use peppertally::app::screen::Screen;
use peppertally::app::view::removal::removal;
use peppertally::app::work::{Answer, Job};
use peppertally::domain::entry::Fact;
use peppertally::domain::ids::EntryId;

use super::phone::Phone;
use super::removal::{check_gone, remove, stored, used, write_note};
use super::steps::take_in;

/// The note that was written last.
fn last_note(phone: &Phone) -> EntryId {
    let written = |entry: &&peppertally::domain::entry::Entry| matches!(entry.fact, Fact::NoteWritten { .. });
    phone.model.own.iter().filter(written).max_by_key(|entry| entry.clock).expect("a note").id
}

fn change(phone: &mut Phone, note: EntryId, words: &str) {
    phone.act(Action::Go(Screen::Remark(note)));
    phone.act(Action::Notes(NotesTap::Edit(EditTap::Typed(words.to_owned()))));
    phone.act(Action::Notes(NotesTap::Edit(EditTap::Kept)));
}

/// Notes of others that had the name once: one was changed, one taken back, one has it as a tag, and one was written of the child and then given
/// to another.
fn once_named(phone: &mut Phone) -> Vec<EntryId> {
    let (tove, bram, quilla) = (phone.player("Tove"), phone.player("Bram"), phone.player("Quilla"));
    phone.act(Action::Notes(NotesTap::Typed(String::new())));
    let mut notes = Vec::new();
    write_note(phone, tove, "Set for Quilla");
    notes.push(last_note(phone));
    change(phone, notes[0], "Set for them");
    write_note(phone, tove, "Not like Quilla");
    notes.push(last_note(phone));
    phone.act(Action::Notes(NotesTap::TakenBack(notes[1])));
    phone.act(Action::Notes(NotesTap::Tags(ListTap::Typed("with Qv".to_owned()))));
    write_note(phone, quilla, "Given on");
    notes.push(last_note(phone));
    phone.act(Action::Go(Screen::Remark(notes[2])));
    phone.act(Action::Notes(NotesTap::Edit(EditTap::Child(bram))));
    phone.act(Action::Notes(NotesTap::Edit(EditTap::Child(quilla))));
    phone.act(Action::Notes(NotesTap::Edit(EditTap::Kept)));
    write_note(phone, bram, "Kept calm");
    assert!(notes.iter().all(|note| phone.model.base.remark(*note).is_some()));
    notes
}

#[track_caller]
fn check_named(phone: &Phone, notes: &[EntryId]) {
    let removed = phone.model.own.removed();
    assert!(notes.iter().all(|note| removed.has_note(peppertally::domain::ids::NoteId(*note))), "by a fact");
    let stored = stored(phone);
    for words in ["Set for", "Not like", "Given on"] {
        assert!(!stored.contains(words), "{words}");
    }
    assert!(stored.contains("Kept calm"));
}

#[test]
fn notes_that_once_had_the_name_go() {
    let mut phone = used();
    let notes = once_named(&mut phone);
    let player = remove(&mut phone, "Quilla");
    check_named(&phone, &notes);
    check_gone(&mut phone, player);
}

/// A practice that lies packed: only the last words of what stands are in memory.
fn packed() -> (Phone, Vec<EntryId>) {
    let mut phone = used();
    phone.act(Action::Go(Screen::Today));
    phone.drill(0);
    let notes = once_named(&mut phone);
    phone.end_practice();
    phone.act(Action::Go(Screen::Today));
    phone.restart();
    assert!(notes.iter().all(|note| phone.model.own.get(*note).is_none()), "they lie packed, unread");
    (phone, notes)
}

#[test]
fn packed_ones_are_found_where_they_lie() {
    let (mut phone, notes) = packed();
    let player = remove(&mut phone, "Quilla");
    check_named(&phone, &notes);
    assert_eq!(phone.model.settings.called, Vec::<String>::new(), "nothing has to be found by it any more");
    check_gone(&mut phone, player);
    check_named(&phone, &notes);
}

/// The page dies, or the worker does, before they were found: the next start finds them.
#[test]
fn they_are_found_at_the_next_start() {
    let (mut phone, notes) = packed();
    phone.fails = Some(Answer::Refused("died".to_owned()));
    let player = remove(&mut phone, "Quilla");
    phone.restart();
    check_named(&phone, &notes);
    check_gone(&mut phone, player);
}

/// The page is killed before the worker has answered, and the small store is behind: it has nothing, or what it had before.
#[test]
fn they_are_found_though_the_small_store_is_behind() {
    let (phone, notes) = packed();
    let before = phone.settings.clone();
    assert!(before.is_some());
    for settings in [None, before] {
        let mut phone = phone.killed();
        phone.deaf = true;
        let player = remove(&mut phone, "Quilla");
        let mut kept = phone.db.values().filter(|record| record.to_lowercase().contains("quilla"));
        assert!(kept.all(|record| record.contains("player-added")), "the rest that lies loose goes at once");
        phone.settings = settings;
        // Killed once more before it was answered, it goes on from there.
        phone.restart_deaf();
        phone.settings = None;
        phone.restart();
        check_named(&phone, &notes);
        assert_eq!(phone.model.settings.called, Vec::<String>::new());
        check_gone(&mut phone, player);
        check_named(&phone, &notes);
    }
}

/// Two go, one after the other, and the first answer comes after that: the second is still found by its name.
#[test]
fn who_goes_meanwhile_is_still_found() {
    let (mut phone, notes) = packed();
    phone.deaf = true;
    let odile = remove(&mut phone, "Odile");
    let is_removal = |effect: &&Effect| matches!(effect, Effect::Work(Job::Remove { .. }));
    let Some(Effect::Work(job)) = phone.effects.iter().find(is_removal).cloned() else { panic!("a job") };
    let player = remove(&mut phone, "Quilla");
    phone.answer_late(job);
    phone.settings = None;
    phone.restart();
    check_named(&phone, &notes);
    check_gone(&mut phone, player);
    assert_eq!(phone.model.base.player(odile), None);
    assert!(!stored(&phone).contains("Odile"));
}

/// A removal that comes with a file: the worker has taken it in, and the page is killed before it hears of that. The child, and what it was called
/// before, is known from another file alone, or was entered here.
#[test]
fn they_are_found_after_a_file_that_nobody_heard_of() {
    for own in [false, true] {
        let mut coach = used();
        let quilla = coach.player("Quilla");
        for name in ["Quirina", "Quilla"] {
            coach.act(Action::Go(Screen::Child(quilla)));
            coach.act(Action::ChildNameTyped(name.to_owned()));
            coach.act(Action::ChildKept);
        }
        let mut phone = if own { coach.killed() } else { Phone::other("Iva") };
        if !own {
            take_in(&mut phone, "old", &coach.copy());
        }
        let (tove, mut notes) = (phone.player("Tove"), Vec::new());
        phone.act(Action::Go(Screen::Today));
        phone.drill(0);
        for words in ["Not like Quilla", "Set for Quirina"] {
            phone.act(Action::Notes(NotesTap::Typed(String::new())));
            write_note(&mut phone, tove, words);
            notes.push(last_note(&phone));
        }
        write_note(&mut phone, tove, "Kept calm");
        phone.end_practice();
        phone.act(Action::Go(Screen::Today));
        phone.restart();
        assert!(notes.iter().all(|note| phone.model.own.get(*note).is_none()), "they lie packed, unread");
        let player = remove(&mut coach, "Quilla");
        let file = coach.copy();
        let mut heard = phone.killed();
        take_in(&mut heard, "new", &file);
        phone.choose("copy.json", "new", &file);
        phone.deaf = true;
        phone.act(Action::ParcelAccepted);
        let Some(Effect::Work(job)) = phone.effects.iter().rfind(|effect| matches!(effect, Effect::Work(_))).cloned()
        else {
            panic!("a job")
        };
        phone.work_unheard(&job);
        assert!(phone.notes.contains_key("new"), "the database has it");
        phone.settings = None;
        phone.restart();
        for mut phone in [phone, heard] {
            check_named(&phone, &notes);
            assert!(!stored(&phone).contains("Quirina"));
            check_gone(&mut phone, player);
        }
    }
}

/// Whoever is called the same and came before they were found keeps what is noted of it.
#[test]
fn a_name_that_is_given_anew_finds_nothing() {
    let mut phone = used();
    phone.fails = Some(Answer::Refused("died".to_owned()));
    remove(&mut phone, "Quilla");
    phone.act(Action::RosterTyped("Quilla".to_owned()));
    phone.act(Action::RosterTaken);
    let anew = phone.player("Quilla");
    write_note(&mut phone, anew, "Quilla is new");
    phone.restart();
    assert!(stored(&phone).contains("Quilla is new"));
    assert_eq!(phone.model.settings.called, Vec::<String>::new());
}

/// Another phone that takes the removal in has notes of its own with the name in them, packed and loose.
#[test]
fn notes_of_another_phone_too() {
    let mut coach = used();
    let mut other = Phone::other("Iva");
    take_in(&mut other, "old", &coach.copy());
    let iva = other.player("Iva");
    let (mut of_other, mut notes) = (other, Vec::new());
    of_other.act(Action::Go(Screen::Today));
    of_other.drill(0);
    write_note(&mut of_other, iva, "Not like Quilla");
    notes.push(last_note(&of_other));
    of_other.end_practice();
    of_other.act(Action::Go(Screen::Today));
    write_note(&mut of_other, iva, "Set for Quilla");
    notes.push(last_note(&of_other));
    write_note(&mut of_other, iva, "Kept calm");
    of_other.restart();
    let player = remove(&mut coach, "Quilla");
    take_in(&mut of_other, "new", &coach.copy());
    check_named(&of_other, &notes);
    check_gone(&mut of_other, player);
}

/// A child that was entered twice and joined is called by either name; one that another child is called by as well is nobody's alone.
#[test]
fn by_every_name_it_was_entered_under() {
    let mut phone = used();
    let mut other = Phone::other("Kwilla Fenn 9\nRagna Fenn");
    take_in(&mut phone, "other", &other.copy());
    let (stays, also) = (phone.player("Quilla"), phone.player("Kwilla Fenn"));
    phone.act(Action::Joining(JoiningTap::Same { stays, also }));
    phone.act(Action::Notes(NotesTap::Typed(String::new())));
    let tove = phone.player("Tove");
    write_note(&mut phone, tove, "Fed kwilla twice");
    write_note(&mut phone, tove, "Asked for Fenn");
    let mut third = phone.killed();
    phone.act(Action::Go(Screen::Child(also)));
    phone.act(Action::Removal(RemovalTap::Asked(also)));
    let asked = removal(&phone.model).and_then(|view| view.asked).expect("asked");
    assert_eq!(asked.head, "Remove Quilla for good?");
    assert_eq!(asked.lines[0], "Also entered as Kwilla Fenn 9: it is the same child here, and all of it goes.");
    remove(&mut phone, "Quilla");
    third.choose("copy.json", "new", &phone.copy());
    let removes = third.model.copy.offered.clone().expect("offered").preview.removes.expect("whom it removes");
    assert!(removes.starts_with("It removes Quilla, Kwilla Fenn for good, here too"), "{removes}");
    phone.restart();
    let text = stored(&phone);
    assert!(!text.contains("twice") && !text.contains("Kwilla") && !text.contains("Quilla"));
    assert!(text.contains("Asked for Fenn"), "that may be Ragna");
    let names: Vec<String> = phone.model.base.ever_entered().into_iter().map(|child| child.name).collect();
    assert_eq!(names, ["Tove", "Odile", "Bram", "Ragna Fenn"]);
}

/// What it was called before it was given another name is its name as well.
#[test]
fn by_what_it_was_called_before() {
    let mut phone = used();
    let (quilla, tove) = (phone.player("Quilla"), phone.player("Tove"));
    for name in ["Quirina", "Quilla"] {
        phone.act(Action::Go(Screen::Child(quilla)));
        phone.act(Action::ChildNameTyped(name.to_owned()));
        phone.act(Action::ChildKept);
    }
    phone.act(Action::Notes(NotesTap::Typed(String::new())));
    write_note(&mut phone, tove, "Fed Quirina twice");
    let player = remove(&mut phone, "Quilla");
    assert!(!stored(&phone).contains("Quirina"));
    check_gone(&mut phone, player);
}

/// Half-typed words of others with the name in them, on this page and on another.
#[test]
fn half_typed_words_with_the_name_go() {
    let mut phone = used();
    let (quilla, tove) = (phone.player("Quilla"), phone.player("Tove"));
    phone.act(Action::Notes(NotesTap::Typed(String::new())));
    write_note(&mut phone, tove, "Kept calm");
    let note = last_note(&phone);
    phone.act(Action::Go(Screen::Home(tove)));
    for (piece, words) in [(Piece::Question, "What of Quilla?"), (Piece::Own, "Brave and calm")] {
        phone.act(Action::Home(HomeTap::Opened(piece)));
        phone.act(Action::Home(HomeTap::Typed(words.to_owned())));
        phone.act(Action::Home(HomeTap::Closed));
    }
    phone.act(Action::Notes(NotesTap::Wanted(None, Some(tove))));
    phone.act(Action::Notes(NotesTap::Typed("Half of quilla".to_owned())));
    phone.act(Action::Go(Screen::Remark(note)));
    phone.act(Action::Notes(NotesTap::Edit(EditTap::Typed("As calm as Quilla".to_owned()))));
    let mut window = phone.second_window();
    window.act(Action::Go(Screen::Remark(note)));
    remove(&mut phone, "Quilla");
    window.hear(&phone);
    for phone in [&phone, &window] {
        let text = stored(phone).to_lowercase();
        assert!(text.contains("brave and calm") && text.contains("kept calm"), "others stay");
        assert!(!text.contains("what of") && !text.contains("half of") && !text.contains("as calm as"));
        assert!(!phone.settings.clone().unwrap_or_default().to_lowercase().contains("quilla"));
    }
    let edit = &window.model.drafts.notes.edit;
    assert_eq!(edit.as_ref().map(|(_, note)| note.text.as_str()), Some("Kept calm"), "as it stands");
    check_gone(&mut phone, quilla);
}
