//! One unbroken part of a run: what one line of writers noted, in order. Advances by one entry; refuses to go back.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use super::super::drill::{Board, DrillSpec, LineOrder};
use super::super::entry::{Contact, Entry, Fact, Lineup, LineupCause, Rally, Said, Turn};
use super::super::ids::{ContactId, EffortId, EntryId, GroupNo, PlayerId, RallyId, Round, SeriesId, Step};
use super::super::roles;
use super::super::rule::Rule;
use super::super::run_clock::RunClock;
use super::super::scoring::tally::Tally;
use super::super::scoring::transition::{NextBall, RESTARTS_BEFORE_OFFER, TransitionScore};
use super::super::scoring::{Ball, Score, Who};
use super::super::skill::{Feed, Outcome};
use super::super::time::Stamp;
use super::super::touches::TouchBook;
use super::super::turns::History;
use super::amend::Amended;
use crate::stats::pace::Pace;
use crate::stats::proportion::Count;

/// A contact as it counts now, corrections applied.
#[derive(Clone, Debug, PartialEq)]
pub struct Counted {
    pub id: ContactId,
    pub at: Stamp,
    pub contact: Contact,
    pub corrected: bool,
}

/// A noticed effort as it stands now.
#[derive(Clone, Debug, PartialEq)]
pub struct Effort {
    pub id: EffortId,
    pub at: Stamp,
    pub player: Option<PlayerId>,
    pub kind: Option<String>,
}

/// A rally as it counts now.
#[derive(Clone, Debug, PartialEq)]
pub struct CountedRally {
    pub id: RallyId,
    pub at: Stamp,
    pub rally: Rally,
    pub corrected: bool,
}

/// Of the serve that comes: what was said of it and not yet played.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct ServeSaid {
    pub other_side: bool,
    pub second: bool,
}

/// The phone is with children who score themselves.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Station {
    /// The one group that is at it; `None`: all.
    pub group: Option<GroupNo>,
    /// How many contacts there were when it was opened: a child undoes none of these.
    pub from: usize,
    /// The coach checks: how many checks there were when it was opened.
    pub check: Option<usize>,
}

/// What the coach saw of a ball that a child scored itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Check {
    pub contact: ContactId,
    pub outcome: Outcome,
}

/// Balls of one check.
pub const CHECKED: usize = 10;

/// The next turn, worked out when it is first asked for: who comes on follows from the turns before, so no ball changes it. Two parts
/// are the same whether or not anyone has asked.
#[derive(Clone, Debug, Default)]
pub(super) struct NextTurn(OnceLock<Lineup>);

impl NextTurn {
    pub(super) fn get(&self, worked_out: impl FnOnce() -> Lineup) -> &Lineup {
        self.0.get_or_init(worked_out)
    }
}

impl PartialEq for NextTurn {
    fn eq(&self, _: &NextTurn) -> bool {
        true
    }
}

/// A number told for a child, and of which balls.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Told {
    pub count: Count,
    pub feed: Feed,
}

/// State of a part after some of its entries.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    pub lineup: Lineup,
    pub feed: Feed,
    /// The turn of the last contact when the feed was last changed.
    pub fed_at: Option<Turn>,
    pub contacts: Vec<Counted>,
    pub efforts: Vec<Effort>,
    pub everyone: Tally,
    pub by_child: BTreeMap<PlayerId, Tally>,
    pub score: Score,
    pub rallies: Vec<CountedRally>,
    /// What was said of the serve of the rally that comes.
    pub serve_said: ServeSaid,
    pub touches: TouchBook,
    /// Who had which role in the turns that are over, where everyone is to have each.
    pub turns: History,
    pub(super) next_turn: NextTurn,
    /// Balls of the turn that is on, and the first of them.
    pub turn_balls: u32,
    pub turn_from: Option<(SeriesId, Stamp)>,
    pub clock: RunClock,
    pub station: Option<Station>,
    pub checks: Vec<Check>,
    /// The feed's step of groups that are evened out.
    pub group_steps: BTreeMap<GroupNo, Step>,
    /// Balls a minute, timed by the contacts.
    pub pace: Pace,
    pub finished: bool,
    /// What undo takes back, the latest last.
    pub undoable: Vec<EntryId>,
    /// Who stood where at the latest ball of the latest round that was played.
    pub played: Option<(Round, Lineup)>,
    /// The contact after which places changed by themselves the last time.
    pub swapped_after: Option<ContactId>,
    /// The latest round after which places were swapped.
    pub swapped: Option<Round>,
    rotates: bool,
    told: BTreeMap<(PlayerId, u16), Told>,
    /// The told series that was opened last.
    told_series: u16,
    /// A name tapped since the last contact, or since the last rally.
    pub(super) given: Option<PlayerId>,
    /// Where in `contacts` each child's latest stands, and each server's, so that a turn is found without a search.
    latest: BTreeMap<PlayerId, usize>,
    latest_served: BTreeMap<PlayerId, usize>,
    /// Of each child, at its latest contact: its tries while it was watched, without another child's between them.
    stints: BTreeMap<PlayerId, u32>,
    /// By the group's number, its latest ball of which only good ones are counted.
    lanes: Vec<Option<ContactId>>,
    /// Whose monotonic clock the last contact was timed by.
    timed_by: Option<SeriesId>,
}

impl Part {
    pub fn new(spec: &DrillSpec, lineup: Lineup) -> Self {
        Part {
            lineup,
            feed: spec.feed,
            fed_at: None,
            contacts: Vec::new(),
            efforts: Vec::new(),
            everyone: Tally::default(),
            by_child: BTreeMap::new(),
            score: Score::new(&spec.rule),
            rallies: Vec::new(),
            serve_said: ServeSaid::default(),
            touches: TouchBook::default(),
            turns: History::default(),
            next_turn: NextTurn::default(),
            turn_balls: 0,
            turn_from: None,
            rotates: roles::rotates(spec),
            clock: RunClock::default(),
            station: None,
            checks: Vec::new(),
            group_steps: BTreeMap::new(),
            pace: Pace::default(),
            finished: false,
            undoable: Vec::new(),
            played: None,
            swapped_after: None,
            swapped: None,
            told: BTreeMap::new(),
            told_series: 0,
            given: None,
            latest: BTreeMap::new(),
            latest_served: BTreeMap::new(),
            stints: BTreeMap::new(),
            lanes: Vec::new(),
            timed_by: None,
        }
    }

    /// Advances by one entry that stands (not taken back, no swap of a round that isn't over), with its corrections.
    pub fn advance(&mut self, entry: &Entry, amended: &Amended) {
        let mut can_undo = true;
        match &entry.fact {
            Fact::ContactNoted { contact, .. } => {
                let id = ContactId(entry.id);
                let corrected = amended.contact(id).is_some();
                let read = self.with_group(amended.read(id, contact), contact);
                can_undo = read.outcome != Outcome::Removed;
                if can_undo {
                    self.note(Counted { id, at: entry.at, contact: read, corrected });
                }
            }
            Fact::EffortNoted { player, kind, .. } => {
                let id = EffortId(entry.id);
                let (player, kind) = amended.effort(id).cloned().unwrap_or_else(|| (*player, kind.clone()));
                self.everyone.n_efforts += 1;
                if let Some(player) = player {
                    self.by_child.entry(player).or_default().n_efforts += 1;
                }
                self.efforts.push(Effort { id, at: entry.at, player, kind });
            }
            Fact::CountTold { player, told_no, good, of, feed, .. } => {
                // More good than balls can only be damage; it is counted as nothing told.
                let told = Count::new(u32::from(*good), u32::from(*of)).unwrap_or(Count::NONE);
                self.told.insert((*player, *told_no), Told { count: told, feed: *feed });
                let child = self.told.range((*player, 0)..=(*player, u16::MAX)).map(|(_, told)| told.count).sum();
                self.by_child.entry(*player).or_default().set_told(child);
                self.everyone.set_told(self.told.values().map(|told| told.count).sum());
                self.score.note(Ball::Told { player: *player, told_no: *told_no, count: told });
            }
            Fact::ToldSeriesOpened { told_no, .. } => self.told_series = *told_no,
            Fact::LineupSet { lineup, cause, .. } => {
                can_undo = !matches!(cause, LineupCause::AfterContact(_));
                if let LineupCause::AfterContact(contact) = cause {
                    self.swapped_after = Some(*contact);
                }
                if self.rotates && *cause != LineupCause::ByHand {
                    self.turn_over();
                }
                self.sides_change(lineup);
                self.lineup = lineup.clone();
                self.next_turn = NextTurn::default();
            }
            Fact::TurnGiven { player, .. } => self.given = Some(*player),
            Fact::FeedSet { feed, .. } => {
                self.feed = *feed;
                self.fed_at = self.contacts.last().and_then(|c| c.contact.turn);
            }
            Fact::GroupStepSet { group, step, .. } => {
                self.group_steps.insert(*group, *step);
            }
            Fact::ClockSet { going, shown_ms, slept, .. } => {
                can_undo = !slept;
                self.clock.set(entry, *going, *shown_ms);
            }
            Fact::StationSet { open, group, check, .. } => {
                can_undo = false;
                let check = check.then_some(self.checks.len());
                self.station = open.then_some(Station { group: *group, from: self.contacts.len(), check });
            }
            Fact::BallChecked { contact, outcome, .. } => {
                self.checks.push(Check { contact: *contact, outcome: *outcome });
            }
            Fact::ServeSaid { what, on, .. } => {
                match what {
                    Said::OtherSide => self.serve_said.other_side = *on,
                    Said::Second => self.serve_said.second = *on,
                }
                // Who was to pass stood on a side that may serve now.
                self.given = None;
            }
            Fact::RallyNoted { rally, .. } => {
                let id = RallyId(entry.id);
                let won = amended.rally(id);
                let rally = Rally { won: won.unwrap_or(rally.won), ..rally.clone() };
                self.note_rally(CountedRally { id, at: entry.at, rally, corrected: won.is_some() });
            }
            Fact::RunFinished { .. } => self.finished = true,
            Fact::ContactsCorrected { .. } | Fact::EffortCorrected { .. } | Fact::RallyCorrected { .. } => {}
            _ => can_undo = false,
        }
        if can_undo {
            self.undoable.push(entry.id);
        }
    }

    /// A ball that was another child's after all is scored for that child's group, as the groups were then.
    fn with_group(&self, read: Contact, noted: &Contact) -> Contact {
        let moved = read.player.filter(|_| read.player != noted.player && noted.group.is_some());
        let group = moved.and_then(|player| self.group_of(player)).or(read.group);
        Contact { group, ..read }
    }

    fn note(&mut self, counted: Counted) {
        if self.score.match_game().is_some() {
            return self.note_in_match(counted);
        }
        let contact = &counted.contact;
        let at = self.contacts.len();
        self.everyone.note(contact);
        if let Some(player) = contact.player {
            self.by_child.entry(player).or_default().note(contact);
            let goes_on = self.contacts.last().is_some_and(|before| before.contact.player == Some(player));
            let before = self.stints.get(&player).copied().filter(|_| goes_on).unwrap_or(0);
            let is_try = contact.watched && contact.outcome != Outcome::NoChance;
            self.stints.insert(player, before + u32::from(is_try));
            self.latest.insert(player, at);
        }
        if let Some(GroupNo(no)) = contact.group.filter(|_| contact.outcome == Outcome::Counted) {
            let no = usize::from(no);
            self.lanes.resize(self.lanes.len().max(no + 1), None);
            self.lanes[no] = Some(counted.id);
        }
        if let Some(server) = contact.server {
            self.latest_served.insert(server, at);
        }
        self.score.note(Ball::Contact(contact));
        self.touches.note(contact, &self.lineup);
        if contact.outcome != Outcome::NoChance {
            self.turn_balls += 1;
            self.turn_from.get_or_insert((counted.id.0.series, counted.at));
        }
        self.stood(contact.turn);
        let turn_taken = match contact.turn {
            // In a duel the name tapped is a server's: it is used up by the ball that is served.
            Some(_) => contact.server.is_some(),
            // A ball without a chance is given again: the turn stays with the child.
            None => contact.outcome != Outcome::NoChance,
        };
        if turn_taken {
            self.given = None;
        }
        if let Some(shown_ms) = contact.clock_ms {
            self.clock.seen(counted.id.0.series, counted.at, shown_ms);
        }
        self.timed(counted.id.0.series, counted.at.mono_ms);
        self.contacts.push(counted);
    }

    /// Every turn counts, one without a ball too: were it left out, what was proposed after it would put some two turns ahead of
    /// others. A tap too many is undone.
    fn turn_over(&mut self) {
        self.turns.note(&roles::turn_of(&self.lineup));
        self.turn_balls = 0;
        self.turn_from = None;
    }

    /// A game's rally, and who stands where after it.
    fn note_rally(&mut self, counted: CountedRally) {
        let rally = &counted.rally;
        let lasted_ms = self.timed(counted.id.0.series, counted.at.mono_ms);
        self.score.note(Ball::Rally { rally, lineup: &self.lineup, lasted_ms });
        self.lineup = self.score.rule().after_rally(&self.lineup, rally);
        (self.serve_said, self.given) = (ServeSaid::default(), None);
        self.rallies.push(counted);
    }

    /// Notes a ball's time. Milliseconds since the one before, as far as that was play.
    fn timed(&mut self, series: SeriesId, mono_ms: u64) -> u32 {
        if self.timed_by.replace(series) != Some(series) {
            self.pace.other_clock();
        }
        let before = self.pace.timed_ms();
        self.pace.note(mono_ms);
        u32::try_from(self.pace.timed_ms().saturating_sub(before)).unwrap_or(u32::MAX)
    }

    /// How many of the ten are checked, where the coach checks. One she didn't see is none.
    pub fn n_checked(&self) -> Option<usize> {
        let since = self.checks.iter().skip(self.station?.check?);
        Some(since.filter(|check| check.outcome != Outcome::NoChance).count())
    }

    /// The child's ball that the coach is to judge now: the last one, as long as the ten aren't full.
    pub fn to_check(&self) -> Option<&Counted> {
        let station = self.station.filter(|_| self.n_checked().is_some_and(|n| n < CHECKED))?;
        let last =
            self.contacts.last().filter(|last| self.contacts.len() > station.from && last.contact.self_scored)?;
        let is_checked = self.checks.last().is_some_and(|check| check.contact == last.id);
        (!is_checked).then_some(last)
    }

    /// The duel, where there is one.
    pub fn transition(&self) -> Option<&TransitionScore> {
        match &self.score {
            Score::Transition(score) => Some(score),
            _ => None,
        }
    }

    /// The group of a child.
    pub fn group_of(&self, player: PlayerId) -> Option<GroupNo> {
        self.lineup.group_of(player)
    }

    fn stood(&mut self, turn: Option<Turn>) {
        let Some(Turn { round, .. }) = turn else { return };
        match &mut self.played {
            Some((of, lineup)) if *of == round => lineup.clone_from(&self.lineup),
            Some((of, _)) if *of > round => {}
            played => *played = Some((round, self.lineup.clone())),
        }
    }

    /// Whether there is anything in it to show: a contact, a rally, an effort, a told count.
    pub fn counts_something(&self) -> bool {
        !(self.contacts.is_empty() && self.rallies.is_empty() && self.efforts.is_empty() && self.told.is_empty())
    }

    /// Whether an easier feed is offered for the ball that comes: after two restarts, and after two more once it was changed.
    pub fn offers_easier(&self, next: &NextBall) -> bool {
        let changed_here = self.fed_at.filter(|turn| turn.round == next.turn.round);
        next.offer_easier
            && changed_here.is_none_or(|turn| next.turn.restart > turn.restart.saturating_add(RESTARTS_BEFORE_OFFER))
    }

    /// What was told for a child, by the number of the series of balls.
    pub fn told(&self, player: PlayerId, told_no: u16) -> Option<Count> {
        self.told.get(&(player, told_no)).map(|told| told.count)
    }

    /// Everything that was told, child by child.
    pub fn all_told(&self) -> impl Iterator<Item = (PlayerId, Told)> {
        self.told.iter().map(|((player, _), told)| (*player, *told))
    }

    /// The number of the told series that is open: the one opened last, or a later one in which something was told.
    pub fn open_series(&self) -> u16 {
        self.told.keys().map(|(_, no)| *no).max().map_or(self.told_series, |told| told.max(self.told_series))
    }

    /// The next series, where anything was told in the one that is open.
    pub fn next_series(&self) -> Option<u16> {
        let open = self.open_series();
        self.told.keys().any(|(_, no)| *no == open).then_some(open).and_then(|open| open.checked_add(1))
    }

    /// The children in the order in which their turns come; `None` on a board without turns.
    pub fn turn_order(&self, spec: &DrillSpec) -> Option<Vec<PlayerId>> {
        match spec.board {
            Board::Line { .. } | Board::ServeLine { .. } | Board::Propped { .. } => {
                Some(self.at_station(&self.lineup.waiting))
            }
            Board::ServeFloor { .. } => {
                let standing: Vec<PlayerId> = self.lineup.places.iter().flatten().copied().collect();
                Some(self.at_station(&standing))
            }
            Board::Floor { .. } | Board::Told { .. } | Board::Group | Board::Lanes | Board::Court => None,
        }
    }

    /// Whose turn the board proposes: the name tapped, else by the order of the drill.
    pub fn current(&self, spec: &DrillSpec) -> Option<PlayerId> {
        if self.transition().is_some() {
            return self.current_server();
        }
        let line = self.turn_order(spec)?;
        let order = match spec.board {
            Board::Line { order } | Board::ServeLine { order, .. } | Board::Propped { order } => order,
            _ => LineOrder::InTurn,
        };
        if let Some(given) = self.given.filter(|g| line.contains(g)) {
            return Some(given);
        }
        let Some((contact, at)) = latest_of(&line, &self.latest) else { return line.first().copied() };
        let moves_on = match order {
            // A series that is full is the next child's.
            LineOrder::Stays => self.has_full_series(spec, line[at]),
            // At a station nobody is watched, so no ten would ever be full there.
            LineOrder::TenForOne if self.station.is_none() => {
                let n_watched = self.n_watched(line[at]);
                n_watched > 0 && n_watched.is_multiple_of(LineOrder::WATCHED)
            }
            LineOrder::InTurn | LineOrder::TenForOne => self.contacts[contact].contact.outcome != Outcome::NoChance,
        };
        Some(line[(at + usize::from(moves_on)) % line.len()])
    }

    /// Whether the child's series is full, where the rule has series.
    pub fn has_full_series(&self, spec: &DrillSpec, child: PlayerId) -> bool {
        let Rule::Tens(rule) = spec.rule else { return false };
        self.score.rule().standing(Who::Child(child)).of == Some(u32::from(rule.n))
    }

    /// Whom the coach watches, and how many of the ten have been seen; `None` where nobody is watched alone.
    pub fn watching(&self, spec: &DrillSpec) -> Option<(PlayerId, u32)> {
        if spec.board.order() != Some(LineOrder::TenForOne) || self.station.is_some() {
            return None;
        }
        let child = self.current(spec)?;
        let stint = self.latest.get(&child).filter(|last| self.is_last(**last)).map_or(0, |_| self.n_watched(child));
        Some((child, stint % LineOrder::WATCHED))
    }

    /// Nobody else has had a ball since.
    fn is_last(&self, contact: usize) -> bool {
        self.latest.values().all(|other| *other <= contact)
    }

    /// Tries of the child while it was watched, up to its latest contact, without another child's between them.
    fn n_watched(&self, child: PlayerId) -> u32 {
        self.stints.get(&child).copied().unwrap_or(0)
    }

    /// The latest good one of a group whose misses aren't counted.
    pub fn last_of_lane(&self, group: GroupNo) -> Option<ContactId> {
        self.lanes.get(usize::from(group.0)).copied().flatten()
    }

    /// Those of a line who are at it: where one group scores itself, that group.
    fn at_station(&self, line: &[PlayerId]) -> Vec<PlayerId> {
        match self.station.and_then(|station| station.group) {
            Some(group) => line.iter().copied().filter(|player| self.group_of(*player) == Some(group)).collect(),
            None => line.to_vec(),
        }
    }

    /// Servers of a duel serve in turn; a name tapped comes first.
    fn current_server(&self) -> Option<PlayerId> {
        let servers = &self.lineup.servers;
        if let Some(given) = self.given.filter(|g| servers.contains(g)) {
            return Some(given);
        }
        match latest_of(servers, &self.latest_served) {
            Some((_, at)) => Some(servers[(at + 1) % servers.len()]),
            None => servers.first().copied(),
        }
    }
}

/// The latest contact of anyone in this line: its index, and where in the line that child stands.
fn latest_of(line: &[PlayerId], latest: &BTreeMap<PlayerId, usize>) -> Option<(usize, usize)> {
    line.iter().enumerate().filter_map(|(at, player)| Some((*latest.get(player)?, at))).max()
}
