//! Words for a remote or a keyboard that does the tapping.

use crate::app::remote::{Boards, Stands};

pub const HEAD: &str = "A remote or a keyboard";
pub const LINE: &str = "A small wireless remote works like a keyboard: count without touching the phone. Tap a field, then press the key on the remote that shall do it; tap the field twice to free it. Each group below is for its own boards: one key may stand for something in all of the first three. Where several stand on the floor it can't say who: there it has only no chance, effort, swap and undo.";
pub const PRESS: &str = "Press a key";
pub const NONE: &str = "no key";
pub const REFUSED: &str = "That key is needed to move about on a page. Press another one.";

pub fn boards(boards: Boards) -> &'static str {
    match boards {
        Boards::Passing => "Passing, graded 3 to 0",
        Boards::Serving => "Serving",
        Boards::TwoKeys => "Two keys: good or not",
        Boards::Every => "On every board",
    }
}

pub fn sense(stands: Stands) -> &'static str {
    match stands {
        Stands::Pass3 => "3 stood",
        Stands::Pass2 => "2 moved",
        Stands::Pass1 => "1 chased",
        Stands::Pass0 => "0 gone",
        Stands::ServeAce => "Ace",
        Stands::ServeIn => "In",
        Stands::ServeLong => "Long",
        Stands::ServeWide => "Wide",
        Stands::ServeNet => "Net",
        Stands::Good => "Good",
        Stands::NotGood => "Not good",
        Stands::NoChance => "No chance",
        Stands::Effort => "Effort",
        Stands::Swap => "Swap",
        Stands::Undo => "Undo",
    }
}

/// The name that the browser has for a key, as one would say it.
pub fn key(name: &str) -> String {
    match name {
        " " => "Space".to_owned(),
        "AudioVolumeUp" => "Volume up".to_owned(),
        "AudioVolumeDown" => "Volume down".to_owned(),
        "MediaTrackNext" => "Next track".to_owned(),
        "MediaTrackPrevious" => "Track before".to_owned(),
        "MediaPlayPause" => "Play".to_owned(),
        "PageUp" => "Page up".to_owned(),
        "PageDown" => "Page down".to_owned(),
        _ => match name.strip_prefix("Arrow") {
            Some(way) => format!("Arrow {}", way.to_lowercase()),
            None if name.chars().count() == 1 => name.to_uppercase(),
            None => name.to_owned(),
        },
    }
}

/// What stands on a field beside its sense: the key, or that it waits for one.
pub fn given(name: Option<&str>, waiting: bool) -> String {
    if waiting { PRESS.to_owned() } else { name.map_or_else(|| NONE.to_owned(), key) }
}

/// For those who can't see it: `Serving, In: Page up`
pub fn label(stands: Stands, name: Option<&str>, waiting: bool) -> String {
    format!("{}, {}: {}", boards(stands.boards()), sense(stands), given(name, waiting))
}
