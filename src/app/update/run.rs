//! On the board: contacts, efforts, told counts, swaps, undo, corrections. A tap writes at once all that goes with it: mostly one entry, and
//! what goes back with one undo where it is more.

use super::super::action::Action;
use super::super::apart::apart;
use super::super::effect::{Call, Effect, Signal};
use super::super::model::Model;
use super::super::screen::Screen;
use super::super::words;
use super::{floor, game, go, owner, write};
use crate::domain::drill::{Board, LineOrder};
use crate::domain::entry::{Contact, Correction, Entry, Fact, LineupCause};
use crate::domain::ids::{ContactId, EffortId, EntryId, EntryNo, Place, PlayerId, PracticeId, RunId, Step};
use crate::domain::replay::places::Stood;
use crate::domain::replay::run::RunState;
use crate::domain::skill::{Feed, FeedKind, Outcome, Role};

pub fn act(model: &mut Model, action: Action) -> Vec<Effect> {
    match action {
        Action::TakeOver(id) => return apart(|| owner::take_over(model, id)),
        Action::RunReopened(id) => return apart(|| owner::reopen(model, id)),
        Action::Again(id) => return apart(|| owner::again(model, id)),
        Action::Uncovered => {
            model.board.pocket = false;
            model.board.last_tap_ms = model.now.mono_ms;
            return Vec::new();
        }
        Action::PlayOn => return apart(|| play_on(model)),
        Action::EffortStripClosed => model.board.effort = None,
        Action::ContactChosen(contact) => model.board.fixing = contact,
        Action::EffortChosen(effort) => model.board.fixing_effort = effort,
        _ => return tap(model, action),
    }
    Vec::new()
}

/// A tap on a name noted who is here and, at once, who stands where: both go back together. So do the groups of a run that was
/// refitted, those of the practice, and the balls that went with them.
fn undoing(model: &Model, run: &RunState, entry: &Entry) -> Vec<Fact> {
    let presence = presence_with(model, entry).and_then(|(practice, player, here)| {
        let is_here = !model.base.practice(practice)?.away.contains(&player);
        let revision = model.base.next_presence_revision(practice, player);
        (is_here == here).then_some(Fact::PresenceNoted { practice, player, revision, here: !here })
    });
    // The serve that decided a rally goes back with it: one tap noted both. Two entries, since each is taken back by its identity.
    let serve = run.serve_with(entry).map(|serve| taking_back(run, serve.id));
    let mut facts = vec![taking_back(run, entry.id)];
    facts.extend(serve);
    facts.extend(presence);
    facts.extend(groups_before(model, entry));
    facts.extend(balls_with(model, run, entry).map(|ball| taking_back(run, ball.id)));
    facts
}

/// The balls of groups that were set back as these were dealt anew: noted by the same tap, before the lineup.
fn balls_with<'a>(model: &'a Model, run: &RunState, entry: &'a Entry) -> impl Iterator<Item = &'a Entry> {
    let by_hand = matches!(entry.fact, Fact::LineupSet { cause: LineupCause::ByHand, .. });
    let (id, at) = (run.id, entry.at);
    let before = std::iter::successors(entry_before(model, entry).filter(|_| by_hand), |e| entry_before(model, e));
    let of_tap = before.take_while(move |before| before.at == at);
    of_tap.filter(move |before| matches!(before.fact, Fact::GroupStepSet { run, .. } if run == id))
}

/// The practice's groups as they were before the tap that changed a run's lineup and made them; nothing where others were made since.
fn groups_before(model: &Model, entry: &Entry) -> Option<Fact> {
    let with = entry_before(model, entry)?;
    let Fact::GroupsMade { practice, groups, .. } = &with.fact else { return None };
    if with.at != entry.at || model.base.practice(*practice)?.groups != *groups {
        return None;
    }
    let made = model.own.iter().chain(model.theirs.iter()).filter_map(|other| match &other.fact {
        Fact::GroupsMade { practice: of, groups, .. } if of == practice && other.order() < with.order() => {
            Some((other.order(), groups))
        }
        _ => None,
    });
    let groups = made.max().map(|(_, groups)| groups.clone()).unwrap_or_default();
    Some(Fact::GroupsMade { practice: *practice, groups, by_hand: true })
}

/// What this page noted just before.
fn entry_before<'a>(model: &'a Model, entry: &Entry) -> Option<&'a Entry> {
    model.own.get(EntryId { no: EntryNo(entry.id.no.0.checked_sub(1)?), ..entry.id })
}

/// What was noted of a child's presence at the tap that changed the lineup: the entry just before it.
pub fn presence_with(model: &Model, entry: &Entry) -> Option<(PracticeId, PlayerId, bool)> {
    if !matches!(entry.fact, Fact::LineupSet { cause: LineupCause::ByHand, .. }) {
        return None;
    }
    match entry_before(model, entry)?.fact {
        Fact::PresenceNoted { practice, player, here, .. } => Some((practice, player, here)),
        _ => None,
    }
}

pub(super) fn taking_back(run: &RunState, target: EntryId) -> Fact {
    Fact::EntryTakenBack { run: Some(run.id), target, revision: run.amended.next_take_back(target), back: true }
}

pub(super) fn on_screen(model: &Model) -> Option<&RunState> {
    let (Screen::Run(id) | Screen::Contacts(id) | Screen::RunReport(id)) = model.screen else { return None };
    model.runs.get(&id)
}

/// A tap that may write: only on the run on screen, and while it runs only by its writer.
fn tap(model: &mut Model, action: Action) -> Vec<Effect> {
    let Some(run) = on_screen(model) else { return Vec::new() };
    let (id, mine) = (run.id, model.is_mine(run));
    let correcting = matches!(
        action,
        Action::ContactFixed { .. }
            | Action::ShiftFromHere(_)
            | Action::ContactTakenBack(_)
            | Action::ContactPutBack(_)
            | Action::RallyFixed(..)
            | Action::RallyTakenBack(_)
            | Action::RallyPutBack(_)
            | Action::EffortGiven(..)
    );
    if !correcting && (!mine || model.board.pocket) {
        return Vec::new();
    }
    let before = Before::of(run);
    let facts = facts_of(model, run, &action);
    let turns = matches!(facts.first(), Some(Fact::ContactNoted { .. } | Fact::TurnGiven { .. }));
    let noted = matches!(
        facts.first(),
        Some(Fact::ContactNoted { .. } | Fact::RallyNoted { .. } | Fact::EffortNoted { .. } | Fact::CountTold { .. })
    );
    let effort = matches!(facts.first(), Some(Fact::EffortNoted { .. }));
    let first_id = model.writer.id_ahead(0);
    if facts.is_empty() && !matches!(action, Action::Finish) {
        return Vec::new();
    }
    model.board.last_tap_ms = model.now.mono_ms;
    model.board.n_taps = model.board.n_taps.wrapping_add(1);
    model.board.effort = effort.then_some(EffortId(first_id)).or(match action {
        Action::EffortGiven(effort, ..) => Some(effort),
        _ => None,
    });
    let mut effects = write(model, facts);
    effects.extend(places(model, id, &before.stood, noted));
    effects.extend(game::pace(model, id, &action));
    // Who brings a child on by hand needs nobody to call it.
    if !matches!(action, Action::Exchanged(..)) {
        effects.extend(signals(model, id, &before, noted));
    }
    if turns {
        effects.extend(next_name(model, id, &before));
    }
    match action {
        Action::Finish => effects.extend(apart(|| go(model, Screen::RunReport(id)))),
        // A correction leaves the sheet open: child and outcome may both be wrong.
        Action::ShiftFromHere(_) | Action::ContactTakenBack(_) => model.board.fixing = None,
        Action::ClockTapped => model.board.slept = false,
        _ => {}
    }
    effects
}

fn facts_of(model: &Model, run: &RunState, action: &Action) -> Vec<Fact> {
    let part = &run.main;
    let id = run.id;
    let one = |fact| vec![fact];
    match *action {
        Action::PlaceTapped(place, outcome) => {
            contact(model, run, part.lineup.at(place), Some(place), outcome).map_or_else(Vec::new, one)
        }
        Action::OutcomeTapped(outcome) if part.to_check().is_some() => {
            super::station::check(model, run, outcome).map_or_else(Vec::new, one)
        }
        Action::OutcomeTapped(outcome) if run.spec.board != Board::Court => {
            let player = part.current(&run.spec);
            let place = player.and_then(|p| part.lineup.place_of(p));
            contact(model, run, player, place, outcome).map_or_else(Vec::new, one)
        }
        Action::NoChanceTapped => {
            let player = if is_floor(run) { None } else { part.current(&run.spec) };
            note(model, run, player, None, Outcome::NoChance).map_or_else(Vec::new, one)
        }
        Action::ServeMissedTapped => note(model, run, None, None, Outcome::ServeMissed).map_or_else(Vec::new, one),
        Action::EffortTapped => {
            let last = || part.contacts.iter().rev().find_map(|c| c.contact.player);
            let player = if is_floor(run) { last() } else { part.current(&run.spec) };
            one(Fact::EffortNoted { run: id, player, kind: None })
        }
        Action::EffortGiven(effort, player, ref kind) => one(Fact::EffortCorrected {
            run: id,
            effort,
            revision: run.amended.next_effort_revision(effort),
            player,
            kind: kind.clone(),
        }),
        Action::NameTapped(player) if run.spec.board != Board::Court && part.current(&run.spec) != Some(player) => {
            one(Fact::TurnGiven { run: id, player })
        }
        Action::StyleTapped(player) => {
            use crate::domain::skill::ServeStyle;
            let all = ServeStyle::ALL;
            let next = model.base.style_of(player).and_then(|s| all.iter().position(|x| *x == s)).map_or(0, |i| i + 1);
            let revision = model.base.next_style_revision(player);
            one(Fact::StyleNoted { player, revision, style: all[next % all.len()] })
        }
        Action::ToldTapped(player, good) => {
            let Board::Told { of } = run.spec.board else { return Vec::new() };
            one(Fact::CountTold {
                run: id,
                player,
                told_no: part.open_series(),
                good: u16::from(good.min(of)),
                of: u16::from(of),
                good_from: run.spec.good_from,
                feed: part.feed,
                self_scored: false,
            })
        }
        Action::ToldSeriesDone => {
            part.next_series().map_or_else(Vec::new, |told_no| one(Fact::ToldSeriesOpened { run: id, told_no }))
        }
        Action::SwapTapped => {
            let lineup = run.next_turn().cloned().unwrap_or_else(|| part.lineup.slid());
            if lineup == part.lineup {
                return Vec::new();
            }
            one(Fact::LineupSet { run: id, lineup, cause: LineupCause::Swap })
        }
        Action::Exchanged(one, other) => {
            let lineup = part.lineup.exchanged(one, other);
            if lineup == part.lineup {
                return Vec::new();
            }
            vec![Fact::LineupSet { run: id, lineup, cause: LineupCause::ByHand }]
        }
        Action::EasierFeedTaken => {
            // Where nothing is easier the offer is answered all the same.
            let step = part.feed.step.one_easier(&run.spec.skill).unwrap_or(part.feed.step);
            one(Fact::FeedSet { run: id, feed: Feed { step, ..part.feed } })
        }
        Action::UndoTapped if part.station.is_some() => super::station::undo(run).map_or_else(Vec::new, one),
        Action::UndoTapped => apart(|| run.next_undo().map_or_else(Vec::new, |e| undoing(model, run, e))),
        Action::Finish if !part.finished => floor::ending(model, run).collect(),
        Action::ContactFixed { contact, player, outcome, step } => one(Fact::ContactsCorrected {
            run: id,
            changes: vec![Correction {
                contact,
                revision: run.amended.next_contact_revision(contact),
                player,
                outcome,
                step: Step(step),
            }],
        }),
        Action::ShiftFromHere(contact) => apart(|| shift(run, contact)),
        Action::ContactTakenBack(contact) => one(taking_back(run, contact.0)),
        Action::ContactPutBack(contact) if run.amended.is_taken_back(contact.0) => {
            let revision = run.amended.next_take_back(contact.0);
            one(Fact::EntryTakenBack { run: Some(id), target: contact.0, revision, back: false })
        }
        _ => apart(|| floor::facts_of(model, run, action)),
    }
}

/// The coach watches one child alone, for ten balls. What children score themselves is no such sample.
fn is_watched(run: &RunState) -> bool {
    run.spec.board.order() == Some(LineOrder::TenForOne) && run.main.station.is_none()
}

fn is_floor(run: &RunState) -> bool {
    matches!(run.spec.board, Board::Floor { .. })
}

/// A contact of a named child (or of the group's board); nothing where a place is empty.
fn contact(
    model: &Model,
    run: &RunState,
    player: Option<PlayerId>,
    place: Option<Place>,
    outcome: Outcome,
) -> Option<Fact> {
    if player.is_none() && run.spec.board != Board::Group {
        return None;
    }
    note(model, run, player, place, outcome)
}

/// The facts of a contact as they are on screen at this moment.
fn note(
    model: &Model,
    run: &RunState,
    player: Option<PlayerId>,
    place: Option<Place>,
    outcome: Outcome,
) -> Option<Fact> {
    let part = &run.main;
    // At a group's station a ball of nobody's is that group's.
    let group = player.and_then(|player| part.group_of(player)).or(part.station.and_then(|station| station.group));
    let (turn, feed, server) = match part.transition() {
        Some(score) => {
            let next = score.next();
            if next.over && !model.board.play_on {
                return None;
            }
            let challenge = next.kind == FeedKind::Challenge;
            if outcome == Outcome::ServeMissed && !challenge {
                return None;
            }
            let server = if challenge { part.current(&run.spec) } else { None };
            (Some(next.turn), Feed { kind: next.kind, step: part.feed.step }, server)
        }
        None if !floor::counts_now(model, run) => return None,
        None => (None, floor::feed_of(model, run, player, group), None),
    };
    let role = if outcome == Outcome::ServeMissed { Role::Server } else { run.spec.skill.role() };
    let player = if outcome == Outcome::ServeMissed { lone_passer(run) } else { player };
    let style = match (role, server.or(player)) {
        (Role::Server, Some(child)) => model.base.style_of(child),
        _ => None,
    };
    Some(Fact::ContactNoted {
        run: run.id,
        contact: Contact {
            player,
            role,
            place,
            outcome,
            good_from: run.spec.good_from,
            feed,
            style,
            turn,
            server,
            self_scored: part.station.is_some(),
            group,
            clock_ms: floor::shown(model, run),
            watched: is_watched(run),
        },
    })
}

/// Where one child alone passes, a missed serve is that child's duel point.
fn lone_passer(run: &RunState) -> Option<PlayerId> {
    let mut standing = run.main.lineup.places.iter().flatten();
    standing.next().copied().filter(|_| standing.next().is_none())
}

/// Whether everyone from this contact on stands in the line, so that each can be one further. Not of what stands beside.
pub fn can_shift(run: &RunState, from: ContactId) -> bool {
    let Some(line) = run.main.turn_order(&run.spec) else { return false };
    let mut players = run.main.contacts.iter().skip_while(|c| c.id != from).map(|c| c.contact.player);
    players.next().flatten().is_some_and(|p| line.contains(&p)) && players.flatten().all(|p| line.contains(&p))
}

/// A ball was skipped: from this contact on, each is the next child's in line.
fn shift(run: &RunState, from: ContactId) -> Vec<Fact> {
    let Some(line) = run.main.turn_order(&run.spec).filter(|_| can_shift(run, from)) else { return Vec::new() };
    let next = |player: PlayerId| line.iter().position(|p| *p == player).map(|at| line[(at + 1) % line.len()]);
    let changes: Vec<Correction> = run
        .main
        .contacts
        .iter()
        .skip_while(|c| c.id != from)
        .filter_map(|c| {
            Some(Correction {
                contact: c.id,
                revision: run.amended.next_contact_revision(c.id),
                player: Some(next(c.contact.player?)?),
                outcome: c.contact.outcome,
                step: c.contact.feed.step,
            })
        })
        .collect();
    if changes.is_empty() { Vec::new() } else { vec![Fact::ContactsCorrected { run: run.id, changes }] }
}

/// Places move with the round, unless the run is over and the coach hasn't said that it goes on. What this page may not write
/// would only stand beside.
fn places(model: &mut Model, id: RunId, was: &Stood, noted: bool) -> Vec<Effect> {
    let Some(run) = model.runs.get(&id).filter(|run| model.is_mine(run)) else { return Vec::new() };
    let over = run.next_ball().is_some_and(|next| next.over) && !model.board.play_on;
    let due =
        run.places_due(was).filter(|fact| !over || matches!(fact, Fact::LineupSet { cause: LineupCause::ByHand, .. }));
    let turn = || run.turn_due(model.turn_slept_ms(run)).filter(|_| noted);
    due.or_else(turn).map_or_else(Vec::new, |fact| write(model, vec![fact]))
}

/// The run goes on after its end: the swap that its last round was spared is made now.
fn play_on(model: &mut Model) -> Vec<Effect> {
    model.board.play_on = true;
    let Some(run) = on_screen(model).filter(|run| model.is_mine(run)) else { return Vec::new() };
    let (id, was) = (run.id, Before::of(run));
    let Some(swap) = run.swap_left_out() else { return Vec::new() };
    let mut effects = write(model, vec![swap]);
    effects.extend(signals(model, id, &was, false));
    effects
}

/// The run as it was before a tap, as far as the phone calls what has changed.
struct Before {
    stood: Stood,
    kind: FeedKind,
    turn: Option<PlayerId>,
}

impl Before {
    fn of(run: &RunState) -> Before {
        Before { stood: run.stood(), kind: kind_given(run), turn: run.main.current(&run.spec) }
    }
}

/// The kind of ball that comes.
fn kind_given(run: &RunState) -> FeedKind {
    run.next_ball().map_or(run.main.feed.kind, |next| next.kind)
}

/// Tells what happened by sound, vibration and voice: a change of phase before a swap before a contact taken.
fn signals(model: &Model, id: RunId, before: &Before, noted: bool) -> Vec<Effect> {
    let Some(run) = model.runs.get(&id) else { return Vec::new() };
    let kind = kind_given(run);
    let mut tell = Vec::new();
    if kind != before.kind {
        tell.push(Effect::Tell(Signal::Call(Call::Phase, words::drills::phase(kind).to_owned())));
    } else if noted {
        tell.push(Effect::Tell(Signal::Taken));
    }
    // In a game somebody moves after every rally, and each knows where to.
    if before.stood.lineup != run.main.lineup && !run.spec.rule.is_game() {
        tell.push(Effect::Tell(Signal::Call(Call::Swap, words::drills::SWAP_CALL.to_owned())));
    }
    tell
}

/// Whose turn it is now, where it has moved on to another child: the name alone.
fn next_name(model: &Model, id: RunId, before: &Before) -> Option<Effect> {
    let run = model.runs.get(&id)?;
    run.main.turn_order(&run.spec)?;
    let turn = run.main.current(&run.spec).filter(|_| before.turn.is_some())?;
    let call = || Effect::Tell(Signal::Call(Call::Name, model.name_of(turn)));
    (before.turn != Some(turn)).then(call)
}
