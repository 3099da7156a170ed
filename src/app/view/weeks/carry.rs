//! Whether it carries over: easy balls against challenge balls, balls of drills against those noted in matches, each with the range of the gap.

use super::past::{is_recent, recent_seen};
use crate::app::model::Model;
use crate::app::words::weeks as words;
use crate::app::words::weeks::carry as carry_words;
use crate::domain::ids::PlayerId;
use crate::domain::lots::What;
use crate::domain::skill::{FeedKind, Skill};
use crate::domain::summary::{Count, PracticeSummary};
use crate::stats::proportion::{Confidence, difference};
use crate::stats::share::ENOUGH;

#[derive(Clone, Debug, PartialEq)]
pub struct Gap {
    pub line: String,
    /// "Passing: 14 of 20 easy, 5 of 12 challenge"
    pub counted: String,
}

/// Skill by skill, where there are enough of both to say anything.
pub fn easy_and_challenge(model: &Model, practices: &[&PracticeSummary], player: PlayerId) -> Vec<Gap> {
    let mut skills: Vec<(Skill, Count, Count)> = Vec::new();
    for (skill, lot) in recent_seen(model, practices, player) {
        let at = skills.iter().position(|(known, ..)| known == skill).unwrap_or_else(|| {
            skills.push((skill.clone(), Count::NONE, Count::NONE));
            skills.len() - 1
        });
        let (_, easy, challenge) = &mut skills[at];
        let to = if lot.feed.kind == FeedKind::Easy { easy } else { challenge };
        *to = *to + lot.by_the_common_line();
    }
    let told = |(skill, easy, challenge): &(Skill, Count, Count)| {
        let (low, high) = gap(*challenge, *easy)?;
        Some(Gap { line: words::gap(low, high), counted: words::counted(skill, *easy, *challenge) })
    };
    skills.iter().filter_map(told).collect()
}

/// Serves and passes. What was noted in a match may be some of its balls.
pub fn drill_and_match(model: &Model, practices: &[&PracticeSummary], player: PlayerId) -> Vec<Gap> {
    let noted = || {
        let runs = practices.iter().filter(|p| is_recent(model, p)).flat_map(|p| &p.runs);
        let games = runs.filter_map(|run| run.game.as_ref()).flat_map(|game| &game.noted);
        games.filter(move |(child, _)| *child == player).map(|(_, noted)| noted)
    };
    let in_drills = |what: What| -> Count {
        let lots = recent_seen(model, practices, player).filter(|(_, lot)| lot.what == what && lot.is_by_one_line());
        lots.map(|(_, lot)| lot.by_the_common_line()).sum()
    };
    let both: [(Skill, Count, Count); 2] = [
        (Skill::Serve, in_drills(What::Serve), noted().map(|noted| noted.serves_in()).sum()),
        (Skill::Pass, in_drills(What::Pass), noted().map(|noted| noted.passes_good()).sum()),
    ];
    let told = |(skill, drill, played): &(Skill, Count, Count)| {
        let (low, high) = gap(*played, *drill)?;
        Some(Gap { line: carry_words::in_matches(low, high), counted: carry_words::counted(skill, *drill, *played) })
    };
    both.iter().filter_map(told).collect()
}

fn gap(of: Count, from: Count) -> Option<(f64, f64)> {
    let enough = of.tries() >= ENOUGH && from.tries() >= ENOUGH;
    let gap = difference(of, from, Confidence::P95).filter(|_| enough)?;
    Some((gap.low, gap.high))
}
