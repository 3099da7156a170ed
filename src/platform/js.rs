//! Asking a JavaScript object for a member that it may not have, and calling it. Owns `Fault`, the common answer of a
//! browser that did not do it. web-sys binds such calls without a way to fail: where the member is missing, the exception
//! would run past Rust and leave the app half done.

use js_sys::{Array, Function, Promise, Reflect};
use std::fmt;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;

/// Why the browser did not do it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Fault {
    /// This browser does not have it.
    Unsupported,
    /// It has it and would not: the exception's name and message.
    Refused { name: String, message: String },
}

impl Fault {
    pub(super) fn from_js(thrown: &JsValue) -> Self {
        let (name, message) = match (thrown.dyn_ref::<web_sys::DomException>(), thrown.dyn_ref::<js_sys::Error>()) {
            (Some(thrown), _) => (thrown.name(), thrown.message()),
            (None, Some(error)) => (String::from(error.name()), String::from(error.message())),
            (None, None) => ("value".to_owned(), format!("{thrown:?}")),
        };
        Self::Refused { name, message }
    }

    pub(super) fn said(name: &str, message: &str) -> Self {
        Self::Refused { name: name.to_owned(), message: message.to_owned() }
    }

    pub(super) fn is_named(&self, wanted: &str) -> bool {
        matches!(self, Self::Refused { name, .. } if name == wanted)
    }
}

impl fmt::Display for Fault {
    /// For the console and reports of faults, not for the coach.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unsupported => f.write_str("not supported here"),
            Self::Refused { name, message } => write!(f, "{name}: {message}"),
        }
    }
}

impl std::error::Error for Fault {}

/// So that `?` turns an exception into a fault.
impl From<JsValue> for Fault {
    fn from(thrown: JsValue) -> Self {
        Self::from_js(&thrown)
    }
}

/// The member, if it is there.
pub(super) fn member(of: &JsValue, name: &str) -> Result<JsValue, Fault> {
    if of.is_undefined() || of.is_null() {
        return Err(Fault::Unsupported);
    }
    let found = Reflect::get(of, &JsValue::from_str(name))?;
    if found.is_undefined() || found.is_null() { Err(Fault::Unsupported) } else { Ok(found) }
}

/// Calls a method, if it is there.
pub(super) fn call(of: &JsValue, name: &str, arguments: &[&JsValue]) -> Result<JsValue, Fault> {
    let method: Function = member(of, name)?.dyn_into().map_err(|_not_callable| Fault::Unsupported)?;
    Ok(method.apply(of, &list(arguments))?)
}

/// Calls a method that answers later.
pub(super) async fn call_later(of: &JsValue, name: &str, arguments: &[&JsValue]) -> Result<JsValue, Fault> {
    let promise = Promise::resolve(&call(of, name, arguments)?);
    Ok(JsFuture::from(promise).await?)
}

/// `navigator.name`, on a page and in a worker.
pub(super) fn of_navigator(name: &str) -> Result<JsValue, Fault> {
    member(&member(&js_sys::global(), "navigator")?, name)
}

pub(super) fn window() -> Result<web_sys::Window, Fault> {
    web_sys::window().ok_or(Fault::Unsupported)
}

pub(super) fn document() -> Result<web_sys::Document, Fault> {
    window()?.document().ok_or(Fault::Unsupported)
}

/// An object of these fields.
pub(super) fn object(fields: &[(&str, JsValue)]) -> Result<JsValue, Fault> {
    let made = js_sys::Object::new();
    for (name, value) in fields {
        Reflect::set(&made, &JsValue::from_str(name), value)?;
    }
    Ok(made.into())
}

/// Listens for as long as the page lives: the closure is never freed, so it may touch only what belongs to the whole app.
pub(super) fn listen_for_good<E: JsCast + wasm_bindgen::convert::FromWasmAbi + 'static>(
    target: &web_sys::EventTarget,
    name: &str,
    heard: impl FnMut(E) + 'static,
) -> Result<(), Fault> {
    let closure = Closure::<dyn FnMut(E)>::new(heard);
    target.add_event_listener_with_callback(name, closure.as_ref().unchecked_ref())?;
    closure.forget(); // for the page's life
    Ok(())
}

/// A promise and the function that keeps it.
pub(super) fn promise_to_keep() -> Result<(Promise, Function), Fault> {
    let mut keep = None;
    let promise = Promise::new(&mut |resolve, _reject| keep = Some(resolve));
    match keep {
        Some(keep) => Ok((promise, keep)),
        None => Err(Fault::said("Promise", "its executor did not run")),
    }
}

fn list(arguments: &[&JsValue]) -> Array {
    arguments.iter().copied().collect()
}
