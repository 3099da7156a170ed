//! What is known outside the runs: the squad, the drills, the kinds of effort, the practices and who was there.
//! Each fact is a register that the highest rank wins, so the fold is the same whatever the order of arrival.

use std::collections::{BTreeMap, BTreeSet};

use super::super::drill::DrillSpec;
use super::super::entry::{Entry, Fact, Wishes};
use super::super::ids::{
    Clock, DateId, DrillId, EntryId, PlanId, PlayerId, PracticeId, Revision, RunId, ShirtNumber, Step,
};
use super::super::log::Order;
use super::super::plan::Plan;
use super::super::plan::clock::Mark;
use super::super::skill::ServeStyle;
use super::super::time::Stamp;
use super::amend::{Rank, keep_higher};
use super::dates::DateFacts;
use super::joined::Joined;
use super::notes::Noted;
use crate::stats::arrange::arranged;

/// Everything known outside the runs.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Base {
    players: BTreeMap<PlayerId, PlayerFacts>,
    drills: BTreeMap<DrillId, DrillFacts>,
    pub(super) practices: BTreeMap<PracticeId, PracticeFacts>,
    kinds: Option<(Rank, Vec<String>)>,
    wishes: Option<(Rank, Wishes)>,
    steps: BTreeMap<(DrillId, PlayerId), (Rank, Step)>,
    pub(super) plans: BTreeMap<PlanId, (Rank, Plan)>,
    /// In the order of their identity.
    pub(super) dates: Vec<(DateId, DateFacts)>,
    pub(super) noted: Noted,
    pub(super) joined: Joined,
    taken: BTreeMap<EntryId, (Rank, bool)>,
}

/// A child of the squad as it is now.
#[derive(Clone, Debug, PartialEq)]
pub struct Player {
    pub id: PlayerId,
    pub name: String,
    pub number: Option<ShirtNumber>,
    pub archived: bool,
    pub style: Option<ServeStyle>,
}

/// A practice as far as it is known here.
#[derive(Clone, Debug, PartialEq)]
pub struct Practice {
    pub id: PracticeId,
    pub title: String,
    pub started: Stamp,
    pub ended: bool,
    /// Every end that was noted, taken back or not.
    pub endings: Vec<EntryId>,
    pub away: BTreeSet<PlayerId>,
    /// Every time that one was noted away or here, by child, one after another: when by the wall, and whether here.
    pub moves: Vec<(PlayerId, i64, bool)>,
    pub runs: Vec<RunId>,
    /// Who is with whom, as it was made last.
    pub groups: Vec<Vec<PlayerId>>,
    /// The plan it follows: of the part that was begun last.
    pub plan: Option<PlanId>,
    /// Every part that was begun or ended, taken back or not.
    pub marks: Vec<EntryId>,
    /// Every note and question of it, taken back or not.
    pub remarks: Vec<EntryId>,
}

impl Practice {
    /// Whether an entry belongs to this practice. The squad, drills and kinds of effort belong to none: every practice needs them.
    pub fn holds(&self, entry: &Entry) -> bool {
        match &entry.fact {
            Fact::PracticeStarted { .. } => entry.id == self.id.0,
            Fact::Emptied { practice: Some(practice), .. } => *practice == self.id,
            Fact::PracticeEnded { practice }
            | Fact::PresenceNoted { practice, .. }
            | Fact::PartBegun { practice, .. }
            | Fact::PartEnded { practice, .. }
            | Fact::GroupsMade { practice, .. } => *practice == self.id,
            Fact::PlanMade { .. } => self.plan == Some(PlanId(entry.id)),
            Fact::PlanChanged { plan, .. } => self.plan == Some(*plan),
            Fact::NoteWritten { spot, .. } | Fact::QuestionAsked { spot, .. } => self.holds_spot(spot),
            Fact::NoteChanged { note, .. } => self.remarks.contains(&note.0),
            Fact::RunStarted { practice, .. } => *practice == self.id,
            Fact::EntryTakenBack { run: None, target, .. } => {
                self.endings.contains(target) || self.marks.contains(target) || self.remarks.contains(target)
            }
            fact => fact.run(entry.id).is_some_and(|run| self.runs.contains(&run)),
        }
    }
}

#[derive(Clone, Debug, Default, PartialEq)]
struct PlayerFacts {
    named: Option<(Rank, (String, Option<ShirtNumber>))>,
    archived: Option<(Rank, bool)>,
    style: Option<(Rank, ServeStyle)>,
    added: Option<Order>,
}

#[derive(Clone, Debug, Default, PartialEq)]
struct DrillFacts {
    spec: Option<(Rank, DrillSpec)>,
    archived: Option<(Rank, bool)>,
    added: Option<Order>,
}

#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct PracticeFacts {
    pub(super) started: Option<(Stamp, String, Clock)>,
    /// Each end that was noted; a practice opened again may be ended again.
    ended: BTreeSet<Order>,
    presence: BTreeMap<PlayerId, (Rank, bool)>,
    /// All that was noted of it, in this order, however it came in.
    moves: Vec<Moved>,
    runs: BTreeMap<RunId, Clock>,
    groups: Option<(Rank, Vec<Vec<PlayerId>>)>,
    /// Parts begun and ended, with the plan of those that were begun.
    pub(super) marks: BTreeMap<Order, (Mark, Option<PlanId>)>,
    /// Notes and questions, in the order of their identity.
    remarks: BTreeSet<EntryId>,
}

/// Who was noted away or here, by which rank; when by the wall; whether here.
type Moved = ((PlayerId, Rank), i64, bool);

const FIRST: Revision = Revision(0);

impl Base {
    pub fn fold<'a>(entries: impl IntoIterator<Item = &'a Entry>) -> Self {
        let mut base = Base::default();
        for entry in entries {
            base.note(entry);
        }
        base
    }

    /// Takes in one entry; entries of runs leave no mark but the run's own existence.
    pub fn note(&mut self, entry: &Entry) {
        self.note_fact(entry);
        self.note_joined(entry);
    }

    fn note_fact(&mut self, entry: &Entry) {
        let order = entry.order();
        let first = (FIRST, order);
        match &entry.fact {
            Fact::PlayerAdded { name, number } => {
                let facts = self.players.entry(PlayerId(entry.id)).or_default();
                facts.added = Some(order);
                keep_higher(&mut facts.named, first, (name.clone(), *number));
            }
            Fact::PlayerChanged { player, revision, name, number } => {
                let facts = self.players.entry(*player).or_default();
                keep_higher(&mut facts.named, (*revision, order), (name.clone(), *number));
            }
            Fact::PlayerArchived { player, revision, archived } => {
                keep_higher(&mut self.players.entry(*player).or_default().archived, (*revision, order), *archived);
            }
            Fact::StyleNoted { player, revision, style } => {
                keep_higher(&mut self.players.entry(*player).or_default().style, (*revision, order), *style);
            }
            Fact::DrillAdded { spec } => {
                let facts = self.drills.entry(DrillId(entry.id)).or_default();
                facts.added = Some(order);
                keep_higher(&mut facts.spec, first, spec.clone());
            }
            Fact::DrillChanged { drill, revision, spec } => {
                keep_higher(&mut self.drills.entry(*drill).or_default().spec, (*revision, order), spec.clone());
            }
            Fact::DrillArchived { drill, revision, archived } => {
                keep_higher(&mut self.drills.entry(*drill).or_default().archived, (*revision, order), *archived);
            }
            Fact::EffortKindsChanged { revision, kinds } => {
                keep_higher(&mut self.kinds, (*revision, order), kinds.clone());
            }
            Fact::WishesChanged { revision, wishes } => {
                keep_higher(&mut self.wishes, (*revision, order), wishes.clone());
            }
            Fact::StepNoted { player, drill, revision, step } => {
                let mut slot = self.steps.remove(&(*drill, *player));
                keep_higher(&mut slot, (*revision, order), *step);
                if let Some(won) = slot {
                    self.steps.insert((*drill, *player), won);
                }
            }
            Fact::GroupsMade { practice, groups, .. } => {
                keep_higher(&mut self.practices.entry(*practice).or_default().groups, first, groups.clone());
            }
            Fact::PlanMade { plan } => keep_plan(&mut self.plans, PlanId(entry.id), first, plan),
            Fact::PlanChanged { plan, revision, changed } => {
                keep_plan(&mut self.plans, *plan, (*revision, order), changed);
            }
            Fact::PartBegun { practice, plan, part, title } => {
                let mark = Mark { id: entry.id, at: entry.at, part: *part, title: title.clone(), ends: false };
                self.practices.entry(*practice).or_default().marks.insert(order, (mark, Some(*plan)));
            }
            Fact::PartEnded { practice, part } => {
                let mark = Mark { id: entry.id, at: entry.at, part: *part, title: String::new(), ends: true };
                self.practices.entry(*practice).or_default().marks.insert(order, (mark, None));
            }
            Fact::PracticeStarted { title } => {
                let facts = self.practices.entry(PracticeId(entry.id)).or_default();
                facts.started = Some((entry.at, title.clone(), entry.clock));
            }
            Fact::PracticeEnded { practice } => {
                self.practices.entry(*practice).or_default().ended.insert(order);
            }
            Fact::PresenceNoted { practice, player, revision, here } => {
                let facts = self.practices.entry(*practice).or_default();
                let at = (*player, (*revision, order));
                if let Err(place) = facts.moves.binary_search_by(|(had, ..)| had.cmp(&at)) {
                    facts.moves.insert(place, (at, entry.at.wall_ms, *here));
                }
                let mut slot = facts.presence.remove(player);
                keep_higher(&mut slot, (*revision, order), *here);
                if let Some(won) = slot {
                    facts.presence.insert(*player, won);
                }
            }
            Fact::RunStarted { practice, .. } => {
                self.practices.entry(*practice).or_default().runs.insert(RunId(entry.id), entry.clock);
            }
            Fact::EntryTakenBack { run: None, target, revision, back } => {
                let mut slot = self.taken.remove(target);
                keep_higher(&mut slot, (*revision, order), *back);
                if let Some(won) = slot {
                    self.taken.insert(*target, won);
                }
            }
            Fact::NoteWritten { spot, .. } | Fact::QuestionAsked { spot, .. } => {
                if let Some(practice) = spot.practice {
                    self.practices.entry(practice).or_default().remarks.insert(entry.id);
                }
                self.noted.note(entry);
            }
            Fact::NoteChanged { .. } | Fact::NoteTagsChanged { .. } | Fact::QuestionsChanged { .. } => {
                self.noted.note(entry);
            }
            _ => self.note_date(entry),
        }
    }

    /// Children in the order in which they were added; archived ones too. One without a name yet (its entry is still on
    /// another phone) is left out, and so is one that another stays for.
    pub fn players(&self) -> Vec<Player> {
        let known: Vec<(Option<Order>, Player)> = self
            .players
            .iter()
            .filter_map(|(id, f)| Some((f.added, self.player(*id).filter(|p| p.id == *id)?)))
            .collect();
        let when = |(added, p): &(Option<Order>, Player)| (added.is_none(), *added, p.id);
        arranged(known, |a, b| when(a).cmp(&when(b))).into_iter().map(|(_, p)| p).collect()
    }

    /// The child as it is now; of one that another stays for, that other.
    pub fn player(&self, id: PlayerId) -> Option<Player> {
        let id = self.same().of(id);
        self.as_entered(id).map(|player| Player { style: self.style_of(id), ..player })
    }

    /// The child as it was entered, whoever stays for it.
    pub fn as_entered(&self, id: PlayerId) -> Option<Player> {
        player(id, self.players.get(&id)?)
    }

    /// Every child as it was entered, those too that another stays for, in the order of identity.
    pub fn ever_entered(&self) -> Vec<Player> {
        self.players.iter().filter_map(|(id, facts)| player(*id, facts)).collect()
    }

    pub(super) fn is_known(&self, id: PlayerId) -> bool {
        self.players.get(&id).is_some_and(|facts| facts.named.is_some())
    }

    pub fn style_of(&self, id: PlayerId) -> Option<ServeStyle> {
        self.style_facts(id).map(|(_, style)| style)
    }

    /// What was noted last, under whichever of its identities.
    fn style_facts(&self, id: PlayerId) -> Option<(Rank, ServeStyle)> {
        highest(self.all_of(id).filter_map(|id| self.players.get(&id)?.style))
    }

    /// The one that stays for a child, and all that are meant by it.
    fn all_of(&self, id: PlayerId) -> impl Iterator<Item = PlayerId> {
        self.same().all(self.same().of(id))
    }

    /// Drills in the order in which they were added, archived ones left out.
    pub fn drills(&self) -> Vec<(DrillId, &DrillSpec)> {
        self.drills_that(false)
    }

    /// The archived ones, in the same order.
    pub fn drills_away(&self) -> Vec<(DrillId, &DrillSpec)> {
        self.drills_that(true)
    }

    fn drills_that(&self, are_archived: bool) -> Vec<(DrillId, &DrillSpec)> {
        let known: Vec<(Option<Order>, DrillId, &DrillSpec)> = self
            .drills
            .iter()
            .filter(|(_, f)| f.archived.as_ref().is_some_and(|(_, a)| *a) == are_archived)
            .filter_map(|(id, f)| Some((f.added, *id, &f.spec.as_ref()?.1)))
            .collect();
        let when = |(added, id, _): &(Option<Order>, DrillId, &DrillSpec)| (added.is_none(), *added, *id);
        arranged(known, |a, b| when(a).cmp(&when(b))).into_iter().map(|(_, id, spec)| (id, spec)).collect()
    }

    pub fn drill(&self, id: DrillId) -> Option<&DrillSpec> {
        self.drills.get(&id)?.spec.as_ref().map(|(_, s)| s)
    }

    /// The coach's kinds of effort, if she has changed them.
    pub fn effort_kinds(&self) -> Option<&[String]> {
        self.kinds.as_ref().map(|(_, kinds)| kinds.as_slice())
    }

    /// What the coach wishes of groups.
    pub fn wishes(&self) -> Wishes {
        let mut wishes = self.wishes.as_ref().map(|(_, wishes)| wishes.clone()).unwrap_or_default();
        let same = self.same();
        if !same.is_empty() {
            wishes.together.iter_mut().for_each(|set| same.list(set));
            wishes.apart = wishes.apart.into_iter().map(|pair| pair.map(|p| same.of(p))).collect();
            // Two who turned out to be one are no pair.
            wishes.together.retain(|set| set.len() > 1);
            wishes.apart.retain(|[one, other]| one != other);
            same.list(&mut wishes.tagged);
        }
        wishes
    }

    pub fn next_wishes_revision(&self) -> Revision {
        after(self.wishes.as_ref().map(|(rank, _)| rank.0))
    }

    /// The child's own step on the ladder of a drill.
    pub fn step_of(&self, drill: DrillId, player: PlayerId) -> Option<Step> {
        self.step_facts(drill, player).map(|(_, step)| step)
    }

    fn step_facts(&self, drill: DrillId, player: PlayerId) -> Option<(Rank, Step)> {
        highest(self.all_of(player).filter_map(|player| self.steps.get(&(drill, player)).copied()))
    }

    pub fn next_step_revision(&self, drill: DrillId, player: PlayerId) -> Revision {
        after(self.step_facts(drill, player).map(|(rank, _)| rank.0))
    }

    /// Practices, the latest first.
    pub fn practices(&self) -> Vec<Practice> {
        let known: Vec<(Clock, Practice)> = self
            .practices
            .iter()
            .filter_map(|(id, f)| {
                let (_, _, clock) = f.started.as_ref()?;
                Some((*clock, self.practice(*id)?))
            })
            .collect();
        let known = arranged(known, |(a, p), (b, q)| (q.started.wall_ms, b, q.id).cmp(&(p.started.wall_ms, a, p.id)));
        known.into_iter().map(|(_, p)| p).collect()
    }

    pub fn practice(&self, id: PracticeId) -> Option<Practice> {
        let facts = self.practices.get(&id)?;
        let (started, title, _) = facts.started.as_ref()?;
        let mut runs: Vec<(Clock, RunId)> = facts.runs.iter().map(|(run, clock)| (*clock, *run)).collect();
        runs.retain(|(_, run)| !self.is_taken_back(run.0));
        let runs: Vec<RunId> = arranged(runs, Ord::cmp).into_iter().map(|(_, run)| run).collect();
        let mut remarks = facts.remarks.clone();
        remarks.extend(self.noted.of_runs_alone(&runs));
        let mut away = BTreeSet::new();
        let is_away = |player: PlayerId| self.presence_facts(facts, player).is_some_and(|(_, here)| !here);
        away.extend(facts.presence.keys().map(|player| self.same().of(*player)).filter(|player| is_away(*player)));
        let moves = facts.moves.iter().map(|((player, rank), ms, here)| ((self.same().of(*player), *rank), *ms, *here));
        let moves = arranged(moves.collect(), |a: &Moved, b| a.0.cmp(&b.0));
        let mut groups = facts.groups.as_ref().map(|(_, groups)| groups.clone()).unwrap_or_default();
        self.same().lists(&mut groups);
        Some(Practice {
            id,
            title: title.clone(),
            started: *started,
            ended: facts.ended.iter().any(|end| !self.is_taken_back(end.id)),
            endings: facts.ended.iter().map(|end| end.id).collect(),
            away,
            moves: moves.into_iter().map(|((player, _), wall_ms, here)| (player, wall_ms, here)).collect(),
            runs,
            groups,
            plan: self.plan_followed(facts),
            marks: facts.marks.keys().map(|order| order.id).collect(),
            remarks: remarks.into_iter().collect(),
        })
    }

    /// The entry that ended a practice and stands: taking it back opens the practice again, unless another (two phones ended
    /// it) then stands here.
    pub fn ended_by(&self, id: PracticeId) -> Option<EntryId> {
        self.practices.get(&id)?.ended.iter().rev().map(|end| end.id).find(|end| !self.is_taken_back(*end))
    }

    pub fn is_taken_back(&self, id: EntryId) -> bool {
        self.taken.get(&id).is_some_and(|(_, back)| *back)
    }

    pub fn next_take_back(&self, id: EntryId) -> Revision {
        after(self.taken.get(&id).map(|(rank, _)| rank.0))
    }

    pub fn next_player_revision(&self, id: PlayerId) -> Revision {
        let id = self.same().of(id);
        let facts = self.players.get(&id);
        let named = facts.and_then(|f| f.named.as_ref()).map(|(rank, _)| rank.0);
        after(named.max(facts.and_then(|f| f.archived.as_ref()).map(|(rank, _)| rank.0)))
    }

    pub fn next_style_revision(&self, id: PlayerId) -> Revision {
        after(self.style_facts(id).map(|(rank, _)| rank.0))
    }

    pub fn next_presence_revision(&self, practice: PracticeId, player: PlayerId) -> Revision {
        let facts = self.practices.get(&practice).and_then(|facts| self.presence_facts(facts, player));
        after(facts.map(|(rank, _)| rank.0))
    }

    fn presence_facts(&self, facts: &PracticeFacts, player: PlayerId) -> Option<(Rank, bool)> {
        highest(self.all_of(player).filter_map(|player| facts.presence.get(&player).copied()))
    }

    pub fn next_drill_revision(&self, id: DrillId) -> Revision {
        let facts = self.drills.get(&id);
        let spec = facts.and_then(|f| f.spec.as_ref()).map(|(rank, _)| rank.0);
        after(spec.max(facts.and_then(|f| f.archived.as_ref()).map(|(rank, _)| rank.0)))
    }

    pub fn next_kinds_revision(&self) -> Revision {
        after(self.kinds.as_ref().map(|(rank, _)| rank.0))
    }
}

fn keep_plan(plans: &mut BTreeMap<PlanId, (Rank, Plan)>, id: PlanId, rank: Rank, plan: &Plan) {
    if plans.get(&id).is_none_or(|(had, _)| rank > *had) {
        plans.insert(id, (rank, plan.clone()));
    }
}

/// The register that wins among those of one child.
fn highest<T: Copy>(registers: impl Iterator<Item = (Rank, T)>) -> Option<(Rank, T)> {
    let mut won = None;
    registers.for_each(|(rank, value)| keep_higher(&mut won, rank, value));
    won
}

pub(super) fn after(had: Option<Revision>) -> Revision {
    Revision(had.map_or(1, |r| r.0.saturating_add(1)))
}

fn player(id: PlayerId, facts: &PlayerFacts) -> Option<Player> {
    let (name, number) = facts.named.as_ref().map(|(_, named)| named.clone())?;
    Some(Player {
        id,
        name,
        number,
        archived: facts.archived.as_ref().is_some_and(|(_, a)| *a),
        style: facts.style.as_ref().map(|(_, s)| *s),
    })
}
