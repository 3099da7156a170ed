//! Messages between the tabs of this origin. Strings only; anything else is somebody else's and is not heard. A tab does
//! not hear itself.

use super::js::{self, Fault};
use wasm_bindgen::JsValue;
use web_sys::{BroadcastChannel, MessageEvent};

/// An open channel. It lives as long as the page, as its listener does.
#[derive(Clone)]
pub struct Channel(BroadcastChannel);

impl Channel {
    /// Opens the channel. `heard` outlives every screen, so it may touch only what belongs to the whole app.
    pub fn open(name: &str, mut heard: impl FnMut(String) + 'static) -> Result<Self, Fault> {
        js::member(&js_sys::global(), "BroadcastChannel")?;
        let channel = BroadcastChannel::new(name)?;
        js::listen_for_good(&channel, "message", move |message: MessageEvent| {
            if let Some(text) = message.data().as_string() {
                heard(text);
            }
        })?;
        Ok(Self(channel))
    }

    pub fn post(&self, text: &str) -> Result<(), Fault> {
        Ok(self.0.post_message(&JsValue::from_str(text))?)
    }
}
