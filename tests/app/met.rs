//! Who met whom: what summaries keep of served balls and of sides, how levels are corrected by it, and what even groups are made of.

use peppertally::app::action::Action;
use peppertally::app::effect::Effect;
use peppertally::app::groups::{GroupsTap, standing};
use peppertally::app::screen::Screen;
use peppertally::app::settings::How;
use peppertally::app::view::weeks::{State, weeks};
use peppertally::app::work::Job;
use peppertally::app::work::rated::{Met, correct, sides};
use peppertally::domain::drill::{DrillSpec, MatchGame, Rule, Transition, TransitionEnd, WinnersStay};
use peppertally::domain::entry::Side;
use peppertally::domain::ids::{Place, RunId};
use peppertally::domain::met::met;
use peppertally::stats::level::Seen;
use peppertally::stats::proportion::Count;

use super::phone::{Phone, pass};
use super::steps::on_board;

const SIX: &str = "Mira\nTove\nOdile\nBram\nIva\nLasse";

fn run_of(phone: &Phone) -> RunId {
    let Screen::Run(run) = phone.model.screen else { panic!("no board: {:?}", phone.model.screen) };
    run
}

/// One easy ball a round, then so many served ones.
fn duel() -> Phone {
    let end = TransitionEnd::Coach;
    on_board(SIX, 1, |spec| DrillSpec {
        rule: Rule::Transition(Transition {
            n_easy: 1,
            n_challenge: 3,
            earn: None,
            swap: false,
            end,
            ..Transition::default()
        }),
        ..spec
    })
}

#[test]
fn served_balls_name_server_and_passer() {
    let mut phone = duel();
    let run = run_of(&phone);
    // Easy, then three served, twice; a missed serve and a ball nobody could reach met nobody.
    for grade in [3, 3, 1, 2, 3] {
        phone.act(Action::PlaceTapped(Place(0), pass(grade)));
    }
    phone.act(Action::ServeMissedTapped);
    phone.act(Action::NoChanceTapped);
    let part = &phone.model.runs[&run].main;
    let all = met(part);
    let name = |player| phone.model.name_of(player);
    let told: Vec<_> =
        all.served.iter().map(|s| (name(s.server), name(s.passer), s.count.good(), s.count.tries())).collect();
    let passer = name(part.lineup.at(Place(0)).expect("a passer"));
    let servers: Vec<String> = part.lineup.servers.iter().map(|p| name(*p)).collect();
    let want = |at: usize, good| (servers[at % servers.len()].clone(), passer.clone(), good, 1);
    assert_eq!(told, [want(0, 1), want(1, 0), want(2, 1)]);
    assert!(all.sides.is_empty());
    // And so it is once it lies packed.
    let stood = all.clone();
    phone.act(Action::Finish);
    phone.end_practice();
    phone.restart();
    let packed: Vec<_> = phone.model.packed.values().flat_map(|p| &p.summary.runs).map(|run| &run.met).collect();
    assert_eq!(packed, [&stood]);
}

#[test]
fn the_same_sides_are_counted_together() {
    let mut phone = Phone::with_squad(SIX);
    phone.act(Action::Groups(GroupsTap::How(How::ByHand)));
    let (id, spec) = phone.model.base.drills().into_iter().map(|(id, s)| (id, s.clone())).nth(13).expect("a match");
    phone.act(Action::Go(Screen::Drill(Some(id))));
    phone.act(Action::DrillDrafted(DrillSpec {
        rule: Rule::MatchGame(MatchGame { a_side: 3, ..MatchGame::default() }),
        ..spec
    }));
    phone.act(Action::DrillKept);
    phone.drill(13);
    for side in [Side::Near, Side::Near, Side::Far, Side::Near, Side::Far, Side::Far] {
        phone.act(Action::SideWon(side));
    }
    let part = &phone.model.runs[&run_of(&phone)].main;
    let all = met(part).sides;
    // Who serves differs, who stands on a side doesn't, however it turns.
    assert!(all.len() == 2 && all[0].first == all[1].first && all[0].served != all[1].served, "{all:?}");
    assert_eq!(all.iter().map(|one| one.won + one.lost).sum::<u32>(), 6);
    let near: Vec<_> = part.rallies[0].rally.near.clone();
    let near_first = near.contains(&all[0].first[0]);
    assert_eq!(all.iter().map(|one| if near_first { one.won } else { one.lost }).sum::<u32>(), 3);
}

fn seen(good: u32, tries: u32) -> Seen {
    Seen::plain(10, Count::new(good, tries).expect("a count"))
}

/// Two passers alike, one of whom had the hard server: corrected, its occasion was the harder one. Where nothing is known nothing moves.
#[test]
fn levels_are_corrected_for_who_served() {
    let plain = vec![vec![vec![seen(20, 40)], vec![seen(20, 40)], vec![seen(30, 60)]]];
    let rows = |rows: &[(u16, u16, u32, u32)]| Met {
        n_children: 5,
        who: vec![vec![0, 1, 2]],
        served: rows.iter().map(|(server, passer, good, tries)| (0, 10, *server, *passer, *good, *tries)).collect(),
        sides: Vec::new(),
    };
    // The third passes both: 25 of 30 of the fourth's, 5 of 30 of the fifth's.
    let mut all = plain.clone();
    correct(&mut all, &rows(&[(3, 0, 20, 40), (4, 1, 20, 40), (3, 2, 25, 30), (4, 2, 5, 30)]));
    let offset = |child: usize| all[0][child][0].offset;
    assert!(offset(0) > 0.4 && offset(1) < -0.4 && offset(2).abs() < 0.2, "{:?}", [offset(0), offset(1), offset(2)]);
    // Who had as much of either had the average ball, for sure.
    let weights: Vec<f64> = all[0].iter().map(|seen| seen[0].weight).collect();
    assert!(weights[0] > 0.3 && weights[0] < 1.0 && weights[2] > 0.999, "{weights:?}");
    // Nobody served, and only one server: as it was, but for the error.
    let mut none = plain.clone();
    correct(&mut none, &rows(&[]));
    assert_eq!(none, plain);
    let mut one = plain.clone();
    correct(&mut one, &rows(&[(3, 0, 20, 40), (3, 1, 20, 40), (3, 2, 30, 60)]));
    assert!(one[0].iter().all(|seen| seen[0].offset.abs() < 0.02), "{one:?}");
    // What the child scored itself came from nobody's serve.
    let mut own = vec![vec![vec![Seen { weight: 0.5, ..seen(20, 40) }]]];
    let before = own.clone();
    correct(&mut own, &rows(&[(3, 0, 20, 40), (4, 1, 1, 40)]));
    assert_eq!(own, before);
}

#[test]
fn sides_that_never_met_nobody_or_only_won() {
    let of = |rows: &[(&[u16], &[u16], u32, u32)]| {
        let row = |(a, b, won, lost): &(&[u16], &[u16], u32, u32)| (a.to_vec(), b.to_vec(), true, *won, *lost);
        sides(&Met { n_children: 6, sides: rows.iter().map(row).collect(), ..Met::default() })
    };
    assert_eq!(of(&[]), [] as [i16; 0]);
    // Sides of another size say nothing that could be told apart from the size.
    assert_eq!(of(&[(&[0, 1], &[2], 9, 0)]), [] as [i16; 0]);
    let won = of(&[(&[0, 1], &[2, 3], 90, 0)]);
    assert!(
        won[0] > 0 && won[0] == won[1] && won[2] < 0 && won[4] == 0 && won.iter().all(|gives| gives.abs() < 400),
        "{won:?}"
    );
    // Two groups of children that never met: within each, as they played.
    let apart = of(&[(&[0], &[1], 30, 10), (&[2], &[3], 10, 30)]);
    assert!(apart[0] > apart[1] && apart[2] < apart[3]);
    // A place that isn't there is no rating at all.
    assert_eq!(of(&[(&[0], &[9], 1, 1)]), [] as [i16; 0]);
}

/// Levels worked out once are what even groups are made of, also when nothing else is known on this page; the question asks for nobody's name.
#[test]
fn even_groups_go_by_what_was_worked_out() {
    let mut phone = Phone::with_squad("Mira\nTove\nOdile\nBram");
    phone.drill(2);
    for _ in 0..20 {
        for grade in [3, 0, 3, 0] {
            phone.act(Action::OutcomeTapped(pass(grade)));
        }
    }
    phone.act(Action::Finish);
    phone.end_practice();
    phone.restart();
    phone.act(Action::Go(Screen::Groups));
    let asked = |phone: &Phone| phone.effects.iter().filter(|e| matches!(e, Effect::Work(Job::Levels { .. }))).count();
    assert_eq!(asked(&phone), 1);
    let level = |name: &str| phone.model.weeks.known.level(phone.player(name), None).expect("worked out");
    assert!(level("Mira") > 0.5 && level("Tove") < -0.5 && level("Odile") > 0.5);
    phone.act(Action::Groups(GroupsTap::How(How::Even)));
    phone.act(Action::Groups(GroupsTap::Stepped(false)));
    for _ in 0..4 {
        phone.act(Action::Groups(GroupsTap::Made));
        let groups = standing(&phone.model);
        let with =
            |a: &str, b: &str| groups.iter().any(|g| g.contains(&phone.player(a)) && g.contains(&phone.player(b)));
        assert!(!with("Mira", "Odile") && !with("Tove", "Bram"), "{groups:?}");
    }
}

/// Games alone: no kind of ball to tell of, and yet sides to make even teams by.
#[test]
fn games_alone_tell_of_sides() {
    let mut phone = on_board(SIX, 12, |spec| DrillSpec { rule: Rule::WinnersStay(WinnersStay::default()), ..spec });
    for _ in 0..12 {
        phone.act(Action::SideWon(Side::Near));
    }
    phone.act(Action::Finish);
    phone.end_practice();
    phone.act(Action::Go(Screen::Weeks(None)));
    assert_eq!(weeks(&phone.model).state, State::Nothing);
    let gives: Vec<f64> =
        phone.model.squad().iter().map(|p| phone.model.weeks.known.side(p.id).expect("games")).collect();
    assert!(gives.iter().any(|gives| *gives > 0.0) && gives.iter().any(|gives| *gives < 0.0), "{gives:?}");
    // Even groups don't put those together who won every rally together.
    phone.act(Action::Go(Screen::Groups));
    phone.act(Action::Groups(GroupsTap::How(How::Even)));
    while standing(&phone.model).len() != 2 {
        phone.act(Action::Groups(GroupsTap::Stepped(false)));
        phone.act(Action::Groups(GroupsTap::Made));
    }
    let side = |player| phone.model.weeks.known.side(player).is_some_and(|gives| gives > 0.0);
    let winners = |group: &Vec<_>| group.iter().filter(|player| side(**player)).count();
    assert!(
        standing(&phone.model).iter().all(|group| (1..=2).contains(&winners(group))),
        "{:?}",
        standing(&phone.model)
    );
}
