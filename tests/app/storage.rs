//! The storage beside the log: what is asked of the browser, what waits, what fails and is tried again, erasing, the new version.

use peppertally::app::action::Action;
use peppertally::app::effect::{Effect, Report, Trouble};
use peppertally::app::model::PhoneFacts;
use peppertally::app::screen::Screen;
use peppertally::app::settings::Settings;
use peppertally::app::update;
use peppertally::app::view::board::SavedView;
use peppertally::app::view::{share, today};
use peppertally::app::words;
use peppertally::app::work::{Answer, Job};
use peppertally::domain::ids::{Place, PracticeId};
use peppertally::domain::time::Stamp;

use super::phone::{Phone, pass};

const SQUAD: &str = "Mira\nTove\nOdile\nBram";

fn practised(phone: &mut Phone) -> PracticeId {
    phone.act(Action::Go(Screen::Today));
    phone.drill(0);
    phone.act(Action::PlaceTapped(Place(0), pass(3)));
    phone.act(Action::Finish);
    let practice = phone.model.practice_today().expect("on").id;
    phone.act(Action::PracticeEnded(practice));
    practice
}

fn n_jobs(phone: &Phone, wanted: fn(&Job) -> bool) -> usize {
    phone.effects.iter().filter(|e| matches!(e, Effect::Work(job) if wanted(job))).count()
}

/// Lasting storage is asked for at the first real data, and the next page knows that it was.
#[test]
fn lasting_storage_is_asked_for_once() {
    let phone = Phone::with_squad(SQUAD);
    let at = phone.effects.iter().position(|e| *e == Effect::AskLasting).expect("asked");
    let Some(Effect::KeepSettings(text)) = phone.effects.get(at + 1) else { panic!("{:?}", phone.effects) };
    assert!(Settings::from_json(text).expect("ours").lasting_asked);
    assert_eq!(phone.effects.iter().filter(|e| **e == Effect::AskLasting).count(), 1);
}

/// A second that passes touches the model only where something on screen depends on time.
#[test]
fn time_passes_only_where_it_is_seen() {
    let mut phone = Phone::with_squad(SQUAD);
    let soon = Stamp { wall_ms: phone.model.now.wall_ms + 1_000, ..phone.model.now };
    let tomorrow = Stamp { wall_ms: phone.model.now.wall_ms + 86_400_000, ..phone.model.now };
    for (screen, now, wanted) in [
        (Screen::Today, soon, false),
        (Screen::Today, tomorrow, true),
        (Screen::After, tomorrow, false),
        (Screen::Squad, soon, false),
    ] {
        phone.act(Action::Go(screen));
        assert_eq!(update::wants_tick(&phone.model, now), wanted, "{screen:?}");
    }
    phone.act(Action::Go(Screen::Today));
    phone.drill(0);
    assert!(update::wants_tick(&phone.model, soon));
}

/// A practice that was opened again is on, also when its summary has to be made again first.
#[test]
fn opened_again_under_an_old_summary() {
    let mut phone = Phone::with_squad(SQUAD);
    let practice = practised(&mut phone);
    phone.restart();
    phone.act(Action::Go(Screen::PracticeReport(practice)));
    let run = phone.model.packed[&practice].summary.runs[0].run;
    phone.act(Action::RunReopened(run));
    phone.act(Action::PlaceTapped(Place(1), pass(3)));
    for text in phone.summaries.values_mut() {
        *text = "{\"fold\":0}".to_owned();
    }
    phone.restart();
    assert_eq!(phone.model.practice_today().map(|p| p.id), Some(practice));
    assert_eq!(phone.board().figures.of, "good of 2");
}

/// Two practices that can't be packed are tried once each, not in turn for ever.
#[test]
fn what_cannot_be_packed_is_tried_once() {
    let mut phone = Phone::with_squad(SQUAD);
    phone.fails = Some(Answer::Refused(words::work::NOT_PACKED.to_owned()));
    practised(&mut phone);
    practised(&mut phone);
    for _ in 0..4 {
        phone.act(Action::Go(Screen::Today));
        phone.act(Action::Go(Screen::After));
    }
    assert_eq!(n_jobs(&phone, |job| matches!(job, Job::Pack { .. })), 2);
}

/// A summary that can't be made is told with a key; once it is made, nothing is told any more.
#[test]
fn a_summary_is_tried_again() {
    let mut phone = Phone::with_squad(SQUAD);
    let practice = practised(&mut phone);
    for text in phone.summaries.values_mut() {
        *text = "{\"fold\":0}".to_owned();
    }
    phone.restart();
    phone.act(Action::Go(Screen::Today));
    // As if the worker had not started.
    let key = practice.0.to_string();
    let job = Job::Summarise { practice: key, same: Vec::new() };
    let no_start = Answer::Refused(words::work::NO_START.to_owned());
    phone.report(Report::Worked { job, answer: no_start.clone() });
    let told = |phone: &Phone| {
        let notices = today::today(&phone.model).notices;
        notices.into_iter().find(|n| n.kind == today::NoticeKind::Work).map(|n| (n.text, n.act))
    };
    let sentence = (words::work::NO_START.to_owned(), Some(words::screens::READ_AGAIN.to_owned()));
    assert_eq!(told(&phone), Some(sentence.clone()));
    phone.fails = Some(no_start);
    phone.act(Action::ReadAgain);
    assert_eq!(told(&phone), Some(sentence));
    phone.fails = None;
    phone.act(Action::ReadAgain);
    assert_eq!(told(&phone), None);
    assert_eq!(phone.model.packed[&practice].summary.runs[0].n_contacts, 1);
}

/// What another tab has stored lies loose for this one too: the window that ends the practice packs all of it.
#[test]
fn what_was_heard_is_packed() {
    let mut first = Phone::with_squad(SQUAD);
    let mut second = first.second_window();
    first.drill(0);
    first.act(Action::PlaceTapped(Place(0), pass(3)));
    first.act(Action::Finish);
    second.hear(&first);
    second.db = first.db.clone();
    let practice = second.model.practice_today().expect("on").id;
    second.act(Action::PracticeEnded(practice));
    second.act(Action::Go(Screen::After));
    assert_eq!(second.blocks.len(), 1);
    assert!(second.db.values().all(|text| !text.contains("contact-noted")));
}

/// Erasing that another window holds up is told as that, not as a storage that might be saved to; another refusal leaves all.
#[test]
fn an_erase_that_waits() {
    let mut phone = Phone::with_squad(SQUAD);
    phone.act(Action::Go(Screen::Phone));
    phone.act(Action::EraseAsked);
    phone.act(Action::EraseSure);
    phone.report(Report::NotErased(Trouble::Refused("a damaged disk".to_owned())));
    let view = share::phone(&phone.model);
    assert_eq!(view.saved, SavedView::Saved);
    assert!(view.not_erased.expect("told").starts_with("Not everything could be erased"));
    phone.act(Action::EraseSure);
    phone.report(Report::NotErased(Trouble::Erasing));
    let view = share::phone(&phone.model);
    assert_eq!(view.saved, SavedView::NotSaved { n: 0, why: "being erased".to_owned() });
    assert!(view.not_erased.expect("told").contains("Close the other windows"));
    assert!(view.storage.iter().all(|line| !line.contains("Save again")));
}

/// "Save again" asks the storage also where nothing waits to be saved.
#[test]
fn save_again_always_does_something() {
    let mut phone = Phone::with_squad(SQUAD);
    phone.report(Report::SaveFailed { keys: Vec::new(), trouble: Trouble::Lost });
    assert!(matches!(today::today(&phone.model).saved, SavedView::NotSaved { .. }));
    phone.act(Action::SaveAgain);
    assert_eq!(today::today(&phone.model).saved, SavedView::Saved);
}

/// A new version that is asked for and refused says why, until it is asked for again.
#[test]
fn a_refused_update_is_told() {
    let mut phone = Phone::with_squad(SQUAD);
    let waiting = PhoneFacts { update_waiting: true, ..PhoneFacts::default() };
    phone.report(Report::Phone(waiting.clone()));
    assert_eq!(share::phone(&phone.model).update, Some(words::screens::UPDATE_LINE));
    phone.act(Action::UpdateTaken);
    phone.report(Report::Phone(PhoneFacts { update_refused: true, ..waiting }));
    assert_eq!(share::phone(&phone.model).update, Some(words::today::UPDATE_REFUSED));
    assert!(today::today(&phone.model).notices.iter().any(|n| n.text == words::today::UPDATE_REFUSED));
    phone.act(Action::UpdateTaken);
    assert_eq!(share::phone(&phone.model).update, Some(words::screens::UPDATE_LINE));
}
