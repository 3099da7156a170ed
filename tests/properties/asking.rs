//! Whom to ask: whoever is here, over any season, nobody is asked twice more than another who was here as often.

use peppertally::domain::ids::{EntryId, PlayerId};
use peppertally::domain::notes::{Asked, Turn, in_turn, questions_in_turn};
use proptest::collection::vec;
use proptest::prelude::*;

fn player(no: usize) -> PlayerId {
    PlayerId(EntryId::new(9, u32::try_from(no).expect("few")))
}

/// Practices: who is here (a bit a child), and how many questions are asked.
fn season() -> impl Strategy<Value = Vec<(u16, usize)>> {
    vec((any::<u16>(), 0..14usize), 1..30)
}

/// Asks through the season as it is proposed; how it stands with each child then.
fn asked_through(season: &[(u16, usize)], n: usize) -> Vec<Turn> {
    let mut turns: Vec<Turn> =
        (0..n).map(|no| Turn { player: player(no), n_here: 0, n_asked: 0, last_ms: None }).collect();
    let mut at = 0;
    for (here, questions) in season {
        let is_here = |no: usize| here >> no & 1 == 1;
        (0..n).filter(|no| is_here(*no)).for_each(|no| turns[no].n_here += 1);
        for _ in 0..*questions {
            let here: Vec<Turn> = (0..n).filter(|no| is_here(*no)).map(|no| turns[no]).collect();
            let Some(next) = in_turn(&here).first().copied() else { continue };
            let turn = turns.iter_mut().find(|turn| turn.player == next).expect("one of them");
            at += 1;
            (turn.n_asked, turn.last_ms) = (turn.n_asked + 1, Some(at));
        }
    }
    turns
}

proptest! {
    /// The first two children are always at the same practices, whoever else comes and goes.
    #[test]
    fn of_two_who_were_here_alike_none_is_asked_twice_more(season in season(), n in 2..13usize) {
        let alike: Vec<(u16, usize)> =
            season.iter().map(|(here, n)| (if here & 1 == 1 { here | 2 } else { here & !2 }, *n)).collect();
        let turns = asked_through(&alike, n);
        prop_assert!(turns[0].n_asked.abs_diff(turns[1].n_asked) <= 1, "{:?}", &turns[..2]);
    }

    /// Where all are always here, they are asked in turn: after any number of questions all were asked as often, but for one.
    #[test]
    fn a_squad_that_is_always_here_is_asked_in_turn(questions in vec(0..20usize, 1..20), n in 1..13usize) {
        let season: Vec<(u16, usize)> = questions.iter().map(|n| (u16::MAX, *n)).collect();
        let turns = asked_through(&season, n);
        let all: Vec<u32> = turns.iter().map(|turn| turn.n_asked).collect();
        prop_assert!(all.iter().max().unwrap() - all.iter().min().unwrap() <= 1, "{all:?}");
        prop_assert_eq!(all.iter().sum::<u32>() as usize, questions.iter().sum::<usize>());
    }

    /// Everyone stands in the order once, whatever stands with them; of a child that was asked nothing, the same question never comes
    /// before one that it wasn't asked.
    #[test]
    fn nobody_and_no_question_is_left_out(
        turns in vec((0..40u32, 0..40u32, any::<Option<i64>>()), 0..20),
        asked in vec((0..3usize, 0..4usize), 0..20),
    ) {
        let turns: Vec<Turn> = turns
            .into_iter()
            .enumerate()
            .map(|(no, (n_here, n_asked, last_ms))| Turn { player: player(no), n_here, n_asked, last_ms })
            .collect();
        let mut order = in_turn(&turns);
        order.sort();
        prop_assert_eq!(order, turns.iter().map(|turn| turn.player).collect::<Vec<_>>());
        let questions: Vec<String> = (0..4).map(|no| format!("Question {no}?")).collect();
        let asked: Vec<Asked> =
            asked.into_iter().map(|(who, no)| Asked { player: player(who), question: questions[no].clone() }).collect();
        let asked: Vec<&Asked> = asked.iter().collect();
        let order = questions_in_turn(&questions, &asked, player(0));
        prop_assert_eq!(order.len(), questions.len());
        let times = |q: &String| asked.iter().filter(|a| a.player == player(0) && a.question == *q).count();
        prop_assert!(order.windows(2).all(|pair| times(pair[0]) <= times(pair[1])));
    }
}
