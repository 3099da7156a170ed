//! Small drawings of our own: courts for drills and boards, arms for serve styles, signs. Decoration only; words stand beside each.

use leptos::prelude::*;

use crate::app::view::today::Picture;
use crate::domain::skill::ServeStyle;
use crate::ui::markup::view;

/// A sign on a key.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Glyph {
    Back,
    Onward,
    Tick,
    Minus,
    Plus,
    Pencil,
    Warn,
    Cross,
    Away,
    Down,
}

/// Draws a sign in the colour of the text around it.
pub fn glyph(which: Glyph) -> AnyView {
    let path = match which {
        Glyph::Back => "M15 4 7 12l8 8",
        Glyph::Onward => "m9 4 8 8-8 8",
        Glyph::Tick => "m5 13 5 5L19 7",
        Glyph::Minus => "M5 12h14",
        Glyph::Plus => "M5 12h14M12 5v14",
        Glyph::Pencil => "M5 19l1-4L16 5l3 3L9 18zM14 7l3 3",
        Glyph::Warn => "M12 4 2.5 20h19zM12 10v4M12 17v.2",
        Glyph::Cross => "m6 6 12 12M18 6 6 18",
        Glyph::Away => "M14 5H6v14h8M11 12h10M17 8l4 4-4 4",
        Glyph::Down => "m5 9 7 7 7-7",
    };
    view! {
        <svg class="glyph" viewBox="0 0 24 24" aria-hidden="true" focusable="false">
            <path d=path />
        </svg>
    }
}

/// The small court beside a drill. Filled dots act, rings wait, the ball is a small white dot with its way drawn behind it.
pub fn court(which: Picture) -> AnyView {
    let inside = match which {
        Picture::Floor => concat!(
            "<path class='p-line' d='M6 22h84M6 4v56h84V4'/>",
            "<path class='p-net' d='M2 8h92'/>",
            "<path class='p-way' d='M70 4C66 20 52 26 48 38'/>",
            "<circle class='p-child' cx='22' cy='44' r='7'/>",
            "<circle class='p-child' cx='48' cy='48' r='7'/>",
            "<circle class='p-child' cx='74' cy='44' r='7'/>",
            "<circle class='p-ball' cx='48' cy='36' r='3.5'/>",
            "<circle class='p-ring' cx='62' cy='17' r='5'/>",
        ),
        Picture::Duel => concat!(
            "<path class='p-line' d='M6 4h84v56H6z'/>",
            "<path class='p-net' d='M48 0v64'/>",
            "<circle class='p-child' cx='20' cy='16' r='6'/>",
            "<circle class='p-child' cx='26' cy='32' r='6'/>",
            "<circle class='p-child' cx='20' cy='48' r='6'/>",
            "<circle class='p-ring' cx='78' cy='16' r='6'/>",
            "<circle class='p-ring' cx='84' cy='32' r='6'/>",
            "<circle class='p-ring' cx='78' cy='48' r='6'/>",
            "<path class='p-way' d='M76 31C64 20 46 20 34 30'/>",
            "<circle class='p-ball' cx='35' cy='29' r='3.5'/>",
        ),
        Picture::Line => concat!(
            "<path class='p-line' d='M6 22h84M6 4v56h84V4'/>",
            "<path class='p-net' d='M2 8h92'/>",
            "<path class='p-way' d='M40 4c4 10 4 14 2 22'/>",
            "<circle class='p-ball' cx='42' cy='25' r='3.5'/>",
            "<circle class='p-child' cx='40' cy='38' r='7'/>",
            "<circle class='p-ring' cx='58' cy='46' r='6'/>",
            "<circle class='p-ring' cx='73' cy='51' r='6'/>",
            "<circle class='p-ring' cx='87' cy='55' r='6'/>",
        ),
        Picture::ServeLine => concat!(
            "<path class='p-line' d='M28 4v56M28 4h64v56H28'/>",
            "<path class='p-net' d='M60 0v64'/>",
            "<circle class='p-child' cx='21' cy='32' r='6'/>",
            "<circle class='p-ring' cx='7' cy='32' r='4.5'/>",
            "<circle class='p-ring' cx='7' cy='45' r='4.5'/>",
            "<circle class='p-ring' cx='7' cy='58' r='4.5'/>",
            "<path class='p-way' d='M28 30C44 8 66 10 82 32'/>",
            "<circle class='p-ball' cx='82' cy='33' r='3.5'/>",
        ),
        Picture::Serve => concat!(
            "<path class='p-line' d='M12 4v56M12 4h80v56H12'/>",
            "<path class='p-net' d='M56 0v64'/>",
            "<circle class='p-child' cx='6' cy='14' r='5'/>",
            "<circle class='p-child' cx='6' cy='32' r='5'/>",
            "<circle class='p-child' cx='6' cy='50' r='5'/>",
            "<path class='p-way' d='M12 31C32 8 60 10 80 30'/>",
            "<circle class='p-ball' cx='80' cy='31' r='3.5'/>",
        ),
        Picture::Told => concat!(
            "<circle class='p-child' cx='12' cy='14' r='6'/>",
            "<circle class='p-child' cx='12' cy='32' r='6'/>",
            "<circle class='p-child' cx='12' cy='50' r='6'/>",
            "<path class='p-slot' d='M26 14h62M26 32h62M26 50h62'/>",
            "<path class='p-told' d='M26 14h48M26 32h28M26 50h56'/>",
        ),
        Picture::Lanes => concat!(
            "<path class='p-line' d='M6 4h84v56H6zM34 4v56M62 4v56'/>",
            "<circle class='p-child' cx='20' cy='46' r='6'/>",
            "<circle class='p-child' cx='48' cy='46' r='6'/>",
            "<circle class='p-child' cx='76' cy='46' r='6'/>",
            "<circle class='p-ring' cx='20' cy='18' r='5'/>",
            "<circle class='p-ring' cx='48' cy='18' r='5'/>",
            "<circle class='p-ring' cx='76' cy='18' r='5'/>",
            "<circle class='p-ball' cx='20' cy='32' r='3.5'/>",
            "<circle class='p-ball' cx='48' cy='28' r='3.5'/>",
            "<circle class='p-ball' cx='76' cy='34' r='3.5'/>",
        ),
        Picture::Court => concat!(
            "<path class='p-line' d='M6 4h66v56H6z'/>",
            "<path class='p-net' d='M2 32h74'/>",
            "<circle class='p-child' cx='22' cy='48' r='6'/>",
            "<circle class='p-child' cx='54' cy='48' r='6'/>",
            "<circle class='p-child' cx='22' cy='16' r='6'/>",
            "<circle class='p-child' cx='54' cy='16' r='6'/>",
            "<circle class='p-ring' cx='86' cy='14' r='5'/>",
            "<circle class='p-ring' cx='86' cy='30' r='5'/>",
            "<path class='p-way' d='M26 20C38 24 44 34 50 42'/>",
            "<circle class='p-ball' cx='40' cy='28' r='3.5'/>",
        ),
        Picture::Propped => concat!(
            "<path class='p-line' d='M6 22h84M6 4v56h84V4'/>",
            "<path class='p-net' d='M2 8h92'/>",
            "<rect class='p-child' x='14' y='28' width='22' height='28' rx='4'/>",
            "<path class='p-way' d='M44 44C54 26 64 22 74 30'/>",
            "<circle class='p-child' cx='76' cy='44' r='7'/>",
            "<circle class='p-ball' cx='72' cy='29' r='3.5'/>",
        ),
        Picture::Group => concat!(
            "<path class='p-line' d='M6 4h84v56H6z'/>",
            "<circle class='p-child' cx='24' cy='22' r='6'/>",
            "<circle class='p-child' cx='50' cy='14' r='6'/>",
            "<circle class='p-child' cx='74' cy='26' r='6'/>",
            "<circle class='p-child' cx='66' cy='50' r='6'/>",
            "<circle class='p-child' cx='32' cy='48' r='6'/>",
            "<path class='p-way' d='M29 27c8 8 18 10 30 4'/>",
            "<circle class='p-ball' cx='48' cy='33' r='3.5'/>",
        ),
    };
    view! {
        <svg class="court" viewBox="0 0 96 64" aria-hidden="true" focusable="false">
            <rect class="p-floor" x="0" y="0" width="96" height="64" rx="8" />
            <g inner_html=inside></g>
        </svg>
    }
}

/// How the arm swings, seen from the side.
pub fn serving(style: ServeStyle) -> AnyView {
    let (body, ball) = match style {
        ServeStyle::Underhand => ("M28 22v20M28 42l-8 16M28 42l9 16M28 26l-11 12M28 26l12 8", (43, 31)),
        ServeStyle::Roundhouse => ("M28 22v20M28 42l-8 16M28 42l9 16M28 26l-16-4M28 26 42 15", (47, 11)),
        ServeStyle::StandingOverhead => ("M28 22v20M28 42l-8 16M28 42l9 16M28 26l9-16M28 26l-12 4", (41, 6)),
        ServeStyle::Jump => ("M28 18v17M28 35l-12 9M28 35l4 13-9 6M28 22l9-14M28 22l-13 3M16 60h24", (42, 5)),
    };
    let head_y = if style == ServeStyle::Jump { 12 } else { 16 };
    view! {
        <svg class="serving" viewBox="0 0 56 64" aria-hidden="true" focusable="false">
            <path class="p-body" d=body />
            <circle class="p-child" cx="28" cy=head_y r="6" />
            <circle class="p-ball" cx=ball.0 cy=ball.1 r="4" />
        </svg>
    }
}

/// Which step of putting the app on the home screen is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum InstallStep {
    /// The arrow out of a box.
    Sheet,
    /// Three dots in a corner.
    Menu,
    /// A row of the sheet or menu, with a plus.
    Row,
    /// An icon among others.
    Home,
}

/// A phone of no maker, with the place to tap in the strong colour.
pub fn phone(step: InstallStep) -> AnyView {
    let inside = match step {
        InstallStep::Sheet => concat!(
            "<path class='p-thin' d='M14 22h36M14 30h28M14 38h32M8 92h48'/>",
            "<circle class='p-spot' cx='32' cy='101' r='9'/>",
            "<path class='p-mark' d='M29 100h-2v7h10v-7h-2M32 103v-8m-3 3 3-3 3 3'/>",
        ),
        InstallStep::Menu => concat!(
            "<path class='p-thin' d='M8 20h48M14 34h36M14 42h28M14 50h32M12 13h24'/>",
            "<circle class='p-spot' cx='49' cy='13' r='8'/>",
            "<path class='p-dots' d='M49 9v.1M49 13v.1M49 17v.1'/>",
        ),
        InstallStep::Row => concat!(
            "<path class='p-thin' d='M14 18h36M14 26h28M8 46h48M14 58h24M14 70h30'/>",
            "<rect class='p-spot' x='9' y='79' width='46' height='18' rx='5'/>",
            "<path class='p-mark' d='M15 88h20M46 84v8M42 88h8'/>",
        ),
        InstallStep::Home => concat!(
            "<rect class='p-app' x='11' y='16' width='12' height='12' rx='3'/>",
            "<rect class='p-app' x='41' y='16' width='12' height='12' rx='3'/>",
            "<rect class='p-app' x='26' y='16' width='12' height='12' rx='3'/>",
            "<rect class='p-app' x='11' y='36' width='12' height='12' rx='3'/>",
            "<rect class='p-spot' x='24' y='34' width='16' height='16' rx='4'/>",
            "<path class='p-dots' d='M29 46v-2M32 46v-5M35 46v-8'/>",
        ),
    };
    view! {
        <svg class="phone" viewBox="0 0 64 118" aria-hidden="true" focusable="false">
            <rect class="p-case" x="3" y="3" width="58" height="112" rx="9" />
            <g inner_html=inside></g>
        </svg>
    }
}
