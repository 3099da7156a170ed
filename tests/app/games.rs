//! Winners stay and match game: the floor, what is said of a serve, the pace, who comes and goes, corrections, and what is told after.

use std::collections::BTreeSet;

use peppertally::app::action::Action;
use peppertally::app::effect::{Call, Effect, Signal};
use peppertally::app::groups::GroupsTap;
use peppertally::app::screen::Screen;
use peppertally::app::settings::How;
use peppertally::app::view::board::{Cover, GameView, Keys, may_come};
use peppertally::app::view::report::{contacts, practice_report, run_report};
use peppertally::app::view::today::today;
use peppertally::domain::drill::{DrillSpec, MatchGame, Rule, WinnersStay};
use peppertally::domain::entry::Side;
use peppertally::domain::ids::RunId;

use super::phone::Phone;

const NINE: &str = "Mira\nTove\nOdile\nBram\nIva\nLasse\nJuno\nPepe\nRuna";
const STAY: usize = 12;
const MATCH: usize = 13;

fn ready(list: &str, drill: usize, rule: Rule) -> Phone {
    let mut phone = Phone::with_squad(list);
    // Dealt in the order of the squad, so that the names of the teams are known here.
    phone.act(Action::Groups(GroupsTap::How(How::ByHand)));
    let (id, spec) = phone.model.base.drills().into_iter().map(|(id, s)| (id, s.clone())).nth(drill).expect("a game");
    phone.act(Action::Go(Screen::Drill(Some(id))));
    phone.act(Action::DrillDrafted(DrillSpec { rule, ..spec }));
    phone.act(Action::DrillKept);
    phone.drill(drill);
    phone
}

fn stay(list: &str) -> Phone {
    ready(list, STAY, Rule::WinnersStay(WinnersStay::default()))
}

fn run_of(phone: &Phone) -> RunId {
    let Screen::Run(run) = phone.model.screen else { panic!("no board: {:?}", phone.model.screen) };
    run
}

fn floor(phone: &Phone) -> GameView {
    let Keys::Game(game) = phone.board().keys else { panic!("no game") };
    *game
}

/// Who stands on the sides, far first as it is drawn, and who waits.
fn stands(phone: &Phone) -> (String, String, Vec<String>) {
    let game = floor(phone);
    let line = game.line.iter().map(|team| format!("{}: {}", team.word, team.who)).collect();
    (game.far.names(), game.near.names(), line)
}

fn won(phone: &mut Phone, sides: &str) {
    for side in sides.chars() {
        phone.act(Action::SideWon(if side == 'n' { Side::Near } else { Side::Far }));
    }
}

fn last_rally(phone: &Phone) -> peppertally::domain::entry::Rally {
    phone.model.runs[&run_of(phone)].main.rallies.last().expect("a rally").rally.clone()
}

/// Everyone of the run's teams, sorted; panics where somebody is in two.
fn in_teams(phone: &Phone) -> Vec<String> {
    let groups = &phone.model.runs[&run_of(phone)].main.lineup.groups;
    let all: Vec<String> = groups.iter().flatten().map(|p| phone.model.name_of(*p)).collect();
    let once: BTreeSet<String> = all.iter().cloned().collect();
    assert_eq!(once.len(), all.len(), "a child in two teams: {all:?}");
    once.into_iter().collect()
}

#[test]
fn winners_walk_across() {
    let mut phone = stay(NINE);
    // Dealt round, each row drawn from the left of one who stands behind it: seen across the net the other way round.
    assert_eq!(
        stands(&phone),
        ("Tove, Iva, Pepe".to_owned(), "Juno, Bram, Mira".to_owned(), vec!["next: Odile, Lasse, Runa".to_owned()])
    );
    assert_eq!(phone.board().call, "Challengers serve");
    won(&mut phone, "f");
    assert_eq!(
        stands(&phone),
        ("Odile, Lasse, Runa".to_owned(), "Pepe, Iva, Tove".to_owned(), vec!["next: Mira, Bram, Juno".to_owned()])
    );
    let board = phone.board();
    assert_eq!((board.figures.n_good, board.figures.of.as_str()), (1, "game played"));
    assert_eq!(board.undo.as_deref(), Some("challengers' rally, just now"));
    assert_eq!(floor(&phone).near.more.as_deref(), Some("1 win"));
    won(&mut phone, "n");
    assert_eq!(floor(&phone).near.more.as_deref(), Some("2 wins in a row"));
    phone.restart();
    assert_eq!(floor(&phone).near.more.as_deref(), Some("2 wins in a row"));
    phone.act(Action::UndoTapped);
    phone.act(Action::UndoTapped);
    assert_eq!((phone.board().figures.n_good, phone.board().undo), (0, None));
    assert_eq!(stands(&phone).2, ["next: Odile, Lasse, Runa"]);
}

/// The coach stands opposite: the same sides, the other way up.
#[test]
fn the_floor_is_turned_round() {
    let mut phone = stay(NINE);
    phone.act(Action::TurnRoundTapped);
    let game = floor(&phone);
    assert!(game.turned);
    assert_eq!((game.near.names(), game.far.names()), ("Mira, Bram, Juno".to_owned(), "Pepe, Iva, Tove".to_owned()));
}

/// What is said of a serve is written with the next rally and with no other.
#[test]
fn a_second_serve_and_the_other_side() {
    let mut phone = stay(NINE);
    phone.act(Action::SecondServeTapped);
    phone.act(Action::OtherServesTapped);
    assert_eq!((phone.board().call.as_str(), floor(&phone).second), ("Second serve, winners' side", Some(true)));
    won(&mut phone, "n");
    assert_eq!((last_rally(&phone).second_serve, last_rally(&phone).served), (true, Side::Near));
    assert_eq!(
        (phone.board().call.as_str(), floor(&phone).second, floor(&phone).other),
        ("Challengers serve", Some(false), false)
    );
    won(&mut phone, "n");
    assert_eq!((last_rally(&phone).second_serve, last_rally(&phone).served), (false, Side::Far));
    // Said twice is not said; undone is not said either.
    phone.act(Action::SecondServeTapped);
    phone.act(Action::SecondServeTapped);
    assert_eq!(floor(&phone).second, Some(false));
    phone.act(Action::SecondServeTapped);
    phone.act(Action::UndoTapped);
    assert_eq!(floor(&phone).second, Some(false));
    // Where the drill has no second serve there is none to be said.
    let mut phone = ready(NINE, STAY, Rule::WinnersStay(WinnersStay { second_serve: false, ..WinnersStay::default() }));
    phone.act(Action::SecondServeTapped);
    won(&mut phone, "n");
    assert_eq!((floor(&phone).second, last_rally(&phone).second_serve), (None, false));
}

fn counts(phone: &mut Phone) -> Vec<Vec<(u32, String)>> {
    let effects = std::mem::take(&mut phone.effects);
    let later = effects.into_iter().filter_map(|effect| match effect {
        Effect::TellLater(signals) => Some(signals),
        _ => None,
    });
    let word = |(ms, signal): (u32, Signal)| match signal {
        Signal::Call(Call::Pace, word) => (ms, word),
        other => panic!("no count: {other:?}"),
    };
    later.map(|signals| signals.into_iter().map(word).collect()).collect()
}

/// After each rally the phone counts to the next serve; undo, another tap or leaving breaks it off; without sound and voice it is
/// silent, and in a drill without a pace too.
#[test]
fn the_next_serve_is_counted_aloud() {
    let mut phone = stay(NINE);
    won(&mut phone, "n");
    assert_eq!(counts(&mut phone), Vec::<Vec<_>>::new());
    phone.act(Action::VoiceSet(true));
    won(&mut phone, "n");
    let aloud = vec![(700, "one".to_owned()), (1_400, "two".to_owned()), (2_100, "serve".to_owned())];
    assert_eq!(counts(&mut phone), vec![aloud.clone()]);
    phone.act(Action::UndoTapped);
    assert_eq!(counts(&mut phone), [vec![]]);
    won(&mut phone, "n");
    phone.act(Action::SecondServeTapped);
    assert_eq!(counts(&mut phone), [aloud.clone(), vec![]]);
    won(&mut phone, "n");
    phone.act(Action::Go(Screen::Today));
    assert_eq!(counts(&mut phone), [aloud, vec![]]);
    let mut phone = ready(NINE, STAY, Rule::WinnersStay(WinnersStay { paced: false, ..WinnersStay::default() }));
    phone.act(Action::VoiceSet(true));
    won(&mut phone, "n");
    assert_eq!(counts(&mut phone), Vec::<Vec<_>>::new());
    assert!(
        !phone.effects.iter().any(|e| matches!(e, Effect::Tell(Signal::Call(Call::Swap, _)))),
        "nobody calls a swap in a game"
    );
}

/// Come late, gone early, both under Today; one undo takes back presence and place.
#[test]
fn who_comes_and_who_goes() {
    let mut phone = stay("Mira\nTove\nOdile\nBram\nIva\nLasse\nJuno");
    let run = run_of(&phone);
    // Seven in threes are two teams.
    assert_eq!(stands(&phone), ("Tove, Bram, Lasse".to_owned(), "Odile, Mira, Iva, Juno".to_owned(), vec![]));
    won(&mut phone, "n");
    let juno = phone.player("Juno");
    phone.act(Action::Go(Screen::Today));
    phone.act(Action::PresenceTapped(juno));
    phone.act(Action::Go(Screen::Run(run)));
    assert_eq!(floor(&phone).near.names(), "Iva, Odile, Mira");
    assert_eq!(floor(&phone).near.more.as_deref(), Some("1 win"), "those who stay keep their wins");
    assert_eq!(phone.board().undo.as_deref(), Some("Juno is away, just now"));
    phone.act(Action::UndoTapped);
    assert_eq!(in_teams(&phone).len(), 7);
    assert_eq!(today(&phone.model).here, "All 7 are here");
}

#[test]
fn new_teams_at_any_moment() {
    let mut phone = stay(NINE);
    won(&mut phone, "nf");
    let before = stands(&phone);
    let everyone = in_teams(&phone);
    let mut seen = BTreeSet::new();
    for _ in 0..6 {
        phone.act(Action::TeamsMixed);
        assert_eq!(in_teams(&phone), everyone);
        assert_eq!(
            phone.model.runs[&run_of(&phone)].main.lineup.groups.iter().map(Vec::len).collect::<Vec<_>>(),
            [3; 3]
        );
        seen.insert(stands(&phone));
    }
    assert!(seen.len() > 1, "always the same teams");
    assert_eq!(floor(&phone).near.more, None, "new teams have won nothing yet");
    assert_eq!(phone.board().figures.n_good, 2);
    for _ in 0..6 {
        phone.act(Action::UndoTapped);
    }
    assert_eq!(stands(&phone), before);
}

#[test]
fn two_children_change_places() {
    let mut phone = stay(NINE);
    let names: Vec<String> = may_come(&phone.model, run_of(&phone)).into_iter().map(|key| key.name).collect();
    assert_eq!(names, ["Mira", "Bram", "Juno", "Tove", "Iva", "Pepe", "Odile", "Lasse", "Runa"]);
    let (mira, runa) = (phone.player("Mira"), phone.player("Runa"));
    phone.act(Action::Exchanged(mira, runa));
    assert_eq!(stands(&phone).1, "Juno, Bram, Runa");
    assert_eq!(stands(&phone).2, ["next: Odile, Lasse, Mira"]);
    assert_eq!(in_teams(&phone).len(), 9);
}

/// In the list the winner of any rally is changed, a rally taken back and put back; what cannot be is not written.
#[test]
fn rallies_are_corrected() {
    let mut phone = stay(NINE);
    let run = run_of(&phone);
    won(&mut phone, "fn");
    let stood = stands(&phone);
    phone.act(Action::Go(Screen::Contacts(run)));
    let list = |phone: &Phone| contacts(&phone.model, run).expect("a list");
    let rows: Vec<_> = list(&phone).rallies.iter().map(|r| (r.no.clone(), r.who.clone(), r.won)).collect();
    assert_eq!(
        rows,
        [
            ("2".to_owned(), "Tove, Iva, Pepe against Odile, Lasse, Runa".to_owned(), Side::Near),
            ("1".to_owned(), "Mira, Bram, Juno against Tove, Iva, Pepe".to_owned(), Side::Far),
        ]
    );
    let first = list(&phone).rallies[1].rally;
    let n = phone.model.own.iter().count();
    phone.act(Action::RallyFixed(first, Side::Far));
    assert_eq!(phone.model.own.iter().count(), n, "it says so already");
    phone.act(Action::RallyFixed(first, Side::Near));
    assert_eq!((list(&phone).rallies[1].won, list(&phone).rallies[1].corrected), (Side::Near, true));
    assert_eq!(list(&phone).can_undo.as_deref(), Some("correction, just now"));
    phone.act(Action::RallyTakenBack(first));
    assert_eq!(
        (list(&phone).rallies.len(), list(&phone).taken_back[0].line.as_str()),
        (1, "Mira, Bram, Juno against Tove, Iva, Pepe")
    );
    phone.act(Action::RallyPutBack(first));
    assert_eq!((list(&phone).rallies.len(), list(&phone).taken_back.len()), (2, 0));
    phone.act(Action::Go(Screen::Run(run)));
    assert_eq!(stands(&phone), stood, "who stands where is as it was played");
}

/// Child by child in the order of the squad, no ranking; the same few words wherever the run is named, packed or not.
#[test]
fn what_is_told_of_a_game_after() {
    let mut phone = stay(NINE);
    let run = run_of(&phone);
    won(&mut phone, "fnn");
    phone.act(Action::EffortTapped);
    phone.act(Action::Finish);
    let report = run_report(&phone.model, run).expect("a report");
    assert_eq!((report.everyone.as_str(), report.empty), ("3 games.", false));
    let rows: Vec<_> = report.sections[0]
        .rows
        .iter()
        .map(|r| format!("{} | {} | {} | {}", r.name, r.count, r.share, r.more.clone().unwrap_or_default()))
        .collect();
    // Tove's team won all three, the last two on the winners' side. Between the rallies 2.1 s went by: two of them are timed.
    assert_eq!(
        rows[..3],
        [
            "Mira | 2 rallies, under a minute |  | longest wait 1 rally, under a minute",
            "Tove | 3 rallies, under a minute | 3 games won, 2 points on the winners' side | ",
            "Odile | 1 rally, under a minute |  | longest wait 1 rally, under a minute",
        ]
    );
    assert_eq!(rows.len(), 9);
    phone.act(Action::Go(Screen::Today));
    let view = today(&phone.model);
    assert_eq!(view.open.expect("on").runs[0].count, "3 games");
    assert_eq!(view.drills[STAY].last.as_deref().map(|l| l.replace('\u{a0}', " ")).as_deref(), Some("Today 3 games"));
    phone.end_practice();
    let Screen::PracticeReport(practice) = phone.model.screen else { panic!("practice") };
    let row = |phone: &Phone| practice_report(&phone.model, practice).expect("a report").runs[0].clone();
    let told = (row(&phone).count, row(&phone).share);
    assert_eq!(told, ("3 games".to_owned(), "1 to 3 rallies each".to_owned()));
    phone.act(Action::Go(Screen::Today));
    phone.next_day();
    phone.restart_elsewhere();
    let packed = &phone.model.packed[&practice];
    let game = packed.summary.runs[0].game.as_ref().expect("a game");
    assert_eq!((packed.read, game.n_rallies, game.n_games), (false, 3, 3), "told from its summary alone");
    assert_eq!((row(&phone).count, row(&phone).share), told);
}

/// One child alone, or nobody: a plain sentence, and no tap counts.
#[test]
fn nobody_plays_alone() {
    for list in ["Mira", "Mira\nTove"] {
        let mut phone = Phone::with_squad(list);
        let mira = phone.player("Mira");
        phone.act(Action::PresenceTapped(mira));
        phone.drill(STAY);
        let board = phone.board();
        assert_eq!((board.nobody, board.call.as_str()), (true, ""));
        won(&mut phone, "nf");
        phone.act(Action::TeamsMixed);
        assert_eq!((phone.board().figures.n_good, phone.board().undo), (0, None));
        phone.act(Action::Finish);
        assert!(matches!(phone.model.screen, Screen::RunReport(_)));
    }
}

/// A match names who serves, turns clockwise, ends by two, may go on; who is over the number waits beside the court.
#[test]
fn a_match() {
    let rule = MatchGame { a_side: 3, to: 3, ..MatchGame::default() };
    let mut phone = ready("Mira\nTove\nOdile\nBram\nIva\nLasse\nJuno", MATCH, Rule::MatchGame(rule));
    let run = run_of(&phone);
    assert_eq!(phone.board().call, "Team 1 serves: Mira");
    assert_eq!(stands(&phone).2, ["Team 1: Juno"]);
    let rows = |game: &GameView| -> Vec<String> {
        let row = |row: &Vec<peppertally::app::view::board::Token>| {
            row.iter().map(|t| format!("{}{}", t.place.unwrap_or(0), t.name)).collect::<Vec<_>>().join(" ")
        };
        game.far.rows.iter().chain(&game.near.rows).map(row).collect()
    };
    // From the top of the screen: the far side's server behind, its net row, ours, our server.
    assert_eq!(rows(&floor(&phone)), ["1Tove", "2Bram 3Lasse", "3Iva 2Odile", "1Mira"]);
    won(&mut phone, "f");
    assert_eq!(phone.board().call, "Team 2 serves: Bram");
    assert_eq!(rows(&floor(&phone)), ["1Bram", "2Lasse 3Tove", "3Iva 2Odile", "1Mira"]);
    won(&mut phone, "nnf");
    assert_eq!(phone.board().cover, None);
    assert_eq!((floor(&phone).near.points, floor(&phone).far.points), (Some(2), Some(2)));
    won(&mut phone, "n");
    assert_eq!(phone.board().cover, None, "3 to 2 is not two ahead");
    won(&mut phone, "n");
    let Some(Cover::Over { line, .. }) = phone.board().cover else { panic!("over") };
    assert_eq!(line, "Team 1 has it, 4 to 2.");
    // What is tapped after the end is not written, unless the coach plays on.
    won(&mut phone, "nf");
    assert_eq!((floor(&phone).near.points, floor(&phone).far.points), (Some(4), Some(2)));
    phone.act(Action::PlayOn);
    won(&mut phone, "f");
    assert_eq!((phone.board().cover, floor(&phone).far.points), (None, Some(3)));
    phone.act(Action::Finish);
    assert_eq!(run_report(&phone.model, run).expect("a report").everyone, "Team 1: 4, team 2: 3.");
    phone.act(Action::Go(Screen::Today));
    assert_eq!(today(&phone.model).open.expect("on").runs[0].count, "4 to 3");
}

/// A run that is finished keeps the rule it had, whatever becomes of its drill.
#[test]
fn a_finished_game_keeps_its_rule() {
    let mut phone = stay(NINE);
    let run = run_of(&phone);
    won(&mut phone, "f");
    phone.act(Action::Finish);
    let (drill, spec) = phone.model.base.drills().into_iter().map(|(id, s)| (id, s.clone())).nth(STAY).expect("a game");
    let rule = Rule::WinnersStay(WinnersStay { near_only: false, to: 5, ..WinnersStay::default() });
    phone.act(Action::Go(Screen::Drill(Some(drill))));
    phone.act(Action::DrillDrafted(DrillSpec { rule, ..spec }));
    phone.act(Action::DrillKept);
    phone.restart();
    let report = run_report(&phone.model, run).expect("a report");
    assert_eq!(report.everyone, "1 game.");
    assert_eq!(phone.model.runs[&run].spec.rule, Rule::WinnersStay(WinnersStay::default()));
}

/// Found in review: three children start two against one, and refitting put all three on one side.
#[test]
fn a_refit_game_stays_as_it_is() {
    let mut phone = stay("Mira\nTove\nOdile");
    let run = run_of(&phone);
    let groups = |phone: &Phone| phone.model.runs[&run].main.lineup.groups.clone();
    let first = groups(&phone);
    assert_eq!(first.iter().map(Vec::len).collect::<Vec<_>>(), [2, 1]);
    phone.act(Action::Groups(GroupsTap::Refit));
    assert_eq!(groups(&phone), first);
    let said = phone.model.drafts.groups.said.clone();
    assert_eq!(said.as_deref(), Some("Three children: two teams of 2, 1."), "a game needs one ball");
    won(&mut phone, "f");
    let after = groups(&phone);
    phone.act(Action::Groups(GroupsTap::Refit));
    assert_eq!(groups(&phone), after);

    // Seven in pairs: who is over waits alone.
    let rule = Rule::WinnersStay(WinnersStay { a_side: 2, ..WinnersStay::default() });
    let mut phone = ready("Mira\nTove\nOdile\nBram\nIva\nLasse\nJuno", STAY, rule);
    let run = run_of(&phone);
    let first = phone.model.runs[&run].main.lineup.groups.clone();
    assert_eq!(first.iter().map(Vec::len).collect::<Vec<_>>(), [2, 2, 2, 1]);
    phone.act(Action::Groups(GroupsTap::Refit));
    assert_eq!(phone.model.runs[&run].main.lineup.groups, first);
}

/// The points of a match are its sides': once a rally is played its teams stay together, whoever comes.
#[test]
fn a_match_that_is_on_is_not_dealt_anew() {
    let mut phone = ready(NINE, MATCH, Rule::MatchGame(MatchGame { a_side: 4, ..MatchGame::default() }));
    let run = run_of(&phone);
    let groups = |phone: &Phone| phone.model.runs[&run].main.lineup.groups.clone();
    won(&mut phone, "n");
    for name in ["Mira", "Odile", "Iva"] {
        let player = phone.player(name);
        phone.act(Action::PresenceTapped(player));
    }
    let teams = groups(&phone);
    assert_eq!(teams.iter().map(Vec::len).collect::<Vec<_>>(), [2, 4]);
    phone.act(Action::Groups(GroupsTap::Refit));
    assert_eq!(groups(&phone), teams);
}
