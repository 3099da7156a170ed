//! Who is here in mid-run: latecomers, leavers, and the refit that says beforehand what it will do. No ball is lost by any of it.

use super::groups::{ELEVEN, floor_with, kept, lanes, race, tap};
use super::phone::Phone;
use peppertally::app::action::Action;
use peppertally::app::groups::GroupsTap;
use peppertally::app::screen::Screen;
use peppertally::app::view::board::here::{HereView, here};
use peppertally::app::view::report::run_report;
use peppertally::domain::drill::OnFloor;
use peppertally::domain::entry::Fact;
use peppertally::domain::ids::{GroupNo, PlayerId, Step};

fn in_run(list: &str, change: impl FnOnce(&mut peppertally::domain::drill::DrillSpec)) -> Phone {
    let mut phone = Phone::with_squad(list);
    let drill = kept(&mut phone, change);
    phone.drill(drill);
    phone
}

fn seen(phone: &Phone) -> HereView {
    let Screen::Run(run) = phone.model.screen else { panic!("a run") };
    here(&phone.model, run).expect("this page's own run")
}

/// What the refit would do, and whether that is anything.
fn refit(phone: &Phone) -> (String, bool) {
    let key = seen(phone).refit.expect("there is a refit");
    (key.line, key.changes)
}

fn sizes(phone: &Phone) -> Vec<usize> {
    let run = phone.model.run_on().expect("on");
    run.main.lineup.groups.iter().map(Vec::len).collect()
}

/// "Eleven came, eight balls", in mid-run: two fewer balls, one tap, undone by one.
#[test]
fn a_refit_says_what_it_will_do() {
    let mut phone = in_run(ELEVEN, lanes);
    phone.act(Action::LaneTapped(GroupNo(0)));
    assert_eq!(phone.board().here, "11 here");
    let shown = seen(&phone);
    assert_eq!((shown.title.as_str(), shown.balls.expect("balls").words.as_str()), ("All 11 are here", "12 balls"));
    assert_eq!(refit(&phone), ("Three groups of 4, 4, 3: it fits.".to_owned(), false));
    for _ in 0..10 {
        tap(&mut phone, GroupsTap::BallsStepped(false));
    }
    assert_eq!(refit(&phone), ("Two groups of 6, 5.".to_owned(), true));
    tap(&mut phone, GroupsTap::Refit);
    assert_eq!(sizes(&phone), [6, 5]);
    assert_eq!(refit(&phone), ("Two groups of 6, 5: it fits.".to_owned(), false));
    assert_eq!(phone.board().figures.n_good, 1, "no ball is lost");
    assert!(matches!(phone.model.screen, Screen::Run(_)), "and the run goes on");
    phone.act(Action::UndoTapped);
    assert_eq!(sizes(&phone).len(), 3);
}

/// Three leave one group of a race: its score stays its own, and as few children as can be change theirs.
#[test]
fn groups_that_are_scored_are_evened_out() {
    let mut phone = in_run(ELEVEN, race);
    phone.act(Action::LaneTapped(GroupNo(0)));
    phone.act(Action::LaneTapped(GroupNo(1)));
    let first = phone.model.run_on().expect("on").main.lineup.groups.clone();
    for gone in &first[0][..3] {
        phone.act(Action::PresenceTapped(*gone));
    }
    assert_eq!(sizes(&phone), [1, 4, 3]);
    assert_eq!(phone.board().here, "8 here");
    // 1, 4 and 3 are evened out by moving one child: 2, 3 and 3.
    let line = "Three groups of 3, 3, 2. They are scored already: as few as can be change.";
    assert_eq!(refit(&phone), (line.to_owned(), true));
    tap(&mut phone, GroupsTap::Refit);
    assert_eq!(sizes(&phone), [2, 3, 3]);
    let groups = &phone.model.run_on().expect("on").main.lineup.groups;
    assert_eq!(groups[2], first[2], "nobody of the third moves");
    assert_eq!(groups[0], [first[0][3], first[1][3]]);
    assert_eq!(phone.board().figures.n_good, 2, "no ball is lost");
    let n = phone.db.len();
    tap(&mut phone, GroupsTap::Refit);
    assert_eq!(phone.db.len(), n, "a second tap writes nothing");
    phone.act(Action::UndoTapped);
    assert_eq!(sizes(&phone), [1, 4, 3]);
}

/// Roles are filled at once as somebody goes, and told; where there is nothing to fit there is no such key.
#[test]
fn roles_are_fitted_as_children_go() {
    let on_floor = OnFloor { target: true, n_feeders: 1, ..OnFloor::default() };
    let mut phone = in_run("Mira\nTove\nOdile\nBram\nIva\nLasse", floor_with(on_floor));
    assert_eq!(refit(&phone).0, "Three pass, one tosses, one catches, one rests: it fits.");
    let mira = phone.player("Mira");
    phone.act(Action::PresenceTapped(mira));
    assert_eq!(refit(&phone).0, "Three pass, one tosses, one catches: it fits.");
    let mut plain = Phone::with_squad(ELEVEN);
    plain.drill(2);
    assert_eq!((seen(&plain).refit, seen(&plain).balls), (None, None));
    for name in ELEVEN.lines() {
        let player = plain.player(name);
        plain.act(Action::PresenceTapped(player));
    }
    assert_eq!((seen(&plain).title.as_str(), plain.board().here.as_str()), ("0 of 11 are here", "0 here"));
    // Another window looks on and changes nothing.
    let Screen::Run(run) = plain.model.screen else { panic!("a run") };
    let mut other = plain.second_window();
    other.act(Action::Go(Screen::Run(run)));
    assert_eq!(here(&other.model, run), None);
}

/// A run that was opened again ends no other: what is said and done under "Here" is of the one on screen, and of it alone.
#[test]
fn who_is_here_is_said_of_the_run_on_screen() {
    let mut phone = in_run(ELEVEN, lanes);
    let Screen::Run(first) = phone.model.screen else { panic!("a run") };
    phone.act(Action::LaneTapped(GroupNo(0)));
    phone.act(Action::Finish);
    phone.act(Action::Go(Screen::Today));
    let drill = kept(&mut phone, lanes);
    phone.drill(drill);
    let Screen::Run(second) = phone.model.screen else { panic!("a run") };
    phone.act(Action::Go(Screen::RunReport(first)));
    assert!(run_report(&phone.model, first).expect("a report").goes_on);
    phone.act(Action::RunReopened(first));
    assert_eq!(phone.model.screen, Screen::Run(first));
    assert_eq!(phone.model.run_on().expect("on").id, second, "both are on");
    let lineup = |phone: &Phone, run| phone.model.runs[&run].main.lineup.clone();
    let other = lineup(&phone, second);
    let mira = phone.player("Mira");
    phone.act(Action::PresenceTapped(mira));
    assert!(lineup(&phone, first).everyone().all(|player| player != mira), "gone from the one on screen");
    for _ in 0..10 {
        tap(&mut phone, GroupsTap::BallsStepped(false));
    }
    assert_eq!(refit(&phone), ("Two groups of 5.".to_owned(), true));
    tap(&mut phone, GroupsTap::Refit);
    let sizes: Vec<usize> = lineup(&phone, first).groups.iter().map(Vec::len).collect();
    assert_eq!(sizes, [5, 5]);
    // The screen of groups was opened from this board, so it is this run's too.
    phone.act(Action::Go(Screen::Groups));
    assert_eq!(super::groups::view(&phone).back, Some(first));
    assert_eq!(lineup(&phone, second), other, "nobody was moved where nobody looked");
    // Over again, it leaves the other one.
    phone.act(Action::Go(Screen::Run(first)));
    phone.act(Action::Finish);
    assert_eq!(super::groups::view(&phone).back, Some(second));
}

/// A ball belongs to children and not to a number: dealt anew, or with other groups taken in, all have the drill's again, and one undo
/// brings back groups and balls.
#[test]
fn groups_dealt_anew_have_the_balls_of_the_drill() {
    let steps = |phone: &Phone| {
        let run = phone.model.run_on().expect("on");
        (0..3)
            .map(|at| run.main.group_steps.get(&GroupNo(at)).map_or(run.main.feed.step, |step| *step).0)
            .collect::<Vec<_>>()
    };
    let mut phone = in_run(ELEVEN, lanes);
    phone.act(Action::GroupStepChosen(GroupNo(0), Step(3)));
    phone.act(Action::GroupStepChosen(GroupNo(2), Step(255)));
    assert_eq!(steps(&phone), [3, 0, 255]);
    for _ in 0..10 {
        tap(&mut phone, GroupsTap::BallsStepped(false));
    }
    assert_eq!(refit(&phone).0, "Two groups of 6, 5. Their balls are the drill’s again.");
    tap(&mut phone, GroupsTap::Refit);
    assert_eq!((sizes(&phone), steps(&phone)), (vec![6, 5], vec![0, 0, 0]));
    assert_eq!(
        phone.model.drafts.groups.said.as_deref(),
        Some("Eleven children, two balls: two groups of 6, 5. Their balls are the drill’s again.")
    );
    phone.act(Action::UndoTapped);
    assert_eq!((sizes(&phone), steps(&phone)), (vec![4, 4, 3], vec![3, 0, 255]), "one undo");
    // Others are taken in.
    phone.act(Action::Go(Screen::Groups));
    tap(&mut phone, GroupsTap::Made);
    tap(&mut phone, GroupsTap::InThisDrill);
    assert_eq!(steps(&phone), [0, 0, 0]);
    phone.act(Action::UndoTapped);
    assert_eq!(steps(&phone), [3, 0, 255]);
}

/// Two groups exchange a child; the third, which is the same, keeps its ball, and the other loses its own.
#[test]
fn a_group_that_stays_keeps_its_ball() {
    let mut phone = in_run(ELEVEN, lanes);
    phone.act(Action::Go(Screen::Groups));
    tap(&mut phone, GroupsTap::Made);
    tap(&mut phone, GroupsTap::InThisDrill);
    phone.act(Action::GroupStepChosen(GroupNo(0), Step(3)));
    phone.act(Action::GroupStepChosen(GroupNo(2), Step(255)));
    let groups = phone.model.run_on().expect("on").main.lineup.groups.clone();
    phone.act(Action::Go(Screen::Groups));
    tap(&mut phone, GroupsTap::Name(groups[0][0]));
    tap(&mut phone, GroupsTap::Name(groups[1][0]));
    tap(&mut phone, GroupsTap::InThisDrill);
    let main = &phone.model.run_on().expect("on").main;
    let ball = |group: &[PlayerId]| {
        let at = main.lineup.groups.iter().position(|now| group.iter().all(|p| now.contains(p)))?;
        main.group_steps.get(&GroupNo(u8::try_from(at).ok()?)).copied()
    };
    assert_eq!(ball(&groups[2]), Some(Step(255)));
    assert!(main.group_steps.values().all(|step| *step != Step(3)), "{:?}", main.group_steps);
}

/// The ball that a group has already is not written again, nor is that of a group that isn't there.
#[test]
fn a_chosen_ball_is_written_once() {
    let mut phone = in_run(ELEVEN, lanes);
    let written =
        |phone: &Phone| phone.model.own.iter().filter(|e| matches!(e.fact, Fact::GroupStepSet { .. })).count();
    for (group, step, n) in [(0, 0, 0), (0, 2, 1), (0, 2, 1), (3, 2, 1), (0, 0, 2)] {
        phone.act(Action::GroupStepChosen(GroupNo(group), Step(step)));
        assert_eq!(written(&phone), n, "group {group}, step {step}");
    }
}

/// After midnight the key opens a sentence, and no strip of nothing.
#[test]
fn a_run_of_another_day_says_that_nobody_comes() {
    let mut phone = in_run(ELEVEN, lanes);
    assert_eq!(seen(&phone).closed, None);
    phone.next_day();
    let shown = seen(&phone);
    assert_eq!((shown.names.len(), shown.refit), (0, None));
    assert_eq!(shown.closed, Some("This run is of another practice: who was here stays as it was."));
}

/// A match with one side alone sends nobody away from its board: who is here is tapped there, as on any other.
#[test]
fn nobody_has_to_leave_the_board_to_be_here() {
    use peppertally::app::words::{board, board_lines};
    assert!(board_lines::NOBODY_HERE.ends_with(board::TOO_FEW_WAY), "{}", board::TOO_FEW_WAY);
}
