//! The live figures of every rule, told in one shape: a large numeral, what it is of, and what there is to reach.

use super::{Figures, GroupBall, GroupFigure};
use crate::app::model::Model;
use crate::app::words::{board_lines, counts, ladder};
use crate::domain::drill::Board;
use crate::domain::ids::{GroupNo, PlayerId};
use crate::domain::replay::run::RunState;
use crate::domain::rule::{InRow, InTime, Rule, Whose};
use crate::domain::scoring::tally::Tally;
use crate::domain::scoring::{Standing, Who};
use crate::domain::skill::FeedKind;
use crate::stats::proportion::Count;

pub fn figures(run: &RunState) -> Figures {
    let rule = run.main.score.rule();
    let whose = whose(run);
    let standing = rule.standing(whose);
    let is_child = matches!(whose, Who::Child(_));
    let group = match whose {
        Who::Group(no) => Some(no),
        _ => None,
    };
    let plain = |n_good: u32, of: String, goal: Option<String>| Figures {
        n_good,
        of: board_lines::of_group(group, of),
        goal,
        reached: standing.reached(),
    };
    if run.spec.board == Board::Lanes {
        return lanes(run, rule.standing(Who::Everyone));
    }
    match run.spec.rule {
        Rule::Tally { .. } | Rule::Transition(_) => tally(run),
        // Rows of each, and no one child to tell of.
        Rule::InRow(InRow { whose: Whose::Child, .. }) if !is_child => {
            plain(standing.now, board_lines::LONGEST_NOW.to_owned(), board_lines::row_each(standing.goal))
        }
        Rule::InRow(_) => plain(
            standing.now,
            board_lines::IN_A_ROW.to_owned(),
            Some(board_lines::row_goal(standing.best, standing.goal)),
        ),
        Rule::Tens(rule) if !is_child => {
            let count = counted(run, &run.main.everyone);
            plain(count.good(), counts::good_of(count), Some(board_lines::series_each(rule.n)))
        }
        Rule::Tens(rule) => plain(
            standing.now,
            board_lines::of_series(standing.of.unwrap_or(0), rule.n),
            board_lines::series_before(rule.n, standing.last, standing.best),
        ),
        Rule::FirstTo(rule) => plain(standing.now, board_lines::first_to(rule.n), board_lines::by_two(rule.by_two)),
        Rule::InTime(_) => plain(standing.now, board_lines::GOOD.to_owned(), None),
        Rule::Together(rule) => plain(
            standing.now,
            board_lines::together(standing.of, rule.balls),
            Some(board_lines::to_beat(standing.last, standing.reached())),
        ),
        Rule::WinnersStay(_) | Rule::MatchGame(_) => {
            super::game::figures(run).unwrap_or_else(|| plain(standing.now, String::new(), None))
        }
    }
}

/// Whose figure is the large one: the child's whose turn it is, or its group's, where the rule counts for these; else everyone's.
fn whose(run: &RunState) -> Who {
    let Some(player) = run.main.current(&run.spec) else { return Who::Everyone };
    match run.spec.rule {
        Rule::InRow(InRow { whose: Whose::Child, .. }) | Rule::Tens(_) => Who::Child(player),
        rule if rule.has_groups() => run.main.group_of(player).map_or(Who::Everyone, Who::Group),
        _ => Who::Everyone,
    }
}

/// Where each group has its own key and figure, the large one is what all have together.
fn lanes(run: &RunState, standing: Standing) -> Figures {
    let goal = match run.spec.rule {
        Rule::FirstTo(rule) => Some(board_lines::first_to_by(rule.n, rule.by_two)),
        Rule::Together(_) => Some(board_lines::to_beat(standing.last, standing.reached())),
        _ => standing.goal.map(|goal| board_lines::goal(goal, standing.reached())),
    };
    let reached = standing.reached() && !matches!(run.spec.rule, Rule::FirstTo(_));
    Figures { n_good: run.main.everyone.n_counted, of: board_lines::GOOD_IN_ALL.to_owned(), goal, reached }
}

/// Whether one row is kept alive by several: then nothing on the board says who ended it.
pub fn is_shared_row(run: &RunState) -> bool {
    match run.spec.rule {
        Rule::InRow(rule) => rule.whose == Whose::Group,
        Rule::Together(rule) => rule.row,
        _ => false,
    }
}

fn tally(run: &RunState) -> Figures {
    let count = counted(run, &run.main.everyone);
    let standing = run.main.score.rule().standing(Who::Everyone);
    // Toward a goal every good one counts, of either kind; of tries nothing is told then.
    let both = run.next_ball().is_none() && kind_shown(run).is_some();
    let n_good = if both { standing.now } else { count.good() };
    let goal = standing.goal;
    let reached = goal.is_some_and(|goal| n_good >= goal);
    let of = if both { board_lines::GOOD.to_owned() } else { counts::good_of(count) };
    Figures { n_good, of, goal: goal.map(|goal| board_lines::goal(goal, reached)), reached }
}

/// Good of tries as the board tells them: where there are both, on balls of the kind that comes, since easy and challenge balls are
/// never one figure.
pub fn counted(run: &RunState, tally: &Tally) -> Count {
    match kind_shown(run) {
        Some(kind) => tally.of(Some(kind)).count,
        None => tally.all(),
    }
}

/// The kind of ball that comes, where balls of the other kind were counted too, or will be.
pub fn kind_shown(run: &RunState) -> Option<FeedKind> {
    if let Some(next) = run.next_ball() {
        return Some(next.kind);
    }
    let kind = run.main.feed.kind;
    let other = match kind {
        FeedKind::Easy => FeedKind::Challenge,
        FeedKind::Challenge => FeedKind::Easy,
    };
    (run.main.everyone.of(Some(other)).count.tries() > 0).then_some(kind)
}

/// What stands under a child's name.
pub fn of_child(run: &RunState, player: PlayerId) -> String {
    let standing = run.main.score.rule().standing(Who::Child(player));
    if is_shared_row(run) {
        return String::new();
    }
    match run.spec.rule {
        Rule::InRow(rule) if rule.whose == Whose::Child => board_lines::row_of(standing.now, standing.best),
        Rule::Tens(_) => board_lines::ten_of(standing.now, standing.of.unwrap_or(0)),
        Rule::InTime(InTime { whose: Whose::Child, .. }) => board_lines::good_ones(standing.now),
        _ => counts::of(run.main.by_child.get(&player).map(|tally| counted(run, tally)).unwrap_or_default()),
    }
}

/// The groups with their figures, where the rule counts for groups.
pub fn groups(model: &Model, run: &RunState) -> Vec<GroupFigure> {
    let counts_groups = run.spec.rule.has_groups() || matches!(run.spec.rule, Rule::Tally { .. });
    let groups = run.main.lineup.groups_numbered().filter(|_| counts_groups);
    // Only number and figure are shown there: no names are put together at every tap.
    groups.map(|(no, _)| group(model, run, no, &[])).collect()
}

pub fn group(model: &Model, run: &RunState, no: GroupNo, players: &[PlayerId]) -> GroupFigure {
    let standing = run.main.score.rule().standing(Who::Group(no));
    GroupFigure {
        group: no,
        name: board_lines::group_name(no),
        who: players.iter().map(|player| model.name_of(*player)).collect::<Vec<_>>().join(", "),
        now: standing.now,
        reached: standing.reached(),
        ball: run.spec.rule.has_groups().then(|| {
            let step = run.main.group_steps.get(&no).copied().unwrap_or(run.main.feed.step);
            GroupBall { step, word: ladder::open(&run.spec.skill, step) }
        }),
    }
}
