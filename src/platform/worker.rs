//! A second program beside the page, in a worker: started, spoken to, stopped; and the worker's own end of it. Messages are a
//! word, texts, at most one file, and bytes. Knows no job.

use js_sys::{Array, ArrayBuffer, Reflect, Uint8Array};
use wasm_bindgen::prelude::*;
use web_sys::{Blob, Event, MessageEvent};

use super::files::Chosen;
use super::js::Fault;

/// A running worker. Dropping it ends it at once, in the midst of whatever it does.
pub struct Worker {
    raw: web_sys::Worker,
    // Kept as long as the worker, whose listeners they are.
    _heard: Closure<dyn FnMut(MessageEvent)>,
    _failed: Closure<dyn FnMut(Event)>,
}

/// What a worker says: a word, a text, perhaps a file that it has made, and bytes.
pub struct Said {
    pub word: String,
    pub text: String,
    pub file: Option<Blob>,
    pub bytes: Vec<Uint8Array>,
}

/// What a worker is given: two texts, and perhaps a file or bytes.
pub struct Given {
    pub texts: [String; 2],
    pub file: Option<Chosen>,
    pub bytes: Option<ArrayBuffer>,
}

/// The parts of a message before its bytes.
const BEFORE_BYTES: u32 = 3;

impl Worker {
    /// Starts the script at this address, relative to the page. `failed` is called where it can't be loaded or throws.
    pub fn start(
        address: &str,
        mut heard: impl FnMut(Said) + 'static,
        mut failed: impl FnMut() + 'static,
    ) -> Result<Worker, Fault> {
        let raw = web_sys::Worker::new(address)?;
        let heard = Closure::<dyn FnMut(MessageEvent)>::new(move |message: MessageEvent| {
            let parts = Array::from(&message.data());
            let said = Said {
                word: parts.get(0).as_string().unwrap_or_default(),
                text: parts.get(1).as_string().unwrap_or_default(),
                file: parts.get(2).dyn_into().ok(),
                bytes: (BEFORE_BYTES..parts.length()).filter_map(|i| parts.get(i).dyn_into().ok()).collect(),
            };
            heard(said);
        });
        let failed = Closure::<dyn FnMut(Event)>::new(move |event: Event| {
            event.prevent_default();
            failed();
        });
        raw.set_onmessage(Some(heard.as_ref().unchecked_ref()));
        raw.set_onerror(Some(failed.as_ref().unchecked_ref()));
        Ok(Worker { raw, _heard: heard, _failed: failed })
    }

    pub fn give(&self, texts: [&str; 2], file: Option<&Chosen>) -> Result<(), Fault> {
        let file = file.map_or(JsValue::NULL, Chosen::to_js);
        Ok(self.raw.post_message(&Array::of3(&texts[0].into(), &texts[1].into(), &file))?)
    }

    /// With bytes, which the page has no more afterwards.
    pub fn hand_over(&self, texts: [&str; 2], bytes: &ArrayBuffer) -> Result<(), Fault> {
        let message = Array::of4(&texts[0].into(), &texts[1].into(), &JsValue::NULL, bytes);
        Ok(self.raw.post_message_with_transfer(&message, &Array::of1(bytes))?)
    }
}

impl Drop for Worker {
    fn drop(&mut self) {
        self.raw.set_onmessage(None);
        self.raw.set_onerror(None);
        self.raw.terminate();
    }
}

/// In the worker: hears what it is given, for as long as it lives.
pub fn listen(mut heard: impl FnMut(Given) + 'static) -> Result<(), Fault> {
    let closure = Closure::<dyn FnMut(MessageEvent)>::new(move |message: MessageEvent| {
        let parts = Array::from(&message.data());
        let text = |i| parts.get(i).as_string().unwrap_or_default();
        heard(Given {
            texts: [text(0), text(1)],
            file: parts.get(2).dyn_into().ok().map(Chosen::of),
            bytes: parts.get(BEFORE_BYTES).dyn_into().ok(),
        });
    });
    Reflect::set(&js_sys::global(), &"onmessage".into(), closure.as_ref())?;
    closure.forget(); // for the worker's life
    Ok(())
}

/// In the worker: tells the page.
pub fn say(word: &str, text: &str, file: Option<Blob>) -> Result<(), Fault> {
    let file = file.map_or(JsValue::NULL, JsValue::from);
    Ok(post_message(&Array::of3(&word.into(), &text.into(), &file))?)
}

/// In the worker: tells the page; and how many milliseconds it took to make, which whoever measures may read.
pub fn say_timed(word: &str, text: &str, file: Option<Blob>, ms: u32) -> Result<(), Fault> {
    let file = file.map_or(JsValue::NULL, JsValue::from);
    Ok(post_message(&Array::of4(&word.into(), &text.into(), &file, &ms.into()))?)
}

/// In the worker: tells the page, with bytes.
pub fn say_bytes(word: &str, text: &str, bytes: &[Vec<u8>]) -> Result<(), Fault> {
    let message = Array::of3(&word.into(), &text.into(), &JsValue::NULL);
    for bytes in bytes {
        message.push(&Uint8Array::from(bytes.as_slice()));
    }
    Ok(post_message(&message)?)
}

/// In the worker: a panic is told to the page with this word. The worker is of no use afterwards.
pub fn tell_panic(word: &'static str) {
    std::panic::set_hook(Box::new(move |panic| {
        if let Err(fault) = say(word, &panic.to_string(), None) {
            web_sys::console::error_1(&format!("{panic}; and the page can't be told: {fault}").into());
        }
    }));
}

#[wasm_bindgen]
extern "C" {
    #[wasm_bindgen(catch, js_name = postMessage)]
    fn post_message(message: &JsValue) -> Result<(), JsValue>;
}
