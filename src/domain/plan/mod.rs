//! The plan of a practice: parts in order with their minutes. A plan is a value; changing it is an entry with the whole of it. Here stands
//! what it is and what its minutes add up to; what one can expect of it is in `expect`, what is left of it in `clock` and `refit`.

pub mod clock;
pub mod expect;
pub mod fault;
pub mod next;
pub mod propose;
pub mod refit;

use super::drill::{Board, DrillSpec, OnFloor, Rule};
use super::ids::{DrillId, PartNo, PlanId, SeriesId};
use super::skill::Skill;

/// A plan as it stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Plan {
    /// How long the gym is ours.
    pub gym_min: u16,
    /// To bring the balls back once all are used.
    pub collect_s: u16,
    /// The number of the next part: none is ever used twice, so a part that was begun and then taken out is never another.
    pub next_no: u16,
    pub parts: Vec<PlanPart>,
}

/// One piece of a practice.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlanPart {
    pub no: PartNo,
    pub kind: PartKind,
    /// As it was called when it was planned.
    pub title: String,
    pub minutes: u16,
    pub drill: Option<DrillId>,
    /// Groups at once, each with a source of balls of its own; `None`: as the drill has it.
    pub groups: Option<u8>,
    /// `None`: all there are.
    pub balls: Option<u8>,
    /// Balls a minute from one source; `None`: as this squad had it, or as is common.
    pub feeds: Option<u8>,
    /// Stays as long as it is, whatever overruns.
    pub locked: bool,
    pub ball: bool,
    pub net: bool,
    pub game: bool,
    /// Put in while practice was on: nobody had planned it.
    pub added: bool,
    pub fitted: Fitted,
    /// Why it was proposed, as it was said; empty where the coach put it in.
    pub why: String,
}

/// What became of its minutes when the parts before it took longer.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Fitted {
    #[default]
    AsPlanned,
    To(u16),
    Dropped,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PartKind {
    /// Played while children arrive.
    Arrival,
    Drill,
    Break,
    /// A talk, a warm-up: whatever is no drill.
    Other,
}

/// The plan of a practice as it stands, and of each part that was begun how long it went on; `None` where nobody noted its end.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlanDone {
    pub id: PlanId,
    pub plan: Plan,
    pub done: Vec<(PartNo, Option<u32>)>,
    /// What was begun and then taken out of the plan, as it was called.
    pub out: Vec<(PartNo, String)>,
}

/// Minutes of a plan by what is there in them.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Minutes {
    pub all: u16,
    pub ball: u16,
    pub net: u16,
    pub game: u16,
    pub breaks: u16,
    /// Neither a ball nor a break.
    pub without: u16,
}

impl Plan {
    pub const GYM_MIN: u16 = 90;
    pub const COLLECT_S: u16 = 40;
    /// More parts than anyone can run.
    pub const MOST_PARTS: usize = 40;
    pub const MOST_MIN: u16 = 600;

    pub fn new() -> Plan {
        Plan { gym_min: Self::GYM_MIN, collect_s: Self::COLLECT_S, next_no: 0, parts: Vec::new() }
    }

    pub fn part(&self, no: PartNo) -> Option<&PlanPart> {
        self.parts.iter().find(|part| part.no == no)
    }

    pub fn part_mut(&mut self, no: PartNo) -> Option<&mut PlanPart> {
        self.parts.iter_mut().find(|part| part.no == no)
    }

    pub fn place_of(&self, no: PartNo) -> Option<usize> {
        self.parts.iter().position(|part| part.no == no)
    }

    /// Puts a part at this place, under a number of its own, in a plan that nobody else has yet.
    pub fn put(&mut self, at: usize, part: PlanPart) -> PartNo {
        self.put_by(SeriesId(0), at, part)
    }

    /// The same in a plan that another phone may be changing too.
    pub fn put_by(&mut self, page: SeriesId, at: usize, part: PlanPart) -> PartNo {
        let no = PartNo::new(self.next_no, page);
        self.next_no = self.next_no.saturating_add(1);
        self.parts.insert(at.min(self.parts.len()), PlanPart { no, ..part });
        no
    }

    /// Moves a part to this place among the others.
    pub fn moved(&mut self, no: PartNo, to: usize) {
        let Some(at) = self.place_of(no) else { return };
        let part = self.parts.remove(at);
        self.parts.insert(to.min(self.parts.len()), part);
    }

    pub fn minutes(&self) -> Minutes {
        self.parts.iter().fold(Minutes::default(), |sum, part| {
            let n = part.minutes_now();
            let add = |had: u16, on: bool| if on { had.saturating_add(n) } else { had };
            Minutes {
                all: add(sum.all, true),
                ball: add(sum.ball, part.ball),
                net: add(sum.net, part.net),
                game: add(sum.game, part.game),
                breaks: add(sum.breaks, part.kind == PartKind::Break),
                without: add(sum.without, !part.ball && part.kind != PartKind::Break),
            }
        })
    }

    pub fn is_full(&self) -> bool {
        self.parts.len() >= Self::MOST_PARTS
    }

    /// Nobody planned it: it was written as practice went on.
    pub fn grew(&self) -> bool {
        self.parts.iter().all(|part| part.added)
    }
}

/// Time that really went by in the parts that were begun, as far as their ends were noted, by what was there in them.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Spent {
    pub all_ms: u64,
    pub ball_ms: u64,
    /// Neither a ball nor a break.
    pub without_ms: u64,
}

impl PlanDone {
    pub fn spent(&self) -> Spent {
        let mut spent = Spent::default();
        for (no, ms) in &self.done {
            // What was taken out of the plan says no longer whether it had a ball.
            let (Some(part), Some(ms)) = (self.plan.part(*no), ms.map(u64::from)) else { continue };
            spent.all_ms += ms;
            spent.ball_ms += if part.ball { ms } else { 0 };
            spent.without_ms += if !part.ball && part.kind != PartKind::Break { ms } else { 0 };
        }
        spent
    }

    /// The same for another practice: as planned, with nothing of how it was fitted. Of one that grew, what was done, as long as it took.
    pub fn again(&self) -> Plan {
        let mut plan = Plan { next_no: 0, parts: Vec::new(), ..self.plan };
        let grew = self.plan.grew();
        for part in self.plan.parts.iter().filter(|part| grew || !part.added) {
            let took = self.done.iter().find(|(no, _)| grew && *no == part.no).and_then(|(_, ms)| *ms);
            let fresh = PlanPart {
                minutes: took.map_or(part.minutes, whole_minutes),
                added: false,
                fitted: Fitted::AsPlanned,
                why: String::new(),
                ..part.clone()
            };
            plan.put(usize::MAX, fresh);
        }
        plan
    }
}

/// To the nearest, and never none of what was begun.
fn whole_minutes(ms: u32) -> u16 {
    u16::try_from((ms.saturating_add(30_000) / 60_000).max(1)).unwrap_or(Plan::MOST_MIN).min(Plan::MOST_MIN)
}

impl PartKind {
    /// How long one lasts as it is put in, or proposed.
    pub const fn minutes(self) -> u16 {
        match self {
            PartKind::Arrival => 8,
            PartKind::Drill => 15,
            PartKind::Break => 3,
            PartKind::Other => 5,
        }
    }
}

impl Default for Plan {
    fn default() -> Self {
        Plan::new()
    }
}

impl PlanPart {
    /// A part without a drill, as it is put in.
    pub fn plain(kind: PartKind, title: String, minutes: u16) -> PlanPart {
        let arrival = kind == PartKind::Arrival;
        PlanPart {
            no: PartNo(0),
            kind,
            title,
            minutes,
            drill: None,
            groups: None,
            balls: None,
            feeds: None,
            locked: false,
            ball: arrival,
            net: arrival,
            game: arrival,
            added: false,
            fitted: Fitted::AsPlanned,
            why: String::new(),
        }
    }

    /// A drill, with what its kind says of ball, net and game.
    pub fn of_drill(id: DrillId, spec: &DrillSpec, minutes: u16) -> PlanPart {
        let game = spec.rule.is_game() || spec.rule.transition().is_some() || receives(spec);
        PlanPart {
            drill: Some(id),
            ball: true,
            net: game || spec.skill == Skill::Serve,
            game,
            ..PlanPart::plain(PartKind::Drill, spec.name.clone(), minutes)
        }
    }

    pub fn minutes_now(&self) -> u16 {
        match self.fitted {
            Fitted::AsPlanned => self.minutes,
            Fitted::To(n) => n,
            Fitted::Dropped => 0,
        }
    }

    pub fn is_dropped(&self) -> bool {
        self.fitted == Fitted::Dropped
    }

    /// The drill as this part uses it: its own number of groups.
    pub fn spec_of(&self, spec: &DrillSpec) -> DrillSpec {
        let groups = self.groups.filter(|_| !spec.rule.is_game()).or(spec.on_floor.groups);
        DrillSpec { on_floor: OnFloor { groups, ..spec.on_floor }, ..spec.clone() }
    }
}

fn receives(spec: &DrillSpec) -> bool {
    matches!(spec.board, Board::ServeFloor { receiver: true, .. } | Board::ServeLine { receiver: true, .. })
}

/// Children that a drill is made for: with fewer, places stay empty.
pub fn made_for(spec: &DrillSpec) -> usize {
    let on_floor = super::roles::standing(spec);
    let beside = on_floor.n_feeders + u8::from(on_floor.target) + on_floor.n_getters;
    match (spec.board, spec.rule) {
        (_, Rule::MatchGame(game)) => usize::from(game.a_side) * 2,
        (_, Rule::WinnersStay(game)) => usize::from(game.a_side) * 2,
        (Board::Floor { n_places }, _) => usize::from(n_places + beside),
        (Board::ServeFloor { n_places, .. }, _) => usize::from(n_places),
        _ => usize::from(spec.on_floor.groups.unwrap_or(0)) * 2,
    }
}
