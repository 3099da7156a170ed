//! The list of a run's contacts on the boards that know less than a skill: what a ball may be put right to, and whose it was.

use peppertally::app::action::Action;
use peppertally::app::screen::Screen;
use peppertally::app::view::report::{ContactsView, contacts};
use peppertally::domain::drill::*;
use peppertally::domain::ids::{GroupNo, RunId};
use peppertally::domain::skill::{GoodFrom, Outcome, PassGrade, Skill};

use super::phone::Phone;

const GOOD: Outcome = Outcome::TwoKey { good: true };
const NOT: Outcome = Outcome::TwoKey { good: false };

/// On the board of a drill of this kind.
fn on_board(skill: Skill, board: Board, groups: Option<u8>) -> (Phone, RunId) {
    let mut phone = Phone::with_squad("Mira\nTove\nOdile\nBram");
    let good_from = match skill {
        Skill::Pass => GoodFrom::Grade(PassGrade::Moved),
        Skill::Serve => GoodFrom::ServeIn,
        Skill::Own(_) => GoodFrom::GoodKey,
    };
    phone.new_drill(DrillSpec {
        name: "A drill".to_owned(),
        skill,
        board,
        rule: Rule::Tally { goal: None },
        good_from,
        feed: DrillSpec::EASY,
        on_floor: OnFloor { groups, ..OnFloor::default() },
    });
    let Screen::Run(run) = phone.model.screen else { panic!("no board: {:?}", phone.model.screen) };
    (phone, run)
}

fn list(phone: &Phone, run: RunId) -> ContactsView {
    contacts(&phone.model, run).expect("contacts")
}

fn offered(view: &ContactsView) -> Vec<Outcome> {
    view.fix.as_ref().expect("a sheet").outcomes.iter().map(|(outcome, ..)| *outcome).collect()
}

/// A propped board knows good or not, whatever is practised: so does the list, and what stays is what it was.
#[test]
fn who_was_it_on_a_propped_board() {
    for skill in [Skill::Pass, Skill::Serve, Skill::Own("Setting".to_owned())] {
        let (mut phone, run) = on_board(skill.clone(), Board::Propped { order: LineOrder::InTurn }, None);
        phone.act(Action::OutcomeTapped(NOT));
        phone.act(Action::Go(Screen::Contacts(run)));
        let contact = list(&phone, run).rows[0].contact;
        phone.act(Action::ContactChosen(Some(contact)));
        let view = list(&phone, run);
        assert_eq!(offered(&view), [GOOD, NOT, Outcome::NoChance]);
        let fix = view.fix.expect("a sheet");
        assert_eq!((fix.outcome, fix.ladder.as_ref()), (NOT, Some(&skill)));
        let tove = phone.player("Tove");
        phone.act(Action::ContactFixed { contact, player: Some(tove), outcome: fix.outcome, step: fix.step });
        assert_eq!(list(&phone, run).rows[0].who, "Tove");
        assert_eq!(phone.model.runs[&run].main.contacts[0].contact.outcome, NOT);
    }
}

/// Where only good ones are counted a ball can't become a miss: that would be the one try of all. Whose it was is its group's name.
#[test]
fn who_was_it_on_a_board_of_groups() {
    for skill in [Skill::Pass, Skill::Own("Setting".to_owned())] {
        let (mut phone, run) = on_board(skill, Board::Lanes, Some(2));
        phone.act(Action::LaneTapped(GroupNo(0)));
        phone.act(Action::LaneTapped(GroupNo(1)));
        phone.act(Action::Go(Screen::Contacts(run)));
        let who: Vec<String> = list(&phone, run).rows.into_iter().map(|row| row.who).collect();
        assert_eq!(who, ["Group 2", "Group 1"]);
        let contact = list(&phone, run).rows[0].contact;
        phone.act(Action::ContactChosen(Some(contact)));
        let view = list(&phone, run);
        assert_eq!(offered(&view), [Outcome::Counted, Outcome::NoChance]);
        assert!(view.fix.expect("a sheet").line.contains("Group 2"));
        phone.act(Action::ContactTakenBack(contact));
        assert!(list(&phone, run).taken_back[0].line.starts_with("Group 2, "), "{:?}", list(&phone, run).taken_back);
    }
}
