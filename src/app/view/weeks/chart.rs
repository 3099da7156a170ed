//! Charts as paths and places: a level over days, columns, a path of two shares. All arithmetic of a drawing is here; `ui` copies it.

use crate::stats::level::Level;
use crate::stats::proportion::{Confidence, Range};

/// A field of [`WIDTH`] by [`HEIGHT`]: the first day at the left, all good at the top.
#[derive(Clone, Debug, PartialEq)]
pub struct Chart {
    /// Where the level lies, and its middle.
    pub band: Option<String>,
    pub line: Option<String>,
    pub days: Vec<ChartDay>,
    pub first: String,
    pub last: String,
    /// For those who can't see it.
    pub label: String,
}

/// One occasion: where it stands and what it says when it is touched.
#[derive(Clone, Debug, PartialEq)]
pub struct ChartDay {
    pub x: String,
    pub y: String,
    pub r: String,
    /// How far so many balls lie apart by chance, as a line.
    pub reach: String,
    /// The strip that answers to a touch: from the left, and how wide.
    pub from: String,
    pub wide: String,
    /// More than chance.
    pub marked: bool,
    /// Challenge balls alone.
    pub hard: bool,
    pub day: String,
    pub says: String,
}

/// Where a key leads from an occasion.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    Earlier,
    Later,
    First,
    Last,
}

impl Chart {
    /// The occasion that a key leads to.
    pub fn led(n_days: usize, at: usize, way: Way) -> usize {
        let last = n_days.saturating_sub(1);
        match way {
            Way::Earlier => at.saturating_sub(1),
            Way::Later => (at + 1).min(last),
            Way::First => 0,
            Way::Last => last,
        }
    }
}

/// What is drawn of an occasion.
#[derive(Clone, Debug, PartialEq)]
pub struct Dot {
    pub day: i32,
    pub share: f64,
    pub n_tries: u32,
    pub reach: Option<Range>,
    pub marked: bool,
    pub hard: bool,
    pub told: String,
    pub says: String,
}

pub const WIDTH: f64 = 320.0;
pub const HEIGHT: f64 = 128.0;
/// Nearer to each other two occasions can't be told apart nor touched, unless there are very many.
const APART: f64 = 8.0;

/// Days of a span on the field. One day is no span.
#[derive(Clone, Copy)]
pub struct Span {
    first: i32,
    days: f64,
    width: f64,
}

impl Span {
    pub fn new(first: i32, last: i32, width: f64) -> Option<Span> {
        let days = f64::from(last.saturating_sub(first));
        (days > 0.0).then_some(Span { first, days, width })
    }

    pub fn x(self, day: i32) -> f64 {
        self.width * (f64::from(day.saturating_sub(self.first)) / self.days).clamp(0.0, 1.0)
    }
}

pub fn path(points: &mut dyn Iterator<Item = (f64, f64)>) -> String {
    let mut path = String::from("M");
    for (x, y) in points {
        if path.len() > 1 {
            path.push('L');
        }
        put_tenths(&mut path, x);
        path.push(' ');
        put_tenths(&mut path, y);
    }
    path
}

/// With one digit after the point: the standard library's way is exact to any digit and takes ten times as long.
fn put_tenths(text: &mut String, n: f64) {
    let tenths = (n * 10.0).round() as i32;
    let sign = if tenths < 0 { "-" } else { "" };
    let size = tenths.unsigned_abs();
    text.push_str(sign);
    text.push_str(&(size / 10).to_string());
    text.push('.');
    text.push(char::from(b'0' + (size % 10) as u8));
}

/// Band and middle of levels: day, mean and spread of the log-odds.
pub fn band(at: &[(i32, f64, f64)], span: Span, height: f64) -> (String, String) {
    let y = |share: f64| height * (1.0 - share);
    let level = |(day, mean, sd): &(i32, f64, f64)| {
        let level = Level::new(*mean, *sd)?;
        let range = level.range(Confidence::P95);
        Some((span.x(*day), y(range.low()), y(level.likely()), y(range.high())))
    };
    let levels: Vec<(f64, f64, f64, f64)> = at.iter().filter_map(level).collect();
    let there = levels.iter().map(|(x, _, _, high)| (*x, *high));
    let back = levels.iter().rev().map(|(x, low, _, _)| (*x, *low));
    let band = path(&mut there.chain(back)) + "Z";
    (band, path(&mut levels.iter().map(|(x, _, likely, _)| (*x, *likely))))
}

/// Occasions as they are drawn and touched, in the order of their days: each answers halfway to the next. Several of one day stand side by side.
pub fn days(dots: Vec<Dot>, span: Span) -> Vec<ChartDay> {
    let xs = apart(dots.iter().map(|dot| span.x(dot.day)).collect());
    let between = |at: usize| match (at.checked_sub(1).and_then(|before| xs.get(before)), xs.get(at)) {
        (Some(before), Some(after)) => 0.5 * (before + after),
        (None, _) => -12.0,
        (_, None) => WIDTH + 12.0,
    };
    let y = |share: f64| HEIGHT * (1.0 - share);
    let one = |(at, dot): (usize, Dot)| {
        let x = xs[at];
        let reach = dot.reach.map(|range| format!("M{x:.1} {:.1}V{:.1}", y(range.low()), y(range.high())));
        ChartDay {
            x: format!("{x:.1}"),
            y: format!("{:.1}", y(dot.share)),
            r: format!("{:.1}", (f64::from(dot.n_tries).sqrt() * 1.1).clamp(4.0, 7.5)),
            reach: reach.unwrap_or_default(),
            from: format!("{:.1}", between(at)),
            wide: format!("{:.1}", (between(at + 1) - between(at)).max(0.0)),
            marked: dot.marked,
            hard: dot.hard,
            day: dot.told,
            says: dot.says,
        }
    };
    dots.into_iter().enumerate().map(one).collect()
}

/// The same places with a least distance between them, in the field still: what lay too near moves to the right, at the right edge to the left.
fn apart(mut xs: Vec<f64>) -> Vec<f64> {
    let least = APART.min(WIDTH / (xs.len().saturating_sub(1).max(1) as f64));
    for at in 1..xs.len() {
        xs[at] = xs[at].max(xs[at - 1] + least);
    }
    let mut most = WIDTH;
    for x in xs.iter_mut().rev() {
        *x = x.min(most).max(0.0);
        most = *x - least;
    }
    xs
}

/// Columns side by side, the first at the left, in a field of [`WIDTH`] by [`COLUMNS`].
#[derive(Clone, Debug, PartialEq)]
pub struct Columns {
    pub columns: Vec<Column>,
    pub first: String,
    pub last: String,
    pub label: String,
    /// What each is of and what it says: the table behind.
    pub rows: Vec<(String, String)>,
}

#[derive(Clone, Debug, PartialEq)]
pub struct Column {
    pub x: String,
    pub y: String,
    pub wide: String,
    pub high: String,
    /// Its lower part, where some of them are of another kind.
    pub part_y: String,
    pub part: String,
    /// The number over it, and where.
    pub n: String,
    pub n_x: String,
    pub n_y: String,
}

pub const COLUMNS: f64 = 72.0;
/// A column is never wider than this.
const WIDEST: f64 = 36.0;

/// Each with its number, and how many of those are of another kind.
pub fn columns(counts: &[(u32, u32)]) -> Vec<Column> {
    let most = f64::from(counts.iter().map(|(n, _)| *n).max().unwrap_or(0).max(1));
    let room = WIDTH / (counts.len().max(1) as f64);
    let wide = (room - 6.0).clamp(4.0, WIDEST);
    let column = |(at, (n, part)): (usize, &(u32, u32))| {
        let middle = room * (at as f64 + 0.5);
        let high = |n: u32| COLUMNS * f64::from(n) / most;
        Column {
            x: format!("{:.1}", middle - 0.5 * wide),
            y: format!("{:.1}", COLUMNS - high(*n)),
            wide: format!("{wide:.1}"),
            high: format!("{:.1}", high(*n)),
            part_y: format!("{:.1}", COLUMNS - high(*part)),
            part: format!("{:.1}", high(*part)),
            n: if *n > 0 { n.to_string() } else { String::new() },
            n_x: format!("{middle:.1}"),
            n_y: format!("{:.1}", COLUMNS - high(*n) - 4.0),
        }
    };
    counts.iter().enumerate().map(column).collect()
}
