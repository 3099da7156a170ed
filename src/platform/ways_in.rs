//! Files that come by other ways than an input: dropped on the page, opened with the installed app, shared with it. Owns the browser's side of
//! it, and the veil that says where a dragged file would land; reads no file. Whatever a browser lacks is asked for by name first.

use std::cell::Cell;
use std::rc::Rc;

use js_sys::Array;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::spawn_local;
use web_sys::{Blob, Event, HtmlElement};

use super::files::Chosen;
use super::js::{self, Fault};

/// Where the offline worker keeps what was shared with the app until it is read, and what it says of it (`public/sw.template.js`).
const RECEIVED: &str = "received by peppertally";
const NAME: &str = "x-name";
const SIZE: &str = "x-size";
const OTHERS: &str = "x-others";
/// The address tells that it could not be kept.
const LOST: &str = "?not-kept";

const VEIL: &str = "drop-veil";
/// Set one by one, as the page's policy wants it.
const VEIL_STYLE: [(&str, &str); 13] = [
    ("position", "fixed"),
    ("inset", "0"),
    ("z-index", "90"),
    ("display", "grid"),
    ("place-items", "center"),
    ("padding", "2rem"),
    ("text-align", "center"),
    ("font", "700 1.4rem/1.3 var(--sans)"),
    ("color", "var(--ink)"),
    ("background", "color-mix(in srgb, var(--court) 94%, transparent)"),
    ("outline", "4px dashed var(--accent)"),
    ("outline-offset", "-20px"),
    // What is dragged is still over the page itself.
    ("pointer-events", "none"),
];

/// Files that are dropped anywhere on the page, for its life. While some are dragged over it, a veil says this.
pub fn on_drop(says: &'static str, dropped: impl Fn(Vec<Chosen>) + 'static) -> Result<(), Fault> {
    let window = js::window()?;
    // Every element on the way tells of its own coming and going.
    let depth = Rc::new(Cell::new(0_u32));
    let (entered, left, ended) = (depth.clone(), depth.clone(), depth);
    js::listen_for_good(&window, "dragenter", move |event: Event| {
        if has_files(&event) {
            event.prevent_default();
            entered.set(entered.get() + 1);
            shown(says, true);
        }
    })?;
    js::listen_for_good(&window, "dragover", |event: Event| {
        // Without this the browser would open the file in place of the app.
        if has_files(&event) {
            event.prevent_default();
        }
    })?;
    js::listen_for_good(&window, "dragleave", move |event: Event| {
        if has_files(&event) {
            left.set(left.get().saturating_sub(1));
            shown(says, left.get() > 0);
        }
    })?;
    js::listen_for_good(&window, "drop", move |event: Event| {
        if has_files(&event) {
            event.prevent_default();
            ended.set(0);
            shown(says, false);
            dropped(files_of(&event));
        }
    })
}

/// A file that the installed app is asked to open, each time.
pub fn on_launch(came: impl Fn(Chosen) + 'static) -> Result<(), Fault> {
    let queue = js::member(js::window()?.as_ref(), "launchQueue")?;
    let came = Rc::new(came);
    let consumer = Closure::<dyn FnMut(JsValue)>::new(move |launch: JsValue| {
        // A start without a file has none.
        let Ok(files) = js::member(&launch, "files") else { return };
        let first = Array::from(&files).get(0);
        let came = came.clone();
        spawn_local(async move {
            match js::call_later(&first, "getFile", &[]).await.map(JsValue::dyn_into) {
                Ok(Ok(file)) => came(Chosen::of(file)),
                Ok(Err(_)) | Err(Fault::Unsupported) => {}
                Err(fault) => web_sys::console::warn_1(&format!("a file to open: {fault}").into()),
            }
        });
    });
    js::call(&queue, "setConsumer", &[consumer.as_ref()])?;
    consumer.forget(); // for the page's life
    Ok(())
}

/// What was shared with the app: taken out of where the offline worker has put it, and how many came with it. Of one that is larger than
/// anything that is read, only name and size were kept.
pub async fn received() -> Result<Option<(Chosen, usize)>, Fault> {
    let caches = js::member(&js_sys::global(), "caches")?;
    let name = JsValue::from_str(&format!("{RECEIVED}{}", folder()?));
    // Asked first: opening one would make it.
    if !js::call_later(&caches, "has", &[&name]).await?.is_truthy() {
        return Ok(None);
    }
    let cache = js::call_later(&caches, "open", &[&name]).await?;
    let kept = Array::from(&js::call_later(&cache, "matchAll", &[]).await?).get(0);
    if kept.is_undefined() {
        js::call_later(&caches, "delete", &[&name]).await?;
        return Ok(None);
    }
    let headers = js::member(&kept, "headers")?;
    let said = |what: &str| Ok::<_, Fault>(js::call(&headers, "get", &[&what.into()])?.as_string().unwrap_or_default());
    let (named, size, others) = (said(NAME)?, said(SIZE)?, said(OTHERS)?);
    let content = js::call_later(&kept, "blob", &[]).await?;
    let content: Blob = content.dyn_into().map_err(|_other| Fault::said("received", "no content"))?;
    // Read before it is deleted: then it no longer hangs on the cache.
    let bytes = js::call_later(&content, "arrayBuffer", &[]).await?;
    js::call_later(&caches, "delete", &[&name]).await?;
    let named = js_sys::decode_uri_component(&named).map_or_else(|_| named.clone(), String::from);
    let content = Blob::new_with_buffer_source_sequence(&Array::of1(&bytes))?;
    let file = Chosen::made(&named, &content)?.said_to_have(size.parse().ok());
    Ok(Some((file, others.parse().unwrap_or(0))))
}

/// Whether the address says that what was shared could not be kept. It says so once.
pub fn was_lost() -> Result<bool, Fault> {
    let location = js::window()?.location();
    if location.search()? != LOST {
        return Ok(false);
    }
    let address = format!("{}{}", location.pathname()?, location.hash()?);
    let history = js::member(js::window()?.as_ref(), "history")?;
    js::call(&history, "replaceState", &[&JsValue::NULL, &"".into(), &address.into()])?;
    Ok(true)
}

/// The app's own folder on its host.
fn folder() -> Result<String, Fault> {
    let path = js::window()?.location().pathname()?;
    let end = path.rfind('/').map_or(path.len(), |at| at + 1);
    Ok(path[..end].to_owned())
}

fn has_files(event: &Event) -> bool {
    let types = js::member(event, "dataTransfer").and_then(|data| js::member(&data, "types"));
    types.is_ok_and(|types| Array::from(&types).iter().any(|kind| kind == "Files"))
}

fn files_of(event: &Event) -> Vec<Chosen> {
    let files = js::member(event, "dataTransfer").and_then(|data| js::member(&data, "files"));
    let files = files.map(|files| Array::from(&files)).unwrap_or_default();
    files.iter().filter_map(|file| file.dyn_into().ok()).map(Chosen::of).collect()
}

fn shown(says: &str, on: bool) {
    let done = (|| {
        let document = js::document()?;
        match (document.get_element_by_id(VEIL), on) {
            (Some(veil), false) => veil.remove(),
            (None, true) => {
                let veil: HtmlElement =
                    document.create_element("div")?.dyn_into().map_err(|_other| Fault::said("veil", "no element"))?;
                veil.set_id(VEIL);
                veil.set_attribute("role", "status")?;
                veil.set_text_content(Some(says));
                for (property, value) in VEIL_STYLE {
                    veil.style().set_property(property, value)?;
                }
                document.body().ok_or(Fault::Unsupported)?.append_child(&veil)?;
            }
            _ => {}
        }
        Ok::<_, Fault>(())
    })();
    if let Err(fault) = done {
        web_sys::console::warn_1(&format!("the veil: {fault}").into());
    }
}
