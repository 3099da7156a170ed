//! What the worker of codes does: a copy becomes pictures, a camera's pictures become a copy. No picture of the camera outlives
//! the call that reads it.

use super::{Seen, Told};
use crate::app::words::codes as words;
use crate::wire::moving::{self, Gathering, NotCut, Taken, picture};

/// Rounds whose order differs; then it begins again.
const N_ROUNDS: u64 = 32;

/// What is told, and the bytes that go with it.
pub struct Done {
    pub told: Told,
    pub bytes: Vec<Vec<u8>>,
}

impl Done {
    pub fn said(told: Told) -> Done {
        Done { told, bytes: Vec::new() }
    }
}

/// A copy's pictures, and the order in which they are shown.
pub fn drawn(copy: &[u8]) -> Done {
    let pieces = match moving::cut(copy) {
        Ok(pieces) => pieces,
        Err(NotCut::TooLarge(n_bytes)) => return Done::said(Told::Not(words::too_large(n_bytes))),
        Err(NotCut::Failed(error)) => return Done::said(Told::Not(words::not_made(&error.to_string()))),
    };
    let pictures = match picture::drawn(&pieces) {
        Ok(pictures) => pictures,
        Err(n_bytes) => return Done::said(Told::Not(words::not_made(&words::no_picture(n_bytes)))),
    };
    let n = pictures.len() as u16;
    let side = pictures.first().map_or(0, |first| first.side as u32);
    let order = (0..N_ROUNDS).flat_map(|nth| moving::round(n, nth)).flat_map(u16::to_le_bytes).collect();
    let squares = pictures.into_iter().flat_map(|picture| picture.dark).collect();
    Done { told: Told::Drawn { n, side }, bytes: vec![squares, order] }
}

/// The reading end.
#[derive(Default)]
pub struct Reader {
    gathering: Gathering,
}

impl Reader {
    /// One picture of the camera, four bytes a point. Whole: the copy goes with it.
    pub fn look(&mut self, width: u32, height: u32, rgba: &[u8]) -> Done {
        let (width, height) = (width as usize, height as usize);
        if width == 0 || height == 0 || rgba.len() != width * height * 4 {
            return Done::said(Told::Not(words::NONSENSE.to_owned()));
        }
        let mut seen = Seen::Nothing;
        for said in picture::in_rgba(width, height, rgba) {
            seen = match self.gathering.take(&said) {
                Taken::Whole(copy) => return Done { told: Told::Whole, bytes: vec![copy] },
                Taken::New | Taken::Again | Taken::Damaged => Seen::Piece,
                Taken::Foreign => Seen::Foreign,
                Taken::Newer => Seen::Newer,
                Taken::Broken => Seen::Broken,
            };
        }
        Done::said(Told::Seen { here: self.gathering.here(), seen })
    }
}
