//! Squares of black and white on a canvas of the page, one point a square; the page's style makes them large.

use wasm_bindgen::{Clamped, JsCast};
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement, ImageData};

use super::js::{self, Fault};

/// Draws so many squares across and down: those that aren't 0 are black. `false`: no canvas with this id stands on the page.
pub fn draw(canvas_id: &str, side: u32, dark: &[u8]) -> Result<bool, Fault> {
    let found = js::document()?.get_element_by_id(canvas_id);
    let Some(canvas) = found.and_then(|found| found.dyn_into::<HtmlCanvasElement>().ok()) else { return Ok(false) };
    if (canvas.width(), canvas.height()) != (side, side) {
        canvas.set_width(side);
        canvas.set_height(side);
    }
    let pen = canvas.get_context("2d")?.ok_or(Fault::Unsupported)?;
    let pen: CanvasRenderingContext2d = pen.dyn_into().map_err(|_| Fault::Unsupported)?;
    let point = |dark: &u8| if *dark == 0 { [255, 255, 255, 255] } else { [0, 0, 0, 255] };
    let points: Vec<u8> = dark.iter().flat_map(point).collect();
    let image = ImageData::new_with_u8_clamped_array(Clamped(&points), side)?;
    pen.put_image_data(&image, 0.0, 0.0)?;
    Ok(true)
}
