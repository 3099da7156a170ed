//! Which practice is on, who is here, what ends what; runs that another page left.

use peppertally::app::action::Action;
use peppertally::app::effect::Effect;
use peppertally::app::screen::Screen;
use peppertally::app::view::board::{Cover, Keys};
use peppertally::app::view::report::{PracticeWay, practice_report};
use peppertally::app::view::today::{self, NoticeKind};
use peppertally::domain::drill::{DrillSpec, Rule};
use peppertally::domain::ids::{Place, PracticeId, Step};
use peppertally::domain::skill::{Feed, GoodFrom, Outcome, ServeOutcome};

use super::phone::{Phone, pass};

const SQUAD: &str = "Mira\nTove\nOdile\nBram\nIva";

fn on(phone: &Phone) -> PracticeId {
    phone.model.practice_today().expect("a practice is on").id
}

fn left_open(phone: &Phone) -> Vec<PracticeId> {
    let left = |kind| if let NoticeKind::LeftOpen(id) = kind { Some(id) } else { None };
    today::today(&phone.model).notices.into_iter().filter_map(|n| left(n.kind)).collect()
}

fn way(phone: &Phone, id: PracticeId) -> Option<PracticeWay> {
    practice_report(&phone.model, id).expect("a report").ways.first().map(|row| row.way)
}

/// In the demo there is no erase: it would be the coach's own squad that goes.
#[test]
fn the_demo_erases_nothing() {
    let mut phone = Phone::demo();
    phone.act(Action::Go(Screen::Phone));
    phone.act(Action::EraseAsked);
    assert!(!phone.model.drafts.erase_asked);
    phone.act(Action::EraseSure);
    assert!(!phone.effects.contains(&Effect::Erase));
    phone.act(Action::DemoLeft);
    assert!(phone.effects.contains(&Effect::LeaveDemo));
}

/// Tuesday's practice is opened again while Thursday's is on: its end ends Tuesday's, and Thursday's run goes on.
#[test]
fn an_end_ends_its_own_practice() {
    let mut phone = Phone::with_squad(SQUAD);
    phone.drill(0);
    phone.act(Action::PlaceTapped(Place(0), pass(3)));
    let Screen::Run(run) = phone.model.screen else { panic!("run") };
    let tuesday = on(&phone);
    phone.end_practice();
    phone.next_day();
    phone.drill(0);
    let thursday = on(&phone);
    phone.act(Action::PracticeReopened(tuesday));
    assert_eq!(left_open(&phone), [tuesday]);
    phone.act(Action::RunReopened(run));
    phone.act(Action::PlaceTapped(Place(1), pass(3)));
    phone.act(Action::Go(Screen::PracticeReport(tuesday)));
    assert_eq!(way(&phone, tuesday), Some(PracticeWay::End));
    phone.act(Action::PracticeEnded(tuesday));
    assert_eq!((way(&phone, tuesday), way(&phone, thursday)), (Some(PracticeWay::OpenAgain), Some(PracticeWay::End)));
    assert!(phone.model.runs[&run].main.finished);
    assert_eq!((on(&phone), left_open(&phone).len()), (thursday, 0));
    assert!(phone.model.run_on().is_some(), "Thursday's run goes on");
}

/// A practice of another phone is neither ended nor opened again here.
#[test]
fn an_imported_practice_is_not_ended_here() {
    for ended in [false, true] {
        let mut coach = Phone::with_squad(SQUAD);
        coach.drill(0);
        coach.act(Action::PlaceTapped(Place(0), pass(3)));
        let practice = on(&coach);
        if ended {
            coach.end_practice();
        }
        let mut other = Phone::other("Runa");
        other.choose("copy.json", "k", &coach.copy());
        other.act(Action::ParcelAccepted);
        other.act(Action::Go(Screen::PracticeReport(practice)));
        assert_eq!(way(&other, practice), None);
        let n = other.model.own.len();
        other.act(Action::PracticeEnded(practice));
        other.act(Action::PracticeReopened(practice));
        assert_eq!(other.model.own.len(), n);
    }
}

/// A practice left open with a child away: the next day everyone is here, and a tap says nothing of the day before.
#[test]
fn absences_stay_in_their_practice() {
    let mut phone = Phone::with_squad(SQUAD);
    let (mira, bram) = (phone.player("Mira"), phone.player("Bram"));
    phone.act(Action::PresenceTapped(mira));
    phone.drill(0);
    phone.act(Action::Go(Screen::Today));
    let tuesday = on(&phone);
    phone.next_day();
    assert_eq!(today::today(&phone.model).here, "All 5 are here");
    assert_eq!(phone.model.run_on(), None);
    phone.act(Action::PresenceTapped(bram));
    assert_eq!(today::today(&phone.model).here, "4 of 5 are here");
    phone.drill(1);
    let away = |id| phone.model.base.practice(id).unwrap().away.into_iter().collect::<Vec<_>>();
    assert_eq!(away(tuesday), [mira]);
    assert_eq!(away(on(&phone)), [bram]);
    assert!(phone.model.base.practice(tuesday).unwrap().ended, "the first drill of the day ends it");
    assert!(left_open(&phone).is_empty());
}

/// The page was loaded again on another screen: its run is finished by the next drill and by the end of the practice.
#[test]
fn a_run_of_an_earlier_page_is_finished() {
    for ends in [false, true] {
        let mut phone = Phone::with_squad(SQUAD);
        phone.drill(0);
        phone.act(Action::PlaceTapped(Place(0), pass(3)));
        let Screen::Run(first) = phone.model.screen else { panic!("run") };
        phone.restart_elsewhere();
        assert!(!phone.model.is_mine(&phone.model.runs[&first]));
        if ends {
            phone.end_practice();
        } else {
            phone.drill(2);
            phone.act(Action::Finish);
        }
        let run = &phone.model.runs[&first];
        assert!(run.main.finished && run.beside.is_empty());
        assert_eq!(run.main.contacts.len(), 1);
        assert_eq!(phone.model.run_on(), None);
    }
}

/// Two windows tally at once: the drill that the second one starts leaves the run of the first alone.
#[test]
fn a_run_that_is_live_in_another_window_goes_on() {
    let mut first = Phone::with_squad(SQUAD);
    first.drill(0);
    let Screen::Run(run) = first.model.screen else { panic!("run") };
    let mut second = first.second_window();
    second.act(Action::Go(Screen::Today));
    second.drill(2);
    first.hear(&second);
    assert!(!first.model.runs[&run].main.finished);
    first.act(Action::PlaceTapped(Place(0), pass(3)));
    assert_eq!(first.board().figures.of, "good of 1");
}

/// Found in review: the first window holds the lock; its next drill ended the run that the second was tallying, and a child tapped
/// away there stayed on its own board, because the second's run was the later one.
#[test]
fn the_first_window_leaves_the_second_ones_run_alone() {
    let mut first = Phone::with_squad(SQUAD);
    first.drill(0);
    let mut second = first.second_window();
    second.act(Action::Go(Screen::Today));
    second.drill(2);
    let Screen::Run(run) = second.model.screen else { panic!("run") };
    first.hear(&second);
    first.act(Action::PresenceTapped(first.player("Bram")));
    let own = first.model.run_on().expect("its own run");
    assert!(first.model.is_mine(own) && own.main.lineup.everyone().count() == 4);
    first.act(Action::Finish);
    first.act(Action::Go(Screen::Today));
    let told = "“Passing one by one” is open in another window of this phone.";
    assert!(today::today(&first.model).notices.iter().any(|n| n.text == told));
    first.drill(3);
    second.hear(&first);
    assert_eq!(second.board().cover, None);
    second.act(Action::OutcomeTapped(pass(3)));
    assert_eq!(second.board().figures.of, "good of 1");
    // Looked at here it goes on there, until the coach says otherwise.
    first.hear(&second);
    first.act(Action::Go(Screen::Run(run)));
    assert_eq!(first.board().cover, Some(Cover::Elsewhere));
    assert!(!first.model.is_mine(&first.model.runs[&run]));
    first.act(Action::TakeOver(run));
    assert_eq!(first.board().cover, None);
    // The end of the practice ends every run of it.
    first.end_practice();
    assert!(first.model.runs[&run].main.finished && first.model.runs[&run].beside.is_empty());
}

/// Found in review: after a reload on another screen the run that this window had left was said to be open in another one.
#[test]
fn a_run_of_an_earlier_page_is_in_no_other_window() {
    let elsewhere = |phone: &Phone| {
        today::today(&phone.model).notices.iter().any(|n| matches!(n.kind, NoticeKind::RunElsewhere(_)))
    };
    let mut phone = Phone::with_squad(SQUAD);
    phone.drill(0);
    let second = phone.second_window();
    phone.restart_elsewhere();
    phone.act(Action::Go(Screen::Today));
    assert_eq!((elsewhere(&phone), elsewhere(&second)), (false, true));
}

/// Found in review: Tuesday's practice opened again led to Today, where it isn't, and was said there never to have ended.
#[test]
fn opened_again_it_is_told_apart_from_never_ended() {
    let mut phone = Phone::with_squad(SQUAD);
    let texts = |phone: &Phone| -> Vec<(String, Option<String>)> {
        let left = |n: &today::Notice| matches!(n.kind, NoticeKind::LeftOpen(_));
        today::today(&phone.model).notices.into_iter().filter(left).map(|n| (n.text, n.act)).collect()
    };
    let said = |text: &str| (text.to_owned(), Some("See its report".to_owned()));
    phone.drill(0);
    let first = on(&phone);
    phone.act(Action::Go(Screen::Today));
    phone.end_practice();
    phone.act(Action::PracticeReopened(first));
    assert_eq!(phone.model.screen, Screen::Today, "it is on again");
    phone.end_practice();
    phone.next_day();
    phone.act(Action::PracticeReopened(first));
    assert_eq!(phone.model.screen, Screen::PracticeReport(first));
    assert_eq!(texts(&phone), [said("The practice of Sunday 29 November is open again.")]);
    phone.act(Action::PracticeEnded(first));
    phone.drill(0);
    phone.next_day();
    assert_eq!(texts(&phone), [said("The practice of Monday 30 November was never ended.")]);
}

/// Found in review: who was tapped away stayed away on every day after, in a page that stays open.
#[test]
fn a_new_day_finds_everyone_here() {
    let mut phone = Phone::with_squad(SQUAD);
    phone.act(Action::PresenceTapped(phone.player("Mira")));
    assert_eq!(today::today(&phone.model).here, "4 of 5 are here");
    phone.next_day();
    assert_eq!(today::today(&phone.model).here, "All 5 are here");
    phone.act(Action::PresenceTapped(phone.player("Bram")));
    assert_eq!(today::today(&phone.model).here, "4 of 5 are here");
    phone.drill(0);
    assert_eq!(phone.model.away().len(), 1);
}

/// A drill opens as it was last used: the children in their order, the rule, the feed and what is good as the coach set them, each child's
/// serve style. Also once the practice before lies packed.
#[test]
fn a_drill_opens_ready_as_last_time() {
    let mut phone = Phone::with_squad(SQUAD);
    let (drill, spec) = phone.model.base.drills().into_iter().map(|(id, s)| (id, s.clone())).nth(4).expect("servers");
    let rule = Rule::Tally { goal: Some(12) };
    let feed = Feed { step: Step(2), ..spec.feed };
    let changed = DrillSpec { rule, feed, good_from: GoodFrom::FastServeIn, ..spec };
    phone.act(Action::Go(Screen::Drill(Some(drill))));
    phone.act(Action::DrillDrafted(changed.clone()));
    phone.act(Action::DrillKept);
    phone.drill(4);
    let bram = phone.player("Bram");
    phone.act(Action::StyleTapped(bram));
    phone.act(Action::SwapTapped);
    phone.act(Action::SwapTapped);
    phone.act(Action::NameTapped(bram));
    phone.act(Action::OutcomeTapped(Outcome::Serve { outcome: ServeOutcome::In, fast: true }));
    let run = phone.model.run_on().expect("on");
    let (order, style) = (run.main.lineup.clone(), phone.model.base.style_of(bram));
    let Keys::Serve { names, .. } = phone.board().keys else { panic!("servers") };
    assert_ne!(names[0].name, "Mira");
    phone.end_practice();
    for reload in [false, true] {
        phone.next_day();
        if reload {
            phone.restart();
        }
        phone.act(Action::Go(Screen::Today));
        phone.drill(4);
        let run = phone.model.run_on().expect("on");
        assert_eq!((&run.spec, &run.main.lineup), (&changed, &order));
        assert_eq!(phone.model.base.style_of(bram), style);
        assert_eq!(phone.board().figures.goal.as_deref(), Some("goal 12"));
        phone.end_practice();
    }
}

/// The drill that is on is tapped after the page was loaded again: the same run goes on.
#[test]
fn the_drill_that_is_on_goes_on() {
    let mut phone = Phone::with_squad(SQUAD);
    phone.drill(0);
    phone.act(Action::PlaceTapped(Place(0), pass(3)));
    phone.restart_elsewhere();
    phone.drill(0);
    phone.act(Action::PlaceTapped(Place(0), pass(3)));
    assert_eq!(phone.board().figures.of, "good of 2");
}

/// A child tapped away in mid-run: undo says so, and brings it back to its place and to the practice.
#[test]
fn undo_of_presence_takes_back_both() {
    let mut phone = Phone::with_squad(SQUAD);
    phone.drill(0);
    let before = phone.board().keys;
    let mira = phone.player("Mira");
    for name in ["Mira is away", "Mira is here"] {
        phone.act(Action::PresenceTapped(mira));
        assert_eq!(phone.board().undo.as_deref(), Some(format!("{name}, just now").as_str()));
    }
    for here in [4, 5] {
        phone.act(Action::UndoTapped);
        assert_eq!(phone.model.here().len(), here);
    }
    assert_eq!((phone.board().keys, phone.board().undo), (before, None));
    phone.act(Action::SwapTapped);
    assert_eq!(phone.board().undo.as_deref(), Some("swap, just now"));
}

/// Everyone was tapped away: the keys of every board that needs a child rest, and a sentence says why.
#[test]
fn keys_rest_while_nobody_is_here() {
    for drill in 0..8 {
        let mut phone = Phone::with_squad(SQUAD);
        phone.drill(drill);
        assert!(!phone.board().nobody);
        for child in phone.model.squad() {
            phone.act(Action::PresenceTapped(child.id));
        }
        let board = phone.board();
        let group = matches!(board.keys, Keys::Group { .. });
        assert_eq!(board.nobody, !group, "drill {drill}");
        if board.nobody {
            assert_eq!(board.call, "Nobody stands here. Tap who is here, above.");
        }
        let n = phone.model.own.len();
        for outcome in
            [pass(3), Outcome::TwoKey { good: true }, Outcome::Serve { outcome: ServeOutcome::In, fast: true }]
        {
            phone.act(Action::OutcomeTapped(outcome));
        }
        assert_eq!(phone.model.own.len() == n, !group, "drill {drill}");
    }
}
