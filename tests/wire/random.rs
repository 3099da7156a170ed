//! Any entry that the domain's types can hold, within the rules for files: what the properties are tried on.

use super::samples::{self, GOOD_FROM, ROLES};
use super::{in_match, play};
use peppertally::domain::calendar::PracticeDate;
use peppertally::domain::drill::{Board, DrillSpec, DuelBetween, LineOrder, Rule, Transition, TransitionEnd};
use peppertally::domain::entry::{
    Contact, Correction, Entry, Fact, Lineup, LineupCause, Rally, Said, Side, Turn, Wishes,
};
use peppertally::domain::ids::{
    Clock, ContactId, DateId, DrillId, EffortId, EntryId, GroupNo, NoteId, PartNo, Place, PlanId, PlayerId, PracticeId,
    RallyId, Revision, Round, RunId, ShirtNumber, Step,
};
use peppertally::domain::notes::{Asked, Note, NoteAbout, Spot};
use peppertally::domain::plan::{Fitted, PartKind, Plan, PlanPart};
use peppertally::domain::skill::{Feed, FeedKind, Outcome, ServeStyle, Skill};
use peppertally::domain::time::Stamp;
use peppertally::wire::file::MAX_NUMBER;
use proptest::collection::vec;
use proptest::option;
use proptest::prelude::*;
use proptest::sample::select;

/// Some entries, each identity once.
pub fn entries() -> impl Strategy<Value = Vec<Entry>> {
    vec(entry(), 0..24).prop_map(|mut entries| {
        entries.sort_by_key(|entry| entry.id);
        entries.dedup_by_key(|entry| entry.id);
        entries
    })
}

pub fn entry() -> BoxedStrategy<Entry> {
    let number = || prop_oneof![0..2000u64, 0..=MAX_NUMBER];
    let wall = prop_oneof![0..2_000_000_000_000i64, -MAX_NUMBER.cast_signed()..=MAX_NUMBER.cast_signed()];
    let at = (wall, any::<i16>(), number()).prop_map(|(wall_ms, offset_min, mono_ms)| Stamp {
        wall_ms,
        offset_min,
        mono_ms,
    });
    (id(), number(), at, fact(), option::of(unknown_object()))
        .prop_map(|(id, clock, at, fact, extra)| {
            let extra = if matches!(fact, Fact::Unknown { .. }) { None } else { extra };
            Entry { id, clock: Clock(clock), at, fact, extra: extra.map(String::into_boxed_str) }
        })
        .boxed()
}

fn id() -> impl Strategy<Value = EntryId> {
    let series = prop_oneof![select(vec![0, 1, 0x5eed, u64::MAX]), any::<u64>()];
    (series, prop_oneof![0..40u32, any::<u32>()]).prop_map(|(series, no)| EntryId::new(series, no))
}

fn player() -> impl Strategy<Value = PlayerId> {
    id().prop_map(PlayerId)
}

fn run() -> impl Strategy<Value = RunId> {
    id().prop_map(RunId)
}

fn revision() -> impl Strategy<Value = Revision> {
    any::<u32>().prop_map(Revision)
}

fn name() -> impl Strategy<Value = String> {
    vec(any::<char>().prop_filter("no control characters", |c| !c.is_control()), 0..12)
        .prop_map(|chars| chars.into_iter().collect())
}

fn feed() -> impl Strategy<Value = Feed> {
    (any::<bool>(), any::<u8>()).prop_map(|(easy, step)| Feed {
        kind: if easy { FeedKind::Easy } else { FeedKind::Challenge },
        step: Step(step),
    })
}

fn lineup() -> impl Strategy<Value = Lineup> {
    (vec(option::of(player()), 0..4), vec(player(), 0..4), vec(player(), 0..3))
        .prop_map(|(places, waiting, servers)| Lineup { places, waiting, servers, ..Lineup::default() })
        .prop_flat_map(|plain| {
            let whole = Lineup { ..plain.clone() };
            let floor = (option::of(player()), vec(player(), 0..3), groups());
            let floor =
                floor.prop_map(move |(target, getters, groups)| Lineup { target, getters, groups, ..whole.clone() });
            prop_oneof![Just(plain), floor]
        })
}

fn spec() -> BoxedStrategy<DrillSpec> {
    let skill = prop_oneof![Just(Skill::Pass), Just(Skill::Serve), name().prop_map(Skill::Own)];
    let order = || select(vec![LineOrder::InTurn, LineOrder::Stays, LineOrder::TenForOne]);
    let board = prop_oneof![
        any::<u8>().prop_map(|n_places| Board::Floor { n_places }),
        order().prop_map(|order| Board::Line { order }),
        (any::<u8>(), any::<bool>()).prop_map(|(n_places, receiver)| Board::ServeFloor { n_places, receiver }),
        (order(), any::<bool>()).prop_map(|(order, receiver)| Board::ServeLine { order, receiver }),
        any::<u8>().prop_map(|of| Board::Told { of }),
        Just(Board::Group),
        select(play::boards().to_vec()),
    ];
    let end = prop_oneof![
        any::<u16>().prop_map(TransitionEnd::DuelPoints),
        any::<u16>().prop_map(TransitionEnd::Rounds),
        Just(TransitionEnd::Coach),
    ];
    let between = select(vec![DuelBetween::Sides, DuelBetween::Children]);
    let transition = (any::<u8>(), any::<u8>(), any::<Option<u8>>(), between, end, any::<bool>()).prop_map(
        |(n_easy, n_challenge, earn, between, end, swap)| Transition { n_easy, n_challenge, earn, between, end, swap },
    );
    let rule = prop_oneof![
        any::<Option<u16>>().prop_map(|goal| Rule::Tally { goal }),
        transition.prop_map(Rule::Transition),
        select(play::rules()),
        select(in_match::rules().to_vec()),
    ];
    (name(), skill, board, rule, select(GOOD_FROM.to_vec()), feed(), select(play::on_floors().to_vec()))
        .prop_map(|(name, skill, board, rule, good_from, feed, on_floor)| DrillSpec {
            name,
            skill,
            board,
            rule,
            good_from,
            feed,
            on_floor,
        })
        .boxed()
}

fn contact() -> BoxedStrategy<Contact> {
    let who = (option::of(player()), select(ROLES.to_vec()), any::<Option<u8>>(), option::of(player()));
    let what = (select(outcomes()), select(GOOD_FROM.to_vec()), feed());
    let how = (option::of(select(ServeStyle::ALL.to_vec())), option::of((any::<u16>(), any::<u8>())), any::<bool>());
    let floor = (any::<Option<u8>>(), any::<Option<u32>>(), any::<bool>());
    (who, what, how, floor)
        .prop_map(|((player, role, place, server), (outcome, good_from, feed), (style, turn, self_scored), floor)| {
            Contact {
                player,
                role,
                place: place.map(Place),
                outcome,
                good_from,
                feed,
                style,
                turn: turn.map(|(round, restart)| Turn { round: Round(round), restart }),
                server,
                self_scored,
                group: floor.0.map(GroupNo),
                clock_ms: floor.1,
                watched: floor.2,
            }
        })
        .boxed()
}

fn outcomes() -> Vec<Outcome> {
    samples::outcomes().into_iter().chain([Outcome::Counted, Outcome::Removed]).collect()
}

fn groups() -> impl Strategy<Value = Vec<Vec<PlayerId>>> {
    vec(vec(player(), 0..4), 0..4)
}

fn side() -> impl Strategy<Value = Side> {
    select(vec![Side::Near, Side::Far])
}

/// Groups, games, clocks and stations.
fn floor_fact() -> BoxedStrategy<Fact> {
    let rally = (vec(player(), 0..5), vec(player(), 0..5), side(), side(), any::<bool>())
        .prop_map(|(near, far, served, won, second_serve)| Rally { near, far, served, won, second_serve });
    let wishes = (groups(), vec([player(), player()], 0..3), name(), vec(player(), 0..3))
        .prop_map(|(together, apart, tag, tagged)| Wishes { together, apart, tag, tagged });
    let group = || any::<u8>().prop_map(GroupNo);
    prop_oneof![
        (run(), rally).prop_map(|(run, rally)| Fact::RallyNoted { run, rally }),
        (run(), id(), revision(), side()).prop_map(|(run, rally, revision, won)| Fact::RallyCorrected {
            run,
            rally: RallyId(rally),
            revision,
            won
        }),
        (run(), group(), any::<u8>()).prop_map(|(run, group, step)| Fact::GroupStepSet {
            run,
            group,
            step: Step(step)
        }),
        (run(), any::<bool>(), any::<u32>(), any::<bool>()).prop_map(|(run, going, shown_ms, slept)| Fact::ClockSet {
            run,
            going,
            shown_ms,
            slept
        }),
        (run(), any::<bool>(), any::<bool>()).prop_map(|(run, other, on)| Fact::ServeSaid {
            run,
            what: if other { Said::OtherSide } else { Said::Second },
            on
        }),
        (run(), any::<bool>(), option::of(group()), any::<bool>())
            .prop_map(|(run, open, group, check)| { Fact::StationSet { run, open, group, check } }),
        (run(), id(), select(outcomes())).prop_map(|(run, contact, outcome)| Fact::BallChecked {
            run,
            contact: ContactId(contact),
            outcome
        }),
        (player(), id(), revision(), any::<u8>()).prop_map(|(player, drill, revision, step)| Fact::StepNoted {
            player,
            drill: DrillId(drill),
            revision,
            step: Step(step)
        }),
        (revision(), wishes).prop_map(|(revision, wishes)| Fact::WishesChanged { revision, wishes }),
        (id(), groups(), any::<bool>()).prop_map(|(practice, groups, by_hand)| Fact::GroupsMade {
            practice: PracticeId(practice),
            groups,
            by_hand
        }),
    ]
    .boxed()
}

fn plan() -> BoxedStrategy<Plan> {
    let kind = select(vec![PartKind::Arrival, PartKind::Drill, PartKind::Break, PartKind::Other]);
    let fitted = prop_oneof![Just(Fitted::AsPlanned), any::<u16>().prop_map(Fitted::To), Just(Fitted::Dropped)];
    let small = || option::of(any::<u8>());
    let numbers = (any::<u32>(), any::<u16>(), small(), small(), small());
    let part = (kind, name(), name(), numbers, option::of(id()), any::<[bool; 5]>(), fitted).prop_map(
        |(kind, title, why, (no, minutes, groups, balls, feeds), drill, marks, fitted)| {
            let [locked, ball, net, game, added] = marks;
            let (no, drill) = (PartNo(no), drill.map(DrillId));
            PlanPart {
                no,
                kind,
                title,
                minutes,
                drill,
                groups,
                balls,
                feeds,
                locked,
                ball,
                net,
                game,
                added,
                fitted,
                why,
            }
        },
    );
    (any::<u16>(), any::<u16>(), any::<u16>(), vec(part, 0..5))
        .prop_map(|(gym_min, collect_s, next_no, parts)| Plan { gym_min, collect_s, next_no, parts })
        .boxed()
}

fn plan_fact() -> BoxedStrategy<Fact> {
    prop_oneof![
        plan().prop_map(|plan| Fact::PlanMade { plan }),
        (id(), revision(), plan()).prop_map(|(plan, revision, changed)| Fact::PlanChanged {
            plan: PlanId(plan),
            revision,
            changed
        }),
        (id(), id(), any::<u32>(), name()).prop_map(|(practice, plan, part, title)| Fact::PartBegun {
            practice: PracticeId(practice),
            plan: PlanId(plan),
            part: PartNo(part),
            title
        }),
        (id(), any::<u32>())
            .prop_map(|(practice, part)| Fact::PartEnded { practice: PracticeId(practice), part: PartNo(part) }),
    ]
    .boxed()
}

fn date_fact() -> BoxedStrategy<Fact> {
    let day = (-90_000_000i32..90_000_000).prop_filter_map("a day", chrono::NaiveDate::from_num_days_from_ce_opt);
    // Within what a file may hold.
    let date = || {
        (day.clone(), 0..1440u16, 1..600u16, name()).prop_map(|(day, start_min, minutes, place)| PracticeDate {
            day,
            start_min,
            minutes: minutes.min(1440 - start_min),
            place,
        })
    };
    let of = || id().prop_map(DateId);
    prop_oneof![
        date().prop_map(|date| Fact::DateSet { date }),
        (of(), revision(), date()).prop_map(|(date, revision, changed)| Fact::DateChanged { date, revision, changed }),
        (of(), revision(), any::<bool>()).prop_map(|(date, revision, dropped)| Fact::DateDropped {
            date,
            revision,
            dropped
        }),
        (of(), revision(), option::of(id())).prop_map(|(date, revision, plan)| Fact::DatePlanned {
            date,
            revision,
            plan: plan.map(PlanId)
        }),
        (of(), revision(), option::of(id())).prop_map(|(date, revision, practice)| Fact::DateHeld {
            date,
            revision,
            practice: practice.map(PracticeId)
        }),
    ]
    .boxed()
}

fn fact() -> BoxedStrategy<Fact> {
    prop_oneof![
        date_fact(),
        plan_fact(),
        squad_fact(),
        run_fact(),
        floor_fact(),
        (run(), contact()).prop_map(|(run, contact)| Fact::ContactNoted { run, contact }),
        correction_fact(),
        note_fact(),
        removal_fact(),
        ("[a-z]{1,8}", unknown_object())
            .prop_map(|(kind, body)| Fact::Unknown { kind: format!("new-{kind}"), body: body.into_boxed_str() }),
    ]
    .boxed()
}

fn removal_fact() -> BoxedStrategy<Fact> {
    let notes = || vec(id().prop_map(NoteId), 0..3);
    prop_oneof![
        (vec(player(), 0..3), notes()).prop_map(|(players, notes)| Fact::ChildRemoved { players, notes }),
        (option::of(id()), option::of(run()))
            .prop_map(|(practice, run)| Fact::Emptied { practice: practice.map(PracticeId), run }),
    ]
    .boxed()
}

fn squad_fact() -> BoxedStrategy<Fact> {
    let number = || any::<Option<u16>>().prop_map(|number| number.map(ShirtNumber));
    let drill = || id().prop_map(DrillId);
    let practice = || id().prop_map(PracticeId);
    let style = select(ServeStyle::ALL.to_vec());
    prop_oneof![
        (name(), name()).prop_map(|(device, app_version)| Fact::SeriesOpened { device, app_version }),
        (name(), number()).prop_map(|(name, number)| Fact::PlayerAdded { name, number }),
        (player(), revision(), name(), number()).prop_map(|(player, revision, name, number)| Fact::PlayerChanged {
            player,
            revision,
            name,
            number
        }),
        (player(), revision(), any::<bool>()).prop_map(|(player, revision, archived)| Fact::PlayerArchived {
            player,
            revision,
            archived
        }),
        (revision(), name(), vec(player(), 0..4)).prop_map(|(revision, name, opened)| Fact::PhoneNamed {
            revision,
            name,
            opened: opened.into_iter().map(|first| first.0).collect()
        }),
        (player(), player(), revision()).prop_map(|(stays, also, revision)| Fact::ChildrenJoined {
            stays,
            also,
            revision
        }),
        (player(), player(), revision()).prop_map(|(one, other, revision)| Fact::ChildrenToldApart {
            one,
            other,
            revision
        }),
        (practice(), practice(), revision()).prop_map(|(stays, also, revision)| Fact::PracticesJoined {
            stays,
            also,
            revision
        }),
        (practice(), practice(), revision()).prop_map(|(one, other, revision)| Fact::PracticesToldApart {
            one,
            other,
            revision
        }),
        (player(), revision(), style).prop_map(|(player, revision, style)| Fact::StyleNoted {
            player,
            revision,
            style
        }),
        spec().prop_map(|spec| Fact::DrillAdded { spec }),
        (drill(), revision(), spec()).prop_map(|(drill, revision, spec)| Fact::DrillChanged { drill, revision, spec }),
        (drill(), revision(), any::<bool>()).prop_map(|(drill, revision, archived)| Fact::DrillArchived {
            drill,
            revision,
            archived
        }),
        (revision(), vec(name(), 0..4)).prop_map(|(revision, kinds)| Fact::EffortKindsChanged { revision, kinds }),
        name().prop_map(|title| Fact::PracticeStarted { title }),
        practice().prop_map(|practice| Fact::PracticeEnded { practice }),
        (practice(), player(), revision(), any::<bool>())
            .prop_map(|(practice, player, revision, here)| Fact::PresenceNoted { practice, player, revision, here }),
    ]
    .boxed()
}

fn run_fact() -> BoxedStrategy<Fact> {
    let cause = prop_oneof![
        Just(LineupCause::Swap),
        Just(LineupCause::ByHand),
        id().prop_map(|id| LineupCause::AfterContact(ContactId(id))),
    ];
    let told = (any::<u16>(), any::<u16>(), any::<u16>(), select(GOOD_FROM.to_vec()), feed(), any::<bool>());
    prop_oneof![
        (id(), option::of(id()), spec(), lineup(), name()).prop_map(|(practice, drill, spec, lineup, recorder)| {
            Fact::RunStarted { practice: PracticeId(practice), drill: drill.map(DrillId), spec, lineup, recorder }
        }),
        (run(), id(), name()).prop_map(|(run, after, recorder)| Fact::RunTakenOver { run, after, recorder }),
        (run(), lineup(), cause).prop_map(|(run, lineup, cause)| Fact::LineupSet { run, lineup, cause }),
        (run(), player()).prop_map(|(run, player)| Fact::TurnGiven { run, player }),
        (run(), feed()).prop_map(|(run, feed)| Fact::FeedSet { run, feed }),
        run().prop_map(|run| Fact::RunFinished { run }),
        (run(), any::<u16>()).prop_map(|(run, told_no)| Fact::ToldSeriesOpened { run, told_no }),
        (run(), option::of(player()), option::of(name())).prop_map(|(run, player, kind)| Fact::EffortNoted {
            run,
            player,
            kind
        }),
        (run(), player(), told).prop_map(|(run, player, (told_no, good, of, good_from, feed, self_scored))| {
            Fact::CountTold { run, player, told_no, good, of, good_from, feed, self_scored }
        }),
    ]
    .boxed()
}

fn correction_fact() -> BoxedStrategy<Fact> {
    let change = (id(), revision(), option::of(player()), select(outcomes()), any::<u8>()).prop_map(
        |(contact, revision, player, outcome, step)| Correction {
            contact: ContactId(contact),
            revision,
            player,
            outcome,
            step: Step(step),
        },
    );
    prop_oneof![
        (run(), vec(change, 0..4)).prop_map(|(run, changes)| Fact::ContactsCorrected { run, changes }),
        (run(), id(), revision(), option::of(player()), option::of(name())).prop_map(
            |(run, effort, revision, player, kind)| {
                Fact::EffortCorrected { run, effort: EffortId(effort), revision, player, kind }
            }
        ),
        (option::of(run()), id(), revision(), any::<bool>())
            .prop_map(|(run, target, revision, back)| Fact::EntryTakenBack { run, target, revision, back }),
    ]
    .boxed()
}

fn note_fact() -> BoxedStrategy<Fact> {
    let spot = || {
        (option::of(id()), option::of(run()), option::of(any::<u32>())).prop_map(|(practice, run, part)| Spot {
            practice: practice.map(PracticeId),
            run,
            part: part.map(PartNo),
        })
    };
    let about = prop_oneof![
        select(vec![NoteAbout::Practice, NoteAbout::Part, NoteAbout::Run]),
        vec(player(), 0..3).prop_map(NoteAbout::Children),
    ];
    let note = || {
        (about.clone(), vec(name(), 0..3), name()).prop_map(|(about, tags, text)| Note {
            about,
            tags,
            text: format!("{text}\n\t{text}"),
        })
    };
    prop_oneof![
        (spot(), note()).prop_map(|(spot, note)| Fact::NoteWritten { spot, note }),
        (id(), revision(), note()).prop_map(|(note, revision, changed)| Fact::NoteChanged {
            note: NoteId(note),
            revision,
            changed
        }),
        (spot(), player(), name())
            .prop_map(|(spot, player, question)| Fact::QuestionAsked { spot, asked: Asked { player, question } }),
        (revision(), vec(name(), 0..4)).prop_map(|(revision, tags)| Fact::NoteTagsChanged { revision, tags }),
        (option::of(id()), revision(), vec(name(), 0..4)).prop_map(|(drill, revision, questions)| {
            Fact::QuestionsChanged { drill: drill.map(DrillId), revision, questions }
        }),
    ]
    .boxed()
}

/// Fields that no version has, with values of any kind.
fn unknown_object() -> impl Strategy<Value = String> {
    let value = prop_oneof![
        Just("null".to_owned()),
        Just("123456789012345678901234567890.10e-7".to_owned()),
        Just("[ 1,{\"a\" : [true]} ]".to_owned()),
        any::<i64>().prop_map(|n| n.to_string()),
        name().prop_map(|text| serde_json::Value::from(text).to_string()),
    ];
    vec(value, 1..4).prop_map(|values| {
        let fields: Vec<String> = values.iter().zip(1..).map(|(value, i)| format!("\"new_{i}\":{value}")).collect();
        format!("{{{}}}", fields.join(","))
    })
}
