//! A sheet of words drawn as a picture: the court's band on top, the words under it. Owns where each line falls; draws on a canvas, so that
//! no image has to be loaded and no rule of the page be loosened.

use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, CanvasRenderingContext2d, HtmlCanvasElement};

use super::js::{self, Fault};

/// What stands on it.
pub struct Page<'a> {
    pub band: &'a str,
    pub title: &'a str,
    pub date: &'a str,
    pub lines: &'a [String],
    /// The last of the lines is set apart.
    pub asks: bool,
    pub foot: &'a str,
}

/// Across, and down at least, in pixels: as a phone's screen shows it whole.
pub const WIDTH: u32 = 1080;
pub const LEAST_HEIGHT: u32 = 1350;

const MARGIN: f64 = 84.0;
const BAND: f64 = 288.0;
const NET: f64 = 34.0;

const FLOOR: &str = "#f3e6d0";
const COURT: &str = "#ecd8b4";
const PLANK: &str = "rgba(120, 80, 20, 0.09)";
const MESH: &str = "rgba(29, 42, 51, 0.34)";
const LINE: &str = "#ffffff";
const INK: &str = "#17242d";
const INK_2: &str = "#43515a";
const CARD: &str = "#fffaf1";
const ACCENT: &str = "#0a5680";

/// Words of one size.
#[derive(Clone, Copy)]
struct Type {
    px: f64,
    weight: u16,
    lead: f64,
    colour: &'static str,
}

const TITLE: Type = Type { px: 96.0, weight: 800, lead: 1.08, colour: INK };
const DATE: Type = Type { px: 38.0, weight: 400, lead: 1.3, colour: INK_2 };
const BODY: Type = Type { px: 46.0, weight: 400, lead: 1.36, colour: INK };
const QUESTION: Type = Type { px: 50.0, weight: 700, lead: 1.3, colour: ACCENT };
const FOOT: Type = Type { px: 30.0, weight: 400, lead: 1.35, colour: INK_2 };
const ON_BAND: Type = Type { px: 40.0, weight: 700, lead: 1.2, colour: ACCENT };

/// Draws it and packs it as a PNG.
pub async fn png(page: &Page<'_>) -> Result<Blob, Fault> {
    let canvas = drawn(page)?;
    let (packed, keep) = js::promise_to_keep()?;
    js::call(&canvas, "toBlob", &[&keep, &"image/png".into()])?;
    let packed = JsFuture::from(packed).await?;
    packed.dyn_into::<Blob>().map_err(|_null| Fault::said("toBlob", "no picture came"))
}

fn drawn(page: &Page<'_>) -> Result<HtmlCanvasElement, Fault> {
    let canvas: HtmlCanvasElement = js::document()?
        .create_element("canvas")?
        .dyn_into()
        .map_err(|_other| Fault::said("canvas", "the browser made none"))?;
    canvas.set_width(WIDTH);
    let pen = pen(&canvas)?;
    // Where each line falls is known before the height is.
    let blocks = laid_out(&pen, page)?;
    let foot = wrapped(&pen, FOOT, page.foot, inner())?;
    let end = blocks.last().map_or(BAND + NET, |block| block.y + block.height());
    let height = (end + 64.0 + height_of(FOOT, foot.len()) + MARGIN).max(f64::from(LEAST_HEIGHT)).ceil();
    // Setting a size empties the canvas and forgets its pen.
    canvas.set_height(height as u32);
    pen.set_fill_style_str(FLOOR);
    pen.fill_rect(0.0, 0.0, f64::from(WIDTH), height);
    court(&pen, page)?;
    card(&pen, height);
    for block in &blocks {
        if block.apart {
            pen.set_fill_style_str(ACCENT);
            pen.fill_rect(MARGIN, block.y, 10.0, block.height());
        }
        write(&pen, block.of, &block.lines, block.x, block.y)?;
    }
    write(&pen, FOOT, &foot, MARGIN, height - MARGIN - height_of(FOOT, foot.len()))?;
    Ok(canvas)
}

fn pen(canvas: &HtmlCanvasElement) -> Result<CanvasRenderingContext2d, Fault> {
    let pen = canvas.get_context("2d")?.ok_or(Fault::Unsupported)?;
    pen.dyn_into().map_err(|_other| Fault::Unsupported)
}

/// Lines of one size that stand together.
struct Block {
    of: Type,
    lines: Vec<String>,
    x: f64,
    y: f64,
    apart: bool,
}

impl Block {
    fn height(&self) -> f64 {
        height_of(self.of, self.lines.len())
    }
}

fn height_of(of: Type, n: usize) -> f64 {
    of.px * of.lead * n as f64
}

fn inner() -> f64 {
    f64::from(WIDTH) - 2.0 * MARGIN
}

fn laid_out(pen: &CanvasRenderingContext2d, page: &Page<'_>) -> Result<Vec<Block>, Fault> {
    let mut blocks: Vec<Block> = Vec::new();
    let mut y = BAND + NET + 72.0;
    let mut put = |of: Type, text: &str, apart: bool, after: f64| {
        let in_by = if apart { 40.0 } else { 0.0 };
        let lines = wrapped(pen, of, text, inner() - in_by)?;
        let block = Block { of, lines, x: MARGIN + in_by, y, apart };
        y += block.height() + after;
        blocks.push(block);
        Ok::<(), Fault>(())
    };
    put(TITLE, page.title, false, 8.0)?;
    put(DATE, page.date, false, 52.0)?;
    let last = page.lines.len().saturating_sub(1);
    for (i, line) in page.lines.iter().enumerate() {
        let asks = page.asks && i == last;
        put(if asks { QUESTION } else { BODY }, line, asks, 34.0)?;
    }
    Ok(blocks)
}

/// Cut where a line is full: between words, and within one that is longer than a line.
fn wrapped(pen: &CanvasRenderingContext2d, of: Type, text: &str, width: f64) -> Result<Vec<String>, Fault> {
    pen.set_font(&font(of));
    let mut lines = Vec::new();
    for paragraph in text.lines() {
        let mut line = String::new();
        for word in paragraph.split_whitespace() {
            let with = if line.is_empty() { word.to_owned() } else { format!("{line} {word}") };
            if pen.measure_text(&with)?.width() <= width {
                line = with;
                continue;
            }
            if !line.is_empty() {
                lines.push(std::mem::take(&mut line));
            }
            for c in word.chars() {
                line.push(c);
                if pen.measure_text(&line)?.width() > width && line.chars().count() > 1 {
                    line.pop();
                    lines.push(std::mem::replace(&mut line, c.to_string()));
                }
            }
        }
        lines.push(line);
    }
    Ok(lines)
}

fn font(of: Type) -> String {
    format!("{} {}px system-ui, -apple-system, \"Segoe UI\", Roboto, \"Noto Sans\", sans-serif", of.weight, of.px)
}

fn write(pen: &CanvasRenderingContext2d, of: Type, lines: &[String], x: f64, y: f64) -> Result<(), Fault> {
    pen.set_font(&font(of));
    pen.set_fill_style_str(of.colour);
    pen.set_text_baseline("top");
    let mut y = y + of.px * (of.lead - 1.0) / 2.0;
    for line in lines {
        pen.fill_text(line, x, y)?;
        y += of.px * of.lead;
    }
    Ok(())
}

/// The paper under the net.
fn card(pen: &CanvasRenderingContext2d, height: f64) {
    let top = BAND + NET;
    pen.set_fill_style_str(CARD);
    pen.fill_rect(28.0, top + 24.0, f64::from(WIDTH) - 56.0, height - top - 52.0);
}

/// The floor with its lines, a ball on its way over the net that ends it.
fn court(pen: &CanvasRenderingContext2d, page: &Page<'_>) -> Result<(), Fault> {
    let width = f64::from(WIDTH);
    pen.set_fill_style_str(COURT);
    pen.fill_rect(0.0, 0.0, width, BAND);
    pen.set_fill_style_str(PLANK);
    for at in 1..=(WIDTH / 54) {
        pen.fill_rect(f64::from(at) * 54.0, 0.0, 3.0, BAND);
    }
    pen.set_stroke_style_str(LINE);
    pen.set_line_width(10.0);
    pen.stroke_rect(44.0, 44.0, width - 88.0, BAND + 60.0);
    pen.begin_path();
    pen.move_to(44.0, 176.0);
    pen.line_to(width - 44.0, 176.0);
    pen.stroke();
    write(pen, ON_BAND, &[page.band.to_owned()], MARGIN, 86.0)?;
    pen.set_stroke_style_str(INK_2);
    pen.set_line_width(5.0);
    pen.set_line_dash(&js_sys::Array::of2(&14.into(), &14.into()))?;
    pen.begin_path();
    pen.move_to(720.0, 250.0);
    pen.quadratic_curve_to(800.0, 30.0, 930.0, 126.0);
    pen.stroke();
    pen.set_line_dash(&js_sys::Array::new())?;
    disc(pen, 700.0, 232.0, 30.0, ACCENT)?;
    disc(pen, 936.0, 132.0, 19.0, INK)?;
    disc(pen, 936.0, 132.0, 14.0, LINE)?;
    net(pen);
    Ok(())
}

fn disc(pen: &CanvasRenderingContext2d, x: f64, y: f64, r: f64, colour: &str) -> Result<(), Fault> {
    pen.set_fill_style_str(colour);
    pen.begin_path();
    pen.arc(x, y, r, 0.0, std::f64::consts::TAU)?;
    pen.fill();
    Ok(())
}

/// Tape above, mesh below.
fn net(pen: &CanvasRenderingContext2d) {
    let width = f64::from(WIDTH);
    pen.set_fill_style_str(FLOOR);
    pen.fill_rect(0.0, BAND, width, NET);
    pen.set_fill_style_str(MESH);
    for at in 0..WIDTH / 18 {
        pen.fill_rect(f64::from(at) * 18.0, BAND, 3.0, NET);
    }
    for at in 1..3 {
        pen.fill_rect(0.0, BAND + f64::from(at) * 11.0, width, 3.0);
    }
    pen.set_fill_style_str(LINE);
    pen.fill_rect(0.0, BAND, width, 11.0);
    pen.fill_rect(0.0, BAND + NET - 5.0, width, 5.0);
}
