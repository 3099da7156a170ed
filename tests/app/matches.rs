//! A match whose serves and passes are noted: what is due, one tap a serve, undo, a kill between two entries, the list, the reports.

use peppertally::app::action::Action;
use peppertally::app::groups::GroupsTap;
use peppertally::app::screen::Screen;
use peppertally::app::settings::How;
use peppertally::app::view::board::{GameView, Keys, NoteDue, NotesView};
use peppertally::app::view::report::{ReportSection, contacts, practice_report, run_report};
use peppertally::domain::drill::{DrillSpec, MatchGame, Rule};
use peppertally::domain::entry::{Contact, Side};
use peppertally::domain::ids::{GroupNo, Place, RunId};
use peppertally::domain::skill::{GoodFrom, Outcome, PassGrade, Role, ServeOutcome, ServeStyle};

use super::phone::{Phone, pass};

const SIX: &str = "Mira\nTove\nOdile\nBram\nIva\nLasse";
const MATCH: usize = 13;

fn ready(list: &str, rule: MatchGame) -> Phone {
    let mut phone = Phone::with_squad(list);
    // Dealt in the order of the squad, so that the names of the teams are known here.
    phone.act(Action::Groups(GroupsTap::How(How::ByHand)));
    let (id, spec) = phone.model.base.drills().into_iter().map(|(id, s)| (id, s.clone())).nth(MATCH).expect("a match");
    phone.act(Action::Go(Screen::Drill(Some(id))));
    phone.act(Action::DrillDrafted(DrillSpec { rule: Rule::MatchGame(rule), ..spec }));
    phone.act(Action::DrillKept);
    phone.drill(MATCH);
    phone
}

/// Three a side, serves and passes noted: Mira, Odile, Iva against Tove, Bram, Lasse.
fn both() -> Phone {
    ready(SIX, MatchGame { a_side: 3, serves: true, passes: true, ..MatchGame::default() })
}

fn run_of(phone: &Phone) -> RunId {
    let Screen::Run(run) = phone.model.screen else { panic!("no board: {:?}", phone.model.screen) };
    run
}

fn floor(phone: &Phone) -> GameView {
    let Keys::Game(game) = phone.board().keys else { panic!("no game") };
    *game
}

fn notes(phone: &Phone) -> NotesView {
    floor(phone).notes.expect("notes")
}

fn serve(phone: &mut Phone, outcome: ServeOutcome) {
    phone.act(Action::OutcomeTapped(Outcome::Serve { outcome, fast: false }));
}

fn passes(phone: &mut Phone, name: &str) {
    let player = phone.player(name);
    phone.act(Action::NameTapped(player));
}

fn points(phone: &Phone) -> (u32, u32) {
    let game = floor(phone);
    (game.near.points.expect("points"), game.far.points.expect("points"))
}

fn undo(phone: &Phone) -> String {
    phone.board().undo.unwrap_or_default()
}

fn last(phone: &Phone) -> Contact {
    phone.model.runs[&run_of(phone)].main.contacts.last().expect("a contact").contact.clone()
}

/// Off unless wanted: then the board is the one it was, and nothing but rallies is written.
#[test]
fn nothing_is_noted_unless_wanted() {
    let mut phone = ready(SIX, MatchGame { a_side: 3, ..MatchGame::default() });
    assert_eq!(floor(&phone).notes, None);
    let n = phone.model.own.iter().count();
    serve(&mut phone, ServeOutcome::Net);
    passes(&mut phone, "Tove");
    phone.act(Action::OutcomeTapped(pass(2)));
    assert_eq!(phone.model.own.iter().count(), n);
    phone.act(Action::SideWon(Side::Near));
    assert_eq!(points(&phone), (1, 0));
}

/// A serve is one tap, a pass two, the rally one as ever; the line says what may be noted, and undo says what goes back, of nobody by name.
#[test]
fn a_rally_with_its_serve_and_pass() {
    let mut phone = both();
    assert_eq!((phone.board().call.as_str(), notes(&phone).due), ("Team 1 serves: Mira", NoteDue::Serve));
    serve(&mut phone, ServeOutcome::In);
    assert_eq!((phone.board().call.as_str(), notes(&phone).due), ("In: who passed it?", NoteDue::Passer));
    let names: Vec<Vec<String>> =
        notes(&phone).receivers.into_iter().map(|row| row.into_iter().map(|key| key.name).collect()).collect();
    assert_eq!(
        names,
        [vec!["Bram", "Lasse"], vec!["Tove"]],
        "from left to right as at the top of the screen, the net first"
    );
    assert_eq!(undo(&phone), "serve in, just now");
    // Who serves passes nothing.
    passes(&mut phone, "Mira");
    assert_eq!(notes(&phone).due, NoteDue::Passer);
    passes(&mut phone, "Bram");
    assert_eq!((phone.board().call.as_str(), notes(&phone).due), ("Bram: target moved?", NoteDue::Grade));
    assert_eq!(undo(&phone), "Bram passes, just now");
    phone.act(Action::OutcomeTapped(pass(2)));
    assert_eq!(
        (phone.board().call.as_str(), notes(&phone).noted.as_str()),
        ("Tap the side that won it.", "Noted: serve in, pass moved 2")
    );
    assert_eq!((undo(&phone).as_str(), points(&phone)), ("pass moved 2, just now", (0, 0)));
    phone.restart();
    assert_eq!(notes(&phone).due, NoteDue::Rally, "a reload loses nothing");
    phone.act(Action::SideWon(Side::Far));
    assert_eq!(
        (points(&phone), notes(&phone).due, undo(&phone).as_str()),
        ((0, 1), NoteDue::Serve, "team 2's rally, just now")
    );
    assert_eq!(phone.board().call, "Team 2 serves: Bram");
    for due in [NoteDue::Rally, NoteDue::Grade, NoteDue::Passer, NoteDue::Serve] {
        phone.act(Action::UndoTapped);
        assert_eq!(notes(&phone).due, due);
    }
    assert_eq!(phone.board().undo, None);
}

/// The facts as on screen: role, position, side, style, what counts as good, and for a pass who served it.
#[test]
fn the_facts_of_a_contact() {
    let mut phone = both();
    let (mira, lasse) = (phone.player("Mira"), phone.player("Lasse"));
    phone.act(Action::Go(Screen::Child(mira)));
    phone.act(Action::ChildStyleChosen(ServeStyle::Jump));
    phone.act(Action::ChildKept);
    let run = *phone.model.runs.keys().next().expect("a run");
    phone.act(Action::Go(Screen::Run(run)));
    serve(&mut phone, ServeOutcome::In);
    let served = last(&phone);
    assert_eq!((served.player, served.role, served.place), (Some(mira), Role::Server, Some(Place(0))));
    assert_eq!((served.good_from, served.group, served.server), (GoodFrom::ServeIn, Some(GroupNo(0)), None));
    assert_eq!(served.style, Some(ServeStyle::Jump));
    passes(&mut phone, "Lasse");
    phone.act(Action::OutcomeTapped(pass(3)));
    let passed = last(&phone);
    assert_eq!((passed.player, passed.role, passed.place), (Some(lasse), Role::Passer, Some(Place(2))));
    assert_eq!((passed.group, passed.server, passed.style), (Some(GroupNo(1)), Some(mira), None));
    assert_eq!(passed.good_from, GoodFrom::Grade(PassGrade::Moved));
}

/// FIVB Official Volleyball Rules 2025-28, 6.1.1.1, 12.6.2: an ace or a missed serve is one tap with its rally, and one undo.
#[test]
fn a_serve_that_decides_its_rally_is_one_tap() {
    for (outcome, wanted, line) in [
        (ServeOutcome::Ace, (1, 0), "serve ace, team 1's rally, just now"),
        (ServeOutcome::Long, (0, 1), "serve long, team 2's rally, just now"),
        (ServeOutcome::Wide, (0, 1), "serve wide, team 2's rally, just now"),
        (ServeOutcome::Net, (0, 1), "serve net, team 2's rally, just now"),
    ] {
        let mut phone = both();
        let main = phone.model.runs[&run_of(&phone)].main.clone();
        serve(&mut phone, outcome);
        assert_eq!((points(&phone), undo(&phone).as_str(), notes(&phone).due), (wanted, line, NoteDue::Serve));
        phone.restart();
        assert_eq!(undo(&phone), line, "and after a reload");
        phone.act(Action::UndoTapped);
        assert_eq!(phone.model.runs[&run_of(&phone)].main, main, "{outcome:?}");
        phone.restart();
        assert_eq!((points(&phone), phone.board().undo), ((0, 0), None));
    }
}

/// Of the two entries of one tap the page kept only the first: the serve stands, who won is asked, and each goes back by itself.
#[test]
fn a_kill_between_a_serve_and_its_rally() {
    let mut phone = both();
    serve(&mut phone, ServeOutcome::Net);
    let rally = phone.model.runs[&run_of(&phone)].main.rallies[0].id.0.to_string();
    assert!(phone.db.remove(&rally).is_some());
    phone.restart();
    assert_eq!((points(&phone), notes(&phone).due), ((0, 0), NoteDue::Rally));
    assert_eq!(notes(&phone).noted, "Noted: serve net");
    assert_eq!(undo(&phone), "serve net, just now");
    phone.act(Action::SideWon(Side::Far));
    assert_eq!((points(&phone), undo(&phone).as_str()), ((0, 1), "team 2's rally, just now"));
    phone.act(Action::UndoTapped);
    assert_eq!((points(&phone), undo(&phone).as_str()), ((0, 0), "serve net, just now"));
    phone.act(Action::UndoTapped);
    assert_eq!((notes(&phone).due, phone.board().undo), (NoteDue::Serve, None));
}

/// What is said of a serve is a step of undo, and survives a reload; once the serve is noted it is too late.
#[test]
fn what_is_said_of_a_serve_is_undone() {
    let mut phone = both();
    phone.act(Action::OtherServesTapped);
    assert_eq!(
        (phone.board().call.as_str(), undo(&phone).as_str()),
        ("Team 2 serves: Tove", "other side serves, just now")
    );
    phone.restart();
    assert_eq!((phone.board().call.as_str(), floor(&phone).other), ("Team 2 serves: Tove", true));
    phone.act(Action::UndoTapped);
    assert_eq!((phone.board().call.as_str(), phone.board().undo), ("Team 1 serves: Mira", None));
    phone.act(Action::OtherServesTapped);
    phone.act(Action::OtherServesTapped);
    assert_eq!(
        (phone.board().call.as_str(), undo(&phone).as_str()),
        ("Team 1 serves: Mira", "other side serves: off, just now")
    );
    serve(&mut phone, ServeOutcome::In);
    assert!(floor(&phone).no_other);
    phone.act(Action::OtherServesTapped);
    assert!(!floor(&phone).other);
    // A match has no second serve.
    phone.act(Action::SecondServeTapped);
    assert_eq!(floor(&phone).second, None);
}

/// A serve may be put right to any serve, a pass to any pass, and neither to the other.
#[test]
fn outcomes_of_its_own_kind() {
    let mut phone = both();
    let run = run_of(&phone);
    serve(&mut phone, ServeOutcome::In);
    passes(&mut phone, "Bram");
    phone.act(Action::OutcomeTapped(pass(1)));
    phone.act(Action::SideWon(Side::Near));
    phone.act(Action::Go(Screen::Contacts(run)));
    let list = |phone: &Phone| contacts(&phone.model, run).expect("a list");
    let rows: Vec<String> = list(&phone).rows.iter().map(|row| format!("{} {}", row.who, row.what)).collect();
    assert_eq!(rows, ["Bram pass chased 1", "Mira serve in"]);
    for (at, words) in [
        (1, vec!["ace", "in", "long", "wide", "net"]),
        (0, vec!["stood 3", "moved 2", "chased 1", "gone 0", "gone 0, over the net"]),
    ] {
        let contact = list(&phone).rows[at].contact;
        phone.act(Action::ContactChosen(Some(contact)));
        let fix = list(&phone).fix.expect("a sheet");
        let offered: Vec<String> = fix.outcomes.iter().map(|(_, word, _)| word.clone()).collect();
        assert_eq!(offered, words);
        assert!(!fix.can_shift);
        assert_eq!(fix.ladder, None, "a match has no ladder of balls");
    }
}

fn told(section: &ReportSection) -> Vec<String> {
    let row = |row: &peppertally::app::view::report::ReportRow| {
        format!("{}: {}, {} | {}", row.name, row.count, row.share, row.more.clone().unwrap_or_default())
    };
    section.rows.iter().map(row).collect()
}

/// Serves and passes are told apart, child by child in the order of the squad; no touch is counted twice; the practice's report tells
/// the same once it lies packed.
#[test]
fn what_is_told_of_serves_and_passes() {
    let mut phone = both();
    let run = run_of(&phone);
    // Mira: in, passed 2 by Bram, won; in, passed 0 by Lasse, won; net. Bram (rotated): ace; in, passed 3 by Iva, lost.
    for (name, digit) in [("Bram", 2), ("Lasse", 0)] {
        serve(&mut phone, ServeOutcome::In);
        passes(&mut phone, name);
        phone.act(Action::OutcomeTapped(pass(digit)));
        phone.act(Action::SideWon(Side::Near));
    }
    serve(&mut phone, ServeOutcome::Net);
    serve(&mut phone, ServeOutcome::Ace);
    serve(&mut phone, ServeOutcome::In);
    passes(&mut phone, "Iva");
    phone.act(Action::OutcomeTapped(pass(3)));
    phone.act(Action::SideWon(Side::Near));
    assert_eq!(points(&phone), (3, 2));
    phone.act(Action::Finish);
    let report = run_report(&phone.model, run).expect("a report");
    let headings: Vec<&str> = report.sections.iter().map(|s| s.heading.as_str()).collect();
    assert_eq!(headings, ["On the court", "In the match: serves in", "In the match: passes, moved or better"]);
    assert_eq!(
        told(&report.sections[1]),
        ["Mira: 2 of 3, too few balls to say more | net 1", "Bram: 2 of 2, too few balls to say more | ace 1"]
    );
    assert_eq!(
        told(&report.sections[2]),
        [
            "Bram: 1 of 1, too few balls to say more | 0 stood, 1 moved, 0 chased, 0 gone",
            "Iva: 1 of 1, too few balls to say more | 1 stood, 0 moved, 0 chased, 0 gone",
            "Lasse: 0 of 1, too few balls to say more | 0 stood, 0 moved, 0 chased, 1 gone",
        ]
    );
    assert_eq!((report.everyone.as_str(), report.counts_only), ("Team 1: 3, team 2: 2.", None));
    let touched = |name: &str| phone.model.runs[&run].main.touches.of(phone.player(name));
    // Bram served twice and passed once: three touches and no more.
    assert_eq!((touched("Bram").judged, touched("Bram").all(), touched("Mira").all()), (3, 3, 3));
    phone.end_practice();
    let Screen::PracticeReport(practice) = phone.model.screen else { panic!("practice") };
    let row = |phone: &Phone| practice_report(&phone.model, practice).expect("a report").runs[0].share.clone();
    let share = row(&phone);
    assert_eq!(
        share,
        "5 rallies each. In the match, serves in: 4 of 5, about 4 to 10 in 10; passes moved or better: 2 of 3, too few balls to say more"
    );
    phone.act(Action::Go(Screen::Today));
    phone.next_day();
    phone.restart_elsewhere();
    let packed = &phone.model.packed[&practice];
    let summary = &packed.summary.runs[0];
    let game = summary.game.as_ref().expect("a game");
    assert_eq!((packed.read, game.noted.len(), summary.everyone.tries()), (false, 4, 0), "apart from a drill's");
    assert_eq!(row(&phone), share);
}

/// Passes alone: whoever served is a touch that is worked out.
#[test]
fn passes_alone() {
    let mut phone = ready(SIX, MatchGame { a_side: 3, passes: true, ..MatchGame::default() });
    assert_eq!((phone.board().call.as_str(), notes(&phone).due), ("Mira serves: who passes?", NoteDue::Passer));
    passes(&mut phone, "Tove");
    phone.act(Action::OutcomeTapped(pass(3)));
    // It is too late to say that the other side serves.
    let n = phone.model.own.iter().count();
    phone.act(Action::OtherServesTapped);
    assert_eq!((phone.model.own.iter().count(), floor(&phone).other, floor(&phone).serves), (n, false, Side::Near));
    phone.act(Action::SideWon(Side::Near));
    let touched = |name: &str| phone.model.runs[&run_of(&phone)].main.touches.of(phone.player(name));
    assert_eq!((touched("Mira").fed, touched("Tove").judged), (1, 1));
    // A rally whose pass isn't noted is one tap, as ever.
    phone.act(Action::SideWon(Side::Near));
    assert_eq!(points(&phone), (2, 0));
}

/// After the end nothing is noted; one side without a child plays nothing.
#[test]
fn nothing_after_the_end() {
    let mut phone = ready(SIX, MatchGame { a_side: 3, to: 2, serves: true, ..MatchGame::default() });
    serve(&mut phone, ServeOutcome::Ace);
    serve(&mut phone, ServeOutcome::Ace);
    silent(&mut phone);
    assert_eq!((phone.model.runs[&run_of(&phone)].main.contacts.len(), points(&phone)), (2, (2, 0)));
    let mut phone = ready(SIX, MatchGame { a_side: 3, serves: true, passes: true, ..MatchGame::default() });
    // A side that empties gets children of the other: only of one child alone is there none.
    for gone in SIX.lines().skip(1) {
        let player = phone.player(gone);
        phone.act(Action::PresenceTapped(player));
    }
    assert!(phone.board().nobody);
    silent(&mut phone);
    assert_eq!(points(&phone), (0, 0));
}

/// Nothing that could be tapped writes anything.
fn silent(phone: &mut Phone) {
    let n = phone.model.own.iter().count();
    serve(phone, ServeOutcome::Ace);
    passes(phone, "Mira");
    phone.act(Action::OutcomeTapped(pass(3)));
    phone.act(Action::OtherServesTapped);
    phone.act(Action::SecondServeTapped);
    phone.act(Action::SideWon(Side::Near));
    assert_eq!((phone.model.own.iter().count(), floor(phone).other), (n, false));
}

/// Serves that were noted without a rally are told: no table stands under "Nothing counted yet."
#[test]
fn a_match_of_serves_alone_is_told() {
    let mut phone = both();
    serve(&mut phone, ServeOutcome::In);
    phone.act(Action::Go(Screen::Today));
    let rows = peppertally::app::view::today::today(&phone.model).open.expect("it is on").runs;
    assert_eq!(rows[0].count, "1 serve or pass");
    phone.act(Action::Go(Screen::RunReport(rows[0].run)));
    let report = run_report(&phone.model, rows[0].run).expect("a report");
    assert_eq!(report.everyone, "In the match, serves in: 1 of 1, too few balls to say more.");
    phone.end_practice();
    let Screen::PracticeReport(practice) = phone.model.screen else { panic!("practice") };
    assert_eq!(practice_report(&phone.model, practice).expect("a report").runs[0].count, "1 serve or pass");
}
