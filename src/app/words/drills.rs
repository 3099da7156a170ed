//! Drills in words: the names of the ready ones, how one runs, what is wrong with one.

use crate::domain::drill::{
    Board, DrillFault, DrillSpec, DuelBetween, LineOrder, MAX_NAME, Rule, Transition, TransitionEnd,
};
use crate::domain::skill::{FeedKind, GoodFrom, PassGrade, Skill};

/// Names of the drills a new squad finds ready.
pub const STARTERS: [&str; 8] = [
    "Three passers",
    "Easy balls, then a challenge",
    "Passing one by one",
    "Serving one by one",
    "Six servers",
    "Ten serves each",
    "Setting to the target",
    "Keep it off the floor",
];

/// What a drill is called where the coach gave no name: its skill, and nothing where that has no name yet.
pub fn name_of_skill(skill: &Skill) -> &str {
    match skill {
        Skill::Pass => "Passing",
        Skill::Serve => "Serving",
        Skill::Own(name) => name.trim(),
    }
}

/// As it is kept: a name left empty is filled in by the skill's.
pub fn named(spec: DrillSpec) -> DrillSpec {
    let name = if spec.name.trim().is_empty() { name_of_skill(&spec.skill).to_owned() } else { spec.name };
    DrillSpec { name, ..spec }
}

/// The demo coach's own drill, and what it practises.
pub const DEMO_OWN: (&str, &str) = ("Land on both feet", "Landing");

/// The coach's kinds of effort until she changes them (common practice, no source).
pub const EFFORT_KINDS: [&str; 4] = ["ran for it", "dived", "called it", "helped"];

/// `Three on the floor, moved or better counts, goal 30`
pub fn how(spec: &DrillSpec) -> String {
    let mut parts = vec![board(spec.board, &spec.skill)];
    if spec.board != Board::Group && !matches!(spec.rule, Rule::Transition(_)) {
        parts.extend(good(spec.good_from));
    }
    match spec.rule {
        Rule::Tally { goal: Some(goal) } => parts.push(format!("goal {goal}")),
        Rule::Tally { goal: None } => {}
        Rule::Transition(t) => parts.push(transition(&t)),
    }
    parts.join(", ")
}

/// What stands under a drill's name: what counts and how it ends.
pub fn short(spec: &DrillSpec) -> String {
    let mut parts = Vec::new();
    match spec.rule {
        Rule::Transition(t) => {
            parts.push(format!("{} easy, {} challenge", t.n_easy, t.n_challenge));
            parts.extend(end(t.end));
        }
        Rule::Tally { goal } => {
            match (spec.board, spec.good_from) {
                (Board::Told { of }, _) => parts.push(format!("everyone tells, 0 to {of}")),
                (Board::Group, _) => parts.push("no names".to_owned()),
                (_, GoodFrom::Grade(PassGrade::Stood)) => parts.push("good if stood".to_owned()),
                (_, GoodFrom::Grade(PassGrade::Moved)) => parts.push("good if stood or moved".to_owned()),
                (_, GoodFrom::Grade(_)) => parts.push("good if chased or better".to_owned()),
                (_, GoodFrom::FastServeIn) => parts.push("good if fast and in".to_owned()),
                (_, GoodFrom::ServeIn) => parts.push("good if in".to_owned()),
                (_, GoodFrom::GoodKey) => {}
            }
            parts.extend(goal.map(|goal| match parts.is_empty() {
                true => format!("reach {goal} good ones"),
                false => format!("reach {goal}"),
            }));
        }
    }
    if parts.is_empty() { board(spec.board, &spec.skill) } else { parts.join(", ") }
}

fn board(board: Board, skill: &Skill) -> String {
    let skill = name_of_skill(skill);
    match board {
        Board::Floor { n_places } => format!("{} on the floor", number(n_places)),
        Board::Line { order: LineOrder::InTurn } => format!("{skill}, one after another"),
        Board::Line { order: LineOrder::Stays } => format!("{skill}, one child at a time"),
        Board::ServeFloor { n_places: 1, .. } => "One server".to_owned(),
        Board::ServeFloor { n_places, .. } => format!("{} servers as they stand", number(n_places)),
        Board::ServeLine { order: LineOrder::InTurn, .. } => "Serving, one after another".to_owned(),
        Board::ServeLine { order: LineOrder::Stays, .. } => "Serving, one child at a time".to_owned(),
        Board::Told { of } => format!("{skill}: everyone tells, 0 to {of}"),
        Board::Group => format!("{skill}: the group's balls, no names"),
    }
}

fn good(from: GoodFrom) -> Option<String> {
    match from {
        GoodFrom::Grade(PassGrade::Stood) => Some("only stood counts".to_owned()),
        GoodFrom::Grade(g) => Some(format!("{} or better counts", super::counts::grade(g))),
        GoodFrom::FastServeIn => Some("a fast serve that is in counts".to_owned()),
        GoodFrom::ServeIn | GoodFrom::GoodKey => None,
    }
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

fn number(n: u8) -> String {
    match n {
        1 => "One".to_owned(),
        2 => "Two".to_owned(),
        3 => "Three".to_owned(),
        4 => "Four".to_owned(),
        5 => "Five".to_owned(),
        6 => "Six".to_owned(),
        n => n.to_string(),
    }
}

pub fn fault(fault: DrillFault) -> String {
    match fault {
        DrillFault::NoName => "It needs a name before it can be kept.".to_owned(),
        DrillFault::NoSkillName => format!("Say what is practised: “{}” is still empty.", super::screens::SKILL_NAME),
        DrillFault::NameTooLong => format!("The name is too long: {MAX_NAME} letters at most."),
        DrillFault::BoardForOtherSkill => "This board can't judge this skill: choose another board.".to_owned(),
        DrillFault::Places => "One to three passers or one to six servers can stand on the board.".to_owned(),
        DrillFault::RoundBalls => "A round has 1 to 10 easy balls and 1 to 10 challenge balls.".to_owned(),
        DrillFault::Earn => "To earn the challenge, ask for at least one and at most all of the easy balls.".to_owned(),
        DrillFault::GoalOfNothing => "The goal must be at least 1.".to_owned(),
        DrillFault::TransitionBoard => "Easy balls and a challenge need passers on the floor.".to_owned(),
        DrillFault::GoodFrom => "Say what counts as good for this skill.".to_owned(),
    }
}

/// Said aloud when the phase changes.
pub const fn phase(kind: FeedKind) -> &'static str {
    match kind {
        FeedKind::Easy => "Easy balls",
        FeedKind::Challenge => "Challenge",
    }
}

/// Said aloud when places swap.
pub const SWAP_CALL: &str = "Swap";
