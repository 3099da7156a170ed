//! Who touched a ball in whatever role: for fairness, so in the order of the squad and never as a rate.

use super::{TouchRow, TouchesView};
use crate::app::model::Model;
use crate::app::words::groups as words;
use crate::domain::ids::PlayerId;
use crate::domain::touches::Touches;

/// Of these children, all of whom stood in it; `None` where nobody touched a ball in a role beside the judged one, since then the bars say
/// it all. What was told for a child is named by itself: the phone saw none of these balls.
pub fn touches(model: &Model, everyone: &[PlayerId], of: impl Fn(PlayerId) -> (Touches, u32)) -> Option<TouchesView> {
    let squad = model.base.players();
    let known = squad.iter().map(|p| p.id).filter(|p| everyone.contains(p));
    let unknown = everyone.iter().copied().filter(|p| squad.iter().all(|known| known.id != *p));
    let children: Vec<(PlayerId, Touches, u32)> =
        known.chain(unknown).map(|p| (p, of(p))).map(|(p, (touches, told))| (p, touches, told)).collect();
    if children.iter().all(|(_, t, _)| t.fed + t.caught + t.fetched == 0) {
        return None;
    }
    let all = |(_, touches, told): &(PlayerId, Touches, u32)| touches.all() + told;
    let fewest = children.iter().map(all).min()?;
    let most = children.iter().map(all).max()?;
    let who: Vec<String> = children.iter().filter(|c| all(c) == fewest).map(|c| model.name_of(c.0)).collect();
    let row = |(player, t, told): &(PlayerId, Touches, u32)| TouchRow {
        name: model.name_of(*player),
        what: words::touches([t.judged, *told], [t.fed, t.caught, t.fetched]),
    };
    Some(TouchesView {
        rows: children.iter().map(row).collect(),
        // Where many have as few, nobody is behind.
        fewest: (fewest < most && who.len() <= 3).then(|| words::fewest(&who, fewest)),
    })
}
