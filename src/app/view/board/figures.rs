//! The live figures of every rule, told in one shape: a large numeral, what it is of, and what there is to reach.

use super::{Figures, GroupFigure, keys};
use crate::app::model::Model;
use crate::app::words::{board_lines, counts, ladder};
use crate::domain::ids::{GroupNo, PlayerId};
use crate::domain::replay::run::RunState;
use crate::domain::rule::{InTime, Rule, Whose};
use crate::domain::scoring::tally::Tally;
use crate::domain::scoring::{Standing, Who};
use crate::domain::skill::FeedKind;
use crate::stats::proportion::Count;

pub fn figures(run: &RunState) -> Figures {
    let rule = run.main.score.rule();
    let everyone = rule.standing(Who::Everyone);
    let standing = match run.main.current(&run.spec).filter(|_| is_by_child(&run.spec.rule)) {
        Some(player) => rule.standing(Who::Child(player)),
        None => everyone,
    };
    let plain = |standing: Standing, of: String, goal: Option<String>| Figures {
        n_good: standing.now,
        of,
        goal,
        reached: standing.reached(),
    };
    match run.spec.rule {
        Rule::Tally { .. } | Rule::Transition(_) => tally(run),
        Rule::InRow(_) => {
            plain(standing, board_lines::IN_A_ROW.to_owned(), Some(board_lines::row_goal(standing.best, standing.goal)))
        }
        Rule::Tens(rule) => plain(
            standing,
            board_lines::of_series(standing.of.unwrap_or(0), rule.n),
            board_lines::series_before(standing.last, standing.best),
        ),
        Rule::FirstTo(rule) => plain(standing, board_lines::first_to(rule.n), None),
        Rule::InTime(_) => plain(everyone, board_lines::GOOD.to_owned(), None),
        Rule::Together(_) => plain(
            standing,
            board_lines::together(standing.of),
            Some(board_lines::to_beat(standing.last, standing.reached())),
        ),
        Rule::WinnersStay(_) => plain(everyone, board_lines::games(everyone.now), None),
        Rule::MatchGame(_) => plain(everyone, board_lines::rallies(everyone.now), None),
    }
}

/// Each child has a figure of its own.
fn is_by_child(rule: &Rule) -> bool {
    match rule {
        Rule::InRow(rule) => rule.whose == Whose::Child,
        Rule::Tens(_) => true,
        _ => false,
    }
}

fn tally(run: &RunState) -> Figures {
    let count = counted(run, &run.main.everyone);
    let standing = run.main.score.rule().standing(Who::Everyone);
    // Toward a goal every good one counts, of either kind; of tries nothing is told then. Nor where only good ones are counted.
    let both = run.next_ball().is_none() && kind_shown(run).is_some();
    let only_good = both || (count.tries() == 0 && standing.now > 0 && run.next_ball().is_none());
    let n_good = if only_good { standing.now } else { count.good() };
    let goal = standing.goal;
    let reached = goal.is_some_and(|goal| n_good >= goal);
    Figures {
        n_good,
        of: if only_good { board_lines::GOOD.to_owned() } else { counts::good_of(count) },
        goal: goal.map(|goal| board_lines::goal(goal, reached)),
        reached,
    }
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
    match run.spec.rule {
        Rule::InRow(rule) if rule.whose == Whose::Child => board_lines::row_of(standing.now, standing.best),
        Rule::Tens(_) => board_lines::ten_of(standing.now, standing.of.unwrap_or(0)),
        Rule::InTime(InTime { whose: Whose::Child, .. }) => board_lines::good_ones(standing.now),
        _ => counts::of(run.main.by_child.get(&player).map(|tally| counted(run, tally)).unwrap_or_default()),
    }
}

/// The groups with their figures, where the rule counts for groups and the board doesn't show them anyway.
pub fn groups(model: &Model, run: &RunState) -> Vec<GroupFigure> {
    let counts_groups = match run.spec.rule {
        Rule::FirstTo(_) | Rule::Tally { .. } => true,
        Rule::InRow(rule) => rule.whose == Whose::Group,
        Rule::InTime(rule) => rule.whose == Whose::Group,
        _ => false,
    };
    let groups = run.main.lineup.groups.iter().zip(0u8..).filter(|_| counts_groups);
    groups.map(|(players, no)| group(model, run, GroupNo(no), players)).collect()
}

pub fn group(model: &Model, run: &RunState, no: GroupNo, players: &[PlayerId]) -> GroupFigure {
    let standing = run.main.score.rule().standing(Who::Group(no));
    GroupFigure {
        group: no,
        name: board_lines::group_name(no),
        who: players.iter().map(|player| with_step(model, run, *player)).collect::<Vec<_>>().join(", "),
        now: standing.now,
        reached: standing.reached(),
    }
}

/// "Mira (4.5 m)", where the child has a step of its own.
fn with_step(model: &Model, run: &RunState, player: PlayerId) -> String {
    let name = model.name_of(player);
    match keys::own_step(model, run, player) {
        Some(step) => board_lines::name_at(&name, &ladder::step(&run.spec.skill, step)),
        None => name,
    }
}
