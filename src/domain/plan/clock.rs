//! What is on, how much of it is left, what is next, how late. Told by the entries alone, by the page's own reading or, on another page,
//! in UTC milliseconds, so that it survives reload and kill and knows no change of summer time. Reads no clock itself.

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
    /// `None`: it was taken out of the plan meanwhile, or nobody said how long it is to be.
    pub left_ms: Option<i64>,
}

impl On {
    /// What is on alone: a board asks at every tap, and needs nothing of what is to come.
    pub fn of(plan: &Plan, last: &Mark, series: SeriesId, now: Stamp) -> Option<On> {
        let mark = Some(last).filter(|mark| !mark.ends)?;
        let gone_ms = since(mark, series, now);
        let minutes = plan.part(mark.part).map(PlanPart::minutes_now).filter(|n| *n > 0);
        let left_ms = minutes.map(|n| i64::from(n) * MINUTE_MS - gone_ms);
        Some(On { mark: mark.id, part: mark.part, title: mark.title.clone(), gone_ms, left_ms })
    }
}

const MINUTE_MS: i64 = 60_000;

impl Standing {
    /// `None` before the first part was begun. `marks` stand in the order of their entries.
    pub fn of(plan: &Plan, marks: &[Mark], series: SeriesId, now: Stamp) -> Option<Standing> {
        let first = marks.first()?;
        let on = marks.last().and_then(|last| On::of(plan, last, series, now));
        let to_come: Vec<PartNo> = to_come(plan, marks).map(|part| part.no).collect();
        let gone = since(first, series, now);
        let left = i64::from(plan.gym_min) * MINUTE_MS - gone;
        let coming =
            to_come.iter().filter_map(|no| plan.part(*no)).map(|part| i64::from(part.minutes_now())).sum::<i64>();
        let rest = on.as_ref().and_then(|on| on.left_ms).unwrap_or(0);
        Some(Standing {
            next: to_come.first().copied(),
            late_ms: late_ms(plan, marks, gone, on.as_ref()),
            over_ms: rest.max(0) + coming * MINUTE_MS - left,
            on,
            to_come,
            gone_ms: gone,
            left_ms: left,
        })
    }

    /// Begun so much later than the gym was ours: that much less is left, and that much it runs late.
    pub fn begun_late(self, late_ms: i64) -> Standing {
        Standing {
            left_ms: self.left_ms - late_ms,
            late_ms: self.late_ms + late_ms,
            over_ms: self.over_ms + late_ms,
            ..self
        }
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

/// The time gone, less what the plan had for it as it was made: the minutes of the parts begun (of the one that is on no more than it has
/// had), and of those dropped on the way, whose time is saved. So a part begun out of its turn, or moved, makes nothing late or early. What
/// nobody planned takes time from the others; what was taken out of the plan is gone with its time.
fn late_ms(plan: &Plan, marks: &[Mark], gone: i64, on: Option<&On>) -> i64 {
    if plan.grew() {
        return 0;
    }
    let planned = |part: &PlanPart| if part.added { 0 } else { i64::from(part.minutes) * MINUTE_MS };
    let done = done(marks);
    let begun = done.iter().map(|(no, ms)| {
        let is_on = on.filter(|on| on.part == *no);
        let had = is_on.map_or_else(|| i64::from(ms.unwrap_or(0)), |on| on.gone_ms);
        plan.part(*no).map_or(had, |part| if is_on.is_some() { planned(part).min(had) } else { planned(part) })
    });
    // As far as practice has come, whatever part it has gone back to. Where it stood with one that was taken out nobody knows: behind what
    // was dropped before the next to come.
    let come = marks.iter().filter_map(|mark| plan.place_of(mark.part)).max().map_or(0, |at| at + 1);
    let is_out = marks.iter().any(|mark| plan.part(mark.part).is_none());
    let passed = plan.parts.iter().skip(come).take_while(|part| is_out && part.is_dropped()).count();
    let dropped = plan
        .parts
        .iter()
        .take(come + passed)
        .filter(|part| part.is_dropped() && done.iter().all(|(no, _)| *no != part.no));
    gone - begun.sum::<i64>() - dropped.map(planned).sum::<i64>()
}

fn since(mark: &Mark, series: SeriesId, now: Stamp) -> i64 {
    i64::try_from(gone_ms((mark.id.series, mark.at), series, now)).unwrap_or(i64::MAX)
}

/// How long ago that moment was, told on the page of this series: its own reading can't be set by anyone, and the time in which its phone
/// slept is in it (`domain::time::Slept`). Another page has the wall clock alone.
fn gone_ms((set_by, at): (SeriesId, Stamp), series: SeriesId, now: Stamp) -> u64 {
    let mono = now.mono_ms.saturating_sub(at.mono_ms);
    let wall = u64::try_from(now.wall_ms.saturating_sub(at.wall_ms)).unwrap_or(0);
    if set_by == series { mono } else { wall }
}
