//! Easy balls, then a challenge: places, what is told aloud, playing on, and corrections that come late.

use peppertally::app::action::Action;
use peppertally::app::effect::Report;
use peppertally::app::effect::{Call, Effect, Signal};
use peppertally::app::screen::Screen;
use peppertally::app::view::board::{Cover, Keys};
use peppertally::app::view::report::{contacts, practice_report, run_report};
use peppertally::app::view::today::today;
use peppertally::domain::drill::{DrillSpec, Rule, Transition, TransitionEnd};
use peppertally::domain::ids::{ContactId, Place, RunId};

use super::phone::{Phone, pass};

const SQUAD: &str = "Mira\nTove\nOdile\nBram\nIva\nLasse";

/// On the board of a duel with one easy ball a round and two challenge balls.
fn duel(end: TransitionEnd) -> Phone {
    let mut phone = Phone::with_squad(SQUAD);
    let (drill, spec) = phone.model.base.drills().into_iter().map(|(id, s)| (id, s.clone())).nth(1).expect("a duel");
    let rule = Rule::Transition(Transition { n_easy: 1, n_challenge: 2, end, ..Transition::default() });
    phone.act(Action::Go(Screen::Drill(Some(drill))));
    phone.act(Action::DrillDrafted(DrillSpec { rule, ..spec }));
    phone.act(Action::DrillKept);
    phone.drill(1);
    phone
}

/// Balls to the first place, of these grades.
fn balls(phone: &mut Phone, grades: &[u8]) {
    for grade in grades {
        phone.act(Action::PlaceTapped(Place(0), pass(*grade)));
    }
}

fn run_of(phone: &Phone) -> RunId {
    let Screen::Run(run) = phone.model.screen else { panic!("no board: {:?}", phone.model.screen) };
    run
}

/// The call, and who stands at the first place.
fn shown(phone: &Phone) -> (String, String) {
    let board = phone.board();
    let Keys::Floor { columns, .. } = board.keys else { panic!("a floor") };
    (board.call, columns[0].name.clone())
}

fn told(call: &str, name: &str) -> (String, String) {
    (call.to_owned(), name.to_owned())
}

/// In the list the n-th ball is taken back, and the board is on screen again.
fn take_back(phone: &mut Phone, n: usize) -> ContactId {
    let run = run_of(phone);
    phone.act(Action::Go(Screen::Contacts(run)));
    let rows = contacts(&phone.model, run).expect("contacts").rows;
    let contact = rows[rows.len() - n].contact;
    phone.act(Action::ContactTakenBack(contact));
    phone.act(Action::Go(Screen::Run(run)));
    contact
}

/// Found in review: the last ball of round 1 taken back in the middle of round 2 put its names under the keys of round 2.
#[test]
fn a_late_take_back_leaves_the_places_of_the_round() {
    let mut phone = duel(TransitionEnd::Coach);
    balls(&mut phone, &[3, 3, 3, 3]);
    assert_eq!(shown(&phone), told("Challenge 1 of 2", "Bram"));
    take_back(&mut phone, 3);
    assert_eq!(shown(&phone), told("Challenge 1 of 2", "Bram"));
    balls(&mut phone, &[3]);
    assert_eq!(shown(&phone), told("Challenge 2 of 2", "Bram"));
}

/// Found in review: a ball of round 1 taken back after the swap brought its challenge back, but not its places, and the next ball
/// swapped once more. Put back, the ball is counted and nothing moves.
#[test]
fn a_ball_taken_back_after_the_swap_brings_its_places_back() {
    let mut phone = duel(TransitionEnd::Coach);
    balls(&mut phone, &[3, 0, 3]);
    assert_eq!(shown(&phone), told("Easy ball 1 of 1", "Bram"));
    let double = take_back(&mut phone, 2);
    assert_eq!(shown(&phone), told("Challenge 2 of 2", "Mira"));
    balls(&mut phone, &[3]);
    assert_eq!(shown(&phone), told("Easy ball 1 of 1", "Bram"));
    phone.act(Action::ContactPutBack(double));
    phone.act(Action::Uncovered);
    assert_eq!(shown(&phone), told("Easy ball 1 of 1", "Bram"));
    phone.restart();
    assert_eq!(shown(&phone), told("Easy ball 1 of 1", "Bram"));
}

/// A ball of the next round is put back after the round before was played to its end again: it leads nowhere back.
#[test]
fn a_ball_put_back_leads_nowhere_back() {
    let mut phone = duel(TransitionEnd::Coach);
    balls(&mut phone, &[3, 3, 3, 3]);
    let run = run_of(&phone);
    phone.act(Action::UndoTapped);
    phone.act(Action::UndoTapped);
    assert_eq!(shown(&phone), told("Challenge 2 of 2", "Mira"));
    balls(&mut phone, &[0]);
    let easy = contacts(&phone.model, run).expect("contacts").taken_back[0].contact;
    phone.act(Action::ContactPutBack(easy));
    assert_eq!(shown(&phone), told("Challenge 1 of 2", "Bram"));
}

/// Over, and the coach plays on: the swap that the last round was spared is made, and so are those of the rounds after it.
#[test]
fn places_go_on_swapping_after_the_end() {
    for end in [TransitionEnd::Rounds(1), TransitionEnd::DuelPoints(2)] {
        let mut phone = duel(end);
        balls(&mut phone, &[3, 3, 3]);
        assert!(matches!(phone.board().cover, Some(Cover::Over { .. })), "{end:?}");
        balls(&mut phone, &[3]);
        assert_eq!(shown(&phone), told("Easy ball 1 of 1", "Mira"), "{end:?}");
        for _ in 0..2 {
            phone.act(Action::PlayOn);
            assert_eq!(shown(&phone), told("Easy ball 1 of 1", "Bram"), "{end:?}");
            // The page is loaded again: over is shown again, and nothing moves twice.
            phone.restart();
        }
        phone.act(Action::PlayOn);
        balls(&mut phone, &[3, 3, 3]);
        assert_eq!(shown(&phone), told("Easy ball 1 of 1", "Mira"), "{end:?}");
        phone.act(Action::UndoTapped);
        assert_eq!(shown(&phone), told("Challenge 2 of 2", "Bram"), "{end:?}");
    }
}

/// A change of phase can't be missed: it is told with its word, a swap with its own, and a ball within a phase only as taken.
#[test]
fn phase_and_swap_are_told() {
    let mut phone = duel(TransitionEnd::Coach);
    let mut signals = |grade: Option<u8>| -> Vec<Signal> {
        phone.effects.clear();
        match grade {
            Some(grade) => balls(&mut phone, &[grade]),
            None => phone.act(Action::UndoTapped),
        }
        phone
            .effects
            .iter()
            .filter_map(|e| if let Effect::Tell(signal) = e { Some(signal.clone()) } else { None })
            .collect()
    };
    let phase = |word: &str| Signal::Call(Call::Phase, word.to_owned());
    let swap = || Signal::Call(Call::Swap, "Swap".to_owned());
    assert_eq!(signals(Some(3)), [phase("Challenge")]);
    assert_eq!(signals(Some(3)), [Signal::Taken]);
    assert_eq!(signals(Some(0)), [phase("Easy balls"), swap()]);
    assert_eq!(signals(None), [phase("Challenge"), swap()]);
    assert_eq!(signals(None), []);
    assert_eq!(signals(None), [phase("Easy balls")]);
}

/// Found in review: both tables printed the best row of all balls, and what was said of the bars came from bars that weren't drawn.
/// Easy and challenge balls are never one figure: on the board, at a pause, after the run, after the practice, under Today.
#[test]
fn easy_and_challenge_balls_are_shown_apart() {
    let mut phone = duel(TransitionEnd::Coach);
    let run = run_of(&phone);
    for _ in 0..12 {
        // Whoever stands there: the first passes each easy ball well, the second no challenge ball.
        for (place, grade) in [(0, 3), (1, 0), (1, 1)] {
            phone.act(Action::PlaceTapped(Place(place), pass(grade)));
        }
    }
    phone.act(Action::PlaceTapped(Place(0), pass(3)));
    phone.report(Report::Ticked);
    phone.report(Report::Ticked);
    phone.report(Report::Ticked);
    let board = phone.board();
    let Keys::Floor { columns, .. } = board.keys else { panic!("a floor") };
    // Each side had every other round, and its first place all easy balls.
    assert_eq!(columns.iter().map(|c| c.of.as_str()).collect::<Vec<_>>(), ["0 of 0", "0 of 12", "0 of 0"]);
    let lines: Vec<_> = board.calm.expect("a pause").lines.into_iter().map(|l| (l.who, l.rate, l.rows)).collect();
    let line = |who: &str, rate: &str, rows: &str| (who.to_owned(), rate.to_owned(), rows.to_owned());
    let last = "0 good of the last ten";
    // Mira, whose ball was the last, has passed no challenge ball: there is nothing to tell.
    assert_eq!(lines, [line("Everyone, challenge", "0 of 24, about 0 to 1 in 10", last)]);

    phone.act(Action::Finish);
    let report = run_report(&phone.model, run).expect("a report");
    assert_eq!(
        report.everyone,
        "Easy balls: 13 good of 13, about 8 to 10 in 10. Challenge balls: 0 good of 24, about 0 to 1 in 10."
    );
    let shown: Vec<Vec<_>> = report
        .sections
        .iter()
        .map(|s| s.rows.iter().map(|r| (r.name.as_str(), r.count.as_str(), r.row.as_deref())).collect())
        .collect();
    assert_eq!(
        shown,
        [
            [("Mira", "7 of 7", Some("7 in a row")), ("Bram", "6 of 6", Some("6 in a row"))],
            [("Tove", "0 of 12", None), ("Iva", "0 of 12", None)],
        ]
    );
    let overlap = "The bars overlap: no order can be told from these balls.";
    assert_eq!(report.sections.iter().map(|s| s.order.as_deref()).collect::<Vec<_>>(), [Some(overlap); 2]);

    let told = "13 good of 13 easy, 0 good of 24 challenge";
    let practice = report.practice;
    phone.act(Action::Go(Screen::PracticeReport(practice)));
    let row = &practice_report(&phone.model, practice).expect("a report").runs[0];
    assert_eq!(
        (row.count.as_str(), row.share.as_str()),
        (told, "Easy balls: about 8 to 10 in 10; Challenge balls: about 0 to 1 in 10")
    );
    phone.act(Action::Go(Screen::Today));
    let view = today(&phone.model);
    assert_eq!(view.open.expect("on").runs[0].count, told);
    assert_eq!(view.drills[1].last.as_deref().map(|l| l.replace('\u{a0}', " ")), Some(format!("Today {told}")));
}
