//! Squad, drills and practices: registers that the highest (revision, clock, identity) wins, in any order of arrival.

use chrono::{Days, NaiveDate};
use peppertally::domain::calendar::PracticeDate;
use peppertally::domain::drill::DrillSpec;
use peppertally::domain::entry::{Entry, Fact, Lineup};
use peppertally::domain::ids::{
    DateId, DrillId, EntryId, NoteId, PartNo, PlanId, PlayerId, PracticeId, Revision, RunId, ShirtNumber,
};
use peppertally::domain::notes::{Asked, Note, NoteAbout, Spot};
use peppertally::domain::plan::Plan;
use peppertally::domain::replay::base::Base;
use peppertally::domain::skill::ServeStyle;
use proptest::prelude::*;

use crate::support::{Page, run_started, shuffled};

/// Any fact outside the runs, about anything, here or not.
fn facts() -> impl Strategy<Value = Fact> {
    let id = || (1..4u64, 0..12u32).prop_map(|(series, no)| EntryId::new(series, no));
    let revision = || (0..4u32).prop_map(Revision);
    let name = || "[a-z]{1,3}";
    let date = || {
        (0..9u64, 0..3u16).prop_map(|(day, start_min)| PracticeDate {
            day: NaiveDate::default() + Days::new(day),
            start_min,
            minutes: 90,
            place: String::new(),
        })
    };
    let drills = DrillSpec::starters(|n| format!("Drill {n}"));
    let spec = || prop::sample::select(drills.clone());
    prop_oneof![
        (name(), 0..99u16).prop_map(|(name, n)| Fact::PlayerAdded { name, number: (n > 50).then_some(ShirtNumber(n)) }),
        (id(), revision(), name()).prop_map(|(id, revision, name)| Fact::PlayerChanged {
            player: PlayerId(id),
            revision,
            name,
            number: None
        }),
        (id(), revision(), any::<bool>()).prop_map(|(id, revision, archived)| Fact::PlayerArchived {
            player: PlayerId(id),
            revision,
            archived
        }),
        (id(), revision(), prop::sample::select(ServeStyle::ALL.to_vec()))
            .prop_map(|(id, revision, style)| { Fact::StyleNoted { player: PlayerId(id), revision, style } }),
        (id(), id(), revision()).prop_map(|(stays, also, revision)| Fact::ChildrenJoined {
            stays: PlayerId(stays),
            also: PlayerId(also),
            revision
        }),
        (id(), id(), revision()).prop_map(|(one, other, revision)| Fact::ChildrenToldApart {
            one: PlayerId(one),
            other: PlayerId(other),
            revision
        }),
        (id(), id(), revision()).prop_map(|(stays, also, revision)| Fact::PracticesJoined {
            stays: PracticeId(stays),
            also: PracticeId(also),
            revision
        }),
        (id(), id(), revision()).prop_map(|(one, other, revision)| Fact::PracticesToldApart {
            one: PracticeId(one),
            other: PracticeId(other),
            revision
        }),
        spec().prop_map(|spec| Fact::DrillAdded { spec }),
        (id(), revision(), spec()).prop_map(|(id, revision, spec)| Fact::DrillChanged {
            drill: DrillId(id),
            revision,
            spec
        }),
        (id(), revision(), any::<bool>()).prop_map(|(id, revision, archived)| Fact::DrillArchived {
            drill: DrillId(id),
            revision,
            archived
        }),
        (revision(), prop::collection::vec(name(), 0..3))
            .prop_map(|(revision, kinds)| Fact::EffortKindsChanged { revision, kinds }),
        (0..9u16).prop_map(|gym_min| Fact::PlanMade { plan: Plan { gym_min, ..Plan::new() } }),
        (id(), revision(), 0..9u16).prop_map(|(plan, revision, gym_min)| Fact::PlanChanged {
            plan: PlanId(plan),
            revision,
            changed: Plan { gym_min, ..Plan::new() }
        }),
        (id(), id(), 0..4u32).prop_map(|(practice, plan, part)| Fact::PartBegun {
            practice: PracticeId(practice),
            plan: PlanId(plan),
            part: PartNo(part),
            title: String::new()
        }),
        (id(), 0..4u32)
            .prop_map(|(practice, part)| Fact::PartEnded { practice: PracticeId(practice), part: PartNo(part) }),
        date().prop_map(|date| Fact::DateSet { date }),
        (id(), revision(), date()).prop_map(|(id, revision, changed)| Fact::DateChanged {
            date: DateId(id),
            revision,
            changed
        }),
        (id(), revision(), any::<bool>()).prop_map(|(id, revision, dropped)| Fact::DateDropped {
            date: DateId(id),
            revision,
            dropped
        }),
        (id(), revision(), prop::option::of(id())).prop_map(|(id, revision, plan)| Fact::DatePlanned {
            date: DateId(id),
            revision,
            plan: plan.map(PlanId)
        }),
        (id(), revision(), prop::option::of(id())).prop_map(|(id, revision, practice)| Fact::DateHeld {
            date: DateId(id),
            revision,
            practice: practice.map(PracticeId)
        }),
        (id(), name()).prop_map(|(practice, text)| Fact::NoteWritten {
            spot: Spot { practice: Some(PracticeId(practice)), ..Spot::default() },
            note: Note { about: NoteAbout::Practice, tags: Vec::new(), text }
        }),
        (id(), name()).prop_map(|(run, text)| Fact::NoteWritten {
            spot: Spot { run: Some(RunId(run)), ..Spot::default() },
            note: Note { about: NoteAbout::Run, tags: Vec::new(), text }
        }),
        (id(), revision(), name()).prop_map(|(note, revision, text)| Fact::NoteChanged {
            note: NoteId(note),
            revision,
            changed: Note { about: NoteAbout::Part, tags: Vec::new(), text }
        }),
        (id(), id(), name()).prop_map(|(practice, player, question)| Fact::QuestionAsked {
            spot: Spot { practice: Some(PracticeId(practice)), ..Spot::default() },
            asked: Asked { player: PlayerId(player), question }
        }),
        (revision(), prop::collection::vec(name(), 0..3))
            .prop_map(|(revision, tags)| Fact::NoteTagsChanged { revision, tags }),
        (prop::option::of(id()), revision(), name()).prop_map(|(drill, revision, question)| Fact::QuestionsChanged {
            drill: drill.map(DrillId),
            revision,
            questions: vec![question]
        }),
        name().prop_map(|title| Fact::PracticeStarted { title }),
        id().prop_map(|id| Fact::PracticeEnded { practice: PracticeId(id) }),
        (id(), id(), revision(), any::<bool>()).prop_map(|(practice, player, revision, here)| Fact::PresenceNoted {
            practice: PracticeId(practice),
            player: PlayerId(player),
            revision,
            here
        }),
        spec().prop_map(|spec| run_started(&spec, Lineup::default())),
        (id(), revision(), any::<bool>()).prop_map(|(target, revision, back)| Fact::EntryTakenBack {
            run: None,
            target,
            revision,
            back
        }),
    ]
}

fn written(facts: Vec<(usize, Fact)>) -> Vec<Entry> {
    let mut pages = [Page::new(3, 0), Page::new(1, 40), Page::new(2, 5)];
    facts.into_iter().map(|(page, fact)| pages[page].write(fact)).collect()
}

proptest! {
    #[test]
    fn any_order_of_arrival_gives_the_same_squad(facts in prop::collection::vec((0..3usize, facts()), 0..60), seed: u64) {
        let log = written(facts);
        let (mut one, two) = (Base::fold(&log), Base::fold(&shuffled(&log, seed)));
        prop_assert_eq!(&one, &two);
        prop_assert_eq!(one.players(), two.players());
        prop_assert_eq!(one.pairs(), two.pairs());
        prop_assert_eq!(one.drills(), two.drills());
        prop_assert_eq!(one.practices(), two.practices());
        prop_assert_eq!(one.dates_ever(), two.dates_ever());
        prop_assert_eq!(one.plan_waiting(), two.plan_waiting());
        // A plan that waits is no date's.
        let waits = one.plan_waiting();
        prop_assert!(one.dates().iter().all(|dated| dated.dropped || waits.is_none() || dated.plan != waits));
        prop_assert_eq!(one.remarks(|_| true), two.remarks(|_| true));
        // What arrives twice changes nothing, and neither does what is not known.
        let unknown = Fact::Unknown { kind: "Newer".to_owned(), body: "{}".into() };
        for entry in log.iter().chain([&Page::new(8, 0).write(unknown)]) {
            one.note(entry);
        }
        prop_assert_eq!(one, two);
    }

    /// What was written with the next revision stands, wherever the clocks are.
    #[test]
    fn the_last_change_on_one_phone_stands(facts in prop::collection::vec((0..3usize, facts()), 1..60)) {
        let mut log = written(facts);
        let mut page = Page::new(0, 0);
        let base = Base::fold(&log);
        for player in base.players() {
            let revision = base.next_player_revision(player.id);
            let name = "Renamed".to_owned();
            log.push(page.write(Fact::PlayerChanged { player: player.id, revision, name, number: None }));
        }
        let renamed = Base::fold(&log);
        prop_assert!(renamed.players().iter().all(|p| p.name == "Renamed"));
        prop_assert_eq!(renamed.players().len(), base.players().len());
    }
}

fn take_back(base: &Base, target: EntryId) -> Fact {
    Fact::EntryTakenBack { run: None, target, revision: base.next_take_back(target), back: true }
}

/// Found in review: only the highest identity among the ends was asked whether it stood, so a practice that was opened again
/// and ended by a later page with a lower series stayed open for ever.
#[test]
fn a_practice_opened_again_can_be_ended_again() {
    let (mut first, mut later) = (Page::new(9, 0), Page::new(3, 10));
    let start = first.write(Fact::PracticeStarted { title: String::new() });
    let practice = PracticeId(start.id);
    let mut base = Base::fold([&start]);
    let ended = |base: &Base| base.practice(practice).map(|p| p.ended);
    base.note(&first.write(Fact::PracticeEnded { practice }));
    assert_eq!(ended(&base), Some(true));
    let end = base.ended_by(practice).unwrap();
    base.note(&first.write(take_back(&base, end)));
    assert_eq!((ended(&base), base.ended_by(practice)), (Some(false), None));
    base.note(&later.write(Fact::PracticeEnded { practice }));
    assert_eq!(ended(&base), Some(true));
    let end = base.ended_by(practice).unwrap();
    base.note(&later.write(take_back(&base, end)));
    assert_eq!(ended(&base), Some(false));
}

#[test]
fn a_run_taken_back_leaves_the_practice() {
    let mut page = Page::new(9, 0);
    // The tests' runs belong to the practice of (9, 0).
    let start = page.write(Fact::PracticeStarted { title: String::new() });
    let run = page.write(run_started(&DrillSpec::starters(|n| format!("Drill {n}"))[0], Lineup::default()));
    let mut base = Base::fold([&start, &run]);
    assert_eq!(base.practice(PracticeId(start.id)).unwrap().runs.len(), 1);
    base.note(&page.write(take_back(&base, run.id)));
    assert_eq!(base.practice(PracticeId(start.id)).unwrap().runs.len(), 0);
}

/// Found in review: what a date said of its plan depended on whether the practice that had begun it was in memory. A plan that isn't here lies
/// packed with a practice: the date's own where one is noted.
#[test]
fn a_plan_that_is_not_here_is_no_dates() {
    let mut page = Page::new(1, 0);
    let day = NaiveDate::from_ymd_opt(2026, 12, 1).expect("a day");
    let date = PracticeDate { day, start_min: 1050, minutes: 90, place: String::new() };
    let set = page.write(Fact::DateSet { date });
    let date = DateId(set.id);
    let made = page.write(Fact::PlanMade { plan: Plan::new() });
    let (plan, practice) = (PlanId(made.id), PracticeId(EntryId::new(7, 7)));
    let planned = page.write(Fact::DatePlanned { date, revision: Revision(1), plan: Some(plan) });
    let of = |log: &[&Entry]| Base::fold(log.iter().copied()).date(date).expect("the date").plan;
    assert_eq!(of(&[&set, &planned, &made]), Some(plan));
    assert_eq!(of(&[&set, &planned]), None);
    let begun = page.write(Fact::PartBegun { practice, plan, part: PartNo(0), title: String::new() });
    assert_eq!(of(&[&set, &planned, &made, &begun]), None, "another practice's, here or packed");
    let held = page.write(Fact::DateHeld { date, revision: Revision(2), practice: Some(practice) });
    assert_eq!(of(&[&set, &planned, &made, &begun, &held]), Some(plan));
    assert_eq!(of(&[&set, &planned, &held]), Some(plan));
    let none = page.write(Fact::DateHeld { date, revision: Revision(3), practice: None });
    assert_eq!(of(&[&set, &planned, &held, &none]), None);
}
