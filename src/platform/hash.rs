//! The browser's own SHA-256. Needs a secure context (https or localhost), as the service worker does.

use js_sys::{ArrayBuffer, Uint8Array};
use wasm_bindgen::prelude::*;

use super::js::{self, Fault};

/// The hash of these bytes, in hex.
///
/// # Errors
/// [`Fault::Unsupported`] outside a secure context.
pub async fn sha256(bytes: &[u8]) -> Result<String, Fault> {
    let crypto = js::member(&js_sys::global(), "crypto")?;
    let subtle = js::member(&crypto, "subtle")?;
    let data: JsValue = Uint8Array::from(bytes).into();
    let digest = js::call_later(&subtle, "digest", &[&"SHA-256".into(), &data]).await?;
    let buffer: ArrayBuffer = digest.dyn_into().map_err(|_other| Fault::said("digest", "no buffer"))?;
    Ok(Uint8Array::new(&buffer).to_vec().iter().map(|byte| format!("{byte:02x}")).collect())
}
