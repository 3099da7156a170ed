//! A fact as the fields of a record, and back. The table of the fields is in `record`. Checks types, not volleyball: what the
//! domain's types can hold can be written and read.

use super::calendar::{push_date, take_date};
use super::contact::{
    correction_text, push_contact, push_group, push_outcome, take_changes, take_contact, take_group, take_outcome,
};
use super::json::{Fields, Misfit, Object, quoted};
use super::notes::{push_note, push_spot, push_written, take_note, take_spot, take_written};
use super::plan::{push_plan, take_plan};
use super::play::{SAID, SIDES, push_groups, push_rally, push_wishes, take_groups, take_rally, take_side, take_wishes};
use super::record::{IdText, RecordError};
use super::spec::{push_feed, push_lineup, push_spec, take_feed, take_lineup, take_spec};
use super::words::{GOOD_FROM, STYLES};
use crate::domain::entry::{Fact, LineupCause};
use crate::domain::ids::{
    ContactId, DateId, DrillId, EffortId, EntryId, GroupNo, NoteId, PartNo, PlanId, PlayerId, PracticeId, RallyId,
    Revision, RunId, ShirtNumber, Step,
};
use crate::domain::notes::Asked;

/// Pushes `k` and the fields of the kind.
pub(super) fn write(fact: &Fact, to: &mut Object) {
    to.text("k", kind(fact));
    match fact {
        Fact::SeriesOpened { device, app_version } => {
            to.text("device", device);
            to.text("app", app_version);
        }
        Fact::PhoneNamed { revision, name, opened } => {
            to.number("rev", revision.0);
            to.text("name", name);
            to.array("opened", opened.iter().map(|first| quoted(&first.to_string())));
        }
        Fact::PlayerAdded { name, number } => push_player(to, name, *number),
        Fact::PlayerChanged { player, revision, name, number } => {
            push_change(to, "player", player.0, *revision);
            push_player(to, name, *number);
        }
        Fact::PlayerArchived { player, revision, archived } => {
            push_change(to, "player", player.0, *revision);
            to.yes_no("archived", *archived);
        }
        Fact::ChildrenJoined { stays, also, revision } => {
            push_id(to, "stays", stays.0);
            push_change(to, "also", also.0, *revision);
        }
        Fact::ChildrenToldApart { one, other, revision } => {
            push_id(to, "one", one.0);
            push_change(to, "other", other.0, *revision);
        }
        Fact::PracticesJoined { stays, also, revision } => {
            push_id(to, "stays", stays.0);
            push_change(to, "also", also.0, *revision);
        }
        Fact::PracticesToldApart { one, other, revision } => {
            push_id(to, "one", one.0);
            push_change(to, "other", other.0, *revision);
        }
        Fact::StyleNoted { player, revision, style } => {
            push_change(to, "player", player.0, *revision);
            to.text("style", STYLES.word(*style));
        }
        Fact::StepNoted { player, drill, revision, step } => {
            push_id(to, "drill", drill.0);
            push_change(to, "player", player.0, *revision);
            to.number("step", step.0);
        }
        Fact::WishesChanged { revision, wishes } => {
            to.number("rev", revision.0);
            push_wishes(to, wishes);
        }
        Fact::DrillAdded { spec } => push_spec(to, spec),
        Fact::DrillChanged { drill, revision, spec } => {
            push_change(to, "drill", drill.0, *revision);
            push_spec(to, spec);
        }
        Fact::DrillArchived { drill, revision, archived } => {
            push_change(to, "drill", drill.0, *revision);
            to.yes_no("archived", *archived);
        }
        Fact::EffortKindsChanged { revision, kinds } => {
            to.number("rev", revision.0);
            to.array("kinds", kinds.iter().map(|kind| quoted(kind)));
        }
        Fact::PracticeStarted { title } => to.text("title", title),
        Fact::PracticeEnded { practice } => push_id(to, "practice", practice.0),
        Fact::PresenceNoted { practice, player, revision, here } => {
            push_id(to, "practice", practice.0);
            push_change(to, "player", player.0, *revision);
            to.yes_no("here", *here);
        }
        Fact::GroupsMade { practice, groups, by_hand } => {
            push_id(to, "practice", practice.0);
            push_groups(to, "groups", groups);
            to.yes_no("by_hand", *by_hand);
        }
        Fact::PlanMade { plan } => push_plan(to, plan),
        Fact::PlanChanged { plan, revision, changed } => {
            push_change(to, "plan", plan.0, *revision);
            push_plan(to, changed);
        }
        Fact::PartBegun { practice, plan, part, title } => {
            push_id(to, "practice", practice.0);
            push_id(to, "plan", plan.0);
            to.number("part", part.0);
            to.text("title", title);
        }
        Fact::PartEnded { practice, part } => {
            push_id(to, "practice", practice.0);
            to.number("part", part.0);
        }
        Fact::DateSet { date } => push_date(to, date),
        Fact::DateChanged { date, revision, changed } => {
            push_change(to, "date", date.0, *revision);
            push_date(to, changed);
        }
        Fact::DateDropped { date, revision, dropped } => {
            push_change(to, "date", date.0, *revision);
            to.yes_no("dropped", *dropped);
        }
        Fact::DatePlanned { date, revision, plan } => {
            push_change(to, "date", date.0, *revision);
            push_maybe_id(to, "plan", plan.map(|plan| plan.0));
        }
        Fact::DateHeld { date, revision, practice } => {
            push_change(to, "date", date.0, *revision);
            push_maybe_id(to, "practice", practice.map(|practice| practice.0));
        }
        Fact::RunStarted { practice, drill, spec, lineup, recorder } => {
            push_id(to, "practice", practice.0);
            push_maybe_id(to, "drill", drill.map(|drill| drill.0));
            push_spec(to, spec);
            push_lineup(to, lineup);
            to.text("recorder", recorder);
        }
        Fact::RunTakenOver { run, after, recorder } => {
            push_id(to, "run", run.0);
            push_id(to, "after", *after);
            to.text("recorder", recorder);
        }
        Fact::LineupSet { run, lineup, cause } => {
            push_id(to, "run", run.0);
            push_lineup(to, lineup);
            push_cause(to, *cause);
        }
        Fact::TurnGiven { run, player } => {
            push_id(to, "run", run.0);
            push_id(to, "player", player.0);
        }
        Fact::FeedSet { run, feed } => {
            push_id(to, "run", run.0);
            push_feed(to, *feed);
        }
        Fact::GroupStepSet { run, group, step } => {
            push_id(to, "run", run.0);
            to.number("group", group.0);
            to.number("step", step.0);
        }
        Fact::ClockSet { run, going, shown_ms, slept } => {
            push_id(to, "run", run.0);
            to.yes_no("going", *going);
            to.number("shown_ms", *shown_ms);
            to.mark("slept", *slept);
        }
        Fact::StationSet { run, open, group, check } => {
            push_id(to, "run", run.0);
            to.yes_no("open", *open);
            push_group(to, *group);
            to.mark("check", *check);
        }
        Fact::BallChecked { run, contact, outcome } => {
            push_id(to, "run", run.0);
            push_id(to, "contact", contact.0);
            push_outcome(to, *outcome);
        }
        Fact::ServeSaid { run, what, on } => {
            push_id(to, "run", run.0);
            to.text("what", SAID.word(*what));
            to.yes_no("on", *on);
        }
        Fact::RunFinished { run } => push_id(to, "run", run.0),
        Fact::RallyNoted { run, rally } => {
            push_id(to, "run", run.0);
            push_rally(to, rally);
        }
        Fact::RallyCorrected { run, rally, revision, won } => {
            push_id(to, "run", run.0);
            push_change(to, "rally", rally.0, *revision);
            to.text("won", SIDES.word(*won));
        }
        Fact::ContactNoted { run, contact } => {
            push_id(to, "run", run.0);
            push_contact(to, contact);
        }
        Fact::EffortNoted { run, player, kind } => {
            push_id(to, "run", run.0);
            push_effort(to, *player, kind.as_deref());
        }
        Fact::CountTold { run, player, told_no, good, of, good_from, feed, self_scored } => {
            push_id(to, "run", run.0);
            push_id(to, "player", player.0);
            to.number("told", *told_no);
            to.number("good", *good);
            to.number("of", *of);
            to.text("good_from", GOOD_FROM.word(*good_from));
            push_feed(to, *feed);
            to.mark("self", *self_scored);
        }
        Fact::ToldSeriesOpened { run, told_no } => {
            push_id(to, "run", run.0);
            to.number("told", *told_no);
        }
        Fact::ContactsCorrected { run, changes } => {
            push_id(to, "run", run.0);
            to.array("changes", changes.iter().map(correction_text));
        }
        Fact::EffortCorrected { run, effort, revision, player, kind } => {
            push_id(to, "run", run.0);
            push_change(to, "effort", effort.0, *revision);
            push_effort(to, *player, kind.as_deref());
        }
        Fact::EntryTakenBack { run, target, revision, back } => {
            push_maybe_id(to, "run", run.map(|run| run.0));
            push_change(to, "target", *target, *revision);
            to.yes_no("back", *back);
        }
        Fact::NoteWritten { spot, note } => push_written(to, spot, note),
        Fact::NoteChanged { note, revision, changed } => {
            push_change(to, "note", note.0, *revision);
            push_note(to, changed);
        }
        Fact::QuestionAsked { spot, asked } => {
            push_spot(to, spot);
            push_id(to, "player", asked.player.0);
            to.text("question", &asked.question);
        }
        Fact::NoteTagsChanged { revision, tags } => {
            to.number("rev", revision.0);
            to.array("tags", tags.iter().map(|tag| quoted(tag)));
        }
        Fact::QuestionsChanged { drill, revision, questions } => {
            push_maybe_id(to, "drill", drill.map(|drill| drill.0));
            to.number("rev", revision.0);
            to.array("questions", questions.iter().map(|question| quoted(question)));
        }
        Fact::ChildRemoved { players, notes } => {
            to.array("players", players.iter().map(|player| quoted(&player.0.to_string())));
            to.array("notes", notes.iter().map(|note| quoted(&note.0.to_string())));
        }
        Fact::Emptied { practice, run } => {
            push_maybe_id(to, "practice", practice.map(|practice| practice.0));
            push_maybe_id(to, "run", run.map(|run| run.0));
        }
        Fact::Unknown { body, .. } => to.merge(body),
    }
}

/// The fact of a known kind; [`Misfit::Newer`] for a kind or a word that this version doesn't know.
pub(super) fn read(kind: &str, f: &mut Fields<'_>) -> Result<Fact, Misfit> {
    Ok(match kind {
        "series-opened" => {
            Fact::SeriesOpened { device: f.text("device")?.into_owned(), app_version: f.text("app")?.into_owned() }
        }
        "phone-named" => Fact::PhoneNamed {
            revision: take_revision(f)?,
            name: f.text("name")?.into_owned(),
            opened: f.need::<Vec<IdText>>("opened")?.into_iter().map(|id| id.0).collect(),
        },
        "player-added" => Fact::PlayerAdded { name: f.text("name")?.into_owned(), number: take_number(f)? },
        "player-changed" => Fact::PlayerChanged {
            player: take_player(f)?,
            revision: take_revision(f)?,
            name: f.text("name")?.into_owned(),
            number: take_number(f)?,
        },
        "player-archived" => {
            Fact::PlayerArchived { player: take_player(f)?, revision: take_revision(f)?, archived: f.need("archived")? }
        }
        "children-joined" => Fact::ChildrenJoined {
            stays: PlayerId(take_id(f, "stays")?),
            also: PlayerId(take_id(f, "also")?),
            revision: take_revision(f)?,
        },
        "children-told-apart" => Fact::ChildrenToldApart {
            one: PlayerId(take_id(f, "one")?),
            other: PlayerId(take_id(f, "other")?),
            revision: take_revision(f)?,
        },
        "practices-joined" => Fact::PracticesJoined {
            stays: PracticeId(take_id(f, "stays")?),
            also: PracticeId(take_id(f, "also")?),
            revision: take_revision(f)?,
        },
        "practices-told-apart" => Fact::PracticesToldApart {
            one: PracticeId(take_id(f, "one")?),
            other: PracticeId(take_id(f, "other")?),
            revision: take_revision(f)?,
        },
        "style-noted" => Fact::StyleNoted {
            player: take_player(f)?,
            revision: take_revision(f)?,
            style: f.word("style", |word| STYLES.known(word))?,
        },
        "step-noted" => Fact::StepNoted {
            player: take_player(f)?,
            drill: DrillId(take_id(f, "drill")?),
            revision: take_revision(f)?,
            step: Step(f.need("step")?),
        },
        "wishes-changed" => Fact::WishesChanged { revision: take_revision(f)?, wishes: take_wishes(f)? },
        "drill-added" => Fact::DrillAdded { spec: take_spec(f)? },
        "drill-changed" => Fact::DrillChanged {
            drill: DrillId(take_id(f, "drill")?),
            revision: take_revision(f)?,
            spec: take_spec(f)?,
        },
        "drill-archived" => Fact::DrillArchived {
            drill: DrillId(take_id(f, "drill")?),
            revision: take_revision(f)?,
            archived: f.need("archived")?,
        },
        "effort-kinds-changed" => Fact::EffortKindsChanged { revision: take_revision(f)?, kinds: f.need("kinds")? },
        "practice-started" => Fact::PracticeStarted { title: f.text("title")?.into_owned() },
        "practice-ended" => Fact::PracticeEnded { practice: PracticeId(take_id(f, "practice")?) },
        "presence-noted" => Fact::PresenceNoted {
            practice: PracticeId(take_id(f, "practice")?),
            player: take_player(f)?,
            revision: take_revision(f)?,
            here: f.need("here")?,
        },
        "groups-made" => Fact::GroupsMade {
            practice: PracticeId(take_id(f, "practice")?),
            groups: take_groups(f, "groups")?,
            by_hand: f.need("by_hand")?,
        },
        "plan-made" => Fact::PlanMade { plan: take_plan(f)? },
        "plan-changed" => {
            Fact::PlanChanged { plan: PlanId(take_id(f, "plan")?), revision: take_revision(f)?, changed: take_plan(f)? }
        }
        "part-begun" => Fact::PartBegun {
            practice: PracticeId(take_id(f, "practice")?),
            plan: PlanId(take_id(f, "plan")?),
            part: PartNo(f.need("part")?),
            title: f.text("title")?.into_owned(),
        },
        "part-ended" => {
            Fact::PartEnded { practice: PracticeId(take_id(f, "practice")?), part: PartNo(f.need("part")?) }
        }
        "date-set" => Fact::DateSet { date: take_date(f)? },
        "date-changed" => {
            Fact::DateChanged { date: DateId(take_id(f, "date")?), revision: take_revision(f)?, changed: take_date(f)? }
        }
        "date-dropped" => Fact::DateDropped {
            date: DateId(take_id(f, "date")?),
            revision: take_revision(f)?,
            dropped: f.need("dropped")?,
        },
        "date-planned" => Fact::DatePlanned {
            date: DateId(take_id(f, "date")?),
            revision: take_revision(f)?,
            plan: take_maybe_id(f, "plan")?.map(PlanId),
        },
        "date-held" => Fact::DateHeld {
            date: DateId(take_id(f, "date")?),
            revision: take_revision(f)?,
            practice: take_maybe_id(f, "practice")?.map(PracticeId),
        },
        "run-started" => Fact::RunStarted {
            practice: PracticeId(take_id(f, "practice")?),
            drill: take_maybe_id(f, "drill")?.map(DrillId),
            spec: take_spec(f)?,
            lineup: take_lineup(f)?,
            recorder: f.text("recorder")?.into_owned(),
        },
        "run-taken-over" => Fact::RunTakenOver {
            run: take_run(f)?,
            after: take_id(f, "after")?,
            recorder: f.text("recorder")?.into_owned(),
        },
        "lineup-set" => Fact::LineupSet { run: take_run(f)?, lineup: take_lineup(f)?, cause: take_cause(f)? },
        "turn-given" => Fact::TurnGiven { run: take_run(f)?, player: take_player(f)? },
        "feed-set" => Fact::FeedSet { run: take_run(f)?, feed: take_feed(f)? },
        "group-step-set" => {
            Fact::GroupStepSet { run: take_run(f)?, group: GroupNo(f.need("group")?), step: Step(f.need("step")?) }
        }
        "clock-set" => Fact::ClockSet {
            run: take_run(f)?,
            going: f.need("going")?,
            shown_ms: f.need("shown_ms")?,
            slept: f.mark("slept")?,
        },
        "station-set" => Fact::StationSet {
            run: take_run(f)?,
            open: f.need("open")?,
            group: take_group(f)?,
            check: f.mark("check")?,
        },
        "ball-checked" => Fact::BallChecked {
            run: take_run(f)?,
            contact: ContactId(take_id(f, "contact")?),
            outcome: take_outcome(f)?,
        },
        "serve-said" => {
            Fact::ServeSaid { run: take_run(f)?, what: f.word("what", |word| SAID.known(word))?, on: f.need("on")? }
        }
        "rally-noted" => Fact::RallyNoted { run: take_run(f)?, rally: take_rally(f)? },
        "rally-corrected" => Fact::RallyCorrected {
            run: take_run(f)?,
            rally: RallyId(take_id(f, "rally")?),
            revision: take_revision(f)?,
            won: take_side(f, "won")?,
        },
        "run-finished" => Fact::RunFinished { run: take_run(f)? },
        "contact-noted" => Fact::ContactNoted { run: take_run(f)?, contact: take_contact(f)? },
        "effort-noted" => {
            Fact::EffortNoted { run: take_run(f)?, player: take_maybe_player(f)?, kind: f.maybe("what")? }
        }
        "count-told" => Fact::CountTold {
            run: take_run(f)?,
            player: take_player(f)?,
            told_no: f.need("told")?,
            good: f.need("good")?,
            of: f.need("of")?,
            good_from: f.word("good_from", |word| GOOD_FROM.known(word))?,
            feed: take_feed(f)?,
            self_scored: f.mark("self")?,
        },
        "told-series-opened" => Fact::ToldSeriesOpened { run: take_run(f)?, told_no: f.need("told")? },
        "contacts-corrected" => Fact::ContactsCorrected { run: take_run(f)?, changes: take_changes(f)? },
        "effort-corrected" => Fact::EffortCorrected {
            run: take_run(f)?,
            effort: EffortId(take_id(f, "effort")?),
            revision: take_revision(f)?,
            player: take_maybe_player(f)?,
            kind: f.maybe("what")?,
        },
        "entry-taken-back" => Fact::EntryTakenBack {
            run: take_maybe_id(f, "run")?.map(RunId),
            target: take_id(f, "target")?,
            revision: take_revision(f)?,
            back: f.need("back")?,
        },
        "note-written" => take_written(f)?,
        "note-changed" => {
            Fact::NoteChanged { note: NoteId(take_id(f, "note")?), revision: take_revision(f)?, changed: take_note(f)? }
        }
        "question-asked" => Fact::QuestionAsked {
            spot: take_spot(f)?,
            asked: Asked { player: take_player(f)?, question: f.text("question")?.into_owned() },
        },
        "note-tags-changed" => Fact::NoteTagsChanged { revision: take_revision(f)?, tags: f.need("tags")? },
        "questions-changed" => Fact::QuestionsChanged {
            drill: take_maybe_id(f, "drill")?.map(DrillId),
            revision: take_revision(f)?,
            questions: f.need("questions")?,
        },
        "child-removed" => {
            let ids = |ids: Vec<IdText>| ids.into_iter().map(|id| id.0);
            Fact::ChildRemoved {
                players: ids(f.need("players")?).map(PlayerId).collect(),
                notes: ids(f.need("notes")?).map(NoteId).collect(),
            }
        }
        "emptied" => Fact::Emptied {
            practice: take_maybe_id(f, "practice")?.map(PracticeId),
            run: take_maybe_id(f, "run")?.map(RunId),
        },
        _ => return Err(Misfit::Newer),
    })
}

fn kind(fact: &Fact) -> &str {
    match fact {
        Fact::SeriesOpened { .. } => "series-opened",
        Fact::PhoneNamed { .. } => "phone-named",
        Fact::PlayerAdded { .. } => "player-added",
        Fact::PlayerChanged { .. } => "player-changed",
        Fact::PlayerArchived { .. } => "player-archived",
        Fact::ChildrenJoined { .. } => "children-joined",
        Fact::ChildrenToldApart { .. } => "children-told-apart",
        Fact::PracticesJoined { .. } => "practices-joined",
        Fact::PracticesToldApart { .. } => "practices-told-apart",
        Fact::StyleNoted { .. } => "style-noted",
        Fact::StepNoted { .. } => "step-noted",
        Fact::WishesChanged { .. } => "wishes-changed",
        Fact::GroupsMade { .. } => "groups-made",
        Fact::GroupStepSet { .. } => "group-step-set",
        Fact::ClockSet { .. } => "clock-set",
        Fact::StationSet { .. } => "station-set",
        Fact::BallChecked { .. } => "ball-checked",
        Fact::ServeSaid { .. } => "serve-said",
        Fact::RallyNoted { .. } => "rally-noted",
        Fact::RallyCorrected { .. } => "rally-corrected",
        Fact::DrillAdded { .. } => "drill-added",
        Fact::DrillChanged { .. } => "drill-changed",
        Fact::DrillArchived { .. } => "drill-archived",
        Fact::EffortKindsChanged { .. } => "effort-kinds-changed",
        Fact::PracticeStarted { .. } => "practice-started",
        Fact::PracticeEnded { .. } => "practice-ended",
        Fact::PresenceNoted { .. } => "presence-noted",
        Fact::PlanMade { .. } => "plan-made",
        Fact::PlanChanged { .. } => "plan-changed",
        Fact::PartBegun { .. } => "part-begun",
        Fact::PartEnded { .. } => "part-ended",
        Fact::DateSet { .. } => "date-set",
        Fact::DateChanged { .. } => "date-changed",
        Fact::DateDropped { .. } => "date-dropped",
        Fact::DatePlanned { .. } => "date-planned",
        Fact::DateHeld { .. } => "date-held",
        Fact::RunStarted { .. } => "run-started",
        Fact::RunTakenOver { .. } => "run-taken-over",
        Fact::LineupSet { .. } => "lineup-set",
        Fact::TurnGiven { .. } => "turn-given",
        Fact::FeedSet { .. } => "feed-set",
        Fact::RunFinished { .. } => "run-finished",
        Fact::ContactNoted { .. } => "contact-noted",
        Fact::EffortNoted { .. } => "effort-noted",
        Fact::CountTold { .. } => "count-told",
        Fact::ToldSeriesOpened { .. } => "told-series-opened",
        Fact::ContactsCorrected { .. } => "contacts-corrected",
        Fact::EffortCorrected { .. } => "effort-corrected",
        Fact::EntryTakenBack { .. } => "entry-taken-back",
        Fact::NoteWritten { .. } => "note-written",
        Fact::NoteChanged { .. } => "note-changed",
        Fact::QuestionAsked { .. } => "question-asked",
        Fact::NoteTagsChanged { .. } => "note-tags-changed",
        Fact::QuestionsChanged { .. } => "questions-changed",
        Fact::ChildRemoved { .. } => "child-removed",
        Fact::Emptied { .. } => "emptied",
        Fact::Unknown { kind, .. } => kind,
    }
}

fn push_player(to: &mut Object, name: &str, number: Option<ShirtNumber>) {
    to.text("name", name);
    if let Some(number) = number {
        to.number("number", number.0);
    }
}

fn take_number(f: &mut Fields<'_>) -> Result<Option<ShirtNumber>, RecordError> {
    Ok(f.maybe("number")?.map(ShirtNumber))
}

fn push_cause(to: &mut Object, cause: LineupCause) {
    let word = match cause {
        LineupCause::Swap => "swap",
        LineupCause::ByHand => "by-hand",
        LineupCause::AfterContact(_) => "after-contact",
    };
    to.text("cause", word);
    if let LineupCause::AfterContact(contact) = cause {
        push_id(to, "contact", contact.0);
    }
}

fn take_cause(f: &mut Fields<'_>) -> Result<LineupCause, Misfit> {
    match &*f.text("cause")? {
        "swap" => Ok(LineupCause::Swap),
        "by-hand" => Ok(LineupCause::ByHand),
        "after-contact" => Ok(LineupCause::AfterContact(ContactId(take_id(f, "contact")?))),
        _ => Err(Misfit::Newer),
    }
}

fn push_effort(to: &mut Object, player: Option<PlayerId>, kind: Option<&str>) {
    push_maybe_id(to, "player", player.map(|player| player.0));
    if let Some(kind) = kind {
        to.text("what", kind);
    }
}

pub(super) fn push_change(to: &mut Object, name: &str, id: EntryId, revision: Revision) {
    push_id(to, name, id);
    to.number("rev", revision.0);
}

pub(super) fn take_revision(f: &mut Fields<'_>) -> Result<Revision, RecordError> {
    Ok(Revision(f.need("rev")?))
}

pub(super) fn push_id(to: &mut Object, name: &str, id: EntryId) {
    to.text(name, &id.to_string());
}

pub(super) fn push_maybe_id(to: &mut Object, name: &str, id: Option<EntryId>) {
    if let Some(id) = id {
        push_id(to, name, id);
    }
}

pub(super) fn take_id(f: &mut Fields<'_>, name: &'static str) -> Result<EntryId, RecordError> {
    Ok(f.need::<IdText>(name)?.0)
}

pub(super) fn take_maybe_id(f: &mut Fields<'_>, name: &'static str) -> Result<Option<EntryId>, RecordError> {
    Ok(f.maybe::<IdText>(name)?.map(|id| id.0))
}

pub(super) fn take_player(f: &mut Fields<'_>) -> Result<PlayerId, RecordError> {
    take_id(f, "player").map(PlayerId)
}

pub(super) fn take_maybe_player(f: &mut Fields<'_>) -> Result<Option<PlayerId>, RecordError> {
    Ok(take_maybe_id(f, "player")?.map(PlayerId))
}

fn take_run(f: &mut Fields<'_>) -> Result<RunId, RecordError> {
    take_id(f, "run").map(RunId)
}
