//! What both sides changed without knowing of each other, and which of the two will count: the one that the fold keeps.

use std::collections::BTreeMap;

use crate::app::words::{counts, ladder, merging};
use crate::domain::drill::DrillSpec;
use crate::domain::entry::{Entry, Fact};
use crate::domain::ids::{
    ContactId, DateId, DrillId, EffortId, EntryId, NoteId, PlanId, PlayerId, PracticeId, RallyId, RunId,
};
use crate::domain::log::Log;
use crate::domain::replay::amend::{Amended, Rank};
use crate::domain::replay::base::{Base, Practice};

/// What is needed to say it.
pub struct Told<'a> {
    /// Of both sides together.
    pub base: &'a Base,
    pub practices: &'a [Practice],
    pub amended: &'a Amended,
    pub called: &'a dyn Fn(PlayerId) -> String,
}

/// What an entry changes. One of them has one content at a time.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Key {
    Child(PlayerId),
    Archived(PlayerId),
    Style(PlayerId),
    Step(DrillId, PlayerId),
    Drill(DrillId),
    DrillAway(DrillId),
    Contact(ContactId),
    Rally(RallyId),
    Effort(EffortId),
    TakenBack(EntryId),
    Note(NoteId),
    Date(DateId),
    Dropped(DateId),
    Plan(PlanId),
    Kinds,
    Wishes,
    Tags,
    Questions(Option<DrillId>),
    Pair(PlayerId, PlayerId),
    Practices(PracticeId, PracticeId),
}

/// What stands of each on one side.
type Standing<'a> = BTreeMap<Key, (Rank, &'a Entry)>;

/// A sentence for each, in a fixed order.
pub fn differing(copy: &[Entry], here: &Log, told: &Told) -> Vec<String> {
    let (ours, theirs) = (standing(here.iter(), told.amended), standing(copy.iter(), told.amended));
    let in_copy = |id: EntryId| copy.binary_search_by(|entry| entry.id.cmp(&id)).is_ok();
    let mut sentences = Vec::new();
    for (key, (our_rank, our)) in &ours {
        let Some((their_rank, their)) = theirs.get(key) else { continue };
        // One who knew the other's word has the later one.
        if our.id == their.id || in_copy(our.id) || here.get(their.id).is_some() {
            continue;
        }
        sentences.extend(told.sentence(*key, our, their, their_rank > our_rank));
    }
    sentences
}

fn standing<'a>(entries: impl Iterator<Item = &'a Entry>, amended: &Amended) -> Standing<'a> {
    let mut standing = Standing::new();
    for entry in entries.filter(|entry| !amended.is_taken_back(entry.id)) {
        for (key, revision) in keys(&entry.fact) {
            let rank = (revision, entry.order());
            if standing.get(&key).is_none_or(|(had, _)| rank > *had) {
                standing.insert(key, (rank, entry));
            }
        }
    }
    standing
}

fn keys(fact: &Fact) -> Vec<(Key, crate::domain::ids::Revision)> {
    let one = match fact {
        Fact::PlayerChanged { player, revision, .. } => (Key::Child(*player), *revision),
        Fact::PlayerArchived { player, revision, .. } => (Key::Archived(*player), *revision),
        Fact::StyleNoted { player, revision, .. } => (Key::Style(*player), *revision),
        Fact::StepNoted { player, drill, revision, .. } => (Key::Step(*drill, *player), *revision),
        Fact::DrillChanged { drill, revision, .. } => (Key::Drill(*drill), *revision),
        Fact::DrillArchived { drill, revision, .. } => (Key::DrillAway(*drill), *revision),
        Fact::ContactsCorrected { changes, .. } => {
            return changes.iter().map(|change| (Key::Contact(change.contact), change.revision)).collect();
        }
        Fact::RallyCorrected { rally, revision, .. } => (Key::Rally(*rally), *revision),
        Fact::EffortCorrected { effort, revision, .. } => (Key::Effort(*effort), *revision),
        Fact::EntryTakenBack { target, revision, .. } => (Key::TakenBack(*target), *revision),
        Fact::NoteChanged { note, revision, .. } => (Key::Note(*note), *revision),
        Fact::DateChanged { date, revision, .. } => (Key::Date(*date), *revision),
        Fact::DateDropped { date, revision, .. } => (Key::Dropped(*date), *revision),
        Fact::PlanChanged { plan, revision, .. } => (Key::Plan(*plan), *revision),
        Fact::EffortKindsChanged { revision, .. } => (Key::Kinds, *revision),
        Fact::WishesChanged { revision, .. } => (Key::Wishes, *revision),
        Fact::NoteTagsChanged { revision, .. } => (Key::Tags, *revision),
        Fact::QuestionsChanged { drill, revision, .. } => (Key::Questions(*drill), *revision),
        Fact::ChildrenJoined { stays: one, also: other, revision }
        | Fact::ChildrenToldApart { one, other, revision } => {
            (Key::Pair((*one).min(*other), (*one).max(*other)), *revision)
        }
        Fact::PracticesJoined { stays: one, also: other, revision }
        | Fact::PracticesToldApart { one, other, revision } => {
            (Key::Practices((*one).min(*other), (*one).max(*other)), *revision)
        }
        _ => return Vec::new(),
    };
    vec![one]
}

impl Told<'_> {
    /// `None` where both say the same.
    fn sentence(&self, key: Key, our: &Entry, their: &Entry, theirs_counts: bool) -> Option<String> {
        let (ours, theirs) = (self.said(key, &our.fact), self.said(key, &their.fact));
        if ours == theirs && !matches!(key, Key::Drill(_)) {
            return None;
        }
        let of = self.named(key);
        if let (Fact::DrillChanged { spec: ours, .. }, Fact::DrillChanged { spec: theirs, .. }) =
            (&our.fact, &their.fact)
        {
            let parts = drill_parts(ours, theirs);
            return (!parts.is_empty()).then(|| merging::drill_differs(&of, &parts, theirs_counts));
        }
        Some(merging::differs(&of, ours.as_deref(), theirs.as_deref(), theirs_counts))
    }

    /// What it is about.
    fn named(&self, key: Key) -> String {
        let child = |id: PlayerId| (self.called)(id);
        let drill = |id: DrillId| self.base.drill(id).map_or_else(String::new, |spec| spec.name.clone());
        match key {
            Key::Child(id) => merging::child_of(&child(id)),
            Key::Archived(id) => merging::place_of(&child(id)),
            Key::Style(id) => merging::style_of(&child(id)),
            Key::Step(of, id) => merging::step_of(&child(id), &drill(of)),
            Key::Drill(id) | Key::DrillAway(id) => merging::drill_of(&drill(id)),
            Key::Contact(_) => merging::A_BALL.to_owned(),
            Key::Rally(_) => merging::A_RALLY.to_owned(),
            Key::Effort(_) => merging::AN_EFFORT.to_owned(),
            Key::TakenBack(_) => merging::TAKEN_BACK.to_owned(),
            Key::Note(_) => merging::A_NOTE.to_owned(),
            Key::Date(_) | Key::Dropped(_) => merging::A_DATE.to_owned(),
            Key::Plan(_) => merging::A_PLAN.to_owned(),
            Key::Kinds => merging::KINDS.to_owned(),
            Key::Wishes => merging::WISHES.to_owned(),
            Key::Tags => merging::TAGS.to_owned(),
            Key::Questions(_) => merging::QUESTIONS.to_owned(),
            Key::Pair(one, other) => merging::pair(&self.entered(one), &self.entered(other)),
            Key::Practices(one, other) => merging::practices(&self.began(one), &self.began(other)),
        }
    }

    /// What a side says of it, where that goes into a few words.
    fn said(&self, key: Key, fact: &Fact) -> Option<String> {
        Some(match (key, fact) {
            (_, Fact::PlayerChanged { name, number, .. }) => crate::app::words::called(name, number.map(|n| n.0), 0),
            (_, Fact::PlayerArchived { archived, .. }) => merging::child_away(*archived).to_owned(),
            (_, Fact::DrillArchived { archived, .. }) => merging::drill_away(*archived).to_owned(),
            (_, Fact::StyleNoted { style, .. }) => counts::style(*style).to_owned(),
            (_, Fact::StepNoted { drill, step, .. }) => ladder::step(&self.base.drill(*drill)?.skill, *step),
            (Key::Contact(contact), Fact::ContactsCorrected { run, changes }) => {
                let change = changes.iter().find(|change| change.contact == contact)?;
                let who = change.player.map_or_else(|| merging::NOBODY.to_owned(), |player| (self.called)(player));
                format!("{}{who}, {}", self.when(*run), counts::outcome(change.outcome))
            }
            (_, Fact::RallyCorrected { won, .. }) => merging::side(*won).to_owned(),
            (_, Fact::EffortCorrected { player, kind, .. }) => {
                let who = player.map_or_else(|| merging::NOBODY.to_owned(), |player| (self.called)(player));
                kind.as_ref().map_or_else(|| who.clone(), |kind| format!("{who}, {kind}"))
            }
            (_, Fact::EntryTakenBack { back, .. }) => merging::back(*back).to_owned(),
            (_, Fact::NoteChanged { changed, .. }) => short(&changed.text),
            (_, Fact::DateChanged { changed, .. }) => {
                counts::day(changed.day, chrono::NaiveDate::MIN) + &merging::hour(changed.start_min)
            }
            (_, Fact::DateDropped { dropped, .. }) => merging::dropped(*dropped).to_owned(),
            (_, Fact::EffortKindsChanged { kinds: list, .. })
            | (_, Fact::NoteTagsChanged { tags: list, .. })
            | (_, Fact::QuestionsChanged { questions: list, .. }) => merging::list(list),
            (_, Fact::ChildrenJoined { stays, .. }) => merging::one_child(&self.entered(*stays)),
            (_, Fact::ChildrenToldApart { .. }) => merging::TWO_CHILDREN.to_owned(),
            (_, Fact::PracticesJoined { stays, .. }) => merging::one_practice(&self.began(*stays)),
            (_, Fact::PracticesToldApart { .. }) => merging::TWO_PRACTICES.to_owned(),
            // A plan, or wishes: too much for a line, and told apart by what they are.
            (_, Fact::PlanChanged { changed, .. }) => merging::plan(changed.parts.len(), changed.gym_min),
            _ => return None,
        })
    }

    /// The practice of a run, before what is said of one of its balls.
    fn when(&self, run: RunId) -> String {
        let practice = self.practices.iter().find(|practice| practice.runs.contains(&run));
        practice.map_or_else(String::new, |practice| format!("{}: ", counts::date_of(practice.started)))
    }

    fn began(&self, id: PracticeId) -> String {
        let practice = self.practices.iter().find(|practice| practice.id == id);
        practice.map_or_else(|| merging::A_PRACTICE.to_owned(), |practice| counts::when_ever(practice.started))
    }

    fn entered(&self, player: PlayerId) -> String {
        self.base.as_entered(player).map_or_else(|| (self.called)(player), |player| player.name)
    }
}

/// Which settings two readings of a drill differ in.
fn drill_parts(ours: &DrillSpec, theirs: &DrillSpec) -> Vec<&'static str> {
    let parts = [
        (ours.name != theirs.name, merging::ITS_NAME),
        (ours.skill != theirs.skill, merging::ITS_SKILL),
        (ours.board != theirs.board, merging::ITS_BOARD),
        (ours.rule != theirs.rule, merging::ITS_RULE),
        (ours.good_from != theirs.good_from, merging::ITS_GOOD),
        (ours.feed != theirs.feed, merging::ITS_FEED),
        (ours.on_floor != theirs.on_floor, merging::ITS_FLOOR),
    ];
    parts.into_iter().filter(|(differ, _)| *differ).map(|(_, part)| part).collect()
}

fn short(text: &str) -> String {
    const MOST: usize = 40;
    let line = text.split_whitespace().collect::<Vec<_>>().join(" ");
    if line.chars().count() <= MOST { line } else { line.chars().take(MOST).chain(['…']).collect() }
}
