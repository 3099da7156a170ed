//! Draws the icons' PNG files from their SVG drawings with Chromium. The PNGs are committed; this runs again when a drawing
//! changes.

use crate::shell::{Failure, Result, command, run, timed};
use crate::{browser, paths};
use std::path::Path;
use std::{env, fs};

/// Drawing, picture, side in pixels. iOS rounds the corners itself and wants no transparency: it takes the full-bleed drawing.
const PICTURES: [(&str, &str, u32); 5] = [
    ("icon.svg", "icon-192.png", 192),
    ("icon.svg", "icon-512.png", 512),
    ("maskable.svg", "maskable-192.png", 192),
    ("maskable.svg", "maskable-512.png", 512),
    ("maskable.svg", "apple-touch-icon.png", 180),
];

/// Writes all PNG files into public/icons.
pub fn draw() -> Result {
    let chromium = browser::chromium()?;
    let work = env::temp_dir().join(format!("peppertally-icons-{}", std::process::id()));
    fs::create_dir_all(&work).map_err(|error| Failure::with_file("create", &work, error))?;
    let drawn = PICTURES.iter().try_for_each(|(drawing, picture, side)| {
        timed(&format!("{picture} from {drawing}"), || draw_one(&chromium, &work, drawing, picture, *side))
    });
    fs::remove_dir_all(&work).map_err(|error| Failure::with_file("remove", &work, error))?;
    drawn
}

fn draw_one(chromium: &Path, work: &Path, drawing: &str, picture: &str, side: u32) -> Result {
    let icons = paths::root().join("public/icons");
    let drawing = icons.join(drawing);
    let svg = fs::read_to_string(&drawing).map_err(|error| Failure::with_file("read", &drawing, error))?;
    // A page of exactly this size, so that the browser scales the drawing, not the picture.
    let page = work.join("page.html");
    let html = format!(
        "<!doctype html><style>html,body{{margin:0;background:transparent}}svg{{display:block;width:{side}px;height:{side}px}}</style>{svg}"
    );
    fs::write(&page, html).map_err(|error| Failure::with_file("write", &page, error))?;
    let mut browser = command(
        chromium,
        &[
            "--headless=new",
            "--no-sandbox",
            "--disable-gpu",
            "--disable-quic",
            "--no-first-run",
            "--disable-background-networking",
            "--disable-component-update",
            "--disable-sync",
            "--hide-scrollbars",
            "--force-device-scale-factor=1",
            "--default-background-color=00000000",
        ],
    );
    browser.arg(format!("--user-data-dir={}", work.join("profile").display()));
    browser.arg(format!("--window-size={side},{side}"));
    browser.arg(format!("--screenshot={}", icons.join(picture).display()));
    browser.arg(&page);
    run(browser)
}
