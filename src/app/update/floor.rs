//! What groups, games, clocks and stations write. Contacts of children are `run`'s, a match's serves and passes `game`'s: there one tap may
//! note a serve and the rally that it decides.

use super::super::action::Action;
use super::super::model::Model;
use super::game;
use super::run::taking_back;
use crate::domain::drill::Board;
use crate::domain::entry::{Contact, Fact, Lineup, LineupCause, Rally, Said, Side};
use crate::domain::ids::{GroupNo, PlayerId, RallyId, Step};
use crate::domain::replay::run::RunState;
use crate::domain::rule::{MatchGame, Rule};
use crate::domain::skill::{Feed, FeedKind, Outcome};

/// The facts of a tap on the run on screen; nothing for what isn't of its kind.
pub(super) fn facts_of(model: &Model, run: &RunState, action: &Action) -> Vec<Fact> {
    let one = |fact: Option<Fact>| fact.into_iter().collect();
    match *action {
        Action::LaneTapped(group) => one(lane(model, run, group)),
        Action::LaneUndone(group) => one(run.main.last_of_lane(group).map(|contact| taking_back(run, contact.0))),
        Action::SideWon(won) => one(rally(model, run, won)),
        Action::TeamsMixed if run.spec.rule.is_game() => one(new_teams(model, run)),
        Action::SecondServeTapped => one(game::serve_said(model, run, Said::Second)),
        Action::OtherServesTapped => one(game::serve_said(model, run, Said::OtherSide)),
        Action::OutcomeTapped(outcome) => game::noted(model, run, outcome),
        Action::NameTapped(player) => one(game::passer(model, run, player)),
        Action::RallyFixed(rally, won) => one(rally_fixed(run, rally, won)),
        Action::RallyTakenBack(rally) => vec![taking_back(run, rally.0)],
        Action::RallyPutBack(rally) if run.amended.is_taken_back(rally.0) => {
            let revision = run.amended.next_take_back(rally.0);
            vec![Fact::EntryTakenBack { run: Some(run.id), target: rally.0, revision, back: false }]
        }
        Action::ClockTapped => one(clock(model, run)),
        Action::ChallengeTapped => one(challenge(run)),
        Action::StepChosen(player, step) => one(own_step(model, run, player, step)),
        Action::GroupStepChosen(group, step) => one(group_step(model, run, group, step)),
        Action::StationOpened(group)
            // Handed out before the clock goes, it would swallow every ball.
            if super::station::fits(run)
                && clock_goes(model, run)
                && group.is_none_or(|group| has_group(run, group)) =>
        {
            vec![Fact::StationSet { run: run.id, open: true, group, check: false }]
        }
        // A lane is tapped by a whole group: there is nobody's ball to see beside it.
        Action::CheckOpened
            if super::station::fits(run) && clock_goes(model, run) && run.spec.board != Board::Lanes =>
        {
            vec![Fact::StationSet { run: run.id, open: true, group: None, check: true }]
        }
        Action::StationLeft if run.main.station.is_some() => {
            vec![Fact::StationSet { run: run.id, open: false, group: None, check: false }]
        }
        _ => Vec::new(),
    }
}

/// A good one of a group: no child is named, and what missed isn't counted.
fn lane(model: &Model, run: &RunState, group: GroupNo) -> Option<Fact> {
    let part = &run.main;
    // A station is one group's: its children score for no other.
    let others = part.station.and_then(|station| station.group).is_some_and(|own| own != group);
    if run.spec.board != Board::Lanes || others || !counts_now(model, run) || !has_group(run, group) {
        return None;
    }
    let contact = Contact {
        player: None,
        role: run.spec.skill.role(),
        place: None,
        outcome: Outcome::Counted,
        good_from: run.spec.good_from,
        feed: feed_of(model, run, None, Some(group)),
        style: None,
        turn: None,
        server: None,
        self_scored: part.station.is_some(),
        group: Some(group),
        clock_ms: shown(model, run),
        watched: false,
    };
    Some(Fact::ContactNoted { run: run.id, contact })
}

/// There is such a group, with somebody in it.
fn has_group(run: &RunState, group: GroupNo) -> bool {
    run.main.lineup.groups.get(usize::from(group.0)).is_some_and(|players| !players.is_empty())
}

/// Whether a ball counts in the run: only while its clock goes, and not after its end unless the coach plays on.
pub(super) fn counts_now(model: &Model, run: &RunState) -> bool {
    let shown_ms = run.main.clock.shown_ms(model.writer.series(), model.now);
    clock_goes(model, run) && (model.board.play_on || run.main.score.rule().over(shown_ms).is_none())
}

/// A clock that stands means no play, on every board and for whoever scores: before its start, in a pause, at its end. Where the rule
/// has none, nothing waits for it.
pub fn clock_goes(model: &Model, run: &RunState) -> bool {
    left_ms(model, run).is_none_or(|left| left > 0 && run.main.clock.is_going())
}

/// What is left on the run's clock; nothing where its rule has none.
pub fn left_ms(model: &Model, run: &RunState) -> Option<u32> {
    let Rule::InTime(rule) = run.spec.rule else { return None };
    Some(rule.left_ms(run.main.clock.shown_ms(model.writer.series(), model.now)))
}

/// Seconds left on a clock that goes.
pub(super) fn left_s(model: &Model, run: &RunState) -> Option<u32> {
    left_ms(model, run).filter(|_| run.main.clock.is_going()).map(|left| left.div_ceil(1000))
}

/// A run's end. Its clock is stopped with it: opened again, the run shows the time as it stood.
pub(super) fn ending(model: &Model, run: &RunState) -> impl Iterator<Item = Fact> {
    let stops = run.main.clock.is_going().then(|| Fact::ClockSet {
        run: run.id,
        going: false,
        shown_ms: run.main.clock.shown_ms(model.writer.series(), model.now),
        slept: false,
    });
    stops.into_iter().chain([Fact::RunFinished { run: run.id }])
}

/// What the run's clock shows now; nothing where it never went.
pub(super) fn shown(model: &Model, run: &RunState) -> Option<u32> {
    let clock = &run.main.clock;
    clock.was_set().then(|| clock.shown_ms(model.writer.series(), model.now))
}

/// The ball that is given now: with the child's own step if it has one, else its group's, else the run's.
pub fn feed_of(model: &Model, run: &RunState, player: Option<PlayerId>, group: Option<GroupNo>) -> Feed {
    let part = &run.main;
    let own = player.zip(run.drill).and_then(|(player, drill)| model.base.step_of(drill, player));
    let group = group.and_then(|group| part.group_steps.get(&group).copied());
    Feed { step: own.or(group).unwrap_or(part.feed.step), ..part.feed }
}

/// The rally as the floor is drawn.
pub(super) fn rally(model: &Model, run: &RunState, won: Side) -> Option<Fact> {
    let team = |side| Some(on_court(run, side).to_vec()).filter(|team| !team.is_empty());
    let (near, far) = (team(Side::Near)?, team(Side::Far)?);
    let second_serve = run.main.serve_said.second && run.spec.rule.has_second_serve();
    let rally = Rally { near, far, served: game::serves(run), won, second_serve };
    (run.spec.rule.is_game() && counts_now(model, run)).then_some(Fact::RallyNoted { run: run.id, rally })
}

/// Who plays the rally that comes on this side; in a match by position, and who is over the number waits beside the court.
pub fn on_court(run: &RunState, side: Side) -> &[PlayerId] {
    let at = if side == Side::Near { 0 } else { 1 };
    let group = run.main.lineup.groups.get(at).map_or(&[][..], Vec::as_slice);
    match run.spec.rule {
        Rule::MatchGame(MatchGame { a_side, .. }) => &group[..group.len().min(usize::from(a_side))],
        _ => group,
    }
}

fn new_teams(model: &Model, run: &RunState) -> Option<Fact> {
    let groups = super::groups::mixed(model, run);
    // Too few for two sides: they stay as they are.
    if groups.is_empty() {
        return None;
    }
    let lineup = Lineup { groups, ..run.main.lineup.clone() };
    (lineup != run.main.lineup).then_some(Fact::LineupSet { run: run.id, lineup, cause: LineupCause::ByHand })
}

/// What it says already is not written again.
fn rally_fixed(run: &RunState, rally: RallyId, won: Side) -> Option<Fact> {
    let now = run.parts().flat_map(|part| &part.rallies).find(|counted| counted.id == rally)?;
    let revision = run.amended.next_rally_revision(rally);
    (now.rally.won != won).then_some(Fact::RallyCorrected { run: run.id, rally, revision, won })
}

/// A clock that has run out stays as it is.
fn clock(model: &Model, run: &RunState) -> Option<Fact> {
    let left = left_ms(model, run)?;
    let shown_ms = run.main.clock.shown_ms(model.writer.series(), model.now);
    let going = !run.main.clock.is_going();
    (left > 0).then_some(Fact::ClockSet { run: run.id, going, shown_ms, slept: false })
}

/// Whether the coach marks challenge balls here: a duel gives its own kinds of balls, a game's aren't fed, and told counts have none.
pub fn marks_challenge(run: &RunState) -> bool {
    let judged = !matches!(run.spec.board, Board::Court | Board::Told { .. });
    judged && run.spec.rule.transition().is_none()
}

fn challenge(run: &RunState) -> Option<Fact> {
    if !marks_challenge(run) {
        return None;
    }
    let kind = match run.main.feed.kind {
        FeedKind::Easy => FeedKind::Challenge,
        FeedKind::Challenge => FeedKind::Easy,
    };
    Some(Fact::FeedSet { run: run.id, feed: Feed { kind, ..run.main.feed } })
}

/// What it is already is not written again, and a group that has gone has no ball.
fn group_step(model: &Model, run: &RunState, group: GroupNo, step: Step) -> Option<Fact> {
    let changes = has_group(run, group) && feed_of(model, run, None, Some(group)).step != step;
    changes.then_some(Fact::GroupStepSet { run: run.id, group, step })
}

/// Kept for the drill until it is changed.
fn own_step(model: &Model, run: &RunState, player: PlayerId, step: Step) -> Option<Fact> {
    let drill = run.drill?;
    if model.base.step_of(drill, player) == Some(step) {
        return None;
    }
    Some(Fact::StepNoted { player, drill, revision: model.base.next_step_revision(drill, player), step })
}
