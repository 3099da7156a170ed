//! Owns the moving codes as a test sees them: those that one phone's canvas shows, and the film that another phone's camera takes for what it
//! sees. Knows nothing of what a code holds.

use crate::{Error, Phone, Result};
use std::io::{BufWriter, Write};
use std::path::Path;

/// A camera's picture.
const WIDTH: usize = 640;
const HEIGHT: usize = 480;

/// A code as it stands on the canvas: a byte a square, `0` for light.
pub type Code = (usize, Vec<u8>);

/// Codes in the order in which they were drawn, until each of `n` was seen.
pub async fn codes(phone: &Phone, n: usize) -> Result<Vec<Code>> {
    let collect = format!(
        "new Promise((done, no) => {{
            const seen = new Map(), late = Date.now() + 12000;
            const look = () => {{
                const code = document.getElementById('code'), side = code.width;
                if (side > 1) {{
                    const points = code.getContext('2d').getImageData(0, 0, side, side).data;
                    let squares = '';
                    for (let i = 0; i < points.length; i += 4) squares += points[i] ? '0' : '1';
                    seen.set(squares, side);
                }}
                if (seen.size >= {n} || Date.now() > late) done(JSON.stringify([...seen]));
                else setTimeout(look, 15);
            }};
            look();
        }})"
    );
    let text = phone.eval(&collect).await?;
    let found: Vec<(String, usize)> = serde_json::from_str(text.as_str().unwrap_or_default())
        .map_err(|error| Error::Missing { what: format!("The canvas showed no list of codes: {error}.") })?;
    Ok(found.into_iter().map(|(squares, side)| (side, squares.bytes().map(|square| square - b'0').collect())).collect())
}

/// A film of what a camera sees: ten pictures a second, each a code in front of something grey; `None`: nothing that can be read.
pub fn film(path: &Path, pictures: &[Option<&Code>]) -> Result<()> {
    write(path, pictures).map_err(|error| Error::Missing { what: format!("The film can't be written: {error}.") })
}

fn write(path: &Path, pictures: &[Option<&Code>]) -> std::io::Result<()> {
    let mut file = BufWriter::new(std::fs::File::create(path)?);
    writeln!(file, "YUV4MPEG2 W{WIDTH} H{HEIGHT} F10:1 Ip A1:1 C420jpeg")?;
    for picture in pictures {
        let mut grey = vec![90; WIDTH * HEIGHT];
        if let Some((side, squares)) = picture {
            let each = HEIGHT / side;
            let (left, top) = ((WIDTH - each * side) / 2, (HEIGHT - each * side) / 2);
            for y in 0..each * side {
                for x in 0..each * side {
                    let dark = squares[y / each * side + x / each] == 1;
                    grey[(top + y) * WIDTH + left + x] = if dark { 35 } else { 210 };
                }
            }
        }
        file.write_all(b"FRAME\n")?;
        file.write_all(&grey)?;
        file.write_all(&vec![128; WIDTH * HEIGHT / 2])?;
    }
    file.flush()
}
