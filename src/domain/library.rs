//! A drill of the library: for whom, with what, how it runs, and how the floor looks. What it says comes from a file of its own; the
//! coach's drills are entries and live elsewhere. Refuses a floor on which a ball flies to nobody.

use super::drill::{DrillFault, DrillSpec};
use super::skill::ServeStyle;

/// Its number in the library: for ever, so that an address and a plan can name it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct LibraryNo(pub u16);

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LibraryDrill {
    pub no: LibraryNo,
    pub focus: Focus,
    pub level: Level,
    /// The serves it practises; none where it isn't about one.
    pub styles: Vec<ServeStyle>,
    /// Fewest and most children.
    pub children: (u8, u8),
    pub balls: Balls,
    /// Shortest and longest, in minutes.
    pub minutes: (u8, u8),
    pub net: bool,
    pub purpose: String,
    pub floor: Floor,
    /// Step by step.
    pub runs: Vec<String>,
    /// What is tapped, and why that.
    pub scored: String,
    pub easier: Vec<String>,
    pub harder: Vec<String>,
    /// Each with the place where the child's name is said: [`NAME_SLOT`].
    pub ask: Vec<String>,
    pub safety: Vec<String>,
    /// Ready to be run; its name is the drill's.
    pub spec: DrillSpec,
}

/// Where a question holds the child's name. Said last, everyone listens until it falls (common practice, no source).
pub const NAME_SLOT: &str = "{name}";

/// What a drill of the library is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Focus {
    Serving,
    Passing,
    Catching,
    Setting,
    Effort,
    Playing,
}

impl Focus {
    pub const ALL: [Focus; 6] =
        [Focus::Serving, Focus::Passing, Focus::Catching, Focus::Setting, Focus::Effort, Focus::Playing];
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Level {
    Beginner,
    Between,
    Advanced,
}

impl Level {
    pub const ALL: [Level; 3] = [Level::Beginner, Level::Between, Level::Advanced];
}

/// How many balls it needs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Balls {
    pub least: u8,
    /// So many children share one; `None`: `least` is enough for any number.
    pub share: Option<u8>,
}

impl Balls {
    /// ```
    /// use peppertally::domain::library::Balls;
    /// let pairs = Balls { least: 2, share: Some(2) };
    /// assert_eq!((pairs.of(3), pairs.of(11)), (2, 6));
    /// assert_eq!(Balls { least: 4, share: None }.of(20), 4);
    /// ```
    pub fn of(self, n_children: u8) -> u8 {
        self.share.filter(|share| *share > 0).map_or(0, |share| n_children.div_ceil(share)).max(self.least)
    }
}

/// What a coach has; `None`: doesn't matter.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Have {
    pub focus: Option<Focus>,
    pub level: Option<Level>,
    pub children: Option<u8>,
    pub balls: Option<u8>,
    pub minutes: Option<u8>,
    /// With a net there, any drill goes; without one, any that needs none.
    pub net: Option<bool>,
}

impl LibraryDrill {
    pub fn fits(&self, have: &Have) -> bool {
        let n_children = have.children.unwrap_or(self.children.0);
        have.focus.is_none_or(|focus| focus == self.focus)
            && have.level.is_none_or(|level| level == self.level)
            && (self.children.0..=self.children.1).contains(&n_children)
            && have.balls.is_none_or(|balls| self.balls.of(n_children) <= balls)
            && have.minutes.is_none_or(|minutes| self.minutes.0 <= minutes)
            && have.net.is_none_or(|net| net || !self.net)
    }

    /// The first fault found, if any.
    pub fn fault(&self) -> Option<LibraryFault> {
        if let Some(fault) = self.spec.fault() {
            return Some(LibraryFault::Spec(fault));
        }
        let in_order = |(least, most): (u8, u8)| least > 0 && least <= most;
        if !in_order(self.children) || !in_order(self.minutes) || self.balls.least == 0 || self.balls.share == Some(0) {
            return Some(LibraryFault::Range);
        }
        self.floor.fault()
    }
}

/// What is wrong with a drill of the library.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LibraryFault {
    Spec(DrillFault),
    /// Numbers of children, balls or minutes.
    Range,
    /// A place outside the floor.
    Outside,
    /// A way that begins or ends at no place, or goes nowhere.
    Nowhere,
}

/// The library, in its own order.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Library {
    pub drills: Vec<LibraryDrill>,
}

impl Library {
    pub fn drill(&self, no: LibraryNo) -> Option<&LibraryDrill> {
        self.drills.iter().find(|drill| drill.no == no)
    }

    /// Which drill of the library one of the coach's came from: by its name while it keeps it, else by all the rest. One that was
    /// both renamed and changed is the coach's own.
    pub fn source_of(&self, spec: &DrillSpec) -> Option<&LibraryDrill> {
        let named = self.drills.iter().find(|drill| drill.spec.name == spec.name);
        named.or_else(|| {
            self.drills.iter().find(|drill| DrillSpec { name: spec.name.clone(), ..drill.spec.clone() } == *spec)
        })
    }
}

/// The floor as it is drawn: seen from above, in a frame of [`Floor::WIDTH`] by [`Floor::HEIGHT`].
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Floor {
    pub ground: Ground,
    pub places: Vec<FloorPlace>,
    /// In the order in which they happen.
    pub ways: Vec<FloorWay>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ground {
    /// The whole court, the net across its middle.
    Court,
    /// One half, the net at its far side.
    Half,
    /// Any open floor.
    Open,
    /// Open floor before a wall.
    Wall,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FloorPlace {
    pub x: u16,
    pub y: u16,
    pub who: Who,
}

/// What stands at a place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Who {
    Server,
    Passer,
    Setter,
    /// Catches, or is aimed at.
    Target,
    /// Tosses or rolls the ball in.
    Feeder,
    /// Fetches the balls.
    Getter,
    /// Plays, with no role of its own.
    Player,
    /// Of the other side.
    Other,
    /// A partner who makes a challenge ball of it: by voice and arms alone.
    Distracter,
    /// Comes next.
    Waiting,
    Coach,
    /// A mark on the floor or wall, a hoop, a mat.
    Mark,
    /// Where the balls are kept.
    Store,
}

/// Something that moves, from one place to another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FloorWay {
    /// Indexes into the places.
    pub from: usize,
    pub to: usize,
    pub what: Moves,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Moves {
    Serve,
    Pass,
    Set,
    Toss,
    Roll,
    /// Over the net in play.
    Play,
    /// A child runs.
    Run,
    /// A child carries the ball.
    Carry,
}

impl Moves {
    /// Whether it is a child that moves, and no ball through the air.
    pub const fn on_foot(self) -> bool {
        matches!(self, Moves::Run | Moves::Carry)
    }
}

impl Floor {
    pub const WIDTH: u16 = 240;
    pub const HEIGHT: u16 = 130;
    /// From a place to the edge at least.
    pub const MARGIN: u16 = 8;

    fn fault(&self) -> Option<LibraryFault> {
        let inside = |at: u16, size: u16| (Self::MARGIN..=size - Self::MARGIN).contains(&at);
        if self.places.iter().any(|p| !inside(p.x, Self::WIDTH) || !inside(p.y, Self::HEIGHT)) {
            return Some(LibraryFault::Outside);
        }
        let known = |at: usize| at < self.places.len();
        let leads = |way: &FloorWay| known(way.from) && known(way.to) && way.from != way.to;
        (!self.ways.iter().all(leads)).then_some(LibraryFault::Nowhere)
    }
}
