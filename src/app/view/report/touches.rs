//! Who touched a ball in whatever role: for fairness, so in the order of the squad and never as a rate.

use super::{TouchRow, TouchesView};
use crate::app::model::Model;
use crate::app::words::groups as words;
use crate::domain::ids::PlayerId;
use crate::domain::touches::Touches;

/// Of these children, all of whom stood in it; `None` where nobody touched a ball in a role beside the judged one, since then the bars say
/// it all.
pub fn touches(model: &Model, everyone: &[PlayerId], of: impl Fn(PlayerId) -> Touches) -> Option<TouchesView> {
    let squad = model.base.players();
    let known = squad.iter().map(|p| p.id).filter(|p| everyone.contains(p));
    let unknown = everyone.iter().copied().filter(|p| squad.iter().all(|known| known.id != *p));
    let children: Vec<(PlayerId, Touches)> = known.chain(unknown).map(|p| (p, of(p))).collect();
    if children.iter().all(|(_, t)| t.fed + t.caught + t.fetched == 0) {
        return None;
    }
    let fewest = children.iter().map(|(_, t)| t.all()).min()?;
    let most = children.iter().map(|(_, t)| t.all()).max()?;
    let who: Vec<String> = children.iter().filter(|(_, t)| t.all() == fewest).map(|(p, _)| model.name_of(*p)).collect();
    let row = |(player, t): &(PlayerId, Touches)| TouchRow {
        name: model.name_of(*player),
        what: words::touches(t.all(), [t.judged, t.fed, t.caught, t.fetched]),
    };
    Some(TouchesView {
        rows: children.iter().map(row).collect(),
        // Where many have as few, nobody is behind.
        fewest: (fewest < most && who.len() <= 3).then(|| words::fewest(&who, fewest)),
    })
}
