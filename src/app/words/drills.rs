//! Drills in words: the names of the ready ones, how one runs, what is wrong with one.

use crate::domain::drill::{Board, DrillFault, DrillSpec, LineOrder, MAX_NAME, Rule};
use crate::domain::skill::{FeedKind, GoodFrom, PassGrade, Skill};

/// Names of the drills a new squad finds ready.
pub const STARTERS: [&str; 14] = [
    "Three passers",
    "Easy balls, then a challenge",
    "Passing one by one",
    "Serving one by one",
    "Six servers",
    "Ten serves each",
    "Setting to the target",
    "Keep it off the floor",
    "Ten in a row together",
    "Out of ten",
    "First to ten",
    "Forty balls together",
    "Winners stay",
    "Match game",
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
    if spec.board != Board::Group && !matches!(spec.rule, Rule::Transition(_)) && !spec.rule.is_game() {
        parts.extend(good(spec.good_from));
    }
    parts.extend(super::rules::how(&spec.rule));
    parts.extend(super::groups::beside(spec));
    parts.join(", ")
}

/// What stands under a drill's name: what counts and how it ends.
pub fn short(spec: &DrillSpec) -> String {
    let mut parts = Vec::new();
    parts.extend(super::rules::short(&spec.rule));
    if spec.rule.transition().is_none() && !spec.rule.is_game() {
        parts.extend(what_counts(spec));
    }
    if let Rule::Tally { goal: Some(goal) } = spec.rule {
        parts.push(if parts.is_empty() { format!("reach {goal} good ones") } else { format!("reach {goal}") });
    }
    if parts.is_empty() { board(spec.board, &spec.skill) } else { parts.join(", ") }
}

fn what_counts(spec: &DrillSpec) -> Option<String> {
    Some(match (spec.board, spec.good_from) {
        (Board::Told { of }, _) => format!("everyone tells, 0 to {of}"),
        (Board::Group, _) => "no names".to_owned(),
        (Board::Lanes, _) => "good ones only".to_owned(),
        (_, GoodFrom::Grade(PassGrade::Stood)) => "good if stood".to_owned(),
        (_, GoodFrom::Grade(PassGrade::Moved)) => "good if stood or moved".to_owned(),
        (_, GoodFrom::Grade(_)) => "good if chased or better".to_owned(),
        (_, GoodFrom::FastServeIn) => "good if fast and in".to_owned(),
        (_, GoodFrom::ServeIn) => "good if in".to_owned(),
        (_, GoodFrom::GoodKey) => return None,
    })
}

fn board(board: Board, skill: &Skill) -> String {
    let skill = name_of_skill(skill);
    match board {
        Board::Floor { n_places } => format!("{} on the floor", number(n_places)),
        Board::Line { order: LineOrder::InTurn } => format!("{skill}, one after another"),
        Board::Line { order: LineOrder::Stays } => format!("{skill}, one child at a time"),
        Board::Line { order: LineOrder::TenForOne } => format!("{skill}, ten balls of one child"),
        Board::ServeFloor { n_places: 1, .. } => "One server".to_owned(),
        Board::ServeFloor { n_places, .. } => format!("{} servers as they stand", number(n_places)),
        Board::ServeLine { order: LineOrder::InTurn, .. } => "Serving, one after another".to_owned(),
        Board::ServeLine { order: LineOrder::Stays, .. } => "Serving, one child at a time".to_owned(),
        Board::ServeLine { order: LineOrder::TenForOne, .. } => "Serving, ten balls of one child".to_owned(),
        Board::Told { of } => format!("{skill}: everyone tells, 0 to {of}"),
        Board::Group => format!("{skill}: the group's balls, no names"),
        Board::Lanes => format!("{skill} in groups at once"),
        Board::Court => "A game".to_owned(),
        Board::Propped { .. } => format!("{skill}, phone propped up"),
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
        DrillFault::Rule(fault) => super::rules::fault(fault).to_owned(),
        DrillFault::GoalOfNothing => "At least 1 ball must be told of.".to_owned(),
        DrillFault::TransitionBoard => "Easy balls and a challenge need passers on the floor.".to_owned(),
        DrillFault::CourtBoard => "A game is scored on the court, and nothing else is.".to_owned(),
        DrillFault::NeedsMisses => "This counts good ones only: the rule needs the missed ones too.".to_owned(),
        DrillFault::NeedsEach => "This rule needs every ball with its child: choose another board.".to_owned(),
        DrillFault::Groups => {
            "Two to four groups can play, three at most on one board of groups: choose how many.".to_owned()
        }
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
