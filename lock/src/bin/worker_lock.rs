//! The worker's program: locks one file or opens one, as often as it is asked. It is given a word, the words and a file; it says
//! what became of it, and hands the file over. Keeps nothing between two of them.

use js_sys::{Array, Reflect, Uint8Array};
use lock::{Fault, Shape};
use wasm_bindgen::prelude::*;

/// Which build this is: the page works with its own alone.
const BUILD: &str = match option_env!("PEPPERTALLY_BUILD") {
    Some(build) => build,
    None => env!("CARGO_PKG_VERSION"),
};
/// The largest file that is taken, and given.
const MOST_BYTES: u64 = 100_000_000;

fn main() {
    std::panic::set_hook(Box::new(|panic| say("died", &panic.to_string(), &JsValue::NULL)));
    let heard = Closure::<dyn FnMut(JsValue)>::new(|message: JsValue| match done(&message) {
        Ok(Ok(content)) => say("answer", "", &content),
        Ok(Err(fault)) => say("answer", fault.name(), &JsValue::NULL),
        Err(thrown) => say("died", &format!("{thrown:?}"), &JsValue::NULL),
    });
    if Reflect::set(&js_sys::global(), &"onmessage".into(), heard.as_ref()) == Ok(true) {
        heard.forget(); // for the worker's life
        say("ready", BUILD, &JsValue::NULL);
    } else {
        say("died", "it can't listen", &JsValue::NULL);
    }
}

/// An `Err` is what the browser threw.
fn done(message: &JsValue) -> Result<Result<JsValue, Fault>, JsValue> {
    let parts = Array::from(&Reflect::get(message, &"data".into())?);
    let text = |at| parts.get(at).as_string().unwrap_or_default();
    let (verb, words) = (text(0), text(1));
    let bytes = Uint8Array::new(&FileReaderSync::new()?.read(&parts.get(2))?).to_vec();
    if bytes.len() as u64 > MOST_BYTES {
        return Ok(Err(Fault::Large));
    }
    let made = match verb.as_str() {
        "lock" => lock::pack_and_lock(&bytes, &words, Shape::Binary),
        "lock-text" => lock::pack_and_lock(&bytes, &words, Shape::Text),
        _ => lock::open_typed(&bytes, &words, MOST_BYTES),
    };
    match made {
        Ok(content) => Blob::new(&Array::of1(&Uint8Array::from(content.as_slice()))).map(|blob| Ok(blob.into())),
        Err(fault) => Ok(Err(fault)),
    }
}

fn say(word: &str, text: &str, content: &JsValue) {
    post_message(&Array::of3(&word.into(), &text.into(), content));
}

#[wasm_bindgen]
extern "C" {
    #[wasm_bindgen(js_name = postMessage)]
    fn post_message(message: &JsValue);

    /// Only in a worker: reads without leaving the task.
    type FileReaderSync;
    #[wasm_bindgen(constructor, catch)]
    fn new() -> Result<FileReaderSync, JsValue>;
    #[wasm_bindgen(method, catch, js_name = readAsArrayBuffer)]
    fn read(this: &FileReaderSync, file: &JsValue) -> Result<JsValue, JsValue>;

    type Blob;
    #[wasm_bindgen(constructor, catch)]
    fn new(parts: &Array) -> Result<Blob, JsValue>;
}
