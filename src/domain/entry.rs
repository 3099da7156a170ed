//! Entries: the stored facts, in the past tense. Nothing is edited or deleted; taking back and correcting are entries too.
//! Owns their shape, refuses to know how they are written (`wire`) or what they add up to (`replay`).

use super::calendar::PracticeDate;
use super::drill::DrillSpec;
use super::ids::{
    Clock, ContactId, DateId, DrillId, EffortId, EntryId, GroupNo, NoteId, PartNo, Place, PlanId, PlayerId, PracticeId,
    RallyId, Revision, Round, RunId, ShirtNumber, Step,
};
use super::notes::{Asked, Note, Spot};
use super::plan::Plan;
use super::skill::{Feed, GoodFrom, Outcome, Role, ServeStyle};
use super::time::Stamp;

/// One stored fact.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    pub id: EntryId,
    pub clock: Clock,
    pub at: Stamp,
    pub fact: Fact,
    /// Fields of a known kind that this version doesn't know: the JSON object as it came, given out again untouched.
    pub extra: Option<Box<str>>,
}

/// What happened. A reference to something absent is tolerated everywhere.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Fact {
    /// The first entry of every series: which device, which version of the app.
    SeriesOpened {
        device: String,
        app_version: String,
    },
    /// The phone that writes this is called so (nothing: it has no name), and these entries opened series of its own: one phone has a
    /// series a page load, and is often named after it has counted.
    PhoneNamed {
        revision: Revision,
        name: String,
        opened: Vec<EntryId>,
    },

    PlayerAdded {
        name: String,
        number: Option<ShirtNumber>,
    },
    PlayerChanged {
        player: PlayerId,
        revision: Revision,
        name: String,
        number: Option<ShirtNumber>,
    },
    /// Archived, or brought back (`archived: false`).
    PlayerArchived {
        player: PlayerId,
        revision: Revision,
        archived: bool,
    },
    /// Two children of the squad are one, entered twice: all that is noted of `also` counts under the one that stays.
    ChildrenJoined {
        stays: PlayerId,
        also: PlayerId,
        revision: Revision,
    },
    /// They are two, however alike their names are.
    ChildrenToldApart {
        one: PlayerId,
        other: PlayerId,
        revision: Revision,
    },
    /// Kept per child until changed.
    StyleNoted {
        player: PlayerId,
        revision: Revision,
        style: ServeStyle,
    },

    /// The child's step on the ladder of a drill, kept until changed.
    StepNoted {
        player: PlayerId,
        drill: DrillId,
        revision: Revision,
        step: Step,
    },
    /// What the coach wishes of groups, whole.
    WishesChanged {
        revision: Revision,
        wishes: Wishes,
    },

    DrillAdded {
        spec: DrillSpec,
    },
    DrillChanged {
        drill: DrillId,
        revision: Revision,
        spec: DrillSpec,
    },
    DrillArchived {
        drill: DrillId,
        revision: Revision,
        archived: bool,
    },
    /// The coach's list of kinds of effort, whole.
    EffortKindsChanged {
        revision: Revision,
        kinds: Vec<String>,
    },

    /// Everyone is here until tapped away.
    PracticeStarted {
        title: String,
    },
    PracticeEnded {
        practice: PracticeId,
    },
    PresenceNoted {
        practice: PracticeId,
        player: PlayerId,
        revision: Revision,
        here: bool,
    },
    /// Two practices are one, begun on two phones: what was counted in `also` is read with the one that stays.
    PracticesJoined {
        stays: PracticeId,
        also: PracticeId,
        revision: Revision,
    },
    /// They are two, however near in time.
    PracticesToldApart {
        one: PracticeId,
        other: PracticeId,
        revision: Revision,
    },

    /// Who is with whom from now on, for the drills of this practice that want groups. The latest stands.
    GroupsMade {
        practice: PracticeId,
        groups: Vec<Vec<PlayerId>>,
        /// Those before with a change by hand, or called back: no round of its own.
        by_hand: bool,
    },

    /// A plan for a practice to come, or for the one that is on. It belongs to the practice that begins a part of it.
    PlanMade {
        plan: Plan,
    },
    /// The plan as it is from now on, whole.
    PlanChanged {
        plan: PlanId,
        revision: Revision,
        changed: Plan,
    },
    /// A part of the plan is on from now, whatever was on before is over. Its title as it was.
    PartBegun {
        practice: PracticeId,
        plan: PlanId,
        part: PartNo,
        title: String,
    },
    /// It is over and none was begun after it.
    PartEnded {
        practice: PracticeId,
        part: PartNo,
    },

    /// A date of a practice. Of no practice itself: the squad's own, as its drills are.
    DateSet {
        date: PracticeDate,
    },
    /// The date as it is from now on, whole.
    DateChanged {
        date: DateId,
        revision: Revision,
        changed: PracticeDate,
    },
    /// No practice on it after all, or there is one again (`dropped: false`).
    DateDropped {
        date: DateId,
        revision: Revision,
        dropped: bool,
    },
    /// The plan that belongs to it, until a practice begins a part of it.
    DatePlanned {
        date: DateId,
        revision: Revision,
        plan: Option<PlanId>,
    },
    /// The practice that was held on it.
    DateHeld {
        date: DateId,
        revision: Revision,
        practice: Option<PracticeId>,
    },

    /// Carries the whole rule, players, places and drill as they were.
    RunStarted {
        practice: PracticeId,
        drill: Option<DrillId>,
        spec: DrillSpec,
        lineup: Lineup,
        recorder: String,
    },
    /// Another page or phone goes on with the run, having seen it up to `after`.
    RunTakenOver {
        run: RunId,
        after: EntryId,
        recorder: String,
    },
    /// Who stands where from now on: a swap, a latecomer, a choice by hand.
    LineupSet {
        run: RunId,
        lineup: Lineup,
        cause: LineupCause,
    },
    /// On a line: this child is next.
    TurnGiven {
        run: RunId,
        player: PlayerId,
    },
    /// The feed from now on.
    FeedSet {
        run: RunId,
        feed: Feed,
    },
    /// The feed's step for one group from now on: how unequal groups are evened out.
    GroupStepSet {
        run: RunId,
        group: GroupNo,
        step: Step,
    },
    /// The run's clock goes or stands, and what it showed at that moment.
    ClockSet {
        run: RunId,
        going: bool,
        shown_ms: u32,
        /// It stands because the phone slept through its end: nobody wished it, so undo passes it by.
        slept: bool,
    },
    /// From now on children score themselves on this phone (`open`), of one group or all; or no longer.
    /// `check`: the coach stands beside and judges ten balls too.
    StationSet {
        run: RunId,
        open: bool,
        group: Option<GroupNo>,
        check: bool,
    },
    /// The coach saw the ball that a child scored itself: this came of it. It counts nothing; it tells what such scores are worth.
    BallChecked {
        run: RunId,
        contact: ContactId,
        outcome: Outcome,
    },
    /// Said of the serve of the rally that comes, or no longer said.
    ServeSaid {
        run: RunId,
        what: Said,
        on: bool,
    },
    RunFinished {
        run: RunId,
    },

    ContactNoted {
        run: RunId,
        contact: Contact,
    },
    /// A rally was played, and who won it.
    RallyNoted {
        run: RunId,
        rally: Rally,
    },
    EffortNoted {
        run: RunId,
        player: Option<PlayerId>,
        kind: Option<String>,
    },
    /// Told at the whistle: `good` of `of`. Feeds rates, never rows. The last one told for a child and `told_no` stands.
    CountTold {
        run: RunId,
        player: PlayerId,
        told_no: u16,
        good: u16,
        of: u16,
        good_from: GoodFrom,
        feed: Feed,
        self_scored: bool,
    },

    /// The next series of told counts is open, before anything is told in it.
    ToldSeriesOpened {
        run: RunId,
        told_no: u16,
    },

    /// Any number of contacts corrected at one tap ("shift from here" corrects many).
    ContactsCorrected {
        run: RunId,
        changes: Vec<Correction>,
    },
    /// Who won a rally after all.
    RallyCorrected {
        run: RunId,
        rally: RallyId,
        revision: Revision,
        won: Side,
    },
    EffortCorrected {
        run: RunId,
        effort: EffortId,
        revision: Revision,
        player: Option<PlayerId>,
        kind: Option<String>,
    },
    /// Taken back (`back: true`) or put back. The target is no longer counted; it stays in the log.
    EntryTakenBack {
        run: Option<RunId>,
        target: EntryId,
        revision: Revision,
        back: bool,
    },

    NoteWritten {
        spot: Spot,
        note: Note,
    },
    /// The note as it is from now on, whole. Where it was noted stays.
    NoteChanged {
        note: NoteId,
        revision: Revision,
        changed: Note,
    },
    QuestionAsked {
        spot: Spot,
        asked: Asked,
    },
    /// The coach's own tags, whole.
    NoteTagsChanged {
        revision: Revision,
        tags: Vec<String>,
    },
    /// The coach's own questions of a drill, or of any (`None`), whole.
    QuestionsChanged {
        drill: Option<DrillId>,
        revision: Revision,
        questions: Vec<String>,
    },

    /// These, one child by all identities it is known by, are removed for good, and these notes with them, whose words name it. Final:
    /// nothing takes it back, and it beats whatever is said of them (see `removed`).
    ChildRemoved {
        players: Vec<PlayerId>,
        notes: Vec<NoteId>,
    },
    /// What stood here was said of a child that was removed. Where it belonged stays.
    Emptied {
        practice: Option<PracticeId>,
        run: Option<RunId>,
    },

    /// A kind that this version doesn't know: its body as it came, given out again untouched.
    Unknown {
        kind: String,
        body: Box<str>,
    },
}

impl Fact {
    /// A contact, a told count or a rally: what a coach calls counted.
    pub fn is_counted(&self) -> bool {
        matches!(self, Fact::ContactNoted { .. } | Fact::CountTold { .. } | Fact::RallyNoted { .. })
    }

    /// The run this fact belongs to, where it belongs to one. `RunStarted` names its run by its own identity. A note that was written
    /// in a run belongs to its practice: it changes nothing on the board, and undo there passes it by.
    pub fn run(&self, id: EntryId) -> Option<RunId> {
        match self {
            Fact::RunStarted { .. } => Some(RunId(id)),
            Fact::RunTakenOver { run, .. }
            | Fact::LineupSet { run, .. }
            | Fact::TurnGiven { run, .. }
            | Fact::FeedSet { run, .. }
            | Fact::GroupStepSet { run, .. }
            | Fact::ClockSet { run, .. }
            | Fact::StationSet { run, .. }
            | Fact::BallChecked { run, .. }
            | Fact::ServeSaid { run, .. }
            | Fact::RallyNoted { run, .. }
            | Fact::RallyCorrected { run, .. }
            | Fact::RunFinished { run }
            | Fact::ContactNoted { run, .. }
            | Fact::EffortNoted { run, .. }
            | Fact::CountTold { run, .. }
            | Fact::ToldSeriesOpened { run, .. }
            | Fact::ContactsCorrected { run, .. }
            | Fact::EffortCorrected { run, .. } => Some(*run),
            Fact::EntryTakenBack { run, .. } | Fact::Emptied { run, .. } => *run,
            _ => None,
        }
    }
}

/// Who stands where. `places` may have gaps; `waiting` come on in order; `servers` only where they are a side of their own.
#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub struct Lineup {
    pub places: Vec<Option<PlayerId>>,
    pub waiting: Vec<PlayerId>,
    pub servers: Vec<PlayerId>,
    /// Who catches at the target, where somebody does.
    pub target: Option<PlayerId>,
    /// Who fetches and feeds on.
    pub getters: Vec<PlayerId>,
    /// Who is with whom, where the run has groups. In a game the first two are on the court, the winners' side first; the others
    /// wait in order.
    pub groups: Vec<Vec<PlayerId>>,
}

/// Why the lineup changed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LineupCause {
    /// The coach tapped swap.
    Swap,
    /// The rule swapped after this contact, the last of its round; void while that round isn't over.
    AfterContact(ContactId),
    /// Set by hand: a latecomer, a leaver, another order.
    ByHand,
}

/// One judged touch, with the facts as they were on screen. They are never derived again.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Contact {
    /// `None` for a ball of the group with no child named.
    pub player: Option<PlayerId>,
    pub role: Role,
    pub place: Option<Place>,
    pub outcome: Outcome,
    /// What counted as good.
    pub good_from: GoodFrom,
    pub feed: Feed,
    pub style: Option<ServeStyle>,
    /// Where it stood in transition scoring.
    pub turn: Option<Turn>,
    /// Who served the ball, where that was known.
    pub server: Option<PlayerId>,
    pub self_scored: bool,
    /// The group it was scored for.
    pub group: Option<GroupNo>,
    /// What the run's clock showed, where it has one.
    pub clock_ms: Option<u32>,
    /// The coach watched this child alone, every ball: an honest sample.
    pub watched: bool,
}

/// A side of the court in a game.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Side {
    /// The winners' side; in a match the first group.
    Near,
    /// The challengers' side; in a match the second group.
    Far,
}

impl Side {
    pub const fn other(self) -> Side {
        match self {
            Side::Near => Side::Far,
            Side::Far => Side::Near,
        }
    }
}

/// What the coach says of the serve that comes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Said {
    /// The side serves that would not by the rule.
    OtherSide,
    /// It is served a second time.
    Second,
}

/// A rally, with the facts as they were on screen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Rally {
    /// Who stood on the winners' side; in a match in the order of positions 1 to 6.
    pub near: Vec<PlayerId>,
    pub far: Vec<PlayerId>,
    pub served: Side,
    pub won: Side,
    /// The server had a second serve.
    pub second_serve: bool,
}

impl Rally {
    pub fn team(&self, side: Side) -> &[PlayerId] {
        match side {
            Side::Near => &self.near,
            Side::Far => &self.far,
        }
    }
}

/// What the coach wishes whenever groups are made.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Wishes {
    /// Sets of children who stay in one group.
    pub together: Vec<Vec<PlayerId>>,
    /// Pairs who don't.
    pub apart: Vec<[PlayerId; 2]>,
    /// The coach's own word for those who are spread evenly ("tall", "new"); empty where there are none.
    pub tag: String,
    pub tagged: Vec<PlayerId>,
}

/// A ball's place in transition scoring: its round, and the try at that round's easy balls. The phase is the feed's kind.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Turn {
    pub round: Round,
    /// 0 at first; one more each time the easy balls start over.
    pub restart: u8,
}

/// A whole new reading of one contact. The winner is the highest (revision, clock, series).
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Correction {
    pub contact: ContactId,
    pub revision: Revision,
    pub player: Option<PlayerId>,
    pub outcome: Outcome,
    pub step: Step,
}
