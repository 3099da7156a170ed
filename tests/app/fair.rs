//! Fair practice: an even share of those who were there, by hand; who is short, who isn't; nobody's order but the squad's.

use crate::phone::{Phone, pass};
use peppertally::app::action::Action;
use peppertally::app::screen::Screen;
use peppertally::app::view::fair::{FairView, fair};
use peppertally::app::words::fair::of_even;
use peppertally::domain::ids::Place;
use peppertally::domain::skill::{Outcome, ServeOutcome};

fn view(phone: &mut Phone) -> FairView {
    phone.act(Action::Go(Screen::Fair));
    fair(&phone.model)
}

fn passes(phone: &mut Phone, times: &[(u8, usize)]) {
    phone.drill(0);
    for (place, n) in times {
        (0..*n).for_each(|_| phone.act(Action::PlaceTapped(Place(*place), pass(2))));
    }
    phone.act(Action::Finish);
    phone.act(Action::Go(Screen::Today));
}

#[test]
fn nothing_to_share_out() {
    let mut phone = Phone::with_squad("Mira\nTove");
    assert!(view(&mut phone).empty);
    phone.drill(0);
    phone.act(Action::Finish);
    phone.end_practice();
    assert!(view(&mut phone).empty, "a drill without a ball");
    assert_eq!(Screen::from_address("fair"), Some(Screen::Fair));
}

/// 12, 12 and 3: even is 9, and 3 is a third of it. The bar's middle is even: 12 is 67 of 100, 3 is 17.
#[test]
fn an_even_share_by_hand() {
    let mut phone = Phone::with_squad("Mira\nTove\nOdile");
    passes(&mut phone, &[(0, 12), (1, 12), (2, 3)]);
    phone.end_practice();
    let view = view(&mut phone);
    assert_eq!(view.first, ["Odile had 3 of an even 9: first in line next time, or a ball for one alone at the wall."]);
    let rows: Vec<_> =
        view.rows.iter().map(|row| (row.name.as_str(), row.last.words.as_str(), row.last.percent)).collect();
    assert_eq!(
        rows,
        [
            ("Mira", "12 contacts: a third more than even", Some(67)),
            ("Tove", "12 contacts: a third more than even", Some(67)),
            ("Odile", "3 contacts: a quarter of an even share", Some(17)),
        ]
    );
    assert_eq!(view.rows[0].roles[0], ("last time", vec!["12 balls tapped or told".to_owned()]));
}

/// Found by a first-time coach: who told no number was called short. How many balls it had nobody knows.
#[test]
fn who_told_no_number_is_not_short() {
    let mut phone = Phone::with_squad("Mira\nTove\nOdile");
    phone.drill(5);
    for name in ["Mira", "Tove"] {
        let player = phone.player(name);
        phone.act(Action::ToldTapped(player, 7));
    }
    phone.act(Action::Finish);
    phone.act(Action::Go(Screen::Today));
    passes(&mut phone, &[(0, 2), (1, 2), (2, 2)]);
    phone.end_practice();
    let view = view(&mut phone);
    assert!(!view.first.iter().any(|line| line.contains("Odile")), "{:?}", view.first);
    assert_eq!(view.rows[2].last.words, "came late, went early, or told no number");
}

/// 20, 2, 2 and no ball: an even share is 6, and three of four had a third of it or less. More than half can't be called short one by one, but
/// that nobody was is false.
#[test]
fn the_balls_went_to_a_few() {
    let mut phone = Phone::with_squad("Mira\nTove\nOdile\nBram");
    passes(&mut phone, &[(0, 20), (1, 2), (2, 2)]);
    phone.end_practice();
    assert_eq!(
        view(&mut phone).first,
        [
            "Last time a few had most of the balls: more than half of those who were there had far fewer than an even share."
        ]
    );
}

/// 9, 4 and 2: an even share is 5, from six on somebody can be short.
#[test]
fn of_few_balls_nobody_is_said_to_be_near() {
    let mut phone = Phone::with_squad("Mira\nTove\nOdile");
    passes(&mut phone, &[(0, 9), (1, 4), (2, 2)]);
    phone.end_practice();
    assert_eq!(view(&mut phone).first, ["Too little was counted last time to call anybody short."]);
}

/// Five of ten served 40 balls each: an even share is 20, and the other five had none. Three are named, and that there are two more is said.
#[test]
fn who_isnt_named_is_counted() {
    let names = ["Mira", "Tove", "Odile", "Bram", "Iva", "Lasse", "Nils", "Runa", "Sofie", "Tuva"];
    let mut phone = Phone::with_squad(&names.join("\n"));
    phone.drill(3);
    for name in &names[..5] {
        let player = phone.player(name);
        for _ in 0..40 {
            phone.act(Action::NameTapped(player));
            phone.act(Action::OutcomeTapped(Outcome::Serve { outcome: ServeOutcome::In, fast: false }));
        }
    }
    phone.act(Action::Finish);
    phone.end_practice();
    let first = view(&mut phone).first;
    assert_eq!(first.len(), 5, "{first:#?}");
    assert_eq!(first[3], "2 more had far fewer balls than an even share: the bars say who.");
    assert_eq!(
        first[4],
        "Over the season Lasse, Nils, Runa and 2 more are short: put a part into the next plan in which they come first."
    );
}

/// Bram comes after the drill has begun: before the first ball he was there from the start, after it he came late and is short of nothing,
/// packed or not. A tap that was a mistake and is undone before the next ball changes nothing.
#[test]
fn who_came_late_is_not_short() {
    let of = |late: bool| {
        let mut phone = Phone::with_squad("Mira\nTove\nOdile\nBram");
        let (mira, bram) = (phone.player("Mira"), phone.player("Bram"));
        phone.act(Action::PresenceTapped(bram));
        phone.drill(0);
        let ball = |phone: &mut Phone, place: u8| phone.act(Action::PlaceTapped(Place(place), pass(2)));
        if late {
            (0..3).for_each(|place| ball(&mut phone, place));
        }
        phone.act(Action::PresenceTapped(bram));
        (0..36).for_each(|i| ball(&mut phone, i % 3));
        phone.act(Action::PresenceTapped(mira));
        phone.act(Action::PresenceTapped(mira));
        (0..3).for_each(|place| ball(&mut phone, place));
        phone.act(Action::Finish);
        phone.act(Action::Go(Screen::Today));
        phone.end_practice();
        let now = view(&mut phone);
        phone.act(Action::Go(Screen::After));
        phone.restart();
        assert!(!phone.model.packed.is_empty());
        let packed = view(&mut phone);
        assert_eq!((&packed.first, &packed.rows), (&now.first, &now.rows));
        (now.first, now.rows[3].last.words.clone(), now.rows[0].last.percent.is_some())
    };
    let near = vec!["Nobody who was there was short last time.".to_owned()];
    assert_eq!(of(true), (near, "came late, went early, or told no number".to_owned(), true));
    let (first, _, _) = of(false);
    assert!(first[0].starts_with("Bram had 1 of an even 10: "), "he took Mira’s place: {first:?}");
}

/// Whoever was away has no share and is short of none; the others' even share is theirs alone.
#[test]
fn who_was_away_is_not_short() {
    let mut phone = Phone::with_squad("Mira\nTove\nOdile\nBram");
    let bram = phone.player("Bram");
    phone.act(Action::PresenceTapped(bram));
    passes(&mut phone, &[(0, 9), (1, 9), (2, 9)]);
    phone.end_practice();
    let of_one = view(&mut phone);
    assert_eq!(of_one.first, ["Nobody who was there was short last time."]);
    assert_eq!((of_one.rows[3].last.words.as_str(), of_one.rows[3].last.percent), ("not there", None));
    assert_eq!(of_one.rows[0].last.percent, Some(50));
    // A second practice with everyone: Bram's season is that one practice.
    phone.act(Action::Go(Screen::Today));
    phone.next_day();
    passes(&mut phone, &[(0, 9), (1, 9), (2, 9)]);
    phone.end_practice();
    let of_two = view(&mut phone);
    assert_eq!(of_two.rows[3].season.words, "0 contacts: hardly any of an even share");
    assert_eq!(of_two.rows[0].season.words, "18 contacts: about even");
}

/// Six practices, 6, 6 and 3 balls: even is 5 each time, 30 in all; 18 is six tenths of it.
#[test]
fn short_over_a_season() {
    let mut phone = Phone::with_squad("Mira\nTove\nOdile");
    for _ in 0..6 {
        passes(&mut phone, &[(0, 6), (1, 6), (2, 3)]);
        phone.end_practice();
        phone.next_day();
        phone.act(Action::Go(Screen::Today));
    }
    let view = view(&mut phone);
    assert_eq!(
        view.first,
        [
            "Too little was counted last time to call anybody short.",
            "Over the season Odile is short: put a part into the next plan in which they come first."
        ],
        "of the last 15 balls five are even, too few to be short of"
    );
}

/// A practice of a day to come was begun by a wrong clock: it is no last practice.
#[test]
fn a_practice_in_the_future_is_left_out() {
    let mut phone = Phone::with_squad("Mira\nTove\nOdile");
    passes(&mut phone, &[(0, 5), (1, 5), (2, 5)]);
    phone.end_practice();
    for _ in 0..3 {
        phone.next_day();
    }
    phone.act(Action::Go(Screen::Today));
    passes(&mut phone, &[(0, 50)]);
    phone.end_practice();
    phone.wait(0, -2 * 86_400_000);
    assert_eq!(view(&mut phone).rows[0].last.words, "5 contacts: about even");
}

/// Whatever was counted, every part is a number with words: none, all, a hundred thousand.
#[test]
fn no_part_is_without_words() {
    use peppertally::app::fair::{OF_MANY, OF_ONE, Share};
    for own in [0, 1, 7, 100_000, u32::MAX] {
        for even in [0.0, 0.5, 3.0, 9.0, 100_000.0] {
            let share = Share { own, even };
            assert!(share.part().is_none_or(|part| part.is_finite() && of_even(part).contains("even")));
            assert!(!(share.is_short(OF_ONE) && f64::from(own) > even));
            assert!(!(share.is_short(OF_MANY) && f64::from(own) > even));
        }
    }
}

/// The demo's season: in the squad's order, each row with words.
#[test]
fn the_demo_has_shares() {
    let mut phone = Phone::demo();
    let view = view(&mut phone);
    let squad: Vec<String> = phone.model.squad().into_iter().map(|p| p.name).collect();
    assert_eq!(view.rows.iter().map(|row| row.name.clone()).collect::<Vec<_>>(), squad);
    assert!(view.rows.iter().all(|row| !row.last.words.is_empty() && !row.season.words.is_empty()));
    assert!(!view.first.is_empty());
}
