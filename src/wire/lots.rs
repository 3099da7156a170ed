//! Balls given alike, in the summary of a packed practice.

use crate::domain::ids::{EntryId, PlayerId, Step};
use crate::domain::lots::{Lot, Seen, What};
use crate::domain::skill::{Feed, FeedKind, ServeStyle};
use crate::domain::summary::Count;

/// What (0 pass, 1 serve, 2 own), feed (0 easy, 1 challenge), step, style (0 none), seen (0 tapped, 1 watched, 2 by itself, 3 told),
/// good, tries, four outcomes, fast swings.
pub(super) type Row = [u32; 12];

pub(super) const WHATS: [What; 3] = [What::Pass, What::Serve, What::Own];
pub(super) const FEEDS: [FeedKind; 2] = [FeedKind::Easy, FeedKind::Challenge];
const SEEN: [Seen; 4] = [Seen::Tapped, Seen::Watched, Seen::BySelf, Seen::Told];

/// Child by child, so that no name stands twice.
pub(super) fn rows(lots: &[Lot]) -> Vec<(String, Vec<Row>)> {
    let mut rows: Vec<(PlayerId, Vec<Row>)> = Vec::new();
    for lot in lots {
        let at = rows.iter().position(|(player, _)| *player == lot.player).unwrap_or_else(|| {
            rows.push((lot.player, Vec::new()));
            rows.len() - 1
        });
        rows[at].1.push(row(lot));
    }
    rows.into_iter().map(|(player, rows)| (player.0.to_string(), rows)).collect()
}

pub(super) fn rows_back(rows: &[(String, Vec<Row>)]) -> Option<Vec<Lot>> {
    let mut lots = Vec::new();
    for (player, rows) in rows {
        let player = PlayerId(EntryId::from_text(player)?);
        for row in rows {
            lots.push(row_back(player, *row)?);
        }
    }
    Some(lots)
}

fn row(lot: &Lot) -> Row {
    let style = lot.style.map_or(0, |style| 1 + place(&ServeStyle::ALL, style));
    let [o0, o1, o2, o3] = lot.outcomes;
    [
        place(&WHATS, lot.what),
        place(&FEEDS, lot.feed.kind),
        u32::from(lot.feed.step.0),
        style,
        place(&SEEN, lot.seen),
        lot.count.good(),
        lot.count.tries(),
        o0,
        o1,
        o2,
        o3,
        lot.n_fast,
    ]
}

fn row_back(player: PlayerId, row: Row) -> Option<Lot> {
    let [what, kind, step, style, seen, good, tries, o0, o1, o2, o3, n_fast] = row;
    Some(Lot {
        player,
        what: at(&WHATS, what)?,
        feed: Feed { kind: at(&FEEDS, kind)?, step: Step(u8::try_from(step).ok()?) },
        style: match style.checked_sub(1) {
            None => None,
            Some(style) => Some(at(&ServeStyle::ALL, style)?),
        },
        seen: at(&SEEN, seen)?,
        count: Count::new(good, tries)?,
        outcomes: [o0, o1, o2, o3],
        n_fast,
    })
}

pub(super) fn place<T: Copy + PartialEq>(all: &[T], one: T) -> u32 {
    all.iter().position(|known| *known == one).and_then(|at| u32::try_from(at).ok()).unwrap_or(u32::MAX)
}

pub(super) fn at<T: Copy>(all: &[T], at: u32) -> Option<T> {
    all.get(usize::try_from(at).ok()?).copied()
}
