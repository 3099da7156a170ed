//! A piece as a picture, a code of ISO/IEC 18004, and the pieces that a camera's picture shows. Byte mode, error level L: with as many bytes in
//! it, its squares are larger than those of M, and that is worth more to a camera than what M could put right (measured: DEVELOPERS.md).

use qrcodegen::{QrCode, QrCodeEcc, QrSegment, Version};
use quircs::Quirc;

/// White around a code, in modules, as the standard wants it.
pub const QUIET: usize = 4;
/// A picture whose half would be smaller is looked at whole.
const LEAST_HALF: usize = 240;

/// The squares of a picture: as many across as down, with the quiet zone.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Picture {
    pub side: usize,
    /// 1: dark. Row by row.
    pub dark: Vec<u8>,
}

/// Draws the pieces of one transfer, all of one size.
///
/// # Errors
/// How many bytes no such code can hold.
pub fn drawn(pieces: &[Vec<u8>]) -> Result<Vec<Picture>, usize> {
    let mut least = Version::MIN;
    let mut pictures = Vec::new();
    for piece in pieces {
        let segments = [QrSegment::make_bytes(piece)];
        let code = QrCode::encode_segments_advanced(&segments, QrCodeEcc::Low, least, Version::MAX, None, false);
        let code = code.map_err(|_too_long| piece.len())?;
        least = code.version();
        pictures.push(picture(&code));
    }
    Ok(pictures)
}

/// What the codes in a camera's picture say, four bytes a point. Looked at in half its size first, which costs less and evens out the
/// noise of poor light; whole where that shows nothing. Nothing is told of codes that can't be read: the next picture has them again.
pub fn in_rgba(width: usize, height: usize, rgba: &[u8]) -> Vec<Vec<u8>> {
    let grey: Vec<u8> = rgba.chunks_exact(4).map(luma).collect();
    let mut said = Vec::new();
    if width.min(height) >= 2 * LEAST_HALF {
        said = seen(width / 2, height / 2, &halved(width, height, &grey));
    }
    if said.is_empty() { seen(width, height, &grey) } else { said }
}

/// What the codes in a grey picture say, a byte a point.
pub fn seen(width: usize, height: usize, grey: &[u8]) -> Vec<Vec<u8>> {
    let mut reader = Quirc::default();
    let codes = reader.identify(width, height, grey);
    codes.flatten().filter_map(|code| code.decode().ok()).map(|data| data.payload).collect()
}

/// Each point the mean of four.
fn halved(width: usize, height: usize, grey: &[u8]) -> Vec<u8> {
    let rows = grey.chunks_exact(width).take(height / 2 * 2).collect::<Vec<_>>();
    let mean = |above: &[u8], below: &[u8]| {
        let sum: u16 = above.iter().chain(below).map(|point| u16::from(*point)).sum();
        ((sum + 2) / 4) as u8
    };
    rows.chunks_exact(2)
        .flat_map(|rows| rows[0].chunks_exact(2).zip(rows[1].chunks_exact(2)).map(|(above, below)| mean(above, below)))
        .collect()
}

/// How light a point is, by the weights of ITU-R BT.601, in 256ths.
fn luma(rgba: &[u8]) -> u8 {
    let [red, green, blue, ..] = *rgba else { return 0 };
    ((u16::from(red) * 77 + u16::from(green) * 150 + u16::from(blue) * 29) >> 8) as u8
}

fn picture(code: &QrCode) -> Picture {
    let inner = code.size();
    let quiet = QUIET as i32;
    let across = -quiet..inner + quiet;
    // Beside the code every module is light.
    let dark = across.clone().flat_map(|y| across.clone().map(move |x| u8::from(code.get_module(x, y)))).collect();
    Picture { side: across.len(), dark }
}
