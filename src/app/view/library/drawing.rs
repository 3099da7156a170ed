//! A floor as numbers to draw: where shapes stand, how ways bend, which sentence tells each. In tenths of the floor's own units, so
//! that whole numbers are fine enough.

use crate::app::words::library as words;
use crate::domain::library::{Floor, FloorPlace, FloorWay, Ground, Moves, Who};

#[derive(Clone, Debug, PartialEq)]
pub struct Drawing {
    pub ground: Ground,
    pub marks: Vec<Mark>,
    pub ways: Vec<Way>,
    /// "From above: a court with a net, 2 servers, 1 target."
    pub what: String,
    /// What happens, step by step: "The server serves to the target."
    pub steps: Vec<String>,
}

/// A shape that stands there.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    pub at: (i32, i32),
    pub who: Who,
    /// The first of its kind is named: the word and where it is written.
    pub label: Option<(&'static str, (i32, i32))>,
}

/// A ball's or a child's way: a curve from `from` over `bend` to `to`, with a head there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Way {
    pub from: (i32, i32),
    pub bend: (i32, i32),
    pub to: (i32, i32),
    pub head: [(i32, i32); 3],
    pub on_foot: bool,
    /// The number of its sentence, where there are several, and where it is written.
    pub no: Option<usize>,
    pub no_at: (i32, i32),
}

/// Tenths to a unit.
const FINE: f64 = 10.0;
/// How far from the middle of a shape a way begins, and ends.
const LEAVES: f64 = 11.0;
const ARRIVES: f64 = 12.0;
const HEAD: (f64, f64) = (9.0, 4.5);
/// Room for a word above or below its shape.
const BELOW: u16 = 19;
const ABOVE: u16 = 12;
const WORD_HALF: u16 = 26;
/// From its line to its top.
const WORD_HIGH: u16 = 8;

pub fn drawing(floor: &Floor) -> Drawing {
    let told: Vec<String> = floor.ways.iter().map(|way| sentence(floor, way)).collect();
    let mut steps: Vec<String> = Vec::new();
    let numbers: Vec<usize> = told
        .into_iter()
        .map(|text| match steps.iter().position(|step| *step == text) {
            Some(at) => at + 1,
            None => {
                steps.push(text);
                steps.len()
            }
        })
        .collect();
    let ways = floor.ways.iter().enumerate().zip(numbers).map(|((i, way), no)| {
        let back = floor.ways.iter().take(i).any(|before| (before.from, before.to) == (way.to, way.from));
        drawn(floor, way, back, (steps.len() > 1).then_some(no))
    });
    let ways = ways.collect();
    Drawing { ground: floor.ground, marks: marks(floor), ways, what: words::floor(floor), steps }
}

fn marks(floor: &Floor) -> Vec<Mark> {
    let mark = |(i, place): (usize, &FloorPlace)| {
        let first = !floor.places.iter().take(i).any(|before| before.who == place.who);
        // Who waits is told by the ring alone, and would be in the way of the others' words.
        let named = first && place.who != Who::Waiting;
        let x = place.x.clamp(WORD_HALF, Floor::WIDTH - WORD_HALF);
        // At the upper edge no word fits above, whatever is below.
        let above = place.y.checked_sub(ABOVE).filter(|y| *y >= WORD_HIGH && !is_free_below(floor, place));
        let y = above.unwrap_or(place.y + BELOW);
        Mark {
            at: fine(f64::from(place.x), f64::from(place.y)),
            who: place.who,
            label: named.then(|| (words::who(place.who), fine(f64::from(x), f64::from(y)))),
        }
    };
    floor.places.iter().enumerate().map(mark).collect()
}

fn is_free_below(floor: &Floor, place: &FloorPlace) -> bool {
    let taken = |other: &FloorPlace| {
        other.y > place.y && other.y - place.y < BELOW + 13 && other.x.abs_diff(place.x) < WORD_HALF
    };
    place.y + BELOW + 2 < Floor::HEIGHT && !floor.places.iter().any(taken)
}

fn sentence(floor: &Floor, way: &FloorWay) -> String {
    let who = |at: usize| floor.places.get(at).map_or(Who::Player, |place| place.who);
    words::way(way.what, who(way.from), who(way.to))
}

/// How far a way bends to its side, as a part of its length: a high ball more than a flat one.
fn bend(what: Moves) -> f64 {
    match what {
        Moves::Toss | Moves::Set => 0.26,
        Moves::Pass => 0.2,
        Moves::Play => 0.16,
        Moves::Serve => 0.12,
        Moves::Roll | Moves::Run | Moves::Carry => 0.0,
    }
}

fn drawn(floor: &Floor, way: &FloorWay, back: bool, no: Option<usize>) -> Way {
    let at = |index: usize| floor.places.get(index).map_or((0.0, 0.0), |p| (f64::from(p.x), f64::from(p.y)));
    let ((ax, ay), (bx, by)) = (at(way.from), at(way.to));
    // Upwards on the page, and the way back downwards: two ways between the same two don't lie on each other.
    let side = if (bx - ax >= 0.0) == back { 1.0 } else { -1.0 };
    let by_side = bend(way.what) * side;
    let kept_in = |value: f64, most: u16| value.clamp(4.0, f64::from(most) - 4.0);
    let bent = (
        kept_in((ax + bx) / 2.0 - (by - ay) * by_side, Floor::WIDTH),
        kept_in((ay + by) / 2.0 + (bx - ax) * by_side, Floor::HEIGHT),
    );
    let start = towards((ax, ay), bent, LEAVES);
    let end = towards((bx, by), bent, ARRIVES);
    let tail = towards(end, bent, HEAD.0);
    let (dx, dy) = ((end.0 - tail.0) / HEAD.0 * HEAD.1, (end.1 - tail.1) / HEAD.0 * HEAD.1);
    // Nearer its beginning, so that there and back are told apart where they cross.
    let early = |a: f64, m: f64, b: f64| a * 0.41 + m * 0.46 + b * 0.13;
    Way {
        from: fine(start.0, start.1),
        bend: fine(bent.0, bent.1),
        to: fine(tail.0, tail.1),
        head: [fine(end.0, end.1), fine(tail.0 - dy, tail.1 + dx), fine(tail.0 + dy, tail.1 - dx)],
        on_foot: way.what.on_foot(),
        no,
        no_at: fine(early(start.0, bent.0, tail.0), early(start.1, bent.1, tail.1)),
    }
}

/// So far from one point in the direction of another.
fn towards(from: (f64, f64), to: (f64, f64), far: f64) -> (f64, f64) {
    let (dx, dy) = (to.0 - from.0, to.1 - from.1);
    let long = (dx * dx + dy * dy).sqrt().max(0.001);
    (from.0 + dx / long * far, from.1 + dy / long * far)
}

fn fine(x: f64, y: f64) -> (i32, i32) {
    ((x * FINE) as i32, (y * FINE) as i32)
}
