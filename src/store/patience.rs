//! Waiting with an end. Owns the race between some work and a timer. Work that owns all it needs is handed back still running;
//! other work is dropped, which undoes a transaction that is not committed yet.

use super::error::StoreError;
use js_sys::Promise;
use std::future::{Future, poll_fn};
use std::pin::Pin;
use std::task::Poll;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;

/// Work that was not finished in time.
pub(super) type Running<T> = Pin<Box<dyn Future<Output = T>>>;

/// The answer, or the work itself still running when the time is over.
pub(super) async fn within<T: 'static>(
    limit_ms: i32,
    work: impl Future<Output = T> + 'static,
) -> Result<Result<T, Running<T>>, StoreError> {
    let (mut timer, mut work): (_, Running<T>) = (over_after(limit_ms)?, Box::pin(work));
    let answer = poll_fn(|cx| match work.as_mut().poll(cx) {
        Poll::Ready(answer) => Poll::Ready(Some(answer)),
        Poll::Pending => Pin::new(&mut timer).poll(cx).map(|_over| None),
    })
    .await;
    Ok(match answer {
        Some(answer) => Ok(answer),
        None => Err(work),
    })
}

/// The answer, or `NoAnswer` when the time is over; the work is dropped then.
pub(super) async fn in_time<T>(
    limit_ms: i32,
    work: impl Future<Output = Result<T, StoreError>>,
) -> Result<T, StoreError> {
    let (mut timer, mut work) = (over_after(limit_ms)?, std::pin::pin!(work));
    poll_fn(|cx| match work.as_mut().poll(cx) {
        Poll::Ready(answer) => Poll::Ready(answer),
        Poll::Pending => Pin::new(&mut timer).poll(cx).map(|_over| Err(StoreError::NoAnswer)),
    })
    .await
}

fn over_after(limit_ms: i32) -> Result<JsFuture, StoreError> {
    let mut refused = None;
    let timer = Promise::new(&mut |resolve, _reject| {
        if let Err(thrown) = set_timeout(&resolve, limit_ms) {
            refused = Some(thrown);
        }
    });
    match refused {
        Some(thrown) => Err(StoreError::from_js(&thrown)),
        None => Ok(JsFuture::from(timer)),
    }
}

#[wasm_bindgen]
extern "C" {
    #[wasm_bindgen(catch, js_name = setTimeout)]
    fn set_timeout(handler: &js_sys::Function, after_ms: i32) -> Result<JsValue, JsValue>;
}
