//! Draws a floor out of the numbers of its view model: lines, net, shapes, ways. All sizes are worked out there; colours and
//! strokes are the style's.

use std::fmt::Write;

use leptos::prelude::*;

use crate::app::view::library::{Drawing, Mark, Way};
use crate::domain::library::{Ground, Who};
use crate::ui::markup::view;

/// The drawing with its words and numbers; beside it stands what it shows.
pub fn floor(drawing: &Drawing) -> AnyView {
    view! {
        <svg class="drawn-floor" viewBox="0 0 2400 1300" role="img" aria-label=drawing.what.clone()>
            <g inner_html=inside(drawing)></g>
        </svg>
    }
}

/// The same without a word, beside a drill's name.
pub fn small_floor(drawing: &Drawing) -> AnyView {
    view! {
        <svg class="drawn-floor drawn-small" viewBox="0 0 2400 1300" aria-hidden="true" focusable="false">
            <g inner_html=inside(drawing)></g>
        </svg>
    }
}

/// Numbers and words of our own alone: nothing that was typed.
fn inside(drawing: &Drawing) -> String {
    let mut to = String::from(ground(drawing.ground));
    // Writing to a text can't fail.
    drawing.ways.iter().for_each(|way| push_way(&mut to, way));
    drawing.marks.iter().for_each(|mark| push_shape(&mut to, mark));
    drawing.ways.iter().for_each(|way| push_number(&mut to, way));
    drawing.marks.iter().for_each(|mark| push_word(&mut to, mark));
    to
}

const fn ground(ground: Ground) -> &'static str {
    match ground {
        Ground::Court => concat!(
            "<path class='f-court' d='M300 200h1800v900H300z'/><path class='f-line' d='M300 200h1800v900H300zM900 200v900M1500 200v900'/>",
            "<path class='f-net' d='M1200 110v1080'/>",
        ),
        Ground::Half => concat!(
            "<path class='f-court' d='M240 140h1600v1020H240z'/><path class='f-line' d='M1840 140H240v1020h1600M1310 140v1020'/>",
            "<path class='f-net' d='M1840 60v1180'/>",
        ),
        Ground::Open => "<path class='f-court' d='M60 60h2280v1180H60z'/>",
        Ground::Wall => "<path class='f-court' d='M60 60h2200v1180H60z'/><path class='f-wall' d='M2290 40v1220'/>",
    }
}

fn push_way(to: &mut String, way: &Way) {
    let ((ax, ay), (mx, my), (bx, by)) = (way.from, way.bend, way.to);
    let class = if way.on_foot { "f-run" } else { "f-ball" };
    let done = write!(to, "<path class='{class}' d='M{ax} {ay}Q{mx} {my} {bx} {by}'/>");
    let [(hx, hy), (lx, ly), (rx, ry)] = way.head;
    let head = write!(to, "<path class='f-head' d='M{hx} {hy}L{lx} {ly} {rx} {ry}z'/>");
    debug_assert!(done.is_ok() && head.is_ok());
}

fn push_number(to: &mut String, way: &Way) {
    let Some(no) = way.no else { return };
    let (x, y) = way.no_at;
    let done =
        write!(to, "<g class='f-no'><circle cx='{x}' cy='{y}' r='62'/><text x='{x}' y='{y}' dy='30'>{no}</text></g>");
    debug_assert!(done.is_ok());
}

/// Who acts is full, who waits or catches is a ring, the other side has corners; things are drawn as things.
fn push_shape(to: &mut String, mark: &Mark) {
    let (x, y) = mark.at;
    let shape = match mark.who {
        Who::Server | Who::Passer | Who::Setter | Who::Player | Who::Feeder => "<circle class='f-child' r='80'/>",
        Who::Target => "<circle class='f-ring' r='80'/><circle class='f-child' r='34'/>",
        Who::Getter => "<circle class='f-ring' r='74'/>",
        Who::Waiting => "<circle class='f-ring f-waits' r='56'/>",
        Who::Distracter => "<path class='f-coach' d='M0-88 88 60-88 60z'/>",
        Who::Other => "<path class='f-other' d='M0-88 88 0 0 88-88 0z'/>",
        Who::Coach => "<rect class='f-coach' x='-66' y='-66' width='132' height='132' rx='30'/>",
        Who::Mark => "<circle class='f-mark' r='72'/><path class='f-mark' d='M-30 0h60M0-30v60'/>",
        Who::Store => {
            "<circle class='f-store' cx='-42' cy='24' r='40'/><circle class='f-store' cx='42' cy='24' r='40'/><circle class='f-store' cy='-44' r='40'/>"
        }
    };
    let done = write!(to, "<g transform='translate({x} {y})'>{shape}</g>");
    debug_assert!(done.is_ok());
}

fn push_word(to: &mut String, mark: &Mark) {
    let Some((word, (x, y))) = mark.label else { return };
    let done = write!(to, "<text class='f-word' x='{x}' y='{y}'>{word}</text>");
    debug_assert!(done.is_ok());
}
