//! The library of drills: a file beside the app, read when a screen first wants it.

use super::{log, report};
use crate::app::effect::Report;
use crate::platform::beside;

const FILE: &str = "library.json";

pub async fn read() {
    let text = match beside::text(FILE).await {
        Ok(text) => Some(text),
        Err(fault) => {
            log(&fault);
            None
        }
    };
    report(Report::Library(text));
}
