//! One holder among all tabs of this origin, by the browser's lock manager. Owns the asking; refuses to decide what a
//! second tab may do.

use super::js::{self, Fault};
use js_sys::{Function, Promise};
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::{JsFuture, spawn_local};

/// The answer to the asking.
#[derive(Debug, PartialEq)]
pub enum Lock {
    /// Ours until the page ends or [`Hold::release`].
    Held(Hold),
    /// Another tab has it.
    Taken,
    /// This browser has no locks: two tabs can't see each other this way.
    Unsupported,
}

/// A lock that this page holds. Dropping it changes nothing; it ends with the page.
#[derive(Debug, PartialEq)]
pub struct Hold {
    let_go: Function,
}

impl Hold {
    pub fn release(self) -> Result<(), Fault> {
        self.let_go.call0(&JsValue::UNDEFINED)?;
        Ok(())
    }
}

/// Asks for the lock without waiting. `on_lost` is called if another tab steals it later; it outlives every screen, so it
/// may touch only what belongs to the whole app.
pub async fn hold(name: &str, on_lost: impl FnOnce() + 'static) -> Result<Lock, Fault> {
    ask(name, "ifAvailable", on_lost).await
}

/// Takes the lock from whoever has it, whose `on_lost` is called then.
pub async fn steal(name: &str, on_lost: impl FnOnce() + 'static) -> Result<Lock, Fault> {
    ask(name, "steal", on_lost).await
}

async fn ask(name: &str, option: &str, on_lost: impl FnOnce() + 'static) -> Result<Lock, Fault> {
    let manager = match js::of_navigator("locks") {
        Ok(manager) => manager,
        Err(Fault::Unsupported) => return Ok(Lock::Unsupported),
        Err(fault) => return Err(fault),
    };
    let (granted, say) = js::promise_to_keep()?;
    let (until, let_go) = js::promise_to_keep()?;
    // Called once, with the lock or with null; the lock is held until the returned promise is kept.
    let holding = Closure::once_into_js(move |lock: JsValue| -> Result<JsValue, JsValue> {
        let is_ours = !lock.is_null();
        say.call1(&JsValue::UNDEFINED, &JsValue::from_bool(is_ours))?;
        Ok(if is_ours { until.into() } else { JsValue::UNDEFINED })
    });
    let options = js::object(&[(option, JsValue::TRUE)])?;
    let whole: Promise = Promise::resolve(&js::call(&manager, "request", &[&name.into(), &options, &holding])?);
    let first = Promise::race(&js_sys::Array::of2(&granted, &whole));
    if JsFuture::from(first).await?.is_falsy() {
        return Ok(Lock::Taken);
    }
    spawn_local(async move {
        if JsFuture::from(whole).await.is_err() {
            on_lost(); // the only way in which a granted request fails
        }
    });
    Ok(Lock::Held(Hold { let_go }))
}
