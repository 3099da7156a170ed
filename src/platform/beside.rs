//! A text that lies beside the app as a file of its own. The offline worker keeps it with the rest, so a signal is needed at most
//! once. Refuses to wait for ever.

use super::js::{self, Fault};
use wasm_bindgen::JsValue;

/// A weak signal gets so long; what is kept on the phone is there at once.
const PATIENCE_MS: u32 = 12_000;

/// The text of this file, relative to the app's own folder.
pub async fn text(path: &str) -> Result<String, Fault> {
    let window = js::window()?;
    let options = match js::call(&js::member(&window, "AbortSignal")?, "timeout", &[&PATIENCE_MS.into()]) {
        Ok(signal) => js::object(&[("signal", signal)])?,
        // A browser without it waits as long as it likes.
        Err(Fault::Unsupported) => JsValue::UNDEFINED,
        Err(fault) => return Err(fault),
    };
    let answer = js::call_later(&window, "fetch", &[&path.into(), &options]).await?;
    if !js::member(&answer, "ok")?.is_truthy() {
        return Err(Fault::said(path, "the host didn't give it"));
    }
    let text = js::call_later(&answer, "text", &[]).await?;
    text.as_string().ok_or_else(|| Fault::said(path, "not a text"))
}
