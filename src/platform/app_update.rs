//! How the offline worker stands, and the coach's consent to a new version. The page's script `offline.js` does the work;
//! this reads what it writes to `<html>` and tells it three things: what has come of the app, that a run is on, and that the coach agrees.

use super::js::{self, Fault};
use wasm_bindgen::JsCast;
use web_sys::{CustomEvent, DomStringMap, HtmlElement};

/// Whether the app would start without signal.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Offline {
    /// Still being kept, or the script has not run yet.
    Pending,
    /// Everything is on this device.
    Ready,
    /// It can't be kept here.
    Failed,
}

/// Whether there is a newer version.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Update {
    None,
    /// It is here and waits for consent.
    Waiting,
    /// Another tab has switched to it: reload when idle.
    Elsewhere,
}

/// What the worker tells.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WorkerNews {
    pub offline: Offline,
    pub update: Update,
    /// The switch was refused, because a run is on in some tab.
    pub refused: bool,
    /// What went wrong, in the browser's words.
    pub error: Option<String>,
}

pub fn offline() -> Result<Offline, Fault> {
    Ok(match marks()?.get("offline").as_deref() {
        None | Some("pending") => Offline::Pending,
        Some("ready") => Offline::Ready,
        Some(_failed) => Offline::Failed,
    })
}

pub fn update() -> Result<Update, Fault> {
    Ok(match marks()?.get("update").as_deref() {
        Some("waiting") => Update::Waiting,
        Some("elsewhere") => Update::Elsewhere,
        _ => Update::None,
    })
}

/// Hears the worker's news for as long as the page lives; `heard` may touch only what belongs to the whole app.
pub fn on_news(mut heard: impl FnMut(Result<WorkerNews, Fault>) + 'static) -> Result<(), Fault> {
    js::listen_for_good(js::window()?.as_ref(), "peppertally-worker", move |event: CustomEvent| heard(read(&event)))
}

/// The coach agrees to the waiting version. The page reloads by itself once it has taken over.
pub fn activate() -> Result<(), Fault> {
    js::window()?.dispatch_event(CustomEvent::new("peppertally-activate-update")?.as_ref())?;
    Ok(())
}

/// Says that all of the app has come, so that it may be kept now; or that it has not, and only a newer version may repair it.
pub fn arrived(whole: bool) -> Result<(), Fault> {
    let name = if whole { "peppertally-started" } else { "peppertally-start-failed" };
    js::window()?.dispatch_event(CustomEvent::new(name)?.as_ref())?;
    Ok(())
}

/// Says whether a run is on here: no tab switches then.
pub fn set_run_on(on: bool) -> Result<(), Fault> {
    Ok(marks()?.set("runOn", if on { "yes" } else { "no" })?)
}

fn read(event: &CustomEvent) -> Result<WorkerNews, Fault> {
    let detail = event.detail();
    let said = |name: &str| match js::member(&detail, name) {
        Ok(value) => Ok(Some(value)),
        Err(Fault::Unsupported) => Ok(None),
        Err(fault) => Err(fault),
    };
    Ok(WorkerNews {
        offline: offline()?,
        update: update()?,
        refused: said("refused")?.is_some_and(|value| value.is_truthy()),
        error: said("error")?.and_then(|value| value.as_string()),
    })
}

fn marks() -> Result<DomStringMap, Fault> {
    let html = js::document()?.document_element().ok_or(Fault::Unsupported)?;
    let html: HtmlElement = html.dyn_into().map_err(|_other| Fault::Unsupported)?;
    Ok(html.dataset())
}
