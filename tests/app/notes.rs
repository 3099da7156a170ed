//! Notes in two taps, questions kept with whom they were asked of, and nobody forgotten over weeks.

use super::phone::{Phone, pass};
use peppertally::app::action::Action;
use peppertally::app::effect::{Effect, Report};
use peppertally::app::groups::GroupsTap;
use peppertally::app::library::LibraryTap;
use peppertally::app::notes::{AskTap, EditTap, ListTap, NotesTap, Sought, Source, Subject, to_ask};
use peppertally::app::plan::PlanTap;
use peppertally::app::screen::Screen;
use peppertally::app::view::notes::{self, HeardView, PadView, RemarkRow};
use peppertally::app::view::{report, today};
use peppertally::domain::entry::{Entry, Fact};
use peppertally::domain::ids::{Clock, EntryId, Place, PlayerId, PracticeId};
use peppertally::domain::library::LibraryNo;
use peppertally::domain::notes::{Note, NoteAbout, Spot};
use peppertally::domain::plan::PartKind;
use peppertally::wire::{file, record};

const FOUR: &str = "Mira\nTove\nOdile\nBram";

fn note(phone: &mut Phone, tap: NotesTap) {
    phone.act(Action::Notes(tap));
}

fn ask(phone: &mut Phone, tap: AskTap) {
    note(phone, NotesTap::Question(tap));
}

fn tag(phone: &mut Phone, tag: &str) {
    note(phone, NotesTap::Tagged(tag.to_owned()));
}

fn pad(phone: &Phone) -> PadView {
    notes::pad(&phone.model)
}

fn said(phone: &Phone) -> String {
    pad(phone).said.map(|said| said.line).unwrap_or_default()
}

/// Everything noted, the oldest first: whom and what.
fn all(phone: &Phone) -> Vec<(String, String)> {
    let groups = notes::notes(&phone.model).groups;
    let rows = groups.into_iter().rev().flat_map(|group| group.rows);
    rows.map(|row: RemarkRow| (row.who, row.what)).collect()
}

fn pairs(list: &[(&str, &str)]) -> Vec<(String, String)> {
    list.iter().map(|(a, b)| ((*a).to_owned(), (*b).to_owned())).collect()
}

fn on_board() -> Phone {
    let mut phone = Phone::with_squad(FOUR);
    phone.drill(0);
    phone.act(Action::PlaceTapped(Place(1), pass(3)));
    phone
}

/// Asks whoever is proposed, and tells who that was.
fn ask_next(phone: &mut Phone) -> PlayerId {
    ask(phone, AskTap::Wanted(Source::Here, None));
    let player = phone.model.drafts.notes.ask.player().expect("somebody");
    ask(phone, AskTap::Asked);
    player
}

/// "Note", a tag: two taps, and the child of the last ball is meant. It says so, and undo takes back that very note and no ball.
#[test]
fn two_taps_on_a_board() {
    let mut phone = on_board();
    let before = phone.db.len();
    note(&mut phone, NotesTap::Opened);
    assert_eq!(pad(&phone).title, "Note: Tove");
    assert_eq!(phone.db.len(), before, "opening writes nothing");
    tag(&mut phone, "brave swing");
    assert_eq!(said(&phone), "Noted: Tove, brave swing.");
    assert_eq!(phone.db.len(), before + 1);
    // One more tag goes onto it, the same again comes off.
    tag(&mut phone, "talked");
    assert_eq!(said(&phone), "Noted: Tove, brave swing, talked.");
    tag(&mut phone, "brave swing");
    assert_eq!(all(&phone), pairs(&[("Tove", "talked")]));
    let board = phone.board();
    assert_eq!(board.undo.as_deref().map(|undo| undo.split(',').next().unwrap_or_default()), Some("Tove"));
    assert_eq!(board.figures.of, "good of 1");
    let back = pad(&phone).said.expect("said").back;
    phone.act(back);
    assert_eq!(said(&phone), "Taken back: Tove, talked.");
    assert_eq!(all(&phone), []);
    assert_eq!(phone.board().figures.of, "good of 1", "the ball stays");
    let back = pad(&phone).said.expect("said").back;
    phone.act(back);
    assert_eq!(all(&phone), pairs(&[("Tove", "talked")]));
    // Killed: it is there, and the board goes on.
    phone.restart();
    assert!(matches!(phone.model.screen, Screen::Run(_)));
    assert_eq!(all(&phone), pairs(&[("Tove", "talked")]));
}

/// The board's undo takes back balls and passes notes by.
#[test]
fn undo_on_the_board_passes_notes_by() {
    let mut phone = on_board();
    note(&mut phone, NotesTap::Opened);
    tag(&mut phone, "tired");
    phone.act(Action::UndoTapped);
    assert_eq!(phone.board().figures.of, "good of 0");
    assert_eq!(all(&phone), pairs(&[("Tove", "tired")]));
    assert_eq!(phone.board().undo, None);
}

/// The last tag off leaves nothing, and the next one begins a new note.
#[test]
fn a_note_with_nothing_in_it_is_taken_back() {
    let mut phone = on_board();
    note(&mut phone, NotesTap::Opened);
    tag(&mut phone, "tired");
    tag(&mut phone, "tired");
    assert_eq!(all(&phone), []);
    tag(&mut phone, "talked");
    assert_eq!(all(&phone), pairs(&[("Tove", "talked")]));
}

/// One tap more: another child, a group of this run, the drill, the part, the whole practice. Weeks later a group's number would say
/// nothing: its children are named.
#[test]
fn about_a_group_a_drill_a_part_or_the_practice() {
    let mut phone = Phone::with_squad(FOUR);
    phone.act(Action::Plan(PlanTap::Made));
    phone.act(Action::Plan(PlanTap::Added(PartKind::Other)));
    let part = phone.model.base.plan_waiting().and_then(|id| phone.model.base.plan(id)).expect("a plan").parts[0].no;
    phone.act(Action::Plan(PlanTap::Begun(part)));
    // A part with no run, such as a talk.
    phone.act(Action::Go(Screen::Note));
    let labels = |phone: &Phone| pad(phone).others.into_iter().map(|key| key.label).collect::<Vec<_>>();
    let title =
        phone.model.base.plan(phone.model.practice_today().expect("on").plan.expect("followed")).expect("a plan").parts
            [0]
        .title
        .clone();
    assert_eq!(labels(&phone), [format!("Part: {title}"), "Practice".to_owned()]);
    assert!(pad(&phone).nobody, "nobody is meant before a name is tapped");
    tag(&mut phone, "talked");
    assert_eq!(all(&phone), [], "and no tag answers");
    note(&mut phone, NotesTap::About(Subject::Part));
    tag(&mut phone, "talked");
    note(&mut phone, NotesTap::About(Subject::Practice));
    tag(&mut phone, "tired");
    phone.act(Action::Groups(GroupsTap::Made));
    phone.act(Action::Go(Screen::Today));
    phone.drill(0);
    phone.act(Action::PlaceTapped(Place(0), pass(3)));
    note(&mut phone, NotesTap::Opened);
    note(&mut phone, NotesTap::About(Subject::Run));
    tag(&mut phone, "kept going");
    let bram = phone.player("Bram");
    note(&mut phone, NotesTap::About(Subject::Child(bram)));
    tag(&mut phone, "helped a teammate");
    let name = phone.board().title;
    let group = phone.model.run_on().expect("on").main.lineup.groups.clone();
    let group = if group.is_empty() { phone.model.practice_today().expect("on").groups } else { group };
    let mut expected = pairs(&[(format!("Part: {title}").as_str(), "talked"), ("The practice", "tired")]);
    expected.push((format!("Drill: {name}"), "kept going".to_owned()));
    expected.push(("Bram".to_owned(), "helped a teammate".to_owned()));
    note(&mut phone, NotesTap::About(Subject::Group(1)));
    tag(&mut phone, "talked");
    let names: Vec<String> = group[1].iter().map(|p| phone.model.name_of(*p)).collect();
    expected.push((names.join(", "), "talked".to_owned()));
    assert_eq!(all(&phone), expected);
}

/// Words, half written, outlive a kill; kept they are the note's, and the field is empty again.
#[test]
fn words_half_written_outlive_the_page() {
    let mut phone = on_board();
    note(&mut phone, NotesTap::Opened);
    note(&mut phone, NotesTap::Typed("Called every ball\u{7}\nand".to_owned()));
    phone.restart();
    note(&mut phone, NotesTap::Opened);
    assert_eq!(pad(&phone).words, "Called every ball\nand");
    tag(&mut phone, "talked");
    note(&mut phone, NotesTap::Kept);
    assert_eq!(all(&phone), pairs(&[("Tove", "talked: “Called every ball\nand”")]));
    assert_eq!(pad(&phone).words, "");
    phone.restart();
    assert_eq!(pad(&phone).words, "");
    // Nothing is meant, so nothing is kept, and nothing typed is lost.
    phone.act(Action::Go(Screen::Note));
    note(&mut phone, NotesTap::Typed("About whom?".to_owned()));
    note(&mut phone, NotesTap::Kept);
    assert_eq!((all(&phone).len(), pad(&phone).words.as_str()), (1, "About whom?"));
}

/// Words about Tove stay Tove's: neither a ball of another child nor a kill nor a note about somebody else gives them away.
#[test]
fn words_half_written_stay_with_their_child() {
    let mut phone = on_board();
    note(&mut phone, NotesTap::Opened);
    note(&mut phone, NotesTap::Typed("Called every".to_owned()));
    phone.act(Action::PlaceTapped(Place(2), pass(3)));
    note(&mut phone, NotesTap::Opened);
    assert_eq!((pad(&phone).title.as_str(), pad(&phone).words.as_str()), ("Note: Tove", "Called every"));
    phone.restart();
    phone.act(Action::PlaceTapped(Place(2), pass(3)));
    note(&mut phone, NotesTap::Opened);
    assert_eq!(pad(&phone).title, "Note: Tove");
    // A tag for another child goes to that child, and the words wait on.
    let mira = phone.player("Mira");
    note(&mut phone, NotesTap::About(Subject::Child(mira)));
    tag(&mut phone, "tired");
    note(&mut phone, NotesTap::Opened);
    assert_eq!(pad(&phone).title, "Note: Tove");
    note(&mut phone, NotesTap::Kept);
    assert_eq!(all(&phone), pairs(&[("Mira", "tired"), ("Tove", "“Called every”")]));
    // Nothing waits any more: the last ball's child is meant.
    note(&mut phone, NotesTap::Opened);
    assert_eq!(pad(&phone).title, "Note: Odile");
}

/// Typed with nobody meant they are nobody's, on any board and from any child's page; with them in sight a name takes them.
#[test]
fn words_about_nobody_go_to_nobody_by_themselves() {
    let mut phone = on_board();
    phone.act(Action::Go(Screen::Note));
    note(&mut phone, NotesTap::Typed("Who was it".to_owned()));
    phone.restart();
    note(&mut phone, NotesTap::Opened);
    assert!(pad(&phone).nobody);
    note(&mut phone, NotesTap::Kept);
    assert_eq!(all(&phone), []);
    let (mira, tove) = (phone.player("Mira"), phone.player("Tove"));
    note(&mut phone, NotesTap::Wanted(None, Some(mira)));
    assert!(pad(&phone).nobody);
    note(&mut phone, NotesTap::About(Subject::Child(tove)));
    phone.restart_elsewhere();
    // Hers now, and another's page doesn't take them.
    note(&mut phone, NotesTap::Wanted(None, Some(mira)));
    assert!(pad(&phone).nobody);
    note(&mut phone, NotesTap::Wanted(None, Some(tove)));
    assert_eq!(pad(&phone).title, "Note: Tove");
    note(&mut phone, NotesTap::Kept);
    assert_eq!(all(&phone), pairs(&[("Tove", "“Who was it”")]));
}

/// Words about one drill aren't about the next: on its board nobody is meant, and about a child they still belong where they were typed.
#[test]
fn words_belong_where_they_were_typed() {
    let mut phone = on_board();
    let run = phone.model.run_on().expect("on").id;
    note(&mut phone, NotesTap::Opened);
    note(&mut phone, NotesTap::About(Subject::Run));
    note(&mut phone, NotesTap::Typed("Loud".to_owned()));
    note(&mut phone, NotesTap::Opened);
    assert!(pad(&phone).title.starts_with("Note: Drill"), "{}", pad(&phone).title);
    phone.act(Action::Finish);
    phone.act(Action::Go(Screen::Today));
    phone.drill(2);
    note(&mut phone, NotesTap::Opened);
    assert!(pad(&phone).nobody && pad(&phone).words == "Loud");
    let mira = phone.player("Mira");
    note(&mut phone, NotesTap::About(Subject::Child(mira)));
    note(&mut phone, NotesTap::Typed("Loud and early".to_owned()));
    let second = phone.model.run_on().expect("on").id;
    phone.act(Action::Finish);
    phone.restart_elsewhere();
    phone.act(Action::Go(Screen::Note));
    assert_eq!(pad(&phone).title, "Note: Mira");
    note(&mut phone, NotesTap::Kept);
    let spots: Vec<_> = phone.model.base.remarks(|_| true).iter().map(|remark| remark.spot.run).collect();
    assert_eq!(spots, [Some(second)]);
    assert_ne!(second, run);
}

/// One note holds no more than a copy can take along; what finds no room is a note of its own and says so.
#[test]
fn a_full_note_takes_no_more() {
    let mut phone = on_board();
    note(&mut phone, NotesTap::Opened);
    // Ten times the 2,000 characters that can be typed at once. 20,000 are the most: nine with the ends of lines between them are
    // 9 * 2,000 + 8 = 18,008, and the tenth would make 20,009.
    for _ in 0..10 {
        note(&mut phone, NotesTap::Typed("x".repeat(2_500)));
        note(&mut phone, NotesTap::Kept);
    }
    let lengths = |phone: &Phone| {
        let texts = phone.model.base.remarks(|_| true).into_iter();
        texts.map(|remark| remark.note().expect("a note").text.chars().count()).collect::<Vec<_>>()
    };
    assert_eq!(lengths(&phone), [18_008, 2_000]);
    assert!(said(&phone).starts_with("The note before is full, so this is a new one. Noted: Tove, “xx"));
    tag(&mut phone, "talked");
    let bytes = phone.copy();
    let copy = file::read(&bytes, &file::Limits::default()).expect("our own file");
    let noted = copy.entries.iter().filter(|e| matches!(e.fact, Fact::NoteWritten { .. } | Fact::NoteChanged { .. }));
    assert_eq!(noted.count(), 11, "every one of them is in the copy");
    // Changed it is cut nowhere; longer it doesn't get.
    let id = phone.model.base.remarks(|_| true)[0].id;
    phone.act(Action::Go(Screen::Remark(id)));
    note(&mut phone, NotesTap::Edit(EditTap::Typed("y".repeat(18_007))));
    note(&mut phone, NotesTap::Edit(EditTap::Kept));
    assert_eq!(lengths(&phone), [18_007, 2_000]);
    phone.act(Action::Go(Screen::Remark(id)));
    note(&mut phone, NotesTap::Edit(EditTap::Typed("y".repeat(30_000))));
    note(&mut phone, NotesTap::Edit(EditTap::Kept));
    assert_eq!(lengths(&phone), [18_007, 2_000]);
}

/// Words that are being changed wait with their note: those of a second one take nothing away.
#[test]
fn two_notes_half_changed_wait_side_by_side() {
    let mut phone = on_board();
    note(&mut phone, NotesTap::Opened);
    tag(&mut phone, "tired");
    note(&mut phone, NotesTap::Opened);
    tag(&mut phone, "talked");
    let ids: Vec<EntryId> = phone.model.base.remarks(|_| true).iter().map(|remark| remark.id).collect();
    for (id, text) in ids.iter().zip(["First", "Second"]) {
        phone.act(Action::Go(Screen::Remark(*id)));
        note(&mut phone, NotesTap::Edit(EditTap::Typed(text.to_owned())));
    }
    phone.restart_elsewhere();
    let texts = |phone: &mut Phone| {
        let mut texts = Vec::new();
        for id in &ids {
            phone.act(Action::Go(Screen::Remark(*id)));
            let edit = notes::one(&phone.model, *id).expect("the note").edit.expect("a note");
            texts.push((edit.text, edit.changed));
        }
        texts
    };
    assert_eq!(texts(&mut phone), [("First".to_owned(), true), ("Second".to_owned(), true)]);
    // Kept, and typed back to what it was: nothing waits.
    note(&mut phone, NotesTap::Edit(EditTap::Kept));
    phone.act(Action::Go(Screen::Remark(ids[0])));
    note(&mut phone, NotesTap::Edit(EditTap::Typed(String::new())));
    assert_eq!(phone.model.settings.note_changes, []);
    assert_eq!(texts(&mut phone), [(String::new(), false), ("Second".to_owned(), false)]);
}

/// Words half typed are about children of one's own: the demo has none of them, and the phone has them after it.
#[test]
fn the_demo_has_no_words_of_the_coach() {
    let mut phone = on_board();
    note(&mut phone, NotesTap::Opened);
    tag(&mut phone, "tired");
    note(&mut phone, NotesTap::Typed("Called every".to_owned()));
    let id = phone.model.base.remarks(|_| true)[0].id;
    phone.act(Action::Go(Screen::Remark(id)));
    note(&mut phone, NotesTap::Edit(EditTap::Typed("Was up late".to_owned())));
    let kept = phone.settings.clone().expect("kept");
    assert!(kept.contains("Called every") && kept.contains("Was up late"));
    let demo = Phone::demo_on(&phone).model.settings.to_json();
    assert!(!demo.contains("Called every") && !demo.contains("Was up late"), "{demo}");
    let player = phone.player("Tove").0.to_string();
    assert!(kept.contains(&player) && !demo.contains(&player), "nor whom they are about");
}

/// Tags are the coach's own: added, renamed, removed. What was written keeps its word.
#[test]
fn tags_are_the_coachs_own() {
    let mut phone = on_board();
    note(&mut phone, NotesTap::Opened);
    tag(&mut phone, "tired");
    let list = |phone: &Phone| pad(phone).tags.into_iter().map(|(tag, _)| tag).collect::<Vec<_>>();
    let n = list(&phone).len();
    note(&mut phone, NotesTap::Tags(ListTap::Typed("  laughed ".to_owned())));
    note(&mut phone, NotesTap::Tags(ListTap::Kept));
    assert_eq!((list(&phone).len(), list(&phone).last().map(String::as_str)), (n + 1, Some("laughed")));
    note(&mut phone, NotesTap::Tags(ListTap::Change("tired".to_owned())));
    note(&mut phone, NotesTap::Tags(ListTap::Typed("needs a break".to_owned())));
    note(&mut phone, NotesTap::Tags(ListTap::Kept));
    note(&mut phone, NotesTap::Tags(ListTap::Removed("talked".to_owned())));
    assert!(list(&phone).contains(&"tired".to_owned()), "what the note at hand has can still be taken off it");
    phone.restart();
    note(&mut phone, NotesTap::Opened);
    let now = list(&phone);
    assert!(now.contains(&"needs a break".to_owned()) && now.contains(&"laughed".to_owned()));
    assert!(!now.contains(&"tired".to_owned()) && !now.contains(&"talked".to_owned()));
    assert_eq!(all(&phone), pairs(&[("Tove", "tired")]));
    // One that is there already adds nothing.
    let n = phone.db.len();
    note(&mut phone, NotesTap::Tags(ListTap::Typed("laughed".to_owned())));
    note(&mut phone, NotesTap::Tags(ListTap::Kept));
    assert_eq!(phone.db.len(), n);
}

/// Changed later: whom, which tags, which words; the highest revision stands. A page that goes away leaves the change half made.
#[test]
fn a_note_is_changed_any_time_later() {
    let mut phone = on_board();
    note(&mut phone, NotesTap::Opened);
    tag(&mut phone, "tired");
    let id = notes::notes(&phone.model).groups[0].rows[0].id;
    let (mira, tove) = (phone.player("Mira"), phone.player("Tove"));
    let edit = |phone: &mut Phone, tap| note(phone, NotesTap::Edit(tap));
    phone.act(Action::Go(Screen::Remark(id)));
    edit(&mut phone, EditTap::Child(mira));
    edit(&mut phone, EditTap::Child(tove));
    // The last one it is about stays: a note about nobody is none.
    edit(&mut phone, EditTap::Child(mira));
    edit(&mut phone, EditTap::Tagged("tired".to_owned()));
    edit(&mut phone, EditTap::Tagged("brave swing".to_owned()));
    edit(&mut phone, EditTap::Typed("First over the net".to_owned()));
    edit(&mut phone, EditTap::Kept);
    assert_eq!(phone.model.screen, Screen::Notes);
    assert_eq!(all(&phone), pairs(&[("Mira", "brave swing: “First over the net”")]));
    phone.act(Action::Go(Screen::Remark(id)));
    edit(&mut phone, EditTap::Typed("First over".to_owned()));
    phone.restart_elsewhere();
    phone.act(Action::Go(Screen::Remark(id)));
    let view = notes::one(&phone.model, id).expect("the note");
    assert_eq!((view.edit.as_ref().map(|e| (e.text.as_str(), e.changed))), Some(("First over", true)));
    edit(&mut phone, EditTap::About(NoteAbout::Practice));
    edit(&mut phone, EditTap::Kept);
    assert_eq!(all(&phone), pairs(&[("The practice", "brave swing: “First over”")]));
    phone.act(Action::Go(Screen::Remark(id)));
    note(&mut phone, NotesTap::TakenBack(id));
    assert_eq!(all(&phone), []);
    assert!(notes::one(&phone.model, id).expect("it can be put back").taken_back);
    note(&mut phone, NotesTap::PutBack(id));
    assert_eq!(all(&phone).len(), 1);
}

/// A packed practice keeps its notes and questions; opening reads summaries alone, and all can be read. Changed after a restart it is
/// packed again.
#[test]
fn a_packed_practice_keeps_them() {
    let mut phone = on_board();
    note(&mut phone, NotesTap::Opened);
    tag(&mut phone, "talked");
    let asked = ask_next(&mut phone);
    let expected = all(&phone);
    assert_eq!(expected.len(), 2);
    phone.end_practice();
    let Screen::PracticeReport(practice) = phone.model.screen else { panic!("a report") };
    let rows = |phone: &Phone| report::practice_report(&phone.model, practice).expect("a report").remarks;
    assert_eq!(rows(&phone).len(), 2);
    phone.act(Action::Go(Screen::Today));
    assert!(phone.db.values().all(|record| !record.contains("note-written") && !record.contains("question-asked")));
    phone.restart();
    assert!(phone.model.runs.is_empty(), "opening reads summaries alone");
    assert_eq!(all(&phone), expected);
    assert_eq!(notes::of_child(&phone.model, asked).iter().filter(|row| row.is_question).count(), 1);
    // A note is changed and the page dies before it is packed again.
    let id = notes::notes(&phone.model).groups[0].rows[0].id;
    phone.act(Action::Go(Screen::Remark(id)));
    note(&mut phone, NotesTap::Edit(EditTap::Tagged("brave swing".to_owned())));
    phone.hold_back(true);
    note(&mut phone, NotesTap::Edit(EditTap::Kept));
    phone.restart();
    assert_eq!(all(&phone)[0].1, "talked, brave swing");
    phone.act(Action::Go(Screen::Today));
    assert!(phone.db.values().all(|record| !record.contains("note-changed")), "packed again");
    phone.restart();
    assert_eq!(all(&phone)[0].1, "talked, brave swing");
    // Taken back and packed; put back by a page that has seen the summary alone, and killed at once.
    phone.act(Action::Go(Screen::Remark(id)));
    note(&mut phone, NotesTap::TakenBack(id));
    phone.act(Action::Go(Screen::Today));
    phone.restart();
    assert_eq!(all(&phone).len(), 1);
    phone.act(Action::Go(Screen::Remark(id)));
    phone.hold_back(true);
    note(&mut phone, NotesTap::PutBack(id));
    phone.restart();
    assert_eq!(all(&phone).len(), 2);
}

/// As notes once were, of a run and naming no practice: its change and its way back are of the run's practice, and packed with it.
#[test]
fn a_note_that_names_a_run_alone_is_its_practices() {
    let mut phone = on_board();
    let (run, now) = (phone.model.run_on().expect("on").id, phone.model.now);
    let note_of_run = Note { about: NoteAbout::Run, tags: Vec::new(), text: "Loud".to_owned() };
    let spot = Spot { run: Some(run), ..Spot::default() };
    let id = EntryId::new(0x77, 1);
    let entry =
        Entry { id, clock: Clock(900), at: now, fact: Fact::NoteWritten { spot, note: note_of_run }, extra: None };
    phone.db.insert(id.to_string(), record::encode(&entry));
    phone.restart_elsewhere();
    phone.act(Action::Go(Screen::Remark(id)));
    note(&mut phone, NotesTap::Edit(EditTap::Typed("Loud and early".to_owned())));
    note(&mut phone, NotesTap::Edit(EditTap::Kept));
    note(&mut phone, NotesTap::TakenBack(id));
    note(&mut phone, NotesTap::PutBack(id));
    phone.end_practice();
    phone.act(Action::Go(Screen::Today));
    for kind in ["note-written", "note-changed", "taken-back"] {
        assert!(phone.db.values().all(|record| !record.contains(kind)), "{kind} is packed with its practice");
    }
    phone.restart();
    assert!(phone.model.runs.is_empty(), "opening reads summaries alone");
    assert_eq!(all(&phone).into_iter().map(|(_, what)| what).collect::<Vec<_>>(), ["“Loud and early”"]);
    // Changed once more after a restart: its practice is read, and packed again.
    phone.act(Action::Go(Screen::Remark(id)));
    note(&mut phone, NotesTap::Edit(EditTap::Typed("Loud".to_owned())));
    note(&mut phone, NotesTap::Edit(EditTap::Kept));
    phone.act(Action::Go(Screen::Today));
    assert!(phone.db.values().all(|record| !record.contains("note-changed")), "packed again");
}

/// After practice, at its report: a note about it belongs to it and is packed with it.
#[test]
fn a_note_may_come_after_practice() {
    let mut phone = on_board();
    phone.act(Action::Finish);
    phone.end_practice();
    let Screen::PracticeReport(practice) = phone.model.screen else { panic!("a report") };
    phone.restart();
    phone.act(Action::Go(Screen::PracticeReport(practice)));
    note(&mut phone, NotesTap::Wanted(Some(practice), None));
    assert_eq!(pad(&phone).of.as_deref(), Some("Sunday 29 November"));
    note(&mut phone, NotesTap::About(Subject::Practice));
    tag(&mut phone, "kept going");
    phone.act(Action::Go(Screen::Today));
    assert!(phone.db.values().all(|record| !record.contains("note-written")), "packed with its practice");
    phone.restart();
    assert_eq!(notes::of_practice(&phone.model, practice).len(), 1);
    // Half typed, and the page goes away: the practice waits with the words, here and on its way back from elsewhere.
    note(&mut phone, NotesTap::Wanted(Some(practice), None));
    note(&mut phone, NotesTap::About(Subject::Practice));
    note(&mut phone, NotesTap::Typed("Good end".to_owned()));
    phone.restart_elsewhere();
    phone.act(Action::Go(Screen::Note));
    assert_eq!((pad(&phone).of.as_deref(), pad(&phone).title.as_str()), (Some("Sunday 29 November"), "Note: Practice"));
    // The address leads there before anything is read.
    phone.restart_at(Screen::Note);
    assert_eq!(pad(&phone).of.as_deref(), Some("Sunday 29 November"));
    note(&mut phone, NotesTap::Kept);
    phone.act(Action::Go(Screen::Note));
    assert_eq!(pad(&phone).of, None);
    assert_eq!(notes::of_practice(&phone.model, practice).len(), 2);
    // About a child, between practices: of no practice.
    let mira = phone.player("Mira");
    note(&mut phone, NotesTap::Wanted(None, Some(mira)));
    tag(&mut phone, "ask next time");
    phone.act(Action::Go(Screen::Today));
    phone.restart();
    let groups = notes::notes(&phone.model).groups;
    assert_eq!((groups.len(), groups[0].title.as_str()), (2, "Between practices"));
    assert_eq!(notes::of_child(&phone.model, mira).len(), 1);
}

/// Copies hold them; taken in elsewhere they are read there, taken back they are gone.
#[test]
fn they_go_along_in_a_copy() {
    let mut phone = on_board();
    note(&mut phone, NotesTap::Opened);
    tag(&mut phone, "talked");
    ask_next(&mut phone);
    phone.end_practice();
    phone.act(Action::Go(Screen::Today));
    let mira = phone.player("Mira");
    note(&mut phone, NotesTap::Wanted(None, Some(mira)));
    tag(&mut phone, "tired");
    let bytes = phone.copy();
    let copy = file::read(&bytes, &file::Limits::default()).expect("our own file");
    let of = |is: fn(&Fact) -> bool| copy.entries.iter().filter(|e| is(&e.fact)).count();
    assert_eq!(of(|f| matches!(f, Fact::NoteWritten { .. })), 2);
    assert_eq!(of(|f| matches!(f, Fact::QuestionAsked { .. })), 1);
    let mut other = Phone::other("Iva");
    other.choose("ours.json", "k", &bytes);
    other.act(Action::ParcelAccepted);
    assert_eq!(all(&other).len(), 3);
    other.restart();
    assert_eq!(all(&other).len(), 3);
    other.act(Action::ParcelTakenBack("k".to_owned()));
    assert_eq!(all(&other), []);
    other.act(Action::ParcelPutBack("k".to_owned()));
    assert_eq!(all(&other).len(), 3);
}

/// Children see a station: nothing is noted there and nothing shown; nor do the board's own words hold any of it.
#[test]
fn a_station_shows_and_takes_none() {
    let mut phone = Phone::with_squad(FOUR);
    phone.drill(2);
    note(&mut phone, NotesTap::Opened);
    tag(&mut phone, "tired");
    phone.act(Action::StationOpened(None));
    let n = phone.db.len();
    for tap in [NotesTap::Opened, NotesTap::Tagged("talked".to_owned()), NotesTap::Wanted(None, None)] {
        note(&mut phone, tap);
    }
    phone.act(Action::Go(Screen::Notes));
    assert!(matches!(phone.model.screen, Screen::Run(_)), "nothing leads away");
    assert_eq!(phone.db.len(), n);
    assert!(!format!("{:?}", phone.board()).contains("tired"));
}

/// A question of the library's drill, the child last; kept with one tap, and its answer as a note.
#[test]
fn a_question_is_kept() {
    let text =
        std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/public/library.json")).expect("the library");
    let mut phone = Phone::with_squad(FOUR);
    phone.report(Report::Library(Some(text)));
    let page = phone.model.shelf.library().expect("read").drill(LibraryNo(1)).expect("the first").clone();
    phone.act(Action::Go(Screen::LibraryDrill(LibraryNo(1))));
    ask(&mut phone, AskTap::Wanted(Source::Library(LibraryNo(1)), Some(page.ask[0].clone())));
    let view = notes::ask(&phone.model);
    assert_eq!(view.sentence.as_deref(), Some("Where did your hand finish, Mira?"));
    assert_eq!(
        (view.why.as_str(), view.back),
        ("Mira was not asked yet, in 0 practices.", Some(Screen::LibraryDrill(LibraryNo(1))))
    );
    ask(&mut phone, AskTap::OtherChild);
    assert_eq!(notes::ask(&phone.model).sentence.as_deref(), Some("Where did your hand finish, Tove?"));
    ask(&mut phone, AskTap::Asked);
    assert_eq!(notes::ask(&phone.model).said.map(|said| said.line).as_deref(), Some("Asked: Tove."));
    tag(&mut phone, "a good idea");
    assert_eq!(all(&phone), pairs(&[("Asked Tove", "Where did your hand finish, Tove?"), ("Tove", "a good idea")]));
    // A second "Asked" keeps nothing more.
    let n = phone.db.len();
    ask(&mut phone, AskTap::Asked);
    assert_eq!(phone.db.len(), n);
    phone.restart();
    assert_eq!(all(&phone).len(), 2);
}

/// On a board: the drill's own questions first, one that this child was not asked yet; the library comes when it is read.
#[test]
fn questions_follow_the_drill() {
    let mut phone = on_board();
    ask(&mut phone, AskTap::Opened);
    assert!(phone.effects.contains(&Effect::ReadLibrary), "the library is wanted");
    assert_eq!(notes::ask(&phone.model).sentence.as_deref(), Some("What did you look at, Mira?"));
    let own = |phone: &mut Phone, text: &str| {
        note(phone, NotesTap::Own(ListTap::Typed(text.to_owned())));
        note(phone, NotesTap::Own(ListTap::Kept));
    };
    own(&mut phone, "Where were your feet?");
    own(&mut phone, "Who called it?");
    assert_eq!(notes::ask(&phone.model).sentence.as_deref(), Some("Where were your feet, Mira?"));
    ask(&mut phone, AskTap::OtherQuestion);
    assert_eq!(notes::ask(&phone.model).sentence.as_deref(), Some("Who called it, Mira?"));
    ask(&mut phone, AskTap::Asked);
    // Everybody else comes before Mira again, and then with the question that she wasn't asked.
    for name in ["Tove", "Odile", "Bram"] {
        ask(&mut phone, AskTap::Opened);
        assert_eq!(notes::ask(&phone.model).name, name);
        ask(&mut phone, AskTap::Asked);
    }
    ask(&mut phone, AskTap::Opened);
    assert_eq!(notes::ask(&phone.model).sentence.as_deref(), Some("Where were your feet, Mira?"));
    // Of another drill they say nothing.
    phone.act(Action::Go(Screen::Today));
    phone.drill(2);
    ask(&mut phone, AskTap::Opened);
    assert!(!notes::ask(&phone.model).sentence.expect("one").contains("feet"));
}

/// The library is read while a question is read out: that question stays, is the one that is kept, and the drill's own stand behind it.
#[test]
fn a_question_stays_while_it_is_read_out() {
    let text =
        std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/public/library.json")).expect("the library");
    let mut phone = Phone::with_squad(FOUR);
    phone.report(Report::Library(Some(text.clone())));
    phone.act(Action::Library(LibraryTap::Taken(LibraryNo(1))));
    phone.act(Action::Go(Screen::Today));
    let last = today::today(&phone.model).drills.len() - 1;
    phone.drill(last);
    // A page that has not read it yet.
    phone.restart();
    ask(&mut phone, AskTap::Opened);
    ask(&mut phone, AskTap::OtherQuestion);
    let sentence = |phone: &Phone| notes::ask(&phone.model).sentence.expect("one");
    let read_out = sentence(&phone);
    assert_eq!(read_out, "What will you try on the next ball, Mira?");
    phone.report(Report::Library(Some(text)));
    assert_eq!(sentence(&phone), read_out);
    ask(&mut phone, AskTap::OtherQuestion);
    assert_eq!(sentence(&phone), "Where did your hand finish, Mira?", "the drill's own");
    while sentence(&phone) != read_out {
        ask(&mut phone, AskTap::OtherQuestion);
    }
    ask(&mut phone, AskTap::Asked);
    assert_eq!(all(&phone), pairs(&[("Asked Mira", read_out.as_str())]));
}

/// Why it is her turn is as it was when the question was opened, with this one as soon as it was asked and without it when that is taken
/// back.
#[test]
fn why_it_is_whose_turn() {
    let mut phone = on_board();
    ask(&mut phone, AskTap::Opened);
    let why = |phone: &Phone| notes::ask(&phone.model).why;
    assert_eq!(why(&phone), "Mira was not asked yet, in 1 practice.");
    ask(&mut phone, AskTap::Asked);
    let asked = why(&phone);
    assert!(asked.starts_with("Mira was asked once in 1 practice, last on "), "{asked}");
    let back = notes::ask(&phone.model).said.expect("said").back;
    phone.act(back);
    assert_eq!(why(&phone), "Mira was not asked yet, in 1 practice.");
}

/// Who is away isn't asked; who is new isn't asked again and again.
#[test]
fn the_one_who_was_asked_least_comes_next() {
    let mut phone = Phone::with_squad("Mira\nTove\nOdile");
    let names =
        |phone: &Phone| to_ask(&phone.model).iter().map(|turn| phone.model.name_of(turn.player)).collect::<Vec<_>>();
    // Two practices, four questions each: Mira, Tove, Odile, Mira; then Tove, Odile, Mira, Tove.
    for _ in 0..2 {
        phone.drill(0);
        phone.act(Action::PlaceTapped(Place(0), pass(3)));
        for _ in 0..4 {
            ask_next(&mut phone);
        }
        phone.end_practice();
        phone.next_day();
    }
    // 3, 3 and 2 of 2 practices.
    phone.drill(0);
    assert_eq!(names(&phone), ["Odile", "Mira", "Tove"]);
    // A latecomer of the season: 0 of 1 comes first; then 1 of 1 is more often than 2 of 3.
    phone.act(Action::RosterTyped("Bram".to_owned()));
    phone.act(Action::RosterTaken);
    let bram = phone.player("Bram");
    phone.act(Action::PresenceTapped(bram));
    phone.act(Action::PresenceTapped(bram));
    assert_eq!(names(&phone)[0], "Bram");
    ask_next(&mut phone);
    assert_eq!(names(&phone), ["Odile", "Mira", "Tove", "Bram"]);
    let odile = phone.player("Odile");
    phone.act(Action::PresenceTapped(odile));
    assert_eq!(names(&phone), ["Mira", "Tove", "Bram"], "who is away isn't asked");
}

/// One practice on a day of its own, at which these were asked.
fn practice(phone: &mut Phone, asked: &[&str]) -> PracticeId {
    phone.drill(0);
    phone.act(Action::PlaceTapped(Place(0), pass(3)));
    for name in asked {
        let player = phone.player(name);
        ask(phone, AskTap::Wanted(Source::Here, None));
        while phone.model.drafts.notes.ask.player() != Some(player) {
            ask(phone, AskTap::OtherChild);
        }
        ask(phone, AskTap::Asked);
    }
    phone.end_practice();
    let Screen::PracticeReport(id) = phone.model.screen else { panic!("a report") };
    phone.act(Action::Go(Screen::Today));
    for _ in 0..7 {
        phone.next_day();
    }
    id
}

/// Four practices, a week apart:
///
/// | practice | asked |
/// |---|---|
/// | 1 | Mira, Bram |
/// | 2 | Tove |
/// | 3 | Odile, Tove |
/// | 4 | Odile |
///
/// Since they were asked last: Mira 3 (2, 3, 4), Bram 3, Tove 1 (4), Odile 0. From two practices on somebody is named, so Tove isn't.
/// Read 28 days after the first practice began and a little later: that one lies more than four weeks back, so 3 of 4 are lately.
#[test]
fn nobody_is_forgotten_over_weeks() {
    let mut phone = Phone::with_squad(FOUR);
    for asked in [&["Mira", "Bram"][..], &["Tove"], &["Odile", "Tove"], &["Odile"]] {
        practice(&mut phone, asked);
    }
    let check = |view: HeardView| {
        assert_eq!(view.spans, "3 practices in four weeks, 4 in all");
        let unheard = "Neither asked, noted nor seen making an effort in four weeks: Mira, Bram.";
        assert_eq!(view.first, ["Not asked for 3 practices: Mira, Bram.", unheard]);
        let asked: Vec<&str> = view.rows.iter().map(|row| row.asked.as_str()).collect();
        assert_eq!(
            asked,
            [
                "Not asked in four weeks, last on Sunday 29 November; once in all.",
                "Asked twice in four weeks, last on Sunday 13 December.",
                "Asked twice in four weeks, last on Sunday 20 December.",
                "Not asked in four weeks, last on Sunday 29 November; once in all.",
            ]
        );
        assert_eq!(view.rows[0].seen, "Nothing noted; at 3 of 3 practices.");
    };
    check(notes::heard(&phone.model));
    // The same out of summaries alone.
    let wall_ms = phone.model.now.wall_ms;
    phone.restart();
    let here = phone.model.now.wall_ms;
    phone.wait(0, wall_ms - here);
    assert!(phone.model.runs.is_empty());
    check(notes::heard(&phone.model));
    // Bram makes an effort and Mira is noted: neither is unheard any more, and Mira is still to be asked.
    phone.drill(0);
    let (mira, bram) = (phone.player("Mira"), phone.player("Bram"));
    phone.act(Action::EffortTapped);
    let effort = phone.model.board.effort.expect("an effort");
    phone.act(Action::EffortGiven(effort, Some(bram), None));
    note(&mut phone, NotesTap::Opened);
    note(&mut phone, NotesTap::About(Subject::Child(mira)));
    tag(&mut phone, "tired");
    // Practice that is on isn't over: it counts against nobody.
    assert_eq!(notes::heard(&phone.model).first, ["Not asked for 3 practices: Mira, Bram."]);
    assert_eq!(ask_next(&mut phone), mira);
    assert_eq!(notes::heard(&phone.model).first, ["Not asked for 3 practices: Bram."]);
    assert_eq!(ask_next(&mut phone), bram);
    assert_eq!(notes::heard(&phone.model).first, ["Everyone was asked at one of the last two practices they were at."]);
}

/// At the first practice nobody has been forgotten: it says who was not asked yet, and of nobody that nothing was seen.
#[test]
fn at_the_first_practice_nobody_is_forgotten() {
    let mut phone = on_board();
    assert_eq!(notes::heard(&phone.model).first, [peppertally::app::words::notes::HEARD_NOBODY]);
    ask_next(&mut phone);
    assert_eq!(notes::heard(&phone.model).first, ["Not asked yet: Tove, Odile, Bram."]);
    phone.end_practice();
    assert_eq!(notes::heard(&phone.model).first, ["Not asked yet: Tove, Odile, Bram."]);
}

/// By child and by tag; what nobody wrote isn't there.
#[test]
fn notes_are_read_by_child_and_tag() {
    let mut phone = on_board();
    note(&mut phone, NotesTap::Opened);
    tag(&mut phone, "talked");
    let mira = phone.player("Mira");
    note(&mut phone, NotesTap::About(Subject::Child(mira)));
    tag(&mut phone, "tired");
    let seek = |phone: &mut Phone, child, tag: Option<&str>| {
        note(phone, NotesTap::Sought(Sought { child, tag: tag.map(str::to_owned) }));
        all(phone)
    };
    assert_eq!(seek(&mut phone, Some(mira), None), pairs(&[("Mira", "tired")]));
    assert_eq!(seek(&mut phone, None, Some("talked")), pairs(&[("Tove", "talked")]));
    assert_eq!(seek(&mut phone, Some(mira), Some("talked")), []);
    assert_eq!(notes::notes(&phone.model).used, ["tired", "talked"]);
    assert_eq!(notes::one(&phone.model, EntryId::new(1, 9_999)), None);
}

/// Every address leads back to its screen.
#[test]
fn addresses() {
    let id = EntryId::new(7, 3);
    for screen in [Screen::Note, Screen::Ask, Screen::Notes, Screen::Remark(id), Screen::Heard] {
        assert_eq!(Screen::from_address(&screen.address()), Some(screen));
    }
}
