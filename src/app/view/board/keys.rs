//! The keys of each board: which outcomes stand where, whose names, whose turn.

use super::{Column, CurrentView, Keys, NameKey, OutcomeKey, ToldRow, figures, game, lanes};
use crate::app::model::Model;
use crate::app::update::feed_of;
use crate::app::words::{board_lines, counts, ladder, station};
use crate::domain::drill::{Board, LineOrder, Rule};
use crate::domain::ids::{Place, PlayerId, Step};
use crate::domain::replay::run::RunState;
use crate::domain::skill::{Outcome, PassGrade, ServeOutcome, Skill};

pub fn keys(model: &Model, run: &RunState) -> Keys {
    match run.spec.board {
        Board::Floor { n_places } => floor(model, run, n_places),
        Board::Line { .. } => Keys::Line {
            current: current(model, run),
            names: names(model, run, &run.main.turn_order(&run.spec).unwrap_or_default()),
            outcomes: if run.spec.skill == Skill::Pass { grades().to_vec() } else { two_keys().to_vec() },
        },
        Board::ServeLine { receiver, .. } => Keys::Serve {
            current: current(model, run),
            names: names(model, run, &run.main.turn_order(&run.spec).unwrap_or_default()),
            rows: serves(receiver),
            standing: false,
        },
        Board::ServeFloor { receiver, .. } => {
            let standing: Vec<PlayerId> = run.main.lineup.places.iter().flatten().copied().collect();
            Keys::Serve {
                current: current(model, run),
                names: names(model, run, &standing),
                rows: serves(receiver),
                standing: true,
            }
        }
        Board::Told { of } => told(model, run, of),
        Board::Group => Keys::Group { outcomes: two_keys().to_vec() },
        Board::Lanes => lanes::lanes(model, run),
        Board::Court => Keys::Game(Box::new(game::game(model, run))),
        Board::Propped { .. } => Keys::Propped { current: current(model, run), outcomes: two_keys().to_vec() },
    }
}

fn floor(model: &Model, run: &RunState, n_places: u8) -> Keys {
    let mut columns: Vec<Column> = (0..n_places)
        .map(|i| {
            let place = Place(i);
            let player = run.main.lineup.at(place);
            Column {
                place,
                player,
                name: player.map(|p| model.name_of(p)).unwrap_or_default(),
                of: player.map(|p| figures::of_child(run, p)).unwrap_or_default(),
                step: player.and_then(|p| own_step(model, run, p)),
            }
        })
        .collect();
    if model.settings.turned {
        columns.reverse();
    }
    Keys::Floor { columns, rows: grades().to_vec(), turned: model.settings.turned }
}

fn told(model: &Model, run: &RunState, of: u8) -> Keys {
    let no = run.main.open_series();
    let rows: Vec<ToldRow> = run
        .main
        .lineup
        .everyone()
        .map(|player| ToldRow {
            player,
            name: model.name_of(player),
            told: run.main.told(player, no).map(|c| u8::try_from(c.good()).unwrap_or(u8::MAX)),
        })
        .collect();
    let still: Vec<&str> = rows.iter().filter(|r| r.told.is_none()).map(|r| r.name.as_str()).collect();
    Keys::Told { of, series: board_lines::told_series(no, rows.len(), &still), complete: still.is_empty(), rows }
}

fn current(model: &Model, run: &RunState) -> Option<CurrentView> {
    let player = run.main.current(&run.spec)?;
    let line = run.main.turn_order(&run.spec)?;
    let at = line.iter().position(|p| *p == player)?;
    let then = line[(at + 1) % line.len()];
    let name = model.name_of(player);
    let in_turn = matches!(
        run.spec.board,
        Board::Line { order: LineOrder::InTurn }
            | Board::ServeLine { order: LineOrder::InTurn, .. }
            | Board::ServeFloor { .. }
            | Board::Propped { order: LineOrder::InTurn }
    );
    let step = feed_of(model, run, Some(player), run.main.group_of(player)).step;
    // The key beside says every step; here there is room for a child's own.
    let own = own_step(model, run, player);
    // There all read it from metres away.
    let propped = matches!(run.spec.board, Board::Propped { .. });
    let in_series = matches!(run.spec.rule, Rule::Tens(_));
    let watched = run.main.watching(&run.spec).filter(|_| propped);
    Some(CurrentView {
        player,
        step,
        step_words: own.filter(|_| !propped).map(|step| ladder::from(&run.spec.skill, step)),
        // Of a series the large figure tells it.
        of: if in_series { String::new() } else { figures::of_child(run, player) },
        then: match watched {
            Some((_, n)) => Some(watched_so_far(model, run, player, n)),
            None => ((in_turn || in_series) && then != player).then(|| board_lines::then(&model.name_of(then))),
        },
        style: (run.spec.skill == Skill::Serve).then(|| board_lines::style(&name, model.base.style_of(player))),
        name,
    })
}

/// How many of the ten that one child is watched for; right after the ten of another, whose these were.
fn watched_so_far(model: &Model, run: &RunState, player: PlayerId, n: u32) -> String {
    let before = run.main.contacts.last().and_then(|last| last.contact.player).filter(|before| *before != player);
    match before.filter(|_| n == 0) {
        Some(before) => station::ten_done(&board_lines::brief(&model.name_of(before)), LineOrder::WATCHED),
        None => station::watched_so_far(n, LineOrder::WATCHED),
    }
}

/// The child's own step, where it has one.
fn own_step(model: &Model, run: &RunState, player: PlayerId) -> Option<Step> {
    model.base.step_of(run.drill?, player)
}

pub(super) fn names(model: &Model, run: &RunState, line: &[PlayerId]) -> Vec<NameKey> {
    let current = run.main.current(&run.spec);
    line.iter().map(|p| NameKey { player: *p, name: model.name_of(*p), current: current == Some(*p) }).collect()
}

pub(super) fn grades() -> [OutcomeKey; 4] {
    PassGrade::ALL.map(|grade| OutcomeKey {
        outcome: Outcome::Pass { grade, over_net: false },
        word: counts::grade(grade),
        digit: Some(grade.digit()),
        full: grade.digit(),
        id: match grade {
            PassGrade::Stood => "pass-3",
            PassGrade::Moved => "pass-2",
            PassGrade::Chased => "pass-1",
            PassGrade::Gone => "pass-0",
        },
    })
}

pub(super) fn two_keys() -> [OutcomeKey; 2] {
    [(true, "good", 3), (false, "not good", 0)].map(|(good, word, full)| OutcomeKey {
        outcome: Outcome::TwoKey { good },
        word,
        digit: None,
        full,
        id: if good { "good" } else { "not-good" },
    })
}

/// The keys of a match's serves and passes. Somebody always receives there.
pub fn note_keys() -> (Vec<OutcomeKey>, [OutcomeKey; 4]) {
    (serves(true).into_iter().map(|(steady, _)| steady).collect(), grades())
}

/// Steady and fast swing beside each other. Long is the better miss, net the worst (common practice, no source).
pub(super) fn serves(receiver: bool) -> Vec<(OutcomeKey, OutcomeKey)> {
    let key = |outcome, fast| OutcomeKey {
        outcome: Outcome::Serve { outcome, fast },
        word: counts::serve(outcome),
        digit: None,
        full: match outcome {
            ServeOutcome::Ace | ServeOutcome::In => 3,
            ServeOutcome::Long => 2,
            ServeOutcome::Wide => 1,
            ServeOutcome::Net => 0,
        },
        id: match (outcome, fast) {
            (ServeOutcome::Ace, false) => "serve-ace",
            (ServeOutcome::Ace, true) => "serve-ace-fast",
            (ServeOutcome::In, false) => "serve-in",
            (ServeOutcome::In, true) => "serve-in-fast",
            (ServeOutcome::Long, false) => "serve-long",
            (ServeOutcome::Long, true) => "serve-long-fast",
            (ServeOutcome::Wide, false) => "serve-wide",
            (ServeOutcome::Wide, true) => "serve-wide-fast",
            (ServeOutcome::Net, false) => "serve-net",
            (ServeOutcome::Net, true) => "serve-net-fast",
        },
    };
    ServeOutcome::ALL
        .into_iter()
        .filter(|o| receiver || *o != ServeOutcome::Ace)
        .map(|o| (key(o, false), key(o, true)))
        .collect()
}
