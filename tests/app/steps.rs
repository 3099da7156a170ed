//! Steps that several tests take with a pretended phone.

use peppertally::app::action::Action;
use peppertally::app::screen::Screen;
use peppertally::app::view::report;
use peppertally::domain::drill::DrillSpec;
use peppertally::domain::ids::{Place, PlayerId, PracticeId, RunId};

use super::phone::{Phone, pass};

/// A practice of three passers with a ball of each grade, all at the first place, ended.
pub fn practised(phone: &mut Phone, grades: &[u8]) -> (PracticeId, RunId) {
    phone.act(Action::Go(Screen::Today));
    phone.drill(0);
    grades.iter().for_each(|grade| phone.act(Action::PlaceTapped(Place(0), pass(*grade))));
    let Screen::Run(run) = phone.model.screen else { panic!("run") };
    phone.act(Action::Finish);
    phone.end_practice();
    let Screen::PracticeReport(practice) = phone.model.screen else { panic!("practice") };
    phone.act(Action::Go(Screen::Today));
    (practice, run)
}

/// The children of a group of the run on screen, as the app has mixed them. Groups count from 0.
pub fn group(phone: &Phone, at: usize) -> Vec<PlayerId> {
    let Screen::Run(run) = phone.model.screen else { panic!("no run is on screen") };
    phone.model.runs[&run].main.lineup.groups[at].clone()
}

/// Their names, as a sentence lists them.
pub fn group_named(phone: &Phone, at: usize) -> String {
    group(phone, at).into_iter().map(|player| phone.model.name_of(player)).collect::<Vec<_>>().join(", ")
}

/// A file is opened and taken in.
pub fn take_in(phone: &mut Phone, hash: &str, bytes: &[u8]) {
    phone.choose("copy.json", hash, bytes);
    phone.act(Action::ParcelAccepted);
}

/// The last contact of a run gets another grade, its child stays.
pub fn correct_last(phone: &mut Phone, run: RunId, grade: u8) {
    phone.act(Action::Go(Screen::Contacts(run)));
    let contact = report::contacts(&phone.model, run).expect("contacts").rows[0].contact;
    let player = phone.model.runs[&run].main.contacts.last().expect("a contact").contact.player;
    phone.act(Action::ContactFixed { contact, player, outcome: pass(grade), step: 0 });
    phone.act(Action::Go(Screen::Today));
}

/// On the board of a ready drill, changed and kept.
pub fn on_board(squad: &str, index: usize, change: impl FnOnce(DrillSpec) -> DrillSpec) -> Phone {
    let mut phone = Phone::with_squad(squad);
    let drills: Vec<_> = phone.model.base.drills().into_iter().map(|(id, s)| (id, s.clone())).collect();
    let (drill, spec) = drills[index].clone();
    phone.act(Action::Go(Screen::Drill(Some(drill))));
    phone.act(Action::DrillDrafted(change(spec)));
    phone.act(Action::DrillKept);
    phone.drill(index);
    phone
}
