//! Small line drawings of our own, in the colour of the words beside them. Always next to a word, so hidden from those who hear.

use leptos::prelude::*;

use crate::ui::markup::view;

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shape {
    /// Two arrows past each other.
    Swap,
    /// An arrow all the way round.
    TurnRound,
    /// Lines with a ball before each.
    List,
    /// An arrow that goes back.
    Undo,
    Close,
    /// One fewer, one more.
    Less,
    More,
    /// A thumb's ring.
    Hold,
    /// A court from above.
    Today,
    /// A bolt.
    Challenge,
    /// Steps that go up.
    Steps,
    /// Two of the squad.
    Squad,
    /// Bars that tell a range.
    After,
    /// A sheet that leaves.
    Share,
    /// A pencil.
    Note,
}

impl Shape {
    const fn path(self) -> &'static str {
        match self {
            Shape::Swap => "M4 8.5h15m-4-4 4 4-4 4M20 15.5H5m4-4-4 4 4 4",
            Shape::TurnRound => "M19.5 12a7.5 7.5 0 1 1-2.4-5.5M17.6 2.6v4.2h-4.2",
            Shape::List => "M9.5 6h10.5M9.5 12h10.5M9.5 18h10.5M4.5 6h.01M4.5 12h.01M4.5 18h.01",
            Shape::Undo => "M4 9.5h10a5.5 5.5 0 0 1 0 11h-4M8 5 3.8 9.5 8 14",
            Shape::Less => "M5.5 12h13",
            Shape::More => "M5.5 12h13M12 5.5v13",
            Shape::Close => "M6 6l12 12M18 6 6 18",
            Shape::Hold => "M12 3.5a8.5 8.5 0 1 0 .01 0M12 8.5a3.5 3.5 0 1 0 .01 0",
            Shape::Today => "M4.5 3.5h15v17h-15zM2.5 12h19M4.5 8.6h15M4.5 15.4h15",
            Shape::Challenge => "M13.5 2.8 5 13.5h6.2L10 21.2l8.8-11h-6.3z",
            Shape::Steps => "M3.5 20.5v-5h5.7v-5.5h5.6V4.5h5.7",
            Shape::Squad => {
                "M9 11a3.6 3.6 0 1 0-.01 0M2.5 20c.4-3.8 3-6 6.5-6s6.1 2.2 6.5 6M16 4.4a3.4 3.4 0 0 1 0 6.4M18 14.6c2 .8 3.2 2.7 3.5 5.4"
            }
            Shape::After => "M3.5 6.5h8M3.5 12h14M3.5 17.5h10M16 4.5v4M20.5 10v4M17.5 15.5v4",
            Shape::Note => "M4.5 19.5l1.2-4.7L16.2 4.3l3.5 3.5L9.2 18.3zM13.8 6.7l3.5 3.5",
            Shape::Share => "M12 15.5V3.5M7.5 7.5 12 3l4.5 4.5M5 12v8.5h14V12",
        }
    }
}

#[component]
pub fn Icon(shape: Shape) -> impl IntoView {
    view! {
        <svg class="icon" viewBox="0 0 24 24" aria-hidden="true" focusable="false">
            <path d=shape.path()></path>
        </svg>
    }
}
