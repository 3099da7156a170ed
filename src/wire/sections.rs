//! The columns of the frequent kinds. The meaning of each is in `file`.

use super::column::{Plain, Rest, Runs, section};
use super::play::SIDES;
use super::refusal::RuleBroken;
use super::tables::{Index, Tables, at, maybe};
use super::words::{FEEDS, GOOD_FROM, ROLES, STYLES, outcome_code, outcome_of_code};
use crate::domain::entry::{Contact, Fact, Lineup, LineupCause, Rally, Turn};
use crate::domain::ids::{ContactId, EntryId, EntryNo, GroupNo, Place, PlayerId, Round, Step};
use crate::domain::skill::{Feed, Outcome};

/// What the column `kind` of `entries` says: where the entry's fact stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Home {
    Rare,
    Contacts,
    Lineups,
    Turns,
    Efforts,
    Told,
    Rallies,
}

impl Home {
    const ALL: [Home; 7] =
        [Home::Rare, Home::Contacts, Home::Lineups, Home::Turns, Home::Efforts, Home::Told, Home::Rallies];

    pub fn of(fact: &Fact) -> Home {
        match fact {
            // A number of its own would make the file one that older versions refuse.
            Fact::ContactNoted { contact, .. } if contact.outcome == Outcome::Removed => Home::Rare,
            Fact::ContactNoted { .. } => Home::Contacts,
            // Groups and further roles have no columns: such a lineup is a record.
            Fact::LineupSet { lineup, .. } if is_plain(lineup) => Home::Lineups,
            Fact::RallyNoted { .. } => Home::Rallies,
            Fact::TurnGiven { .. } => Home::Turns,
            Fact::EffortNoted { .. } => Home::Efforts,
            Fact::CountTold { .. } => Home::Told,
            _ => Home::Rare,
        }
    }

    pub fn code(self) -> i64 {
        self as i64
    }

    pub fn of_code(code: i64) -> Option<Home> {
        Home::ALL.into_iter().find(|home| home.code() == code)
    }
}

section! {
    Contacts {
        run: Runs, player: Runs, role: Runs, place: Runs, outcome: Runs, good_from: Runs, feed: Runs, step: Runs,
        style: Runs, round: Runs, restart: Runs, server: Runs, by_child: Runs,
        #[serde(default)] group: Rest, #[serde(default)] shown: Rest, #[serde(default)] watched: Rest,
    }
}
section! {
    Lineups {
        run: Runs, cause: Runs, after_series: Runs, after_no: Runs, places: Runs, waiting: Runs, servers: Runs,
        who: Plain,
    }
}
section! { Turns { run: Runs, player: Runs } }
section! { Efforts { run: Runs, player: Runs, what: Runs } }
section! {
    Told {
        run: Runs, player: Runs, told: Runs, good: Runs, of: Runs, good_from: Runs, feed: Runs, step: Runs,
        by_child: Runs,
    }
}

section! { Rallies { run: Runs, near: Runs, far: Runs, served: Runs, won: Runs, second: Runs, who: Plain } }

/// All sections of the frequent kinds.
#[derive(Default)]
pub(super) struct Sections {
    pub contacts: Contacts,
    pub lineups: Lineups,
    pub turns: Turns,
    pub efforts: Efforts,
    pub told: Told,
    pub rallies: Rallies,
    /// Something in it has no column, or no number, in the first version.
    pub needs_newest: bool,
}

impl Sections {
    /// Pushes a fact of a frequent kind into its columns; a rare kind is left alone. `id` is the entry's own.
    pub fn push(&mut self, id: EntryId, fact: &Fact, index: &Index) {
        match fact {
            Fact::ContactNoted { run, contact } => {
                self.needs_newest |= contact.group.is_some()
                    || contact.clock_ms.is_some()
                    || contact.watched
                    || contact.outcome == Outcome::Counted;
                push_contact(&mut self.contacts, index.run(*run), contact, index);
            }
            Fact::LineupSet { run, lineup, cause } if is_plain(lineup) => {
                self.lineups.run.push(index.run(*run));
                push_cause(&mut self.lineups, id, *cause, index);
                push_lineup(&mut self.lineups, lineup, index);
            }
            Fact::TurnGiven { run, player } => {
                self.turns.run.push(index.run(*run));
                self.turns.player.push(index.player(*player));
            }
            Fact::EffortNoted { run, player, kind } => {
                self.efforts.run.push(index.run(*run));
                self.efforts.player.push(index.maybe_player(*player));
                self.efforts.what.push(index.maybe_string(kind.as_ref()));
            }
            Fact::RallyNoted { run, rally } => {
                self.needs_newest = true;
                push_rally(&mut self.rallies, index.run(*run), rally, index);
            }
            Fact::CountTold { run, player, told_no, good, of, good_from, feed, self_scored } => {
                let to = &mut self.told;
                to.run.push(index.run(*run));
                to.player.push(index.player(*player));
                to.told.push(i64::from(*told_no));
                to.good.push(i64::from(*good));
                to.of.push(i64::from(*of));
                to.good_from.push(GOOD_FROM.code(*good_from));
                to.feed.push(FEEDS.code(feed.kind));
                to.step.push(i64::from(feed.step.0));
                to.by_child.push(i64::from(*self_scored));
            }
            _ => {}
        }
    }

    /// The next fact of a section. [`Home::Rare`] has none.
    pub fn next(&mut self, home: Home, id: EntryId, tables: &Tables) -> Result<Fact, RuleBroken> {
        match home {
            Home::Rare => Err(RuleBroken::OutOfRange),
            Home::Contacts => next_contact(&mut self.contacts, tables),
            Home::Lineups => next_lineup(&mut self.lineups, id, tables),
            Home::Turns => Ok(Fact::TurnGiven {
                run: tables.run(due(self.turns.run.next())?)?,
                player: tables.player(due(self.turns.player.next())?)?,
            }),
            Home::Efforts => Ok(Fact::EffortNoted {
                run: tables.run(due(self.efforts.run.next())?)?,
                player: tables.maybe_player(due(self.efforts.player.next())?)?,
                kind: tables.maybe_string(due(self.efforts.what.next())?)?,
            }),
            Home::Told => next_told(&mut self.told, tables),
            Home::Rallies => next_rally(&mut self.rallies, tables),
        }
    }
}

/// A value that its column must still have.
pub(super) fn due(value: Option<i64>) -> Result<i64, RuleBroken> {
    value.ok_or(RuleBroken::UnequalColumns)
}

/// A value within the range of its type.
pub(super) fn fit<T: TryFrom<i64>>(value: i64) -> Result<T, RuleBroken> {
    T::try_from(value).map_err(|_| RuleBroken::OutOfRange)
}

fn yes_no(code: i64) -> Result<bool, RuleBroken> {
    match code {
        0 => Ok(false),
        1 => Ok(true),
        _ => Err(RuleBroken::OutOfRange),
    }
}

fn push_contact(to: &mut Contacts, run: i64, contact: &Contact, index: &Index) {
    to.run.push(run);
    to.player.push(index.maybe_player(contact.player));
    to.role.push(ROLES.code(contact.role));
    to.place.push(contact.place.map_or(0, |place| i64::from(place.0) + 1));
    to.outcome.push(outcome_code(contact.outcome));
    to.good_from.push(GOOD_FROM.code(contact.good_from));
    to.feed.push(FEEDS.code(contact.feed.kind));
    to.step.push(i64::from(contact.feed.step.0));
    to.style.push(contact.style.map_or(0, |style| STYLES.code(style) + 1));
    to.round.push(contact.turn.map_or(0, |turn| i64::from(turn.round.0) + 1));
    to.restart.push(contact.turn.map_or(0, |turn| i64::from(turn.restart)));
    to.server.push(index.maybe_player(contact.server));
    to.by_child.push(i64::from(contact.self_scored));
    to.group.push(contact.group.map_or(0, |group| i64::from(group.0) + 1));
    to.shown.push(contact.clock_ms.map_or(0, |shown| i64::from(shown) + 1));
    to.watched.push(i64::from(contact.watched));
}

fn next_contact(from: &mut Contacts, tables: &Tables) -> Result<Fact, RuleBroken> {
    let run = tables.run(due(from.run.next())?)?;
    let restart = due(from.restart.next())?;
    let round = due(from.round.next())?;
    if round == 0 && restart != 0 {
        return Err(RuleBroken::OutOfRange);
    }
    let contact = Contact {
        player: tables.maybe_player(due(from.player.next())?)?,
        role: ROLES.of_code(due(from.role.next())?).ok_or(RuleBroken::OutOfRange)?,
        place: maybe(due(from.place.next())?, |place| fit(place).map(Place))?,
        outcome: outcome_of_code(due(from.outcome.next())?).ok_or(RuleBroken::OutOfRange)?,
        good_from: GOOD_FROM.of_code(due(from.good_from.next())?).ok_or(RuleBroken::OutOfRange)?,
        feed: feed(due(from.feed.next())?, due(from.step.next())?)?,
        style: maybe(due(from.style.next())?, |code| STYLES.of_code(code).ok_or(RuleBroken::OutOfRange))?,
        turn: maybe(round, |round| Ok(Turn { round: fit(round).map(Round)?, restart: fit(restart)? }))?,
        server: tables.maybe_player(due(from.server.next())?)?,
        self_scored: yes_no(due(from.by_child.next())?)?,
        group: maybe(due(from.group.next())?, |group| fit(group).map(GroupNo))?,
        clock_ms: maybe(due(from.shown.next())?, fit)?,
        watched: yes_no(due(from.watched.next())?)?,
    };
    Ok(Fact::ContactNoted { run, contact })
}

fn push_cause(to: &mut Lineups, id: EntryId, cause: LineupCause, index: &Index) {
    to.cause.push(match cause {
        LineupCause::Swap => 0,
        LineupCause::ByHand => 1,
        LineupCause::AfterContact(_) => 2,
    });
    if let LineupCause::AfterContact(contact) = cause {
        to.after_series.push(index.series.get(&contact.0.series).copied().unwrap_or(-1));
        to.after_no.push(i64::from(id.no.0) - i64::from(contact.0.no.0));
    }
}

fn push_lineup(to: &mut Lineups, lineup: &Lineup, index: &Index) {
    to.places.push(length(lineup.places.len()));
    to.waiting.push(length(lineup.waiting.len()));
    to.servers.push(length(lineup.servers.len()));
    lineup.places.iter().for_each(|place| to.who.push(index.maybe_player(*place)));
    for player in lineup.waiting.iter().chain(&lineup.servers) {
        to.who.push(index.maybe_player(Some(*player)));
    }
}

/// A list's length. None is longer than memory, and so than an i64.
fn length(n: usize) -> i64 {
    i64::try_from(n).unwrap_or(i64::MAX)
}

fn next_lineup(from: &mut Lineups, id: EntryId, tables: &Tables) -> Result<Fact, RuleBroken> {
    let run = tables.run(due(from.run.next())?)?;
    let cause = match due(from.cause.next())? {
        0 => LineupCause::Swap,
        1 => LineupCause::ByHand,
        2 => {
            let series = *at(&tables.series, due(from.after_series.next())?)?;
            let no = i64::from(id.no.0).checked_sub(due(from.after_no.next())?).ok_or(RuleBroken::OutOfRange)?;
            LineupCause::AfterContact(ContactId(EntryId { series, no: EntryNo(fit(no)?) }))
        }
        _ => return Err(RuleBroken::OutOfRange),
    };
    let counts = [due(from.places.next())?, due(from.waiting.next())?, due(from.servers.next())?];
    let mut lists: [Vec<Option<PlayerId>>; 3] = Default::default();
    for (list, count) in lists.iter_mut().zip(counts) {
        // Each name is spelled out in `who`: a claimed count allocates nothing.
        for _ in 0..fit::<u64>(count)? {
            list.push(tables.maybe_player(due(from.who.next())?)?);
        }
    }
    let [places, waiting, servers] = lists;
    let whole = |list: Vec<Option<PlayerId>>| -> Result<Vec<PlayerId>, RuleBroken> {
        list.into_iter().collect::<Option<_>>().ok_or(RuleBroken::OutOfRange)
    };
    let lineup = Lineup { places, waiting: whole(waiting)?, servers: whole(servers)?, ..Lineup::default() };
    Ok(Fact::LineupSet { run, lineup, cause })
}

fn is_plain(lineup: &Lineup) -> bool {
    lineup.target.is_none() && lineup.getters.is_empty() && lineup.groups.is_empty()
}

fn push_rally(to: &mut Rallies, run: i64, rally: &Rally, index: &Index) {
    to.run.push(run);
    to.near.push(length(rally.near.len()));
    to.far.push(length(rally.far.len()));
    to.served.push(SIDES.code(rally.served));
    to.won.push(SIDES.code(rally.won));
    to.second.push(i64::from(rally.second_serve));
    for player in rally.near.iter().chain(&rally.far) {
        to.who.push(index.player(*player));
    }
}

fn next_rally(from: &mut Rallies, tables: &Tables) -> Result<Fact, RuleBroken> {
    let run = tables.run(due(from.run.next())?)?;
    let counts = [due(from.near.next())?, due(from.far.next())?];
    let mut teams: [Vec<PlayerId>; 2] = Default::default();
    for (team, count) in teams.iter_mut().zip(counts) {
        // Each is spelled out in `who`: a claimed count allocates nothing.
        for _ in 0..fit::<u64>(count)? {
            team.push(tables.player(due(from.who.next())?)?);
        }
    }
    let [near, far] = teams;
    let side = |code| SIDES.of_code(code).ok_or(RuleBroken::OutOfRange);
    let rally = Rally {
        near,
        far,
        served: side(due(from.served.next())?)?,
        won: side(due(from.won.next())?)?,
        second_serve: yes_no(due(from.second.next())?)?,
    };
    Ok(Fact::RallyNoted { run, rally })
}

fn next_told(from: &mut Told, tables: &Tables) -> Result<Fact, RuleBroken> {
    Ok(Fact::CountTold {
        run: tables.run(due(from.run.next())?)?,
        player: tables.player(due(from.player.next())?)?,
        told_no: fit(due(from.told.next())?)?,
        good: fit(due(from.good.next())?)?,
        of: fit(due(from.of.next())?)?,
        good_from: GOOD_FROM.of_code(due(from.good_from.next())?).ok_or(RuleBroken::OutOfRange)?,
        feed: feed(due(from.feed.next())?, due(from.step.next())?)?,
        self_scored: yes_no(due(from.by_child.next())?)?,
    })
}

fn feed(kind: i64, step: i64) -> Result<Feed, RuleBroken> {
    let kind = FEEDS.of_code(kind).ok_or(RuleBroken::OutOfRange)?;
    Ok(Feed { kind, step: Step(fit(step)?) })
}
