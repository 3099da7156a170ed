//! A plan as fields of a record, and back. The table of the fields is in `record`.

use super::fact::{push_maybe_id, take_maybe_id};
use super::json::{Fields, Misfit, Object};
use super::words::Words;
use crate::domain::ids::{DrillId, PartNo};
use crate::domain::plan::{Fitted, PartKind, Plan, PlanPart};

pub(super) const KINDS: Words<PartKind> = Words(&[
    (PartKind::Arrival, "arrival"),
    (PartKind::Drill, "drill"),
    (PartKind::Break, "break"),
    (PartKind::Other, "other"),
]);

pub(super) fn push_plan(to: &mut Object, plan: &Plan) {
    to.number("gym_min", plan.gym_min);
    to.number("collect_s", plan.collect_s);
    to.number("next", plan.next_no);
    to.array("parts", plan.parts.iter().map(part_text));
}

pub(super) fn take_plan(f: &mut Fields<'_>) -> Result<Plan, Misfit> {
    Ok(Plan {
        gym_min: f.need("gym_min")?,
        collect_s: f.need("collect_s")?,
        next_no: f.need("next")?,
        parts: f.objects("parts")?.iter_mut().map(take_part).collect::<Result<_, _>>()?,
    })
}

/// A plan as one text, for a summary.
pub(super) fn text(plan: &Plan) -> String {
    let mut object = Object::default();
    push_plan(&mut object, plan);
    object.to_string()
}

/// What [`text`] wrote.
pub(super) fn of_text(text: &str) -> Option<Plan> {
    Fields::parse(text).ok().and_then(|mut fields| take_plan(&mut fields).ok())
}

fn part_text(part: &PlanPart) -> String {
    let mut object = Object::default();
    object.number("no", part.no.0);
    object.text("kind", KINDS.word(part.kind));
    object.text("title", &part.title);
    object.number("minutes", part.minutes);
    push_maybe_id(&mut object, "drill", part.drill.map(|drill| drill.0));
    for (name, value) in [("groups", part.groups), ("balls", part.balls), ("feeds", part.feeds)] {
        if let Some(value) = value {
            object.number(name, value);
        }
    }
    object.mark("locked", part.locked);
    object.mark("ball", part.ball);
    object.mark("net", part.net);
    object.mark("game", part.game);
    object.mark("added", part.added);
    match part.fitted {
        Fitted::AsPlanned => {}
        Fitted::To(minutes) => object.number("fitted", minutes),
        Fitted::Dropped => object.mark("dropped", true),
    }
    if !part.why.is_empty() {
        object.text("why", &part.why);
    }
    object.to_string()
}

fn take_part(f: &mut Fields<'_>) -> Result<PlanPart, Misfit> {
    let (fitted, dropped) = (f.maybe("fitted")?, f.mark("dropped")?);
    let part = PlanPart {
        no: PartNo(f.need("no")?),
        kind: f.word("kind", |word| KINDS.known(word))?,
        title: f.text("title")?.into_owned(),
        minutes: f.need("minutes")?,
        drill: take_maybe_id(f, "drill")?.map(DrillId),
        groups: f.maybe("groups")?,
        balls: f.maybe("balls")?,
        feeds: f.maybe("feeds")?,
        locked: f.mark("locked")?,
        ball: f.mark("ball")?,
        net: f.mark("net")?,
        game: f.mark("game")?,
        added: f.mark("added")?,
        fitted: match fitted {
            Some(minutes) => Fitted::To(minutes),
            None if dropped => Fitted::Dropped,
            None => Fitted::AsPlanned,
        },
        why: f.maybe::<String>("why")?.unwrap_or_default(),
    };
    // A list has no place to keep a field for: the whole plan is left to the version that knows it.
    if f.rest().is_some() { Err(Misfit::Newer) } else { Ok(part) }
}
