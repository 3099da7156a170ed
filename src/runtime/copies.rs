//! Files out and in: a copy offered, a chosen file handed on unread. What is in them is the worker's business.

use std::rc::Rc;

use wasm_bindgen_futures::spawn_local;

use super::{Runtime, report, with, work};
use crate::app::action::CopyHow;
use crate::app::effect::Report;
use crate::app::words;
use crate::platform::files::{self, Chosen, Sharing};

pub fn offer(rt: &Rc<Runtime>, name: String, how: CopyHow) {
    let copy = work::copy(rt);
    spawn_local(async move {
        let Some(copy) = copy else {
            return report(Report::CopyLeft { how, left: Err(words::work::NONSENSE.to_owned()) });
        };
        let left = match how {
            CopyHow::Download => {
                files::download(&name, "application/json", &copy).map(|()| true).map_err(|f| f.to_string())
            }
            CopyHow::ShareSheet => match files::share(&name, "text/plain", &copy).await {
                Sharing::Shared => Ok(true),
                Sharing::Cancelled => Ok(false),
                Sharing::Unsupported => Err("this browser has no share sheet for files".to_owned()),
                Sharing::Refused(why) => Err(why),
            },
        };
        report(Report::CopyLeft { how, left });
    });
}

/// A file from the input: it goes to the worker unread.
pub fn open_file(file: web_sys::File) {
    let chosen = Chosen::of(file);
    let heard = Report::FileChosen { name: chosen.name(), n_bytes: chosen.size_bytes() };
    with(|rt| work::keep_file(rt, chosen));
    report(heard);
}
