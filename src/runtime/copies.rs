//! Files out and in: a copy offered, a chosen file handed on unread. What is in them is the worker's business.

use std::rc::Rc;

use wasm_bindgen_futures::spawn_local;
use web_sys::Blob;

use super::{Runtime, report, with, work};
use crate::app::action::CopyHow;
use crate::app::effect::Report;
use crate::app::words;
use crate::platform::files::{self, Chosen, Sharing};

pub fn offer(rt: &Rc<Runtime>, name: String, how: CopyHow) {
    let copy = work::copy(rt);
    let kind = match how {
        _ if name.ends_with(".csv") => "text/csv",
        _ if name.ends_with(".html") => "text/html",
        _ if name.ends_with(".age") => "application/octet-stream",
        CopyHow::Download | CopyHow::Code => "application/json",
        CopyHow::ShareSheet => "text/plain",
    };
    spawn_local(async move {
        report(Report::CopyLeft { how, left: given(copy, &name, kind, how).await });
    });
}

/// The dates, for another calendar.
pub fn offer_dates(rt: &Rc<Runtime>, name: String, how: CopyHow) {
    let dates = work::dates(rt);
    spawn_local(async move {
        report(Report::DatesLeft { how, left: given(dates, &name, "text/calendar", how).await });
    });
}

async fn given(file: Option<Blob>, name: &str, kind: &str, how: CopyHow) -> Result<bool, String> {
    let Some(file) = file else { return Err(words::work::NONSENSE.to_owned()) };
    match how {
        CopyHow::Code => Err(words::codes::NONSENSE.to_owned()), // it is shown, and never offered
        CopyHow::Download => files::download(name, kind, &file).map(|()| true).map_err(|f| f.to_string()),
        CopyHow::ShareSheet => match files::share(name, kind, &file).await {
            Sharing::Shared => Ok(true),
            Sharing::Cancelled => Ok(false),
            Sharing::Unsupported => Err("this browser has no share sheet for files".to_owned()),
            Sharing::Refused(why) => Err(why),
        },
    }
}

/// A file from the input: it goes to the worker unread.
pub fn open_file(file: web_sys::File) {
    let chosen = Chosen::of(file);
    let heard = Report::FileChosen { name: chosen.name(), n_bytes: chosen.size_bytes() };
    with(|rt| work::keep_file(rt, chosen));
    report(heard);
}
