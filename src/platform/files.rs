//! Files out and in: download, the share sheet, a file that the coach chose. Owns the browser's side of it; refuses to
//! know a format, and to read a file whose size was not looked at first.

use super::js::{self, Fault};
use js_sys::{Array, ArrayBuffer, Uint8Array};
use wasm_bindgen::prelude::*;
use web_sys::{Blob, File, FilePropertyBag, HtmlAnchorElement, Url};

/// How the share sheet ended.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Sharing {
    /// Handed to another app. Whether that app kept it, nobody tells.
    Shared,
    /// The coach closed the sheet.
    Cancelled,
    /// No share sheet for files here.
    Unsupported,
    /// The browser would not: its own words. Chromium refuses names ending in ".json".
    Refused(String),
}

/// A file that the coach chose and that was not read yet.
#[derive(Debug, Clone)]
pub struct Chosen {
    file: File,
    /// Where the file itself was too large to be kept: how large.
    size_bytes: Option<u64>,
}

/// Why a chosen file was not read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ReadError {
    /// Larger than allowed; not a byte of it was read.
    TooLarge { size_bytes: u64, limit_bytes: u64 },
    /// The browser could not read it (moved, taken away, a cloud file without signal): its own words.
    Failed(String),
}

/// A text as a file's content. Works on a page and in a worker; it stays outside the app's own memory.
pub fn blob(text: &str) -> Result<Blob, Fault> {
    Ok(Blob::new_with_str_sequence(&Array::of1(&text.into()))?)
}

/// Bytes as a file's content.
pub fn blob_of(bytes: &Uint8Array) -> Result<Blob, Fault> {
    Ok(Blob::new_with_u8_array_sequence(&Array::of1(bytes))?)
}

/// Saves the content as a file, through the browser's own download. An `Ok` says that the browser was asked, not more.
pub fn download(name: &str, mime: &str, content: &Blob) -> Result<(), Fault> {
    let document = js::document()?;
    let body = document.body().ok_or(Fault::Unsupported)?;
    let address = Url::create_object_url_with_blob(file(name, mime, content)?.as_ref())?;
    let anchor: HtmlAnchorElement =
        document.create_element("a")?.dyn_into().map_err(|_other| Fault::said("download", "no anchor"))?;
    anchor.set_href(&address);
    anchor.set_download(name);
    anchor.set_hidden(true);
    body.append_child(&anchor)?;
    anchor.click();
    anchor.remove();
    revoke_later(address)
}

/// Whether the share sheet would take such a file.
pub fn can_share(name: &str, mime: &str) -> Result<bool, Fault> {
    let navigator = js::member(&js_sys::global(), "navigator")?;
    let wanted = share_data(name, mime, &blob("{}")?)?;
    match js::call(&navigator, "canShare", &[&wanted]) {
        Ok(answer) => Ok(answer.is_truthy()),
        Err(Fault::Unsupported) => Ok(false), // no sheet, or one that takes no files
        Err(fault) => Err(fault),
    }
}

/// Opens the share sheet. To be called in answer to a tap, with nothing slow before it: browsers allow it only then.
pub async fn share(name: &str, mime: &str, content: &Blob) -> Sharing {
    let shared = async {
        let navigator = js::member(&js_sys::global(), "navigator")?;
        js::call_later(&navigator, "share", &[&share_data(name, mime, content)?]).await
    };
    ended(shared.await)
}

/// Opens the share sheet with a text alone.
pub async fn share_text(text: &str) -> Sharing {
    let shared = async {
        let navigator = js::member(&js_sys::global(), "navigator")?;
        js::call_later(&navigator, "share", &[&js::object(&[("text", text.into())])?]).await
    };
    ended(shared.await)
}

/// Puts a text where it can be pasted from.
pub async fn copy_text(text: &str) -> Result<(), Fault> {
    js::call_later(&js::of_navigator("clipboard")?, "writeText", &[&text.into()]).await.map(|_| ())
}

fn ended(shared: Result<JsValue, Fault>) -> Sharing {
    match shared {
        Ok(_) => Sharing::Shared,
        Err(Fault::Unsupported) => Sharing::Unsupported,
        Err(fault) if fault.is_named("AbortError") => Sharing::Cancelled,
        Err(fault) => Sharing::Refused(fault.to_string()),
    }
}

impl Chosen {
    /// A file as the browser hands it over: out of an input, or in a message.
    pub fn of(file: File) -> Self {
        Self { file, size_bytes: None }
    }

    /// A file of this content, as if it had been chosen.
    pub fn made(name: &str, content: &Blob) -> Result<Self, Fault> {
        Ok(Self::of(self::file(name, "application/octet-stream", content)?))
    }

    /// Its size where more than is in it was there.
    pub fn said_to_have(self, size_bytes: Option<u64>) -> Self {
        let larger = size_bytes.filter(|said| *said > self.file.size() as u64);
        Self { size_bytes: larger, ..self }
    }

    /// To be given to a worker: only the handle goes, the browser reads nothing.
    pub(super) fn to_js(&self) -> JsValue {
        self.file.clone().into()
    }

    pub fn name(&self) -> String {
        self.file.name()
    }

    pub fn size_bytes(&self) -> u64 {
        self.size_bytes.unwrap_or_else(|| self.file.size() as u64)
    }

    /// Reads the whole file, unless it is larger than that.
    pub async fn read(&self, limit_bytes: u64) -> Result<Vec<u8>, ReadError> {
        let size_bytes = self.size_bytes();
        if size_bytes > limit_bytes {
            return Err(ReadError::TooLarge { size_bytes, limit_bytes });
        }
        let read = js::call_later(&self.file, "arrayBuffer", &[]).await;
        let buffer = read.map_err(|fault| ReadError::Failed(fault.to_string()))?;
        match buffer.dyn_into::<ArrayBuffer>() {
            Ok(buffer) => Ok(Uint8Array::new(&buffer).to_vec()),
            Err(other) => Err(ReadError::Failed(format!("{other:?}"))),
        }
    }
}

fn file(name: &str, mime: &str, content: &Blob) -> Result<File, Fault> {
    let options = FilePropertyBag::new();
    options.set_type(mime);
    Ok(File::new_with_blob_sequence_and_options(&Array::of1(content), name, &options)?)
}

fn share_data(name: &str, mime: &str, content: &Blob) -> Result<JsValue, Fault> {
    // Files alone: some apps drop the file when a text comes with it.
    let file = file(name, mime, content)?;
    js::object(&[("files", Array::of1(&file).into())])
}

/// The address is freed when the download has surely begun; browsers don't say when that is.
fn revoke_later(address: String) -> Result<(), Fault> {
    const LATER_MS: i32 = 60_000;
    let revoke = Closure::once_into_js(move || -> Result<(), JsValue> { Url::revoke_object_url(&address) });
    js::window()?.set_timeout_with_callback_and_timeout_and_arguments_0(revoke.unchecked_ref(), LATER_MS)?;
    Ok(())
}
