//! The practice: who is here, which drill starts, when it ends; drills kept and changed.

use std::collections::BTreeMap;

use super::super::action::Action;
use super::super::effect::Effect;
use super::super::model::{DrillDraft, Model};
use super::super::screen::Screen;
use super::super::words;
use super::groups::Balls;
use super::owner::taken_over;
use super::{floor, go, write};
use crate::domain::drill::{Board, DrillSpec, LineOrder, OnFloor, Rule, Together};
use crate::domain::entry::{Entry, Fact, Lineup, LineupCause};
use crate::domain::ids::{
    Clock, DrillId, EntryId, EntryNo, GroupNo, PlayerId, PracticeId, Revision, RunId, SeriesId, Step,
};
use crate::domain::replay::base::Practice;
use crate::domain::replay::run::RunState;
use crate::domain::roles;
use crate::domain::skill::{GoodFrom, PassGrade, Skill};
use crate::domain::summary::{Counts, Reached};
use crate::domain::time::Stamp;
use crate::domain::together::Groups;
use crate::stats::arrange::arranged;

pub fn act(model: &mut Model, action: Action) -> Vec<Effect> {
    match action {
        Action::PresenceTapped(player) => presence(model, player),
        // It begins once it is known, or said, of which practice it is.
        Action::DrillTapped(drill) if is_asked(model) || model.is_known_soon() => {
            model.drafts.part_asked = Some(drill);
            Vec::new()
        }
        Action::DrillTapped(drill) => start(model, drill),
        Action::PartOwn => {
            let Some(drill) = model.drafts.part_asked.take() else { return Vec::new() };
            model.drafts.part_own = Some(model.now.day());
            start(model, drill)
        }
        Action::DrillDrafted(spec) => {
            let Some(draft) = &mut model.drafts.drill else { return Vec::new() };
            // Whatever it is called, the goal that fits stays.
            let renamed = draft.spec == DrillSpec { name: draft.spec.name.clone(), ..spec.clone() };
            draft.spec = spec;
            if renamed { Vec::new() } else { crate::app::goals::want(model).into_iter().collect() }
        }
        Action::DrillKept => keep(model),
        Action::DrillArchived(drill) => {
            let revision = model.base.next_drill_revision(drill);
            let mut effects = write(model, vec![Fact::DrillArchived { drill, revision, archived: true }]);
            effects.extend(go(model, Screen::Today));
            effects
        }
        Action::PracticeEnded(practice) => end(model, practice),
        Action::PracticeReopened(practice) => reopen(model, practice),
        _ => Vec::new(),
    }
}

/// Whether a drill that is tapped may be one of another phone's practice: asked once, for two practices of one evening stay two.
fn is_asked(model: &Model) -> bool {
    model.drafts.part_own != Some(model.now.day()) && !model.can_take_part().is_empty()
}

/// The series of what is ready on every phone: no page ever draws it, as far as chance goes.
const READY: SeriesId = SeriesId(0x7265_6164_7964_7231);
/// 1 January 2026 at noon.
const READY_SINCE: Stamp = Stamp { wall_ms: 1_767_268_800_000, offset_min: 0, mono_ms: 0 };

/// The drills that a new squad finds ready. Their entries are the same on every phone, to the last letter, so that phones that are brought
/// together have each once. Under one identity there is never other content: a drill that changes, be it by a word of its name, takes a
/// number that none had.
pub fn starter_drills() -> Vec<Entry> {
    let name_of = |i: usize| words::drills::STARTERS.get(i).copied().unwrap_or("Drill").to_owned();
    let entry = |(no, spec): (u32, DrillSpec)| Entry {
        id: EntryId { series: READY, no: EntryNo(no) },
        // Before whatever a coach adds.
        clock: Clock(u64::from(no) + 1),
        at: READY_SINCE,
        fact: Fact::DrillAdded { spec },
        extra: None,
    };
    (0..).zip(DrillSpec::starters(name_of)).map(entry).collect()
}

pub fn open_drill(model: &mut Model, drill: Option<DrillId>) {
    let spec = match drill {
        Some(id) => model.base.drill(id).cloned(),
        None => Some(DrillSpec {
            name: String::new(),
            skill: Skill::Pass,
            board: Board::Line { order: LineOrder::InTurn },
            rule: Rule::Tally { goal: Some(20) },
            good_from: GoodFrom::Grade(PassGrade::Moved),
            feed: DrillSpec::EASY,
            on_floor: OnFloor::default(),
        }),
    };
    model.drafts.drill = spec.map(|spec| DrillDraft { drill, spec });
    model.goals.minutes = None;
}

/// Facts that finish what is on in a practice. A run of this phone that another page wrote is taken over first, else its end
/// would stand beside it. `spared`: what goes on all the same.
pub(super) fn finishing(model: &Model, practice: &Practice, spared: impl Fn(&RunState) -> bool) -> Vec<Fact> {
    let mut facts = Vec::new();
    let on = model.runs_of(practice).filter(|run| !run.main.finished && model.own.get(run.id.0).is_some());
    for run in on.filter(|run| !spared(run)) {
        facts.extend((!model.is_mine(run)).then(|| taken_over(model, run)));
        facts.extend(floor::ending(model, run));
    }
    facts
}

/// Facts that end a practice, with the runs and the part that are on in it.
fn ending(model: &Model, practice: &Practice) -> Vec<Fact> {
    let mut facts = finishing(model, practice, |_| false);
    // Ended on another day, nobody knows when it was over.
    let today = model.is_on(practice);
    let on = model.base.marks(practice.id).pop().filter(|mark| !mark.ends && today);
    facts.extend(on.map(|mark| Fact::PartEnded { practice: practice.id, part: mark.part }));
    facts.push(Fact::PracticeEnded { practice: practice.id });
    facts
}

/// The practice that is on; where none is, with the facts that start one.
pub(super) fn opened(model: &Model) -> (Vec<Fact>, PracticeId) {
    if let Some(on) = model.practice_today() {
        return (Vec::new(), on.id);
    }
    // Another phone's is ended there: here its runs are over.
    let over = |left: &Practice| {
        if model.leads(left.id) { ending(model, left) } else { finishing(model, left, |_| false) }
    };
    let mut facts: Vec<Fact> = model.left_open().iter().flat_map(over).collect();
    let id = PracticeId(model.writer.id_ahead(u32::try_from(facts.len()).unwrap_or(u32::MAX)));
    facts.push(Fact::PracticeStarted { title: words::counts::practice_title(model.now.day()) });
    facts.extend(super::calendar::held(model, id));
    let away = model.away();
    facts.extend(away.into_iter().map(|player| Fact::PresenceNoted {
        practice: id,
        player,
        revision: Revision(1),
        here: false,
    }));
    // Made before practice started: they are its own from now on.
    let made = crate::app::groups::made(model);
    facts.extend((!made.is_empty()).then_some(Fact::GroupsMade { practice: id, groups: made, by_hand: false }));
    (facts, id)
}

/// What was tapped before practice started is its own once it has.
pub(super) fn forget_drafts(model: &mut Model) {
    // What was tapped for a station stays its own.
    if model.along().is_none() {
        forget_station(model);
    }
}

pub(super) fn forget_station(model: &mut Model) {
    model.drafts.away = None;
    model.drafts.groups.made = None;
}

fn presence(model: &mut Model, player: PlayerId) -> Vec<Effect> {
    let mut away = model.away();
    let here = away.contains(&player);
    let mut facts = Vec::new();
    match model.practice_led() {
        Some(practice) => facts.push(Fact::PresenceNoted {
            practice: practice.id,
            player,
            revision: model.base.next_presence_revision(practice.id, player),
            here,
        }),
        // Before practice, and for the station of one that another phone began: it stays here.
        None => {
            if !away.remove(&player) {
                away.insert(player);
            }
            model.drafts.away = Some((model.now.day(), away));
        }
    }
    if let Some(run) = model.run_at_hand() {
        let lineup = run.main.lineup.with_presence_in(&run.spec.rule, player, here);
        let lineup = if roles::rotates(&run.spec) { roles::filled(&run.spec, &lineup) } else { lineup };
        if lineup != run.main.lineup {
            facts.push(Fact::LineupSet { run: run.id, lineup, cause: LineupCause::ByHand });
        }
    }
    write(model, facts)
}

/// One tap: the practice is on, the run is on, the board is there, ready as last time.
pub(super) fn start(model: &mut Model, drill: DrillId) -> Vec<Effect> {
    start_as(model, drill, &(Groups::new(), BTreeMap::new()))
}

/// The same; groups that were there before keep their balls.
pub(super) fn start_as(
    model: &mut Model,
    drill: DrillId,
    (groups, steps): &(Groups, BTreeMap<GroupNo, Step>),
) -> Vec<Effect> {
    // Which practice it belongs to is known in a moment.
    if model.is_known_soon() {
        return Vec::new();
    }
    let had = Balls { groups, steps };
    let Some(mut spec) = model.base.drill(drill).map(|spec| super::plan::as_planned(model, drill, spec)) else {
        return Vec::new();
    };
    let is_same = |run: &RunState| {
        let had = DrillSpec { rule: run.spec.rule.as_kept(), ..run.spec.clone() };
        had == spec || super::plan::was_planned(model, drill, &spec, &had)
    };
    if let Some(run) = model.run_on().filter(|r| r.drill == Some(drill) && is_same(r)) {
        let id = run.id;
        return go(model, Screen::Run(id));
    }
    if let Rule::Together(rule) = &mut spec.rule {
        rule.to_beat = best_before(model, drill, *rule);
    }
    let here = model.here();
    let groups = super::groups::opening(model, &spec, &here);
    let order = if spec.board.order() == Some(LineOrder::TenForOne) {
        least_known(model, &spec.skill, &here)
    } else {
        last_order(model, drill)
    };
    let lineup = Lineup { groups, ..Lineup::opening(&spec, &here, &order) };
    let (mut facts, practice) = opened(model);
    if let Some(on) = model.practice_today() {
        // Two windows of this phone may tally at once, each its own run; what an earlier page left is finished.
        facts.extend(finishing(model, &on, |run| model.is_elsewhere(run)));
    }
    facts.extend(super::plan::follow(model, practice, drill, &spec));
    let run = RunId(model.writer.id_ahead(u32::try_from(facts.len()).unwrap_or(u32::MAX)));
    let recorder = model.writer.device.clone();
    let usual = spec.feed.step;
    let own = lineup.groups_numbered().map(|(no, group)| (no, had.of(group, usual))).filter(|(_, step)| *step != usual);
    let balls: Vec<Fact> = own.map(|(group, step)| Fact::GroupStepSet { run, group, step }).collect();
    facts.push(Fact::RunStarted { practice, drill: Some(drill), spec, lineup, recorder });
    facts.extend(balls);
    forget_drafts(model);
    let mut effects = write(model, facts);
    effects.extend(go(model, Screen::Run(run)));
    effects
}

/// Those of whom the fewest balls were ever watched in this skill come first; then those watched longest ago or never, then as
/// in the squad.
fn least_known(model: &Model, skill: &Skill, here: &[PlayerId]) -> Vec<PlayerId> {
    let seen = |player: PlayerId| {
        let in_memory = model.runs.values().filter(|run| run.spec.skill == *skill).map(|run| {
            let tally = run.main.by_child.get(&player);
            let n = tally.map_or(0, |tally| tally.watched().tries());
            (n, tally.map_or(0, |tally| tally.all().tries()), run.started.wall_ms)
        });
        let summaries = model.packed.values().flat_map(|p| &p.summary.runs);
        let packed = summaries.filter(|run| run.skill == *skill && !model.runs.contains_key(&run.run)).map(|run| {
            let counts = run.children.iter().find(|(child, _)| *child == player).map(|(_, counts)| counts);
            let n = counts.map_or(0, |counts| counts.watched.tries());
            (n, counts.map_or(0, Counts::tries), run.started.wall_ms)
        });
        // Watched ones first; of as many the longest ago, then whoever has had the fewest balls at all.
        in_memory.chain(packed).fold((0, i64::MIN, 0), |(n, last, all), (watched, tries, at)| {
            (n + watched, if watched > 0 { last.max(at) } else { last }, all + tries)
        })
    };
    let known: Vec<(u32, i64, u32, PlayerId)> = here
        .iter()
        .map(|player| {
            let (n, last, all) = seen(*player);
            (n, last, all, *player)
        })
        .collect();
    arranged(known, |a, b| (a.0, a.1, a.2).cmp(&(b.0, b.1, b.2))).into_iter().map(|(.., player)| player).collect()
}

/// How the children stood when this drill was last used.
fn last_order(model: &Model, drill: DrillId) -> Vec<PlayerId> {
    let of_run = model.runs.values().filter(|r| r.drill == Some(drill));
    let in_memory = of_run
        .max_by_key(|r| (r.started.wall_ms, r.id))
        .map(|r| (r.started.wall_ms, r.main.lineup.everyone().collect()));
    let packed = model.packed.values().flat_map(|p| &p.summary.runs).filter(|r| r.drill == Some(drill));
    let packed = packed.max_by_key(|r| (r.started.wall_ms, r.run)).map(|r| (r.started.wall_ms, r.order.clone()));
    let latest = [in_memory, packed].into_iter().flatten().max_by_key(|(wall_ms, _)| *wall_ms);
    latest.map(|(_, order): (i64, Vec<PlayerId>)| order).unwrap_or_default()
}

/// The squad's own best in earlier runs of this drill, of as many balls and counted alike; nothing while there is none.
pub(in crate::app) fn best_before(model: &Model, drill: DrillId, rule: Together) -> Option<u16> {
    let in_memory = model.runs.values().filter(|r| r.drill == Some(drill)).filter_map(Reached::of);
    let packed = model.packed.values().flat_map(|p| &p.summary.runs).filter(|r| r.drill == Some(drill));
    let all = in_memory.chain(packed.filter_map(|r| r.together));
    let alike = all.filter(|had| had.is_of(&rule) && had.best > 0);
    alike.map(|had| u16::try_from(had.best).unwrap_or(u16::MAX)).max()
}

fn keep(model: &mut Model) -> Vec<Effect> {
    let Some(draft) = model.drafts.drill.clone() else { return Vec::new() };
    let mut spec = roles::kept_to_floor(words::drills::named(draft.spec));
    spec.rule = spec.rule.as_kept();
    if spec.fault().is_some() {
        return Vec::new();
    }
    let kept = draft.drill.unwrap_or_else(|| DrillId(model.writer.id_ahead(0)));
    let facts = match draft.drill {
        Some(drill) if model.base.drill(drill) == Some(&spec) => Vec::new(),
        Some(drill) => vec![Fact::DrillChanged { drill, revision: model.base.next_drill_revision(drill), spec }],
        None => vec![Fact::DrillAdded { spec }],
    };
    let mut effects = write(model, facts);
    effects.extend(go(model, Screen::Today));
    model.drafts.kept = Some(kept);
    effects
}

/// Only a practice of this phone: another phone's end is its own.
fn end(model: &mut Model, id: PracticeId) -> Vec<Effect> {
    let Some(practice) = model.base.practice(id).filter(|p| !p.ended && model.leads(id)) else { return Vec::new() };
    let facts = ending(model, &practice);
    let mut effects = write(model, facts);
    effects.extend(go(model, Screen::PracticeReport(practice.id)));
    effects
}

fn reopen(model: &mut Model, practice: PracticeId) -> Vec<Effect> {
    let Some(ended) = model.base.ended_by(practice).filter(|_| model.leads(practice)) else { return Vec::new() };
    let revision = model.base.next_take_back(ended);
    let mut effects = write(model, vec![Fact::EntryTakenBack { run: None, target: ended, revision, back: true }]);
    model.packed.remove(&practice);
    // Of today it is on again, under Today; of another day it stands there only as left open.
    let today = model.practice_today().is_some_and(|on| on.id == practice);
    effects.extend(go(model, if today { Screen::Today } else { Screen::PracticeReport(practice) }));
    effects
}
