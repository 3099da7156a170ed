//! The squad: a list taken in, a child changed, archived, brought back.

use super::super::action::Action;
use super::super::effect::Effect;
use super::super::model::{ChildDraft, Model};
use super::super::screen::Screen;
use super::{go, practice, put, write};
use crate::domain::entry::{Entry, Fact};
use crate::domain::ids::{DrillId, PlayerId, ShirtNumber};
use crate::domain::roster::{self, What};

pub fn act(model: &mut Model, action: Action) -> Vec<Effect> {
    match action {
        Action::RosterTyped(text) => model.drafts.roster = text,
        Action::RosterTaken => return take(model),
        Action::ChildNameTyped(name) => draft(model, |d| d.name = name),
        Action::ChildNumberTyped(number) => draft(model, |d| d.number = number),
        Action::ChildStyleChosen(style) => draft(model, |d| d.style = (d.style != Some(style)).then_some(style)),
        Action::ChildKept => return keep(model),
        Action::ChildArchived(player, archived) => {
            let revision = model.base.next_player_revision(player);
            let mut effects = write(model, vec![Fact::PlayerArchived { player, revision, archived }]);
            effects.extend(go(model, Screen::Squad));
            return effects;
        }
        _ => {}
    }
    Vec::new()
}

pub fn open_child(model: &mut Model, id: PlayerId) {
    model.drafts.child = model.base.player(id).map(|p| ChildDraft {
        player: id,
        name: p.name,
        number: p.number.map(|n| n.0.to_string()).unwrap_or_default(),
        style: p.style,
    });
}

/// What is wrong with a child's draft, if anything.
pub fn read_draft(draft: &ChildDraft) -> Result<(String, Option<ShirtNumber>), DraftFault> {
    let name = roster::clean_name(&draft.name).map_err(|_| DraftFault::Name)?;
    let text = draft.number.trim();
    if text.is_empty() {
        return Ok((name, None));
    }
    match text.parse::<u16>() {
        Ok(n) if n <= 999 => Ok((name, Some(ShirtNumber(n)))),
        _ => Err(DraftFault::Number),
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DraftFault {
    Name,
    Number,
}

/// Adds the children understood. Lines not understood stay in the text, so nothing typed is lost.
fn take(model: &mut Model) -> Vec<Effect> {
    let reading = roster::read(&model.drafts.roster);
    let facts: Vec<Fact> =
        reading.children().map(|(name, number)| Fact::PlayerAdded { name: name.to_owned(), number }).collect();
    if facts.is_empty() {
        return Vec::new();
    }
    let ready = if model.base.drills().is_empty() { practice::starter_drills() } else { Vec::new() };
    let left: Vec<String> = reading
        .lines
        .iter()
        .filter(|l| matches!(l.what, What::NotUnderstood(_)))
        .map(|l| l.shown().to_owned())
        .collect();
    model.drafts.roster = left.join("\n");
    let all_taken = model.drafts.roster.is_empty();
    let first = model.base.practices().is_empty();
    let mut entries = model.writer.write(facts, model.now);
    // Those that she has put away stay away.
    entries.extend(ready.into_iter().filter(|entry| model.own.get(entry.id).is_none()));
    let mut effects = put(model, entries);
    if all_taken {
        effects.extend(go(model, if first { Screen::Today } else { Screen::Squad }));
    }
    effects
}

/// While the database couldn't be read, the starter drills were written for a squad that had them already. Of each pair one stays:
/// the one that was used more, else the older.
pub fn settle_starters(model: &mut Model) -> Vec<Effect> {
    let mut doubled = Vec::new();
    for starter in practice::starter_drills() {
        let Fact::DrillAdded { spec: starter } = starter.fact else { continue };
        let own =
            model.base.drills().into_iter().filter(|(id, spec)| **spec == starter && model.own.get(id.0).is_some());
        let rank = |id: DrillId| (std::cmp::Reverse(n_runs(model, id)), model.own.get(id.0).map(Entry::order));
        let mut twins: Vec<DrillId> = own.map(|(id, _)| id).collect();
        twins.sort_by_key(|id| rank(*id));
        doubled.extend(twins.into_iter().skip(1));
    }
    let archived =
        |drill: DrillId| Fact::DrillArchived { drill, revision: model.base.next_drill_revision(drill), archived: true };
    let facts = doubled.into_iter().map(archived).collect();
    write(model, facts)
}

fn n_runs(model: &Model, drill: DrillId) -> usize {
    let packed = model.packed.values().flat_map(|p| &p.summary.runs);
    let packed = packed.filter(|r| r.drill == Some(drill) && !model.runs.contains_key(&r.run)).count();
    packed + model.runs.values().filter(|r| r.drill == Some(drill)).count()
}

fn keep(model: &mut Model) -> Vec<Effect> {
    let Some(draft) = model.drafts.child.clone() else { return Vec::new() };
    let Ok((name, number)) = read_draft(&draft) else { return Vec::new() };
    let Some(now) = model.base.player(draft.player) else { return Vec::new() };
    let mut facts = Vec::new();
    if (&now.name, now.number) != (&name, number) {
        let revision = model.base.next_player_revision(draft.player);
        facts.push(Fact::PlayerChanged { player: draft.player, revision, name, number });
    }
    if let Some(style) = draft.style.filter(|s| now.style != Some(*s)) {
        facts.push(Fact::StyleNoted {
            player: draft.player,
            revision: model.base.next_style_revision(draft.player),
            style,
        });
    }
    let mut effects = write(model, facts);
    effects.extend(go(model, Screen::Squad));
    effects
}

fn draft(model: &mut Model, change: impl FnOnce(&mut ChildDraft)) {
    if let Some(draft) = &mut model.drafts.child {
        change(draft);
    }
}
