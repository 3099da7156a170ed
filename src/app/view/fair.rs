//! Fair practice: first who is short and what to do next time, then everyone in the squad's order with a bar against an even share. For the
//! coach alone: no board and no station leads here.

use crate::app::calendar::this_season;
use crate::app::fair::{Child, Fair, Fell, OF_MANY, OF_ONE, Share};
use crate::app::model::Model;
use crate::app::practices::Practices;
use crate::app::words::{counts, fair as words};
use crate::domain::summary::PracticeSummary;

#[derive(Clone, Debug, Default, PartialEq)]
pub struct FairView {
    /// "Bram had 9 of an even 15: …"
    pub first: Vec<String>,
    /// "Last time: Wednesday 25 November. This season: 12 practices."
    pub spans: String,
    pub rows: Vec<FairRow>,
    /// Nothing was counted in any practice.
    pub empty: bool,
}

#[derive(Clone, Debug, PartialEq)]
pub struct FairRow {
    pub name: String,
    pub last: ShareLine,
    pub season: ShareLine,
    /// By role: heading and lines, of the last practice and of the season.
    pub roles: Vec<(&'static str, Vec<String>)>,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ShareLine {
    /// "9 contacts: half an even share", "away"
    pub words: String,
    /// In hundredths of twice an even share; nothing where there is none to compare with.
    pub percent: Option<u8>,
}

/// So many are named each by a sentence.
const MOST_NAMED: usize = 3;

pub fn fair(model: &Model) -> FairView {
    let all = Practices::of(model);
    let today = model.now.day();
    // One of a day to come was begun while a clock was wrong.
    let known: Vec<&PracticeSummary> =
        all.latest_first().into_iter().filter(|p| p.started.day() <= today && p.n_counted() > 0).collect();
    let Some(last) = known.first().copied() else { return FairView { empty: true, ..FairView::default() } };
    let season: Vec<&PracticeSummary> = match this_season(model) {
        Some(season) => {
            known.iter().copied().filter(|p| (season.from..=season.until).contains(&p.started.day())).collect()
        }
        None => known.clone(),
    };
    let (one, many) = (Fair::of(model, &[last]), Fair::of(model, &season));
    let rows = many.children.iter().map(|child| row(model, &one, &many, child)).collect();
    FairView {
        first: first(model, &one, &many),
        spans: words::spans(&counts::day(last.started.day(), today), season.len()),
        rows,
        empty: false,
    }
}

fn first(model: &Model, one: &Fair, many: &Fair) -> Vec<String> {
    let of = |child: &Child| words::short(&model.name_of(child.player), child.share, one.by_rallies);
    let mut lines: Vec<String> = match one.fell(OF_ONE) {
        Fell::NobodyWhole => vec![words::NOBODY_WHOLE.to_owned()],
        Fell::TooLittle => vec![words::TOO_LITTLE.to_owned()],
        Fell::ToAFew => vec![words::to_a_few(one.by_rallies)],
        Fell::Near => vec![words::ALL_NEAR.to_owned()],
        Fell::Short(short) => {
            let named = short.iter().take(MOST_NAMED).map(of);
            named.chain(words::more_short(short.len().saturating_sub(MOST_NAMED), one.by_rallies)).collect()
        }
    };
    let short = many.short(OF_MANY);
    let names: Vec<String> = short.iter().take(MOST_NAMED).map(|child| model.name_of(child.player)).collect();
    lines.extend((!names.is_empty()).then(|| words::short_season(&names, short.len() - names.len())));
    lines
}

fn row(model: &Model, one: &Fair, many: &Fair, child: &Child) -> FairRow {
    let of_last = one.children.iter().find(|of| of.player == child.player);
    let mut roles = Vec::new();
    if let Some(of) = of_last.filter(|of| of.n_whole + of.n_part > 0) {
        roles.push((words::LAST, words::roles(&of.had)));
    }
    if child.n_whole + child.n_part > 0 {
        roles.push((words::SEASON, words::roles(&child.had)));
    }
    FairRow {
        name: model.name_of(child.player),
        last: match of_last {
            Some(of) if of.n_whole > 0 => line(of.share, one.by_rallies),
            Some(of) if of.n_part > 0 => away(words::IN_PART),
            _ => away(words::AWAY),
        },
        season: if child.n_whole > 0 { line(child.share, many.by_rallies) } else { away(words::AWAY) },
        roles,
    }
}

fn away(word: &str) -> ShareLine {
    ShareLine { words: word.to_owned(), percent: None }
}

fn line(share: Share, by_rallies: bool) -> ShareLine {
    let percent = share.part().map(|part| (part * 50.0).round().clamp(0.0, 100.0) as u8);
    ShareLine { words: words::share(share, by_rallies), percent }
}
