//! The board of a run: what is on it, whose turn it is, what was counted.

use crate::domain::entry::Side;
use crate::domain::ids::{DrillId, EffortId, GroupNo, Place, PlayerId, Step};
use crate::domain::skill::{Outcome, Skill};

mod figures;
pub mod game;
mod head;
pub mod here;
mod keys;
pub mod lanes;
mod station;

pub use head::{board, may_come, saved, undo_line};
pub use keys::note_keys;
pub use station::{StationCheck, StationKeys, StationView, can_check, stations};

/// Everything on the board's screen. Its geometry depends on `keys` alone, which never changes during a run.
#[derive(Clone, Debug, PartialEq)]
pub struct BoardView {
    pub title: String,
    pub saved: SavedView,
    pub ground: Ground,
    /// The one line over the figures: what to look at ("How far did the target move?") or the ball that comes.
    pub call: String,
    pub figures: Figures,
    /// Each group's figure, where the rule counts for groups.
    pub groups: Vec<GroupFigure>,
    /// The run's clock, where its rule has one.
    pub clock: Option<ClockView>,
    pub duel: Option<DuelView>,
    /// After five seconds without a tap.
    pub calm: Option<CalmView>,
    /// Open after a tap on effort: whose, and which kind, if the coach wants to say.
    pub effort: Option<EffortView>,
    pub keys: Keys,
    /// No child is here whom a key could be about, or the clock stands: the keys rest, and the call says why.
    pub nobody: bool,
    /// What the key of a ball without a chance is called; it stands at the same place on every board.
    pub no_chance: &'static str,
    /// Only where somebody serves against the passers.
    pub serve_missed: Option<ServeMissedKey>,
    /// Children score themselves: they see this and nothing else.
    pub station: Option<StationView>,
    /// The phone can be handed to the children: to whom, `stations` tells. Not where the board needs the coach.
    pub has_stations: bool,
    /// Whether challenge balls are marked now; `None` where the coach doesn't mark them.
    pub challenge: Option<bool>,
    /// Whose words the steps are called by.
    pub skill: Skill,
    /// A child may have a step of its own.
    pub has_ladder: bool,
    /// One child alone is watched, and the call says whom.
    pub watching: bool,
    /// What undo would take back ("Tove, moved, just now"); `None`: nothing to undo.
    pub undo: Option<String>,
    pub can_swap: bool,
    /// "Odile tosses, Bram catches, Veda fetches", where the drill has roles beside the places.
    pub roles: Option<String>,
    /// "Swap in 2 balls.", where places change by themselves.
    pub swap_in: Option<String>,
    /// "Next on: Mira, Ilka. Pelle rests." where children wait beside their roles.
    pub next_on: Option<String>,
    /// "11 here": the key to who is here, to groups and to a refit.
    pub here: String,
    /// The run has groups, or could have: the way to them is beside who is here.
    pub has_groups: bool,
    /// Of the part that is on, while practice follows a plan.
    pub part_left: Option<PartLeft>,
    /// Why no key answers now, and the ways out.
    pub cover: Option<Cover>,
    pub left_handed: bool,
    /// Counts taps: the screen answers each by sight.
    pub n_taps: u32,
}

/// How long the planned part still is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PartLeft {
    /// "8 min", "+2 min"
    pub short: String,
    /// "Serving: 8 min left"
    pub line: String,
    pub over: bool,
}

/// The ground changes wholly with the phase.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ground {
    Plain,
    Easy,
    Challenge,
}

/// The ServeMissed key of a transition run: its place is kept in both phases, it is live only in the challenge.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ServeMissedKey {
    pub live: bool,
}

/// Is what was tapped safe?
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum SavedView {
    /// Opening the storage.
    Opening,
    Saved,
    Saving,
    /// Not saved: in a few words; the whole is told under `Screen::Phone`.
    NotSaved {
        n: usize,
        why: String,
    },
}

/// Two live figures: the count towards the goal, and good of tries.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Figures {
    /// The large numeral.
    pub n_good: u32,
    /// "good of 41"
    pub of: String,
    /// "goal 30", or "goal 30 reached"
    pub goal: Option<String>,
    pub reached: bool,
}

/// A group and what it has.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct GroupFigure {
    pub group: GroupNo,
    /// "Group 1"
    pub name: String,
    /// "Mira, Tove, Odile", where each group has its key.
    pub who: String,
    pub now: u32,
    pub reached: bool,
    /// The ball it is fed, where the rule sets groups against each other: how unequal groups are evened out.
    pub ball: Option<GroupBall>,
}

/// The ball's step for one group.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct GroupBall {
    pub step: Step,
    /// "tossed", "6 m"; nothing where it would only say who has it easier.
    pub word: Option<String>,
}

/// Time left, and whether it goes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ClockView {
    /// "1:30"
    pub left: String,
    pub going: bool,
    pub started: bool,
    pub over: bool,
    /// Why no ball counts while it stands.
    pub waits: Option<&'static str>,
}

/// The duel of transition scoring.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DuelView {
    /// "Round 3, to 8"
    pub round: String,
    /// The easy balls (or challenge balls) of this round in order, and the one that comes.
    pub pips: Vec<Pip>,
    /// In the challenge: what became of the round's easy balls.
    pub easy: Vec<Pip>,
    /// Good easy balls, which both sides earned together.
    pub together: u16,
    pub passers: u16,
    pub servers: u16,
    /// What the sides are called, by how many stand there: "passers", "server".
    pub sides: (&'static str, &'static str),
    /// "Odile serves"
    pub server: Option<String>,
    /// Names of those who may serve, to tap another one next.
    pub servers_here: Vec<NameKey>,
    /// After two restarts: "Twice over: an easier feed?"
    pub offer_easier: Option<String>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pip {
    Good,
    NotGood,
    NoChance,
    Now,
    Ahead,
}

/// What is shown while nobody taps.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CalmView {
    /// The current child, then everyone: name and sentence. In a duel on balls of the kind that comes.
    pub lines: Vec<CalmLine>,
    /// "14 balls a minute"
    pub pace: Option<String>,
    /// "Ready for a harder ball? …": of the group, and where its ball is changed.
    pub step: Option<(String, DrillId)>,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CalmLine {
    /// "Tove"; in a duel "Tove, easy balls"
    pub who: String,
    /// "9 of 14, about 4 to 8 in 10"
    pub rate: String,
    /// "7 good of the last ten; 3 in a row now, best 5"
    pub rows: String,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct EffortView {
    pub effort: EffortId,
    /// "Effort noticed: Tove"
    pub line: String,
    pub names: Vec<NameKey>,
    /// The coach's kinds; `true`: the one chosen.
    pub kinds: Vec<(String, bool)>,
}

/// A name to tap.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NameKey {
    pub player: PlayerId,
    pub name: String,
    pub current: bool,
}

/// One key that notes an outcome.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct OutcomeKey {
    pub outcome: Outcome,
    pub word: &'static str,
    /// The grade's digit, small.
    pub digit: Option<u8>,
    /// How full its shape is, in thirds: 3 best, 0 empty. Quality is told by fullness, with a word.
    pub full: u8,
    /// For tests and the keyboard: `pass-3`, `serve-net-fast`, `good`.
    pub id: &'static str,
}

/// Which keys stand where.
#[derive(Clone, Debug, PartialEq)]
pub enum Keys {
    /// Columns as the children stand × grades. A column without a child stays, empty. Already mirrored if turned round.
    Floor { columns: Vec<Column>, rows: Vec<OutcomeKey>, turned: bool },
    /// The names of the line, whose turn it is, and the outcomes of that child.
    Line { current: Option<CurrentView>, names: Vec<NameKey>, outcomes: Vec<OutcomeKey> },
    /// As `Line`, with a second column for fast swings: each row is one outcome, steady then fast. `standing`: names stand in
    /// two rows of three as the servers do.
    Serve { current: Option<CurrentView>, names: Vec<NameKey>, rows: Vec<(OutcomeKey, OutcomeKey)>, standing: bool },
    /// Every name with 0 to `of`.
    Told { of: u8, rows: Vec<ToldRow>, series: String, complete: bool },
    /// Two keys, no name.
    Group { outcomes: Vec<OutcomeKey> },
    /// A key for each group.
    Lanes { lanes: Vec<Lane> },
    /// Whose turn it is, and keys of a quarter of the screen.
    Propped { current: Option<CurrentView>, outcomes: Vec<OutcomeKey> },
    /// The floor of a game: a key for each side.
    Game(Box<GameView>),
}

impl Keys {
    /// There is no child whom a key could be about.
    pub fn for_nobody(&self) -> bool {
        match self {
            Keys::Floor { columns, .. } => columns.iter().all(|c| c.player.is_none()),
            Keys::Line { current, .. } | Keys::Serve { current, .. } | Keys::Propped { current, .. } => {
                current.is_none()
            }
            Keys::Game(game) => game.near.n == 0 || game.far.n == 0,
            Keys::Lanes { lanes } => lanes.iter().all(|lane| lane.empty),
            Keys::Told { rows, .. } => rows.is_empty(),
            Keys::Group { .. } => false,
        }
    }
}

/// The floor of a game as the coach sees it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct GameView {
    pub near: TeamView,
    pub far: TeamView,
    /// Who waits, the next first; in a match who stands beside the court.
    pub line: Vec<WaitView>,
    /// Who serves the next rally.
    pub serves: Side,
    /// Seen from the other side of the net: near is drawn at the top.
    pub turned: bool,
    /// Whether the rally that comes is served a second time; `None` where there is no second serve.
    pub second: Option<bool>,
    /// The coach said that the other side serves the rally that comes.
    pub other: bool,
    /// Too late to say so: something of this rally is noted.
    pub no_other: bool,
    /// The keys of serves and passes, where a match notes them.
    pub notes: Option<NotesView>,
    /// Where the next serve has its time: turns over with every rally, so that its marks begin anew.
    pub paced: Option<bool>,
}

/// Serves and passes of a match: one room, whose keys follow the rally. Each step is due by the entries, so all survives a reload.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NotesView {
    pub due: NoteDue,
    /// Passes are noted, so the room holds two rows of names.
    pub passes: bool,
    /// Who may have passed, as they stand on their half of the screen.
    pub receivers: Vec<Vec<NameKey>>,
    /// "Noted: serve in, pass moved 2", while the rally is played.
    pub noted: String,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoteDue {
    Serve,
    Passer,
    Grade,
    /// Who won it.
    Rally,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TeamView {
    /// "Winners' side"
    pub side: &'static str,
    /// As they stand on the screen: rows from the top, each from the left.
    pub rows: Vec<Vec<Token>>,
    pub n: usize,
    /// Points of a match, rallies of a short game; `None` where each rally is a game.
    pub points: Option<u32>,
    /// "2 wins in a row"
    pub more: Option<String>,
}

impl TeamView {
    pub fn names(&self) -> String {
        self.rows.iter().flatten().map(|token| token.name.as_str()).collect::<Vec<_>>().join(", ")
    }
}

/// A child on the floor.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Token {
    pub name: String,
    /// In a match this child serves.
    pub serves: bool,
    /// In a match the position, 1 to 6.
    pub place: Option<u8>,
}

/// A team that waits.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WaitView {
    /// "next"
    pub word: String,
    /// "Mira, Tove, Odile"
    pub who: String,
}

/// One group's key on a board of groups.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Lane {
    pub figure: GroupFigure,
    pub can_undo: bool,
    /// Nobody is in it.
    pub empty: bool,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Column {
    pub place: Place,
    pub player: Option<PlayerId>,
    pub name: String,
    /// "9 of 14"; in a duel of balls of the kind that comes
    pub of: String,
    /// The child's own step on the drill's ladder.
    pub step: Option<Step>,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CurrentView {
    pub player: PlayerId,
    /// The step of the ball that comes.
    pub step: Step,
    /// "from 4.5 m", where it is the child's own and the coach alone reads it.
    pub step_words: Option<String>,
    pub name: String,
    /// "9 of 14"
    pub of: String,
    /// "then Tove"; "ball 5 of 10" where one is watched on a phone that is propped up.
    pub then: Option<String>,
    /// The serve style kept for this child, to change by tap.
    pub style: Option<String>,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ToldRow {
    pub player: PlayerId,
    pub name: String,
    pub told: Option<u8>,
}

/// What may be done in a run that is over by its rule, besides finishing it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Ways {
    /// Its drill once more, as a new run.
    pub again: bool,
    /// The same run goes on: not where all time or all balls are used up.
    pub play_on: bool,
}

/// Why the keys don't answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Cover {
    /// A moment after the start: it isn't known yet whether another window goes on with it.
    Asking,
    /// Another window or phone goes on with this run.
    Elsewhere,
    /// The rule says the run is over: who won, in words. The coach may finish, undo, or play on.
    Over { line: String, ways: Ways },
    /// Finished: look at it, or open it again.
    Finished,
    /// Nobody has tapped for a while: a held press uncovers it (a pocket counts nothing).
    Pocket,
}
