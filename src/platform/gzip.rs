//! Packing bytes small with the browser's own gzip. Refuses to unpack without a limit: a small file can hold a large one.
//! Works on a page and in a worker.

use super::js::{self, Fault};
use js_sys::{Array, Uint8Array};
use wasm_bindgen::prelude::*;

/// Why bytes were not packed or unpacked.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum GzipError {
    /// This browser has no compression of its own. Keep the bytes as they are.
    Unsupported,
    /// Unpacked it would be larger than the limit.
    TooLarge { limit_bytes: usize },
    /// Not gzip, cut off, or damaged: what the browser says.
    Damaged(String),
}

/// Whether bytes are gzip by their first two.
pub fn is_gzip(bytes: &[u8]) -> bool {
    bytes.starts_with(&[0x1f, 0x8b])
}

pub async fn compress(bytes: &[u8]) -> Result<Vec<u8>, GzipError> {
    through("CompressionStream", bytes, usize::MAX).await
}

pub async fn decompress(bytes: &[u8], limit_bytes: usize) -> Result<Vec<u8>, GzipError> {
    through("DecompressionStream", bytes, limit_bytes).await
}

async fn through(class: &str, bytes: &[u8], limit_bytes: usize) -> Result<Vec<u8>, GzipError> {
    let machine = js::construct(class, &[&"gzip".into()])?;
    let source = js::construct("Blob", &[Array::of1(&Uint8Array::from(bytes)).as_ref()])?;
    let stream = js::call(&js::call(&source, "stream", &[])?, "pipeThrough", &[&machine])?;
    let reader = js::call(&stream, "getReader", &[])?;
    let mut all = Vec::new();
    loop {
        let step = js::call_later(&reader, "read", &[]).await?;
        let chunk = match js::member(&step, "value") {
            Ok(chunk) => chunk,
            Err(Fault::Unsupported) => return Ok(all), // no value: the end
            Err(fault) => return Err(fault.into()),
        };
        let chunk: Uint8Array = chunk.dyn_into().map_err(|other| GzipError::Damaged(format!("{other:?}")))?;
        if all.len() + chunk.length() as usize > limit_bytes {
            js::call_later(&reader, "cancel", &[]).await?;
            return Err(GzipError::TooLarge { limit_bytes });
        }
        let before = all.len();
        all.resize(before + chunk.length() as usize, 0);
        chunk.copy_to(&mut all[before..]);
    }
}

impl From<Fault> for GzipError {
    fn from(fault: Fault) -> Self {
        match fault {
            Fault::Unsupported => Self::Unsupported,
            Fault::Refused { name, message } => Self::Damaged(format!("{name}: {message}")),
        }
    }
}
