//! What is on, how much of it is left, what is next, how late. Told by the entries alone, in UTC milliseconds, so that it survives reload
//! and kill and knows no change of summer time. Reads no clock itself.

use super::super::ids::{EntryId, PartNo, SeriesId};
use super::super::time::Stamp;
use super::refit::Left;
use super::{Plan, PlanPart};

/// A part was begun, or ended with none after it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mark {
    pub id: EntryId,
    pub at: Stamp,
    pub part: PartNo,
    /// Of a part that was begun, as it was called then.
    pub title: String,
    /// Nothing is on from here.
    pub ends: bool,
}

/// How a plan stands at a moment.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Standing {
    pub on: Option<On>,
    /// The next part to begin.
    pub next: Option<PartNo>,
    /// Those to come, in order.
    pub to_come: Vec<PartNo>,
    /// Since the first part began.
    pub gone_ms: i64,
    /// Of the gym's time; below 0 once it is over.
    pub left_ms: i64,
    /// How far it runs behind the plan as it was made; below 0: before it.
    pub late_ms: i64,
    /// How far what is on and what is to come go beyond the gym's time.
    pub over_ms: i64,
}

/// The part that is on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct On {
    pub mark: EntryId,
    pub part: PartNo,
    pub title: String,
    pub gone_ms: i64,
    /// `None`: it was taken out of the plan meanwhile, so nobody knows how long it was to be.
    pub left_ms: Option<i64>,
}

const MINUTE_MS: i64 = 60_000;

impl Standing {
    /// `None` before the first part was begun. `marks` stand in the order of their entries.
    pub fn of(plan: &Plan, marks: &[Mark], series: SeriesId, now: Stamp) -> Option<Standing> {
        let first = marks.first()?;
        let since = |mark: &Mark| i64::try_from(gone_ms((mark.id.series, mark.at), series, now)).unwrap_or(i64::MAX);
        let last = marks.last().filter(|mark| !mark.ends);
        let on = last.map(|mark| {
            let gone = since(mark);
            let left = plan.part(mark.part).map(|part| i64::from(part.minutes_now()) * MINUTE_MS - gone);
            On { mark: mark.id, part: mark.part, title: mark.title.clone(), gone_ms: gone, left_ms: left }
        });
        let to_come: Vec<PartNo> = to_come(plan, marks).map(|part| part.no).collect();
        let gone = since(first);
        let left = i64::from(plan.gym_min) * MINUTE_MS - gone;
        let coming =
            to_come.iter().filter_map(|no| plan.part(*no)).map(|part| i64::from(part.minutes_now())).sum::<i64>();
        let rest = on.as_ref().and_then(|on| on.left_ms).unwrap_or(0);
        let due = last.and_then(|mark| due_ms(plan, mark.part));
        Some(Standing {
            next: to_come.first().copied(),
            late_ms: match (due, &on) {
                (Some(due), Some(on)) => gone - on.gone_ms - due + on.left_ms.map_or(0, |left| (-left).max(0)),
                _ => 0,
            },
            over_ms: rest.max(0) + coming * MINUTE_MS - left,
            on,
            to_come,
            gone_ms: gone,
            left_ms: left,
        })
    }

    /// Whole minutes for the parts to come, once what is on has ended.
    pub fn left_for_rest_min(&self) -> u16 {
        let rest = self.on.as_ref().and_then(|on| on.left_ms).unwrap_or(0).max(0);
        u16::try_from(((self.left_ms - rest) / MINUTE_MS).max(0)).unwrap_or(u16::MAX)
    }

    /// The parts to come, to be fitted.
    pub fn rest(&self, plan: &Plan) -> Vec<Left> {
        let parts = self.to_come.iter().filter_map(|no| plan.part(*no));
        parts.map(|part| Left { minutes: part.minutes_now(), locked: part.locked }).collect()
    }
}

/// How long each part went on, in the order in which they were first begun; `None` for one whose end nobody noted.
pub fn done(marks: &[Mark]) -> Vec<(PartNo, Option<u32>)> {
    let mut done: Vec<(PartNo, Option<u32>)> = Vec::new();
    for (at, mark) in marks.iter().enumerate().filter(|(_, mark)| !mark.ends) {
        let ms = marks.get(at + 1).map(|next| {
            let ms = gone_ms((mark.id.series, mark.at), next.id.series, next.at);
            u32::try_from(ms).unwrap_or(u32::MAX)
        });
        match done.iter_mut().find(|(part, _)| *part == mark.part) {
            Some((_, had)) => *had = had.zip(ms).map(|(had, ms)| had.saturating_add(ms)),
            None => done.push((mark.part, ms)),
        }
    }
    done
}

/// Parts that were never begun and aren't dropped.
fn to_come<'a>(plan: &'a Plan, marks: &'a [Mark]) -> impl Iterator<Item = &'a PlanPart> {
    plan.parts.iter().filter(move |part| !part.is_dropped() && marks.iter().all(|mark| mark.part != part.no))
}

/// When a part was to begin, by the plan as it was made. What was put in since was in nobody's plan.
fn due_ms(plan: &Plan, no: PartNo) -> Option<i64> {
    let at = plan.place_of(no)?;
    if plan.parts[at].added {
        return None;
    }
    let before = plan.parts[..at].iter().filter(|part| !part.added);
    Some(before.map(|part| i64::from(part.minutes) * MINUTE_MS).sum())
}

/// How long ago that moment was, told on the page of this series. Its own reading can't be turned back, the wall clock goes on while a
/// phone sleeps: the longer of both. A wall clock put forward makes a part look longer, and ends nothing.
fn gone_ms((set_by, at): (SeriesId, Stamp), series: SeriesId, now: Stamp) -> u64 {
    let mono = now.mono_ms.saturating_sub(at.mono_ms);
    let wall = u64::try_from(now.wall_ms.saturating_sub(at.wall_ms)).unwrap_or(0);
    if set_by == series { mono.max(wall) } else { wall }
}
