//! What the app says of copies is true: nothing is called sent that isn't, nothing is counted twice, and a stale copy is never
//! called current.

use peppertally::app::action::{Action, CopyHow};
use peppertally::app::effect::{Effect, Report};
use peppertally::app::screen::Screen;
use peppertally::app::settings::Settings;
use peppertally::app::update;
use peppertally::app::view::share;
use peppertally::app::words;
use peppertally::app::work::{Goes, Job, Span, TableOf};
use peppertally::domain::drill::DrillSpec;
use peppertally::domain::entry::Fact;
use peppertally::domain::ids::{Clock, Place, RunId};
use peppertally::domain::skill::{Outcome, Skill};
use peppertally::wire::file::{self, Limits, MAX_NUMBER, Refusal};
use peppertally::wire::record;

use super::phone::{Phone, pass};
use super::steps::{correct_last, practised};

const SQUAD: &str = "Mira\nTove\nOdile\nBram";

fn since(phone: &Phone) -> String {
    share::share(&phone.model).since
}

/// Says what Share says, and that it stays so over a restart.
#[track_caller]
fn check(phone: &mut Phone, says: &str) {
    assert!(since(phone).starts_with(says), "{}", since(phone));
    phone.restart_elsewhere();
    assert!(since(phone).starts_with(says), "after a restart: {}", since(phone));
}

/// A copy through the share sheet.
fn send(phone: &mut Phone) {
    phone.act(Action::CopyWanted(CopyHow::ShareSheet, Goes::default()));
    phone.report(Report::CopyLeft { how: CopyHow::ShareSheet, left: Ok(true) });
}

/// A tap that was undone is in no figure of the board, and in none under Share. Found at the second trial.
#[test]
fn an_undone_tap_counts_nowhere() {
    let mut phone = Phone::with_squad("Mira\nTove\nOdile");
    phone.drill(0);
    (0..5).for_each(|_| phone.act(Action::PlaceTapped(Place(0), pass(3))));
    assert_eq!(update::unsent(&phone.model).n_counted, 5);
    (0..2).for_each(|_| phone.act(Action::UndoTapped));
    assert_eq!(update::unsent(&phone.model).n_counted, 3);
}

/// The storage refuses at the start: what is tallied then comes after the last copy, today and once the storage opens.
#[test]
fn what_is_tallied_while_the_storage_refuses() {
    let mut phone = Phone::with_squad(SQUAD);
    practised(&mut phone, &[3; 40]);
    send(&mut phone);
    let copied = phone.model.settings.copied_clock;
    assert!(copied > 40);
    phone.restart_refused();
    assert!(since(&phone).starts_with("What is stored can't be read just now"), "{}", since(&phone));
    assert!(phone.model.writer.clock() >= Clock(copied));
    phone.act(Action::RosterTyped("Iva".to_owned()));
    phone.hold_back(true);
    phone.act(Action::RosterTaken);
    phone.drill(0);
    (0..30).for_each(|_| phone.act(Action::PlaceTapped(Place(0), pass(3))));
    assert!(since(&phone).starts_with("30 contacts in no copy yet."), "{}", since(&phone));
    phone.hold_back(false);
    phone.confirm_all();
    check(&mut phone, "30 contacts since the copy of");
}

/// The database alone was cleared: the settings still know how far the clock had come.
#[test]
fn a_cleared_database_begins_after_the_copy() {
    let mut phone = Phone::with_squad(SQUAD);
    practised(&mut phone, &[3; 10]);
    send(&mut phone);
    phone.db.clear();
    phone.blocks.clear();
    phone.summaries.clear();
    phone.restart();
    // What a new page's clock shows lies after the copy.
    phone.wait(0, 120_000);
    phone.act(Action::RosterTyped("Iva".to_owned()));
    phone.act(Action::RosterTaken);
    practised(&mut phone, &[3; 3]);
    check(&mut phone, "3 contacts since the copy of");
}

/// Settings that claim a clock beyond all clocks call nothing sent.
#[test]
fn a_copied_clock_beyond_all_clocks() {
    let text = Settings { copied_clock: u64::MAX, copied_wall_ms: Some(1), ..Settings::default() }.to_json();
    let mut phone = Phone::with_squad(SQUAD);
    phone.settings = Some(text);
    phone.restart();
    practised(&mut phone, &[3; 3]);
    check(&mut phone, "3 contacts, and no copy has left this phone yet.");
}

/// A record with a clock that readers refuse moves no clock, and is left out of the copy, which says so: the copy can be read.
#[test]
fn one_damaged_clock_spoils_no_copy() {
    let mut phone = Phone::with_squad(SQUAD);
    phone.drill(0);
    phone.act(Action::PlaceTapped(Place(0), pass(3)));
    let text = phone.db.values_mut().find(|text| text.contains("contact-noted")).expect("a contact");
    let mut entry = record::decode(text).expect("ours");
    entry.clock = Clock(MAX_NUMBER + 1);
    *text = record::encode(&entry);
    phone.restart();
    phone.act(Action::PlaceTapped(Place(0), pass(3)));
    assert!(phone.model.writer.clock() < Clock(1_000));
    let copy = phone.copy();
    let entries = file::read(&copy, &Limits::default()).expect("a copy that others can read").entries;
    assert!(entries.iter().all(|e| e.id != entry.id) && entries.len() > 15);
    assert!(share::share(&phone.model).answer.expect("said").text.contains("(1 stored note)"));
    assert!(phone.model.settings.copied_wall_ms.is_none());
}

/// What is corrected, named or taken in after a copy isn't in it; and a correction makes no sent contact unsent.
#[test]
fn everything_is_everything() {
    let after: [fn(&mut Phone, RunId); 4] = [
        |phone, run| correct_last(phone, run, 0),
        |phone, _| {
            phone.act(Action::RosterTyped("Iva".to_owned()));
            phone.act(Action::RosterTaken);
        },
        |phone, _| {
            let mut other = Phone::other("Ana");
            practised(&mut other, &[3; 5]);
            phone.choose("copy.json", "k", &other.copy());
            phone.act(Action::ParcelAccepted);
        },
        |phone, run| {
            phone.act(Action::Go(Screen::RunReport(run)));
            phone.act(Action::RunReopened(run));
            phone.act(Action::EffortTapped);
            phone.act(Action::Finish);
            phone.end_practice();
            phone.act(Action::Go(Screen::Today));
        },
    ];
    for change in after {
        let mut phone = Phone::with_squad(SQUAD);
        let (_, run) = practised(&mut phone, &[3; 12]);
        send(&mut phone);
        check(&mut phone, "Everything is in the copy of");
        change(&mut phone, run);
        check(&mut phone, "Everything counted on this phone is in the copy of");
        send(&mut phone);
        check(&mut phone, "Everything is in the copy of");
    }
}

/// A parcel about an own practice: it is counted from memory or from its summary, never from both.
#[test]
fn a_parcel_counts_no_practice_twice() {
    let mut coach = Phone::with_squad(SQUAD);
    let (_, run) = practised(&mut coach, &[3; 12]);
    let mut other = Phone::other("Ana");
    other.choose("copy.json", "k", &coach.copy());
    other.act(Action::ParcelAccepted);
    correct_last(&mut other, run, 0);
    let back = other.copy();
    // Read already, then read again for what the parcel says.
    for read in [false, true] {
        coach.restart();
        if read {
            coach.act(Action::Go(Screen::RunReport(run)));
            coach.act(Action::Go(Screen::Today));
        }
        coach.choose("back.json", if read { "b" } else { "a" }, &back);
        coach.act(Action::ParcelAccepted);
        assert!(since(&coach).starts_with("12 contacts"), "{}", since(&coach));
    }
    check(&mut coach, "12 contacts, and no copy");
}

/// Another window goes on with a packed practice: its contacts count once, before and after a parcel has the summary made again.
#[test]
fn what_another_window_counts_counts_once() {
    let mut first = Phone::with_squad(SQUAD);
    let (_, run) = practised(&mut first, &[3; 12]);
    let mut other = Phone::other("Ana");
    other.choose("copy.json", "k", &first.copy());
    other.act(Action::ParcelAccepted);
    correct_last(&mut other, run, 0);
    let back = other.copy();
    first.restart();
    let mut second = first.second_window();
    second.act(Action::Go(Screen::RunReport(run)));
    second.act(Action::RunReopened(run));
    second.act(Action::TakeOver(run));
    (0..2).for_each(|_| second.act(Action::PlaceTapped(Place(0), pass(3))));
    first.hear(&second);
    first.db.clone_from(&second.db);
    assert!(since(&first).starts_with("14 contacts"), "{}", since(&first));
    first.choose("back.json", "b", &back);
    first.act(Action::ParcelAccepted);
    assert!(since(&first).starts_with("14 contacts"), "{}", since(&first));
}

/// A practice that was sent in its middle and lies packed: which of its contacts were in the copy isn't in memory.
#[test]
fn a_practice_that_was_sent_in_part() {
    let mut phone = Phone::with_squad(SQUAD);
    phone.drill(0);
    (0..5).for_each(|_| phone.act(Action::PlaceTapped(Place(0), pass(3))));
    send(&mut phone);
    (0..3).for_each(|_| phone.act(Action::PlaceTapped(Place(0), pass(3))));
    assert!(since(&phone).starts_with("3 contacts since"), "{}", since(&phone));
    phone.end_practice();
    phone.act(Action::Go(Screen::Today));
    assert!(since(&phone).starts_with("3 contacts since"), "{}", since(&phone));
    phone.restart();
    assert!(since(&phone).starts_with("Up to 8 contacts since"), "{}", since(&phone));
}

/// The demo tells nothing of the phone's own copies.
#[test]
fn the_demo_knows_no_copy() {
    let mut phone = Phone::with_squad(SQUAD);
    practised(&mut phone, &[3; 5]);
    send(&mut phone);
    let demo = Phone::demo_on(&phone);
    assert!(since(&demo).ends_with("and no copy has left this phone yet."), "{}", since(&demo));
}

fn jobs(phone: &Phone) -> usize {
    phone.effects.iter().filter(|e| matches!(e, Effect::Work(Job::Copy { .. }))).count()
}

fn offers(phone: &Phone) -> usize {
    phone.effects.iter().filter(|e| matches!(e, Effect::Offer { .. })).count()
}

/// A copy stands ready, the sheet was closed, and the coach tallies on: what is sent then is written anew.
#[test]
fn a_stale_copy_is_written_anew() {
    let mut phone = Phone::with_squad(SQUAD);
    phone.drill(0);
    phone.act(Action::CopyWanted(CopyHow::ShareSheet, Goes::default()));
    phone.report(Report::CopyLeft { how: CopyHow::ShareSheet, left: Ok(false) });
    assert!(share::share(&phone.model).ready);
    phone.effects.clear();
    phone.act(Action::CopySent);
    assert_eq!((jobs(&phone), offers(&phone)), (0, 1), "nothing is newer");
    phone.report(Report::CopyLeft { how: CopyHow::ShareSheet, left: Ok(false) });
    (0..5).for_each(|_| phone.act(Action::PlaceTapped(Place(0), pass(3))));
    phone.effects.clear();
    phone.act(Action::CopySent);
    assert_eq!((jobs(&phone), offers(&phone)), (1, 1));
    phone.report(Report::CopyLeft { how: CopyHow::ShareSheet, left: Ok(true) });
    let text = share::share(&phone.model).answer.expect("said").text;
    assert!(text.ends_with("Everything up to now is in it. On the other phone: Share, then “Open a file”."), "{text}");
    check(&mut phone, "Everything is in the copy of");
}

/// Two taps open one sheet; what is tallied while it is open isn't called sent.
#[test]
fn one_sheet_at_a_time() {
    let mut phone = Phone::with_squad(SQUAD);
    phone.drill(0);
    phone.act(Action::CopyWanted(CopyHow::ShareSheet, Goes::default()));
    phone.report(Report::CopyLeft { how: CopyHow::ShareSheet, left: Ok(false) });
    phone.effects.clear();
    for _ in 0..2 {
        phone.act(Action::CopySent);
        phone.act(Action::CopyWanted(CopyHow::Download, Goes::default()));
    }
    assert_eq!((jobs(&phone), offers(&phone)), (0, 1));
    assert!(share::share(&phone.model).writing);
    phone.act(Action::PlaceTapped(Place(0), pass(3)));
    phone.report(Report::CopyLeft { how: CopyHow::ShareSheet, left: Ok(true) });
    let text = share::share(&phone.model).answer.expect("said").text;
    assert!(text.contains("What came after it was written is not in it."), "{text}");
    check(&mut phone, "1 contact since the copy of");
}

/// A sheet that never says how it ended keeps nobody from sending: coming back is enough.
#[test]
fn a_sheet_that_never_answers() {
    let mut phone = Phone::with_squad(SQUAD);
    phone.act(Action::CopyWanted(CopyHow::ShareSheet, Goes::default()));
    assert!(share::share(&phone.model).writing);
    phone.act(Action::Go(Screen::Share));
    let view = share::share(&phone.model);
    assert!(view.ready && !view.writing);
}

/// A download that failed leaves nothing that the share sheet could send.
#[test]
fn a_download_that_failed_does_not_wait() {
    let mut phone = Phone::with_squad(SQUAD);
    phone.act(Action::CopyWanted(CopyHow::Download, Goes::default()));
    phone.report(Report::CopyLeft { how: CopyHow::Download, left: Err("no room".to_owned()) });
    let view = share::share(&phone.model);
    assert!(!view.ready && !view.writing && view.answer.expect("said").refused);
}

/// A file given to the browser counts once the coach has seen it.
#[test]
fn a_download_counts_once_it_was_seen() {
    let mut phone = Phone::with_squad(SQUAD);
    practised(&mut phone, &[3; 3]);
    for (there, says) in [(false, "3 contacts, and no copy"), (true, "Everything is in the copy of")] {
        phone.act(Action::CopyWanted(CopyHow::Download, Goes::default()));
        phone.report(Report::CopyLeft { how: CopyHow::Download, left: Ok(true) });
        assert!(since(&phone).starts_with("3 contacts, and no copy"), "{}", since(&phone));
        let given = share::share(&phone.model).given.expect("asked");
        assert!(
            given.contains(".json") && given.contains("folder Downloads") && given.ends_with("Is it there?"),
            "{given}"
        );
        phone.act(Action::CopySeen(there));
        assert_eq!(share::share(&phone.model).answer.expect("said").refused, !there);
        check(&mut phone, says);
    }
    assert_eq!(update::unsent(&phone.model).n_counted, 0);
}

/// A rally is no contact, where copies are told of and where one is taken in.
#[test]
fn rallies_are_called_rallies() {
    use peppertally::domain::entry::Side;
    let mut phone = Phone::with_squad(SQUAD);
    phone.drill(13);
    (0..2).for_each(|_| phone.act(Action::SideWon(Side::Near)));
    assert!(since(&phone).starts_with("2 rallies, and no copy"), "{}", since(&phone));
    phone.drill(0);
    phone.act(Action::PlaceTapped(Place(0), pass(3)));
    assert!(since(&phone).starts_with("1 contact and 2 rallies, and no copy"), "{}", since(&phone));
    phone.end_practice();
    phone.act(Action::Go(Screen::Today));
    phone.restart();
    assert!(phone.model.runs.is_empty(), "packed");
    assert!(since(&phone).starts_with("1 contact and 2 rallies, and no copy"), "{}", since(&phone));
    let bytes = phone.copy();
    let mut other = Phone::other("Ana");
    other.choose("copy.json", "k", &bytes);
    let lead = share::share(&other.model).parcel.expect("a file").preview.lead;
    assert_eq!(lead, "1 contact and 2 rallies of 1 practice, not here yet.");
}

/// Good ones that another window counted of groups stand beside, and are as unsent packed as they were loose.
#[test]
fn counted_beside_is_unsent_too() {
    use peppertally::domain::drill::{Board, DrillSpec, OnFloor, Rule};
    use peppertally::domain::ids::GroupNo;
    use peppertally::domain::skill::{GoodFrom, Skill};
    let mut first = Phone::with_squad(SQUAD);
    first.new_drill(DrillSpec {
        name: "Groups".to_owned(),
        skill: Skill::Own("Setting".to_owned()),
        board: Board::Lanes,
        rule: Rule::Tally { goal: None },
        good_from: GoodFrom::GoodKey,
        feed: DrillSpec::EASY,
        on_floor: OnFloor { groups: Some(2), ..OnFloor::default() },
    });
    let Screen::Run(run) = first.model.screen else { panic!("run") };
    let mut second = first.second_window();
    second.act(Action::TakeOver(run));
    first.act(Action::LaneTapped(GroupNo(0)));
    (0..2).for_each(|_| second.act(Action::LaneTapped(GroupNo(1))));
    second.hear(&first);
    assert_eq!(update::unsent(&second.model).n_counted, 3);
    second.db.extend(first.db.clone());
    second.end_practice();
    second.act(Action::Go(Screen::Today));
    second.restart();
    assert!(second.model.runs.is_empty(), "packed");
    assert_eq!(update::unsent(&second.model).n_counted, 3);
}

/// So are rallies: a second part of a game, counted by another window at the same time, is told beside it and never added.
#[test]
fn rallies_beside_are_unsent_too() {
    use peppertally::app::view::{report, today};
    use peppertally::domain::entry::Side;
    let mut first = Phone::with_squad(SQUAD);
    first.drill(12);
    let Screen::Run(run) = first.model.screen else { panic!("run") };
    first.act(Action::SideWon(Side::Far));
    let mut second = first.second_window();
    second.act(Action::TakeOver(run));
    for side in [Side::Near, Side::Far] {
        first.act(Action::SideWon(side));
    }
    second.act(Action::SideWon(Side::Near));
    second.hear(&first);
    // Two of the main line; two that the first window went on with.
    let told = "2 rallies counted beside it, not added";
    let open = today::today(&second.model).open.expect("it is on");
    assert_eq!(open.runs[0].beside.as_deref(), Some(told));
    let unsent = |phone: &Phone| {
        let unsent = update::unsent(&phone.model);
        (unsent.n_counted, unsent.n_rallies)
    };
    assert_eq!(unsent(&second), (4, 4));
    second.db.extend(first.db.clone());
    second.end_practice();
    second.act(Action::Go(Screen::Today));
    second.restart();
    assert!(second.model.runs.is_empty(), "packed");
    assert_eq!(unsent(&second), (4, 4));
    assert_eq!(report::after(&second.model).practices[0].what, "1 drill, 2 rallies; 2 beside");
}

/// So are a match's serves and passes, which are no try of a drill.
#[test]
fn serves_and_passes_beside_are_unsent_too() {
    use peppertally::app::view::{report, today};
    use peppertally::domain::drill::{DrillSpec, MatchGame, Rule};
    use peppertally::domain::entry::Side;
    use peppertally::domain::skill::{Outcome, ServeOutcome};
    let rule = Rule::MatchGame(MatchGame { a_side: 3, serves: true, ..MatchGame::default() });
    let mut first = super::steps::on_board(SQUAD, 13, |spec| DrillSpec { rule, ..spec });
    let Screen::Run(run) = first.model.screen else { panic!("run") };
    let serve = |phone: &mut Phone, outcome| phone.act(Action::OutcomeTapped(Outcome::Serve { outcome, fast: false }));
    let mut second = first.second_window();
    second.act(Action::TakeOver(run));
    // A serve of the main line; two beside it, with a rally that nobody's serve decided.
    serve(&mut second, ServeOutcome::In);
    serve(&mut first, ServeOutcome::In);
    first.act(Action::SideWon(Side::Near));
    serve(&mut first, ServeOutcome::In);
    second.hear(&first);
    let told = "2 serves or passes and 1 rally counted beside it, not added";
    let open = today::today(&second.model).open.expect("it is on");
    assert_eq!(open.runs[0].beside.as_deref(), Some(told));
    let unsent = |phone: &Phone| {
        let unsent = update::unsent(&phone.model);
        (unsent.n_counted, unsent.n_rallies)
    };
    assert_eq!(unsent(&second), (4, 1));
    second.db.extend(first.db.clone());
    second.end_practice();
    second.act(Action::Go(Screen::Today));
    second.restart();
    assert!(second.model.runs.is_empty(), "packed");
    assert_eq!(unsent(&second), (4, 1));
    let row = &report::after(&second.model).practices[0];
    assert_eq!(row.what, "1 drill, 1 contact; 3 beside");
    let shown = report::practice_report(&second.model, row.practice).expect("a report");
    assert_eq!(shown.runs[0].beside.as_deref(), Some(told));
}

/// A part or a table leaves as asked, and counts as nothing sent: what is lost with the phone is all the rest.
#[test]
fn parts_and_tables_count_as_nothing_sent() {
    let mut phone = Phone::with_squad(SQUAD);
    phone.drill(0);
    (0..3).for_each(|_| phone.act(Action::PlaceTapped(Place(0), pass(3))));
    phone.act(Action::Finish);
    phone.act(Action::Go(Screen::Share));
    let unsent = since(&phone);
    let spans = share::share(&phone.model).spans;
    let labels: Vec<&str> = spans.iter().map(|(label, _)| label.as_str()).collect();
    assert_eq!(labels[..3], ["Everything", "The last 7 days", "The last 30 days"]);
    assert_eq!(spans.len(), 4, "and the one practice: {labels:?}");
    for (_, span) in spans {
        for table in [None, Some(TableOf::Contacts), Some(TableOf::Children)] {
            if table.is_none() && span == Span::All {
                continue;
            }
            phone.act(Action::CopyWanted(CopyHow::ShareSheet, Goes { table, span: span.clone(), only: None }));
            phone.report(Report::CopyLeft { how: CopyHow::ShareSheet, left: Ok(true) });
            let text = phone.copied.clone().expect("a file");
            let n_lines = text.lines().count();
            match table {
                Some(TableOf::Contacts) => assert_eq!(n_lines, 4, "{text}"),
                Some(TableOf::Children) => assert!(n_lines > 2 && text.contains("Mira"), "{text}"),
                Some(TableOf::Page) => unreachable!("not asked"),
                None => assert!(text.starts_with("{\"format\":\"peppertally-copy\""), "{text}"),
            }
            let said = share::share(&phone.model).answer.expect("said");
            // What comes next is said of what another phone opens.
            let then = if table.is_none() { format!(" {}", words::copies::THEN) } else { String::new() };
            assert_eq!((said.text, said.refused), (format!("{}{then}", words::copies::PART_LEFT), false));
            assert_eq!(since(&phone), unsent);
        }
    }
}

/// One practice as a copy: the other one isn't in it, the squad is.
#[test]
fn a_copy_of_one_practice() {
    let mut phone = Phone::with_squad(SQUAD);
    for _ in 0..2 {
        phone.drill(0);
        (0..3).for_each(|_| phone.act(Action::PlaceTapped(Place(0), pass(3))));
        phone.act(Action::Finish);
        let practice = phone.model.practice_today().expect("one is on").id;
        phone.act(Action::PracticeEnded(practice));
        phone.act(Action::Go(Screen::After));
    }
    let spans = share::share(&phone.model).spans;
    assert_eq!(spans.len(), 5);
    phone.act(Action::CopyWanted(CopyHow::Download, Goes { span: spans[4].1.clone(), ..Goes::default() }));
    let copy = file::read(phone.copied.clone().expect("a file").as_bytes(), &Limits::default()).expect("a copy");
    let n = |wanted: fn(&Fact) -> bool| copy.entries.iter().filter(|e| wanted(&e.fact)).count();
    assert_eq!(n(|f| matches!(f, Fact::PracticeStarted { .. })), 1);
    assert_eq!(n(|f| matches!(f, Fact::ContactNoted { .. })), 3);
    assert_eq!(n(|f| matches!(f, Fact::PlayerAdded { .. })), phone.model.squad().len());
}

/// One child's own data: no other child in it, whatever drills and efforts are called; markup stays text; it can't be taken in.
#[test]
fn one_childs_own_data_for_its_family() {
    let mut phone = Phone::with_squad("Mira <b>\nTove\nOdile\nBram");
    phone.act(Action::KindTyped("like Tove".to_owned()));
    phone.act(Action::KindAdded);
    let (drill, spec) = phone.model.base.drills().into_iter().map(|(id, s)| (id, s.clone())).next().expect("a drill");
    phone.act(Action::Go(Screen::Drill(Some(drill))));
    phone.act(Action::DrillDrafted(DrillSpec { name: "Tove’s passes".to_owned(), ..spec }));
    phone.act(Action::DrillKept);
    phone.drill(0);
    (0..3).for_each(|place| phone.act(Action::PlaceTapped(Place(place), pass(3 - place))));
    phone.act(Action::EffortTapped);
    phone.act(Action::Finish);
    let child = phone.player("Mira <b>");
    let own = phone.model.base.drills().into_iter().map(|(id, s)| (id, s.clone())).nth(6).expect("of an own skill");
    phone.act(Action::Go(Screen::Drill(Some(own.0))));
    phone.act(Action::DrillDrafted(DrillSpec { skill: Skill::Own("Tove’s dive".to_owned()), ..own.1 }));
    phone.act(Action::DrillKept);
    phone.drill(6);
    phone.act(Action::OutcomeTapped(Outcome::TwoKey { good: true }));
    phone.act(Action::Finish);
    let others = ["Tove", "Odile", "Bram"];
    let mut ask = |table| {
        let goes = Goes { table: Some(table), only: Some(child.0.to_string()), ..Goes::default() };
        phone.act(Action::CopyWanted(CopyHow::Download, goes));
        phone.report(Report::CopyLeft { how: CopyHow::Download, left: Ok(true) });
        phone.copied.clone().expect("a file")
    };
    for table in [TableOf::Page, TableOf::Contacts, TableOf::Children] {
        let text = ask(table);
        assert!(text.contains("Mira"), "{table:?} {text}");
        assert!(!others.iter().any(|name| text.contains(name)), "{table:?} {text}");
        let read = file::read(text.as_bytes(), &Limits::default());
        assert_eq!(read.map(|copy| copy.entries.len()), Err(Refusal::NotOurs));
    }
    let page = ask(TableOf::Page);
    assert!(page.contains("<h1>Mira &lt;b&gt;</h1>") && !page.contains("<b>") && !page.contains("<script"), "{page}");
    assert!(page.contains("<tr><th>Drill</th><th>What was counted</th></tr>"), "{page}");
    assert!(page.contains("<th>A drill</th><td>1 of 1 ball was good: too few balls to say more.</td>"), "{page}");
    // Read by a parent: words, and no identity of anything.
    let balls = ask(TableOf::Contacts);
    let lines: Vec<&str> = balls.trim_start_matches('\u{feff}').lines().collect();
    assert_eq!(lines.len(), 3);
    assert_eq!(lines[0], "Child,Day,Time,Drill,Ball,What came of it,Good?,Judged by");
    let passed = ["Mira <b>,2026-", ",A drill,tossed,passed so that the catcher could stand still,yes,the coach"];
    assert!(passed.iter().all(|part| lines[1].contains(part)), "{}", lines[1]);
    assert!(lines[2].ends_with(",Setting to the target,,good,yes,the coach"), "{}", lines[2]);
    assert!(!balls.contains(".0000"), "{balls}");
    let named = |effect: &Effect| matches!(effect, Effect::Offer { name, .. } if name.starts_with("mira-b-"));
    assert!(phone.effects.iter().any(named), "two children's files are told apart");
    let gone = Goes { table: Some(TableOf::Page), only: Some("0".to_owned()), ..Goes::default() };
    phone.act(Action::CopyWanted(CopyHow::Download, gone));
    assert_eq!(share::share(&phone.model).answer.expect("said").text, words::copies::NO_CHILD);
}
