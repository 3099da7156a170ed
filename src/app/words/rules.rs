//! Scoring rules in words: how one runs, what is wrong with one.

use crate::domain::rule::{
    DuelBetween, FirstTo, InRow, InTime, MatchGame, Rule, RuleFault, Serves, Tens, Together, Transition, TransitionEnd,
    Whose, WinnersStay,
};

/// One part of the sentence under a drill's form; nothing where the rule only counts.
pub fn how(rule: &Rule) -> Option<String> {
    Some(match *rule {
        Rule::Tally { goal } => format!("goal {}", goal?),
        Rule::InRow(rule) => in_row(rule),
        Rule::Tens(Tens { n }) => format!("series of {n}, each child's own"),
        Rule::FirstTo(rule) => first_to(rule),
        Rule::InTime(InTime { seconds, whose: Whose::Child }) => format!("most good ones in {}", time(seconds)),
        Rule::InTime(InTime { seconds, whose: Whose::Group }) => {
            format!("most good ones of a group in {}", time(seconds))
        }
        Rule::Together(rule) => together(rule),
        Rule::Transition(t) => transition(&t),
        Rule::WinnersStay(rule) => winners_stay(&rule),
        Rule::MatchGame(rule) => match_game(&rule),
    })
}

/// What stands under a drill's name.
pub fn short(rule: &Rule) -> Option<String> {
    Some(match *rule {
        Rule::Tally { .. } => return None,
        Rule::InRow(InRow { goal: Some(goal), .. }) => format!("{goal} in a row"),
        Rule::InRow(_) => "in a row".to_owned(),
        Rule::Tens(Tens { n }) => format!("out of {n}"),
        Rule::FirstTo(FirstTo { n, .. }) => format!("first to {n}"),
        Rule::InTime(InTime { seconds, .. }) => format!("most in {}", time(seconds)),
        Rule::Together(Together { row: true, .. }) => "one row together".to_owned(),
        Rule::Together(_) => "together".to_owned(),
        Rule::Transition(t) => {
            let balls = format!("{} easy, {} challenge", t.n_easy, t.n_challenge);
            end(t.end).map_or_else(|| balls.clone(), |end| format!("{balls}, {end}"))
        }
        Rule::WinnersStay(WinnersStay { a_side, .. }) => format!("{a_side} a side, winners stay"),
        Rule::MatchGame(MatchGame { to, a_side, .. }) => format!("{a_side} a side, to {to}"),
    })
}

fn in_row(rule: InRow) -> String {
    let goal = rule.goal.map_or_else(|| "in a row".to_owned(), |goal| format!("{goal} in a row"));
    let whose = match rule.whose {
        Whose::Child => ", each child's own",
        Whose::Group => ", the group keeps it alive",
    };
    let falls = if rule.falls_to_five { ", a miss falls back to the last five" } else { "" };
    format!("{goal}{whose}{falls}")
}

fn first_to(rule: FirstTo) -> String {
    format!("first group to {}{}", rule.n, if rule.by_two { ", two ahead" } else { "" })
}

fn together(rule: Together) -> String {
    let what = match (rule.row, rule.balls) {
        (true, _) => "one row together".to_owned(),
        (false, Some(n)) => format!("good ones together in {n} balls"),
        (false, None) => "good ones together".to_owned(),
    };
    format!("{what}, against the squad's own best")
}

fn transition(t: &Transition) -> String {
    let mut text = match t.earn {
        Some(x) => format!("{x} good of {} easy balls earn {} challenge balls", t.n_easy, t.n_challenge),
        None => format!("{} easy, then {} challenge balls", t.n_easy, t.n_challenge),
    };
    text.push_str(match t.between {
        DuelBetween::Sides => ", passers against servers",
        DuelBetween::Children => ", child by child",
    });
    if let Some(end) = end(t.end) {
        text.push_str(", ");
        text.push_str(&end);
    }
    text
}

fn end(end: TransitionEnd) -> Option<String> {
    match end {
        TransitionEnd::DuelPoints(n) => Some(format!("to {n}")),
        TransitionEnd::Rounds(1) => Some("one round".to_owned()),
        TransitionEnd::Rounds(n) => Some(format!("{n} rounds")),
        TransitionEnd::Coach => None,
    }
}

fn winners_stay(rule: &WinnersStay) -> String {
    let mut parts = vec![format!("{} a side", rule.a_side)];
    parts.push(match rule.to {
        1 => "a rally each".to_owned(),
        n => format!("short games to {n}"),
    });
    if rule.near_only {
        parts.push("points on the winners' side".to_owned());
    }
    parts.extend(rule.off_after.map(|n| format!("{n} wins and off")));
    parts.push(
        match rule.serves {
            Serves::Challengers => "challengers serve",
            Serves::WinnersSide => "winners' side serves",
            Serves::LastWinner => "who won serves",
        }
        .to_owned(),
    );
    parts.join(", ")
}

fn match_game(rule: &MatchGame) -> String {
    let cap = rule.serve_cap.map(|n| format!(", {n} serves in a row at most")).unwrap_or_default();
    let noted = match (rule.serves, rule.passes) {
        (true, true) => ", serves and passes noted",
        (true, false) => ", serves noted",
        (false, true) => ", passes noted",
        (false, false) => "",
    };
    format!("{} a side, to {} by two{cap}{noted}", rule.a_side, rule.to)
}

/// `2:00`, `0:45`
pub fn clock(seconds: u16) -> String {
    super::board_lines::clock(u32::from(seconds))
}

/// `2 min`, `1 min 30 s`, `45 s`
pub fn time(seconds: u16) -> String {
    match (seconds / 60, seconds % 60) {
        (0, s) => format!("{s} s"),
        (m, 0) => format!("{m} min"),
        (m, s) => format!("{m} min {s} s"),
    }
}

pub const fn fault(fault: RuleFault) -> &'static str {
    match fault {
        RuleFault::Nothing => "A number of this rule is 0: it takes 1 or more.",
        RuleFault::RoundBalls => "A round has 1 to 10 easy balls and 1 to 10 challenge balls.",
        RuleFault::Earn => "To earn the challenge, ask for at least one and at most all of the easy balls.",
        RuleFault::MatchTo => "A match is played to a whole number of points, 1 to 99.",
        RuleFault::ASide => "Winners stay takes two to four children a side, a match game three to six.",
    }
}
