//! The dates for another calendar: which go in, what is said of each, and how the file leaves. Names no child.

use chrono::Datelike;

use super::super::super::action::CopyHow;
use super::super::super::calendar::{CalendarFile, Span, dates, file_name, plan_done, this_season, wall};
use super::super::super::effect::Effect;
use super::super::super::model::Model;
use super::super::super::named::Named;
use super::super::super::view::share::Answer;
use super::super::super::words::{calendar as words, plan as plan_words};
use super::super::super::work::Job;
use super::super::TAP_LASTS_MS;
use crate::domain::calendar::Dated;
use crate::domain::ids::PracticeId;
use crate::domain::plan::{Plan, PlanPart};
use crate::wire::ics::{Event, local};

pub(super) fn want(model: &mut Model, span: Span, how: CopyHow) -> Vec<Effect> {
    if model.calendar_file.writing {
        return Vec::new();
    }
    let events = events(model, span);
    model.calendar_file = CalendarFile::default();
    if events.is_empty() {
        answer(model, words::NOTHING_IN_IT.to_owned(), true);
        return Vec::new();
    }
    model.calendar_file.writing = true;
    let (name, asked_ms) = (file_name(model), model.now.mono_ms);
    vec![Effect::Work(Job::Dates { name, how, asked_ms, events })]
}

/// The file is written. A share sheet that would come too late after the tap waits for another.
pub(in super::super) fn written(model: &mut Model, name: String, how: CopyHow, asked_ms: u64) -> Vec<Effect> {
    if how == CopyHow::ShareSheet && model.now.mono_ms.saturating_sub(asked_ms) > TAP_LASTS_MS {
        model.calendar_file = CalendarFile { ready: Some(name), ..CalendarFile::default() };
        return Vec::new();
    }
    vec![Effect::OfferDates { name, how }]
}

/// It has left, or not.
pub(in super::super) fn left(model: &mut Model, how: CopyHow, left: Result<bool, String>) {
    model.calendar_file.writing = false;
    match (left, how) {
        (Ok(true), CopyHow::ShareSheet) => answer(model, words::LEFT.to_owned(), false),
        (Ok(true), CopyHow::Download | CopyHow::Code) => answer(model, words::given(&file_name(model)), false),
        // The sheet was closed.
        (Ok(false), _) => {}
        (Err(why), _) => answer(model, words::not_left(&why), true),
    }
}

pub(in super::super) fn not_written(model: &mut Model, sentence: String) {
    model.calendar_file = CalendarFile::default();
    answer(model, words::not_left(&sentence), true);
}

fn answer(model: &mut Model, text: String, refused: bool) {
    model.calendar_file.answer = Some(Answer { text, refused });
}

/// What of these dates goes into no file: how many places and titles have a child's name in them. Said where the file is offered.
pub fn left_out(model: &Model, span: Span) -> Option<String> {
    let names = Named::everyone(&model.base);
    let (mut places, mut titles): (Vec<String>, Vec<String>) = (Vec::new(), Vec::new());
    let add = |to: &mut Vec<String>, text: String| {
        if names.stand_in(&text) && !to.contains(&text) {
            to.push(text);
        }
    };
    for (dated, held) in of_span(model, span) {
        let plan = plan_told(model, &dated, held);
        add(&mut places, dated.date.place);
        for part in plan.into_iter().flat_map(|plan| plan.parts).filter(|part| !part.is_dropped()) {
            add(&mut titles, part.title);
        }
    }
    words::left_out(places.len(), titles.len())
}

/// The dates of a span. Of the dropped ones all go along, of whatever day, since any may have been sent before: a calendar that had them
/// takes them out. Those taken back at once were in no file.
fn of_span(model: &Model, span: Span) -> Vec<(Dated, Option<PracticeId>)> {
    let now = wall(model.now);
    let season = this_season(model);
    let wanted = |dated: &Dated| match span {
        Span::One(id) => dated.id == id,
        _ if dated.dropped => true,
        Span::ToCome => dated.date.ends() >= now,
        Span::Season => season.is_some_and(|season| (season.from..=season.until).contains(&dated.date.day)),
    };
    // Years of four digits: the format has no others.
    let written = |dated: &Dated| (0..10_000).contains(&dated.date.day.year());
    dates(model).into_iter().filter(|(dated, _)| wanted(dated) && written(dated)).collect()
}

fn events(model: &Model, span: Span) -> Vec<Event> {
    let names = Named::everyone(&model.base);
    of_span(model, span).iter().map(|(dated, held)| event(model, &names, dated, *held)).collect()
}

/// Of a date that was held, the plan as practice followed it.
fn plan_told(model: &Model, dated: &Dated, held: Option<PracticeId>) -> Option<Plan> {
    let done = held.and_then(|practice| plan_done(model, practice)).map(|done| done.plan);
    done.or_else(|| model.base.plan(dated.plan?).cloned())
}

fn event(model: &Model, names: &Named, dated: &Dated, held: Option<PracticeId>) -> Event {
    let written = model.base.date_written(dated.id);
    let at = |id| model.own.get(id).or_else(|| model.theirs.get(id)).map(|entry| entry.at.wall_ms);
    let place = &dated.date.place;
    Event {
        uid: format!("peppertally-{}", dated.id.0),
        changed_ms: written.into_iter().filter_map(at).max().unwrap_or_default(),
        starts: local(dated.date.starts()),
        ends: local(dated.date.ends()),
        summary: words::SUMMARY.to_owned(),
        place: if names.stand_in(place) { String::new() } else { place.clone() },
        description: plan_told(model, dated, held).map(|plan| parts(names, &plan)).unwrap_or_default(),
        sequence: dated.sequence,
        cancelled: dated.dropped,
    }
}

/// A part a line, with its minutes. A title that names a child is told by its kind: a calendar is often shared.
fn parts(names: &Named, plan: &Plan) -> String {
    let title = |part: &PlanPart| {
        if names.stand_in(&part.title) { plan_words::kind(part.kind).to_owned() } else { part.title.clone() }
    };
    let part = |part: &PlanPart| format!("{}: {}", title(part), plan_words::lasts(part.minutes_now(), part.added));
    let stand = plan.parts.iter().filter(|part| !part.is_dropped());
    stand.map(part).collect::<Vec<_>>().join("\n")
}
