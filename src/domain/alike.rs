//! Balls such as a drill gives: everyone's, day by day, by what that drill calls good. What the chance of a goal and the advice on the next
//! step rest on; says nothing of how good anyone is.

use super::drill::{Board, DrillSpec};
use super::ids::PlayerId;
use super::lots::{Lot, What};
use super::skill::{Feed, GoodFrom, PassGrade, Skill};
use super::summary::PracticeSummary;
use super::weeks::{checked, day_no, read_as_checked, worth};
use crate::stats::arrange::arranged;
use crate::stats::level::Seen;
use crate::stats::proportion::Count;
use chrono::NaiveDate;

/// A kind of ball, and the line between good and not.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Alike {
    pub skill: Skill,
    pub feed: Feed,
    line: Line,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Line {
    /// A pass of this grade or better.
    Grade(PassGrade),
    /// A serve that is in.
    In,
    /// As two keys or a told number had it.
    AsSaid,
}

impl Alike {
    /// `None` where fast serves that are in are what is good: of a fast one nobody keeps by itself whether it was.
    pub fn of(spec: &DrillSpec, feed: Feed) -> Option<Alike> {
        let line = match (&spec.skill, spec.good_from) {
            _ if spec.board.is_two_key() && !matches!(spec.board, Board::Told { .. }) => Line::AsSaid,
            (_, GoodFrom::FastServeIn) => return None,
            _ if matches!(spec.board, Board::Told { .. }) => Line::AsSaid,
            (Skill::Pass, GoodFrom::Grade(grade)) => Line::Grade(grade),
            (Skill::Serve, GoodFrom::ServeIn) => Line::In,
            _ => Line::AsSaid,
        };
        Some(Alike { skill: spec.skill.clone(), feed, line })
    }

    /// Of passes and serves by two keys or told: they stand by themselves.
    pub fn is_as_said(&self) -> bool {
        self.line == Line::AsSaid
    }

    /// `None` for other balls.
    fn count(&self, of_run: &Skill, lot: &Lot) -> Option<Count> {
        let skill = match lot.what {
            What::Pass => &Skill::Pass,
            What::Serve => &Skill::Serve,
            What::Own => of_run,
        };
        if *skill != self.skill || lot.feed != self.feed {
            return None;
        }
        let of = |good: u32| Count::new(good, lot.outcomes.iter().sum());
        match self.line {
            Line::AsSaid => Some(lot.count).filter(|_| !lot.is_by_one_line()),
            Line::In => of(lot.outcomes[0]).filter(|_| lot.is_by_one_line()),
            Line::Grade(from) => {
                of(lot.outcomes[usize::from(from.digit())..].iter().sum()).filter(|_| lot.is_by_one_line())
            }
        }
    }
}

/// Those who had such balls, and how many were good on which day, the first day first. Games are left out: what is noted there is some of
/// the balls, not all. `practices` in any order; those of a day to come are left out, for a clock was wrong then or is now.
pub fn seen(practices: &[&PracticeSummary], today: NaiveDate, ball: &Alike) -> Vec<(PlayerId, Vec<Seen>)> {
    let mut all: Vec<(PlayerId, Vec<Seen>)> = Vec::new();
    let mut by_day: Vec<(i32, &PracticeSummary)> = practices.iter().map(|p| (day_no(p.started.day()), *p)).collect();
    by_day.retain(|(day, _)| *day <= day_no(today));
    let checks = checked(&by_day.iter().map(|(_, practice)| *practice).collect::<Vec<_>>());
    for (day, practice) in arranged(by_day, |a, b| a.0.cmp(&b.0)) {
        for run in practice.runs.iter().filter(|run| run.game.is_none()) {
            for lot in &run.lots {
                if let Some(count) = ball.count(&run.skill, lot).filter(|count| count.tries() > 0) {
                    note(&mut all, lot.player, Seen { day, count, weight: worth(lot, &checks), offset: 0.0 });
                }
            }
        }
    }
    // What checks have shown of another grade's line, nobody knows.
    match ball.line {
        Line::Grade(PassGrade::Moved) | Line::In => read_as_checked(&mut all, checks.good(What::of(&ball.skill))),
        Line::AsSaid => read_as_checked(&mut all, checks.good(What::Own)),
        Line::Grade(_) => {}
    }
    all
}

fn note(all: &mut Vec<(PlayerId, Vec<Seen>)>, player: PlayerId, now: Seen) {
    let at = all.iter().position(|(child, _)| *child == player).unwrap_or_else(|| {
        all.push((player, Vec::new()));
        all.len() - 1
    });
    let seen = &mut all[at].1;
    // The same day's balls of the same worth are one occasion.
    match seen.iter_mut().find(|had| had.day == now.day && had.weight == now.weight) {
        Some(had) => had.count = had.count + now.count,
        None => seen.push(now),
    }
}
