//! The other end of `codes`, in a program of its own: what is asked is done at once and answered. Holds the pieces that were seen, and
//! no picture.

use std::cell::RefCell;
use std::rc::Rc;

use js_sys::{ArrayBuffer, Uint8Array};
use wasm_bindgen_futures::spawn_local;

use super::{ANSWER, DIED, READY, log};
use crate::app::codes::doing::{Done, Reader, drawn};
use crate::app::codes::{Ask, Told};
use crate::app::update::MAX_FILE_BYTES;
use crate::app::words::codes as words;
use crate::app::work::BUILD;
use crate::platform::files::Chosen;
use crate::platform::worker::{self, Given};

/// Serves the page for as long as it wants.
pub fn serve() {
    worker::tell_panic(DIED);
    let reader = Rc::new(RefCell::new(Reader::default()));
    let listening = worker::listen(move |Given { texts: [ask, _], file, bytes }| match Ask::from_text(&ask) {
        Some(Ask::Show) => spawn_local(async move { answer(made(file).await) }),
        Some(Ask::Look { width, height }) => answer(look(&reader, width, height, bytes)),
        None => answer(Done::said(Told::Not(words::NONSENSE.to_owned()))),
    });
    if let Err(fault) = listening.and_then(|()| worker::say(READY, BUILD, None)) {
        log(&fault);
    }
}

async fn made(file: Option<Chosen>) -> Done {
    let Some(file) = file else { return Done::said(Told::Not(words::NONSENSE.to_owned())) };
    match file.read(MAX_FILE_BYTES).await {
        Ok(copy) => drawn(&copy),
        Err(why) => Done::said(Told::Not(words::not_made(&format!("{why:?}")))),
    }
}

fn look(reader: &RefCell<Reader>, width: u32, height: u32, bytes: Option<ArrayBuffer>) -> Done {
    let rgba = bytes.map(|buffer| Uint8Array::new(&buffer).to_vec()).unwrap_or_default();
    reader.borrow_mut().look(width, height, &rgba)
}

fn answer(done: Done) {
    if let Err(fault) = worker::say_bytes(ANSWER, &done.told.to_text(), &done.bytes) {
        log(&fault);
    }
}
