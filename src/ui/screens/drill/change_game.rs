//! What one tap in the part of a drill's form that is about games makes of the draft. Pure, and always fit for use.

use super::change::step_u8;
use crate::domain::drill::{DrillSpec, MatchGame, Rule, WinnersStay};

/// Most rallies of a short game, wins before a team goes off, serves in a row.
pub const MAX_SHORT: u8 = 15;
pub const MAX_OFF: u8 = 9;
pub const MAX_CAP: u8 = 10;

/// What a match is usually played to: a deciding set and a set. Any other number is typed.
pub const USUAL: [(u16, &str); 2] = [(15, "match.15"), (25, "match.25")];
const MAX_TO: u16 = 99;

pub fn winners_stay(spec: &DrillSpec) -> Option<WinnersStay> {
    match spec.rule {
        Rule::WinnersStay(rule) => Some(rule),
        _ => None,
    }
}

pub fn match_game(spec: &DrillSpec) -> Option<MatchGame> {
    match spec.rule {
        Rule::MatchGame(rule) => Some(rule),
        _ => None,
    }
}

/// The other game, with its usual settings.
pub fn with_game(spec: &DrillSpec, is_match: bool) -> DrillSpec {
    let rule = match (is_match, spec.rule) {
        (true, Rule::MatchGame(_)) | (false, Rule::WinnersStay(_)) => spec.rule,
        (true, _) => Rule::MatchGame(MatchGame::default()),
        (false, _) => Rule::WinnersStay(WinnersStay::default()),
    };
    DrillSpec { rule, ..spec.clone() }
}

pub fn a_side(spec: &DrillSpec) -> (u8, u8, u8) {
    match spec.rule {
        Rule::MatchGame(rule) => (rule.a_side, 3, 6),
        _ => (spec.rule.a_side().unwrap_or(2), 2, 4),
    }
}

pub fn step_a_side(spec: &DrillSpec, more: bool) -> DrillSpec {
    let (n, least, most) = a_side(spec);
    let a_side = step_u8(n, more, least, most);
    let rule = match spec.rule {
        Rule::WinnersStay(rule) => Rule::WinnersStay(WinnersStay { a_side, ..rule }),
        Rule::MatchGame(rule) => Rule::MatchGame(MatchGame { a_side, ..rule }),
        other => other,
    };
    DrillSpec { rule, ..spec.clone() }
}

pub fn with_stay(spec: &DrillSpec, change: impl FnOnce(&mut WinnersStay)) -> DrillSpec {
    let Some(mut rule) = winners_stay(spec) else { return spec.clone() };
    change(&mut rule);
    DrillSpec { rule: Rule::WinnersStay(rule), ..spec.clone() }
}

pub fn with_match(spec: &DrillSpec, change: impl FnOnce(&mut MatchGame)) -> DrillSpec {
    let Some(mut rule) = match_game(spec) else { return spec.clone() };
    change(&mut rule);
    DrillSpec { rule: Rule::MatchGame(rule), ..spec.clone() }
}

/// The points that were typed. What is no such number leaves the draft without one, so that it can't be kept and says why.
pub fn typed_to(text: &str) -> u16 {
    text.trim().parse().ok().filter(|to| (1..=MAX_TO).contains(to)).unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::view::today::Picture;
    use crate::domain::drill::{DrillFault, RuleFault};
    use crate::ui::screens::drill::change::{SkillChoice, with_board, with_skill};

    /// However far each stepper goes, the draft has no fault.
    #[test]
    fn every_setting_stays_within_its_ends() {
        let start = DrillSpec::starters(|i| format!("drill {i}")).remove(0);
        let mut spec = with_board(&with_skill(&start, SkillChoice::Own), Picture::Court);
        spec.skill = crate::domain::skill::Skill::Own("Playing".to_owned());
        for is_match in [true, false, true] {
            spec = with_game(&spec, is_match);
            for more in [true, false] {
                for _ in 0..30 {
                    spec = step_a_side(&spec, more);
                    spec = with_stay(&spec, |rule| rule.to = step_u8(rule.to, more, 1, MAX_SHORT));
                    assert_eq!(spec.fault(), None, "{spec:?}");
                }
            }
        }
        assert_eq!(a_side(&spec), (3, 3, 6));
    }

    #[test]
    fn points_are_typed_or_refused() {
        for (text, to) in [("7", 7), (" 21 ", 21), ("99", 99), ("1", 1)] {
            assert_eq!(typed_to(text), to, "{text:?}");
        }
        let start = DrillSpec::starters(|i| format!("drill {i}")).remove(13);
        for text in ["", "0", "100", "-3", "2.5", "ten", "25 points", "99999999999"] {
            let spec = with_match(&start, |rule| rule.to = typed_to(text));
            assert!(matches!(spec.fault(), Some(DrillFault::Rule(RuleFault::MatchTo))), "{text:?}");
        }
    }
}
