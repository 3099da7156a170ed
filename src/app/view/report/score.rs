//! After a run: what its rule says, of everyone, of each group, of each child.

use super::{GroupLine, OwnGoal};
use crate::app::model::Model;
use crate::app::steps::level_of;
use crate::app::update::left_ms;
use crate::app::view::own_goal;
use crate::app::words::{board_lines, scores};
use crate::domain::entry::Side;
use crate::domain::ids::{GroupNo, PlayerId};
use crate::domain::replay::part::Part;
use crate::domain::replay::run::RunState;
use crate::domain::rule::{InRow, InTime, Rule, Whose};
use crate::domain::scoring::{Over, Who};
use crate::stats::arrange::arranged;
use crate::stats::beta::mixed;
use crate::stats::goal::at_least;
use crate::stats::level::Level;

/// One sentence; nothing where the rule only counts, or tells it of each child.
pub fn score(model: &Model, run: &RunState) -> Option<String> {
    let score = run.main.score.rule();
    let everyone = score.standing(Who::Everyone);
    Some(match run.spec.rule {
        Rule::InRow(rule @ InRow { whose: Whose::Group, .. }) if run.main.lineup.groups.is_empty() => {
            scores::row(rule, everyone)
        }
        // The rows are told of each group or child.
        Rule::InRow(rule) => return scores::falls(rule),
        Rule::FirstTo(rule) => won(model, run).unwrap_or_else(|| scores::race_on(rule.n)),
        // Before the time is up nobody has it.
        Rule::InTime(rule) => match left_ms(model, run) {
            Some(left) if left > 0 => scores::time_left(rule, everyone.now, left.div_ceil(1000)),
            _ => won(model, run).unwrap_or_else(|| scores::time(rule, everyone.now)),
        },
        Rule::Together(rule) => scores::together(rule, everyone),
        _ => return None,
    })
}

/// The groups who have it, its time being up.
fn won(model: &Model, run: &RunState) -> Option<String> {
    let score = run.main.score.rule();
    let Some(Over::Have(groups)) = score.over(u32::MAX) else { return None };
    let named = |who: &Who| match who {
        Who::Group(no) => Some(board_lines::group_with(*no, &names(model, run, *no))),
        _ => None,
    };
    let names: Vec<String> = groups.iter().filter_map(named).collect();
    let points = groups.first().map_or(0, |who| score.standing(*who).now);
    (!names.is_empty()).then(|| board_lines::over_groups(&names, points))
}

pub fn groups(model: &Model, run: &RunState) -> Vec<GroupLine> {
    let score = run.main.score.rule();
    let is_row = matches!(run.spec.rule, Rule::InRow(_));
    let is_match = matches!(run.spec.rule, Rule::MatchGame(_));
    let counts = is_match || run.spec.rule.has_groups() || matches!(run.spec.rule, Rule::Tally { .. });
    let groups = (0..run.main.lineup.groups.len()).filter_map(|at| u8::try_from(at).ok().map(GroupNo));
    let line = |no: GroupNo| {
        let standing = score.standing(Who::Group(no));
        GroupLine {
            name: match no {
                GroupNo(0) if is_match => board_lines::side(Side::Near, true).to_owned(),
                GroupNo(1) if is_match => board_lines::side(Side::Far, true).to_owned(),
                no => board_lines::group_name(no),
            },
            who: names(model, run, no).join(", "),
            what: match (is_row, is_match) {
                (true, _) => scores::row_short(standing.best),
                (_, true) => scores::points(standing.now),
                // None good may be none seen.
                _ if !has_balls(run, no) => scores::NO_BALLS.to_owned(),
                _ => scores::counted(standing.now),
            },
        }
    };
    groups.filter(|_| counts).map(line).collect()
}

fn has_balls(run: &RunState, no: GroupNo) -> bool {
    run.main.contacts.iter().any(|counted| counted.contact.group == Some(no))
}

/// What stands beside a child's name: its series, what it had in the time.
pub fn own(model: &Model, run: &RunState, part: &Part, player: PlayerId) -> Option<String> {
    let standing = part.score.rule().standing(Who::Child(player));
    match run.spec.rule {
        Rule::Tens(rule) => Some(scores::tens(rule.n, standing)),
        Rule::InTime(rule @ InTime { whose: Whose::Child, .. }) => {
            let left_ms = rule.left_ms(part.clock.shown_ms(model.writer.series(), model.now));
            Some(scores::own_time(rule, standing.now, left_ms == 0))
        }
        _ => None,
    }
}

/// The best row where the rule has rows of its own; the outer `None`: it hasn't. Of one row of many there is none of a child.
pub fn own_row(run: &RunState, part: &Part, player: PlayerId) -> Option<Option<String>> {
    let Rule::InRow(rule) = run.spec.rule else { return None };
    let best = part.score.rule().standing(Who::Child(player)).best;
    Some(if rule.whose == Whose::Child { scores::own_row(rule, best) } else { None })
}

/// Own small goals for next time, in the order of the squad.
pub fn goals(model: &Model, run: &RunState) -> Vec<OwnGoal> {
    let squad = model.base.players();
    let place = |player: &PlayerId| squad.iter().position(|known| known.id == *player);
    let children = arranged(run.everyone(), |a, b| (place(a), a).cmp(&(place(b), b)));
    let goal = |player| {
        let goal = own_goal::next(model, run, player)?;
        let n = run.main.by_child.get(&player).map_or(0, |tally| tally.all().tries());
        let chance = |level: Level| mixed(&level.nodes(n), &mut |share| at_least(goal, n, share));
        let chance = level_of(model, run, player).filter(|_| n >= goal).map(|level| scores::own_goal(chance(level), n));
        Some(OwnGoal { name: model.name_of(player), goal: scores::goal(goal), chance })
    };
    children.into_iter().filter_map(goal).collect()
}

fn names(model: &Model, run: &RunState, no: GroupNo) -> Vec<String> {
    let players = run.main.lineup.groups.get(usize::from(no.0));
    players.into_iter().flatten().map(|player| model.name_of(*player)).collect()
}
