//! What is shown before the engine is here changes nothing of what the engine makes of it afterwards.

use peppertally::app::action::Action;
use peppertally::app::effect::{Opened, Report};
use peppertally::app::model::{Model, PhoneFacts, StorageState};
use peppertally::app::screen::Screen;
use peppertally::app::update::{self, early};
use peppertally::app::view::board::SavedView;
use peppertally::app::view::today::{NoticeKind, TodayView, first_notice, today};
use peppertally::app::words::today::TODAY;
use peppertally::app::writer::Writer;
use peppertally::domain::time::Stamp;

const AT: Stamp = Stamp { wall_ms: 1_795_968_300_000, offset_min: 60, mono_ms: 1_000 };

fn page(demo: bool) -> Model {
    Model::new(Writer::new(1, "this phone".to_owned()), AT, demo)
}

fn opened(opened: Opened) -> Report {
    Report::Opened(Box::new(opened))
}

/// What the engine makes of an empty storage, a phone that has the app on its home screen, and a tap on the way to this screen. In
/// which order a screen gets what it needs is open.
fn engine(model: &mut Model, to: Screen) -> (Vec<String>, Screen, TodayView) {
    let mut effects = Vec::new();
    for report in [opened(Opened::default()), installed()] {
        effects.extend(update::heard(model, report, AT));
    }
    effects.extend(update::act(model, Action::Go(to), AT));
    let mut effects: Vec<String> = effects.iter().map(|effect| format!("{effect:?}")).collect();
    effects.sort();
    (effects, model.screen, today(model))
}

fn installed() -> Report {
    Report::Phone(PhoneFacts { installed: true, ..PhoneFacts::default() })
}

#[test]
fn the_engine_finds_the_same() {
    for to in [Screen::Roster, Screen::Squad, Screen::After, Screen::Share, Screen::Library, Screen::Today] {
        let mut early = page(false);
        early::act(&mut early, &Action::Go(Screen::Roster));
        assert_eq!(early.screen, Screen::Today, "the storage has not answered");
        early::heard(&mut early, &opened(Opened::default()));
        assert_eq!(early.storage.state, StorageState::Ready);
        assert_eq!(first_notice(&early).map(|n| n.kind), Some(NoticeKind::Install));
        early::heard(&mut early, &installed());
        assert_eq!(first_notice(&early), None);
        early::act(&mut early, &Action::Go(to));
        assert_eq!(early.screen, to);
        assert_eq!(engine(&mut early, to), engine(&mut page(false), to), "{to:?}");
    }
}

/// The first screen is drawn before the engine is here and after it: it says the same.
#[test]
fn the_first_screen_is_that_of_today() {
    let mut early = page(false);
    early::heard(&mut early, &opened(Opened::default()));
    let mut later = page(false);
    update::heard(&mut later, opened(Opened::default()), AT);
    let view = today(&later);
    assert_eq!(view.notices, first_notice(&early).into_iter().collect::<Vec<_>>());
    assert_eq!((view.title.as_str(), &view.saved, view.no_squad), (TODAY, &SavedView::Saved, true));
}

#[test]
fn where_anything_is_stored_nothing_is_early() {
    let text = || "x".to_owned();
    for some in [
        Opened { entries: vec![(text(), Ok(text()))], ..Opened::default() },
        Opened { entries: vec![(text(), Err(text()))], ..Opened::default() },
        Opened { second: vec![(text(), text())], ..Opened::default() },
        Opened { summaries: vec![(text(), Ok(text()))], ..Opened::default() },
        Opened { parcels: vec![(text(), text())], ..Opened::default() },
        Opened { aside: vec![(text(), text())], ..Opened::default() },
        Opened { settings: Some(text()), ..Opened::default() },
    ] {
        let mut model = page(false);
        early::heard(&mut model, &opened(some.clone()));
        assert_eq!(model.storage.state, StorageState::Opening, "{some:?}");
    }
    let mut demo = page(true);
    early::heard(&mut demo, &opened(Opened::default()));
    assert_eq!(demo.storage.state, StorageState::Opening, "the demo's season is still to come");
}
