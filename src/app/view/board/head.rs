//! The board but for its keys: figures, duel, calm view, effort strip, undo, cover.

use super::{
    BoardView, CalmLine, CalmView, ClockView, Cover, DuelView, EffortView, Ground, Keys, NameKey, PartLeft, Pip,
    SavedView, ServeMissedKey, Ways, figures, game, keys, station,
};
use crate::app::effect::LockState;
use crate::app::model::{Model, StorageState};
use crate::app::plan::part_on;
use crate::app::steps::{on_board, ready};
use crate::app::update::{CALM_AFTER_MS, clock_goes, fits_station, kinds, left_ms, marks_challenge, presence_with};
use crate::app::view::own_goal;
use crate::app::words::{self, counts};
use crate::domain::drill::{Board, DuelBetween, LineOrder, Rule, SwapEvery, Transition, TransitionEnd};
use crate::domain::entry::{Entry, Fact, LineupCause};
use crate::domain::ids::{DrillId, EffortId, PlayerId, RunId};
use crate::domain::replay::run::RunState;
use crate::domain::scoring::tally::Tally;
use crate::domain::scoring::transition::{BallMark, NextBall};
use crate::domain::scoring::{Over, Who};
use crate::domain::skill::FeedKind;
use crate::domain::{refit, roles};

/// Of less play than this no pace is told.
const PACE_FROM_MS: u64 = 10_000;

/// Balls a minute that nobody plays: the taps came later than the balls, all at once.
const PACE_MOST: u32 = 60;

/// Everything on the board of a run; `None` for a run that isn't known here.
pub fn board(model: &Model, id: RunId) -> Option<BoardView> {
    let run = model.runs.get(&id)?;
    let part = &run.main;
    let duel = run.spec.rule.transition().zip(run.next_ball());
    let quiet_ms = model.now.mono_ms.saturating_sub(model.board.last_tap_ms);
    let cover = cover(model, run, duel.as_ref().map(|(rule, next)| (*rule, next)));
    // Under a cover there is no room to read, and the run is told of after it.
    let calm = cover.is_none() && quiet_ms >= CALM_AFTER_MS && part.counts_something() && !run.spec.rule.is_game();
    let keys = keys::keys(model, run);
    let clock = clock(model, run);
    let waits = clock.as_ref().and_then(|clock| clock.waits);
    let for_nobody = keys.for_nobody();
    let (roles, swap) = (role_line(model, run), swap_in(model, run));
    Some(BoardView {
        title: if model.demo { words::board_lines::demo_title(&run.spec.name) } else { run.spec.name.clone() },
        saved: saved(model),
        ground: match &duel {
            None if part.feed.kind == FeedKind::Challenge => Ground::Challenge,
            None => Ground::Plain,
            Some((_, next)) if next.kind == FeedKind::Easy => Ground::Easy,
            Some(_) => Ground::Challenge,
        },
        call: call(
            model,
            run,
            &keys,
            (for_nobody, waits),
            duel.as_ref().map(|(_, next)| next),
            swap.as_ref().filter(|_| roles.is_none()),
        ),
        figures: figures::figures(run),
        groups: if matches!(run.spec.board, Board::Lanes | Board::Court) {
            Vec::new()
        } else {
            figures::groups(model, run)
        },
        clock,
        duel: duel.as_ref().and_then(|(rule, next)| duel_view(model, run, rule, next)),
        calm: calm.then(|| calm_view(model, run)).flatten(),
        effort: model.board.effort.and_then(|effort| effort_view(model, run, effort)),
        keys,
        nobody: for_nobody || waits.is_some(),
        no_chance: words::board_lines::NO_CHANCE,
        serve_missed: duel.as_ref().map(|(_, next)| ServeMissedKey { live: next.kind == FeedKind::Challenge }),
        station: station::station(model, run),
        has_stations: fits_station(run),
        challenge: marks_challenge(run).then_some(part.feed.kind == FeedKind::Challenge),
        skill: run.spec.skill.clone(),
        has_ladder: has_ladder(run),
        watching: part.watching(&run.spec).is_some(),
        undo: run.next_undo().map(|entry| undo_line(model, run, entry)),
        can_swap: if roles::rotates(&run.spec) {
            part.lineup.everyone().nth(1).is_some()
        } else {
            part.lineup.can_slide()
        },
        roles: roles.map(|line| if for_nobody { words::board_lines::NOBODY_HERE.to_owned() } else { line }),
        here: words::board::here(part.lineup.everyone().count()),
        swap_in: swap.filter(|_| !for_nobody),
        next_on: next_on(model, run).filter(|_| !for_nobody),
        has_groups: !part.lineup.groups.is_empty() || refit::wanted(&run.spec, 2).is_some(),
        part_left: part_left(model, run),
        cover,
        left_handed: model.settings.left_handed,
        n_taps: model.board.n_taps,
    })
}

/// Told by whole minutes, so that the board isn't written at every second of it.
fn part_left(model: &Model, run: &RunState) -> Option<PartLeft> {
    let on = part_on(model, run.practice)?;
    let left = on.left_ms?;
    let short = words::plan::left_short(left);
    Some(PartLeft { line: words::plan::left_of(&on.title, left), short, over: left < 0 })
}

/// The one line over the figures. What keeps the keys from answering comes first (nobody is here, the clock stands), then whom to
/// watch, what the ball is, or what to look at.
fn call(
    model: &Model,
    run: &RunState,
    keys: &Keys,
    (nobody, waits): (bool, Option<&str>),
    next: Option<&NextBall>,
    // Where no line of roles is there to say it.
    swap: Option<&String>,
) -> String {
    let part = &run.main;
    if nobody {
        let game = run.spec.board == Board::Court;
        // A game says so over its floor, with the way out.
        return if game { String::new() } else { words::board_lines::NOBODY_HERE.to_owned() };
    }
    if let Some(waits) = waits {
        return waits.to_owned();
    }
    if matches!(keys, Keys::Lanes { lanes } if lanes.iter().any(|lane| lane.empty)) {
        return words::board_lines::EMPTY_GROUP.to_owned();
    }
    if let Some((child, n)) = part.watching(&run.spec) {
        return words::station::watch(&words::board_lines::brief(&model.name_of(child)), n, LineOrder::WATCHED);
    }
    if let Some(line) = series_done(model, run) {
        return line;
    }
    if let Some(swap) = swap.filter(|_| swap_is_near(run)) {
        return swap.clone();
    }
    if marks_challenge(run) && part.feed.kind == FeedKind::Challenge {
        return words::board_lines::challenge(run.spec.on_floor.challenge).to_owned();
    }
    game::call(model, run).unwrap_or_else(|| words::board_lines::call(&run.spec, next))
}

/// Right after a series that is full: what it was, since the board has gone on to the next child.
fn series_done(model: &Model, run: &RunState) -> Option<String> {
    let Rule::Tens(rule) = run.spec.rule else { return None };
    let part = &run.main;
    let next = part.current(&run.spec)?;
    let done = part.contacts.last()?.contact.player.filter(|done| *done != next)?;
    let good = part.score.rule().standing(Who::Child(done)).now;
    let name = |player| words::board_lines::brief(&model.name_of(player));
    part.has_full_series(&run.spec, done)
        .then(|| words::board_lines::series_done(&name(done), good, rule.n, &name(next)))
}

/// A step is kept for a child and a drill, where a ball names its child.
fn has_ladder(run: &RunState) -> bool {
    let by_child =
        run.spec.board.order().is_some() || matches!(run.spec.board, Board::Floor { .. } | Board::ServeFloor { .. });
    by_child && run.drill.is_some()
}

/// The run's clock, where its rule has one.
fn clock(model: &Model, run: &RunState) -> Option<ClockView> {
    let left = left_ms(model, run)?;
    let (going, started, over) = (clock_goes(model, run), run.main.clock.was_set(), left == 0);
    Some(ClockView {
        left: words::board_lines::clock(left.div_ceil(1000)),
        going,
        started,
        over,
        waits: (!going && !over).then_some(words::board_lines::clock_waits(started, model.board.slept)),
    })
}

/// Is what was tapped safe?
pub fn saved(model: &Model) -> SavedView {
    let n = model.storage.unsaved.len();
    match (&model.storage.state, &model.storage.failed) {
        (StorageState::Opening, _) => SavedView::Opening,
        (_, Some(trouble)) => SavedView::NotSaved { n, why: words::trouble::short(trouble).to_owned() },
        _ if n > 0 => SavedView::Saving,
        _ => SavedView::Saved,
    }
}

fn duel_view(model: &Model, run: &RunState, rule: &Transition, next: &NextBall) -> Option<DuelView> {
    let part = &run.main;
    let score = part.transition()?;
    let played = match next.kind {
        // A new turn shows no marks of the one before.
        _ if next.ball == 1 => &[],
        FeedKind::Easy => score.easy_marks(),
        FeedKind::Challenge => score.challenge_marks(),
    };
    let mut pips: Vec<Pip> = played.iter().map(|mark| pip(*mark)).collect();
    pips.push(Pip::Now);
    pips.resize(usize::from(next.of).max(pips.len()), Pip::Ahead);
    let challenge = next.kind == FeedKind::Challenge;
    let server = if challenge { part.current(&run.spec) } else { None };
    Some(DuelView {
        round: match rule.end {
            TransitionEnd::DuelPoints(n) => words::board_lines::round_to(next.turn.round, n),
            TransitionEnd::Rounds(n) => words::board_lines::round_of(next.turn.round, n),
            TransitionEnd::Coach => words::board_lines::round(next.turn.round),
        },
        pips,
        easy: if challenge { score.easy_marks().iter().map(|mark| pip(*mark)).collect() } else { Vec::new() },
        together: score.joint,
        passers: score.duel.passers,
        servers: score.duel.servers,
        sides: words::board_lines::sides(part.lineup.places.iter().flatten().count(), part.lineup.servers.len()),
        server: server.map(|s| words::board_lines::serves(&model.name_of(s))),
        servers_here: part
            .lineup
            .servers
            .iter()
            .map(|s| NameKey { player: *s, name: model.name_of(*s), current: server == Some(*s) })
            .collect(),
        offer_easier: part.offers_easier(next).then(|| {
            let at_bottom = part.feed.step.one_easier(&run.spec.skill).is_none();
            words::board_lines::easier(at_bottom).to_owned()
        }),
    })
}

fn pip(mark: BallMark) -> Pip {
    match mark {
        BallMark::Good => Pip::Good,
        BallMark::NotGood => Pip::NotGood,
        BallMark::NoChance => Pip::NoChance,
    }
}

/// Nothing where nothing can be said: no rate comes of good ones alone.
fn calm_view(model: &Model, run: &RunState) -> Option<CalmView> {
    let part = &run.main;
    let current = match run.spec.board {
        Board::Floor { .. } => part.contacts.iter().rev().find_map(|c| c.contact.player),
        _ => part.current(&run.spec),
    };
    // In a duel of the kind of ball that comes; where none of these has been played yet, of the kind that was.
    let kind = figures::kind_shown(run).map(|kind| match kind {
        kind if part.everyone.of(Some(kind)).count.tries() > 0 => kind,
        FeedKind::Easy => FeedKind::Challenge,
        FeedKind::Challenge => FeedKind::Easy,
    });
    let current = current.filter(|_| !figures::is_shared_row(run)).and_then(|p| {
        let line = calm_line(kind, model.name_of(p), part.by_child.get(&p)?)?;
        let goal = own_goal::of(model, run, p).filter(|_| part.station.is_none());
        Some(match goal {
            Some(goal) => CalmLine { rows: words::report::own_goal(goal), ..line },
            None => line,
        })
    });
    let everyone = calm_line(kind, words::board_lines::EVERYONE.to_owned(), &part.everyone);
    let mut lines: Vec<CalmLine> = current.into_iter().chain(everyone).collect();
    // A rule that has rows of its own has told of them already, and may count them otherwise.
    if matches!(run.spec.rule, Rule::InRow(_)) || figures::is_shared_row(run) {
        lines.iter_mut().for_each(|line| line.rows.clear());
    }
    let timed_long_enough = part.pace.timed_ms() >= PACE_FROM_MS;
    let pace = part.pace.per_minute().map(|pace| pace.whole()).filter(|pace| timed_long_enough && *pace <= PACE_MOST);
    let pace = pace.filter(|_| run.spec.board != Board::Lanes).map(counts::pace);
    // Then it is the one quiet line.
    if let Some(step) = step_line(model, run) {
        return Some(CalmView { lines: Vec::new(), pace: None, step: Some(step) });
    }
    (!lines.is_empty() || pace.is_some()).then_some(CalmView { lines, pace, step: None })
}

/// That all are ready for a harder ball. Children read it: it names none, and never says that a ball should be easier. It leads off the board,
/// so it stands on none that is propped up for them; in rounds of a duel there is no room for it, and the report tells.
fn step_line(model: &Model, run: &RunState) -> Option<(String, DrillId)> {
    let drill = on_board(model, run)?;
    let (feed, sure) = ready(model, run)?;
    Some((words::steps::board(sure, model.settings.upper, words::steps::kind(false, feed.kind)), drill))
}

/// `None` where nothing has been counted yet.
fn calm_line(kind: Option<FeedKind>, who: String, tally: &Tally) -> Option<CalmLine> {
    let judged = tally.of(kind);
    let count = kind.map_or_else(|| tally.all(), |_| judged.count);
    (count.tries() > 0).then(|| CalmLine {
        who: kind.map_or_else(|| who.clone(), |kind| words::report::on(&who, kind)),
        rate: counts::rate(count),
        rows: counts::rows(judged.count, judged.last.count(), judged.rows),
    })
}

fn effort_view(model: &Model, run: &RunState, id: EffortId) -> Option<EffortView> {
    let effort = run.main.efforts.iter().find(|e| e.id == id)?;
    let key =
        |player: PlayerId| NameKey { player, name: model.name_of(player), current: effort.player == Some(player) };
    Some(EffortView {
        effort: id,
        line: words::board_lines::effort(effort.player.map(|p| model.name_of(p)).as_deref()),
        names: run.main.lineup.everyone().map(key).collect(),
        kinds: kinds(model).into_iter().map(|k| (k.clone(), effort.kind.as_ref() == Some(&k))).collect(),
    })
}

/// Where children have places: everyone who may come on, those who wait first. Asked for only while the strip shows them.
pub fn may_come(model: &Model, run: RunId) -> Vec<NameKey> {
    let Some(run) = model.runs.get(&run) else { return Vec::new() };
    match run.spec.board {
        Board::Floor { .. } => in_places(model, run),
        Board::Court => named(model, game::in_order(run)),
        _ => Vec::new(),
    }
}

fn in_places(model: &Model, run: &RunState) -> Vec<NameKey> {
    let lineup = &run.main.lineup;
    let beside = lineup.servers.iter().chain(&lineup.target).chain(&lineup.getters);
    let all = lineup.waiting.iter().chain(beside).chain(lineup.places.iter().flatten());
    named(model, all.copied())
}

fn named(model: &Model, players: impl Iterator<Item = PlayerId>) -> Vec<NameKey> {
    players.map(|player| NameKey { player, name: model.name_of(player), current: false }).collect()
}

/// Who feeds, catches and fetches, where the drill has such roles.
fn role_line(model: &Model, run: &RunState) -> Option<String> {
    let on_floor = run.spec.on_floor;
    if !roles::rotates(&run.spec) || !(on_floor.target || on_floor.n_feeders > 0 || on_floor.n_getters > 0) {
        return None;
    }
    let lineup = &run.main.lineup;
    let names = |list: &[PlayerId]| -> Vec<String> { list.iter().map(|p| model.name_of(*p)).collect() };
    let catches = lineup.target.map(|p| model.name_of(p));
    // Until the next ball it is plain to see that others stand there now.
    let just_now =
        run.main.contacts.last().map(|c| c.id).filter(|last| run.main.swapped_after == Some(*last)).is_some();
    let line = words::groups::roles(&names(&lineup.servers), catches.as_deref(), &names(&lineup.getters));
    Some(if just_now { words::groups::swapped(&line) } else { line })
}

fn swap_is_near(run: &RunState) -> bool {
    match run.spec.on_floor.swap {
        SwapEvery::Balls(n) => u32::from(n).saturating_sub(run.main.turn_balls) <= 2,
        SwapEvery::Never | SwapEvery::Minutes(_) => true,
    }
}

/// Before places change by themselves: after how many balls. Of minutes only that they are over, since no clock of them is shown.
fn swap_in(model: &Model, run: &RunState) -> Option<String> {
    run.next_turn()?;
    let left = match run.spec.on_floor.swap {
        SwapEvery::Never => return None,
        SwapEvery::Balls(n) => u32::from(n).saturating_sub(run.main.turn_balls).max(1),
        SwapEvery::Minutes(_) => {
            let slept_ms = model.turn_slept_ms(run);
            return run.turn_lasted(model.writer.series(), model.now, slept_ms).then(|| words::groups::swap_in(1));
        }
    };
    Some(words::groups::swap_in(left))
}

/// Who rests now: those who come on at the next swap, and those who don't. Nothing where nobody rests.
fn next_on(model: &Model, run: &RunState) -> Option<String> {
    let waiting = &run.main.lineup.waiting;
    if !roles::rotates(&run.spec) || waiting.is_empty() {
        return None;
    }
    let then = run.next_turn().map_or(waiting, |next| &next.waiting);
    let names = |stay: bool| -> Vec<String> {
        waiting.iter().filter(|p| then.contains(p) == stay).map(|p| model.name_of(*p)).collect()
    };
    Some(words::groups::next_on(&names(false), &names(true)))
}

/// "Tove, moved 2, just now"
pub fn undo_line(model: &Model, run: &RunState, entry: &Entry) -> String {
    let name = |p: &PlayerId| words::board_lines::brief(&model.name_of(*p));
    let what = match &entry.fact {
        Fact::ContactNoted { contact, .. } => {
            let fixed = run.amended.contact(crate::domain::ids::ContactId(entry.id));
            let (player, outcome) = fixed.map_or((contact.player, contact.outcome), |f| (f.player, f.outcome));
            if run.spec.rule.is_game() {
                return since(model, entry, words::in_match::outcome(outcome));
            }
            let who = match player.filter(|_| !figures::is_shared_row(run)) {
                Some(player) => Some(name(&player)),
                None => contact.group.filter(|_| player.is_none()).map(words::board_lines::group_name),
            };
            words::board_lines::contact(who.as_deref(), outcome)
        }
        Fact::EffortNoted { player, .. } => words::board_lines::undo_effort(player.as_ref().map(name).as_deref(), None),
        Fact::EffortCorrected { player, kind, .. } => {
            words::board_lines::undo_effort(player.as_ref().map(name).as_deref(), kind.as_deref())
        }
        Fact::BallChecked { .. } => words::station::UNDO_CHECK.to_owned(),
        Fact::CountTold { player, good, of, .. } => format!("{}, {good} of {of}", name(player)),
        Fact::ToldSeriesOpened { .. } => words::board_lines::UNDO_SERIES.to_owned(),
        Fact::LineupSet { cause: LineupCause::ByHand, .. } => match presence_with(model, entry) {
            Some((_, player, here)) => words::board_lines::undo_presence(&name(&player), here),
            None => words::board_lines::UNDO_LINEUP.to_owned(),
        },
        Fact::LineupSet { .. } => words::board_lines::UNDO_SWAP.to_owned(),
        Fact::TurnGiven { player, .. } if run.spec.rule.is_game() => words::in_match::undo_passer(&name(player)),
        Fact::ServeSaid { what, on, .. } => words::in_match::undo_said(*what, *on).to_owned(),
        Fact::TurnGiven { player, .. } => words::board_lines::undo_turn(&name(player)),
        Fact::FeedSet { feed, .. } if run.spec.rule.transition().is_none() => {
            words::board_lines::undo_challenge(feed.kind).to_owned()
        }
        Fact::FeedSet { .. } => words::board_lines::UNDO_FEED.to_owned(),
        Fact::RallyNoted { rally, .. } => {
            let won = words::board_lines::undo_rally(rally.won, matches!(run.spec.rule, Rule::MatchGame(_)));
            match run.serve_with(entry).map(|serve| &serve.fact) {
                Some(Fact::ContactNoted { contact, .. }) => {
                    format!("{}, {won}", words::in_match::outcome(contact.outcome))
                }
                _ => won,
            }
        }
        Fact::RallyCorrected { .. } => words::board_lines::undo_correction(1),
        Fact::ClockSet { going, .. } => words::board_lines::undo_clock(*going).to_owned(),
        Fact::GroupStepSet { group, .. } => words::board_lines::undo_group_step(*group),
        Fact::RunFinished { .. } => words::board_lines::UNDO_FINISH.to_owned(),
        Fact::ContactsCorrected { changes, .. } => words::board_lines::undo_correction(changes.len()),
        _ => String::new(),
    };
    since(model, entry, what)
}

fn since(model: &Model, entry: &Entry, what: String) -> String {
    let ms = model.now.wall_ms.saturating_sub(entry.at.wall_ms);
    // After the clock was turned back nothing true can be said of how long ago.
    match u64::try_from(ms) {
        Ok(ms) => format!("{what}, {}", counts::ago(ms)),
        Err(_) => what,
    }
}

fn cover(model: &Model, run: &RunState, duel: Option<(&Transition, &NextBall)>) -> Option<Cover> {
    if run.main.finished {
        return Some(Cover::Finished);
    }
    if !model.is_mine(run) {
        return Some(if model.lock == LockState::Asked { Cover::Asking } else { Cover::Elsewhere });
    }
    if model.board.pocket {
        return Some(Cover::Pocket);
    }
    // A station says by itself that it is over: finishing is the coach's.
    if model.board.play_on || run.main.station.is_some() {
        return None;
    }
    let Some((rule, next)) = duel else {
        let over = run.main.score.rule().over(run.main.clock.shown_ms(model.writer.series(), model.now))?;
        let again = run.drill.is_some_and(|drill| model.base.drill(drill).is_some());
        let ways = Ways { again, play_on: !matches!(run.spec.rule, Rule::InTime(_) | Rule::Together(_)) };
        return Some(Cover::Over { line: over_line(model, run, &over), ways });
    };
    if !next.over {
        return None;
    }
    let score = run.main.transition()?;
    let line = match rule.between {
        DuelBetween::Sides => words::board_lines::over_sides(score.duel, score.joint),
        DuelBetween::Children => {
            let best = score.by_child.values().max().copied().unwrap_or(0);
            let names: Vec<String> =
                score.by_child.iter().filter(|(_, n)| **n == best).map(|(p, _)| model.name_of(*p)).collect();
            words::board_lines::over_children(&names, best, score.joint)
        }
    };
    Some(Cover::Over { line, ways: Ways { again: false, play_on: true } })
}

/// How a run ended by its rule. Of children nobody is named: who was best is nobody's business on a shared screen.
fn over_line(model: &Model, run: &RunState, over: &Over) -> String {
    if let Some(line) = game::over(run) {
        return line;
    }
    let score = run.main.score.rule();
    match over {
        Over::Have(groups) if !groups.is_empty() => {
            let names: Vec<String> = groups.iter().filter_map(|who| group_named(model, run, *who)).collect();
            let points = groups.first().map_or(0, |who| score.standing(*who).now);
            if names.len() < groups.len() {
                return words::groups::over_unnamed(points);
            }
            words::board_lines::over_groups(&names, points)
        }
        _ => {
            let standing = score.standing(Who::Everyone);
            match run.spec.rule {
                Rule::Together(rule) => words::board_lines::over_together(standing.best, rule.row, standing.last),
                _ => words::board_lines::over_time(standing.now),
            }
        }
    }
}

fn group_named(model: &Model, run: &RunState, who: Who) -> Option<String> {
    let Who::Group(no) = who else { return None };
    let players = run.main.lineup.groups.get(usize::from(no.0))?;
    let names: Vec<String> = players.iter().map(|player| model.name_of(*player)).collect();
    Some(words::board_lines::group_with(no, &names))
}
