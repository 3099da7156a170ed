//! Finished practices lie packed; corrected or opened again they are read and packed once more; a copy holds everything.

use peppertally::app::action::Action;
use peppertally::app::effect::Effect;
use peppertally::app::screen::Screen;
use peppertally::app::view::{report, share, today};
use peppertally::domain::ids::{Place, PracticeId, RunId};
use peppertally::domain::skill::{Outcome, PassGrade};
use peppertally::wire::file;

use super::phone::{Phone, pass};

/// A practice of three contacts, ended, packed, and the phone started again.
fn packed() -> (Phone, PracticeId, RunId) {
    let mut phone = Phone::with_squad("Mira\nTove\nOdile\nBram");
    phone.drill(0);
    for grade in [3, 2, 0] {
        phone.act(Action::PlaceTapped(Place(0), pass(grade)));
    }
    let Screen::Run(run) = phone.model.screen else { panic!("run") };
    phone.act(Action::Finish);
    phone.end_practice();
    let Screen::PracticeReport(practice) = phone.model.screen else { panic!("practice") };
    assert_eq!((phone.blocks.len(), phone.summaries.len()), (1, 1));
    assert!(phone.db.values().all(|record| !record.contains("contact-noted")), "no contact lies loose");
    phone.restart();
    (phone, practice, run)
}

#[test]
fn a_finished_practice_is_read_only_when_wanted() {
    let (mut phone, practice, run) = packed();
    assert!(phone.model.runs.is_empty(), "opening reads summaries alone");
    let row = &report::after(&phone.model).practices[0];
    assert_eq!(row.what, "1 drill, 3 contacts");
    let card = &today::today(&phone.model).drills[0];
    assert_eq!(card.last.as_deref(), Some("Last time 2\u{a0}good\u{a0}of\u{a0}3"));
    phone.act(Action::Go(Screen::PracticeReport(practice)));
    assert!(!report::practice_report(&phone.model, practice).unwrap().loading);
    assert_eq!(report::run_report(&phone.model, run).unwrap().sections[0].rows[0].count, "2 of 3");
}

#[test]
fn a_correction_after_a_restart_is_packed_again() {
    let (mut phone, practice, run) = packed();
    phone.act(Action::Go(Screen::Contacts(run)));
    let contact = report::contacts(&phone.model, run).unwrap().rows[0].contact;
    let player = phone.model.runs[&run].main.contacts[2].contact.player;
    let outcome = Outcome::Pass { grade: PassGrade::Stood, over_net: false };
    phone.act(Action::ContactFixed { contact, player, outcome, step: 0 });
    // Killed before the screen was left: the correction lies loose.
    phone.restart();
    assert_eq!(report::after(&phone.model).practices.len(), 1);
    phone.act(Action::Go(Screen::Today));
    assert!(phone.db.values().all(|record| !record.contains("corrected")), "packed again");
    phone.restart();
    let card = &today::today(&phone.model).drills[0];
    assert_eq!(card.last.as_deref(), Some("Last time 3\u{a0}good\u{a0}of\u{a0}3"));
    assert_eq!(phone.model.packed[&practice].summary.runs[0].everyone.easy.good(), 3);
}

#[test]
fn opened_again_it_goes_on() {
    let (mut phone, practice, run) = packed();
    phone.act(Action::Go(Screen::PracticeReport(practice)));
    phone.act(Action::RunReopened(run));
    phone.act(Action::PlaceTapped(Place(1), pass(3)));
    assert_eq!(phone.board().figures.of, "good of 4");
    phone.restart();
    assert_eq!(phone.board().figures.of, "good of 4");
    phone.act(Action::Finish);
    phone.end_practice();
    phone.act(Action::Go(Screen::Today));
    phone.restart();
    assert!(phone.model.runs.is_empty());
    assert_eq!(report::after(&phone.model).practices[0].what, "1 drill, 4 contacts");
}

/// A damaged summary is made again from its block, and nothing is lost.
#[test]
fn a_summary_that_cannot_be_read_is_made_again() {
    let (mut phone, practice, _) = packed();
    for text in phone.summaries.values_mut() {
        *text = "{\"fold\":0}".to_owned();
    }
    phone.restart();
    phone.act(Action::Go(Screen::Today));
    phone.restart();
    assert_eq!(phone.model.packed[&practice].summary.runs[0].n_contacts, 3);
}

/// What is sent holds the packed ones too; opened elsewhere it says what is new, twice it changes nothing, taken back it is gone.
#[test]
fn a_copy_holds_everything_and_is_taken_in_once() {
    let (mut phone, ..) = packed();
    let bytes = phone.copy();
    let Some(Effect::Offer { name, .. }) = phone.effects.last() else { panic!("{:?}", phone.effects.last()) };
    assert!(name.ends_with(".json"), "{name}");
    let copy = file::read(&bytes, &file::Limits::default()).expect("our own file");
    assert!(copy.entries.len() > 15);

    let mut other = Phone::other("Iva");
    other.choose("ours.json", "k", &bytes);
    let preview = share::share(&other.model).parcel.expect("a preview").preview;
    assert_eq!(preview.lead, "3 contacts of 1 practice, not here yet.");
    assert_eq!(preview.lines[0], "New too: 4 children.", "the drills that are ready are the same on both");
    assert_eq!(other.model.base.players().len(), 1, "nothing is taken in yet");
    other.act(Action::ParcelAccepted);
    assert_eq!(other.model.base.players().len(), 5);
    assert_eq!(report::after(&other.model).practices.len(), 1);
    other.choose("ours.json", "k", &bytes);
    assert!(share::share(&other.model).parcel.unwrap().preview.nothing_new);
    other.act(Action::ParcelAccepted);
    assert_eq!(other.model.parcels.len(), 1);
    other.act(Action::ParcelTakenBack("k".to_owned()));
    assert_eq!(other.model.base.players().len(), 1);
    assert_eq!(report::after(&other.model).practices.len(), 0);
    other.act(Action::ParcelPutBack("k".to_owned()));
    assert_eq!(report::after(&other.model).practices.len(), 1);
}

/// The demo's season lies packed from the start; the same seed makes the same season.
#[test]
fn the_demo_is_a_season() {
    use peppertally::app::demo::{Size, season};
    use peppertally::domain::time::Stamp;
    let mut phone = Phone::demo();
    assert_eq!(today::today(&phone.model).children.len(), 12);
    let practices = report::after(&phone.model).practices;
    assert_eq!((practices.len(), practices[0].what.as_str()), (24, "3 drills, 180 contacts"));
    assert_eq!(phone.blocks.len(), 24);
    phone.act(Action::Go(Screen::PracticeReport(practices[3].practice)));
    let view = report::practice_report(&phone.model, practices[3].practice).unwrap();
    assert!(!view.loading && view.runs.iter().all(|r| r.count.contains("good of 60")), "{view:?}");
    let at = Stamp { wall_ms: 1_795_968_300_000, offset_min: 60, mono_ms: 0 };
    assert_eq!(season(7, Size::DEMO, at), season(7, Size::DEMO, at));
}

/// Practice is on Tuesdays and Fridays at half past five, whatever the hour is now, and every kind of report can be looked at.
#[test]
fn the_demo_is_believable() {
    use peppertally::app::demo::{Size, season};
    use peppertally::app::words::counts::when;
    use peppertally::domain::entry::Fact;
    use peppertally::domain::skill::{Outcome, Skill};
    use peppertally::domain::time::Stamp;
    // A Sunday at 17:05, and a Friday at 02:00 west of Greenwich.
    for (wall_ms, offset_min) in [(1_795_968_300_000, 60), (1_795_770_000_000, -420)] {
        let at = Stamp { wall_ms, offset_min, mono_ms: 0 };
        for size in [Size::DEMO, Size { n_children: 20, n_practices: 3, n_contacts_a_practice: 100 }] {
            let season = season(7, size, at);
            assert_eq!(season.practices.len(), size.n_practices as usize);
            for entries in &season.practices {
                let of = |is: fn(&Fact) -> bool| entries.iter().filter(|e| is(&e.fact)).count();
                let n_contacts = of(|fact| matches!(fact, Fact::ContactNoted { .. }));
                assert_eq!(n_contacts, size.n_contacts_a_practice as usize);
                assert_eq!(of(|fact| matches!(fact, Fact::PracticeEnded { .. })), 1);
                let start = when(entries[0].at, at);
                assert!(start.starts_with("Tuesday ") || start.starts_with("Friday "), "{start}");
                assert!(start.ends_with(", 17:30"), "{start}");
                assert!(entries.last().expect("an end").at.wall_ms < at.wall_ms);
            }
            let all = || season.practices.iter().flatten().map(|e| &e.fact);
            assert!(all().any(|fact| matches!(fact, Fact::CountTold { .. })));
            let missed = |fact: &Fact| matches!(fact, Fact::ContactNoted { contact, .. } if contact.outcome == Outcome::ServeMissed);
            assert!(all().any(missed));
            let own = |fact: &Fact| matches!(fact, Fact::RunStarted { spec, .. } if spec.skill == Skill::Own("Landing".to_owned()));
            assert!(all().any(own));
        }
    }
}
