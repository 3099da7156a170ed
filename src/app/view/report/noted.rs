//! Serves and passes of a match in its report: each skill a table of its own, in the order of the squad, beside no drill's.

use super::run::{bar, in_squad_order, order};
use super::{ReportRow, ReportSection};
use crate::app::model::Model;
use crate::app::words::{counts, in_match as words};
use crate::domain::ids::PlayerId;
use crate::domain::replay::part::Part;
use crate::domain::scoring::noted::Noted;
use crate::stats::proportion::Count;

/// One skill: its heading, what of it is good, and where the others went.
struct Table {
    heading: &'static str,
    good: fn(&Noted) -> Count,
    more: fn(&Noted) -> Option<String>,
}

const TABLES: [Table; 2] = [
    Table { heading: words::SERVES, good: Noted::serves_in, more: words::serves },
    Table { heading: words::PASSES, good: Noted::passes_good, more: words::passes },
];

pub fn noted(model: &Model, part: &Part) -> Vec<ReportSection> {
    let Some(score) = part.score.match_game() else { return Vec::new() };
    let children = in_squad_order(model, score.noted.children().to_vec(), |(player, _)| *player);
    TABLES.iter().filter_map(|table| section(model, &children, table)).collect()
}

fn section(model: &Model, children: &[(PlayerId, Noted)], table: &Table) -> Option<ReportSection> {
    let counted = || children.iter().map(|(player, noted)| (*player, noted, (table.good)(noted)));
    let row = |(player, noted, count): (PlayerId, &Noted, Count)| ReportRow {
        player: Some(player),
        name: model.name_of(player),
        count: counts::of(count),
        share: counts::share(count),
        bar: bar(count),
        row: None,
        more: (table.more)(noted),
    };
    let rows: Vec<ReportRow> = counted().filter(|(.., count)| count.tries() > 0).map(row).collect();
    let counts = counted().map(|(.., count)| count).filter(|count| count.tries() > 0);
    (!rows.is_empty()).then(|| ReportSection { heading: table.heading.to_owned(), rows, order: order(counts) })
}
